// What everybody must know before acting on what this library says. Data, not a setting: no output that
// somebody could act on leaves any of it out.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace ohmlore {

struct Profile;

/// One caution: a name for programs, and the sentence to show.
struct Caution {
  std::string_view id;
  std::string_view text;
};

/// All cautions, in the order in which the work is done. Show every one of them, before anything else.
std::span<const Caution> cautions();

/// The texts of all of them, with the supplies to isolate and the stored charge that a profile names, and a
/// text for each other hazard that it names, with its part, its wait and its note.
std::vector<std::string> cautions_for(const Profile& profile);

/// The caution that lint finds so many errors in a document, those that are waived too (`no_waivers` of
/// Lint_options): it comes before all others on whatever is made of it. Empty where there are none. What goes
/// by a file has it already.
std::string caution_of_errors(std::size_t errors);

/// All cautions as lines of text, one caution a line.
std::string cautions_text();

/// The least that must stand where there is no room, as in a table's cell; it points to the others.
std::string_view shortest_caution();

}
