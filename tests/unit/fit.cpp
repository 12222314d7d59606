// Fits of single tables: what comes out, what is refused and how, and that the part lints clean.
#include "ohmlore/fit.h"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "fit/distributions.h"
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

// ---- fits

constexpr Fit_means fine = {{0.0005, 0, 1e6}, {0, 0}, 0.02};

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
  std::string csv = "specimen,temperature (°C),resistance\n", hot = csv;
  for (int s = 0; s < 7; ++s) {
    csv += fmt::format("s{},20,1.003 kΩ\n", s);
    hot += fmt::format("p{0},5,25.34 kΩ\np{0},25,10.0 kΩ\np{0},50,3.588 kΩ\n", s);
  }
  for (const Fit& fit :
       {fit_of_csv(csv, Component_kind::resistor, {}), fit_of_csv(hot, Component_kind::ntc, {})}) {
    for (const std::string& shown : {text_report(fit), json_report(fit), fit.part}) {
      EXPECT_EQ(shown.find("-273.1"), std::string::npos) << shown;
      EXPECT_EQ(shown.find("0.0000000000"), std::string::npos) << shown;
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
  // What the measurement itself may be off is more than class C allows: ± 0.6 K at 0 °C (IEC 60751, table 5).
  bath.thermometer = 1;
  const Fit coarse = fitted(platinum_table(10, 0.0001), Component_kind::rtd, bath);
  EXPECT_FALSE(coarse.tolerance->tolerance_class);
  EXPECT_NE(text_report(coarse).find("no class of IEC 60751 can be claimed"), std::string::npos);
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
        Bad{head + "a,0 °C,10 kΩ\na,25 °C,10 kΩ\na,50 °C,10 kΩ\n", "ntc-b-impossible", 3, 9,
            "the readings give B = 0 K, and no thermistor"},
        Bad{head + "a,25 °C,10 kΩ\na,25.5 °C,9.8 kΩ\n", "measurements-unfit", 2, 3,
            "tells 1 temperature apart"},
        Bad{head + "a,25 °C,109.7 Ω\nb,25 °C,109.8 Ω\n", "measurements-unfit", 2, 3, "that it is platinum"},
        Bad{head + "a,0 °C,43 Ω\na,20 °C,41 Ω\na,40 °C,39 Ω\na,60 °C,37 Ω\n", "measurements-unfit", 5, 9,
            "where the resistance of copper rises"},
        Bad{head + "a,0 °C,0.2 Ω\n", "measurements-unfit", 2, 8, "say with --leads"}));

TEST(Fit_part, Says_where_readings_do_not_determine_a_curve) {
  const auto read = read_measurements("m.csv", head + "a,0 °C,33 kΩ\nb,25 °C,10 kΩ\n");
  ASSERT_TRUE(read.measurements);
  const Fit_result result = fit_part(*read.measurements, {});
  EXPECT_FALSE(result.fit);
  EXPECT_EQ(result.problem,
            "m.csv: 2 readings do not determine beta of 2 specimens; take more readings, at more "
            "temperatures of one specimen");
}

TEST(Read_measurements, Takes_what_spreadsheets_write) {
  for (const std::string table :
       {"specimen,temperature,resistance\na,25 °C,10.02 kΩ\nb,25 °C,10 kΩ\n",
        "\xEF\xBB\xBFspecimen;temperature;resistance\r\na;25 °C;10.02 kΩ\r\n\r\nb;25 °C;10 kΩ\r\n",
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
