#include <map>

#include "lint/rule.h"
#include "text/counted.h"

namespace ohmlore::rules {
namespace {

// What nearly every contact is.
bool is_of_a_pin(const Resolved& resolved, Node_id node) {
  const std::size_t number = resolved.number_at(node);
  return number < resolved.declared.size() && resolved.declared[number].pin != nullptr;
}

Contact contact_of(Text text) {
  const std::size_t dot = text.find('.');
  return {text.substr(0, dot), text.substr(dot + 1)};
}

// `connector` is the contact's, null where it is not there.
std::string what_is_wrong(const Profile& profile, const Connector* connector, Text text) {
  const Contact contact = contact_of(text);
  if (connector != nullptr)
    return fmt::format("contact {}: connector {} declares no pin {}, only {}; declare it in `pins`, or "
                       "name the pin that is meant",
                       text, contact.connector, contact.pin, listed(ids_of(connector->pins)));
  const std::string near = hint(contact.connector, ids_of(profile.connectors));
  return fmt::format("contact {}: there is no connector {}{}", text, contact.connector,
                     near.empty() ? "; declare it in `connectors`" : near);
}

void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr || !profile->connectors) return; // contacts stand in profiles only
  const Document& document = subject.document;
  std::map<Text, std::vector<Node_id>> missing; // where each connector, or else each contact, is named
  Text name;                                    // contacts of one connector mostly follow each other
  const Connector* connector = nullptr;
  for (const Reference_use& use : document.references()) {
    if (use.target != Target::contact || is_of_a_pin(subject.resolved, use.node)) continue;
    const Text text = document.string(use.node);
    const Contact contact = contact_of(text);
    if (contact.connector != name) connector = subject.resolved.connector(name = contact.connector);
    if (connector == nullptr) {
      missing[contact.connector].push_back(use.node);
      continue;
    }
    const Keyed<Pin>& pins = connector->pins;
    if (!pins || pins.empty() || pins.find(contact.pin) != nullptr) continue; // none: count-out-of-limits
    missing[text].push_back(use.node);
  }
  for (const auto& [what, places] : missing) {
    name = contact_of(what).connector;
    connector = subject.resolved.connector(name);
    for (const Node_id place : places) {
      sink.report(place, what_is_wrong(*profile, connector, document.string(place)));
      if (connector != nullptr) sink.relate(connector->pins.node, fmt::format("the pins of {}", name));
    }
    if (places.size() > 1)
      sink.tell_as_one(places.size(),
                       fmt::format("{} ({} is named in {})",
                                   what_is_wrong(*profile, connector, document.string(places[0])), what,
                                   counted(places.size(), "place")));
  }
}

}

extern const Rule pin_undeclared = {
    .family = Family::pin,
    .severity = Severity::error,
    .summary = "A contact names a connector or pin that the profile does not declare.",
    .check = check,
};

}
