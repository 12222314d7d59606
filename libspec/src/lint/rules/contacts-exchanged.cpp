#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <vector>

#include "lint/named.h"
#include "lint/rule.h"

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

// A terminal, or a component as a whole, on a pin whose signal names one of its like.
struct Placed {
  Text id;
  const Value<Contact>* contact = nullptr;
  const Value<Text>* signal = nullptr;
  std::size_t own = 0, of_signal = 0; ///< what it is, and what the signal names
};

const Value<Text>* signal_at(const Resolved& resolved, const Value<Contact>& contact) {
  const Pin* pin = contact ? resolved.pin(*contact) : nullptr;
  return pin != nullptr && pin->signal ? &pin->signal : nullptr;
}

std::vector<Placed> named_terminals(const Resolved& resolved, const Component& component) {
  std::vector<Placed> found;
  for (const auto& terminal : component.terminals) {
    const Value<Text>* signal = signal_at(resolved, terminal.value);
    if (signal == nullptr) continue;
    const auto own = end_named_in(terminal.id);
    const auto of_signal = own ? end_named_in(**signal) : std::nullopt;
    if (of_signal) found.push_back({terminal.id, &terminal.value, signal, *own, *of_signal});
  }
  return found;
}

// Where from one to that which its signal names, and on, the signal of the last names the first. What two
// have as their name leads nowhere.
std::vector<std::vector<const Placed*>> rounds_of(const std::vector<Placed>& all) {
  constexpr auto nowhere = static_cast<std::size_t>(-1);
  std::map<std::size_t, std::size_t> by_name;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (const auto [named, is_new] = by_name.emplace(all[i].own, i); !is_new) named->second = nowhere;
  std::vector<std::vector<const Placed*>> rounds;
  std::vector<std::size_t> walk(all.size(), nowhere); // in which each was met
  for (std::size_t first = 0; first < all.size(); ++first) {
    std::size_t at = first;
    const auto step = [&] {
      const auto next = by_name.find(all[at].of_signal);
      at = next != by_name.end() ? next->second : nowhere;
    };
    for (; at != nowhere && walk[at] == nowhere; step()) walk[at] = first;
    if (at == nowhere || walk[at] != first) continue;
    auto& round = rounds.emplace_back();
    for (const std::size_t begin = at; round.empty() || at != begin; step()) round.push_back(&all[at]);
    std::rotate(round.begin(), std::min_element(round.begin(), round.end()), round.end());
    if (round.size() == 1) rounds.pop_back(); // where its own signal says
  }
  return rounds;
}

// The terminals of a component; where it is empty, components.
void check_rounds(Sink& sink, const std::vector<Placed>& all, Text component) {
  for (const auto& round : rounds_of(all)) {
    std::vector<std::string> places;
    for (const Placed* each : round)
      places.push_back(
          fmt::format("{} on {} ({})", each->id, text_of(**each->contact), quoted(**each->signal)));
    sink.report(
        round.front()->contact->node,
        fmt::format("{} lie on each other's pins, as the signals of these say: {}; exchange the contacts, "
                    "or the signals",
                    component.empty() ? "components" : fmt::format("the terminals of {}", component),
                    listed(places)));
    for (const Placed* each : round) sink.relate(each->signal->node, "the signal");
  }
}

// The components by the words of their ids.
using Components_by_words = std::map<std::string, std::size_t, std::less<>>;

// The component whose id stands in a signal; of several the one with the most words.
std::optional<std::size_t> component_named_in(const Components_by_words& components, Text signal) {
  constexpr std::size_t most_words = 8;
  const std::string words = words_of(signal);
  std::optional<std::size_t> found;
  std::size_t longest = 0;
  for (std::size_t from = 0; from + 1 < words.size(); from = words.find(' ', from + 1))
    for (std::size_t to = from, count = 0; count < most_words; ++count) {
      to = words.find(' ', to + 1);
      if (to == std::string::npos) break;
      const auto named = components.find(std::string_view(words).substr(from, to + 1 - from));
      if (named == components.end() || count + 1 <= longest) continue;
      longest = count + 1;
      found = named->second;
    }
  return found;
}

// Components of which a signal names another, and none the component itself.
std::vector<Placed> misnamed_components(const Resolved& resolved) {
  std::vector<Placed> found;
  Components_by_words by_words;
  for (const Resolved_component& component : resolved.components) {
    const std::string own = words_of(component.id);
    const auto names_own = [&](const Value<Contact>& contact) {
      const Value<Text>* signal = signal_at(resolved, contact);
      return signal != nullptr && words_of(**signal).find(own) != std::string::npos;
    };
    if (std::any_of(component.contacts.begin(), component.contacts.end(), names_own)) continue;
    if (by_words.empty())
      for (std::size_t i = 0; i < resolved.components.size(); ++i)
        by_words.emplace(words_of(resolved.components[i].id), i);
    const auto position = static_cast<std::size_t>(&component - resolved.components.data());
    for (const Value<Contact>& contact : component.contacts) {
      const Value<Text>* signal = signal_at(resolved, contact);
      const auto named = signal != nullptr ? component_named_in(by_words, **signal) : std::nullopt;
      if (!named) continue;
      found.push_back({component.id, &contact, signal, position, *named});
      break;
    }
  }
  return found;
}

void check(const Subject& subject, Sink& sink) {
  if (subject.profile() == nullptr) return;
  for (const Resolved_component& component : subject.resolved.components) {
    const auto terminals = named_terminals(subject.resolved, *component.placed);
    check_rounds(sink, terminals, component.id);
  }
  const auto components = misnamed_components(subject.resolved);
  check_rounds(sink, components, {});
}

}

extern const Rule contacts_exchanged = {
    .family = Family::pin,
    .severity = Severity::warning,
    .summary = "Components, or terminals of one, lie on each other's pins, as the signals of these say.",
    .check = check,
};

}
