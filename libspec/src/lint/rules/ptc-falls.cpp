#include "lint/falling.h"
#include "lint/read.h"
#include "lint/rule.h"
#include "lint/stated_model.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// Above this, silicon conducts by itself and a sensor may fall again: makers' data sheets end here.
constexpr double silicon_limit = zero_celsius + 150;

// Falls slightly below its switching range, by less than any NTC that is made, and again far above it; in
// between it rises.
void check_switching(Sink& sink, const Resistance_model& model, const std::vector<Row>& rows) {
  if (rows.empty()) return;
  const auto lowest = std::min_element(rows.begin(), rows.end(),
                                       [](const Row& a, const Row& b) { return a.ohm.high < b.ohm.high; });
  const auto highest =
      std::max_element(lowest, rows.end(), [](const Row& a, const Row& b) { return a.ohm.low < b.ohm.low; });
  report_falling_rows(sink, std::span(lowest, highest + 1),
                      "between its lowest and its highest row a switching PTC rises with temperature",
                      [](double) { return Severity::warning; });
  const Row& coldest = rows.front();
  if (!surely_falls(coldest, *lowest)) return;
  const Interval b = b_between(coldest.ohm, written_interval(*coldest.row->at), lowest->ohm,
                               written_interval(*lowest->row->at));
  if (!(b.low > usual_b.low)) return;
  const auto [cold, hot] = apart(*row_interval(*coldest.row), *row_interval(*lowest->row));
  sink.report_as(Severity::warning, model.node,
                 fmt::format("this table falls from {} at {} to {} at {}, as an NTC of at least B {} does; a "
                             "PTC falls but slightly before it rises, and an NTC has kind `ntc`",
                             cold, celsius(coldest.row->at->si), hot, celsius(lowest->row->at->si),
                             describe(b.low, Dimension::temperature_difference)));
}

// The other models: at 25 °C against 75 °C, and those of silicon from 25 K to 25 K, as far as the part is
// made for both. A fit may turn outside of what it was fitted to.
void check_curve(const Subject& subject, Sink& sink, const Resistance_model& model,
                 const Resolved_component& component, bool silicon) {
  if (!fully_read(subject.document, model) ||
      (silicon && may_have(component, "temperature_range", component.own->temperature_range)))
    return;
  const auto at = [&](double celsius) { return point_at(model, zero_celsius + celsius); };
  const auto falls = [&](double from, double to) {
    const auto colder = at(from), hotter = at(to);
    return colder && hotter && hotter->ohm.high < colder->ohm.low;
  };
  const auto report_fall = [&](double from, double to, bool sure) {
    const auto [cold, hot] = apart(at(from)->shown, at(to)->shown);
    sink.report_as(
        sure ? Severity::error : Severity::warning, model.node,
        fmt::format("this model falls from {} at {} °C to {} at {} °C, and the resistance of a PTC "
                    "rises; {}",
                    cold, from, hot, to,
                    falls(0, 25) ? "an NTC has kind `ntc`" : "look at its coefficients"));
  };
  const auto range = component.get(&Component_type::temperature_range);
  const auto is_compared = [&](double from, double to) {
    return !silicon || !range ||
           kelvin_interval(**range).contains(Interval{zero_celsius + from, zero_celsius + to});
  };
  if (falls(25, 75) && is_compared(25, 75)) return report_fall(25, 75, silicon && (range || falls(0, 25)));
  if (!silicon) return;
  for (double from = 0; from < 125; from += 25)
    if (falls(from, from + 25) && is_compared(from, from + 25))
      return report_fall(from, from + 25, bool(range));
}

void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    if (!component.is(Component_kind::ptc)) return;
    if (may_have(component, "type", component.own->type)) return;
    const bool silicon = component.has(&Component_type::type, Ptc_type::silicon);
    if (*model.kind != Model_kind::table) return check_curve(subject, sink, model, component, silicon);
    const auto& rows = rows_of(subject, model).rows;
    if (silicon)
      report_falling_rows(sink, rows, "a silicon sensor rises with temperature", [](double kelvin) {
        return kelvin <= silicon_limit ? Severity::error : Severity::warning;
      });
    else
      check_switching(sink, model, rows);
  });
}

}

extern const Rule ptc_falls = {
    .family = Family::ptc,
    .severity = Severity::error,
    .summary = "The resistance of a PTC falls where it must rise.",
    .check = check,
};

}
