#include "lint/sourced.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  if (subject.resolved.has_source(Document::root)) return;
  each_sourced(subject, [&](Node_id node, const std::string& what) {
    if (!subject.resolved.has_source(node))
      sink.report(node, fmt::format("{} has no source: say in `source` where the numbers come from, here, in "
                                    "a record around it, or once for the whole document",
                                    what));
  });
}

extern const Rule source_missing = {
    .family = Family::source,
    .severity = Severity::warning,
    .summary = "Numbers or a pin-out have no source.",
    .check = check,
};

}
