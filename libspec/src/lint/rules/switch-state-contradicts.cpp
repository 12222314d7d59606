#include <algorithm>

#include "lint/contacts.h"
#include "lint/named.h"
#include "lint/readings.h"
#include "lint/rule.h"
#include "lint/wiring.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// True where only the contact itself lies between the probes.
bool contact_alone(const Subject& subject, const Resolved_component& component, const Test& test) {
  const auto contacts = component.get(&Component_type::contacts);
  const auto pulse = component.get(&Component_type::pulse);
  const auto indicator = component.get(&Component_type::indicator);
  const Component_type& own = *component.own;
  if (may_have(component, "contacts", own.contacts) || may_have(component, "pulse", own.pulse) ||
      may_have(component, "indicator", own.indicator) ||
      may_have(component, "series_resistance", own.series_resistance))
    return false;
  if ((contacts && **contacts == Contacts::changeover) || (pulse && **pulse) || (indicator && **indicator))
    return false;
  if (!same_ends(component.placed->between, test.probes) || !circuits_of(subject.resolved, component).empty())
    return false;
  // One that could not be read may be a way past it.
  if (!subject.document.complete() && stated(subject.document, Document::root, "circuits")) return false;
  if (lies_alone(subject.resolved, test)) return true;
  if (!test.unplug) return false;
  const auto way = on_the_way(subject, test);
  return way.size() == 1 && way.front().component == &component;
}

// The state that a test expects: its kind says so, or its band is one that only such a contact reads.
std::optional<Contact_state> expected_state(const Subject& subject, const Resolved_component& component,
                                            const Test& test) {
  switch (*test.expect.kind) {
  case Expectation_kind::open: return Contact_state::open;
  case Expectation_kind::closed: return Contact_state::closed;
  case Expectation_kind::band: break;
  default: return std::nullopt;
  }
  const auto& band = expected(subject, test);
  if (band && band->high <= closed_at_most) return Contact_state::closed;
  // What lies in series with a closed contact may read as much.
  if (band && band->low >= open_at_least && !component.get(&Component_type::series_resistance) &&
      contact_alone(subject, component, test))
    return Contact_state::open;
  return std::nullopt;
}

std::string_view in_words(Throw read) {
  switch (read) {
  case Throw::as_stated: break;
  case Throw::normally_closed: return " (to its normally closed contact)";
  case Throw::none: return " (between its two throws, as always)";
  }
  return "";
}

void check_tests(const Subject& subject, Sink& sink) {
  each_test(subject, [&](Text, const Test& test) {
    if (!test.component || !test.condition || !test.expect.kind || !test.side || *test.side == Side::harness)
      return;
    const Resolved_component* component = subject.resolved.component_of(test);
    if (component == nullptr || !component->is(Component_kind::switch_)) return;
    const auto state = state_between_probes(*component, test);
    const auto wanted = expected_state(subject, *component, test);
    if (!state || !wanted || *state == *wanted) return;
    const bool wants_open = *wanted == Contact_state::open;
    const auto series = component->get(&Component_type::series_resistance);
    // What is done before, or while measuring, may bring the contact into the other state; a note may be of
    // other switches.
    const bool as_it_is = !stated(subject.document, test, "before", test.before) &&
                          !stated(subject.document, test, "note", test.note) &&
                          !stated(subject.document, test, "response", test.response);
    const bool sure = as_it_is && contact_alone(subject, *component, test) && !(wants_open && series);
    const auto& band = expected(subject, test);
    // What could not be read, or a part that was not found, may say of which throw it is.
    if (!sure && (!subject.document.complete() || may_have(*component, "contacts", component->own->contacts)))
      return;
    sink.report_as(
        sure ? Severity::error : Severity::warning, band ? test.expect.node : test.expect.kind.node,
        fmt::format("{} is {} when {}{}, but this test expects it {} then{}; correct one of the two",
                    component->id, word_of(*state), *test.condition,
                    in_words(throw_between_probes(*component, test)), word_of(*wanted),
                    band ? fmt::format(" ({})", ohm(*band)) : std::string()));
    const auto states = component->get(&Component_type::states);
    sink.relate(*states.document, states->find(*test.condition)->value.node, "the state");
  });
}

void check_states(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto& states = component.own->states;
    const bool read =
        std::all_of(states.begin(), states.end(), [](const auto& state) { return bool(state.value); });
    if (states.size() < 2 || !read) continue;
    const Contact_state first = *states.begin()->value;
    if (std::any_of(states.begin(), states.end(), [&](const auto& state) { return *state.value != first; }))
      continue;
    sink.report_as(Severity::warning, states.node,
                   fmt::format("{} is {} in {}: no condition would ever change it; correct one", component.id,
                               word_of(first),
                               states.size() == 2 ? std::string("both states")
                                                  : fmt::format("all {} states", states.size())));
  }
}

// What "Limiter, N.C." says; empty where it says both, or neither. "NO" may be a word, or a number's.
std::optional<Contacts> contacts_named(Text name) {
  const std::string words = words_of(name);
  const auto says = [&](std::string_view what) { return words.find(what) != std::string::npos; };
  const bool closed = says(" nc ") || says(" n c ") || says(" normally closed ");
  const bool open = name.find("(NO)") != Text::npos || says(" n o ") || says(" normally open ");
  if (closed == open) return std::nullopt;
  return closed ? Contacts::nc : Contacts::no;
}

void check_names(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto name = component.get(&Component_type::name);
    const auto contacts = component.get(&Component_type::contacts);
    if (!component.is(Component_kind::switch_) || !name || !contacts || **contacts == Contacts::changeover)
      continue;
    const auto named = contacts_named(**name);
    if (!named || *named == **contacts) continue;
    report_contradiction(sink, component, {contacts.document, contacts->node, "its contacts"},
                         {name.document, name->node, "the name"},
                         fmt::format("{} is named {}, and its contacts are `{}`; mend the wrong one",
                                     component.id, quoted(**name), word_of(**contacts)),
                         Severity::warning);
  }
}

void check(const Subject& subject, Sink& sink) {
  check_tests(subject, sink);
  check_states(subject, sink);
  check_names(subject, sink);
}

}

extern const Rule switch_state_contradicts = {
    .family = Family::fault,
    .severity = Severity::error,
    .summary = "A test expects of a switch the opposite of what its states say.",
    .check = check,
};

}
