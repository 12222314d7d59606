#include "exchange/diff_bands.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "exchange/diff_values.h"
#include "lint/rule.h"
#include "lint/stated_model.h"

namespace ohmlore {
namespace {

using rules::ohm;

void add_rows(const Resistance_model& model, Bands& bands) {
  for (const Table_row& row : model.rows)
    if (const auto band = row_interval(row))
      bands[row.node] = {*band, row.nominal ? std::optional(row.nominal->si) : std::nullopt};
}

const Resolved_component* component_at(const Resolved& resolved, Node_id node) {
  const auto found = std::find_if(resolved.components.begin(), resolved.components.end(),
                                  [&](const Resolved_component& c) { return c.node == node; });
  return found == resolved.components.end() ? nullptr : &*found;
}

// What changed between two terminals that both models name.
std::vector<std::string> pair_steps(const Resistance_model& older, const Resistance_model& newer) {
  const auto stated = [](const Resistance_model& model, const Terminal_pair& pair) {
    return Stated{toleranced_interval(*pair.resistance, model.tolerance, Taken::literally),
                  pair.resistance->si};
  };
  std::vector<std::string> steps;
  for (const Terminal_pair& now : newer.pairs)
    for (const Terminal_pair& old : older.pairs) {
      const bool both = old.from && old.to && old.resistance && now.from && now.to && now.resistance;
      if (!both || *old.from != *now.from || *old.to != *now.to) continue;
      if (const Stated before = stated(older, old), after = stated(newer, now); !same_band(before, after))
        steps.push_back(fmt::format("between {} and {} {}", *now.from, *now.to, band_step(before, after)));
    }
  return steps;
}

const Table_row* row_at(const Resistance_model& model, double kelvin) {
  const auto row = std::find_if(model.rows.begin(), model.rows.end(),
                                [&](const Table_row& one) { return one.at && one.at->si == kelvin; });
  return row == model.rows.end() ? nullptr : &*row;
}

// Between its rows a table says hardly more than that the curve falls or rises.
bool states(const Resistance_model& model, double kelvin) {
  return *model.kind != Model_kind::table || row_at(model, kelvin) != nullptr;
}

// Not what the rows beside it would make of a row that has limits alone.
std::optional<double> stated_nominal(const Resistance_model& model, double kelvin) {
  if (*model.kind != Model_kind::table) return nominal_resistance(model, kelvin);
  const Table_row* row = row_at(model, kelvin);
  return row != nullptr && row->nominal ? std::optional(row->nominal->si) : std::nullopt;
}

// Its rows are compared one by one.
bool is_own_table(const In_document<Resistance_model>& model, const Resolved& resolved) {
  return *model->kind == Model_kind::table && model.document == resolved.document;
}

}

Bands bands_of(const Resolved& resolved) {
  Bands bands;
  for (const Resolved_component& component : resolved.components)
    if (component.own->model) add_rows(*component.own->model, bands);
  if (const Profile* profile = resolved.document->profile())
    for (const auto& test : profile->tests) {
      const Expectation& expect = test.value.expect;
      if (const auto band = expected_interval(expect))
        bands[expect.node] = {*band, expect.nominal ? std::optional(expect.nominal->si) : std::nullopt};
    }
  return bands;
}

bool is_limit(std::string_view key) {
  return std::find(std::begin(limit_keys), std::end(limit_keys), key) != std::end(limit_keys);
}

bool same_band(const Stated& older, const Stated& newer) {
  const auto one = [](double a, double b) { return std::fabs(a - b) <= 1e-12 * std::fabs(a); };
  return one(older.ohm.low, newer.ohm.low) && one(older.ohm.high, newer.ohm.high) &&
         (!older.nominal || !newer.nominal || one(*older.nominal, *newer.nominal));
}

std::string band_meaning(const Stated& band) {
  return fmt::format("{:.11e} {:.11e} {:.11e}", band.ohm.low, band.ohm.high, band.nominal.value_or(-1));
}

std::string band_step(const Stated& older, const Stated& newer) {
  const double old_middle = older.nominal.value_or(older.ohm.middle());
  const double new_middle = newer.nominal.value_or(newer.ohm.middle());
  std::string step;
  // A shift that the figures show; a band may also change its limits alone.
  if (std::fabs(new_middle - old_middle) > 5e-4 * std::fabs(old_middle))
    step = step_between(old_middle, new_middle, Dimension::resistance);
  const auto relative_width = [](const Stated& band, double middle) {
    const double width = band.ohm.width() / std::fabs(middle);
    return width < 1e-12 ? 0 : width; // of one value that was worked out, outward
  };
  const double old_width = relative_width(older, old_middle), new_width = relative_width(newer, new_middle);
  if (std::isfinite(old_width) && std::isfinite(new_width) &&
      std::fabs(new_width - old_width) > 5e-3 * old_width)
    step += fmt::format(
        "{}{}: ±{} instead of ±{}", step.empty() ? "" : ", ", new_width > old_width ? "wider" : "narrower",
        describe(new_width / 2, Dimension::ratio, 2), describe(old_width / 2, Dimension::ratio, 2));
  return fmt::format("{} becomes {}{}", ohm(older.ohm), ohm(newer.ohm),
                     step.empty() ? std::string() : fmt::format(" ({})", step));
}

std::vector<std::string> model_steps(const Resolved& older, Node_id older_node, const Resolved& newer,
                                     Node_id newer_node) {
  const Resolved_component *a = component_at(older, older_node), *b = component_at(newer, newer_node);
  if (a == nullptr || b == nullptr) return {};
  const auto x = a->get(&Component_type::model), y = b->get(&Component_type::model);
  if (!x || !y || !x->kind || !y->kind || (is_own_table(x, older) && is_own_table(y, newer))) return {};
  // Where the part is at rest, cold and hot, then where the documents state something.
  std::vector<double> temperatures = {zero_celsius + 20, zero_celsius, zero_celsius + 60};
  for (const Resistance_model* model : {&*x, &*y})
    for (const double kelvin : rules::named_temperatures(*model)) temperatures.push_back(kelvin);

  constexpr std::size_t most = 3;
  std::vector<std::string> steps = pair_steps(*x, *y);
  std::vector<double> asked;
  for (const double kelvin : temperatures) {
    if (steps.size() >= most || std::find(asked.begin(), asked.end(), kelvin) != asked.end()) continue;
    asked.push_back(kelvin);
    if (!states(*x, kelvin) || !states(*y, kelvin)) continue;
    const auto before = rules::stated_band(*x, kelvin, Taken::literally);
    const auto after = rules::stated_band(*y, kelvin, Taken::literally);
    if (!before || !after) continue;
    const Stated old = {*before, stated_nominal(*x, kelvin)}, now = {*after, stated_nominal(*y, kelvin)};
    if (same_band(old, now)) continue;
    const bool everywhere =
        *x->kind == Model_kind::fixed && *y->kind == Model_kind::fixed && !x->at && !y->at;
    const std::string where =
        everywhere ? std::string() : fmt::format("at {} ", describe(kelvin, Dimension::temperature));
    steps.push_back(where + band_step(old, now));
    if (everywhere) break;
  }
  return steps;
}

}
