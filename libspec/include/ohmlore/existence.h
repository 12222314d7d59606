// Whether one part can keep several stated bands at once, and the two or three bands that prove it where none
// can. A clash that is reported is sure, whatever was rounded.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "ohmlore/physics.h"

namespace ohmlore {

/// What a curve must pass: at some x of `x` its y lies within `y`. For thermistors x = 1/T in K^-1 and
/// y = ln R (R in ohm), so that the slope is the B-value in kelvin.
struct Gate {
  Interval x, y;
};
/// Of a temperature in kelvin (> 0) and a resistance in ohm (>= 0).
Gate thermistor_gate(Interval kelvin, Interval ohm);

enum class Slope_clash : std::uint8_t { none, too_flat, too_steep };
/// Whether every curve through two gates leaves the slope limits: (y1 - y2) and slope · (x1 - x2) must share
/// a number.
Slope_clash slope_clash(const Gate& a, const Gate& b, Interval slope);

/// Two gates that no curve passes whose slope keeps within `slope` everywhere; empty where there is none.
///
/// Two are enough. Let every two gates have a curve between them, each gate at one x: then
/// f(x) = max over i of (y_i.low + least change from x_i to x) is a curve through all of them, least change
/// being slope.low · (x - x_i) to the right and slope.high · (x - x_i) to the left: f keeps the slopes as
/// each of its branches does, f(x_i) >= y_i.low, and f(x_i) <= y_i.high because the pair (i, j) has a curve
/// (McShane 1934, extension of Lipschitz functions).
std::optional<std::pair<std::size_t, std::size_t>> impossible_pair(std::span<const Gate> gates,
                                                                   Interval slope);

/// Two or three gates that no straight line passes whose slope is within `slope` (finite); empty where there
/// is none. In the plane of intercept and slope each gate is a convex strip, and so are the limits: by
/// Helly's theorem (1923) three of them prove it, two gates and the limits, or three gates. Of three, the
/// middle one lies wholly above or below every line through the two others. A gate with a range of x is
/// widened in y by what the slope makes of it.
std::optional<std::vector<std::size_t>> impossible_line(std::span<const Gate> gates, Interval slope);

/// Two intervals that no number is in, as a part with one free parameter must have (Helly on a line); empty
/// where one number is in all.
std::optional<std::pair<std::size_t, std::size_t>> impossible_value(std::span<const Interval> intervals);

}
