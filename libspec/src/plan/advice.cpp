#include "plan/advice.h"

#include <algorithm>

#include "judge/asked.h"
#include "judge/modes.h"
#include "lint/contacts.h"
#include "lint/readings.h"
#include "lint/rule.h"

namespace ohmlore {
namespace {

constexpr double worth_naming = 0.02; // less likely than that is not spoken of

// The terminals of a compressor are no place for probes while the circuit holds refrigerant, nor is what lies
// inside a sealed case.
bool is_behind_a_seal(const Profile& profile, const Test& test) {
  const auto& hazards = profile.safety.hazards;
  return test.component && std::any_of(hazards.begin(), hazards.end(), [&](const Hazard& hazard) {
           return hazard.component && *hazard.component == *test.component && hazard.kind &&
                  (*hazard.kind == Hazard_kind::pressure || *hazard.kind == Hazard_kind::sealed_case);
         });
}

// On the part, and not at the ends of what it is one of: no other lies in the path.
bool reads_one_alone(const Resolved& resolved, const Test& test) {
  const Resolved_component* component = resolved.component_of(test);
  if (component == nullptr || !test.side || *test.side != Side::at_component) return false;
  const auto& around = rules::circuits_of(resolved, *component);
  return circuits_read(resolved, test).empty() &&
         std::all_of(around.begin(), around.end(), [&](const Circuit* circuit) {
           return circuit->elements.size() < 2 ||
                  (circuit->arrangement && *circuit->arrangement == Arrangement::series);
         });
}

struct Advice {
  const Planner& planner;
  const Order_state& state;
  std::size_t number; ///< of the test that was read last
  const std::vector<Showing>& shown;
  double at_most; ///< in ohm, of what was read
  const Resolved& resolved = planner.resolved;
  const Situation& situation = planner.situation;
  const Test& last = *situation.tests[number].test;
  std::vector<std::size_t> left = likely_culprits(); ///< the likeliest first
  std::vector<std::string> out = {};

  void add(std::string_view words) {
    if (std::find(out.begin(), out.end(), words) == out.end()) out.emplace_back(words);
  }

  std::vector<std::size_t> likely_culprits() const {
    const std::vector<double> weights = planner.weights_by_culprit(state);
    std::vector<std::size_t> likely;
    for (const std::size_t c : likeliest_first(weights))
      if (weights[c] > worth_naming) likely.push_back(c);
    return likely;
  }

  std::size_t count(Suspect_kind kind) const {
    return static_cast<std::size_t>(std::count_if(
        left.begin(), left.end(), [&](std::size_t c) { return situation.culprits[c].kind == kind; }));
  }

  // What the last test is of.
  bool is_tested(std::size_t culprit) const {
    return last.component && *last.component == situation.culprits[culprit].id;
  }

  // ": flow_sensor_resistance"; empty where no test of the codes is of that part.
  std::string own_tests(std::size_t culprit) const {
    std::string tests;
    for (const Named_test& named : situation.tests)
      if (named.test->component && *named.test->component == situation.culprits[culprit].id)
        tests += fmt::format("{}{}", tests.empty() ? ": " : ", ", named.id);
    return tests;
  }

  // Where readings contradict each other no failure is gone, and so none that this one cannot come from. What
  // is healthy at the plug may be hidden there.
  bool may_read_so(std::size_t hypothesis) const {
    const Showing_shares& shares = situation.order.hypotheses[hypothesis].shows[number];
    return std::any_of(shown.begin(), shown.end(), [&](Showing one) {
      return one == Showing::healthy || shares[static_cast<std::size_t>(one)] > 0;
    });
  }

  // Whether a part of such a kind may be what is open.
  bool perhaps_open(bool (*is)(const Resolved_component&)) const {
    for (std::size_t h = 0; h < planner.hypotheses(); ++h) {
      const std::optional<Mode>& mode = situation.failures[h].mode;
      const Culprit& culprit = situation.culprits[situation.order.hypotheses[h].culprit];
      if (state.weights[h] <= worth_naming || culprit.kind != Suspect_kind::component || !may_read_so(h) ||
          (mode != Mode::open && mode != Mode::stuck_open))
        continue;
      const Resolved_component* component = resolved.component(culprit.id);
      if (component != nullptr && is(*component)) return true;
    }
    return false;
  }

  void on_protectors() {
    for (const std::size_t c : left) {
      double tripped = 0;
      for (std::size_t h = 0; h < planner.hypotheses(); ++h)
        if (situation.order.hypotheses[h].culprit == c &&
            situation.failures[h].mode == Mode::protector_open && may_read_so(h))
          tripped += state.weights[h];
      const Resolved_component* component = resolved.component(situation.culprits[c].id);
      if (tripped > worth_naming && component != nullptr) add(mind_the_protector(*component));
    }
  }

  void on_where_to_read_next() {
    const std::size_t parts = count(Suspect_kind::component);
    const bool harness = count(Suspect_kind::harness) > 0, one_left = left.size() == 1;
    const bool at_plug =
        last.side && (*last.side == Side::at_board_plug || *last.side == Side::at_inline_connector);
    const bool sealed = at_plug && is_behind_a_seal(*resolved.document->profile(), last);
    const bool several = several_parts(resolved, situation, number);
    const bool is_of_one_alone = one_left && is_tested(left[0]) && reads_one_alone(resolved, last);
    if (left.empty())
      add("nothing that is listed reads so: check the leads, the contacts and the meter, and read once "
          "more; then think of two faults at once, and of exchanged plugs");
    else if ((parts > 1 && !compares_twins(last)) || (parts == 1 && !is_of_one_alone && several))
      add(read_each_by_itself);
    else if (sealed && parts > 0)
      add("this part is opened only by those licensed for it, as the cautions say: look along the "
          "harness before it is condemned");
    else if (harness && parts > 0)
      add("read the same two ends on the part itself: healthy there, it is the harness; the same as here, "
          "it is the part");
    else if (parts == 1 && one_left && !is_tested(left[0]))
      add(fmt::format("before it is replaced, read that part by itself{}", own_tests(left[0])));
    else if (at_plug && parts == 1)
      add("before it is replaced, read the same on the part itself: healthy there, it is the harness");
    if (!one_left || !harness) return;
    if (at_plug && !sealed && !several)
      add("first read the same two ends on the part itself: where it is not healthy there either, the part "
          "has a fault too");
    add(look_along_the_harness);
  }

  void on_what_may_deceive() {
    const auto is_shown = [&](Showing one) {
      return std::find(shown.begin(), shown.end(), one) != shown.end();
    };
    // What is open or short is so by itself.
    const bool differs = is_shown(Showing::higher) || is_shown(Showing::lower);
    if (differs && compares_twins(last) && last.expect.with) add(which_of_two(*last.expect.with));
    const Resolved_component* tested = resolved.component_of(last);
    if (perhaps_open(rules::reads_through_diodes)) add(mind_the_diodes);
    if (tested != nullptr && tested->is(Component_kind::photocell)) add(mind_the_light);
    const auto& healthy = situation.tests[number].healthy;
    if (healthy && healthy->low >= fingers_matter_from && is_shown(Showing::lower) &&
        at_most >= rules::broken_at_least)
      add(mind_the_fingers);
    if (tested != nullptr && healthy && is_shown(Showing::lower) &&
        rules::conducts_beside_the_coil(*tested, healthy->low))
      add(mind_the_diode_across);
    if (perhaps_open(opens_to_protect)) on_what_opened_it();
  }

  // A shorted fan takes its fuse with it: that nothing more needs to be told apart ends no such search.
  void on_what_opened_it() {
    add(find_what_opened_it);
    std::string tests;
    for (std::size_t t = 0; t < situation.tests.size(); ++t) {
      const Resolved_component* component = resolved.component_of(*situation.tests[t].test);
      if (!state.taken[t] && component != nullptr && !opens_to_protect(*component))
        tests += fmt::format("{}{}", tests.empty() ? "" : ", ", situation.tests[t].id);
    }
    if (!tests.empty()) add(fmt::format("what opened it may show in what is not read yet: {}", tests));
  }
};

}

std::vector<std::string> advice(const Planner& planner, const Order_state& state, std::size_t test,
                                const std::vector<Showing>& shown, double at_most) {
  Advice advice{planner, state, test, shown, at_most};
  advice.on_protectors();
  if (shown == std::vector{Showing::over_range} &&
      is_path_of_several(planner.resolved, advice.last, Arrangement::parallel))
    advice.add(look_at_the_way_to_all);
  advice.on_where_to_read_next();
  advice.on_what_may_deceive();
  return std::move(advice.out);
}

std::vector<std::string> what_may_deceive(const Planner& planner, const Order_state& state, std::size_t test,
                                          const std::vector<Showing>& shown, double at_most) {
  Advice advice{planner, state, test, shown, at_most};
  advice.on_protectors();
  advice.on_what_may_deceive();
  return std::move(advice.out);
}

}
