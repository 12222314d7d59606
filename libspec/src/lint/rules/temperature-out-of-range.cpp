#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

bool outside(const Range& at, const Range& range) {
  return !kelvin_interval(at, Taken::generously).overlaps(kelvin_interval(range, Taken::generously));
}

void check_rows(Sink& sink, const Resistance_model& model, const In_document<Value<Range>>& range) {
  std::size_t count = 0;
  const Table_row* first = nullptr;
  for (const Table_row& row : model.rows)
    if (row.at && outside({*row.at, *row.at, true}, **range)) {
      ++count;
      if (first == nullptr) first = &row;
    }
  if (first == nullptr) return;
  sink.report_as(
      Severity::note, first->at.node,
      fmt::format("{} of {} rows {} outside of the temperatures that the part is made for, {}; that of "
                  "{} is the first",
                  count, model.rows.size(), count == 1 ? "lies" : "lie", celsius(kelvin_interval(**range)),
                  celsius(first->at->si)));
  sink.relate(*range.document, range.value->node, "the temperature range");
}

// Where the model stands in the part, at the component's own range. Rows are for the part's own document.
void check_model(Sink& sink, const Resolved_component& component) {
  const Component_type& own = *component.own;
  const auto model = component.get(&Component_type::model);
  const auto range = component.get(&Component_type::temperature_range);
  if ((!own.model && !own.temperature_range) || !model->kind || !range) return;
  if (model->at && outside(*model->at, **range)) {
    sink.report(own.model ? model->at.node : range->node,
                fmt::format("the resistance is stated at {}, and the part is made for {}; mend the wrong one",
                            celsius(kelvin_interval(*model->at)), celsius(kelvin_interval(**range))));
    if (own.model)
      sink.relate(*range.document, range->node, "the temperature range");
    else
      sink.relate(*model.document, model->at.node, "the resistance of the part");
  }
  if (own.model) check_rows(sink, *model, range);
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) check_model(sink, component);
  each_test(subject, [&](Text, const Test& test) {
    const Resolved_component* component = subject.resolved.component_of(test);
    if (component == nullptr || !test.expect.at) return;
    const auto range = component->get(&Component_type::temperature_range);
    if (!range || !outside(*test.expect.at, **range)) return;
    sink.report(test.expect.at.node,
                fmt::format("the band is stated at {}, and {} is made for {}; mend the wrong one",
                            celsius(kelvin_interval(*test.expect.at)), component->id,
                            celsius(kelvin_interval(**range))));
    sink.relate(*range.document, range.value->node, "the temperature range");
  });
}

}

extern const Rule temperature_out_of_range = {
    .family = Family::band,
    .severity = Severity::warning,
    .summary = "A resistance is stated at a temperature that the part is not made for.",
    .check = check,
};

}
