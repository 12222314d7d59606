#include "units/plain.h"

#include "ohmlore/value.h"
#include "units/reader.h"

namespace ohmlore::units {
namespace {

struct Plain_unit {
  std::string_view written; // with the space before it
  Scaled_unit unit;
  Supply_form form = Supply_form::unstated;
};

// The commonest first.
constexpr Plain_unit plain_units[] = {
    {" °C", {Unit::celsius}},
    {" %", {Unit::percent}},
    {" kΩ", {Unit::ohm, 3}},
    {" Ω", {Unit::ohm}},
    {" MΩ", {Unit::ohm, 6}},
    {" K", {Unit::kelvin}},
    {" s", {Unit::second}},
    {" min", {Unit::minute}},
    {" V", {Unit::volt}},
    {" V ac", {Unit::volt}, Supply_form::ac},
    {" V dc", {Unit::volt}, Supply_form::dc},
    {" W", {Unit::watt}},
    {" kW", {Unit::watt, 3}},
    {" µF", {Unit::farad, -6}},
    {" mA", {Unit::ampere, -3}},
};

std::optional<Quantity> read_value(std::string_view text, Dimensions allowed) {
  constexpr std::size_t most_characters = 17; // of digits and a point: no more digits than a number may have
  const auto is_digit = [&](std::size_t at) {
    return at < text.size() && text[at] >= '0' && text[at] <= '9';
  };
  Decimal number;
  const auto digits_end = [&](std::size_t at) {
    for (; is_digit(at); ++at)
      number.digits = number.digits * 10 + static_cast<std::uint64_t>(text[at] - '0');
    return at;
  };
  number.negative = text.starts_with('-');
  const std::size_t begin = number.negative ? 1 : 0;
  std::size_t end = digits_end(begin);
  if (end == begin) return std::nullopt;
  if (end < text.size() && text[end] == '.') {
    const std::size_t point = end;
    end = digits_end(point + 1);
    if (end == point + 1) return std::nullopt;
    number.exponent = -static_cast<int>(end - point - 1);
  }
  if (end - begin > most_characters) return std::nullopt;
  if (number.negative && number.digits == 0) return std::nullopt; // of -0 the sign goes

  const std::string_view written = text.substr(end);
  for (const Plain_unit& plain : plain_units) {
    if (!same_name(plain.written, written)) continue;
    Quantity quantity;
    quantity.dimension = dimension_of(plain.unit, allowed);
    quantity.form = plain.form;
    if (!allowed.has(quantity.dimension)) return std::nullopt;
    // A difference is spelled in kelvin.
    if (plain.unit.unit == Unit::celsius && quantity.dimension != Dimension::temperature) return std::nullopt;
    if (set_si(quantity, number, plain.unit)) return std::nullopt;
    return quantity;
  }
  return std::nullopt;
}

}

std::optional<Range> read_plainly(std::string_view text, Quantity_grammar grammar, Dimensions allowed) {
  if (grammar == Quantity_grammar::tolerance) {
    if (text.starts_with('-')) return std::nullopt; // one side alone
    allowed = dimensions_of_tolerance(allowed);
  }
  constexpr std::string_view to = " to ";
  const std::size_t between = grammar == Quantity_grammar::range ? text.find(to) : std::string_view::npos;
  const std::optional<Quantity> low = read_value(text.substr(0, between), allowed);
  if (!low || between == std::string_view::npos)
    return low ? std::optional(Range{*low, *low, true}) : std::nullopt;
  const std::optional<Quantity> high = read_value(text.substr(between + to.size()), allowed);
  if (!high || high->dimension != low->dimension || high->form != low->form) return std::nullopt;
  return Range{*low, *high, false};
}

}
