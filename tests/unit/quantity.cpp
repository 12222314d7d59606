// The grammar of quantities clause by clause, as spec/v1/quantities.md states it.
#include "ohmlore/quantity.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <map>
#include <ostream>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "ohmlore/text.h"

namespace ohmlore {

using Kind = Unit_problem::Kind;
using enum Dimension;

std::ostream& operator<<(std::ostream& out, Kind kind) { return out << static_cast<int>(kind); }

namespace {

constexpr auto q = Quantity_grammar::quantity;
constexpr auto t = Quantity_grammar::tolerance;
constexpr auto r = Quantity_grammar::range;

double si(std::string_view text, Dimensions allowed) {
  const auto parsed = parse_quantity(text, allowed);
  EXPECT_TRUE(parsed.value) << text << ": " << (parsed.problem ? parsed.problem->detail : "");
  EXPECT_NE(parsed.value.has_value(), parsed.problem.has_value()) << text;
  return parsed.value ? parsed.value->si : std::nan("");
}

Unit_problem refused(std::string_view text, Dimensions allowed, Quantity_grammar grammar = q) {
  std::optional<Unit_problem> problem;
  if (grammar == q) problem = parse_quantity(text, allowed).problem;
  if (grammar == t) problem = parse_tolerance(text, allowed).problem;
  if (grammar == r) problem = parse_range(text, allowed).problem;
  EXPECT_TRUE(problem) << "accepted: " << text;
  if (!problem) return {};
  EXPECT_FALSE(problem->detail.empty()) << text;
  EXPECT_LE(problem->begin, problem->end) << text;
  EXPECT_LE(problem->end, text.size()) << text;
  if (!problem->suggestion.empty()) {
    EXPECT_EQ(canonical_spelling(problem->suggestion, grammar, allowed), problem->suggestion) << text;
  }
  return *problem;
}

struct Refusal {
  std::string_view text;
  Dimensions allowed;
  Kind kind;
  std::uint32_t begin, end;
  std::string_view suggestion;
  std::string_view detail_part;
};

void expect_refused(const Refusal& c, Quantity_grammar grammar = q) {
  const auto problem = refused(c.text, c.allowed, grammar);
  EXPECT_EQ(problem.kind, c.kind) << c.text << ": " << problem.detail;
  EXPECT_EQ(problem.begin, c.begin) << c.text << ": " << problem.detail;
  EXPECT_EQ(problem.end, c.end) << c.text << ": " << problem.detail;
  EXPECT_EQ(problem.suggestion, c.suggestion) << c.text << ": " << problem.detail;
  EXPECT_NE(problem.detail.find(c.detail_part), std::string::npos) << c.text << ": " << problem.detail;
}

// A number is digits, with an optional sign and an optional point between digits.
TEST(Number, has_sign_digits_and_point) {
  EXPECT_EQ(si("10 Ω", resistance), 10);
  EXPECT_EQ(si("15.25 Ω", resistance), 15.25);
  EXPECT_EQ(si("0.470 Ω", resistance), 0.47);
  EXPECT_EQ(si("007 V", voltage), 7);
  EXPECT_EQ(si("+12 V", voltage), 12);
  EXPECT_EQ(si("-12 V", voltage), -12);
  EXPECT_EQ(si("\u2212"
               "12 V",
               voltage),
            -12);
  EXPECT_FALSE(std::signbit(si("-0 V", voltage)));
}

TEST(Number, needs_digits_on_both_sides_of_the_point) {
  expect_refused({".5 Ω", resistance, Kind::unreadable, 0, 5, "0.5 Ω", "no digit stands before the point"});
  expect_refused({"5. Ω", resistance, Kind::unreadable, 1, 5, "5 Ω", "no digit follows the point"});
  expect_refused({"5.Ω", resistance, Kind::unreadable, 1, 4, "5 Ω", "no digit follows the point"});
  expect_refused({"1.5. Ω", resistance, Kind::unreadable, 3, 7, "1.5 Ω", "no digit follows the point"});
  expect_refused({"1.000.000 Ω", resistance, Kind::unreadable, 5, 12, "", "a number has one point"});
  expect_refused(
      {"- 20 °C", temperature, Kind::unreadable, 1, 8, "-20 °C", "between the sign and the number"});
}

TEST(Number, is_needed) {
  expect_refused({"", resistance, Kind::unreadable, 0, 0, "", "a number is missing"});
  expect_refused({"  ", resistance, Kind::unreadable, 2, 2, "", "a number is missing"});
  expect_refused({"Ω", resistance, Kind::unreadable, 0, 2, "", "does not start with a number"});
  expect_refused({"about 10 Ω", resistance, Kind::unreadable, 0, 11, "", "\"about 10 Ω\" does not start"});
}

// Groups of digits are not separated.
TEST(Number, has_no_spaces_inside) {
  expect_refused({"10 000 Ω", resistance, Kind::unreadable, 3, 9, "10000 Ω", "inside the number"});
  expect_refused({"1 500.5 V", voltage, Kind::unreadable, 2, 9, "1500.5 V", "inside the number"});
  expect_refused({"10 00 Ω", resistance, Kind::unreadable, 3, 8, "", "left over"});
  expect_refused({"10 0000 Ω", resistance, Kind::unreadable, 3, 10, "", "left over"});
  expect_refused({"10 0 0 Ω", resistance, Kind::unreadable, 3, 9, "", "left over"});
  expect_refused({"10 000 x", resistance, Kind::unreadable, 3, 8, "", "left over"});
  expect_refused(
      {"1 000 V to 2 000 V", voltage, Kind::unreadable, 2, 18, "1000 V to 2000 V", "inside the number"}, r);
}

// At most 17 significant digits: leading zeros do not count, trailing zeros do.
TEST(Number, has_at_most_17_significant_digits) {
  EXPECT_EQ(si("12345678901234567 Ω", resistance), 12345678901234567.0);
  EXPECT_EQ(si("0.00012345678901234567 Ω", resistance), 0.00012345678901234567);
  expect_refused(
      {"123456789012345678 Ω", resistance, Kind::too_many_digits, 0, 18, "", "18 significant digits"});
  expect_refused({"1.00000000000000000 Ω", resistance, Kind::too_many_digits, 0, 19, "",
                  "18 significant digits; at most 17"});
  expect_refused({"123456789012345678R", resistance, Kind::too_many_digits, 0, 19, "", "18 significant"});
}

// The magnitude in SI is zero or from 1e-30 to 1e30.
TEST(Number, has_a_limited_magnitude) {
  EXPECT_EQ(si("1e-30 K^-6", per_kelvin_6), 1e-30);
  EXPECT_EQ(si("1e30 K^-6", per_kelvin_6), 1e30);
  EXPECT_EQ(si("0e-20 K^-6", per_kelvin_6), 0);
  expect_refused({"9e-31 K^-6", per_kelvin_6, Kind::out_of_reach, 0, 10, "", "1e-30"});
  expect_refused({"2e30 K^-6", per_kelvin_6, Kind::out_of_reach, 0, 9, "", "1e30"});
  // 2^32, and 10^320, which is a multiple of 2^320: exponents that come to nothing in a machine's integers.
  for (const auto* text : {"1e4294967296 K^-1", "1e-4294967296 K^-1", "1e320 K^-1", "1e9999 K^-1"})
    EXPECT_EQ(refused(text, per_kelvin).kind, Kind::out_of_reach) << text;
  expect_refused({"1e-99999999999999999999 K^-1", per_kelvin, Kind::out_of_reach, 0, 28, "", "1e-30"});
  const auto many = "0." + std::string(100000, '0') + "1 Ω";
  EXPECT_EQ(refused(many, resistance).kind, Kind::out_of_reach);
  // The last written digit stands for 1e-50 at least, of °C and °F for 1e-30.
  const auto zeros = [](std::size_t count) { return "0." + std::string(count, '0'); };
  EXPECT_EQ(si(zeros(50) + " Ω", resistance), 0);
  EXPECT_EQ(refused(zeros(51) + " Ω", resistance).kind, Kind::out_of_reach);
  EXPECT_EQ(si(zeros(53) + " kΩ", resistance), 0);
  EXPECT_EQ(si(zeros(29) + "1 °C", temperature), 273.15);
  EXPECT_EQ(refused(zeros(30) + "1 °C", temperature).kind, Kind::out_of_reach);
}

// Whether by one division or by long division: as strtod of glibc, which rounds correctly.
TEST(Number, is_the_nearest_double) {
  for (const std::string digits : {"1", "3", "9007199254740991", "9007199254740992", "9007199254740993",
                                   "9007199254740995", "18014398509481983", "98765432109876543"})
    for (int exponent = -46; exponent <= 29; ++exponent) {
      const std::string number = digits + "e" + std::to_string(exponent);
      const double nearest = std::strtod(number.c_str(), nullptr);
      if (nearest < 1e-30 || nearest > 1e30) continue;
      EXPECT_EQ(si(number + " K^-1", per_kelvin), nearest) << number;
    }
  // 9 °F are 5 K (NIST SP 811, B.8).
  for (int k = 1; k < 60; ++k)
    for (int zeros = 0; zeros < 26; ++zeros) {
      const std::string point = "0." + std::string(static_cast<std::size_t>(zeros), '0');
      const std::string digits = std::to_string(1000 + 5 * k), nine_fifths = std::to_string(1800 + 9 * k);
      EXPECT_EQ(si(point + nine_fifths + " °F", temperature_difference),
                std::strtod((point + digits).c_str(), nullptr))
          << digits << " " << zeros;
    }
}

// Only a coefficient has an exponent.
TEST(Number, has_an_exponent_only_in_coefficients) {
  EXPECT_EQ(si("3.9083e-3 K^-1", per_kelvin), 3.9083e-3);
  EXPECT_EQ(si("-5.775E-07 K^-2", per_kelvin_2), -5.775e-7);
  EXPECT_EQ(si("1e+2 K^-1", per_kelvin), 100);
  expect_refused({"1.5e3 Ω", resistance, Kind::unreadable, 3, 5, "1.5 kΩ", "exponent"});
  expect_refused({"1.5E+03 Ω", resistance, Kind::unreadable, 3, 7, "1.5 kΩ", "exponent"});
  expect_refused({"2.2e-6F", capacitance, Kind::unreadable, 3, 6, "2.2 µF", "exponent"});
  expect_refused({"1.5e4 Ω", resistance, Kind::unreadable, 3, 5, "", "exponent"});
  expect_refused({"1e2 °C", temperature, Kind::unreadable, 1, 3, "", "exponent"});
  expect_refused({"1e9 Ω", resistance, Kind::unreadable, 1, 3, "1 GΩ", "exponent"});
  for (const auto* text : {"2e K^-1", "2E+ K^-1", "2e- K^-1"})
    expect_refused({text, per_kelvin, Kind::unreadable, 1, 2, "", "the unit"});
}

// A comma is never read.
TEST(Number, has_no_comma) {
  expect_refused({"4,7 kΩ", resistance, Kind::decimal_comma, 1, 2, "4.7 kΩ", "decimal point"});
  expect_refused({"-0,470 V", voltage, Kind::decimal_comma, 2, 3, "-0.470 V", "decimal point"});
  expect_refused(
      {"1,000 Ω", resistance, Kind::decimal_comma, 1, 2, "", "1,000 can be read as 1000 or as 1.000"});
  expect_refused({"1,000,000 Ω", resistance, Kind::decimal_comma, 1, 2, "", "1000 or as 1.000"});
  expect_refused({"12345,678 Ω", resistance, Kind::decimal_comma, 5, 6, "12345.678 Ω", "decimal point"});
  expect_refused({"1,5 V to 2,5 V", voltage, Kind::decimal_comma, 1, 2, "1.5 V to 2.5 V", "decimal point"},
                 r);
  expect_refused({"+1,5 % -1,250 %", ratio, Kind::decimal_comma, 2, 3, "", "decimal point"}, t);
  // Four digits before it are no group of thousands, and a comma beside anything but digits is no decimal
  // one.
  EXPECT_EQ(refused("1234,567 Ω", resistance).suggestion, "1234.567 Ω");
  expect_refused({"123,456 Ω", resistance, Kind::decimal_comma, 3, 4, "", "123456 or as 123.456"});
  expect_refused({"1,000 V to 2,5 V", voltage, Kind::decimal_comma, 1, 2, "", "1,000 can be read"}, r);
  for (const auto* text : {"x,5 Ω", "5,x Ω", "5 ,5 Ω", "5,: Ω", "5,/ Ω"})
    EXPECT_EQ(refused(text, resistance).kind, Kind::unreadable) << text;
}

// A number without a unit is an error, never a guess.
TEST(Unit, is_needed) {
  expect_refused({"10", resistance, Kind::unit_missing, 0, 2, "", "for example \"10 kΩ\""});
  expect_refused({" -12.5 ", temperature, Kind::unit_missing, 1, 6, "", "for example \"25 °C\""});
  expect_refused({"5", ratio | resistance, Kind::unit_missing, 0, 1, "", "\"2 Ω\" or \"5 %\""}, t);
  expect_refused({"5", ratio | temperature, Kind::unit_missing, 0, 1, "", "\"1 K\" or \"5 %\""}, t);
  expect_refused({"10 to 20", resistance, Kind::unit_missing, 6, 8, "", "\"20\" has no unit"}, r);
}

TEST(Unit, spells_ohms) {
  for (const auto* text :
       {"10 Ω", "10\u2126", "10 ohm", "10 Ohm", "10OHM", "10 ohms", "10 Ohms", "10 OHMS", "10 R", "10R"})
    EXPECT_EQ(si(text, resistance), 10) << text;
  for (const auto* text : {"10 kΩ", "10 KΩ", "10k\u2126", "10kohm", "10 kOhm", "10 Kohm", "10 KOhm",
                           "10 KOHM", "10 kohms", "10 kilohm", "10 kilohms"})
    EXPECT_EQ(si(text, resistance), 10e3) << text;
  for (const auto* text :
       {"10 MΩ", "10 Mohm", "10 MOhm", "10 megohm", "10 Megohm", "10 megohms", "10 Megohms"})
    EXPECT_EQ(si(text, resistance), 10e6) << text;
  // Both are read as written; whether they are meant is a question for the linter.
  EXPECT_EQ(si("10 mΩ", resistance), 0.01);
  EXPECT_EQ(si("10 mohm", resistance), 0.01);
  EXPECT_EQ(si("2 GΩ", resistance), 2e9);
  EXPECT_EQ(si("50 µΩ", resistance), 50e-6);
}

TEST(Unit, spells_the_other_units) {
  EXPECT_EQ(si("24 mV", voltage), 0.024);
  EXPECT_EQ(si("15 kV", voltage), 15e3);
  EXPECT_EQ(si("5 µA", current), 5e-6);
  EXPECT_EQ(si("5 \u03BC"
               "A",
               current),
            5e-6);
  EXPECT_EQ(si("5 uA", current), 5e-6);
  EXPECT_EQ(si("100 nA", current), 100e-9);
  EXPECT_EQ(si("1.5 kW", power), 1500);
  EXPECT_EQ(si("470 pF", capacitance), 470e-12);
  EXPECT_EQ(si("4.7 nF", capacitance), 4.7e-9);
  EXPECT_EQ(si("2.5 uF", capacitance), 2.5e-6);
  EXPECT_EQ(si("20 ms", time), 0.02);
  EXPECT_EQ(si("30 s", time), 30);
  EXPECT_EQ(si("1.5 min", time), 90);
  EXPECT_EQ(si("2 h", time), 7200);
  EXPECT_EQ(si("0.5 d", time), 43200);
  EXPECT_EQ(si("5 %", ratio), 0.05);
  EXPECT_EQ(si("100%", ratio), 1);
  EXPECT_EQ(si("3977 K", thermal_constant), 3977);
}

// SI Brochure, 9th edition, table 7; which of them a unit takes, spec/v1/quantities.md.
TEST(Unit, takes_prefixes) {
  constexpr std::pair<std::string_view, double> prefixes[] = {
      {"p", 1e-12}, {"n", 1e-9}, {"µ", 1e-6}, {"m", 1e-3}, {"", 1}, {"k", 1e3}, {"M", 1e6}, {"G", 1e9}};
  struct Row {
    std::string_view unit;
    Dimension dimension;
    double si;
    std::size_t first, last; ///< of the prefixes
  };
  constexpr Row rows[] = {{"Ω", resistance, 1, 2, 7},
                          {"R", resistance, 1, 4, 4},
                          {"V", voltage, 1, 2, 5},
                          {"A", current, 1, 1, 5},
                          {"W", power, 1, 2, 6},
                          {"F", capacitance, 1, 0, 4},
                          {"K", temperature_difference, 1, 3, 4},
                          {"K", thermal_constant, 1, 4, 4},
                          {"°C", temperature_difference, 1, 4, 4},
                          {"s", time, 1, 2, 4},
                          {"min", time, 60, 4, 4},
                          {"h", time, 3600, 4, 4},
                          {"d", time, 86400, 4, 4},
                          {"%", ratio, 0.01, 4, 4}};
  for (const Row& row : rows)
    for (std::size_t i = 0; i < std::size(prefixes); ++i) {
      const std::string text = "1 " + std::string(prefixes[i].first) + std::string(row.unit);
      if (text == "1 min") continue; // a minute, and no inch with a prefix
      const auto read = parse_quantity(text, row.dimension);
      EXPECT_EQ(read.value.has_value(), i >= row.first && i <= row.last) << text;
      if (read.value) {
        EXPECT_EQ(read.value->si, row.si * prefixes[i].second) << text;
      }
    }
  EXPECT_EQ(si("1 min", time), 60);
}

// SI Brochure, 9th edition, tables 2, 4 and 8, have the symbols.
TEST(Unit, is_offered_where_misspelt) {
  struct Row {
    Dimension dimension;
    std::string_view canonical;
    std::vector<std::string_view> misspelt;
  };
  const Row rows[] = {{voltage, "V", {"v", "volt", "Volt", "volts"}},
                      {voltage, "mV", {"mv"}},
                      {voltage, "kV", {"kv", "KV"}},
                      {current, "A", {"a", "amp", "amps", "ampere", "Ampere"}},
                      {current, "mA", {"ma"}},
                      {current, "kA", {"KA"}},
                      {power, "W", {"w", "watt", "Watt", "watts"}},
                      {power, "kW", {"KW", "kw"}},
                      {capacitance, "pF", {"pf"}},
                      {capacitance, "nF", {"nf"}},
                      {capacitance, "µF", {"uf", "mfd", "MFD"}},
                      {temperature, "°C", {"C", "c", "celsius", "Celsius", "°"}},
                      {temperature, "°F", {"F"}},
                      {temperature, "K", {"°K", "degK", "kelvin", "Kelvin"}},
                      {time, "s", {"sec", "secs", "second", "seconds", "S"}},
                      {time, "min", {"mins", "minute", "minutes"}},
                      {time, "h", {"hour", "hours", "hr", "hrs", "H"}},
                      {resistance, "MΩ", {"meg", "Meg", "MEG"}},
                      {resistance, "Ω", {"r"}},
                      {ratio, "%", {"percent", "pct"}}};
  for (const Row& row : rows)
    for (const auto word : row.misspelt)
      EXPECT_EQ(refused("5 " + std::string(word), row.dimension).suggestion,
                "5 " + std::string(row.canonical))
          << word;
  // A metre or a prefix, and another power than that which heats: nothing is offered.
  for (const auto* text : {"5 VA", "5 m"})
    EXPECT_NE(refused(text, power).detail.find("is not a unit here: "), std::string::npos) << text;
}

TEST(Unit, is_refused_where_unknown) {
  expect_refused({"10 foo", resistance, Kind::unreadable, 3, 6, "", "\"foo\" is not known"});
  expect_refused({"10 GV", voltage, Kind::unreadable, 3, 5, "", "\"GV\" is not known"});
  expect_refused({"10 kR", resistance, Kind::unreadable, 3, 5, "", "\"kR\" is not known"});
  expect_refused({"15 KV", voltage, Kind::unreadable, 3, 5, "15 kV", "small k"});
  expect_refused({"3 sec", time, Kind::unreadable, 2, 5, "3 s", "second"});
  expect_refused({"20 C", temperature, Kind::unreadable, 3, 4, "20 °C", "coulomb"});
  expect_refused({"20 ° C", temperature, Kind::unreadable, 3, 5, "20 °C", "inside the unit"});
  expect_refused({"10 k Ω", resistance, Kind::unreadable, 3, 4, "10 kΩ", "inside the unit"});
  expect_refused({"47 k", resistance, Kind::unreadable, 3, 4, "47 kΩ", "prefix without its unit"});
  expect_refused({"47 n", capacitance, Kind::unreadable, 3, 4, "47 nF", "prefix without its unit"});
  expect_refused({"4n7", capacitance, Kind::unreadable, 1, 2, "4.7 nF", "resistances only"});
  expect_refused({"20 VA", power, Kind::unreadable, 3, 5, "", "apparent power"});
  expect_refused({"15.25 k", resistance, Kind::unreadable, 6, 7, "15.25 kΩ", "prefix without its unit"});
  expect_refused({"10 x Ω", resistance, Kind::unreadable, 3, 4, "", "\"x\" is not known"});
  expect_refused({"4x7", capacitance, Kind::unreadable, 1, 2, "", "\"x\" is not known"});
  expect_refused({"47Kx", resistance, Kind::unreadable, 2, 4, "", "\"Kx\" is not known"});
  expect_refused({"47KJx", resistance, Kind::unreadable, 2, 5, "", "\"KJx\" is not known"});
  expect_refused({"20 x to 30 °C", temperature, Kind::unreadable, 3, 4, "", "\"x\" is not known"}, r);
}

TEST(Unit, is_a_word_of_letters) {
  for (char c = '!'; c <= '~'; ++c) {
    const bool belongs = (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '%' || c == '_';
    EXPECT_EQ(refused(std::string("5 q") + c, voltage).end, belongs ? 4u : 3u) << c;
  }
  for (const auto* text : {"1:5 V", "1/5 V", ":1 V", "/1 V"}) refused(text, voltage);
}

TEST(Unit, is_refused_where_of_another_dimension) {
  expect_refused(
      {"24 V", resistance, Kind::wrong_dimension, 3, 4, "", "measures a voltage; a resistance (Ω)"});
  expect_refused({"47 K", resistance, Kind::wrong_dimension, 3, 4, "", "a thousand ohms is the small k"});
  for (const auto* text : {"24 V", "47 mK"})
    EXPECT_EQ(refused(text, resistance).detail.find("thousand"), std::string::npos) << text;
  expect_refused({"20 F", temperature, Kind::wrong_dimension, 3, 4, "20 °F", "capacitance"});
  expect_refused({"20 °C", thermal_constant, Kind::wrong_dimension, 3, 6, "", "temperature"});
  expect_refused({"5 mK", temperature, Kind::unreadable, 2, 4, "", "no prefix"});
  expect_refused({"5 kK", thermal_constant, Kind::unreadable, 2, 4, "", "\"kK\" is not known"});
  expect_refused({"1e-3 K", per_kelvin_2, Kind::wrong_dimension, 5, 6, "1e-3 K^-2", "temperature"});
  expect_refused({"1e-3 K^-1", per_kelvin_2, Kind::wrong_dimension, 5, 9, "", "coefficient"});
}

// One space, which may be a no-break, thin or narrow no-break space, or none.
TEST(Unit, follows_an_optional_space) {
  for (const auto* text :
       {"10kΩ", "10 kΩ", "10  kΩ", "10\u00A0kΩ", "10\u2009kΩ", "10\u202FkΩ", " 10 kΩ", "10 kΩ ",
        "\u00A0"
        "10 kΩ "})
    EXPECT_EQ(si(text, resistance), 10e3) << text;
  expect_refused({"10\tkΩ", resistance, Kind::unreadable, 2, 6, "", "\"\\x09kΩ\""});
  expect_refused({"10\x1FkΩ", resistance, Kind::unreadable, 2, 6, "", "\"\\x1FkΩ\""});
  expect_refused({"10\x7FkΩ", resistance, Kind::unreadable, 2, 6, "", "\"\\x7FkΩ\""});
}

TEST(Detail, quotes_no_more_than_59_characters) {
  const std::string longest(59, 'x');
  EXPECT_NE(refused(longest, resistance).detail.find("\"" + longest + "\" does"), std::string::npos);
  EXPECT_NE(refused(longest + "x", resistance).detail.find("\"" + longest + "…\" does"), std::string::npos);
}

TEST(Unit, ends_the_text) {
  expect_refused({"10 kΩ x", resistance, Kind::unreadable, 7, 8, "", "\"x\" is left over"});
  expect_refused({"31.7 - 33.6 kΩ", resistance, Kind::unreadable, 5, 15, "",
                  "\"- 33.6 kΩ\" makes it a range; its ends are two keys"});
  expect_refused({"10 kΩ - 5 %", resistance, Kind::unreadable, 7, 12, "10 kΩ", "\"- 5 %\" is a tolerance"});
  expect_refused({"10 kΩ +10 % -5 %", resistance, Kind::unreadable, 7, 17, "10 kΩ", "is a tolerance"});
  expect_refused({"10 . 5 kΩ", resistance, Kind::unreadable, 3, 10, "", "\". 5 kΩ\" is left over"});
  expect_refused({"> 1 MΩ", resistance, Kind::unreadable, 0, 7, "", "no \">\" is written before a value"});
  expect_refused(
      {"10 minutes", Dimension::time, Kind::unreadable, 3, 10, "10 min", "the minute is written min"});
  expect_refused({"10 kΩ ±5 %", resistance, Kind::unreadable, 7, 12, "10 kΩ", "tolerance"});
  expect_refused({"10 V to 12 V", voltage, Kind::unreadable, 5, 12, "", "range"});
  EXPECT_EQ(refused("10 V to 12 V", voltage).detail.find("two keys"), std::string::npos);
  expect_refused({"10 V .. 12 V", voltage, Kind::unreadable, 5, 12, "", "makes it a range"});
  expect_refused({"10 V -", voltage, Kind::unreadable, 5, 6, "", "\"-\" is left over"});
  expect_refused({"10 V x-5", voltage, Kind::unreadable, 5, 8, "", "\"x-5\" is left over"});
  expect_refused({"1.5 V x1", voltage, Kind::unreadable, 6, 8, "", "\"x1\" is left over"});
  expect_refused({"1.0.5", voltage, Kind::unreadable, 3, 5, "", "a number has one point"});
  expect_refused({"1.0.5 V", voltage, Kind::unreadable, 3, 7, "", "a number has one point"});
  expect_refused({"10 000V", voltage, Kind::unreadable, 3, 7, "10000 V", "inside the number"});
  expect_refused({"5 V .5", voltage, Kind::unreadable, 4, 6, "", "\".5\" is left over"});
  expect_refused({"5 V @ 3 A", voltage, Kind::unreadable, 4, 9, "", "\"@ 3 A\" is left over"});
  expect_refused({"10 kΩ x5 %", resistance, Kind::unreadable, 7, 11, "", "\"x5 %\" is left over"});
  expect_refused({"10 kΩ +/-500 Ω", resistance, Kind::unreadable, 7, 16, "10 kΩ", "is a tolerance"});
  expect_refused({"25 °C / 85 °C", temperature, Kind::unreadable, 7, 15, "", "left over; a temperature"});
  expect_refused({"10 V_x", voltage, Kind::unreadable, 3, 6, "", "\"V_x\" is not known"});
  expect_refused({"~230 V", voltage, Kind::unreadable, 0, 6, "", "does not start with a number"});
  expect_refused({"10 %%", ratio, Kind::unreadable, 3, 5, "", "\"%%\""});
}

TEST(Supply_form, follows_volts_and_amperes) {
  const auto form = [](std::string_view text, Dimensions allowed) {
    const auto parsed = parse_quantity(text, allowed);
    EXPECT_TRUE(parsed.value) << text;
    return parsed.value ? parsed.value->form : Supply_form::unstated;
  };
  for (const auto* text :
       {"24 V dc", "24 V DC", "24 Vdc", "24VDC", "24V dc", "24 V d.c.", "24 Vd.c.", "24 V\u2393"})
    EXPECT_EQ(form(text, voltage), Supply_form::dc) << text;
  for (const auto* text : {"230 V ac", "230 V AC", "230 Vac", "230VAC", "230 V~", "230 V ~", "230 V a.c."})
    EXPECT_EQ(form(text, voltage), Supply_form::ac) << text;
  EXPECT_EQ(form("20 mA dc", current), Supply_form::dc);
  EXPECT_EQ(form("20 mAdc", current), Supply_form::dc);
  EXPECT_EQ(form("20 mAa.c.", current), Supply_form::ac);
  EXPECT_EQ(form("24 V", voltage), Supply_form::unstated);
  expect_refused({"24 V=", voltage, Kind::unreadable, 4, 5, "24 V dc", "dc"});
  expect_refused({"5 W dc", power, Kind::unreadable, 4, 6, "", "left over"});
  expect_refused({"5 Wdc", power, Kind::unreadable, 2, 5, "", "not known"});
  expect_refused({"5 Wd.c.", power, Kind::unreadable, 2, 4, "", "not known"});
  expect_refused({"24 Vd.c", voltage, Kind::unreadable, 3, 5, "", "not known"});
  expect_refused({"24 Vx.c.", voltage, Kind::unreadable, 3, 5, "", "\"Vx\" is not known"});
  expect_refused({"24 V dcx", voltage, Kind::unreadable, 5, 8, "", "left over"});
}

// A temperature is absolute; its SI value is in kelvin. 0 °C = 273.15 K, 32 °F = 0 °C.
TEST(Temperature, is_in_kelvin) {
  for (const auto* text : {"20 °C", "20°C", "20 \u2103", "20 ºC",
                           "20 \u02DA"
                           "C",
                           "20 degC", "20.00 °C", "68 °F", "68 degF", "68 \u2109", "68 ºF", "68 \u02DAF",
                           "293.15 K", "293.15 \u212A"})
    EXPECT_EQ(si(text, temperature), 293.15) << text;
  EXPECT_EQ(si("-40 °C", temperature), si("-40 °F", temperature));
  EXPECT_EQ(si("0 K", temperature), 0);
  EXPECT_EQ(si("-273.15 °C", temperature), 0);
  EXPECT_EQ(si("-459.67 °F", temperature), 0);
}

TEST(Temperature, is_not_below_absolute_zero) {
  expect_refused({"-273.16 °C", temperature, Kind::out_of_reach, 0, 11, "", "below absolute zero"});
  expect_refused({"-1 K", temperature, Kind::out_of_reach, 0, 4, "", "below absolute zero"});
  expect_refused({"-500 °F", temperature, Kind::out_of_reach, 0, 8, "", "below absolute zero"});
}

// A difference is in kelvin; degrees are read as differences only where no temperature may stand.
TEST(Temperature_difference, has_no_offset) {
  EXPECT_EQ(si("3 K", temperature_difference), 3);
  EXPECT_EQ(si("50 mK", temperature_difference), 0.05);
  EXPECT_EQ(si("3 °C", temperature_difference), 3);
  EXPECT_EQ(si("9 °F", temperature_difference), 5);
  EXPECT_EQ(si("-300 K", temperature_difference), -300);
  const auto both = parse_quantity("3 °C", temperature | temperature_difference);
  ASSERT_TRUE(both.value);
  EXPECT_EQ(both.value->dimension, temperature);
}

TEST(Coefficient, is_per_kelvin) {
  for (const auto* text :
       {"2e-3 K^-1", "2e-3 1/K", "2e-3/K", "2e-3 /K", "2e-3 K\u207B\u00B9", "0.002 K^-1", "2e-3 1/°C"})
    EXPECT_EQ(si(text, per_kelvin), 2e-3) << text;
  for (const auto* text : {"2e-3 K^-2", "2e-3 1/K^2", "2e-3/K²", "2e-3 K\u207B²",
                           "2e-3 K^\u2212"
                           "2"})
    EXPECT_EQ(si(text, per_kelvin_2), 2e-3) << text;
  EXPECT_EQ(si("1 K^-6", per_kelvin_6), 1);
  EXPECT_EQ(si("1 K\u207B\u2076", per_kelvin_6), 1);
  expect_refused({"1 K^-7", per_kelvin_6, Kind::wrong_dimension, 2, 3, "", "temperature"});
  expect_refused({"1 K^2", per_kelvin_2, Kind::wrong_dimension, 2, 3, "", "temperature"});
  // A degree Fahrenheit is another one than a kelvin.
  for (const auto* text : {"1 mK^-1", "1 1/mK", "1 1/°F", "1/°F", "1 1/s", "1 /V", "1 K²", "1 K¹"})
    refused(text, per_kelvin | per_kelvin_2);
  expect_refused({"1 K^-12", per_kelvin, Kind::wrong_dimension, 2, 3, "", "temperature"});
  // A forgotten exponent is offered behind K alone.
  expect_refused({"2 K", per_kelvin, Kind::wrong_dimension, 2, 3, "2 K^-1", "temperature"});
  expect_refused({"2 V", per_kelvin, Kind::wrong_dimension, 2, 3, "", "voltage"});
}

// IEC 60062: the letter stands at the decimal point. Read only where a resistance may stand.
TEST(Code, has_its_letter_at_the_point) {
  EXPECT_EQ(si("4k7", resistance), 4700);
  EXPECT_EQ(si("4K7", resistance), 4700);
  EXPECT_EQ(si("R47", resistance), 0.47);
  EXPECT_EQ(si("4R7", resistance), 4.7);
  EXPECT_EQ(si("47K", resistance), 47e3);
  EXPECT_EQ(si("47k", resistance), 47e3);
  EXPECT_EQ(si("4M7", resistance), 4.7e6);
  EXPECT_EQ(si("470R", resistance), 470);
  EXPECT_EQ(si("1G5", resistance), 1.5e9);
  EXPECT_EQ(si("47K", temperature), 47);
  expect_refused({"R47", voltage, Kind::unreadable, 0, 3, "", "does not start with a number"});
  // Before R alone no digit needs to stand, and some must stand around it.
  for (const auto* text : {"R", "R Ω", "k", "k7", "M1", "G5"}) refused(text, resistance);
}

TEST(Code, has_no_point_tolerance_or_unit) {
  expect_refused({"15.25k", resistance, Kind::unreadable, 0, 6, "15.25 kΩ", "no point"});
  expect_refused({"4.7M", resistance, Kind::unreadable, 0, 4, "4.7 MΩ", "no point"});
  expect_refused({"4K7K", resistance, Kind::unreadable, 3, 4, "4.7 kΩ", "10 %"});
  expect_refused({"47KJ", resistance, Kind::unreadable, 3, 4, "47 kΩ", "5 %"});
  expect_refused({"47RJ", resistance, Kind::unreadable, 3, 4, "47 Ω", "5 %"}); // IEC 60062: J behind 47R
  expect_refused({"R47 F", resistance, Kind::unreadable, 4, 5, "0.47 Ω", "1 %"});
  expect_refused({"4k7Ω", resistance, Kind::unreadable, 3, 5, "4.7 kΩ", "its unit already"});
  // Letters that are no prefix are units, and those that are no tolerance are left over.
  EXPECT_EQ(refused("15.25V", resistance).kind, Kind::wrong_dimension);
  EXPECT_NE(refused("4k7 F", resistance).detail.find("1 %"), std::string::npos);
  EXPECT_NE(refused("4k7 x", resistance).detail.find("left over"), std::string::npos);
  EXPECT_NE(refused("4k7 FF", resistance).detail.find("left over"), std::string::npos);
  EXPECT_EQ(refused("3.5k", resistance | temperature_difference, t).suggestion, "3.5 kΩ");
}

// IEC 60062, letters of symmetrical relative tolerances (F, J and K as published, the others from memory).
TEST(Code, has_letters_for_tolerances) {
  constexpr std::pair<char, std::string_view> letters[] = {{'B', "0.1 %"}, {'C', "0.25 %"}, {'D', "0.5 %"},
                                                           {'F', "1 %"},   {'G', "2 %"},    {'J', "5 %"},
                                                           {'K', "10 %"},  {'M', "20 %"}};
  for (const auto& [letter, percent] : letters) {
    const std::string text = std::string("4k7 ") + letter;
    const std::string part = "is its tolerance, " + std::string(percent) + ",";
    expect_refused({text, resistance, Kind::unreadable, 4, 5, "4.7 kΩ", part});
  }
}

// half_digit is half of the last written digit.
TEST(Half_digit, follows_the_written_digits) {
  const auto half = [](std::string_view text, Dimensions allowed) {
    return parse_quantity(text, allowed).value->half_digit;
  };
  EXPECT_EQ(half("10 kΩ", resistance), 500);
  EXPECT_EQ(half("15.250 kΩ", resistance), 0.5);
  EXPECT_EQ(half("15.25 kΩ", resistance), 5);
  EXPECT_EQ(half("4k7", resistance), 50);
  EXPECT_EQ(half("R47", resistance), 0.005);
  EXPECT_EQ(half("25 °C", temperature), 0.5);
  EXPECT_EQ(half("-25.0 °C", temperature), 0.05);
  EXPECT_EQ(half("9 °F", temperature), 2.5 / 9);
  EXPECT_EQ(half("5 %", ratio), 0.005);
  EXPECT_EQ(half("2 min", time), 30);
  EXPECT_EQ(half("1.4e-3 K^-1", per_kelvin), 0.05e-3);
  EXPECT_EQ(half("0 Ω", resistance), 0.5);
}

// Characters that look right are refused by name, or accepted and noted.
TEST(Look_alike, is_refused_by_name) {
  expect_refused(
      {"10 \u041AΩ", resistance, Kind::look_alike, 3, 5, "10 kΩ", "U+041A CYRILLIC CAPITAL LETTER KA"});
  expect_refused(
      {"10 \u039AΩ", resistance, Kind::look_alike, 3, 5, "10 kΩ", "U+039A GREEK CAPITAL LETTER KAPPA"});
  expect_refused(
      {"10 \u039CΩ", resistance, Kind::look_alike, 3, 5, "10 MΩ", "U+039C GREEK CAPITAL LETTER MU"});
  expect_refused({"10 \u041Ehm", resistance, Kind::look_alike, 3, 5, "10 Ω", "U+041E"});
  expect_refused({"1.2\u0415-3 K^-1", per_kelvin, Kind::look_alike, 3, 5, "1.2e-3 K^-1", "U+0415"});
  expect_refused(
      {"\uFF11\uFF10 kΩ", resistance, Kind::look_alike, 0, 3, "10 kΩ", "U+FF11 FULLWIDTH DIGIT ONE"});
  expect_refused({"5 \uFF05", ratio, Kind::look_alike, 2, 5, "5 %", "U+FF05"});
  expect_refused({"\u2013"
                  "20 °C",
                  temperature, Kind::look_alike, 0, 3, "-20 °C", "U+2013 EN DASH"});
  expect_refused({"20 °\u0421", temperature, Kind::look_alike, 5, 7, "20 °C", "U+0421"});
  expect_refused({"10\u200B kΩ", resistance, Kind::look_alike, 2, 5, "10 kΩ", "is not seen"});
  expect_refused({"\u2013"
                  "20 °C\u2013"
                  "30 °C",
                  temperature, Kind::look_alike, 0, 3, "", "U+2013"},
                 r);
  expect_refused({"20 °\u0421\u2013"
                  "30 °C",
                  temperature, Kind::look_alike, 5, 7, "20 °C to 30 °C", "U+0421"},
                 r);
  // Between the ends an en dash is right: what else is wrong is told.
  expect_refused({"9,6 °C \u2013 24 °C", temperature, Kind::decimal_comma, 1, 2, "9.6 °C to 24 °C", "comma"},
                 r);
  expect_refused({"20 \u2013 30 C", temperature, Kind::unreadable, 10, 11, "20 °C to 30 °C", "coulomb"}, r);
  expect_refused({"5 \u2013 30 C", temperature, Kind::unreadable, 9, 10, "5 °C to 30 °C", "coulomb"}, r);
  expect_refused({"20\u2013"
                  "30 °C",
                  temperature, Kind::look_alike, 2, 5, "", "U+2013"});
  expect_refused({"20 to \u2013"
                  "5 °C",
                  temperature, Kind::look_alike, 6, 9, "20 °C to -5 °C", "U+2013"},
                 r);
}

// What each stands for: Unicode 14.0, NFKC, of the small and fullwidth forms; the glyphs of the code charts
// of the others, R for the letters that sound so. Any other character is unknown here, and no look-alike.
TEST(Look_alike, is_each_of_these_and_no_other) {
  std::map<char32_t, std::string> meant = {
      {0x0410, "A"}, {0x0412, "B"}, {0x0421, "C"},  {0x0415, "E"},  {0x041A, "K"}, {0x041C, "M"},
      {0x041D, "H"}, {0x041E, "O"}, {0x0420, "R"},  {0x0430, "a"},  {0x0441, "c"}, {0x0435, "e"},
      {0x043A, "k"}, {0x043C, "m"}, {0x043E, "o"},  {0x0440, "p"},  {0x0455, "s"}, {0x0391, "A"},
      {0x0392, "B"}, {0x039A, "K"}, {0x039C, "M"},  {0x039F, "O"},  {0x03A1, "R"}, {0x03BA, "k"},
      {0x03BF, "o"}, {0x03C9, "Ω"}, {0x1D00, "A"},  {0x2010, "-"},  {0x2011, "-"}, {0x2012, "-"},
      {0x2013, "-"}, {0x2014, "-"}, {0x2015, "-"},  {0xFE58, "-"},  {0xFE63, "-"}, {0xFE62, "+"},
      {0xFE6A, "%"}, {0x066A, "%"}, {0x2070, "°C"}, {0x1D52, "°C"}, {0x00AD, ""},  {0x200B, ""},
      {0x2060, ""},  {0xFEFF, ""}};
  for (const char c : std::string_view("%+-./0123456789ACFGKMORVWcdhkmnopsu"))
    meant[0xFF00 + static_cast<char32_t>(c) - 0x20] = c;
  for (char32_t c = 0x80; c < 0x10000; ++c) {
    if (c >= 0xD800 && c <= 0xDFFF) continue;
    std::string text = "5 ";
    append_code_point(text, c);
    const auto parsed = parse_quantity(text + "C", resistance);
    const bool is_look_alike = parsed.problem && parsed.problem->kind == Kind::look_alike;
    const auto wanted = meant.find(c);
    ASSERT_EQ(is_look_alike, wanted != meant.end()) << std::hex << static_cast<std::uint32_t>(c);
    if (!is_look_alike) continue;
    char name[8];
    std::snprintf(name, sizeof name, "U+%04X ", static_cast<unsigned>(c));
    EXPECT_TRUE(parsed.problem->detail.starts_with(name)) << parsed.problem->detail;
    const std::string looks =
        wanted->second.empty() ? "stands here and is not seen" : "only looks like \"" + wanted->second + "\"";
    EXPECT_TRUE(parsed.problem->detail.ends_with(looks)) << parsed.problem->detail;
  }
}

TEST(Look_alike, is_noted_where_accepted) {
  for (const auto& [text, allowed, detail] :
       {std::tuple{"10 \u2126", resistance, "U+2126 OHM SIGN stands for Ω"},
        std::tuple{"10 \u03BCΩ", resistance, "U+03BC GREEK SMALL LETTER MU stands for µ"},
        std::tuple{"20 \u00BAC", temperature, "U+00BA MASCULINE ORDINAL INDICATOR stands for °"},
        std::tuple{"20 \u02DAC", temperature, "U+02DA RING ABOVE stands for °"},
        std::tuple{"\u221220 °C", temperature, "U+2212 MINUS SIGN stands for -"},
        std::tuple{"20 \u212A", temperature, "U+212A KELVIN SIGN stands for K"}})
    EXPECT_EQ(spelling_problem(text, q, allowed)->detail, detail);
  for (const auto* text : {"10 \u2126", "10 \u03BCΩ",
                           "\u2212"
                           "10 Ω"}) {
    const auto note = spelling_problem(text, q, resistance);
    ASSERT_TRUE(note) << text;
    EXPECT_EQ(note->kind, Kind::look_alike_accepted) << text;
    EXPECT_EQ(si(text, resistance), si(note->suggestion, resistance)) << text;
  }
  const auto note = spelling_problem("20 ºC", q, temperature);
  ASSERT_TRUE(note);
  EXPECT_EQ(note->kind, Kind::look_alike_accepted);
  EXPECT_EQ(note->begin, 3u);
  EXPECT_EQ(note->end, 5u);
  EXPECT_NE(note->detail.find("U+00BA MASCULINE ORDINAL INDICATOR"), std::string::npos);
  EXPECT_EQ(note->suggestion, "20 °C");
  EXPECT_EQ(spelling_problem("20 \u02DA"
                             "C",
                             q, temperature)
                ->kind,
            Kind::look_alike_accepted);
  EXPECT_EQ(spelling_problem("20 \u212A", q, temperature)->kind, Kind::look_alike_accepted);
}

void expect_tolerance(std::string_view text, Dimensions allowed, double minus, double plus,
                      Dimension dimension) {
  const auto parsed = parse_tolerance(text, allowed);
  ASSERT_TRUE(parsed.value) << text << ": " << parsed.problem->detail;
  EXPECT_EQ(parsed.value->minus, minus) << text;
  EXPECT_EQ(parsed.value->plus, plus) << text;
  EXPECT_EQ(parsed.value->dimension, dimension) << text;
}

TEST(Tolerance_text, has_both_sides_in_one) {
  for (const auto* text : {"5 %", "5%", "±5 %", "± 5%", "+/-5%", "+/- 5 %", "+-5 %",
                           "+/\u2212"
                           "5 %",
                           " ±5 % "})
    expect_tolerance(text, ratio | resistance, 0.05, 0.05, ratio);
  expect_tolerance("2 Ω", ratio | resistance, 2, 2, resistance);
  expect_tolerance("5 %", ratio | temperature_difference, 0.05, 0.05, ratio);
  expect_tolerance("R47", ratio | resistance, 0.47, 0.47, resistance);
  // A lint rule judges it, not the grammar.
  expect_tolerance("+50 % -150 %", ratio, 1.5, 0.5, ratio);
}

TEST(Tolerance_text, has_two_sides) {
  for (const auto* text : {"+10 % -5 %", "-5 % +10 %", "+10%-5%", "+10/-5 %", "+10 / -5 %", "-5/+10 %",
                           "+10 % / -5 %", "+ 10 % - 5 %",
                           "+10 % \u2212"
                           "5 %"})
    expect_tolerance(text, ratio | resistance, 0.05, 0.1, ratio);
  expect_tolerance("+1 K -2 K", ratio | temperature_difference, 2, 1, temperature_difference);
  expect_tolerance("+1k -2R", ratio | resistance, 2, 1000, resistance);
  expect_tolerance("+1k / -2R", ratio | resistance, 2, 1000, resistance);
  EXPECT_TRUE(parse_tolerance("5 %", ratio).value->relative());
}

TEST(Tolerance_text, of_a_temperature_is_a_difference) {
  expect_tolerance("2 K", ratio | temperature, 2, 2, temperature_difference);
  expect_tolerance("±2 °C", ratio | temperature, 2, 2, temperature_difference);
  expect_tolerance("40 K", ratio | thermal_constant, 40, 40, thermal_constant);
}

TEST(Tolerance_text, is_refused) {
  expect_refused({"+10 %", ratio, Kind::unreadable, 0, 5, "+10 % -0 %", "only the plus side"}, t);
  expect_refused({"-10 %", ratio, Kind::unreadable, 0, 5, "+0 % -10 %", "only the minus side"}, t);
  expect_refused({"+10 % +5 %", ratio, Kind::unreadable, 6, 7, "", "same sign"}, t);
  expect_refused({"+10 % -2 Ω", ratio | resistance, Kind::unreadable, 0, 11, "", "relative and an absolute"},
                 t);
  expect_refused({"+10 -5 %", ratio, Kind::unit_missing, 1, 3, "+10 % -5 %", "first value has no unit"}, t);
  expect_refused({"5 % 3 %", ratio, Kind::unreadable, 4, 7, "", "left over"}, t);
  expect_refused({"±5 % x", ratio, Kind::unreadable, 6, 7, "", "left over"}, t);
  expect_refused({"5 % ±3 %", ratio, Kind::unreadable, 4, 9, "", "left over"}, t);
  expect_refused({"+10 % / 5 %", ratio, Kind::unreadable, 6, 11, "", "left over"}, t);
  expect_refused({"+10 Ω -", resistance, Kind::unreadable, 8, 8, "", "a number is missing"}, t);
  expect_refused({"+1e1/-5 Ω", resistance, Kind::unreadable, 2, 4, "", "exponent"}, t);
  expect_refused({"2 Ω", ratio, Kind::wrong_dimension, 2, 4, "", "resistance"}, t);
  expect_refused({"±-5 %", ratio, Kind::unreadable, 2, 6, "", "start with a number"}, t);
  // A first side that is none is none whatever follows.
  refused("+ % -5 %", ratio, t);
  refused("-5 % 5 %", ratio, t);
  EXPECT_EQ(refused("+5 V -5 Ω", resistance, t).kind, Kind::wrong_dimension);
  refused("+1e1/-5 %", ratio, t);
}

void expect_range(std::string_view text, Dimensions allowed, double low, double high) {
  const auto parsed = parse_range(text, allowed);
  ASSERT_TRUE(parsed.value) << text << ": " << parsed.problem->detail;
  EXPECT_EQ(parsed.value->low.si, low) << text;
  EXPECT_EQ(parsed.value->high.si, high) << text;
  EXPECT_FALSE(parsed.value->single) << text;
}

TEST(Range_text, has_two_values) {
  for (const auto* text : {"-20 °C to 110 °C", "-20 to 110 °C", "-20°C to 110°C", "-20 °C  to  +110 °C",
                           "-20..110 °C", "-20 .. 110 °C", "-20...110 °C",
                           "-20\u2026"
                           "110 °C",
                           "-20 °C \u2026 110 °C",
                           "-20\u2013"
                           "110 °C",
                           "-20 °C \u2013 110 °C",
                           "-20 °C\u00A0to\u00A0"
                           "110 °C"})
    expect_range(text, temperature, 253.15, 383.15);
  expect_range("9k8 to 10.2 kΩ", resistance, 9800, 10200);
  expect_range("-20 to -10 °C", temperature, 253.15, 263.15);
  expect_range("12 Ω to 10 Ω", resistance, 12, 10); // as written: whether it is inverted is for the linter
}

TEST(Range_text, may_be_one_value) {
  const auto parsed = parse_range("10 kΩ", resistance);
  ASSERT_TRUE(parsed.value);
  EXPECT_TRUE(parsed.value->single);
  EXPECT_EQ(parsed.value->low.si, 10e3);
  EXPECT_EQ(parsed.value->high.si, 10e3);
  EXPECT_EQ(parsed.value->high.half_digit, 500);
}

TEST(Range_text, has_one_supply_form) {
  const auto parsed = parse_range("200 V to 240 V ac", voltage);
  ASSERT_TRUE(parsed.value);
  EXPECT_EQ(parsed.value->low.form, Supply_form::ac);
  EXPECT_EQ(parsed.value->high.form, Supply_form::ac);
  EXPECT_EQ(canonical_spelling("200 V ac to 240 V", r, voltage), "200 V ac to 240 V ac");
  expect_refused({"12 V ac to 24 V dc", voltage, Kind::unreadable, 0, 18, "", "ac and the other is dc"}, r);
}

TEST(Range_text, is_refused) {
  expect_refused({"20-30 °C", temperature, Kind::unreadable, 2, 3, "20 °C to 30 °C", "hyphen"}, r);
  expect_refused({"20 °C - 30 °C", temperature, Kind::unreadable, 7, 8, "20 °C to 30 °C", "hyphen"}, r);
  expect_refused({"-20--10 °C", temperature, Kind::unreadable, 3, 4, "-20 °C to -10 °C", "hyphen"}, r);
  expect_refused({"1 to 10 kΩ", resistance, Kind::unit_missing, 0, 1, "1 kΩ to 10 kΩ", "prefix"}, r);
  expect_refused({"1 to 4k7", resistance, Kind::unit_missing, 0, 1, "1 kΩ to 4.7 kΩ", "prefix"}, r);
  expect_refused({"20 °C to", temperature, Kind::unreadable, 7, 9, "", "left over"}, r);
  expect_refused({"20 °C to 30 V", temperature, Kind::wrong_dimension, 13, 14, "", "voltage"}, r);
  for (const auto* text :
       {"20 °C 30 °C", "20 30 °C", "20to 30 °C", "20 °Cto 30 °C", "20 to30 °C", "20 to 30 °C x"})
    refused(text, temperature, r);
  expect_refused({"1 to 4R7", resistance, Kind::unit_missing, 0, 1, "1 Ω to 4.7 Ω", "has no unit"}, r);
  expect_refused({"10 V to 12 V to 14 V", voltage, Kind::unreadable, 13, 20, "", "left over"}, r);
  expect_refused({"25 °C x", temperature, Kind::unreadable, 7, 8, "", "\"x\" is left over; a temperature"},
                 r);
  expect_refused({"25 °C / 85 °C", temperature, Kind::unreadable, 7, 15, "", "two ends are written"}, r);
  expect_refused({"20-30 x", temperature, Kind::unreadable, 2, 3, "", "; write \"to\""}, r);
  refused("to 10 Ω", resistance, r);
  refused("x to 10 Ω", resistance, r);
  refused("..10 Ω", resistance, r);
  EXPECT_NE(refused("-300 to 20 °C", temperature, r).detail.find("absolute zero"), std::string::npos);
  expect_refused({"5 V to 3 A", voltage | current, Kind::wrong_dimension, 0, 10, "", "different things"}, r);
}

// One canonical spelling each, with the written digits.
TEST(Canonical, keeps_digits_and_prefix) {
  const auto canonical = [](std::string_view text, Dimensions allowed) {
    return canonical_spelling(text, q, allowed);
  };
  EXPECT_EQ(canonical("4k7", resistance), "4.7 kΩ");
  EXPECT_EQ(canonical("R47", resistance), "0.47 Ω");
  EXPECT_EQ(canonical("47K", resistance), "47 kΩ");
  EXPECT_EQ(canonical("10kohm", resistance), "10 kΩ");
  EXPECT_EQ(canonical("4.70 KΩ", resistance), "4.70 kΩ");
  EXPECT_EQ(canonical("+4700 R", resistance), "4700 Ω");
  EXPECT_EQ(canonical("1 megohm", resistance), "1 MΩ");
  EXPECT_EQ(canonical("24Vdc", voltage), "24 V dc");
  EXPECT_EQ(canonical("230 V~", voltage), "230 V ac");
  EXPECT_EQ(canonical("4 uF", capacitance), "4 µF");
  EXPECT_EQ(canonical("\u2212"
                      "20degC",
                      temperature),
            "-20 °C");
  EXPECT_EQ(canonical("68 degF", temperature), "68 °F"); // °C would have other digits
  EXPECT_EQ(canonical("293.15K", temperature), "293.15 K");
  EXPECT_EQ(canonical("3 °C", temperature_difference), "3 K");
  EXPECT_EQ(canonical("9 °F", temperature_difference), "9 °F");
  EXPECT_EQ(canonical("-0 °C", temperature), "0 °C");
  EXPECT_EQ(canonical("1.40E-03 1/K", per_kelvin), "1.40e-3 K^-1");
  EXPECT_EQ(canonical("1.4E+03 1/K", per_kelvin), "1.4e3 K^-1");
  EXPECT_EQ(canonical("1e+00/K²", per_kelvin_2), "1e0 K^-2");
  for (const auto* text : {"1.5 min", "2 h", "0.5 d", "30 s"}) EXPECT_EQ(canonical(text, time), text);
  EXPECT_EQ(canonical("10 V", resistance), "");
}

TEST(Canonical, of_tolerances_and_ranges) {
  const auto tolerance = [](std::string_view text) {
    return canonical_spelling(text, t, ratio | temperature);
  };
  EXPECT_EQ(tolerance("±5%"), "5 %");
  EXPECT_EQ(tolerance("+5%-5%"), "5 %");
  EXPECT_EQ(tolerance("+5 % -5.0 %"), "+5 % -5.0 %"); // digits are kept
  EXPECT_EQ(tolerance("-5%+10%"), "+10 % -5 %");
  EXPECT_EQ(tolerance("+10/-5 %"), "+10 % -5 %");
  EXPECT_EQ(tolerance("+1 °C -2 °C"), "+1 K -2 K");
  EXPECT_EQ(canonical_spelling("+1/-2 V dc", t, voltage), "+1 V dc -2 V dc");
  const auto range = [](std::string_view text) { return canonical_spelling(text, r, temperature); };
  EXPECT_EQ(range("-20..+110 °C"), "-20 °C to 110 °C");
  EXPECT_EQ(range("20degC"), "20 °C");
}

TEST(Spelling, is_silent_about_canonical_text) {
  for (const auto dimension : {resistance, voltage, current, power, capacitance, temperature,
                               temperature_difference, thermal_constant, per_kelvin, per_kelvin_2,
                               per_kelvin_3, per_kelvin_4, per_kelvin_5, per_kelvin_6, time, ratio}) {
    const auto example = dimension_example(dimension);
    EXPECT_TRUE(parse_quantity(example, dimension).value) << example;
    EXPECT_FALSE(spelling_problem(example, q, dimension)) << example;
  }
  EXPECT_FALSE(spelling_problem("+10 % -5 %", t, ratio));
  EXPECT_FALSE(spelling_problem("-20 °C to 110 °C", r, temperature));
  EXPECT_FALSE(spelling_problem("refused", q, temperature)); // the parse function says what is wrong
}

TEST(Spelling, says_what_is_unusual) {
  const auto expect_note = [](std::string_view text, Quantity_grammar grammar, Dimensions allowed,
                              std::uint32_t begin, std::uint32_t end, std::string_view part) {
    const auto note = spelling_problem(text, grammar, allowed);
    ASSERT_TRUE(note) << text;
    EXPECT_EQ(note->kind, Kind::not_canonical) << text;
    EXPECT_EQ(note->begin, begin) << text;
    EXPECT_EQ(note->end, end) << text;
    EXPECT_NE(note->detail.find(part), std::string::npos) << text << ": " << note->detail;
    EXPECT_EQ(note->suggestion, canonical_spelling(text, grammar, allowed));
  };
  expect_note("4k7", q, resistance, 0, 3, "IEC 60062");
  expect_note("R47", q, resistance, 0, 3, "IEC 60062");
  expect_note("10 ohm", q, resistance, 3, 6, "the unit Ω is spelled \"ohm\"");
  expect_note("10kΩ", q, resistance, 2, 5, "one ordinary space");
  expect_note("10\u00A0kΩ", q, resistance, 2, 4, "one ordinary space");
  expect_note("24 V DC", q, voltage, 4, 7, "\" dc\" is spelled \" DC\"");
  expect_note("24 V AC", q, voltage, 4, 7, "\" ac\" is spelled \" AC\"");
  expect_note("5 V dc to 10 V DC", r, voltage, 14, 17, "DC");
  expect_note("5 Ω to 10 ohm", r, resistance, 11, 14, "the unit Ω");
  expect_note("-20 to 110 °C", r, temperature, 1, 3, "own unit");
  expect_note("-5 % +10 %", t, ratio, 0, 10, "plus side comes first");
  expect_note("±5 %", t, ratio, 0, 2, "without a sign");
  expect_note("R5", t, resistance, 0, 2, "IEC 60062");
  expect_note("+5 V", q, voltage, 0, 1, "plus");
  expect_note("+10 % -5%", t, ratio, 8, 9, "one ordinary space");
  expect_note("+10  % -5 %", t, ratio, 3, 5, "one ordinary space");
  expect_note("1.4E-03 K^-1", q, per_kelvin, 0, 12, "the canonical spelling is \"1.4e-3 K^-1\"");
  expect_note(" 5 %", t, ratio, 0, 4, "the canonical spelling is \"5 %\"");
}

TEST(Describe, uses_an_engineering_prefix) {
  EXPECT_EQ(describe(15250, resistance), "15.25 kΩ");
  EXPECT_EQ(describe(999.96, resistance), "1 kΩ");
  EXPECT_EQ(describe(999.94, resistance), "999.9 Ω");
  EXPECT_EQ(describe(999960, resistance), "1 MΩ");
  EXPECT_EQ(describe(0.00099996, voltage), "1 mV");
  EXPECT_EQ(describe(0.47, resistance), "470 mΩ");
  EXPECT_EQ(describe(100, resistance), "100 Ω");
  EXPECT_EQ(describe(-4.7e-6, current), "-4.7 µA");
  EXPECT_EQ(describe(2.2e-9, capacitance), "2.2 nF");
  EXPECT_EQ(describe(0, resistance), "0 Ω");
  EXPECT_EQ(describe(-0.0, resistance), "0 Ω");
  EXPECT_EQ(describe(4.7e12, resistance), "4700 GΩ");
  EXPECT_EQ(describe(1e-9, resistance), "0.001 µΩ");
  EXPECT_EQ(describe(2.0583e139, resistance), "2.058e139 Ω");
  EXPECT_EQ(describe(-2.288e-19, resistance), "-2.288e-19 Ω");
  EXPECT_EQ(describe(-5e-324, resistance), "0 Ω");
  EXPECT_EQ(describe(12345, resistance, 2), "12 kΩ");
  EXPECT_EQ(describe(15678, resistance, 1), "20 kΩ");
  EXPECT_EQ(describe(3600, time), "3600 s");
  EXPECT_EQ(describe(0.0005, time), "500 µs");
  EXPECT_EQ(describe(1500, power), "1.5 kW");
  // From where on a power of ten is written, and what is nothing: as the header says.
  EXPECT_EQ(describe(9.99e14, resistance), "999000 GΩ");
  EXPECT_EQ(describe(1.001e15, resistance), "1.001e15 Ω");
  EXPECT_EQ(describe(1.001e-16, resistance), "0.0000000001001 µΩ");
  EXPECT_EQ(describe(9.99e-17, resistance), "9.99e-17 Ω");
  EXPECT_EQ(describe(1.001e-30, resistance), "1.001e-30 Ω");
  EXPECT_EQ(describe(9.99e-31, resistance), "0 Ω");
  EXPECT_EQ(describe(1234567, resistance, 0), "1 MΩ"); // at least one digit, and at most 17
  EXPECT_EQ(describe(0.1, voltage, 40), "100.00000000000001 mV");
}

TEST(Describe, shows_temperatures_and_ratios_as_people_do) {
  EXPECT_EQ(describe(293.15, temperature), "20 °C");
  EXPECT_EQ(describe(273.15, temperature), "0 °C");
  EXPECT_EQ(describe(253.15, temperature), "-20 °C");
  EXPECT_EQ(describe(273.15000000000003, temperature), "0 °C");
  EXPECT_EQ(describe(383.2, temperature), "110.1 °C");
  EXPECT_EQ(describe(0.05, temperature_difference), "0.05 K");
  EXPECT_EQ(describe(3977, thermal_constant), "3977 K");
  EXPECT_EQ(describe(0.05, ratio), "5 %");
  EXPECT_EQ(describe(0.0025, ratio), "0.25 %");
  EXPECT_EQ(describe(1.5, ratio), "150 %");
  EXPECT_EQ(describe(0, ratio), "0 %");
  EXPECT_EQ(describe(0.00393, per_kelvin), "0.00393 K^-1");
  EXPECT_EQ(describe(1.4e-4, per_kelvin), "1.4e-4 K^-1");
  EXPECT_EQ(describe(-5.775e-7, per_kelvin_2), "-5.775e-7 K^-2");
  EXPECT_EQ(describe(1e-31, per_kelvin_6), "1e-31 K^-6");
  EXPECT_EQ(describe(123500, per_kelvin), "123500 K^-1");
  EXPECT_EQ(describe(1235000, per_kelvin), "1.235e6 K^-1");
}

TEST(Describe, has_words_for_what_is_no_number) {
  EXPECT_EQ(describe(HUGE_VAL, resistance), "infinite Ω");
  EXPECT_EQ(describe(-HUGE_VAL, voltage), "-infinite V");
  EXPECT_EQ(describe(std::nan(""), voltage), "not a number");
}

// The examples of spec/v1/quantities.md: rows of five columns, texts in backticks.
std::vector<std::array<std::string, 5>> example_rows(std::string_view heading) {
  std::ifstream file(OHMLORE_SOURCE_DIR "/spec/v1/quantities.md");
  std::string line;
  while (std::getline(file, line) && line != heading) {
  }
  std::getline(file, line); // empty
  std::getline(file, line); // columns
  std::getline(file, line); // rule
  std::vector<std::array<std::string, 5>> rows;
  while (std::getline(file, line) && line.starts_with("| ")) {
    std::array<std::string, 5> row;
    std::size_t at = 1;
    for (auto& cell : row) {
      const auto end = line.find('|', at);
      cell = line.substr(at, end - at);
      std::erase(cell, '`');
      cell.erase(0, cell.find_first_not_of(' '));
      cell.erase(cell.find_last_not_of(' ') + 1);
      at = end + 1;
    }
    rows.push_back(row);
  }
  return rows;
}

Quantity_grammar grammar_named(std::string_view name) {
  return name == "range" ? r : name == "tolerance" ? t : q;
}

Dimension dimension_named(std::string_view name) {
  constexpr std::pair<std::string_view, Dimension> names[] = {
      {"resistance", resistance},
      {"voltage", voltage},
      {"capacitance", capacitance},
      {"temperature", temperature},
      {"per_kelvin", per_kelvin},
      {"per_kelvin_2", per_kelvin_2},
      {"time", time},
      {"ratio", ratio},
      {"thermal_constant", thermal_constant},
      {"temperature_difference", temperature_difference}};
  for (const auto& [text, dimension] : names)
    if (text == name) return dimension;
  ADD_FAILURE() << "no dimension " << name;
  return resistance;
}

TEST(Specification, accepts_its_examples) {
  const auto rows = example_rows("Accepted:");
  EXPECT_GT(rows.size(), 20u);
  for (const auto& [text, grammar_name, dimension_name, canonical, values] : rows) {
    const auto grammar = grammar_named(grammar_name);
    const auto dimension = dimension_named(dimension_name);
    EXPECT_EQ(canonical_spelling(text, grammar, dimension), canonical) << text;
    char* rest = nullptr;
    const double first = std::strtod(values.c_str(), &rest);
    if (grammar == q) {
      EXPECT_EQ(si(text, dimension), first) << text;
      continue;
    }
    const double second = std::strtod(rest, nullptr);
    if (grammar == r) {
      const auto parsed = parse_range(text, dimension);
      ASSERT_TRUE(parsed.value) << text;
      EXPECT_EQ(parsed.value->low.si, first) << text;
      EXPECT_EQ(parsed.value->high.si, second) << text;
    } else {
      const auto parsed = parse_tolerance(text, dimension);
      ASSERT_TRUE(parsed.value) << text;
      EXPECT_EQ(-parsed.value->minus, first) << text;
      EXPECT_EQ(parsed.value->plus, second) << text;
    }
  }
}

TEST(Specification, refuses_its_examples) {
  constexpr std::string_view kinds[] = {"unit_missing", "wrong_dimension", "unreadable",  "decimal_comma",
                                        "look_alike",   "too_many_digits", "out_of_reach"};
  const auto rows = example_rows("Refused:");
  EXPECT_GT(rows.size(), 15u);
  for (const auto& [text, grammar, dimension, kind, suggestion] : rows) {
    const auto problem = refused(text, dimension_named(dimension), grammar_named(grammar));
    EXPECT_EQ(kinds[static_cast<std::size_t>(problem.kind)], kind) << text;
    EXPECT_EQ(problem.suggestion, suggestion) << text;
  }
}

}
}
