#include "judge/others.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lint/contacts.h"

namespace ohmlore {
namespace {

// "X3.2 to X3.3" for "X3.3 to X3.2"
std::string turned(std::string_view contacts) {
  const std::size_t at = contacts.find(" to ");
  return at == std::string_view::npos
             ? std::string(contacts)
             : fmt::format("{} to {}", contacts.substr(at + 4), contacts.substr(0, at));
}

struct Others {
  const Case& own;
  double own_probability;
  std::vector<Other_fit> fits;

  bool on_this_connector(const Contact& contact) const {
    return std::any_of(own.test.probes.begin(), own.test.probes.end(), [&](const Value<Contact>& lead) {
      return lead && lead->connector == contact.connector;
    });
  }

  void look_at(const Test& other, Text id, const std::optional<Expected>& expected) {
    if (!expected || expected->basis == Limit_basis::twin) return;
    if (rules::same_ends(other.probes, own.test.probes)) return;
    Known there = own.known;
    set_temperature(there, *expected, own.request, own.means);
    const auto found = probable(there, service_of(*expected));
    const auto limits = limits_where_asked(*expected, there);
    // Everything that is open reads alike, and everything that is closed: that says nothing of an exchange.
    if (!found || !limits || std::isinf(limits->high) || limits->high <= 5) return;
    if (found->most.within < 0.5 || found->most.within <= own_probability) return;
    const std::string contacts = contacts_of(other);
    const bool named = std::any_of(fits.begin(), fits.end(), [&](const Other_fit& fit) {
      return fit.probes == contacts || fit.probes == turned(contacts);
    });
    if (!named)
      fits.push_back({std::string(expected->component->id), std::string(id), contacts, found->most.within});
  }

  void look_at_tests() {
    for (const auto& entry : own.resolved.document->profile()->tests) {
      const Test& other = entry.value;
      const bool near =
          std::any_of(other.probes.begin(), other.probes.end(),
                      [&](const Value<Contact>& probe) { return probe && on_this_connector(*probe); });
      if (!near) continue;
      std::string problem;
      look_at(other, entry.id, expected_of(own.resolved, other, false, problem));
    }
  }

  void look_at_contacts() {
    constexpr std::size_t most = 8; // no part has more that are read against each other
    for (const Resolved_component& component : own.resolved.components) {
      const std::size_t count = std::min(component.contacts.size(), most);
      for (std::size_t i = 0; i < count; ++i)
        for (std::size_t j = i + 1; j < count; ++j) {
          if (!on_this_connector(*component.contacts[i]) || !on_this_connector(*component.contacts[j]))
            continue;
          Value<Contact> ends[] = {component.contacts[i], component.contacts[j]};
          Test between;
          between.probes = {ends, 2, 1};
          look_at(between, {}, model_expectation(own.resolved, component, between));
        }
    }
  }
};

}

std::vector<Other_fit> others_of(const Case& one, double own_probability) {
  Others others{one, own_probability, {}};
  others.look_at_tests();
  others.look_at_contacts();
  std::stable_sort(others.fits.begin(), others.fits.end(),
                   [](const Other_fit& a, const Other_fit& b) { return a.probability > b.probability; });
  if (others.fits.size() > 4) others.fits.resize(4);
  return others.fits;
}

}
