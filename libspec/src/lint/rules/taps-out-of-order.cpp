#include <array>

#include "lint/facts.h"
#include "lint/windings.h"

namespace ohmlore::rules {
namespace {

// "red_low" and "lowspeed" hold a word that begins so, "yellow" does not.
bool has_word(std::string_view name, std::string_view beginning) {
  const auto is_letter = [](char c) { return c >= 'a' && c <= 'z'; };
  for (std::size_t at = name.find(beginning); at != std::string_view::npos; at = name.find(beginning, at + 1))
    if (at == 0 || !is_letter(name[at - 1])) return true;
  return false;
}

// Where a terminal's name says which speed it is for, slowest first; -1 where it does not.
int speed_of(Text terminal) {
  constexpr std::array<std::string_view, 3> names = {"low", "medium", "high"};
  const std::string name = folded(terminal);
  for (std::size_t i = 0; i < names.size(); ++i)
    if (has_word(name, names[i])) return static_cast<int>(i);
  return -1;
}

// The readings from the common end to each speed: more winding is a lower speed.
void check_taps(const Readings& readings, Sink& sink) {
  struct Tap {
    const Reading* reading;
    std::string_view name;
    int speed;
  };
  std::vector<Tap> taps;
  const auto ends = readings.terminals();
  for (const Reading& reading : readings.all) {
    const bool from_common = is_common(reading.from, ends);
    if (from_common == is_common(reading.to, ends)) continue;
    const Text end = from_common ? reading.to : reading.from;
    if (speed_of(end) >= 0) taps.push_back({&reading, end, speed_of(end)});
  }
  for (const Tap& slow : taps)
    for (const Tap& fast : taps) {
      if (slow.speed >= fast.speed || slow.reading->ohm.high >= fast.reading->ohm.low) continue;
      const auto [slow_ohm, fast_ohm] = apart(slow.reading->ohm, fast.reading->ohm);
      sink.report(slow.reading->node,
                  fmt::format("{} is {} and {} {}: the lower speed has more of the winding in series; "
                              "exchange {} and {}, or correct the readings",
                              ends_of(*slow.reading), slow_ohm, ends_of(*fast.reading), fast_ohm, slow.name,
                              fast.name));
      sink.relate(fast.reading->node, ends_of(*fast.reading));
      return;
    }
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto connection = component.get(&Component_type::connection);
    if (!component.is(Component_kind::winding) || !connection || **connection != Connection::tapped) continue;
    for (const Readings& readings : readings_of(subject, component)) check_taps(finite(readings), sink);
  }
}

}

extern const Rule taps_out_of_order = {
    .family = Family::network,
    .severity = Severity::warning,
    .summary = "A tap for a lower speed has less winding than one for a higher speed.",
    .check = check,
};

}
