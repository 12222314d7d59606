#include "judge/case.h"

#include <algorithm>
#include <cmath>

#include "judge/asked.h"
#include "judge/shown.h"
#include "lint/readings.h"
#include "lint/rule.h"
#include "ohmlore/physics.h"

namespace ohmlore {
namespace {

using namespace rules;

// The twin instead of a thermometer: what it reads says how warm both are, or how much.
std::optional<Expected> twin_limits(const Resolved& resolved, const Test& test, Expected expected,
                                    const Judge_request& request, const Means& means, Known& known,
                                    std::string& problem) {
  const Expectation& expect = test.expect;
  if (!expect.largest_difference || !expect.with) {
    problem = "the test does not say how far the two may differ: mend the profile, `ohmlore lint` says where";
    return std::nullopt;
  }
  if (!request.twin) {
    problem =
        fmt::format("this test compares with {}: give its reading too, with --twin", quoted(*expect.with));
    return std::nullopt;
  }
  const Known twin = known_of(*request.twin, means);
  if (request.twin->over_range) {
    problem = fmt::format("{} reads OL itself: judge it by a test of its own", quoted(*expect.with));
    return std::nullopt;
  }
  const Tolerance& most = *expect.largest_difference;
  const double width = std::max(most.minus, most.plus);
  expected.words = fmt::format("at most {} from {}", describe(width, most.dimension), *expect.with);
  expected.basis = Limit_basis::twin;
  expected.stated_at.reset();
  const double half_width = half_width_of(twin);
  if (most.dimension != Dimension::temperature_difference) {
    known.x = twin.ohm;
    known.about = {{Contributor::twin, half_width}};
    expected.model = {};
    expected.varies = false;
    expected.service = {{width, width, most.dimension}, 1};
    return expected;
  }
  const Resolved_component* other = resolved.component(*expect.with);
  const auto curve = other != nullptr ? model_expectation(resolved, *other, test) : std::nullopt;
  const auto kelvin = curve ? curve->kelvin_of(twin.ohm) : std::nullopt;
  if (!kelvin || !expected.model) {
    problem = !kelvin && curve
                  ? fmt::format("{} of {} means no temperature on its curve: judge it by a test of its own",
                                shown_ohm(twin.ohm), quoted(*expect.with))
                  : fmt::format("a difference in kelvin needs the curves of both {} and {}",
                                quoted(expected.component->id), quoted(*expect.with));
    return std::nullopt;
  }
  const double slope = std::fabs(slope_at(*curve, *kelvin, 0.05));
  known.x = *kelvin;
  known.about = {{Contributor::twin, slope > 0 ? half_width / slope : 0}};
  expected.varies = true;
  expected.service = {{width, width, Dimension::temperature_difference}, 1};
  return expected;
}

// The limits of what rises hold where it ends, those of what rests in either state where it meets them.
const Reading& reading_for_limits(const Expected& expected, const Test& test, const Judge_request& request,
                                  const Means& means) {
  if (!request.after) return request.reading;
  const auto is_other = [&](const Reading& one) {
    const Known read = known_of(one, means);
    const auto by_itself = judged(read, service_of(expected), means, {});
    return by_itself && is_other_state(*expected.component, read, *by_itself);
  };
  const bool later = watches_it_rise(test) || (rests_in_either(*expected.component, test) &&
                                               is_other(request.reading) && !is_other(*request.after));
  return later ? *request.after : request.reading;
}

}

std::optional<Case> case_of(const Resolved& resolved, const Test& test, Text id, const Judge_request& request,
                            const Means& means, std::string& problem) {
  auto expected = expected_of(resolved, test, false, problem);
  if (!expected) return std::nullopt;
  const Reading& reading = reading_for_limits(*expected, test, request, means);
  Known known = known_of(reading, means);
  if (expected->basis == Limit_basis::twin)
    expected = twin_limits(resolved, test, std::move(*expected), request, means, known, problem);
  else
    set_temperature(known, *expected, request, means);
  if (!expected) return std::nullopt;
  return Case{resolved, test, id, request, means, std::move(*expected), reading, std::move(known)};
}

Limits_at limits_of(const Case& one) {
  if (!one.by_ohm()) return service_of(one.expected);
  return [&service = one.expected.service](double x) -> std::optional<Interval> {
    const double width = service->relative() ? service->plus * x : service->plus;
    return Interval{std::max(0.0, x - width), x + width};
  };
}

Middle_at middle_of(const Case& one) {
  return [&one](double x) { return one.by_ohm() ? std::optional(x) : one.expected.nominal_at(x); };
}

// Where limits of a wound part hold that are flat beyond.
static std::optional<Interval> held_alone(const Case& one) {
  if (one.beside_twin() || !rules::is_wound(*one.expected.component)) return std::nullopt;
  if (!one.expected.stated) return one.expected.rows_reach;
  const Expectation& expect = one.test.expect;
  const bool at_some = !one.expected.varies && *expect.kind == Expectation_kind::band && expect.at;
  return at_some ? std::optional(kelvin_interval(*expect.at)) : std::nullopt;
}

std::optional<Flat_limits> flat_limits(const Case& one) {
  const auto held = held_alone(one);
  if (!held || !one.request.temperature || held->contains(one.request.temperature->kelvin))
    return std::nullopt;
  const Interval kelvin = kelvin_of_part(one.request, *one.expected.component, one.means.room);
  if (!(kelvin.low > zero_celsius - copper_k)) return std::nullopt;
  const auto celsius = [](double t) { return Interval{t - zero_celsius, t - zero_celsius}; };
  const auto change = [&](double t) {
    return copper_resistance(celsius(t), {1, 1}, celsius(std::clamp(t, held->low, held->high)), copper_k)
        .middle();
  };
  return Flat_limits{*held, {change(kelvin.low), change(kelvin.high)}};
}

std::vector<const Reading*> readings_of(const Judge_request& request) {
  std::vector<const Reading*> readings = {&request.reading};
  for (const auto* reading : {&request.reverse, &request.twin, &request.at_part, &request.after})
    if (*reading) readings.push_back(&**reading);
  return readings;
}

std::string contacts_of(const Test& test) {
  std::string out;
  for (const Value<Contact>& probe : test.probes)
    if (probe) out += (out.empty() ? "" : " to ") + text_of(*probe);
  return out;
}

}
