#include <algorithm>

#include <fmt/format.h>

#include "ohmlore/report.h"

namespace ohmlore {
namespace {

constexpr std::string_view bold = "\x1b[1m";
constexpr std::string_view plain = "\x1b[0m";

std::string_view colour_of(Severity severity) {
  switch (severity) {
  case Severity::error: return "\x1b[1;31m";
  case Severity::warning: return "\x1b[1;33m";
  default: return "\x1b[1;36m";
  }
}

// Source line and caret line, both from the same characters, so that the caret stands where it should. Long
// lines are cut around the region.
void append_source(std::string& out, const Finding& finding) {
  constexpr std::size_t widest = 120;
  std::vector<std::string> cells; // one for each code point, printable
  for (std::size_t i = 0; i < finding.source_line.size();) {
    const std::size_t start = i;
    next_code_point(finding.source_line, i);
    const std::string_view bytes = std::string_view(finding.source_line).substr(start, i - start);
    cells.push_back(bytes == "\t" ? " " : printable(bytes));
  }
  const std::size_t first = std::min<std::size_t>(finding.region.first.column - 1, cells.size());
  const bool one_line = finding.region.last.line == finding.region.first.line;
  std::size_t last =
      one_line ? std::min<std::size_t>(finding.region.last.column - 1, cells.size()) : cells.size();
  last = std::max(last, first + 1);
  const std::size_t from = first > widest / 2 ? first - widest / 2 : 0;
  const std::size_t to = std::min(cells.size(), from + widest);
  last = std::min(last, std::max(to, first + 1));

  std::string line = from > 0 ? "…" : "", carets = from > 0 ? " " : "";
  for (std::size_t i = from; i < std::max(to, first + 1); ++i) {
    const std::string cell = i < cells.size() ? cells[i] : " ";
    line += cell;
    if (i < last) carets.append(code_points(cell), i < first ? ' ' : i == first ? '^' : '~');
  }
  if (to < cells.size()) line += "…";
  while (line.ends_with(' ')) line.pop_back();
  fmt::format_to(std::back_inserter(out), "  {:>5} | {}\n        | {}\n", finding.region.first.line, line,
                 carets);
}

}

std::string text_report(const Finding& finding, bool colour) {
  const auto on = [&](std::string_view code) { return colour ? code : std::string_view(); };
  std::string out = fmt::format("{}{}:{}:{}:{} {}{}:{} {} [{}]\n", on(bold), printable(finding.file),
                                finding.region.first.line, finding.region.first.column, on(plain),
                                on(colour_of(finding.severity)), word_of(finding.severity), on(plain),
                                finding.message, finding.rule);
  append_source(out, finding);
  for (const Related& related : finding.related)
    fmt::format_to(std::back_inserter(out), "        = {}:{}:{}: {}\n", printable(related.file),
                   related.region.first.line, related.region.first.column, related.message);
  for (const Fix& fix : finding.fixes)
    fmt::format_to(std::back_inserter(out), "        = mend: {}\n", fix.description);
  return out;
}

std::string summary_line(const Lint_run& run) {
  const auto count = [&](Severity severity) {
    return std::count_if(run.findings.begin(), run.findings.end(),
                         [&](const Finding& f) { return f.severity == severity; });
  };
  const auto some = [](auto n, std::string_view one) {
    return fmt::format("{} {}{}", n, one, n == 1 ? "" : "s");
  };
  if (run.findings.empty()) return fmt::format("{} read, nothing found\n", some(run.files_read, "file"));
  return fmt::format("{} read: {}, {}, {}\n", some(run.files_read, "file"),
                     some(count(Severity::error), "error"), some(count(Severity::warning), "warning"),
                     some(count(Severity::note), "note"));
}

}
