// What the editor may ask of an open document. Each function writes one JSON value: the result of a request,
// or `null` where there is none; `offset` is the byte that the cursor stands before.
#pragma once

#include "serve/client.h"
#include "serve/workspace.h"

namespace ohmlore::serve {

/// A request as the features see it.
struct Asked {
  Json_writer& out;
  const Client& client;
  Workspace& workspace;
  Open_document& document;
};

void write_range(Json_writer& out, const Lines_of_text& lines, std::size_t begin, std::size_t end,
                 Encoding encoding);

/// Parameters of textDocument/publishDiagnostics.
void write_diagnostics(const Asked& asked);
/// textDocument/codeAction: fixes of what is found within [begin, end].
void write_actions(const Asked& asked, std::size_t begin, std::size_t end);
/// textDocument/hover: what a healthy part reads, with every caution; the page of a finding's rule; what a
/// key or a word means.
void write_hover(const Asked& asked, std::size_t offset);
/// textDocument/completion: keys, words, and what a reference may name.
void write_completion(const Asked& asked, std::size_t offset);
/// textDocument/definition: where that stands which a reference names.
void write_definition(const Asked& asked, std::size_t offset);

}
