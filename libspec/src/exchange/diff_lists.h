// Two versions of a list beside each other.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "ohmlore/document.h"

namespace ohmlore {

/// "a", "a and b", "a, b and c"
std::string listed(const std::vector<std::string>& words);

/// What is in one list and not in the other, each as often as it is too many.
std::vector<std::string> missing_in(const std::vector<std::string>& list, const std::vector<std::string>& of);

/// An item of a list of records: by what it is known again, how it is called, and all that it says.
struct List_item {
  std::string identity, name, meaning;
  Node_id node = 0;
  bool matched = false;
};

struct Matching {
  std::vector<std::pair<List_item*, List_item*>> pairs; ///< in the order of the newer list
  std::vector<List_item*> gone, come;
  bool reordered = false;
};
/// Views into the two lists.
Matching matching(std::vector<List_item>& old, std::vector<List_item>& now);

/// "a and b becomes b and a". Of one name items are told apart by their place among the older ones.
std::string reordering(const std::vector<List_item>& old, const std::vector<List_item>& now,
                       const Matching& found);

}
