#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  const Document& document = subject.document;
  const Keyed<Source>* sources = document.sources();
  if (sources == nullptr) return;
  for (const auto& source : *sources) {
    const auto cites = [&](const Reference_use& use) {
      return use.target == Target::source && document.string(use.node) == source.id;
    };
    if (std::none_of(document.references().begin(), document.references().end(), cites))
      sink.report(source.key, fmt::format("no record cites {}; cite it where its numbers stand, or remove it",
                                          quoted(source.id)));
  }
}

extern const Rule source_unused = {
    .family = Family::source,
    .severity = Severity::note,
    .summary = "No record cites a source.",
    .check = check,
};

}
