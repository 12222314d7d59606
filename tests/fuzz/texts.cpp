// Bytes as one of the small texts: a quantity, a reading, a meter's accuracy. The first byte says what a
// quantity may measure.
#include <bit>

#include "fuzz.h"
#include "ohmlore/judge.h"
#include "ohmlore/measurement.h"
#include "ohmlore/quantity.h"
#include "ohmlore/text.h"

using namespace ohmlore;

namespace {

bool same(const Quantity& a, const Quantity& b) {
  return std::bit_cast<std::uint64_t>(a.si) == std::bit_cast<std::uint64_t>(b.si) &&
         std::bit_cast<std::uint64_t>(a.half_digit) == std::bit_cast<std::uint64_t>(b.half_digit) &&
         a.dimension == b.dimension && a.form == b.form;
}
bool same(const Tolerance& a, const Tolerance& b) {
  return a.minus == b.minus && a.plus == b.plus && a.dimension == b.dimension;
}
bool same(const Range& a, const Range& b) {
  return same(a.low, b.low) && same(a.high, b.high) && a.single == b.single;
}

template <class T>
void check(std::string_view text, Quantity_grammar grammar, Dimensions allowed,
           Parsed<T> (*parse)(std::string_view, Dimensions)) {
  const Parsed<T> parsed = parse(text, allowed);
  fuzz::expect(parsed.value.has_value() != parsed.problem.has_value(), "there is a value or a problem", text);
  if (parsed.problem)
    fuzz::expect(parsed.problem->begin <= parsed.problem->end && parsed.problem->end <= text.size(),
                 "a problem lies in its text", text);
  const std::string spelling = canonical_spelling(text, grammar, allowed);
  fuzz::expect(spelling.empty() != parsed.value.has_value(), "what is accepted has a canonical spelling",
               text);
  if (!parsed.value) return;
  const Parsed<T> again = parse(spelling, allowed);
  fuzz::expect(again.value && same(*again.value, *parsed.value), "the canonical spelling means the same",
               text);
  fuzz::expect(canonical_spelling(spelling, grammar, allowed) == spelling, "and is its own", spelling);
  fuzz::expect(!spelling_problem(spelling, grammar, allowed), "nothing is unusual in it", spelling);
}

}

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  constexpr unsigned dimensions = static_cast<unsigned>(Dimension::ratio) + 1;
  const auto dimension = static_cast<Dimension>(data[0] % dimensions);
  const std::string_view text = fuzz::text_of(data + 1, size - 1);
  check(text, Quantity_grammar::quantity, dimension, parse_quantity);
  check(text, Quantity_grammar::tolerance, Dimensions(Dimension::ratio) | dimension, parse_tolerance);
  check(text, Quantity_grammar::range, dimension, parse_range);

  std::string problem;
  const auto said = [&](bool accepted) {
    fuzz::expect(accepted || !problem.empty(), "what is refused is refused for a reason", text);
    problem.clear();
  };
  const std::optional<Reading> reading = parse_reading(text, problem);
  said(reading.has_value());
  if (reading) fuzz::expect(reading->ohm >= 0 && reading->half_digit >= 0, "no reading is negative", text);
  const std::optional<Leads> leads = parse_leads(text, problem);
  said(leads.has_value());
  if (leads) fuzz::expect(leads->ohm >= 0 && leads->ohm <= 2, "leads have 2 Ω at most", text);
  said(parse_part_temperature(text, problem).has_value());
  said(parse_meter(text, problem).has_value());
  const std::optional<Interval> room = parse_room(text, problem);
  said(room.has_value());
  if (room) fuzz::expect(room->low <= room->high, "from the lower to the higher", text);
  return 0;
}
