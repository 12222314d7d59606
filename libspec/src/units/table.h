// Units, their spellings, and the characters that only look right.
#pragma once

#include "ohmlore/quantity.h"
#include "units/exact.h"

#include <cstdint>
#include <optional>
#include <string_view>

namespace ohmlore::units {

enum class Unit : std::uint8_t {
  ohm,
  volt,
  ampere,
  watt,
  farad,
  kelvin,
  celsius,
  fahrenheit,
  per_kelvin,
  second,
  minute,
  hour,
  day,
  percent,
};

/// A unit as found: "kΩ" is {ohm, 3}, "K^-2" is {per_kelvin, 0, 2}.
struct Scaled_unit {
  Unit unit = Unit::ohm;
  std::int8_t prefix = 0; ///< power of ten
  std::uint8_t order = 1; ///< n of K^-n
};

/// The unit that one word spells ("kΩ", "megohm", "degC"), prefix included; not K^-n, which is several
/// characters of other kinds.
std::optional<Scaled_unit> find_unit(std::string_view word);

/// Powers of ten that the prefixes of a unit span: {-12, 0} for the farad.
struct Prefix_range {
  std::int8_t low = 0, high = 0;
};
Prefix_range prefix_range(Unit unit);

/// "k" for 3; empty for 0.
std::string_view prefix_symbol(int power);

/// The canonical symbol without prefix: "Ω".
std::string_view unit_symbol(Unit unit);

/// The dimension that a unit has in a field: a kelvin is a temperature, a difference or a thermal constant,
/// whichever is allowed first. Where none is allowed, the unit's own dimension.
Dimension dimension_of(Scaled_unit unit, Dimensions allowed);

/// How a number with this unit becomes SI.
Scale scale_of(Scaled_unit unit, Dimension dimension);

/// K^-n is the only unit whose number may have an exponent.
constexpr bool is_per_kelvin(Dimension dimension) {
  return dimension >= Dimension::per_kelvin && dimension <= Dimension::per_kelvin_6;
}

/// The space at the start of `text`, one of U+0020, U+00A0, U+2009, U+202F; empty where there is none.
std::string_view leading_space(std::string_view text);

/// The minus at the start of `text`: "-" or U+2212.
std::string_view leading_minus(std::string_view text);

/// A character that is taken for another one.
struct Look_alike {
  std::string_view character; ///< UTF-8
  std::string_view meant;
  std::string_view name; ///< code point and name, for messages
};

/// The first one in `text` that is accepted (U+2126 OHM SIGN) or refused (Cyrillic К); null where there is
/// none. `at` receives its offset.
const Look_alike* find_accepted_look_alike(std::string_view text, std::size_t& at);
const Look_alike* find_refused_look_alike(std::string_view text, std::size_t& at);

/// A common word that is not one of the accepted spellings: "KV", "sec", "mfd".
struct Misspelling {
  std::string_view written;
  std::string_view meant; ///< empty where nothing is safe to offer
  std::string_view why;
};
const Misspelling* find_misspelling(std::string_view word);

}
