// What the editor can do, as it says when it begins.
#pragma once

#include "serve/json.h"
#include "serve/workspace.h"

namespace ohmlore::serve {

struct Client {
  Encoding encoding = Encoding::utf16;
  bool markdown = false; ///< in what is shown over a place
  bool snippets = false; ///< texts with places to fill in
  bool related = false;  ///< other places that explain a finding
  bool literal_actions = false;
  bool versioned_edits = false;
  bool watches_files = false; ///< of its folders, and tells of those that changed
  std::vector<std::string> folders;
};

inline std::vector<std::string> folders_of(const Json* parameters) {
  std::vector<std::string> folders;
  const auto add = [&](std::optional<std::string_view> uri) {
    if (auto path = uri ? path_of(*uri) : std::nullopt) folders.push_back(std::move(*path));
  };
  const Json* several = at(parameters, {"workspaceFolders"});
  if (several == nullptr || !several->IsArray())
    add(text_at(parameters, {"rootUri"}));
  else
    for (const Json& one : several->GetArray()) add(text_at(&one, {"uri"}));
  return folders;
}

inline Client client_of(const Json* parameters) {
  const Json* can = at(parameters, {"capabilities"});
  const Json* documents = at(can, {"textDocument"});
  Client client;
  if (holds(can, {"general", "positionEncodings"}, "utf-8")) client.encoding = Encoding::utf8;
  // "The order describes the preferred format of the client."
  const Json* formats = at(documents, {"hover", "contentFormat"});
  client.markdown = formats != nullptr && formats->IsArray() && !formats->Empty() &&
                    text_at(formats->Begin(), {}) == "markdown";
  client.snippets = truth_at(documents, {"completion", "completionItem", "snippetSupport"});
  client.related = truth_at(documents, {"publishDiagnostics", "relatedInformation"});
  client.literal_actions = at(documents, {"codeAction", "codeActionLiteralSupport"}) != nullptr;
  client.versioned_edits = truth_at(can, {"workspace", "workspaceEdit", "documentChanges"});
  client.watches_files = truth_at(can, {"workspace", "didChangeWatchedFiles", "dynamicRegistration"});
  client.folders = folders_of(parameters);
  return client;
}

}
