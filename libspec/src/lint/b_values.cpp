#include "lint/b_values.h"

namespace ohmlore::rules {

std::optional<Stated_b> stated_b(const Resistance_model& model) {
  if (*model.kind != Model_kind::table || !model.b_value || !model.b_between) return std::nullopt;
  const double from = model.b_between->low.si, to = model.b_between->high.si;
  const auto at_rows = b_of_table(model, from, to);
  const auto of_rows = at_rows ? at_rows : b_between_rows(model, from, to);
  if (!of_rows) return std::nullopt;
  return Stated_b{written_interval(*model.b_value), *of_rows, from, to, !at_rows};
}

std::optional<Other_references> other_references(const Resistance_model& model, const Stated_b& b) {
  // A B-value copied from the same curve agrees within rounding; the published tables that the tests read
  // agree within 0.04 %. Between neighbouring pairs of references B differs by 0.5 % and more.
  constexpr double same = 0.001, another = 0.003;
  const auto spread = [](Interval x, double share) {
    return Interval{x.low * (1 - share), x.high * (1 + share)};
  };
  if (b.stated.overlaps(spread(b.of_rows, another))) return std::nullopt;
  // The pairs that makers use, in °C. Common practice, no source.
  constexpr struct {
    double from, to;
  } usual[] = {{25, 50}, {25, 75}, {25, 80}, {25, 85}, {25, 100}, {0, 25}, {0, 50}, {0, 100}, {20, 100}};
  std::optional<Other_references> best;
  const auto distance = [&](Interval of_rows) { return std::fabs(of_rows.middle() - b.stated.middle()); };
  for (const auto& pair : usual) {
    // As the reader converts them: the double nearest to the decimal.
    const double from = (pair.from * 100 + 27315) / 100, to = (pair.to * 100 + 27315) / 100;
    if (from == b.from && to == b.to) continue;
    const auto of_rows = b_of_table(model, from, to);
    if (of_rows && b.stated.overlaps(spread(*of_rows, same)) &&
        (!best || distance(*of_rows) < distance(best->of_rows)))
      best = {from, to, *of_rows};
  }
  return best;
}

static std::string plain_celsius(double kelvin) {
  std::string text = celsius(kelvin);
  return text.substr(0, text.find(' '));
}

std::string b_name(double from, double to) {
  return fmt::format("B{}/{}", plain_celsius(from), plain_celsius(to));
}

std::string kelvin(Interval b) {
  const std::string low = kelvin(b.low), high = kelvin(b.high);
  return low == high ? low : fmt::format("{} to {}", low, high);
}

}
