#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

using enum Circuit_class;

// How two classes stand to each other when something conducts between them.
enum class Contradiction : std::uint8_t { none, doubtful, certain };

Contradiction contradiction(Circuit_class a, Circuit_class b) {
  const auto either = [&](Circuit_class one, Circuit_class other) {
    return (a == one && b == other) || (a == other && b == one);
  };
  if (either(selv, mains) || either(pelv, mains)) return Contradiction::certain;
  // Not isolated, but how the supply is made decides; earthed SELV is PELV.
  if (either(selv, live_referenced) || either(pelv, live_referenced) || either(selv, ignition_hv) ||
      either(pelv, ignition_hv) || either(selv, protective_earth) || either(mains, protective_earth))
    return Contradiction::doubtful;
  return Contradiction::none;
}

// Parts whose two ends may honestly lie on both sides of a separation: they isolate, couple or limit.
bool may_bridge(const Resolved_component& component) {
  switch (component.kind()) {
  case Component_kind::transformer:
  case Component_kind::electronic:
  case Component_kind::igniter: return true;
  default: return false;
  }
}

bool may_limit(const Resolved_component& component) {
  const auto contacts = component.get(&Component_type::contacts);
  return component.is(Component_kind::resistor) || component.is(Component_kind::capacitor) ||
         component.is(Component_kind::electrode) || // a gap of air
         (contacts && **contacts == Contacts::changeover);
}

std::string_view word(const Value<Circuit_class>& c) { return word_of(*c); }

void check_links(const Subject& subject, Sink& sink) {
  for (const auto& connector : subject.profile()->connectors)
    for (const auto& pin : connector.value.pins)
      for (const Value<Contact>& link : pin.value.links) {
        if (!link) continue;
        const Contact owner{connector.id, pin.id};
        const auto* from = subject.resolved.circuit_class(owner);
        const auto* to = subject.resolved.circuit_class(*link);
        if (from == nullptr || to == nullptr) continue;
        const Contradiction found = contradiction(**from, **to);
        if (found == Contradiction::none) continue;
        sink.report_as(
            found == Contradiction::certain ? Severity::error : Severity::warning, link.node,
            fmt::format("the board joins {} ({}) with {} ({}); the link or one of the classes is wrong",
                        text_of(owner), word(*from), text_of(*link), word(*to)));
        sink.relate(from->node, fmt::format("{} here", word(*from)));
        sink.relate(to->node, fmt::format("{} here", word(*to)));
      }
}

void check_ends(const Subject& subject, const List<Value<Contact>>& ends, Severity at_most,
                std::string_view what, Sink& sink) {
  if (ends.size() != 2 || !ends[0] || !ends[1]) return;
  const auto* a = subject.resolved.circuit_class(*ends[0]);
  const auto* b = subject.resolved.circuit_class(*ends[1]);
  if (a == nullptr || b == nullptr || contradiction(**a, **b) != Contradiction::certain) return;
  sink.report_as(
      at_most, ends.node,
      fmt::format("{} lies between {} ({}) and {} ({}) and would join the two; correct a contact or a class",
                  what, text_of(*ends[0]), word(*a), text_of(*ends[1]), word(*b)));
  sink.relate(a->node, fmt::format("{} here", word(*a)));
  sink.relate(b->node, fmt::format("{} here", word(*b)));
}

void check_supplies(const Subject& subject, Sink& sink) {
  for (const Supply& supply : subject.profile()->safety.supplies) {
    if (!supply.kind ||
        (*supply.kind != Supply_kind::mains && *supply.kind != Supply_kind::switched_live &&
         *supply.kind != Supply_kind::second_tariff && *supply.kind != Supply_kind::immersion_heater))
      continue;
    for (const Value<Contact>& contact : supply.enters_at) {
      if (!contact) continue;
      const auto* c = subject.resolved.circuit_class(*contact);
      if (c == nullptr || (**c != selv && **c != pelv)) continue;
      // A transformer or adapter before the contact may separate it: isolated at the wall all the same.
      sink.report_as(
          Severity::warning, contact.node,
          fmt::format("a supply of kind {} enters at {}, which is declared {}; correct the contact or the "
                      "class, or waive this where an adapter before it isolates",
                      word_of(*supply.kind), text_of(*contact), word(*c)));
      sink.relate(c->node, fmt::format("{} here", word(*c)));
    }
  }
}

void check(const Subject& subject, Sink& sink) {
  if (subject.profile() == nullptr) return;
  check_links(subject, sink);
  for (const Resolved_component& component : subject.resolved.components)
    if (component.known_kind && !may_bridge(component))
      check_ends(subject, component.placed->between,
                 may_limit(component) ? Severity::warning : Severity::error, component.id, sink);
  for (const auto& circuit : subject.profile()->circuits)
    check_ends(subject, circuit.value.between, Severity::warning, fmt::format("circuit {}", circuit.id),
               sink);
  check_supplies(subject, sink);
}

}

extern const Rule circuit_class_contradicts = {
    .family = Family::pin,
    .severity = Severity::error,
    .summary = "Something joins two contacts whose circuit classes exclude each other.",
    .check = check,
};

}
