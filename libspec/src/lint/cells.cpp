#include "lint/cells.h"

#include <algorithm>
#include <cmath>

#include "lint/contacts.h"
#include "lint/readings.h"
#include "lint/rule.h"
#include "model/names.h"
#include "physics/thresholds.h"

namespace ohmlore::rules {
namespace {

constexpr Interval unknown = {0, infinity};

Interval above(double x) { return {std::nextafter(x, infinity), infinity}; }
Interval below(double x) { return {0, std::nextafter(x, 0)}; }

std::optional<Interval> find_model_reading(const Path& path, const Resolved_component& component) {
  const auto model = component.get(&Component_type::model);
  if (!model || !model->kind) return std::nullopt;
  if (const auto path_of_contact = threshold_interval(*model)) return path_of_contact;
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

struct Reader : Seen_suspect {
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
    return component != nullptr && component->has(member, value);
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

  // The part has more paths than that of the test, also where another part lies beside it.
  bool several_paths() const {
    return place == Place::one_of_many ||
           (place == Place::in_parallel && component != nullptr && component->contacts.size() > 2);
  }

  Cell cell(Shows shows, Interval ohm) const {
    Outcome found = outcome(ohm);
    if (several_paths() && found == Outcome::fails) found = Outcome::either;
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

  // What is read is compared with it: the higher it reads itself, the lower that is beside it.
  bool is_twin() const {
    const Test& test = path.test;
    return expects(Expectation_kind::pair) && component != nullptr && test.expect.with &&
           *test.expect.with == component->id && !(test.component && *test.component == component->id);
  }

  // What the chain around it reads, where that is known.
  std::optional<Interval> through_chain(double broken) const {
    if (chain == nullptr) return std::nullopt;
    return circuit_reading(path.resolved, *chain, [&](const Resolved_component& other) {
      if (other.id == component->id) return std::optional(Interval{broken, broken});
      // In which state it is nobody states.
      return other.is(Component_kind::switch_) ? std::nullopt : model_reading(path, other);
    });
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

  // Through its earth goes no current.
  std::size_t ends_without_earth() const {
    const auto& ends = component->contacts;
    return static_cast<std::size_t>(std::count_if(
        ends.begin(), ends.end(), [&](const auto& end) { return !is_earthed(path.resolved, end); }));
  }

  // Whether current may go round past one of several paths that is open. Of a heater no key says how
  // its elements are joined; where two of three add up to the third they lie in a row.
  bool may_be_ring() const {
    if (has(&Component_type::connection)) return has(&Component_type::connection, Connection::delta);
    if (component == nullptr || ends_without_earth() != 3 ||
        (!component->is(Component_kind::heater) && !component->is(Component_kind::winding)))
      return false;
    const auto model = component->get(&Component_type::model);
    if (!model || model->pairs.empty()) return true;
    if (model->pairs.size() != 3) return false;
    double sum = 0, greatest = 0;
    for (const Terminal_pair& pair : model->pairs) {
      const double ohm = pair.resistance ? pair.resistance->si : 0;
      sum += ohm;
      greatest = std::max(greatest, ohm);
    }
    return greatest < 0.9 * (sum - greatest);
  }

  Cell open() const {
    const bool bridged = component != nullptr && conducts_when_open(*component);
    if (!bridged && !shows_every_break())
      if (const auto ohm = through_chain(infinity))
        return ohm->low >= highest_range ? cell(Shows::open, of_open()) : cell(Shows::higher, *ohm);
    // Of three alike in a ring the other two read on: half as much again at their own ends, three times as
    // much at those of the open one (Ohm's law).
    if (place == Place::one_of_many && healthy && may_be_ring()) {
      const Interval ohm = {1.5 * healthy->low, 3 * healthy->high};
      if (has(&Component_type::connection)) return {Shows::higher, ohm, outcome(ohm)};
      return cell(Shows::higher, {ohm.low, infinity}); // or a star
    }
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

  // Than the two of one path; the middle of a winding may lie on earth.
  bool has_more_ends() const {
    if (component == nullptr || ends_without_earth() > 2) return true;
    const auto model = component->get(&Component_type::model);
    return model && model->pairs.size() > 1;
  }

  // Of a wire: a part that lies on one of the two ends leads on to a third, which the other may touch.
  bool may_touch_third() const {
    if (component != nullptr || !path.known) return false;
    if (path.leads_on) return *path.leads_on;
    const auto leads_on = [&](const Value<Contact>& lead) {
      const auto lying = path.resolved.lying_on(lead);
      return std::any_of(lying.begin(), lying.end(), [&](const Lying& thing) {
        return thing.component != nullptr &&
               std::any_of(thing.component->contacts.begin(), thing.component->contacts.end(),
                           [&](const auto& end) { return *end != path.first && *end != path.second; });
      });
    };
    path.leads_on = leads_on(path.test.probes[0]) || leads_on(path.test.probes[1]);
    return *path.leads_on;
  }

  // What a test that states a least reading calls too low is a short to whoever wrote it.
  Interval of_short() const {
    // Where a closed path is healthy, what reads more than that is no short.
    const double near_zero =
        healthy && healthy->low <= 0 ? std::min(closed_at_most, healthy->high) : near_zero_at_most(healthy);
    const auto least = stated_least();
    if (least && *least > near_zero) return below(*least);
    // The other paths leave more of one that is shorted, or of a wire to its neighbour: half of two windings
    // in a row, two sensors side by side.
    if (healthy && healthy->low > near_zero && healthy->high < infinity &&
        ((several_paths() && has_more_ends()) || may_touch_third()))
      return below(healthy->low);
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

  // `contact`: that alone, which leaves the resistor that the part has.
  Cell shorted(bool contact = false) const {
    // Behind a rectifier or electronics it reads as these do.
    if (component != nullptr && reads_through_diodes(*component)) return anything();
    if (!has(&Component_type::series_resistance) && !shows_every_break())
      if (const auto ohm = through_chain(0))
        return ohm->high <= closed_at_most ? nearly_nothing(of_short()) : cell(Shows::lower, *ohm);
    if (place == Place::in_series) return cell(Shows::lower, {0, healthy ? healthy->high : infinity});
    Interval ohm = of_short();
    if (has(&Component_type::series_resistance)) {
      const Interval closed = closed_contact(*component);
      // A short before the resistor reads nothing, one behind it what that has.
      const auto least = stated_least();
      const double high = std::max(closed.high, ohm.high);
      ohm = {contact && !(least && high < *least) ? closed.low : 0, high};
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
    if (expects(Expectation_kind::not_short)) return unchanged(); // what is no short may have drifted
    const Shows shows = up != is_twin() ? Shows::higher : Shows::lower;
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
    // Where the contact is open, it has none.
    if (component != nullptr && path.resolved.component_of(path.test) == component &&
        state_between_probes(*component, path.test) == Contact_state::open)
      return unchanged();
    if (!healthy) return {Shows::higher, unknown, Outcome::either};
    // What a closed contact may read is the limit for its contact resistance.
    if (healthy->low <= 0 && healthy->high < infinity && place != Place::in_parallel)
      return cell(Shows::higher, above(healthy->high));
    return cell(Shows::higher, {healthy->low, infinity});
  }

  // A contact; elsewhere the word means what the part moves, which the leads do not see.
  Cell stuck(bool is_open) const {
    const Component_kind kind = component != nullptr ? component->kind() : Component_kind::electronic;
    // A changeover that does not move is open at one contact where it is closed at the other: the word means
    // either, unless the test says that it excludes it.
    const Mode mode = is_open ? Mode::stuck_open : Mode::stuck_closed;
    if (kind == Component_kind::switch_ && component->placed != nullptr && healthy &&
        throw_between_probes(*component, path.test) == Throw::normally_closed &&
        !names(path.test.excludes, mode)) {
      Cell stays = healthy->low > 0 ? shorted(true) : open();
      stays.outcome = Outcome::either;
      return stays;
    }
    if (kind == Component_kind::switch_ || kind == Component_kind::fuse)
      return is_open ? open() : shorted(true);
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

  // Of a winding whose middle lies on earth, say: a leak shorts a piece of what is read.
  bool conducts_to_earth() const {
    if (component == nullptr || place == Place::elsewhere || !path.known) return false;
    const auto model = component->get(&Component_type::model);
    return model && std::any_of(component->contacts.begin(), component->contacts.end(), [&](const auto& end) {
             return is_earthed(path.resolved, end) &&
                    (pair_between(*component, *model, path.first, *end) != nullptr ||
                     pair_between(*component, *model, path.second, *end) != nullptr);
           });
  }

  // Inside a chain of both kinds: known where the chain is.
  Cell in_the_midst(Mode mode) const {
    if (mode == Mode::open && through_chain(infinity)) return open();
    if (mode == Mode::short_ && through_chain(0)) return shorted();
    return anything();
  }

  Cell in(Mode mode) const {
    if (place == Place::elsewhere) return unchanged();
    // An electrode or an anode has one contact, or the other is earth; its way to earth is the part itself.
    const bool way_to_earth =
        place == Place::to_earth || conducts_to_earth() ||
        ((place == Place::one_of_many || place == Place::across) && path.to_earth()) ||
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
    // What its bleeder carries is next to nothing.
    if (place == Place::somewhere && mode == Mode::open && component != nullptr &&
        component->is(Component_kind::capacitor))
      return unchanged();
    if (place == Place::somewhere) return in_the_midst(mode);
    if (is_twin() && mode == Mode::open) return seen(Shows::lower, unknown);
    if (is_twin() && mode == Mode::short_) return seen(Shows::higher, unknown);
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
      if (expects(Expectation_kind::open)) return unchanged(); // they lie within one of two windings
      // A few turns stay within the tolerance.
      return {Shows::lower, {0, healthy ? healthy->high : infinity}, Outcome::either};
    case Mode::wrong_part:
      // The value of a coding is all that it is: another one has another. Without a model, tests may be for
      // several models of the appliance.
      return place == Place::across && component != nullptr && component->is(Component_kind::coding) &&
                     component->get(&Component_type::model)
                 ? seen(Shows::anything, unknown)
                 : anything();
    default: return anything();
    }
  }
};

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
  if (const auto state = state_between_probes(*component, test)) return reading_in(*component, *state);
  return model_reading(path, *component);
}

Cell cell_of(const Seen_suspect& seen, std::optional<Mode> mode) {
  const Reader reader{seen};
  if (mode) return reader.in(*mode);
  return seen.place == Place::elsewhere ? reader.unchanged() : reader.anything();
}

}
