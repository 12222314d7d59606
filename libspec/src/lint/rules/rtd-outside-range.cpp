#include "lint/class_range.h"

namespace ohmlore::rules {
namespace {

constexpr Interval standard = {-200, 850}; // °C, IEC 60751

std::string degrees(Interval celsius) { return fmt::format("{:g} °C to {:g} °C", celsius.low, celsius.high); }

void check_range(Sink& sink, Node_id here, const Value<Range>& at, const Resistance_model& model,
                 Severity beyond_standard) {
  if (!at) return;
  if (reaches_beyond(*at, standard)) {
    sink.report_as(
        beyond_standard, here,
        fmt::format("IEC 60751 gives no resistance outside of {}, and {} reaches beyond; correct the "
                    "temperature",
                    degrees(standard), celsius(kelvin_interval(*at))));
    return;
  }
  if (!model.tolerance_class) return;
  const bool film = model.construction && *model.construction == Rtd_construction::film;
  const Interval limits = class_range(model, Rtd_construction::wire);
  if (!reaches_beyond(*at, limits)) return;
  sink.report(here,
              fmt::format("{} reaches beyond {}, where class {} holds for {} resistors; give the range of "
                          "the sensor, or the class that holds over it",
                          celsius(kelvin_interval(*at)), degrees(limits), word_of(*model.tolerance_class),
                          film ? "film" : "wire-wound"));
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto model = component.get(&Component_type::model);
    const auto range = component.get(&Component_type::temperature_range);
    const Component_type& own = *component.own;
    if ((own.model || own.temperature_range) && model && model->kind && *model->kind == Model_kind::iec_60751)
      check_range(sink, own.temperature_range ? own.temperature_range.node : own.model->node, *range, *model,
                  Severity::warning); // what it survives, and where it is read within the standard
  }
  each_test(subject, [&](Text, const Test& test) {
    const Resolved_component* component = subject.resolved.component_of(test);
    if (component == nullptr) return;
    const auto model = component->get(&Component_type::model);
    if (model && model->kind && *model->kind == Model_kind::iec_60751)
      check_range(sink, test.expect.at.node, test.expect.at, *model, Severity::error);
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
