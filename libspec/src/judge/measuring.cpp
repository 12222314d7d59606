#include "judge/measuring.h"

#include <algorithm>
#include <cmath>

#include "lint/meter.h"
#include "lint/readings.h"

namespace ohmlore {

Means means_of(const Corpus* corpus, const Judge_means& means) {
  const rules::Handheld reference = rules::reference_meter(corpus);
  Means all;
  all.meter =
      means.meter.value_or(Meter_accuracy{reference.accuracy, reference.counts, reference.display_counts});
  all.leads = means.leads.value_or(Leads{reference.leads, Leads{}.half_width});
  all.leads_stated = means.leads.has_value();
  all.rule = means.rule;
  all.room = means.room;
  return all;
}

Known known_of(const Reading& reading, const Means& means) {
  Known known;
  if (reading.over_range) {
    const double end = reading.ohm > 0 ? reading.ohm : highest_range(means.meter);
    known.beyond = end;
    known.own = {{Contributor::meter, accuracy_half_width(means.meter, end, display_step(means.meter, end))},
                 {Contributor::leads, means.leads.ohm + means.leads.half_width}};
    return known;
  }
  const double step = display_step(means.meter, reading.ohm);
  known.ohm = std::max(0.0, reading.ohm - means.leads.ohm);
  known.own = {{Contributor::meter, accuracy_half_width(means.meter, reading.ohm, step)},
               {Contributor::leads, means.leads.half_width}};
  if (reading.half_digit > step * 0.501) known.own.push_back({Contributor::rounding, reading.half_digit});
  return known;
}

double half_width_of(const Known& known) {
  double half_width = 0;
  for (const Doubt& doubt : known.own) half_width += doubt.half_width;
  return half_width;
}

bool is_below_leads(const Reading& reading, const Means& means) {
  constexpr double slack = 1e-9; // ohm: what the computer rounds
  return !reading.over_range &&
         reading.ohm < means.leads.ohm - half_width_of(known_of(reading, means)) - slack;
}

// A small sensor in still air warms by 1 K for 1.5 mW (read); a meter on ohms drives at most 0.5 V and 0.5 mA
// through it (common practice, no source).
static double self_heating(double ohm) {
  const double watt = std::min(0.5 * 0.5 / std::max(ohm, 1.0), 0.5e-3 * 0.5e-3 * ohm);
  return watt / 1.5e-3;
}

void set_temperature(Known& known, const Expected& expected, const Judge_request& request,
                     const Means& means) {
  known.about.clear();
  known.room.reset();
  if (!expected.varies) return;
  if (!request.temperature) {
    known.room = means.room;
    return;
  }
  known.x = request.temperature->kelvin;
  const bool warms_itself = rules::is_wound(*expected.component);
  for (const Temperature_deviation& one : temperature_deviations(*request.temperature, warms_itself))
    known.about.push_back({one.from, one.half_width});
  if (!known.beyond && expected.model && is_temperature_sensor(*expected.component, *expected.model))
    known.about.push_back({Contributor::self_heating, self_heating(known.ohm)});
}

Interval kelvin_of_part(const Judge_request& request, const Resolved_component& component, Interval room) {
  if (!request.temperature) return room;
  double off = 0;
  for (const auto& one : temperature_deviations(*request.temperature, rules::is_wound(component)))
    off += one.half_width;
  return {request.temperature->kelvin - off, request.temperature->kelvin + off};
}

std::optional<Interval> limits_where_asked(const Expected& expected, const Known& known) {
  const auto& rows = expected.rows_reach;
  const auto& room = known.room;
  const double x = !room ? known.x : rows ? std::clamp(rows->low, room->low, room->high) : room->middle();
  return expected.service_at(x);
}

bool is_open(const Resolved_component& component, const Known& known) {
  return rules::is_open(component, known.beyond.value_or(known.ohm), known.beyond.has_value());
}

bool is_other_state(const Resolved_component& component, const Known& known, const Judged& service) {
  return std::isinf(service.ohm.high) ? !known.beyond && rules::is_closed(component, known.ohm)
                                      : is_open(component, known);
}

Conformity worse(Conformity a, Conformity b) {
  if (a == Conformity::outside || b == Conformity::outside) return Conformity::outside;
  return a == Conformity::within ? b : a;
}

std::optional<Judged> judged(const Known& known, const Limits_at& limits, const Means& means,
                             const Middle_at& middle) {
  const auto found = probable(known, limits);
  if (!found) return std::nullopt;
  Judged out;
  out.least = found->least;
  out.most = found->most;
  out.result = decide(*found, means.rule);
  if (!known.room) {
    out.ohm = *limits(known.x);
  } else {
    bool any = false;
    constexpr int steps = 50;
    for (int i = 0; i <= steps; ++i)
      if (const auto here = limits(known.room->low + known.room->width() * i / steps)) {
        out.ohm = any ? hull(out.ohm, *here) : *here;
        any = true;
      }
  }
  if (out.result == Conformity::too_close && middle && !known.room && !known.beyond)
    if (const auto ideal = middle(known.x)) {
      Known best = known_of({*ideal + means.leads.ohm, 0, false}, means);
      best.x = known.x;
      best.about = known.about;
      if (const auto at_best = probable(best, limits)) out.best = at_best->least.within;
    }
  return out;
}

}
