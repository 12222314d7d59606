// Resistance over temperature: models, their bands, and what they mean backwards.
#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "ohmlore/interval.h"

namespace ohmlore {

inline constexpr double zero_celsius = 273.15; ///< kelvin, ITS-90
/// Kelvin to degrees Celsius; encloses the exact value also for the kelvin that the double stands for after
/// rounding (293.15 K encloses 20 °C).
Interval celsius_of(Interval kelvin);

/// Thermistor with constant B: R(T) = R_ref · exp(B (1/T - 1/T_ref)); T in kelvin (> 0), B in kelvin, R in
/// ohm. The band is as narrow as the inputs allow: each of them stands once in the formula. Source: IEC
/// 60539-1, definition of the B-value.
Interval beta_resistance(Interval t_kelvin, Interval r_ref, Interval t_ref_kelvin, Interval b_kelvin);
/// The same backwards: the temperature in kelvin that a resistance (> 0) means. Empty where 1/T is not surely
/// positive: the resistance is then too low for any temperature (a short circuit).
std::optional<Interval> beta_temperature(Interval ohm, Interval r_ref, Interval t_ref_kelvin,
                                         Interval b_kelvin);

/// The B that two points give: ln(R1/R2) / (1/T1 - 1/T2), in kelvin. R must be positive, and the intervals
/// T1 and T2 must not touch (where they do, the result is the whole line). Source: IEC 60539-1.
Interval b_between(Interval r1, Interval t1_kelvin, Interval r2, Interval t2_kelvin);

/// B of a bare metal-oxide thermistor between any two temperatures, in kelvin. Makers offer 2000 K to 6000 K
/// (two makers' pages, read), and the published tables that the tests read lie between 2976 K and 4339 K from
/// 5 K to 5 K: outside of `usual_b` doubt, outside of `possible_b` none exists.
inline constexpr Interval usual_b = {2000, 6000};
inline constexpr Interval possible_b = {1000, 8000};
/// By how much that B grows with temperature, in kelvin per kelvin. The published tables of TDK/EPCOS, Murata
/// and Campbell Scientific that the tests read have 0.8 to 7.7 in steps of 20 K, and 1.6 to 5.4 between -20
/// °C and 110 °C.
inline constexpr Interval b_drift = {-3, 9};

/// Steinhart and Hart (1968): 1/T = a + b ln R + c (ln R)^3, with R in ohm, T in kelvin.
struct Steinhart_hart {
  double a = 0, b = 0, c = 0; ///< K^-1
};
/// Temperature in kelvin at a resistance in ohm (> 0).
double steinhart_hart_temperature(const Steinhart_hart& coefficients, double ohm);
/// Resistance in ohm at a temperature in kelvin (> 0), to double precision. Empty where not exactly one ln R
/// has this temperature and a positive slope of the cubic there (1/T grows with ln R, as in every NTC).
std::optional<double> steinhart_hart_resistance(const Steinhart_hart& coefficients, double t_kelvin);
/// The coefficients through three points (kelvin, ohm), in any order. Empty where two points share
/// a temperature or a resistance, where one is not positive, or where ln R1 + ln R2 + ln R3 = 0 (no unique
/// fit).
std::optional<Steinhart_hart> steinhart_hart_through(std::span<const double, 3> t_kelvin,
                                                     std::span<const double, 3> ohm);

/// Platinum after IEC 60751: R(t) = R0 (1 + A t + B t² + C (t - 100) t³), C only below 0 °C; t in °C, R0 in
/// ohm. A = 3.9083e-3, B = -5.775e-7, C = -4.183e-12. Defined from -200 °C to 850 °C; empty where `t_celsius`
/// reaches outside (by more than 1e-9 K, so that rounding a temperature does not matter). As narrow as the
/// inputs allow: R rises over the whole range. R0 must be positive.
std::optional<Interval> platinum_resistance(Interval t_celsius, Interval r0);
/// The same backwards, in °C. Empty where `ohm` reaches outside of what -200 °C to 850 °C can give.
std::optional<Interval> platinum_temperature(Interval ohm, Interval r0);

enum class Rtd_class : std::uint8_t { aa, a, b, c };
/// Tolerance of a class in kelvin at t: ±(a + b |t|), IEC 60751:2008 table 3 (t in °C; the number of the
/// table from memory).
double rtd_class_tolerance(Rtd_class accuracy, double t_celsius);
/// Where the class holds for wire-wound and for film resistors, in °C (IEC 60751:2008; the film range of
/// class C is from memory).
struct Rtd_class_range {
  double wire_low, wire_high, film_low, film_high;
};
Rtd_class_range rtd_class_range(Rtd_class accuracy);

/// R(t) = R0 (1 + a1 t + … + a6 t⁶), t in °C, coefficients from a1 on; nickel and non-standard platinum.
/// As narrow as one t and one R0 allow where the curve surely rises, or surely falls, over the whole range;
/// elsewhere it encloses, but wider than needed, as t stands in it many times.
Interval polynomial_resistance(Interval t_celsius, Interval r0, std::span<const Interval> coefficients);

/// A metal winding at another temperature: R2 = R1 (k + t2) / (k + t1); t in °C, k = 234.5 (IEC 60335-1) or
/// 235 (IEC 60034-1) for copper. k + t must be positive. As narrow as the inputs allow.
Interval copper_resistance(Interval t_celsius, Interval r_ref, Interval t_ref_celsius, double k);
inline constexpr double copper_k = 234.5;
inline constexpr double aluminium_k = 225; ///< from memory
/// As far as k may lie from these. Winding wire is annealed, of 100 to 101 % of the conductivity of IEC 60028
/// (common practice, no source): 1/(0.00393 · 1.01) - 20 = 231.9; 235 is that of IEC 60034-1. Conductors of
/// aluminium have 0.00403 per K at 20 °C, 228.1 (from memory).
inline constexpr Interval possible_copper_k = {231.9, 235}, possible_aluminium_k = {225, 229};

/// R = V²/P of a resistive element, in ohm; V must not be negative, P must be positive.
Interval resistance_from_power(Interval volt, Interval watt);

}
