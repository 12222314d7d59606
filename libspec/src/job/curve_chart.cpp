#include "job/curve_chart.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "job/curve_notes.h"
#include "job/curve_points.h"
#include "job/temperature_units.h"
#include "ohmlore/cautions.h"
#include "physics/thresholds.h"

namespace ohmlore {
namespace {

// The temperatures at which a picture is computed: even steps, and on both sides of each row, where the band
// of a table has its edges.
std::vector<double> drawn_at(const Curve& curve) {
  std::vector<double> at;
  constexpr int steps = 240;
  const auto [low, high] = curve.kelvin;
  for (int i = 0; i <= steps; ++i) at.push_back(i == steps ? high : low + i * (high - low) / steps);
  for (const Table_row& row : curve.model.rows)
    if (row.at && curve.kelvin.contains(row.at->si))
      for (const double t : {row.at->si - 1e-6, row.at->si, row.at->si + 1e-6})
        if (curve.kelvin.contains(t)) at.push_back(t);
  std::sort(at.begin(), at.end());
  return at;
}

Interval range_drawn(const std::vector<Curve_point>& points, const std::vector<Curve_mark>& measured) {
  Interval reach = {infinity, 0};
  const auto hold = [&](double value) {
    if (value > 0 && std::isfinite(value)) reach = {std::min(reach.low, value), std::max(reach.high, value)};
  };
  for (const Curve_point& at : points)
    if (at.ohm) hold(at.ohm->low), hold(at.ohm->high);
  for (const Curve_mark& mark : measured) hold(mark.ohm.low), hold(mark.ohm.high);
  return reach.low <= reach.high ? reach : Interval{1, 1}; // a threshold of 0 Ω: nothing but an axis
}

Chart_axis resistance_axis(const Curve& curve, Interval reach, const Curve_chart_words& words) {
  Chart_axis axis;
  axis.logarithmic = has_threshold(curve.model) || reach.high / reach.low > 6;
  axis.title = axis.logarithmic ? words.resistance_logarithmic : words.resistance;
  axis.label = [](double value) { return describe(value, Dimension::resistance, 5); };
  if (has_threshold(curve.model)) {
    axis.range = {reach.low / 100, reach.high * 100};
  } else if (axis.logarithmic) {
    const double more = std::pow(reach.high / reach.low, 0.06);
    axis.range = {reach.low / more, reach.high * more};
  } else {
    const double more = std::max(0.08 * reach.width(), 1e-3 * reach.high);
    axis.range = {std::max(reach.low - more, 0.0), reach.high + more};
  }
  return axis;
}

Chart_mark chart_mark(const Curve& curve, const Curve_mark& mark) {
  Chart_mark drawn;
  drawn.x = {in_unit(mark.kelvin.low, curve.unit), in_unit(mark.kelvin.high, curve.unit)};
  drawn.y = mark.ohm;
  drawn.has_middle = mark.nominal.has_value();
  if (mark.nominal) drawn.middle = {drawn.x.middle(), *mark.nominal};
  return drawn;
}

// The same around the nominal: a band of 1 % cannot be seen on an axis of decades.
std::optional<Chart_panel> deviation_panel(const Curve& curve, const std::vector<Curve_point>& points,
                                           const Chart_panel& main, const std::vector<Curve_mark>& measured) {
  Chart_panel panel;
  panel.height = 150;
  panel.y.title = "Deviation from the nominal";
  panel.y.label = [](double share) {
    return fmt::format("{}{}", share > 0 ? "+" : "", describe(share, Dimension::ratio, 3));
  };
  Interval reach = {0, 0};
  panel.bands.emplace_back();
  panel.lines.push_back(
      {{in_unit(curve.kelvin.low, curve.unit), 0}, {in_unit(curve.kelvin.high, curve.unit), 0}});
  for (const Curve_point& at : points) {
    if (!at.ohm || !at.nominal || !std::isfinite(at.ohm->high)) continue;
    const Interval off = {at.ohm->low / *at.nominal - 1, at.ohm->high / *at.nominal - 1};
    reach = hull(reach, off);
    panel.bands[0].push_back({in_unit(at.kelvin, curve.unit), off});
  }
  if (panel.bands[0].size() < 2 || !(reach.width() > 0)) return std::nullopt;
  const double share_of_axis =
      main.y.logarithmic ? std::log1p(reach.width()) / std::log(main.y.range.high / main.y.range.low)
                         : reach.width() * main.y.range.high / main.y.range.width();
  if (share_of_axis * main.height > 60 && measured.empty()) return std::nullopt;
  const auto add = [&](const Curve_mark& mark, std::vector<Chart_mark>& to) {
    if (!curve.kelvin.contains(mark.kelvin)) return;
    const auto nominal = nominal_resistance(curve.model, mark.kelvin.middle());
    if (!nominal) return;
    Curve_mark off = mark;
    off.ohm = {mark.ohm.low / *nominal - 1, mark.ohm.high / *nominal - 1};
    if (mark.nominal) off.nominal = *mark.nominal / *nominal - 1;
    reach = hull(reach, off.ohm);
    to.push_back(chart_mark(curve, off));
  };
  for (const Curve_mark& mark : curve.stated) add(mark, panel.stated);
  for (const Curve_mark& mark : measured) add(mark, panel.measured);
  panel.y.range = {reach.low - 0.1 * reach.width(), reach.high + 0.1 * reach.width()};
  return panel;
}

// A part without a tolerance has a band of hardly any height, and one row a band of no length.
bool shows_band(const Chart_panel& panel, const Chart_axis& x) {
  const Interval reach = panel.y.range;
  const auto height = [&](Interval y) {
    return panel.height * (panel.y.logarithmic ? std::log(y.high / y.low) / std::log(reach.high / reach.low)
                                               : y.width() / reach.width());
  };
  return std::any_of(panel.bands.begin(), panel.bands.end(), [&](const std::vector<Chart_stretch>& band) {
    return band.back().x - band.front().x > 1e-3 * x.range.width() &&
           std::any_of(band.begin(), band.end(), [&](const Chart_stretch& at) { return height(at.y) > 1; });
  });
}

std::string described(const Curve& curve) {
  std::string text;
  const auto add = [&](const Curve_point& at) {
    if (at.ohm)
      text += fmt::format("{}{} at {}", text.empty() ? "" : "; ", band_text(*at.ohm),
                          temperature_text(at.kelvin, curve.unit));
  };
  if (!curve.points.empty()) add(curve.points.front());
  if (curve.points.size() > 2) add(curve.points[curve.points.size() / 2]);
  if (curve.points.size() > 1) add(curve.points.back());
  return fmt::format("Resistance over temperature: {}.", text);
}

}

Chart curve_chart(const Curve& curve, const std::vector<Curve_mark>& measured,
                  const Curve_chart_words& words) {
  std::vector<Curve_point> points;
  for (const double t : drawn_at(curve)) points.push_back(point_at(curve, t));

  Chart chart;
  chart.title = curve.title;
  chart.description = described(curve);
  const Shown_unit unit = unit_of(curve.unit);
  chart.x.title = fmt::format("{} {}", words.temperature, unit.symbol);
  chart.x.range = {in_unit(curve.kelvin.low, curve.unit), in_unit(curve.kelvin.high, curve.unit)};
  if (!(chart.x.range.width() > 0)) chart.x.range = {chart.x.range.low - 1, chart.x.range.high + 1};
  chart.x.label = [](double value) { return decimal_text(value, 6); };

  Chart_panel main;
  main.height = has_threshold(curve.model) ? 220 : 320;
  main.y = resistance_axis(curve, range_drawn(points, measured), words);
  bool in_band = false, in_line = false;
  for (const Curve_point& at : points) {
    const double x = in_unit(at.kelvin, curve.unit);
    if (at.ohm && !in_band) main.bands.emplace_back();
    if (at.ohm) main.bands.back().push_back({x, *at.ohm});
    in_band = at.ohm.has_value();
    if (at.nominal && !in_line) main.lines.emplace_back();
    if (at.nominal) main.lines.back().push_back({x, *at.nominal});
    in_line = at.nominal.has_value();
  }
  for (const Curve_mark& mark : curve.stated)
    if (curve.kelvin.contains(mark.kelvin)) main.stated.push_back(chart_mark(curve, mark));
  for (const Curve_mark& mark : measured) main.measured.push_back(chart_mark(curve, mark));
  if (std::any_of(main.lines.begin(), main.lines.end(), [](const auto& line) { return line.size() > 1; }))
    chart.legend.line = words.nominal;
  if (!main.stated.empty()) chart.legend.stated = words.stated;
  if (!main.measured.empty()) chart.legend.measured = words.measured;
  const auto deviation = deviation_panel(curve, points, main, measured);
  if (shows_band(main, chart.x) || (deviation && shows_band(*deviation, chart.x)))
    chart.legend.band = has_threshold(curve.model) ? words.healthy : words.band;
  chart.panels.push_back(std::move(main));
  if (deviation) chart.panels.push_back(*deviation);
  return chart;
}

std::string curve_svg(const Curve& curve, const std::vector<Curve_mark>& measured) {
  Chart chart = curve_chart(curve, measured);
  chart.notes = curve.remarks;
  for (const Curve_note& note : curve.notes) chart.notes.push_back(note_text(note));
  for (const Caution& caution : cautions()) chart.cautions.emplace_back(caution.text);
  return chart_svg(chart);
}

}
