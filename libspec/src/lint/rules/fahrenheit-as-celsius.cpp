#include <algorithm>
#include <vector>

#include "lint/fahrenheit.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

constexpr std::size_t enough_rows = 4;

double number_in_celsius(const Quantity& at) { return std::round((at.si - zero_celsius) * 1e6) / 1e6; }
bool is_whole(double number, double of) { return std::fmod(number, of) == 0; }

// Its number of °C, taken as °F, is a whole five of °C: 32, 41, 50, 59, 68, 77.
bool is_five_in_fahrenheit(double number) { return is_whole(number - 32, 9); }

// The rows of a table in °C stand at whole fives, and hardly ever all at those of °F.
void check_rows(Sink& sink, const Resistance_model& model) {
  std::vector<double> numbers;
  const Table_row* first = nullptr;
  for (const Table_row& row : model.rows) {
    if (!row.at) continue;
    numbers.push_back(number_in_celsius(*row.at));
    if (!is_five_in_fahrenheit(numbers.back())) return;
    if (first == nullptr) first = &row;
  }
  const auto fives = std::count_if(numbers.begin(), numbers.end(), [](double n) { return is_whole(n, 5); });
  if (numbers.size() < enough_rows || 2 * static_cast<std::size_t>(fives) > numbers.size()) return;
  std::vector<double> meant;
  for (const double number : numbers) meant.push_back((number - 32) / 9 * 5);
  sink.report(
      first->at.node,
      fmt::format("the rows stand at {} °C; as °F these are {} °C: look whether the table was printed in °F",
                  listed(numbers), listed(meant)));
}

// "77 °C" for 77 °F, or "25 °F" for 25 °C: no thermistor is rated at either.
void check_reference(const Subject& subject, Sink& sink, const Value<Range>& at) {
  if (!at) return;
  const double celsius = number_in_celsius(at->low), fahrenheit = std::round(1.8 * celsius + 32);
  const Text written = subject.document.string(at.node);
  const bool of_fahrenheit = is_in_fahrenheit(written) && (fahrenheit == 25 || fahrenheit == 20);
  if (!of_fahrenheit && (is_in_fahrenheit(written) || (celsius != 77 && celsius != 68))) return;
  sink.report(
      at.node,
      of_fahrenheit
          ? fmt::format("{} is {}: thermistors are rated at 25 °C or 20 °C; look for the unit",
                        quoted(written), describe(at->low.si, Dimension::temperature))
          : fmt::format("{}: thermistors are rated at 25 °C or 20 °C, which is 77 °F or 68 °F; look for the "
                        "unit",
                        quoted(written)));
}

// Common practice, no source: nothing of a heating appliance is as cold as this, -73 °C.
constexpr double coldest = 200; // kelvin

// "20 K" for 20 °C, or "-90 °C" for 90 °C.
void check_cold(const Subject& subject, Sink& sink, Node_id node, const Quantity& at) {
  if (!(at.si < coldest)) return;
  const Text written = subject.document.string(node);
  const bool in_kelvin =
      written.find('K') != Text::npos || written.find("\u212A") != Text::npos; // the kelvin sign
  sink.report(node,
              in_kelvin
                  ? fmt::format("{} is {}, and no heating appliance is that cold; look for the unit",
                                quoted(written), celsius(at.si))
                  : fmt::format("no heating appliance is as cold as {}; look for the sign", quoted(written)));
}
void check_cold(const Subject& subject, Sink& sink, const Value<Quantity>& at) {
  if (at) check_cold(subject, sink, at.node, *at);
}
void check_cold(const Subject& subject, Sink& sink, const Value<Range>& at) {
  if (at) check_cold(subject, sink, at.node, at->low.si > at->high.si ? at->low : at->high);
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const Component_type& own = *component.own;
    check_cold(subject, sink, own.trips_at);
    check_cold(subject, sink, own.resets_at);
    if (own.protector) check_cold(subject, sink, own.protector->trips_at);
  }
  each_test(subject, [&](Text, const Test& test) { check_cold(subject, sink, test.expect.at); });
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    check_rows(sink, model);
    check_cold(subject, sink, model.at);
    if (!component.is(Component_kind::ntc)) return;
    check_reference(subject, sink, model.at);
    check_reference(subject, sink, model.b_between);
  });
}

}

extern const Rule fahrenheit_as_celsius = {
    .family = Family::unit,
    .severity = Severity::warning,
    .summary = "A temperature has the number of another unit, or another sign: 77 °C for 77 °F.",
    .check = check,
};

}
