// The curves that are fitted: ln R over the temperature.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "ohmlore/physics.h"
#include "ohmlore/words.h"

namespace ohmlore {

/// ln R (R in ohm) at one temperature, and how it changes.
struct Curve_value {
  double log_ohm = 0;
  double per_kelvin = 0;
  std::array<double, 3> by_parameter{};
};

class Fit_curve {
public:
  /// `middle` is an ln R about which the readings lie. With `bent`, a curve whose shape is known gets one
  /// more parameter, a change of ln R with temperature: to see whether the readings ask for it.
  Fit_curve(Model_kind kind, double reference_kelvin, double middle, bool bent = false);

  std::size_t parameters() const;
  /// Empty where the parameters make no curve there.
  std::optional<Curve_value> at(std::span<const double> parameters, double kelvin) const;
  /// Parameters to begin with: from readings (kelvin and ln R) of all specimens together.
  std::optional<std::vector<double>> start(std::span<const double> kelvin,
                                           std::span<const double> log_ohm) const;
  /// Specimens of a thermistor differ in this times a constant (their B), beside a factor.
  double specimen_slope(double kelvin) const { return 1 / kelvin - 1 / reference_; }

  /// The coefficients of a steinhart_hart curve, and how each changes with each parameter.
  Steinhart_hart coefficients(std::span<const double> parameters) const;
  std::array<std::array<double, 3>, 3> coefficients_by_parameter() const;

private:
  std::array<double, 3> basis(double log_ohm) const;
  Model_kind kind_;
  double reference_, middle_;
  bool bent_;
};

}
