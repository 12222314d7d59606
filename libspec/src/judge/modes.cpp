#include "judge/modes.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <iterator>

#include "judge/asked.h"
#include "judge/course.h"
#include "judge/measuring.h"
#include "judge/shown.h"
#include "lint/contacts.h"
#include "lint/modes.h"
#include "lint/readings.h"
#include "lint/rule.h"
#include "model/names.h"

namespace ohmlore {
namespace {

using namespace rules;

#define OHMLORE_MODE(name, doc) Mode::name,
constexpr Mode all_modes[] = {OHMLORE_MODES(OHMLORE_MODE)};

Suspect part_of(const Test& test) {
  Suspect suspect;
  suspect.kind = {Suspect_kind::component, 1};
  suspect.component = test.component;
  return suspect;
}

Suspect wires_of(const Test& test) {
  Suspect suspect;
  suspect.kind = {Suspect_kind::harness, 1};
  if (!test.probes.empty() && test.probes[0]) suspect.connector = {test.probes[0]->connector, 1};
  return suspect;
}

// What the test shows in each mode of the suspect, and of a healthy one.
struct Shown_by_test {
  std::vector<Cell> cells;
  std::optional<Interval> healthy;
};

// Of a fault in which that test alone decides.
Shown_by_test shown_by(const Resolved& resolved, Text test_id, Suspect suspect) {
  Value<Mode> modes[std::size(all_modes)];
  for (std::size_t i = 0; i < std::size(all_modes); ++i) modes[i] = {all_modes[i], 1};
  Value<Text> decided_by[] = {{test_id, 1}};
  suspect.node = 1;
  suspect.modes = {modes, std::size(all_modes), 1};
  suspect.decided_by = {decided_by, 1, 1};
  Fault fault;
  fault.node = 1;
  fault.suspects = {&suspect, 1, 1};
  Shown_by_test shown;
  const Separation matrix = separation(resolved, fault);
  if (!matrix.tests.empty()) shown.healthy = matrix.tests[0].healthy;
  for (const Suspected_mode& row : matrix.rows)
    shown.cells.push_back(row.cells.empty() ? Cell{Shows::anything, {0, INFINITY}, Outcome::either}
                                            : row.cells[0]);
  return shown;
}

// As nothing of the part is left to be read.
bool is_open(const Known& known, const Judged& service, double range_end) {
  return known.beyond.value_or(known.ohm) >= open_from(service.ohm, range_end);
}

struct Likeness {
  double least = 0, most = 0;
};

// The test asks for an open path. What reads less than that may be a contact, or damp beside an open one.
bool asks_for_open(const Test& test, const Judged& service) {
  return std::isinf(service.ohm.high) && (!test.expect.kind || *test.expect.kind == Expectation_kind::open ||
                                          *test.expect.kind == Expectation_kind::rises_to_open);
}

// Shorted is one of several paths, and not what the leads lie on.
bool leaves_others(const Resolved_component& component, const Cell& cell, const Judged& service) {
  return component.contacts.size() > 2 && cell.shows == Shows::near_zero && cell.outcome == Outcome::either &&
         std::isfinite(service.ohm.high) && cell.ohm.high > near_zero_at_most(service.ohm);
}

// In ohm, of one test.
struct Ends {
  double range;                  ///< of the meter's highest
  double closed = INFINITY;      ///< up to there it is a contact, where an open one is asked for
  double breaks_from = INFINITY; ///< from there on it is a broken path
  double broken_from = INFINITY; ///< likewise, of wire: none drifts that far
  double damp_from = INFINITY;   ///< from there on it may be damp beside a break, of any part
};

// That the reading is one that the others in its path leave, where each break conducts so little.
using Through_others = std::function<Likeness(double broken)>;

Likeness likeness(const Resolved_component& component, Mode mode, const Cell& cell, const Known& known,
                  const Judged& service, const Ends& ends, const Through_others& through_others) {
  const bool open = is_open(known, service, ends.range);
  const Likeness below = {service.least.below, service.most.below};
  const Likeness above = {service.least.above, service.most.above};
  const auto in = [&](Interval ohm) -> Likeness {
    if (known.beyond) {
      if (ohm.high <= *known.beyond) return {0, 0};
      return {ohm.low <= *known.beyond && std::isinf(ohm.high) ? 1.0 : 0.0, 1};
    }
    std::vector<Deviation> own;
    for (const Doubt& doubt : known.own) own.push_back({doubt.half_width, Distribution::rectangular});
    const double low = ohm.low > 0 ? ohm.low : -INFINITY; // no resistance is below zero
    const double within = conformity(known.ohm, own, {low, ohm.high}).within;
    return {within, within};
  };
  switch (cell.shows) {
  case Shows::open:
    if (open) return {1, 1};
    // Where drift ends a break begins, at the temperature of the reading.
    if (std::isfinite(ends.broken_from)) return in({ends.broken_from, INFINITY});
    if (known.beyond) return {0, 1};
    return {in(cell.ohm).least, in({std::min(cell.ohm.low, ends.damp_from), INFINITY}).most};
  case Shows::near_zero: {
    // Of one of several paths the others may leave any less than is healthy, at the temperature of the
    // reading.
    if (leaves_others(component, cell, service)) {
      const Likeness nothing = in({cell.ohm.low, near_zero_at_most(service.ohm)});
      return {nothing.least,
              service.result == Conformity::outside ? below.most : through_others(INFINITY).most};
    }
    const Likeness as_short = {in({cell.ohm.low, std::min(cell.ohm.high, ends.closed)}).least,
                               in(cell.ohm).most};
    if (service.result != Conformity::outside) return as_short;
    // Behind the resistor of a contact it may read up to that, and what reads more than is healthy is none.
    return {std::min(as_short.least, below.least), std::min(as_short.most, below.most)};
  }
  case Shows::higher: {
    const bool beyond_drift = mode == Mode::drift_high && std::isfinite(ends.broken_from) &&
                              in({ends.broken_from, INFINITY}).least > 0.5;
    const Opening opening = opening_of(mode, cell, ends.range);
    if (beyond_drift || (open && opening == Opening::none)) return {0, 0};
    if (open && opening == Opening::with_another) return {0, 1};
    if (known.beyond && !open) return {0, above.most};           // or it is open
    const double all_open = in({ends.damp_from, INFINITY}).most; // or it reads more than they leave
    return {std::min(above.least, through_others(ends.breaks_from).least),
            std::min(above.most, std::max(all_open, through_others(ends.damp_from).most))};
  }
  case Shows::lower: {
    const bool is_short = mode == Mode::short_ || mode == Mode::stuck_closed;
    // One of several that are open in a row: damp may lie over it as over one alone.
    if (is_short && std::isfinite(ends.closed)) return {in({0, ends.closed}).least, below.most};
    // Where few ohms are healthy, one is no short yet.
    const double near_zero =
        mode == Mode::drift_low ? drift_low_from(service.ohm) : std::min(1.0, service.ohm.low / 10);
    if (is_short) {
      const double nothing = near_zero_at_most(service.ohm);
      if (cell.ohm.low > nothing && in({0, nothing}).least > 0.5) return {0, 1}; // or all of them are shorted
      const Likeness through = through_others(INFINITY);
      return {std::min(below.least, through.least), std::min(below.most, through.most)};
    }
    const Likeness shorted = in({0, near_zero});
    return shorted.least > 0.5 && mode != Mode::leakage_to_earth ? Likeness{0, 0} : below;
  }
  case Shows::anything:
    // What a short reads behind a rectifier is not known; nothing at all looks like one.
    if (mode == Mode::short_) return in({0, near_zero_at_most(service.ohm)});
    break;
  case Shows::healthy:
  case Shows::unsteady: break;
  }
  return {};
}

// The resistor of another model: anything but this one's. Open and link may be a code too, and rather are a
// failure.
Likeness another_code(const Known& known, const Judged& service, double range_end) {
  if (is_open(known, service, range_end) || (!known.beyond && known.ohm <= 1)) return {0, 1};
  return {service.least.below + service.least.above, std::min(1.0, service.most.below + service.most.above)};
}

bool shows_by_itself_in_wires(Mode mode) {
  return mode == Mode::open || mode == Mode::short_ || mode == Mode::high_contact_resistance;
}

// A failure that nobody named, and that a reading of this kind of part may still look like.
bool shows_by_itself(const Resolved_component& component, Mode mode, const Judged& service) {
  if (likelihood(component.kind(), mode) != Likelihood::possible) return false;
  switch (mode) {
  case Mode::open:
  case Mode::short_: return true;
  case Mode::drift_high:
  case Mode::drift_low: return service.ohm.low > 0 && !std::isinf(service.ohm.high);
  case Mode::stuck_open:
  case Mode::stuck_closed: return component.is(Component_kind::switch_);
  // A fuse has its contacts too, at its ends.
  case Mode::high_contact_resistance:
    return component.is(Component_kind::switch_) || component.is(Component_kind::fuse);
  case Mode::shorted_turns: return is_wound(component);
  default: return false;
  }
}

// A sweep is seen as a whole, and what one position reads excludes nothing of the others.
bool seen_in_the_sweep_only(const Test& test, Mode mode) {
  return is_swept(test) && (mode == Mode::open || mode == Mode::high_contact_resistance ||
                            mode == Mode::intermittent || mode == Mode::seized);
}

bool is_same(const Value<Text>& a, const Value<Text>& b) { return a && b && *a == *b; }

bool suspected(const Resolved& resolved, const Suspect& culprit, Mode mode) {
  for (const auto& fault : resolved.document->profile()->faults)
    for (const Suspect& suspect : fault.value.suspects)
      if ((is_same(suspect.component, culprit.component) || is_same(suspect.connector, culprit.connector)) &&
          names(suspect.modes, mode))
        return true;
  return false;
}

}

double open_from(Interval healthy, double range_end) {
  return std::min(range_end, std::max(open_at_least, 100 * healthy.high));
}

std::vector<const Circuit*> circuits_read(const Resolved& resolved, const Test& test) {
  std::vector<const Circuit*> read;
  if (const Resolved_component* component = resolved.component_of(test))
    for (const Circuit* circuit : circuits_of(resolved, *component))
      if (circuit->elements.size() > 1 && same_ends(circuit->between, test.probes)) read.push_back(circuit);
  return read;
}

bool is_path_of_several(const Resolved& resolved, const Test& test, Arrangement arrangement) {
  const auto read = circuits_read(resolved, test);
  return std::any_of(read.begin(), read.end(), [&](const Circuit* circuit) {
    return circuit->arrangement && *circuit->arrangement == arrangement;
  });
}

double drift_low_from(Interval healthy) { return std::min(near_zero_at_most(healthy), healthy.low / 10); }

bool shows_only_while_watched(const Test& test, Mode mode) {
  return mode == Mode::intermittent || seen_in_the_sweep_only(test, mode);
}

Opening opening_of(Mode mode, const Cell& cell, double range_end) {
  switch (cell.shows) {
  case Shows::open:
  case Shows::unsteady:
  case Shows::anything: return Opening::whole;
  case Shows::higher:
    if (mode != Mode::open && mode != Mode::stuck_open && mode != Mode::protector_open) return Opening::none;
    return cell.ohm.high >= range_end ? Opening::whole : Opening::with_another;
  default: return Opening::none;
  }
}

Interval through_others(Mode mode, const Cell& cell, const std::optional<Interval>& healthy, Interval now,
                        Interval changes, double broken) {
  const auto change = [&](double of, double whole) {
    const double all = whole > 0 && std::isfinite(of / whole) ? of / whole : 1;
    return hull(changes, {all, all});
  };
  // Half of a star, three quarters of it where wires touch; a tap of hardly any ohms is left out.
  constexpr double at_most = 0.9; // common practice, no source
  if (cell.shows == Shows::near_zero && healthy && std::isfinite(healthy->high) &&
      cell.ohm.high > near_zero_at_most(healthy))
    return {0, at_most * cell.ohm.high * change(now.high, healthy->high).high};
  if (cell.shows == Shows::lower && (mode == Mode::short_ || mode == Mode::stuck_closed))
    return {0,
            cell.ohm.high * (healthy ? change(now.high, healthy->high) : changes).high +
                (healthy && healthy->low > broken_at_least ? broken_at_least : near_zero_at_most(healthy))};
  if (cell.shows != Shows::higher || opening_of(mode, cell, INFINITY) == Opening::none) return {0, INFINITY};
  constexpr double much = 2; // none that is healthy is so far off (common practice, no source)
  return {(healthy ? change(now.low, healthy->low) : changes).low / (1 / cell.ohm.low + 1 / broken),
          much * cell.ohm.high * (healthy ? change(now.high, healthy->high) : changes).high};
}

std::string which_of_two(Text twin) {
  return fmt::format(
      "the two differ; which of them is wrong, this does not say: {} may be off the other way. "
      "Judge each by a test of its own",
      quoted(twin));
}

std::string_view mind_the_protector(const Resolved_component& component) {
  const auto protector = component.get(&Component_type::protector);
  const bool told = protector && protector->reset;
  switch (told ? *protector->reset : Protector_reset::automatic) {
  case Protector_reset::automatic: break;
  case Protector_reset::manual:
    return "the protector may have opened in the heat, and stays open until it is reset by hand: "
           "let it cool, find what opened it, reset it, and read again";
  case Protector_reset::none:
    return "the protector may have opened in the heat, and never closes again: find what opened it before "
           "the part is replaced";
  }
  return "the protector may have opened in the heat: let it cool, and read again";
}

bool opens_to_protect(const Resolved_component& component) {
  return component.is(Component_kind::fuse) || component.has(&Component_type::manual_reset, true);
}

double conducts_up_to(const Resolved_component& component) {
  const auto series = component.get(&Component_type::series_resistance);
  return broken_at_least + (series ? 1.1 * (**series).si : 0);
}

bool reads_wires_alone(const Resolved& resolved, const Test& test, Text test_id) {
  if (!test.side || *test.side != Side::harness) return false;
  const std::vector<Cell> cells = shown_by(resolved, test_id, part_of(test)).cells;
  return std::all_of(cells.begin(), cells.end(),
                     [](const Cell& cell) { return cell.outcome == Outcome::passes; });
}

std::vector<Mode_answer> mode_answers(const Case& one, const Known& known, const Judged& service,
                                      const Limits_at& limits) {
  const Resolved& resolved = one.resolved;
  const Test& test = one.test;
  const Resolved_component& component = *one.expected.component;
  const Decision_rule& rule = one.means.rule;
  const double range_end = highest_range(one.means.meter);
  const bool of_wires = reads_wires_alone(resolved, test, one.id);
  const Suspect culprit = of_wires ? wires_of(test) : part_of(test);
  const Shown_by_test shown = shown_by(resolved, one.id, culprit);
  const std::vector<Cell>& cells = shown.cells;
  Ends ends{range_end};
  if (asks_for_open(test, service)) ends.closed = conducts_up_to(component);
  ends.breaks_from = broken_from(&component, service.ohm);
  if (is_of_wire(component)) ends.broken_from = ends.breaks_from;
  ends.damp_from = perhaps_broken_from(&component, service.ohm);
  const Interval kelvin = kelvin_of_part(one.request, component, one.means.room);
  const auto changes_at = [&](double x) {
    const bool by_kelvin = one.expected.varies && !one.beside_twin();
    return changes_in_circuit(resolved, test, by_kelvin ? Interval{x, x} : kelvin);
  };
  std::vector<Mode_answer> answers;
  for (std::size_t i = 0; i < std::size(all_modes) && i < cells.size(); ++i) {
    const Mode mode = all_modes[i];
    const bool declared = names(test.excludes, mode);
    const bool asked = declared || suspected(resolved, culprit, mode);
    const bool shows_unasked =
        of_wires ? shows_by_itself_in_wires(mode) : shows_by_itself(component, mode, service);
    if (!asked && !shows_unasked) continue;
    const Cell& cell = cells[i];
    const auto through = [&](double broken) -> Likeness {
      const auto found = probable(known, [&](double x) {
        const auto now = limits(x);
        return now ? std::optional(through_others(mode, cell, shown.healthy, *now, changes_at(x), broken))
                   : now;
      });
      return found ? Likeness{found->least.within, found->most.within} : Likeness{0, 1};
    };
    const bool wrong_code = mode == Mode::wrong_part && component.is(Component_kind::coding) && !of_wires;
    const Likeness like = wrong_code ? another_code(known, service, range_end)
                                     : likeness(component, mode, cell, known, service, ends, through);
    const auto add = [&](Mode_verdict verdict, std::string why) {
      answers.push_back({mode, verdict, std::move(why)});
    };
    const bool passes = cell.outcome == Outcome::passes && !wrong_code;
    const bool beside_it = (cell.shows == Shows::unsteady || cell.shows == Shows::anything) && !wrong_code;
    const bool as_a_short = mode == Mode::short_ && cell.shows == Shows::anything;
    // Behind the resistor of the part a short reads as a healthy one does.
    const bool hides = !declared && cell.shows == Shows::near_zero && service.ohm.low > 0 &&
                       service.result == Conformity::within;
    if (!passes && (!beside_it || as_a_short) && service.result != Conformity::within &&
        like.least >= 1 - rule.false_rejection)
      add(Mode_verdict::fits, "the reading is what this failure shows");
    else if (!asked)
      continue;
    else if (seen_in_the_sweep_only(test, mode))
      add(declared && asks_for_response(test) ? Mode_verdict::undecided : Mode_verdict::not_seen,
          "only the whole sweep shows it");
    else if (passes)
      add(Mode_verdict::not_seen, "the leads read the same with it as without");
    else if (declared && cell.shows == Shows::unsteady && cell.outcome == Outcome::fails)
      add(Mode_verdict::undecided, "only a reading that is watched while it is moved shows it");
    else if (beside_it)
      add(Mode_verdict::not_seen, cell.shows == Shows::unsteady
                                      ? "one steady reading does not show what comes and goes"
                                      : "what it would read here is not known");
    else if (like.most > rule.false_acceptance && !hides)
      add(Mode_verdict::undecided,
          like.least == like.most
              ? fmt::format("probability {}", shown_probability(like.most))
              : fmt::format("probability {} to {}, by {}", shown_probability(like.least),
                            shown_probability(like.most),
                            wrong_code ? "whether that is another model's code"
                            : cell.shows == Shows::higher && is_open(known, service, range_end)
                                ? "whether what lies beside it is open too"
                            : known.beyond                            ? "what is above the range"
                            : leaves_others(component, cell, service) ? "which of several paths is shorted"
                            : std::isfinite(ends.closed)              ? "whether a contact or damp conducts"
                            : cell.shows == Shows::lower && like.most == 1 && !known.room
                                ? "whether what lies in a row with it is shorted too"
                            : cell.shows == Shows::open || (cell.shows == Shows::higher && !known.room)
                                ? "whether damp conducts beside a break"
                                : "the temperature"));
    else if (cell.outcome == Outcome::either && !wrong_code && service.result != Conformity::outside &&
             !(declared && (cell.shows == Shows::open || cell.shows == Shows::near_zero)))
      add(Mode_verdict::not_seen, "it may hide inside the limits");
    else if (!declared)
      add(Mode_verdict::not_seen, "the profile does not say that this test excludes it");
    else
      add(Mode_verdict::excluded, "with it the reading would be another");
  }
  return answers;
}

}
