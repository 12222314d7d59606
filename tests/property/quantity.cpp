// What must hold for any text: random bytes, and accepted texts with a few characters changed. Seeds are
// fixed.
#include "ohmlore/quantity.h"
#include "support/cases.h"
#include "units/plain.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>
#include <string>
#include <vector>

namespace ohmlore {
namespace {

using enum Dimension;
using Random = std::mt19937_64;

constexpr std::array grammars = {Quantity_grammar::quantity, Quantity_grammar::tolerance,
                                 Quantity_grammar::range};

constexpr Dimensions every_unit = resistance | voltage | current | power | capacitance | temperature |
                                  per_kelvin | per_kelvin_2 | time | ratio;
const Dimensions field_dimensions[] = {resistance,
                                       voltage,
                                       current,
                                       power,
                                       capacitance,
                                       temperature,
                                       temperature_difference,
                                       thermal_constant,
                                       per_kelvin,
                                       per_kelvin_2,
                                       per_kelvin_6,
                                       time,
                                       ratio,
                                       ratio | resistance,
                                       ratio | temperature,
                                       ratio | temperature_difference,
                                       temperature | temperature_difference,
                                       every_unit};

// Pieces of the grammar, in usual and unusual spellings, and what comes near it.
constexpr std::string_view signs[] = {"", "", "+", "-", "\u2212", "\u2013", "±", "+/-"};
constexpr std::string_view numbers[] = {
    "0",   "1",   "4.7", "47",  "15.250", "007",   "12345678901234567", "1.4e-3", "2E+02", "0.0001", "4k7",
    "R47", "47K", "",    "4,7", "1.",     "\uFF11"};
constexpr std::string_view spaces[] = {"", " ", "  ", "\u00A0", "\u2009", "\u202F"};
constexpr std::string_view units[] = {
    "",        "Ω", "\u2126", "ohm",  "kΩ",  "KOHM", "megohm", "R",       "V",    "V dc",   "mVac", "V~",
    "\u03BCA", "W", "nF",     "K",    "mK",  "°C",   "°F",     "ºC",      "degC", "\u2103", "%",    "ms",
    "min",     "h", "d",      "K^-1", "1/K", "/K²",  "K⁻¹",    "\u041AΩ", "k",    "x"};
constexpr std::string_view joints[] = {"", " ", " to ", "..", " \u2026 ", "\u2013", "/", " / ", "-", " - "};
constexpr std::string_view strays[] = {" ", "K", "J", "^-1", "\u200B", "~",   "ac",
                                       ".", ",", "0", "e",   "\xFF",   "\xC2"};

const std::string seeds[] = {"10 kΩ",
                             "4k7",
                             "R47",
                             "470R",
                             "24 V dc",
                             "230 V~",
                             "20 °C",
                             "-459.67 °F",
                             "1.4e-3 K^-1",
                             "-5.775e-7 /K²",
                             "5 %",
                             "+10 % -5 %",
                             "+10/-5 %",
                             "±1 °C",
                             "4.70 µF",
                             "1.5 min",
                             "3977 K",
                             "0.5 mK",
                             "-20 °C to 110 °C",
                             "-20..110 °C",
                             "9k8 to 10.2 kΩ",
                             "1 megohm",
                             "200 V to 240 V ac",
                             "+1 K -2 K"};

std::string random_bytes(Random& random) {
  std::string text(random() % 24, '\0');
  for (auto& c : text) c = static_cast<char>(random() % 256);
  return text;
}

template <class Pieces>
std::string one_of(const Pieces& pieces, Random& random) {
  return std::string(pieces[random() % std::size(pieces)]);
}

// Number, space and unit in any spelling, alone or twice, now and then with something between.
std::string random_pieces(Random& random) {
  std::string text;
  for (auto values = 1 + random() % 2; values > 0; --values) {
    text += one_of(signs, random) + one_of(numbers, random) + one_of(spaces, random) + one_of(units, random);
    if (values > 1) text += one_of(joints, random);
    if (random() % 8 == 0) text += one_of(strays, random);
  }
  return text;
}

std::string mutated_seed(Random& random) {
  std::string text = seeds[random() % std::size(seeds)];
  for (auto count = random() % 4; count > 0; --count) {
    const auto at = text.empty() ? 0 : random() % text.size();
    switch (random() % 4) {
    case 0: text.insert(at, one_of(units, random)); break;
    case 1: text.erase(at, 1 + random() % 3); break;
    case 2: text.insert(at, 1, static_cast<char>(random() % 256)); break;
    default: text += seeds[random() % std::size(seeds)]; break;
    }
  }
  return text;
}

// As most are spelled, or nearly so: a number of any length, a space, a unit; now and then two of them.
std::string random_plain(Random& random) {
  constexpr std::string_view plain_units[] = {
      "Ω",  "kΩ", "MΩ", "mΩ", "V",  "mV", "V ac", "V dc", "A", "mA", "µA", "W",    "kW",      "µF",
      "pF", "K",  "mK", "°C", "°F", "s",  "ms",   "min",  "h", "d",  "%",  "V AC", "\u03BCF", "kOhm"};
  std::string text;
  for (auto values = 1 + random() % 4 / 3; values > 0; --values) {
    if (random() % 5 == 0) text += '-';
    for (auto digits = random() % 16 == 0 ? random() % 20 : 1 + random() % 4; digits > 0; --digits)
      text += static_cast<char>('0' + (random() % 3 == 0 ? 0 : random() % 10));
    if (random() % 3 == 0) {
      text += '.';
      for (auto digits = random() % 16 == 0 ? random() % 20 : 1 + random() % 3; digits > 0; --digits)
        text += static_cast<char>('0' + random() % 10);
    }
    text += " " + one_of(plain_units, random);
    if (values > 1) text += " to ";
  }
  return text;
}

struct Numbers {
  std::vector<double> values;
  std::optional<Unit_problem> problem;
};

std::vector<double> of(const Quantity& q) {
  return {q.si, q.half_digit, static_cast<double>(q.dimension), static_cast<double>(q.form)};
}

std::vector<double> of(const Range& range) {
  auto values = of(range.low);
  for (const double value : of(range.high)) values.push_back(value);
  values.push_back(range.single);
  return values;
}

// Everything that a parse function returns, bit for bit comparable (no value is NaN or negative zero).
Numbers parse(std::string_view text, Quantity_grammar grammar, Dimensions allowed) {
  if (grammar == Quantity_grammar::quantity) {
    const auto parsed = parse_quantity(text, allowed);
    EXPECT_NE(parsed.value.has_value(), parsed.problem.has_value());
    return parsed.value ? Numbers{of(*parsed.value), {}} : Numbers{{}, parsed.problem};
  }
  if (grammar == Quantity_grammar::tolerance) {
    const auto parsed = parse_tolerance(text, allowed);
    EXPECT_NE(parsed.value.has_value(), parsed.problem.has_value());
    if (!parsed.value) return {{}, parsed.problem};
    return {{parsed.value->minus, parsed.value->plus, static_cast<double>(parsed.value->dimension)}, {}};
  }
  const auto parsed = parse_range(text, allowed);
  EXPECT_NE(parsed.value.has_value(), parsed.problem.has_value());
  if (!parsed.value) return {{}, parsed.problem};
  return {of(*parsed.value), {}};
}

// What is read without the grammar means what the grammar says, and is canonical. How many were.
int check_plain(const std::string& text, Quantity_grammar grammar, Dimensions allowed) {
  const std::optional<Range> plain = units::read_plainly(text, grammar, allowed);
  if (!plain) return 0;
  const Quantity& low = plain->low;
  const std::vector<double> values = grammar == Quantity_grammar::quantity ? of(low)
                                     : grammar == Quantity_grammar::tolerance
                                         ? std::vector{low.si, low.si, static_cast<double>(low.dimension)}
                                         : of(*plain);
  EXPECT_EQ(parse(text, grammar, allowed).values, values) << text;
  EXPECT_EQ(canonical_spelling(text, grammar, allowed), text);
  return 1;
}

// Messages go into JSON and onto terminals: whatever the text was, they are UTF-8 without control characters.
bool is_printable_utf8(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const auto lead = static_cast<unsigned char>(text[i]);
    if (lead < 0x20 || lead == 0x7F) return false;
    const std::size_t length = lead < 0x80   ? 1
                               : lead < 0xC2 ? 0
                               : lead < 0xE0 ? 2
                               : lead < 0xF0 ? 3
                               : lead < 0xF5 ? 4
                                             : 0;
    if (length == 0 || i + length > text.size()) return false;
    for (std::size_t k = 1; k < length; ++k)
      if ((static_cast<unsigned char>(text[i + k]) & 0xC0) != 0x80) return false;
    i += length;
  }
  return true;
}

// How many texts were accepted, so that a test can tell that it tried something.
int check(const std::string& text, Quantity_grammar grammar, Dimensions allowed) {
  check_plain(text, grammar, allowed);
  const auto parsed = parse(text, grammar, allowed);
  const auto canonical = canonical_spelling(text, grammar, allowed);
  const auto note = spelling_problem(text, grammar, allowed);
  if (parsed.problem) {
    const auto& problem = *parsed.problem;
    EXPECT_LE(problem.begin, problem.end) << text;
    EXPECT_LE(problem.end, text.size()) << text;
    EXPECT_FALSE(problem.detail.empty()) << text;
    EXPECT_TRUE(is_printable_utf8(problem.detail)) << text << ": " << problem.detail;
    EXPECT_TRUE(problem.kind != Unit_problem::Kind::not_canonical &&
                problem.kind != Unit_problem::Kind::look_alike_accepted)
        << text;
    if (!problem.suggestion.empty()) {
      EXPECT_FALSE(parse(problem.suggestion, grammar, allowed).problem) << text << ": " << problem.suggestion;
      EXPECT_EQ(canonical_spelling(problem.suggestion, grammar, allowed), problem.suggestion) << text;
    }
    EXPECT_EQ(canonical, "") << text;
    EXPECT_FALSE(note) << text;
    return 0;
  }
  EXPECT_EQ(canonical_spelling(canonical, grammar, allowed), canonical) << text;
  EXPECT_FALSE(spelling_problem(canonical, grammar, allowed)) << text;
  EXPECT_EQ(parse(canonical, grammar, allowed).values, parsed.values) << text << " and " << canonical;
  for (const Prefixes style : {Prefixes::si, Prefixes::engineering}) {
    const auto other = canonical_spelling(text, grammar, allowed, style);
    EXPECT_EQ(parse(other, grammar, allowed).values, parsed.values) << text << " and " << other;
    EXPECT_EQ(canonical_spelling(other, grammar, allowed, style), other) << text;
    EXPECT_FALSE(spelling_problem(other, grammar, allowed)) << text;
  }
  EXPECT_EQ(note.has_value(), canonical != text) << text;
  if (note) {
    EXPECT_EQ(note->suggestion, canonical) << text;
    EXPECT_LE(note->begin, note->end) << text;
    EXPECT_LE(note->end, text.size()) << text;
    EXPECT_TRUE(is_printable_utf8(note->detail)) << text << ": " << note->detail;
  }
  return 1;
}

int check_many(std::string (*make)(Random&), std::uint64_t seed, int count) {
  Random random(seed);
  int accepted = 0;
  for (int i = 0; i < count && !testing::Test::HasFailure(); ++i) {
    const auto text = make(random);
    const auto grammar = grammars[random() % grammars.size()];
    // Half of the time the unit does not decide, so that the rest of the grammar does.
    const bool any_unit = random() % 2 == 0;
    accepted += check(text, grammar,
                      any_unit ? every_unit : field_dimensions[random() % std::size(field_dimensions)]);
  }
  return accepted;
}

// Sanitizers make it some ten times slower: they see a tenth.
constexpr int texts = test::cases(400000), understood = test::cases(10000);

TEST(Any_text, random_bytes) { check_many(random_bytes, 1, texts / 4); }

TEST(Any_text, random_pieces) { EXPECT_GT(check_many(random_pieces, 2, texts), understood); }

TEST(Any_text, mutated_seeds) { EXPECT_GT(check_many(mutated_seed, 3, texts), understood); }

TEST(Any_text, random_plain) { EXPECT_GT(check_many(random_plain, 6, texts), understood); }

TEST(Plain_text, means_what_the_grammar_says) {
  Random random(7);
  int plain = 0;
  for (int i = 0; i < texts; ++i)
    plain += check_plain(random_plain(random), grammars[random() % grammars.size()],
                         field_dimensions[random() % std::size(field_dimensions)]);
  EXPECT_GT(plain, texts / 50);
}

// Both ends of what is taken without the grammar: seventeen characters, the absolute zero, the sign of zero.
TEST(Plain_text, ends_where_the_grammar_must_be_asked) {
  const auto is_plain = [](std::string_view text, Quantity_grammar grammar, Dimensions allowed) {
    return units::read_plainly(text, grammar, allowed).has_value();
  };
  using enum Quantity_grammar;
  EXPECT_TRUE(is_plain("12345678901234567 Ω", quantity, resistance));
  EXPECT_FALSE(is_plain("123456789012345678 Ω", quantity, resistance));
  EXPECT_TRUE(is_plain("-273.15 °C", quantity, temperature));
  EXPECT_FALSE(is_plain("-273.16 °C", quantity, temperature));
  EXPECT_TRUE(is_plain("0 Ω", quantity, resistance));
  EXPECT_FALSE(is_plain("-0 Ω", quantity, resistance));
  EXPECT_TRUE(is_plain("2 K", tolerance, temperature));
  EXPECT_FALSE(is_plain("2 °C", tolerance, temperature)); // spelled 2 K
  EXPECT_FALSE(is_plain("-5 %", tolerance, ratio));       // one side alone
  EXPECT_TRUE(is_plain("12 V ac to 24 V ac", range, voltage));
  EXPECT_FALSE(is_plain("12 V to 24 V dc", range, voltage));
  EXPECT_FALSE(is_plain("1 Ω to 2 Ω", quantity, resistance));
  EXPECT_FALSE(is_plain("1. Ω", quantity, resistance));
  EXPECT_FALSE(is_plain(".5 Ω", quantity, resistance));
  EXPECT_FALSE(is_plain("1 V", quantity, resistance));
}

TEST(Any_text, every_seed_in_every_field) {
  int accepted = 0;
  for (const auto& text : seeds)
    for (const auto grammar : grammars)
      for (const auto allowed : field_dimensions) accepted += check(text, grammar, allowed);
  EXPECT_GT(accepted, 100);
}

// A description is canonical text, and says the value to the digits asked for.
TEST(Description, reads_back) {
  constexpr Dimension dimensions[] = {
      resistance,       voltage,    current,      power,        capacitance, temperature_difference,
      thermal_constant, per_kelvin, per_kelvin_2, per_kelvin_6, time,        ratio};
  Random random(4);
  std::uniform_real_distribution<double> power(-6, 9), mantissa(1, 10);
  for (int i = 0; i < 100000; ++i) {
    const auto dimension = dimensions[random() % std::size(dimensions)];
    const int digits = 1 + static_cast<int>(random() % 17);
    const double value =
        (random() % 2 != 0 ? 1 : -1) * mantissa(random) * std::pow(10, std::floor(power(random)));
    const auto text = describe(value, dimension, digits);
    const auto parsed = parse_quantity(text, dimension);
    ASSERT_TRUE(parsed.value) << text << ": " << parsed.problem->detail;
    ASSERT_FALSE(spelling_problem(text, Quantity_grammar::quantity, dimension)) << text;
    // Half of the last digit that was asked for, at most 0.5 · 10^(1 - digits) of the value, and two
    // roundings.
    const double most = std::fabs(value) * (0.5 * std::pow(10, 1 - digits) + 4e-16);
    ASSERT_NEAR(parsed.value->si, value, most)
        << text << " of " << fmt::format("{}", value) << ", " << digits;
  }
}

TEST(Description, of_temperatures_reads_back) {
  Random random(5);
  std::uniform_real_distribution<double> kelvin(0, 2000);
  for (int i = 0; i < 100000; ++i) {
    const double value = kelvin(random);
    const auto text = describe(value, temperature, 10);
    const auto parsed = parse_quantity(text, temperature);
    ASSERT_TRUE(parsed.value) << text << ": " << parsed.problem->detail;
    ASSERT_NEAR(parsed.value->si, value, 0.5e-6) << text; // 10 digits below 10000 °C have 6 decimals
  }
}

}
}
