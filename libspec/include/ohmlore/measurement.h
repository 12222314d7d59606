// Measurement uncertainty, and whether a measured value conforms with limits.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "ohmlore/physics.h"
#include "ohmlore/words.h"

namespace ohmlore {

/// How a quantity may lie around its estimate.
enum class Distribution : std::uint8_t {
  rectangular, ///< anywhere within ± half_width alike: u = a/√3 (JCGM 100, 4.3.7)
  triangular,  ///< within ± half_width, near the middle more often: u = a/√6 (JCGM 100, 4.3.9)
  normal       ///< `half_width` is the standard uncertainty itself
};

/// One deviation from an estimate, around zero; half_width >= 0.
struct Deviation {
  double half_width = 0;
  Distribution shape = Distribution::rectangular;
};
double standard_uncertainty(const Deviation& deviation);
/// The root of the sum of squares (JCGM 100, 5.1.2), all sensitivities 1.
double combined_uncertainty(std::span<const Deviation> independent);

/// P(X <= x) where X is the sum of independent deviations. What the Monte Carlo method of JCGM 101 estimates,
/// computed: up to six rectangles exactly, what is narrower than 3 % of the whole as a normal distribution of
/// the same variance. Absolute error below 1e-9 where no more than six count, below 2e-3 elsewhere.
double probability_below(double x, std::span<const Deviation> independent);

/// Where a value lies, as probabilities that add up to 1.
struct Conformity_probability {
  double below = 0, within = 0, above = 0;
};
/// Of a value that was estimated with these deviations, beside limits; one of them may be infinite. With one
/// normal deviation: JCGM 106, 7.3 and 7.4.
Conformity_probability conformity(double estimate, std::span<const Deviation> independent, Interval limits);

// clang-format off
#define OHMLORE_CONFORMITIES(word) \
  word(within, "Within the limits, as surely as the decision rule asks.") \
  word(outside, "Beyond a limit, as surely as the decision rule asks.") \
  word(too_close, "Neither can be said with these means.")
// clang-format on
OHMLORE_ENUM(Conformity, OHMLORE_CONFORMITIES)

/// What is accepted as the probability of a wrong decision (JCGM 106, 8).
struct Decision_rule {
  double false_acceptance = 0.05; ///< 0 to 0.5: `within` where it is at least 1 minus this probable
  double false_rejection =
      0.05; ///< `outside` where one limit is passed with at least 1 minus this probability
  friend bool operator==(const Decision_rule&, const Decision_rule&) = default;
};
/// The rule where none is named: 5 % on both sides of a limit.
inline constexpr Decision_rule guarded = {0.05, 0.05};
/// JCGM 106, 8.3.2: a guard band inside the limits only; what lies beyond a limit is `outside`.
inline constexpr Decision_rule guarded_acceptance = {0.05, 0.5};
/// JCGM 106, 8.2: the likelier side. At a limit every second decision is wrong.
inline constexpr Decision_rule simple_acceptance = {0.5, 0.5};
/// "guarded", "guarded_acceptance" or "simple"; a rule of other numbers is "stated".
std::string_view name_of(const Decision_rule& rule);

Conformity decide(const Conformity_probability& probable, const Decision_rule& rule);

/// A meter's accuracy as its maker states it: ±(share of the reading + counts of the last digit).
struct Meter_accuracy {
  double of_reading = 0.008; ///< 1 for 100 %
  double counts = 3;
  double display_counts = 6000; ///< how many steps its display has
};
/// Half of the width that a reading may be off either way, in the unit of the reading and its step.
inline double accuracy_half_width(const Meter_accuracy& meter, double reading, double step) {
  return meter.of_reading * (reading < 0 ? -reading : reading) + meter.counts * step;
}
/// The last digit in ohm of a reading in ohm: ranges are decades of the display, 600.0 Ω to 60.00 MΩ of one
/// with 6000 counts (common practice, no source).
double display_step(const Meter_accuracy& meter, double ohm);
/// Where its highest range ends, in ohm.
double highest_range(const Meter_accuracy& meter);

/// Reads "0.8%+3", "±(0.8 % + 3)", "0.8 % + 3 digits", each also with "of 2000" behind for a display of
/// that many counts. Empty where it is none; `problem` then says why.
std::optional<Meter_accuracy> parse_meter(std::string_view text, std::string& problem);

}
