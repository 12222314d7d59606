// Bands of every kind of model against parts drawn from within their tolerance, at a temperature and over
// ranges, and backwards. The true values are computed from the written decimals with MPFR
// (support/precise.h).
#include "ohmlore/bands.h"

#include "../support/model.h"
#include "../support/precise.h"
#include "support/cases.h"
#include "support/chance.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <string>

namespace ohmlore {
namespace {

using test::Model;
using test::Precise;

constexpr int cases = test::cases(1000); // of each kind of model, each read from JSON

// From -1 to 1, often an end, where the rounding must hold.
double share(test::Chance& random) {
  return random.one_in(3) ? -1 : random.one_in(2) ? 1 : random.between(-1, 1);
}

Precise number(const std::string& decimal) { return Precise(decimal.c_str()); }
Precise in_kelvin(const std::string& celsius) { return number(celsius) + Precise("273.15"); }
double kelvin(const std::string& celsius) { return Model::kelvin(celsius.c_str()); }

/// One model, and a part of it drawn at random: its resistance at a temperature in °C.
struct Drawn {
  std::string text;
  std::function<Precise(const std::string& celsius)> part;
  /// The part with all that it has at the ends that make the least or the greatest resistance there.
  std::function<Precise(const std::string& celsius, bool most)> extreme;
  double coldest = -40, hottest = 125; // °C
};

// 1 + share · percent / 100
Precise off(const std::string& percent, double share) {
  return Precise(1) + Precise(share) * number(percent) / 100;
}

Drawn draw_beta(test::Chance& random) {
  const std::string r = random.decimal(1, 99, 2), at = random.decimal(0, 60, 1),
                    b = random.decimal(2500, 5000, 0), of_r = random.decimal(0.1, 10, 1),
                    of_b = random.decimal(0.1, 5, 1);
  const auto value = [=](const std::string& t, double share_r, double share_b) {
    return number(r) * 1000 * off(of_r, share_r) *
           exp(number(b) * off(of_b, share_b) * (Precise(1) / in_kelvin(t) - Precise(1) / in_kelvin(at)));
  };
  const double x = share(random), y = share(random);
  return {fmt::format(R"("kind": "beta", "resistance": "{} kΩ", "at": "{} °C", "tolerance": "{} %",
                         "b_value": "{} K", "b_between": "25 °C to 85 °C", "b_tolerance": "{} %")",
                      r, at, of_r, b, of_b),
          [=](const std::string& t) { return value(t, x, y); },
          [=](const std::string& t, bool most) {
            const bool colder = number(t) <= number(at);
            return value(t, most ? 1 : -1, most == colder ? 1 : -1);
          }};
}

Drawn draw_steinhart_hart(test::Chance& random) {
  const std::string a = random.decimal(0.5, 2, 6) + "e-3", b = random.decimal(1.5, 4, 5) + "e-4",
                    c = random.decimal(0, 5, 4) + "e-7", percent = random.decimal(0.1, 10, 1);
  // By Newton's method: for c >= 0 the cubic bends upwards over ln R > 0, so that it converges.
  const auto nominal = [=](const std::string& t) {
    Precise l(20);
    const Precise inverse = Precise(1) / in_kelvin(t);
    for (int i = 0; i < 15; ++i)
      l = l -
          (number(a) + l * (number(b) + number(c) * l * l) - inverse) / (number(b) + number(c) * l * l * 3);
    return exp(l);
  };
  const double x = share(random);
  return {
      fmt::format(
          R"("kind": "steinhart_hart", "a": "{} K^-1", "b": "{} K^-1", "c": "{} K^-1", "tolerance": "{} %")",
          a, b, c, percent),
      [=](const std::string& t) { return nominal(t) * off(percent, x); },
      [=](const std::string& t, bool most) { return nominal(t) * off(percent, most ? 1 : -1); }};
}

Precise platinum(const Precise& t) {
  Precise inner = Precise("-5.775e-7");
  if (t <= 0) inner = inner + Precise("-4.183e-12") * (t - 100) * t;
  return Precise(1) + t * (Precise("3.9083e-3") + t * inner);
}

Drawn draw_platinum(test::Chance& random) {
  static constexpr struct {
    const char *name, *a, *b;
  } classes[] = {
      {"AA", "0.1", "0.0017"}, {"A", "0.15", "0.002"}, {"B", "0.3", "0.005"}, {"C", "0.6", "0.01"}};
  const auto& c = classes[random.whole(0, 3)];
  const std::string r0 = random.decimal(50, 2000, 1);
  const auto value = [=, a = c.a, b = c.b](const std::string& t, double share) {
    const Precise celsius = number(t), size = celsius <= 0 ? Precise(0.0) - celsius : celsius;
    return number(r0) * platinum(celsius + Precise(share) * (Precise(a) + Precise(b) * size));
  };
  const double x = share(random);
  return {fmt::format(R"("kind": "iec_60751", "r0": "{} Ω", "tolerance_class": "{}")", r0, c.name),
          [=](const std::string& t) { return value(t, x); },
          [=](const std::string& t, bool most) { return value(t, most ? 1 : -1); }, -180, 800};
}

Drawn draw_polynomial(test::Chance& random) {
  const std::string r0 = random.decimal(50, 2000, 1), percent = random.decimal(0.1, 2, 1),
                    a1 = random.decimal(3, 9, 3) + "e-3", a2 = random.decimal(0, 9, 2) + "e-6",
                    a3 = random.decimal(-5, 5, 2) + "e-9";
  const auto value = [=](const std::string& t, double share) {
    const Precise c = number(t);
    return number(r0) * off(percent, share) *
           (Precise(1) + c * (number(a1) + c * (number(a2) + c * number(a3))));
  };
  const double x = share(random);
  return {fmt::format(
              R"("kind": "polynomial", "r0": "{} Ω", "tolerance": "{} %", "a1": "{} K^-1", "a2": "{} K^-2",
                         "a3": "{} K^-3")",
              r0, percent, a1, a2, a3),
          [=](const std::string& t) { return value(t, x); },
          [=](const std::string& t, bool most) { return value(t, most ? 1 : -1); }};
}

Drawn draw_copper(test::Chance& random) {
  const std::string r = random.decimal(1, 900, 1), at = random.decimal(0, 60, 1),
                    k = random.decimal(220, 245, 1), percent = random.decimal(0.5, 15, 1);
  const auto value = [=](const std::string& t, double share) {
    return number(r) * off(percent, share) * (number(k) + number(t)) / (number(k) + number(at));
  };
  const double x = share(random);
  return {fmt::format(
              R"("kind": "copper", "resistance": "{} Ω", "at": "{} °C", "tolerance": "{} %", "k": "{} K")", r,
              at, percent, k),
          [=](const std::string& t) { return value(t, x); },
          [=](const std::string& t, bool most) { return value(t, most ? 1 : -1); }};
}

Drawn draw_fixed(test::Chance& random) {
  const std::string r = random.decimal(1, 900, 2), plus = random.decimal(0, 20, 1),
                    minus = random.decimal(0, 20, 1);
  const double x = share(random);
  const auto value = [=](double share) {
    return number(r) * (share < 0 ? off(minus, share) : off(plus, share));
  };
  return {fmt::format(R"("kind": "fixed", "resistance": "{} Ω", "tolerance": "+{} % -{} %")", r, plus, minus),
          [=](const std::string&) { return value(x); },
          [=](const std::string&, bool most) { return value(most ? 1 : -1); }};
}

Drawn draw_power(test::Chance& random) {
  const std::string volt = random.decimal(5, 400, 1), watt = random.decimal(1, 9000, 1),
                    percent = random.decimal(0, 15, 1);
  const double x = share(random);
  const auto value = [=](double share) {
    return number(volt) * number(volt) / number(watt) * off(percent, share);
  };
  return {fmt::format(R"("kind": "power", "voltage": "{} V", "power": "{} W", "tolerance": "{} %")", volt,
                      watt, percent),
          [=](const std::string&) { return value(x); },
          [=](const std::string&, bool most) { return value(most ? 1 : -1); }};
}

// Rows of thermistors whose B drifts evenly, at a rate within the limits: y = p + q x + s ln x.
struct Drifting {
  double p = 0, q = 0, s = 0;
  Precise ohm(const std::string& celsius) const {
    const Precise x = Precise(1) / in_kelvin(celsius);
    return exp(Precise(p) + Precise(q) * x + Precise(s) * log(x));
  }
};

Drifting draw_drifting(test::Chance& random, double s) {
  // B is 3000 to 4500 K at 300 K.
  const double q = random.between(3000, 4500) - 300 * s;
  return {9 - q / 300 - s * std::log(1 / 300.0) + random.between(-2, 2), q, s};
}

Drawn draw_table(test::Chance& random) {
  const Drifting part =
      draw_drifting(random, random.whole(0, 1) == 0   ? random.between(b_drift.low, b_drift.high)
                            : random.whole(0, 1) == 0 ? b_drift.low
                                                      : b_drift.high);
  const std::string percent = random.decimal(0.1, 5, 1);
  const double x = share(random);
  std::string rows;
  for (double t = -40; t < 126; t += random.between(3, 40)) {
    const std::string celsius = t == -40 ? "-40.0" : fmt::format("{:.1f}", t);
    // The part lies at this share of the tolerance: written is its nominal, so finely that no digit matters.
    rows += fmt::format(R"({{ "at": "{} °C", "nominal": "{:.11g} Ω", "tolerance": "{} %" }},)", celsius,
                        (part.ohm(celsius) / off(percent, x)).nearest(), percent);
  }
  const std::string end = "130.0";
  rows += fmt::format(R"({{ "at": "{} °C", "nominal": "{:.11g} Ω", "tolerance": "{} %" }})", end,
                      (part.ohm(end) / off(percent, x)).nearest(), percent);
  return {fmt::format(R"("kind": "table", "rows": [{}])", rows),
          // Nearer to the middle by what 11 digits leave open.
          [=](const std::string& t) { return part.ohm(t) * (Precise(1) - Precise(x) * Precise(1e-10)); },
          nullptr};
}

struct Kind {
  const char* name;
  Drawn (*draw)(test::Chance&);
  double most_ulps; // beyond the true band, where each input stands once; 0: not as narrow as possible
  Between_rows between = Between_rows::monotone;
};

void PrintTo(const Kind& kind, std::ostream* out) { *out << kind.name; }

constexpr Kind kinds[] = {
    {"beta", draw_beta, 250},         {"steinhart_hart", draw_steinhart_hart, 300},
    {"iec_60751", draw_platinum, 50}, {"polynomial", draw_polynomial, 50},
    {"copper", draw_copper, 30},      {"fixed", draw_fixed, 8},
    {"power", draw_power, 25},        {"table", draw_table, 0, Between_rows::thermistor},
};

class Every_kind : public testing::TestWithParam<Kind> {};
INSTANTIATE_TEST_SUITE_P(kinds, Every_kind, testing::ValuesIn(kinds),
                         [](const auto& info) { return std::string(info.param.name); });

testing::AssertionResult encloses(const std::optional<Interval>& band, const Precise& truth) {
  if (!band) return testing::AssertionFailure() << "no band";
  if (Precise(band->low) <= truth && truth <= Precise(band->high)) return testing::AssertionSuccess();
  return testing::AssertionFailure() << fmt::format("[{:.17g}, {:.17g}] does not hold {:.17g}", band->low,
                                                    band->high, truth.nearest());
}

double ulps(double bound, const Precise& truth) {
  const double size = std::fabs(truth.nearest());
  return std::fabs((Precise(bound) - truth).nearest()) / (std::nextafter(size, INFINITY) - size);
}

TEST_P(Every_kind, holds_every_part_and_hardly_more) {
  test::Chance random(20260101);
  double most = 0;
  for (int i = 0; i < cases; ++i) {
    const Drawn drawn = GetParam().draw(random);
    const Model model(drawn.text);
    for (int k = 0; k < 5; ++k) {
      const std::string t = random.decimal(drawn.coldest, drawn.hottest, 2);
      const auto band = model_interval(*model, {kelvin(t), kelvin(t)}, Taken::literally, GetParam().between);
      ASSERT_TRUE(encloses(band, drawn.part(t))) << drawn.text << " at " << t;
      if (GetParam().most_ulps > 0)
        most = std::max(
            {most, ulps(band->low, drawn.extreme(t, false)), ulps(band->high, drawn.extreme(t, true))});
    }
  }
  EXPECT_LE(most, GetParam().most_ulps);
  fmt::print("{}: at most {:.0f} units in the last place beyond the true band\n", GetParam().name, most);
}

TEST_P(Every_kind, holds_every_part_over_a_range) {
  test::Chance random(20260101);
  double most = 0;
  for (int i = 0; i < cases; ++i) {
    const Drawn drawn = GetParam().draw(random);
    const Model model(drawn.text);
    std::string cold = random.decimal(drawn.coldest, drawn.hottest, 2),
                hot = random.decimal(drawn.coldest, drawn.hottest, 2);
    if (kelvin(hot) < kelvin(cold)) std::swap(cold, hot);
    const auto band =
        model_interval(*model, {kelvin(cold), kelvin(hot)}, Taken::literally, GetParam().between);
    for (const double share : {0.0, 0.25, random.between(0, 1), 0.9, 1.0}) {
      std::string t = fmt::format("{:.2f}", std::stod(cold) + share * (std::stod(hot) - std::stod(cold)));
      if (kelvin(t) > kelvin(hot)) t = hot;
      if (kelvin(t) < kelvin(cold)) t = cold;
      ASSERT_TRUE(encloses(band, drawn.part(t))) << drawn.text << " from " << cold << " to " << hot;
    }
    if (GetParam().most_ulps > 0) {
      // All these models rise all the way or fall all the way.
      const Precise at_cold = drawn.extreme(cold, false), at_hot = drawn.extreme(hot, false);
      const bool rises = at_cold <= at_hot;
      most = std::max({most, ulps(band->low, rises ? at_cold : at_hot),
                       ulps(band->high, drawn.extreme(rises ? hot : cold, true))});
    }
  }
  EXPECT_LE(most, GetParam().most_ulps);
}

// Backwards: the temperature at which a part reads something is among those that the reading may mean.
TEST_P(Every_kind, finds_the_temperature_of_a_reading) {
  test::Chance random(20260101);
  for (int i = 0; i < cases / 4; ++i) {
    const Drawn drawn = GetParam().draw(random);
    const Model model(drawn.text);
    const std::string t = random.decimal(drawn.coldest, drawn.hottest, 2);
    const double ohm = drawn.part(t).nearest();
    const Interval within = {zero_celsius - 195, zero_celsius + 820};
    const auto found =
        model_temperatures(*model, widened({ohm, ohm}, 2), within, Taken::literally, GetParam().between);
    ASSERT_TRUE(found) << drawn.text << " at " << t;
    ASSERT_TRUE(found->contains(kelvin(t))) << drawn.text << " at " << t;
    // A reading twice as vague means all that it meant, and more.
    const auto vague =
        model_temperatures(*model, {0.97 * ohm, 1.03 * ohm}, within, Taken::literally, GetParam().between);
    ASSERT_TRUE(vague && vague->contains(*found)) << drawn.text << " at " << t;
  }
}

// Where no tolerance widens it, as near as the temperature was written.
TEST(Temperatures, are_as_narrow_as_the_model) {
  test::Chance random(20260101);
  const Interval within = {200, 500};
  for (int i = 0; i < cases / 4; ++i) {
    const std::string b = random.decimal(3000, 4500, 0), t = random.decimal(-40, 120, 2);
    const Model beta(
        fmt::format(R"("kind": "beta", "resistance": "10.0 kΩ", "tolerance": "0 %", "at": "25 °C",
                                    "b_value": "{} K", "b_between": "25 °C to 85 °C")",
                    b));
    const Precise truth =
        Precise(10000) * exp(number(b) * (Precise(1) / in_kelvin(t) - Precise(1) / in_kelvin("25")));
    const double ohm = truth.nearest();
    const auto found = model_temperatures(*beta, {ohm, ohm}, within);
    ASSERT_TRUE(encloses(found, in_kelvin(t))) << b << ' ' << t;
    ASSERT_LT(found->width(), 3e-9) << b << ' ' << t;
  }
}

TEST(Temperatures, are_empty_where_no_part_reads_that) {
  const Interval within = {200, 500};
  const Model table(R"("kind": "table", "rows": [{ "at": "0 °C", "nominal": "32.65 kΩ", "tolerance": "1 %" },
                                                 { "at": "60 °C", "nominal": "2.488 kΩ", "tolerance": "1 %" }])");
  for (const Between_rows between : {Between_rows::monotone, Between_rows::thermistor}) {
    EXPECT_FALSE(model_temperatures(*table, {34000, 40000}, within, Taken::literally, between));
    EXPECT_FALSE(model_temperatures(*table, {1000, 2400}, within, Taken::literally, between));
    EXPECT_FALSE(model_temperatures(*table, {10000, 10000}, {340, 400}, Taken::literally, between));
    // The ends of the table are the ends of what it says.
    const auto coldest = model_temperatures(*table, {32800, 40000}, within, Taken::literally, between);
    ASSERT_TRUE(coldest);
    EXPECT_EQ(coldest->low, 273.15);
  }
  // So too where it says nothing of 0 °C.
  const Model warm(R"("kind": "table", "rows": [{ "at": "20 °C", "nominal": "12.49 kΩ", "tolerance": "1 %" },
                                                { "at": "60 °C", "nominal": "2.488 kΩ", "tolerance": "1 %" }])");
  const auto at_20 = model_temperatures(*warm, {12490, 12490}, within);
  ASSERT_TRUE(at_20);
  EXPECT_EQ(at_20->low, 293.15);
  // Monotone alone tells nothing between the rows.
  EXPECT_GT(model_temperatures(*table, {10000, 10000}, within)->width(), 59);
  EXPECT_LT(
      model_temperatures(*table, {10000, 10000}, within, Taken::literally, Between_rows::thermistor)->width(),
      3);
  const Model fixed(R"("kind": "fixed", "resistance": "470 Ω", "tolerance": "5 %")");
  EXPECT_FALSE(model_temperatures(*fixed, {500, 600}, within));
  EXPECT_EQ(model_temperatures(*fixed, {450, 600}, within)->width(), 300);
  const Model platinum(R"("kind": "iec_60751", "r0": "100 Ω", "tolerance_class": "B")");
  EXPECT_FALSE(model_temperatures(*platinum, {1, 10}, {50, 1200}));
  EXPECT_NEAR(model_temperatures(*platinum, {138.5055, 138.5055}, {50, 1200})->middle(), 373.15, 0.01);
  EXPECT_FALSE(model_temperatures(*Model(R"("kind": "open", "above": "1 MΩ")"), {1, 10}, within));
  EXPECT_FALSE(model_temperatures({}, {1, 10}, within));
}

// The band between two rows is reached: a part whose B drifts evenly by either limit lies on its ends.
TEST(Between, rows_the_limits_of_the_drift_are_reached) {
  test::Chance random(20260101);
  for (int i = 0; i < cases; ++i)
    for (const double s : {b_drift.low, b_drift.high}) {
      const Drifting part = draw_drifting(random, s);
      const std::string cold = random.decimal(-40, 30, 1), hot = random.decimal(40, 120, 1),
                        t = fmt::format("{:.2f}", random.between(std::stod(cold) + 1, std::stod(hot) - 1));
      const Model model(fmt::format(R"("kind": "table", "rows": [
                          {{ "at": "{} °C", "nominal": "{:.14g} Ω", "tolerance": "0 %" }},
                          {{ "at": "{} °C", "nominal": "{:.14g} Ω", "tolerance": "0 %" }}])",
                                    cold, part.ohm(cold).nearest(), hot, part.ohm(hot).nearest()));
      const auto band =
          model_interval(*model, {kelvin(t), kelvin(t)}, Taken::literally, Between_rows::thermistor);
      ASSERT_TRUE(band);
      const double truth = part.ohm(t).nearest();
      ASSERT_NEAR(s < 0 ? band->low / truth : band->high / truth, 1, 1e-11) << cold << ' ' << t << ' ' << hot;
      ASSERT_LT(s < 0 ? truth : band->low, s < 0 ? band->high : truth);
    }
}

}
}
