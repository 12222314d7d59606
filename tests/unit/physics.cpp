// Properties of the resistance models. The true values come from MPFR with 300 bits (support/precise.h).
#include "ohmlore/physics.h"

#include "../support/chance.h"
#include "../support/precise.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>
#include <ostream>
#include <vector>

namespace ohmlore {

void PrintTo(const Interval& x, std::ostream* out) {
  const auto precision = out->precision(17);
  *out << '[' << x.low << ", " << x.high << ']';
  out->precision(precision);
}

namespace {

using test::Precise;

constexpr int cases = 100'000;

constexpr Interval point(double x) { return {x, x}; }

testing::AssertionResult encloses(Interval x, const Precise& truth) {
  if (Precise(x.low) <= truth && truth <= Precise(x.high)) return testing::AssertionSuccess();
  return testing::AssertionFailure() << testing::PrintToString(x) << " does not hold " << truth.nearest();
}

// Width against size: how much of the band is rounding alone, for inputs without width.
double relative_width(Interval x) { return x.width() / std::fabs(x.middle()); }

class Random : public test::Chance {
public:
  Random() : Chance(20240229) {}
  // Any sign, and of any size from 10^-decades to 10^decades.
  double any(double decades) {
    return (between(-1, 1) < 0 ? -1 : 1) * std::pow(10.0, between(-decades, decades));
  }
  Interval interval(double low, double high) { return sorted(between(low, high), between(low, high)); }
  Interval any_interval(double decades) { return sorted(any(decades), any(decades)); }
  // Some value of the interval; often an end, where the rounding must hold.
  double inside(Interval x) {
    if (one_in(3)) return x.low;
    if (one_in(2)) return x.high;
    return std::fmin(std::fmax(between(x.low, x.high), x.low), x.high);
  }

private:
  // One in four without width.
  Interval sorted(double a, double b) {
    if (one_in(4)) b = a;
    return {std::fmin(a, b), std::fmax(a, b)};
  }
};

TEST(Interval, arithmetic_encloses_the_true_value) {
  Random random;
  for (int i = 0; i < cases; ++i) {
    const Interval a = random.any_interval(12);
    const Interval b = random.any_interval(12);
    const double x = random.inside(a);
    const double y = random.inside(b);
    ASSERT_TRUE(encloses(a + b, Precise(x) + y));
    ASSERT_TRUE(encloses(a - b, Precise(x) - y));
    ASSERT_TRUE(encloses(a * b, Precise(x) * y));
    ASSERT_TRUE(encloses(a / b, Precise(x) / y));
  }
}

TEST(Interval, exp_and_log_enclose_the_true_value) {
  Random random;
  for (int i = 0; i < cases; ++i) {
    const Interval a = random.interval(-745, 709);
    ASSERT_TRUE(encloses(exp(a), exp(Precise(random.inside(a)))));
    // Arguments of exp in the models are small.
    const Interval small = random.interval(-3, 3);
    ASSERT_TRUE(encloses(exp(small), exp(Precise(random.inside(small)))));
    double b = std::fabs(random.any(300));
    ASSERT_TRUE(encloses(log(point(b)), log(Precise(b))));
    b = random.between(0.5, 2); // around the zero of the logarithm
    ASSERT_TRUE(encloses(log(point(b)), log(Precise(b))));
  }
}

TEST(Interval, exp_and_log_hold_at_the_ends_of_the_doubles) {
  EXPECT_EQ(exp(point(-800)).low, 0);
  EXPECT_GT(exp(point(-800)).high, 0);
  EXPECT_EQ(exp(point(800)).high, infinity);
  EXPECT_LT(exp(point(800)).low, infinity);
  EXPECT_EQ(exp({-infinity, infinity}).low, 0);
  EXPECT_EQ(log({0, 1}).low, -infinity);
  EXPECT_TRUE(log({0, 1}).contains(0));
  EXPECT_TRUE(exp(point(0)).contains(1));
}

TEST(Interval, a_point_stays_within_a_few_neighbours) {
  const Interval third = point(1) / point(3);
  EXPECT_EQ(third.low, std::nextafter(1.0 / 3, 0));
  EXPECT_EQ(third.high, std::nextafter(1.0 / 3, 1));
  EXPECT_LE(relative_width(exp(point(1.25))), 4 * std::numeric_limits<double>::epsilon());
}

TEST(Interval, non_negative_stays_non_negative) {
  const Interval zero = point(0);
  EXPECT_EQ((zero + zero).low, 0);
  EXPECT_EQ((zero * Interval{0, 5}).low, 0);
  EXPECT_EQ((Interval{0, 5} / Interval{1, 2}).low, 0);
  EXPECT_LT((zero - zero).low, 0);
}

TEST(Interval, an_infinite_bound_means_as_large_as_you_like) {
  const Interval open = {1e6, infinity};
  EXPECT_EQ((open * Interval{0, 2}).low, 0);
  EXPECT_EQ((open * Interval{0, 2}).high, infinity);
  EXPECT_EQ((open * Interval{-1, 0}).low, -infinity);
  EXPECT_GE((open * Interval{-1, 0}).high, 0);
  EXPECT_EQ((open + point(1)).high, infinity);
  EXPECT_EQ((open / point(2)).high, infinity);
}

TEST(Interval, division_by_an_interval_with_zero_tells_nothing) {
  for (const Interval divisor : {Interval{-1, 1}, Interval{0, 1}, Interval{-1, 0}, Interval{0, 0}}) {
    const Interval quotient = point(1) / divisor;
    EXPECT_EQ(quotient.low, -infinity);
    EXPECT_EQ(quotient.high, infinity);
  }
}

TEST(Interval, widened_moves_to_the_neighbours) {
  const Interval twice = widened({1, 2}, 2);
  EXPECT_EQ(twice.low, std::nextafter(std::nextafter(1.0, 0.0), 0.0));
  EXPECT_EQ(twice.high, std::nextafter(std::nextafter(2.0, 3.0), 3.0));
  EXPECT_EQ(widened(point(7), 0).width(), 0);
  using Limits = std::numeric_limits<double>;
  for (const double size : {0.0, Limits::denorm_min(), Limits::min(), 1.0, Limits::max(), infinity})
    for (const double x : {size, -size}) {
      EXPECT_EQ(widened(point(x), 1).low, std::nextafter(x, -infinity)) << x;
      EXPECT_EQ(widened(point(x), 1).high, std::nextafter(x, infinity)) << x;
    }
}

TEST(Interval, relations) {
  const Interval x = {1, 2};
  EXPECT_TRUE(x.contains(1) && x.contains(2) && !x.contains(2.5));
  EXPECT_TRUE(x.contains(Interval{1, 2}) && !x.contains(Interval{1, 3}));
  EXPECT_TRUE(x.overlaps({2, 3}) && x.overlaps({0, 1}) && !x.overlaps({2.1, 3}) && !x.overlaps({0, 0.9}));
  EXPECT_EQ(hull({1, 2}, {5, 6}).low, 1);
  EXPECT_EQ(hull({1, 2}, {5, 6}).high, 6);
  EXPECT_EQ(x.middle(), 1.5);
}

TEST(Celsius, encloses_the_decimal_that_was_written) {
  Random random;
  for (int i = 0; i < cases; ++i) {
    // 20.37 °C is read as the double nearest to 293.52 K; 20.37 itself must be found again.
    const long hundredths = std::lround(random.between(-27314, 100000));
    const Precise celsius = Precise(static_cast<double>(hundredths)) / 100;
    const double kelvin = (celsius + Precise("273.15")).nearest();
    ASSERT_TRUE(encloses(celsius_of(point(kelvin)), celsius));
    ASSERT_LT(celsius_of(point(kelvin)).width(), 1e-12);
  }
}

Precise beta(const Precise& t, const Precise& r, const Precise& t_ref, const Precise& b) {
  return r * exp(b * (Precise(1) / t - Precise(1) / t_ref));
}

TEST(Beta, resistance_encloses_the_true_value) {
  Random random;
  for (int i = 0; i < cases; ++i) {
    const Interval t = random.interval(230, 450);
    const Interval r = random.interval(10, 1e6);
    const Interval t_ref = random.interval(270, 370);
    const Interval b = random.interval(1000, 8000);
    ASSERT_TRUE(encloses(beta_resistance(t, r, t_ref, b),
                         beta(random.inside(t), random.inside(r), random.inside(t_ref), random.inside(b))));
  }
}

TEST(Beta, resistance_is_as_narrow_as_its_inputs_allow) {
  EXPECT_LT(relative_width(beta_resistance(point(273.15), point(1e4), point(298.15), point(3988))), 1e-14);
  EXPECT_LT(relative_width(beta_resistance(point(298.15), point(1e4), point(298.15), point(3988))), 1e-14);
  // Below and above the reference the same ends of B and R make the band.
  const Interval r = {9.9e3, 1.01e4};
  const Interval b = {3948, 4028};
  const Interval cold = beta_resistance(point(273.15), r, point(298.15), b);
  EXPECT_NEAR(cold.low, beta(273.15, r.low, 298.15, b.low).nearest(), 1e-8);
  EXPECT_NEAR(cold.high, beta(273.15, r.high, 298.15, b.high).nearest(), 1e-8);
  const Interval hot = beta_resistance(point(373.15), r, point(298.15), b);
  EXPECT_NEAR(hot.low, beta(373.15, r.low, 298.15, b.high).nearest(), 1e-8);
  EXPECT_NEAR(hot.high, beta(373.15, r.high, 298.15, b.low).nearest(), 1e-8);
}

TEST(Beta, resistance_falls_with_temperature) {
  Interval before = beta_resistance(point(230), point(1e4), point(298.15), point(3435));
  for (double t = 230.01; t < 450; t += 0.01) {
    const Interval now = beta_resistance(point(t), point(1e4), point(298.15), point(3435));
    ASSERT_LT(now.high, before.low) << t;
    before = now;
  }
}

TEST(Beta, wider_inputs_give_wider_bands) {
  Random random;
  const auto inner = [&](Interval x) {
    const double a = random.inside(x);
    const double b = random.inside(x);
    return Interval{std::fmin(a, b), std::fmax(a, b)};
  };
  for (int i = 0; i < cases; ++i) {
    const Interval t = random.interval(230, 450);
    const Interval r = random.interval(10, 1e6);
    const Interval b = random.interval(1000, 8000);
    const Interval wide = beta_resistance(t, r, point(298.15), b);
    const Interval narrow = beta_resistance(inner(t), inner(r), point(298.15), inner(b));
    ASSERT_TRUE(wide.contains(narrow)) << testing::PrintToString(wide) << testing::PrintToString(narrow);
  }
}

TEST(Beta, temperature_encloses_the_true_value) {
  Random random;
  for (int i = 0; i < cases; ++i) {
    const Interval r = random.interval(10, 1e6);
    const Interval r_ref = random.interval(1e3, 1e5);
    const Interval b = random.interval(3000, 5000);
    const std::optional<Interval> t = beta_temperature(r, r_ref, point(298.15), b);
    ASSERT_TRUE(t);
    const Precise inverse =
        Precise(1) / 298.15 + log(Precise(random.inside(r)) / random.inside(r_ref)) / random.inside(b);
    ASSERT_TRUE(encloses(*t, Precise(1) / inverse));
  }
}

TEST(Beta, temperature_of_a_short_circuit_is_empty) {
  EXPECT_FALSE(beta_temperature(point(1e-3), point(1e4), point(298.15), point(3435)));
  EXPECT_FALSE(beta_temperature({0, 1e4}, point(1e4), point(298.15), point(3435)));
}

TEST(Beta, b_between_encloses_the_true_value) {
  Random random;
  for (int i = 0; i < cases; ++i) {
    const Interval r1 = random.interval(10, 1e6);
    const Interval r2 = random.interval(10, 1e6);
    const Interval t1 = random.interval(230, 310);
    const Interval t2 = random.interval(311, 450);
    const Precise top = log(Precise(random.inside(r1)) / random.inside(r2));
    const Precise bottom = Precise(1) / random.inside(t1) - Precise(1) / random.inside(t2);
    const Interval b = b_between(r1, t1, r2, t2);
    ASSERT_TRUE(encloses(b, top / bottom));
    // Which of the two points comes first changes nothing but rounding.
    ASSERT_TRUE(b.overlaps(b_between(r2, t2, r1, t1)));
  }
  EXPECT_LT(relative_width(b_between(point(10000), point(298.15), point(680), point(373.15))), 1e-14);
}

TEST(Beta, b_between_equal_temperatures_tells_nothing) {
  const Interval b = b_between(point(1e4), point(298.15), point(9e3), point(298.15));
  EXPECT_EQ(b.low, -infinity);
  EXPECT_EQ(b.high, infinity);
}

constexpr Steinhart_hart example = {.a = 1.4e-3, .b = 2.37e-4, .c = 9.9e-8};

TEST(Steinhart_hart, resistance_is_exact_to_double_precision) {
  Random random;
  for (int i = 0; i < cases; ++i) {
    const Steinhart_hart s = {.a = random.between(0.5e-3, 2e-3),
                              .b = random.between(1.5e-4, 4e-4),
                              .c = random.one_in(4) ? 0 : random.between(0, 5e-7)};
    const double t = random.between(200, 500);
    const std::optional<double> ohm = steinhart_hart_resistance(s, t);
    ASSERT_TRUE(ohm);
    const Precise l = log(Precise(*ohm));
    const Precise back = Precise(1) / (s.a + l * (s.b + s.c * l * l));
    ASSERT_NEAR(back.nearest(), t, 1e-12 * t);
    ASSERT_NEAR(steinhart_hart_temperature(s, *ohm), t, 1e-12 * t);
  }
}

TEST(Steinhart_hart, resistance_needs_a_rising_branch) {
  // b < 0 and c > 0 rise on two branches: near ln R = ±10 both reach 1/300 K, so neither can be chosen.
  EXPECT_FALSE(steinhart_hart_resistance({.a = 1 / 300.0, .b = -1e-4, .c = 1e-6}, 300));
  // The same curve far out has one solution only: 1/T beyond both turning points.
  const Steinhart_hart s = {.a = 1 / 300.0, .b = -1e-4, .c = 1e-6};
  const std::optional<double> far = steinhart_hart_resistance(s, 200);
  ASSERT_TRUE(far);
  EXPECT_NEAR(steinhart_hart_temperature(s, *far), 200, 1e-9);
  EXPECT_GT(std::log(*far), 10);
  // Falling everywhere, flat, and out of reach of a branch that ends.
  EXPECT_FALSE(steinhart_hart_resistance({.a = 1e-3, .b = -2e-4, .c = -1e-7}, 300));
  EXPECT_FALSE(steinhart_hart_resistance({.a = 1e-3, .b = 0, .c = 0}, 300));
  EXPECT_FALSE(steinhart_hart_resistance({.a = 1e-3, .b = 2e-4, .c = -1e-5}, 300));
  // A branch that ends, within reach: 1/T = 1e-3 + 2e-4 l - 1e-7 l³ rises up to l = 25.8.
  const Steinhart_hart ends = {.a = 1e-3, .b = 2e-4, .c = -1e-7};
  const std::optional<double> on_branch = steinhart_hart_resistance(ends, 300);
  ASSERT_TRUE(on_branch);
  EXPECT_NEAR(steinhart_hart_temperature(ends, *on_branch), 300, 1e-9);
  EXPECT_LT(std::log(*on_branch), 25.8);
  // And close to where it ends.
  const std::optional<double> at_end =
      steinhart_hart_resistance(ends, steinhart_hart_temperature(ends, std::exp(25.5)));
  ASSERT_TRUE(at_end);
  EXPECT_NEAR(std::log(*at_end), 25.5, 1e-9);
  // The curve of two branches once more, just above where the second begins (l = 5.77, 3.849e-4 below 1/300):
  // both reach it.
  EXPECT_FALSE(steinhart_hart_resistance(s, 1 / (1 / 300.0 - 3.8e-4)));
}

TEST(Steinhart_hart, resistance_of_no_temperature_is_empty) {
  EXPECT_FALSE(steinhart_hart_resistance(example, 0));
  EXPECT_FALSE(steinhart_hart_resistance(example, -10));
  EXPECT_FALSE(steinhart_hart_resistance(example, std::numeric_limits<double>::quiet_NaN()));
  // So cold that no double holds the resistance; so too where the branch ends beyond all doubles (1/T = a + b
  // l with ln R of 995 and of -983).
  EXPECT_FALSE(steinhart_hart_resistance(example, 0.01));
  EXPECT_FALSE(steinhart_hart_resistance({.a = 1e-3, .b = 2e-4, .c = -1e-12}, 5));
  EXPECT_FALSE(steinhart_hart_resistance({.a = 0.2, .b = 2e-4, .c = -1e-12}, 300));
}

TEST(Steinhart_hart, resistance_falls_with_temperature) {
  double before = infinity;
  for (double t = 220; t < 450; t += 0.01) {
    const double now = steinhart_hart_resistance(example, t).value();
    ASSERT_LT(now, before) << t;
    before = now;
  }
}

TEST(Steinhart_hart, through_three_points_passes_through_them) {
  Random random;
  for (int i = 0; i < cases; ++i) {
    const std::array<double, 3> t = {random.between(230, 260), random.between(270, 310),
                                     random.between(320, 400)};
    const double b = random.between(3000, 4500);
    std::array<double, 3> ohm{};
    for (std::size_t j = 0; j < 3; ++j)
      ohm[j] = beta_resistance(point(t[j]), point(1e4), point(298.15), point(b)).middle() *
               random.between(0.98, 1.02);
    const std::optional<Steinhart_hart> s = steinhart_hart_through(t, ohm);
    ASSERT_TRUE(s);
    for (std::size_t j = 0; j < 3; ++j) ASSERT_NEAR(steinhart_hart_temperature(*s, ohm[j]), t[j], 1e-9);
  }
}

TEST(Steinhart_hart, through_points_that_fix_no_curve_is_empty) {
  const auto through = [](std::array<double, 3> t, std::array<double, 3> ohm) {
    return steinhart_hart_through(t, ohm);
  };
  EXPECT_TRUE(through({273.15, 298.15, 323.15}, {32650, 10000, 3602}));
  EXPECT_FALSE(through({273.15, 273.15, 323.15}, {32650, 10000, 3602}));
  EXPECT_FALSE(through({273.15, 298.15, 273.15}, {32650, 10000, 3602}));
  EXPECT_FALSE(through({273.15, 298.15, 323.15}, {32650, 10000, 10000}));
  EXPECT_FALSE(through({273.15, 298.15, 323.15}, {32650, 10000, 32650}));
  EXPECT_FALSE(through({273.15, 298.15, 323.15}, {32650, 10000, 0}));
  EXPECT_FALSE(through({0, 298.15, 323.15}, {32650, 10000, 3602}));
  EXPECT_FALSE(through({273.15, 298.15, 323.15}, {2, 1, 0.5})); // ln 2 + ln 1 + ln ½ = 0
  EXPECT_FALSE(through({273.15, 298.15, 323.15}, {10, 1, 0.1}));
  EXPECT_FALSE(through({273.15, 298.15, 323.15}, {6, 0.5, 1 / 3.0}));
}

// IEC 60751, formula and coefficients with the decimals themselves, not the doubles nearest to them.
Precise platinum(const Precise& t) {
  Precise inner = Precise("-5.775e-7");
  if (t <= 0) inner = inner + Precise("-4.183e-12") * (t - 100) * t;
  return Precise(1) + t * (Precise("3.9083e-3") + t * inner);
}

TEST(Platinum, resistance_encloses_the_true_value) {
  Random random;
  for (int i = 0; i < cases; ++i) {
    const Interval t = random.interval(-200, 850);
    const Interval r0 = random.interval(99, 101);
    const std::optional<Interval> ohm = platinum_resistance(t, r0);
    ASSERT_TRUE(ohm);
    ASSERT_TRUE(encloses(*ohm, Precise(random.inside(r0)) * platinum(random.inside(t))));
  }
  EXPECT_LT(relative_width(platinum_resistance(point(20), point(1000)).value()), 1e-14);
  EXPECT_LT(relative_width(platinum_resistance(point(-190), point(100)).value()), 1e-14);
  EXPECT_TRUE(platinum_resistance(point(0), point(100)).value().contains(100));
}

TEST(Platinum, resistance_rises_with_temperature) {
  Interval before = platinum_resistance(point(-200), point(100)).value();
  for (double t = -199.99; t < 850; t += 0.01) {
    const Interval now = platinum_resistance(point(t), point(100)).value();
    ASSERT_GT(now.low, before.high) << t;
    before = now;
  }
}

TEST(Platinum, is_empty_outside_its_range) {
  EXPECT_TRUE(platinum_resistance({-200, 850}, point(100)));
  EXPECT_FALSE(platinum_resistance(point(-200.01), point(100)));
  EXPECT_FALSE(platinum_resistance(point(850.01), point(100)));
  EXPECT_FALSE(platinum_resistance({-201, 0}, point(100)));
  EXPECT_FALSE(platinum_resistance({0, 851}, point(100)));
  // The ends written in kelvin still count as the ends.
  EXPECT_TRUE(platinum_resistance(celsius_of({73.15, 1123.15}), point(100)));
  EXPECT_FALSE(platinum_temperature(point(18), point(100)));
  EXPECT_FALSE(platinum_temperature(point(391), point(100)));
  EXPECT_FALSE(platinum_temperature({18, 100}, point(100)));
}

TEST(Platinum, temperature_undoes_resistance) {
  Random random;
  for (int i = 0; i < cases / 10; ++i) {
    const double t = i == 0 ? -200 : i == 1 ? 850 : i == 2 ? 0 : random.between(-200, 850);
    const std::optional<Interval> back =
        platinum_temperature(platinum_resistance(point(t), point(100)).value(), point(100));
    ASSERT_TRUE(back) << t;
    ASSERT_TRUE(back->contains(t)) << t;
    ASSERT_LT(back->width(), 1e-11) << t;
    if (i < 2) continue; // beside the ends of the range there is no temperature
    const double ohm = (Precise(100) * platinum(t)).nearest();
    ASSERT_TRUE(platinum_temperature(widened(point(ohm), 1), point(100)).value().contains(t)) << t;
  }
}

TEST(Polynomial, encloses_the_true_value) {
  Random random;
  for (int i = 0; i < cases; ++i) {
    std::vector<Interval> a;
    double size = 5e-3;
    for (int n = 0; n < 1 + i % 6; ++n, size *= 1e-3) a.push_back(random.interval(-size, size));
    const Interval t = random.interval(-60, 250);
    const Interval r0 = random.interval(90, 110);
    const double at = random.inside(t);
    Precise sum = 0;
    for (std::size_t n = a.size(); n-- > 0;) sum = (sum + random.inside(a[n])) * at;
    ASSERT_TRUE(encloses(polynomial_resistance(t, r0, a), (Precise(1) + sum) * random.inside(r0)));
  }
}

TEST(Polynomial, is_tight_at_one_temperature) {
  // Nickel 100 Ω at 0 °C, DIN 43760 (coefficients from memory): 161.8 Ω at 100 °C.
  const std::array<Interval, 6> nickel = {point(5.485e-3),  point(6.65e-6), point(0),
                                          point(2.805e-11), point(0),       point(-2e-17)};
  const Interval ohm = polynomial_resistance(point(100), point(100), nickel);
  EXPECT_NEAR(ohm.middle(), 161.8, 0.05);
  EXPECT_LT(relative_width(ohm), 1e-14);
  EXPECT_TRUE(polynomial_resistance(point(100), point(47), {}).contains(47));
}

TEST(Polynomial, is_tight_over_a_range_where_it_only_rises) {
  // A silicon sensor, 2 kΩ at 25 °C; the true values at the ends by MPFR.
  const std::array<Interval, 2> silicon = {point(8.337e-3), point(2.249e-5)};
  const auto truth = [&](double t) {
    return Precise(1636) * (Precise(1) + (Precise(silicon[0].low) + Precise(silicon[1].low) * t) * t);
  };
  const Interval ohm = polynomial_resistance({-40, 125}, point(1636), silicon);
  EXPECT_TRUE(encloses(ohm, truth(-40)) && encloses(ohm, truth(125)));
  EXPECT_LT(truth(-40).nearest() - ohm.low, 1e-9);
  EXPECT_LT(ohm.high - truth(125).nearest(), 1e-9);

  // The same where it only falls: 1 - 4e-3 t + 1e-5 t² from 0 to 100 °C is 1 to 0.7.
  const std::array<Interval, 2> falls = {point(-4e-3), point(1e-5)};
  const Interval fell = polynomial_resistance({0, 100}, point(1000), falls);
  EXPECT_NEAR(fell.low, 700, 1e-9);
  EXPECT_NEAR(fell.high, 1000, 1e-9);

  // A parabola that turns inside the range takes its least value there, not at the ends.
  const std::array<Interval, 2> turns = {point(0), point(1e-4)};
  EXPECT_TRUE(polynomial_resistance({-50, 50}, point(100), turns).contains(100));
}

TEST(Copper, encloses_the_true_value) {
  Random random;
  for (int i = 0; i < cases; ++i) {
    const Interval t = random.interval(-40, 200);
    const Interval r = random.interval(0.1, 5000);
    const Interval t_ref = random.interval(0, 40);
    const double k = random.between(220, 240);
    ASSERT_TRUE(encloses(copper_resistance(t, r, t_ref, k), Precise(random.inside(r)) *
                                                                (Precise(k) + random.inside(t)) /
                                                                (Precise(k) + random.inside(t_ref))));
  }
  EXPECT_LT(relative_width(copper_resistance(point(80), point(43), point(20), copper_k)), 1e-14);
}

TEST(Power, resistance_encloses_the_true_value) {
  Random random;
  for (int i = 0; i < cases; ++i) {
    const Interval volt = random.interval(0, 400);
    const Interval watt = random.interval(1, 10000);
    const double v = random.inside(volt);
    const Interval ohm = resistance_from_power(volt, watt);
    ASSERT_TRUE(encloses(ohm, Precise(v) * v / random.inside(watt)));
    ASSERT_GE(ohm.low, 0);
  }
  // 230 V, 2000 W: 26.45 Ω by V²/P.
  EXPECT_TRUE(resistance_from_power(point(230), point(2000)).contains(26.45));
}

}
}
