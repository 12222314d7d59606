// The order of tests beside the best there is: generated fault situations, each solved by dynamic programming
// over all that can have been read, which knows nothing of how the order is chosen. Beside both, the order in
// which the profile lists the tests.
#include "ohmlore/plan.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <random>
#include <string>

namespace ohmlore {
namespace {

#ifdef OHMLORE_SANITIZED
constexpr int situations = 100;
#else
constexpr int situations = 1000;
#endif

// ---- a profile whose one fault has up to 8 suspects

struct Draft {
  std::mt19937& random;
  bool mixed; ///< tests of unlike effort
  std::string connectors = {}, components = {}, circuits = {}, tests = {};
  std::vector<std::string> suspects = {};
  int parts = 0, plugs = 0;

  static void append(std::string& list, const std::string& one) { list += (list.empty() ? "" : ",\n") + one; }
  bool chance(unsigned in) { return random() % in == 0; }

  std::string part(const std::string& from, const std::string& to) {
    const std::string id = fmt::format("r{}", parts++);
    append(components,
           fmt::format(R"("{}": {{ "kind": "resistor", "name": "{}", {} "model": {{ "kind": "fixed",
      "resistance": "{} Ω", "tolerance": "5 %" }} }})",
                       id, id, from.empty() ? "" : fmt::format(R"("between": ["{}", "{}"],)", from, to),
                       50 + random() % 900));
    return id;
  }
  std::string test(const std::string& component, const std::string& plug, const std::string& from,
                   const std::string& to, const char* side, const std::string& expect) {
    const std::string id = fmt::format("t_{}_{}_{}", component, from, side).substr(0, 60);
    std::string clean;
    for (const char c : id) clean += c == '.' ? '_' : c;
    const char* efforts[] = {"low", "low", "medium", "high"};
    append(tests, fmt::format(
                      R"("{}": {{ "component": "{}", "unplug": "{}", "probes": ["{}", "{}"], "side": "{}",
      {} "excludes": ["open", "short"], "effort": "{}" }})",
                      clean, component, plug, from, to, side, expect, mixed ? efforts[random() % 4] : "low"));
    return clean;
  }
  void suspect(const std::string& what, const std::string& decided_by) {
    static const char* const modes[] = {R"("open")", R"("short")", R"("open", "short")"};
    suspects.push_back(
        fmt::format(R"({{ {}, "modes": [{}], "decided_by": [{}] }})", what, modes[random() % 3], decided_by));
  }
  std::string connector(int pins) {
    const std::string id = fmt::format("X{}", ++plugs);
    std::string list;
    for (int i = 1; i <= pins; ++i) append(list, fmt::format(R"("{}": {{}})", i));
    append(connectors,
           fmt::format(R"("{}": {{ "label": "{}", "ways": {}, "circuit": "selv", "pins": {{ {} }} }})", id,
                       id, pins, list));
    return id;
  }

  // Parts on one connector, each with a test, and perhaps its wires.
  void side_by_side(unsigned count) {
    const std::string plug = connector(static_cast<int>(2 * count));
    for (unsigned i = 0; i < count; ++i) {
      const std::string from = fmt::format("{}.{}", plug, 2 * i + 1),
                        to = fmt::format("{}.{}", plug, 2 * i + 2);
      const std::string id = part(from, to), at_plug = test(id, plug, from, to, "at_board_plug", "");
      suspect(fmt::format(R"("kind": "component", "component": "{}")", id), fmt::format("\"{}\"", at_plug));
      if (count > 1 || chance(2)) continue;
      const std::string at_part = test(id, plug, from, to, "at_component", "");
      suspect(fmt::format(R"("kind": "harness", "connector": "{}")", plug),
              fmt::format(R"("{}", "{}")", at_plug, at_part));
    }
  }
  // Parts in series: one test for all, one for each.
  void chain(unsigned count) {
    const std::string plug = connector(2), from = plug + ".1", to = plug + ".2";
    std::vector<std::string> ids;
    std::string elements;
    for (unsigned i = 0; i < count; ++i) {
      ids.push_back(part("", ""));
      append(elements, fmt::format(R"({{ "kind": "component", "component": "{}" }})", ids.back()));
    }
    append(circuits,
           fmt::format(R"("c{}": {{ "between": ["{}", "{}"], "arrangement": "series", "elements": [{}] }})",
                       plugs, from, to, elements));
    const std::string all =
        test(ids[0], plug, from, to, "at_board_plug",
             fmt::format(R"("expect": {{ "kind": "band", "min": "{} Ω", "max": "{} Ω" }},)", 40 * count,
                         1000 * count));
    for (const std::string& id : ids) {
      const bool alone = !chance(4);
      const std::string own = alone ? test(id, plug, from, to, "at_component", "") : std::string();
      suspect(fmt::format(R"("kind": "component", "component": "{}")", id),
              alone ? fmt::format(R"("{}", "{}")", all, own) : fmt::format("\"{}\"", all));
    }
  }
};

std::string situation(std::mt19937& random, bool mixed) {
  Draft draft{random, mixed};
  const std::size_t wanted = 3 + random() % 6; // 3 to 8
  while (draft.suspects.size() < wanted) {
    const auto room = static_cast<unsigned>(wanted - draft.suspects.size());
    if (room >= 2 && random() % 2 == 0)
      draft.chain(2 + static_cast<unsigned>(random() % std::min(room - 1, 3u)));
    else
      draft.side_by_side(1 + static_cast<unsigned>(random() % std::min(room, 3u)));
    if (draft.suspects.size() + 1 < wanted && draft.chance(6))
      draft.suspects.push_back(R"({ "kind": "cause", "cause": "air", "not_decidable": "hydraulic" })");
  }
  if (draft.suspects.size() > 8) draft.suspects.resize(8);
  std::shuffle(draft.suspects.begin(), draft.suspects.end(), random);
  std::string suspects;
  for (const std::string& one : draft.suspects) Draft::append(suspects, one);
  return fmt::format(R"({{ "format": "ohmlore/1.0", "kind": "profile", "id": "example", "revision": 1,
    "connectors": {{ {} }}, "components": {{ {} }}, {} "tests": {{ {} }},
    "faults": {{ "F": {{ "display": {{ "kind": "text", "text": "F" }}, "meaning": "m", "suspects": [{}] }} }} }})",
                     draft.connectors, draft.components,
                     draft.circuits.empty() ? "" : fmt::format(R"("circuits": {{ {} }},)", draft.circuits),
                     draft.tests, suspects);
}

// ---- three ways through it

double cost(const Order_problem& problem, const Order_state& state, std::size_t test, bool count) {
  return count ? 1 : minutes_of(problem, state, test);
}
bool is_over(const Order_problem& problem, const Order_state& state) {
  for (std::size_t t = 0; t < problem.tests.size(); ++t)
    if (is_worth_it(problem, state, t)) return false;
  return true;
}

template <class Left>
double on_average(const Order_problem& problem, const Order_state& state, std::size_t test, bool count,
                  Left left) {
  double sum = cost(problem, state, test, count);
  for (std::size_t i = 0; i < showing_count; ++i) {
    const auto shown = static_cast<Showing>(i);
    const double probable = probability_of(problem, state, test, shown);
    if (probable > 1e-12) sum += probable * left(after(problem, state, test, {shown}));
  }
  return sum;
}

double as_planned(const Order_problem& problem, const Order_state& state, bool count) {
  const auto test = next_test(problem, state);
  if (!test) return 0;
  return on_average(problem, state, *test, count,
                    [&](const Order_state& next) { return as_planned(problem, next, count); });
}

double as_listed(const Order_problem& problem, const Order_state& state, bool count) {
  if (is_over(problem, state)) return 0;
  std::size_t test = 0;
  while (state.taken[test]) ++test;
  return on_average(problem, state, test, count,
                    [&](const Order_state& next) { return as_listed(problem, next, count); });
}

// What has been read, and what has been taken apart: all that the rest hangs on.
using Key = std::pair<std::vector<bool>, std::vector<int>>;
double at_best(const Order_problem& problem, const Order_state& state, bool count,
               std::map<Key, double>& known) {
  Key key{state.taken, {}};
  for (const double weight : state.weights) key.second.push_back(static_cast<int>(std::lround(weight * 1e8)));
  for (const bool done : state.done) key.first.push_back(done && !count);
  key.first.push_back(state.abnormal);
  if (const auto found = known.find(key); found != known.end()) return found->second;
  double least = is_over(problem, state) ? 0 : std::numeric_limits<double>::infinity();
  for (std::size_t t = 0; t < problem.tests.size() && least > 0; ++t)
    if (!state.taken[t])
      least = std::min(least, on_average(problem, state, t, count, [&](const Order_state& next) {
                         return at_best(problem, next, count, known);
                       }));
  return known[key] = least;
}

struct Means {
  double planned = 0, listed = 0, best = 0, worst = 1; ///< worst: planned to best, of one situation
  std::size_t suspects = 0, tests = 0;
  int empty = 0;
};

Means measured(bool mixed, bool count) {
  std::mt19937 random(20261129);
  Means means;
  for (int i = 0; i < situations; ++i) {
    const std::string text = situation(random, mixed);
    const Read_result read = read_json("example.profile.json", text);
    if (read.document.profile() == nullptr || read.document.profile()->faults.size() != 1) {
      ADD_FAILURE() << text;
      return means;
    }
    const std::string fault = "F";
    const Plan_problem problem = plan_problem(resolve(read.document, {}), {&fault, 1});
    const Order_problem& order = problem.order;
    const Order_state begin = beginning(order);
    std::map<Key, double> known;
    const double planned = as_planned(order, begin, count), best = at_best(order, begin, count, known);
    // Where no test sees any suspect there is nothing to measure, for nobody.
    means.empty += best == 0;
    EXPECT_EQ(planned == 0, best == 0) << text;
    EXPECT_GE(planned, best - 1e-9) << text;
    means.planned += planned / situations;
    means.best += best / situations;
    means.listed += as_listed(order, begin, count) / situations;
    if (best > 0) means.worst = std::max(means.worst, planned / best);
    means.suspects += read.document.profile()->faults.items[0].value.suspects.size();
    means.tests += order.tests.size();
  }
  return means;
}

void print(const char* what, const Means& means) {
  fmt::print("{} over {} situations ({:.1f} suspects, {:.1f} tests): planned {:.3f}, best {:.3f} ({:+.2f} %, "
             "at worst "
             "{:+.1f} %), as listed {:.3f} ({:+.1f} %)\n",
             what, situations, static_cast<double>(means.suspects) / situations,
             static_cast<double>(means.tests) / situations, means.planned, means.best,
             100 * (means.planned / means.best - 1), 100 * (means.worst - 1), means.listed,
             100 * (means.listed / means.best - 1));
}

TEST(Plan, measurements_are_within_a_tenth_of_the_best_tree_and_fewer_than_as_listed) {
  const Means means = measured(false, true);
  print("mean measurements", means);
  EXPECT_LT(means.planned, 1.1 * means.best);
  EXPECT_LT(means.planned, means.listed);
  EXPECT_LT(means.empty * 50, situations);
}

TEST(Plan, work_is_within_a_tenth_of_the_best_tree_and_less_than_as_listed) {
  const Means means = measured(true, false);
  print("mean minutes", means);
  EXPECT_LT(means.planned, 1.1 * means.best);
  EXPECT_LT(means.planned, means.listed);
  EXPECT_LT(means.empty * 50, situations);
}

}
}
