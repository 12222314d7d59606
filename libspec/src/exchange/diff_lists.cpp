#include "exchange/diff_lists.h"

#include <algorithm>
#include <deque>
#include <map>

#include <fmt/format.h>

#include "exchange/diff_values.h"

namespace ohmlore {

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i)
    text += fmt::format("{}{}", i == 0 ? "" : i + 1 == words.size() ? " and " : ", ", shown(words[i]));
  return text;
}

std::vector<std::string> missing_in(const std::vector<std::string>& list,
                                    const std::vector<std::string>& of) {
  std::vector<std::string> left = list, right = of, only;
  std::sort(left.begin(), left.end());
  std::sort(right.begin(), right.end());
  std::set_difference(left.begin(), left.end(), right.begin(), right.end(), std::back_inserter(only));
  return only;
}

Matching matching(std::vector<List_item>& old, std::vector<List_item>& now) {
  Matching found;
  const auto match = [&](std::string List_item::*by) {
    std::map<std::string_view, std::deque<List_item*>> known;
    for (List_item& item : old)
      if (!item.matched) known[item.*by].push_back(&item);
    for (List_item& item : now) {
      const auto others = known.find(item.*by);
      if (item.matched || others == known.end() || others->second.empty()) continue;
      List_item* const other = others->second.front();
      others->second.pop_front();
      other->matched = item.matched = true;
      found.pairs.emplace_back(other, &item);
    }
  };
  // Where several are known by the same (two suspects of one component), those first that did not change.
  match(&List_item::meaning);
  match(&List_item::identity);
  const auto sort_by_place = [&] {
    std::sort(found.pairs.begin(), found.pairs.end(),
              [](const auto& x, const auto& y) { return x.second < y.second; });
  };
  sort_by_place();
  for (std::size_t i = 1; i < found.pairs.size(); ++i)
    found.reordered = found.reordered || found.pairs[i].first < found.pairs[i - 1].first;
  for (List_item& item : old)
    if (!item.matched) found.gone.push_back(&item);
  for (List_item& item : now)
    if (!item.matched) found.come.push_back(&item);
  if (found.gone.size() != found.come.size()) return found;
  // What is left over on both sides in equal number was changed in what it is known by.
  for (std::size_t i = 0; i < found.gone.size(); ++i) found.pairs.emplace_back(found.gone[i], found.come[i]);
  found.gone.clear();
  found.come.clear();
  sort_by_place();
  return found;
}

std::string reordering(const std::vector<List_item>& old, const std::vector<List_item>& now,
                       const Matching& found) {
  std::map<const List_item*, std::string> labels;
  std::map<std::string, int> number;
  std::vector<std::string> before, after;
  for (const List_item& item : old) {
    const bool alone = std::count_if(old.begin(), old.end(),
                                     [&](const List_item& other) { return other.name == item.name; }) == 1;
    before.push_back(alone ? item.name : fmt::format("{} ({})", item.name, ++number[item.name]));
    labels[&item] = before.back();
  }
  for (const List_item& item : now) {
    const auto pair = std::find_if(found.pairs.begin(), found.pairs.end(),
                                   [&](const auto& p) { return p.second == &item; });
    after.push_back(pair == found.pairs.end() ? item.name : labels[pair->first]);
  }
  return fmt::format("{} becomes {}", listed(before), listed(after));
}

}
