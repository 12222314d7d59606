// The resistance models against published tables. Sources: the reference folder's README, section by section.
#include "ohmlore/physics.h"

#include "../support/csv.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <map>
#include <ostream>
#include <string>

namespace ohmlore {
namespace {

using test::Csv;
using test::read_csv;

// A printed decimal stands for what rounds to it; the slack is for decimals that are no double.
constexpr double slack = 1e-9;

constexpr Interval point(double x) { return {x, x}; }

std::string reference_file(const std::string& name) { return OHMLORE_REFERENCE_DIR "/reference/" + name; }

#define READ_OR_SKIP(csv, name)                                                                              \
  const std::optional<Csv> csv = read_csv(reference_file(name));                                             \
  if (!csv) GTEST_SKIP() << "no reference values at " << reference_file(name)

double platinum_ohm(double celsius) {
  return platinum_resistance(point(celsius), point(100)).value().middle();
}

// Published: IEC 60751 table -200 to 0 °C, sensorsci.com -190 to 600 °C, sensingtemp.com 850 °C.
TEST(Platinum, published_table) {
  READ_OR_SKIP(csv, "pt100_iec60751.csv");
  ASSERT_EQ(csv->rows.size(), 26u);
  for (std::size_t i = 0; i < csv->rows.size(); ++i) {
    const double t = csv->number(i, "t_C");
    const double published = csv->number(i, "R_ohm_published");
    EXPECT_NEAR(platinum_ohm(t), published, 0.005 + slack) << t;
    // Backwards: half a digit of the published value, at no less than 0.29 Ω per kelvin, and 0.43 at the cold
    // end.
    if (t == -200 || t == 850) continue; // rounded, these may lie outside the range
    const std::optional<Interval> back = platinum_temperature(point(published), point(100));
    ASSERT_TRUE(back) << t;
    EXPECT_NEAR(back->middle(), t, 0.005 / 0.29) << t;
  }
}

// Published tolerances of classes A and B in kelvin and in ohm at 13 points.
TEST(Platinum, published_tolerances) {
  READ_OR_SKIP(csv, "pt100_tolerance_class_A_B.csv");
  ASSERT_EQ(csv->rows.size(), 13u);
  for (std::size_t i = 0; i < csv->rows.size(); ++i) {
    const double t = csv->number(i, "t_C");
    const double step = t < 0 ? 0.1 : -0.1; // towards the inside of the range
    const double slope = (platinum_ohm(t + step) - platinum_ohm(t)) / step;
    // At 650, 700 and 850 °C the source rounds otherwise, by up to one digit.
    const bool rounded_otherwise = t == 650 || t == 700 || t == 850;
    const double ohm_allowed = rounded_otherwise ? 0.01 : 0.005;
    const double kelvin_allowed = rounded_otherwise ? 0.05 : 0;
    for (const auto& [accuracy, name] : {std::pair{Rtd_class::a, "A"}, std::pair{Rtd_class::b, "B"}}) {
      if (csv->text(i, std::string(name) + "_C_published").empty()) continue;
      const double tolerance = rtd_class_tolerance(accuracy, t);
      EXPECT_NEAR(tolerance, csv->number(i, std::string(name) + "_C_published"), kelvin_allowed + slack)
          << name << " at " << t;
      EXPECT_NEAR(tolerance * slope, csv->number(i, std::string(name) + "_ohm_published"),
                  ohm_allowed + slack)
          << name << " at " << t;
    }
  }
}

// IEC 60751:2008 by a maker's manual; the film range of class C is from memory.
TEST(Platinum, classes) {
  READ_OR_SKIP(csv, "rtd_classes_iec60751.csv");
  const std::map<std::string, Rtd_class> classes = {
      {"AA", Rtd_class::aa}, {"A", Rtd_class::a}, {"B", Rtd_class::b}, {"C", Rtd_class::c}};
  ASSERT_EQ(csv->rows.size(), classes.size());
  for (std::size_t i = 0; i < csv->rows.size(); ++i) {
    const Rtd_class accuracy = classes.at(csv->text(i, "class"));
    for (const double t : {-150.0, 0.0, 100.0})
      EXPECT_NEAR(rtd_class_tolerance(accuracy, t),
                  csv->number(i, "a_C") + csv->number(i, "b_per_C") * std::fabs(t), slack);
    const Rtd_class_range range = rtd_class_range(accuracy);
    EXPECT_EQ(range.wire_low, csv->number(i, "wire_min_C"));
    EXPECT_EQ(range.wire_high, csv->number(i, "wire_max_C"));
    EXPECT_EQ(range.film_low, csv->number(i, "film_min_C"));
    EXPECT_EQ(range.film_high, csv->number(i, "film_max_C"));
  }
}

// Published factors of copper, reference 25 °C, k = 234.5.
TEST(Copper, published_factors) {
  READ_OR_SKIP(csv, "copper_factor_ref25.csv");
  ASSERT_EQ(csv->rows.size(), 17u);
  for (std::size_t i = 0; i < csv->rows.size(); ++i) {
    const double t = csv->number(i, "t_C");
    const double published = csv->number(i, "factor_published");
    const double factor = copper_resistance(point(t), point(1), point(25), copper_k).middle();
    if (t == 130) { // truncated by the source, not rounded
      EXPECT_EQ(std::floor(factor * 1000), std::round(published * 1000));
    } else {
      EXPECT_NEAR(factor, published, 0.0005 + slack) << t;
    }
  }
}

// Published worked example: 80 Ω at 20 °C and 100 Ω hot, k = 234.5, mean 83.625 °C.
TEST(Copper, worked_example) {
  const Interval hot = copper_resistance(point(83.625), point(80), point(20), copper_k);
  EXPECT_TRUE(hot.contains(100));
  EXPECT_LT(hot.width(), 1e-12);
}

// Published resistances for A = 1.4e-3, B = 2.37e-4, C = 9.9e-8.
TEST(Steinhart_hart, published_example) {
  constexpr Steinhart_hart s = {.a = 1.4e-3, .b = 2.37e-4, .c = 9.9e-8};
  const std::map<double, double> published = {{-10, 17000.007273577237},
                                              {0, 10030.217595116217},
                                              {10, 6110.3822188932181},
                                              {20, 3833.3275927458376},
                                              {30, 2470.6001126460119}};
  for (const auto& [celsius, ohm] : published) {
    EXPECT_NEAR(steinhart_hart_temperature(s, ohm), celsius + zero_celsius, 1e-8);
    // 1e-8 K is about 5e-10 of the resistance.
    EXPECT_NEAR(steinhart_hart_resistance(s, celsius + zero_celsius).value(), ohm, 1e-9 * ohm);
  }
}

// Three rows of the Campbell 109SS table; the expected coefficients agree with those that its manual prints.
TEST(Steinhart_hart, through_three_points_of_a_published_table) {
  const std::array<double, 3> t = {zero_celsius - 40, zero_celsius - 20, zero_celsius};
  const std::array<double, 3> ohm = {336103.2, 97006.9, 32650.9};
  const std::optional<Steinhart_hart> s = steinhart_hart_through(t, ohm);
  ASSERT_TRUE(s);
  EXPECT_NEAR(s->a, 1.12915473e-3, 0.5e-11);
  EXPECT_NEAR(s->b, 2.34123707e-4, 0.5e-12);
  EXPECT_NEAR(s->c, 8.76763e-8, 0.5e-13);
}

// The coefficients in the Campbell 109SS manual fit its own 42 rows within 0.0004 K; so do ours from three
// rows, nearly: they pass through rounded resistances.
TEST(Steinhart_hart, published_table) {
  READ_OR_SKIP(csv, "ntc_10k3mcd1_campbell109ss.csv");
  ASSERT_EQ(csv->rows.size(), 42u);
  constexpr Steinhart_hart published = {.a = 0.001129148, .b = 0.000234125, .c = 8.76741e-8};
  for (std::size_t i = 0; i < csv->rows.size(); ++i)
    EXPECT_NEAR(steinhart_hart_temperature(published, csv->number(i, "R_ohm")),
                csv->number(i, "t_C") + zero_celsius, 0.0004);
  EXPECT_NEAR(steinhart_hart_resistance(published, 25 + zero_celsius).value(), 10000, 0.5); // 10 kΩ at 25 °C
}

struct Ntc_table {
  const char* file;
  const char* column;
  double to;         // °C; the other temperature is 25 °C
  double recomputed; // B as the README recomputes it
  double stated;     // B as the maker states it, 0: not stated for this pair
};

void PrintTo(const Ntc_table& table, std::ostream* out) { *out << table.file << " 25/" << table.to; }

// Makers' data sheets: TDK/EPCOS B57861S (characteristic 8016), B57891S0103, B57330V2103; Murata NCP WB473.
class Ntc : public testing::TestWithParam<Ntc_table> {};

TEST_P(Ntc, b_of_two_rows) {
  const Ntc_table& expected = GetParam();
  READ_OR_SKIP(csv, expected.file);
  double at_25 = 0, at_end = 0;
  for (std::size_t i = 0; i < csv->rows.size(); ++i) {
    if (csv->number(i, "t_C") == 25) at_25 = csv->number(i, expected.column);
    if (csv->number(i, "t_C") == expected.to) at_end = csv->number(i, expected.column);
  }
  ASSERT_GT(at_25, 0);
  ASSERT_GT(at_end, 0);
  const Interval b =
      b_between(point(at_25), point(25 + zero_celsius), point(at_end), point(expected.to + zero_celsius));
  EXPECT_NEAR(b.middle(), expected.recomputed, 0.05 + slack);
  EXPECT_LT(b.width(), 1e-9);
  // ±1 % is stated for the two data sheets with B25/100 = 3988 and 3950; for the others it is common
  // practice.
  if (expected.stated > 0) {
    EXPECT_NEAR(b.middle(), expected.stated, 0.01 * expected.stated);
  }
}

INSTANTIATE_TEST_SUITE_P(
    tables, Ntc,
    testing::Values(Ntc_table{"ntc_b57861s_rt8016.csv", "RT_over_R25", 100, 3987.7, 3988},
                    Ntc_table{"ntc_b57891s0103_epcos_10k.csv", "R_ohm", 100, 3951.1, 3950},
                    Ntc_table{"ntc_ncpXXwb473_murata_47k.csv", "R_ohm", 50, 4049.9, 4050},
                    Ntc_table{"ntc_ncpXXwb473_murata_47k.csv", "R_ohm", 85, 4107.8, 0},
                    Ntc_table{"ntc_ncpXXwb473_murata_47k.csv", "R_ohm", 100, 4130.9, 0},
                    Ntc_table{"ntc_b57330v2103_epcos_10k.csv", "R_ohm", 100, 3456.2, 3455},
                    Ntc_table{"ntc_b57330v2103_epcos_10k.csv", "R_ohm", 85, 3435.4, 0}));

// Every published curve falls, and its local B stays between 1000 and 8000 K.
TEST(Ntc, published_curves_fall_with_a_physical_b) {
  const std::map<std::string, std::string> files = {{"ntc_b57861s_rt8016.csv", "RT_over_R25"},
                                                    {"ntc_b57891s0103_epcos_10k.csv", "R_ohm"},
                                                    {"ntc_ncpXXwb473_murata_47k.csv", "R_ohm"},
                                                    {"ntc_b57330v2103_epcos_10k.csv", "R_ohm"},
                                                    {"ntc_10k3mcd1_campbell109ss.csv", "R_ohm"}};
  for (const auto& [file, column] : files) {
    READ_OR_SKIP(csv, file);
    for (std::size_t i = 1; i < csv->rows.size(); ++i) {
      const Interval b =
          b_between(point(csv->number(i - 1, column)), point(csv->number(i - 1, "t_C") + zero_celsius),
                    point(csv->number(i, column)), point(csv->number(i, "t_C") + zero_celsius));
      EXPECT_TRUE((Interval{1000, 8000}).contains(b)) << file << " row " << i;
    }
  }
}

// README: a B-only model gives 34 015 Ω at 0 °C where characteristic 8016 has 32 650 Ω, 4.2 % less.
TEST(Ntc, b_only_departs_from_the_table_far_from_its_points) {
  const double ohm =
      beta_resistance(point(zero_celsius), point(10000), point(25 + zero_celsius), point(3988)).middle();
  EXPECT_NEAR(ohm, 34015, 0.5);
  EXPECT_NEAR(ohm / 32650 - 1, 0.042, 0.0005);
}

// TDK/EPCOS B57861, March 2006: R25 2 kΩ ±1 %, B25/100 3560 ±1 %. The README computes 2.093 % at 0 °C
// and 1.859 % at 5 °C to first order; the printed limits are up to 0.1 percentage point wider.
TEST(Ntc, band_from_two_tolerances) {
  READ_OR_SKIP(csv, "ntc_minmax_b57861_2k_1pct.csv");
  ASSERT_EQ(csv->rows.size(), 2u);
  const std::map<double, double> first_order = {{0, 2.093}, {5, 1.859}};
  const auto around = [](double nominal, double percent) {
    return Interval{nominal * (1 - percent / 100), nominal * (1 + percent / 100)};
  };
  for (std::size_t i = 0; i < csv->rows.size(); ++i) {
    const double t = csv->number(i, "t_C");
    const Interval r25 = around(csv->number(i, "R25"), csv->number(i, "R25_tol_pct"));
    const Interval b = around(csv->number(i, "B25_100"), csv->number(i, "B_tol_pct"));
    const Interval band = beta_resistance(point(t + zero_celsius), r25, point(25 + zero_celsius), b);
    const double nominal = beta_resistance(point(t + zero_celsius), point(r25.middle()),
                                           point(25 + zero_celsius), point(b.middle()))
                               .middle();
    // Both sides' mean is the first order, save for terms of the third.
    EXPECT_NEAR(band.width() / 2 / nominal * 100, first_order.at(t), 0.001) << t;
    const double printed = csv->number(i, "R_nom");
    EXPECT_NEAR(100 * (nominal - band.low) / nominal, 100 * (printed - csv->number(i, "R_min")) / printed,
                0.1)
        << t;
    EXPECT_NEAR(100 * (band.high - nominal) / nominal, 100 * (csv->number(i, "R_max") - printed) / printed,
                0.1)
        << t;
  }
}

// EPCOS, "Standardized R/T characteristics", curve 1006: R25 = 4.7 kΩ, R5/R25 = 2.2739, α5 = 4.4 %/K. Between
// rows the curve is taken with the local B = α T²: R7 = 9.7932 kΩ.
TEST(Ntc, interpolation_example) {
  const double t5 = 5 + zero_celsius;
  const Interval r7 =
      beta_resistance(point(7 + zero_celsius), point(4700 * 2.2739), point(t5), point(0.044 * t5 * t5));
  EXPECT_NEAR(r7.middle(), 9793.2, 0.05);
}

}
}
