// Conversion to SI against other implementations: IEC 60062 examples, UDUNITS-2, GNU units, strtod and MPFR.
#include "../support/csv.h"
#include "../support/precise.h"

#include "ohmlore/quantity.h"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <udunits2.h>
#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>
#include <random>

namespace ohmlore {
namespace {

using enum Dimension;

// Source: IEC 60062, examples of resistance codes.
TEST(Rkm, examples) {
  const auto csv = test::read_csv(OHMLORE_REFERENCE_DIR "/reference/rkm_examples.csv");
  if (!csv) GTEST_SKIP() << "no rkm_examples.csv in " OHMLORE_REFERENCE_DIR "/reference";
  ASSERT_FALSE(csv->rows.empty());
  for (std::size_t i = 0; i < csv->rows.size(); ++i) {
    const auto parsed = parse_quantity(csv->text(i, "code"), resistance);
    ASSERT_TRUE(parsed.value) << csv->text(i, "code") << ": " << parsed.problem->detail;
    EXPECT_EQ(parsed.value->si, csv->number(i, "ohm")) << csv->text(i, "code");
  }
}

// A unit as we write it and as UDUNITS and GNU units know it; `si` is what both convert to.
struct Unit_case {
  Dimension dimension;
  const char* ours;
  const char* udunits;
  const char* gnu; ///< "{}" stands for the number
  const char* si;
};

constexpr Unit_case single_units[] = {
    {temperature, "°C", "°C", "tempC({})", "K"},
    {temperature, "°F", "°F", "tempF({})", "K"},
    {temperature, "K", "K", "{} K", "K"},
    // Differences, where no offset may enter: a degree Fahrenheit is the degree Rankine.
    {temperature_difference, "K", "K", "{} K", "K"},
    {temperature_difference, "mK", "mK", "{} mK", "K"},
    {temperature_difference, "°C", "K", "{} degC", "K"},
    {temperature_difference, "°F", "°R", "{} degF", "K"},
    {thermal_constant, "K", "K", "{} K", "K"},
    {per_kelvin, "K^-1", "K^-1", "{} K^-1", "K^-1"},
    {per_kelvin_2, "K^-2", "K^-2", "{} K^-2", "K^-2"},
    {per_kelvin_3, "K^-3", "K^-3", "{} K^-3", "K^-3"},
    {per_kelvin_4, "K^-4", "K^-4", "{} K^-4", "K^-4"},
    {per_kelvin_5, "K^-5", "K^-5", "{} K^-5", "K^-5"},
    {per_kelvin_6, "K^-6", "K^-6", "{} K^-6", "K^-6"},
    {time, "min", "min", "{} min", "s"},
    {time, "h", "h", "{} hour", "s"},
    {time, "d", "d", "{} day", "s"},
    {ratio, "%", "%", "{} percent", "1"},
    {resistance, "megohm", "Mohm", "{} megohm", "ohm"},
    {resistance, "kohm", "kohm", "{} kohm", "ohm"},
    {resistance, "\u2126", "ohm", "{} ohm", "ohm"},
};

struct Prefixed_unit {
  Dimension dimension;
  const char* ours;
  const char* other;
  std::vector<const char*> prefixes;
};

struct Grid_case {
  Dimension dimension;
  std::string text, number, udunits, gnu, si;
};

std::vector<Grid_case> grid() {
  const std::vector<Prefixed_unit> prefixed = {
      {resistance, "Ω", "ohm", {"µ", "m", "", "k", "M", "G"}}, {voltage, "V", "V", {"µ", "m", "", "k"}},
      {current, "A", "A", {"n", "µ", "m", "", "k"}},           {power, "W", "W", {"µ", "m", "", "k", "M"}},
      {capacitance, "F", "F", {"p", "n", "µ", "m", ""}},       {time, "s", "s", {"µ", "m", ""}},
  };
  const std::vector<std::string> numbers = {
      "1", "0.5", "4.7", "15.25", "99999.9",  "0.001", "273.15", "1234567", "12345678901234567",
      "0", "-1",  "-20", "-40",   "0.0000123"};
  std::vector<Grid_case> cases;
  const auto add = [&](Dimension dimension, const std::string& ours, const std::string& udunits,
                       const std::string& gnu, const std::string& si) {
    for (const auto& number : numbers) {
      // Only °C and °F reach below zero without passing absolute zero.
      if (number.front() == '-' && dimension == temperature && ours == "K") continue;
      cases.push_back(
          {dimension, number + " " + ours, number, udunits, fmt::format(fmt::runtime(gnu), number), si});
    }
  };
  for (const auto& unit : single_units) add(unit.dimension, unit.ours, unit.udunits, unit.gnu, unit.si);
  for (const auto& unit : prefixed)
    for (const std::string prefix : unit.prefixes)
      add(unit.dimension, prefix + unit.ours, prefix + unit.other, "{} " + prefix + unit.other, unit.other);
  return cases;
}

void expect_close(const Grid_case& c, double expected, const char* oracle) {
  const auto parsed = parse_quantity(c.text, c.dimension);
  ASSERT_TRUE(parsed.value) << c.text << ": " << parsed.problem->detail;
  EXPECT_EQ(parsed.value->dimension, c.dimension) << c.text;
  EXPECT_NEAR(parsed.value->si, expected, 1e-12 * std::fabs(expected)) << c.text << ", " << oracle;
}

TEST(Udunits, agrees_on_every_unit) {
  ut_set_error_message_handler(ut_ignore);
  const std::unique_ptr<ut_system, void (*)(ut_system*)> system(ut_read_xml(nullptr), ut_free_system);
  ASSERT_TRUE(system) << "UDUNITS has no database of units";
  const auto unit = [&](const std::string& name) {
    return std::unique_ptr<ut_unit, void (*)(ut_unit*)>(ut_parse(system.get(), name.c_str(), UT_UTF8),
                                                        ut_free);
  };
  for (const auto& c : grid()) {
    const auto from = unit(c.udunits);
    const auto to = unit(c.si);
    ASSERT_TRUE(from && to) << c.udunits << " to " << c.si;
    const std::unique_ptr<cv_converter, void (*)(cv_converter*)> converter(
        ut_get_converter(from.get(), to.get()), cv_free);
    ASSERT_TRUE(converter) << c.udunits << " to " << c.si;
    expect_close(c, cv_convert_double(converter.get(), std::strtod(c.number.c_str(), nullptr)), "UDUNITS");
  }
}

TEST(Gnu_units, agrees_on_every_unit) {
  if (std::system("units --version >/dev/null 2>&1") != 0)
    GTEST_SKIP() << "the program units is not installed";
  const auto cases = grid();
  // One question is two lines, what one has and what one wants; one process answers all.
  const auto path = std::filesystem::temp_directory_path() / fmt::format("ohmlore-units-{}", ::getpid());
  {
    std::ofstream questions(path);
    for (const auto& c : cases) questions << c.gnu << '\n' << c.si << '\n';
  }
  const auto command =
      fmt::format("LC_ALL=C.UTF-8 units --quiet --terse --one-line --digits 15 < '{}'", path.string());
  const std::unique_ptr<FILE, int (*)(FILE*)> answers(popen(command.c_str(), "r"), pclose);
  ASSERT_TRUE(answers);
  for (const auto& c : cases) {
    char line[200];
    ASSERT_TRUE(std::fgets(line, sizeof line, answers.get())) << "no answer to " << c.gnu;
    char* end = nullptr;
    const double answer = std::strtod(line, &end);
    ASSERT_TRUE(end != line && *end == '\n') << c.gnu << " to " << c.si << ": " << line;
    expect_close(c, answer, "GNU units");
  }
  std::filesystem::remove(path);
}

// Random decimals of 1 to 17 digits, as text and as the integer without its point.
struct Random_decimal {
  std::string text, integer;
  int decimals = 0;
};

Random_decimal random_decimal(std::mt19937_64& random, int most_decimals) {
  const auto below = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
  Random_decimal made;
  const int digits = 1 + below(17);
  made.integer += static_cast<char>('1' + below(9));
  while (static_cast<int>(made.integer.size()) < digits) made.integer += static_cast<char>('0' + below(10));
  made.decimals = below(most_decimals + 1);
  auto padded = made.integer;
  if (made.decimals >= digits) padded.insert(0, static_cast<std::size_t>(made.decimals + 1 - digits), '0');
  made.text = padded;
  if (made.decimals > 0) made.text.insert(padded.size() - static_cast<std::size_t>(made.decimals), 1, '.');
  return made;
}

// Where the unit is a power of ten, the text with that power is what strtod rounds correctly (glibc states
// so).
TEST(Exact, powers_of_ten_as_strtod) {
  struct Unit_power {
    Dimension dimension;
    const char* unit;
    int power;
  };
  constexpr Unit_power units[] = {{resistance, "µΩ", -6},   {resistance, "mΩ", -3}, {resistance, "Ω", 0},
                                  {resistance, "kΩ", 3},    {resistance, "MΩ", 6},  {resistance, "GΩ", 9},
                                  {capacitance, "pF", -12}, {current, "nA", -9},    {ratio, "%", -2}};
  std::mt19937_64 random(20240607);
  for (int i = 0; i < 100000; ++i) {
    const auto& unit = units[random() % std::size(units)];
    const auto number = random_decimal(random, 15);
    const auto text = number.text + " " + unit.unit;
    const auto parsed = parse_quantity(text, unit.dimension);
    ASSERT_TRUE(parsed.value) << text << ": " << parsed.problem->detail;
    const auto composed = fmt::format("{}e{}", number.integer, unit.power - number.decimals);
    ASSERT_EQ(parsed.value->si, std::strtod(composed.c_str(), nullptr)) << text;
    const auto half = fmt::format("5e{}", unit.power - number.decimals - 1);
    ASSERT_EQ(parsed.value->half_digit, std::strtod(half.c_str(), nullptr)) << text;
  }
}

// Half-way between two doubles, and one digit to either side.
TEST(Exact, ties_as_strtod) {
  for (const char* digits : {"9007199254740992", "9007199254740993", "9007199254740994", "9007199254740995",
                             "18014398509481986", "18014398509481985", "18014398509481987",
                             "36028797018963972", "72057594037927944", "72057594037927952"}) {
    const std::string text(digits);
    EXPECT_EQ(parse_quantity(text + " Ω", resistance).value->si, std::strtod(digits, nullptr)) << text;
    const auto kilo = text.substr(0, text.size() - 3) + "." + text.substr(text.size() - 3) + " kΩ";
    EXPECT_EQ(parse_quantity(kilo, resistance).value->si, std::strtod(digits, nullptr)) << kilo;
  }
}

TEST(Exact, exponents_as_strtod) {
  std::mt19937_64 random(20240608);
  for (int i = 0; i < 100000; ++i) {
    const auto number = random_decimal(random, 16);
    const auto text = fmt::format("{}e{}", number.text, static_cast<int>(random() % 28) - 14);
    const auto parsed = parse_quantity(text + " K^-3", per_kelvin_3);
    const double expected = std::strtod(text.c_str(), nullptr);
    if (expected > 1e30 || expected < 1e-30) {
      ASSERT_FALSE(parsed.value) << text;
      continue;
    }
    ASSERT_TRUE(parsed.value) << text << ": " << parsed.problem->detail;
    ASSERT_EQ(parsed.value->si, expected) << text;
  }
}

// Offsets and fractions in MPFR: numerator and denominator are integers below 2^300, so exact; the one
// division has 300 bits, so that rounding it again to a double cannot go wrong (a quotient that is not
// half-way between two doubles differs from it by more than 2^-250 of its size).
TEST(Exact, offsets_and_fractions_as_mpfr) {
  using test::Precise;
  struct Unit_fraction {
    Dimension dimension;
    const char* unit;
    int offset_hundredths, factor, divisor;
  };
  constexpr Unit_fraction units[] = {{temperature, "°C", 27315, 1, 1},
                                     {temperature, "°F", 45967, 5, 9},
                                     {temperature, "K", 0, 1, 1},
                                     {temperature_difference, "°F", 0, 5, 9},
                                     {temperature_difference, "°C", 0, 1, 1},
                                     {time, "min", 0, 60, 1},
                                     {time, "h", 0, 3600, 1},
                                     {time, "d", 0, 86400, 1}};
  std::mt19937_64 random(20240609);
  int below_zero = 0;
  for (int i = 0; i < 100000; ++i) {
    const auto& unit = units[random() % std::size(units)];
    const auto number = random_decimal(random, 20);
    const bool negative = random() % 2 != 0;
    const auto text = fmt::format("{}{} {}", negative ? "-" : "", number.text, unit.unit);

    const auto ten_to = [](int power) { return Precise(fmt::format("1{:0>{}}", "", power).c_str()); };
    const Precise magnitude(number.integer.c_str());
    const auto written = negative ? Precise(0.0) - magnitude : magnitude;
    // (digits / 10^decimals + offset / 100) · factor / divisor, all over 100 · 10^decimals · divisor
    const auto numerator =
        (written * Precise(100.0) + Precise(double(unit.offset_hundredths)) * ten_to(number.decimals)) *
        Precise(double(unit.factor));
    const auto denominator = ten_to(number.decimals) * Precise(100.0) * Precise(double(unit.divisor));
    const double expected = (numerator / denominator).nearest();

    const auto parsed = parse_quantity(text, unit.dimension);
    if (unit.dimension == temperature && expected < 0) {
      ++below_zero;
      ASSERT_FALSE(parsed.value) << text;
      ASSERT_EQ(parsed.problem->kind, Unit_problem::Kind::out_of_reach) << text;
      continue;
    }
    ASSERT_TRUE(parsed.value) << text << ": " << parsed.problem->detail;
    ASSERT_EQ(parsed.value->si, expected) << text;
  }
  EXPECT_GT(below_zero, 1000); // the sign of the sum was tried too
}

// Every multiple of a tenth of a degree that occurs in heating, which takes the fast path.
TEST(Exact, common_temperatures_as_mpfr) {
  using test::Precise;
  for (int tenths = -400; tenths <= 10000; ++tenths) {
    const auto text =
        fmt::format("{}{}.{}", tenths < 0 ? "-" : "", std::abs(tenths) / 10, std::abs(tenths) % 10);
    const double celsius = ((Precise(tenths * 10.0) + Precise(27315.0)) / Precise(100.0)).nearest();
    const double fahrenheit =
        ((Precise(tenths * 10.0) + Precise(45967.0)) * Precise(5.0) / Precise(900.0)).nearest();
    ASSERT_EQ(parse_quantity(text + " °C", temperature).value->si, celsius) << text;
    ASSERT_EQ(parse_quantity(text + " °F", temperature).value->si, fahrenheit) << text;
  }
}

}
}
