// What a measurement costs: in minutes that are common practice at best, and only there to compare.
#include <algorithm>

#include "plan/situation.h"

namespace ohmlore {
namespace {

// Minutes (common practice, no source).
constexpr double reading = 1;        // leads on, settle, write down
constexpr double second_reading = 1; // leads exchanged, the twin, after a response
constexpr double withdrawing = 1;    // a connector
constexpr double disconnecting = 2;  // a plug on a part
constexpr double preparing = 3;      // what the profile says must be done before: cool, read a gauge
constexpr double response = 2;       // warm it, bend its lead, turn its shaft
constexpr double opening = 6;        // effort medium: a cover or a panel
constexpr double dismantling = 30;   // effort high: parts to dismantle or to drain

struct Chores {
  Situation& situation;
  std::vector<std::string> keys;

  std::size_t number(std::string key, Chore_words words) {
    const auto found = std::find(keys.begin(), keys.end(), key);
    if (found != keys.end()) return static_cast<std::size_t>(found - keys.begin());
    keys.push_back(std::move(key));
    situation.chores.push_back(std::move(words));
    return keys.size() - 1;
  }
};

double own_minutes(const Test& test) {
  double minutes = reading;
  if (test.response.kind) minutes += response + second_reading;
  if (test.expect.kind &&
      (*test.expect.kind == Expectation_kind::both_directions || *test.expect.kind == Expectation_kind::pair))
    minutes += second_reading;
  if (test.effort && *test.effort == Effort::high) minutes += dismantling;
  return minutes;
}

}

void add_work(Situation& situation) {
  Chores chores{situation, {}};
  auto& tests = situation.order.tests;
  for (const Named_test& named : situation.tests) {
    const Test& test = *named.test;
    Measurement_work work{own_minutes(test), {}, {}, {}};
    const std::string component(test.component ? *test.component : Text());
    const auto add = [&](Chore_words::Kind kind, std::string key, std::string what, double minutes) {
      const std::size_t number = chores.number(std::move(key), {kind, std::move(what)});
      const bool known = std::any_of(work.chores.begin(), work.chores.end(),
                                     [&](const Chore& one) { return one.what == number; });
      if (!known) work.chores.push_back({number, minutes});
    };
    // In the order in which they are done.
    if (test.effort && *test.effort == Effort::medium)
      add(Chore_words::reach, "reach " + component, component, opening);
    for (const Value<Text>& before : test.before)
      // What is done for one condition of a part does not hold in another.
      if (before)
        add(Chore_words::before,
            "before " + std::string(*before) + " " +
                (test.condition ? component + " " + std::string(*test.condition) : ""),
            std::string(*before), preparing);
    if (test.unplug)
      add(Chore_words::withdraw, "withdraw " + std::string(*test.unplug), std::string(*test.unplug),
          withdrawing);
    for (const Value<Text>& also : test.disconnect_also)
      if (also)
        add(Chore_words::disconnect, "disconnect " + std::string(*also), std::string(*also), disconnecting);
    tests.push_back(std::move(work));
  }
  // What one test took apart, another at the same connector or of the same part needs whole again.
  for (std::size_t a = 0; a < tests.size(); ++a)
    for (std::size_t b = 0; b < tests.size(); ++b) {
      const Test &mine = *situation.tests[a].test, &other = *situation.tests[b].test;
      const bool near = (mine.component && other.component && *mine.component == *other.component) ||
                        (mine.unplug && other.unplug && *mine.unplug == *other.unplug);
      if (a == b || !near) continue;
      for (const Chore& chore : tests[b].chores) {
        if (situation.chores[chore.what].kind != Chore_words::disconnect) continue;
        const bool needed = std::any_of(tests[a].chores.begin(), tests[a].chores.end(),
                                        [&](const Chore& own) { return own.what == chore.what; });
        auto& apart = tests[a].apart;
        if (!needed && std::find(apart.begin(), apart.end(), chore.what) == apart.end())
          apart.push_back(chore.what);
      }
    }
  // A part cannot be in two conditions: to come back to one, what leads there is done again.
  for (std::size_t a = 0; a < tests.size(); ++a)
    for (std::size_t b = 0; b < tests.size(); ++b) {
      const Test &mine = *situation.tests[a].test, &other = *situation.tests[b].test;
      if (!mine.component || !other.component || *mine.component != *other.component || !mine.condition ||
          !other.condition || *mine.condition == *other.condition)
        continue;
      for (const Chore& chore : tests[b].chores)
        if (situation.chores[chore.what].kind == Chore_words::before &&
            std::find(tests[a].lost.begin(), tests[a].lost.end(), chore.what) == tests[a].lost.end())
          tests[a].lost.push_back(chore.what);
    }
  situation.order.chores = situation.chores.size();
}

}
