// Findings shown: as text for people, and as reports for programs and services (spec/v1/reports.md).
#pragma once

#include <span>
#include <string>

#include "ohmlore/corpus.h"

namespace ohmlore {

/// One finding as text: "file:line:column: error: message [rule]", the source line, a caret line, related
/// places, fixes. Control characters of the document are neutralised. Ends in a newline.
std::string text_report(const Finding& finding, bool colour = false);

/// The last line of a run: how many files were read and what was found.
std::string summary_line(const Lint_run& run);

/// The whole run as one JSON object (spec/v1/report.schema.json). Ends in a newline.
std::string json_report(const Lint_run& run);

/// What a report may say of its run beyond the findings.
struct Report_context {
  std::string folder;  ///< absolute path of the folder that relative file names begin at
  std::string started; ///< YYYY-MM-DDThh:mm:ss, UTC
};

/// SARIF 2.1.0 (OASIS). Suppressed findings are in it, marked; more than `most_sarif_results` are split into
/// several runs, each of which says so.
std::string sarif_report(const Lint_run& run, const Report_context& context);
inline constexpr std::size_t most_sarif_results = 25'000;
/// Into how many runs it is split.
std::size_t sarif_runs(const Lint_run& run);

/// JUnit XML: a suite for each file, in it a case for each rule that found something; without one, a case
/// that passes. Only what fails is a failure; suppressed findings are skipped cases, troubles errors.
std::string junit_report(const Lint_run& run, const Report_context& context);

/// Workflow commands of GitHub Actions, which annotate the lines of a change; one a line.
std::string github_report(const Lint_run& run, const Report_context& context);

/// A summary for people in Markdown: what was found, where, what to do. Long lists are cut, and it says so.
std::string markdown_report(const Lint_run& run, const Report_context& context);

/// A file name as a URI reference (RFC 3986): relative to `folder` where it lies in it, else file:///…
std::string uri_of(std::string_view file, std::string_view folder);

}
