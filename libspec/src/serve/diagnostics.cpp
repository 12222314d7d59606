// Findings as diagnostics, and their fixes as actions.

#include "ohmlore/house_schema.h"
#include "serve/features.h"

namespace ohmlore::serve {
namespace {

int severity_number(Severity severity) {
  switch (severity) {
  case Severity::error: return 1;
  case Severity::warning: return 2;
  default: return 3; // information
  }
}

void write_place(Json_writer& out, std::string_view name, Place place) {
  object(out, name, [&] {
    number(out, "line", place.line);
    number(out, "character", place.character);
  });
}

// The document that a related place stands in, or null.
const Document* document_of(const Analysis& analysis, const std::string& file) {
  if (file == analysis.read.document.name()) return &analysis.read.document;
  if (analysis.around.house_schema != nullptr && file == analysis.around.house_schema->document.name())
    return &analysis.around.house_schema->document;
  if (analysis.corpus != nullptr && file == analysis.corpus->name()) return analysis.corpus;
  if (analysis.around.parts != nullptr)
    for (const auto& [id, part] : *analysis.around.parts)
      if (part.name() == file) return &part;
  return nullptr;
}

void write_related(const Asked& asked, const Analysis& analysis, const Finding& finding) {
  list(asked.out, "relatedInformation", finding.related, [&](const Related& related) {
    object(asked.out, "location", [&] {
      const Document* document = document_of(analysis, related.file);
      member(asked.out, "uri",
             document == &analysis.read.document ? asked.document.uri
                                                 : asked.workspace.uri_of_file(related.file));
      key(asked.out, "range");
      if (document == &analysis.read.document)
        write_range(asked.out, analysis.lines, related.region.begin, related.region.end,
                    asked.client.encoding);
      else
        write_range(asked.out, Lines_of_text(document != nullptr ? document->text() : std::string_view()),
                    related.region.begin, related.region.end, asked.client.encoding);
    });
    member(asked.out, "message", printable(related.message));
  });
}

void write_diagnostic(const Asked& asked, const Analysis& analysis, const Finding& finding) {
  Json_writer& out = asked.out;
  out.StartObject();
  key(out, "range");
  write_range(out, analysis.lines, finding.region.begin, finding.region.end, asked.client.encoding);
  number(out, "severity", static_cast<std::uint64_t>(severity_number(finding.severity)));
  member(out, "code", finding.rule);
  member(out, "source", "ohmlore");
  std::string message = printable(finding.message);
  if (!asked.client.related)
    for (const Related& related : finding.related)
      message += fmt::format("\n{}:{}:{}: {}", printable(related.file), related.region.first.line,
                             related.region.first.column, printable(related.message));
  member(out, "message", message);
  if (asked.client.related && !finding.related.empty()) write_related(asked, analysis, finding);
  out.EndObject();
}

void write_edits(const Asked& asked, const Analysis& analysis, const Fix& fix) {
  list(asked.out, "edits", fix.edits, [&](const Edit& edit) {
    key(asked.out, "range");
    write_range(asked.out, analysis.lines, edit.begin, edit.end, asked.client.encoding);
    member(asked.out, "newText", edit.text);
  });
}

// With the version of the text that it is for, where the editor can hold to it.
void write_workspace_edit(const Asked& asked, const Analysis& analysis, const Fix& fix) {
  Json_writer& out = asked.out;
  if (!asked.client.versioned_edits) {
    object(out, "changes", [&] {
      list(out, asked.document.uri, fix.edits, [&](const Edit& edit) {
        key(out, "range");
        write_range(out, analysis.lines, edit.begin, edit.end, asked.client.encoding);
        member(out, "newText", edit.text);
      });
    });
    return;
  }
  list(out, "documentChanges", std::initializer_list<int>{0}, [&](int) {
    object(out, "textDocument", [&] {
      member(out, "uri", asked.document.uri);
      key(out, "version");
      if (asked.document.version)
        out.Int64(*asked.document.version);
      else
        out.Null();
    });
    write_edits(asked, analysis, fix);
  });
}

void write_fixes(const Asked& asked, const Analysis& analysis, const Finding& finding) {
  Json_writer& out = asked.out;
  for (const Fix& fix : finding.fixes) {
    if (fix.safety == Fix_safety::display_only || fix.edits.empty()) continue;
    out.StartObject();
    member(out, "title", printable(fix.description));
    member(out, "kind", "quickfix");
    key(out, "diagnostics");
    out.StartArray();
    write_diagnostic(asked, analysis, finding);
    out.EndArray();
    truth(out, "isPreferred", fix.safety == Fix_safety::safe);
    object(out, "edit", [&] { write_workspace_edit(asked, analysis, fix); });
    out.EndObject();
  }
}

}

void write_range(Json_writer& out, const Lines_of_text& lines, std::size_t begin, std::size_t end,
                 Encoding encoding) {
  out.StartObject();
  write_place(out, "start", lines.place_of(begin, encoding));
  write_place(out, "end", lines.place_of(end, encoding));
  out.EndObject();
}

void write_diagnostics(const Asked& asked) {
  const Analysis& analysis = asked.workspace.analysis(asked.document);
  Json_writer& out = asked.out;
  out.StartObject();
  member(out, "uri", asked.document.uri);
  if (asked.document.version) {
    key(out, "version");
    out.Int64(*asked.document.version);
  }
  key(out, "diagnostics");
  out.StartArray();
  for (const auto* findings : {&analysis.findings, &analysis.told_elsewhere})
    for (const Finding& finding : *findings) write_diagnostic(asked, analysis, finding);
  out.EndArray();
  out.EndObject();
}

void write_actions(const Asked& asked, std::size_t begin, std::size_t end) {
  Json_writer& out = asked.out;
  if (!asked.client.literal_actions) return void(out.Null());
  const Analysis& analysis = asked.workspace.analysis(asked.document);
  out.StartArray();
  for (const auto* findings : {&analysis.findings, &analysis.told_elsewhere})
    for (const Finding& finding : *findings)
      if (finding.region.begin <= end && finding.region.end >= begin) write_fixes(asked, analysis, finding);
  out.EndArray();
}

}
