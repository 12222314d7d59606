// Simulated measurements with a known truth: what the fit states holds as often as it states.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "ohmlore/bands.h"
#include "support/cases.h"
#include "support/fit_tables.h"

namespace ohmlore {
namespace {

using namespace test;

constexpr int runs = test::cases(2000);

/// What is expected of a count with this probability, with four standard deviations of chance.
double most(double probability) {
  return runs * probability + 4 * std::sqrt(runs * probability * (1 - probability)) + 0.5;
}
double least(double probability) { return runs - most(1 - probability); }

// The instruments, as shares of what is known of them: each reading off by itself, or all alike.
struct World {
  double meter = 0.001, thermometer = 0.05; // half-widths: share of the reading, kelvin
  bool alike = false;                       // the errors of one table are one
  double spread = 0.004, b_spread = 12;     // of the parts: ln R25, and kelvin
};
Fit_means means_of(const World& world) {
  Fit_means means;
  means.meter = {world.meter, 0, 1e7};
  means.leads = {0, 0};
  means.thermometer = world.thermometer;
  return means;
}

// The errors are normal where they are each reading's own (what the tests for outliers suppose), and anywhere
// within their bounds where they are common.
class Table_maker {
public:
  Table_maker(const World& world, std::uint32_t seed) : world_(world), dice_(seed) {}
  double normal() { return std::normal_distribution<>()(dice_); }
  double within() { return std::uniform_real_distribution<>(-1, 1)(dice_); }

  template <class F>
  std::vector<Row> table(int specimens, const std::vector<double>& celsius, F ohm_at) {
    const double common_meter = within(), common_thermometer = within();
    std::vector<Row> rows;
    for (int s = 0; s < specimens; ++s) {
      const double factor = specimens == 1 ? 0 : world_.spread * normal(),
                   b = specimens == 1 ? 0 : world_.b_spread * normal();
      for (const double t : celsius) {
        const double share = world_.meter * (world_.alike ? common_meter : normal() / std::sqrt(3));
        const double off = world_.thermometer * (world_.alike ? common_thermometer : normal() / std::sqrt(3));
        const double kelvin = t + zero_celsius;
        const double ohm = ohm_at(t) * std::exp(factor + b * (1 / kelvin - 1 / 298.15)) * (1 + share);
        rows.push_back({fmt::format("s{}", s), t + off, ohm});
      }
    }
    return rows;
  }

private:
  World world_;
  std::mt19937 dice_;
};

double sensor(double t) { return beta_ohm(t, 3977); }

// How often a good table has something named, of one specimen and of eight, and after Steinhart-Hart.
TEST(Fit_simulated, Names_outliers_in_good_tables_as_often_as_it_states) {
  struct Case {
    int specimens;
    bool hart;
    std::vector<double> celsius;
    double b_spread = 12;
  };
  for (const Case& one :
       {Case{1, false, {0, 10, 20, 30, 40, 50, 60, 70, 80, 90}}, Case{1, false, {0, 25, 50, 75, 100}},
        Case{1, false, {0, 10, 25, 40, 50, 60, 70, 80, 100}}, Case{6, false, {0, 20, 40, 60, 80}},
        Case{6, false, {0, 20, 40, 60, 80}, 3}, Case{5, false, {0, 25, 60}, 0},
        Case{4, true, {-20, 0, 20, 40, 60, 80, 100}}}) {
    World world;
    world.b_spread = one.b_spread;
    Table_maker maker(world, 1);
    int named = 0;
    for (int run = 0; run < runs; ++run) {
      const auto rows = maker.table(one.specimens, one.celsius, [&](double t) {
        return one.hart ? steinhart_hart_resistance(published_hart, t + zero_celsius).value() : sensor(t);
      });
      const Fit fit = fitted(rows, Component_kind::ntc, means_of(world));
      named += std::any_of(fit.remarks.begin(), fit.remarks.end(),
                           [](const std::string& remark) { return remark.starts_with("outlier: "); });
    }
    const double rate = Fit_means().false_alarms;
    printf("%d specimens (B ± %.0f K) at %zu temperatures%s: %.2f %% of good tables have something named "
           "(stated %.2f %%)\n",
           one.specimens, one.b_spread, one.celsius.size(), one.hart ? ", Steinhart-Hart" : "",
           100.0 * named / runs, 100 * rate);
    EXPECT_LE(named, most(rate));
    EXPECT_GE(named, least(rate)) << "stricter than stated";
  }
}

// And how often a mistake is found: one reading off by so many standard uncertainties, among 40 of 8
// specimens with a B of each its own. Two thirds of a specimen's readings determine its curve, so that what
// is left is off · √(1 - h), h = 0.4 on average; that must pass t = 4.4 (24 degrees of freedom, 0.5 % over
// 40).
TEST(Fit_simulated, Finds_mistakes) {
  const World world;
  struct Case {
    double off, found_at_least, wrongly_at_most;
  };
  for (const Case& one : {Case{6, 0.45, 0.03}, Case{10, 0.95, 0.03}}) {
    Table_maker maker(world, 2);
    std::mt19937 dice(3);
    int found = 0, wrong = 0;
    for (int run = 0; run < runs; ++run) {
      auto rows = maker.table(8, {0, 20, 40, 60, 80}, sensor);
      const auto at = std::uniform_int_distribution<std::size_t>(0, rows.size() - 1)(dice);
      const double kelvin = rows[at].celsius + zero_celsius;
      const double u = std::hypot(world.meter, world.thermometer * 3977 / (kelvin * kelvin)) / std::sqrt(3);
      rows[at].ohm *= std::exp(one.off * u);
      const Fit fit = fitted(rows, Component_kind::ntc, means_of(world), Model_kind::beta);
      found += fit.residuals[at].outlier;
      for (std::size_t i = 0; i < rows.size(); ++i) wrong += i != at && fit.residuals[i].outlier;
    }
    printf("off by %.0f u: found %.1f %%, another named %.2f %%\n", one.off, 100.0 * found / runs,
           100.0 * wrong / runs);
    EXPECT_GE(found, least(one.found_at_least));
    EXPECT_LE(wrong, most(one.wrongly_at_most));
  }
}

// The 95 % intervals of the model's numbers, whether errors are each reading's own or common to all.
TEST(Fit_simulated, Covers_the_true_numbers) {
  for (const int specimens : {1, 5})
    for (const bool alike : {false, true}) {
      World world;
      world.alike = alike;
      Table_maker maker(world, 4);
      int resistance = 0, b = 0;
      for (int run = 0; run < runs; ++run) {
        const Fit fit = fitted(maker.table(specimens, {0, 20, 40, 60, 80}, sensor), Component_kind::ntc,
                               means_of(world), Model_kind::beta);
        resistance += std::fabs(fit.parameters[0].value - 10000) <= fit.parameters[0].uncertainty;
        b += std::fabs(fit.parameters[1].value - 3977) <= fit.parameters[1].uncertainty;
      }
      printf("%d specimens, errors %s: R25 covered %.1f %%, B %.1f %% (stated at least 95 %%)\n", specimens,
             alike ? "alike" : "each its own", 100.0 * resistance / runs, 100.0 * b / runs);
      EXPECT_GE(resistance, least(0.95));
      EXPECT_GE(b, least(0.95));
    }
}

// How large a share of all parts lies within low to high, for ln R normal around `mean`.
double held(double low, double high, double mean, double sigma) {
  const auto below = [&](double x) { return std::erfc(-(x - mean) / sigma / std::sqrt(2.0)) / 2; };
  return below(high) - below(low);
}

// The tolerance holds 95 % of all parts in 95 % of the tables: exactly so where nothing but the parts' spread
// is uncertain, and at least so with errors of the measurement. At each measured temperature.
TEST(Fit_simulated, Tolerance_holds_what_it_states) {
  struct Case {
    const char* name;
    World world;
    int specimens;
    bool exact;
  };
  const World exact = {1e-7, 1e-7, false, 0.01, 0};
  for (const Case& one :
       {Case{"nothing but the spread", exact, 5, true}, Case{"nothing but the spread", exact, 12, true},
        Case{"errors each its own", {0.001, 0.05, false, 0.004, 12}, 8, false},
        Case{"errors alike", {0.004, 0.3, true, 0.004, 12}, 8, false},
        Case{"errors alike, parts much alike", {0.004, 0.3, true, 0.0005, 2}, 8, false}}) {
    Table_maker maker(one.world, 5);
    const std::vector<double> celsius = {0, 20, 40, 60, 80};
    const bool coil = one.exact;
    std::vector<int> good(celsius.size());
    for (int run = 0; run < runs; ++run) {
      const auto truth = [&](double t) { return coil ? 100.0 : sensor(t); };
      const Fit fit =
          coil ? fitted(maker.table(one.specimens, {20}, truth), Component_kind::heater, means_of(one.world))
               : fitted(maker.table(one.specimens, celsius, truth), Component_kind::ntc, means_of(one.world),
                        Model_kind::beta);
      ASSERT_TRUE(fit.tolerance);
      const Read_result read = read_json("part.json", fit.part);
      const Resistance_model& model = *read.document.part()->component.model;
      for (std::size_t i = 0; i < celsius.size(); ++i) {
        const double kelvin = celsius[i] + zero_celsius;
        const auto band = model_interval(model, {kelvin, kelvin});
        ASSERT_TRUE(band);
        const double sigma = std::hypot(one.world.spread, one.world.b_spread * (1 / kelvin - 1 / 298.15));
        good[i] +=
            held(std::log(band->low), std::log(band->high), std::log(truth(celsius[i])), sigma) >= 0.95;
      }
    }
    for (std::size_t i = 0; i < (coil ? 1 : celsius.size()); ++i) {
      printf(
          "%s, %d specimens, %.0f °C: holds 95 %% of the parts in %.1f %% of the tables (stated %s95 %%)\n",
          one.name, one.specimens, celsius[i], 100.0 * good[i] / runs, one.exact ? "" : "at least ");
      EXPECT_GE(good[i], least(0.95));
      if (one.exact) {
        EXPECT_LE(good[i], most(0.96)); // rounding up is in it
      }
    }
  }
}

// Of tables made by one B, beta must not be given up more often than in 1 of 100; and a real bend is seen.
TEST(Fit_simulated, Chooses_the_model_by_what_it_states) {
  const World world;
  Table_maker maker(world, 6);
  int given_up = 0, seen = 0;
  const std::vector<double> celsius = {-20, 0, 20, 40, 60, 80, 100};
  for (int run = 0; run < runs; ++run) {
    given_up += fitted(maker.table(1, celsius, sensor), Component_kind::ntc, means_of(world)).model !=
                Model_kind::beta;
    seen += fitted(maker.table(1, celsius,
                               [](double t) {
                                 return steinhart_hart_resistance(published_hart, t + zero_celsius).value();
                               }),
                   Component_kind::ntc, means_of(world))
                .model == Model_kind::steinhart_hart;
  }
  printf("beta given up %.2f %% (stated 1 %%), a real bend seen %.1f %%\n", 100.0 * given_up / runs,
         100.0 * seen / runs);
  EXPECT_LE(given_up, most(0.01));
  EXPECT_GE(seen, least(0.99));
}

// Tables with bytes changed, cut, doubled: each is fitted or refused with words, and its document can be
// read.
TEST(Fit_hostile, Answers_every_table) {
  std::string table = "specimen,temperature (°C),resistance\n";
  for (const Row& row : ntc_table(3, 0.004, 8))
    table += fmt::format("{},{},{:.1f} Ω\n", row.specimen, row.celsius, row.ohm);
  constexpr std::string_view bytes = ",;\"\n\r0123456789.-+ek Ω°C\t";
  std::mt19937 dice(8);
  const auto below = [&](std::size_t n) {
    return std::uniform_int_distribution<std::size_t>(0, n - 1)(dice);
  };
  int made = 0, refused = 0;
  for (int run = 0; run < 2 * runs; ++run) {
    std::string text = table;
    for (std::size_t edits = 1 + below(2); edits > 0; --edits) {
      const std::size_t at = below(text.size()),
                        length = 1 + below(std::min<std::size_t>(3, text.size() - at));
      switch (below(4)) {
      case 0: text[at] = bytes[below(bytes.size())]; break;
      case 1: text.erase(at, length); break;
      case 2: text.insert(at, text.substr(below(text.size()), length)); break;
      default: text.insert(at, 1, bytes[below(bytes.size())]);
      }
      if (text.empty()) text = "x";
    }
    const auto read = read_measurements("hostile.csv", text);
    if (!read.measurements) {
      ++refused;
      ASSERT_FALSE(read.findings.empty()) << text;
      continue;
    }
    Fit_request request;
    request.kind = run % 2 == 0 ? Component_kind::ntc : Component_kind::coil;
    const Fit_result result = fit_part(*read.measurements, request);
    ASSERT_TRUE(result.fit || !result.findings.empty() || !result.problem.empty()) << text;
    if (!result.fit) continue;
    ++made;
    EXPECT_TRUE(read_json("part.json", result.fit->part).document.part()) << text;
    for (const Fit_parameter& one : result.fit->parameters)
      EXPECT_TRUE(std::isfinite(one.value) && std::isfinite(one.uncertainty)) << text;
    EXPECT_FALSE(text_report(*result.fit).empty());
  }
  printf("%d tables fitted, %d refused by their text\n", made, refused);
  EXPECT_GT(made, 0);
  EXPECT_GT(refused, runs / 4);
}

}
}
