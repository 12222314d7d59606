// The grammar: text into its pieces, or where and why it stops.
#pragma once

#include "ohmlore/quantity.h"
#include "units/exact.h"
#include "units/table.h"

#include <optional>
#include <string_view>

namespace ohmlore::units {

/// Why a text is refused, in more detail than Unit_problem::Kind.
enum class Fault : std::uint8_t {
  no_number,
  unit_missing,
  unit_unknown,
  unit_of_other_dimension,
  prefix_not_used, ///< millikelvin as a temperature
  exponent,        ///< where none may stand
  too_many_digits,
  out_of_reach,
  below_absolute_zero,
  left_over,
  code_with_point,     ///< "15.25k"
  code_with_tolerance, ///< "4K7K"
  one_sided,           ///< "+10 %"
  same_sign_twice,     ///< "+10 % +5 %"
  sides_differ,        ///< "+10 % -2 Ω"
  ends_differ,         ///< "20 °C to 2 K" where both dimensions are allowed
  supply_forms_differ, ///< "12 V ac to 24 V dc"
  first_unit_missing,  ///< "1 to 10 kΩ", where the prefix may belong to both or not; "+10 -5 %"
  hyphen_as_to,        ///< "20-30 °C"
};

struct Failure {
  Fault fault;
  std::size_t begin;
  std::size_t end;
  Dimension found; ///< with unit_of_other_dimension
};

/// One value as written. The views are parts of the text, empty where nothing was written.
struct Value {
  std::string_view sign;
  std::string_view whole;    ///< digits before the point, or before the letter of a code
  std::string_view fraction; ///< digits after it
  std::string_view exponent; ///< "e-3"
  std::string_view gap;      ///< between number and unit
  std::string_view unit_text;
  std::string_view form_text; ///< " dc" with the space before it
  Decimal number;
  Scaled_unit unit;
  Quantity quantity;
  bool code = false;         ///< IEC 60062
  bool borrows_unit = false; ///< the unit is written after the second value only
};

/// The pieces of a text of any of the three grammars.
struct Reading {
  Value first; ///< the quantity; low end; plus side, or both sides where `count` is 1
  Value second;
  int count = 1;
};

struct Outcome {
  Reading reading;
  std::optional<Failure> failure;
};

/// Reads the whole text.
Outcome read(std::string_view text, Quantity_grammar grammar, Dimensions allowed);

/// Gives a quantity whose dimension is known the value and the half digit of a number in a unit of that
/// dimension. Returns why there is none: out_of_reach, or below_absolute_zero.
std::optional<Fault> set_si(Quantity& quantity, const Decimal& number, Scaled_unit unit);

/// The dimensions that the units of a tolerance may have: a temperature varies by a temperature difference.
Dimensions dimensions_of_tolerance(Dimensions allowed);

}
