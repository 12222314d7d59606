#include <utility>

#include "lint/rule.h"

namespace ohmlore::rules {

static std::string remedy(Text id, const Parts& parts) {
  std::vector<std::string_view> ids;
  for (const auto& [known, document] : parts) ids.push_back(known);
  const std::string near = hint(id, ids);
  return near.empty() ? "; add its document there, or name one that is there" : near;
}

static void check(const Subject& subject, Sink& sink) {
  bool told = false; // that there is no corpus, once
  for (const Resolved_component& component : subject.resolved.components) {
    const auto missing = missing_part(subject.resolved, component);
    if (!missing) continue;
    const Node_id node = component.placed->part.node;
    switch (missing->why) {
    case Missing_part::Why::no_root:
      if (std::exchange(told, true)) break;
      sink.report_as(
          Severity::note, node,
          fmt::format(
              "part {} is not looked up, nor any other: no usable corpus.json stands above this file, "
              "so that what follows from parts is not checked; mend the one that stands there, or "
              "begin one with `ohmlore new corpus`",
              missing->id));
      break;
    case Missing_part::Why::broken:
      sink.report(node, fmt::format("part {} cannot be used: {} cannot be read without errors; mend it first",
                                    missing->id, printable(missing->broken)));
      break;
    case Missing_part::Why::unread:
      sink.report(node, fmt::format("no part that could be read has the id {}, and not all could; {}",
                                    missing->id, printable(missing->unread)));
      break;
    case Missing_part::Why::unknown:
      sink.report(node, fmt::format("no part has the id {} below {} (`part_paths` of corpus.json){}",
                                    missing->id, listed(part_folders(subject.resolved.surroundings.corpus)),
                                    remedy(missing->id, *subject.resolved.surroundings.parts)));
      break;
    }
  }
}

extern const Rule part_unknown = {
    .family = Family::corpus,
    .severity = Severity::error,
    .summary = "A component names a part that the corpus does not have.",
    .check = check,
    .goes_by_order = true,
};

}
