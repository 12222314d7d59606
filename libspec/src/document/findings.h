// Findings of the reader: made while it reads, placed in lines and columns when it is done.
#pragma once

#include <span>

#include "ohmlore/document.h"

namespace ohmlore {

/// A finding that has no positions and no source line yet.
Finding unplaced_finding(const Document& document, std::string_view rule, Severity severity, Node_id node,
                         std::uint32_t begin, std::uint32_t end, std::string message);

/// Positions and source lines of findings, related places in the same file included, in one pass over the
/// text: a file may have as many findings as it has values.
void place(std::string_view text, std::span<Finding> findings);

/// The line of a place whose position is known, cut where it is long: a file without line breaks would be
/// copied for each finding. And the column at which it begins.
void take_source_line(std::string_view text, const Region& region, std::string& line, std::uint32_t& column);

/// The positions of regions, by their offsets, in one pass over the text.
void place(std::string_view text, std::span<Region* const> regions);

}
