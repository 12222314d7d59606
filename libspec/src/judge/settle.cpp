#include "judge/settle.h"

#include <cmath>
#include <numeric>

#include "judge/modes.h"
#include "judge/shown.h"
#include "lint/rule.h"
#include "units/outward.h"

namespace ohmlore {
namespace {

using namespace rules;

// By how much one doubt would have to shrink before the reading is decided; empty where that does not do.
std::optional<double> enough(const Case& one, Contributor from) {
  const Limits_at limits = limits_of(one);
  const auto decided = [&](double factor) {
    Known better = one.known;
    for (auto* doubts : {&better.own, &better.about})
      for (Doubt& doubt : *doubts)
        if (doubt.from == from) doubt.half_width *= factor;
    const auto found = probable(better, limits);
    return found && decide(*found, one.means.rule) != Conformity::too_close;
  };
  if (!decided(1e-3)) return std::nullopt;
  double good = 1e-3, bad = 1;
  for (int i = 0; i < 20; ++i) (decided(std::midpoint(good, bad)) ? good : bad) = std::midpoint(good, bad);
  return good;
}

std::string what_settles(const Contribution& one, double factor) {
  // With just what is shown it is decided: less than that is needed, never more.
  const double needed = rounded(one.half_width * factor, Towards::less, 3);
  switch (one.from) {
  case Contributor::meter:
    return fmt::format("a meter that is within ± {} here (this one: ± {})", shown_rounded(needed),
                       shown_ohm(one.half_width));
  case Contributor::rounding: return "write all digits that the display shows";
  case Contributor::leads:
    return fmt::format("measure the leads, tips together, to within ± {}, or null them: --leads 0",
                       shown_rounded(needed));
  case Contributor::thermometer:
    return fmt::format("a thermometer that is within ± {} (this one: ± {})", kelvin(needed),
                       kelvin(one.half_width));
  case Contributor::place: return "take the temperature beside the element, in the same water or air stream";
  case Contributor::running: return "wait until the part has cooled to the room, and take both again";
  case Contributor::self_heating: return "a range with less current, and a reading at once";
  case Contributor::twin: return "a finer meter on both";
  }
  return {};
}

// Beyond the end of which range OL would be decided, all that may be.
double end_that_decides(const Case& one) {
  const Limits_at limits = limits_of(one);
  const auto decided = [&](double end) {
    Known higher = known_of({end, 0, true}, one.means);
    higher.x = one.known.x;
    higher.about = one.known.about;
    higher.room = one.known.room;
    const auto found = probable(higher, limits);
    return found && decide(*found, one.means.rule) != Conformity::too_close;
  };
  double low = *one.known.beyond, high = low;
  while (!decided(high) && high < 1e12) low = high, high *= 2;
  for (int i = 0; i < 12; ++i) (decided(std::midpoint(low, high)) ? high : low) = std::midpoint(low, high);
  return high;
}

}

void say_what_settles(Judgement& judgement, const Case& one) {
  const Known& known = one.known;
  auto& settle = judgement.settle;
  if (known.beyond) {
    const double end = rounded(end_that_decides(one), Towards::more, 3);
    const double highest = highest_range(one.means.meter);
    settle.push_back(
        end < highest
            ? fmt::format("switch the meter to a range that ends above {}", shown_rounded(end))
            : fmt::format("a meter with a range that ends above {} (the highest of this one ends at {})",
                          shown_rounded(end), shown_ohm(highest)));
    return;
  }
  if (known.room) {
    settle.push_back("take the temperature of the part, and give it with --temperature \"20 °C ± 1 K\"");
    return;
  }
  bool any = false;
  for (const Contribution& part : judgement.budget) {
    if (part.share < 0.05) break;
    const auto factor = enough(one, part.from);
    if (!factor) continue;
    any = true;
    settle.push_back(what_settles(part, *factor));
  }
  if (!any && judgement.budget.size() > 1)
    settle.push_back(one.expected.varies
                         ? "several of them together: cool to the room, a finer meter and thermometer, leads "
                           "nulled"
                         : "several of them together: a finer meter, and leads nulled");
  if (one.test.side && *one.test.side == Side::at_board_plug && !one.request.at_part &&
      circuits_read(one.resolved, one.test).empty())
    settle.push_back(
        "measure on the part itself too: --at-part, in a list of readings \", on part READING\"");
  if (one.expected.varies)
    settle.push_back("measure again at another temperature: a part that drifted is off there too");
}

}
