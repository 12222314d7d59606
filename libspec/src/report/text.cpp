#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "report/counts.h"
#include "text/counted.h"

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

struct Cell {
  std::string text;
  std::size_t columns = 1;
};

// Columns that a terminal gives to a character: two for the wide ones of C++20 [format.string.std]/12, none
// for the combining marks of the common blocks (Unicode names of the blocks), which stand on the one before.
std::size_t columns_of(char32_t c) {
  static constexpr char32_t wide[][2] = {
      {0x1100, 0x115F},   {0x2329, 0x232A},   {0x2E80, 0x303E},   {0x3040, 0xA4CF},  {0xAC00, 0xD7A3},
      {0xF900, 0xFAFF},   {0xFE10, 0xFE19},   {0xFE30, 0xFE6F},   {0xFF00, 0xFF60},  {0xFFE0, 0xFFE6},
      {0x1F300, 0x1F64F}, {0x1F900, 0x1F9FF}, {0x20000, 0x2FFFD}, {0x30000, 0x3FFFD}};
  static constexpr char32_t combining[][2] = {
      {0x0300, 0x036F}, {0x1AB0, 0x1ACE}, {0x1DC0, 0x1DFF}, {0x20D0, 0x20F0}, {0xFE20, 0xFE2F}};
  const auto in = [c](const char32_t(&range)[2]) { return c >= range[0] && c <= range[1]; };
  if (std::any_of(std::begin(combining), std::end(combining), in)) return 0;
  return std::any_of(std::begin(wide), std::end(wide), in) ? 2 : 1;
}

// A character as it is shown: nothing that steers a terminal, a tab as one space. Where it is what the
// finding speaks of, it is seen even if it is a combining mark.
Cell cell_of(std::string_view character, bool spoken_of) {
  if (character == "\t") return {" ", 1};
  std::string shown = printable(character);
  if (shown == character) {
    std::size_t next = 0;
    const char32_t c = next_code_point(character, next);
    const std::size_t columns = columns_of(c);
    if (columns > 0 || !spoken_of) return {shown, columns};
    shown = fmt::format("\\u{{{:04X}}}", static_cast<std::uint32_t>(c));
  }
  return {shown, shown.size()};
}

// Source line and caret line, both from the same cells, so that the caret stands where it should. Long lines
// are cut around the region.
void append_source(std::string& out, const Finding& finding, std::string_view colour) {
  constexpr std::size_t widest = 120, most_before = widest / 2;
  const std::string_view source = finding.source_line;
  const Position& begin = finding.region.first;
  const Position& end = finding.region.last;
  const std::size_t start = finding.source_column;

  std::vector<Cell> cells;
  std::size_t columns = 0, first = begin.column - std::min<std::size_t>(start, begin.column);
  cells.reserve(source.size() + 1);
  for (std::size_t i = 0; i < source.size();) {
    const std::size_t plain_end = i + plain_prefix(source.substr(i));
    for (; i < plain_end; ++i, ++columns) cells.push_back({std::string(1, source[i]), 1});
    if (i == source.size()) break;
    const std::size_t at = i;
    next_code_point(source, i);
    cells.push_back(cell_of(source.substr(at, i - at), cells.size() == first));
    columns += cells.back().columns;
  }
  if (first >= cells.size()) {
    first = cells.size();
    cells.push_back({" ", 1}); // the end of the line
    ++columns;
  }
  std::size_t last =
      end.line > begin.line ? cells.size() : end.column - std::min<std::size_t>(start, end.column);
  last = std::clamp(last, first + 1, cells.size());

  // What is shown: [from, to), grown to the left, to the right, and again to the left where the right is
  // short.
  std::size_t from = first, to = first, shown = 0;
  const auto grow_left = [&](std::size_t most) {
    while (from > 0 && shown + cells[from - 1].columns <= most) shown += cells[--from].columns;
  };
  if (columns > widest)
    grow_left(most_before);
  else
    from = 0;
  for (shown = 0, to = from; to < cells.size() && (to <= first || shown + cells[to].columns <= widest); ++to)
    shown += cells[to].columns;
  grow_left(widest);
  last = std::min(last, to);

  const bool cut = from > 0 || start > 1;
  std::string line = cut ? "…" : "", carets = cut ? " " : "";
  for (std::size_t i = from; i < to; ++i) {
    line += cells[i].text;
    if (i < first) carets.append(cells[i].columns, ' ');
    if (i == first) carets += '^';
    if (i >= first && i < last) carets.append(cells[i].columns - (i == first ? 1 : 0), '~');
  }
  if (to < cells.size()) line += "…";
  while (line.ends_with(' ')) line.pop_back();
  fmt::format_to(std::back_inserter(out), "  {:>5} |{}{}\n        | {}{}{}\n", begin.line,
                 line.empty() ? "" : " ", line, colour, carets, colour.empty() ? "" : plain);
}

}

std::string text_report(const Finding& finding, bool colour) {
  const auto on = [&](std::string_view code) { return colour ? code : std::string_view(); };
  // Messages may hold words of the document.
  std::string out = fmt::format("{}{}:{}:{}:{} {}{}:{} {} [{}]\n", on(bold), printable(finding.file),
                                finding.region.first.line, finding.region.first.column, on(plain),
                                on(colour_of(finding.severity)), word_of(finding.severity), on(plain),
                                printable(finding.message), finding.rule);
  append_source(out, finding, on(colour_of(finding.severity)));
  for (const Related& related : finding.related)
    fmt::format_to(std::back_inserter(out), "        = {}:{}:{}: {}\n", printable(related.file),
                   related.region.first.line, related.region.first.column, printable(related.message));
  for (const Fix& fix : finding.fixes)
    fmt::format_to(std::back_inserter(out), "        = mend: {}{}\n", printable(fix.description),
                   fix.safety == Fix_safety::safe ? " [--fix]" : "");
  return out;
}

std::string summary_line(const Lint_run& run) {
  const std::size_t in_baseline = count_in_baseline(run), fixable = count_fixable(run);
  const std::string read = run.files_unchanged > 0
                               ? fmt::format("{} of {} looked at", run.files_read,
                                             counted(run.files_read + run.files_unchanged, "file"))
                               : fmt::format("{} read", counted(run.files_read, "file"));
  const std::string known = in_baseline > 0 ? fmt::format("; {} in the baseline", in_baseline) : "";
  if (run.findings.empty())
    return fmt::format("{}, nothing {}found{}\n", read, in_baseline > 0 ? "new " : "", known);
  return fmt::format("{}: {}, {}, {}{}{}\n", read, counted(count_of(run, Severity::error), "error"),
                     counted(count_of(run, Severity::warning), "warning"),
                     counted(count_of(run, Severity::note), "note"), known,
                     fixable > 0 ? fmt::format("; {} mended by `ohmlore lint --fix`", fixable) : "");
}

}
