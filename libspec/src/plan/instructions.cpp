#include "plan/instructions.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "judge/asked.h"
#include "judge/limits.h"
#include "judge/shown.h"
#include "lint/colours.h"
#include "lint/readings.h"
#include "lint/rule.h"
#include "model/spoken.h"
#include "plan/words.h"

namespace ohmlore {
namespace {

using namespace rules;

std::string colour_name(Text code) {
  for (const Colour& colour : colours)
    if (colour.code == code) return std::string(colour.name);
  return std::string(code);
}

std::string wire_words(const Wire& wire) {
  if (wire.other) return std::string(*wire.other);
  if (!wire.base) return {};
  return wire.stripe ? fmt::format("{} with {}", colour_name(*wire.base), colour_name(*wire.stripe))
                     : colour_name(*wire.base);
}

std::string contact_words(const Resolved& resolved, const Contact& contact) {
  std::string words;
  if (const Pin* pin = resolved.pin(contact)) {
    words = wire_words(pin->wire);
    if (pin->signal) words += fmt::format("{}{}", words.empty() ? "" : ", ", *pin->signal);
  }
  return words.empty() ? text_of(contact) : fmt::format("{} ({})", text_of(contact), words);
}

std::string connector_words(const Resolved& resolved, Text id) {
  const Connector* connector = resolved.connector(id);
  if (connector == nullptr) return std::string(id);
  std::string words(id);
  if (connector->label && *connector->label != id) words += fmt::format(", marked {}", *connector->label);
  if (connector->where) words += fmt::format(" ({})", *connector->where);
  return words;
}

std::string chore_words(const Resolved& resolved, const Chore_words& chore) {
  switch (chore.kind) {
  case Chore_words::withdraw: return fmt::format("withdraw {}", connector_words(resolved, chore.what));
  case Chore_words::disconnect: return fmt::format("disconnect {}", chore.what);
  case Chore_words::before: return chore.what;
  case Chore_words::reach: {
    const Resolved_component* component = resolved.component(chore.what);
    if (component == nullptr) return "take off the cover";
    const auto name = component->get(&Component_type::name);
    const std::string who = name ? std::string(**name) : chore.what;
    return component->placed != nullptr && component->placed->where
               ? fmt::format("take off what covers the {} ({})", who, *component->placed->where)
               : fmt::format("take off what covers the {}", who);
  }
  }
  return {};
}

// The temperatures of which the limits are shown, from the lowest.
std::vector<double> shown_at(const Expected& expected, const std::optional<Part_temperature>& temperature) {
  if (!expected.varies) return {zero_celsius + 20};
  if (!expected.model && !expected.circuit)
    return {expected.rows_reach->low}; // where the test states them, and nowhere else
  if (temperature) return {temperature->kelvin};
  return {zero_celsius + 10, zero_celsius + 20, zero_celsius + 30};
}

void add_healthy(Plan_step& step, const Resolved& resolved, const Test& test,
                 const std::optional<Part_temperature>& temperature) {
  std::string problem;
  const auto expected = expected_of(resolved, test, false, problem);
  if (!expected) {
    step.limit_words = problem;
    return;
  }
  step.limit_words = expected->words;
  if (expected->basis == Limit_basis::twin) {
    const Expectation& expect = test.expect;
    if (expect.with && expect.largest_difference)
      step.limit_words = fmt::format("as {} at the same temperature, at most {} from it", *expect.with,
                                     described(*expect.largest_difference));
    return;
  }
  if (expected->basis == Limit_basis::service_limit || expected->basis == Limit_basis::policy ||
      expected->basis == Limit_basis::practice)
    step.limit_words = basis_words(expected->basis, expected->words);
  const bool both_directions = asks_both_directions(test);
  if (both_directions)
    if (const auto reversed = expected_of(resolved, test, true, problem))
      if (const auto ohm = reversed->service_at(zero_celsius + 20))
        step.limit_words = fmt::format("with the leads exchanged {}", shown_ohm(*ohm));
  std::optional<double> stated_at;
  if (test.expect.at) {
    const Interval at = kelvin_interval(*test.expect.at);
    const std::string range = "at " + celsius(at);
    if (at.width() == 0)
      stated_at = at.low;
    else
      step.limit_words = both_directions ? fmt::format("{}, {}", step.limit_words, range) : range;
  }
  const auto add = [&](double kelvin) {
    if (const auto ohm = expected->service_at(kelvin))
      step.limits.push_back({expected->varies && expected->model ? std::optional(kelvin) : stated_at, *ohm});
  };
  for (const double kelvin : shown_at(*expected, temperature)) add(kelvin);
  if (step.limits.empty() && expected->rows_reach) add(expected->rows_reach->low);
}

}

void add_limits(Plan_step& step, const Resolved& resolved, const Test& test,
                const std::optional<Part_temperature>& temperature) {
  add_healthy(step, resolved, test, temperature);
  const Resolved_component* component = resolved.component_of(test);
  const std::string condition = test.condition ? spoken(*test.condition)
                                : component != nullptr && must_be_cold(*component, test) ? "cold"
                                                                                         : "";
  if (component != nullptr && rests_in_either(*component, test))
    step.limit_words += ", or the reverse, by where the magnet rests";
  if (!condition.empty())
    step.limit_words += fmt::format("{}while {}", step.limit_words.empty() ? "" : ", ", condition);
}

std::vector<std::string> doubts_of(const Resolved& resolved, const Test& test,
                                   const std::optional<Part_temperature>& temperature) {
  std::string problem;
  const auto expected = expected_of(resolved, test, false, problem);
  if (!expected || !expected->model) return {}; // as stated, nothing is carried to another temperature
  const std::vector<double> at = shown_at(*expected, temperature);
  std::vector<std::string> doubts = doubts_at(*expected, {at.front(), at.back()});
  const auto name = expected->component->get(&Component_type::name);
  const std::string who(name ? **name : expected->component->id);
  for (std::string& doubt : doubts)
    doubt = temperature && expected->varies
                ? fmt::format("{} at {}: {}", who, celsius(temperature->kelvin), doubt)
                : fmt::format("{}: {}", who, doubt);
  return doubts;
}

Plan_step instructions(const Resolved& resolved, const Situation& situation, const Order_state& state,
                       std::size_t number, const std::optional<Part_temperature>& temperature) {
  const Named_test& named = situation.tests[number];
  const Test& test = *named.test;
  Plan_step step;
  step.test = std::string(named.id);
  if (test.component) {
    step.component = std::string(*test.component);
    if (const Resolved_component* component = resolved.component_of(test))
      if (const auto name = component->get(&Component_type::name)) step.name = std::string(**name);
  }
  if (test.side) step.side = std::string(word_of(*test.side));
  step.minutes = minutes_of(situation.order, state, number);

  const Measurement_work& work = situation.order.tests[number];
  for (const std::size_t what : work.apart)
    if (state.done[what]) step.prepare.push_back(fmt::format("put back: {}", situation.chores[what].what));
  for (const Chore& chore : work.chores) {
    const std::string words = chore_words(resolved, situation.chores[chore.what]);
    const bool once = situation.chores[chore.what].kind != Chore_words::before;
    step.prepare.push_back(!state.done[chore.what] ? words
                           : once                  ? fmt::format("{}: it is so already", words)
                                                   : fmt::format("{}: as before", words));
  }
  if (test.effort && *test.effort == Effort::high)
    step.prepare.push_back("parts to dismantle or to drain: much work, so it comes late");
  const auto may_read_open = [&](std::size_t other) {
    const auto& healthy = situation.tests[other].healthy;
    return healthy && std::isinf(healthy->high);
  };
  bool tips_were_held = false;
  for (std::size_t other = 0; other < situation.tests.size(); ++other)
    tips_were_held = tips_were_held || (state.taken[other] && may_read_open(other));
  if (may_read_open(number) && !tips_were_held)
    step.prepare.push_back("hold the tips together, which read about 0 Ω: leads off their contacts read OL, "
                           "as a healthy part may here");

  for (std::size_t i = 0; i < test.probes.size(); ++i) {
    if (!test.probes[i]) continue;
    const Contact& contact = *test.probes[i];
    step.probes += (step.probes.empty() ? "" : " to ") + text_of(contact);
    const bool positive = test.positive && *test.positive == contact;
    step.leads.push_back((positive ? "positive lead on " : "") + contact_words(resolved, contact));
  }
  add_limits(step, resolved, test, temperature);
  if (test.response.kind) {
    step.response = spoken(*test.response.kind);
    if (test.response.how) step.response += fmt::format(": {}", *test.response.how);
  }
  if (test.note) step.note = std::string(*test.note);
  return step;
}

}
