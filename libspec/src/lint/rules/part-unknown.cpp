#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  const Parts* parts = subject.resolved.surroundings.parts;
  std::vector<std::string_view> ids;
  if (parts != nullptr)
    for (const auto& [id, document] : *parts) ids.push_back(id);
  for (const Resolved_component& component : subject.resolved.components) {
    if (component.placed == nullptr || !component.placed->part || component.part != nullptr) continue;
    const Value<Text>& part = component.placed->part;
    if (parts == nullptr)
      sink.report_as(
          Severity::note, part.node,
          fmt::format("part {} is not looked up: no usable corpus.json stands above this file; what "
                      "follows from the part is not checked",
                      *part));
    else if (const std::string_view path = parts->broken(*part); !path.empty())
      sink.report(part.node, fmt::format("part {} cannot be used: {} has errors; mend it first", *part,
                                         printable(path)));
    else
      sink.report(part.node, fmt::format("no part of this corpus has the id {}{}", *part, hint(*part, ids)));
  }
}

extern const Rule part_unknown = {
    .family = Family::corpus,
    .severity = Severity::error,
    .summary = "A component names a part that the corpus does not have.",
    .check = check,
};

}
