// Workflow commands, as docs.github.com ("Workflow commands for GitHub Actions") and the file command.ts of
// the repository actions/toolkit write them.
#include <fmt/format.h>

#include "ohmlore/report.h"

namespace ohmlore {
namespace {

std::string escaped(std::string_view text, bool property) {
  std::string out;
  for (const char c : text) switch (c) {
    case '%': out += "%25"; break;
    case '\r': out += "%0D"; break;
    case '\n': out += "%0A"; break;
    case ':': out += property ? "%3A" : ":"; break;
    case ',': out += property ? "%2C" : ","; break;
    default: out += c;
    }
  return out;
}

std::string_view command_of(Severity severity) {
  return severity == Severity::error ? "error" : severity == Severity::warning ? "warning" : "notice";
}

std::string annotation(const Finding& finding) {
  const Position& first = finding.region.first;
  const Position& last = finding.region.last;
  // Columns are shown only within one line.
  const std::string columns =
      first.line == last.line ? fmt::format(",col={},endColumn={}", first.column, last.column) : "";
  return fmt::format("::{} file={},line={},endLine={}{},title={}::{}\n", command_of(finding.severity),
                     escaped(printable(finding.file), true), first.line, last.line, columns,
                     escaped(finding.rule, true), escaped(printable(finding.message), false));
}

}

std::string github_report(const Lint_run& run, const Report_context&) {
  std::string out;
  for (const std::string& trouble : run.troubles)
    out += fmt::format("::error title=ohmlore::{}\n", escaped(printable(trouble), false));
  for (const Finding& finding : run.findings) out += annotation(finding);
  return out;
}

}
