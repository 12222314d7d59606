// Facts of several fields, and what it takes for two profiles to speak of one board.
#pragma once

#include <algorithm>
#include <initializer_list>
#include <map>
#include <string>
#include <utility>

#include "lint/rule.h"
#include "text/small_letters.h"

namespace ohmlore::rules {

// Control characters cannot stand in a text that was read.
inline constexpr char field_end = '\x1F';
inline constexpr char item_end = '\x1E';

/// Adds a text to several as one.
inline void pack(std::string& out, std::string_view field) { (out += field) += field_end; }
/// Several texts as one.
inline std::string packed(std::initializer_list<std::string_view> fields) {
  std::size_t size = 0;
  for (const std::string_view field : fields) size += field.size() + 1;
  std::string out;
  out.reserve(size);
  for (const std::string_view field : fields) pack(out, field);
  return out;
}
/// And back: `least` of them, whatever a fact of another machine holds.
inline std::vector<std::string_view> unpacked(std::string_view text, char end = field_end,
                                              std::size_t least = 0) {
  std::vector<std::string_view> fields;
  for (std::size_t at; (at = text.find(end)) != std::string_view::npos; text.remove_prefix(at + 1))
    fields.push_back(text.substr(0, at));
  if (fields.size() < least) fields.resize(least);
  return fields;
}

/// As two people would write it alike: small letters (ASCII), single spaces.
inline std::string folded(Text text) {
  std::string out;
  out.reserve(text.size());
  for (const char c : text) {
    if (c == ' ' && (out.empty() || out.back() == ' ')) continue;
    out += small_letter(c);
  }
  if (out.ends_with(' ')) out.pop_back();
  return out;
}

/// What one document says against what another does. It is known by both, so that a baseline that has it does
/// not hide the next at that place, wherever the mistake was made.
inline Finding contradiction(const Fact& fact, const Fact& other, std::string_view what_is, Severity severity,
                             std::string message, std::string_view one_says, std::string_view other_says) {
  Finding finding = finding_of(fact, severity, std::move(message));
  finding.value = fmt::format("{} against {}", one_says, other_says);
  finding.related.push_back(related_of(other, std::string(what_is)));
  return finding;
}

inline constexpr std::size_t most_others_shown = 5;

/// Of what contradicts a place, each known by itself, the first of the worst is told. Those of one key are
/// one finding that shows where.
inline void add_group(std::vector<Finding>& findings, std::vector<Finding> group) {
  std::map<std::pair<std::string, std::string>, std::size_t> place_of; // by pointer and value
  for (Finding& finding : group) {
    const auto [known, fresh] = place_of.try_emplace({finding.pointer, finding.value}, findings.size());
    if (fresh) {
      findings.push_back(std::move(finding));
      continue;
    }
    Finding& same = findings[known->second];
    ++same.times;
    if (same.related.size() < most_others_shown) same.related.push_back(std::move(finding.related.front()));
  }
  if (place_of.size() > 1) tell_the_worst(findings, place_of.size());
}

inline std::string packed_list(const List<Value<Text>>& texts) {
  std::string out;
  for (const Value<Text>& text : texts)
    if (text) (out += folded(*text)) += item_end;
  return out;
}

/// The items of a packed list in rising order: each fact is held against all others of its key.
using Items = std::vector<std::string_view>;
inline Items items_of(std::string_view list) {
  Items items = unpacked(list, item_end);
  std::sort(items.begin(), items.end());
  return items;
}

/// True where two lists in rising order have an item in common.
template <class Sorted>
bool share_item(const Sorted& a, const Sorted& b) {
  for (auto mine = a.begin(), other = b.begin(); mine != a.end() && other != b.end();) {
    if (*mine == *other) return true;
    ++(*mine < *other ? mine : other);
  }
  return false;
}
/// The same, where an empty list means all.
inline bool may_share_item(const Items& a, const Items& b) {
  return a.empty() || b.empty() || share_item(a, b);
}

/// True where a list is absent, or was read whole.
inline bool read_whole(const Document& document, Node_id record, std::string_view key,
                       const List<Value<Text>>& list) {
  if (document.complete()) return true;
  if (!list) return !stated(document, record, key);
  return std::all_of(list.begin(), list.end(), [](const Value<Text>& item) { return item.node != 0; });
}

/// Maker and part number of a profile's board; empty where one of them, or for what the profile holds, is not
/// known.
inline std::string board_of(const Document& document, const Profile& profile) {
  const Appliance& appliance = profile.appliance;
  const Controller& board = appliance.controller;
  if (!appliance.maker || !board.part || !read_whole(document, appliance.node, "models", appliance.models) ||
      !read_whole(document, appliance.node, "markets", appliance.markets) ||
      !read_whole(document, board.node, "issues", board.issues) ||
      !read_whole(document, board.node, "software", board.software))
    return {};
  return packed({folded(*appliance.maker), folded(*board.part)});
}

}
