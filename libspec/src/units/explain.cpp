#include "units/explain.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "ohmlore/text.h"
#include "text/small_letters.h"
#include "units/canonical.h"

namespace ohmlore::units {
namespace {

using Kind = Unit_problem::Kind;

// What is known about the failed text, and the ways to try a corrected one.
struct Case {
  std::string_view text;
  Quantity_grammar grammar;
  Dimensions allowed;
  const Reading& reading;
  Failure failure;

  std::string_view found() const { return text.substr(failure.begin, failure.end - failure.begin); }
  std::string_view before() const { return text.substr(0, failure.begin); }
  std::string_view after() const { return text.substr(failure.end); }

  // The canonical spelling of a corrected text; empty where the correction is not enough.
  std::string offer(std::string_view corrected) const {
    return canonical_spelling(corrected, grammar, allowed);
  }
  std::string offer_instead(std::string_view replacement) const {
    return offer(fmt::format("{}{}{}", before(), replacement, after()));
  }
};

struct Words {
  std::string detail, suggestion;
};

std::string_view example(Dimension dimension, Quantity_grammar grammar) {
  if (grammar == Quantity_grammar::tolerance) {
    if (dimension == Dimension::resistance) return "2 Ω";
    if (dimension == Dimension::temperature_difference) return "1 K";
  }
  return dimension_example(dimension);
}

template <class Text>
std::string list_of(Dimensions dimensions, Text text) {
  std::string list;
  for (int i = 0; i <= static_cast<int>(Dimension::ratio); ++i)
    if (const auto dimension = static_cast<Dimension>(i); dimensions.has(dimension)) {
      if (!list.empty()) list += " or ";
      list += text(dimension);
    }
  return list;
}

// `a resistance (Ω) is written for example "10 kΩ"`
std::string how_written(const Case& c) {
  const auto dimensions =
      c.grammar == Quantity_grammar::tolerance ? dimensions_of_tolerance(c.allowed) : c.allowed;
  return fmt::format("{} is written for example {}",
                     list_of(dimensions, [](Dimension d) { return std::string(dimension_name(d)); }),
                     list_of(dimensions, [&](Dimension d) { return in_quotes(example(d, c.grammar)); }));
}

std::string_view without_spaces_before(std::string_view text) {
  for (auto space = leading_space(text); !space.empty(); space = leading_space(text))
    text.remove_prefix(space.size());
  return text;
}

Words no_number(const Case& c) {
  if (c.found().starts_with('.'))
    return {"no digit stands before the point, and a point alone is easily lost",
            c.offer_instead(fmt::format("0{}", c.found()))};
  if (!leading_space(c.found()).empty() && c.failure.begin > 0)
    return {"a space stands between the sign and the number",
            c.offer_instead(without_spaces_before(c.found()))};
  for (const std::string_view sign : {"<", ">", "≤", "≥"})
    if (c.found().starts_with(sign))
      return {fmt::format("no {} is written before a value; whether it is a limit, and which, the key says",
                          in_quotes(sign)),
              {}};
  for (const std::string_view sign : {"~", "≈"})
    if (c.found().starts_with(sign) && !c.allowed.has(Dimension::voltage)) // of which "~" says ac
      return {fmt::format("no {} is written before a value; how far it may be off is a tolerance, written in "
                          "a field of its own",
                          in_quotes(sign)),
              c.offer(fmt::format("{}{}{}", c.before(), without_spaces_before(c.found().substr(sign.size())),
                                  c.after()))};
  if (c.found().empty()) return {fmt::format("a number is missing; {}", how_written(c)), {}};
  return {fmt::format("{} does not start with a number; {}", in_quotes(c.found()), how_written(c)), {}};
}

Words unit_unknown(const Case& c) {
  const auto word = c.found();
  // "10 k Ω", "20 ° C"
  if (const auto rest = without_spaces_before(c.after()); rest.size() < c.after().size())
    if (auto joined = c.offer(fmt::format("{}{}{}", c.before(), word, rest)); !joined.empty())
      return {fmt::format("a space stands inside the unit, after {}", in_quotes(word)), std::move(joined)};
  if (const auto* misspelling = find_misspelling(word))
    return {fmt::format("{} is not a unit here: {}", in_quotes(word), misspelling->why),
            misspelling->meant.empty() ? std::string() : c.offer_instead(misspelling->meant)};
  if (auto suggestion = c.offer_instead(fmt::format("{}Ω", word)); !suggestion.empty())
    return {fmt::format("{} is a prefix without its unit", in_quotes(word)), std::move(suggestion)};
  if (auto suggestion = c.offer_instead(fmt::format("{}F", word)); !suggestion.empty())
    return {fmt::format("{} is a prefix without its unit", in_quotes(word)), std::move(suggestion)};
  // "4n7" on a capacitor.
  if (!c.after().empty() && is_digit(c.after().front()))
    if (auto suggestion = c.offer(fmt::format("{}.{}{}F", c.before(), c.after(), word)); !suggestion.empty())
      return {fmt::format("{} looks like a code; codes are read for resistances only", in_quotes(c.text)),
              std::move(suggestion)};
  return {fmt::format("the unit {} is not known here; {}", in_quotes(word), how_written(c)), {}};
}

Words unit_of_other_dimension(const Case& c) {
  const auto name = dimension_name(c.failure.found); // "a voltage (V)": here without the unit
  auto detail = fmt::format("the unit {} measures {}; {}", in_quotes(c.found()),
                            name.substr(0, name.find(" (")), how_written(c));
  const auto unit = find_unit(c.found());
  if (unit && unit->unit == Unit::kelvin && unit->prefix == 0 && c.allowed.has(Dimension::resistance))
    detail += fmt::format(
        "; a thousand ohms is the small k with its unit, kΩ{}",
        c.reading.first.fraction.empty() ? ", or a K without a space before it, as in \"47K\"" : "");
  std::string suggestion;
  if (const auto* misspelling = find_misspelling(c.found())) suggestion = c.offer_instead(misspelling->meant);
  if (unit && unit->unit == Unit::kelvin) // a forgotten exponent
    for (const std::string_view power : {"K^-1", "K^-2", "K^-3", "K^-4", "K^-5", "K^-6"})
      if (suggestion.empty()) suggestion = c.offer_instead(power);
  return {std::move(detail), std::move(suggestion)};
}

Words exponent(const Case& c) {
  auto detail =
      fmt::format("{} is an exponent, which only coefficients (K^-1 and the like) may have; use a prefix",
                  in_quotes(c.found()));
  const auto rest = without_spaces_before(c.after());
  for (int power = -12; power <= 9; power += 3) {
    // An exponent and a prefix of the same power, compared as text: "e3", "E+03".
    auto digits = c.found().substr(1);
    const bool negative = !leading_minus(digits).empty();
    digits.remove_prefix(std::min(digits.size(), digits.find_first_of("123456789")));
    if (digits == fmt::format("{}", std::abs(power)) && (power < 0) == negative)
      return {std::move(detail), c.offer(fmt::format("{} {}{}", c.before(), prefix_symbol(power), rest))};
  }
  return {std::move(detail), {}};
}

Words too_many_digits(const Case& c) {
  std::size_t count = 0;
  for (const char character : c.found())
    if (is_digit(character) && (count > 0 || character != '0')) ++count;
  return {fmt::format("{} has {} significant digits; at most 17 are read", in_quotes(c.found()), count), {}};
}

Words left_over(const Case& c) {
  const auto rest = c.found();
  // "10 000 Ω": groups of three, and nothing but digits on both sides of the space.
  if (rest.size() > 3 && is_digit(rest[0]) && is_digit(rest[1]) && is_digit(rest[2]) && !is_digit(rest[3])) {
    std::string joined;
    for (std::string_view text = c.text; !text.empty();) {
      const auto space = leading_space(text);
      if (!space.empty() && !joined.empty() && is_digit(joined.back()) && text.size() > space.size() &&
          is_digit(text[space.size()])) {
        text.remove_prefix(space.size());
        continue;
      }
      joined += text.front();
      text.remove_prefix(1);
    }
    if (auto suggestion = c.offer(joined); !suggestion.empty())
      return {"a space stands inside the number", std::move(suggestion)};
  }
  // "1.000.000 Ω": points may part thousands, and then a shorter number would be a thousandth of what is
  // meant.
  if (rest.size() > 1 && rest[0] == '.' && is_digit(rest[1]) &&
      c.before().find('.') != std::string_view::npos)
    return {"a number has one point, before its decimals, and nothing between its thousands", {}};
  if (rest.starts_with('.'))
    if (auto suggestion = c.offer_instead(rest.substr(1)); !suggestion.empty())
      return {"no digit follows the point", std::move(suggestion)};
  if (rest.starts_with('@') && c.allowed.has(Dimension::resistance))
    return {fmt::format("{} is a temperature, which is written in a field of its own", in_quotes(rest)),
            c.offer_instead("")};
  if (rest == "=" || rest == "\u2393")
    return {fmt::format("{} does not say dc in words", in_quotes(rest)), c.offer_instead(" dc")};
  if (const auto unit = find_unit(rest);
      unit && c.reading.first.code && unit->unit == Unit::ohm && unit->prefix == 0)
    return {"a unit stands after a code, which has its unit already", c.offer_instead("")};
  const bool is_signed_share = (rest.starts_with('+') || rest.starts_with('-')) && rest.ends_with('%');
  if (c.grammar != Quantity_grammar::tolerance &&
      (rest.starts_with("±") || rest.starts_with("+/-") || is_signed_share))
    return {fmt::format("{} is a tolerance, which is written in a field of its own", in_quotes(rest)),
            c.offer_instead("")};
  const std::size_t second = rest.find_first_of("0123456789");
  const auto joint = rest.substr(0, std::min(second, rest.size()));
  const bool is_joint = (joint.find('-') != joint.npos || joint.find("..") != joint.npos) &&
                        joint.find_first_not_of("-. ") == joint.npos;
  if (c.grammar == Quantity_grammar::quantity &&
      (rest.starts_with("to ") || (is_joint && second != rest.npos)))
    return {fmt::format("one value is expected here, and {} makes it a range{}", in_quotes(rest),
                        c.allowed.has(Dimension::resistance)
                            ? "; its ends are two keys, such as `min` and `max`"
                            : ""),
            {}};
  if (c.grammar == Quantity_grammar::range && rest.starts_with('/'))
    return {
        fmt::format("{} is left over; two ends are written for example \"25 °C to 85 °C\"", in_quotes(rest)),
        {}};
  return {fmt::format("{} is left over; {}", in_quotes(rest), how_written(c)), {}};
}

// "3.5K": where kelvin may stand too, nobody knows which of the two is meant.
Words code_with_point(const Case& c) {
  const auto found = c.found();
  auto ohms = c.offer_instead(fmt::format("{}Ω", found));
  auto detail =
      fmt::format("{} is neither a code, which has no point, nor a number with a unit", in_quotes(found));
  if (!found.ends_with('K')) return {std::move(detail), std::move(ohms)};
  const auto number = found.substr(0, found.size() - 1);
  const auto kelvin = c.offer_instead(fmt::format("{} K", number));
  if (kelvin.empty()) return {std::move(detail), std::move(ohms)};
  return {
      fmt::format("{}; write {} if kelvin are meant, else {}", detail, in_quotes(kelvin), in_quotes(ohms)),
      {}};
}

std::string_view tolerance_of_letter(char letter) {
  switch (letter) { // IEC 60062; F, J and K as published, the others from memory
  case 'B': return "0.1 %";
  case 'C': return "0.25 %";
  case 'D': return "0.5 %";
  case 'F': return "1 %";
  case 'G': return "2 %";
  case 'J': return "5 %";
  case 'K': return "10 %";
  case 'M': return "20 %";
  default: return "";
  }
}

Words one_sided(const Case& c) {
  const bool plus = c.found().starts_with('+');
  const auto unit = c.reading.first.unit_text;
  return {fmt::format("only the {} side is written", plus ? "plus" : "minus"),
          c.offer(plus ? fmt::format("{} -0 {}", c.text, unit) : fmt::format("+0 {} {}", unit, c.text))};
}

Words first_unit_missing(const Case& c) {
  const auto unit = c.reading.second.unit;
  const auto whole = fmt::format("{}{}", prefix_symbol(unit.prefix), unit_symbol(unit.unit));
  std::string detail = "the first value has no unit";
  if (unit.prefix != 0)
    detail +=
        fmt::format(", and the prefix of {} may belong to both or to the second alone", in_quotes(whole));
  return {std::move(detail), c.offer_instead(fmt::format("{} {}", c.found(), whole))};
}

Words words_of(const Case& c) {
  switch (c.failure.fault) {
  case Fault::no_number: return no_number(c);
  case Fault::unit_missing:
    return {fmt::format("{} has no unit; {}", in_quotes(c.found()), how_written(c)), {}};
  case Fault::unit_unknown: return unit_unknown(c);
  case Fault::unit_of_other_dimension: return unit_of_other_dimension(c);
  case Fault::prefix_not_used:
    return {fmt::format("the unit {} takes no prefix here; {}", in_quotes(c.found()), how_written(c)), {}};
  case Fault::exponent: return exponent(c);
  case Fault::too_many_digits: return too_many_digits(c);
  case Fault::out_of_reach:
    return {fmt::format("{} lies outside of 1e-30 to 1e30 SI units, or has too many decimals",
                        in_quotes(c.found())),
            {}};
  case Fault::below_absolute_zero:
    return {fmt::format("{} lies below absolute zero (0 K, -273.15 °C, -459.67 °F)", in_quotes(c.found())),
            {}};
  case Fault::left_over: return left_over(c);
  case Fault::code_with_point: return code_with_point(c);
  case Fault::code_with_tolerance:
    return {fmt::format("{} after a code is its tolerance, {}, which is written in a field of its own",
                        in_quotes(c.found()), tolerance_of_letter(c.found().front())),
            c.offer_instead("")};
  case Fault::one_sided: return one_sided(c);
  case Fault::same_sign_twice:
    return {"both sides have the same sign; one is plus and the other is minus", {}};
  case Fault::sides_differ:
    return {fmt::format("{} has a relative and an absolute side; both are written in the same kind of unit",
                        in_quotes(c.found())),
            {}};
  case Fault::ends_differ:
    return {fmt::format("the two ends of {} measure different things", in_quotes(c.found())), {}};
  case Fault::supply_forms_differ:
    return {fmt::format("one end of {} is ac and the other is dc", in_quotes(c.found())), {}};
  case Fault::first_unit_missing: return first_unit_missing(c);
  case Fault::hyphen_as_to: {
    auto suggestion = c.offer_instead(" to ");
    return {fmt::format("a hyphen between two values could be the minus of the second{}",
                        suggestion.empty() ? "; write \"to\"" : ""),
            std::move(suggestion)};
  }
  }
  return {};
}

Kind kind_of(Fault fault) {
  switch (fault) {
  case Fault::unit_missing:
  case Fault::first_unit_missing: return Kind::unit_missing;
  case Fault::unit_of_other_dimension:
  case Fault::ends_differ: return Kind::wrong_dimension;
  case Fault::too_many_digits: return Kind::too_many_digits;
  case Fault::out_of_reach:
  case Fault::below_absolute_zero: return Kind::out_of_reach;
  default: return Kind::unreadable;
  }
}

Unit_problem problem(Kind kind, std::size_t begin, std::size_t end, Words words) {
  return {kind, static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(end), std::move(words.detail),
          std::move(words.suggestion)};
}

// Behind the first value of a range an en dash parts the two; anywhere else it is taken for a minus.
bool parts_ends(const Case& c, const Look_alike& found, std::string_view before) {
  const std::size_t digit = before.find_first_of("0123456789");
  if (c.grammar != Quantity_grammar::range || found.character != "\u2013" || digit == before.npos)
    return false;
  before.remove_prefix(digit);
  for (const std::string_view to : {"to", "..", "\u2026", "\u2013"})
    if (before.find(to) != before.npos) return false;
  return true;
}

// Every refused look-alike replaced by what it is taken for; an en dash stays where it may stand for "to".
std::string replace_look_alikes(std::string_view text, bool keep_en_dash) {
  std::string replaced;
  std::size_t at = 0;
  while (const auto* found = find_refused_look_alike(text, at)) {
    replaced += text.substr(0, at);
    replaced += keep_en_dash && found->character == "\u2013" ? found->character : found->meant;
    text.remove_prefix(at + found->character.size());
  }
  replaced += text;
  return replaced;
}

std::optional<Unit_problem> look_alike(const Case& c) {
  std::size_t begin = 0, at = 0;
  const Look_alike* found = nullptr;
  while ((found = find_refused_look_alike(c.text.substr(begin), at)) != nullptr &&
         parts_ends(c, *found, c.text.substr(0, begin + at)))
    begin += at + found->character.size();
  if (found == nullptr) return std::nullopt;
  begin += at;
  auto suggestion = c.offer(replace_look_alikes(c.text, c.grammar == Quantity_grammar::range));
  if (suggestion.empty()) suggestion = c.offer(replace_look_alikes(c.text, false));
  auto detail = found->meant.empty()
                    ? fmt::format("{} stands here and is not seen", found->name)
                    : fmt::format("{} only looks like {}", found->name, in_quotes(found->meant));
  return problem(Kind::look_alike, begin, begin + found->character.size(),
                 {std::move(detail), std::move(suggestion)});
}

// A comma between digits. It may group thousands where exactly three digits follow, none of them decimals.
std::optional<Unit_problem> decimal_comma(const Case& c) {
  std::string pointed;
  std::optional<Unit_problem> found;
  bool ambiguous = false;
  for (std::size_t i = 0; i < c.text.size(); ++i) {
    const bool between_digits = c.text[i] == ',' && i > 0 && is_digit(c.text[i - 1]) &&
                                i + 1 < c.text.size() && is_digit(c.text[i + 1]);
    pointed += between_digits ? '.' : c.text[i];
    if (!between_digits) continue;
    std::size_t first = i, last = i + 1;
    while (first > 0 && is_digit(c.text[first - 1])) --first;
    while (last < c.text.size() && is_digit(c.text[last])) ++last;
    const auto whole = c.text.substr(first, i - first);
    const auto decimals = c.text.substr(i + 1, last - i - 1);
    const bool thousands = decimals.size() == 3 && !whole.starts_with('0') && whole.size() <= 3;
    ambiguous = ambiguous || thousands;
    if (found) continue;
    found = problem(Kind::decimal_comma, i, i + 1,
                    {thousands ? fmt::format("{0},{1} can be read as {0}{1} or as {0}.{1}; write one of them",
                                             whole, decimals)
                               : "a comma stands where the decimal point belongs",
                     {}});
  }
  if (found && !ambiguous) found->suggestion = c.offer(pointed);
  return found;
}

}

Unit_problem explain(std::string_view text, Quantity_grammar grammar, Dimensions allowed,
                     const Outcome& outcome) {
  const Case c{text, grammar, allowed, outcome.reading, *outcome.failure};
  if (auto found = look_alike(c)) return *std::move(found);
  if (auto found = decimal_comma(c)) return *std::move(found);
  return problem(kind_of(c.failure.fault), c.failure.begin, c.failure.end, words_of(c));
}

std::string in_quotes(std::string_view text) {
  constexpr std::size_t longest = 60;
  std::string out = "\"";
  while (!text.empty() && out.size() < longest) {
    const auto lead = static_cast<unsigned char>(text.front());
    const bool control = lead < 0x20 || lead == 0x7F;
    const unsigned length = control ? 0 : utf8_length(text, 0);
    out += length == 0 ? fmt::format("\\x{:02X}", lead) : std::string(text.substr(0, length));
    text.remove_prefix(std::max(length, 1U));
  }
  out += text.empty() ? "\"" : "…\"";
  return out;
}

}
