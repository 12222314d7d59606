#include <algorithm>

#include "lint/read.h"
#include "lint/stated_model.h"

namespace ohmlore::rules {
namespace {

void check_value(Sink& sink, const Value<Quantity>& value, std::string_view why) {
  if (value && value->si <= 0)
    sink.report(value.node, fmt::format("{} {}", describe(value->si, value->dimension), why));
}

// A resistance below 0 Ω is for band-negative.
void check_resistance(Sink& sink, const Value<Quantity>& value, std::string_view why) {
  if (value && value->si == 0) check_value(sink, value, why);
}

constexpr std::string_view no_contact_reads_that =
    "is no limit: no contact reads that little; state the greatest healthy resistance";

// Zero may be how somebody says that nothing is allowed for age.
void check_service_limit(Sink& sink, Node_id node, double least, Dimension dimension) {
  if (node != 0 && least <= 0)
    sink.report_as(
        least < 0 ? Severity::error : Severity::warning, node,
        fmt::format("{} is no service limit: no part is so near to its curve; state how far a used part may "
                    "be from it",
                    describe(least, dimension)));
}

void check_model(Sink& sink, const Resistance_model& model) {
  constexpr std::string_view curve = "at its reference makes the whole curve 0 Ω; state what the part has";
  check_value(sink, model.voltage, "is no rating: nothing follows from it; state the rated voltage");
  check_value(sink, model.power, "is no rating: nothing follows from it; state the rated power");
  check_resistance(sink, model.r0, curve);
  if (*model.kind == Model_kind::beta || *model.kind == Model_kind::copper)
    check_resistance(sink, model.resistance, curve);
  check_resistance(sink, model.below, no_contact_reads_that);
}

// A polynomial may turn outside of what it was fitted to, but not inside of what the part is made for.
// Between the temperatures that are tried it may be missed, but what is found is sure.
void check_polynomial(const Subject& subject, Sink& sink, const Resistance_model& model,
                      const Resolved_component& component) {
  const auto range = component.get(&Component_type::temperature_range);
  if (*model.kind != Model_kind::polynomial || !model.r0 || model.r0->si <= 0 || !range ||
      !fully_read(subject.document, model))
    return;
  const Interval made_for = kelvin_interval(**range);
  constexpr int steps = 64;
  std::optional<Point> least;
  for (int i = 0; i <= steps; ++i) {
    const auto there = point_at(model, std::lerp(made_for.low, made_for.high, i / double(steps)));
    if (there && (!least || there->ohm.high < least->ohm.high)) least = there;
  }
  if (!least || !(least->ohm.high <= 0)) return;
  sink.report(model.node, fmt::format("this model gives {} at {}, which no part that is tested dead can "
                                      "have, and the part is made for {}; look for a wrong digit, sign or "
                                      "exponent in its coefficients, or at the range",
                                      ohm(least->shown), celsius(least->kelvin), celsius(made_for)));
  sink.relate(*range.document, range->node, "the temperature range");
}

void check_component(Sink& sink, const Component_type& component) {
  check_value(sink, component.rated_voltage, "is no rated voltage; state that of the rating plate");
  check_value(sink, component.rated_power, "is no rated power; state that of the rating plate");
  check_value(sink, component.rated_current, "is no rated current; state that of the rating plate");
  check_value(sink, component.rating, "is no rating of a fuse; state the current printed on it");
  check_value(sink, component.capacitance, "is no capacitance; state the one printed on the part");
  const Value<Tolerance>& limit = component.service_limit;
  check_service_limit(sink, limit.node, std::max(limit->minus, limit->plus), limit->dimension);
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components)
    check_component(sink, *component.own);
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    check_model(sink, model);
    check_polynomial(subject, sink, model, component);
  });
  each_test(subject, [&](Text, const Test& test) {
    check_resistance(sink, test.expect.below, no_contact_reads_that);
    check_resistance(sink, test.expect.above,
                     "or more is what every part reads, good or bad; state the least healthy resistance");
    const Value<Tolerance>& difference = test.expect.largest_difference;
    if (difference && difference->minus == 0 && difference->plus == 0)
      sink.report(difference.node, "no two parts read exactly alike; state the largest healthy difference");
  });
  if (const Corpus* corpus = subject.document.corpus()) {
    const Value<Quantity>& limit = corpus->policy.service_limit;
    check_service_limit(sink, limit.node, limit->si, limit->dimension);
  }
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  for (const Hazard& hazard : profile->safety.hazards)
    check_value(sink, hazard.verify_below,
                "leaves no reading below it; state the voltage below which it is safe to touch");
}

}

extern const Rule value_not_positive = {
    .family = Family::unit,
    .severity = Severity::error,
    .summary = "A value that only makes sense above zero is zero or negative.",
    .check = check,
};

}
