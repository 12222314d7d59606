#include "ohmlore/quantity.h"
#include "units/explain.h"
#include "units/reader.h"

namespace ohmlore {
namespace {

template <class T>
Parsed<T> refused(std::string_view text, Quantity_grammar grammar, Dimensions allowed,
                  const units::Outcome& outcome) {
  return {std::nullopt, units::explain(text, grammar, allowed, outcome)};
}

}

Parsed<Quantity> parse_quantity(std::string_view text, Dimensions allowed) {
  const auto outcome = units::read(text, Quantity_grammar::quantity, allowed);
  if (outcome.failure) return refused<Quantity>(text, Quantity_grammar::quantity, allowed, outcome);
  return {outcome.reading.first.quantity, std::nullopt};
}

Parsed<Tolerance> parse_tolerance(std::string_view text, Dimensions allowed) {
  const auto outcome = units::read(text, Quantity_grammar::tolerance, allowed);
  if (outcome.failure) return refused<Tolerance>(text, Quantity_grammar::tolerance, allowed, outcome);
  const auto& plus = outcome.reading.first.quantity;
  const auto& minus = outcome.reading.count == 2 ? outcome.reading.second.quantity : plus;
  return {Tolerance{minus.si, plus.si, plus.dimension}, std::nullopt};
}

Parsed<Range> parse_range(std::string_view text, Dimensions allowed) {
  const auto outcome = units::read(text, Quantity_grammar::range, allowed);
  if (outcome.failure) return refused<Range>(text, Quantity_grammar::range, allowed, outcome);
  const auto& reading = outcome.reading;
  if (reading.count == 1) return {Range{reading.first.quantity, reading.first.quantity, true}, std::nullopt};
  return {Range{reading.first.quantity, reading.second.quantity, false}, std::nullopt};
}

}
