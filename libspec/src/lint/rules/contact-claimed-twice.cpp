#include <set>
#include <vector>

#include "lint/contacts.h"
#include "lint/facts.h"
#include "lint/windings.h"

namespace ohmlore::rules {
namespace {

using Circuits = std::vector<const Circuit*>;

// One end of a component or circuit on a contact.
struct Claim {
  Value<Contact> contact;
  Text owner;
  const Circuit* circuit = nullptr;     // the owner, where it is a circuit
  const Component* component = nullptr; // the owner, where it is a component
  const Contact* far = nullptr;         // its other end; null where that is the same, or it is one of several
  bool named = false;                   // as a terminal
  const Circuits* around = nullptr;     // those that hold the owner, as they lie in memory
};

// The other of two named terminals; of more, the first by id where this one is named as their common.
const Contact* far_terminal(const Component& component, Text id, const Contact& here) {
  std::vector<Text> ids;
  const Keyed<Value<Contact>>::Entry* far = nullptr;
  for (const auto& terminal : component.terminals) {
    ids.push_back(terminal.id);
    if (terminal.value && !(*terminal.value == here) && (far == nullptr || terminal.id < far->id))
      far = &terminal;
  }
  return far != nullptr && (ids.size() == 2 || is_common(id, ids)) ? &*far->value : nullptr;
}

// On contacts where several things lie: on most, one does.
std::vector<Claim> claims_of(const Resolved& resolved) {
  std::vector<Claim> claims;
  const auto is_contested = [&](const Value<Contact>& end) { return resolved.lying_on(end).size() > 1; };
  const Profile& profile = *resolved.document->profile();
  for (const auto& component : profile.components) {
    for (const Value<Contact>& end : component.value.between)
      if (is_contested(end))
        claims.push_back(
            {end, component.id, nullptr, &component.value, far_end(component.value.between, *end)});
    if (component.value.between) continue; // contacts named in both ways are one claim
    for (const auto& terminal : component.value.terminals)
      if (is_contested(terminal.value))
        claims.push_back({terminal.value, component.id, nullptr, &component.value,
                          far_terminal(component.value, terminal.id, *terminal.value), true});
  }
  for (const auto& circuit : profile.circuits)
    for (const Value<Contact>& end : circuit.value.between)
      if (is_contested(end))
        claims.push_back({end, circuit.id, &circuit.value, nullptr, far_end(circuit.value.between, *end)});
  return claims;
}

// For each circuit those that hold it, itself among them.
std::vector<Circuits> around_circuits(const Resolved& resolved) {
  const auto& circuits = resolved.document->profile()->circuits;
  std::vector<Circuits> around(circuits.size());
  for (const auto& circuit : circuits)
    for (const Circuit* each : circuits_in(resolved, circuit.value))
      around[circuits.position_of(*each)].push_back(&circuit.value);
  return around;
}

// One circuit holds both, or one of them is the circuit that holds the other.
bool in_one_circuit(const Claim& a, const Claim& b) { return share_item(*a.around, *b.around); }

// Two parts with two ends each that share one contact, whose other ends are of one circuit class: a common. A
// part to earth (a suppressor, a bleeder) hangs on a contact that another part uses.
bool shares_common(const Resolved& resolved, const Claim& a, const Claim& b) {
  if (a.far == nullptr || b.far == nullptr || *a.far == *b.far) return false;
  const auto* class_a = resolved.circuit_class(*a.far);
  const auto* class_b = resolved.circuit_class(*b.far);
  if (class_a == nullptr || class_b == nullptr || **class_a == **class_b) return true;
  return **class_a == Circuit_class::protective_earth || **class_b == Circuit_class::protective_earth;
}

std::string name_of(const Claim& claim) {
  return claim.circuit != nullptr ? fmt::format("circuit {}", claim.owner) : std::string(claim.owner);
}

void check(const Subject& subject, Sink& sink) {
  if (subject.profile() == nullptr) return;
  const Resolved& resolved = subject.resolved;
  std::vector<Claim> claims = claims_of(resolved);
  if (claims.empty()) return;
  const std::vector<Circuits> around = around_circuits(resolved);
  for (Claim& claim : claims)
    claim.around = claim.circuit != nullptr ? &around[subject.profile()->circuits.position_of(*claim.circuit)]
                                            : &circuits_of(resolved, claim.owner);
  std::vector<std::size_t> number_of; // of each claim's contact
  for (const Claim& claim : claims) number_of.push_back(resolved.number_of(claim.contact));
  std::vector<std::size_t> first_of(resolved.lying.size(), claims.size()); // the first claim of each contact
  for (std::size_t i = claims.size(); i-- > 0;) first_of[number_of[i]] = i;
  std::set<std::pair<Text, Text>> reported; // owners: one finding for two parts in parallel
  for (std::size_t i = 0; i < claims.size(); ++i) {
    const Claim& later = claims[i];
    if (first_of[number_of[i]] == i) continue;
    if (const Pin* pin = resolved.pin(later.contact); pin != nullptr && pin->shared && *pin->shared) continue;
    if (is_protective_earth(resolved, later.contact)) continue;
    const Never_together never_beside(later.component != nullptr ? later.component->when : Applies_when());
    for (std::size_t j = first_of[number_of[i]]; j < i; ++j) {
      const Claim& earlier = claims[j];
      if (number_of[j] != number_of[i]) continue;
      const std::string contact = text_of(*later.contact);
      if (earlier.owner == later.owner && earlier.component == later.component) {
        if (!later.named) continue; // both ends on one contact: probes-on-one-contact
        sink.report(
            later.contact.node,
            fmt::format("two terminals of {} go to {}; correct one, or say \"shared\": true on the pin where "
                        "the harness joins them",
                        later.owner, contact));
        sink.relate(earlier.contact.node, "the other terminal");
        break;
      }
      if (earlier.component != nullptr && never_beside(earlier.component->when)) continue;
      if (in_one_circuit(earlier, later) || shares_common(resolved, earlier, later)) continue;
      if (!reported.insert({earlier.owner, later.owner}).second) continue;
      const bool parallel = earlier.far != nullptr && later.far != nullptr && *earlier.far == *later.far;
      sink.report(
          later.contact.node,
          parallel
              ? fmt::format("{} and {} lie on the same two contacts, {} and {}; correct one, or describe "
                            "what lies side by side as a circuit",
                            name_of(later), name_of(earlier), contact, text_of(*later.far))
              : fmt::format("{} is claimed by {} and by {}; correct one, or say \"shared\": true on the "
                            "pin where both use it",
                            contact, name_of(earlier), name_of(later)));
      sink.relate(earlier.contact.node, "claimed here");
      break;
    }
  }
}

}

extern const Rule contact_claimed_twice = {
    .family = Family::pin,
    .severity = Severity::warning,
    .summary = "Two components lie on one contact, and nothing says that they share it.",
    .check = check,
    .goes_by_absence = true,
    .goes_by_order = true,
};

}
