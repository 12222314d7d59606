#include "lint/readings.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

bool is_sensor(const Resolved_component* component) {
  return component != nullptr && (component->is(Component_kind::ntc) || component->is(Component_kind::rtd));
}

void check_tolerance(Sink& sink, const Value<Quantity>& nominal, const Value<Tolerance>& tolerance,
                     bool of_sensor = false, std::string_view what = "the nominal") {
  if (!tolerance) return;
  const bool known = nominal && nominal->si > 0;
  // A short circuit is the healthy part there.
  const bool closed = nominal && nominal->dimension == Dimension::resistance && nominal->si >= 0 &&
                      nominal->si <= closed_at_most;
  if (tolerance->relative()) {
    if (tolerance->minus < 1) return;
  } else if (!known || tolerance->minus < nominal->si) {
    return;
  }
  // Half a digit of the nominal may leave something.
  const bool surely = tolerance->relative() || tolerance->minus >= written_interval(*nominal).high;
  const std::string minus = describe(tolerance->minus, tolerance->dimension);
  if (closed && !of_sensor)
    sink.report_as(Severity::warning, tolerance.node,
                   fmt::format("-{} takes {} down to zero or beyond; state `min` and `max`, or kind `closed`",
                               minus, describe(nominal->si, nominal->dimension)));
  else if (tolerance->relative())
    sink.report(tolerance.node, fmt::format("-{} reaches down to zero or beyond; only the plus side may be "
                                            "100 % or more: did you mean \"+{} -…\"?",
                                            percent(tolerance->minus), percent(tolerance->plus)));
  else
    sink.report_as(
        surely ? Severity::error : Severity::warning, tolerance.node,
        fmt::format("-{} takes {} down to zero or beyond; state a smaller one, or another on either side",
                    minus, describe(nominal->si, nominal->dimension)));
  if (!tolerance->relative()) sink.relate(nominal.node, std::string(what));
}

// Of a model whose nominal stands nowhere: V²/P of a rating. A share of it needs none.
void check_power(Sink& sink, const Resistance_model& model) {
  if (!model.tolerance || model.tolerance->relative() || !model.voltage || !model.power) return;
  const Interval volt = written_interval(*model.voltage), watt = written_interval(*model.power);
  if (!(volt.low > 0) || !(watt.low > 0)) return;
  const Interval ohm = resistance_from_power(volt, watt);
  if (model.tolerance->minus < ohm.high) return;
  Value<Quantity> nominal = model.power;
  nominal.value.si = model.voltage->si * model.voltage->si / model.power->si;
  nominal.value.half_digit = ohm.width() / 2;
  nominal.value.dimension = Dimension::resistance;
  check_tolerance(sink, nominal, model.tolerance, false, "the power, of which V²/P is that");
}

// One tolerance for all pairs: where it takes the largest away, nothing is left of any.
void check_pairs(Sink& sink, const Resistance_model& model) {
  if (!model.tolerance || model.tolerance->relative() || model.resistance) return;
  const Value<Quantity>* largest = nullptr;
  const Value<Quantity>* smallest = nullptr;
  for (const Terminal_pair& pair : model.pairs) {
    if (!pair.resistance) return; // it may be the largest
    if (largest == nullptr || pair.resistance->si > (*largest)->si) largest = &pair.resistance;
    if (smallest == nullptr || pair.resistance->si < (*smallest)->si) smallest = &pair.resistance;
  }
  if (largest == nullptr) return;
  if (model.tolerance->minus >= (*largest)->si) return check_tolerance(sink, *largest, model.tolerance);
  if (model.tolerance->minus < (*smallest)->si) return;
  sink.report_as(Severity::warning, model.tolerance.node,
                 fmt::format("-{} takes the {} of one pair down to zero or beyond; state it in percent",
                             ohm(model.tolerance->minus), ohm((*smallest)->si)));
  sink.relate(smallest->node, "the pair");
}

// A nominal that could not be read may be that of a closed contact.
void check(const Subject& subject, Sink& sink) {
  const Document& document = subject.document;
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    const bool of_sensor = is_sensor(&component);
    for (const Table_row& row : model.rows)
      if (!unread(document, row, "nominal", row.nominal))
        check_tolerance(sink, row.nominal, row.tolerance, of_sensor);
    if (!unread(document, model, "resistance", model.resistance))
      check_tolerance(sink, model.resistance ? model.resistance : model.r0, model.tolerance, of_sensor);
    check_tolerance(sink, model.b_value, model.b_tolerance);
    check_power(sink, model);
    check_pairs(sink, model);
  });
  each_test(subject, [&](Text, const Test& test) {
    if (unread(document, test.expect, "nominal", test.expect.nominal)) return;
    const bool of_wires = test.side ? *test.side == Side::harness : unread(document, test, "side", test.side);
    check_tolerance(sink, test.expect.nominal, test.expect.tolerance,
                    !of_wires && is_sensor(subject.resolved.component_of(test)));
  });
  if (const Profile* profile = subject.profile())
    for (const auto& entry : profile->circuits)
      for (const Element& element : entry.value.elements)
        if (!unread(document, element, "resistance", element.resistance))
          check_tolerance(sink, element.resistance, element.tolerance);
}

}

extern const Rule tolerance_beyond_100 = {
    .family = Family::band,
    .severity = Severity::error,
    .summary = "The minus side of a tolerance takes away all of the nominal.",
    .check = check,
};

}
