#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

bool outside(const Range& at, const Range& range) {
  return !kelvin_interval(at, Taken::generously).overlaps(kelvin_interval(range, Taken::generously));
}

// Where a cold appliance is tested and parts are rated, below what a part of a flue or an oven is used at.
// Common practice, no source.
bool is_room_below(const Range& at, const Range& range) {
  constexpr Interval room = {zero_celsius, zero_celsius + 35};
  const Interval kelvin = kelvin_interval(at);
  return room.contains(kelvin) && kelvin.high < kelvin_interval(range).low;
}
Severity severity_of(const Range& at, const Range& range) {
  return is_room_below(at, range) ? Severity::note : Severity::warning;
}
std::string_view advice_for(const Range& at, const Range& range) {
  return is_room_below(at, range) ? "mend the range where it is not that of use alone" : "mend the wrong one";
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
  const std::string made_for = celsius(kelvin_interval(**range));
  sink.report_as(
      Severity::note, first->at.node,
      count == 1 ? fmt::format("the row at {} lies outside of the temperatures that the part is made for, {}",
                               celsius(first->at->si), made_for)
                 : fmt::format("{} of {} rows lie outside of the temperatures that the part is made for, {}; "
                               "that of {} is the first",
                               count, model.rows.size(), made_for, celsius(first->at->si)));
  sink.relate(*range.document, range.value->node, "the temperature range");
}

void check_model(Sink& sink, const Resolved_component& component) {
  const auto model = component.get(&Component_type::model);
  const auto range = component.get(&Component_type::temperature_range);
  if (!model->kind || !range) return;
  if (model->at && outside(*model->at, **range))
    report_contradiction(sink, component, {model.document, model->at.node, "the resistance of the part"},
                         {range.document, range->node, "the temperature range"},
                         fmt::format("the resistance is stated at {}, and the part is made for {}; {}",
                                     celsius(kelvin_interval(*model->at)), celsius(kelvin_interval(**range)),
                                     advice_for(*model->at, **range)),
                         severity_of(*model->at, **range));
  // Those of a part are for its own document.
  if (component.own->model) check_rows(sink, *model, range);
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) check_model(sink, component);
  each_test(subject, [&](Text, const Test& test) {
    const Resolved_component* component = subject.resolved.component_of(test);
    if (component == nullptr || !test.expect.at) return;
    const auto range = component->get(&Component_type::temperature_range);
    if (!range || !outside(*test.expect.at, **range)) return;
    sink.report_as(severity_of(*test.expect.at, **range), test.expect.at.node,
                   fmt::format("the band is stated at {}, and {} is made for {}; {}",
                               celsius(kelvin_interval(*test.expect.at)), component->id,
                               celsius(kelvin_interval(**range)), advice_for(*test.expect.at, **range)));
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
