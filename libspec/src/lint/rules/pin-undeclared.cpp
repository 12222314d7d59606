#include "lint/rule.h"

namespace ohmlore::rules {

// What nearly every contact is.
static bool is_of_a_pin(const Resolved& resolved, Node_id node) {
  const std::size_t number = resolved.number_at(node);
  return number < resolved.declared.size() && resolved.declared[number].pin != nullptr;
}

static void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr || !profile->connectors) return; // contacts stand in profiles only
  const Document& document = subject.document;
  Text name; // contacts of one connector mostly follow each other
  const Connector* connector = nullptr;
  for (const Reference_use& use : document.references()) {
    if (use.target != Target::contact || is_of_a_pin(subject.resolved, use.node)) continue;
    const Text text = document.string(use.node);
    const std::size_t dot = text.find('.');
    const Contact contact{text.substr(0, dot), text.substr(dot + 1)};
    if (contact.connector != name) connector = subject.resolved.connector(name = contact.connector);
    if (connector == nullptr) {
      const std::string near = hint(contact.connector, ids_of(profile->connectors));
      sink.report(use.node, fmt::format("contact {}: there is no connector {}{}", text, contact.connector,
                                        near.empty() ? "; declare it in `connectors`" : near));
      continue;
    }
    const Keyed<Pin>& pins = connector->pins;
    if (!pins || pins.empty() || pins.find(contact.pin) != nullptr) continue; // none: count-out-of-limits
    sink.report(use.node,
                fmt::format("contact {}: connector {} declares no pin {}, only {}; declare it in `pins`, or "
                            "name the pin that is meant",
                            text, contact.connector, contact.pin, listed(ids_of(pins))));
    sink.relate(pins.node, fmt::format("the pins of {}", contact.connector));
  }
}

extern const Rule pin_undeclared = {
    .family = Family::pin,
    .severity = Severity::error,
    .summary = "A contact names a connector or pin that the profile does not declare.",
    .check = check,
};

}
