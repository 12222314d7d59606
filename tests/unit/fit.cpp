// Fits of single tables: what comes out, what is refused and how, and that the part lints clean.
#include "ohmlore/fit.h"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <gtest/gtest.h>

#include <cmath>
#include <regex>
#include <set>

#include "fit/distributions.h"
#include "fit/outliers.h"
#include "fit/worked_out.h"
#include "ohmlore/cautions.h"
#include "ohmlore/lint.h"
#include "support/fit_tables.h"

namespace ohmlore {
namespace {

using namespace test;

// ---- distributions and factors

// scipy 1.10 (scipy.stats: norm.ppf, chi2.cdf, chi2.sf, t.sf, t.ppf, f.sf).
TEST(Distributions, Agree_with_scipy) {
  EXPECT_NEAR(normal_quantile(0.975), 1.959963984540054, 1e-13);
  EXPECT_NEAR(normal_quantile(0.025), -1.959963984540054, 1e-13);
  EXPECT_NEAR(chi_square_below(3.3, 9), 0.048795309315902924, 1e-13);
  EXPECT_NEAR(chi_square_above(200, 10) / 1.6139305336977317e-37, 1, 1e-10);
  EXPECT_NEAR(student_beyond(2.5, 7), 0.040992218585752874, 1e-13);
  EXPECT_NEAR(student_beyond(40, 5) / 1.8411962171772952e-07, 1, 1e-10);
  EXPECT_NEAR(student_beyond(0.001, 5), 0.9992407867721976, 1e-13);
  EXPECT_NEAR(student_two_sided(0.05, 3), 3.182446305284263, 1e-12);
  EXPECT_NEAR(fisher_above(4.2, 1, 11), 0.06504396830833857, 1e-13);
}

// Berthouex and Brown, Statistics for Environmental Engineers, 2nd edition, table 21.1: two-sided tolerance
// intervals of a normal population at 95 % confidence (read in an online copy; printed to 0.01).
TEST(Tolerance_factor, Agrees_with_a_published_table) {
  struct Row {
    std::size_t n;
    double of_90, of_95, of_99;
  };
  constexpr Row rows[] = {{4, 5.37, 6.34, 8.22},  {5, 4.29, 5.08, 6.60},  {6, 3.73, 4.42, 5.76},
                          {7, 3.39, 4.02, 5.24},  {8, 3.16, 3.75, 4.89},  {9, 2.99, 3.55, 4.63},
                          {10, 2.86, 3.39, 4.44}, {12, 2.67, 3.17, 4.16}, {15, 2.49, 2.96, 3.89},
                          {20, 2.32, 2.76, 3.62}, {25, 2.22, 2.64, 3.46}, {30, 2.15, 2.55, 3.35},
                          {40, 2.06, 2.45, 3.22}, {60, 1.96, 2.34, 3.07}};
  for (const Row& row : rows) {
    EXPECT_NEAR(tolerance_factor(row.n, 0.90, 0.95), row.of_90, 0.0101) << row.n;
    EXPECT_NEAR(tolerance_factor(row.n, 0.95, 0.95), row.of_95, 0.0101) << row.n;
    EXPECT_NEAR(tolerance_factor(row.n, 0.99, 0.95), row.of_99, 0.0101) << row.n;
  }
}

// Of so few that the factor is large: the integral by scipy 1.10 (integrate.quad over stats.chi2.sf, and
// optimize.brentq).
TEST(Tolerance_factor, Agrees_with_scipy_for_two_specimens) {
  EXPECT_NEAR(tolerance_factor(2, 0.95, 0.95), 36.519214612, 1e-6);
  EXPECT_NEAR(tolerance_factor(2, 0.99, 0.99), 234.87745982, 1e-5);
  EXPECT_NEAR(tolerance_factor(3, 0.95, 0.95), 9.7887524030, 1e-7);
}

// NIST/SEMATECH e-Handbook, 7.2.6.3: n = 43, content 90 %, confidence 99 %: k2 = 2.2173 by Howe's (1969)
// approximation, which lies within 0.5 % of the exact factor from n = 3 on.
TEST(Tolerance_factor, Lies_beside_howes_approximation) {
  EXPECT_NEAR(tolerance_factor(43, 0.90, 0.99) / 2.2173, 1, 0.005);
  for (const std::size_t n : {5u, 10u, 30u, 100u}) {
    double low = 0, high = 1000; // the 5 % point of chi-square
    const double freedom = static_cast<double>(n - 1);
    while (high - low > 1e-9)
      (chi_square_below((low + high) / 2, freedom) < 0.05 ? low : high) = (low + high) / 2;
    const double howe = normal_quantile(0.975) * std::sqrt(freedom * (1 + 1 / static_cast<double>(n)) / low);
    EXPECT_NEAR(tolerance_factor(n, 0.95, 0.95) / howe, 1, 0.006) << n;
  }
}

// ---- what is uncertain, by hand

constexpr Fit_means fine = {{0.0005, 0, 1e6}, {0, 0}, 0.02};

// 10 Ω less the leads: the display shows 10.3 Ω, in steps of 0.1 Ω.
TEST(Measurement_bounds, Are_shares_of_what_is_left_without_the_leads) {
  const Fit_means means = {{0.008, 3, 6000}, {0.3, 0.2}, 0.5};
  const auto bounds = measurement_bounds(means, 10, -0.04, 0.05);
  EXPECT_NEAR(bounds.meter, (0.008 * 10.3 + 0.3) / 10, 1e-12);
  EXPECT_NEAR(bounds.leads, 0.02, 1e-12);
  EXPECT_NEAR(bounds.thermometer, 0.02, 1e-12);
  EXPECT_EQ(bounds.rounding, 0) << "all digits of the display are written";
  EXPECT_NEAR(measurement_bounds(means, 10, 0, 0.5).rounding, 0.05, 1e-12);
}

TEST(Rounded_up, Is_two_digits_and_never_less) {
  for (int digits = 10; digits < 100; ++digits)
    for (const double unit : {1e-2, 1e-3, 1e-4, 1e-5})
      EXPECT_NEAR(rounded_up(digits * unit), digits * unit, 1e-12) << digits << ' ' << unit;
  EXPECT_NEAR(rounded_up(0.01834), 0.019, 1e-12);
  EXPECT_NEAR(rounded_up(0.996), 1, 1e-12);
  EXPECT_EQ(rounded_up(0), 0);
}

// F = ((4 - 0) / 1) / 1 of 1 and 2 degrees of freedom: p = 0.1835 (scipy.stats.f.sf). Readings that are
// rounded alike scatter by nothing, so that their rounding counts; and as many numbers as readings always
// fit.
TEST(Chance_of_gain, Counts_rounding_as_scatter) {
  Regression less, more;
  less.chi_square = 4, less.freedom = 3;
  more.chi_square = 0, more.freedom = 2;
  more.variances = more.resolutions = std::vector(4, 1e-6);
  EXPECT_NEAR(chance_of_gain(less, more), 0.183503419072274, 1e-12);
  more.freedom = 0;
  EXPECT_EQ(chance_of_gain(less, more), 1);
}

// Beyond the bounds (√3 u) in the mean square, and more than chance makes of few: p is 1.8e-4, 2.7e-3
// and 5.3e-4 (scipy.stats.chi2.sf).
TEST(Scatter, Is_beyond_bounds_where_neither_they_nor_chance_explain_it) {
  const auto beyond = [](double chi_square, std::size_t freedom) {
    Regression regression;
    regression.chi_square = chi_square, regression.freedom = freedom;
    return scatters_beyond_bounds(regression);
  };
  EXPECT_FALSE(beyond(80, 40));
  EXPECT_FALSE(beyond(9, 1));
  EXPECT_TRUE(beyond(12, 1));
}

// One value beside five of standard deviation s: t = off / (s √(1 + 1/5)), of 4 degrees of freedom.
TEST(Studentised, Is_the_distance_from_all_others) {
  const double values[] = {-2, -1, 0, 1, 2, 10}, no_rounding[6] = {}, rounding[] = {1, 1, 1, 1, 1, 25};
  EXPECT_NEAR(studentised(values, no_rounding)[5].value(), 10 / std::sqrt(2.5 * 1.2), 1e-12);
  EXPECT_NEAR(studentised(values, rounding)[5].value(), 10 / std::sqrt(25 * 1.2), 1e-12);
  EXPECT_FALSE(studentised(std::span(values).first(3), no_rounding)[0]) << "one of three may be any of them";
  EXPECT_TRUE(studentised(std::span(values).first(4), no_rounding)[0]);
}

// Two specimens of one B each: the slope of ln R at a reading is -B / T², and rounding makes a variance of a
// third of its square.
// Of four values there are three ways to part them in two and two. Student's t of two degrees of freedom is
// beyond x with probability 1 - x/√(x² + 2) (Student 1908).
TEST(Two_groups, Have_the_chance_of_all_ways_to_part_four_values) {
  for (const double d : {5.0, 12.0, 30.0}) {
    const double t = d * std::sqrt(2.0);
    const auto groups = two_groups(std::vector<double>{d, 0, d + 1, 1}, 0);
    ASSERT_TRUE(groups);
    EXPECT_NEAR(groups->chance, 3 * (1 - t / std::sqrt(t * t + 2)), 1e-9) << d;
    EXPECT_EQ(groups->smaller, (std::vector<std::size_t>{1, 3})) << d;
    EXPECT_NEAR(groups->off, -d, 1e-9);
    EXPECT_NEAR(groups->within, std::sqrt(0.5), 1e-9);
  }
  EXPECT_FALSE(two_groups(std::vector<double>{1, 2, 30}, 0));
}

// Parts of one type are taken for two groups as often as is said, and of many less often.
TEST(Two_groups, Are_found_in_one_as_often_as_they_say) {
  std::mt19937 dice(23);
  std::normal_distribution<> normal;
  for (const std::size_t n : {4u, 8u, 30u}) {
    constexpr int tables = 20000;
    int found = 0;
    for (int i = 0; i < tables; ++i) {
      std::vector<double> values(n);
      for (double& value : values) value = normal(dice);
      const auto groups = two_groups(values, 0);
      found += groups && groups->chance < 0.05 ? 1 : 0;
    }
    EXPECT_LE(found, 0.056 * tables) << n; // four standard deviations of the count
    if (n <= 8) {
      EXPECT_GE(found, 0.044 * tables) << n;
    }
  }
}

// Readings of 1000 Ω and 1001 Ω, half of each, may be of parts that are all alike.
TEST(Two_groups, Are_not_made_by_the_last_digit) {
  std::vector<double> values(100);
  for (std::size_t i = 0; i < values.size(); i += 2) values[i] = 0.001;
  const double resolution = 0.0005 * 0.0005 / 3;
  EXPECT_GT(two_groups(values, resolution).value_or(Two_groups()).chance, 0.1);
  for (double& value : values) value *= 3;
  EXPECT_LT(two_groups(values, resolution).value().chance, 1e-6);
}

TEST(Regression, Has_the_slope_of_each_specimen) {
  std::vector<Observation> observations;
  for (std::size_t s = 0; s < 2; ++s)
    for (const double t : {273.15, 298.15, 323.15}) {
      const double b = s == 0 ? 3900 : 4000;
      Observation one{s, t, std::log(10000) + b * (1 / t - 1 / 298.15), 0.01, 1e-4};
      one.resolution_log = 0.003;
      one.rounding_kelvin = 0.05;
      observations.push_back(one);
    }
  const auto found = regress({Model_kind::beta, 298.15, 9}, observations, 2, true);
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->curve[1], 3950, 1e-6);
  for (std::size_t i = 0; i < observations.size(); ++i) {
    const double slope = -(i < 3 ? 3900 : 4000) / std::pow(observations[i].kelvin, 2);
    EXPECT_NEAR(found->slopes_at[i], slope, 1e-9) << i;
    EXPECT_NEAR(found->variances[i], 1e-8 + std::pow(0.01 * slope, 2), 1e-12) << i;
    EXPECT_NEAR(found->resolutions[i], (0.003 * 0.003 + std::pow(0.05 * slope, 2)) / 3, 1e-12) << i;
  }
}

// ---- fits

TEST(Fit_part, Finds_beta_and_its_tolerance) {
  const Fit fit = fitted(ntc_table(8, 0.004, 8.0), Component_kind::ntc, fine);
  EXPECT_EQ(fit.model, Model_kind::beta);
  ASSERT_EQ(fit.parameters.size(), 2u);
  EXPECT_NEAR(fit.parameters[0].value, 10000, 4 * 10000 * 0.004 / std::sqrt(8.0));
  EXPECT_NEAR(fit.parameters[1].value, 3977, 3 * 8);
  ASSERT_TRUE(fit.tolerance);
  EXPECT_EQ(fit.tolerance->specimens, 8u);
  EXPECT_NEAR(fit.tolerance->factor, 3.75, 0.01); // the published table above
  EXPECT_TRUE(fit.tolerance->b_share);
  EXPECT_GE(fit.tolerance->share, fit.tolerance->factor * fit.tolerance->spread + fit.tolerance->measurement);
  EXPECT_FALSE(fit.doubtful) << fit.remarks.front();
}

// Many specimens whose spread is far more than the measurement, each read often enough, and no outlier: the
// range is told, and that `ntc_table` scatters less than `fine` means may be off.
TEST(Fit_part, Of_a_good_table_little_is_remarked) {
  const std::vector<std::string> remarks =
      fitted(ntc_table(8, 0.004, 8.0), Component_kind::ntc, fine).remarks;
  ASSERT_EQ(remarks.size(), 2u) << fmt::format("{}", fmt::join(remarks, "\n"));
  // By how much hangs on the random numbers, which other standard libraries draw otherwise.
  EXPECT_EQ(remarks[0].find("the readings scatter 0.3"), 0u) << remarks[0];
  EXPECT_EQ(remarks[1].find("measured from 0 °C to 80 °C"), 0u) << remarks[1];
}

TEST(Fit_part, Says_what_few_specimens_or_readings_leave_open) {
  const auto remarks = [](const std::vector<Row>& rows) {
    return fmt::format("{}", fmt::join(fitted(rows, Component_kind::ntc, fine).remarks, "\n"));
  };
  const auto says = [](const std::string& all, std::string_view part) { return all.find(part) != all.npos; };
  EXPECT_TRUE(says(remarks(ntc_table(4, 0.004, 8.0)), "4 specimens say little of all others"));
  EXPECT_FALSE(says(remarks(ntc_table(5, 0.004, 8.0)), "say little of all others"));
  const std::string two = remarks({{"a", 0, beta_ohm(0, 3977)}, {"a", 50, beta_ohm(50, 3977)}});
  EXPECT_TRUE(says(two, "as many readings as the curves have numbers")) << two;
  EXPECT_FALSE(says(two, "scatter")) << two;
  EXPECT_FALSE(says(remarks(ntc_table(1, 0, 0)), "as many readings as"));
}

TEST(Fit_part, Claims_no_tolerance_from_one_specimen_and_says_so) {
  const Fit fit = fitted(ntc_table(1, 0, 0), Component_kind::ntc, fine);
  EXPECT_FALSE(fit.tolerance);
  EXPECT_EQ(fit.part.find("\"tolerance\""), std::string::npos) << fit.part;
  EXPECT_NE(text_report(fit).find("one specimen was measured: how far parts differ is not known"),
            std::string::npos);
}

TEST(Fit_part, Is_never_narrower_than_the_measurement) {
  Fit_means coarse = fine;
  coarse.thermometer = 1;
  const Fit fit = fitted(ntc_table(8, 0.001, 1), Component_kind::ntc, coarse);
  ASSERT_TRUE(fit.tolerance);
  // 1 K of a thermistor of B 3977 K at 25 °C is B/T² = 4.47 %.
  EXPECT_GT(fit.tolerance->share, 0.0447);
  EXPECT_NE(text_report(fit).find("is only what the measurement may be off"), std::string::npos);
}

Fit fit_of_csv(const std::string& csv, Component_kind kind, const Fit_means& means,
               std::optional<Model_kind> model = {}) {
  const auto read = read_measurements("m.csv", csv);
  EXPECT_TRUE(read.measurements);
  Fit_request request;
  request.kind = kind;
  request.means = means;
  request.model = model;
  return fit_part(*read.measurements, request).fit.value_or(Fit());
}

std::vector<Row> readings_of(const std::vector<double>& ohms, bool of_one_specimen) {
  std::vector<Row> rows;
  for (const double ohm : ohms)
    rows.push_back({of_one_specimen ? "a" : fmt::format("s{}", rows.size()), 20, ohm});
  return rows;
}

// The common error of meter and leads does not average out: 1.96 √((a² + b²) / 3) of 100 Ω, however often it
// is read; a = 0.8 % of 100.3 Ω + 3 · 0.1 Ω, b = 0.2 Ω (JCGM 100, rectangular).
TEST(Fit_part, Subtracts_the_leads_and_averages_no_common_error) {
  const Fit_means handheld = {{0.008, 3, 6000}, {0.3, 0.2}, 1};
  const Fit fit = fitted(readings_of(std::vector(16, 100.3), true), Component_kind::resistor, handheld);
  EXPECT_NEAR(fit.parameters.at(0).value, 100, 1e-9);
  EXPECT_NEAR(fit.parameters[0].uncertainty, 1.959963984540054 * std::sqrt((1.1024 * 1.1024 + 0.04) / 3),
              1e-9);
}

// Readings that scatter more than is stated count as they scatter: t s / √n, t of 4 degrees of freedom at 95
// % two- sided 2.776445 (any table of Student's t).
TEST(Fit_part, Takes_the_scatter_of_readings_as_it_is) {
  std::vector<double> ohms;
  for (const int off : {-2, -1, 0, 1, 2}) ohms.push_back(1000 * std::exp(0.005 * off));
  const Fit fit = fitted(readings_of(ohms, true), Component_kind::resistor, fine);
  EXPECT_NEAR(fit.parameters.at(0).value, 1000, 1e-6);
  EXPECT_NEAR(fit.parameters[0].uncertainty, 1000 * 2.776445105 * 0.005 * std::sqrt(2.5 / 5), 1e-4);
}

// Of three specimens: how far they spread with t of 2 degrees of freedom (4.302653), and what is common to
// all. Their spread is s = 1 % with n - 1, and k = 9.7888 times that is the tolerance, with what the
// measurement adds.
TEST(Fit_part, Adds_the_spread_of_specimens_to_the_common_error) {
  const Fit_means handheld = {{0.008, 3, 6000}, {0.3, 0.2}, 1};
  std::vector<double> ohms;
  for (const int off : {-1, 0, 1}) ohms.push_back(0.3 + 100 * std::exp(0.01 * off));
  const Fit fit = fitted(readings_of(ohms, false), Component_kind::heater, handheld);
  const double common = 1.959963984540054 * std::sqrt((1.1024 * 1.1024 + 0.04) / 3);
  EXPECT_NEAR(fit.parameters.at(0).value, 100, 0.01);
  EXPECT_NEAR(fit.parameters[0].uncertainty, std::hypot(common, 100 * 4.302652730 * 0.01 / std::sqrt(3.0)),
              0.01);
  ASSERT_TRUE(fit.tolerance);
  EXPECT_NEAR(fit.tolerance->spread, 0.01, 1e-9);
  EXPECT_NEAR(fit.tolerance->measurement, 0.011024 + 0.002, 1e-4);
  EXPECT_NEAR(fit.tolerance->share, rounded_up(std::expm1(9.7887524 * 0.01 + 0.013024)), 1e-12);
}

// Two specimens, k = 36.519: a spread that makes the tolerance 99.6 %, which is written as 100 %.
TEST(Fit_part, Claims_no_tolerance_that_is_written_as_100_percent) {
  const Fit_means exact = {{0, 0, 1e12}, {0, 0}, 0.02};
  const auto tolerance = [&](double share) {
    const double off = std::log1p(share) / tolerance_factor(2, 0.95, 0.95) / std::sqrt(2.0);
    return fitted(readings_of({100 * std::exp(off), 100 * std::exp(-off)}, false), Component_kind::heater,
                  exact)
        .tolerance;
  };
  EXPECT_FALSE(tolerance(0.996));
  ASSERT_TRUE(tolerance(0.986));
  EXPECT_NEAR(tolerance(0.986)->share, 0.99, 1e-12);
}

// B of 3950 K, 3977 K and 4004 K spreads by s = 27 K, and k = 9.7888; half a kelvin besides, as it is written
// in whole ones.
TEST(Fit_part, Claims_of_b_what_the_specimens_spread) {
  const Fit_means exact = {{1e-9, 0, 1e12}, {0, 0}, 1e-6};
  const auto share = [&](double spread) {
    std::vector<Row> rows;
    for (const int s : {0, 1, 2})
      for (const double t : {0.0, 25.0, 50.0})
        rows.push_back(
            {fmt::format("s{}", s), t, beta_ohm(t, 3977 + spread * (s - 1), s == 1 ? 9800 : 10100)});
    return fitted(rows, Component_kind::ntc, exact).tolerance.value().b_share.value();
  };
  EXPECT_NEAR(share(27), rounded_up((9.7887524 * 27 + 0.5) / 3977), 1e-12);
  EXPECT_NEAR(share(0), rounded_up(0.5 / 3977), 1e-12);
}

// Leads of ± 0.2 Ω weigh most where the thermistor has least, at the hot end of what was measured; the first
// row is neither the coldest nor the hottest.
TEST(Fit_part, Looks_for_the_tolerance_over_all_that_was_measured) {
  const Fit_means leads = {{0.0005, 0, 1e6}, {0, 0.2}, 0.02};
  std::vector<Row> rows;
  for (int s = 0; s < 5; ++s)
    for (const double t : {25.0, 0.0, 80.0})
      rows.push_back({fmt::format("s{}", s), t, (1 + 0.002 * s) * beta_ohm(t, 3977, 100)});
  rows.pop_back(); // so that one specimen shows no B of its own
  const Fit fit = fitted(rows, Component_kind::ntc, leads);
  EXPECT_NEAR(fit.kelvin.low, 273.15, 1e-9);
  EXPECT_NEAR(fit.kelvin.high, 353.15, 1e-9);
  EXPECT_FALSE(fit.own_slopes);
  ASSERT_TRUE(fit.tolerance);
  EXPECT_FALSE(fit.tolerance->b_share);
  EXPECT_NEAR(fit.tolerance->kelvin, 353.15, 1e-9);
}

// A thermistor is stated at 25 °C only where it was measured on both sides of it, else at the next five
// degrees to the middle; copper also where it was measured within 5 K of 20 °C.
TEST(Fit_part, States_the_resistance_where_it_was_measured) {
  std::vector<Row> ntc, winding;
  for (const double t : {27.0, 40.0, 60.0, 80.0}) ntc.push_back({"a", t, beta_ohm(t, 3977)});
  for (const double t : {23.0, 40.0, 60.0}) winding.push_back({"a", t, 43 * (234.5 + t) / 254.5});
  EXPECT_NEAR(fitted(ntc, Component_kind::ntc, fine).reference, 273.15 + 55, 1e-9);
  EXPECT_NEAR(fitted(winding, Component_kind::coil, fine).reference, 273.15 + 20, 1e-9);
}

// One reading beside five of one resistor: externally studentised, of 4 degrees of freedom, t = 6.6 has p · 6
// = 0.016 and 8.5 has 0.0063 (scipy.stats.t.sf): once in 100 tables only the second.
TEST(Fit_part, Calls_nothing_an_outlier_more_often_than_it_states) {
  const auto outliers = [](double t) {
    std::vector<double> ohms;
    for (const int off : {-2, -1, 0, 1, 2}) ohms.push_back(1000 * std::exp(0.005 * off));
    ohms.push_back(1000 * std::exp(0.005 * t * std::sqrt(2.5 * 1.2)));
    const Fit fit = fitted(readings_of(ohms, true), Component_kind::resistor, fine);
    EXPECT_NEAR(fit.residuals.at(5).studentised.value(), t, 1e-6);
    return fit.residuals[5].outlier;
  };
  EXPECT_FALSE(outliers(6.6));
  EXPECT_TRUE(outliers(8.5));
}

// With four specimens or more the readings share the rate with them: of 24 readings, 19 degrees of freedom, t
// = 4.4 has p · 24 = 0.0074 and 5 has 0.0019 (scipy.stats.t.sf).
TEST(Fit_part, Shares_the_rate_of_false_alarms_between_readings_and_specimens) {
  const auto is_outlier = [](double t) {
    std::vector<Row> rows;
    for (int s = 0; s < 4; ++s)
      for (const int off : {-1, 1, -1, 1, 0, 0})
        rows.push_back({fmt::format("s{}", s), 20, 1000 * std::exp(0.005 * off)});
    rows.back().ohm = 1000 * std::exp(0.005 * t * std::sqrt(16 / 19.0 * 1.2));
    const Fit fit = fitted(rows, Component_kind::resistor, fine);
    EXPECT_NEAR(fit.residuals.back().studentised.value(), t, 1e-6);
    return fit.residuals.back().outlier;
  };
  EXPECT_FALSE(is_outlier(4.4));
  EXPECT_TRUE(is_outlier(5));
}

// Each is left out before the next is looked for, a quarter of the readings at most.
TEST(Fit_part, Names_outliers_one_after_the_other) {
  const std::vector<double> ohms = {2000, 1000.1, 1010, 999.9, 1000, 1100, 1000.2, 999.8};
  const Fit fit = fitted(readings_of(ohms, true), Component_kind::resistor, fine);
  for (std::size_t i = 0; i < ohms.size(); ++i) EXPECT_EQ(fit.residuals[i].outlier, i == 0 || i == 5) << i;
}

// Seven readings of 1000 Ω and one of 1001 Ω, all with the last digit of the display: what the others agree
// on exactly may be off by half a digit each, u = 0.5 Ω / √3. The eighth is 7/8 Ω off its mean with them,
// √(7/8) of itself.
TEST(Fit_part, Takes_half_a_digit_of_the_display_for_scatter) {
  std::string csv = "temperature (°C),resistance\n";
  for (int i = 0; i < 7; ++i) csv += "20,1.000 kΩ\n";
  const Fit fit = fit_of_csv(csv + "20,1.001 kΩ\n", Component_kind::resistor, {{0.008, 3, 6000}, {0, 0}, 1});
  EXPECT_NEAR(fit.residuals.at(7).studentised.value(),
              std::log(1.001) * std::sqrt(7 / 8.0) / (0.5 / 1001 / std::sqrt(3.0)), 1e-3);
}

// The coarsest reading of a specimen says how much it may be off, whichever was the last: 5 Ω of 1010 Ω.
TEST(Fit_part, Takes_the_coarsest_reading_of_a_specimen_for_its_rounding) {
  std::string csv = "specimen,temperature (°C),resistance\n";
  for (int s = 0; s < 4; ++s) csv += fmt::format("s{0},20,1.00 kΩ\ns{0},20,1000.0 Ω\n", s);
  const Fit fit = fit_of_csv(csv + "e,20,1.01 kΩ\ne,20,1010.0 Ω\n", Component_kind::resistor, fine);
  EXPECT_NEAR(fit.specimens.at(4).studentised.value(),
              std::log(1.01) * std::sqrt(4 / 5.0) / (5 / 1010.0 / std::sqrt(3.0)), 1e-6);
  EXPECT_FALSE(fit.specimens[4].outlier);
}

// Of a resistor the usual value that its tolerance holds: 478 Ω ± 3 % are 470 Ω (E24), and 478.0 Ω ± 0.1 %
// are not.
TEST(Fit_part, Takes_a_resistor_for_the_preferred_value_within_its_tolerance) {
  const auto nominal = [](double spread) {
    std::vector<double> ohms;
    for (const int off : {-2, -1, 0, 1, 2}) ohms.push_back(478 * std::exp(spread * off / std::sqrt(2.5)));
    const Fit fit = fitted(readings_of(ohms, false), Component_kind::resistor, fine);
    const auto& said = fit.remarks;
    const bool is_said = std::any_of(said.begin(), said.end(), [](const std::string& remark) {
      return remark.find("states 470 Ω, the usual value nearest to this mean, 1.7 % beside it") !=
             remark.npos;
    });
    EXPECT_EQ(is_said, fit.nominal < 475) << "the tolerance lies around another value than is shown";
    return fit.nominal;
  };
  EXPECT_NEAR(nominal(0.005), 470, 1e-9);
  EXPECT_NEAR(nominal(0.0002), 478, 1e-9);
  // The next above 910 Ω is 1 kΩ: 962 Ω ± 6 % lies nearer to it.
  std::vector<double> ohms;
  for (const int off : {-2, -1, 0, 1, 2}) ohms.push_back(962 * std::exp(0.012 * off / std::sqrt(2.5)));
  EXPECT_NEAR(fitted(readings_of(ohms, false), Component_kind::resistor, fine).nominal, 1000, 1e-9);
}

// Four readings leave one degree of freedom, and F of 1 and 1 is beyond 4052 once in 100 tables (any table of
// F): with a reading that is off by 0.1 % it is, by 0.2 % it is not.
TEST(Fit_part, Takes_another_curve_where_chance_fits_so_once_in_100_tables) {
  const auto chosen = [](double off) {
    std::vector<Row> rows;
    for (const double t : {-20.0, 20.0, 60.0, 100.0})
      rows.push_back({"a", t, steinhart_hart_resistance(published_hart, t + 273.15).value()});
    rows[1].ohm *= 1 + off;
    return fitted(rows, Component_kind::ntc, fine).model;
  };
  EXPECT_EQ(chosen(0.001), Model_kind::steinhart_hart);
  EXPECT_EQ(chosen(0.002), Model_kind::beta);
}

// A thermometer of ± 1 K does not tell 20 °C from 20.5 °C.
TEST(Fit_part, Counts_temperatures_that_the_thermometer_tells_apart) {
  Fit_means coarse = fine;
  coarse.thermometer = 1;
  std::vector<Row> rows;
  for (const double t : {20.0, 20.5, 40.0, 40.5}) rows.push_back({"a", t, beta_ohm(t, 3977)});
  const Fit fit = fitted(rows, Component_kind::ntc, coarse);
  EXPECT_EQ(fit.model, Model_kind::beta);
  EXPECT_NE(fit.trials.at(0).why.find("and here are 2"), std::string::npos) << fit.trials.at(0).why;
}

// Copper in baths that are all 0.8 K warmer than a thermometer of ± 1 K says: it rises a little less than
// copper, and by no more than that explains.
TEST(Fit_part, Takes_no_error_of_the_thermometer_for_another_metal) {
  Fit_means coarse = fine;
  coarse.thermometer = 1;
  std::vector<Row> rows;
  for (int s = 0; s < 5; ++s)
    for (const double t : {10.0, 30.0, 50.0, 70.0})
      rows.push_back({fmt::format("s{}", s), t, (1 + 0.001 * s) * 430 * (234.5 + t + 0.8) / 254.5});
  const Fit fit = fitted(rows, Component_kind::coil, coarse);
  EXPECT_FALSE(fit.doubtful);
  EXPECT_NE(fit.trials.back().why.find("another slope would fit better"), std::string::npos)
      << fit.trials.back().why;
}

// Specimens in one bath share its error, and what whole degrees leave out: copper, though it seems to rise
// less.
TEST(Fit_part, Takes_no_error_of_baths_for_another_metal) {
  const auto of_copper = [](int digits, double thermometer) {
    std::string csv = "specimen,temperature (°C),resistance (Ω)\n";
    for (int s = 0; s < 5; ++s)
      for (const auto& [shown, bath] : {std::pair{20.0, 20.4}, {40.0, 40.2}, {60.0, 59.7}, {80.0, 79.6}})
        csv += fmt::format("s{},{:.{}f},{:.5f}\n", s, shown, digits,
                           (1 + 0.001 * s) * 43 * (234.5 + bath) / 254.5);
    Fit_means means = fine;
    means.thermometer = thermometer;
    return fit_of_csv(csv, Component_kind::coil, means);
  };
  EXPECT_FALSE(of_copper(0, 0.05).doubtful);
  EXPECT_FALSE(of_copper(1, 0.5).doubtful);
  EXPECT_TRUE(of_copper(1, 0.05).doubtful);
}

// A thermistor of published coefficients, all baths 1 K colder than a thermometer of ± 1 K says: beta is
// taken, since the thermometer may make that bend, and has to hold the parts all the same.
TEST(Fit_part, Holds_the_parts_whose_bend_the_thermometer_may_make) {
  const std::initializer_list<double> baths = {-10, 15, 40, 65, 90};
  std::vector<Row> rows;
  for (int s = 0; s < 8; ++s)
    for (const double t : baths)
      rows.push_back({fmt::format("p{}", s), t,
                      (1 + 0.0005 * s) * steinhart_hart_resistance(published_hart, t + 272.15).value()});
  Fit_means means = fine;
  means.thermometer = 1;
  const Fit fit = fitted(rows, Component_kind::ntc, means);
  ASSERT_EQ(fit.model, Model_kind::beta);
  ASSERT_TRUE(fit.tolerance && fit.tolerance->b_share);
  const double b = fit.parameters.at(1).value, off = b * *fit.tolerance->b_share;
  for (const double t : baths) {
    const double x = 1 / (t + 273.15) - 1 / fit.reference,
                 part = steinhart_hart_resistance(published_hart, t + 273.15).value(),
                 low = fit.nominal * (1 - fit.tolerance->share) * std::exp(b * x - off * std::fabs(x)),
                 high = fit.nominal * (1 + fit.tolerance->share) * std::exp(b * x + off * std::fabs(x));
    EXPECT_LT(low, part) << t;
    EXPECT_GT(high, part * 1.0035) << t;
  }
}

// B of readings in two baths: u(B) = u(T) √((B/T1²)² + (B/T2²)²) / (1/T1 - 1/T2) by JCGM 100, 5.1.2, however
// many specimens lie in them.
TEST(Fit_part, Knows_b_no_better_of_more_specimens_in_the_same_baths) {
  for (const int specimens : {1, 8}) {
    std::vector<Row> rows;
    for (int s = 0; s < specimens; ++s)
      for (const double t : {0.0, 50.0, 0.0, 50.0})
        rows.push_back({fmt::format("p{}", s), t, beta_ohm(t, 3977)});
    Fit_means means = fine;
    means.thermometer = 0.5;
    const Fit fit = fitted(rows, Component_kind::ntc, means);
    const double cold = 273.15, hot = 323.15;
    const double u =
        0.5 / std::sqrt(3) * std::hypot(3977 / cold / cold, 3977 / hot / hot) / (1 / cold - 1 / hot);
    EXPECT_GT(fit.parameters.at(1).uncertainty, 1.95 * u) << specimens;
    EXPECT_LT(fit.parameters.at(1).uncertainty, 1.1 * 1.96 * u) << specimens;
  }
}

// Thirty specimens read alike in whole kΩ: what is left out is common to all, and bends their curve.
TEST(Fit_part, Takes_no_rounding_for_a_bend) {
  std::string csv = "specimen,temperature (°C),resistance\n";
  for (int s = 0; s < 30; ++s)
    csv += fmt::format("p{0},0,33 kΩ\np{0},25,10 kΩ\np{0},50,4 kΩ\np{0},75,2 kΩ\n", s);
  EXPECT_EQ(fit_of_csv(csv, Component_kind::ntc, fine).model, Model_kind::beta);
}

// Ten readings of "2 kΩ": each part lies from 1.5 kΩ to 2.5 kΩ, that is up to 25 % off.
TEST(Fit_part, Is_never_narrower_than_the_rounding_of_readings) {
  std::string csv = "specimen,temperature (°C),resistance (kΩ)\n";
  for (int s = 0; s < 10; ++s) csv += fmt::format("s{},20,2\n", s);
  const Fit fit = fit_of_csv(csv, Component_kind::resistor, {});
  ASSERT_TRUE(fit.tolerance);
  EXPECT_GE(fit.tolerance->share, 0.25);
}

// Whole degrees: half a kelvin of a thermistor of B 3977 K at 25 °C is 2.2 %.
TEST(Fit_part, Is_never_narrower_than_the_rounding_of_temperatures) {
  std::string csv = "specimen,temperature (°C),resistance (Ω)\n";
  for (int s = 0; s < 10; ++s)
    for (const int t : {0, 25, 50}) csv += fmt::format("s{},{},{:.4f}\n", s, t, beta_ohm(t, 3977));
  const Fit fit = fit_of_csv(csv, Component_kind::ntc, fine);
  ASSERT_TRUE(fit.tolerance);
  EXPECT_GE(fit.tolerance->share, 0.022);
}

TEST(Fit_part, Says_which_digits_were_left_out_and_what_to_do) {
  std::string csv = "specimen,temperature (°C),resistance (Ω)\n", finer = csv;
  for (int s = 0; s < 5; ++s)
    for (const int t : {0, 25, 50}) {
      csv += fmt::format("s{},{},{:.0f} kΩ\n", s, t, beta_ohm(t, 3977) / 1000);
      finer += fmt::format("s{},{}.0,{:.1f}\n", s, t, beta_ohm(t, 3977));
    }
  Fit_means means = fine;
  means.thermometer = 0.05;
  const std::string said =
      fmt::format("{}", fmt::join(fit_of_csv(csv, Component_kind::ntc, means).remarks, "\n"));
  for (const char* part : {"15 of 15 temperatures, the first in row 2,", "± 0.5 K for that alone", "± 0.05 K",
                           "20.0 °C and not", "15 of 15 readings", "± 500 Ω for that alone"})
    EXPECT_NE(said.find(part), std::string::npos) << part << "\n" << said;
  for (const std::string& one : fit_of_csv(finer, Component_kind::ntc, means).remarks)
    EXPECT_EQ(one.find("for that alone"), std::string::npos) << one;
}

TEST(Fit_part, Shows_no_noise_of_the_computation) {
  std::string csv = "specimen,temperature (°C),resistance\n", hot = csv, same = csv;
  for (int i = 0; i < 3; ++i) same += "p,25.0,10.00 kΩ\np,50.0,3.60 kΩ\n";
  for (int s = 0; s < 7; ++s) {
    csv += fmt::format("s{},20,1.003 kΩ\n", s);
    hot += fmt::format("p{0},5,25.34 kΩ\np{0},25,10.0 kΩ\np{0},50,3.588 kΩ\n", s);
  }
  for (const Fit& fit :
       {fit_of_csv(csv, Component_kind::resistor, {}), fit_of_csv(hot, Component_kind::ntc, {}),
        fit_of_csv(same, Component_kind::ntc, {})}) {
    for (const std::string& shown : {text_report(fit), json_report(fit), fit.part}) {
      EXPECT_EQ(shown.find("-273.1"), std::string::npos) << shown;
      EXPECT_EQ(shown.find("0.0000000000"), std::string::npos) << shown;
      EXPECT_FALSE(std::regex_search(shown, std::regex("[0-9]e-[0-9]"))) << shown;
    }
  }
}

// Six specimens that read the same to the last digit, and eight readings of which one is a digit off.
TEST(Fit_part, Takes_no_rounding_for_an_outlier) {
  std::string same = "specimen,temperature (°C),resistance\n", coarse = same;
  for (int s = 0; s < 6; ++s) {
    same += fmt::format("p{0},5,25.34 kΩ\np{0},25,10.0 kΩ\np{0},50,3.588 kΩ\n", s);
    coarse += fmt::format("p{0},0,33 kΩ\np{0},25,10 kΩ\np{0},50,4 kΩ\np{0},75,2 kΩ\n", s);
  }
  std::string digit = "temperature (°C),resistance\n";
  for (int i = 0; i < 7; ++i) digit += "20,1.000 kΩ\n";
  const Fit fits[] = {fit_of_csv(same, Component_kind::ntc, {}), fit_of_csv(coarse, Component_kind::ntc, {}),
                      fit_of_csv(digit + "20,1.001 kΩ\n", Component_kind::resistor, {})};
  for (const Fit& fit : fits) {
    EXPECT_FALSE(fit.doubtful) << text_report(fit);
    for (const Fit_residual& one : fit.residuals) {
      EXPECT_LT(std::fabs(one.studentised.value_or(0)), 10);
    }
  }
  EXPECT_TRUE(fit_of_csv(digit + "20,1.010 kΩ\n", Component_kind::resistor, {}).doubtful);
}

// Where the curve does not follow the readings, the spread of specimens says nothing of how far parts lie
// from it.
TEST(Fit_part, Claims_no_tolerance_of_a_curve_that_does_not_fit) {
  std::vector<Row> bent, metal;
  for (int s = 0; s < 5; ++s) {
    for (Row row : hart_table()) {
      row.specimen = fmt::format("n{}", s);
      row.ohm *= 1 + 0.002 * s;
      bent.push_back(row);
    }
    for (const double t : {0.0, 25.0, 50.0, 75.0, 100.0}) // a tenth of what copper rises
      metal.push_back({fmt::format("c{}", s), t, 980 + t + 0.4 * s});
  }
  for (const Fit& fit : {fitted(bent, Component_kind::ntc, fine, Model_kind::beta),
                         fitted(metal, Component_kind::coil, fine)}) {
    EXPECT_TRUE(fit.doubtful);
    EXPECT_FALSE(fit.tolerance);
    EXPECT_EQ(fit.part.find("\"tolerance\""), std::string::npos) << fit.part;
    EXPECT_NE(text_report(fit).find("no curve that fits"), std::string::npos) << text_report(fit);
  }
  EXPECT_FALSE(fitted(bent, Component_kind::ntc, fine).doubtful);
}

// Six specimens in baths that are off by up to 0.5 K, under a thermometer of ± 1 K: a true B.
TEST(Fit_part, Takes_no_error_of_baths_for_a_bend) {
  std::mt19937 dice(23);
  std::uniform_real_distribution<> bath_off(-0.5, 0.5);
  for (int table = 0; table < 20; ++table) {
    std::vector<Row> rows;
    for (const double t : {5.0, 25.0, 50.0}) {
      const double off = bath_off(dice);
      for (int s = 0; s < 6; ++s)
        rows.push_back({fmt::format("p{}", s), t, noisy(dice, (1 + 0.002 * s) * beta_ohm(t + off, 3977))});
    }
    Fit_means means = fine;
    means.thermometer = 1;
    EXPECT_EQ(fitted(rows, Component_kind::ntc, means).model, Model_kind::beta) << table;
  }
}

TEST(Fit_part, Names_an_outlier_by_its_row) {
  std::vector<Row> rows = ntc_table(8, 0.004, 8);
  rows[20].ohm *= 1.03;
  const Fit fit = fitted(rows, Component_kind::ntc, fine);
  EXPECT_TRUE(fit.doubtful);
  for (std::size_t i = 0; i < fit.residuals.size(); ++i) EXPECT_EQ(fit.residuals[i].outlier, i == 20) << i;
  // The fifth row of a specimen is at 25 °C: dR/R is -B/T² of a kelvin.
  const double slope = -3977 / std::pow(rows[20].celsius + 273.15, 2);
  EXPECT_NEAR(fit.residuals[20].kelvin, fit.residuals[20].share / slope, 0.01);
  EXPECT_NE(text_report(fit).find("row 22, specimen s"), std::string::npos) << text_report(fit);
}

// What is said of a reading of a third is its share of the curve's, not the logarithm of that, by which it
// lay more than 100 % below.
TEST(Fit_part, Says_how_far_off_an_outlier_is_as_a_share_of_the_curve) {
  std::vector<Row> rows = ntc_table(8, 0.004, 8);
  rows[20].ohm /= 3;
  const Fit fit = fitted(rows, Component_kind::ntc, fine);
  ASSERT_TRUE(fit.residuals[20].outlier);
  const double percent = 100 * (fit.measurements.readings[20].ohm / fit.residuals[20].fitted - 1);
  EXPECT_NE(text_report(fit).find(fmt::format("lies {:.0f} % beside its curve", percent)), std::string::npos)
      << text_report(fit);
  EXPECT_NE(json_report(fit).find(fmt::format("\"off\": \"{}.", std::trunc(percent))), std::string::npos)
      << percent;
}

TEST(Fit_part, Names_a_specimen_of_another_kind) {
  std::vector<Row> rows = ntc_table(8, 0.002, 4);
  for (Row& row : rows)
    if (row.specimen == "s3") row.ohm *= 1.05;
  const Fit fit = fitted(rows, Component_kind::ntc, fine);
  EXPECT_TRUE(fit.doubtful);
  for (std::size_t s = 0; s < fit.specimens.size(); ++s) EXPECT_EQ(fit.specimens[s].outlier, s == 2) << s;
}

// 10 kΩ and 12 kΩ, or B of 3977 K and 3435 K, fitted as one: ± 37 %, and ± 25 % on B, without a word.
TEST(Fit_part, Names_two_types_in_one_table) {
  const auto of_two = [](double resistance, double b) {
    std::vector<Row> rows = ntc_table(12, 0.004, 4);
    for (std::size_t i = rows.size() / 2; i < rows.size(); ++i)
      rows[i].ohm *= resistance * beta_ohm(rows[i].celsius, b) / beta_ohm(rows[i].celsius, 3977);
    return fitted(rows, Component_kind::ntc, fine);
  };
  for (const Fit& fit : {of_two(1.2, 3977), of_two(1, 3435)}) {
    EXPECT_TRUE(fit.doubtful);
    const std::string& said = fit.remarks.front();
    EXPECT_NE(said.find("6 of 12 specimens (s1, s2, s3, s4, s5 and s6) lie"), std::string::npos) << said;
  }
  EXPECT_FALSE(of_two(1, 3977).doubtful);
}

TEST(Fit_part, Explains_why_beta_does_not_do) {
  const Fit fit = fitted(hart_table(), Component_kind::ntc, fine);
  EXPECT_EQ(fit.model, Model_kind::steinhart_hart);
  ASSERT_EQ(fit.trials.size(), 2u);
  EXPECT_NE(fit.trials[0].why.find("does not do: its residuals run"), std::string::npos) << fit.trials[0].why;
  EXPECT_TRUE(fit.trials[1].chosen);
}

TEST(Fit_part, Compares_platinum_with_its_classes) {
  Fit_means bath = {{0.0001, 0, 1e6}, {0, 0}, 0.01};
  const Fit fit = fitted(platinum_table(10, 0.0001), Component_kind::rtd, bath);
  ASSERT_TRUE(fit.tolerance);
  ASSERT_TRUE(fit.tolerance->tolerance_class);
  EXPECT_NE(fit.part.find("\"r0\": \"1 kΩ\""), std::string::npos) << fit.part;
  const auto class_of = [&](double r0, std::initializer_list<double> bath_celsius) {
    std::vector<Row> rows;
    for (int s = 0; s < 5; ++s)
      for (const double t : bath_celsius)
        rows.push_back(
            {fmt::format("p{}", s), t, r0 * (1 + 1e-5 * s) * (1 + 3.9083e-3 * t - 5.775e-7 * t * t)});
    return fitted(rows, Component_kind::rtd, bath).tolerance.value().tolerance_class;
  };
  // What 1000.5 Ω is beside the 1 kΩ that is stated, 0.13 K, leaves too little of AA (0.1 K) and A (0.15 K).
  EXPECT_EQ(class_of(1000, {0, 50, 100}), Tolerance_class::AA);
  EXPECT_EQ(class_of(1000.5, {0, 50, 100}), Tolerance_class::B);
  // Class AA ends at 250 °C, A begins at -100 °C (IEC 60751, table 3, wire-wound).
  EXPECT_EQ(class_of(1000, {0, 100, 200, 300}), Tolerance_class::A);
  // What the measurement itself may be off is more than class C allows: ± 0.6 K at 0 °C (IEC 60751, table 3).
  bath.thermometer = 1;
  const Fit coarse = fitted(platinum_table(10, 0.0001), Component_kind::rtd, bath);
  EXPECT_FALSE(coarse.tolerance->tolerance_class);
  EXPECT_NE(text_report(coarse).find("no class of IEC 60751 can be claimed"), std::string::npos);
}

// Table 3 of IEC 60751: class C is ± 0.6 K at 0 °C, and ± 1 K at -40 °C, where a share of the resistance is
// widest. It ends at 600 °C.
TEST(Fit_part, Says_where_no_class_of_platinum_holds) {
  const auto said_of = [](std::initializer_list<double> bath_celsius, double thermometer) {
    std::vector<Row> rows;
    for (int s = 0; s < 5; ++s)
      for (const double t : bath_celsius)
        rows.push_back({fmt::format("p{}", s), t,
                        1000 * (1 + 3.9083e-3 * t - 5.775e-7 * t * t -
                                (t < 0 ? 4.183e-12 * (t - 100) * t * t * t : 0))});
    Fit_means means = fine;
    means.thermometer = thermometer;
    return fmt::format("{}", fmt::join(fitted(rows, Component_kind::rtd, means).remarks, "\n"));
  };
  const std::string cold = said_of({-40, -20, 0, 20, 40}, 0.7), hot = said_of({500, 600, 700}, 0.1);
  EXPECT_NE(cold.find("K at 0 °C, and class C ± 0.6 K"), std::string::npos) << cold;
  EXPECT_NE(hot.find("class C holds from -196 °C to 600 °C, and measured was from 500 °C to 700 °C"),
            std::string::npos)
      << hot;
}

// All baths are 0.34 K warmer than the thermometer says: parts of R0 = 99.8175 Ω look like 99.99 Ω, and are
// at -20 °C 0.43 K beside 100 Ω, where class B is ± 0.4 K (IEC 60751, table 3).
TEST(Fit_part, Claims_no_class_that_the_thermometer_may_feign) {
  std::vector<Row> rows;
  for (int s = 0; s < 5; ++s)
    for (double shown = -100; shown <= -20; shown += 10) {
      const double t = shown + 0.34;
      rows.push_back({fmt::format("p{}", s), shown,
                      99.8175 * (1 + 3.9083e-3 * t - 5.775e-7 * t * t - 4.183e-12 * (t - 100) * t * t * t)});
    }
  Fit_means means = fine;
  means.meter.of_reading = 1e-5;
  means.thermometer = 0.34;
  const Fit fit = fitted(rows, Component_kind::rtd, means);
  EXPECT_EQ(fit.nominal, 100);
  EXPECT_EQ(fit.tolerance.value().tolerance_class, Tolerance_class::C);
}

TEST(Fit_part, Doubts_a_curve_that_the_readings_do_not_follow) {
  std::vector<Row> rows = platinum_table(5, 0.0001);
  for (Row& row : rows) row.ohm *= std::exp(0.0015 * row.celsius); // nickel is as steep
  const Fit fit = fitted(rows, Component_kind::rtd, fine);
  EXPECT_TRUE(fit.doubtful);
  EXPECT_NE(text_report(fit).find("the part is of another metal"), std::string::npos) << text_report(fit);
}

TEST(Fit_part, Describes_two_readings_that_no_curve_follows) {
  const Fit fit = fit_of_csv("specimen,temperature,resistance\na,0 °C,100.0 Ω\na,100 °C,50.0 Ω\n",
                             Component_kind::rtd, fine);
  ASSERT_FALSE(fit.trials.empty());
  EXPECT_EQ(fit.trials.back().why, "its shape is known; so few readings of each specimen do not show it");
  const std::string remarks = fmt::format("{}", fmt::join(fit.remarks, "\n"));
  EXPECT_NE(remarks.find("(its residuals run +"), std::string::npos) << remarks;
}

// Every kind; a single specimen has the note that it is one, and nothing has more.
TEST(Fit_part, Writes_parts_that_lint_clean) {
  const Fit_means handheld;
  for (const Fit& fit : {fitted(ntc_table(8, 0.004, 8), Component_kind::ntc, fine),
                         fitted(ntc_table(8, 0.004, 8), Component_kind::ntc, handheld),
                         fitted(ntc_table(1, 0, 0), Component_kind::ntc, fine),
                         fitted(hart_table(), Component_kind::ntc, fine),
                         fitted(platinum_table(10, 0.0001), Component_kind::rtd, fine),
                         fitted(platinum_table(1, 0), Component_kind::rtd, handheld),
                         fitted(metal_table(43, 5), Component_kind::coil, handheld),
                         fitted(metal_table(310, 5), Component_kind::winding, handheld),
                         fitted(metal_table(12, 5), Component_kind::transformer, handheld),
                         fitted(same_table(471.3, 6), Component_kind::resistor, handheld),
                         fitted(same_table(2210, 6), Component_kind::coding, handheld),
                         fitted(same_table(17.6, 6), Component_kind::heater, handheld)}) {
    const Read_result read = read_json("table.part.json", fit.part);
    const auto findings = settle({lint_document(read, {})}, {}, nullptr, {});
    for (const Finding& finding : findings)
      EXPECT_TRUE(fit.measurements.specimens.size() == 1 && finding.rule == "sample-too-small")
          << finding.rule << ": " << finding.message << "\n"
          << fit.part;
  }
}

TEST(Fit_part, Writes_no_part_that_would_not_be_read) {
  const auto read = read_measurements("m.csv", "specimen,temperature,resistance\na,20 °C,47.0 Ω\n");
  ASSERT_TRUE(read.measurements);
  const auto problem = [&](Fit_request request) {
    request.kind = Component_kind::resistor;
    const Fit_result result = fit_part(*read.measurements, request);
    EXPECT_EQ(!result.fit, !result.problem.empty());
    return result.problem;
  };
  Fit_request request;
  EXPECT_EQ(problem(request), "");
  request.name = "two\nlines";
  EXPECT_EQ(
      problem(request),
      "the part could not be read back: /title: a line break (U+000A) stands in this text; write a space");
  request.name.clear();
  request.instrument = std::string(3000, 'a');
  EXPECT_NE(problem(request).find("/sources/measurement/instrument: "), std::string::npos)
      << problem(request);
  request.instrument.clear();
  for (const std::string date : {"2026-02-28", "2024-02-29", "2026-02"}) {
    request.date = date;
    EXPECT_EQ(problem(request), "") << date;
  }
  request.date = "2026-02-29";
  EXPECT_EQ(problem(request), "the calendar has no 2026-02-29; mend the day, or leave it out: 2026-02");
}

TEST(Fit_part, Shows_every_caution) {
  const Fit fit = fitted(ntc_table(3, 0.004, 8), Component_kind::ntc, fine);
  const std::string text = text_report(fit), json = json_report(fit), svg = fit_svg(fit);
  for (const Caution& caution : cautions()) {
    const std::string first(caution.text.substr(0, caution.text.find(' ')));
    EXPECT_NE(text.find(first), std::string::npos);
    EXPECT_NE(json.find(std::string(caution.text.substr(0, 40))), std::string::npos);
    EXPECT_NE(svg.find(first), std::string::npos);
  }
}

// ---- the table

struct Bad {
  std::string bytes, rule;
  std::uint32_t line, column;
  std::string says;
};
void PrintTo(const Bad& bad, std::ostream* out) { *out << bad.bytes.substr(0, 60); }

class Bad_tables : public testing::TestWithParam<Bad> {};

TEST_P(Bad_tables, Are_refused_where_and_why) {
  const Bad& bad = GetParam();
  const auto read = read_measurements("m.csv", bad.bytes);
  std::vector<Finding> findings = read.findings;
  if (read.measurements) {
    Fit_request request;
    if (bad.says.find("platinum") != std::string::npos) request.kind = Component_kind::rtd;
    if (bad.says.find("copper") != std::string::npos) request.kind = Component_kind::coil;
    const Fit_result result = fit_part(*read.measurements, request);
    EXPECT_FALSE(result.fit);
    findings = result.findings;
  }
  ASSERT_FALSE(findings.empty());
  const Finding& first = findings.front();
  EXPECT_EQ(first.rule, bad.rule) << first.message;
  EXPECT_EQ(first.region.first.line, bad.line) << first.message;
  EXPECT_EQ(first.region.first.column, bad.column) << first.message;
  EXPECT_NE(first.message.find(bad.says), std::string::npos) << first.message;
}

const std::string head = "specimen,temperature,resistance\n";
INSTANTIATE_TEST_SUITE_P(
    Fit, Bad_tables,
    testing::Values(
        Bad{"", "measurements-unfit", 1, 1, "the table is empty"},
        Bad{"\n\n", "measurements-unfit", 1, 1, "the table is empty"},
        Bad{",", "measurements-unfit", 1, 1, "the table is empty"},
        Bad{" ,\n,\n", "measurements-unfit", 1, 1, "the table is empty"},
        Bad{head, "measurements-unfit", 1, 1, "no readings below it"},
        Bad{"specimen,temperature\na,25 °C\n", "table-malformed", 1, 1, "the column resistance is missing"},
        Bad{"specimen,temprature,resistance\n", "table-malformed", 1, 10, "did you mean temperature?"},
        Bad{"temperature,resistance,temperature\n", "table-malformed", 1, 24, "a second time"},
        Bad{"temperature (V),resistance\n", "unit-of-other-dimension", 1, 1, "is no unit of a temperature"},
        Bad{head + "a,25,10 kΩ\n", "unit-missing", 2, 3,
            "temperature in row 2: \"25\" has no unit; write \"25 °C\""},
        Bad{head + "a,25 °C,33.6\n", "unit-missing", 2, 9,
            "resistance in row 2: \"33.6\" has no unit, and the meter switches between Ω, kΩ and MΩ; write "
            "what "
            "its display says: \"33.6 Ω\" or \"33.6 kΩ\"; or name the column \"resistance (kΩ)\""},
        Bad{head + "a,25 °C,ten\n", "quantity-unreadable", 2, 9, "resistance in row 2"},
        Bad{head + "a,25 °C,10 V\n", "unit-of-other-dimension", 2, 9, "voltage"},
        Bad{head + "a,25 °C,\n", "measurements-unfit", 2, 9, "row 2 has no resistance"},
        Bad{head + "a,25 °C,OL\n", "quantity-unreadable", 2, 9, "the specimen is open"},
        Bad{head + "a,25 °C,-4 Ω\n", "value-not-positive", 2, 9, "not above 0 Ω"},
        Bad{head + "a,2500 °C,4 Ω\n", "measurements-unfit", 2, 3, "is no temperature at which"},
        Bad{head + ",25 °C,10 kΩ\n", "measurements-unfit", 2, 1, "does not say which specimen"},
        Bad{head + "a,25,0 °C,10 kΩ\n", "table-malformed", 2, 1, "a decimal comma splits a number in two"},
        Bad{"specimen;temperature;resistance\na;25,0 °C;10 kΩ\n", "decimal-comma", 2, 3, "write \"25.0 °C\""},
        Bad{head + "a,25 °C\n", "table-malformed", 2, 1, "row 2 has 2 cells and the header has 3"},
        Bad{head + "a,25 °C,\"10 kΩ\n", "table-malformed", 2, 9, "never closed"},
        Bad{head + "a,25 °C,10 \"kΩ\"\n", "table-malformed", 2, 12, "a quotation mark stands inside"},
        Bad{head + "a,25 \xB0"
                   "C,10 k\n",
            "utf8-malformed", 2, 6, "save the table as UTF-8"},
        Bad{head + "a,0 °C,10 kΩ\na,25 °C,12 kΩ\n", "ntc-rises", 3, 9,
            "the readings rise: 10 kΩ at 0 °C (row 2)"},
        Bad{head + "a,0 °C,10 kΩ\na,25 °C,9.9 kΩ\n", "ntc-b-impossible", 3, 9, "no thermistor lies outside"},
        // Row 6 is in °F; rows 2 to 5 are in order, though R falls further there.
        Bad{head + "a,20 °C,12.5 kΩ\na,40 °C,5.3 kΩ\nb,20 °C,12.4 kΩ\nb,40 °C,5.2 kΩ\nc,40 °F,5.2 kΩ\nc,20 "
                   "°C,12.45 kΩ\n",
            "ntc-b-impossible", 7, 9, "5.2 kΩ at 4.444 °C (row 6) and 12.45 kΩ at 20 °C (row 7)"},
        Bad{head + "a,0 °C,10 kΩ\na,25 °C,10 kΩ\na,50 °C,10 kΩ\n", "ntc-b-impossible", 3, 9,
            "the readings give B = 0 K, and no thermistor"},
        Bad{head + "a,25 °C,10 kΩ\na,25.5 °C,9.8 kΩ\n", "measurements-unfit", 2, 3,
            "tells 1 temperature apart"},
        Bad{head + "a,25 °C,109.7 Ω\nb,25 °C,109.8 Ω\n", "measurements-unfit", 2, 3, "that it is platinum"},
        Bad{head + "a,0 °C,43 Ω\na,20 °C,41 Ω\na,40 °C,39 Ω\na,60 °C,37 Ω\n", "measurements-unfit", 5, 9,
            "where the resistance of copper rises"},
        Bad{head + "a,0 °C,0.2 Ω\n", "measurements-unfit", 2, 8, "say with --leads"}));

// Of a thermometer that is off by less than nothing it never came to an end; that it holds all parts, a
// tolerance of nothing claimed.
TEST(Fit_part, Refuses_means_that_are_none) {
  const Measurements measurements =
      *read_measurements("m.csv", head + "a,20 °C,12.5 kΩ\na,40 °C,5.3 kΩ\n").measurements;
  const auto refused = [&](auto change, std::string_view why) {
    Fit_request request;
    change(request.means);
    const Fit_result result = fit_part(measurements, request);
    EXPECT_FALSE(result.fit) << why;
    EXPECT_NE(result.problem.find(why), std::string::npos) << result.problem;
  };
  for (const double less : {-1.0, std::nan("")}) {
    refused([&](Fit_means& means) { means.thermometer = less; }, "a thermometer of ± ");
    refused([&](Fit_means& means) { means.meter.counts = less; }, "a meter of ±(");
    refused([&](Fit_means& means) { means.leads.half_width = less; }, "leads of ");
  }
  for (const double share : {0.0, 1.0, -1.0, std::nan("")}) {
    refused([&](Fit_means& means) { means.content = share; }, "above 0 and below 1");
    refused([&](Fit_means& means) { means.confidence = share; }, "above 0 and below 1");
    refused([&](Fit_means& means) { means.false_alarms = share; }, "above 0 and below 1");
  }
}

// An application that has its readings from elsewhere fills them in itself, and may leave out the names.
TEST(Fit_part, Refuses_readings_of_specimens_that_are_not_there) {
  Measurements measurements =
      *read_measurements("m.csv", head + "a,20 °C,12.5 kΩ\na,40 °C,5.3 kΩ\n").measurements;
  measurements.specimens.clear();
  const Fit_result result = fit_part(measurements, {});
  EXPECT_FALSE(result.fit);
  EXPECT_EQ(result.problem, "the reading of row 2 is of specimen 0, counted from 0, and there are 0");
}

// Of three specimens none is told from the spread of the others: 12.45 Ω was to be 12.45 kΩ.
TEST(Fit_part, Names_specimens_that_are_not_of_one_type) {
  const std::string two = "a,20 °C,12.5 kΩ\na,40 °C,5.3 kΩ\nb,20 °C,12.4 kΩ\nb,40 °C,5.2 kΩ\n";
  const auto fitted = [&](std::string_view third) {
    const auto read = read_measurements("m.csv", head + two + std::string(third));
    EXPECT_TRUE(read.measurements) << third;
    return fit_part(*read.measurements, {}).fit.value();
  };
  const Fit wrong = fitted("c,20 °C,12.45 Ω\n"), good = fitted("c,20 °C,12.45 kΩ\n");
  EXPECT_TRUE(wrong.doubtful);
  EXPECT_NE(text_report(wrong).find("specimen a has "), std::string::npos) << text_report(wrong);
  EXPECT_FALSE(good.doubtful) << text_report(good);
}

// Each specimen more makes the tolerance smaller.
TEST(Fit_part, Asks_whether_names_that_differ_in_capital_letters_are_of_one) {
  const auto fitted = [](std::string_view second) {
    const auto read = read_measurements(
        "m.csv", fmt::format("{0}a,20 °C,12.5 kΩ\na,40 °C,5.3 kΩ\n{1},20 °C,12.5 kΩ\n{1},40 °C,5.3 kΩ\n",
                             head, second));
    return fit_part(*read.measurements, {}).fit.value();
  };
  EXPECT_TRUE(fitted("A").doubtful);
  EXPECT_EQ(
      fitted("A").remarks.front(),
      "specimens \"a\" and \"A\" are named alike but for capital letters, and count as two: where they are "
      "one, write its name the same way in every row");
  EXPECT_FALSE(fitted("b").doubtful) << text_report(fitted("b"));
  EXPECT_FALSE(fitted("a").doubtful);
}

TEST(Fit_part, Says_where_readings_do_not_determine_a_curve) {
  const auto read = read_measurements("m.csv", head + "a,0 °C,33 kΩ\nb,25 °C,10 kΩ\n");
  ASSERT_TRUE(read.measurements);
  const Fit_result result = fit_part(*read.measurements, {});
  EXPECT_FALSE(result.fit);
  EXPECT_EQ(result.problem,
            "m.csv: 2 readings do not determine beta of 2 specimens; take more readings, at more "
            "temperatures of one specimen");
}

// A spreadsheet shows no row of it: the header stays row 1.
TEST(Read_measurements, Counts_no_row_of_the_line_that_names_the_delimiter) {
  const std::string begin = "sep=\t\ntemperature\tresistance\n";
  EXPECT_EQ(read_measurements("m.csv", begin + "25 °C\t\n").findings.front().region.first.line, 3u);
  EXPECT_EQ(read_measurements("m.csv", begin + "25 °C\t\n").findings.front().message,
            "row 2 has no resistance; fill the cell, or remove the row");
  for (const std::string twice : {"sep=;\nsep=;\n", "sep=;;\n", "\nsep=;\n"})
    EXPECT_FALSE(read_measurements("m.csv", twice + "temperature;resistance\n25 °C;10 kΩ\n").measurements);
}

TEST(Read_measurements, Takes_what_spreadsheets_write) {
  for (const std::string table :
       {"specimen,temperature,resistance\na,25 °C,10.02 kΩ\nb,25 °C,10 kΩ\n",
        "\xEF\xBB\xBFspecimen;temperature;resistance\r\na;25 °C;10.02 kΩ\r\n\r\nb;25 °C;10 kΩ\r\n",
        "sep=;\r\nspecimen;temperature;resistance\r\na;25 °C;10.02 kΩ\r\nb;25 °C;10 kΩ\r\n",
        "Specimen\tTemperature (°C)\tResistance [kΩ]\na\t25\t10.02\n\t\t\nb\t25\t10000 Ω",
        "\"specimen\",\"resistance / kΩ\",\"temperature in °C\",note\na,10.02,25,\"first, by "
        "hand\"\nb,10,25,\n"}) {
    const auto read = read_measurements("m.csv", table);
    ASSERT_TRUE(read.measurements) << table << read.findings.front().message;
    EXPECT_EQ(read.measurements->specimens, (std::vector<std::string>{"a", "b"})) << table;
    ASSERT_EQ(read.measurements->readings.size(), 2u);
    EXPECT_DOUBLE_EQ(read.measurements->readings[0].ohm, 10020);
    EXPECT_DOUBLE_EQ(read.measurements->readings[1].ohm, 10000);
    EXPECT_DOUBLE_EQ(read.measurements->readings[0].kelvin, 298.15);
  }
}

}
}
