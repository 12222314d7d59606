#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// What a healthy fuse drops at its rated current, in volt: cold less than a tenth of this is never met, and
// hot never more. Common practice, no source; the standard sheets of IEC 60127-2 allow up to 10 V (memory).
constexpr Interval drop = {0.1, 10};
// Below, no threshold is too loose to show a broken wire or a burnt contact. Common practice, no source.
constexpr double never_loose = 10; // ohm

void check_limit(Sink& sink, const Resolved_component& fuse, const Value<Quantity>& below,
                 const Document& document) {
  const auto rating = fuse.get(&Component_type::rating);
  if (!fuse.is(Component_kind::fuse) || !rating || !below) return;
  const double ampere = (*rating)->si;
  if (!(below->si > 0) || !(ampere > 0)) return;
  const auto construction = fuse.get(&Component_type::construction);
  const bool of_wire = construction ? **construction == Fuse_construction::wire : !fuse.lacks_part();
  const Interval expected = drop / Interval{ampere, ampere};
  const std::string rated = describe(ampere, Dimension::current);
  const auto report = [&](std::string message) {
    report_contradiction(sink, fuse, {&document, below.node, "the limit"},
                         {rating.document, rating->node, "the rating"}, std::move(message));
  };
  if (of_wire && written_interval(*below).high < expected.low)
    report(fmt::format("a healthy fuse of {} reads more than {}: its thin wire has {} or more "
                       "({} at that current); raise the limit",
                       rated, ohm(below->si), ohm(expected.low), describe(drop.low, Dimension::voltage)));
  else if (written_interval(*below).low > std::max(expected.high, never_loose))
    report(fmt::format("a fuse of {} with {} would drop {} and still pass: at most {} is "
                       "healthy; lower the limit",
                       rated, ohm(below->si), describe(below->si * ampere, Dimension::voltage),
                       ohm(std::max(expected.high, never_loose))));
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto model = component.get(&Component_type::model);
    check_limit(sink, component, model->below, *model.document);
  }
  each_component_test(subject, [&](Text, const Test& test, const Resolved_component& component) {
    if (test.side && *test.side != Side::harness)
      check_limit(sink, component, test.expect.below, subject.document);
  });
}

}

extern const Rule fuse_threshold_unfit = {
    .family = Family::band,
    .severity = Severity::warning,
    .summary = "The threshold of a fuse test does not fit the rating of the fuse.",
    .check = check,
    .goes_by_absence = true,
};

}
