// Workflow commands, as docs.github.com ("Workflow commands for GitHub Actions") and the file command.ts of
// the repository actions/toolkit write them.
#include <algorithm>

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

// A name by which a service finds the file: the ends of lines in it as they are, the rest made safe.
std::string file_of(std::string_view name) {
  std::string out;
  for (std::size_t at = 0; at < name.size(); ++at) {
    const std::size_t end = std::min(name.find_first_of("\r\n", at), name.size());
    out += printable(name.substr(at, end - at));
    if (end < name.size()) out += name[end];
    at = end;
  }
  return escaped(out, true);
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
                     file_of(finding.file), first.line, last.line, columns, escaped(finding.rule, true),
                     escaped(printable(finding.message), false));
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
