#include "job/curve_notes.h"

#include <algorithm>
#include <cmath>

#include <fmt/args.h>

#include "lint/measured.h"
#include "physics/thresholds.h"

namespace ohmlore {

// B of published tables grows by less from -20 °C to 110 °C, in kelvin per kelvin (see b_drift).
static constexpr double published_b_drift = 5.6;

// How far real thermistors lie from a curve of one B, at the worst end. B between two temperatures is B at
// their mean, as it drifts nearly evenly.
static std::optional<Curve_note> b_note(const Curve& curve) {
  const double reference = kelvin_interval(*curve.model.at).middle();
  const double stated_sum = curve.model.b_between
                                ? curve.model.b_between->low.si + curve.model.b_between->high.si
                                : 2 * zero_celsius + 75;
  double worst = 0, at = 0;
  for (const double t : {curve.kelvin.low, curve.kelvin.high}) {
    const double off =
        std::expm1(published_b_drift / 2 * (t + reference - stated_sum) * (1 / t - 1 / reference));
    if (std::fabs(off) > std::fabs(worst)) worst = off, at = t;
  }
  if (std::fabs(worst) < 0.005) return std::nullopt;
  return Curve_note{worst < 0 ? "one_b_below" : "one_b_above",
                    {describe(std::fabs(worst), Dimension::ratio, 2), temperature_text(at, curve.unit)}};
}

// From the last row at or below these temperatures to the first at or above: what is beyond says nothing of
// them.
static Interval rows_beside(const Resistance_model& model, Interval kelvin) {
  Interval out = {-infinity, infinity};
  for (const Table_row& row : model.rows) {
    if (!row.at) continue;
    if (row.at->si <= kelvin.low) out.low = std::max(out.low, row.at->si);
    if (row.at->si >= kelvin.high) out.high = std::min(out.high, row.at->si);
  }
  return out;
}

std::vector<Curve_note> notes_of(const Curve& curve, const Resolved_component& component,
                                 bool range_is_assumed) {
  const Resistance_model& model = curve.model;
  std::vector<Curve_note> notes;
  if (has_threshold(model)) {
    notes.push_back({"threshold", {}});
  } else {
    std::string limit;
    if (const auto stated = component.get(&Component_type::service_limit))
      limit = fmt::format(" (±{})", describe((*stated)->plus, (*stated)->dimension));
    notes.push_back({"as_made", {limit}});
    const Interval said_by = rows_beside(model, curve.kelvin);
    const bool row_without = std::any_of(model.rows.begin(), model.rows.end(), [&](const Table_row& row) {
      return row.at && said_by.contains(row.at->si) && row.nominal && !row.tolerance && !(row.min && row.max);
    });
    const bool states_none = *model.kind == Model_kind::iec_60751 ? !model.tolerance_class
                             : *model.kind == Model_kind::table   ? row_without
                                                                  : !model.tolerance;
    if (states_none) notes.push_back({"no_tolerance", {}});
  }
  if (*model.kind == Model_kind::beta && model.at && model.b_value)
    if (auto note = b_note(curve)) notes.push_back(std::move(*note));
  const bool at_row = std::any_of(model.rows.begin(), model.rows.end(), [&](const Table_row& row) {
    return row.at && curve.kelvin.low == row.at->si && curve.kelvin.high == row.at->si;
  });
  if (*model.kind == Model_kind::table && model.rows.size() > 1 && !at_row)
    notes.push_back({curve.between == Between_rows::thermistor ? "bends_between" : "unknown_between", {}});
  if (*model.kind == Model_kind::copper && !rules::metal_k(model)) notes.push_back({"k_of_copper", {}});
  if (range_is_assumed) notes.push_back({"usual_range", {}});
  if (const auto stated = component.get(&Component_type::temperature_range)) {
    const Interval range = kelvin_interval(**stated);
    if (!range.contains(curve.kelvin) && depends_on_temperature(model))
      notes.push_back({"stated_range",
                       {temperature_text(range.low, curve.unit), temperature_text(range.high, curve.unit)}});
  }
  return notes;
}

std::string filled(std::string_view sentence, const std::vector<std::string>& filling) {
  fmt::dynamic_format_arg_store<fmt::format_context> places;
  for (const std::string& one : filling) places.push_back(one);
  return fmt::vformat(sentence, places);
}

std::string note_text(const Curve_note& note) {
  for (const Curve_sentence& one : curve_sentences)
    if (one.id == note.id) return filled(one.text, note.filled);
  return {};
}

std::string beyond_text(Interval stated, Temperature_unit unit) {
  return fmt::format("computed beyond {} to {}: take it with doubt", temperature_text(stated.low, unit),
                     temperature_text(stated.high, unit));
}

std::vector<Curve_note> notes_at(const Resolved_component& component, const Resistance_model& model,
                                 Interval kelvin) {
  Curve curve;
  curve.model = model;
  curve.between = between_rows(component);
  curve.kelvin = kelvin;
  return notes_of(curve, component, false);
}

}
