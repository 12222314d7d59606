#include "units/reader.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "text/small_letters.h"

namespace ohmlore::units {
namespace {

constexpr int most_digits = 17;

bool is_minus(std::string_view sign) { return !leading_minus(sign).empty(); }

struct Reader {
  std::string_view text;
  Dimensions allowed;
  std::size_t at = 0;
  std::optional<Failure> failure = std::nullopt;

  std::string_view rest() const { return text.substr(at); }
  char next(std::size_t ahead = 0) const { return at + ahead < text.size() ? text[at + ahead] : '\0'; }
  bool at_end() const { return at == text.size(); }

  bool skip(std::string_view word) {
    if (!rest().starts_with(word)) return false;
    at += word.size();
    return true;
  }

  std::string_view since(std::size_t begin) const { return text.substr(begin, at - begin); }

  // Always false, so that a reading function can return it.
  bool fail(Fault fault, std::size_t begin, std::size_t end, Dimension found = Dimension::resistance) {
    failure = Failure{fault, begin, end, found};
    return false;
  }
};

std::string_view skip_spaces(Reader& reader) {
  const auto begin = reader.at;
  for (;;) {
    while (reader.next() == ' ') ++reader.at;
    if (static_cast<unsigned char>(reader.next()) < 0x80) break; // mostly
    const auto space = leading_space(reader.rest());
    if (space.empty()) break;
    reader.at += space.size();
  }
  return reader.since(begin);
}

std::string_view read_minus(Reader& reader) {
  const auto minus = leading_minus(reader.rest());
  reader.at += minus.size();
  return minus;
}

std::string_view read_sign(Reader& reader) {
  const auto begin = reader.at;
  if (reader.next() == '+')
    ++reader.at;
  else
    return read_minus(reader);
  return reader.since(begin);
}

std::string_view read_digits(Reader& reader) {
  const auto begin = reader.at;
  while (is_digit(reader.next())) ++reader.at;
  return reader.since(begin);
}

// True where a word of letters ends: at the end, and before anything that can follow a unit.
bool ends_word(std::string_view rest) {
  if (rest.empty()) return true;
  const char c = rest.front();
  const auto byte = static_cast<unsigned char>(c);
  if (byte < 0x80) return !((c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '%' || c == '_');
  if (byte != 0xC2 && byte != 0xE2) return false; // no stop below starts with another byte
  for (const std::string_view stop :
       {"\u00A0", "\u2009", "\u202F", "\u2212", "\u2013", "\u2026", "\u00B1", "\u207B", "\u00B2", "\u00B3",
        "\u00B9", "\u2074", "\u2075", "\u2076", "\u2393"})
    if (rest.starts_with(stop)) return true;
  return false;
}

std::string_view peek_word(const Reader& reader) {
  auto rest = reader.rest();
  std::size_t length = 0;
  while (!ends_word(rest.substr(length))) ++length;
  return rest.substr(0, length);
}

// IEC 60062: the letter stands at the place of the decimal point.
std::optional<std::int8_t> power_of_code_letter(char letter) {
  switch (letter) {
  case 'R': return std::int8_t{0};
  case 'k':
  case 'K': return std::int8_t{3};
  case 'M': return std::int8_t{6};
  case 'G': return std::int8_t{9};
  default: return std::nullopt;
  }
}

bool is_tolerance_letter(char letter) {
  return std::string_view("BCDFGJKM").find(letter) != std::string_view::npos;
}

// An exponent beyond this, or as many decimals, is out of reach anyway.
constexpr int exponent_cap = 10000;

bool set_number(Reader& reader, Value& value, std::size_t begin, int exponent) {
  std::uint64_t digits = 0;
  int count = 0;
  const auto append = [&](std::string_view part) {
    for (const char c : part) {
      if (count == 0 && c == '0') continue;
      if (++count <= most_digits) digits = digits * 10 + static_cast<std::uint64_t>(c - '0');
    }
  };
  append(value.whole);
  append(value.fraction);
  if (count > most_digits) return reader.fail(Fault::too_many_digits, begin, reader.at);
  const auto decimals = std::min<std::size_t>(value.fraction.size(), exponent_cap);
  value.number = {digits, exponent - static_cast<int>(decimals), is_minus(value.sign)};
  return true;
}

// After whole digits (none before R): the rest of a code such as "4k7" or "47K". Leaves the reader where it
// was if there is none.
bool read_code(Reader& reader, Value& value) {
  const auto power = power_of_code_letter(reader.next());
  if (!power || (value.whole.empty() && reader.next() != 'R')) return false;
  const auto letter = reader.at;
  if (is_digit(reader.next(1))) {
    ++reader.at;
    value.fraction = read_digits(reader);
  } else if (value.whole.empty()) {
    return false;
  } else {
    const auto word = peek_word(reader);
    if (word.size() != 1 && !(word.size() == 2 && is_tolerance_letter(word[1]))) return false;
    ++reader.at;
  }
  value.code = true;
  value.unit = {Unit::ohm, *power};
  value.unit_text = reader.text.substr(letter, 1);
  return true;
}

bool refuse_tolerance_letter(Reader& reader) {
  const auto code_end = reader.at;
  skip_spaces(reader);
  const auto word = peek_word(reader);
  if (word.size() == 1 && is_tolerance_letter(word.front()))
    return reader.fail(Fault::code_with_tolerance, reader.at, reader.at + 1);
  reader.at = code_end;
  return true;
}

// Digits with an optional point and exponent, or a whole code with its unit. The sign is read before.
bool read_number(Reader& reader, Value& value) {
  const auto begin = reader.at;
  value.whole = read_digits(reader);
  if (reader.allowed.has(Dimension::resistance) && read_code(reader, value))
    return set_number(reader, value, begin, 0) && refuse_tolerance_letter(reader);
  if (value.whole.empty()) return reader.fail(Fault::no_number, begin, reader.text.size());

  if (reader.next() == '.' && is_digit(reader.next(1))) {
    ++reader.at;
    value.fraction = read_digits(reader);
  }
  int exponent = 0;
  if (const char e = reader.next(); e == 'e' || e == 'E') {
    const auto exponent_begin = reader.at;
    ++reader.at;
    const bool negative = is_minus(read_sign(reader));
    const auto digits = read_digits(reader);
    if (digits.empty()) {
      reader.at = exponent_begin; // a unit, or what is left over
    } else {
      for (const char c : digits)
        if (exponent < exponent_cap) exponent = exponent * 10 + (c - '0');
      if (negative) exponent = -exponent;
      value.exponent = reader.since(exponent_begin);
    }
  }
  return set_number(reader, value, begin, exponent);
}

// The n of K^n, K⁻ⁿ after "K" or "°C"; 0 where there is none.
int read_superscript(Reader& reader) {
  constexpr std::string_view digits[] = {"\u00B9", "\u00B2", "\u00B3", "\u2074", "\u2075", "\u2076"};
  for (int n = 1; n <= 6; ++n)
    if (reader.skip(digits[n - 1])) return n;
  return 0;
}

int read_order_digit(Reader& reader) {
  const char c = reader.next();
  if (c < '1' || c > '6' || is_digit(reader.next(1))) return 0;
  ++reader.at;
  return c - '0';
}

// "K^-2", "K⁻²", "1/K^2", "/K²". Leaves the reader where it was if there is none.
bool read_per_kelvin(Reader& reader, Value& value) {
  const auto begin = reader.at;
  const bool divided = reader.skip("1/") || reader.skip("/");
  const auto base = find_unit(peek_word(reader));
  int order = 0;
  if (base && base->prefix == 0 && (base->unit == Unit::kelvin || base->unit == Unit::celsius)) {
    reader.at += peek_word(reader).size();
    if (divided) {
      if (reader.skip("^")) {
        order = read_order_digit(reader);
      } else {
        order = read_superscript(reader);
        if (order == 0) order = 1;
      }
    } else if (reader.skip("^")) {
      if (!read_minus(reader).empty()) order = read_order_digit(reader);
    } else if (reader.skip("\u207B")) {
      order = read_superscript(reader);
    }
  }
  if (order == 0) {
    reader.at = begin;
    return false;
  }
  value.unit = {Unit::per_kelvin, 0, static_cast<std::uint8_t>(order)};
  value.unit_text = reader.since(begin);
  return true;
}

// The form of a supply after V or A, with or without a space. Leaves the reader where it was if there is
// none.
void read_supply_form(Reader& reader, Value& value) {
  struct Spelling {
    std::string_view text;
    Supply_form form;
  };
  constexpr Spelling spellings[] = {
      {"dc", Supply_form::dc},     {"ac", Supply_form::ac},   {"DC", Supply_form::dc},
      {"AC", Supply_form::ac},     {"d.c.", Supply_form::dc}, {"a.c.", Supply_form::ac},
      {"\u2393", Supply_form::dc}, {"~", Supply_form::ac},
  };
  const auto begin = reader.at;
  skip_spaces(reader);
  for (const auto& spelling : spellings)
    if (reader.rest().starts_with(spelling.text) && ends_word(reader.rest().substr(spelling.text.size()))) {
      reader.at += spelling.text.size();
      value.quantity.form = spelling.form;
      value.form_text = reader.since(begin);
      return;
    }
  reader.at = begin;
}

// "Vdc", "mAa.c.": the form without a space before it is part of the word, up to its point.
std::string_view without_supply_form(std::string_view word, std::string_view behind) {
  for (const std::string_view form : {"dc", "ac", "DC", "AC"})
    if (word.size() > form.size() && word.ends_with(form)) return word.substr(0, word.size() - form.size());
  if (behind.starts_with(".c.") && (word.ends_with('d') || word.ends_with('a'))) word.remove_suffix(1);
  return word;
}

bool may_have_supply_form(Unit unit) { return unit == Unit::volt || unit == Unit::ampere; }

bool read_unit(Reader& reader, Value& value) {
  const auto begin = reader.at;
  const auto word = peek_word(reader);
  const auto symbol = without_supply_form(word, reader.text.substr(begin + word.size()));
  const char after = begin + word.size() < reader.text.size() ? reader.text[begin + word.size()] : '\0';
  if (word.empty() || after == '^' || static_cast<unsigned char>(after) >= 0x80)
    if (read_per_kelvin(reader, value)) return true;

  auto unit = find_unit(word);
  auto length = word.size();
  if (!unit && symbol.size() < word.size()) {
    unit = find_unit(symbol);
    if (unit && !may_have_supply_form(unit->unit)) unit.reset();
    length = symbol.size();
  }
  if (!unit) {
    if (!word.empty()) return reader.fail(Fault::unit_unknown, begin, begin + word.size());
    return reader.fail(reader.at_end() ? Fault::unit_missing : Fault::left_over, begin, reader.text.size());
  }
  reader.at = begin + length;
  value.unit = *unit;
  value.unit_text = reader.since(begin);
  if (may_have_supply_form(unit->unit)) read_supply_form(reader, value);
  return true;
}

// The value in SI, once number and unit are known. `begin` is where the value starts.
bool settle(Reader& reader, Value& value, std::size_t begin) {
  const auto unit_begin = static_cast<std::size_t>(value.unit_text.data() - reader.text.data());
  const auto unit_end = unit_begin + value.unit_text.size();
  const auto dimension = dimension_of(value.unit, reader.allowed);
  if (!reader.allowed.has(dimension))
    return reader.fail(Fault::unit_of_other_dimension, unit_begin, unit_end, dimension);
  if (value.unit.unit == Unit::kelvin && value.unit.prefix != 0 &&
      dimension != Dimension::temperature_difference)
    return reader.fail(Fault::prefix_not_used, unit_begin, unit_end, dimension);
  if (!value.exponent.empty() && !is_per_kelvin(dimension)) {
    const auto exponent_begin = static_cast<std::size_t>(value.exponent.data() - reader.text.data());
    return reader.fail(Fault::exponent, exponent_begin, exponent_begin + value.exponent.size(), dimension);
  }
  value.quantity.dimension = dimension;
  if (const std::optional<Fault> fault = set_si(value.quantity, value.number, value.unit))
    return reader.fail(*fault, begin, unit_end, dimension);
  return true;
}

// What follows a number: the space and the unit, unless it was a code. `begin` is where the value starts.
bool finish(Reader& reader, Value& value, std::size_t begin) {
  if (value.code) return settle(reader, value, begin);
  const auto number_end = reader.at;
  value.gap = skip_spaces(reader);
  if (reader.at_end()) return reader.fail(Fault::unit_missing, begin, number_end);
  // A point and a bare prefix are neither a code nor a unit: "15.25k".
  if (!value.fraction.empty() && value.gap.empty() && reader.allowed.has(Dimension::resistance))
    if (const auto word = peek_word(reader);
        word.size() == 1 && word != "R" && power_of_code_letter(word.front()))
      return reader.fail(Fault::code_with_point, begin, reader.at + 1);
  return read_unit(reader, value) && settle(reader, value, begin);
}

bool read_unsigned(Reader& reader, Value& value) {
  const auto begin = reader.at;
  return read_number(reader, value) && finish(reader, value, begin);
}

bool read_value(Reader& reader, Value& value) {
  const auto begin = reader.at;
  value.sign = read_sign(reader);
  return read_number(reader, value) && finish(reader, value, begin);
}

bool read_end(Reader& reader) {
  skip_spaces(reader);
  return reader.at_end() || reader.fail(Fault::left_over, reader.at, reader.text.size());
}

// "+10/-5 %", "-20 to 110 °C": the first value has the unit of the second.
bool borrow_unit(Reader& reader, Value& first, const Value& second, std::size_t begin) {
  first.unit = second.unit;
  first.unit_text = second.unit_text;
  first.borrows_unit = true;
  first.quantity.form = second.quantity.form;
  return settle(reader, first, begin);
}

bool at_sign(const Reader& reader) { return reader.next() == '+' || !leading_minus(reader.rest()).empty(); }

// Leaves the reader at a sign behind optional spaces, or where it was if there is none.
bool read_space_before_sign(Reader& reader) {
  const auto begin = reader.at;
  skip_spaces(reader);
  if (at_sign(reader)) return true;
  reader.at = begin;
  return false;
}

// Reads "/" and leaves the reader at the sign behind it, or where it was if there is none.
bool read_slash(Reader& reader) {
  const auto begin = reader.at;
  skip_spaces(reader);
  if (reader.skip("/") && read_space_before_sign(reader)) return true;
  reader.at = begin;
  return false;
}

bool read_tolerance(Reader& reader, Reading& reading) {
  for (const std::string_view both : {"\u00B1", "+/-", "+/\u2212", "+-", "+\u2212"})
    if (reader.skip(both)) {
      skip_spaces(reader);
      return read_unsigned(reader, reading.first) && read_end(reader);
    }
  const auto begin = reader.at;
  const auto first_sign = read_sign(reader);
  if (first_sign.empty()) return read_unsigned(reader, reading.first) && read_end(reader);

  auto& first = reading.first;
  auto& second = reading.second;
  reading.count = 2;
  skip_spaces(reader);
  const auto first_begin = reader.at;
  if (!read_number(reader, first)) return false;
  const auto number_end = reader.at;
  const bool shares_unit = !first.code && read_slash(reader);
  const bool lacks_unit = !first.code && !shares_unit && read_space_before_sign(reader);
  if (!shares_unit && !lacks_unit) {
    if (!finish(reader, first, first_begin)) return false;
    const auto first_end = reader.at;
    if (!read_slash(reader)) skip_spaces(reader);
    if (reader.at_end()) return reader.fail(Fault::one_sided, begin, first_end);
  }
  const auto second_begin = reader.at;
  const auto second_sign = read_sign(reader);
  if (second_sign.empty()) return read_end(reader);
  if (is_minus(first_sign) == is_minus(second_sign))
    return reader.fail(Fault::same_sign_twice, second_begin, reader.at);
  skip_spaces(reader);
  if (!read_unsigned(reader, second)) return false;
  // Whether "5" of "+5/-4k7" are ohms or kilohms, nobody knows.
  if (lacks_unit || (shares_unit && second.code))
    return reader.fail(Fault::first_unit_missing, first_begin, number_end);
  if (shares_unit && !borrow_unit(reader, first, second, first_begin)) return false;
  if (first.quantity.dimension != second.quantity.dimension)
    return reader.fail(Fault::sides_differ, begin, reader.at);
  if (is_minus(first_sign)) std::swap(first, second);
  return read_end(reader);
}

// " to ", and what is accepted for it. A hyphen is not: it could be the minus of the second value.
bool read_to(Reader& reader) {
  const auto begin = reader.at;
  const bool spaced = !skip_spaces(reader).empty();
  if (spaced && reader.skip("to")) {
    if (!skip_spaces(reader).empty()) return true;
  } else {
    for (const std::string_view dots : {"...", "..", "\u2026", "\u2013"})
      if (reader.skip(dots)) {
        skip_spaces(reader);
        return true;
      }
  }
  reader.at = begin;
  return false;
}

// A hyphen or minus between two values.
bool refuse_hyphen(Reader& reader) {
  const auto value_end = reader.at;
  skip_spaces(reader);
  const auto hyphen = reader.at;
  if (read_minus(reader).empty()) {
    reader.at = value_end;
    return true;
  }
  return reader.fail(Fault::hyphen_as_to, hyphen, reader.at);
}

bool read_range(Reader& reader, Reading& reading) {
  auto& first = reading.first;
  auto& second = reading.second;
  const auto begin = reader.at;
  first.sign = read_sign(reader);
  if (!read_number(reader, first)) return false;
  const auto number_end = reader.at;
  const bool shares_unit = !first.code && read_to(reader);
  if (!shares_unit) {
    if (!refuse_hyphen(reader) || !finish(reader, first, begin)) return false;
    if (!read_to(reader)) return refuse_hyphen(reader) && read_end(reader);
  }
  reading.count = 2;
  if (!read_value(reader, second)) return false;
  if (shares_unit) {
    if (second.code || second.unit.prefix != 0)
      return reader.fail(Fault::first_unit_missing, begin, number_end);
    if (!borrow_unit(reader, first, second, begin)) return false;
  }
  if (first.quantity.dimension != second.quantity.dimension)
    return reader.fail(Fault::ends_differ, begin, reader.at);
  auto& low_form = first.quantity.form;
  auto& high_form = second.quantity.form;
  if (low_form == Supply_form::unstated) low_form = high_form;
  if (high_form == Supply_form::unstated) high_form = low_form;
  if (low_form != high_form) return reader.fail(Fault::supply_forms_differ, begin, reader.at);
  return read_end(reader);
}

}

Outcome read(std::string_view text, Quantity_grammar grammar, Dimensions allowed) {
  Outcome outcome;
  Reader reader{text, grammar == Quantity_grammar::tolerance ? dimensions_of_tolerance(allowed) : allowed};
  skip_spaces(reader);
  bool whole = false;
  switch (grammar) {
  case Quantity_grammar::quantity:
    whole = read_value(reader, outcome.reading.first) && read_end(reader);
    break;
  case Quantity_grammar::tolerance: whole = read_tolerance(reader, outcome.reading); break;
  case Quantity_grammar::range: whole = read_range(reader, outcome.reading); break;
  }
  if (!whole) outcome.failure = reader.failure;
  return outcome;
}

std::optional<Fault> set_si(Quantity& quantity, const Decimal& number, Scaled_unit unit) {
  const Scale scale = scale_of(unit, quantity.dimension);
  const int exponent = number.exponent + scale.power;
  const int lowest = scale.offset_hundredths != 0 ? lowest_offset_exponent : lowest_exponent;
  if (exponent < lowest || exponent > highest_exponent) return Fault::out_of_reach;

  const double si = nearest(scaled(number, scale));
  if (quantity.dimension == Dimension::temperature && si < 0) return Fault::below_absolute_zero;
  if (const double size = std::fabs(si); size > 1e30 || (size != 0 && size < 1e-30))
    return Fault::out_of_reach;
  Scale half = scale;
  half.offset_hundredths = 0;
  quantity.si = si;
  quantity.half_digit = nearest(scaled({5, number.exponent - 1}, half));
  return std::nullopt;
}

Dimensions dimensions_of_tolerance(Dimensions allowed) {
  return allowed.has(Dimension::temperature)
             ? allowed.without(Dimension::temperature) | Dimension::temperature_difference
             : allowed;
}

}
