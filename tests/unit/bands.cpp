// The intervals that records allow. The true values are computed from the written decimals with MPFR
// (support/precise.h), never from the doubles nearest to them.
#include "ohmlore/bands.h"

#include "../support/chance.h"
#include "../support/model.h"
#include "../support/precise.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <ostream>
#include <string>

namespace ohmlore {

void PrintTo(const Interval& x, std::ostream* out) {
  *out << fmt::format("[{:.17g}, {:.17g}]", x.low, x.high);
}

namespace {

using test::Precise;

constexpr int cases = 20'000;

/// The band must hold the true ends, and be no wider than rounding explains.
testing::AssertionResult is_band(const std::optional<Interval>& band, const Precise& low, const Precise& high,
                                 double slack = 1e-13) {
  if (!band) return testing::AssertionFailure() << "no band";
  const bool encloses = Precise(band->low) <= low && high <= Precise(band->high);
  const double size = std::fabs(low.nearest()) + std::fabs(high.nearest());
  if (encloses && low.nearest() - band->low <= slack * size && band->high - high.nearest() <= slack * size)
    return testing::AssertionSuccess();
  return testing::AssertionFailure() << testing::PrintToString(*band) << " instead of "
                                     << fmt::format("[{:.17g}, {:.17g}]", low.nearest(), high.nearest());
}

using test::Model;

Quantity ohms(std::string_view text) { return parse_quantity(text, Dimension::resistance).value.value(); }
Value<Tolerance> tolerance(std::string_view text) {
  return {parse_tolerance(text, Dimension::resistance | Dimension::ratio).value.value(), 1};
}

Precise decimal(const char* text) { return Precise(text); }
Precise in_kelvin(const char* celsius) { return Precise(celsius) + Precise("273.15"); }

TEST(Written, is_half_of_the_last_digit_either_way) {
  EXPECT_TRUE(is_band(written_interval(ohms("10 kΩ")), 9500, 10500));
  EXPECT_TRUE(is_band(written_interval(ohms("15.25 kΩ")), 15245, 15255));
  EXPECT_TRUE(is_band(written_interval(ohms("15.250 kΩ")), decimal("15249.5"), decimal("15250.5")));
  EXPECT_TRUE(is_band(written_interval(ohms("4k7")), 4650, 4750));
  EXPECT_TRUE(is_band(written_interval(ohms("0.1 Ω")), decimal("0.05"), decimal("0.15")));
  EXPECT_TRUE(is_band(written_interval(ohms("0 Ω")), decimal("-0.5"), decimal("0.5")));
}

TEST(Written, encloses_the_decimals) {
  test::Chance random(19680101);
  for (int i = 0; i < cases; ++i) {
    const int places = random.whole(0, 6);
    const std::string digits = random.decimal(0, 2000, places);
    const Precise half = Precise(fmt::format("5e-{}", places + 1).c_str());
    const Precise value(digits.c_str());
    ASSERT_TRUE(is_band(written_interval(ohms(digits + " Ω")), value - half, value + half)) << digits;
  }
}

TEST(Toleranced, takes_either_side_from_the_nominal) {
  EXPECT_TRUE(
      is_band(toleranced_interval(ohms("43 Ω"), tolerance("5 %")), decimal("40.85"), decimal("45.15")));
  EXPECT_TRUE(is_band(toleranced_interval(ohms("100 Ω"), tolerance("+10 % -5 %")), 95, 110));
  EXPECT_TRUE(is_band(toleranced_interval(ohms("10 kΩ"), tolerance("2 Ω")), 9998, 10002));
  EXPECT_TRUE(is_band(toleranced_interval(ohms("10 kΩ"), {}), 9500, 10500));
  EXPECT_TRUE(is_band(toleranced_interval(ohms("10 kΩ"), tolerance("1 %"), Taken::nominally), 10000, 10000));
  // Half a digit more: 9.5 kΩ - 1 % to 10.5 kΩ + 1 %.
  EXPECT_TRUE(is_band(toleranced_interval(ohms("10 kΩ"), tolerance("1 %"), Taken::generously), 9405, 10605));
  EXPECT_TRUE(is_band(toleranced_interval(ohms("10 kΩ"), tolerance("2 Ω"), Taken::generously), 9498, 10502));
}

TEST(Toleranced, is_in_order_whatever_the_numbers) {
  for (const char* nominal : {"-10 Ω", "0 Ω", "10 Ω"})
    for (const char* off : {"5 %", "150 %", "+0 % -200 %", "50 Ω"})
      for (const Taken taken : {Taken::nominally, Taken::literally, Taken::generously}) {
        const Interval band = toleranced_interval(ohms(nominal), tolerance(off), taken);
        EXPECT_LE(band.low, band.high) << nominal << ' ' << off;
        EXPECT_TRUE(band.contains(ohms(nominal).si)) << nominal << ' ' << off;
      }
}

TEST(Toleranced, encloses_the_decimals) {
  test::Chance random(19680101);
  for (int i = 0; i < cases; ++i) {
    const std::string nominal = random.decimal(0.1, 5000, random.whole(0, 3));
    const std::string minus = random.decimal(0, 99, random.whole(0, 2)),
                      plus = random.decimal(0, 150, random.whole(0, 2));
    const Interval band =
        toleranced_interval(ohms(nominal + " Ω"), tolerance(fmt::format("+{} % -{} %", plus, minus)));
    const Precise middle(nominal.c_str());
    ASSERT_TRUE(is_band(band, middle * (Precise(1) - Precise(minus.c_str()) / 100),
                        middle * (Precise(1) + Precise(plus.c_str()) / 100)))
        << nominal << " + " << plus << " - " << minus;
  }
}

TEST(Row, has_limits_or_a_nominal) {
  const Value<Quantity> none, min = {ohms("9.8 kΩ"), 1}, max = {ohms("10.2 kΩ"), 1},
                              nominal = {ohms("10 kΩ"), 1};
  const auto row = [](Value<Quantity> n, Value<Quantity> a, Value<Quantity> b) {
    Table_row made;
    made.nominal = n;
    made.min = a;
    made.max = b;
    return made;
  };
  EXPECT_TRUE(is_band(row_interval(row(nominal, min, max)), 9800, 10200));
  EXPECT_TRUE(is_band(row_interval(row(nominal, min, max), Taken::generously), 9750, 10250));
  EXPECT_TRUE(is_band(row_interval(row(nominal, min, max), Taken::nominally), 10000, 10000));
  EXPECT_TRUE(is_band(row_interval(row(nominal, min, none)), 9500, 10500));
  EXPECT_TRUE(is_band(row_interval(row(none, min, min)), 9800, 9800));
  EXPECT_FALSE(row_interval(row(none, max, min)));
  EXPECT_FALSE(row_interval(row(none, min, none)));
  EXPECT_FALSE(row_interval(row(none, min, max), Taken::nominally));
}

// How people round (common practice, no source): the zeros at the end of a whole number may say nothing, down
// to two digits.
TEST(Row, generously_lets_zeros_at_the_end_be_rounding) {
  struct {
    const char *written, *low, *high;
  } const rounded[] = {
      {"1300 Ω", "1250", "1350"},   {"1283 Ω", "1282.5", "1283.5"}, {"130 Ω", "125", "135"},
      {"13 Ω", "12.5", "13.5"},     {"120 kΩ", "115e3", "125e3"},   {"1200 MΩ", "1150e6", "1250e6"},
      {"38.0 Ω", "37.95", "38.05"}, {"1.300 kΩ", "1250", "1350"},   {"-1300 Ω", "-1350", "-1250"}};
  for (const auto& [written, low, high] : rounded) {
    Table_row limits, nominal;
    limits.min = limits.max = nominal.nominal = {ohms(written), 1};
    for (const Table_row& row : {limits, nominal})
      EXPECT_TRUE(is_band(row_interval(row, Taken::generously), Precise(low), Precise(high))) << written;
  }
}

TEST(Expected, is_a_band_only) {
  Expectation e;
  EXPECT_FALSE(expected_interval(e));
  e.kind = {Expectation_kind::band, 1};
  e.min = {ohms("38 Ω"), 1};
  e.max = {ohms("46 Ω"), 1};
  EXPECT_TRUE(is_band(expected_interval(e), 38, 46));
  EXPECT_TRUE(is_band(expected_interval(e, Taken::generously), decimal("37.5"), decimal("46.5")));
  e.kind = {Expectation_kind::smooth_sweep, 1};
  EXPECT_FALSE(expected_interval(e));
}

TEST(Kelvin, ends_are_in_order) {
  const auto range = [](std::string_view text) {
    return parse_range(text, Dimension::temperature).value.value();
  };
  for (const char* text : {"10 °C to 40 °C", "40 °C to 10 °C"}) {
    EXPECT_EQ(kelvin_interval(range(text)).low, 283.15);
    EXPECT_EQ(kelvin_interval(range(text)).high, 313.15);
  }
  EXPECT_EQ(kelvin_interval(range("25 °C")).width(), 0);
  EXPECT_TRUE(
      is_band(kelvin_interval(range("25 °C"), Taken::generously), in_kelvin("24.5"), in_kelvin("25.5")));
}

Precise beta(const Precise& t, const Precise& r, const Precise& t_ref, const Precise& b) {
  return r * exp(b * (Precise(1) / t - Precise(1) / t_ref));
}

TEST(Beta_model, makes_its_band_from_both_tolerances) {
  const Model model(R"("kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %",
                       "b_value": "3977 K", "b_between": "25 °C to 85 °C", "b_tolerance": "0.75 %")");
  const Precise t25 = in_kelvin("25");
  const Precise less = Precise("3977") * Precise("0.9925"), more = Precise("3977") * Precise("1.0075");
  EXPECT_TRUE(is_band(model.at("-20"), beta(in_kelvin("-20"), 9900, t25, less),
                      beta(in_kelvin("-20"), 10100, t25, more)));
  EXPECT_TRUE(is_band(model.at("60.5"), beta(in_kelvin("60.5"), 9900, t25, more),
                      beta(in_kelvin("60.5"), 10100, t25, less)));
  EXPECT_TRUE(is_band(model.at("0", "60"), beta(in_kelvin("60"), 9900, t25, more),
                      beta(in_kelvin("0"), 10100, t25, more)));
  EXPECT_TRUE(is_band(model.at("25"), 9900, 10100));
  EXPECT_NEAR(model.nominal("0").value(), beta(in_kelvin("0"), 10000, t25, 3977).nearest(), 1e-8);
}

TEST(Beta_model, without_tolerance_is_half_a_digit_wide) {
  const Model model(
      R"("kind": "beta", "resistance": "10.0 kΩ", "at": "25 °C", "b_value": "3977 K", "b_between": "25 °C to 85 °C")");
  EXPECT_TRUE(is_band(model.at("0"), beta(in_kelvin("0"), 9950, in_kelvin("25"), 3977),
                      beta(in_kelvin("0"), 10050, in_kelvin("25"), 3977)));
}

// B between two temperatures is that at a b ln(b/a)/(b - a), in kelvin, where it drifts evenly: for 0 and 25
// °C 41 K lower than for 25 and 85 °C, for 9 kelvin each: B 3977 ± 369.29975099832 K.
TEST(Beta_model, generously_lets_b_drift) {
  const Model model(
      R"("kind": "beta", "resistance": "10.0 kΩ", "at": "25 °C", "b_value": "3977 K", "b_between": "25 °C to 85 °C")");
  EXPECT_TRUE(is_band(model.at("0", Taken::generously),
                      beta(in_kelvin("0"), 9950, in_kelvin("25"), decimal("3607.20024900168")),
                      beta(in_kelvin("0"), 10050, in_kelvin("25"), decimal("4346.79975099832")), 1e-12));
  // Between its own two temperatures nothing drifts: only half a digit of B is left.
  EXPECT_TRUE(is_band(model.at("85", Taken::generously),
                      beta(in_kelvin("85"), 9950, in_kelvin("25"), decimal("3977.5")),
                      beta(in_kelvin("85"), 10050, in_kelvin("25"), decimal("3976.5")), 1e-12));
}

// Unstated, they may be 25 and 50 °C or 25 and 100 °C, and the farther pair counts, which is the latter:
// B 3977 ± 428.08236132110 K for 0 and 25 °C, and ± 160.62401931889 K for 25 and 60 °C.
TEST(Beta_model, generously_lets_b_drift_from_any_usual_pair) {
  const Model model(
      R"("kind": "beta", "resistance": "10.0 kΩ", "at": "25 °C", "b_value": "3977 K", "b_between": "25 °C to 85 °C")");
  Resistance_model unstated = *model;
  unstated.b_between = {};
  const auto at = [&](const char* celsius) {
    return model_interval(unstated, {Model::kelvin(celsius), Model::kelvin(celsius)}, Taken::generously);
  };
  EXPECT_TRUE(is_band(at("0"), beta(in_kelvin("0"), 9950, in_kelvin("25"), decimal("3548.41763867890")),
                      beta(in_kelvin("0"), 10050, in_kelvin("25"), decimal("4405.58236132110")), 1e-12));
  EXPECT_TRUE(is_band(at("60"), beta(in_kelvin("60"), 9950, in_kelvin("25"), decimal("4138.12401931889")),
                      beta(in_kelvin("60"), 10050, in_kelvin("25"), decimal("3815.87598068111")), 1e-12));
}

// From 0 to 100 °C against 25 to 50 °C: of the weights over 1/T 5.5948 K lie above those of the pair
// and 13.2477 K below (a sum over 400000 steps), and B may drift by -3 there and by 9 here.
TEST(Beta_model, generously_lets_b_drift_on_both_sides_of_its_pair) {
  const Model model(
      R"("kind": "beta", "resistance": "32.6 kΩ", "at": "0 °C", "b_value": "3977 K", "b_between": "25 °C to 50 °C")");
  const double kelvin = Model::kelvin("100");
  EXPECT_NEAR(b_departure(*model, {kelvin, kelvin}).high, 136.01402, 1e-5);
}

TEST(Beta_model, encloses_the_decimals) {
  test::Chance random(19680101);
  for (int i = 0; i < cases / 20; ++i) {
    const std::string r = random.decimal(1, 99, 2), at = random.decimal(0, 60, 1),
                      b = random.decimal(2500, 5000, 0), t = random.decimal(-40, 125, 2);
    const Model model(fmt::format(R"("kind": "beta", "resistance": "{} kΩ", "at": "{} °C", "tolerance": "2 %",
                                     "b_value": "{} K", "b_between": "25 °C to 85 °C", "b_tolerance": "1 %")",
                                  r, at, b));
    Precise low = decimal("1e30"), high = 0;
    for (const char* of_r : {"0.98", "1.02"})
      for (const char* of_b : {"0.99", "1.01"}) {
        const Precise corner = beta(in_kelvin(t.c_str()), Precise(r.c_str()) * 1000 * Precise(of_r),
                                    in_kelvin(at.c_str()), Precise(b.c_str()) * Precise(of_b));
        if (corner <= low) low = corner;
        if (high <= corner) high = corner;
      }
    ASSERT_TRUE(is_band(model.at(t.c_str()), low, high)) << r << " at " << at << ", " << b << ", at " << t;
  }
}

// The solution for decimals is where a + b l + c l³ - 1/T changes its sign.
testing::AssertionResult solves(const std::optional<Interval>& band, const char* a, const char* b,
                                const char* c, const char* celsius) {
  if (!band) return testing::AssertionFailure() << "no band";
  const auto excess = [&](double ohm) {
    const Precise l = log(Precise(ohm));
    return Precise(a) + l * (Precise(b) + Precise(c) * l * l) - Precise(1) / in_kelvin(celsius);
  };
  if (excess(band->low) <= Precise(0.0) && Precise(0.0) <= excess(band->high) &&
      band->width() <= 1e-13 * band->high)
    return testing::AssertionSuccess();
  return testing::AssertionFailure() << testing::PrintToString(*band);
}

TEST(Steinhart_hart_model, encloses_the_solution_for_the_decimals) {
  test::Chance random(19680101);
  for (int i = 0; i < cases / 20; ++i) {
    const std::string a = random.decimal(0.5, 2, 6) + "e-3", b = random.decimal(1.5, 4, 5) + "e-4",
                      c = random.decimal(0, 5, 4) + "e-7", t = random.decimal(-40, 150, 2);
    const Model model(
        fmt::format(R"("kind": "steinhart_hart", "a": "{} K^-1", "b": "{} K^-1", "c": "{} K^-1")", a, b, c));
    ASSERT_TRUE(solves(model.at(t.c_str()), a.c_str(), b.c_str(), c.c_str(), t.c_str())) << a << b << c << t;
  }
}

// Published: 3833.3275927458376 Ω at 20 °C for these three.
TEST(Steinhart_hart_model, published_example) {
  const Model model(
      R"("kind": "steinhart_hart", "a": "1.4e-3 K^-1", "b": "2.37e-4 K^-1", "c": "9.9e-8 K^-1")");
  EXPECT_TRUE(solves(model.at("20"), "1.4e-3", "2.37e-4", "9.9e-8", "20"));
  EXPECT_NEAR(model.nominal("20").value(), 3833.3275927458376, 2e-6);
  const Model wide(
      R"("kind": "steinhart_hart", "a": "1.4e-3 K^-1", "b": "2.37e-4 K^-1", "c": "9.9e-8 K^-1", "tolerance": "2 %")");
  const Interval nominal = model.at("20").value();
  EXPECT_TRUE(is_band(wide.at("20"), Precise(nominal.low) * Precise("0.98"),
                      Precise(nominal.high) * Precise("1.02")));
  // Taken generously, every choice of the digits that were not written is in.
  const Interval generous = model.at("20", Taken::generously).value();
  for (const char* a : {"1.35e-3", "1.45e-3"})
    for (const char* b : {"2.365e-4", "2.375e-4"})
      for (const char* c : {"9.85e-8", "9.95e-8"}) {
        const Model digits(fmt::format(
            R"("kind": "steinhart_hart", "a": "{} K^-1", "b": "{} K^-1", "c": "{} K^-1")", a, b, c));
        EXPECT_TRUE(generous.contains(digits.at("20").value())) << a << ' ' << b << ' ' << c;
      }
  EXPECT_LT(generous.high / generous.low, 1.6); // half a digit of a is 4.4 K
}

TEST(Steinhart_hart_model, is_empty_where_nothing_is_sure) {
  const Model falling(
      R"("kind": "steinhart_hart", "a": "1.4e-3 K^-1", "b": "-2.37e-4 K^-1", "c": "9.9e-8 K^-1")");
  EXPECT_FALSE(falling.at("20"));
  // Rising on two branches, with one solution at either end of the range, but on the way there B is negative.
  const Model broken(
      R"("kind": "steinhart_hart", "a": "3.3333e-3 K^-1", "b": "-1e-4 K^-1", "c": "1e-6 K^-1")");
  EXPECT_TRUE(broken.at("-23.15"));
  EXPECT_TRUE(broken.at("86.85"));
  EXPECT_FALSE(broken.at("-23.15", "86.85"));
  // c as "0" may be half of a kelvin^-1 either way.
  const Model coarse(R"("kind": "steinhart_hart", "a": "1.4e-3 K^-1", "b": "2.37e-4 K^-1", "c": "0 K^-1")");
  EXPECT_TRUE(coarse.at("20"));
  EXPECT_FALSE(coarse.at("20", Taken::generously));
}

TEST(Table_model, gives_its_rows_and_what_lies_between) {
  const Model model(R"("kind": "table", "rows": [
    { "at": "0 °C", "nominal": "32.6 kΩ", "tolerance": "3 %" },
    { "at": "60 °C", "nominal": "2.49 kΩ", "tolerance": "3 %" },
    { "at": "25 °C", "min": "9.8 kΩ", "max": "10.2 kΩ" },
    { "at": "40 °C", "min": "5.5 kΩ", "max": "5.1 kΩ" }])");
  EXPECT_TRUE(is_band(model.at("0"), decimal("31622"), decimal("33578")));
  EXPECT_TRUE(is_band(model.at("25"), 9800, 10200));
  EXPECT_TRUE(is_band(model.at("25", Taken::generously), 9750, 10250));
  EXPECT_TRUE(is_band(model.at("10"), 9800, 33578));
  EXPECT_TRUE(is_band(model.at("40"), decimal("2415.3"), 10200)); // its own row is inverted
  EXPECT_TRUE(is_band(model.at("10", "30"), decimal("2415.3"), 33578));
  EXPECT_FALSE(model.at("-1"));
  EXPECT_FALSE(model.at("61"));
  EXPECT_FALSE(model.at("50", "61"));
}

TEST(Table_model, two_rows_of_one_temperature_count_both) {
  const Model model(R"("kind": "table", "rows": [
    { "at": "20 °C", "min": "100 Ω", "max": "110 Ω" }, { "at": "20 °C", "min": "150 Ω", "max": "160 Ω" }])");
  EXPECT_TRUE(is_band(model.at("20"), 100, 160));
}

// A row may be wider than those on both sides of it, and the part may lie anywhere in it.
TEST(Table_model, over_a_range_holds_the_rows_inside) {
  const Model model(R"("kind": "table", "rows": [
    { "at": "0 °C", "nominal": "32.6 kΩ", "tolerance": "1 %" },
    { "at": "25 °C", "nominal": "10 kΩ", "tolerance": "300 Ω" },
    { "at": "26 °C", "nominal": "9.6 kΩ", "tolerance": "10 Ω" },
    { "at": "60 °C", "nominal": "2.49 kΩ", "tolerance": "1 %" }])");
  const auto thermistor = [&](const char* low, const char* high) {
    return model_interval(*model, {Model::kelvin(low), Model::kelvin(high)}, Taken::literally,
                          Between_rows::thermistor);
  };
  EXPECT_TRUE(is_band(thermistor("25", "25"), 9700, 10300));
  EXPECT_TRUE(is_band(thermistor("25", "26"), 9590, 10300));
  EXPECT_TRUE(thermistor("24.9", "26")->contains(*thermistor("25", "25")));
  const Model wide(R"("kind": "table", "rows": [
    { "at": "20 °C", "nominal": "12.5 kΩ", "tolerance": "1 %" },
    { "at": "21 °C", "nominal": "12 kΩ", "tolerance": "50 %" },
    { "at": "22 °C", "nominal": "11.5 kΩ", "tolerance": "1 %" }])");
  EXPECT_TRUE(is_band(model_interval(*wide, {Model::kelvin("20"), Model::kelvin("22")}, Taken::literally,
                                     Between_rows::thermistor),
                      6000, 18000));
}

// Where a row is not above zero there is no logarithm to be straight in.
TEST(Table_model, between_rows_that_are_not_positive_is_only_between) {
  const Model model(R"("kind": "table", "rows": [
    { "at": "0 °C", "nominal": "-10.0 Ω", "tolerance": "1 Ω" },
    { "at": "60 °C", "nominal": "-20.0 Ω", "tolerance": "1 Ω" }])");
  const double kelvin = Model::kelvin("30");
  EXPECT_TRUE(
      is_band(model_interval(*model, {kelvin, kelvin}, Taken::literally, Between_rows::thermistor), -21, -9));
}

// TDK/EPCOS B57861S, characteristic 8016: 1.571 at 15 °C and 1.249 at 20 °C of 10 kΩ; the mean temperature in
// 1/T, 17.479 °C, has the geometric mean of both. Rows farther off say nothing there, wherever they stand.
TEST(Table_model, nominal_that_falls_is_straight_in_ln_r_over_1_t) {
  const Model model(R"("kind": "table", "rows": [
    { "at": "15 °C", "nominal": "15.71 kΩ" }, { "at": "0 °C", "nominal": "32.65 kΩ" },
    { "at": "20 °C", "nominal": "12.49 kΩ" }, { "at": "60 °C", "nominal": "2.488 kΩ" }])");
  EXPECT_EQ(model.nominal("15"), 15710);
  EXPECT_EQ(model.nominal("20"), 12490);
  const double between = 2 / (1 / 288.15 + 1 / 293.15);
  EXPECT_NEAR(nominal_resistance(*model, between).value(), std::sqrt(15710.0 * 12490), 1e-6);
  EXPECT_FALSE(model.nominal("-1"));
}

// IEC 60751: 107.79 Ω at 20 °C and 119.40 Ω at 50 °C, 0.38 Ω per kelvin. Over 1/T both would be above 108.6 Ω
// and 120.6 Ω, more than 2 K warmer.
TEST(Table_model, nominal_that_rises_is_straight_in_ln_r_over_ln_t) {
  const Model model(R"("kind": "table", "rows": [
    { "at": "0 °C", "nominal": "100.00 Ω" }, { "at": "100 °C", "nominal": "138.51 Ω" }])");
  EXPECT_NEAR(model.nominal("20").value(), 107.79, 0.6 * 0.38);
  EXPECT_NEAR(model.nominal("50").value(), 119.40, 0.6 * 0.38);
}

Precise platinum(const Precise& t) {
  Precise inner = Precise("-5.775e-7");
  if (t <= 0) inner = inner + Precise("-4.183e-12") * (t - 100) * t;
  return Precise(1) + t * (Precise("3.9083e-3") + t * inner);
}

TEST(Platinum_model, encloses_the_class_for_the_decimals) {
  test::Chance random(19680101);
  const struct {
    const char *name, *a, *b;
  } classes[] = {
      {"AA", "0.1", "0.0017"}, {"A", "0.15", "0.002"}, {"B", "0.3", "0.005"}, {"C", "0.6", "0.01"}};
  for (const auto& c : classes) {
    const Model model(fmt::format(R"("kind": "iec_60751", "r0": "1000 Ω", "tolerance_class": "{}")", c.name));
    for (int i = 0; i < cases / 10; ++i) {
      const std::string celsius = random.decimal(-190, 800, 2);
      const Precise t(celsius.c_str());
      const Precise off = Precise(c.a) + Precise(c.b) * (t <= 0 ? Precise(0.0) - t : t);
      ASSERT_TRUE(is_band(model.at(celsius.c_str()), Precise(1000) * platinum(t - off),
                          Precise(1000) * platinum(t + off)))
          << c.name << " at " << celsius;
    }
  }
}

TEST(Platinum_model, without_class_is_the_curve) {
  const Model model(R"("kind": "iec_60751", "r0": "100 Ω")");
  EXPECT_TRUE(is_band(model.at("20"), platinum(20) * 100, platinum(20) * 100));
  EXPECT_TRUE(is_band(model.at("20", Taken::generously), platinum(20) * decimal("99.5"),
                      platinum(20) * decimal("100.5")));
  EXPECT_NEAR(model.nominal("100").value(), 138.5055, 1e-10); // IEC 60751
  EXPECT_FALSE(model.at("851"));
  // The tolerance of class B reaches beyond -200 °C.
  const Model b(R"("kind": "iec_60751", "r0": "100 Ω", "tolerance_class": "B")");
  EXPECT_FALSE(b.at("-200"));
  EXPECT_TRUE(b.at("-196"));
  // The nominal curve ends where the standard's table does: 18.52 Ω and 390.48 Ω.
  EXPECT_NEAR(b.nominal("-200").value(), 18.52, 0.005);
  EXPECT_NEAR(b.nominal("850").value(), 390.48, 0.005);
  for (const char* r0 : {"0 Ω", "-100 Ω"})
    EXPECT_FALSE(Model(fmt::format(R"("kind": "iec_60751", "r0": "{}")", r0)).at("20")) << r0;
}

TEST(Polynomial_model, encloses_the_decimals) {
  const Model model(R"("kind": "polynomial", "r0": "1000 Ω", "tolerance": "0.2 %", "a1": "5.485e-3 K^-1",
                       "a2": "6.65e-6 K^-2", "a4": "2.805e-11 K^-4", "a6": "-2e-17 K^-6")");
  test::Chance random(19680101);
  for (int i = 0; i < cases; ++i) {
    const std::string celsius = random.decimal(-60, 250, 2);
    const Precise t(celsius.c_str());
    const Precise ratio =
        Precise(1) +
        t * (Precise("5.485e-3") +
             t * (Precise("6.65e-6") + t * t * (Precise("2.805e-11") - t * t * Precise("2e-17"))));
    ASSERT_TRUE(is_band(model.at(celsius.c_str()), ratio * 998, ratio * 1002)) << celsius;
  }
}

// The worked case of spec/v1/judging.md, recomputed: 43 Ω ±5 % at 20 °C has its lower limit at 41.65 Ω at
// 25 °C and at 42.46 Ω at 30 °C.
TEST(Copper_model, is_proportional_to_k_plus_t) {
  const Model model(R"("kind": "copper", "resistance": "43 Ω", "tolerance": "5 %", "at": "20 °C")");
  EXPECT_TRUE(is_band(model.at("20"), decimal("40.85"), decimal("45.15")));
  EXPECT_NEAR(model.at("25").value().low, 41.65, 0.005);
  EXPECT_NEAR(model.at("30").value().low, 42.46, 0.005);
  const Precise factor = (Precise("234.5") + 80) / (Precise("234.5") + 20);
  EXPECT_TRUE(is_band(model.at("80"), decimal("40.85") * factor, decimal("45.15") * factor));
  EXPECT_TRUE(is_band(model.at("20", "80"), decimal("40.85"), decimal("45.15") * factor));
  const Model aluminium(
      R"("kind": "copper", "metal": "aluminium", "resistance": "43.0 Ω", "at": "20 °C", "tolerance": "5 %")");
  const Precise steeper = Precise(305) / 245;
  EXPECT_TRUE(is_band(aluminium.at("80"), decimal("40.85") * steeper, decimal("45.15") * steeper));
  const Model stated(
      R"("kind": "copper", "k": "235 K", "resistance": "43.0 Ω", "at": "20 °C", "tolerance": "5 %")");
  EXPECT_TRUE(is_band(stated.at("80"), decimal("40.85") * 315 / 255, decimal("45.15") * 315 / 255));
  // Half a digit more of R, k and 20 °C: the smaller k + 20 °C is, the steeper.
  EXPECT_TRUE(is_band(stated.at("80", Taken::generously),
                      decimal("42.95") * decimal("0.95") * decimal("315.5") / 256,
                      decimal("43.05") * decimal("1.05") * decimal("314.5") / 254));
}

TEST(Copper_model, holds_over_its_range_and_scales_from_the_nearest_end) {
  const Model model(R"("kind": "copper", "resistance": "43 Ω", "tolerance": "10 %", "at": "10 °C to 30 °C")");
  const Precise low = decimal("38.7"), high = decimal("47.3");
  for (const char* inside : {"10", "20", "30"}) EXPECT_TRUE(is_band(model.at(inside), low, high)) << inside;
  const Precise hotter = (Precise("234.5") + 60) / (Precise("234.5") + 30);
  const Precise colder = Precise("234.5") / (Precise("234.5") + 10);
  EXPECT_TRUE(is_band(model.at("60"), low * hotter, high * hotter));
  EXPECT_TRUE(is_band(model.at("0"), low * colder, high * colder));
  EXPECT_TRUE(is_band(model.at("0", "60"), low * colder, high * hotter));
  EXPECT_NEAR(model.nominal("20").value(), 43, 1e-9);
  // Generously it holds at some temperature of the range only: a part of 47.3 Ω at 10 °C reads more at 30 °C.
  EXPECT_GT(model.at("30", Taken::generously).value().high, 47.3 * 264.5 / 244.5);
}

TEST(Copper_model, is_empty_where_k_plus_t_is_not_positive) {
  const Model model(R"("kind": "copper", "k": "10 K", "resistance": "43 Ω", "at": "20 °C")");
  EXPECT_TRUE(model.at("0"));
  EXPECT_FALSE(model.at("-10"));
  EXPECT_FALSE(model.at("-40"));
  EXPECT_FALSE(Model(R"("kind": "copper", "k": "10 K", "resistance": "43 Ω", "at": "-20 °C")").at("20"));
}

TEST(Other_models, fixed_power_open_closed) {
  EXPECT_TRUE(is_band(Model(R"("kind": "fixed", "resistance": "470 Ω", "tolerance": "5 %")").at("20"),
                      decimal("446.5"), decimal("493.5")));
  EXPECT_FALSE(
      Model(R"("kind": "fixed", "pairs": [{ "from": "a", "to": "b", "resistance": "47 Ω" }])").at("20"));
  // 230 V, 2 kW: 26.45 Ω by V²/P.
  const Model heater(R"("kind": "power", "voltage": "230 V ac", "power": "2 kW")");
  EXPECT_TRUE(is_band(heater.at("20"), decimal("26.45"), decimal("26.45")));
  EXPECT_TRUE(is_band(heater.at("20", Taken::generously), decimal("229.5") * decimal("229.5") / 2500,
                      decimal("230.5") * decimal("230.5") / 1500));
  const Model uneven(R"("kind": "power", "voltage": "230 V", "power": "2 kW", "tolerance": "+10 % -5 %")");
  EXPECT_TRUE(
      is_band(uneven.at("20"), decimal("26.45") * decimal("0.95"), decimal("26.45") * decimal("1.1")));
  EXPECT_NEAR(uneven.nominal("20").value(), 26.45, 1e-12) << "not the middle of the band";
  EXPECT_FALSE(Model(R"("kind": "power", "voltage": "230 V", "power": "0 W")").at("20"));
  EXPECT_FALSE(Model(R"("kind": "power", "voltage": "-230 V", "power": "2 kW")").at("20"));
  EXPECT_FALSE(Model(R"("kind": "open", "above": "1 MΩ")").at("20"));
  EXPECT_FALSE(Model(R"("kind": "closed", "below": "1 Ω")").at("20"));
  EXPECT_FALSE(model_interval({}, {293.15, 293.15}));
  EXPECT_FALSE(nominal_resistance({}, 293.15));
}

// Each way of taking the numbers holds the stricter one, for every kind of model.
TEST(Every_model, taken_more_generously_is_wider) {
  const char* const members[] = {
      R"("kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "b_value": "3977 K", "b_between": "25 °C to 85 °C")",
      R"("kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_tolerance": "30 K", "b_between": "25 °C to 50 °C")",
      R"("kind": "steinhart_hart", "a": "1.129148e-3 K^-1", "b": "2.34125e-4 K^-1", "c": "8.76741e-8 K^-1", "tolerance": "1 %")",
      R"("kind": "table", "rows": [{ "at": "0 °C", "nominal": "32.6 kΩ" }, { "at": "100 °C", "nominal": "0.68 kΩ", "tolerance": "3 %" }])",
      R"("kind": "iec_60751", "r0": "1000 Ω", "tolerance_class": "B")",
      R"("kind": "polynomial", "r0": "1000 Ω", "tolerance": "0.2 %", "a1": "5.485e-3 K^-1", "a2": "6.65e-6 K^-2")",
      R"("kind": "copper", "resistance": "43 Ω", "tolerance": "5 %", "at": "20 °C")",
      R"("kind": "copper", "resistance": "43 Ω", "tolerance": "10 %", "at": "10 °C to 30 °C", "k": "235 K")",
      R"("kind": "fixed", "resistance": "470 Ω", "tolerance": "5 %")",
      R"("kind": "power", "voltage": "230 V ac", "power": "2 kW", "tolerance": "5 %")",
  };
  for (const char* text : members) {
    const Model model(text);
    for (const char* t : {"0", "12.3", "25", "85", "99.9"}) {
      const auto nominal = model.at(t, Taken::nominally), literal = model.at(t),
                 generous = model.at(t, Taken::generously);
      ASSERT_TRUE(literal && generous) << text;
      EXPECT_TRUE(generous->contains(*literal)) << text << " at " << t;
      if (nominal) {
        EXPECT_TRUE(literal->contains(*nominal)) << text << " at " << t;
      }
      const auto wider = model.at("0", "100");
      EXPECT_TRUE(wider->contains(*literal)) << text << " at " << t;
    }
  }
}

}
}
