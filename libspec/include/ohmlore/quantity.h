// Quantities: text with a unit ("10 kΩ", "4k7", "+10 % -5 %", "-20 °C to 110 °C") and its exact value in SI.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace ohmlore {

/// What a quantity measures. Absolute temperatures and temperature differences are different dimensions:
/// 1 K as a difference is 1.8 °F, as a temperature it is -457.87 °F.
enum class Dimension : std::uint8_t {
  resistance,             ///< ohm
  voltage,                ///< volt
  current,                ///< ampere
  power,                  ///< watt
  capacitance,            ///< farad
  temperature,            ///< absolute; SI value in kelvin
  temperature_difference, ///< kelvin
  thermal_constant,       ///< kelvin, written only as K: the B of a thermistor, the k of copper
  per_kelvin,             ///< K^-1: coefficients of Steinhart-Hart and of polynomials (exponents allowed)
  per_kelvin_2,
  per_kelvin_3,
  per_kelvin_4,
  per_kelvin_5,
  per_kelvin_6,
  time,  ///< second
  ratio, ///< percent; SI value 1 for 100 %
};

/// A set of dimensions: what a field allows. The first (lowest) is the one that messages suggest.
class Dimensions {
public:
  constexpr Dimensions() = default;
  constexpr Dimensions(Dimension one) : bits_(1u << static_cast<unsigned>(one)) {}
  constexpr bool has(Dimension one) const { return (bits_ >> static_cast<unsigned>(one)) & 1u; }
  constexpr bool empty() const { return bits_ == 0; }
  constexpr Dimensions without(Dimension one) const {
    Dimensions others;
    others.bits_ = bits_ & ~Dimensions(one).bits_;
    return others;
  }
  constexpr Dimensions operator|(Dimensions other) const {
    Dimensions both;
    both.bits_ = bits_ | other.bits_;
    return both;
  }

private:
  std::uint32_t bits_ = 0;
};
constexpr Dimensions operator|(Dimension a, Dimension b) { return Dimensions(a) | Dimensions(b); }

/// Kind of current behind a voltage or current, where the text says it ("24 V dc").
enum class Supply_form : std::uint8_t { unstated, ac, dc };

/// One value with a unit. `si` is the double nearest to the exact decimal value, in the SI unit of
/// `dimension` (kelvin for every temperature, 1 for 100 %). `half_digit` is half of the last written digit in
/// SI: "15.250 kΩ" gives 0.5 Ω, "15.25 kΩ" gives 5 Ω.
struct Quantity {
  double si = 0;
  double half_digit = 0;
  Dimension dimension = Dimension::resistance;
  Supply_form form = Supply_form::unstated;
};

/// How far a value may lie from its nominal: both sides are magnitudes (>= 0), either both relative
/// (1 for 100 %) or both absolute in SI of `dimension`.
struct Tolerance {
  double minus = 0;
  double plus = 0;
  Dimension dimension = Dimension::ratio; ///< ratio: relative to the nominal
  bool relative() const { return dimension == Dimension::ratio; }
};

/// Two ends of one dimension, `low` and `high` as written (not sorted). A single value gives both ends equal
/// and `single` true.
struct Range {
  Quantity low;
  [[no_unique_address]] Quantity high; // its unused end holds `single`
  bool single = false;
};

/// Why a text is not a quantity, or is one in an unusual spelling. `begin` and `end` are byte offsets into
/// the text; `suggestion` is the whole text as it should stand (empty where none is safe to offer).
struct Unit_problem {
  enum class Kind : std::uint8_t {
    unit_missing,    ///< a number without a unit
    wrong_dimension, ///< a unit of another dimension than the field allows
    unreadable,      ///< no number, an unknown unit, text left over, an exponent where none may stand
    decimal_comma,   ///< "4,7 kΩ"; the suggestion is empty where the comma may group thousands ("1,000 Ω")
    look_alike,      ///< a character that only looks right: Cyrillic К, Greek Κ, fullwidth digits
    too_many_digits, ///< more than 17 significant digits
    out_of_reach,    ///< below absolute zero, or of a magnitude beyond 1e±30
    not_canonical,   ///< accepted, but spelled another way than the canonical one: only a note
    look_alike_accepted, ///< accepted, with a look-alike character (U+2126 OHM SIGN, U+00BA): only a note
  };
  Kind kind = Kind::unreadable;
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
  std::string detail;     ///< what was found there, in words: "the unit \"V\" measures a voltage"
  std::string suggestion; ///< the whole text, corrected
};

/// The value, or the problem that prevents it.
template <class T>
struct Parsed {
  std::optional<T> value;
  std::optional<Unit_problem> problem; ///< set exactly where value is not
};

/// Reads one quantity: decimal number, optional SI prefix, unit; or, where resistance is allowed, an
/// IEC 60062 code ("4k7", "R47", "47K"). At most 17 significant digits; the conversion to SI is exact
/// (rounded once, to nearest). Never throws on bad text.
Parsed<Quantity> parse_quantity(std::string_view text, Dimensions allowed);

/// Reads a tolerance: "5 %", "±5 %", "+10 % -5 %", "2 Ω", "+1 K -2 K". `allowed` has ratio, the dimension of
/// the nominal, or both. An absolute temperature tolerance is a temperature_difference.
Parsed<Tolerance> parse_tolerance(std::string_view text, Dimensions allowed);

/// Reads "LOW to HIGH", each with its unit, or one quantity (then `single`).
Parsed<Range> parse_range(std::string_view text, Dimensions allowed);

/// What is unusual in a text that the matching parse function accepts: nothing for canonical text.
/// `form` says which grammar applies.
enum class Quantity_grammar : std::uint8_t { quantity, tolerance, range };
std::optional<Unit_problem> spelling_problem(std::string_view text, Quantity_grammar grammar,
                                             Dimensions allowed);

/// Which prefixes a spelling has: the written ones; none; or those that leave one to three digits before the
/// point (of resistances none below the ohm, since mΩ and MΩ are taken for each other).
enum class Prefixes : std::uint8_t { as_written, si, engineering };

/// The one canonical spelling of an accepted text: "4k7" gives "4.7 kΩ", "10kohm" gives "10 kΩ",
/// "+5%-5%" gives "5 %". Written digits are kept ("4.70 kΩ" stays). Empty where the text is not accepted.
/// With other prefixes than written the point moves, but only as far as the written digits reach: "15.250 kΩ"
/// is "15250 Ω", "4.7 kΩ" stays, since "4700 Ω" would claim more.
std::string canonical_spelling(std::string_view text, Quantity_grammar grammar, Dimensions allowed,
                               Prefixes prefixes = Prefixes::as_written);

/// A value for people: engineering prefix, `digits` significant digits (1 to 17), the canonical unit; kelvin
/// temperatures are shown in °C. describe(15250, resistance) is "15.25 kΩ". Beyond 1e15 and below 1e-16 a
/// power of ten instead of the prefix, and 0 below 1e-30.
std::string describe(double si, Dimension dimension, int digits = 4);

/// "a resistance (Ω)", "a temperature (°C)": for messages.
std::string_view dimension_name(Dimension dimension);

/// An example of what a field of these dimensions holds, for messages: "10 kΩ".
std::string_view dimension_example(Dimension dimension);

}
