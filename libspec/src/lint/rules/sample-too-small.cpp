#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  const Document& document = subject.document;
  const Keyed<Source>* sources = document.sources();
  if (sources == nullptr) return;
  for (const auto& entry : *sources) {
    const Source& source = entry.value;
    if (!source.kind || *source.kind != Source_kind::measurement) continue;
    if (source.samples && *source.samples == 1)
      sink.report(
          source.samples.node,
          fmt::format("{} measured one specimen, which shows nothing of the spread between parts; measure "
                      "more, or say in a `note` why one must do",
                      entry.id));
    else if (!stated(document, source, "samples", source.samples))
      sink.report(entry.key,
                  fmt::format("{} does not say in `samples` how many specimens were measured", entry.id));
  }
}

extern const Rule sample_too_small = {
    .family = Family::source,
    .severity = Severity::note,
    .summary = "A measurement was taken on one specimen, or does not say on how many.",
    .check = check,
};

}
