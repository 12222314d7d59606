#include "lint/network.h"

#include <algorithm>
#include <iterator>
#include <span>

#include "lint/contacts.h"
#include "lint/measured.h"
#include "lint/read.h"
#include "lint/readings.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

Text terminal_name(const Resolved_component& component, const Value<Contact>& contact) {
  for (const auto& terminal : component.placed->terminals)
    if (terminal.value && *terminal.value == *contact) return terminal.id;
  return component.document->string(contact.node);
}

// What a wiper reads depends on where it stands: two readings may be of two networks.
bool declared_linear(const Resolved_component& component) {
  return !component.is(Component_kind::potentiometer) && !component.lacks_part() &&
         is_declared_resistive(component);
}

bool is_linear(const Resolved& resolved, const Element& element) {
  if (!element.kind || *element.kind == Element_kind::diode) return false;
  if (!element.component) return element.kind.value != Element_kind::component;
  const Resolved_component* component = resolved.component(*element.component);
  return component != nullptr && declared_linear(*component);
}

bool is_linear(const Resolved& resolved, const Circuit& circuit) {
  const auto& within = circuits_in(resolved, circuit);
  return std::all_of(within.begin(), within.end(), [&](const Circuit* each) {
    return std::all_of(each->elements.begin(), each->elements.end(),
                       [&](const Element& element) { return is_linear(resolved, element); });
  });
}

// Declared so, all of it, and there in every appliance.
bool is_linear(const Resolved& resolved, const Lying& thing) {
  if (thing.circuit != nullptr) return is_linear(resolved, *thing.circuit);
  return declared_linear(*thing.component) && !thing.component->placed->when;
}

std::span<const Value<Contact>> ends_of(const Lying& thing) {
  if (thing.circuit != nullptr) return thing.circuit->between;
  return thing.component->contacts;
}

// Everything that the harness joins with a contact of a withdrawn plug: declared linear, and ending nowhere
// but on that plug. What is found holds for every contact on the way.
bool all_linear_behind(const Subject& subject, const Value<Contact>& start) {
  const Resolved& resolved = subject.resolved;
  auto& known = subject.worked_out->linear_behind;
  if (known.empty()) known.resize(resolved.lying.size());
  const std::size_t first = resolved.number_of(start);
  if (known[first]) return *known[first];
  std::vector<std::size_t> reached = {first};
  std::vector<bool> seen(known.size());
  seen[first] = true;
  bool linear = true;
  for (std::size_t next = 0; linear && next < reached.size(); ++next)
    for (const Lying& thing : resolved.lying.at(reached[next])) {
      if (thing.supply != nullptr) continue;
      linear = linear && is_linear(resolved, thing);
      for (const Value<Contact>& end : ends_of(thing)) {
        if (!end || !linear) continue;
        const std::size_t number = resolved.number_of(end);
        linear = end->connector == start->connector && known[number] != false;
        if (seen[number]) continue;
        seen[number] = true;
        reached.push_back(number);
      }
    }
  for (const std::size_t contact : reached) known[contact] = linear;
  return linear;
}

bool is_certain(const Subject& subject, const Resolved_component& component, const Test& test) {
  if (!declared_linear(component) || test.positive || !temperature_of(test) ||
      !fully_read(subject.document, test.expect))
    return false;
  if (*test.side == Side::at_component) return true;
  return test.unplug && test.probes[0]->connector == *test.unplug &&
         all_linear_behind(subject, test.probes[0]);
}

std::vector<Reading> stated_pairs(const Resolved_component& component) {
  std::vector<Reading> readings;
  const Resistance_model& model = *component.own->model;
  // A nominal alone may be off by more than its last digit.
  const bool certain = declared_linear(component) && model.tolerance;
  for (const Terminal_pair& pair : model.pairs) {
    if (!pair.from || !pair.to || !pair.resistance || *pair.from == *pair.to) continue;
    Table_row row; // a nominal with its tolerance, rounded as people round
    row.nominal = pair.resistance;
    row.tolerance = model.tolerance;
    const auto ohm = row_interval(row, Taken::generously);
    if (!ohm) continue;
    readings.push_back({*pair.from, *pair.to, *ohm, pair.node, nullptr, component.id, certain});
  }
  return readings;
}

// The reading that a test states; empty where it states none that could be one of a network.
std::optional<Reading> stated_reading(const Subject& subject, const Test& test) {
  if (!test.component || !test.side || *test.side == Side::harness || !has_both_ends(test.probes) ||
      *test.probes[0] == *test.probes[1] || !fully_read(subject.document, test))
    return std::nullopt;
  const auto readings = healthy_readings(subject, test);
  if (!readings) return std::nullopt;
  return Reading{{}, {}, *readings, test.expect.node, &test, *test.component, false};
}

// k of a winding whose metal is stated, or that has a copper model.
std::optional<Interval> k_of(const Resolved_component& component) {
  const auto model = component.get(&Component_type::model);
  if (model && model->kind && *model->kind == Model_kind::copper)
    return metal_k(*with_metal(*model, component));
  const auto metal = component.get(&Component_type::metal);
  if (!component.is(Component_kind::winding) || !metal) return std::nullopt;
  Resistance_model of_metal;
  of_metal.metal = *metal;
  return metal_k(of_metal);
}

// An open or closed path is one at every temperature.
bool at_any_temperature(const Reading& reading) {
  return *reading.test->expect.kind != Expectation_kind::band;
}

// A metal at t has R(t) = R(20 °C) (k + t)/(k + 20 °C).
void bring_to_20(Readings& readings, Interval k) {
  for (Reading& reading : readings.all) {
    if (at_any_temperature(reading)) continue;
    const Interval t = celsius_of(kelvin_interval(*reading.test->expect.at, Taken::generously));
    const auto at_20 = [&](double with, double at) {
      return reading.ohm * (Interval{with, with} + Interval{20, 20}) /
             (Interval{with, with} + Interval{at, at});
    };
    const Interval cold = hull(at_20(k.low, t.low), at_20(k.high, t.low));
    const Interval hot = hull(at_20(k.low, t.high), at_20(k.high, t.high));
    reading.ohm = hull(cold, hot);
  }
  readings.brought_to_20 = true;
}

// Readings of one state, each with those of its temperature, or with all others of metal whose k is known.
// `same_state` compares two tests.
template <class Same_state>
std::vector<Readings> grouped(const std::vector<Reading>& readings, const std::optional<Interval>& k,
                              Same_state same_state) {
  std::vector<Readings> groups;
  const auto add_where = [&](const Reading& reading, auto comparable) {
    bool added = false;
    for (Readings& group : groups) {
      const Test& first = *group.all.front().test;
      if (!same_state(first, *reading.test) || !comparable(first)) continue;
      group.all.push_back(reading);
      added = true;
    }
    if (!added) groups.push_back({.all = {reading}});
  };
  for (const Reading& reading : readings)
    if (!at_any_temperature(reading))
      add_where(reading, [&](const Test& first) {
        return same_temperature(first, *reading.test) ||
               (k && temperature_of(first) && temperature_of(*reading.test));
      });
  for (const Reading& reading : readings)
    if (at_any_temperature(reading)) add_where(reading, [](const Test&) { return true; });
  for (Readings& group : groups)
    if (k && std::any_of(group.all.begin(), group.all.end(), [&](const Reading& reading) {
          return !at_any_temperature(reading) && !same_temperature(*group.all.front().test, *reading.test);
        }))
      bring_to_20(group, *k);
  return groups;
}

// What a meter reads there depends on its polarity, its voltage or on time, or on more than the part.
bool reads_oddly(const Resolved_component& component) {
  switch (component.kind()) {
  case Component_kind::electronic:
  case Component_kind::capacitor:
  case Component_kind::electrode:
  case Component_kind::igniter:
  case Component_kind::photocell:
  case Component_kind::thermocouple:
  case Component_kind::anode:
  case Component_kind::switch_: return true;
  case Component_kind::coil: return !is_plain_coil(component);
  default: return bool(component.get(&Component_type::protector));
  }
}

}

const Reading* Readings::between(Text from, Text to) const {
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const Reading& reading) { return reading.joins(from, to); });
  return found == all.end() ? nullptr : &*found;
}

namespace {
// The terminals that readings name, numbered in the order in which they come.
struct Terminals {
  std::vector<Text> names;
  Id_index numbers;

  explicit Terminals(const Readings& readings) {
    names.reserve(2 * readings.all.size());
    numbers.reserve(2 * readings.all.size());
  }
  std::size_t number(Text name) {
    const std::size_t number = numbers.add(name, names.size());
    if (number == names.size()) names.push_back(name);
    return number;
  }
};
}

std::vector<Text> Readings::terminals() const {
  Terminals terminals(*this);
  for (const Reading& reading : all) {
    terminals.number(reading.from);
    terminals.number(reading.to);
  }
  return std::move(terminals.names);
}

// Two windings without a joint take two readings to contradict; all else takes three, as one way round has.
static std::size_t enough_readings(const Resolved_component& component) {
  return component.contacts.size() > 2 ? 2 : 3;
}

static std::vector<Readings> find_readings(const Subject& subject, const Resolved_component& component) {
  std::vector<Readings> groups;
  if (component.own->model->pairs && fully_read(*component.document, *component.own->model))
    groups.push_back({.all = stated_pairs(component)});
  if (component.placed == nullptr || tests_of(subject, component) < enough_readings(component)) return groups;
  std::vector<Reading> readings;
  readings.reserve(tests_of(subject, component));
  each_test_of(subject, component, [&](const Test& test) {
    auto reading = stated_reading(subject, test);
    if (!reading) return;
    reading->from = terminal_name(component, test.probes[0]);
    reading->to = terminal_name(component, test.probes[1]);
    reading->certain = is_certain(subject, component, test);
    readings.push_back(*reading);
  });
  auto of_tests = grouped(readings, k_of(component),
                          [](const Test& a, const Test& b) { return *a.condition == *b.condition; });
  std::move(of_tests.begin(), of_tests.end(), std::back_inserter(groups));
  return groups;
}

const std::vector<Readings>& readings_of(const Subject& subject, const Resolved_component& component) {
  auto& found = subject.worked_out->readings[subject.resolved.position_of(component)];
  if (!found) found = find_readings(subject, component);
  return *found;
}

static std::vector<Readings> find_readings_at_plugs(const Subject& subject) {
  // A reading that is part of a way round shares both its ends with others: few do.
  struct Candidate {
    const Test* test;
    Text from, to;    // names of the two contacts
    std::size_t a, b; // their numbers
  };
  const Resolved& resolved = subject.resolved;
  std::vector<Candidate> candidates;
  candidates.reserve(resolved.of_tests.size());
  std::vector<std::size_t> ending_at(resolved.lying.size() + resolved.joined.size());
  each_test(subject, [&](Text, const Test& test) {
    if (!test.side || *test.side != Side::at_board_plug || test.condition || test.positive ||
        !has_both_ends(test.probes))
      return;
    const Resolved_component* component = resolved.component_of(test);
    if (component == nullptr || !component->known_kind || reads_oddly(*component)) return;
    if (component->placed->when) return; // not in every appliance
    const auto set_of = [&](const Value<Contact>& probe) {
      return test.unplug ? nullptr : joined_set(resolved, *probe);
    };
    const auto number = [&](const Value<Contact>& probe, const std::vector<Contact>* set) {
      if (set == nullptr) return resolved.number_of(probe);
      const std::size_t of_first = resolved.lying.number_of(set->front());
      return of_first != Contact_numbers::npos
                 ? of_first
                 : resolved.lying.size() + static_cast<std::size_t>(set - resolved.joined.data());
    };
    const auto name = [&](const Value<Contact>& probe, const std::vector<Contact>* set) {
      return set == nullptr ? subject.document.string(probe.node)
                            : subject.worked_out->arena.keep(text_of(set->front()));
    };
    const Value<Contact>&from = test.probes[0], &to = test.probes[1];
    const auto *with_from = set_of(from), *with_to = set_of(to);
    const std::size_t a = number(from, with_from), b = number(to, with_to);
    if (a == b) return;
    ++ending_at[a];
    ++ending_at[b];
    candidates.push_back({&test, name(from, with_from), name(to, with_to), a, b});
  });
  std::vector<Reading> readings;
  for (const Candidate& candidate : candidates) {
    if (ending_at[candidate.a] < 2 || ending_at[candidate.b] < 2) continue;
    const Test& test = *candidate.test;
    auto reading = stated_reading(subject, test);
    if (!reading) continue;
    reading->from = candidate.from;
    reading->to = candidate.to;
    reading->certain = is_certain(subject, *resolved.component_of(test), test);
    readings.push_back(std::move(*reading));
  }
  auto groups = grouped(readings, std::nullopt, same_preparation);
  const auto of_one = [](const Readings& group) {
    return std::all_of(group.all.begin(), group.all.end(),
                       [&](const Reading& r) { return r.component == group.all.front().component; });
  };
  std::erase_if(groups, of_one);
  for (Readings& group : groups) group.of_plug = true;
  return groups;
}

const std::vector<Readings>& readings_at_plugs(const Subject& subject) {
  auto& at_plugs = subject.worked_out->at_plugs;
  if (!at_plugs) at_plugs = find_readings_at_plugs(subject);
  return *at_plugs;
}

bool taken_alike(const Reading& a, const Reading& b) {
  if (!a.certain || !b.certain) return false;
  if (a.test == nullptr || b.test == nullptr) return a.test == b.test;
  return *a.test->side == *b.test->side && same_preparation(*a.test, *b.test) && same_note(*a.test, *b.test);
}

std::vector<Between> numbered(const Readings& readings, bool without_leads) {
  Terminals terminals(readings);
  std::vector<Between> numbered;
  numbered.reserve(readings.all.size());
  for (const Reading& reading : readings.all) {
    Interval ohm = reading.ohm;
    if (without_leads && reading.test != nullptr)
      ohm.low = std::max((ohm - Interval{most_leads, most_leads}).low, 0.0);
    const std::size_t from = terminals.number(reading.from);
    numbered.push_back({from, terminals.number(reading.to), ohm});
  }
  return numbered;
}

std::string ends_of(const Reading& reading) { return fmt::format("{} to {}", reading.from, reading.to); }

}
