#include <algorithm>
#include <vector>

#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

using enum Circuit_class;

// How two classes stand to each other when something conducts between them.
enum class Contradiction : std::uint8_t { none, doubtful, certain };

Contradiction contradiction(Circuit_class a, Circuit_class b) {
  const auto either = [&](Circuit_class one, Circuit_class other) {
    return (a == one && b == other) || (a == other && b == one);
  };
  if (either(selv, mains) || either(pelv, mains)) return Contradiction::certain;
  // Not isolated, but how the supply is made decides; earthed SELV is PELV.
  if (either(selv, live_referenced) || either(pelv, live_referenced) || either(selv, ignition_hv) ||
      either(pelv, ignition_hv) || either(selv, protective_earth) || either(mains, protective_earth))
    return Contradiction::doubtful;
  return Contradiction::none;
}

// Parts whose two ends may honestly lie on both sides of a separation: they isolate, couple or limit.
bool may_bridge(const Resolved_component& component) {
  switch (component.kind()) {
  case Component_kind::transformer:
  case Component_kind::electronic:
  case Component_kind::igniter: return true;
  default: return false;
  }
}

bool may_limit(const Resolved_component& component) {
  const auto contacts = component.get(&Component_type::contacts);
  return component.is(Component_kind::resistor) || component.is(Component_kind::capacitor) ||
         component.is(Component_kind::electrode) || // a gap of air
         (contacts ? **contacts == Contacts::changeover
                   : component.is(Component_kind::switch_) &&
                         may_have(component, "contacts", component.own->contacts));
}

std::string_view word(const Value<Circuit_class>& c) { return word_of(*c); }

// Calls `f(owner, link)` for each link of a pin.
template <class F>
void each_link(const Subject& subject, F f) {
  for (const auto& connector : subject.profile()->connectors)
    for (const auto& pin : connector.value.pins)
      for (const Value<Contact>& link : pin.value.links)
        if (link) f(Contact{connector.id, pin.id}, link);
}

// Two contacts that the board joins, and how their classes stand to each other.
struct Joined {
  const Contact *a = nullptr, *b = nullptr;
  const Value<Circuit_class>*of_a = nullptr, *of_b = nullptr;
  Contradiction found = Contradiction::none;
};

Joined joined(const Subject& subject, const Contact& a, const Contact& b) {
  const auto *of_a = subject.resolved.circuit_class(a), *of_b = subject.resolved.circuit_class(b);
  return {&a, &b, of_a, of_b,
          of_a != nullptr && of_b != nullptr ? contradiction(**of_a, **of_b) : Contradiction::none};
}

// Of a set, the two that contradict each other most: one contact stands for all of its class.
Joined worst(const Subject& subject, const std::vector<Contact>& set) {
  std::vector<const Contact*> of_each_class;
  Joined worst;
  for (const Contact& contact : set) {
    const auto* own = subject.resolved.circuit_class(contact);
    if (own == nullptr || std::any_of(of_each_class.begin(), of_each_class.end(), [&](const Contact* other) {
          return **subject.resolved.circuit_class(*other) == **own;
        }))
      continue;
    for (const Contact* other : of_each_class)
      if (const Joined two = joined(subject, *other, contact); two.found > worst.found) worst = two;
    of_each_class.push_back(&contact);
  }
  return worst;
}

void report(Sink& sink, Node_id node, const Joined& two, std::string_view what_is_wrong) {
  sink.report_as(two.found == Contradiction::certain ? Severity::error : Severity::warning, node,
                 fmt::format("the board joins {} ({}) with {} ({}){}", text_of(*two.a), word(*two.of_a),
                             text_of(*two.b), word(*two.of_b), what_is_wrong));
  sink.relate(two.of_a->node, fmt::format("{} here", word(*two.of_a)));
  sink.relate(two.of_b->node, fmt::format("{} here", word(*two.of_b)));
}

// A class that could not be read may be that of the earth.
bool may_be_joined_to_earth(const Subject& subject, const std::vector<Contact>& set) {
  return !subject.document.complete() && std::any_of(set.begin(), set.end(), [&](const Contact& contact) {
    return subject.resolved.circuit_class(contact) == nullptr;
  });
}

void check_links(const Subject& subject, Sink& sink) {
  const auto& sets = subject.resolved.joined;
  const auto set_of = [&](const Contact& linked) {
    return static_cast<std::size_t>(joined_set(subject.resolved, linked) - sets.data());
  };
  // Of each set the two that contradict each other more than the ends of any of its links.
  std::vector<Joined> over_others(sets.size());
  for (std::size_t i = 0; i < sets.size(); ++i) {
    over_others[i] = worst(subject, sets[i]);
    // Which a supply may be joined with elsewhere.
    if (subject.resolved.joined_to_earth[i] || may_be_joined_to_earth(subject, sets[i]))
      over_others[i].found = std::min(over_others[i].found, Contradiction::doubtful);
  }
  each_link(subject, [&](const Contact& owner, const Value<Contact>& link) {
    Joined& over = over_others[set_of(owner)];
    if (joined(subject, owner, *link).found >= over.found) over = {};
  });
  std::vector<bool> told(sets.size());
  each_link(subject, [&](const Contact& owner, const Value<Contact>& link) {
    const std::size_t set = set_of(owner);
    const Joined& over = over_others[set];
    if (over.found == Contradiction::none) {
      if (const Joined two = joined(subject, owner, *link); two.found != Contradiction::none)
        report(sink, link.node, two, "; the link or one of the classes is wrong");
    } else if (!told[set] && (owner == *over.a || *link == *over.a)) {
      told[set] = true;
      report(sink, link.node, over,
             fmt::format(" by the links among {}, of which this is the one of {} with {}; one of these or of "
                         "the classes is wrong",
                         listed(sets[set]), text_of(owner), text_of(*link)));
    }
  });
}

void check_ends(const Subject& subject, const List<Value<Contact>>& ends, Severity at_most,
                std::string_view what, Sink& sink) {
  if (!has_both_ends(ends)) return;
  const auto* a = subject.resolved.circuit_class(ends[0]);
  const auto* b = subject.resolved.circuit_class(ends[1]);
  if (a == nullptr || b == nullptr || contradiction(**a, **b) != Contradiction::certain) return;
  sink.report_as(
      at_most, ends.node,
      fmt::format("{} lies between {} ({}) and {} ({}) and would join the two; correct a contact or a class",
                  what, text_of(*ends[0]), word(*a), text_of(*ends[1]), word(*b)));
  sink.relate(a->node, fmt::format("{} here", word(*a)));
  sink.relate(b->node, fmt::format("{} here", word(*b)));
}

// A winding is one wire from end to end, also that of a transformer. Two terminals that were exchanged make
// two windings wrong: told is the first, and each is known by itself.
void check_windings(const Subject& subject, Sink& sink, const Resolved_component& component) {
  const auto model = component.get(&Component_type::model);
  if (!model || !model->kind || *model->kind != Model_kind::copper) return;
  const auto& terminals = component.placed->terminals;
  std::size_t found = 0;
  for (const Terminal_pair& pair : model->pairs) {
    const auto* from = pair.from ? terminals.find(*pair.from) : nullptr;
    const auto* to = pair.to ? terminals.find(*pair.to) : nullptr;
    if (from == nullptr || to == nullptr || !from->value || !to->value) continue;
    const auto* a = subject.resolved.circuit_class(from->value);
    const auto* b = subject.resolved.circuit_class(to->value);
    if (a == nullptr || b == nullptr || contradiction(**a, **b) != Contradiction::certain) continue;
    Finding& wrong = sink.report(
        from->value.node,
        fmt::format("the winding of {} from {} ({}, {}) to {} ({}, {}) would join the two; correct a "
                    "terminal or a class",
                    component.id, *pair.from, text_of(*from->value), word(*a), *pair.to, text_of(*to->value),
                    word(*b)));
    know_by(wrong, text_of(*to->value));
    sink.relate(to->value.node, fmt::format("{} here", *pair.to));
    sink.relate(*model.document, pair.node, "the winding");
    ++found;
  }
  if (found > 1) sink.tell_the_worst(found);
}

// What a supply at mains voltage cannot enter at; a protective earth may stand beside the poles.
bool excludes_mains(Circuit_class c, const Supply& supply) {
  return is_extra_low(c) || c == bus || c == ignition_hv ||
         (c == protective_earth && supply.enters_at.size() == 1);
}

void check_supplies(const Subject& subject, Sink& sink) {
  for (const Supply& supply : subject.profile()->safety.supplies) {
    if (!supply.kind ||
        (*supply.kind != Supply_kind::mains && *supply.kind != Supply_kind::switched_live &&
         *supply.kind != Supply_kind::second_tariff && *supply.kind != Supply_kind::immersion_heater))
      continue;
    for (const Value<Contact>& contact : supply.enters_at) {
      if (!contact) continue;
      const auto* c = subject.resolved.circuit_class(contact);
      if (c == nullptr || !excludes_mains(**c, supply)) continue;
      // A transformer or adapter before the contact may separate it: isolated at the wall all the same.
      sink.report_as(
          Severity::warning, contact.node,
          fmt::format("a supply of kind {} enters at {}, which is declared {}; correct the contact or the "
                      "class{}",
                      word_of(*supply.kind), text_of(*contact), word(*c),
                      is_extra_low(**c) ? ", or waive this where an adapter before it isolates" : ""));
      sink.relate(c->node, fmt::format("{} here", word(*c)));
    }
  }
}

// The limits of extra-low voltage (IEC 61140, from memory); where the form is not stated, the higher.
constexpr double most_ac = 50, most_dc = 120; // volt

// Of these kinds the rated voltage is what drives them; of a contact or a capacitor it is only a limit.
bool is_driven_at_its_rating(const Resolved_component& component) {
  return component.is(Component_kind::coil) || component.is(Component_kind::winding) ||
         component.is(Component_kind::heater);
}

// The class of a contact that is declared to be of extra-low voltage, else null.
const Value<Circuit_class>* extra_low(const Subject& subject, const Value<Contact>& contact) {
  const auto* c = contact ? subject.resolved.circuit_class(contact) : nullptr;
  return c != nullptr && is_extra_low(**c) ? c : nullptr;
}

bool is_pole(Text terminal) {
  return terminal == "live" || terminal == "neutral" || terminal == "L" || terminal == "N";
}

void check_rating(const Subject& subject, const Resolved_component& component, Sink& sink) {
  const auto volt = component.get(&Component_type::rated_voltage);
  if (!volt || (*volt)->si <= ((*volt)->form == Supply_form::ac ? most_ac : most_dc)) return;
  const Value<Contact>* at = nullptr;
  if (is_driven_at_its_rating(component)) {
    const auto contacts = component.contacts;
    if (contacts.size() > 1 && std::all_of(contacts.begin(), contacts.end(), [&](const auto& contact) {
          return extra_low(subject, contact) != nullptr;
        }))
      at = &contacts.front();
  } else if (may_bridge(component) && component.placed != nullptr) { // which may have other sides
    for (const auto& terminal : component.placed->terminals)
      if (at == nullptr && is_pole(terminal.id) && extra_low(subject, terminal.value)) at = &terminal.value;
  }
  if (at == nullptr) return;
  const auto* c = extra_low(subject, *at);
  sink.report_as(
      Severity::warning, at->node,
      fmt::format("{} is made for {}, but {} is declared {}, at {} V ac or {} V dc at most; correct "
                  "the class, the contact or the rated voltage",
                  component.id, volt.document->string(volt->node), text_of(**at), word(*c), most_ac,
                  most_dc));
  sink.relate(c->node, fmt::format("{} here", word(*c)));
  sink.relate(*volt.document, volt->node, "the rated voltage");
}

void check(const Subject& subject, Sink& sink) {
  if (subject.profile() == nullptr) return;
  check_links(subject, sink);
  for (const Resolved_component& component : subject.resolved.components) {
    if (component.known_kind && !may_bridge(component))
      check_ends(subject, component.placed->between,
                 may_limit(component) ? Severity::warning : Severity::error, component.id, sink);
    if (component.known_kind) check_rating(subject, component, sink);
    check_windings(subject, sink, component);
  }
  for (const auto& circuit : subject.profile()->circuits)
    check_ends(subject, circuit.value.between, Severity::warning, fmt::format("circuit {}", circuit.id),
               sink);
  check_supplies(subject, sink);
}

}

extern const Rule circuit_class_contradicts = {
    .family = Family::pin,
    .severity = Severity::error,
    .summary = "Something joins two contacts whose circuit classes exclude each other.",
    .check = check,
    .goes_by_order = true,
};

}
