#include <optional>

#include "lint/contacts.h"
#include "lint/named.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

std::string kept(std::string text, bool digits) {
  std::erase_if(text, [&](char c) { return (c >= '0' && c <= '9') != digits; });
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

void check_names(Sink& sink, const Resolved& resolved) {
  std::optional<Components_by_words> by_words; // seldom asked for
  for (const Resolved_component& component : resolved.components) {
    const auto name = component.own->name;
    const std::string own = words_of(component.id);
    if (!name || words_of(*name).find(own) != std::string::npos) continue;
    const std::string words = words_of(*name);
    if (own.find(words) != std::string::npos) continue;
    if (!by_words) by_words.emplace(resolved);
    const Resolved_component* found = by_words->find(words);
    if (found == nullptr) continue;
    const Resolved_component& other = *found;
    const auto its_name = other.get(&Component_type::name);
    // Both have that name, or each has the other's.
    if (!its_name || (words_of(**its_name) != words && words_of(**its_name) != own) ||
        never_together(component.placed->when, other.placed->when))
      continue;
    sink.report(name.node,
                fmt::format("{} is named {}, and {} is another component, named {}; correct the name",
                            component.id, quoted(*name), other.id, quoted(**its_name)));
    sink.relate(*its_name.document, its_name->node, fmt::format("the name of {}", other.id));
  }
}

void check(const Subject& subject, Sink& sink) {
  if (subject.profile() == nullptr) return;
  check_labels(sink, subject.profile()->connectors);
  check_names(sink, subject.resolved);
}

}

extern const Rule named_as_another = {
    .family = Family::pin,
    .severity = Severity::warning,
    .summary = "A connector has the label, or a component the name, of another one.",
    .check = check,
    .goes_by_absence = true,
};

}
