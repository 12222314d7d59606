#include "ohmlore/separation.h"

#include <algorithm>

#include "lint/cells.h"
#include "lint/meter.h"

namespace ohmlore {
namespace {

using namespace rules;

// What several faults ask of one test, and of one component.
struct Asked_test {
  Path path;
  std::optional<Interval> healthy;
};
struct Asked {
  const Resolved& resolved;
  double highest_range;
  std::vector<std::optional<Asked_test>> tests;
  std::vector<std::optional<Suspected_part>> parts;
  std::shared_ptr<Arena> memory = std::make_shared<Arena>(); ///< of the matrices
  std::vector<Named_test> named;
  /// Of one fault after the other: by test, what one suspect is to it.
  std::vector<const Path*> paths;
  std::vector<Place> places;
  std::vector<const Circuit*> chains;

  explicit Asked(const Resolved& all)
      : resolved(all), highest_range(rules::highest_range(reference_meter(all.surroundings.corpus))),
        tests(all.of_tests.size()), parts(all.components.size()) {}

  const Asked_test& of(const Test& test) {
    auto& asked = tests[resolved.document->profile()->tests.position_of(test)];
    if (!asked) {
      asked.emplace(Asked_test{Path(resolved, test), {}});
      asked->healthy = healthy_of(asked->path);
    }
    return *asked;
  }
  const Suspected_part& of(const Resolved_component& component) {
    auto& asked = parts[static_cast<std::size_t>(&component - resolved.components.data())];
    if (!asked) asked.emplace(resolved, component);
    return *asked;
  }
};

template <class T>
std::span<const T> kept(Arena& memory, const std::vector<T>& all) {
  T* const first = memory.make<T>(all.size());
  std::copy(all.begin(), all.end(), first);
  return {first, all.size()};
}

// The tests that a fault names, each once.
std::span<const Named_test> named_tests(Asked& asked, const Fault& fault) {
  auto& tests = asked.named;
  tests.clear();
  for (const Suspect& suspect : fault.suspects)
    for (const Value<Text>& id : suspect.decided_by) {
      const Test* test = id ? asked.resolved.test(*id) : nullptr;
      if (test == nullptr || !*test) continue; // a dangling reference: another rule's finding
      if (std::none_of(tests.begin(), tests.end(), [&](const Named_test& t) { return t.test == test; }))
        tests.push_back({*id, test, asked.of(*test).healthy});
    }
  return kept(*asked.memory, tests);
}

// True where the tests touch one pair of a connector's contacts only.
bool one_pair(std::span<const Named_test> tests, Text connector) {
  const Test* first = nullptr;
  for (const Named_test& named : tests) {
    const auto& probes = named.test->probes;
    if (std::none_of(probes.begin(), probes.end(),
                     [&](const Value<Contact>& probe) { return probe && probe->connector == connector; }))
      continue;
    if (first != nullptr && !same_ends(first->probes, probes)) return false;
    first = named.test;
  }
  return true;
}

// Where a suspect lies to each test of `asked.paths`.
void place_suspect(Asked& asked, const Suspect& suspect, const Resolved_component* component,
                   std::span<const Named_test> tests) {
  const auto& paths = asked.paths;
  auto& places = asked.places;
  places.assign(paths.size(), Place::elsewhere);
  asked.chains.assign(paths.size(), nullptr);
  if (component != nullptr && !paths.empty()) {
    const Suspected_part& part = asked.of(*component);
    for (std::size_t i = 0; i < paths.size(); ++i) {
      places[i] = place_of(*paths[i], part);
      if (places[i] == Place::in_series || places[i] == Place::in_parallel || places[i] == Place::somewhere)
        asked.chains[i] = chain_between(*paths[i], part);
    }
  } else if (*suspect.kind == Suspect_kind::component) {
    places.assign(paths.size(), Place::somewhere);
  } else if (*suspect.kind == Suspect_kind::harness) {
    const bool alone = !suspect.connector || one_pair(tests, *suspect.connector);
    for (std::size_t i = 0; i < paths.size(); ++i) places[i] = place_of(*paths[i], suspect, alone);
  }
}

Separation separation(Asked& asked, const Fault& fault) {
  Separation matrix{named_tests(asked, fault), {}, asked.memory};
  auto& paths = asked.paths;
  paths.clear();
  for (const Named_test& named : matrix.tests) paths.push_back(&asked.of(*named.test).path);

  std::size_t modes = 0;
  for (const Suspect& suspect : fault.suspects) modes += std::max<std::size_t>(suspect.modes.size(), 1);
  auto* const rows = asked.memory->make<Suspected_mode>(modes);
  auto* const all_cells = asked.memory->make<Cell>(modes * paths.size());
  std::size_t count = 0;
  for (const Suspect& suspect : fault.suspects) {
    if (!suspect || !suspect.kind) continue;
    const Resolved_component* component =
        suspect.component ? asked.resolved.component(*suspect.component) : nullptr;
    place_suspect(asked, suspect, component, matrix.tests);
    const auto add_row = [&](std::optional<Mode> mode) {
      Cell* const cells = all_cells + count * paths.size();
      rows[count++] = {&suspect, mode, {cells, paths.size()}};
      for (std::size_t i = 0; i < paths.size(); ++i)
        cells[i] = cell_of({*paths[i], matrix.tests[i].healthy, asked.places[i], asked.highest_range,
                            component, asked.chains[i]},
                           mode);
    };
    for (const Value<Mode>& mode : suspect.modes)
      if (mode) add_row(*mode);
    if (suspect.modes.empty()) add_row(std::nullopt);
  }
  matrix.rows = {rows, count};
  return matrix;
}

}

Separation separation(const Resolved& resolved, const Fault& fault) {
  Asked asked(resolved);
  return separation(asked, fault);
}

std::vector<Separation> separations(const Resolved& resolved) {
  Asked asked(resolved);
  std::vector<Separation> all;
  all.reserve(resolved.document->profile()->faults.size());
  for (const auto& fault : resolved.document->profile()->faults)
    all.push_back(separation(asked, fault.value));
  return all;
}

}
