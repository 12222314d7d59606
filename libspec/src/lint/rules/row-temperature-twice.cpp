#include <algorithm>
#include <cmath>
#include <span>
#include <vector>

#include "lint/read.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// The most that ln R of a part changes with each kelvin; empty where nothing limits it: a PTC may switch.
std::optional<double> steepest(const Resolved_component& component, double kelvin) {
  constexpr double metal_or_silicon = 0.02; // nickel has 0.007, silicon 0.01 (from memory)
  if (!component.known_kind || !(kelvin > 0)) return std::nullopt;
  switch (component.kind()) {
  case Component_kind::ntc: return possible_b.high / (kelvin * kelvin); // dR/R = -B/T² dT
  case Component_kind::ptc: {
    const auto type = component.get(&Component_type::type);
    if (!type || **type != Ptc_type::silicon) return std::nullopt;
    return metal_or_silicon;
  }
  case Component_kind::rtd:
  case Component_kind::resistor:
  case Component_kind::coding:
  case Component_kind::coil:
  case Component_kind::winding:
  case Component_kind::transformer: return metal_or_silicon;
  default: return std::nullopt;
  }
}

enum class Beside : std::uint8_t {
  repeated,
  apart,     // their bands do not meet, but two temperatures may be written alike
  impossible // no part fits both, however far apart those are
};

Beside compare(const Document& document, const Resolved_component& component, const Table_row& row,
               const Table_row& other) {
  const auto one = row_interval(row, Taken::generously), two = row_interval(other, Taken::generously);
  if (!one || !two || one->overlaps(*two) || !fully_read(document, row) || !fully_read(document, other))
    return Beside::repeated;
  const double below = std::min(one->high, two->high), above = std::max(one->low, two->low);
  const double span = row.at->half_digit + other.at->half_digit; // at most, in kelvin
  const auto most = steepest(component, row.at->si - span);
  const bool sure = below <= 0 || (most && std::log(above / below) > *most * span);
  return sure ? Beside::impossible : Beside::apart;
}

void check_group(const Document& document, Sink& sink, const Resolved_component& component,
                 std::span<const Table_row* const> rows) {
  const Table_row *one = rows[0], *other = rows[1];
  Beside found = Beside::repeated;
  const auto take = [&](const Table_row* a, const Table_row* b) {
    if (const Beside beside = compare(document, component, *a, *b); beside > found)
      found = beside, one = a, other = b;
  };
  constexpr std::size_t most = 32; // that are compared each with each
  const auto first = rows.first(std::min(rows.size(), most));
  for (std::size_t i = 0; i < first.size(); ++i)
    for (const Table_row* row : first.subspan(i + 1)) take(first[i], row);
  if (rows.size() > most)
    for (const Table_row* row : rows.subspan(most)) take(one, row);
  if (found == Beside::repeated) {
    sink.report_as(Severity::warning, other->at.node,
                   fmt::format("{} has {} rows; leave one", celsius(one->at->si), rows.size()));
  } else {
    const auto [first_band, other_band] = apart(*row_interval(*one), *row_interval(*other));
    sink.report_as(found == Beside::impossible ? Severity::error : Severity::warning, other->at.node,
                   fmt::format("{} has two rows, {} and {}, and {}", celsius(one->at->si), first_band,
                               other_band,
                               found == Beside::impossible
                                   ? "no part fits both; mend a temperature or remove the wrong row"
                                   : "a part fits both only where it was not quite the same temperature; "
                                     "write that with another digit, or remove the wrong row"));
  }
  sink.relate(one->at.node, "the first row");
}

void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    const auto colder = [](const Table_row* a, const Table_row* b) { return a->at->si < b->at->si; };
    std::vector<const Table_row*> rows;
    rows.reserve(model.rows.size());
    for (const Table_row& row : model.rows)
      if (row.at) rows.push_back(&row);
    if (!std::is_sorted(rows.begin(), rows.end(), colder)) std::stable_sort(rows.begin(), rows.end(), colder);
    for (std::size_t first = 0, last = 0; first < rows.size(); first = last) {
      while (last < rows.size() && rows[last]->at->si == rows[first]->at->si) ++last;
      if (last - first > 1)
        check_group(subject.document, sink, component, std::span(rows).subspan(first, last - first));
    }
  });
}

}

extern const Rule row_temperature_twice = {
    .family = Family::band,
    .severity = Severity::error,
    .summary = "A table has two rows for one temperature.",
    .check = check,
};

}
