// A wrong digit in a table that still falls shows as a kink of ln R over 1/T, which is nearly straight for a
// thermistor: each row is compared with the curve through its neighbours.
#include <algorithm>
#include <numeric>
#include <optional>
#include <set>
#include <utility>
#include <vector>

#include "lint/b_values.h"
#include "lint/worked_out.h"
#include "text/small_letters.h"

namespace ohmlore::rules {
namespace {

struct Point {
  const Table_row* row = nullptr;
  double kelvin = 0;
  double x = 0;      // 1/T
  double y = 0;      // ln R
  double half = 0;   // of the last digit, as a part of R: the rounding of y, that of 1/T included
  double spread = 0; // the tolerance, as a part of R; 0 where none is stated
};

bool has_nominal(const Table_row& row) { return row.nominal && row.nominal->si > 0; }
bool has_limits(const Table_row& row) {
  return row.min && row.max && row.min->si > 0 && row.max->si >= row.min->si;
}

// How much ln R changes from a row to one beside it, by kelvin. In the midst of a linearised table it is more
// than from end to end.
double steepest_beside(const std::vector<Point>& points, std::size_t i) {
  const auto slope = [&](std::size_t k) {
    return std::fabs((points[k + 1].y - points[k].y) / (points[k + 1].kelvin - points[k].kelvin));
  };
  return std::max(i > 0 ? slope(i - 1) : 0, i + 1 < points.size() ? slope(i) : 0);
}

// Rows by rising temperature; empty where two share one.
std::vector<Point> points_of(const Resistance_model& model) {
  const int usual = usual_digits(model);
  std::vector<Point> points;
  points.reserve(model.rows.size());
  for (const Table_row& row : model.rows) {
    if (!row.at || !(row.at->si > 0)) continue;
    Point p{&row, row.at->si, 1 / row.at->si};
    if (has_nominal(row)) {
      const double ohm = row.nominal->si;
      p.y = std::log(ohm);
      p.half = half_of_last_digit(*row.nominal, usual) / ohm;
      if (row.tolerance || has_limits(row))
        if (const auto band = row_interval(row)) p.spread = band->width() / 2 / ohm;
    } else if (has_limits(row)) {
      // The limits bend away from each other where the tolerance is least; their mean does not bend.
      const double low = row.min->si, high = row.max->si;
      p.y = std::log(low * high) / 2;
      p.half = (half_of_last_digit(*row.min, usual) / low + half_of_last_digit(*row.max, usual) / high) / 2;
      p.spread = std::log(high / low) / 2;
    } else {
      continue;
    }
    points.push_back(p);
  }
  std::sort(points.begin(), points.end(), [](const Point& a, const Point& b) { return a.kelvin < b.kelvin; });
  const auto twice = [](const Point& a, const Point& b) { return a.kelvin == b.kelvin; };
  if (points.empty() || std::adjacent_find(points.begin(), points.end(), twice) != points.end()) return {};
  if (is_rounded_from_fahrenheit(model))
    for (std::size_t i = 0; i < points.size(); ++i)
      if (const double off = off_fahrenheit(*points[i].row->at); off > 0)
        points[i].half += steepest_beside(points, i) * off;
  return points;
}

struct Departure {
  double from_curve = 0; // ln of the written over the expected resistance
  double rounding = 0;   // how much of it the digits of all rows involved explain
  double reach = 1; // how much further apart errors of the neighbours may lead it than in the midst of rows
  double excess() const { return std::fabs(from_curve) - rounding; }
};

using Rows = std::vector<std::size_t>; // indices of points, by rising temperature

constexpr double furthest = 40; // kelvin from row to row: beyond, no cubic is known to follow a thermistor

bool far_apart(const Point& colder, const Point& hotter) { return hotter.kelvin - colder.kelvin > furthest; }

// The row at `place` of `rows` against the cubic through the two on either side, or the nearest four; none
// where the table has rows too far apart among them.
Departure departure(const std::vector<Point>& points, const Rows& rows, std::size_t place) {
  const std::size_t first = std::min(place - std::min<std::size_t>(place, 2), rows.size() - 5);
  const Point& point = points[rows[place]];
  for (std::size_t k = first; k + 1 < first + 5; ++k)
    if (rows[k] + 1 == rows[k + 1] && far_apart(points[rows[k]], points[rows[k + 1]])) return {};
  double expected = 0, rounding = point.half, weights = 0;
  for (std::size_t k = first; k < first + 5; ++k) {
    if (k == place) continue;
    double weight = 1;
    for (std::size_t m = first; m < first + 5; ++m)
      if (m != k && m != place)
        weight *= (point.x - points[rows[m]].x) / (points[rows[k]].x - points[rows[m]].x);
    expected += weight * points[rows[k]].y;
    rounding += std::fabs(weight) * points[rows[k]].half;
    weights += std::fabs(weight);
  }
  constexpr double beside_end = 3; // the weights of even spacing: 1/4, 6/4, 1, 1/4; amid others together 5/3
  return {point.y - expected, rounding, std::max(1.0, (1 + weights) / (1 + beside_end))};
}

Rows without(const Rows& rows, std::size_t place) {
  Rows others = rows;
  others.erase(others.begin() + static_cast<std::ptrdiff_t>(place));
  return others;
}

// The numbers are derived, or chosen on published tables, on the page.
constexpr std::size_t enough_rows = 5; // for a cubic through four of them
constexpr double share_of_tolerance = 0.7;
constexpr Interval allowed = {0.002, 0.03}; // of roughness; the upper end too where no tolerance is stated
constexpr std::size_t rows_for_a_wrong_one = 6;
constexpr double least_contrast = 4; // to the others, where they are rough
constexpr double clearly = 2;        // smoother without one row than without any other

// How far a row is off, in units of what is allowed: beyond 1 it is off the curve.
double off_curve(const std::vector<Point>& points, const Rows& rows, std::size_t place) {
  const double spread = points[rows[place]].spread;
  const double roughness =
      spread > 0 ? std::clamp(share_of_tolerance * spread, allowed.low, allowed.high) : allowed.high;
  const Departure found = departure(points, rows, place);
  return found.excess() / (roughness * found.reach);
}

// The same of each inner row; of the two at the ends nothing.
std::vector<double> off_curve(const std::vector<Point>& points, const Rows& rows) {
  std::vector<double> off(rows.size());
  for (std::size_t place = 1; place + 1 < rows.size(); ++place) off[place] = off_curve(points, rows, place);
  return off;
}

struct Roughest {
  std::size_t place = 0;
  double off = 0;
};
Roughest roughest(const std::vector<double>& off) {
  Roughest worst;
  for (std::size_t place = 0; place < off.size(); ++place)
    if (off[place] > worst.off) worst = {place, off[place]};
  return worst;
}

// The row without which the others are smoothest: how far the roughest of them is off then, and at least
// without any other row.
struct Smoothest {
  std::size_t place = 0;
  double off = infinity, second = infinity;
};
// Without a row, only those near it have other neighbours: a long rough table would take minutes else.
Smoothest smoothest_without_one(const std::vector<Point>& points, const Rows& rows,
                                const std::vector<double>& off) {
  constexpr std::size_t near = 6;
  std::vector<double> in_front(off.size() + 1), behind(off.size() + 1); // the roughest of those
  for (std::size_t i = 0; i < off.size(); ++i) in_front[i + 1] = std::max(in_front[i], off[i]);
  for (std::size_t i = off.size(); i-- > 0;) behind[i] = std::max(behind[i + 1], off[i]);
  Smoothest found;
  for (std::size_t place = 0; place < rows.size(); ++place) {
    const std::size_t first = place - std::min(place, near);
    double left = std::max(in_front[first], behind[std::min(place + near + 1, rows.size())]);
    if (left >= found.second) continue;
    const Rows others = without(rows, place);
    for (std::size_t k = std::max<std::size_t>(first, 1); k < std::min(place + near, others.size() - 1); ++k)
      left = std::max(left, off_curve(points, others, k));
    if (left < found.off)
      found = {place, left, found.off};
    else
      found.second = std::min(found.second, left);
  }
  return found;
}

struct Suspect {
  std::size_t index = 0;
  Departure departure;
  bool placed = true; // false: one of its neighbours may be the wrong one
  double off = 0;     // the most that any row was, in units of what is allowed
};

// Rows that lie further off than roughness explains, each found as the one without which the others are
// smoothest; of those, the ones that are far rougher than what is left then. `rows` keeps the others.
std::vector<Suspect> rows_off_curve(const std::vector<Point>& points, Rows& rows) {
  const std::size_t most = std::max<std::size_t>(2, points.size() / rows_for_a_wrong_one);
  std::vector<Suspect> all;
  std::vector<double> off = off_curve(points, rows);
  Roughest worst = roughest(off);
  while (worst.off > 1 && rows.size() > enough_rows && all.size() < most) {
    const auto [best, least, second] = smoothest_without_one(points, rows, off);
    all.push_back({rows[best], departure(points, rows, best), second > clearly * least, worst.off});
    rows.erase(rows.begin() + static_cast<std::ptrdiff_t>(best));
    off = off_curve(points, rows);
    worst = roughest(off);
  }
  if (worst.off > 1 && all.empty())
    return {{rows[worst.place], departure(points, rows, worst.place), false, worst.off}};
  const double contrast = worst.off > 1 ? least_contrast : least_contrast / 2;
  std::erase_if(all, [&](const Suspect& s) { return s.off < contrast * worst.off; });
  return all;
}

// In a long table a smaller departure is conspicuous too: `least_contrast` times that of all other rows, or
// in a very long one of all but one that is not near.
constexpr std::size_t long_table = 12, very_long_table = 25;
constexpr double least_departure = 0.001;
constexpr double least_kink = 60; // kelvin of B, from one neighbour to the other
constexpr std::size_t reach = 3;  // rows that one misprint disturbs on either side

bool stands_out(const std::vector<Point>& points, const Rows& rows, std::size_t place,
                const Departure& found) {
  const double kink = least_kink * (points[rows[place - 1]].x - points[rows[place + 1]].x) / 4;
  if (found.excess() <= least_departure + kink) return false;
  const Rows others = without(rows, place);
  bool one_as_far = false;
  for (std::size_t k = 1; k + 1 < others.size(); ++k) {
    const Departure other = departure(points, others, k);
    // Digits may explain the others' departures, but so may roughness.
    if (found.excess() >= least_contrast * other.excess() &&
        std::fabs(found.from_curve) >= least_contrast / 2 * std::fabs(other.from_curve))
      continue;
    const std::size_t apart = k < place ? place - k : k + 1 - place;
    if (one_as_far || apart <= reach || rows.size() < very_long_table) return false;
    one_as_far = true;
  }
  return true;
}

std::vector<Suspect> conspicuous_rows(const std::vector<Point>& points, const Rows& rows) {
  std::vector<Suspect> all;
  for (std::size_t place = 1; place + 1 < rows.size(); ++place) {
    const Departure found = departure(points, rows, place);
    if (stands_out(points, rows, place, found)) all.push_back({rows[place], found});
  }
  return all;
}

std::vector<Suspect> suspects(const std::vector<Point>& points) {
  Rows rows(points.size());
  std::iota(rows.begin(), rows.end(), 0u);
  std::vector<Suspect> all = rows_off_curve(points, rows);
  if (points.size() < long_table || rows.size() + all.size() != points.size()) return all;
  const std::vector<Suspect> more = conspicuous_rows(points, rows);
  all.insert(all.end(), more.begin(), more.end());
  return all;
}

// The text that differs in a digit, or in the order of two neighbouring digits, and lies on the curve; empty
// where there is none, or another that is nearly as near.
std::string meant(Text written, double expected, double tolerance) {
  constexpr double nearer = 4; // times as near as the next
  std::string best;
  double nearest = tolerance, next = tolerance;
  const auto consider = [&](const std::string& text) {
    if (text == written || text == best) return;
    const auto parsed = parse_quantity(text, Dimension::resistance);
    if (!parsed.value || !(parsed.value->si > 0)) return;
    const double distance = std::fabs(std::log(parsed.value->si / expected));
    if (distance < nearest) {
      next = best.empty() ? tolerance : nearest;
      nearest = distance;
      best = text;
    } else {
      next = std::min(next, distance);
    }
  };
  for (std::size_t i = 0; i < written.size(); ++i) {
    if (!is_digit(written[i])) continue;
    std::string text(written);
    for (char c = '0'; c <= '9'; ++c) {
      text[i] = c;
      consider(text);
    }
    text = written;
    const std::size_t other = i + 1 < text.size() && text[i + 1] == '.' ? i + 2 : i + 1;
    if (other < text.size() && is_digit(text[other])) {
      std::swap(text[i], text[other]);
      consider(text);
    }
  }
  return next >= nearer * nearest || next == tolerance ? best : std::string();
}

// Between two rows that lie smoothly with those before and after: by how much ln R falls too far there, or
// too little.
struct Step {
  double off = 0;
  double b = 0, b_before = 0, b_after = 0; // kelvin
};
constexpr double rough_step = 0.06;  // twice `roughness`
constexpr double least_of_row = 0.5; // of the fall from row to row: one row off is all of it
constexpr double alike_around = 0.3; // B before and after it; a single wrong row has unlike ones

std::optional<Step> step_after(const std::vector<Point>& points, std::size_t i) {
  const auto b = [&](std::size_t from) {
    return (points[from].y - points[from + 1].y) / (points[from].x - points[from + 1].x);
  };
  Step step{0, b(i), b(i - 1), b(i + 1)};
  const double usual = (step.b_before + step.b_after) / 2, width = points[i].x - points[i + 1].x;
  step.off = (step.b - usual) * width;
  // Of a row, and of the B that it makes with its neighbour.
  const auto rounding = [&](std::size_t row, std::size_t neighbour) {
    const double share = width / 2 / std::fabs(points[row].x - points[neighbour].x);
    return (1 + share) * points[row].half + share * points[neighbour].half;
  };
  const double sure = std::fabs(step.off) - rounding(i, i - 1) - rounding(i + 1, i + 2);
  if (sure <= std::max(rough_step, least_of_row * usual * width) ||
      std::fabs(step.b_before - step.b_after) > alike_around * usual)
    return std::nullopt;
  return step;
}

// Rows that were copied one line off from some row on, and again from another. False where there are none.
bool check_steps(Sink& sink, const std::vector<Point>& points) {
  constexpr std::size_t few = 3; // of more, the first stands for all
  std::size_t steps = 0;
  std::string first;
  for (std::size_t i = 1; i + 2 < points.size(); ++i) {
    const auto step = step_after(points, i);
    if (!step) continue;
    const Point &colder = points[i], &hotter = points[i + 1];
    const Finding& finding = sink.report(
        hotter.row->node,
        fmt::format(
            "B is {} from {} to {}, and {} before and {} after: from here on the rows lie {} {} the curve "
            "of those before; look whether they were copied a row off",
            kelvin(step->b), celsius(colder.kelvin), celsius(hotter.kelvin), kelvin(step->b_before),
            kelvin(step->b_after), describe(std::fabs(std::expm1(-step->off)), Dimension::ratio, 2),
            step->off < 0 ? "above" : "below"));
    if (steps++ == 0) first = finding.message;
    sink.relate(colder.row->node, "the row before");
  }
  if (steps > few)
    sink.tell_as_one(steps, fmt::format("{} (and {} more such steps in this table)", first, steps - 1));
  return steps > 0;
}

// Rows that say the same, beside each other and near one that is off: the hotter of the two; 0 where there
// are none.
std::size_t repeated_near(const std::vector<Point>& points, std::size_t row) {
  constexpr std::size_t near = 3;
  for (std::size_t i = std::max(row, near) - near + 1; i < std::min(points.size(), row + near + 1); ++i)
    if (points[i].y == points[i - 1].y) return i;
  return 0;
}

void report_repeated(Sink& sink, const std::vector<Point>& points, std::size_t repeated, const Suspect& off) {
  const Point &first = points[repeated - 1], &second = points[repeated], &point = points[off.index];
  sink.report(
      second.row->node,
      fmt::format("{} stands at {} and at {}, and {} at {} is {} off the curve through its neighbours: look "
                  "which of the two is a copy of the other",
                  ohm(std::exp(second.y)), celsius(first.kelvin), celsius(second.kelvin),
                  ohm(std::exp(point.y)), celsius(point.kelvin),
                  describe(std::fabs(std::expm1(off.departure.from_curve)), Dimension::ratio, 2)));
  sink.relate(first.row->node, fmt::format("the row at {}", celsius(first.kelvin)));
}

void report_rows(const Subject& subject, Sink& sink, const std::vector<Point>& points,
                 const std::vector<Suspect>& all) {
  const std::string_view alone = all.size() == 1 ? ", and no other row is" : "";
  std::set<std::size_t> told; // both of two that are off may lie near
  for (const Suspect& s : all) {
    if (const std::size_t repeated = s.placed ? 0 : repeated_near(points, s.index)) {
      if (told.insert(repeated).second) report_repeated(sink, points, repeated, s);
      continue;
    }
    const Point& point = points[s.index];
    const double expected = std::exp(point.y - s.departure.from_curve);
    const bool nominal = has_nominal(*point.row);
    const Node_id node = nominal ? point.row->nominal.node : point.row->node;
    const std::string better = nominal && s.placed ? meant(subject.document.string(node), expected,
                                                           s.departure.rounding + least_departure)
                                                   : std::string();
    sink.report(
        node, fmt::format("{} at {} is {} off the curve through its neighbours, which gives {} there{}",
                          nominal ? ohm(point.row->nominal->si)
                                  : fmt::format("the middle of {}", ohm(*row_interval(*point.row))),
                          celsius(point.kelvin),
                          describe(std::fabs(std::expm1(s.departure.from_curve)), Dimension::ratio, 2),
                          ohm(expected),
                          !s.placed ? std::string(": look for a wrong digit in it and in the rows beside it")
                          : better.empty() ? fmt::format("{}: look for a wrong digit", alone)
                                           : fmt::format("{}: a misprint of {}?", alone, better)));
    for (const std::size_t beside : {s.index - 1, s.index + 1})
      if (beside < points.size())
        sink.relate(points[beside].row->node,
                    fmt::format("{} at {}", ohm(std::exp(points[beside].y)), celsius(points[beside].kelvin)));
  }
}

// Three rows beside each other: by how much the middle one leaves every curve whose B drifts as B does.
constexpr double roughness = 0.03; // of rows that were measured with 1 % and half a kelvin

struct Bend {
  std::size_t middle = 0;
  double excess = 0;
  double expected = 0; // ln R of the middle row
};

Bend bend(const std::vector<Point>& points, std::size_t i) {
  const Point &a = points[i - 1], &p = points[i], &c = points[i + 1];
  const double first = a.x - p.x, second = p.x - c.x;
  const double share = first / (first + second);
  const double straight = a.y + (c.y - a.y) * share;
  // ln R of the middle row rises above the straight line by this much for each kelvin per kelvin.
  const double growth = first * second / (first + second) * (c.kelvin - a.kelvin) / 2;
  const double off = p.y - straight;
  const double outside = std::max(off - b_drift.high * growth, b_drift.low * growth - off);
  const double rounding = p.half + a.half * (1 - share) + c.half * share;
  return {i, outside - rounding - roughness, straight + b_drift.middle() * growth};
}

// Of a long table, whose other rows are held against more than two neighbours, the ends alone.
void check_bends(Sink& sink, const std::vector<Point>& points, bool ends_alone) {
  const std::size_t last = points.size() - 2;
  Bend worst;
  for (std::size_t i = 1; i <= last; i = ends_alone && i < last ? last : i + 1)
    if (const Bend found = bend(points, i); found.excess > worst.excess) worst = found;
  if (worst.middle == 0) return;
  const Point &a = points[worst.middle - 1], &p = points[worst.middle], &c = points[worst.middle + 1];
  const auto b = [](const Point& from, const Point& to) { return kelvin((from.y - to.y) / (from.x - to.x)); };
  sink.report(
      p.row->nominal ? p.row->nominal.node : p.row->node,
      fmt::format("the rows at {}, {} and {} lie on no curve of a thermistor: B is {} between the first two "
                  "and {} between the last two; by the other two the middle one is about {} instead of {}: "
                  "look for a wrong digit in the three",
                  celsius(a.kelvin), celsius(p.kelvin), celsius(c.kelvin), b(a, p), b(p, c),
                  describe(std::exp(worst.expected), Dimension::resistance, 2), ohm(std::exp(p.y))));
  sink.relate(a.row->node, fmt::format("the row at {}", celsius(a.kelvin)));
  sink.relate(c.row->node, fmt::format("the row at {}", celsius(c.kelvin)));
}

// Towards its upper end silicon begins to conduct by itself, and a sensor's curve bends: KTY81 from 110 °C
// on.
constexpr double even_silicon = zero_celsius + 100;

bool falls_somewhere(const std::vector<Row>& rows) {
  double most = 0; // that a colder row has at least
  return std::any_of(rows.begin(), rows.end(), [&](const Row& row) {
    most = std::max(most, row.ohm.low);
    return row.ohm.high < most;
  });
}

// A resistor inside bends the curve of a thermistor; between near rows a cubic follows it all the same,
// within what 1 % allows.
constexpr double near_rows = 10; // kelvin
constexpr double least_linearised = 0.01;
bool has_near_rows(const std::vector<Row>& rows) {
  const auto far = [](const Row& colder, const Row& hotter) {
    return hotter.row->at->si - colder.row->at->si > near_rows + 0.5;
  };
  return std::adjacent_find(rows.begin(), rows.end(), far) == rows.end();
}

// Whether a sensor that is no bare thermistor has a curve that a cubic follows too. Platinum has a formula,
// and what falls and must rise is told by other rules.
bool is_smooth(const Resolved_component& component, const std::vector<Row>& rows) {
  const auto metal = component.get(&Component_type::metal);
  if (component.is(Component_kind::rtd)) return metal && **metal != Metal::platinum && !falls_somewhere(rows);
  if (component.is(Component_kind::ptc))
    return component.has(&Component_type::type, Ptc_type::silicon) && !falls_somewhere(rows);
  return component.is(Component_kind::ntc) && component.has(&Component_type::linearised, true) &&
         has_near_rows(rows);
}

void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    if (*model.kind == Model_kind::table && is_smooth(component, rows_of(subject, model).rows)) {
      std::vector<Point> points = points_of(model);
      if (component.is(Component_kind::ptc))
        std::erase_if(points, [](const Point& p) { return p.kelvin > even_silicon; });
      if (component.is(Component_kind::ntc))
        for (Point& p : points)
          if (p.spread > 0) p.spread = std::max(p.spread, least_linearised);
      if (points.size() >= enough_rows) report_rows(subject, sink, points, suspects(points));
      return;
    }
    if (!is_bare_ntc(component) || !rows_of(subject, model).impossible.empty()) return;
    const std::vector<Point> points = points_of(model);
    if (points.size() < 3) return;
    const bool close = std::adjacent_find(points.begin(), points.end(), far_apart) == points.end();
    const bool enough = points.size() >= enough_rows;
    const std::vector<Suspect> all = enough ? suspects(points) : std::vector<Suspect>();
    if (!all.empty())
      report_rows(subject, sink, points, all);
    else if (!(enough && close && check_steps(sink, points)))
      check_bends(sink, points, enough && close);
  });
}

}

extern const Rule row_misprint = {
    .family = Family::ntc,
    .severity = Severity::warning,
    .summary = "One row of a sensor's table lies off the curve of the others.",
    .check = check,
    .goes_by_absence = true,
};

}
