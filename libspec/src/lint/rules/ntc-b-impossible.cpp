#include <algorithm>

#include "lint/b_values.h"
#include "lint/read.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

constexpr double room_temperature = zero_celsius + 25;

void check_rows(const Subject& subject, Sink& sink, const Resistance_model& model) {
  const auto& rows = rows_of(subject, model).rows;
  std::vector<Impossible_row> clashes = rows_of(subject, model).impossible;
  std::erase_if(clashes, [](const Impossible_row& found) { return found.rises; });
  // One wrong row is a misprint; where many clash, the part is something else: that is told once.
  const bool many = clashes.size() > 2;
  std::size_t told = 0;
  for (const Impossible_row& found : clashes) {
    const auto say = [&](std::size_t witness) {
      const auto [colder, hotter] = std::minmax(found.row, witness);
      const Interval b = b_of(rows[colder].gate, rows[hotter].gate);
      const bool slow = ntc_clash(rows[found.row].gate, rows[witness].gate) == Ntc_clash::b_too_low;
      const auto side = [&](std::size_t i) {
        return fmt::format("{} ({})", celsius(rows[i].row->at->si), ohm(*row_interval(*rows[i].row)));
      };
      const std::string_view mend = many ? "other rows clash too: mend them" : "mend one of the two rows";
      return fmt::format(
          "between {} and {} B is {} {}, and that of an NTC lies between {} and {}: the table falls "
          "too {} there; {}{}",
          side(colder), side(hotter), beyond_limits(slow ? b.high : b.low), slow ? "at most" : "at least",
          kelvin(possible_b.low), kelvin(possible_b.high), slow ? "slowly" : "fast", mend,
          slow ? ", or say `linearised` where a resistor sits inside the sensor" : "");
    };
    told +=
        report_row(sink, rows, found.row, found.witnesses, say, [](std::size_t) { return Severity::error; });
  }
  if (many) sink.tell_the_worst(told);
}

// The stated B-value of a beta model or beside a table.
void check_stated(const Subject& subject, Sink& sink, const Resistance_model& model) {
  if (!model.b_value || !fully_read(subject.document, model)) return;
  const Interval b = toleranced_interval(*model.b_value, model.b_tolerance, Taken::generously);
  if (b.overlaps(possible_b)) return;
  sink.report(model.b_value.node,
              fmt::format("B is {}, and that of an NTC lies between {} and {}; look for a "
                          "lost or a doubled digit",
                          kelvin(b), kelvin(possible_b.low), kelvin(possible_b.high)));
}

// By 1/T = a + b ln R + c (ln R)³: whether a resistance that an NTC may have at 25 °C may have that
// temperature, and with a B that is possible.
struct At_25 {
  bool reached = false, with_possible_b = false;
};

// Piece by piece of ln R, as each number stands in it several times.
At_25 at_25(const Resistance_model& model) {
  constexpr int pieces = 256;
  const Interval a = written_interval(*model.a), b = written_interval(*model.b),
                 c = written_interval(*model.c);
  const Interval logarithm = log(possible_at_25), possible_slope = Interval{1, 1} / possible_b;
  const Interval inverse = Interval{1, 1} / widened(Interval{room_temperature, room_temperature}, 1);
  const auto end = [&](int i) { return std::lerp(logarithm.low, logarithm.high, i / double(pieces)); };
  At_25 found;
  for (int i = 0; i < pieces && !found.with_possible_b; ++i) {
    const Interval l = {end(i), end(i + 1)};
    if (!(a + l * (b + c * l * l)).overlaps(inverse)) continue;
    found.reached = true;
    found.with_possible_b = inverse_b(model, l * l).overlaps(possible_slope);
  }
  return found;
}

// Coefficients whose B is possible somewhere give what no thermistor has where they are not of R in ohm, two
// are exchanged, or a digit of `a` is lost.
void check_at_25(Sink& sink, const Resistance_model& model, const Resolved_component& component) {
  const auto range = component.get(&Component_type::temperature_range);
  const bool made_for_25 = range && kelvin_interval(**range).contains(room_temperature);
  if (range && !made_for_25) return;
  const Severity severity = made_for_25 ? Severity::error : Severity::warning;
  const auto band = model_interval(model, {room_temperature, room_temperature}, Taken::generously);
  const auto nominal = nominal_resistance(model, room_temperature);
  const bool outside = band && !band->overlaps(possible_at_25);
  const double b_at_25 =
      nominal ? 1 / (model.b->si + 3 * model.c->si * std::log(*nominal) * std::log(*nominal)) : 0;
  if (!outside && nominal && possible_at_25.contains(*nominal) && possible_b.contains(b_at_25)) return;
  const At_25 there = at_25(model);
  // Without room for an answer in a double: else a curve of hotter temperatures may end before, unless 25 °C
  // is one that the part is made for.
  const bool rises = model.b->si >= 0 && model.c->si >= 0;
  const bool none = !nominal && (rises || (made_for_25 && !there.reached));
  if (none || outside) {
    sink.report_as(
        severity, model.a.node,
        fmt::format(
            "these coefficients give {} at 25 °C, and an NTC has between {} and {} there; look at the "
            "exponents, and whether they are for R in ohm",
            outside ? ohm(*band) : "no resistance", ohm(possible_at_25.low), ohm(possible_at_25.high)));
  } else if (nominal && !there.with_possible_b) {
    sink.report_as(
        severity, model.b.node,
        fmt::format(
            "with these coefficients B is {} at 25 °C ({}), and that of an NTC lies between {} and {}; "
            "look at the exponents, and whether b and c are exchanged",
            kelvin(b_at_25), ohm(*nominal), kelvin(possible_b.low), kelvin(possible_b.high)));
    sink.relate(model.c.node, "c");
  }
}

void check_coefficients(const Subject& subject, Sink& sink, const Resistance_model& model,
                        const Resolved_component& component) {
  if (*model.kind != Model_kind::steinhart_hart || !model.b || !model.c ||
      !fully_read(subject.document, model))
    return;
  constexpr Interval logarithm_squared = {0, 16.0 * 16.0}; // 1 Ω to 8.9 MΩ, and the inverse of both
  const Interval slope = inverse_b(model, logarithm_squared);
  const bool too_low = slope.low > 1 / possible_b.low, too_high = slope.high < 1 / possible_b.high;
  if (!too_low && !too_high) {
    if (model.a) check_at_25(sink, model, component);
    return;
  }
  const std::string found = slope.high <= 0 ? "negative"
                            : too_low       ? fmt::format("{} at most", beyond_limits(1 / slope.low))
                                            : fmt::format("{} at least", beyond_limits(1 / slope.high));
  sink.report(model.b.node, fmt::format("with this b and c the B-value 1/(b + 3 c (ln R)²) is {} for every "
                                        "resistance up to 8.9 MΩ, and that of an NTC lies between {} and {}; "
                                        "look at the exponents",
                                        found, kelvin(possible_b.low), kelvin(possible_b.high)));
  sink.relate(model.c.node, "c");
}

void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    if (!is_bare_ntc(component)) return;
    check_rows(subject, sink, model);
    check_stated(subject, sink, model);
    check_coefficients(subject, sink, model, component);
  });
}

}

extern const Rule ntc_b_impossible = {
    .family = Family::ntc,
    .severity = Severity::error,
    .summary = "A bare NTC would have a B-value that no thermistor has.",
    .check = check,
};

}
