#include <algorithm>

#include "report/counts.h"
#include "report/json_writer.h"

namespace ohmlore {
namespace {

void region(Json_writer& out, const Region& region) {
  key(out, "region");
  out.StartObject();
  number(out, "begin", region.begin);
  number(out, "end", region.end);
  for (const auto& [name, position] : {std::pair{"first", region.first}, {"last", region.last}}) {
    key(out, name);
    out.StartObject();
    number(out, "line", position.line);
    number(out, "column", position.column);
    out.EndObject();
  }
  out.EndObject();
}

std::string_view name_of(Fix_safety safety) {
  switch (safety) {
  case Fix_safety::display_only: return "display_only";
  case Fix_safety::unsafe: return "unsafe";
  case Fix_safety::safe: return "safe";
  }
  return "";
}

void finding(Json_writer& out, const Finding& finding) {
  out.StartObject();
  member(out, "rule", finding.rule);
  member(out, "family", ohmlore::name_of(rule_of(finding.rule).family));
  member(out, "severity", word_of(finding.severity));
  key(out, "fails");
  out.Bool(finding.fails);
  member(out, "file", finding.file);
  region(out, finding.region);
  const Finding_key known_by = key_of(finding);
  member(out, "document", known_by.document);
  member(out, "pointer", finding.pointer);
  member(out, "value", known_by.value);
  member(out, "message", finding.message);
  key(out, "related");
  out.StartArray();
  for (const Related& related : finding.related) {
    out.StartObject();
    member(out, "file", related.file);
    region(out, related.region);
    member(out, "message", related.message);
    out.EndObject();
  }
  out.EndArray();
  key(out, "fixes");
  out.StartArray();
  for (const Fix& fix : finding.fixes) {
    out.StartObject();
    member(out, "description", fix.description);
    member(out, "safety", name_of(fix.safety));
    key(out, "edits");
    out.StartArray();
    for (const Edit& edit : fix.edits) {
      out.StartObject();
      number(out, "begin", edit.begin);
      number(out, "end", edit.end);
      member(out, "text", edit.text);
      out.EndObject();
    }
    out.EndArray();
    out.EndObject();
  }
  out.EndArray();
  if (finding.suppressed) {
    key(out, "suppression");
    out.StartObject();
    member(out, "by", finding.suppressed->by == Suppressed_by::waiver ? "waiver" : "baseline");
    member(out, "why", finding.suppressed->why);
    out.EndObject();
  }
  out.EndObject();
}

}

std::string json_report(const Lint_run& run) {
  return written_report("ohmlore-report/1.0", [&](Json_writer& out) {
    number(out, "files_read", run.files_read);
    number(out, "files_unchanged", run.files_unchanged);
    key(out, "totals");
    out.StartObject();
    for (const Severity severity : {Severity::error, Severity::warning, Severity::note})
      number(out, word_of(severity), count_of(run, severity));
    out.EndObject();
    for (const auto& [name, findings] :
         {std::pair{"findings", &run.findings}, {"suppressed", &run.suppressed}}) {
      key(out, name);
      out.StartArray();
      for (const Finding& one : *findings) finding(out, one);
      out.EndArray();
    }
    key(out, "troubles");
    out.StartArray();
    for (const std::string& trouble : run.troubles) string(out, trouble);
    out.EndArray();
  });
}

}
