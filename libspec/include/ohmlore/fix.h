// The fixes that are safe to make unseen.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/edit.h"
#include "ohmlore/lint.h"

namespace ohmlore {

/// The first safe fix of a finding, or null.
const Fix* safe_fix(const Finding& finding);

/// The first error that the fixes of `mended` made, or null: one that was not there before, and that was not
/// merely hidden by an error of the reader that is mended now. What was hidden is, for the reader, the value
/// there, and the whole record where its kind was mended; for the rules, all that they make of it anywhere.
const Finding* error_made(std::span<const Finding> before, std::span<const Finding> mended,
                          std::span<const Finding> after);

/// What comes of the safe fixes of one document.
struct Fixed {
  std::vector<Edit> edits; ///< of the text as it was, in rising order; none where nothing was to be fixed
  std::string text;        ///< with the edits made
  std::size_t fixes = 0;   ///< how many findings they mend
  std::string refusal;     ///< where a fix would do harm: why there are no edits
};

/// Makes every safe fix of the findings that would be reported (none of what is waived, or switched off by
/// the policy), and again of what then comes to light, until none is left. Of fixes that overlap the first in
/// the text is made. The outcome is read and linted again: a fix may uncover an error, never make one.
Fixed fix_text(std::string name, std::string_view bytes, const Surroundings& surroundings = {},
               const Lint_options& options = {});

}
