#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// What a healthy fuse drops at its rated current, in volt: cold less than a tenth of this is never met, and
// hot never more. Common practice, no source; the standard sheets of IEC 60127-2 allow up to 10 V (memory).
constexpr Interval drop = {0.1, 10};
// Below, no threshold is too loose to show a broken wire or a burnt contact. Common practice, no source.
constexpr double never_loose = 10; // ohm

// A limit that stands in the part is reported at the rating.
void check_limit(Sink& sink, const Resolved_component& fuse, double rating, const Value<Quantity>& below,
                 const Document* of_part = nullptr) {
  const Node_id here = of_part != nullptr ? fuse.own->rating.node : below.node;
  if (!below || !(below->si > 0) || !(rating > 0)) return;
  const auto construction = fuse.get(&Component_type::construction);
  const bool of_wire = !construction || **construction == Fuse_construction::wire;
  const Interval expected = drop / Interval{rating, rating};
  const std::string rated = describe(rating, Dimension::current);
  if (of_wire && written_interval(*below).high < expected.low)
    sink.report(here, fmt::format("a healthy fuse of {} reads more than {}: its thin wire has {} or more "
                                  "({} at that current); raise the limit",
                                  rated, ohm(below->si), ohm(expected.low),
                                  describe(drop.low, Dimension::voltage)));
  else if (written_interval(*below).low > std::max(expected.high, never_loose))
    sink.report(here, fmt::format("a fuse of {} with {} would drop {} and still pass: at most {} is "
                                  "healthy; lower the limit",
                                  rated, ohm(below->si), describe(below->si * rating, Dimension::voltage),
                                  ohm(std::max(expected.high, never_loose))));
  else
    return;
  if (of_part != nullptr) sink.relate(*of_part, below.node, "the limit");
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto rating = component.get(&Component_type::rating);
    if (!component.is(Component_kind::fuse) || !rating) continue;
    const auto model = component.get(&Component_type::model);
    if (component.own->model)
      check_limit(sink, component, (*rating)->si, model->below);
    else if (component.own->rating)
      check_limit(sink, component, (*rating)->si, model->below, model.document);
  }
  each_component_test(subject, [&](Text, const Test& test, const Resolved_component& component) {
    const auto rating = component.get(&Component_type::rating);
    const bool alone = test.side && *test.side != Side::harness;
    if (component.is(Component_kind::fuse) && rating && alone)
      check_limit(sink, component, (*rating)->si, test.expect.below);
  });
}

}

extern const Rule fuse_threshold_unfit = {
    .family = Family::band,
    .severity = Severity::warning,
    .summary = "The threshold of a fuse test does not fit the rating of the fuse.",
    .check = check,
};

}
