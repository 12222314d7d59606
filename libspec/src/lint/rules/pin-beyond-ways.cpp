#include <algorithm>
#include <charconv>
#include <optional>
#include <set>

#include "lint/rule.h"
#include "text/counted.h"

namespace ohmlore::rules {

static std::optional<std::int64_t> number_of(Text pin) {
  std::int64_t number = 0;
  const auto [end, error] = std::from_chars(pin.data(), pin.data() + pin.size(), number);
  if (error != std::errc{} || end != pin.data() + pin.size() || number < 0) return std::nullopt;
  return number;
}

struct Numbers {
  std::int64_t lowest = 0, highest = 0;
};

static std::optional<Numbers> numbers_of(const Connector& connector) {
  std::optional<Numbers> numbers;
  for (const auto& pin : connector.pins)
    if (const auto number = number_of(pin.id))
      numbers = numbers ? Numbers{std::min(numbers->lowest, *number), std::max(numbers->highest, *number)}
                        : Numbers{*number, *number};
  return numbers;
}

// Terminal strips are often numbered on from one to the next: 1 to 4, then 5 to 8.
static bool numbered_on(const Profile& profile, const Connector& connector, Numbers numbers) {
  if (numbers.highest - numbers.lowest >= *connector.ways) return false;
  return std::any_of(profile.connectors.begin(), profile.connectors.end(), [&](const auto& other) {
    const auto before = numbers_of(other.value);
    return before && before->highest < numbers.lowest;
  });
}

// Makers count the earth or leave it out ("3 + PE"): a pin that is declared to be one is not held against
// them.
static std::int64_t counted_pins(const Document& document, const Connector& connector) {
  if (static_cast<std::int64_t>(connector.pins.size()) <= *connector.ways)
    return static_cast<std::int64_t>(connector.pins.size()); // few enough, however they are counted
  std::set<std::string_view> ids;                            // a key may stand twice
  for (const auto& [id, key, pin] : connector.pins) {
    const bool may_be_earth = pin.circuit ? *pin.circuit == Circuit_class::protective_earth
                                          : !pin || unread(document, pin, "circuit", pin.circuit);
    if (!may_be_earth) ids.insert(id);
  }
  return static_cast<std::int64_t>(ids.size());
}

// A screen or a shell has letters beside numbered ways, and makers count it or not.
static bool lettered_beyond(const Connector& connector) {
  std::set<std::int64_t> numbered;
  for (const auto& pin : connector.pins)
    if (const auto number = number_of(pin.id)) numbered.insert(*number);
  return !numbered.empty() && static_cast<std::int64_t>(numbered.size()) <= *connector.ways;
}

static void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  for (const auto& [id, key, connector] : profile->connectors) {
    if (!connector.ways) continue;
    const std::int64_t ways = *connector.ways;
    const std::int64_t pins = counted_pins(subject.document, connector);
    if (pins > ways) {
      const bool may_be = lettered_beyond(connector);
      sink.report_as(may_be ? Severity::warning : Severity::error, connector.ways.node,
                     fmt::format("{} has {} but declares {} pins; {}", id, counted(ways, "way"), pins,
                                 may_be ? "correct `ways`, or waive this where it does not count what has "
                                          "letters, as a screen"
                                        : "correct `ways`, or remove the pins that it does not have"));
      sink.relate(connector.pins.node, fmt::format("the pins of {}", id));
      continue;
    }
    const auto numbers = numbers_of(connector);
    if (!numbers || numbers->highest <= ways || numbered_on(*profile, connector, *numbers)) continue;
    for (const auto& pin : connector.pins)
      if (const auto number = number_of(pin.id); number && *number > ways) {
        sink.report_as(Severity::warning, pin.key,
                       fmt::format("{} has {}, pin {} lies beyond the last; count the ways again, or "
                                   "correct the number",
                                   id, counted(ways, "way"), *number));
        sink.relate(connector.ways.node, fmt::format("the ways of {}", id));
      }
  }
}

extern const Rule pin_beyond_ways = {
    .family = Family::pin,
    .severity = Severity::error,
    .summary = "A connector has more pins than ways, or a pin number beyond its last way.",
    .check = check,
};

}
