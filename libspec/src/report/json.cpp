#include <algorithm>

#include "report/counts.h"
#include "report/json_writer.h"

namespace ohmlore {
namespace {

void region(Json_writer& out, const Region& region) {
  const auto position = [&](std::string_view name, const Position& at) {
    object(out, name, [&] {
      number(out, "line", at.line);
      number(out, "column", at.column);
    });
  };
  object(out, "region", [&] {
    number(out, "begin", region.begin);
    number(out, "end", region.end);
    position("first", region.first);
    position("last", region.last);
  });
}

std::string_view name_of(Fix_safety safety) {
  switch (safety) {
  case Fix_safety::display_only: return "display_only";
  case Fix_safety::unsafe: return "unsafe";
  case Fix_safety::safe: return "safe";
  }
  return "";
}

void fix(Json_writer& out, const Fix& fix) {
  member(out, "description", fix.description);
  member(out, "safety", name_of(fix.safety));
  list(out, "edits", fix.edits, [&](const Edit& edit) {
    number(out, "begin", edit.begin);
    number(out, "end", edit.end);
    member(out, "text", edit.text);
  });
}

void finding(Json_writer& out, const Finding& finding) {
  member(out, "rule", finding.rule);
  member(out, "family", ohmlore::name_of(rule_of(finding.rule).family));
  word(out, "severity", finding.severity);
  truth(out, "fails", finding.fails);
  member(out, "file", finding.file);
  region(out, finding.region);
  const Finding_key known_by = key_of(finding);
  member(out, "document", known_by.document);
  member(out, "pointer", finding.pointer);
  member(out, "value", known_by.value);
  member(out, "message", finding.message);
  list(out, "related", finding.related, [&](const Related& related) {
    member(out, "file", related.file);
    region(out, related.region);
    member(out, "message", related.message);
  });
  list(out, "fixes", finding.fixes, [&](const Fix& one) { fix(out, one); });
  if (finding.suppressed)
    object(out, "suppression", [&] {
      member(out, "by", finding.suppressed->by == Suppressed_by::waiver ? "waiver" : "baseline");
      member(out, "why", finding.suppressed->why);
    });
}

}

std::string json_report(const Lint_run& run) {
  return written_report("ohmlore-report/1.0", [&](Json_writer& out) {
    number(out, "files_read", run.files_read);
    number(out, "files_unchanged", run.files_unchanged);
    object(out, "totals", [&] {
      for (const Severity severity : {Severity::error, Severity::warning, Severity::note})
        number(out, word_of(severity), count_of(run, severity));
    });
    for (const auto& [name, findings] :
         {std::pair{"findings", &run.findings}, {"suppressed", &run.suppressed}})
      list(out, name, *findings, [&](const Finding& one) { finding(out, one); });
    texts(out, "troubles", run.troubles);
  });
}

}
