#include "units/canonical.h"

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

// The written digits are kept: they say how much the value claims to know.
void append_value(std::string& out, const Value& value) {
  if (value.number.negative && value.number.digits != 0) out += '-';
  out += value.whole.empty() ? "0" : value.whole;
  if (!value.fraction.empty()) {
    out += '.';
    out += value.fraction;
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

std::string canonical(const Reading& reading, Quantity_grammar grammar) {
  std::string first, second;
  append_value(first, reading.first);
  if (reading.count == 1) return first;
  append_value(second, reading.second);
  if (grammar == Quantity_grammar::range) return first + " to " + second;
  if (first == second) return first;
  return "+" + first + " -" + second;
}

}

std::string ohmlore::canonical_spelling(std::string_view text, Quantity_grammar grammar, Dimensions allowed) {
  const auto outcome = units::read(text, grammar, allowed);
  return outcome.failure ? std::string() : units::canonical(outcome.reading, grammar);
}
