// Least squares with both variables uncertain: orthogonal distance regression.
#pragma once

#include <cmath>

#include "fit/curves.h"
#include "fit/solve.h"

namespace ohmlore {

/// A share of a resistance, 0 where it is no more than what is left of the digits of a double.
inline double without_noise(double share) { return std::fabs(share) < 1e-10 ? 0 : share; }

/// A reading as the regression takes it; the uncertainties are standard ones, of independent deviations.
struct Observation {
  std::size_t specimen = 0;
  double kelvin = 0, log_ohm = 0;
  double u_kelvin = 0, u_log = 0;
  /// Half of the last digit written: of ln R where it is coarser than the display, and of the temperature.
  double rounding_log = 0, rounding_kelvin = 0;
  double resolution_log = 0; ///< half of the coarser of the last digits written and displayed
};

/// Each specimen is the common curve times a factor of its own; with `own_slopes` also with a B of its own.
/// Factors and slopes are around their mean, so that the curve is that of the mean specimen.
struct Regression {
  std::vector<double> curve;             ///< parameters of the Fit_curve
  std::vector<double> factors, slopes;   ///< by specimen: ln of the factor, and kelvin; slopes may be empty
  std::vector<double> residuals;         ///< by reading, in ln R: as seen from its temperature as written
  std::vector<double> variances;         ///< of each residual: u_log² + (slope · u_kelvin)²
  std::vector<double> resolutions;       ///< of each variance, what rounding alone makes
  std::vector<double> slopes_at;         ///< d ln R/dT at each reading
  std::vector<double> leverages;         ///< 0 to 1: how far each reading determines its own residual
  double chi_square = 0;                 ///< Σ residual² / variance
  std::size_t freedom = 0;               ///< readings less parameters
  Matrix covariance;                     ///< of all parameters, where the deviations are as stated
  std::vector<std::vector<double>> rows; ///< derivatives of each reading by all parameters

  /// How far all parameters move where each ln R is off by so much.
  std::vector<double> moved_by(std::span<const double> off) const;
  /// ln R of a specimen over the mean one's, at a temperature.
  double specimen_off(const Fit_curve& curve, std::size_t specimen, double kelvin) const;
};

/// Empty where the readings do not determine the curve.
std::optional<Regression> regress(const Fit_curve& curve, std::span<const Observation> observations,
                                  std::size_t specimens, bool own_slopes);

}
