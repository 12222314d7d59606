#include "lint/contacts.h"
#include "lint/rule.h"
#include "lint/worked_out.h"
#include "text/small_letters.h"

namespace ohmlore::rules {
namespace {

std::string kept(std::string text, bool digits) {
  std::erase_if(text, [&](char c) { return is_digit(c) != digits; });
  return text;
}

// X5 labelled "X4", where there is an X4; not "display" or "X104", which may be the X4 of another board.
bool is_mislabelled(const std::string& id, const std::string& label) {
  return kept(id, false) == kept(label, false) && !kept(id, true).ends_with(kept(label, true));
}

void check_labels(Sink& sink, const Keyed<Connector>& connectors) {
  const auto on_board = [](const Connector& connector) {
    return !connector.mounted || *connector.mounted == Mounting::board;
  };
  for (const auto& [id, key, connector] : connectors) {
    if (!connector.label || *connector.label == id || !on_board(connector)) continue;
    const std::string label = small_letters(*connector.label);
    if (!is_mislabelled(small_letters(id), label)) continue;
    for (const auto& other : connectors) {
      if (small_letters(other.id) != label || !on_board(other.value)) continue;
      const std::string its_label = other.value.label ? small_letters(*other.value.label) : "";
      if (its_label == small_letters(id) && is_mislabelled(label, its_label) && other.id < id)
        break; // told there
      sink.report(
          connector.label.node,
          fmt::format("{} is labelled {}, and {} is another connector; correct the label, or exchange the "
                      "two ids",
                      id, quoted(*connector.label), other.id));
      sink.relate(other.value.node, "the other connector");
      break;
    }
  }
}

void check_names(const Subject& subject, Sink& sink) {
  const Components_by_words& by_words = components_by_words(subject);
  for (const Resolved_component& component : subject.resolved.components) {
    const auto name = component.own->name;
    const Text own = by_words.of(component);
    if (!name || says(*name, own)) continue;
    const std::string words = words_of(*name);
    if (own.find(words) != std::string::npos) continue;
    const Resolved_component* found = by_words.find(words);
    if (found == nullptr) continue;
    const Resolved_component& other = *found;
    const auto its_name = other.get(&Component_type::name);
    if (!its_name || never_together(component.placed->when, other.placed->when)) continue;
    // Both have that name, or each has the other's.
    const std::string its_words = words_of(**its_name);
    if (its_words != words && its_words != own) continue;
    const bool exchanged = other.own->name && its_words == own;
    if (exchanged && other.id < component.id) continue; // told there
    sink.report(name.node,
                fmt::format("{} is named {}, and {} is another component, named {}; {}", component.id,
                            quoted(*name), other.id, quoted(**its_name),
                            exchanged ? "exchange the two names, or the two ids" : "correct the name"));
    sink.relate(*its_name.document, its_name->node, fmt::format("the name of {}", other.id));
  }
}

void check(const Subject& subject, Sink& sink) {
  if (subject.profile() == nullptr) return;
  check_labels(sink, subject.profile()->connectors);
  check_names(subject, sink);
}

}

extern const Rule named_as_another = {
    .family = Family::pin,
    .severity = Severity::warning,
    .summary = "A connector has the label, or a component the name, of another one.",
    .check = check,
    .goes_by_absence = true,
    .goes_by_order = true,
};

}
