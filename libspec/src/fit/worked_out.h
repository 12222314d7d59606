// A fit in the making: what its parts hand to each other.
#pragma once

#include <cmath>

#include "fit/regression.h"
#include "ohmlore/fit.h"

namespace ohmlore {

/// How far a value may be off, as a share of the resistance: bounds, not standard uncertainties.
struct Measurement_bounds {
  double meter = 0, leads = 0, rounding = 0, thermometer = 0;
  /// Were all of them off alike for all readings.
  double all() const { return meter + leads + thermometer; }
};
/// Of a resistance (leads subtracted) that changes by `per_kelvin` of itself; `half_digit` is 0 where nothing
/// was written.
Measurement_bounds measurement_bounds(const Fit_means& means, double ohm, double per_kelvin,
                                      double half_digit = 0);

/// A curve of one more parameter, which fits better than chance would.
struct Curve_beside {
  Fit_curve curve;
  std::vector<double> parameters;
};

struct Worked_fit {
  Fit_curve curve;
  Regression regression;
  /// The same with a B of each specimen's own, for how far they differ; empty where it cannot be found.
  std::optional<Regression> apart;
  std::vector<Observation> observations;
  std::size_t specimens = 1;
  double reference = 0; ///< kelvin
  Interval kelvin;      ///< over which was measured
  Fit_means means;
  /// Not taken where the instruments can make it; parts may lie on it all the same.
  std::optional<Curve_beside> beside = std::nullopt;

  /// ln R of the mean specimen.
  double log_ohm(double t) const { return curve.at(regression.curve, t).value_or(Curve_value{}).log_ohm; }
  double per_kelvin(double t) const {
    return curve.at(regression.curve, t).value_or(Curve_value{}).per_kelvin;
  }
  /// Standard deviation of the specimens' ln R at a temperature; 0 for one.
  double spread(double t) const;
  /// Standard deviation of the specimens' B in kelvin; 0 where they were not told apart.
  double spread_of_slopes() const;
  /// How far Σ weight · parameter may move, each reading off by so much in whichever direction moves it most.
  double moved_at_most(const Regression& by, std::span<const double> weights,
                       std::span<const double> off) const;
  /// The same where meter, leads, thermometer and rounding are as far off as they may be: specimens in one
  /// bath share its error, which an F test does not know.
  double moved_by_instruments(const Regression& by, std::span<const double> weights) const;
  /// How far the rounding of readings and temperatures may move ln R of the mean specimen.
  double rounding(double t) const;
  /// How far meter, leads and thermometer may move Σ weight · parameter, each off alike for all readings.
  std::vector<double> moved_alike(const Regression& by, std::span<const double> weights) const;
  /// And ln R of the mean specimen in all: of a curve whose shape is known as much as elsewhere, where a
  /// kelvin is more of it.
  double moved_alike_at(double t) const;
  /// How far the curve beside lies from this one, in ln R; 0 where there is none.
  double bend(double t) const;
  /// Of Σ weight · parameter, where all that was read at one temperature (in one bath) shares its error.
  double variance_by_baths(std::span<const double> weights) const;
  /// Half of the 95 % interval of Σ weight · parameter of the curve. `spread` is that of the same among the
  /// specimens.
  double expanded_uncertainty(std::span<const double> weights, double spread_among_specimens) const;
};

/// The statistical tolerance interval widened by what the measurement may be off, as half-widths of ln R at
/// each of these temperatures (see spec/v1/fitting.md).
struct Tolerance_at {
  double kelvin = 0;
  double spread = 0, measurement = 0;
  double half_width = 0; ///< factor · spread + measurement
};
std::vector<Tolerance_at> tolerances(const Worked_fit& work, double factor);
struct Off_kelvin {
  double kelvin = 0, half_width = 0;
};
/// How far parts of platinum may be off where that is most beyond class C, or leaves it least. The class is
/// narrowest at 0 °C, and the tolerance mostly widest in the cold.
Off_kelvin most_beyond_class_c(const Worked_fit& work, double factor, double nominal);
/// The tolerance to be stated, for a nominal as it is written. Empty where none can be claimed.
std::optional<Fit_tolerance> tolerance_of(const Worked_fit& work, Model_kind model, double nominal);
/// Up to two digits, never less: 0.01834 is 0.019.
double rounded_up(double share);

/// Whether a curve of known shape, bent a little, would fit significantly better; and by how much R then
/// changes per kelvin at the reference.
struct Bend {
  double probability = 1; ///< that chance alone fits so much better
  double per_kelvin = 0, of_model = 0;
  double explained = 0; ///< how far the instruments may move the slope
  std::optional<Curve_beside> curve;
  bool is_real() const;
};
std::optional<Bend> bend_of(const Worked_fit& work, Model_kind model);

/// Whether the third coefficient of a Steinhart-Hart fit is more than the instruments can make it.
bool third_coefficient_is_real(const Worked_fit& hart);
/// Whether the mean square of the residuals is above that of the bounds (√3 u) of what was measured, which no
/// error within these explains.
bool scatters_beyond_bounds(const Regression& regression);

/// F test of a curve with more parameters: how probable it is that chance alone fits so much better.
double chance_of_gain(const Regression& less, const Regression& more);

/// Writes Fit::part from all else. What the words of the request make unreadable in it; empty where all is
/// good.
std::string write_part(Fit& fit);

}
