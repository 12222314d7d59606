#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static bool one_contact(const List<Value<Contact>>& ends) {
  return has_both_ends(ends) && *ends[0] == *ends[1];
}

// The board bridges the two while the plug is in. A test is no place to ask: its plug is withdrawn.
static void check_bridged(const Subject& subject, const List<Value<Contact>>& ends, std::string_view what,
                          Sink& sink) {
  if (!has_both_ends(ends) || one_contact(ends)) return;
  if (!are_joined(subject.resolved, *ends[0], *ends[1])) return;
  sink.report_as(
      Severity::warning, ends.node,
      fmt::format(
          "the `links` of the pins join {} with {}, so that the board bridges {} while the plug is in; "
          "correct the contacts or the links",
          text_of(*ends[0]), text_of(*ends[1]), what));
}

// Dead is proved at each of them, and the one that was meant is left out.
static void check_supply(const List<Value<Contact>>& enters_at, Sink& sink) {
  for (std::size_t i = 0; i < enters_at.size(); ++i)
    for (std::size_t earlier = 0; earlier < i; ++earlier)
      if (enters_at[i] && enters_at[earlier] && *enters_at[i] == *enters_at[earlier])
        sink.report_as(Severity::warning, enters_at[i].node,
                       fmt::format("the supply enters at {} twice; name each of its poles, since dead is "
                                   "proved at all of them",
                                   text_of(*enters_at[i])));
}

static void check_model(const Resistance_model& model, Sink& sink) {
  for (const Terminal_pair& pair : model.pairs)
    if (pair.from && pair.to && *pair.from == *pair.to)
      sink.report(pair.node, fmt::format("this pair goes from terminal {} to itself; name the two terminals "
                                         "that the resistance lies between",
                                         *pair.from));
}

static void check(const Subject& subject, Sink& sink) {
  each_own_model(subject,
                 [&](const Resistance_model& model, const Resolved_component&) { check_model(model, sink); });
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  each_test(subject, [&](Text, const Test& test) {
    if (!one_contact(test.probes)) return;
    if (!test.side || *test.side == Side::harness) // where the side could not be read, it may be that
      sink.report_as(
          Severity::warning, test.probes.node,
          fmt::format(
              "both leads go to {}; for a wire from end to end declare the plug at its other end as a "
              "connector, and name its contact",
              text_of(*test.probes[0])));
    else
      sink.report(test.probes.node,
                  fmt::format("both leads go to {} and would read 0 Ω whatever the part does; name the "
                              "two contacts to measure between",
                              text_of(*test.probes[0])));
  });
  const auto check_ends = [&](const List<Value<Contact>>& ends, std::string_view what) {
    if (one_contact(ends))
      sink.report(ends.node,
                  fmt::format("both ends of {} lie on {}; name the two contacts that it lies between", what,
                              text_of(*ends[0])));
    check_bridged(subject, ends, what, sink);
  };
  for (const auto& component : profile->components) check_ends(component.value.between, component.id);
  for (const auto& circuit : profile->circuits)
    check_ends(circuit.value.between, fmt::format("circuit {}", circuit.id));
  for (const Supply& supply : profile->safety.supplies) check_supply(supply.enters_at, sink);
  for (const auto& connector : profile->connectors)
    for (const auto& pin : connector.value.pins)
      for (const Value<Contact>& link : pin.value.links)
        if (link && *link == Contact{connector.id, pin.id})
          sink.report_as(
              Severity::warning, link.node,
              fmt::format("{} is linked with itself; name the contact that the board joins with it",
                          text_of(*link)));
}

extern const Rule probes_on_one_contact = {
    .family = Family::pin,
    .severity = Severity::error,
    .summary = "Both probes of a test, or both ends of a part or circuit, are one contact.",
    .check = check,
};

}
