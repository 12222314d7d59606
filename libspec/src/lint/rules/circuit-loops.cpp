#include <algorithm>

#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  for (const auto& [id, key, circuit] : profile->circuits)
    for (const Element& element : circuit.elements) {
      if (!element.circuit) continue;
      const Circuit* inner = subject.resolved.circuit(*element.circuit);
      if (inner == nullptr) continue;
      const auto& below = circuits_in(subject.resolved, *inner);
      if (std::find(below.begin(), below.end(), &circuit) == below.end()) continue;
      sink.report(element.circuit.node,
                  *element.circuit == id
                      ? fmt::format("circuit {} is an element of itself; take it out", id)
                      : fmt::format("circuit {} holds {}, which holds {} again; take one out of the other",
                                    id, *element.circuit, id));
    }
}

extern const Rule circuit_loops = {
    .family = Family::fault,
    .severity = Severity::error,
    .summary = "A circuit is an element of itself, directly or through others.",
    .check = check,
};

}
