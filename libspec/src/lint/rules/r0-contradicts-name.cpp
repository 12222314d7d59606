#include <algorithm>
#include <charconv>
#include <optional>

#include "lint/platinum.h"
#include "lint/rule.h"
#include "text/small_letters.h"

namespace ohmlore::rules {
namespace {

// Calls `f(r0)` for each platinum sensor that a name speaks of: "Pt1000", "PT 100", "pt-500". "PT1" may be
// the tag of a pressure transmitter.
template <class F>
void each_named(Text name, F f) {
  const auto is = [&](std::size_t at, char small) { return (name[at] | 0x20) == small; };
  for (std::size_t at = 0; at + 3 < name.size(); ++at) {
    const auto before = static_cast<unsigned char>(at > 0 ? name[at - 1] : ' ');
    if (!is(at, 'p') || !is(at + 1, 't') || before >= 0x80 || is_letter_or_digit(static_cast<char>(before)))
      continue;
    const bool spaced = name[at + 2] == ' ' || name[at + 2] == '-';
    int number = 0;
    std::from_chars(name.data() + at + (spaced ? 3 : 2), name.data() + name.size(), number);
    for (const double r0 : usual_r0)
      if (number == r0) f(r0);
  }
}

// "NTC 10k at 80 °C"; at 25 °C nearly all are rated.
bool names_another_temperature(Text name) {
  constexpr Text degree = "\u00B0";
  for (std::size_t at = name.find(degree); at != Text::npos; at = name.find(degree, at + 1)) {
    Text before = name.substr(0, at);
    if (before.ends_with(' ')) before.remove_suffix(1);
    if (!before.ends_with("25") || !name.substr(at + degree.size()).starts_with('C')) return true;
    before.remove_suffix(2);
    if (!before.empty() && (is_digit(before.back()) || before.back() == '.' || before.back() == ',' ||
                            before.back() == '-' || before.back() & 0x80))
      return true;
  }
  return false;
}

// The kΩ that a name speaks of: "NTC 10k", "4,7 kΩ"; empty where there is none, or several, and where it
// is of another temperature. "10 K" is a temperature, and "10k3" the name of a series.
std::optional<double> kilo_ohm_named(Text name) {
  if (names_another_temperature(name)) return std::nullopt;
  std::optional<double> found;
  for (std::size_t at = 0; at < name.size(); ++at) {
    if (!is_digit(name[at])) continue;
    const char before = at > 0 ? name[at - 1] : ' ';
    std::size_t end = at;
    while (end < name.size() && (is_digit(name[end]) || name[end] == '.' || name[end] == ',')) ++end;
    std::string number(name.substr(at, end - at));
    std::replace(number.begin(), number.end(), ',', '.'); // a name is written as people do
    at = end;
    const bool spaced = end < name.size() && name[end] == ' ';
    Text unit = name.substr(end + (spaced ? 1 : 0));
    if (is_letter_or_digit(before) || before == '.' || unit.empty() || (unit[0] | 0x20) != 'k') continue;
    const bool small = unit[0] == 'k' || !spaced;
    unit.remove_prefix(1);
    const bool ohms =
        unit.starts_with("\u03A9") || unit.starts_with("\u2126") || small_letters(unit.substr(0, 3)) == "ohm";
    const bool ends = unit.empty() || (!is_letter_or_digit(unit[0]) && !(unit[0] & 0x80));
    if (!ohms && !(small && ends)) continue;
    const auto value = parse_quantity(fmt::format("{} k\u03A9", number), Dimension::resistance).value;
    if (!value || found) return std::nullopt;
    found = value->si;
  }
  return found;
}

// What a name speaks of in the place of what the model has.
struct Misnamed {
  double ohm;
  std::uint32_t node; ///< of the model
  std::string but;    ///< "its model has …"
};

std::optional<Misnamed> misnamed_platinum(Text name, const Resistance_model& model) {
  const bool by_r0 = model.r0 && *model.kind == Model_kind::iec_60751;
  const auto at_zero = model_interval(model, {zero_celsius, zero_celsius});
  if (!by_r0 && !at_zero) return std::nullopt;
  // What was measured, or has leads in it, is not taken for another sensor.
  const Interval has = by_r0 ? written_interval(*model.r0) : *at_zero * Interval{0.5, 2};
  double named = 0;
  bool fits = false;
  each_named(name, [&](double one) {
    named = one;
    fits = fits || has.contains(one);
  });
  if (named == 0 || fits) return std::nullopt;
  return Misnamed{named, by_r0 ? model.r0.node : model.kind.node,
                  fmt::format("its model has {} at 0 °C, where a Pt{} has {}",
                              ohm(by_r0 ? model.r0->si : at_zero->middle()), named, ohm(named))};
}

// A thermistor is named after what it has at 25 °C, or at 20 °C or 0 °C, or where it is rated.
std::optional<Misnamed> misnamed_thermistor(const Resolved_component& component, Text name,
                                            const Resistance_model& model) {
  double platinum = 0;
  each_named(name, [&](double r0) { platinum = r0; });
  if (platinum != 0)
    return Misnamed{platinum, model.kind.node,
                    fmt::format("its kind is `ntc`: a Pt{} is an `rtd`", platinum)};
  const auto named = kilo_ohm_named(name);
  if (!named || !is_bare_ntc(component)) return std::nullopt;
  std::optional<double> at_25;
  for (const double celsius : {25.0, 20.0, 0.0, model.at ? model.at->low.si - zero_celsius : 25.0}) {
    const double kelvin = zero_celsius + celsius;
    const auto band = model_interval(model, {kelvin, kelvin});
    if (!band) continue;
    const double rounded = celsius == 25 ? 0.05 : 0.02; // at another reference a name gives its very value
    if ((*band * Interval{1 - rounded, 1 + rounded}).contains(*named)) return std::nullopt;
    if (celsius == 25) at_25 = band->middle();
  }
  if (!at_25) return std::nullopt;
  return Misnamed{*named, model.kind.node, fmt::format("its model has {} at 25 °C", ohm(*at_25))};
}

std::optional<Misnamed> misnamed(const Resolved_component& component, Text name,
                                 const Resistance_model& model) {
  if (component.is(Component_kind::rtd)) return misnamed_platinum(name, model);
  return component.is(Component_kind::ntc) ? misnamed_thermistor(component, name, model) : std::nullopt;
}

// The part's own document is told: what is mended there may be what all that name it need.
bool said_of_part(const Resolved_component& component, const Resistance_model& model, double ohm) {
  const Value<Text>& name = component.part->part()->component.name;
  const auto there = name ? misnamed(component, *name, model) : std::nullopt;
  return there && there->ohm == ohm;
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto model = component.get(&Component_type::model);
    const auto name = component.get(&Component_type::name);
    if (!name || !model || !model->kind) continue;
    const auto found = misnamed(component, **name, *model);
    const bool own = model.document == component.document;
    if (!found || (!own && said_of_part(component, *model, found->ohm))) continue;
    sink.report(
        own ? found->node : component.placed->part.node,
        fmt::format("{} is named {}, and {}; mend the wrong one", component.id, quoted(**name), found->but));
    sink.relate(*name.document, name->node, "the name");
  }
}

}

extern const Rule r0_contradicts_name = {
    .family = Family::rtd,
    .severity = Severity::warning,
    .summary = "A sensor is named after another resistor than its model's.",
    .check = check,
};

}
