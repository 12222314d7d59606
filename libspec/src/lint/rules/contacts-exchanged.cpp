#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <vector>

#include "lint/rule.h"
#include "lint/worked_out.h"

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

// The letters with which words begin, a bit for each (of other characters any).
std::uint64_t initials_of(std::string_view words) {
  std::uint64_t initials = 0;
  for (std::size_t i = 1; i < words.size(); ++i)
    if (words[i - 1] == ' ') initials |= std::uint64_t{1} << (words[i] & 63);
  return initials;
}

// Which end a text names, by position; empty where it names none, or several.
std::optional<std::size_t> end_named_in(Text text) {
  const std::string words = words_of(text);
  const std::uint64_t initials = initials_of(words);
  const auto named = [&](std::string_view name) {
    return !name.empty() && ((initials >> (name[1] & 63)) & 1) != 0 && words.find(name) != std::string::npos;
  };
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < std::size(names_of_ends); ++i) {
    const auto& names = names_of_ends[i];
    if (std::none_of(std::begin(names), std::end(names), named)) continue;
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
  const Pin* pin = contact ? resolved.pin(contact) : nullptr;
  return pin != nullptr && pin->signal ? &pin->signal : nullptr;
}

std::vector<Placed> named_terminals(const Resolved& resolved, const Component& component) {
  std::vector<Placed> found;
  // Whatever else a signal says, it names no other end where it says the terminal's own id, as most do.
  const auto may_name_another = [&](const auto& terminal) {
    const Value<Text>* signal = signal_at(resolved, terminal.value);
    return signal != nullptr && !says(**signal, words_of(terminal.id));
  };
  const auto& terminals = component.terminals;
  if (std::count_if(terminals.begin(), terminals.end(), may_name_another) < 2)
    return found; // one alone is not exchanged
  found.reserve(terminals.size());
  for (const auto& terminal : terminals) {
    const Value<Text>* signal = signal_at(resolved, terminal.value);
    const auto own = signal != nullptr ? end_named_in(terminal.id) : std::nullopt;
    if (own) found.push_back({terminal.id, &terminal.value, signal, *own, 0});
  }
  if (found.size() < 2) return {};
  std::erase_if(found, [](Placed& one) {
    const auto named = end_named_in(**one.signal);
    one.of_signal = named.value_or(0);
    return !named;
  });
  return found;
}

// Goes from each to that which its signal names, and on, until the signal of the last names the first. Two of
// one name lead nowhere. `whose`: a component, of terminals; else empty.
void check_rounds(Sink& sink, const std::vector<Placed>& all, Text whose) {
  if (std::all_of(all.begin(), all.end(), [](const Placed& one) { return one.of_signal == one.own; })) return;
  std::map<std::size_t, const Placed*> by_name;
  for (const Placed& one : all)
    if (const auto [known, is_new] = by_name.emplace(one.own, &one); !is_new) known->second = nullptr;
  std::set<const Placed*> met;
  for (const Placed& first : all) {
    std::vector<const Placed*> round;
    const Placed* at = &first;
    while (at != nullptr && met.insert(at).second) {
      round.push_back(at);
      const auto next = by_name.find(at->of_signal);
      at = next != by_name.end() ? next->second : nullptr;
    }
    round.erase(round.begin(), std::find(round.begin(), round.end(), at)); // what only leads into it
    if (round.size() < 2) continue;                                        // it lies where its signal says
    std::sort(round.begin(), round.end());                                 // as they were met
    std::vector<std::string> places;
    for (const Placed* each : round)
      places.push_back(
          fmt::format("{} on {} ({})", each->id, text_of(**each->contact), quoted(**each->signal)));
    sink.report(
        round.front()->contact->node,
        fmt::format("{} lie on each other's pins, as the signals of these say: {}; exchange the contacts, "
                    "or the signals",
                    whose.empty() ? "components" : fmt::format("the terminals of {}", whose),
                    listed(places)));
    for (const Placed* each : round) sink.relate(each->signal->node, "the signal");
  }
}

// The component with whose id a signal begins, "flow sensor, common"; of several the one with the most words.
// Further on it may say where a wire leads: "from flow switch".
const Resolved_component* component_named_by(const Components_by_words& components, Text signal) {
  std::string words = words_of(signal);
  for (; words.size() > 1; words.resize(words.rfind(' ', words.size() - 2) + 1))
    if (const auto* named = components.find(words); named != nullptr) return named;
  return nullptr;
}

// Components of which a signal names another, and none the component itself.
std::vector<Placed> misnamed_components(const Subject& subject) {
  const Resolved& resolved = subject.resolved;
  const Components_by_words& by_words = components_by_words(subject);
  std::vector<Placed> found;
  for (const Resolved_component& component : resolved.components) {
    const Text own = by_words.of(component);
    const auto names_own = [&](const Value<Contact>& contact) {
      const Value<Text>* signal = signal_at(resolved, contact);
      return signal != nullptr && says(**signal, own);
    };
    if (std::any_of(component.contacts.begin(), component.contacts.end(), names_own)) continue;
    for (const Value<Contact>& contact : component.contacts) {
      const Value<Text>* signal = signal_at(resolved, contact);
      const auto* named = signal != nullptr ? component_named_by(by_words, **signal) : nullptr;
      if (named == nullptr) continue;
      found.push_back(
          {component.id, &contact, signal, resolved.position_of(component), resolved.position_of(*named)});
      break;
    }
  }
  return found;
}

void check(const Subject& subject, Sink& sink) {
  if (subject.profile() == nullptr) return;
  for (const Resolved_component& component : subject.resolved.components)
    check_rounds(sink, named_terminals(subject.resolved, *component.placed), component.id);
  check_rounds(sink, misnamed_components(subject), {});
}

}

extern const Rule contacts_exchanged = {
    .family = Family::pin,
    .severity = Severity::warning,
    .summary = "Components, or terminals of one, lie on each other's pins, as the signals of these say.",
    .check = check,
    .goes_by_absence = true,
    .goes_by_order = true,
};

}
