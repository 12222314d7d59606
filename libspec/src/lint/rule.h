// What a rule file needs: the interfaces, formatting, and the walks that many rules share.
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include <fmt/format.h>

#include "ohmlore/bands.h"
#include "ohmlore/lint.h"
#include "text/cut.h"

namespace ohmlore::rules {

/// Values in messages: at most 4 significant digits unless told apart, with their unit.
inline std::string ohm(double value, int digits = 4) {
  return describe(value, Dimension::resistance, digits);
}
inline std::string celsius(double kelvin) { return describe(kelvin, Dimension::temperature); }
inline std::string kelvin(double value) { return describe(value, Dimension::temperature_difference); }
inline std::string percent(double share) { return describe(share, Dimension::ratio); }
inline std::string ohm(Interval band, int digits = 4) {
  // 0.3 Ω - 100 % reaches to zero, a few roundings outward below it.
  const bool rounded_below_zero = band.low < 0 && -band.low < 1e-14 * band.high;
  const std::string low = ohm(rounded_below_zero ? 0 : band.low, digits), high = ohm(band.high, digits);
  return low == high ? low : fmt::format("{} to {}", low, high);
}
inline std::string celsius(Interval kelvin) {
  return kelvin.width() > 0 ? fmt::format("{} to {}", celsius(kelvin.low), celsius(kelvin.high))
                            : celsius(kelvin.low);
}
/// The digits in which two values that a message holds against each other differ, four at least.
inline int digits_apart(double one, double other, Dimension dimension = Dimension::resistance) {
  int digits = 4;
  while (digits < 17 && describe(one, dimension, digits) == describe(other, dimension, digits)) ++digits;
  return digits;
}
/// Of two bands that do not overlap, the ends that face each other.
inline int digits_apart(Interval one, Interval other) {
  return digits_apart(std::min(one.high, other.high), std::max(one.low, other.low));
}
/// Both in as many digits.
inline std::pair<std::string, std::string> apart(double one, double other,
                                                 Dimension dimension = Dimension::resistance) {
  const int digits = digits_apart(one, other, dimension);
  return {describe(one, dimension, digits), describe(other, dimension, digits)};
}
inline std::pair<std::string, std::string> apart(Interval one, Interval other) {
  const int digits = digits_apart(one, other);
  return {ohm(one, digits), ohm(other, digits)};
}
/// Free text of a document in a message: in quotation marks, cut where it is long, safe for a terminal.
inline std::string quoted(Text text) { return fmt::format("\"{}\"", shortened(text, 60)); }
/// The same of what somebody is to act on: whole, since its end may be what matters.
inline std::string quoted_whole(Text text) { return fmt::format("\"{}\"", printable(text)); }
/// "; did you mean X?", or nothing where no known word is near.
inline std::string hint(std::string_view word, std::span<const std::string_view> known) {
  const std::string_view near = nearest_word(word, known);
  return near.empty() ? std::string() : fmt::format("; did you mean {}?", near);
}

/// The same of what is no rule; where none is near, how to see all.
inline std::string hint_of_rule(std::string_view word) {
  std::vector<std::string_view> slugs;
  for (const Rule_entry& entry : all_rules()) slugs.push_back(entry.slug);
  const std::string near = hint(word, slugs);
  return near.empty() ? "; `ohmlore rules` lists all" : near;
}

/// True where a record has a member of that key, or may have: a value that could not be read is not missing.
inline bool stated(const Document& document, Node_id record, std::string_view key) {
  return document.may_state(record, key);
}
/// The same of a member that is at hand, as `key` is in `record`; mostly it tells.
template <class Record, class Member>
bool stated(const Document& document, const Record& record, std::string_view key, const Member& member) {
  return bool(member) || (!document.complete() && stated(document, record.node, key));
}
/// True where it has such a member that could not be read.
template <class Record, class Member>
bool unread(const Document& document, const Record& record, std::string_view key, const Member& member) {
  return !member && stated(document, record, key, member);
}

/// What is stated of a component, by its own document or by its part's: "the protector".
struct Stated_place {
  const Document* document = nullptr; ///< never null
  Node_id node = 0;
  std::string_view what;
};
/// Reports two things stated of a component that do not go together: at the first that its own document
/// states, with the other beside it. Not where both are the part's, whose own document is told.
inline void report_contradiction(Sink& sink, const Resolved_component& component, Stated_place one,
                                 Stated_place other, std::string message,
                                 std::optional<Severity> severity = std::nullopt) {
  if (one.document != component.document) std::swap(one, other);
  if (one.document != component.document) return;
  if (severity)
    sink.report_as(*severity, one.node, std::move(message));
  else
    sink.report(one.node, std::move(message));
  sink.relate(*other.document, other.node, std::string(other.what));
}

/// A place is held against no more others once it contradicts so many: more than there are, but not all pairs
/// of what was made to harm.
inline constexpr std::size_t most_contradictions = 20;

/// Of several findings at one place, each is known by what it is held against too, so that a baseline that
/// has one does not hide the next.
inline void know_by(Finding& finding, std::string_view other) {
  finding.value += fmt::format("{}against {}", finding.value.empty() ? "" : " ", other);
}

/// A record that contradicts another.
struct Contradiction {
  Severity severity;
  Text id;
  Node_id node = 0;      ///< where it says so
  std::size_t index = 0; ///< by which `say` knows it
};
/// Reports, at `node`, all that contradict it, each known by its id: one is told, the first of the worst, by
/// `say(index)`. `it_is` is what stands at the other place: "the expectation of {}". Returns how many were
/// reported.
template <class Say>
std::size_t report_contradictions(Sink& sink, Node_id node, std::vector<Contradiction> all,
                                  std::string_view it_is, Say say) {
  std::stable_sort(all.begin(), all.end(),
                   [](const Contradiction& a, const Contradiction& b) { return a.severity > b.severity; });
  if (all.size() > most_contradictions) all.resize(most_contradictions);
  for (const Contradiction& one : all) {
    know_by(sink.report_as(one.severity, node, say(one.index)), one.id);
    sink.relate(one.node, fmt::format(fmt::runtime(it_is), one.id));
  }
  if (all.size() > 1) sink.tell_the_worst(all.size());
  return all.size();
}

/// The ids of a map, for hints; one that stands twice, which is refused elsewhere, is there once.
template <class T>
std::vector<std::string_view> ids_of(const Keyed<T>& map) {
  std::vector<std::string_view> ids;
  std::set<std::string_view> seen;
  for (const auto& entry : map)
    if (seen.insert(entry.id).second) ids.push_back(entry.id);
  return ids;
}
/// "a", "a and b", "a, b and c"; of a long list the first eight and how many more.
template <class Words>
std::string listed(const Words& words) {
  constexpr std::size_t most = 8;
  const std::size_t count = std::size(words);
  std::string out;
  std::size_t i = 0;
  for (const auto& word : words) {
    if (i == most && count > most + 1) return out + fmt::format(" and {} more", count - most);
    out += fmt::format("{}{}", i == 0 ? "" : i + 1 == count ? " and " : ", ", word);
    ++i;
  }
  return out;
}

/// Calls `f(model, component)` for each resistance model written in this document (the model of a part is
/// looked at in the part's own document).
template <class F>
void each_own_model(const Subject& subject, F f) {
  for (const Own_model& own : subject.resolved.own_models) f(*own.model, *own.component);
}

/// Calls `f(id, test)` for each test.
template <class F>
void each_test(const Subject& subject, F f) {
  if (const Profile* profile = subject.profile())
    for (const auto& entry : profile->tests)
      if (entry.value) f(entry.id, entry.value);
}

/// Calls `f(test)` for each test of one component of a profile.
template <class F>
void each_test_of(const Subject& subject, const Resolved_component& component, F f) {
  const auto& of_tests = subject.resolved.of_tests;
  for (std::size_t i = 0; i < of_tests.size(); ++i)
    if (of_tests[i] == &component) f(subject.profile()->tests.items[i].value);
}

/// Calls `f(id, test, component)` for each test of a component that the profile has, of a kind that could be
/// read.
template <class F>
void each_component_test(const Subject& subject, F f) {
  for (const Component_test& one : subject.resolved.component_tests) f(one.id, *one.test, *one.component);
}

/// Calls `f(id, fault)` for each fault.
template <class F>
void each_fault(const Subject& subject, F f) {
  if (const Profile* profile = subject.profile())
    for (const auto& entry : profile->faults)
      if (entry.value) f(entry.id, entry.value);
}

/// Calls `f(suspect)` for each suspect of each fault.
template <class F>
void each_suspect(const Subject& subject, F f) {
  for (const Bound_suspect& suspect : subject.resolved.suspects)
    if (suspect.fault->value) f(suspect);
}

/// One stated pair of limits, wherever it stands: a table row or an expectation.
struct Stated_band {
  Node_id node = 0; ///< the record
  Value<Quantity> nominal, min, max;
  Value<Tolerance> tolerance;
};

/// Calls `f(band)` for each table row and each expected band of the document; one that is expected both ways
/// round gives two.
template <class F>
void each_stated_band(const Subject& subject, F f) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component&) {
    for (const Table_row& row : model.rows)
      if (row) f(Stated_band{row.node, row.nominal, row.min, row.max, row.tolerance});
  });
  each_test(subject, [&](Text, const Test& test) {
    const Expectation& e = test.expect;
    if (!e || !e.kind) return;
    f(Stated_band{e.node, e.nominal, e.min, e.max, e.tolerance});
    if (e.reverse_max) f(Stated_band{e.node, {}, e.reverse_min, e.reverse_max, {}});
  });
}

}
