#include <algorithm>
#include <cmath>

#include "lint/contacts.h"
#include "lint/measured.h"
#include "lint/rule.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {

// A plug that does not sit on the board: which wire passes through it is not described.
static bool off_board(const Resolved& resolved, const Contact& contact) {
  const Connector* connector = resolved.connector(contact.connector);
  return connector == nullptr || (connector->mounted && *connector->mounted != Mounting::board);
}

// A contact that could not be read or is not declared is a finding of its own, and the first to mend; as is
// one that both ends lie on.
static bool well_placed(const Resolved& resolved, const Component& component) {
  const auto declared = [&](const Value<Contact>& c) { return c && resolved.pin(c) != nullptr; };
  const auto& terminals = component.terminals;
  const auto& ends = component.between;
  if (has_both_ends(ends) && *ends[0] == *ends[1]) return false;
  return std::all_of(component.between.begin(), component.between.end(), declared) &&
         std::all_of(terminals.begin(), terminals.end(), [&](const auto& t) { return declared(t.value); });
}

// Contacts of switches in series are closed together from end to end.
static bool closes_a_chain(const Subject& subject, const Test& test) {
  if (!test.unplug || !test.expect.kind || *test.expect.kind != Expectation_kind::closed) return false;
  const auto way = on_the_way(subject, test);
  return way.size() > 1 && std::all_of(way.begin(), way.end(), [](const Branch& branch) {
           return branch.component != nullptr && branch.component->is(Component_kind::switch_);
         });
}

// What lies there may have, where no temperature is stated at that of a room.
static Interval modelled(const Branch& branch, const Value<Range>& at) {
  constexpr Interval unknown = {0, infinity};
  constexpr Interval room = {zero_celsius, zero_celsius + 50};
  if (branch.component == nullptr) return unknown;
  const auto model = branch.component->get(&Component_type::model);
  if (!model) return unknown;
  return model_interval(*with_metal(*model, *branch.component), at ? kelvin_interval(*at) : room,
                        Taken::generously)
      .value_or(unknown);
}

// More than the component has by itself, as of two coils over the contact that they share. Whether the parts
// between the leads give it is for expectation-outside-network.
static bool reads_a_chain(const Subject& subject, const Test& test) {
  if (!test.unplug || !test.expect.kind || *test.expect.kind != Expectation_kind::band) return false;
  const auto& band = healthy_readings(subject, test);
  double alone = infinity;
  Interval in_series = {0, 0};
  for (const Branch& branch : on_the_way(subject, test)) {
    const Interval ohm = modelled(branch, test.expect.at);
    in_series = in_series + ohm;
    if (branch.component != nullptr && branch.component->id == *test.component) alone = ohm.high;
  }
  return band && band->low > alone && std::isfinite(in_series.high) && band->overlaps(in_series);
}

static void check(const Subject& subject, Sink& sink) {
  each_test(subject, [&](Text, const Test& test) {
    if (!test.component || !test.side || *test.side == Side::harness || test.probes.size() != 2) return;
    const Resolved_component* component = subject.resolved.component_of(test);
    if (component == nullptr || component->placed == nullptr || on_own_contacts(test, *component)) return;
    if (!well_placed(subject.resolved, *component->placed)) return;
    const Reach reached(subject.resolved, *component);
    if (reached.empty()) return; // nothing says where the component lies
    const auto off = [&](const Value<Contact>& probe) {
      return probe && subject.resolved.pin(probe) != nullptr && !reached.holds(*probe) &&
             !is_protective_earth(subject.resolved, probe) && !off_board(subject.resolved, *probe);
    };
    // A test for a path that must not exist goes from the component to anywhere else.
    const bool wants_no_path = test.expect.kind && *test.expect.kind == Expectation_kind::open;
    const bool one_on = !(off(test.probes[0]) && off(test.probes[1]));
    if (one_on && (wants_no_path || closes_a_chain(subject, test) || reads_a_chain(subject, test))) return;
    for (const Value<Contact>& probe : test.probes) {
      if (!off(probe)) continue;
      sink.report(
          probe.node,
          fmt::format("{} is no contact of {}, which is reached at {}; correct the probe, or the contacts "
                      "of the component",
                      text_of(*probe), *test.component, listed(reached.contacts())));
      sink.relate(component->node, "the component");
    }
  });
}

extern const Rule probes_off_component = {
    .family = Family::pin,
    .severity = Severity::warning,
    .summary = "A test puts a lead where its component does not lie.",
    .check = check,
    .goes_by_absence = true,
};

}
