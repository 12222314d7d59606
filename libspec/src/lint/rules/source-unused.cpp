#include <algorithm>
#include <set>

#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  const Document& document = subject.document;
  const Keyed<Source>* sources = document.sources();
  if (sources == nullptr) return;
  std::set<Text> cited;
  for (const Reference_use& use : document.references())
    if (use.target == Target::source) cited.insert(document.string(use.node));
  // A reference that names no source may be meant for the one that nobody cites.
  if (std::any_of(cited.begin(), cited.end(), [&](Text id) { return sources->find(id) == nullptr; })) return;
  for (const auto& source : *sources)
    if (cited.count(source.id) == 0)
      sink.report(source.key, fmt::format("no record cites {}; cite it where its numbers stand, or remove it",
                                          quoted(source.id)));
}

extern const Rule source_unused = {
    .family = Family::source,
    .severity = Severity::note,
    .summary = "No record cites a source.",
    .check = check,
    .goes_by_absence = true,
};

}
