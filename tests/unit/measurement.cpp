// Uncertainty and conformity, against the published examples.
#include "ohmlore/measurement.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ohmlore {
namespace {

double normally(double y, double u, Interval limits) {
  const Deviation one[] = {{u, Distribution::normal}};
  return conformity(y, one, limits).within;
}

// JCGM 106:2012, as collected in the reference data (inputs of 7.4 read, the rest from memory).
TEST(Measurement, Reproduces_the_examples_of_jcgm_106) {
  EXPECT_NEAR(normally(-5.47, 0.05, {-infinity, -5.4}), 0.92, 0.005) << "7.3.3, example 1: a Zener diode";
  EXPECT_NEAR(normally(509.7, 8.6, {490, infinity}), 0.99, 0.005) << "7.3.3, example 2: a container";
  EXPECT_NEAR(normally(13.6, 1.8, {12.5, 16.3}), 0.66, 0.005) << "7.4: a kinematic viscosity";
  EXPECT_NEAR(normally(-5.47, 0.05, {-infinity, -5.4}), 0.9192, 5e-5);
  EXPECT_NEAR(normally(509.7, 8.6, {490, infinity}), 0.9890, 5e-5);
  EXPECT_NEAR(normally(13.6, 1.8, {12.5, 16.3}), 0.6626, 5e-5);
}

// JCGM 106:2012, 9.5.4 (from memory, recomputed): resistors of 1500 Ω ± 0.2 Ω, process σ 0.12 Ω around 1500
// Ω, measured with u = 0.04 Ω, accepted from 1499.82 to 1500.18: consumer's risk 0.0099, producer's 0.0690.
TEST(Measurement, Reproduces_the_risks_of_jcgm_106) {
  const Deviation meter[] = {{0.04, Distribution::normal}};
  const Interval tolerance = {1499.8, 1500.2}, acceptance = {1499.82, 1500.18};
  double consumer = 0, producer = 0;
  const double step = 1e-4;
  for (double value = 1499; value <= 1501; value += step) {
    const double z = (value - 1500) / 0.12;
    const double density = std::exp(-z * z / 2) / (0.12 * std::sqrt(2 * M_PI));
    const double accepted = conformity(value, meter, acceptance).within;
    if (tolerance.contains(value))
      producer += density * (1 - accepted) * step;
    else
      consumer += density * accepted * step;
  }
  EXPECT_NEAR(consumer, 0.0099, 5e-5);
  EXPECT_NEAR(producer, 0.0690, 5e-5);
}

// JCGM 100 (GUM) 4.3.7, the voltmeter (from memory, recomputed): 14e-6 of the reading 0.928571 V and 2e-6 of
// the 1 V range: a = 15 µV, u = 8.7 µV.
TEST(Measurement, Reproduces_the_voltmeter_of_the_gum) {
  const double a = accuracy_half_width({14e-6, 2, 1}, 0.928571, 1e-6);
  EXPECT_NEAR(a, 15e-6, 0.5e-6);
  EXPECT_NEAR(standard_uncertainty({a, Distribution::rectangular}), 8.7e-6, 0.05e-6);
  // 4.3.9: a triangle of the same width has u = a/√6.
  EXPECT_NEAR(standard_uncertainty({a, Distribution::triangular}), a / std::sqrt(6.0), 1e-12);
}

// Meter notation, examples of makers' pages (read, recomputed).
TEST(Measurement, Reproduces_the_examples_of_meter_notation) {
  EXPECT_NEAR(accuracy_half_width({0.0008, 2, 0}, 2.000, 0.001), 0.0036, 1e-12);
  EXPECT_NEAR(accuracy_half_width({0.005, 3, 0}, 2.000, 0.001), 0.013, 1e-12);
  EXPECT_NEAR(accuracy_half_width({0.01, 2, 0}, 100.0, 0.1), 1.2, 1e-12);
  EXPECT_NEAR(accuracy_half_width({0.02, 3, 0}, 5.02, 0.01), 0.1304, 1e-12);
}

TEST(Measurement, Ranges_are_decades_of_the_display) {
  const Meter_accuracy meter;
  EXPECT_DOUBLE_EQ(display_step(meter, 42.1), 0.1);
  EXPECT_DOUBLE_EQ(display_step(meter, 600), 0.1);
  EXPECT_DOUBLE_EQ(display_step(meter, 601), 1);
  EXPECT_DOUBLE_EQ(display_step(meter, 15250), 10);
  EXPECT_DOUBLE_EQ(highest_range(meter), 60e6);
  EXPECT_DOUBLE_EQ(display_step({0.008, 3, 2000}, 15250), 10);
  EXPECT_DOUBLE_EQ(highest_range({0.008, 3, 2000}), 20e6);
  // 1000 counts end at 100.0 Ω, and at 10.00 MΩ.
  EXPECT_DOUBLE_EQ(display_step({0.008, 3, 1000}, 50), 0.1);
  EXPECT_DOUBLE_EQ(highest_range({0.008, 3, 1000}), 10e6);
}

TEST(Measurement, Reads_meter_notation) {
  std::string problem;
  for (const char* text : {"0.8%+3", "0.8 % + 3", "±(0.8 % + 3)", "±0.8%+3", "(0.8%+3dgt)", "0.8% + 3 digits",
                           "0.8 % + 3 counts of 6000", "±(0.8 % + 3) of 6000 counts"}) {
    const auto meter = parse_meter(text, problem);
    ASSERT_TRUE(meter) << text << ": " << problem;
    EXPECT_DOUBLE_EQ(meter->of_reading, 0.008) << text;
    EXPECT_EQ(meter->counts, 3) << text;
    EXPECT_EQ(meter->display_counts, 6000) << text;
  }
  EXPECT_EQ(parse_meter("0.5%+2 of 2000", problem)->display_counts, 2000);
  // The ends of what is taken for a meter (common practice, no source), those of a corpus (format.md, meter).
  for (const char* text : {"0 % + 0", "20 % + 1000", "1 % + 1 of 100", "0.01 % + 4 of 10000000"})
    EXPECT_TRUE(parse_meter(text, problem)) << text << ": " << problem;
  for (const char* text : {"20.1 % + 3", "1 % + 1001", "1 % + 1 of 99", "1 % + 1 of 10000001"})
    EXPECT_FALSE(parse_meter(text, problem)) << text;
  for (const char* text : {"", "0.8%", "0.8%+", "0.8% + counts", "0.8+3", "3+0.8%", "0.8%+3.5", "0.8%+x",
                           "-1%+3", "30%+3", "0.8%+3 of 9", "0.8%+3 of", "0.8 % + 3 volts", "good"}) {
    problem.clear();
    EXPECT_FALSE(parse_meter(text, problem)) << text;
    EXPECT_NE(problem.find("0.8 % + 3"), std::string::npos) << text;
  }
}

// What is known of sums in closed form.
TEST(Measurement, Adds_distributions) {
  const auto r = [](double a) { return Deviation{a, Distribution::rectangular}; };
  const auto below = [](double x, std::vector<Deviation> parts) { return probability_below(x, parts); };
  EXPECT_DOUBLE_EQ(below(0.5, {r(1)}), 0.75);
  EXPECT_DOUBLE_EQ(below(1, {r(1)}), 1);
  EXPECT_DOUBLE_EQ(below(-1.5, {r(1)}), 0);
  // Two equal rectangles are a triangle: P(X <= -1) = 1/8 for ±1 each.
  EXPECT_NEAR(below(-1, {r(1), r(1)}), 0.125, 1e-12);
  EXPECT_NEAR(below(-1, {{2, Distribution::triangular}}), 0.125, 1e-12);
  // Three of them, Irwin and Hall: P(X <= -2) = 1/48.
  EXPECT_NEAR(below(-2, {r(1), r(1), r(1)}), 1.0 / 48, 1e-12);
  // Normal deviations add in squares.
  EXPECT_NEAR(below(5, {{3, Distribution::normal}, {4, Distribution::normal}}), 0.8413447460685429, 1e-12);
  // Symmetric, and a mere trace changes nothing.
  for (const double x : {0.1, 0.7, 1.3, 2.1}) {
    const std::vector<Deviation> parts = {r(1), r(0.4), r(0.1), {0.3, Distribution::normal}, r(0.05)};
    EXPECT_NEAR(below(x, parts) + below(-x, parts), 1, 1e-11) << x;
    EXPECT_NEAR(below(x, {r(1), r(1e-9), {1e-9, Distribution::normal}}), below(x, {r(1)}), 1e-7) << x;
  }
  // A small rectangle beside a large one is no normal deviation: a trapezoid has sharp ends.
  EXPECT_NEAR(below(-1.1, {r(1), r(0.15)}), 0.05 * 0.05 / (8 * 0.15), 1e-12);
  // Eight of them, Irwin and Hall: P(X <= -2) = (3^8 - 8 · 2^8 + 28) / 8! = 4541 / 40320. Those that are too
  // many to be integrated count as normal.
  EXPECT_NEAR(below(-2, std::vector(8, r(1))), 4541.0 / 40320, 1e-3);
  // Far out in the tail (Abramowitz and Stegun, table 26.2: 1 - P(5) = 2.866516e-7).
  EXPECT_NEAR(below(-5, {{1, Distribution::normal}}), 2.866516e-7, 5e-14);
  EXPECT_EQ(below(infinity, {r(1)}), 1);
  EXPECT_EQ(below(-infinity, {r(1)}), 0);
}

TEST(Measurement, Decides_on_the_side_that_is_probable_enough) {
  EXPECT_EQ(decide({0.05, 0.95, 0}, guarded), Conformity::within);
  EXPECT_EQ(decide({0.06, 0.94, 0}, guarded), Conformity::too_close);
  EXPECT_EQ(decide({0.95, 0.05, 0}, guarded), Conformity::outside);
  EXPECT_EQ(decide({0.94, 0.06, 0}, guarded), Conformity::too_close);
  EXPECT_EQ(decide({0.94, 0.06, 0}, guarded_acceptance), Conformity::outside);
  EXPECT_EQ(decide({0.06, 0.94, 0}, guarded_acceptance), Conformity::too_close);
  EXPECT_EQ(decide({0.4, 0.6, 0}, simple_acceptance), Conformity::within);
  EXPECT_EQ(decide({0.6, 0.4, 0}, simple_acceptance), Conformity::outside);
  // A band much narrower than the uncertainty: it is nowhere probable, and on neither side of it surely.
  EXPECT_EQ(decide({0.48, 0.02, 0.5}, guarded), Conformity::too_close);
  EXPECT_EQ(decide({0.45, 0.1, 0.45}, simple_acceptance), Conformity::too_close);
  // Nothing uncertain, and on the limit.
  EXPECT_EQ(decide(conformity(5, {}, {5, 6}), guarded), Conformity::within);
  EXPECT_EQ(decide(conformity(6, {}, {5, 6}), guarded), Conformity::within);
  EXPECT_EQ(decide(conformity(4.99, {}, {5, 6}), guarded), Conformity::outside);
  EXPECT_EQ(decide(conformity(6.01, {}, {5, 6}), guarded), Conformity::outside);
}

}
}
