#include <algorithm>
#include <iterator>
#include <optional>
#include <vector>

#include "lint/rule.h"
#include "text/small_letters.h"

namespace ohmlore::rules {
namespace {

// Names of one end of a part that mean the same on both sides of a plug, however it is built in: not "in" and
// "out" or "open" and "close", which may meet crosswise.
constexpr std::string_view names_of_ends[][3] = {
    {" live ", " line ", " l "},
    {" neutral ", " n "},
    {" earth ", " pe "},
    {" start "},
    {" run "},
    {" common ", " com "},
    {" normally open ", " no "},
    {" normally closed ", " nc "},
    {" wiper ", " slider "},
    {" positive ", " plus "},
    {" negative ", " minus "},
    {" ground "},
    {" setting ", " command "},
    {" feedback ", " tachometer "},
};

// " fan live ": small letters, a space around each word.
std::string words_of(Text text) {
  std::string words = " ";
  for (const char c : text) {
    if (std::string_view(" _-,;:/.()").find(c) == std::string_view::npos)
      words += small_letter(c);
    else if (words.back() != ' ')
      words += ' ';
  }
  if (words.back() != ' ') words += ' ';
  return words;
}

// Which end a text names, by position; empty where it names none, or several.
std::optional<std::size_t> end_named_in(Text text) {
  const std::string words = words_of(text);
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < std::size(names_of_ends); ++i) {
    const auto& names = names_of_ends[i];
    if (std::none_of(std::begin(names), std::end(names), [&](std::string_view name) {
          return !name.empty() && words.find(name) != std::string::npos;
        }))
      continue;
    if (found) return std::nullopt;
    found = i;
  }
  return found;
}

struct Terminal {
  Text id;
  const Value<Contact>* contact = nullptr;
  const Value<Text>* signal = nullptr;
  std::size_t own = 0, of_signal = 0; ///< ends
};

// The terminals whose name and whose pin's signal each say one end.
std::vector<Terminal> named_terminals(const Resolved& resolved, const Component& component) {
  std::vector<Terminal> found;
  for (const auto& terminal : component.terminals) {
    const Pin* pin = terminal.value ? resolved.pin(*terminal.value) : nullptr;
    if (pin == nullptr || !pin->signal) continue;
    const auto own = end_named_in(terminal.id);
    const auto of_signal = own ? end_named_in(*pin->signal) : std::nullopt;
    if (of_signal) found.push_back({terminal.id, &terminal.value, &pin->signal, *own, *of_signal});
  }
  return found;
}

// From a terminal to the one that its signal names, and on, until the signal of the last names the first;
// empty where it does not come round, or two terminals have one name.
std::vector<const Terminal*> round_from(const std::vector<Terminal>& terminals, const Terminal& first) {
  std::vector<const Terminal*> round;
  const Terminal* next = &first;
  do {
    round.push_back(next);
    const auto is_next = [&](const Terminal& other) { return other.own == round.back()->of_signal; };
    if (std::count_if(terminals.begin(), terminals.end(), is_next) != 1) return {};
    next = &*std::find_if(terminals.begin(), terminals.end(), is_next);
  } while (next != &first && round.size() < terminals.size());
  return next == &first ? round : std::vector<const Terminal*>();
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    if (component.placed == nullptr || !component.placed->terminals) continue;
    const auto terminals = named_terminals(subject.resolved, *component.placed);
    for (const Terminal& terminal : terminals) {
      const auto round = round_from(terminals, terminal);
      // Each round once, from its first terminal.
      if (round.size() < 2 || *std::min_element(round.begin(), round.end()) != &terminal) continue;
      std::vector<std::string> places;
      for (const Terminal* each : round)
        places.push_back(
            fmt::format("{} on {} ({})", each->id, text_of(**each->contact), quoted(**each->signal)));
      sink.report(
          terminal.contact->node,
          fmt::format(
              "the terminals of {} lie on each other's pins, as the signals of these say: {}; exchange "
              "the contacts, or the signals",
              component.id, listed(places)));
      for (const Terminal* each : round) sink.relate(each->signal->node, "the signal");
    }
  }
}

}

extern const Rule terminals_exchanged = {
    .family = Family::pin,
    .severity = Severity::warning,
    .summary = "Terminals of a component lie on each other's pins, as the signals of these say.",
    .check = check,
};

}
