// Findings shown: as text for people, as JSON for programs.
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

}
