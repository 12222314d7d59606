#include "lint/measured.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    if (*model.kind != Model_kind::copper || !model.k) return;
    const auto metal = (*with_metal(model, component)).metal;
    if (!metal && component.lacks_part()) return; // which may say it
    const bool aluminium = metal && *metal == Metal::aluminium;
    if (metal && !aluminium && *metal != Metal::copper) return;
    const Interval usual = aluminium ? Interval{215, 235} : Interval{225, 245};
    if (written_interval(*model.k).overlaps(usual)) return;
    sink.report(model.k.node,
                fmt::format("k is {}, and that of {} is {}; leave k out to take that", kelvin(model.k->si),
                            aluminium ? "aluminium" : "copper", kelvin(aluminium ? aluminium_k : copper_k)));
  });
}

extern const Rule copper_k_unusual = {
    .family = Family::copper,
    .severity = Severity::warning,
    .summary = "The k of a copper winding is not that of copper.",
    .check = check,
    .goes_by_absence = true,
};

}
