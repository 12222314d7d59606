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

/// The line in which a region begins, cut where it is long: a file without line breaks would be copied for
/// each finding. `column`: the one at which it begins.
struct Shown_line {
  std::string_view text;
  std::uint32_t column = 1;
};
Shown_line shown_line(std::string_view text, const Region& region);

/// The steps of that, for who places more than findings in the same pass.
struct Place {
  std::uint32_t offset;
  Position* position;
};
void add_places(Region& region, std::vector<Place>& places);
void add_places(std::span<Finding> findings, std::vector<Place>& places);
void place(std::string_view text, std::vector<Place> places);
void show_lines(std::string_view text, std::span<Finding> findings);

}
