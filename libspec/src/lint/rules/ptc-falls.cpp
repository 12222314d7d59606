#include "lint/read.h"
#include "lint/rows.h"
#include "lint/rule.h"
#include "lint/stated_model.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// Above this, silicon conducts by itself and a sensor may fall again: makers' data sheets end here.
constexpr double silicon_limit = zero_celsius + 150;

// "25 °C" and "26 °C" may both be 25.5 °C, but not the other way round; 1e-9 K is what rounding adds.
bool surely_falls(const Row& colder, const Row& hotter) {
  const double shared = written_interval(*colder.row->at).high - written_interval(*hotter.row->at).low;
  return colder.row->at->si < hotter.row->at->si && shared <= 1e-9 && hotter.ohm.high < colder.ohm.low;
}

// `severity` is of a fall up to a temperature (kelvin).
template <class Severity_at>
void check_rows(Sink& sink, std::span<const Row> rows, Severity_at severity, std::string_view why) {
  const auto falls = [&](std::size_t i, std::size_t j) {
    return surely_falls(rows[std::min(i, j)], rows[std::max(i, j)]);
  };
  const auto blamed = blamed_rows(rows.size(), falls);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (!blamed[i]) continue;
    const auto say = [&](std::size_t j) {
      const auto [one, other] = apart(*row_interval(*rows[i].row), *row_interval(*rows[j].row));
      return fmt::format("{} at {} is {} {} at {}: {}; mend one of the two rows", one,
                         celsius(rows[i].row->at->si), i > j ? "below" : "above", other,
                         celsius(rows[j].row->at->si), why);
    };
    const auto near = nearest_rows(rows.size(), i, [&](std::size_t j) { return !blamed[j] && falls(i, j); });
    report_row(sink, rows, i, near, say,
               [&](std::size_t j) { return severity(rows[std::max(i, j)].row->at->si); });
  }
}

void check_silicon(Sink& sink, const std::vector<Row>& rows) {
  check_rows(
      sink, rows, [](double kelvin) { return kelvin <= silicon_limit ? Severity::error : Severity::warning; },
      "a silicon sensor rises with temperature");
}

// Falls slightly below its switching range and again far above it; in between it rises.
void check_switching(Sink& sink, const std::vector<Row>& rows) {
  if (rows.empty()) return;
  const auto lowest = std::min_element(rows.begin(), rows.end(),
                                       [](const Row& a, const Row& b) { return a.ohm.high < b.ohm.high; });
  const auto highest =
      std::max_element(lowest, rows.end(), [](const Row& a, const Row& b) { return a.ohm.low < b.ohm.low; });
  check_rows(
      sink, std::span(lowest, highest + 1), [](double) { return Severity::warning; },
      "between its lowest and its highest row a switching PTC rises with temperature");
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
    const auto type = component.get(&Component_type::type);
    const bool silicon = type && **type == Ptc_type::silicon;
    if (*model.kind != Model_kind::table) return check_curve(subject, sink, model, component, silicon);
    const auto& rows = rows_of(subject, model).rows;
    if (silicon)
      check_silicon(sink, rows);
    else
      check_switching(sink, rows);
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
