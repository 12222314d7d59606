#include "lint/windings.h"

#include <algorithm>

#include "lint/facts.h"

namespace ohmlore::rules {

bool is_common(Text terminal, const std::vector<Text>& terminals) {
  const std::string name = folded(terminal);
  if (name == "c")
    return std::none_of(terminals.begin(), terminals.end(), [](Text other) {
      const std::string beside = folded(other);
      return beside == "b" || beside == "d";
    });
  return name.starts_with("common") || name.starts_with("neutral") || name == "com" || name == "n";
}

bool is_wiper(Text terminal) {
  const std::string name = folded(terminal);
  return name.starts_with("wiper") || name.starts_with("slider");
}

Readings finite(Readings readings) {
  std::erase_if(readings.all, [](const Reading& r) { return std::isinf(r.ohm.high); });
  return readings;
}

std::vector<Around_common> around_common(const Readings& readings) {
  std::vector<Around_common> found;
  const auto terminals = readings.terminals();
  for (const Text common : terminals) {
    if (!is_common(common, terminals)) continue;
    for (const Reading& whole : readings.all) {
      if (is_common(whole.from, terminals) || is_common(whole.to, terminals)) continue;
      const Reading* one = readings.between(common, whole.from);
      const Reading* other = readings.between(common, whole.to);
      if (one != nullptr && other != nullptr)
        found.push_back({common, whole.from, whole.to, one, other, &whole});
    }
  }
  return found;
}

// What two windings in series and the reading across both may differ by: 5 % of the sum for makers' rounding
// and the spread of specimens, and 0.5 Ω for the leads (0.1 to 0.5 Ω), which are in the sum twice. Common
// practice, no source.
static double series_slack(Interval sum) { return 0.05 * sum.middle() + 0.5; }

bool in_series(const Reading& whole, const Reading& one, const Reading& other) {
  const Interval sum = one.ohm + other.ohm;
  return whole.ohm.high + series_slack(sum) >= sum.low;
}

Text likely_common(const Around_common& three) {
  const Reading &one = *three.one, &other = *three.other, &whole = *three.whole;
  if (in_series(whole, one, other)) return {};
  const double largest = std::max({one.ohm.middle(), other.ohm.middle(), whole.ohm.middle()});
  if (one.ohm.middle() == largest && in_series(one, other, whole)) return three.other_end;
  if (other.ohm.middle() == largest && in_series(other, one, whole)) return three.one_end;
  return {};
}

}
