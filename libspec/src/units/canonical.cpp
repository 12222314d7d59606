#include "units/canonical.h"

#include <algorithm>
#include <cstdlib>

namespace ohmlore::units {
namespace {

void append_exponent(std::string& out, std::string_view written) {
  if (written.empty()) return;
  out += 'e';
  written.remove_prefix(1);
  const auto first = written.find_first_of("123456789");
  if (first == std::string_view::npos) {
    out += '0';
    return;
  }
  if (!leading_minus(written).empty()) out += '-';
  out += written.substr(first);
}

// The power of ten of the prefix to write. The point moves to the right through written digits alone: zeros
// behind them would claim more.
int prefix_in(Prefixes prefixes, const Value& value) {
  const int written = value.unit.prefix, most_right = static_cast<int>(value.fraction.size());
  const Prefix_range range = prefix_range(value.unit.unit);
  if (prefixes == Prefixes::si) return written <= most_right ? 0 : written;
  if (value.unit.unit == Unit::kelvin)
    return written; // not every field takes "mK", and nobody reads "0.3 kK"
  const std::size_t in_whole = value.whole.find_first_not_of('0');
  const std::size_t in_fraction = value.fraction.find_first_not_of('0');
  const int power = in_whole != std::string_view::npos ? static_cast<int>(value.whole.size() - in_whole) - 1
                                                       : -1 - static_cast<int>(in_fraction);
  const int floored = power + written - ((power + written) % 3 + 3) % 3; // the multiple of three below
  const int lowest = value.unit.unit == Unit::ohm ? std::min(written, 0) : range.low;
  int prefix = std::clamp<int>(floored, lowest, range.high);
  while (written - prefix > most_right) prefix += 3;
  return prefix;
}

// The written digits are kept: they say how much the value claims to know.
void append_value(std::string& out, Value value, Prefixes prefixes) {
  std::string whole(value.whole.empty() ? "0" : value.whole), fraction(value.fraction);
  const bool may_change = prefixes != Prefixes::as_written && value.number.digits != 0 &&
                          prefix_range(value.unit.unit).low < prefix_range(value.unit.unit).high;
  if (const int prefix = may_change ? prefix_in(prefixes, value) : value.unit.prefix;
      prefix != value.unit.prefix) {
    const auto places = static_cast<std::size_t>(std::abs(value.unit.prefix - prefix));
    std::string digits(places, '0');
    digits += whole;
    const std::size_t point = value.unit.prefix > prefix ? digits.size() + places : digits.size() - places;
    digits += fraction;
    const std::size_t first = std::min(digits.find_first_not_of('0'), point - 1);
    whole = digits.substr(first, point - first);
    fraction = digits.substr(point);
    value.unit.prefix = static_cast<std::int8_t>(prefix);
  }
  if (value.number.negative && value.number.digits != 0) out += '-';
  out += whole;
  if (!fraction.empty()) {
    out += '.';
    out += fraction;
  }
  append_exponent(out, value.exponent);
  out += ' ';
  out += canonical_unit(value);
  if (value.quantity.form == Supply_form::ac) out += " ac";
  if (value.quantity.form == Supply_form::dc) out += " dc";
}

}

std::string canonical_unit(const Value& value) {
  const auto& [unit, prefix, order] = value.unit;
  std::string out(prefix_symbol(prefix));
  if (unit == Unit::celsius && value.quantity.dimension == Dimension::temperature_difference)
    return out +=
           unit_symbol(Unit::kelvin); // a degree Fahrenheit stays: in kelvin it would have other digits
  out += unit_symbol(unit);
  if (unit == Unit::per_kelvin) out += static_cast<char>('0' + order);
  return out;
}

std::string canonical(const Reading& reading, Quantity_grammar grammar, Prefixes prefixes) {
  std::string first, second;
  append_value(first, reading.first, prefixes);
  if (reading.count == 1) return first;
  append_value(second, reading.second, prefixes);
  if (grammar == Quantity_grammar::range) return first + " to " + second;
  if (first == second) return first;
  return "+" + first + " -" + second;
}

}

std::string ohmlore::canonical_spelling(std::string_view text, Quantity_grammar grammar, Dimensions allowed,
                                        Prefixes prefixes) {
  const auto outcome = units::read(text, grammar, allowed);
  return outcome.failure ? std::string() : units::canonical(outcome.reading, grammar, prefixes);
}
