#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  const Document& document = subject.document;
  for (const Reference_use& use : document.references()) {
    if (use.target != Target::contact) continue;
    const Text text = document.string(use.node);
    const std::size_t dot = text.find('.');
    const Contact contact{text.substr(0, dot), text.substr(dot + 1)};
    const Connector* connector = subject.resolved.connector(contact.connector);
    if (connector == nullptr) {
      std::vector<std::string_view> ids;
      for (const auto& entry : subject.profile()->connectors) ids.push_back(entry.id);
      const std::string_view near = nearest_word(contact.connector, ids);
      sink.report(use.node, fmt::format("contact {}: there is no connector {}{}", text, contact.connector,
                                        near.empty() ? "; declare it in `connectors`"
                                                     : fmt::format("; did you mean {}?", near)));
    } else if (connector->pins.find(contact.pin) == nullptr) {
      sink.report(
          use.node,
          fmt::format(
              "contact {}: connector {} declares no pin {}; declare it in `pins`, or name one of its {}",
              text, contact.connector, contact.pin, connector->pins.size()));
      if (connector->pins)
        sink.relate(connector->pins.node, fmt::format("the pins of {}", contact.connector));
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
