// Edits of a text, made and shown.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/finding.h"

namespace ohmlore {

/// `text` with all edits made, in whatever order they are given. Edits must lie in the text and not overlap.
std::string apply_edits(std::string_view text, std::span<const Edit> edits);

/// The edits that do at once what `first` and then `second` do: `second` counts the bytes of the text that
/// `first` leaves. In rising order.
std::vector<Edit> combined(std::vector<Edit> first, std::vector<Edit> second);

/// What the edits change, as a unified diff (POSIX.1-2017, diff -u) that `patch` applies: file names `name`,
/// three lines of context. Empty where nothing changes.
std::string unified_diff(std::string_view name, std::string_view text, std::span<const Edit> edits);

}
