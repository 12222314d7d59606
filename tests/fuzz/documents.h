// What holds for every document that was read, whatever form it was read from.
#pragma once

#include <algorithm>

#include "fuzz.h"
#include "ohmlore/canonical_json.h"
#include "ohmlore/document.h"
#include "ohmlore/report.h"

namespace ohmlore::fuzz {

inline bool has_error(const std::vector<Finding>& findings) {
  return std::any_of(findings.begin(), findings.end(),
                     [](const Finding& finding) { return finding.severity == Severity::error; });
}

inline std::string shown(const std::vector<Finding>& findings) {
  std::string out;
  for (const Finding& finding : findings) out += text_report(finding);
  return out;
}

/// Places lie in the text, and every finding can be shown.
inline void expect_placed(const std::vector<Finding>& findings, std::string_view text) {
  for (const Finding& finding : findings) {
    expect(finding.region.begin <= finding.region.end && finding.region.end <= text.size(),
           "a finding lies in its text", finding.message);
    expect(!finding.message.empty() && !text_report(finding).empty(), "a finding says something");
    for (const Fix& fix : finding.fixes)
      for (const Edit& edit : fix.edits)
        expect(edit.begin <= edit.end && edit.end <= text.size(), "a fix lies in its text", fix.description);
  }
}

/// Reads what was made of a document, and expects the same document.
inline void expect_same(const Read_result& read, const Read_result& back, const char* what) {
  expect(!has_error(back.findings), what, shown(back.findings));
  expect(canonical_json(back.document) == canonical_json(read.document), what, read.document.text());
}

}
