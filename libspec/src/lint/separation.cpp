#include "ohmlore/separation.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "lint/contacts.h"
#include "lint/meter.h"
#include "lint/readings.h"
#include "lint/rule.h"

namespace ohmlore {
namespace {

using namespace rules;

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr Interval unknown = {0, infinity};

Interval above(double x) { return {std::nextafter(x, infinity), infinity}; }
Interval below(double x) { return {0, std::nextafter(x, 0)}; }

// Where a suspect lies as seen from the two leads.
enum class Place : std::uint8_t {
  elsewhere,   ///< no current of the meter flows through it
  across,      ///< it alone
  one_of_many, ///< one of several paths of it, as with a motor of three terminals
  in_series,   ///< one after others, which all must conduct
  in_parallel, ///< beside others
  to_earth,    ///< one lead on it, the other on earth
  somewhere    ///< not known
};

// Found for one test at the first question, kept for the others.
struct Path {
  const Resolved& resolved;
  const Test& test;
  bool known = false; ///< both leads
  Contact first, second;
  mutable std::optional<bool> earthed_at_first, earthed_at_second;
  mutable std::optional<std::optional<Interval>> by_own_model; ///< what the model of its component gives
  mutable std::optional<bool> shared; ///< another part than its component lies on the same two contacts

  Path(const Resolved& all, const Test& t) : resolved(all), test(t) {
    known = t.probes.size() == 2 && t.probes[0] && t.probes[1];
    if (!known) return;
    first = *t.probes[0];
    second = *t.probes[1];
  }
  bool first_earthed() const {
    if (!earthed_at_first) earthed_at_first = known && is_earthed(resolved, first);
    return *earthed_at_first;
  }
  bool second_earthed() const {
    if (!earthed_at_second) earthed_at_second = known && is_earthed(resolved, second);
    return *earthed_at_second;
  }
  bool to_earth() const { return first_earthed() || second_earthed(); }
  // A withdrawn plug is off what the board joins.
  bool withdrawn(const Contact& lead) const { return test.unplug && *test.unplug == lead.connector; }
  bool at(const Contact& lead, const Contact& contact) const {
    return withdrawn(lead) ? lead == contact : are_joined(resolved, lead, contact);
  }
  bool at_first(const Contact& contact) const { return at(first, contact); }
  bool at_second(const Contact& contact) const { return at(second, contact); }
  bool on(Text connector) const {
    return known && (first.connector == connector || second.connector == connector);
  }
};

// A suspected component, and where it can be reached.
struct Suspected_part {
  const Resolved_component& component;
  std::size_t terminals;
  Reach reached;
  const std::vector<const Circuit*>& circuits;

  Suspected_part(const Resolved& resolved, const Resolved_component& part)
      : component(part), terminals(part.contacts.size()), reached(resolved, part),
        circuits(circuits_of(resolved, part)) {}
};

bool holds_component(const Resolved& resolved, const Circuit& circuit, Text component) {
  const auto& holders = circuits_of(resolved, component); // in document order, as they lie in memory
  return std::binary_search(holders.begin(), holders.end(), &circuit);
}

// Whether an element of a circuit, when open, opens the whole, and when shorted, shorts the whole. Empty
// where the component is no element of it. Each circuit is entered once, so that a loop ends.
struct Effect {
  bool open_opens = true, short_shorts = true;
};
std::optional<Effect> effect_in(const Resolved& resolved, const Circuit& circuit, Text component,
                                std::vector<bool>& entered) {
  if (!holds_component(resolved, circuit, component)) return std::nullopt;
  const std::size_t position = resolved.document->profile()->circuits.position_of(circuit);
  if (entered[position]) return std::nullopt;
  entered[position] = true;
  for (const Element& element : circuit.elements) {
    std::optional<Effect> inner;
    if (element.component && *element.component == component) inner = Effect{};
    if (element.circuit)
      if (const Circuit* nested = resolved.circuit(*element.circuit))
        inner = effect_in(resolved, *nested, component, entered);
    if (!inner) continue;
    if (circuit.elements.size() > 1 && circuit.arrangement) {
      if (*circuit.arrangement == Arrangement::series) inner->short_shorts = false;
      if (*circuit.arrangement == Arrangement::parallel) inner->open_opens = false;
    }
    return inner;
  }
  return std::nullopt;
}
std::optional<Effect> effect_in(const Resolved& resolved, const Circuit& circuit, Text component) {
  std::vector<bool> entered(resolved.document->profile()->circuits.size());
  return effect_in(resolved, circuit, component, entered);
}

Place in_circuit(const Path& path, Text component, const Circuit& circuit) {
  const auto effect = effect_in(path.resolved, circuit, component);
  if (!effect) return Place::somewhere;
  if (effect->open_opens && effect->short_shorts) return Place::across;
  if (effect->open_opens) return Place::in_series;
  return effect->short_shorts ? Place::in_parallel : Place::somewhere;
}

// Another part than the test's own lies on the same two contacts.
bool shares_both(const Path& path, const Resolved_component& component) {
  if (path.shared) return *path.shared;
  const auto on_second = path.resolved.lying.at(path.second);
  const auto on_first = path.resolved.lying.at(path.first);
  path.shared = std::any_of(on_first.begin(), on_first.end(), [&](const Lying& thing) {
    const Resolved_component* other = thing.component;
    return other != nullptr && other != &component &&
           std::any_of(on_second.begin(), on_second.end(),
                       [&](const Lying& beside) { return beside.component == other; }) &&
           !never_together(other->placed->when, component.placed->when);
  });
  return *path.shared;
}

// The circuit whose ends the two leads touch; null where none holds the part.
const Circuit* chain_between(const Path& path, const Suspected_part& part) {
  for (const Circuit* circuit : part.circuits) {
    if (circuit->between.size() != 2 || !circuit->between[0] || !circuit->between[1]) continue;
    const Contact &from = *circuit->between[0], &to = *circuit->between[1];
    if ((path.at_first(from) && path.at_second(to)) || (path.at_first(to) && path.at_second(from)))
      return circuit;
  }
  return nullptr;
}

// The two leads on one pair of a model's `pairs`.
std::optional<Interval> pair_interval(const Path& path, const Resolved_component& component,
                                      const Resistance_model& model) {
  const Terminal_pair* pair = path.known ? pair_between(component, model, path.first, path.second) : nullptr;
  return pair != nullptr ? std::optional(toleranced_interval(*pair->resistance, model.tolerance))
                         : std::nullopt;
}

// The part conducts between the two by its model: half of a secondary whose middle lies on the case, say.
bool conducts_between(const Path& path, const Resolved_component& component) {
  const auto model = component.get(&Component_type::model);
  return model && pair_interval(path, component, *model);
}

Place place_of(const Path& path, const Suspected_part& part) {
  const Resolved_component& component = part.component;
  const Test& test = path.test;
  const bool own = test.component && *test.component == component.id;
  if (test.side && *test.side == Side::harness) {
    // End to end of a lead that belongs to the part.
    const bool lead = own && path.known && path.first.connector != path.second.connector &&
                      part.reached.holds(path.first) && part.reached.holds(path.second);
    return lead ? Place::across : Place::elsewhere;
  }
  if (test.expect.with && *test.expect.with == component.id) return Place::across;
  const bool at_part = test.side && *test.side == Side::at_component;
  if (!own && (at_part || !path.known)) return Place::elsewhere;
  const Place alone = part.terminals > 2 ? Place::one_of_many : Place::across;
  if (!path.known) return alone;

  const bool disconnected = stated(*path.resolved.document, test, "disconnect_also", test.disconnect_also);
  if (!at_part)
    if (const Circuit* chain = chain_between(path, part)) return in_circuit(path, component.id, *chain);

  // Between two of its own terminals, of which one is its earth: what leaks is seen there.
  if (own && part.terminals > 2 && path.first_earthed() != path.second_earthed() &&
      !conducts_between(path, component))
    return Place::to_earth;
  const auto reached = [&](const Contact& lead) {
    return !own && path.withdrawn(lead) ? part.reached.holds_off_board(lead) : part.reached.holds(lead);
  };
  const bool on_first = reached(path.first), on_second = reached(path.second);
  if (on_first && on_second) {
    if (own) return !at_part && !disconnected && shares_both(path, component) ? Place::in_parallel : alone;
    return disconnected ? Place::elsewhere : Place::in_parallel;
  }
  if (on_first || on_second) {
    if (on_first ? path.second_earthed() : path.first_earthed())
      return own && part.terminals == 1 ? Place::across : Place::to_earth;
    return own ? (part.terminals > 1 ? Place::somewhere : Place::across) : Place::elsewhere;
  }
  if (own) return path.to_earth() ? Place::to_earth : alone;
  // Perhaps a piece of a chain that holds both.
  if (test.component)
    for (const Circuit* circuit : part.circuits)
      if (holds_component(path.resolved, *circuit, *test.component)) return Place::somewhere;
  return Place::elsewhere;
}

// Where the wires of a connector lie. `alone`: the fault names one pair of its contacts only, so that it is
// the suspected one.
Place place_of(const Path& path, const Suspect& suspect, bool alone) {
  if (!suspect.connector || !path.known || !path.test.side) return Place::somewhere;
  const Connector* connector = path.resolved.connector(*suspect.connector);
  if (connector == nullptr) return Place::somewhere;
  const bool on_board = !connector->mounted || *connector->mounted == Mounting::board;
  const bool touched = path.on(*suspect.connector);
  const auto wire = [&] {
    if (path.to_earth()) return Place::to_earth;
    return alone ? Place::across : Place::one_of_many;
  };
  switch (*path.test.side) {
  case Side::at_component: return Place::elsewhere;
  case Side::at_inline_connector:
    if (on_board) return Place::elsewhere;
    return touched ? wire() : Place::somewhere;
  case Side::harness:
  case Side::at_board_plug:
    if (touched) return wire();
    return on_board ? Place::elsewhere : Place::somewhere;
  }
  return Place::somewhere;
}

std::optional<Interval> find_model_reading(const Path& path, const Resolved_component& component) {
  const auto model = component.get(&Component_type::model);
  if (!model || !model->kind) return std::nullopt;
  if (*model->kind == Model_kind::open && model->above) return Interval{model->above->si, infinity};
  if (*model->kind == Model_kind::closed && model->below) return Interval{0, model->below->si};
  if (model->pairs) return pair_interval(path, component, *model);
  const double room = zero_celsius + 20;
  const double kelvin = path.test.expect.at ? kelvin_interval(*path.test.expect.at).middle() : room;
  if (const auto band = model_interval(*model, {kelvin, kelvin})) return band;
  if (model->at) return model_interval(*model, kelvin_interval(*model->at));
  return model->rows.empty() ? std::nullopt : row_interval(model->rows[0]);
}

std::optional<Interval> model_reading(const Path& path, const Resolved_component& component) {
  if (path.resolved.component_of(path.test) != &component) return find_model_reading(path, component);
  if (!path.by_own_model) path.by_own_model = find_model_reading(path, component);
  return *path.by_own_model;
}

// What a circuit reads while one component in it reads `broken`, by the sum of resistances or conductances.
// Empty where another element's resistance is not known: a contact in a state that nobody states, a diode.
std::optional<Interval> chain_reading(const Path& path, const Circuit& circuit, Text component,
                                      Interval broken, std::vector<const Circuit*>& entered) {
  constexpr std::size_t most = 32; // no chain has so many circuits in it
  if (!circuit.arrangement || entered.size() == most ||
      std::find(entered.begin(), entered.end(), &circuit) != entered.end())
    return std::nullopt;
  entered.push_back(&circuit);
  const bool series = *circuit.arrangement == Arrangement::series;
  const auto inverse = [](Interval x) { return Interval{1 / x.high, 1 / x.low}; }; // of 0 infinity
  Interval sum;
  for (const Element& element : circuit.elements) {
    std::optional<Interval> ohm;
    if (element.component && *element.component == component) {
      ohm = broken;
    } else if (element.component) {
      const Resolved_component* other = path.resolved.component(*element.component);
      if (other != nullptr && !other->is(Component_kind::switch_)) ohm = model_reading(path, *other);
    } else if (element.circuit) {
      if (const Circuit* nested = path.resolved.circuit(*element.circuit))
        ohm = chain_reading(path, *nested, component, broken, entered);
    } else if (element.resistance) {
      ohm = toleranced_interval(*element.resistance, element.tolerance);
    }
    if (!ohm || !(ohm->low >= 0)) return std::nullopt;
    sum = sum + (series ? *ohm : inverse(*ohm));
  }
  return series ? sum : inverse(sum);
}

std::optional<Interval> healthy_of(const Path& path) {
  const Test& test = path.test;
  const Expectation& expect = test.expect;
  if (expect.kind) {
    if (const auto plain = healthy_readings(expect)) return plain;
    switch (*expect.kind) {
    case Expectation_kind::smooth_sweep:
    case Expectation_kind::both_directions:
      if (!expect.min) return std::nullopt;
      return Interval{written_interval(*expect.min).low,
                      expect.max ? written_interval(*expect.max).high : infinity};
    case Expectation_kind::rises_to_open:
      if (!expect.above) return std::nullopt;
      return Interval{written_interval(*expect.above).low, infinity};
    default: return std::nullopt;
    }
  }
  if (stated(*path.resolved.document, test, "expect", test.expect) || !test.component) return std::nullopt;
  const Resolved_component* component = path.resolved.component_of(test);
  if (component == nullptr) return std::nullopt;
  if (test.condition)
    if (const auto* state = component->get(&Component_type::states)->find(*test.condition);
        state != nullptr && state->value && *state->value == Contact_state::open)
      return Interval{open_at_least, infinity};
  return model_reading(path, *component);
}

// Reads one cell: a suspect at a place, its mode, and one test.
struct Reader {
  const Path& path;
  const std::optional<Interval>& healthy;
  Place place;
  double highest_range;                ///< ohm
  const Resolved_component* component; ///< null for a harness
  const Circuit* chain;                ///< that it is measured through; null where alone

  bool expects(Expectation_kind kind) const {
    return path.test.expect.kind && *path.test.expect.kind == kind;
  }
  bool answers(Response_kind kind) const {
    return path.test.response.kind && *path.test.response.kind == kind;
  }
  template <class T>
  bool has(Value<T> Component_type::*member) const {
    return component != nullptr && component->get(member);
  }
  template <class T>
  bool has(Value<T> Component_type::*member, T value) const {
    return has(member) && **component->get(member) == value;
  }

  static Outcome judged(Interval reading, Interval healthy) {
    if (healthy.contains(reading)) return Outcome::passes;
    return healthy.overlaps(reading) ? Outcome::either : Outcome::fails;
  }

  // Of a reading as it is, or of both ways round.
  Outcome outcome(Interval ohm) const {
    if (!healthy) return Outcome::either;
    const Outcome forward = judged(ohm, *healthy);
    const Expectation& expect = path.test.expect;
    if (!expects(Expectation_kind::both_directions) || !expect.reverse_min) return forward;
    const Outcome back =
        judged(ohm, {written_interval(*expect.reverse_min).low,
                     expect.reverse_max ? written_interval(*expect.reverse_max).high : infinity});
    if (forward == Outcome::fails || back == Outcome::fails) return Outcome::fails;
    return forward == back ? forward : Outcome::either;
  }

  Cell cell(Shows shows, Interval ohm) const {
    Outcome found = outcome(ohm);
    if (place == Place::one_of_many && found == Outcome::fails) found = Outcome::either;
    return {shows, ohm, found};
  }
  Cell unchanged() const { return {Shows::healthy, healthy.value_or(unknown), Outcome::passes}; }
  Cell anything() const { return {Shows::anything, unknown, Outcome::either}; }
  Cell seen(Shows shows, Interval ohm) const {
    return {shows, ohm, place == Place::one_of_many ? Outcome::either : Outcome::fails};
  }

  // Compared with a twin, or watched while something moves: no band says what fails.
  bool shows_every_break() const {
    return expects(Expectation_kind::pair) || expects(Expectation_kind::smooth_sweep) ||
           expects(Expectation_kind::rises_to_open) || answers(Response_kind::toggles_with_magnet);
  }

  // What the chain around it reads, where that is known.
  std::optional<Interval> through_chain(double broken) const {
    if (chain == nullptr) return std::nullopt;
    std::vector<const Circuit*> entered;
    return chain_reading(path, *chain, component->id, {broken, broken}, entered);
  }

  // Traces of metal and damp may conduct on beside the break of a closed path, or of a wire.
  Interval of_open() const {
    const bool contact = component != nullptr &&
                         (component->is(Component_kind::switch_) || component->is(Component_kind::fuse));
    const double from = healthy   ? broken_from(path.resolved.component_of(path.test), *healthy)
                        : contact ? broken_at_least
                                  : infinity;
    return {std::min(from, highest_range), infinity};
  }

  Cell open() const {
    // A lamp across the contact or a bleeder conducts on.
    const bool bridged = has(&Component_type::indicator, true) || has(&Component_type::bleeder);
    if (!bridged && !shows_every_break())
      if (const auto ohm = through_chain(infinity))
        return ohm->low >= highest_range ? cell(Shows::open, of_open()) : cell(Shows::higher, *ohm);
    // Its bleeder carries next to nothing beside a winding.
    if (place == Place::in_parallel && component != nullptr && component->is(Component_kind::capacitor))
      return unchanged();
    if (place == Place::in_parallel || bridged) {
      const double least = place == Place::in_parallel && healthy ? healthy->low : closed_at_most;
      return cell(Shows::higher, {least, infinity});
    }
    const Interval ohm = of_open();
    return shows_every_break() ? seen(Shows::open, ohm) : cell(Shows::open, ohm);
  }

  // Of a test that states the least that is healthy and no most: that least, without the rounding of it.
  std::optional<double> stated_least() const {
    if (!healthy || !std::isinf(healthy->high)) return std::nullopt;
    const Expectation& expect = path.test.expect;
    if (expect.above) return expect.above->si;
    return expect.min ? expect.min->si : healthy->low;
  }

  // What a test that states a least reading calls too low is a short to whoever wrote it.
  Interval of_short() const {
    const double near_zero = near_zero_at_most(healthy);
    const auto least = stated_least();
    if (least && *least > near_zero) return below(*least);
    // A burnt contact conducts worse than a wire, and is closed up to where a broken one begins.
    const bool contact = component != nullptr && component->is(Component_kind::switch_);
    return {0, contact && healthy && healthy->low > broken_at_least ? broken_at_least : near_zero};
  }
  // Nothing below the stated least is healthy, however coarsely that is written.
  Cell nearly_nothing(Interval ohm) const {
    const auto least = stated_least();
    return shows_every_break() || (least && ohm.high < *least) ? seen(Shows::near_zero, ohm)
                                                               : cell(Shows::near_zero, ohm);
  }

  Cell shorted() const {
    // Behind a rectifier or electronics it reads as these do.
    if (has(&Component_type::drive, Drive::rectified) || has(&Component_type::drive, Drive::economiser) ||
        has(&Component_type::suppression, Suppression::bridge) ||
        has(&Component_type::suppression, Suppression::series_diode))
      return anything();
    if (!has(&Component_type::series_resistance) && !shows_every_break())
      if (const auto ohm = through_chain(0))
        return ohm->high <= closed_at_most ? nearly_nothing(of_short()) : cell(Shows::lower, *ohm);
    if (place == Place::in_series) return cell(Shows::lower, {0, healthy ? healthy->high : infinity});
    Interval ohm = of_short();
    if (has(&Component_type::series_resistance)) {
      const double series = (**component->get(&Component_type::series_resistance)).si;
      // A short before the resistor reads nothing, one behind it what that has.
      const auto least = stated_least();
      const double high = std::max(series * 1.1 + closed_at_most, ohm.high);
      ohm = {least && high < *least ? 0 : series * 0.9, high};
    }
    return nearly_nothing(ohm);
  }

  // What the test calls healthy may be much wider than the part: then drift need not leave it.
  Interval band() const {
    if (component == nullptr || !path.test.component || *path.test.component != component->id)
      return *healthy;
    const auto part = model_reading(path, *component);
    return part && healthy->width() > 2 * part->width() ? *part : *healthy;
  }

  Cell drifted(bool up) const {
    const Shows shows = up ? Shows::higher : Shows::lower;
    if (expects(Expectation_kind::pair) || expects(Expectation_kind::rises_to_open) || !healthy)
      return {shows, unknown, Outcome::either};
    // Of several parts one has drifted: by less than the band of all, perhaps.
    if (place == Place::in_series || place == Place::in_parallel)
      return cell(shows, up ? Interval{healthy->low, infinity} : Interval{0, healthy->high});
    const Interval around = band();
    if (up) return cell(shows, around.high < infinity ? above(around.high) : around);
    return cell(shows, around.low > 0 ? below(around.low) : around);
  }

  Cell badly_closed() const {
    if (!healthy) return {Shows::higher, unknown, Outcome::either};
    // What a closed contact may read is the limit for its contact resistance.
    if (healthy->low <= 0 && healthy->high < infinity && place != Place::in_parallel)
      return cell(Shows::higher, above(healthy->high));
    return cell(Shows::higher, {healthy->low, infinity});
  }

  // A contact; elsewhere the word means what the part moves, which the leads do not see.
  Cell stuck(bool is_open) const {
    const Component_kind kind = component != nullptr ? component->kind() : Component_kind::electronic;
    if (kind == Component_kind::switch_ || kind == Component_kind::fuse) return is_open ? open() : shorted();
    if (kind == Component_kind::coil || kind == Component_kind::electronic) return unchanged();
    return anything();
  }

  // It opens the terminal that it sits at: between the others the windings still read.
  Cell tripped() const {
    if (component == nullptr) return anything();
    if (component->is(Component_kind::switch_) || component->is(Component_kind::fuse)) return open();
    const auto protector = component->get(&Component_type::protector);
    if (protector && protector->position && component->placed != nullptr && path.known) {
      const auto* terminal = component->placed->terminals.find(*protector->position);
      if (terminal == nullptr || !terminal->value) return open();
      if (*terminal->value != path.first && *terminal->value != path.second) return unchanged();
      Reader through = *this;
      through.place = Place::across;
      return through.open();
    }
    return open();
  }

  // Warmth shows some breaks and bending others: only what moves the lead or the wiper is sure to.
  Cell intermittent() const {
    const bool moved = expects(Expectation_kind::smooth_sweep) || answers(Response_kind::smooth_sweep) ||
                       answers(Response_kind::steady_when_moved);
    return moved ? seen(Shows::unsteady, unknown) : Cell{Shows::unsteady, unknown, Outcome::either};
  }

  // Inside a chain of both kinds: known where the chain is.
  Cell in_the_midst(Mode mode) const {
    if (mode == Mode::open && through_chain(infinity)) return open();
    if (mode == Mode::short_ && through_chain(0)) return shorted();
    return anything();
  }

  Cell in(Mode mode) const {
    if (place == Place::elsewhere) return unchanged();
    // An electrode or an anode has one contact; its way to earth is the part itself.
    const bool way_to_earth =
        place == Place::to_earth || (place == Place::one_of_many && path.to_earth()) ||
        (place == Place::across && component != nullptr && component->contacts.size() == 1);
    if (mode == Mode::leakage_to_earth)
      return way_to_earth ? cell(Shows::lower, {0, healthy ? healthy->high : infinity}) : unchanged();
    if (mode == Mode::wet_or_corroded || mode == Mode::consumed) return anything();
    // A chafed wire shorts to the casing, or to another wire.
    if (place == Place::to_earth && component == nullptr && mode == Mode::short_)
      return {Shows::near_zero, of_short(), Outcome::either};
    if (place == Place::to_earth) return unchanged();
    if (mode == Mode::seized) {
      const bool moved = expects(Expectation_kind::smooth_sweep) || answers(Response_kind::smooth_sweep) ||
                         answers(Response_kind::toggles_with_magnet);
      return moved ? seen(Shows::healthy, healthy.value_or(unknown)) : unchanged();
    }
    if (mode == Mode::low_capacitance)
      return expects(Expectation_kind::rises_to_open) ? anything() : unchanged();
    if (place == Place::somewhere) return in_the_midst(mode);
    switch (mode) {
    case Mode::open: return open();
    case Mode::short_: return shorted();
    case Mode::drift_high: return drifted(true);
    case Mode::drift_low: return drifted(false);
    case Mode::high_contact_resistance: return badly_closed();
    case Mode::stuck_open: return stuck(true);
    case Mode::stuck_closed: return stuck(false);
    case Mode::protector_open: return tripped();
    case Mode::intermittent: return intermittent();
    case Mode::shorted_turns:
      // A few turns stay within the tolerance.
      return {Shows::lower, {0, healthy ? healthy->high : infinity}, Outcome::either};
    default: return anything();
    }
  }
};

// What several faults ask of one test, and of one component.
struct Asked_test {
  Path path;
  std::optional<Interval> healthy;
};
struct Asked {
  const Resolved& resolved;
  double highest_range;
  std::vector<std::optional<Asked_test>> tests;
  std::vector<std::optional<Suspected_part>> parts;
  /// Of one fault after the other: by test, what one suspect is to it.
  std::vector<const Path*> paths;
  std::vector<Place> places;
  std::vector<const Circuit*> chains;

  explicit Asked(const Resolved& all)
      : resolved(all), highest_range(rules::highest_range(reference_meter(all.surroundings.corpus))),
        tests(all.of_tests.size()), parts(all.components.size()) {}

  const Asked_test& of(const Test& test) {
    auto& asked = tests[resolved.document->profile()->tests.position_of(test)];
    if (!asked) {
      asked.emplace(Asked_test{Path(resolved, test), {}});
      asked->healthy = healthy_of(asked->path);
    }
    return *asked;
  }
  const Suspected_part& of(const Resolved_component& component) {
    auto& asked = parts[static_cast<std::size_t>(&component - resolved.components.data())];
    if (!asked) asked.emplace(resolved, component);
    return *asked;
  }
};

// The tests that a fault names, each once.
std::vector<Named_test> named_tests(Asked& asked, const Fault& fault) {
  std::vector<Named_test> tests;
  std::size_t most = 0;
  for (const Suspect& suspect : fault.suspects) most += suspect.decided_by.size();
  tests.reserve(most);
  for (const Suspect& suspect : fault.suspects)
    for (const Value<Text>& id : suspect.decided_by) {
      const Test* test = id ? asked.resolved.test(*id) : nullptr;
      if (test == nullptr || !*test) continue; // a dangling reference: another rule's finding
      if (std::none_of(tests.begin(), tests.end(), [&](const Named_test& t) { return t.test == test; }))
        tests.push_back({*id, test, asked.of(*test).healthy});
    }
  return tests;
}

// True where the tests touch one pair of a connector's contacts only.
bool one_pair(const std::vector<Named_test>& tests, Text connector) {
  const Test* first = nullptr;
  for (const Named_test& named : tests) {
    const auto& probes = named.test->probes;
    if (std::none_of(probes.begin(), probes.end(),
                     [&](const Value<Contact>& probe) { return probe && probe->connector == connector; }))
      continue;
    if (first != nullptr && !same_ends(first->probes, probes)) return false;
    first = named.test;
  }
  return true;
}

Separation separation(Asked& asked, const Fault& fault) {
  Separation matrix{named_tests(asked, fault), {}, {}};
  auto& paths = asked.paths;
  auto& places = asked.places;
  auto& chains = asked.chains;
  paths.clear();
  for (const Named_test& named : matrix.tests) paths.push_back(&asked.of(*named.test).path);

  std::size_t modes = 0;
  for (const Suspect& suspect : fault.suspects) modes += std::max<std::size_t>(suspect.modes.size(), 1);
  matrix.rows.reserve(modes);
  matrix.cells = std::make_unique<Cell[]>(modes * paths.size());
  for (const Suspect& suspect : fault.suspects) {
    if (!suspect || !suspect.kind) continue;
    const Resolved_component* component =
        suspect.component ? asked.resolved.component(*suspect.component) : nullptr;
    places.assign(paths.size(), Place::elsewhere);
    chains.assign(paths.size(), nullptr);
    if (component != nullptr && !paths.empty()) {
      const Suspected_part& part = asked.of(*component);
      for (std::size_t i = 0; i < paths.size(); ++i) {
        places[i] = place_of(*paths[i], part);
        if (places[i] == Place::in_series || places[i] == Place::in_parallel || places[i] == Place::somewhere)
          chains[i] = chain_between(*paths[i], part);
      }
    } else if (*suspect.kind == Suspect_kind::component) {
      places.assign(paths.size(), Place::somewhere);
    } else if (*suspect.kind == Suspect_kind::harness) {
      const bool alone = !suspect.connector || one_pair(matrix.tests, *suspect.connector);
      for (std::size_t i = 0; i < paths.size(); ++i) places[i] = place_of(*paths[i], suspect, alone);
    }
    const auto add_row = [&](std::optional<Mode> mode) {
      Cell* const cells = matrix.cells.get() + matrix.rows.size() * paths.size();
      matrix.rows.push_back({&suspect, mode, {cells, paths.size()}});
      for (std::size_t i = 0; i < paths.size(); ++i) {
        const Reader reader{*paths[i], matrix.tests[i].healthy, places[i], asked.highest_range, component,
                            chains[i]};
        cells[i] = mode                            ? reader.in(*mode)
                   : places[i] == Place::elsewhere ? reader.unchanged()
                                                   : reader.anything();
      }
    };
    for (const Value<Mode>& mode : suspect.modes)
      if (mode) add_row(*mode);
    if (suspect.modes.empty()) add_row(std::nullopt);
  }
  return matrix;
}

}

Separation separation(const Resolved& resolved, const Fault& fault) {
  Asked asked(resolved);
  return separation(asked, fault);
}

std::vector<Separation> separations(const Resolved& resolved) {
  Asked asked(resolved);
  std::vector<Separation> all;
  all.reserve(resolved.document->profile()->faults.size());
  for (const auto& fault : resolved.document->profile()->faults)
    all.push_back(separation(asked, fault.value));
  return all;
}

}
