// Resistance over temperature: models, their bands, and what they mean backwards.
#pragma once

#include <cstdint>
#include <optional>
#include <span>

namespace ohmlore {

/// A closed interval. Bounds are widened outward, so that the true value is surely inside.
struct Interval {
  double low = 0;
  double high = 0;
  constexpr bool contains(double x) const { return low <= x && x <= high; }
  constexpr bool contains(Interval inner) const { return low <= inner.low && inner.high <= high; }
  constexpr bool overlaps(Interval other) const { return low <= other.high && other.low <= high; }
  constexpr double width() const { return high - low; }
  constexpr double middle() const { return low + (high - low) / 2; }
};

/// `x` widened by `ulps` units in the last place on both sides.
Interval widened(Interval x, int ulps);
Interval operator+(Interval a, Interval b);
Interval operator-(Interval a, Interval b);
Interval operator*(Interval a, Interval b);
/// Division; `b` must not contain zero.
Interval operator/(Interval a, Interval b);
/// e^x and ln x (x > 0), each widened by the stated error bound of the C library function (2 ulp assumed, twice
/// the bound that glibc states in its manual, "Known Maximum Errors in Math Functions").
Interval exp(Interval x);
Interval log(Interval x);
/// The smallest interval that holds both.
Interval hull(Interval a, Interval b);

inline constexpr double zero_celsius = 273.15; ///< kelvin, ITS-90
inline constexpr double absolute_zero_celsius = -273.15;

/// Thermistor with constant B: R(T) = R_ref · exp(B (1/T - 1/T_ref)); T in kelvin, B in kelvin, R in ohm.
/// Source: IEC 60539-1, definition of the B-value.
Interval beta_resistance(Interval t_kelvin, Interval r_ref, Interval t_ref_kelvin, Interval b_kelvin);

/// The B that two points give: ln(R1/R2) / (1/T1 - 1/T2), in kelvin. T1 and T2 must differ, R must be positive.
/// Source: IEC 60539-1.
Interval b_between(Interval r1, Interval t1_kelvin, Interval r2, Interval t2_kelvin);

/// Steinhart and Hart (1968): 1/T = a + b ln R + c (ln R)^3, with R in ohm, T in kelvin.
struct Steinhart_hart {
  double a = 0, b = 0, c = 0; ///< K^-1
};
/// Temperature in kelvin at a resistance in ohm (> 0).
double steinhart_hart_temperature(const Steinhart_hart& coefficients, double ohm);
/// Resistance in ohm at a temperature in kelvin; empty where the cubic has no single positive-slope solution.
std::optional<double> steinhart_hart_resistance(const Steinhart_hart& coefficients, double t_kelvin);
/// The coefficients through three points (kelvin, ohm); empty where two coincide.
std::optional<Steinhart_hart> steinhart_hart_through(std::span<const double, 3> t_kelvin,
                                                     std::span<const double, 3> ohm);

/// Platinum after IEC 60751: R(t) = R0 (1 + A t + B t² + C (t - 100) t³), C only below 0 °C; t in °C, R0 in ohm.
/// A = 3.9083e-3, B = -5.775e-7, C = -4.183e-12. Defined from -200 °C to 850 °C; empty outside.
std::optional<Interval> platinum_resistance(Interval t_celsius, Interval r0);

enum class Rtd_class : std::uint8_t { aa, a, b, c };
/// Tolerance of a class in kelvin at t: ±(a + b |t|), IEC 60751:2008 table 5 (t in °C).
double rtd_class_tolerance(Rtd_class accuracy, double t_celsius);
/// Where the class holds for wire-wound and for film resistors, in °C (IEC 60751:2008; the film range of
/// class C is from memory).
struct Rtd_class_range {
  double wire_low, wire_high, film_low, film_high;
};
Rtd_class_range rtd_class_range(Rtd_class accuracy);

/// R(t) = R0 (1 + a1 t + … + a6 t⁶), t in °C; nickel and non-standard platinum.
Interval polynomial_resistance(Interval t_celsius, Interval r0, std::span<const double> coefficients);

/// A metal winding at another temperature: R2 = R1 (k + t2) / (k + t1); t in °C, k = 234.5 (IEC 60335-1) or 235
/// (IEC 60034-1) for copper. k + t must be positive.
Interval copper_resistance(Interval t_celsius, Interval r_ref, Interval t_ref_celsius, double k);
inline constexpr double copper_k = 234.5;
inline constexpr double aluminium_k = 225; ///< from memory

/// R = V²/P of a resistive element, in ohm; P must be positive.
Interval resistance_from_power(Interval volt, Interval watt);

}
