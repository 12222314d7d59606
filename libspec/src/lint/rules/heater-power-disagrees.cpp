#include "lint/power.h"
#include "lint/windings.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// V²/P, and what a wire element of that rating reads cold: up to 10 % less than hot (common practice, no
// source).
struct Rated {
  double ohm;
  Interval cold;

  Rated(double volt_squared_over_p, double watt)
      : ohm(volt_squared_over_p), cold(Interval{ohm, ohm} * allowed_by_rating(watt) * Interval{0.9, 1}) {}
};

// What lies between the two ends that are read, over V²/P of the whole rating, and what that is.
struct Share {
  Interval times;
  std::string_view what;
};
constexpr Share whole = {{1, 1}, "a wire element reads"};
// Each of three elements in star has U/√3 and a third of the power, so that it has V²/P itself, and two lines
// read two of them.
constexpr Share one_in_star = {{1, 1}, "one of three wire elements in star reads"};
constexpr Share two_in_star = {{2, 2}, "two of three wire elements in star read"};
constexpr Share in_star = {{1, 2}, "one or two of three wire elements in star read"};
// One in delta has a third of the power at the whole voltage. A part document does not say how it is fed.
constexpr Share anyhow = {{1, 3}, "one element, or one or two of three in star or delta, read"};

// Whether something was found.
bool check_band(Sink& sink, Node_id node, Interval band, const Rated& rated, const Share& share) {
  const Interval expected = rated.cold * share.times;
  if (band.overlaps(expected)) return false;
  sink.report(node, fmt::format("{} beside a rating that makes V²/P = {}: {} {} cold; look at voltage, power "
                                "and resistance, and whether the rating is that of one element",
                                ohm(band), ohm(rated.ohm), share.what, ohm(expected)));
  return true;
}

void check_bands(const Subject& subject, const Resolved_component& component, const Rated& rated,
                 const Share& share, Sink& sink) {
  each_band_at_room(subject, component,
                    [&](Node_id node, Interval band) { check_band(sink, node, band, rated, share); });
}

// The contacts of a component may tell more of the model of its part than the part document does. What
// contradicts that already is told there.
void check_model_of_part(const Resolved_component& component, const Rated& rated, const Share& share,
                         Sink& sink) {
  const auto model = component.get(&Component_type::model);
  if (!is_rated_between_lines(component) || model.document == component.document || model->pairs) return;
  const auto band = band_at_20(*model);
  if (band && band->overlaps(rated.cold * anyhow.times) &&
      check_band(sink, component.placed->part.node, *band, rated, share))
    sink.relate(*model.document, model->node, "the model of the part");
}

// A line or the common end of a star, where its component is one.
bool is_end_of_star(const Resolved& resolved, const Keyed<Value<Contact>>::Entry& terminal) {
  return terminal.value && !is_earthed(resolved, terminal.value);
}

// The terminals of what may be a star, in a part document those of its pairs.
std::vector<Text> ends_of_star(const Subject& subject, const Resolved_component& component) {
  std::vector<Text> ends;
  if (component.placed != nullptr) {
    for (const auto& terminal : component.placed->terminals)
      if (is_end_of_star(subject.resolved, terminal)) ends.push_back(terminal.id);
  } else {
    for (const Readings& readings : readings_of(subject, component))
      for (const Text terminal : readings.terminals()) ends.push_back(terminal);
  }
  return ends;
}

// Three elements in star: three lines and their common end, as the names of the terminals say.
bool is_star(const std::vector<Text>& ends) {
  return ends.size() == 4 &&
         std::count_if(ends.begin(), ends.end(), [&](Text end) { return is_common(end, ends); }) == 1;
}

// Not from an element to earth, say.
bool is_within_star(const Resolved& resolved, const Resolved_component& component, const Reading& reading) {
  if (component.placed == nullptr) return true;
  const auto& terminals = component.placed->terminals;
  return std::count_if(terminals.begin(), terminals.end(), [&](const auto& terminal) {
           return (terminal.id == reading.from || terminal.id == reading.to) &&
                  is_end_of_star(resolved, terminal);
         }) == 2;
}

// A reading without what it allows for rounding.
Interval as_written(const Subject& subject, const Resolved_component& component, const Reading& reading) {
  if (reading.test != nullptr) return expected(subject, *reading.test).value_or(reading.ohm);
  const Resistance_model& model = *component.own->model;
  for (const Terminal_pair& pair : model.pairs)
    if (pair.node == reading.node) return toleranced_interval(*pair.resistance, model.tolerance);
  return reading.ohm;
}

void check_star(const Subject& subject, const Resolved_component& component, const std::vector<Text>& ends,
                const Rated& rated, Sink& sink) {
  check_bands(subject, component, rated, in_star, sink);
  check_model_of_part(component, rated, in_star, sink);
  for (const Readings& readings : readings_of(subject, component))
    for (const Reading& reading : readings.all) {
      const Test* test = reading.test;
      if (test != nullptr && (*test->expect.kind != Expectation_kind::band || !at_room(test->expect)))
        continue;
      if (!is_within_star(subject.resolved, component, reading)) continue;
      const Share& share =
          is_common(reading.from, ends) || is_common(reading.to, ends) ? one_in_star : two_in_star;
      if (!reading.ohm.overlaps(rated.cold * share.times))
        check_band(sink, reading.node, as_written(subject, component, reading), rated, share);
    }
}

std::optional<Rated> rated_by(const Resolved_component& component) {
  const auto ohm = rated_resistance(component);
  if (!ohm) return std::nullopt;
  return Rated(*ohm, (*component.get(&Component_type::rated_power))->si);
}

std::optional<Rated> rated_by(const Resistance_model& model) {
  if (!model.kind || *model.kind != Model_kind::power || !model.power) return std::nullopt;
  const auto ohm = nominal_resistance(model, zero_celsius + 20);
  if (!ohm) return std::nullopt;
  return Rated(*ohm, model.power->si);
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto element = component.get(&Component_type::element);
    const bool heats = component.is(Component_kind::heater) || component.is(Component_kind::igniter);
    if (!heats || !element || **element != Heater_element::wire) continue;
    auto rated = rated_by(component);
    if (may_be_three_phase(subject.resolved, component)) {
      // Other elements than those of a star at its line voltage share the power in ways that nothing states.
      if (!rated || !is_rated_between_lines(component)) continue;
      const auto ends = ends_of_star(subject, component);
      if (is_star(ends))
        check_star(subject, component, ends, *rated, sink);
      else if (component.placed == nullptr && !component.own->model->pairs)
        check_bands(subject, component, *rated, anyhow, sink);
      continue;
    }
    const auto model = component.get(&Component_type::model);
    if (!rated && model) rated = rated_by(*model);
    if (!rated) continue;
    check_bands(subject, component, *rated, whole, sink);
    if (component.placed != nullptr) check_model_of_part(component, *rated, whole, sink);
  }
}

}

extern const Rule heater_power_disagrees = {
    .family = Family::heater,
    .severity = Severity::warning,
    .summary = "The resistance of a wire heater does not fit its rated voltage and power.",
    .check = check,
    .goes_by_absence = true,
};

}
