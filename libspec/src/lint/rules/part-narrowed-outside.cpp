#include "lint/rows.h"
#include "lint/stated_model.h"

namespace ohmlore::rules {
namespace {

// Models whose band says what a part may be. The others are nominal curves, or follow from a rating.
bool has_band_of_its_own(const Resistance_model& model) {
  switch (*model.kind) {
  case Model_kind::beta:
  case Model_kind::table:
  case Model_kind::iec_60751:
  case Model_kind::copper:
  case Model_kind::fixed: return true;
  default: return false;
  }
}

// How far off a temperature may be in a table whose temperatures were rounded from °F, in kelvin.
double off_in(const Resistance_model& model, double kelvin) {
  constexpr double most = 0.5; // of what was rounded to whole °C
  if (!is_rounded_from_fahrenheit(model)) return 0;
  const auto& rows = model.rows;
  const auto there =
      std::find_if(rows.begin(), rows.end(), [&](const auto& row) { return row.at && row.at->si == kelvin; });
  return there != rows.end() ? off_fahrenheit(*there->at) : most;
}

// A band without what the rounding of its written numbers adds to it; empty where nothing else is in it.
std::optional<Interval> surely_claimed(const Resistance_model& model, double t) {
  if (!states_tolerances(model)) return std::nullopt;
  const auto named = named_temperatures(model);
  const bool by_points = *model.kind == Model_kind::beta || *model.kind == Model_kind::table;
  if (by_points && std::find(named.begin(), named.end(), t) == named.end())
    return std::nullopt; // between and beyond them it is not known where its curve runs
  const auto literal = stated_band(model, t, Taken::literally),
             generous = stated_band(model, t, Taken::generously);
  if (!literal || !generous) return std::nullopt;
  const Interval sure{2 * literal->low - generous->low, 2 * literal->high - generous->high};
  return sure.low < sure.high ? std::optional(sure) : std::nullopt;
}

// B between the same two temperatures is one number of a part: what both tolerances leave must meet.
bool excludes_b(const Resistance_model& own, const Resistance_model& part) {
  for (const Resistance_model* model : {&own, &part})
    if (*model->kind != Model_kind::beta || !model->b_value || !model->b_tolerance || !model->b_between)
      return false;
  if (own.b_between->low.si != part.b_between->low.si || own.b_between->high.si != part.b_between->high.si)
    return false;
  const auto b = [](const Resistance_model& model) {
    return toleranced_interval(*model.b_value, model.b_tolerance, Taken::generously);
  };
  return !b(own).overlaps(b(part));
}

std::string b_text(const Resistance_model& model) {
  const Interval b = toleranced_interval(*model.b_value, model.b_tolerance);
  return fmt::format("{} to {}", kelvin(b.low), kelvin(b.high));
}

void compare(Sink& sink, const Resolved_component& component, const Resistance_model& own,
             const Resistance_model& part) {
  std::vector<double> temperatures = named_temperatures(own);
  for (const double t : named_temperatures(part)) temperatures.push_back(t);
  if (temperatures.empty()) temperatures.push_back(zero_celsius + 25);
  std::sort(temperatures.begin(), temperatures.end());
  temperatures.erase(std::unique(temperatures.begin(), temperatures.end()), temperatures.end());

  const bool bands = has_band_of_its_own(own) && has_band_of_its_own(part);
  struct Said {
    std::string message, value;
    Severity severity;
  };
  std::vector<Said> outside, wider;
  for (const double t : temperatures) {
    // Where one was rounded from °F, the other is asked for all that it may have been.
    const double off_mine = off_in(own, t), off = std::max(off_mine, off_in(part, t));
    const Interval around{t - off, t + off};
    const auto mine = stated_band(own, off_mine > 0 ? Interval{t, t} : around, Taken::generously),
               allowed = stated_band(part, off_mine > 0 ? around : Interval{t, t}, Taken::generously);
    if (!mine || !allowed) continue;
    const auto said = [&](Severity severity, auto message) {
      const Interval one = stated_band(own, t, Taken::literally).value_or(*mine),
                     other = stated_band(part, t, Taken::literally).value_or(*allowed);
      const bool below = other.low - one.low > one.high - other.high; // else it leaves the part's band above
      const double end = one.overlaps(other) == below ? one.low : one.high;
      const int digits = digits_apart(end, below ? other.low : other.high);
      const std::string here = ohm(one, digits), there = ohm(other, digits);
      return Said{message(fmt::format("at {} the model of {} gives {}, but its part {} {}", celsius(t),
                                      component.id, here, *component.placed->part, there)),
                  fmt::format("{}: {} against {}", celsius(t), here, there), severity};
    };
    if (bands && !mine->overlaps(*allowed)) {
      const bool sure = bounds_parts(own, {t, t}) && bounds_parts(part, {t, t});
      outside.push_back(said(sure ? Severity::error : Severity::warning, [&](const std::string& numbers) {
        return fmt::format("{}: nothing lies in both; correct one, {}or name another part", numbers,
                           sure ? "" : "state the tolerances, ");
      }));
      continue;
    }
    const auto claimed = surely_claimed(own, t);
    if (claimed && !allowed->contains(*claimed))
      wider.push_back(said(Severity::warning, [](const std::string& numbers) {
        return fmt::format("{}: a component may narrow the band of its part, not leave it; correct "
                           "one of the two, or name another part",
                           numbers);
      }));
  }
  // At each temperature it is known by itself, and told once.
  const auto report = [&](std::vector<Said>& all) {
    if (all.size() > most_contradictions) all.resize(most_contradictions);
    for (const Said& one : all) {
      sink.report_as(one.severity, own.node, one.message).value = one.value;
      sink.relate(*component.part, part.node, "the model of the part");
    }
    if (all.size() > 1) sink.tell_the_worst(all.size());
  };
  if (!outside.empty()) return report(outside);
  if (excludes_b(own, part)) {
    sink.report_as(
        Severity::error, own.b_value.node,
        fmt::format("B of {} is {}, but that of its part {} {} between the same two temperatures: no "
                    "part has both; correct one, or name another part",
                    component.id, b_text(own), *component.placed->part, b_text(part)));
    sink.relate(*component.part, part.b_value.node, "the B-value of the part");
    return;
  }
  report(wider);
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    if (component.part == nullptr) continue;
    const Resistance_model& own = *component.own->model;
    const Resistance_model& part = *component.part->part()->component.model;
    if (own && own.kind && part && part.kind)
      compare(sink, component, *with_metal(own, component), *with_metal(part, component));
  }
}

}

extern const Rule part_narrowed_outside = {
    .family = Family::corpus,
    .severity = Severity::warning,
    .summary = "The model of a component leaves the band of its part.",
    .check = check,
};

}
