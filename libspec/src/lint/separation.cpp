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
  std::vector<Seen_suspect> seen;

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
    auto& asked = parts[resolved.position_of(component)];
    if (!asked) asked.emplace(resolved, component);
    return *asked;
  }
};

// The tests that faults name, each once.
std::span<const Named_test> named_tests(Asked& asked, std::span<const Fault> faults) {
  auto& tests = asked.named;
  tests.clear();
  for (const Fault& fault : faults)
    for (const Suspect& suspect : fault.suspects)
      for (const Value<Text>& id : suspect.decided_by) {
        const Test* test = id ? asked.resolved.test(*id) : nullptr;
        if (test == nullptr || !*test) continue; // a dangling reference: another rule's finding
        if (std::none_of(tests.begin(), tests.end(), [&](const Named_test& t) { return t.test == test; }))
          tests.push_back({*id, test, asked.of(*test).healthy});
      }
  return asked.memory->keep<Named_test>(tests);
}

// One on the only pair of a connector's contacts that the tests touch; null where they touch none, or
// several.
const Test* test_of_the_pair(std::span<const Named_test> tests, Text connector) {
  const Test* first = nullptr;
  for (const Named_test& named : tests) {
    const auto& probes = named.test->probes;
    if (std::none_of(probes.begin(), probes.end(),
                     [&](const Value<Contact>& probe) { return probe && probe->connector == connector; }))
      continue;
    if (first != nullptr && !same_ends(first->probes, probes)) return nullptr;
    first = named.test;
  }
  return first;
}

// As each test of `asked.paths` sees a suspect. `own_tests`: those of its own fault.
void see_suspect(Asked& asked, const Suspect& suspect, std::span<const Named_test> tests,
                 std::span<const Named_test> own_tests) {
  asked.seen.clear();
  if (tests.empty()) return;
  const Resolved_component* component =
      suspect.component ? asked.resolved.component(*suspect.component) : nullptr;
  const Suspected_part* part = component != nullptr ? &asked.of(*component) : nullptr;
  const Test* pair = *suspect.kind == Suspect_kind::harness && suspect.connector
                         ? test_of_the_pair(own_tests, *suspect.connector)
                         : nullptr;
  for (std::size_t i = 0; i < asked.paths.size(); ++i) {
    const Path& path = *asked.paths[i];
    Place place = Place::elsewhere;
    const Circuit* chain = nullptr;
    if (part != nullptr) {
      place = place_of(path, *part);
      if (place == Place::in_series || place == Place::in_parallel || place == Place::somewhere)
        chain = chain_between(path, *part);
    } else if (*suspect.kind == Suspect_kind::component) {
      place = Place::somewhere;
    } else if (*suspect.kind == Suspect_kind::harness) {
      place = place_of(path, suspect, pair != nullptr && same_ends(pair->probes, path.test.probes));
    }
    asked.seen.push_back({path, tests[i].healthy, place, asked.highest_range, component, chain});
  }
}

// Rows for what a fault suspects, from `row` on, each with its cells; how many there are.
std::size_t add_rows(Suspected_mode* row, Cell* cells, std::span<const Named_test> tests, Asked& asked,
                     const Fault& fault, std::span<const Named_test> own_tests) {
  std::size_t count = 0;
  for (const Suspect& suspect : fault.suspects) {
    if (!suspect || !suspect.kind) continue;
    see_suspect(asked, suspect, tests, own_tests);
    const auto add_row = [&](std::optional<Mode> mode) {
      Cell* const own = cells + count * asked.seen.size();
      row[count++] = {&suspect, mode, {own, asked.seen.size()}};
      for (std::size_t i = 0; i < asked.seen.size(); ++i) own[i] = cell_of(asked.seen[i], mode);
    };
    for (const Value<Mode>& mode : suspect.modes)
      if (mode) add_row(*mode);
    if (suspect.modes.empty()) add_row(std::nullopt);
  }
  return count;
}

Separation separation(Asked& asked, std::span<const Fault> faults) {
  Separation matrix{named_tests(asked, faults), {}, asked.memory};
  auto& paths = asked.paths;
  paths.clear();
  for (const Named_test& named : matrix.tests) paths.push_back(&asked.of(*named.test).path);

  std::size_t modes = 0;
  for (const Fault& fault : faults)
    for (const Suspect& suspect : fault.suspects) modes += std::max<std::size_t>(suspect.modes.size(), 1);
  auto* const rows = asked.memory->make<Suspected_mode>(modes);
  auto* const cells = asked.memory->make<Cell>(modes * paths.size());
  std::size_t count = 0;
  for (const Fault& fault : faults)
    count += add_rows(rows + count, cells + count * paths.size(), matrix.tests, asked, fault,
                      faults.size() == 1 ? matrix.tests : named_tests(asked, {&fault, 1}));
  matrix.rows = {rows, count};
  return matrix;
}

}

Separation separation(const Resolved& resolved, std::span<const Fault> faults) {
  Asked asked(resolved);
  return separation(asked, faults);
}

Separation separation(const Resolved& resolved, const Fault& fault) {
  return separation(resolved, {&fault, 1});
}

std::vector<Separation> separations(const Resolved& resolved) {
  if (resolved.document->profile() == nullptr) return {};
  Asked asked(resolved);
  std::vector<Separation> all;
  all.reserve(resolved.document->profile()->faults.size());
  for (const auto& fault : resolved.document->profile()->faults)
    all.push_back(separation(asked, {&fault.value, 1}));
  return all;
}

}
