#include "lint/class_range.h"

namespace ohmlore::rules {
namespace {

constexpr Interval standard = {-200, 850}; // °C, IEC 60751

std::string degrees(Interval celsius) { return fmt::format("{:g} °C to {:g} °C", celsius.low, celsius.high); }

struct Beyond {
  bool the_standard; ///< else the class alone
  std::string message;
};
std::optional<Beyond> beyond(const Value<Range>& at, const Resistance_model& model) {
  if (!at || !model.kind || *model.kind != Model_kind::iec_60751) return std::nullopt;
  if (reaches_beyond(*at, standard))
    return Beyond{true, fmt::format("IEC 60751 gives no resistance outside of {}, and {} reaches beyond; "
                                    "correct the temperature",
                                    degrees(standard), celsius(kelvin_interval(*at)))};
  if (!model.tolerance_class) return std::nullopt;
  const bool film = model.construction && *model.construction == Rtd_construction::film;
  const Interval limits = class_range(model, Rtd_construction::wire);
  if (!reaches_beyond(*at, limits)) return std::nullopt;
  return Beyond{false,
                fmt::format("{} reaches beyond {}, where class {} holds for {} resistors; give the range of "
                            "the sensor, or the class that holds over it",
                            celsius(kelvin_interval(*at)), degrees(limits), word_of(*model.tolerance_class),
                            film ? "film" : "wire-wound")};
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto model = component.get(&Component_type::model);
    const auto range = component.get(&Component_type::temperature_range);
    // A warning: what it survives, and where it is read within the standard.
    if (auto found = beyond(*range, *model))
      report_contradiction(sink, component, {range.document, range->node, "the temperature range"},
                           {model.document, model->node, "the resistance"}, std::move(found->message));
  }
  each_test(subject, [&](Text, const Test& test) {
    const Resolved_component* component = subject.resolved.component_of(test);
    if (component == nullptr) return;
    if (auto found = beyond(test.expect.at, *component->get(&Component_type::model)))
      sink.report_as(found->the_standard ? Severity::error : Severity::warning, test.expect.at.node,
                     std::move(found->message));
  });
}

}

extern const Rule rtd_outside_range = {
    .family = Family::rtd,
    .severity = Severity::warning,
    .summary = "A platinum sensor is used where its class, or the standard, gives no values.",
    .check = check,
};

}
