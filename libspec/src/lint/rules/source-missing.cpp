#include "lint/sourced.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  if (subject.resolved.may_have_source(Document::root)) return;
  struct Lacking {
    Node_id node;
    std::string what;
  };
  std::vector<Lacking> lacking;
  bool all = true;
  each_sourced(subject, [&](Node_id node, const std::string& what) {
    if (subject.resolved.may_have_source(node))
      all = false;
    else
      lacking.push_back({node, what});
  });
  for (const Lacking& one : lacking)
    sink.report(one.node,
                fmt::format("{} has no source: say in `source` where the numbers come from, here, in "
                            "a record around it, or once for the whole document",
                            one.what));
  constexpr std::size_t many = 3; // where all lack it, it is one mistake: no source for the whole document
  if (all && lacking.size() >= many)
    sink.tell_as_one(
        lacking.size(),
        fmt::format("{} has no source, nor has anything else here that needs one ({} in all): say in "
                    "`source` where the numbers come from, once for the whole document, or in each record",
                    lacking.front().what, lacking.size()));
}

extern const Rule source_missing = {
    .family = Family::source,
    .severity = Severity::warning,
    .summary = "Numbers or a pin-out have no source.",
    .check = check,
};

}
