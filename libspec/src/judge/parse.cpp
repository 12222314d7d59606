// What a person types beside the profile: readings, temperatures, leads, the accuracy of a meter.
#include <algorithm>
#include <cmath>
#include <span>

#include <fmt/format.h>

#include "judge/shown.h"
#include "judge/typed.h"
#include "lint/meter.h"
#include "ohmlore/judge.h"
#include "ohmlore/quantity.h"
#include "text/cut.h"

namespace ohmlore {
namespace {

// "VALUE ± WIDTH", also with +- or +/-; the second is empty where there is none.
std::pair<std::string_view, std::string_view> split_at_plus_minus(std::string_view text) {
  for (const std::string_view sign : {"±", "+/-", "+-"})
    if (const std::size_t at = text.find(sign); at != std::string_view::npos)
      return {trimmed(text.substr(0, at), " "), trimmed(text.substr(at + sign.size()), " ")};
  return {trimmed(text, " "), {}};
}

bool is_number(std::string_view text) {
  return text.find_first_of("0123456789") != text.npos && text.find_first_not_of("0123456789.") == text.npos;
}

// "0", "0.0"
bool is_nothing(std::string_view text) {
  return is_number(text) && text.find('0') != text.npos && text.find_first_not_of("0.") == text.npos &&
         std::count(text.begin(), text.end(), '.') < 2;
}

// As documents are read; and "15.25k", where only the unit is left out behind its prefix. A width, "± 5 %",
// is not dropped.
std::optional<Quantity> resistance(std::string_view text, std::string& problem) {
  const auto read = parse_quantity(text, Dimension::resistance);
  if (read.value) return read.value;
  const bool alone = split_at_plus_minus(text).second.data() == nullptr && text.find('%') == text.npos;
  if (alone && read.problem->kind == Unit_problem::Kind::unreadable && !read.problem->suggestion.empty())
    if (const auto mended = parse_quantity(read.problem->suggestion, Dimension::resistance); mended.value)
      return mended.value;
  problem = read.problem->detail;
  if (is_number(text))
    problem = without_unit(text, Dimension::resistance);
  else if (!read.problem->suggestion.empty())
    problem += fmt::format("; write \"{}\"", read.problem->suggestion);
  problem = printable(problem);
  return std::nullopt;
}

// A whole number of at most eight digits, one of these words behind it or none.
std::optional<double> whole_number(std::string_view text, std::span<const std::string_view> units) {
  text = trimmed(text, " ");
  double value = 0;
  std::size_t digits = 0;
  for (; digits < text.size() && text[digits] >= '0' && text[digits] <= '9'; ++digits)
    value = value * 10 + (text[digits] - '0');
  const std::string_view unit = trimmed(text.substr(digits), " ");
  if (digits == 0 || digits > 8) return std::nullopt;
  if (!unit.empty() && std::find(units.begin(), units.end(), unit) == units.end()) return std::nullopt;
  return value;
}

constexpr std::string_view counts_words[] = {"counts", "count", "digits", "digit", "dgt", "d"};

}

std::string without_unit(std::string_view number, Dimension dimension) {
  return dimension == Dimension::temperature
             ? fmt::format("\"{0}\" has no unit; write \"{0} °C\" or \"{0} °F\"", number)
             : fmt::format("\"{0}\" has no unit, and the meter switches between Ω, kΩ and MΩ; write what its "
                           "display says: \"{0} Ω\" or \"{0} kΩ\"",
                           number);
}

std::string completed_temperature(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const bool ends = i + 1 == text.size() || text[i + 1] == ' ';
    const char before = i > 0 ? text[i - 1] : 'x';
    const bool small = c == 'c' || c == 'f' || c == 'k';
    const bool after_number = (before >= '0' && before <= '9') || before == ' ' || before == '.';
    if (ends && after_number && (c == 'C' || c == 'F' || small)) {
      const char letter = static_cast<char>(c & ~0x20);
      out += letter == 'K' ? "K" : std::string("°") + letter;
    } else {
      out += c;
    }
  }
  return out;
}

// No digit follows, as in that of ".5 MΩ".
static bool is_point_alone(std::string_view text) {
  return text.starts_with('.') && (text.size() == 1 || text[1] < '0' || text[1] > '9');
}

// How a display shows that it is above its range: OL with its point anywhere; and ">", which somebody writes.
// What stands behind that, or nothing where it shows another thing.
static std::optional<std::string_view> behind_over_range(std::string_view text) {
  if (text.starts_with('>')) return trimmed(text.substr(1), " ");
  const auto take = [&](std::string_view letters) {
    text = trimmed(text, " .");
    if (text.empty() || letters.find(text.front()) == letters.npos) return false;
    text.remove_prefix(1);
    return true;
  };
  if (!take("Oo0") || !take("Ll")) return std::nullopt;
  text = trimmed(text, " ");
  return is_point_alone(text) ? trimmed(text.substr(1), " ") : text;
}

// Displays of older meters show 1 and a point, at the left, where others show OL: "1 .", "1. MΩ".
static bool is_one_and_point(std::string_view text) {
  return text.starts_with('1') && is_point_alone(trimmed(text.substr(1), " "));
}

std::optional<Reading> parse_reading(std::string_view text, std::string& problem) {
  text = trimmed(text, " ");
  if (const auto range = behind_over_range(text)) {
    Reading reading;
    reading.over_range = true;
    if (range->empty() && !text.starts_with('>')) return reading;
    const auto end = resistance(*range, problem);
    if (!end || !(end->si > 0)) {
      problem =
          fmt::format("\"{}\" does not say where the range ends; write \"OL 6 MΩ\", or \"OL\" alone where "
                      "the meter chooses its range",
                      printable(text));
      return std::nullopt;
    }
    reading.ohm = end->si;
    return reading;
  }
  if (text.empty()) {
    problem = "the reading is empty; write what the display shows, \"15.25 kΩ\", or OL";
    return std::nullopt;
  }
  const bool one = is_one_and_point(text);
  const auto value = one ? std::nullopt : resistance(text, problem);
  if (!value) {
    if (one)
      problem =
          fmt::format("no digit follows the point of \"{}\"; write all digits and the unit that the display "
                      "shows, \"1.0 kΩ\"",
                      printable(text));
    if (one || text == "1" || text.find_first_of("0123456789") == text.npos)
      problem += "; write OL where the display says that it is above its range";
    return std::nullopt;
  }
  if (value->si < 0) {
    problem = fmt::format("\"{}\" is negative: {}", printable(text), why_negative);
    return std::nullopt;
  }
  return Reading{value->si, value->half_digit, false};
}

bool is_magnitude(double x) { return std::isfinite(x) && x >= 0; }

std::string no_such_means(const Meter_accuracy& meter, const Leads& leads) {
  if (!is_magnitude(meter.of_reading) || !is_magnitude(meter.counts) || !is_magnitude(meter.display_counts) ||
      meter.display_counts < 1)
    return fmt::format("a meter of ±({} of the reading + {} counts of {}) is none", meter.of_reading,
                       meter.counts, meter.display_counts);
  if (!is_magnitude(leads.ohm) || !is_magnitude(leads.half_width))
    return fmt::format("leads of {} Ω ± {} Ω are none", leads.ohm, leads.half_width);
  return {};
}

std::string no_such_temperature(double kelvin) {
  // Above this a dead appliance is no place to measure: mistyped, or another unit.
  constexpr Interval sensible = {zero_celsius - 60, zero_celsius + 400};
  if (sensible.contains(kelvin)) return {};
  return fmt::format(
      "{} is no temperature that a part has on a bench or in a dead appliance (-60 °C to 400 °C)",
      std::isfinite(kelvin) ? describe(kelvin, Dimension::temperature) : "what is not finite");
}

std::optional<Part_temperature> parse_part_temperature(std::string_view text, std::string& problem) {
  const auto [value, width] = split_at_plus_minus(text);
  const std::string completed = completed_temperature(value);
  const auto kelvin = parse_quantity(completed, Dimension::temperature);
  if (!kelvin.value) {
    problem =
        is_number(value) ? without_unit(value, Dimension::temperature) : printable(kelvin.problem->detail);
    return std::nullopt;
  }
  if (std::string none = no_such_temperature(kelvin.value->si); !none.empty()) {
    problem = std::move(none);
    return std::nullopt;
  }
  Part_temperature temperature;
  temperature.kelvin = kelvin.value->si;
  if (width.data() == nullptr) return temperature;
  std::string written = completed_temperature(width);
  if (is_number(written)) {
    const std::string spelt =
        canonical_spelling(completed, Quantity_grammar::quantity, Dimension::temperature); // of ℉ too
    written += spelt.ends_with('F') ? " °F" : " K";
  }
  const auto half = parse_quantity(written, Dimension::temperature_difference);
  if (!half.value || half.value->si < 0 || half.value->si > 50) {
    problem = fmt::format("\"{}\" is no accuracy of a thermometer; write \"20 °C ± 1 K\"", printable(text));
    return std::nullopt;
  }
  temperature.half_width = half.value->si;
  return temperature;
}

std::optional<Interval> parse_room(std::string_view text, std::string& problem) {
  const auto range = parse_range(completed_temperature(trimmed(text, " ")), Dimension::temperature);
  if (range.value && range.value->low.si <= range.value->high.si)
    return Interval{range.value->low.si, range.value->high.si};
  problem =
      fmt::format("\"{}\" is no range of temperatures from the lower to the higher; write \"5 °C to 30 °C\"",
                  printable(text));
  return std::nullopt;
}

std::optional<Leads> parse_leads(std::string_view text, std::string& problem) {
  const auto [value, width] = split_at_plus_minus(text);
  const auto ohm = [&](std::string_view written) -> std::optional<double> {
    written = trimmed(written, " ");
    if (is_nothing(written)) return 0; // in whatever unit
    const auto read = resistance(written, problem);
    return read ? std::optional(read->si) : std::nullopt;
  };
  if (is_number(value) && !is_nothing(value)) {
    problem = fmt::format("\"{}\" has no unit; write \"{} Ω\"", value, value);
    return std::nullopt;
  }
  Leads leads{0, 0.1};
  const auto resistance_of_leads = ohm(value);
  // Of "0.2 Ω ± 0.05" both are in ohm.
  const std::size_t unit = std::min(value.find_first_not_of("0123456789. "), value.size());
  const auto half = width.data() == nullptr ? std::optional(leads.half_width)
                    : is_number(width)      ? ohm(fmt::format("{} {}", width, value.substr(unit)))
                                            : ohm(width);
  if (!resistance_of_leads || !half || *half < 0) {
    problem = fmt::format("\"{}\" is no resistance of leads; write \"0.2 Ω\" or \"0.2 Ω ± 0.05 Ω\"",
                          printable(text));
    return std::nullopt;
  }
  if (*resistance_of_leads < 0) {
    problem = fmt::format("leads of {} are negative: {}", shown_ohm(*resistance_of_leads), why_negative);
    return std::nullopt;
  }
  if (const double most = std::max(*resistance_of_leads, *half); most > rules::most_of_leads) {
    problem = fmt::format("leads {} {} are broken or not leads, which read 0.1 to 0.5 Ω: touch the tips "
                          "together and read again",
                          most > *resistance_of_leads ? "that may be off by" : "of", shown_ohm(most));
    return std::nullopt;
  }
  leads = {*resistance_of_leads, *half};
  return leads;
}

std::optional<Meter_accuracy> parse_meter(std::string_view text, std::string& problem) {
  const auto refuse = [&](std::string_view why) {
    problem = fmt::format("\"{}\" {}; write the accuracy of the resistance range as its data sheet has it, "
                          "\"0.8 % + 3\", and for another display than 6000 counts \"0.8 % + 3 of 2000\"",
                          printable(text), why);
    return std::nullopt;
  };
  std::string_view rest = trimmed(text, " ");
  Meter_accuracy meter;
  if (rest.starts_with("±")) rest = trimmed(rest.substr(std::string_view("±").size()), " ");
  if (const std::size_t of = rest.rfind(" of "); of != std::string_view::npos) {
    const auto counts = whole_number(rest.substr(of + 4), counts_words);
    if (!counts || *counts < 100 || *counts > 1e7)
      return refuse("names no display of 100 to 10000000 counts behind \"of\"");
    meter.display_counts = *counts;
    rest = trimmed(rest.substr(0, of), " ");
  }
  if (rest.starts_with('(') && rest.ends_with(')')) rest = trimmed(rest.substr(1, rest.size() - 2), " ");
  const std::size_t plus = rest.find('+');
  if (plus == std::string_view::npos) return refuse("has no counts behind a +");
  const auto share = parse_quantity(trimmed(rest.substr(0, plus), " "), Dimension::ratio);
  if (!share.value) return refuse("has no percentage of the reading before the +");
  if (share.value->si < 0 || share.value->si > 0.2)
    return refuse("is not between 0 % and 20 % of the reading");
  const auto counts = whole_number(rest.substr(plus + 1), counts_words);
  if (!counts || *counts > 1000) return refuse("has no whole number of counts behind the +");
  meter.of_reading = share.value->si;
  meter.counts = *counts;
  return meter;
}

std::vector<Temperature_deviation> temperature_deviations(const Part_temperature& temperature,
                                                          bool warms_itself) {
  std::vector<Temperature_deviation> deviations = {{Contributor::thermometer, temperature.half_width}};
  constexpr double by_place[] = {0, 0.5, 1, 3, 2};
  if (const double width = by_place[static_cast<int>(temperature.place)]; width > 0)
    deviations.push_back({Contributor::place, width});
  if (temperature.minutes_since_running) {
    const double left = (warms_itself ? 80 : 20) * std::exp(-*temperature.minutes_since_running / 30);
    if (left > 0.05) deviations.push_back({Contributor::running, left});
  }
  return deviations;
}

}
