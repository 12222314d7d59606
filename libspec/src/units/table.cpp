#include "units/table.h"

#include <array>

namespace ohmlore::units {
namespace {

// A word of at most eight bytes as one integer, so that a lookup compares integers.
constexpr std::uint64_t key(std::string_view word) {
  std::uint64_t packed = 0;
  for (const char c : word) packed = packed << 8 | static_cast<unsigned char>(c);
  return packed;
}
constexpr std::size_t longest_word = 8;

struct Symbol {
  std::uint64_t word;
  Scaled_unit unit;
  bool takes_prefix;
};

constexpr Symbol symbols[] = {
    {key("Ω"), {Unit::ohm}, true}, // U+03A9, canonical
    {key("V"), {Unit::volt}, true},
    {key("A"), {Unit::ampere}, true},
    {key("W"), {Unit::watt}, true},
    {key("%"), {Unit::percent}, false},
    {key("°C"), {Unit::celsius}, false},
    {key("K"), {Unit::kelvin}, true},
    {key("F"), {Unit::farad}, true},
    {key("s"), {Unit::second}, true},
    {key("min"), {Unit::minute}, false},
    {key("h"), {Unit::hour}, false},
    {key("d"), {Unit::day}, false},
    {key("°F"), {Unit::fahrenheit}, false},

    {key("\u2126"), {Unit::ohm}, true}, // OHM SIGN
    {key("R"), {Unit::ohm}, false},
    {key("ohm"), {Unit::ohm}, true},
    {key("Ohm"), {Unit::ohm}, true},
    {key("OHM"), {Unit::ohm}, true},
    {key("ohms"), {Unit::ohm}, true},
    {key("Ohms"), {Unit::ohm}, true},
    {key("OHMS"), {Unit::ohm}, true},
    {key("kilohm"), {Unit::ohm, 3}, false},
    {key("kilohms"), {Unit::ohm, 3}, false},
    {key("megohm"), {Unit::ohm, 6}, false},
    {key("Megohm"), {Unit::ohm, 6}, false},
    {key("megohms"), {Unit::ohm, 6}, false},
    {key("Megohms"), {Unit::ohm, 6}, false},

    {key("\u212A"), {Unit::kelvin}, true},    // KELVIN SIGN
    {key("\u2103"), {Unit::celsius}, false},  // DEGREE CELSIUS
    {key("\u00BAC"), {Unit::celsius}, false}, // MASCULINE ORDINAL INDICATOR
    {key("\u02DAC"), {Unit::celsius}, false}, // RING ABOVE
    {key("degC"), {Unit::celsius}, false},
    {key("\u2109"), {Unit::fahrenheit}, false}, // DEGREE FAHRENHEIT
    {key("\u00BAF"), {Unit::fahrenheit}, false},
    {key("\u02DAF"), {Unit::fahrenheit}, false},
    {key("degF"), {Unit::fahrenheit}, false},
};

struct Prefix {
  std::string_view text;
  std::int8_t power;
};
// The first of each power is canonical.
constexpr Prefix prefixes[] = {
    {"p", -12}, {"n", -9}, {"\u00B5", -6}, {"\u03BC", -6}, {"u", -6}, {"m", -3}, {"k", 3}, {"M", 6}, {"G", 9},
};

struct Unit_row {
  std::string_view symbol;
  Dimension dimension;
  Prefix_range prefix;
  std::uint32_t offset_hundredths; ///< as a temperature
  std::uint32_t factor, divisor;
};
constexpr Unit_row units[] = {
    {"Ω", Dimension::resistance, {-6, 9}, 0, 1, 1},   {"V", Dimension::voltage, {-6, 3}, 0, 1, 1},
    {"A", Dimension::current, {-9, 3}, 0, 1, 1},      {"W", Dimension::power, {-6, 6}, 0, 1, 1},
    {"F", Dimension::capacitance, {-12, 0}, 0, 1, 1}, {"K", Dimension::temperature, {-3, 0}, 0, 1, 1},
    {"°C", Dimension::temperature, {}, 27315, 1, 1},  {"°F", Dimension::temperature, {}, 45967, 5, 9},
    {"K^-", Dimension::per_kelvin, {}, 0, 1, 1},      {"s", Dimension::time, {-6, 0}, 0, 1, 1},
    {"min", Dimension::time, {}, 0, 60, 1},           {"h", Dimension::time, {}, 0, 3600, 1},
    {"d", Dimension::time, {}, 0, 86400, 1},          {"%", Dimension::ratio, {}, 0, 1, 1},
};
constexpr const Unit_row& row(Unit unit) { return units[static_cast<std::size_t>(unit)]; }

const Symbol* find_symbol(std::string_view word) {
  if (word.empty() || word.size() > longest_word) return nullptr;
  const auto packed = key(word);
  for (const auto& symbol : symbols)
    if (symbol.word == packed) return &symbol;
  return nullptr;
}

constexpr Look_alike accepted[] = {
    {"\u2126", "Ω", "U+2126 OHM SIGN"},
    {"\u03BC", "µ", "U+03BC GREEK SMALL LETTER MU"},
    {"\u00BA", "°", "U+00BA MASCULINE ORDINAL INDICATOR"},
    {"\u02DA", "°", "U+02DA RING ABOVE"},
    {"\u2212", "-", "U+2212 MINUS SIGN"},
    {"\u212A", "K", "U+212A KELVIN SIGN"},
};

// Letters of other alphabets drawn like those of units, the marks that word processors put for minus,
// characters that are not drawn at all, and the fullwidth forms of what a quantity is made of.
constexpr Look_alike refused[] = {
    {"\u0410", "A", "U+0410 CYRILLIC CAPITAL LETTER A"},
    {"\u0412", "B", "U+0412 CYRILLIC CAPITAL LETTER VE"},
    {"\u0421", "C", "U+0421 CYRILLIC CAPITAL LETTER ES"},
    {"\u0415", "E", "U+0415 CYRILLIC CAPITAL LETTER IE"},
    {"\u041A", "K", "U+041A CYRILLIC CAPITAL LETTER KA"},
    {"\u041C", "M", "U+041C CYRILLIC CAPITAL LETTER EM"},
    {"\u041D", "H", "U+041D CYRILLIC CAPITAL LETTER EN"},
    {"\u041E", "O", "U+041E CYRILLIC CAPITAL LETTER O"},
    {"\u0420", "R", "U+0420 CYRILLIC CAPITAL LETTER ER"}, // as R: the letter that the sound suggests
    {"\u0430", "a", "U+0430 CYRILLIC SMALL LETTER A"},
    {"\u0441", "c", "U+0441 CYRILLIC SMALL LETTER ES"},
    {"\u0435", "e", "U+0435 CYRILLIC SMALL LETTER IE"},
    {"\u043A", "k", "U+043A CYRILLIC SMALL LETTER KA"},
    {"\u043C", "m", "U+043C CYRILLIC SMALL LETTER EM"},
    {"\u043E", "o", "U+043E CYRILLIC SMALL LETTER O"},
    {"\u0440", "p", "U+0440 CYRILLIC SMALL LETTER ER"},
    {"\u0455", "s", "U+0455 CYRILLIC SMALL LETTER DZE"},
    {"\u0391", "A", "U+0391 GREEK CAPITAL LETTER ALPHA"},
    {"\u0392", "B", "U+0392 GREEK CAPITAL LETTER BETA"},
    {"\u039A", "K", "U+039A GREEK CAPITAL LETTER KAPPA"},
    {"\u039C", "M", "U+039C GREEK CAPITAL LETTER MU"},
    {"\u039F", "O", "U+039F GREEK CAPITAL LETTER OMICRON"},
    {"\u03A1", "R", "U+03A1 GREEK CAPITAL LETTER RHO"}, // likewise
    {"\u03BA", "k", "U+03BA GREEK SMALL LETTER KAPPA"},
    {"\u03BF", "o", "U+03BF GREEK SMALL LETTER OMICRON"},
    {"\u03C9", "Ω", "U+03C9 GREEK SMALL LETTER OMEGA"},
    {"\u1D00", "A", "U+1D00 LATIN LETTER SMALL CAPITAL A"},
    {"\u2010", "-", "U+2010 HYPHEN"},
    {"\u2011", "-", "U+2011 NON-BREAKING HYPHEN"},
    {"\u2012", "-", "U+2012 FIGURE DASH"},
    {"\u2013", "-", "U+2013 EN DASH"},
    {"\u2014", "-", "U+2014 EM DASH"},
    {"\u2015", "-", "U+2015 HORIZONTAL BAR"},
    {"\uFE58", "-", "U+FE58 SMALL EM DASH"},
    {"\uFE63", "-", "U+FE63 SMALL HYPHEN-MINUS"},
    {"\uFE62", "+", "U+FE62 SMALL PLUS SIGN"},
    {"\uFE6A", "%", "U+FE6A SMALL PERCENT SIGN"},
    {"\u066A", "%", "U+066A ARABIC PERCENT SIGN"},
    {"\u2070C", "°C", "U+2070 SUPERSCRIPT ZERO"},
    {"\u1D52C", "°C", "U+1D52 MODIFIER LETTER SMALL O"},
    {"\u00AD", "", "U+00AD SOFT HYPHEN"},
    {"\u200B", "", "U+200B ZERO WIDTH SPACE"},
    {"\u2060", "", "U+2060 WORD JOINER"},
    {"\uFEFF", "", "U+FEFF ZERO WIDTH NO-BREAK SPACE"},
    {"\uFF05", "%", "U+FF05 FULLWIDTH PERCENT SIGN"},
    {"\uFF0B", "+", "U+FF0B FULLWIDTH PLUS SIGN"},
    {"\uFF0D", "-", "U+FF0D FULLWIDTH HYPHEN-MINUS"},
    {"\uFF0E", ".", "U+FF0E FULLWIDTH FULL STOP"},
    {"\uFF0F", "/", "U+FF0F FULLWIDTH SOLIDUS"},
    {"\uFF10", "0", "U+FF10 FULLWIDTH DIGIT ZERO"},
    {"\uFF11", "1", "U+FF11 FULLWIDTH DIGIT ONE"},
    {"\uFF12", "2", "U+FF12 FULLWIDTH DIGIT TWO"},
    {"\uFF13", "3", "U+FF13 FULLWIDTH DIGIT THREE"},
    {"\uFF14", "4", "U+FF14 FULLWIDTH DIGIT FOUR"},
    {"\uFF15", "5", "U+FF15 FULLWIDTH DIGIT FIVE"},
    {"\uFF16", "6", "U+FF16 FULLWIDTH DIGIT SIX"},
    {"\uFF17", "7", "U+FF17 FULLWIDTH DIGIT SEVEN"},
    {"\uFF18", "8", "U+FF18 FULLWIDTH DIGIT EIGHT"},
    {"\uFF19", "9", "U+FF19 FULLWIDTH DIGIT NINE"},
    {"\uFF21", "A", "U+FF21 FULLWIDTH LATIN CAPITAL LETTER A"},
    {"\uFF23", "C", "U+FF23 FULLWIDTH LATIN CAPITAL LETTER C"},
    {"\uFF27", "G", "U+FF27 FULLWIDTH LATIN CAPITAL LETTER G"},
    {"\uFF2F", "O", "U+FF2F FULLWIDTH LATIN CAPITAL LETTER O"},
    {"\uFF43", "c", "U+FF43 FULLWIDTH LATIN SMALL LETTER C"},
    {"\uFF44", "d", "U+FF44 FULLWIDTH LATIN SMALL LETTER D"},
    {"\uFF48", "h", "U+FF48 FULLWIDTH LATIN SMALL LETTER H"},
    {"\uFF4E", "n", "U+FF4E FULLWIDTH LATIN SMALL LETTER N"},
    {"\uFF4F", "o", "U+FF4F FULLWIDTH LATIN SMALL LETTER O"},
    {"\uFF50", "p", "U+FF50 FULLWIDTH LATIN SMALL LETTER P"},
    {"\uFF53", "s", "U+FF53 FULLWIDTH LATIN SMALL LETTER S"},
    {"\uFF55", "u", "U+FF55 FULLWIDTH LATIN SMALL LETTER U"},
    {"\uFF26", "F", "U+FF26 FULLWIDTH LATIN CAPITAL LETTER F"},
    {"\uFF2B", "K", "U+FF2B FULLWIDTH LATIN CAPITAL LETTER K"},
    {"\uFF2D", "M", "U+FF2D FULLWIDTH LATIN CAPITAL LETTER M"},
    {"\uFF32", "R", "U+FF32 FULLWIDTH LATIN CAPITAL LETTER R"},
    {"\uFF36", "V", "U+FF36 FULLWIDTH LATIN CAPITAL LETTER V"},
    {"\uFF37", "W", "U+FF37 FULLWIDTH LATIN CAPITAL LETTER W"},
    {"\uFF4B", "k", "U+FF4B FULLWIDTH LATIN SMALL LETTER K"},
    {"\uFF4D", "m", "U+FF4D FULLWIDTH LATIN SMALL LETTER M"},
};

constexpr Misspelling misspellings[] = {
    {"KV", "kV", "the prefix for a thousand is the small k"},
    {"KA", "kA", "the prefix for a thousand is the small k"},
    {"KW", "kW", "the prefix for a thousand is the small k"},
    {"kw", "kW", "the watt is the capital W"},
    {"w", "W", "the watt is the capital W"},
    {"v", "V", "the volt is the capital V"},
    {"mv", "mV", "the volt is the capital V"},
    {"kv", "kV", "the volt is the capital V"},
    {"a", "A", "the ampere is the capital A"},
    {"ma", "mA", "the ampere is the capital A"},
    {"amp", "A", "the ampere is written A"},
    {"amps", "A", "the ampere is written A"},
    {"ampere", "A", "the ampere is written A"},
    {"Ampere", "A", "the ampere is written A"},
    {"volt", "V", "the volt is written V"},
    {"Volt", "V", "the volt is written V"},
    {"volts", "V", "the volt is written V"},
    {"watt", "W", "the watt is written W"},
    {"Watt", "W", "the watt is written W"},
    {"watts", "W", "the watt is written W"},
    {"pf", "pF", "the farad is the capital F"},
    {"nf", "nF", "the farad is the capital F"},
    {"uf", "µF", "the farad is the capital F"},
    {"mfd", "µF", "mfd is an old spelling of the microfarad"},
    {"MFD", "µF", "MFD is an old spelling of the microfarad"},
    {"C", "°C", "C alone is the coulomb; the degree Celsius is written °C"},
    {"c", "°C", "the degree Celsius is written °C"},
    {"F", "°F", "F alone is the farad; the degree Fahrenheit is written °F"},
    {"°K", "K", "the kelvin is written without a degree sign"},
    {"degK", "K", "the kelvin is written without a degree sign"},
    {"kelvin", "K", "the kelvin is written K"},
    {"Kelvin", "K", "the kelvin is written K"},
    {"celsius", "°C", "the degree Celsius is written °C"},
    {"Celsius", "°C", "the degree Celsius is written °C"},
    {"°", "°C", "a degree sign alone does not say Celsius or Fahrenheit"},
    {"sec", "s", "the second is written s"},
    {"secs", "s", "the second is written s"},
    {"second", "s", "the second is written s"},
    {"seconds", "s", "the second is written s"},
    {"S", "s", "S is the siemens; the second is the small s"},
    {"meg", "MΩ", "the megohm is written MΩ"},
    {"Meg", "MΩ", "the megohm is written MΩ"},
    {"MEG", "MΩ", "the megohm is written MΩ"},
    {"mins", "min", "the minute is written min"},
    {"minute", "min", "the minute is written min"},
    {"minutes", "min", "the minute is written min"},
    {"hour", "h", "the hour is written h"},
    {"hours", "h", "the hour is written h"},
    {"hr", "h", "the hour is written h"},
    {"hrs", "h", "the hour is written h"},
    {"H", "h", "H is the henry; the hour is the small h"},
    {"percent", "%", "percent is written %"},
    {"pct", "%", "percent is written %"},
    {"r", "R", "the letter for ohms is the capital R"},
    {"VA", "", "VA is apparent power; a power here is the real one, in W"},
    {"m", "", "m alone is a prefix, or the metre"},
};

template <std::size_t n>
const Look_alike* find_first(const Look_alike (&table)[n], std::string_view text, std::size_t& at) {
  for (at = 0; at < text.size(); ++at) {
    if (static_cast<unsigned char>(text[at]) < 0xC2) continue; // ASCII, or inside a character
    for (const auto& entry : table)
      if (text.substr(at).starts_with(entry.character)) return &entry;
  }
  return nullptr;
}

}

std::optional<Scaled_unit> find_unit(std::string_view word) {
  // The prefix first: it is the common case, and no word without prefix can be read as one with a prefix.
  if (word.size() > 1)
    for (const auto& prefix : prefixes) {
      if (!word.starts_with(prefix.text)) continue;
      if (const auto* symbol = find_symbol(word.substr(prefix.text.size()));
          symbol != nullptr && symbol->takes_prefix) {
        const auto range = row(symbol->unit.unit).prefix;
        if (prefix.power < range.low || prefix.power > range.high) return std::nullopt;
        return Scaled_unit{symbol->unit.unit, prefix.power};
      }
      break;
    }
  if (const auto* symbol = find_symbol(word)) return symbol->unit;
  // K as a thousand is accepted only before the ohm, where it is as common as k.
  if (word.starts_with('K'))
    if (const auto* symbol = find_symbol(word.substr(1));
        symbol != nullptr && symbol->unit.unit == Unit::ohm && symbol->takes_prefix)
      return Scaled_unit{Unit::ohm, 3};
  return std::nullopt;
}

Prefix_range prefix_range(Unit unit) { return row(unit).prefix; }

std::string_view prefix_symbol(int power) {
  for (const auto& prefix : prefixes)
    if (prefix.power == power) return prefix.text;
  return {};
}

std::string_view unit_symbol(Unit unit) { return row(unit).symbol; }

Dimension dimension_of(Scaled_unit unit, Dimensions allowed) {
  const auto own = row(unit.unit).dimension;
  if (unit.unit == Unit::per_kelvin)
    return static_cast<Dimension>(static_cast<int>(Dimension::per_kelvin) + unit.order - 1);
  if (own != Dimension::temperature || allowed.has(own)) return own;
  if (allowed.has(Dimension::temperature_difference)) return Dimension::temperature_difference;
  if (unit.unit == Unit::kelvin && allowed.has(Dimension::thermal_constant))
    return Dimension::thermal_constant;
  return own;
}

Scale scale_of(Scaled_unit unit, Dimension dimension) {
  const auto& entry = row(unit.unit);
  const int power = unit.unit == Unit::percent ? -2 : unit.prefix;
  return {power, dimension == Dimension::temperature ? entry.offset_hundredths : 0, entry.factor,
          entry.divisor};
}

std::string_view leading_space(std::string_view text) {
  if (text.starts_with(' ')) return text.substr(0, 1);
  if (text.starts_with('\xC2') || text.starts_with('\xE2')) // the first bytes of those below
    for (const std::string_view space : {"\u00A0", "\u2009", "\u202F"})
      if (text.starts_with(space)) return space;
  return {};
}

std::string_view leading_minus(std::string_view text) {
  if (text.starts_with('-')) return text.substr(0, 1);
  constexpr std::string_view minus_sign = "\u2212";
  return text.starts_with('\xE2') && text.starts_with(minus_sign) ? minus_sign : std::string_view();
}

const Look_alike* find_accepted_look_alike(std::string_view text, std::size_t& at) {
  return find_first(accepted, text, at);
}
const Look_alike* find_refused_look_alike(std::string_view text, std::size_t& at) {
  return find_first(refused, text, at);
}

const Misspelling* find_misspelling(std::string_view word) {
  for (const auto& entry : misspellings)
    if (entry.written == word) return &entry;
  return nullptr;
}

}
