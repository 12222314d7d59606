// How often a verdict is wrong: simulated jobs whose truth is known.
#include "ohmlore/judge.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>

#include "ohmlore/bands.h"
#include "support/bench.h"
#include "support/cases.h"

namespace ohmlore {
namespace {

using test::Bench;

constexpr int many = test::cases(100'000), some = test::cases(20'000);

struct Job {
  Judge_request request;
  bool healthy = true;
};

// A part, its true resistance, and what an engineer reads of both: nothing that judge is told is the truth.
class Simulation {
public:
  explicit Simulation(bool at_the_limit) : at_the_limit_(at_the_limit) {}

  Job next() {
    Job job;
    job.healthy = chance(0.5);
    const bool sensor = chance(0.6);
    const double kelvin = uniform(278, 308);
    job.request.test = sensor ? "flow" : "coil";
    job.request.temperature = thermometer(kelvin, sensor);
    const double ohm = sensor ? sensor_ohm(kelvin, job.healthy) : coil_ohm(kelvin, job.healthy);
    job.request.reading = shown(ohm);
    return job;
  }

private:
  bool at_the_limit_;
  std::mt19937_64 random_{20263};

  double uniform(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random_);
  }
  bool chance(double p) { return uniform(0, 1) < p; }
  double either_sign() { return chance(0.5) ? 1 : -1; }

  // How far a part is off, in units of its limit: most healthy ones a little, faulty ones anything beyond.
  double off(bool healthy) {
    if (at_the_limit_) return either_sign() * (healthy ? 0.999 : 1.001);
    if (healthy) return either_sign() * (chance(0.8) ? uniform(0, 0.4) : uniform(0.4, 1));
    return either_sign() * (1 + std::exponential_distribution<double>(1)(random_));
  }
  double sensor_ohm(double kelvin, bool healthy) {
    if (!healthy && !at_the_limit_ && chance(0.2)) return chance(0.5) ? 1e9 : uniform(0, 1);
    const double as_warm_as = kelvin + 3 * off(healthy); // its service limit is 3 K
    return 10e3 * std::exp(3977 * (1 / as_warm_as - 1 / 298.15));
  }
  double coil_ohm(double kelvin, bool healthy) {
    if (!healthy && !at_the_limit_ && chance(0.2)) return chance(0.5) ? 1e9 : uniform(0, 1);
    return std::max(0.0, 43 * (1 + 0.05 * off(healthy)) * (234.5 + kelvin - zero_celsius) / 254.5);
  }
  // In error by all that is stated of it.
  Part_temperature thermometer(double kelvin, bool sensor) {
    Part_temperature read;
    read.half_width = chance(0.5) ? 1 : 0.5;
    read.place = sensor && chance(0.3) ? Temperature_place::on_pipe : Temperature_place::on_part;
    double error = uniform(-read.half_width, read.half_width);
    error += read.place == Temperature_place::on_pipe ? uniform(-3, 3) : uniform(-1, 1);
    read.kelvin = std::round((kelvin + error - zero_celsius) * 10) / 10 + zero_celsius;
    return read;
  }
  // Leads of 0.1 to 0.5 Ω that nobody measured, a meter of 0.8 % + 3 counts.
  Reading shown(double ohm) {
    Reading reading;
    const Meter_accuracy meter;
    const double with_leads = ohm + uniform(0.1, 0.5);
    if (with_leads > highest_range(meter)) {
      reading.over_range = true;
      return reading;
    }
    const double step = display_step(meter, with_leads);
    const double error =
        accuracy_half_width(meter, with_leads, step) - step / 2; // the display rounds besides
    reading.ohm = std::max(0.0, std::round((with_leads + uniform(-error, error)) / step) * step);
    reading.half_digit = step / 2;
    return reading;
  }
};

struct Rates {
  std::array<std::array<int, 3>, 2> counts{}; ///< by truth (faulty, healthy) and result
  double rate(bool healthy, Conformity result) const {
    const auto& row = counts[healthy];
    return static_cast<double>(row[static_cast<std::size_t>(result)]) / std::max(1, row[0] + row[1] + row[2]);
  }
};

// Each rule on the same readings.
std::array<Rates, 3> simulate(int jobs, bool at_the_limit, std::span<const Decision_rule> rules) {
  Simulation simulation(at_the_limit);
  const Bench bench;
  std::array<Rates, 3> rates;
  for (int i = 0; i < jobs; ++i) {
    const Job job = simulation.next();
    const Judgement found = bench.of(job.request);
    for (std::size_t rule = 0; rule < rules.size(); ++rule)
      ++rates[rule].counts[job.healthy][static_cast<std::size_t>(decide(found.service.least, rules[rule]))];
  }
  return rates;
}

// A rate of 5 % in n draws has a standard error of √(0.05 · 0.95 / n): four of them are allowed for.
void expect_at_most(double rate, double stated, int of) {
  EXPECT_LE(rate, stated + 4 * std::sqrt(stated * (1 - stated) / of));
}

void check(int jobs, bool at_the_limit, const char* title) {
  constexpr Decision_rule rules[] = {guarded, guarded_acceptance, simple_acceptance};
  const auto rates = simulate(jobs, at_the_limit, rules);
  fmt::print("{} simulated jobs, {}\n{:<20}{:>22}{:>22}{:>22}\n", jobs, title, "rule", "faulty, within",
             "healthy, outside", "too close");
  for (std::size_t i = 0; i < std::size(rules); ++i) {
    const double falsely_within = rates[i].rate(false, Conformity::within);
    const double falsely_outside = rates[i].rate(true, Conformity::outside);
    const double close =
        (rates[i].rate(false, Conformity::too_close) + rates[i].rate(true, Conformity::too_close)) / 2;
    fmt::print("{:<20}{:>13.2f} % (≤{:3.0f} %){:>13.2f} % (≤{:3.0f} %){:>19.1f} %\n", name_of(rules[i]),
               100 * falsely_within, 100 * rules[i].false_acceptance, 100 * falsely_outside,
               100 * rules[i].false_rejection, 100 * close);
    expect_at_most(falsely_within, rules[i].false_acceptance, jobs / 2);
    expect_at_most(falsely_outside, rules[i].false_rejection, jobs / 2);
  }
  // And it is of use: most healthy and most faulty parts are called what they are.
  if (!at_the_limit) {
    EXPECT_GT(rates[0].rate(true, Conformity::within), 0.5);
    EXPECT_GT(rates[0].rate(false, Conformity::outside), 0.4);
  }
}

TEST(Decisions, Are_wrong_no_more_often_than_their_rule_states) {
  check(many, false, "half of the parts faulty");
}

TEST(Decisions, Are_wrong_no_more_often_even_of_parts_at_their_limit) {
  check(some, true, "every part at its limit, just beyond or just within");
}

}
}
