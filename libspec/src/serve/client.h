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

/// Without a slash at its end, which an editor may write at one time and not at another.
inline std::optional<std::string> folder_at(const Json* from, std::string_view name) {
  const auto uri = text_at(from, {name});
  auto folder = uri ? path_of(*uri) : std::nullopt;
  if (folder && folder->size() > 1 && folder->ends_with('/')) folder->pop_back();
  return folder;
}

/// Of an array of WorkspaceFolder.
inline std::vector<std::string> folders_at(const Json* several) {
  std::vector<std::string> folders;
  if (several != nullptr && several->IsArray())
    for (const Json& one : several->GetArray())
      if (auto folder = folder_at(&one, "uri")) folders.push_back(std::move(*folder));
  return folders;
}

inline std::vector<std::string> folders_of(const Json* parameters) {
  const Json* several = at(parameters, {"workspaceFolders"});
  if (several != nullptr && several->IsArray()) return folders_at(several);
  auto root = folder_at(parameters, "rootUri");
  return root ? std::vector{std::move(*root)} : std::vector<std::string>();
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
