#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "report/counts.h"
#include "report/markdown_text.h"
#include "text/counted.h"

namespace ohmlore {
namespace {

constexpr std::size_t most_rows_of_file = 20, most_rows = 500, most_troubles = 100;

// The findings that there is room for: what fails before all else.
std::vector<bool> chosen(const std::vector<Finding>& findings) {
  std::vector<bool> shown(findings.size());
  std::map<std::string_view, std::size_t> of_file;
  std::size_t rows = 0;
  for (const bool failing : {true, false})
    for (std::size_t i = 0; i < findings.size() && rows < most_rows; ++i) {
      if (findings[i].fails != failing || of_file[findings[i].file] == most_rows_of_file) continue;
      ++of_file[findings[i].file];
      ++rows;
      shown[i] = true;
    }
  return shown;
}

}

std::string markdown_report(const Lint_run& run, const Report_context&) {
  const std::size_t known = count_in_baseline(run);
  std::string out =
      fmt::format("## Ohmlore: {}\n\n", !run.troubles.empty() ? "the work could not be done"
                                        : run.failing > 0     ? counted(run.failing, "finding") + " to mend"
                                                              : std::string("nothing fails"));
  out += fmt::format("{}.{}\n", summary_line(run).substr(0, summary_line(run).size() - 1),
                     run.suppressed.size() > known
                         ? fmt::format(" Waivers silence {}.", run.suppressed.size() - known)
                         : "");
  if (!run.troubles.empty()) {
    out += "\n### What could not be done\n\n";
    const std::size_t listed = std::min(run.troubles.size(), most_troubles);
    for (std::size_t i = 0; i < listed; ++i) out += fmt::format("- {}\n", markdown_text(run.troubles[i]));
    if (listed < run.troubles.size())
      out += fmt::format("\n**{} more are not shown here; `ohmlore lint` prints all.**\n",
                         run.troubles.size() - listed);
  }

  const std::vector<bool> shown = chosen(run.findings);
  std::size_t left_out = 0;
  for (std::size_t first = 0, last; first < run.findings.size(); first = last) {
    const std::string& file = run.findings[first].file;
    std::string table;
    std::size_t hidden = 0;
    for (last = first; last < run.findings.size() && run.findings[last].file == file; ++last) {
      const Finding& finding = run.findings[last];
      if (shown[last])
        table +=
            fmt::format("| {} | {}{} | {} | {} |\n", finding.region.first.line, word_of(finding.severity),
                        finding.fails ? ", fails" : "", finding.rule, markdown_text(finding.message));
      else
        ++hidden;
    }
    left_out += hidden;
    if (table.empty()) continue;
    out += fmt::format("\n### {}\n\n| line | | rule | finding |\n| ---: | --- | --- | --- |\n{}",
                       markdown_text(file), table);
    if (hidden > 0) out += fmt::format("\n**{} more in this file are not shown.**\n", hidden);
  }
  if (left_out > 0)
    out += fmt::format("\n**{} of {} findings are not shown here; `ohmlore lint` prints all.**\n", left_out,
                       run.findings.size());
  if (run.findings.empty()) return out;

  out += "\n### What to do\n\n";
  if (const std::size_t fixable = count_fixable(run); fixable > 0)
    out += fmt::format("- `ohmlore lint --fix` mends {}.\n", fixable);
  out += "- `ohmlore explain RULE` says what a rule checks, why it matters on the bench, and how it is done "
         "right.\n"
         "- What is right as it stands gets a waiver in its document, with the reason.\n";
  return out;
}

}
