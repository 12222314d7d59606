#include "ohmlore/plan.h"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <numeric>
#include <random>
#include <tuple>

#include "ohmlore/cautions.h"
#include "ohmlore/job.h"
#include "support/bench.h"
#include "support/judged.h"

namespace ohmlore {
namespace {

using test::says;

constexpr std::string_view board = R"({
  "format": "ohmlore/1.0", "kind": "profile", "id": "board", "revision": 2,
  "appliance": { "maker": "Orrinvale", "models": ["Larch 24 C", "Larch 30 C"], "type": "combination_boiler", "fuel": "natural_gas",
                 "controller": { "part": "OV-4410", "software": ["2.1", "3.0"] } },
  "safety": { "supplies": [{ "kind": "mains", "isolate_at": "fused spur", "enters_at": ["X9.1"] }],
              "hazards": [{ "kind": "stored_charge", "where": ["X5.1", "X5.2"], "wait": "5 min", "verify_below": "50 V dc" },
                           { "kind": "generates_when_turned", "component": "coil", "note": "a draught turns it" },
                           { "kind": "hot_surface", "wait": "20 min" }] },
  "sources": { "s": { "kind": "common_practice", "note": "invented" } }, "source": { "from": "s" },
  "connectors": {
    "X4": { "label": "X4", "ways": 6, "circuit": "selv", "where": "lower edge",
            "pins": { "1": { "signal": "flow", "wire": { "base": "OG" } }, "2": { "wire": { "base": "BK", "stripe": "WH" } }, "3": {}, "4": {} } },
    "X5": { "label": "X5", "ways": 2, "circuit": "mains", "pins": { "1": {}, "2": {} } },
    "X6": { "label": "X6", "ways": 2, "circuit": "mains", "pins": { "1": {}, "2": {} } },
    "X7": { "label": "X7", "ways": 2, "circuit": "mains", "pins": { "1": {}, "2": {} } },
    "X9": { "label": "X9", "ways": 1, "circuit": "mains", "pins": { "1": {} } }
  },
  "circuits": { "chain": { "between": ["X7.1", "X7.2"], "arrangement": "series",
    "elements": [{ "kind": "component", "component": "stat" }, { "kind": "component", "component": "cutout" }] } },
  "components": {
    "flow": { "kind": "ntc", "name": "Flow sensor", "between": ["X4.1", "X4.2"], "service_limit": "3 K", "orderable": "S-1",
      "model": { "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_between": "25 °C to 85 °C" } },
    "return": { "kind": "ntc", "name": "Return sensor", "between": ["X4.3", "X4.4"], "service_limit": "3 K",
      "model": { "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_between": "25 °C to 85 °C" } },
    "coil": { "kind": "coil", "name": "Valve coil", "between": ["X5.1", "X5.2"], "metal": "copper", "drive": "dc", "suppression": "none",
      "model": { "kind": "copper", "resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %" } },
    "stat": { "kind": "switch", "name": "Overheat thermostat", "between": ["X7.1", "X7.2"] },
    "cutout": { "kind": "fuse", "name": "Flue cut-out", "between": ["X7.1", "X7.2"] },
    "heater": { "kind": "heater", "name": "Heater", "between": ["X6.1", "X6.2"], "element": "wire", "when": { "models": ["Larch 30 C"] },
      "model": { "kind": "fixed", "resistance": "50 Ω", "tolerance": "10 %" } }
  },
  "tests": {
    "flow_ohm": { "component": "flow", "unplug": "X4", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
      "excludes": ["open", "short", "drift_high", "drift_low"], "effort": "low" },
    "flow_moved": { "component": "flow", "unplug": "X4", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
      "response": { "kind": "steady_when_moved" }, "excludes": ["intermittent"], "effort": "low" },
    "cores": { "component": "flow", "unplug": "X4", "disconnect_also": ["the plug on the flow sensor"], "probes": ["X4.1", "X4.2"],
      "side": "harness", "expect": { "kind": "open", "above": "2 MΩ" }, "excludes": ["short"], "effort": "low" },
    "return_ohm": { "component": "return", "unplug": "X4", "probes": ["X4.3", "X4.4"], "side": "at_board_plug",
      "excludes": ["open", "short"], "effort": "low" },
    "coil_ohm": { "component": "coil", "unplug": "X5", "probes": ["X5.1", "X5.2"], "side": "at_board_plug", "effort": "low" },
    "coil_covered": { "component": "coil", "unplug": "X5", "probes": ["X5.1", "X5.2"], "side": "at_component",
      "excludes": ["open", "short"], "effort": "medium" },
    "chain_cold": { "component": "stat", "unplug": "X7", "probes": ["X7.1", "X7.2"], "side": "at_board_plug",
      "expect": { "kind": "closed", "below": "2 Ω" }, "excludes": ["open", "stuck_open"], "effort": "low" },
    "heater_ohm": { "component": "heater", "unplug": "X6", "probes": ["X6.1", "X6.2"], "side": "at_board_plug",
      "excludes": ["open"], "effort": "low" }
  },
  "faults": {
    "H1": { "display": { "kind": "text", "text": "H1" }, "meaning": "flow sensor", "suspects": [
      { "kind": "component", "component": "flow", "modes": ["open"], "decided_by": ["flow_ohm"] },
      { "kind": "harness", "connector": "X4", "modes": ["open", "short"], "decided_by": ["flow_ohm", "cores"] },
      { "kind": "component", "component": "flow", "modes": ["intermittent"], "decided_by": ["flow_moved"] },
      { "kind": "board", "not_decidable": "no dead test shows it" } ] },
    "H2": { "display": { "kind": "text", "text": "H2" }, "meaning": "two sensors", "suspects": [
      { "kind": "cause", "cause": "air in the circuit", "not_decidable": "hydraulic" },
      { "kind": "component", "component": "return", "modes": ["open", "short"], "decided_by": ["return_ohm"] },
      { "kind": "component", "component": "flow", "modes": ["open"], "decided_by": ["flow_ohm"] } ] },
    "P1": { "display": { "kind": "subcode", "text": "P", "subcode": "01" }, "meaning": "valve", "when": { "software": ["2.1"] }, "suspects": [
      { "kind": "component", "component": "coil", "modes": ["open"], "decided_by": ["coil_ohm"] } ] },
    "P2": { "display": { "kind": "subcode", "text": "P", "subcode": "01" }, "meaning": "heat", "when": { "software": ["3.0"] }, "suspects": [
      { "kind": "component", "component": "coil", "modes": ["open"], "decided_by": ["coil_covered"] },
      { "kind": "component", "component": "heater", "modes": ["open"], "decided_by": ["heater_ohm"] } ] },
    "S1": { "display": { "kind": "text", "text": "S1" }, "meaning": "limit chain open", "suspects": [
      { "kind": "component", "component": "stat", "modes": ["stuck_open"], "decided_by": ["chain_cold"] },
      { "kind": "component", "component": "cutout", "modes": ["open"], "decided_by": ["chain_cold"] },
      { "kind": "harness", "connector": "X7", "modes": ["open"], "decided_by": ["chain_cold"] },
      { "kind": "cause", "cause": "lack of water", "not_decidable": "hydraulic" } ] },
    "amber_3": { "display": { "kind": "blink", "lamp": "amber", "pattern": "3 flashes" }, "meaning": "valve", "suspects": [
      { "kind": "component", "component": "coil", "modes": ["open"], "decided_by": ["coil_covered"] },
      { "kind": "component", "component": "return", "modes": ["open"], "decided_by": ["return_ohm"] } ] }
  }
})";

struct Desk {
  Read_result read = read_json("board.profile.json", board);
  Resolved resolved = resolve(read.document, {});

  Plan of(std::vector<std::string> codes, std::string_view readings = {}) const {
    Plan_request request;
    request.codes = std::move(codes);
    return with(std::move(request), readings);
  }
  Plan with(Plan_request request, std::string_view readings = {}) const {
    if (!readings.empty()) {
      const Job_read list = read_job("readings", readings);
      std::vector<std::string> problems = list.problems;
      if (list.job) request.readings = readings_of(*list.job, problems);
      for (const std::string& problem : problems) ADD_FAILURE() << problem;
    }
    return plan(resolved, request);
  }
};

// The board, or another, with some of its text changed.
struct Changed_board {
  std::string text = std::string(board);
  void put(std::string_view what, std::string_view by) { text.replace(text.find(what), what.size(), by); }
  // A fault E1 where there were none.
  void suspect(std::string_view suspects) {
    put(R"("tests": {)",
        fmt::format(
            R"("faults": {{ "E1": {{ "display": {{ "kind": "text", "text": "E1" }}, "meaning": "fault", "suspects": [
      {} ] }} }}, "tests": {{)",
            suspects));
  }
  Desk desk() const { return Desk{read_json("board.profile.json", text)}; }
};

std::vector<std::string> line(const Plan& plan) {
  std::vector<std::string> tests;
  for (const Plan_step& step : plan.steps) tests.push_back(step.test);
  return tests;
}
const Plan_suspect& suspect(const Plan& plan, std::string_view name) {
  const auto found = std::find_if(plan.suspects.begin(), plan.suspects.end(),
                                  [&](const Plan_suspect& one) { return one.name == name; });
  if (found == plan.suspects.end()) {
    ADD_FAILURE() << "no suspect " << name;
    return plan.suspects.at(0);
  }
  return *found;
}
Standing standing(const Plan& plan, std::string_view name, std::optional<Mode> mode) {
  for (const Plan_mode& one : suspect(plan, name).modes)
    if (one.mode == mode) return one.standing;
  ADD_FAILURE() << "no such mode of " << name;
  return Standing::suspected;
}
const Plan_outcome* outcome(const Plan_step& step, Showing shown) {
  for (const Plan_outcome& one : step.outcomes)
    if (std::find(one.shown.begin(), one.shown.end(), shown) != one.shown.end()) return &one;
  return nullptr;
}

// ---- what is likely

TEST(Plan, The_nth_suspect_of_a_list_weighs_1_over_n_with_one_place_for_what_is_not_named) {
  const Plan found = Desk().of({"H2"});
  const double sum = 1 + 1 / 2.0 + 1 / 3.0 + 1 / 4.0;
  EXPECT_NEAR(suspect(found, "air in the circuit").before, 1 / sum, 1e-12);
  EXPECT_NEAR(suspect(found, "Return sensor").before, 1 / 2.0 / sum, 1e-12);
  EXPECT_NEAR(suspect(found, "Flow sensor").before, 1 / 3.0 / sum, 1e-12);
}

TEST(Plan, A_suspect_of_two_codes_comes_before_one_of_one) {
  const Desk desk;
  const Plan found = desk.of({"H1", "H2"});
  EXPECT_EQ(found.suspects[0].name, "Flow sensor");
  EXPECT_EQ(found.suspects[0].codes, (std::vector<std::string>{"H1", "H2"}));
  EXPECT_EQ(line(found).front(), "flow_ohm");
  EXPECT_EQ(line(desk.of({"H2"})).front(), "return_ohm");
}

TEST(Plan, What_several_codes_say_of_one_suspect_is_said_once) {
  std::string text(board);
  text.insert(text.find("\"P1\": {"),
              R"("H3": { "display": { "kind": "text", "text": "H3" }, "meaning": "board", "suspects": [
      { "kind": "board", "not_decidable": "no dead test shows it" } ] },
    )");
  EXPECT_EQ(
      suspect(Desk{read_json("board.profile.json", text)}.of({"H1", "H3"}), "control board").not_decidable,
      std::vector<std::string>{"no dead test shows it"});
}

TEST(Plan, What_several_codes_suspect_of_one_harness_lies_in_the_wires_that_each_has_read) {
  std::string text(board);
  const std::string fault =
      R"("H3": { "display": { "kind": "text", "text": "H3" }, "meaning": "both sensors", "suspects": [
      { "kind": "harness", "connector": "X4", "modes": ["open"], "decided_by": ["return_ohm", "flow_ohm"] } ] },
    )";
  text.insert(text.find("\"P1\": {"), fault);
  const Desk desk{read_json("board.profile.json", text)};
  const Plan found = desk.of({"H1", "H3"});
  const double first = 1 / 2.0 / (1 + 1 / 2.0 + 1 / 3.0 + 1 / 4.0 + 1 / 5.0), second = 1 / (1 + 1 / 2.0);
  EXPECT_NEAR(suspect(found, "harness of X4").before, (first + second) / 2, 1e-12);
  EXPECT_EQ(standing(desk.of({"H1", "H3"}, "flow_ohm 15.25 kΩ at 15 °C"), "harness of X4", Mode::open),
            Standing::suspected);
  EXPECT_EQ(standing(desk.of({"H1", "H3"}, "flow_ohm 15.25 kΩ at 15 °C\nreturn_ohm 15.25 kΩ at 15 °C"),
                     "harness of X4", Mode::open),
            Standing::ruled_out);
}

// Whether a code is planned for alone or with others, its own tests say which wires it means: one pair, or
// more than they read.
TEST(Plan, A_harness_that_names_no_test_lies_in_the_one_pair_that_its_code_reads) {
  std::string text(board);
  text.insert(text.find("\"P1\": {"),
              R"("H3": { "display": { "kind": "text", "text": "H3" }, "meaning": "flow", "suspects": [
      { "kind": "component", "component": "flow", "modes": ["short"], "decided_by": ["flow_ohm"] },
      { "kind": "harness", "connector": "X4", "modes": ["open"] } ] },
    "H4": { "display": { "kind": "text", "text": "H4" }, "meaning": "return", "suspects": [
      { "kind": "component", "component": "return", "modes": ["short"], "decided_by": ["return_ohm"] } ] },
    "H5": { "display": { "kind": "text", "text": "H5" }, "meaning": "both", "suspects": [
      { "kind": "component", "component": "flow", "modes": ["short"], "decided_by": ["flow_ohm"] },
      { "kind": "component", "component": "return", "modes": ["short"], "decided_by": ["return_ohm"] },
      { "kind": "harness", "connector": "X4", "modes": ["open"] } ] },
    )");
  const Desk desk{read_json("board.profile.json", text)};
  const std::string_view healthy = "flow_ohm 15.25 kΩ at 15 °C\nreturn_ohm 15.25 kΩ at 15 °C";
  for (const auto& [codes, expected] : {std::pair{std::vector<std::string>{"H3"}, Standing::ruled_out},
                                        {{"H3", "H4"}, Standing::ruled_out},
                                        {{"H4", "H3"}, Standing::ruled_out},
                                        {{"H5"}, Standing::suspected},
                                        {{"H4", "H5"}, Standing::suspected}})
    EXPECT_EQ(standing(desk.of(codes, healthy), "harness of X4", Mode::open), expected)
        << fmt::format("{}", fmt::join(codes, " "));
  // The other pair may hold it as little as before.
  EXPECT_EQ(standing(desk.of({"H3", "H4"}, "return_ohm 15.25 kΩ at 15 °C"), "harness of X4", Mode::open),
            Standing::suspected);
}

// ---- the order

TEST(Plan, Cheap_comes_before_likely_where_it_is_cheap_enough) {
  // The coil is twice as likely, behind a cover.
  EXPECT_EQ(line(Desk().of({"amber_3"})), (std::vector<std::string>{"return_ohm", "coil_covered"}));
}

TEST(Plan, A_connector_is_withdrawn_once_and_what_was_taken_apart_is_put_back) {
  const Plan found = Desk().of({"H1"});
  ASSERT_EQ(found.steps.size(), 2u);
  EXPECT_EQ(found.steps[0].prepare, (std::vector<std::string>{"withdraw X4 (lower edge)"}));
  EXPECT_TRUE(says(found.steps[1].prepare, "it is so already"));
  EXPECT_EQ(found.steps[0].leads[0], "X4.1 (orange, flow)");
  EXPECT_EQ(found.steps[0].leads[1], "X4.2 (black with white)");
  // Whatever comes after the test of the cores would have the plug on the sensor back.
  const Plan after = Desk().of({"H1"}, "cores OL\n");
  ASSERT_FALSE(after.steps.empty());
  EXPECT_EQ(after.steps[0].prepare[0], "put back: the plug on the flow sensor");
}

// Work of several tests of which each finds one fault and no other: the order by probability over work is the
// best there is (W. E. Smith, 1956: weighted completion times on one machine; from memory).
TEST(Plan, Tests_that_find_one_fault_each_are_ordered_by_probability_over_work) {
  std::mt19937 random(7);
  double planned = 0, best = 0;
  for (int round = 0; round < 200; ++round) {
    const std::size_t n = 2 + random() % 7;
    Order_problem problem;
    problem.culprits = n + 1;
    std::vector<double> weight, minutes;
    for (std::size_t i = 0; i <= n; ++i) {
      weight.push_back(1 + static_cast<double>(random() % 20));
      if (i < n) minutes.push_back(1 + static_cast<double>(random() % 20));
      Hypothesis one{i, weight.back(), {}};
      for (std::size_t t = 0; t < n; ++t) {
        Showing_shares shares = {};
        shares[static_cast<std::size_t>(t == i ? Showing::over_range : Showing::healthy)] = 1;
        one.shows.push_back(shares);
      }
      problem.hypotheses.push_back(one);
    }
    for (const double one : minutes) problem.tests.push_back({one, {}, {}, {}});
    std::vector<std::size_t> order(n), found;
    std::iota(order.begin(), order.end(), 0u);
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return weight[a] / minutes[a] > weight[b] / minutes[b]; });
    Order_state state = beginning(problem);
    while (const auto test = next_test(problem, state)) {
      found.push_back(*test);
      state = after(problem, state, *test, {Showing::healthy});
    }
    ASSERT_EQ(found.size(), n);
    const auto work = [&](const std::vector<std::size_t>& sequence) {
      double sum = 0, spent = 0;
      for (const std::size_t t : sequence) sum += weight[t] * (spent += minutes[t]);
      return sum + weight[n] * spent;
    };
    planned += work(found);
    best += work(order);
    EXPECT_LT(work(found), 1.1 * work(order)) << round;
  }
  EXPECT_GE(planned, best - 1e-6);
  EXPECT_LT(planned, 1.01 * best) << planned / best;
}

TEST(Plan, A_test_costs_what_is_not_done_and_what_must_be_put_back) {
  Order_problem problem;
  problem.chores = 4;
  problem.culprits = 1;
  problem.hypotheses = {{0, 1, {Showing_shares{1}}}};
  problem.tests = {{2, {{0, 5}, {1, 3}}, {2}, {3}}};
  Order_state state = beginning(problem);
  EXPECT_EQ(minutes_of(problem, state, 0), 2 + 5 + 3);
  state.done = {true, false, true, true};
  EXPECT_EQ(minutes_of(problem, state, 0), 2 + 3 + put_back_minutes);
  EXPECT_EQ(after(problem, state, 0, {Showing::healthy}).done, (std::vector<bool>{true, true, false, false}));
}

// A cold and a hot reading of one part: each undoes what led to the other, and nothing else is undone. What
// was disconnected is put back before another reading at the same plug or of the same part, and nowhere else.
TEST(Plan, Work_that_one_test_undoes_for_another_is_counted) {
  std::string text(board);
  text.insert(text.find("\"heater_ohm\": {"),
              R"("chain_hot": { "component": "stat", "condition": "hot", "before": ["warm it"],
      "unplug": "X7", "probes": ["X7.1", "X7.2"], "side": "at_board_plug", "expect": { "kind": "open", "above": "1 MΩ" },
      "excludes": ["stuck_closed"], "effort": "low" },
    )");
  const std::string_view cold = R"("chain_cold": {)", decided = R"("decided_by": ["chain_cold"])";
  text.insert(text.find(cold) + cold.size(), R"( "condition": "cold", "before": ["let it cool"],)");
  text.replace(text.find(decided), decided.size(), R"("decided_by": ["chain_cold", "chain_hot"])");
  const Desk desk{read_json("board.profile.json", text)};
  const std::string faults[] = {"H1", "H2", "S1"};
  const Plan_problem problem = plan_problem(desk.resolved, faults);
  const auto work = [&](std::string_view id) {
    const auto at = std::find(problem.tests.begin(), problem.tests.end(), id);
    EXPECT_NE(at, problem.tests.end()) << id;
    return problem.order.tests.at(static_cast<std::size_t>(at - problem.tests.begin()));
  };
  const auto needs = [&](std::string_view id, std::size_t what) {
    const auto chores = work(id).chores;
    return std::any_of(chores.begin(), chores.end(), [&](const Chore& one) { return one.what == what; });
  };
  for (const char* id : {"flow_ohm", "flow_moved", "return_ohm"}) {
    ASSERT_EQ(work(id).apart.size(), 1u) << id;
    EXPECT_TRUE(needs("cores", work(id).apart[0])) << id;
    EXPECT_TRUE(work(id).lost.empty()) << id;
  }
  for (const char* id : {"cores", "chain_cold", "chain_hot"}) EXPECT_TRUE(work(id).apart.empty()) << id;
  for (const auto& [one, other] :
       {std::pair("chain_cold", "chain_hot"), std::pair("chain_hot", "chain_cold")}) {
    ASSERT_EQ(work(one).lost.size(), 1u) << one;
    EXPECT_TRUE(needs(other, work(one).lost[0])) << one;
    EXPECT_FALSE(needs(one, work(one).lost[0])) << one;
  }
  EXPECT_GT(work("flow_moved").minutes, work("flow_ohm").minutes + 1) << "moved, and read again";
}

TEST(Plan, What_is_hard_to_reach_costs_more) {
  const auto minutes = [](const char* effort) {
    std::string text(board);
    const std::string_view low = R"("excludes": ["open", "short"], "effort": "low")";
    text.replace(text.find(low), low.size(),
                 fmt::format(R"("excludes": ["open", "short"], "effort": "{}")", effort));
    const Desk desk{read_json("board.profile.json", text)};
    const std::string faults[] = {"amber_3"};
    const Plan_problem problem = plan_problem(desk.resolved, faults);
    const auto at =
        std::find(problem.tests.begin(), problem.tests.end(), "return_ohm") - problem.tests.begin();
    return minutes_of(problem.order, beginning(problem.order), static_cast<std::size_t>(at));
  };
  EXPECT_LT(minutes("low"), minutes("medium"));
  EXPECT_LT(minutes("medium"), minutes("high"));
}

// So many that nothing is looked into: of tests that separate alike the shortest comes first.
TEST(Plan, Of_many_tests_that_find_as_much_the_shortest_comes_first) {
  constexpr std::size_t many = 60;
  Order_problem problem;
  problem.culprits = many;
  for (std::size_t i = 0; i < many; ++i) {
    Hypothesis one{i, 1, {}};
    for (std::size_t t = 0; t < many; ++t) {
      Showing_shares shares = {};
      shares[static_cast<std::size_t>(t == i ? Showing::over_range : Showing::healthy)] = 1;
      one.shows.push_back(shares);
    }
    problem.hypotheses.push_back(one);
    problem.tests.push_back({i == 41 ? 1.0 : 2.0, {}, {}, {}});
  }
  EXPECT_EQ(next_test(problem, beginning(problem)), 41u);
}

TEST(Plan, Separation_is_the_fall_of_Ginis_index) {
  // Three culprits of weight 1/2, 1/4, 1/4 and a test that finds the first: 1 - 3/8 before, 1/2 · 1/2 after.
  Order_problem problem;
  problem.culprits = 3;
  for (const double weight : {2.0, 1.0, 1.0}) {
    Showing_shares shares = {};
    shares[static_cast<std::size_t>(weight > 1 ? Showing::lower : Showing::healthy)] = 1;
    problem.hypotheses.push_back({problem.hypotheses.size(), weight, {shares}});
  }
  problem.tests.push_back({1, {}, {}, {}});
  EXPECT_NEAR(separation_of(problem, beginning(problem), 0), (1 - 3 / 8.0) - 0.25, 1e-12);
  const Order_state low = after(problem, beginning(problem), 0, {Showing::lower});
  EXPECT_NEAR(low.weights[0], 1, 1e-12);
  EXPECT_TRUE(low.abnormal);
  EXPECT_FALSE(next_test(problem, low));
}

// ---- what outcomes mean

// Nothing is easier to read than OL, with leads that touch nothing.
TEST(Plan, Where_OL_may_be_healthy_the_tips_are_held_together_first) {
  std::string text(board);
  const std::string_view excludes = R"("short", "drift_high", "drift_low")";
  text.replace(text.find(excludes), excludes.size(), R"("drift_high")"); // and so `cores` looks for the short
  const Plan found = Desk{read_json("board.profile.json", text)}.of({"H1"});
  for (const Plan_step& step : found.steps)
    EXPECT_EQ(says(step.prepare, "hold the tips together"), step.test == "cores") << step.test;
  const std::vector<std::string> tests = line(found);
  EXPECT_NE(std::find(tests.begin(), tests.end(), "cores"), tests.end());
}

TEST(Plan, The_tips_are_held_together_once) {
  std::string text(board);
  text.insert(text.find("\"return_ohm\": {"), R"("return_cores": { "component": "return", "unplug": "X4",
      "disconnect_also": ["the plug on the return sensor"], "probes": ["X4.3", "X4.4"], "side": "harness",
      "expect": { "kind": "open", "above": "2 MΩ" }, "excludes": ["short"], "effort": "low" },
    )");
  text.insert(text.find("\"P1\": {"),
              R"("H3": { "display": { "kind": "text", "text": "H3" }, "meaning": "shorts", "suspects": [
      { "kind": "harness", "connector": "X4", "modes": ["short"], "decided_by": ["cores", "return_cores"] } ] },
    )");
  const Plan found = Desk{read_json("board.profile.json", text)}.of({"H3"});
  ASSERT_EQ(found.steps.size(), 2U);
  EXPECT_TRUE(says(found.steps[0].prepare, "hold the tips together"));
  EXPECT_FALSE(says(found.steps[1].prepare, "hold the tips together"));
}

// A path of a chain that is open, and one that closes badly, are looked for alike.
TEST(Plan, What_is_done_after_each_reading_that_is_not_healthy_is_printed_once) {
  Changed_board changed;
  changed.put(R"("modes": ["stuck_open"])", R"("modes": ["stuck_open", "high_contact_resistance"])");
  changed.put(R"("excludes": ["open", "stuck_open"])",
              R"("excludes": ["open", "stuck_open", "high_contact_resistance"])");
  const Plan found = changed.desk().of({"S1"});
  ASSERT_EQ(found.steps.size(), 1U);
  ASSERT_EQ(found.steps[0].outcomes.size(), 3U); // healthy, OL, too high
  for (const std::size_t abnormal : {1U, 2U})
    EXPECT_TRUE(says(found.steps[0].outcomes[abnormal].then, "read each by itself"));
  const std::string report = text_report(found);
  const std::size_t first = report.find("read each by");
  ASSERT_NE(first, report.npos);
  EXPECT_EQ(report.find("read each by", first + 1), report.npos) << report;
  EXPECT_NE(report.find("  if not healthy: several parts"), report.npos) << report;
  // What only OL asks for stands there.
  EXPECT_LT(report.find("find what opened it"), report.find("if not healthy"));
}

TEST(Plan, A_healthy_reading_rules_out_what_the_test_sees_and_says_that_it_excludes) {
  const Plan found = Desk().of({"H1"});
  const Plan_outcome* healthy = outcome(found.steps[0], Showing::healthy);
  ASSERT_EQ(found.steps[0].test, "flow_ohm");
  ASSERT_NE(healthy, nullptr);
  EXPECT_TRUE(says(healthy->rules_out, "Flow sensor: open"));
  EXPECT_TRUE(says(healthy->rules_out, "harness of X4: open"));
  EXPECT_TRUE(says(healthy->not_seen, "Flow sensor: intermittent"));
  // `coil_ohm` sees an open coil, and does not say that it excludes it.
  const Plan coil = Desk().of({"P1"});
  ASSERT_EQ(coil.steps.size(), 1u);
  EXPECT_TRUE(outcome(coil.steps[0], Showing::healthy)->rules_out.empty());
  EXPECT_TRUE(says(outcome(coil.steps[0], Showing::healthy)->not_seen, "Valve coil: open"));
}

TEST(Plan, What_the_tests_cannot_tell_apart_is_read_on_the_part) {
  const Plan found = Desk().of({"H1"});
  const Plan_outcome* open = outcome(found.steps[0], Showing::over_range);
  ASSERT_NE(open, nullptr);
  EXPECT_TRUE(says(open->points_to, "Flow sensor: open"));
  EXPECT_TRUE(says(open->points_to, "harness of X4: open"));
  EXPECT_TRUE(says(open->then, "on the part itself"));
  EXPECT_TRUE(says(open->rules_out, "harness of X4: short"));
  EXPECT_FALSE(says(open->rules_out, "control board")) << "no reading excludes what it cannot see";
}

TEST(Plan, Causes_stand_where_they_are_likelier_and_the_board_at_the_end) {
  const Desk desk;
  const Plan found = desk.of({"H2"});
  ASSERT_EQ(found.steps[0].look_first.size(), 1u);
  EXPECT_EQ(found.suspects[found.steps[0].look_first[0].suspect].name, "air in the circuit");
  EXPECT_EQ(found.steps[0].look_first[0].why, "hydraulic");
  const Plan sensor = desk.of({"H1"});
  for (const Plan_step& step : sensor.steps) EXPECT_TRUE(step.look_first.empty());
  EXPECT_TRUE(std::any_of(sensor.left.begin(), sensor.left.end(), [&](const Plan_left& one) {
    return sensor.suspects[one.suspect].kind == Suspect_kind::board;
  }));
  EXPECT_TRUE(says(sensor.all_healthy, "leaves dead testing"));
}

// ---- going on with readings

TEST(Plan, A_healthy_reading_takes_its_suspects_and_its_step_away) {
  const Plan found = Desk().of({"H1"}, "flow_ohm 15.7 kΩ at 15 °C ± 1 K\n");
  EXPECT_EQ(standing(found, "Flow sensor", Mode::open), Standing::ruled_out);
  EXPECT_EQ(standing(found, "harness of X4", Mode::open), Standing::ruled_out);
  EXPECT_EQ(standing(found, "Flow sensor", Mode::intermittent), Standing::suspected);
  EXPECT_EQ(standing(found, "control board", std::nullopt), Standing::not_decidable);
  EXPECT_EQ(line(found).front(), "flow_moved");
  EXPECT_TRUE(says(found.conclusion, "nothing abnormal"));
}

TEST(Plan, Fingers_on_the_tips_may_be_what_conducts) {
  std::string profile(board);
  const std::string_view old = R"("modes": ["open", "short"], "decided_by": ["flow_ohm", "cores"])";
  profile.replace(profile.find(old), old.size(), R"("modes": ["wet_or_corroded"], "decided_by": ["cores"])");
  Desk desk;
  desk.read = read_json("board.profile.json", profile);
  desk.resolved = resolve(desk.read.document, {});
  const Plan found = desk.of({"H1"});
  const auto cores = std::find_if(found.steps.begin(), found.steps.end(),
                                  [](const Plan_step& step) { return step.test == "cores"; });
  ASSERT_NE(cores, found.steps.end());
  const Plan_outcome* low = outcome(*cores, Showing::lower);
  ASSERT_NE(low, nullptr);
  EXPECT_TRUE(says(low->then, "fingers on both tips"));
  EXPECT_FALSE(says(outcome(found.steps[0], Showing::over_range)->then, "fingers"));
  EXPECT_TRUE(says(desk.of({"H1"}, "cores 20 kΩ\n").conclusion, "fingers on both tips"));
  EXPECT_FALSE(says(desk.of({"H1"}, "cores 300 Ω\n").conclusion, "fingers")) << "they never read so little";
  // As a verdict has it: below 100 kΩ they matter little.
  const std::string_view above = R"("above": "2 MΩ")";
  profile.replace(profile.find(above), above.size(), R"("above": "20 kΩ")");
  desk.read = read_json("board.profile.json", profile);
  desk.resolved = resolve(desk.read.document, {});
  const Plan less = desk.of({"H1"});
  const auto again = std::find_if(less.steps.begin(), less.steps.end(),
                                  [](const Plan_step& step) { return step.test == "cores"; });
  ASSERT_NE(again, less.steps.end());
  ASSERT_NE(outcome(*again, Showing::lower), nullptr);
  EXPECT_FALSE(says(outcome(*again, Showing::lower)->then, "fingers"));
}

// From memory: makers of compressors warn of a terminal that breaks out while it is probed.
TEST(Plan, What_lies_behind_a_seal_is_not_said_to_be_read_on_the_part) {
  for (const char* kind : {"pressure", "sealed_case"}) {
    std::string profile(board);
    const std::string_view old = R"({ "kind": "generates_when_turned", "component": "coil",)";
    profile.replace(profile.find(old), old.size(),
                    fmt::format(R"({{ "kind": "{}", "component": "coil",)", kind));
    Desk desk;
    desk.read = read_json("board.profile.json", profile);
    desk.resolved = resolve(desk.read.document, {});
    const Plan found = desk.of({"P1"});
    const Plan_outcome* open = outcome(found.steps.at(0), Showing::over_range);
    ASSERT_NE(open, nullptr);
    EXPECT_TRUE(says(open->then, "opened only by those licensed for it")) << kind;
    EXPECT_FALSE(says(open->then, "on the part itself")) << kind;
  }
  const Plan plain = Desk().of({"P1"});
  EXPECT_TRUE(says(outcome(plain.steps.at(0), Showing::over_range)->then, "on the part itself"));
}

TEST(Plan, Plug_and_part_tell_harness_from_part) {
  const Desk desk;
  const Plan at_plug = desk.of({"H1"}, "flow_ohm OL at 15 °C\n");
  EXPECT_EQ(standing(at_plug, "Flow sensor", Mode::open), Standing::found);
  EXPECT_EQ(standing(at_plug, "harness of X4", Mode::open), Standing::found);
  EXPECT_EQ(standing(at_plug, "harness of X4", Mode::short_), Standing::ruled_out);
  EXPECT_TRUE(says(at_plug.conclusion, "on the part itself"));
  const Plan harness = desk.of({"H1"}, "flow_ohm OL at 15 °C, on part 15.7 kΩ\n");
  EXPECT_EQ(standing(harness, "Flow sensor", Mode::open), Standing::ruled_out);
  EXPECT_EQ(standing(harness, "harness of X4", Mode::open), Standing::found);
  EXPECT_TRUE(says(harness.conclusion, "look along the harness"));
  EXPECT_FALSE(says(harness.conclusion, "on the part itself"));
  const Plan part = desk.of({"H1"}, "flow_ohm OL at 15 °C, on part OL\n");
  EXPECT_EQ(standing(part, "Flow sensor", Mode::open), Standing::found);
  // Whether the harness is open too, nobody has seen.
  EXPECT_EQ(standing(part, "harness of X4", Mode::open), Standing::no_sign);
  EXPECT_EQ(standing(part, "control board", std::nullopt), Standing::no_sign);
  EXPECT_FALSE(says(part.conclusion, "look along the harness"));
}

// H1 suspects the harness beside the sensor, H2 the sensor alone, which has wires all the same.
TEST(Plan, What_a_reading_on_the_part_would_say_goes_by_what_is_suspected) {
  const Desk desk;
  const Plan beside = desk.of({"H1"}, "flow_ohm OL at 15 °C\n"),
             alone = desk.of({"H2"}, "flow_ohm OL at 15 °C\n");
  EXPECT_TRUE(says(beside.conclusion, "healthy there, it is the harness; the same as here, it is the part"));
  EXPECT_FALSE(says(beside.conclusion, "before it is replaced"));
  EXPECT_TRUE(says(alone.conclusion,
                   "before it is replaced, read the same on the part itself: healthy there, it is"));
  EXPECT_FALSE(says(alone.conclusion, "the same as here"));
}

// 12.55 kΩ at 20 °C is healthy at the plug; on the part itself nothing conducts, so what conducted was the
// harness.
TEST(Plan, What_is_healthy_at_the_plug_only_clears_neither_part_nor_harness) {
  const Plan found = Desk().of({"H1"}, "flow_ohm 12.5 kΩ at 20 °C, on part OL\n");
  EXPECT_EQ(standing(found, "Flow sensor", Mode::open), Standing::found);
  EXPECT_EQ(standing(found, "harness of X4", Mode::short_), Standing::found);
  EXPECT_EQ(standing(found, "harness of X4", Mode::open), Standing::ruled_out);
  EXPECT_TRUE(says(found.conclusion, "healthy here and not on the part itself"));
  EXPECT_FALSE(says(found.conclusion, "no single failure"));
  // That it does not answer either is no sign against them.
  const Plan still = Desk().of({"H1"}, "flow_ohm 12.5 kΩ at 20 °C, on part OL, does not answer\n");
  EXPECT_EQ(standing(still, "Flow sensor", Mode::open), Standing::found);
  EXPECT_EQ(standing(still, "harness of X4", Mode::short_), Standing::found);
}

TEST(Plan, What_is_too_close_rules_nothing_out_but_what_both_sides_exclude) {
  // At any temperature of a room a drifted sensor may read so, an open one not.
  const Plan found = Desk().of({"H1"}, "flow_ohm 15.7 kΩ\n");
  EXPECT_EQ(standing(found, "Flow sensor", Mode::open), Standing::ruled_out);
  EXPECT_FALSE(says(found.conclusion, "points to"));
}

TEST(Plan, Without_its_response_a_reading_does_not_show_what_comes_and_goes) {
  const Desk desk;
  const std::string reading = "flow_moved 15.7 kΩ at 15 °C";
  EXPECT_EQ(standing(desk.of({"H1"}, reading), "Flow sensor", Mode::intermittent), Standing::suspected);
  EXPECT_EQ(standing(desk.of({"H1"}, reading + ", answers"), "Flow sensor", Mode::intermittent),
            Standing::ruled_out);
  EXPECT_EQ(standing(desk.of({"H1"}, reading + ", does not answer"), "Flow sensor", Mode::intermittent),
            Standing::found);
}

TEST(Plan, What_closes_while_it_is_moved_comes_and_goes) {
  const Plan closes = Desk().of({"H1"}, "flow_moved OL at 15 °C, after 15.2 kΩ\n");
  EXPECT_TRUE(says(closes.conclusion, "it closed while it was moved"));
  EXPECT_EQ(standing(closes, "Flow sensor", Mode::intermittent), Standing::found);
  EXPECT_FALSE(says(Desk().of({"H1"}, "flow_moved OL at 15 °C, after OL\n").conclusion, "it closed while"));
}

// Of both ends together no reading says which of them does not answer.
TEST(Plan, What_does_not_answer_at_the_plug_is_not_cleared_by_a_healthy_reading_on_the_part) {
  for (const char* reading : {"flow_moved 15.7 kΩ at 15 °C, on part 15.7 kΩ, does not answer\n",
                              "flow_moved OL at 15 °C, on part 15.7 kΩ\n"}) {
    const Plan found = Desk().of({"H1"}, reading);
    EXPECT_EQ(standing(found, "Flow sensor", Mode::intermittent), Standing::found) << reading;
    EXPECT_TRUE(says(found.conclusion, "on the part healthy; or unsteady")) << reading;
    EXPECT_TRUE(says(found.conclusion, "do there too what the test asks for")) << reading;
  }
  const Plan unwatched = Desk().of({"H1"}, "flow_moved 15.7 kΩ at 15 °C, on part 15.7 kΩ\n");
  EXPECT_FALSE(says(unwatched.conclusion, "do there too"));
  Changed_board changed;
  changed.put(R"("response": { "kind": "steady_when_moved" }, "excludes": ["intermittent"])",
              R"("expect": { "kind": "rises_to_open", "above": "2 MΩ" }, "excludes": ["open"])");
  changed.put(R"("modes": ["intermittent"])", R"("modes": ["open"])");
  const Plan at_once = changed.desk().of({"H1"}, "flow_moved OL, on part OL, does not answer\n");
  EXPECT_EQ(standing(at_once, "Flow sensor", Mode::open), Standing::found);
}

TEST(Plan, A_reed_that_rests_in_either_state_is_found_stuck_only_where_it_does_not_change) {
  const Desk desk{read_json("reed.profile.json", test::reed_profile())};
  for (const auto& [reading, stuck, free] :
       {std::tuple{"stat OL", Mode::stuck_open, Mode::stuck_closed},
        std::tuple{"stat 0.5 Ω", Mode::stuck_closed, Mode::stuck_open}}) {
    const auto standing_of = [&desk, read = std::string(reading)](std::string_view how, Mode mode) {
      return standing(desk.of({"E5"}, read + std::string(how)), "Limit", mode);
    };
    EXPECT_EQ(standing_of("", stuck), Standing::suspected) << reading;
    EXPECT_EQ(standing_of("", free), Standing::ruled_out) << reading;
    EXPECT_EQ(standing_of(", answers", stuck), Standing::ruled_out) << reading;
    EXPECT_EQ(standing_of(", does not answer", stuck), Standing::found) << reading;
    // The part itself reads what the plug reads, and does not change either.
    const std::string on_part = ", on part " + std::string(reading).substr(std::string_view("stat ").size());
    EXPECT_EQ(standing_of(on_part, stuck), Standing::suspected) << reading;
    EXPECT_EQ(standing_of(on_part + ", does not answer", stuck), Standing::found) << reading;
    EXPECT_EQ(standing_of(on_part + ", answers", stuck), Standing::ruled_out) << reading;
  }
}

TEST(Plan, A_reed_with_a_resistor_is_closed_where_it_reads_that) {
  for (const char* expect :
       {R"({ "kind": "open", "above": "1 MΩ" })", R"({ "kind": "band", "min": "310 Ω", "max": "350 Ω" })"}) {
    const std::string profile = test::reed_profile_with_resistor(expect);
    const Desk desk{read_json("reed.profile.json", profile)};
    const auto standing_of = [&](std::string_view how, Mode mode) {
      return standing(desk.of({"E5"}, "stat 331 Ω" + std::string(how)), "Limit", mode);
    };
    EXPECT_EQ(standing_of("", Mode::stuck_closed), Standing::suspected) << expect;
    EXPECT_EQ(standing_of("", Mode::stuck_open), Standing::ruled_out) << expect;
    EXPECT_EQ(standing_of(", answers", Mode::stuck_closed), Standing::ruled_out) << expect;
    EXPECT_EQ(standing_of(", does not answer", Mode::stuck_closed), Standing::found) << expect;
  }
}

TEST(Plan, A_part_with_a_resistor_that_reads_nothing_is_shorted_and_not_stuck) {
  std::string profile =
      test::reed_profile_with_resistor(R"({ "kind": "band", "min": "310 Ω", "max": "350 Ω" })");
  for (const std::string_view modes :
       {R"("modes": ["stuck_open", "stuck_closed"])", R"("excludes": ["stuck_open", "stuck_closed"])"})
    profile.replace(profile.find(modes) + modes.size() - 1, 1, R"(, "short"])");
  const Desk desk{read_json("reed.profile.json", profile)};
  EXPECT_EQ(standing(desk.of({"E5"}, "stat 0.4 Ω"), "Limit", Mode::short_), Standing::found);
  EXPECT_EQ(standing(desk.of({"E5"}, "stat 0.4 Ω"), "Limit", Mode::stuck_closed), Standing::ruled_out);
  // A closed one reads OL too on a range that ends below its resistor.
  EXPECT_EQ(standing(desk.of({"E5"}, "stat OL 200 Ω"), "Limit", Mode::stuck_closed), Standing::suspected);
}

TEST(Plan, One_position_of_a_track_says_nothing_of_the_others) {
  const Desk desk{read_json("dial.profile.json", test::dial_profile())};
  for (const Mode mode : {Mode::open, Mode::high_contact_resistance}) {
    EXPECT_EQ(standing(desk.of({"E7"}, "stat 5.0 kΩ"), "Dial", mode), Standing::suspected);
    EXPECT_EQ(standing(desk.of({"E7"}, "stat 5.0 kΩ, answers"), "Dial", mode), Standing::ruled_out);
  }
}

// 0.4 Ω lies within 0 Ω to 12 kΩ; where it stays so from end to end, the track is shorted.
TEST(Plan, A_track_that_reads_nothing_all_along_may_be_shorted) {
  std::string text = test::dial_profile();
  const std::string_view modes = R"("modes": ["open", "high_contact_resistance"])";
  text.replace(text.find(modes), modes.size(), R"("modes": ["open", "short", "high_contact_resistance"])");
  const Desk desk{read_json("dial.profile.json", text)};
  EXPECT_EQ(standing(desk.of({"E7"}, "stat 0.4 Ω, does not answer"), "Dial", Mode::short_), Standing::found);
  EXPECT_EQ(standing(desk.of({"E7"}, "stat 5.0 kΩ, does not answer"), "Dial", Mode::short_),
            Standing::no_sign);
}

// "about 0 Ω" is what a contact without a model reads in its closed state, and points to nothing.
TEST(Plan, A_contact_that_is_closed_by_its_state_reads_about_nothing) {
  Changed_board bench{std::string(test::bench_profile)};
  bench.suspect(
      R"({ "kind": "component", "component": "stat", "modes": ["stuck_open", "high_contact_resistance"], "decided_by": ["stat"] },
    { "kind": "harness", "connector": "X4", "modes": ["short"], "decided_by": ["stat"] })");
  const Desk desk = bench.desk();
  const Plan found = desk.of({"E1"});
  EXPECT_EQ(outcome(found.steps.at(0), Showing::near_zero), nullptr);
  EXPECT_EQ(standing(desk.of({"E1"}, "stat 0.4 Ω"), "Limit", Mode::high_contact_resistance),
            Standing::ruled_out);
}

// Beside a twin nothing else says what is healthy, and 5 Ω is what long leads leave of a short.
TEST(Plan, A_few_ohms_beside_a_twin_do_not_rule_out_a_short) {
  Changed_board bench{std::string(test::bench_profile)};
  bench.put(R"("excludes": ["drift_high", "drift_low"])", R"("excludes": ["short", "drift_low"])");
  bench.suspect(
      R"({ "kind": "component", "component": "flow", "modes": ["short", "drift_low"], "decided_by": ["twins"] })");
  const Desk desk = bench.desk();
  EXPECT_EQ(standing(desk.of({"E1"}, "twins 5.0 Ω, twin 15.4 kΩ"), "Flow sensor", Mode::short_),
            Standing::found);
}

TEST(Plan, Judge_and_plan_take_the_worse_of_what_was_read_after_and_what_was_seen) {
  for (const char* contrary : {", after 16.7 kΩ, answers\n", ", after 15.7 kΩ, does not answer\n"}) {
    const Plan found = Desk().of({"H1"}, std::string("flow_moved 15.7 kΩ at 15 °C") + contrary);
    EXPECT_EQ(found.readings.value().judgements.at(0).result, Conformity::outside) << contrary;
    EXPECT_EQ(standing(found, "Flow sensor", Mode::intermittent), Standing::found) << contrary;
  }
}

TEST(Plan, A_test_without_a_response_condemns_nothing_for_its_absence) {
  const Plan found = Desk().of({"H1"}, "flow_ohm 15.7 kΩ at 15 °C ± 1 K, does not answer\n");
  EXPECT_EQ(standing(found, "Flow sensor", Mode::open), Standing::ruled_out);
  EXPECT_TRUE(says(found.conclusion, "nothing abnormal"));
  EXPECT_TRUE(says(found.remarks, "flow_ohm: this test asks for no response"));
}

TEST(Plan, Readings_that_no_single_failure_explains_are_taken_one_by_one) {
  const Plan found = Desk().of({"H2"}, "flow_ohm OL at 15 °C\nreturn_ohm OL at 15 °C\n");
  EXPECT_TRUE(says(found.conclusion, "no single failure"));
  EXPECT_TRUE(says(found.conclusion, "or there are two faults at once"));
  EXPECT_FALSE(says(found.conclusion, "by itself looks like"));
  EXPECT_TRUE(says(found.conclusion, "there may be more than one fault"));
  EXPECT_TRUE(says(found.conclusion, "flow_ohm by itself points to Flow sensor: open"));
  EXPECT_TRUE(says(found.conclusion, "return_ohm by itself points to Return sensor: open"));
  EXPECT_TRUE(says(found.conclusion, "read each of these parts by itself before anything is replaced"));
  EXPECT_FALSE(says(found.conclusion, "several parts lie in this path")) << "they lie in two";
}

// The first reads 15.0 kΩ beside 18.5 kΩ: too little by itself, or beside one that reads too much.
TEST(Plan, Of_twins_that_differ_either_may_be_wrong) {
  Changed_board changed;
  changed.put(R"("tests": {)", R"("tests": {
    "twins": { "component": "flow", "unplug": "X4", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
      "expect": { "kind": "pair", "with": "return", "largest_difference": "2 K" }, "excludes": ["drift_low"] },)");
  changed.put(R"("faults": {)", R"("faults": {
    "D1": { "display": { "kind": "text", "text": "D1" }, "meaning": "sensors differ", "suspects": [
      { "kind": "component", "component": "flow", "modes": ["drift_high", "drift_low", "open"],
        "decided_by": ["twins"] },
      { "kind": "component", "component": "return", "modes": ["drift_high", "drift_low"], "decided_by": ["twins"] } ] },)");
  const Desk desk = changed.desk();
  const Plan found = desk.of({"D1"}, "twins 15.0 kΩ, twin 18.5 kΩ\n");
  EXPECT_EQ(standing(found, "Flow sensor", Mode::drift_low), Standing::found);
  EXPECT_NE(standing(found, "Flow sensor", Mode::drift_high), Standing::found);
  EXPECT_EQ(standing(found, "Return sensor", Mode::drift_high), Standing::found);
  EXPECT_NE(standing(found, "Return sensor", Mode::drift_low), Standing::found);
  EXPECT_TRUE(says(found.conclusion, "which of them is wrong, this does not say"));
  const Plan open = desk.of({"D1"}, "twins OL, twin 18.5 kΩ\n");
  EXPECT_EQ(standing(open, "Flow sensor", Mode::open), Standing::found);
  EXPECT_FALSE(says(open.conclusion, "which of them is wrong"));
}

TEST(Plan, With_a_twin_that_is_open_or_shorted_nothing_is_compared) {
  Changed_board changed;
  changed.put(R"("tests": {)", R"("tests": {
    "twins": { "component": "flow", "unplug": "X4", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
      "expect": { "kind": "pair", "with": "return", "largest_difference": "2 K" }, "effort": "low",
      "excludes": ["drift_high", "drift_low"] },)");
  changed.put(R"("faults": {)", R"("faults": {
    "D1": { "display": { "kind": "text", "text": "D1" }, "meaning": "sensors differ", "suspects": [
      { "kind": "component", "component": "return", "modes": ["open", "short", "drift_high", "drift_low"],
        "decided_by": ["return_ohm", "twins"] },
      { "kind": "harness", "connector": "X4", "modes": ["open", "short"], "decided_by": ["return_ohm"] } ] },)");
  const Desk desk = changed.desk();
  const auto compares = [&](std::string_view readings) {
    const std::vector<std::string> steps = line(desk.of({"D1"}, readings));
    return std::find(steps.begin(), steps.end(), "twins") != steps.end();
  };
  EXPECT_TRUE(compares(""));
  EXPECT_TRUE(compares("return_ohm 15.6 kΩ at 15 °C\n"));
  EXPECT_TRUE(compares("twins 15.6 kΩ at 15 °C\n")) << "its twin was not read";
  EXPECT_FALSE(compares("twins 15.6 kΩ at 15 °C, twin OL\ntwins 15.6 kΩ at 15 °C, twin 15.5 kΩ\n"));
  for (const char* broken : {"return_ohm OL\n", "return_ohm 1.73 MΩ at 15 °C\n", "return_ohm 0.5 Ω\n",
                             "twins 15.6 kΩ at 15 °C, twin OL\n", "twins 15.6 kΩ at 15 °C, twin 0.5 Ω\n"})
    EXPECT_FALSE(compares(broken)) << broken;
}

TEST(Plan, A_photocell_reads_by_the_light_on_it) {
  Desk desk;
  std::string text(board);
  const std::string_view heater =
      R"("kind": "heater", "name": "Heater", "between": ["X6.1", "X6.2"], "element": "wire",)";
  text.replace(text.find(heater), heater.size(),
               R"("kind": "photocell", "name": "Photocell", "between": ["X6.1", "X6.2"],)");
  desk.read = read_json("board.profile.json", text);
  desk.resolved = resolve(desk.read.document, {});
  const Plan found = desk.of({"P2"}, "coil_covered 43.3 Ω at 20 °C\nheater_ohm OL\n");
  EXPECT_EQ(standing(found, "Photocell", Mode::open), Standing::found);
  EXPECT_TRUE(says(found.conclusion, "a photocell reads by the light on it"));
}

TEST(Plan, A_fuse_that_is_open_may_have_done_its_work) {
  const Plan found = Desk().of({"S1"}, "chain_cold OL\n");
  EXPECT_TRUE(says(found.conclusion, "several parts lie in this path"));
  EXPECT_TRUE(says(found.conclusion, "find what opened it"));
  EXPECT_FALSE(says(Desk().of({"H1"}, "flow_ohm OL at 15 °C\n").conclusion, "find what opened it"));
  // A coil whose turns are shorted takes the fuse with it.
  EXPECT_FALSE(says(found.conclusion, "what opened it may show"));
  std::string text(board);
  const std::string_view cause = R"({ "kind": "cause", "cause": "lack of water")";
  text.insert(
      text.find(cause),
      R"({ "kind": "component", "component": "coil", "modes": ["short"], "decided_by": ["coil_covered"] },
      )");
  const Desk coil{read_json("board.profile.json", text)};
  EXPECT_TRUE(says(coil.of({"S1"}, "chain_cold OL\n").conclusion,
                   "what opened it may show in what is not read yet: coil_covered"));
  EXPECT_FALSE(says(coil.of({"S1"}, "chain_cold OL\ncoil_covered 43.3 Ω at 20 °C\n").conclusion,
                    "what opened it may show"));
}

// Where two readings contradict each other no suspect is gone, and of a fuse that nobody read none is told.
TEST(Plan, What_may_deceive_is_of_what_the_reading_may_come_from) {
  Changed_board changed;
  changed.put(R"("faults": {)", R"("faults": {
    "E1": { "display": { "kind": "text", "text": "E1" }, "meaning": "fuse", "suspects": [
      { "kind": "component", "component": "cutout", "modes": ["open"], "decided_by": ["chain_cold"] },
      { "kind": "component", "component": "return", "modes": ["open", "short", "drift_high", "drift_low"],
        "decided_by": ["return_ohm", "coil_covered"] } ] },)");
  const Desk desk = changed.desk();
  const std::string apart = "return_ohm OL at 15 °C\ncoil_covered OL\n";
  EXPECT_TRUE(says(desk.of({"E1"}, apart).conclusion, "points to Return sensor: open"));
  EXPECT_FALSE(says(desk.of({"E1"}, apart).conclusion, "find what opened it"));
  EXPECT_TRUE(says(desk.of({"E1"}, apart + "chain_cold OL\n").conclusion, "find what opened it"));
}

// Each within its limits, and 58 Ω and 64 Ω where one is the sum of the other two.
TEST(Plan, Windings_that_do_not_go_together_are_told_of) {
  Changed_board bench{std::string(test::bench_profile)};
  bench.suspect(
      R"({ "kind": "component", "component": "pump", "modes": ["open"], "decided_by": ["pump_cs", "pump_cr", "pump_sr"] })");
  const Desk desk = bench.desk();
  const auto concluded = [&](std::string_view whole) {
    return desk
        .of({"E1"},
            fmt::format("pump_cs 42.0 Ω at 20 °C\npump_cr 16.0 Ω at 20 °C\npump_sr {} at 20 °C\n", whole))
        .conclusion;
  };
  EXPECT_TRUE(says(concluded("64.0 Ω"), "no winding reads more directly"));
  EXPECT_TRUE(says(concluded("64.0 Ω"), "together these readings are not healthy"));
  EXPECT_FALSE(says(concluded("64.0 Ω"), "nothing abnormal"));
  EXPECT_TRUE(says(concluded("58.0 Ω"), "nothing abnormal has been read so far"));
  EXPECT_TRUE(says(concluded("OL"), "no winding reads more directly"));
  // One break, seen from both sides, is no two.
  const std::vector<std::string> open =
      desk.of({"E1"}, "pump_cs OL at 20 °C\npump_cr 15.0 Ω at 20 °C\npump_sr OL at 20 °C\n").conclusion;
  EXPECT_TRUE(says(open, "that points to Pump: open"));
  EXPECT_FALSE(says(open, "by itself points to"));
}

TEST(Plan, What_one_failure_explains_may_be_two_faults_all_the_same) {
  // A common plug explains both; both sensors may be open too.
  const Plan found = Desk().of({"H1", "H2"}, "flow_ohm OL at 15 °C\nreturn_ohm OL at 15 °C\n");
  EXPECT_TRUE(says(found.conclusion, "that points to harness of X4: open"));
  EXPECT_TRUE(says(found.conclusion, "there may be several faults at once all the same"));
  EXPECT_TRUE(says(found.conclusion, "return_ohm by itself points to"));
  EXPECT_TRUE(says(found.conclusion, "read each of these parts by itself"));
  // A healthy reading excludes what it excludes, however many faults there are.
  const Plan part =
      Desk().of({"H1", "H2"}, "flow_ohm OL at 15 °C, on part 15.7 kΩ\nreturn_ohm 0.1 Ω at 15 °C\n");
  EXPECT_TRUE(says(part.conclusion,
                   "flow_ohm by itself points to harness of X4: open; or Flow sensor: intermittent"));
  EXPECT_FALSE(says(part.conclusion, "Flow sensor: open"));
  EXPECT_TRUE(
      says(part.conclusion, "return_ohm by itself points to Return sensor: short; or harness of X4: short"));
  for (const Plan& plan : {found, Desk().of({"H1"})})
    EXPECT_TRUE(says(plan.all_healthy, "there may be a second"));
}

// In parallel with a leak of 2 kΩ a sensor that falls from 10 kΩ to 8 kΩ falls from 1.67 kΩ to 1.6 kΩ, by 4 %
// instead of 20 %; and wet contacts drift by themselves. So damp may hide the answer of a sensor to warmth.
TEST(Plan, What_is_wet_is_not_ruled_out_by_a_sensor_that_does_not_answer) {
  std::string text(board);
  const auto replace = [&](std::string_view what, std::string_view by) {
    text.replace(text.find(what), what.size(), by);
  };
  replace(R"("kind": "steady_when_moved" }, "excludes": ["intermittent"])",
          R"("kind": "falls_when_warmed" }, "excludes": ["wrong_part"])");
  replace(R"("modes": ["open", "short"], "decided_by": ["flow_ohm", "cores"])",
          R"("modes": ["open", "wet_or_corroded"], "decided_by": ["flow_ohm", "flow_moved"])");
  replace(R"("modes": ["intermittent"])", R"("modes": ["wrong_part", "wet_or_corroded"])");
  Desk desk;
  desk.read = read_json("board.profile.json", text);
  desk.resolved = resolve(desk.read.document, {});
  const Plan found = desk.of({"H1"}, "flow_moved 15.7 kΩ at 15 °C ± 1 K, does not answer\n");
  EXPECT_EQ(standing(found, "harness of X4", Mode::wet_or_corroded), Standing::found);
  EXPECT_EQ(standing(found, "Flow sensor", Mode::wet_or_corroded), Standing::found);
  EXPECT_EQ(standing(found, "Flow sensor", Mode::wrong_part), Standing::found);
}

TEST(Plan, An_OL_on_a_low_range_may_be_an_open_path) {
  const Plan found = Desk().of({"H1"}, "flow_ohm OL 200 kΩ at 20 °C\n");
  EXPECT_EQ(standing(found, "Flow sensor", Mode::open), Standing::found);
  EXPECT_EQ(standing(found, "harness of X4", Mode::open), Standing::found);
  EXPECT_EQ(standing(found, "harness of X4", Mode::short_), Standing::ruled_out);
  EXPECT_TRUE(says(found.conclusion, "a range that ends at 200 kΩ may be an open path"))
      << fmt::format("{}", fmt::join(found.conclusion, "\n"));
  const Plan low = Desk().of({"H1"}, "flow_ohm OL 2 kΩ at 20 °C\n");
  EXPECT_NE(standing(low, "Flow sensor", Mode::open), Standing::ruled_out);
  EXPECT_NE(standing(low, "Flow sensor", Mode::open), Standing::no_sign);
  EXPECT_EQ(standing(low, "harness of X4", Mode::short_), Standing::ruled_out);
}

// To earth a healthy winding reads OL; an ohmmeter proves a leak, never that there is none.
TEST(Plan, An_OL_that_is_healthy_accuses_nothing) {
  Changed_board bench{std::string(test::bench_profile)};
  bench.suspect(
      R"({ "kind": "component", "component": "pump", "modes": ["leakage_to_earth"], "decided_by": ["pump_earth"] })");
  const Desk desk = bench.desk();
  const Plan healthy = desk.of({"E1"}, "pump_earth OL 60 MΩ\n");
  EXPECT_TRUE(says(healthy.conclusion, "nothing abnormal"));
  EXPECT_EQ(standing(healthy, "Pump", Mode::leakage_to_earth), Standing::suspected);
  EXPECT_EQ(standing(desk.of({"E1"}, "pump_earth 300 kΩ\n"), "Pump", Mode::leakage_to_earth),
            Standing::found);
}

// What judge and plan say of a failure is one: excluded there, ruled out here. 10 kΩ · exp(3977 K · (1/290.15
// K - 1/298.15 K)) are 14.45 kΩ at most, and 144 kΩ ten times that within what the meter may be off.
TEST(Plan, Rules_out_what_judge_excludes) {
  std::string text(board);
  const std::string_view only = R"("modes": ["open"], "decided_by": ["flow_ohm"] },
      { "kind": "harness")";
  text.replace(text.find(only), only.size(),
               R"("modes": ["open", "short", "drift_high", "drift_low"], "decided_by": ["flow_ohm"] },
      { "kind": "harness")");
  Desk desk;
  desk.read = read_json("board.profile.json", text);
  desk.resolved = resolve(desk.read.document, {});
  Plan_request request;
  request.codes = {"H1"};
  Judge_means coarse;
  coarse.meter = Meter_accuracy{0.008, 3, 2000}; // its highest range ends at 20 MΩ
  for (const Judge_means& means : {Judge_means{}, coarse})
    for (const char* reading :
         {"OL", "OL 6 MΩ", "OL 200 kΩ", "5.0 MΩ", "144 kΩ", "60 kΩ", "12.5 kΩ", "8 kΩ", "0.4 Ω"}) {
      const Job_read list = read_job("readings", fmt::format("flow_ohm {} at 20 °C\n", reading));
      std::vector<std::string> problems;
      request.readings = readings_of(*list.job, problems);
      const Plan found = plan(desk.resolved, request, means);
      ASSERT_EQ(found.readings.value().judgements.size(), 1u);
      for (const Mode_answer& answer : found.readings->judgements[0].modes) {
        if (answer.mode == Mode::intermittent) continue; // another test's
        EXPECT_EQ(answer.verdict == Mode_verdict::excluded,
                  standing(found, "Flow sensor", answer.mode) == Standing::ruled_out)
            << reading << ": " << word_of(answer.mode) << " is " << word_of(answer.verdict);
      }
    }
}

// The test of the coil does not say that it excludes anything.
TEST(Plan, Rules_out_nothing_that_no_test_is_said_to_exclude) {
  std::string text(board);
  const std::string_view open = R"("modes": ["open"], "decided_by": ["coil_ohm"])";
  text.replace(text.find(open), open.size(), R"("modes": ["open", "short"], "decided_by": ["coil_ohm"])");
  Desk desk;
  desk.read = read_json("board.profile.json", text);
  desk.resolved = resolve(desk.read.document, {});
  const Plan found = desk.of({"P1"}, "coil_ohm OL\n");
  EXPECT_EQ(standing(found, "Valve coil", Mode::open), Standing::found);
  EXPECT_EQ(standing(found, "Valve coil", Mode::short_), Standing::no_sign);
}

TEST(Plan, Twins_lie_in_no_common_path) {
  Changed_board changed;
  changed.put(
      R"("response": { "kind": "steady_when_moved" }, "excludes": ["intermittent"])",
      R"("expect": { "kind": "pair", "with": "return", "largest_difference": "2 K" }, "excludes": ["drift_high"])");
  changed.put(R"("component": "flow", "modes": ["open"], "decided_by": ["flow_ohm"] } ] })",
              R"("component": "flow", "modes": ["drift_high"], "decided_by": ["flow_moved"] },
      { "kind": "component", "component": "return", "modes": ["drift_low"], "decided_by": ["flow_moved"] } ] })");
  const Desk desk = changed.desk();
  const Plan found = desk.of({"H2"}, "flow_moved 15.7 kΩ, twin 12.5 kΩ\nreturn_ohm 12.5 kΩ at 20 °C\n");
  EXPECT_EQ(standing(found, "Flow sensor", Mode::drift_high), Standing::found);
  EXPECT_EQ(standing(found, "Return sensor", Mode::drift_low), Standing::found);
  EXPECT_TRUE(says(found.conclusion, "which of them is wrong, this does not say"));
  EXPECT_FALSE(says(found.conclusion, "open the joint"));
}

TEST(Plan, Where_parts_side_by_side_all_read_open_the_way_to_them_is_looked_at) {
  std::string text(board);
  const std::string_view series = R"("arrangement": "series")";
  text.replace(text.find(series), series.size(), R"("arrangement": "parallel")");
  Desk desk;
  desk.read = read_json("board.profile.json", text);
  desk.resolved = resolve(desk.read.document, {});
  EXPECT_TRUE(says(desk.of({"S1"}, "chain_cold OL\n").conclusion, "rather the way to all of them"));
  EXPECT_FALSE(says(Desk().of({"S1"}, "chain_cold OL\n").conclusion, "rather the way to all of them"));
}

// Two coils of 43 Ω ± 5 % side by side read 20.4 to 22.6 Ω. One alone reads 40.9 to 45.2 Ω, and 39.3 Ω where
// 1 kΩ of damp lies beside the break of the other.
TEST(Plan, Of_parts_side_by_side_none_is_open_where_less_is_read_than_one_alone_has) {
  Changed_board changed;
  changed.put(R"("circuits": {)",
              R"("circuits": { "coils": { "between": ["X5.1", "X5.2"], "arrangement": "parallel",
    "elements": [{ "kind": "component", "component": "coil" }, { "kind": "component", "component": "second" }] },)");
  changed.put(R"("stat": {)",
              R"("second": { "kind": "coil", "name": "Second coil", "metal": "copper", "drive": "dc",
      "suppression": "none", "model": { "kind": "copper", "resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %" } },
    "stat": {)");
  changed.put(R"("side": "at_board_plug", "effort": "low" })",
              R"("side": "at_board_plug", "effort": "low", "excludes": ["open"],
      "expect": { "kind": "band", "min": "20.4 Ω", "max": "22.6 Ω", "at": "20 °C" } })");
  changed.put(R"("component": "coil", "modes": ["open"], "decided_by": ["coil_ohm"] })",
              R"("component": "coil", "modes": ["open"], "decided_by": ["coil_ohm"] },
      { "kind": "component", "component": "second", "modes": ["open"], "decided_by": ["coil_ohm"] })");
  const Desk desk = changed.desk();
  for (const char* readings :
       {"coil_ohm 26.0 Ω\n", "coil_ohm 36.0 Ω at 20 °C\n", "coil_ohm 95.0 Ω at 20 °C\n"}) {
    const Plan between = desk.of({"P1"}, readings);
    EXPECT_EQ(standing(between, "Valve coil", Mode::open), Standing::suspected) << readings;
    EXPECT_EQ(standing(between, "Second coil", Mode::open), Standing::suspected) << readings;
    EXPECT_TRUE(says(between.conclusion, "it is a failure that they do not name")) << readings;
    EXPECT_TRUE(says(between.conclusion, "none of it is accused")) << readings;
    EXPECT_TRUE(says(between.conclusion, "coil_ohm by itself looks like drift high")) << readings;
  }
  for (const char* readings : {"coil_ohm 43.3 Ω\n", "coil_ohm 39.5 Ω at 20 °C\n", "coil_ohm 38.0 Ω at 0 °C\n",
                               "coil_ohm 26.0 Ω at 20 °C\ncoil_ohm 43.3 Ω at 20 °C\n",
                               "coil_ohm 43.3 Ω at 20 °C\ncoil_ohm 26.0 Ω at 20 °C\n",
                               "coil_ohm 38.0 Ω at 0 °C\ncoil_ohm 26.0 Ω at 20 °C\n", "coil_ohm OL\n"}) {
    const Plan alone = desk.of({"P1"}, readings);
    EXPECT_EQ(standing(alone, "Valve coil", Mode::open), Standing::found) << readings;
    EXPECT_EQ(standing(alone, "Second coil", Mode::open), Standing::found) << readings;
  }
}

// A coil of 43 Ω beside a row of two such: where the row is open the coil alone is read, wherever the profile
// names the row.
TEST(Plan, A_row_that_lies_beside_a_part_leaves_that_where_it_is_open) {
  const std::string_view row = R"("row": { "between": ["X5.1", "X5.2"], "arrangement": "series",
    "elements": [{ "kind": "component", "component": "second" }, { "kind": "component", "component": "third" }] },)";
  const std::string_view both = R"("both": { "between": ["X5.1", "X5.2"], "arrangement": "parallel",
    "elements": [{ "kind": "component", "component": "coil" }, { "kind": "circuit", "circuit": "row" }] },)";
  for (const std::string& circuits : {fmt::format("{}{}", row, both), fmt::format("{}{}", both, row)}) {
    Changed_board changed;
    changed.put(R"("circuits": {)", fmt::format(R"("circuits": {{ {})", circuits));
    for (const char* other : {"second", "third"})
      changed.put(R"("stat": {)", fmt::format(R"("{}": {{ "kind": "coil", "name": "The {}", "metal": "copper",
      "drive": "dc", "suppression": "none",
      "model": {{ "kind": "copper", "resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %" }} }},
    "stat": {{)",
                                              other, other));
    changed.put(R"("side": "at_board_plug", "effort": "low" })",
                R"("side": "at_board_plug", "effort": "low", "excludes": ["open"],
      "expect": { "kind": "band", "min": "27.2 Ω", "max": "30.1 Ω", "at": "20 °C" } })");
    changed.put(R"("component": "coil", "modes": ["open"], "decided_by": ["coil_ohm"] })",
                R"("component": "coil", "modes": ["open"], "decided_by": ["coil_ohm"] },
      { "kind": "component", "component": "second", "modes": ["open"], "decided_by": ["coil_ohm"] })");
    const Desk desk = changed.desk();
    EXPECT_EQ(standing(desk.of({"P1"}, "coil_ohm 43.3 Ω at 20 °C\n"), "The second", Mode::open),
              Standing::found)
        << circuits;
  }
}

// The wires of the return sensor are of the same harness, though its test is not said to exclude a break.
TEST(Plan, A_harness_is_not_ruled_out_by_one_of_its_pairs_against_the_other) {
  Changed_board changed;
  changed.put(R"("excludes": ["open", "short"], "effort": "low" },
    "coil_ohm")",
              R"("excludes": ["short"], "effort": "low" },
    "coil_ohm")");
  changed.put(
      R"({ "kind": "cause", "cause": "air in the circuit", "not_decidable": "hydraulic" },)",
      R"({ "kind": "harness", "connector": "X4", "modes": ["open"], "decided_by": ["flow_ohm", "return_ohm"] },)");
  const Desk desk = changed.desk();
  const Plan found = desk.of({"H2"}, "flow_ohm 12.5 kΩ at 20 °C\nreturn_ohm OL\n");
  EXPECT_EQ(standing(found, "harness of X4", Mode::open), Standing::found);
  EXPECT_EQ(standing(found, "Return sensor", Mode::open), Standing::found);
  EXPECT_EQ(standing(desk.of({"H2"}, "flow_ohm 12.5 kΩ at 20 °C\n"), "harness of X4", Mode::open),
            Standing::suspected);
}

// Two cores that must be apart by 2 MΩ are not cleared of a short by 100 Ω between them.
TEST(Plan, A_reading_that_fails_does_not_clear_the_short_that_it_looks_for) {
  for (const char* reading : {"cores 0.4 Ω\n", "cores 5.0 Ω\n", "cores 100 Ω\n"}) {
    const Plan found = Desk().of({"H1"}, reading);
    EXPECT_EQ(standing(found, "harness of X4", Mode::short_), Standing::found) << reading;
    EXPECT_FALSE(says(found.conclusion, "no single failure")) << reading;
  }
}

TEST(Plan, A_repeated_reading_does_not_erase_an_abnormal_one) {
  for (const char* readings : {"chain_cold OL\nchain_cold 0.3 Ω\n", "chain_cold 0.3 Ω\nchain_cold OL\n"}) {
    const Plan found = Desk().of({"S1"}, readings);
    EXPECT_EQ(standing(found, "Overheat thermostat", Mode::stuck_open), Standing::found) << readings;
    EXPECT_EQ(standing(found, "Flue cut-out", Mode::open), Standing::found);
    EXPECT_EQ(standing(found, "harness of X7", Mode::open), Standing::found);
    EXPECT_TRUE(says(found.conclusion, "changed between two measurements"));
    EXPECT_FALSE(says(found.conclusion, "nothing abnormal"));
  }
  // The same again changes nothing; what was too close to call is settled.
  EXPECT_FALSE(says(Desk().of({"S1"}, "chain_cold OL\nchain_cold OL\n").conclusion, "changed"));
  const Plan settled = Desk().of({"H1"}, "flow_ohm 15.7 kΩ\nflow_ohm 15.7 kΩ at 15 °C ± 1 K\n");
  EXPECT_TRUE(says(settled.conclusion, "nothing abnormal"));
}

// A program that gives the same reading near a limit whenever it is asked for comes to an end.
TEST(Plan, What_stays_undecided_is_not_asked_for_on_and_on) {
  std::string readings;
  std::vector<std::string> asked;
  for (Plan now = Desk().of({"H1"}); !now.steps.empty() && asked.size() < 12;
       now = Desk().of({"H1"}, readings)) {
    asked.push_back(now.steps[0].test);
    const bool cores = asked.back() == "cores";
    readings += asked.back() + (cores ? " OL\n" : " 13.8 kΩ at 15 °C, on part 13.8 kΩ\n");
  }
  EXPECT_LT(asked.size(), 12u);
  EXPECT_EQ(std::count(asked.begin(), asked.end(), "flow_ohm"), 2);
  const Plan end = Desk().of({"H1"}, readings);
  EXPECT_TRUE(says(end.conclusion, "is no step any more"));
  EXPECT_TRUE(says(end.conclusion, "flow_ohm: undecided"));
  EXPECT_TRUE(says(end.conclusion, "Settle it"));
  // The thermometer brought it nearer, and a finer one may again.
  std::string text(board);
  const std::string_view open = R"("modes": ["open"], "decided_by": ["flow_ohm"])";
  text.replace(text.find(open), open.size(), R"("modes": ["drift_low"], "decided_by": ["flow_ohm"])");
  Desk desk;
  desk.read = read_json("board.profile.json", text);
  desk.resolved = resolve(desk.read.document, {});
  const auto asks_again = [&](std::string_view given) {
    const std::vector<std::string> steps = line(desk.of({"H1"}, given));
    return std::find(steps.begin(), steps.end(), "flow_ohm") != steps.end();
  };
  EXPECT_TRUE(asks_again("flow_ohm 15.7 kΩ\nflow_ohm 13.8 kΩ at 15 °C\n"));
  EXPECT_FALSE(asks_again("flow_ohm 15.7 kΩ\nflow_ohm 13.8 kΩ at 15 °C\nflow_ohm 13.8 kΩ at 15 °C\n"));
}

// 13.8 kΩ at 15 °C may be too low and not too high; without its temperature it may be either.
TEST(Plan, A_rough_reading_takes_nothing_back_of_a_finer_one) {
  const std::string fine = "flow_ohm 13.8 kΩ at 15 °C\n", rough = "flow_ohm 13.8 kΩ\n";
  for (const std::string& readings : {fine, fine + rough, rough + fine, fine + rough + rough}) {
    const Plan found = Desk().of({"H1"}, readings);
    EXPECT_TRUE(says(found.conclusion, "flow_ohm reads healthy or too low")) << readings;
    EXPECT_EQ(std::count_if(found.conclusion.begin(), found.conclusion.end(),
                            [](const std::string& one) { return one.starts_with("flow_ohm: undecided"); }),
              1);
  }
  EXPECT_TRUE(says(Desk().of({"H1"}, rough).conclusion, "healthy, too high or too low"));
  // Near one limit, and then near the other: it may have changed.
  EXPECT_TRUE(
      says(Desk().of({"H1"}, fine + "flow_ohm 18.3 kΩ at 15 °C\n").conclusion, "healthy or too high"));
}

// What is read of the part at its temperature counts, whatever was too close to call before, there and at the
// plug. At 20 °C the sensor reads 12.55 kΩ.
TEST(Plan, What_was_undecided_at_the_plug_and_on_the_part_is_read_anew) {
  for (const char* before :
       {"flow_ohm 9.0 kΩ, on part 9.0 kΩ\n", "flow_ohm 13.8 kΩ at 15 °C, on part 13.8 kΩ\n"}) {
    const Plan found = Desk().of({"H1"}, std::string(before) + "flow_ohm 9.00 kΩ at 20 °C\n");
    EXPECT_TRUE(says(found.conclusion, "flow_ohm reads too low")) << before;
    EXPECT_FALSE(says(found.conclusion, "too low or healthy")) << before;
    EXPECT_FALSE(says(found.conclusion, "healthy or too low")) << before;
    const std::vector<std::string> steps = line(found);
    EXPECT_EQ(std::count(steps.begin(), steps.end(), "flow_ohm"), 0) << before;
  }
}

// A coil of 43 Ω in a row with a resistor of 43 Ω: shorted, it leaves that, and about 0 Ω is a short before
// both.
TEST(Plan, What_lies_in_a_row_with_a_shorted_part_is_still_read) {
  Changed_board changed;
  changed.put(R"("circuits": {)",
              R"("circuits": { "valve": { "between": ["X5.1", "X5.2"], "arrangement": "series",
    "elements": [{ "kind": "component", "component": "coil" },
                 { "kind": "resistor", "resistance": "43 Ω", "tolerance": "5 %" }] },)");
  changed.put(R"("side": "at_board_plug", "effort": "low" })",
              R"("side": "at_board_plug", "effort": "low", "excludes": ["short"],
      "expect": { "kind": "band", "min": "81.7 Ω", "max": "90.3 Ω", "at": "20 °C" } })");
  changed.put(R"("component": "coil", "modes": ["open"], "decided_by": ["coil_ohm"] })",
              R"("component": "coil", "modes": ["short"], "decided_by": ["coil_ohm"] },
      { "kind": "harness", "connector": "X5", "modes": ["short"], "decided_by": ["coil_ohm"] })");
  const Desk desk = changed.desk();
  const Plan left = desk.of({"P1"}, "coil_ohm 43.3 Ω at 20 °C\n"),
             nothing = desk.of({"P1"}, "coil_ohm 0.5 Ω\n");
  EXPECT_EQ(standing(left, "Valve coil", Mode::short_), Standing::found);
  EXPECT_EQ(standing(nothing, "Valve coil", Mode::short_), Standing::ruled_out);
  EXPECT_EQ(standing(nothing, "harness of X5", Mode::short_), Standing::found);
}

// Three alike of 30 Ω, as a star 60 Ω between any two ends, as a ring 20 Ω. A winding of the star that is
// shorted leaves 30 Ω at two pairs, wires that are shorted 45 Ω; an element of the ring that is open 60 Ω and
// 30 Ω (Ohm's law). Start and run with a common end: what is shorted of one leaves the other, 16 Ω of 60 Ω.
TEST(Plan, What_the_other_paths_leave_rules_out_no_short_and_no_break) {
  const auto desk = [](bool windings, std::string_view connection, std::string_view ohm) {
    Changed_board bench{std::string(test::bench_profile)};
    bench.put(R"("connection": "start_run", "metal": "copper",)", connection);
    if (!windings) {
      bench.put(R"("kind": "winding", "name": "Pump")",
                R"("kind": "heater", "name": "Pump", "element": "wire")");
      bench.put(R"("kind": "copper", "at": "20 °C", "tolerance": "10 %", "pairs")",
                R"("kind": "fixed", "tolerance": "10 %", "pairs")");
    }
    for (const char* old : {R"("44 Ω")", R"("16 Ω")", R"("60 Ω")"})
      if (!ohm.empty()) bench.put(old, ohm);
    bench.put(R"("excludes": ["open"] },
    "pump_earth")",
              R"("excludes": ["open", "short"] },
    "pump_earth")");
    bench.suspect(R"({ "kind": "component", "component": "pump", "modes": ["open", "short"],
        "decided_by": ["pump_cs", "pump_cr", "pump_sr"] },
      { "kind": "harness", "connector": "X5", "modes": ["short"], "decided_by": ["pump_cs", "pump_cr", "pump_sr"] })");
    return bench.desk();
  };
  const auto found = [](const Desk& by, std::string_view name, Mode mode, std::string_view readings) {
    EXPECT_EQ(standing(by.of({"E1"}, readings), name, mode), Standing::found) << name << ": " << readings;
  };
  const Desk star = desk(true, R"("connection": "star",)", R"("60 Ω")");
  found(star, "Pump", Mode::short_, "pump_cs 30.3 Ω at 20 °C\n");
  found(star, "harness of X5", Mode::short_, "pump_cs 45.3 Ω at 20 °C\npump_cr 0.4 Ω at 20 °C\n");
  const Desk start_run = desk(true, R"("connection": "start_run",)", "");
  found(start_run, "Pump", Mode::short_, "pump_sr 16.3 Ω at 20 °C\n");
  EXPECT_EQ(
      standing(start_run.of({"E1"}, "pump_sr 60.3 Ω at 20 °C\npump_cs 44.3 Ω at 20 °C\npump_cr 16.3 Ω at 20 "
                                    "°C\n"),
               "Pump", Mode::short_),
      Standing::ruled_out);
  for (const bool windings : {false, true}) {
    const Desk ring = desk(windings, "", R"("20 Ω")");
    found(ring, "Pump", Mode::open, "pump_cs 60.3 Ω at 20 °C\n");
    found(ring, "Pump", Mode::open, "pump_cs 30.3 Ω at 20 °C\n");
    found(ring, "Pump", Mode::open,
          "pump_cs OL at 20 °C\npump_cr OL at 20 °C\npump_sr 20.3 Ω at 20 °C\n"); // or a star
  }
  const Plan row = desk(false, "", "").of({"E1"}, "pump_cs 80.3 Ω at 20 °C\n");
  EXPECT_FALSE(says(row.conclusion, "points to")) << "two add up to the third: nothing goes round";
}

// 44 Ω and 16 Ω with a common end: where the one is shorted, the other reads as ever; where start and run
// touch, both read 11.7 Ω (Ohm's law), and two healthy readings speak for that pair too.
TEST(Plan, A_short_of_a_pair_is_excluded_by_no_other_that_does_not_see_it) {
  const auto found = [](bool start_excludes, std::string_view readings) {
    Changed_board bench{std::string(test::bench_profile)}; // where pump_sr excludes no short
    if (!start_excludes)
      bench.put(R"("probes": ["X5.2", "X5.1"], "side": "at_board_plug", "excludes": ["open", "short"])",
                R"("probes": ["X5.2", "X5.1"], "side": "at_board_plug", "excludes": ["open"])");
    bench.suspect(R"({ "kind": "component", "component": "pump", "modes": ["short"],
        "decided_by": ["pump_cs", "pump_cr", "pump_sr"] },
      { "kind": "harness", "connector": "X5", "modes": ["short"], "decided_by": ["pump_cs", "pump_cr", "pump_sr"] })");
    const Plan plan = bench.desk().of({"E1"}, readings);
    EXPECT_EQ(standing(plan, "Pump", Mode::short_), standing(plan, "harness of X5", Mode::short_));
    return standing(plan, "Pump", Mode::short_);
  };
  const std::string start = "pump_cs 44.3 Ω at 20 °C\n", run = "pump_cr 16.3 Ω at 20 °C\n";
  EXPECT_EQ(found(true, start + run), Standing::ruled_out);
  EXPECT_EQ(found(true, run), Standing::suspected);
  EXPECT_EQ(found(false, run), Standing::suspected);
  EXPECT_EQ(found(false, start + run), Standing::suspected) << "no test says that it excludes this pair's";
}

// 44 Ω of 60 Ω are left where the run winding is shorted. Of an open path that says nothing in a test that
// does not exclude one, whichever test the profile names last.
TEST(Plan, A_mode_is_ruled_out_where_all_its_paths_are_in_any_order) {
  for (const std::string_view tests :
       {R"("pump_cs", "pump_cr", "pump_sr")", R"("pump_sr", "pump_cr", "pump_cs")"}) {
    Changed_board bench{std::string(test::bench_profile)};
    bench.put(R"("probes": ["X5.1", "X5.3"], "side": "at_board_plug", "excludes": ["open"])",
              R"("probes": ["X5.1", "X5.3"], "side": "at_board_plug", "excludes": ["short"])");
    bench.suspect(fmt::format(
        R"({{ "kind": "component", "component": "pump", "modes": ["open", "short"], "decided_by": [{}] }})",
        tests));
    const Plan plan = bench.desk().of({"E1"}, "pump_cs 44.3 Ω at 20 °C\npump_sr 44.5 Ω at 20 °C\n");
    EXPECT_EQ(standing(plan, "Pump", Mode::open), Standing::no_sign) << tests;
    EXPECT_EQ(standing(plan, "Pump", Mode::short_), Standing::found) << tests;
  }
}

// What is too close to call looks like no short, in a plan as in a verdict.
TEST(Plan, A_reading_just_below_its_limit_suspects_no_short_of_one_of_several) {
  Changed_board bench{std::string(test::bench_profile)};
  bench.suspect(R"({ "kind": "component", "component": "pump", "modes": ["short", "shorted_turns"],
        "decided_by": ["pump_cs", "pump_cr"] })");
  const auto found = [&](std::string_view start) {
    const Plan plan =
        bench.desk().of({"E1"}, fmt::format("pump_cr 16.3 Ω at 20 °C\npump_cs {} at 20 °C\n", start));
    EXPECT_NE(standing(plan, "Pump", Mode::shorted_turns), Standing::ruled_out) << start;
    return standing(plan, "Pump", Mode::short_);
  };
  EXPECT_EQ(found("39.8 Ω"), Standing::ruled_out);
  EXPECT_EQ(found("22.3 Ω"), Standing::found);
}

// Of a star three quarters are left where two of its wires touch (Ohm's law): 47.6 Ω of a part that lies at
// 63.5 Ω, which within 20 % of 52.9 Ω is healthy, and so speaks for no such pair.
TEST(Plan, A_short_of_a_pair_that_a_wide_band_hides_is_not_excluded_by_the_others) {
  const auto found = [](std::string_view tolerance) {
    Changed_board bench{std::string(test::bench_profile)};
    bench.put(R"("connection": "start_run",)", R"("connection": "star",)");
    bench.put(R"("kind": "copper", "at": "20 °C", "tolerance": "10 %", "pairs")",
              fmt::format(R"("kind": "copper", "at": "20 °C", "tolerance": "{}", "pairs")", tolerance));
    for (const char* old : {R"("44 Ω")", R"("16 Ω")", R"("60 Ω")"}) bench.put(old, R"("52.9 Ω")");
    bench.suspect(R"({ "kind": "component", "component": "pump", "modes": ["short"],
        "decided_by": ["pump_cs", "pump_cr", "pump_sr"] })");
    return standing(bench.desk().of({"E1"}, "pump_cs 53.2 Ω at 20 °C\npump_cr 53.2 Ω at 20 °C\n"), "Pump",
                    Mode::short_);
  };
  EXPECT_EQ(found("10 %"), Standing::ruled_out);
  EXPECT_EQ(found("20 %"), Standing::suspected);
}

// A potentiometer's wiper that touches the far end stands still in a sweep; at this end it reads about
// nothing.
TEST(Plan, A_wiper_that_is_shorted_stands_still_in_a_sweep_and_is_not_cleared_by_the_track) {
  const auto found = [](std::string_view excludes, std::string_view readings) {
    Changed_board bench{std::string(test::bench_profile)};
    bench.put(R"("kind": "winding", "name": "Pump")", R"("kind": "potentiometer", "name": "Pump")");
    bench.put(R"("connection": "start_run", "metal": "copper",)", "");
    const std::size_t model =
        bench.text.find(R"("kind": "copper", "at": "20 °C", "tolerance": "10 %", "pairs")");
    bench.text.replace(model, bench.text.find(']', model) + 1 - model,
                       R"("kind": "fixed", "tolerance": "10 %", "pairs": [
        { "from": "start", "to": "run", "resistance": "10 kΩ" }])");
    bench.put(R"("probes": ["X5.1", "X5.3"], "side": "at_board_plug", "excludes": ["open"])",
              R"("probes": ["X5.1", "X5.3"], "side": "at_board_plug", "excludes": ["open", "short"])");
    bench.put(R"("probes": ["X5.2", "X5.1"], "side": "at_board_plug", "excludes": ["open", "short"])",
              fmt::format(R"("probes": ["X5.2", "X5.1"], "side": "at_board_plug",
      "expect": {{ "kind": "smooth_sweep", "min": "0 Ω", "max": "11.1 kΩ" }}, "response": {{ "kind": "smooth_sweep" }},
      "excludes": [{}])",
                          excludes));
    bench.suspect(R"({ "kind": "component", "component": "pump", "modes": ["open", "short"],
        "decided_by": ["pump_sr", "pump_cs"] })");
    return standing(bench.desk().of({"E1"}, readings), "Pump", Mode::short_);
  };
  const std::string_view open = R"("open")", both = R"("open", "short")", track = "pump_sr 10 kΩ at 20 °C\n",
                         all = "pump_sr 10 kΩ at 20 °C\npump_cs 5 kΩ at 20 °C, answers\n";
  for (const std::string_view excludes : {open, both})
    EXPECT_EQ(found(excludes, track), Standing::suspected) << excludes;
  EXPECT_EQ(found(open, all), Standing::suspected);
  EXPECT_EQ(found(both, all), Standing::ruled_out);
  EXPECT_EQ(found(both, "pump_cs 0.3 Ω at 20 °C, does not answer\n"), Standing::found);
  EXPECT_EQ(found(both, "pump_cs 10 kΩ at 20 °C, does not answer\n"), Standing::found);
}

// 44 Ω and 16 Ω with a common end; a capacitor across both, shorted, lays them side by side: 11.7 Ω (Ohm's
// law).
TEST(Plan, A_capacitor_across_two_windings_is_not_cleared_by_one_of_them) {
  Changed_board bench{std::string(test::bench_profile)};
  bench.put(
      R"("stat": { "kind")",
      R"("cap": { "kind": "capacitor", "name": "Capacitor", "between": ["X5.1", "X5.3"], "capacitance": "4 µF" },
    "stat": { "kind")");
  bench.suspect(R"({ "kind": "component", "component": "pump", "modes": ["short", "shorted_turns"],
        "decided_by": ["pump_cs", "pump_cr", "pump_sr"] },
      { "kind": "component", "component": "cap", "modes": ["short", "open"], "decided_by": ["pump_sr"] })");
  const Desk desk = bench.desk();
  const Plan beside = desk.of({"E1"}, "pump_cs 12.0 Ω at 20 °C\n");
  EXPECT_EQ(standing(beside, "Capacitor", Mode::short_), Standing::found);
  EXPECT_NE(standing(beside, "Capacitor", Mode::open), Standing::found);
  // And beside it the one winding that is not shorted still reads.
  EXPECT_EQ(standing(desk.of({"E1"}, "pump_sr 16.3 Ω at 20 °C\n"), "Pump", Mode::short_), Standing::found);
}

TEST(Plan, What_is_open_from_the_start_does_not_rise) {
  const auto found = [](std::string_view reading) {
    Changed_board bench{std::string(test::bench_profile)};
    bench.put(R"("expect": { "kind": "not_short", "above": "20 Ω" }, "excludes": ["short"])",
              R"("expect": { "kind": "rises_to_open", "above": "300 kΩ" }, "excludes": ["short", "open"])");
    bench.suspect(
        R"({ "kind": "component", "component": "fan", "modes": ["short", "open"], "decided_by": ["fan"] })");
    const Desk desk = bench.desk();
    return standing(desk.of({"E1"}, reading), "Fan", Mode::open);
  };
  EXPECT_EQ(found("fan OL, does not answer\n"), Standing::found);
  EXPECT_EQ(found("fan OL\n"), Standing::suspected);
  EXPECT_EQ(found("fan OL, answers\n"), Standing::ruled_out);
  EXPECT_NE(found("fan 0.5 Ω\n"), Standing::found);
}

// A changeover that does not move is open at one contact and closed at the other, whichever of the two its
// author calls stuck.
TEST(Plan, A_changeover_that_does_not_move_is_stuck_at_both_contacts) {
  const auto found = [](Mode mode, std::string_view condition, std::string_view excludes, const char* shown) {
    Changed_board bench{std::string(test::bench_profile)};
    bench.put(
        R"("between": ["X4.6", "X4.2"], "contacts": "nc", "states": { "cold": "closed", "hot": "open" })",
        R"("terminals": { "common": "X4.6", "normally_closed": "X4.2", "normally_open": "X4.3" },
      "contacts": "changeover", "states": { "rest": "open", "flow": "closed" })");
    bench.put(R"("condition": "cold",
      "excludes": ["open", "stuck_open", "high_contact_resistance"])",
              fmt::format(R"("condition": "{}", "excludes": ["{}"])", condition, excludes));
    bench.suspect(
        R"({ "kind": "component", "component": "stat", "modes": ["stuck_open", "stuck_closed"], "decided_by": ["stat"] })");
    const Desk desk = bench.desk();
    return standing(desk.of({"E1"}, fmt::format("stat {}\n", shown)), "Limit", mode);
  };
  EXPECT_EQ(found(Mode::stuck_closed, "flow", "stuck_closed", "0.4 Ω"), Standing::found);
  EXPECT_EQ(found(Mode::stuck_open, "flow", "stuck_closed", "0.4 Ω"), Standing::found);
  EXPECT_EQ(found(Mode::stuck_open, "rest", "stuck_open", "OL"), Standing::found);
  EXPECT_EQ(found(Mode::stuck_closed, "rest", "stuck_open", "OL"), Standing::found);
  EXPECT_EQ(found(Mode::stuck_open, "rest", "stuck_open", "0.4 Ω"), Standing::ruled_out);
  EXPECT_EQ(found(Mode::stuck_closed, "rest", "stuck_open", "0.4 Ω"), Standing::suspected);
}

// One element, whose third end is its earth: no other goes round its break, or reads on beside a short.
TEST(Plan, An_element_with_its_earth_has_one_path) {
  std::string text(test::bench_profile);
  const auto put = [&](std::string_view old, std::string_view by) {
    text.replace(text.find(old), old.size(), by);
  };
  put(R"("kind": "winding", "name": "Pump")", R"("kind": "heater", "name": "Pump", "element": "wire")");
  put(R"("connection": "start_run", "metal": "copper",)", "");
  put(R"("run": "X5.3")", R"("earth": "X5.4")");
  const std::size_t model = text.find(R"("kind": "copper", "at": "20 °C", "tolerance": "10 %", "pairs")");
  text.replace(model, text.find(']', model) + 1 - model,
               R"("kind": "fixed", "resistance": "44 Ω", "tolerance": "10 %")");
  put(R"("tests": {)",
      R"("faults": { "E1": { "display": { "kind": "text", "text": "E1" }, "meaning": "pump", "suspects": [
      { "kind": "component", "component": "pump", "modes": ["open", "short"], "decided_by": ["pump_cs"] },
      { "kind": "harness", "connector": "X5", "modes": ["open"], "decided_by": ["pump_cs"] } ] } },
    "tests": {)");
  const Desk desk{read_json("bench.profile.json", text)};
  const Plan open = desk.of({"E1"}, "pump_cs OL at 20 °C\n");
  ASSERT_EQ(open.suspects.size(), 2u);
  EXPECT_EQ(open.suspects[0].name, "Pump");
  EXPECT_NEAR(open.suspects[0].now, open.suspects[1].now, 1e-9) << "each reads OL";
  EXPECT_FALSE(says(desk.of({"E1"}, "pump_cs 90.3 Ω at 20 °C\n").conclusion, "points to Pump: open"));
  EXPECT_FALSE(says(desk.of({"E1"}, "pump_cs 22.3 Ω at 20 °C\n").conclusion, "points to Pump: short"));
}

// As a star an open element reads OL at two pairs of three, as a ring half as much again at two and three
// times as much at the third (Ohm's law): of one the same is as likely as the other, and at none it goes
// unseen.
TEST(Plan, Of_three_elements_that_may_be_a_ring_or_a_star_an_open_one_shows_at_one_pair_at_least) {
  Changed_board bench{std::string(test::bench_profile)};
  bench.put(R"("kind": "winding", "name": "Pump")", R"("kind": "heater", "name": "Pump", "element": "wire")");
  bench.put(R"("connection": "start_run", "metal": "copper",)", "");
  bench.put(R"("kind": "copper", "at": "20 °C", "tolerance": "10 %", "pairs")",
            R"("kind": "fixed", "tolerance": "10 %", "pairs")");
  for (const char* old : {R"("44 Ω")", R"("16 Ω")", R"("60 Ω")"}) bench.put(old, R"("52.9 Ω")");
  bench.suspect(
      R"({ "kind": "component", "component": "pump", "modes": ["open"], "decided_by": ["pump_cs", "pump_cr", "pump_sr"] },
      { "kind": "harness", "connector": "X5", "modes": ["open"], "decided_by": ["pump_cs", "pump_cr", "pump_sr"] })");
  const Desk desk = bench.desk();
  const auto read = [&](std::string_view cs, std::string_view cr, std::string_view sr) {
    return desk.of({"E1"}, fmt::format("pump_cs {}\npump_cr {}\npump_sr {}\n", cs, cr, sr));
  };
  const Plan star = read("OL", "OL", "53.2 Ω"), ring = read("159 Ω", "79.7 Ω", "79.7 Ω");
  EXPECT_EQ(standing(star, "Pump", Mode::open), Standing::found);
  EXPECT_GT(suspect(star, "Pump").now, 0.2) << "a wire of the plug reads so too";
  EXPECT_EQ(standing(ring, "Pump", Mode::open), Standing::found);
  EXPECT_EQ(standing(read("53.2 Ω", "53.2 Ω", "53.2 Ω"), "Pump", Mode::open), Standing::ruled_out);
}

// Between two ends of a star a break at the third is not seen, and it is between that and either of them. In
// a ring one reading shows a break in each element: the two sides of it lie side by side (Ohm's law).
TEST(Plan, An_element_that_no_test_reads_is_not_cleared_of_a_break_by_the_others) {
  const auto after_one = [](std::string_view part, std::string_view tests, std::string_view readings) {
    Changed_board bench{std::string(test::bench_profile)};
    bench.put(R"("kind": "winding", "name": "Pump")", part);
    bench.put(R"("connection": "start_run", "metal": "copper",)", "");
    bench.put(R"("kind": "copper", "at": "20 °C", "tolerance": "10 %", "pairs")",
              R"("kind": "fixed", "tolerance": "10 %", "pairs")");
    for (const char* old : {R"("44 Ω")", R"("16 Ω")", R"("60 Ω")"}) bench.put(old, R"("52.9 Ω")");
    bench.suspect(fmt::format(
        R"({{ "kind": "component", "component": "pump", "modes": ["open"], "decided_by": [{}] }})", tests));
    return standing(bench.desk().of({"E1"}, readings), "Pump", Mode::open);
  };
  const std::string_view both = R"("pump_cs", "pump_cr")", read_both = "pump_cs 53.2 Ω\npump_cr 53.2 Ω\n";
  const std::string_view heater = R"("kind": "heater", "name": "Pump", "element": "wire")";
  const std::string_view star = R"("kind": "winding", "name": "Pump", "connection": "star")";
  const std::string_view ring = R"("kind": "winding", "name": "Pump", "connection": "delta")";
  for (const std::string_view part : {heater, star}) {
    EXPECT_EQ(after_one(part, R"("pump_cs")", "pump_cs 53.2 Ω\n"), Standing::suspected) << part;
    EXPECT_EQ(after_one(part, both, "pump_cs 53.2 Ω\n"), Standing::suspected) << part;
    EXPECT_EQ(after_one(part, both, read_both), Standing::ruled_out) << part;
  }
  EXPECT_EQ(after_one(ring, R"("pump_cs")", "pump_cs 53.2 Ω\n"), Standing::ruled_out);
}

// Of a start and a run winding; where the run winding is not read, its break is left too, which a test would
// show.
TEST(Plan, Why_no_test_decides_is_said_of_the_failure_that_it_is_true_of) {
  const auto why = [](std::string_view tests) {
    Changed_board bench{std::string(test::bench_profile)};
    bench.suspect(fmt::format(
        R"({{ "kind": "component", "component": "pump", "modes": ["open"], "decided_by": [{}] }},
        {{ "kind": "component", "component": "pump", "modes": ["seized"], "not_decidable": "it turns" }})",
        tests));
    const Plan found = bench.desk().of({"E1"});
    return found.left.empty() ? "" : found.left[0].why;
  };
  EXPECT_EQ(why(R"("pump_cs")"), "seized: it turns");
  EXPECT_EQ(why(R"("pump_cs", "pump_cr")"), "it turns");
}

// The run winding, shorted, leaves what the start winding reads from the common end.
TEST(Plan, A_winding_that_no_test_reads_is_not_cleared_of_a_short_by_the_other) {
  Changed_board bench{std::string(test::bench_profile)};
  bench.suspect(
      R"({ "kind": "component", "component": "pump", "modes": ["short"], "decided_by": ["pump_cs"] })");
  EXPECT_EQ(standing(bench.desk().of({"E1"}, "pump_cs 44.3 Ω at 20 °C\n"), "Pump", Mode::short_),
            Standing::suspected);
}

// Of one whose second wire touches the third the two legs there lie side by side, and three quarters are left
// (Ohm's law).
TEST(Plan, A_wire_that_touches_a_third_leaves_a_part_of_what_its_only_test_reads) {
  Changed_board bench{std::string(test::bench_profile)};
  bench.put(R"("connection": "start_run")", R"("connection": "star")");
  for (const char* old : {R"("44 Ω")", R"("16 Ω")", R"("60 Ω")"}) bench.put(old, R"("40 Ω")");
  bench.suspect(
      R"({ "kind": "component", "component": "pump", "modes": ["shorted_turns"], "decided_by": ["pump_cs"] },
      { "kind": "harness", "connector": "X5", "modes": ["open", "short"], "decided_by": ["pump_cs"] })");
  const Plan touches = bench.desk().of({"E1"}, "pump_cs 30.3 Ω at 20 °C\n");
  EXPECT_EQ(standing(touches, "harness of X5", Mode::short_), Standing::found);
  EXPECT_EQ(standing(touches, "harness of X5", Mode::open), Standing::ruled_out);
  const Plan healthy = bench.desk().of({"E1"}, "pump_cs 40.3 Ω at 20 °C\n");
  EXPECT_EQ(standing(healthy, "harness of X5", Mode::short_), Standing::ruled_out);
}

// To look at them leaves dead testing, however likely they are.
TEST(Plan, Board_and_supply_are_looked_at_before_no_test) {
  const std::string_view cause =
      R"({ "kind": "cause", "cause": "air in the circuit", "not_decidable": "hydraulic" })";
  for (const char* kind : {"board", "supply"}) {
    std::string text(board);
    text.replace(text.find(cause), cause.size(),
                 fmt::format(R"({{ "kind": "{}", "not_decidable": "no dead test shows it" }})", kind));
    Desk desk;
    desk.read = read_json("board.profile.json", text);
    desk.resolved = resolve(desk.read.document, {});
    const Plan found = desk.of({"H2"});
    EXPECT_FALSE(found.steps.empty());
    for (const Plan_step& step : found.steps)
      EXPECT_TRUE(step.look_first.empty()) << kind << " " << step.test;
    EXPECT_FALSE(found.left.empty()) << "it remains for the end";
  }
  EXPECT_FALSE(Desk().of({"H2"}).steps.at(0).look_first.empty()) << "air comes first";
}

// A winding that lies on earth reads anything down to nothing there.
TEST(Plan, A_leak_to_earth_may_read_about_nothing) {
  Changed_board changed;
  changed.put(R"("ways": 1, "circuit": "mains")", R"("ways": 1, "circuit": "protective_earth")");
  changed.put(R"("coil_ohm": {)",
              R"("coil_earth": { "component": "coil", "unplug": "X5", "probes": ["X5.1", "X9.1"],
      "side": "at_board_plug", "expect": { "kind": "open", "above": "2 MΩ" }, "excludes": ["leakage_to_earth"],
      "effort": "low" },
    "coil_ohm": {)");
  changed.put(R"("component": "coil", "modes": ["open"], "decided_by": ["coil_ohm"] })",
              R"("component": "coil", "modes": ["leakage_to_earth"], "decided_by": ["coil_earth"] })");
  const Desk desk = changed.desk();
  for (const char* readings : {"coil_earth 0.4 Ω\n", "coil_earth 5.0 Ω\n", "coil_earth 300 kΩ\n"})
    EXPECT_EQ(standing(desk.of({"P1"}, readings), "Valve coil", Mode::leakage_to_earth), Standing::found)
        << readings;
}

// What was OL on the part is not taken back by a second reading at the plug, where a path beside it hid that.
TEST(Plan, What_was_hidden_at_the_plug_stays_so_when_it_is_read_there_again) {
  const Plan found = Desk().of({"H1"}, "flow_ohm 15.7 kΩ at 15 °C, on part OL\nflow_ohm 15.7 kΩ at 15 °C\n");
  EXPECT_EQ(standing(found, "Flow sensor", Mode::open), Standing::found);
  EXPECT_FALSE(says(found.conclusion, "no single failure"));
}

// One reading does not show what comes and goes, whatever else is wrong.
TEST(Plan, An_abnormal_reading_does_not_clear_what_comes_and_goes) {
  const Plan found = Desk().of({"H1"}, "flow_moved 5.00 kΩ at 20 °C\n");
  EXPECT_NE(standing(found, "Flow sensor", Mode::intermittent), Standing::ruled_out);
}

TEST(Plan, In_a_chain_no_reading_accuses_one_part_of_several) {
  const Plan open = Desk().of({"S1"}, "chain_cold OL\n");
  EXPECT_TRUE(says(open.conclusion, "read each by itself"));
  EXPECT_FALSE(says(open.conclusion, "on the part itself"));
  for (const char* readings : {"chain_cold OL, on part OL\n", "chain_cold OL, on part 0.3 Ω\n"}) {
    const Plan found = Desk().of({"S1"}, readings);
    EXPECT_EQ(standing(found, "Overheat thermostat", Mode::stuck_open), Standing::found) << readings;
    EXPECT_EQ(standing(found, "Flue cut-out", Mode::open), Standing::found) << readings;
    EXPECT_EQ(standing(found, "harness of X7", Mode::open), Standing::found) << readings;
    EXPECT_TRUE(says(found.conclusion, "on the part is left out"));
  }
}

// One of two in a row reads OL, and both together 0.4 Ω: somebody has bridged it, or the two were exchanged.
TEST(Plan, A_chain_that_is_closed_beside_a_part_that_is_open_is_told_of) {
  const Plan bridged = Desk().of({"S1"}, "chain_cold 0.4 Ω, on part OL\n");
  EXPECT_TRUE(says(bridged.conclusion, "a path that the part does not have"));
  EXPECT_TRUE(says(bridged.conclusion, "together these readings are not healthy"));
  EXPECT_FALSE(says(bridged.conclusion, "nothing abnormal"));
}

TEST(Plan, A_part_of_a_chain_that_was_read_between_its_own_contacts_is_read_by_itself) {
  std::string profile(board);
  const auto replace = [&](std::string_view old, const std::string& with) {
    profile.replace(profile.find(old), old.size(), with);
  };
  replace(R"("X9": {)",
          R"("TC": { "label": "TC", "ways": 2, "circuit": "mains", "pins": { "1": {}, "2": {} } }, "X9": {)");
  replace(R"("heater_ohm": {)",
          R"("cutout_alone": { "component": "cutout", "probes": ["TC.1", "TC.2"], "side": "at_component",
      "excludes": ["open"], "effort": "medium" }, "heater_ohm": {)");
  replace(R"("modes": ["open"], "decided_by": ["chain_cold"])",
          R"("modes": ["open"], "decided_by": ["chain_cold", "cutout_alone"])");
  replace(
      R"("name": "Flue cut-out", "between": ["X7.1", "X7.2"])",
      R"("name": "Flue cut-out", "between": ["TC.1", "TC.2"], "model": { "kind": "closed", "below": "1 Ω" })");
  Desk desk;
  desk.read = read_json("board.profile.json", profile);
  desk.resolved = resolve(desk.read.document, {});
  const Plan found = desk.of({"S1"}, "cutout_alone OL\n");
  EXPECT_EQ(standing(found, "Flue cut-out", Mode::open), Standing::found);
  EXPECT_TRUE(says(found.conclusion, "find what opened it"));
  EXPECT_FALSE(says(found.conclusion, "read each by itself"));
  EXPECT_TRUE(says(desk.of({"S1"}, "chain_cold OL\ncutout_alone 0.3 Ω\n").conclusion, "read each by itself"))
      << "which of what is left it is, this did not say";
  EXPECT_NE(text_report(desk.of({"S1"})).find("harness of X7: open. Rules out"), std::string::npos)
      << "a sentence begins with a capital letter";
}

TEST(Plan, What_explains_nothing_is_not_accused) {
  const Plan found = Desk().of({"S1"}, "chain_cold 4 Ω\n");
  EXPECT_TRUE(says(found.conclusion, "no single failure"));
  EXPECT_TRUE(says(found.conclusion, "or it is a failure that they do not name"));
  EXPECT_FALSE(says(found.conclusion, "two faults")) << "two listed ones do not read so either";
  EXPECT_TRUE(says(found.conclusion, "chain_cold by itself looks like high contact resistance"));
  EXPECT_FALSE(says(found.conclusion, "points to"));
  EXPECT_NE(standing(found, "lack of water", std::nullopt), Standing::found);
}

TEST(Plan, A_break_that_leaks_is_a_break) {
  const Plan found = Desk().of({"S1"}, "chain_cold 100 kΩ\n");
  EXPECT_EQ(standing(found, "Flue cut-out", Mode::open), Standing::found);
  EXPECT_EQ(standing(found, "Overheat thermostat", Mode::stuck_open), Standing::found);
  EXPECT_FALSE(says(found.conclusion, "no single failure"));
  const Plan coil = Desk().of({"amber_3"}, "coil_covered 300 kΩ\n");
  EXPECT_EQ(standing(coil, "Valve coil", Mode::open), Standing::found);
  EXPECT_FALSE(says(coil.conclusion, "no single failure"));
  // A sensor may as well have drifted so far: ten times its limit of some 14 kΩ at 20 °C.
  for (const auto& [shown, open] :
       {std::pair{"100 kΩ", Standing::ruled_out}, std::pair{"300 kΩ", Standing::found}}) {
    const Plan sensor = Desk().of({"H1"}, "flow_ohm " + std::string(shown) + " at 20 °C\n");
    EXPECT_EQ(standing(sensor, "Flow sensor", Mode::open), open) << shown;
  }
}

// A plan is laid down where its first lines accuse a part.
TEST(Plan, What_may_deceive_is_told_with_the_reading_and_not_after_the_last_test) {
  Changed_board bench{std::string(test::bench_profile)};
  bench.suspect(R"({ "kind": "component", "component": "flow", "modes": ["drift_high", "drift_low"],
        "decided_by": ["flow", "twins"] },
      { "kind": "harness", "connector": "X4", "modes": ["wet_or_corroded"], "decided_by": ["flow"] })");
  const Plan found = bench.desk().of({"E1"}, "twins 12.5 kΩ, twin 9.6 kΩ\n");
  EXPECT_FALSE(found.steps.empty());
  EXPECT_TRUE(says(found.conclusion, "points to Flow sensor: drift high"));
  EXPECT_TRUE(says(found.conclusion, "\"return\" may be off the other way"));
}

TEST(Plan, Of_a_reading_with_another_prefix_says_what_it_may_have_been) {
  EXPECT_TRUE(
      says(Desk().of({"H1"}, "flow_ohm 10.1 Ω at 25 °C\n").conclusion, "flow_ohm: 10.1 kΩ would be within"));
  EXPECT_FALSE(says(Desk().of({"H1"}, "flow_ohm 14 Ω at 25 °C\n").conclusion, "would be within"));
  EXPECT_TRUE(says(Desk().of({"H1"}, "flow_ohm 10.1 kΩ at 25 °C, on part 10.1 Ω\n").conclusion,
                   "flow_ohm: on the part 10.1 kΩ would be within"));
}

// Nothing is too high where at least 2 MΩ is asked for.
TEST(Plan, An_OL_below_the_least_that_is_healthy_may_be_too_low_only) {
  const Plan found = Desk().of({"H1"}, "cores OL 1 MΩ\n");
  EXPECT_TRUE(says(found.conclusion, "cores reads healthy or too low"));
  EXPECT_FALSE(says(found.conclusion, "too high"));
}

TEST(Plan, What_is_undecided_is_said_and_asked_again) {
  const Plan found = Desk().of({"H1"}, "flow_ohm 15.7 kΩ\n");
  EXPECT_TRUE(says(found.conclusion, "flow_ohm: undecided"));
  EXPECT_TRUE(says(found.conclusion, "temperature of the part"));
  EXPECT_FALSE(says(found.conclusion, "nothing abnormal has been read"));
  const Plan moved = Desk().of({"H1"}, "flow_moved 15.7 kΩ at 15 °C ± 1 K\n");
  EXPECT_TRUE(says(moved.conclusion, "flow_moved: undecided"));
  const std::vector<std::string> steps = line(moved);
  EXPECT_NE(std::find(steps.begin(), steps.end(), "flow_moved"), steps.end());
}

TEST(Plan, Hazards_of_the_profile_stand_among_the_cautions) {
  const Plan found = Desk().of({"H1"});
  EXPECT_TRUE(says(found.cautions, "generates when turned, Valve coil; a draught turns it"));
  EXPECT_TRUE(says(found.cautions, "hot surface, wait 20 min"));
  const std::string text = text_report(found);
  EXPECT_LT(text.find("hot surface"), text.find("1. flow_ohm"));
}

// For H1, of a file that holds the board with a contact that its connector does not have, and these members.
Plan_run plan_of_a_wrong_file(std::string_view members) {
  std::string text(board);
  text.replace(text.find("\"between\": [\"X4.1\""), 18, "\"between\": [\"X4.9\"");
  text.insert(text.find("\"safety\":"), members);
  const std::string path = fmt::format("{}ohmlore-plan-{}.profile.json", ::testing::TempDir(), getpid());
  std::ofstream(path, std::ios::binary) << text;
  Plan_request request;
  request.codes = {"H1"};
  Plan_run run = plan_file(path, request);
  std::filesystem::remove(path);
  return run;
}

TEST(Plan, Errors_of_the_profile_are_said_first) {
  const Plan_run run = plan_of_a_wrong_file("");
  ASSERT_TRUE(run.plan);
  EXPECT_FALSE(run.findings.empty());
  EXPECT_NE(run.plan->cautions.at(0).find("Do not rely on what it says"), std::string::npos);
}

TEST(Plan, A_code_whose_limits_nobody_knows_is_raised_by_its_sensor_all_the_same) {
  const auto said = [](std::string_view raised) {
    Changed_board changed;
    changed.put(R"("meaning": "flow sensor",)",
                fmt::format(R"("meaning": "flow sensor", "raised": {},)", raised));
    return changed.desk().of({"H1"}).codes.at(0).raised;
  };
  EXPECT_EQ(said(R"({ "component": "flow" })"), "by flow");
  EXPECT_EQ(said(R"({ "component": "flow", "after": "5 s" })"), "by flow, for 5 s");
  EXPECT_EQ(said(R"({ "component": "flow", "below": "350 Ω", "after": "5 s" })"),
            "below 350 Ω at flow, for 5 s");
  EXPECT_EQ(said("{}"), "");
}

// Who accepts what is impossible does not make a part that reads so.
TEST(Plan, An_error_that_is_waived_is_said_all_the_same) {
  const Plan_run run = plan_of_a_wrong_file(
      R"("waivers": [{ "rule": "pin-undeclared", "at": "/components/flow", "why": "looked at" }],)");
  ASSERT_TRUE(run.plan);
  EXPECT_EQ(run.plan->cautions.at(0),
            "Errors that ohmlore lint finds in this file: 1. Do not rely on what it says until they are "
            "mended, waived or not.");
}

TEST(Plan, A_cause_that_explains_one_of_two_codes_leaves_the_other) {
  const Plan found = Desk().of({"H2", "amber_3"}, "flow_ohm OL at 15 °C\n");
  EXPECT_TRUE(says(found.conclusion, "does not explain amber_3"));
}

TEST(Plan, A_test_that_the_codes_do_not_name_is_judged_and_left_out) {
  const Plan found = Desk().of({"H2"}, "coil_ohm 43 Ω at 20 °C\n");
  ASSERT_TRUE(found.readings);
  EXPECT_EQ(found.readings->judgements.size(), 1u);
  EXPECT_TRUE(says(found.remarks, "says nothing of these codes"));
  EXPECT_TRUE(says(Desk().of({"H2"}, "coil_omh 43 Ω at 20 °C\n").problems, "did you mean coil_ohm?"));
}

// What a healthy reading excludes is not left, what it does not is: `return_ohm` names open and short alone.
TEST(Plan, Of_a_part_only_those_failures_are_left_that_nothing_excludes) {
  std::string text(board);
  const std::string_view modes = R"("return", "modes": ["open", "short"])";
  text.replace(text.find(modes), modes.size(), R"("return", "modes": ["open", "drift_low"])");
  const Plan found = Desk{read_json("board.profile.json", text)}.of({"H2"});
  std::vector<Mode> left;
  for (const Plan_left& one : found.left)
    if (found.suspects.at(one.suspect).id == "return") left = one.modes;
  EXPECT_EQ(left, std::vector<Mode>{Mode::drift_low});
}

TEST(Plan, Outcomes_begin_with_the_healthy_one_and_then_the_likeliest) {
  for (const char* code : {"H1", "H2", "S1", "amber_3"})
    for (const Plan_step& step : Desk().of({code}).steps) {
      ASSERT_FALSE(step.outcomes.empty()) << step.test;
      EXPECT_EQ(step.outcomes[0].shown, std::vector<Showing>{Showing::healthy}) << step.test;
      for (std::size_t i = 2; i < step.outcomes.size(); ++i)
        EXPECT_LE(step.outcomes[i].probability, step.outcomes[i - 1].probability * (1 + 1e-9)) << step.test;
      double all = 0;
      for (const Plan_outcome& one : step.outcomes) all += one.probability;
      EXPECT_NEAR(all, 1, 0.012) << "but for what is too rare to be spoken of";
    }
}

// ---- codes, models

TEST(Plan, Codes_are_found_as_they_are_displayed) {
  const Desk desk;
  for (const char* code : {"amber_3", "amber 3 flashes", "3 flashes", "Amber 3 Flashes"}) {
    const Plan found = desk.of({code});
    ASSERT_EQ(found.codes.size(), 1u) << code;
    EXPECT_EQ(found.codes[0].id, "amber_3");
  }
  const Plan both = desk.of({"P.01"});
  EXPECT_EQ(both.codes.size(), 2u);
  EXPECT_TRUE(says(both.remarks, "means more than one thing"));
  Plan_request request;
  request.codes = {"P.01"};
  request.software = "3.0";
  EXPECT_EQ(desk.with(request).codes.at(0).id, "P2");
  request.codes = {"P1"};
  EXPECT_TRUE(says(desk.with(request).problems, "it belongs to software 2.1"));
  // What no code limits is of every software that the controller has, and of no other.
  request.codes = {"H1"};
  EXPECT_EQ(desk.with(request).codes.at(0).id, "H1");
  EXPECT_FALSE(says(desk.with(request).remarks, "means more than one thing"));
  request.software = "9.9";
  EXPECT_TRUE(says(desk.with(request).problems, "has no software \"9.9\"; it has 2.1, 3.0"));
  EXPECT_TRUE(desk.with(request).codes.empty());
  // The text without its subcode, and whatever parts the two.
  for (const char* code : {"P", "P_01", "P,01", "P/01", "P:01", "P-01", "p 01"})
    EXPECT_EQ(desk.of({code}).codes.size(), 2u) << code;
  EXPECT_TRUE(says(desk.of({"H22"}).problems, "did you mean H2?"));
  EXPECT_TRUE(says(desk.of({"Z99"}).problems, "it has H1, H2"));
}

TEST(Plan, What_another_model_has_is_left_out) {
  Plan_request request;
  request.codes = {"P2"};
  const Desk desk;
  EXPECT_TRUE(says(desk.with(request).remarks, "--model"));
  EXPECT_EQ(desk.with(request).suspects.size(), 2u);
  request.model = "Larch 24 C";
  const Plan small = desk.with(request);
  EXPECT_EQ(small.suspects.size(), 1u);
  EXPECT_EQ(line(small), (std::vector<std::string>{"coil_covered"}));
  request.model = "Larch 25";
  EXPECT_TRUE(says(desk.with(request).problems, "it has Larch 24 C, Larch 30 C"));
}

TEST(Plan, A_code_of_another_model_is_none_of_this_one) {
  std::string text(board);
  const std::string_view meaning = R"("meaning": "flow sensor",)";
  text.insert(text.find(meaning), R"("when": { "models": ["Larch 30 C"] }, )");
  const Desk desk{read_json("board.profile.json", text)};
  Plan_request request;
  request.codes = {"H1"};
  request.model = "Larch 30 C";
  EXPECT_EQ(desk.with(request).codes.size(), 1u);
  request.model = "Larch 24 C";
  EXPECT_TRUE(says(desk.with(request).problems, "it belongs to models Larch 30 C"));
  EXPECT_TRUE(desk.with(request).codes.empty());
}

// ---- outputs

TEST(Plan, Every_output_carries_all_cautions_and_the_same_bytes_twice) {
  const Desk desk;
  const Plan found = desk.of({"H1"}, "flow_ohm OL at 15 °C\n");
  const Job record = record_of(desk.resolved, found, {});
  const std::string text = text_report(found), json = json_report(found), job = json_report(record),
                    markdown = markdown_report(record);
  for (const Caution& caution : cautions()) {
    const std::string begin(caution.text.substr(0, 30));
    for (const std::string* output : {&text, &json, &job, &markdown})
      EXPECT_NE(output->find(begin), std::string::npos) << caution.id << "\n" << *output;
  }
  EXPECT_NE(text.find("leaves dead testing"), std::string::npos);
  EXPECT_EQ(text_report(desk.of({"H1"}, "flow_ohm OL at 15 °C\n")), text);
  EXPECT_EQ(json_report(desk.of({"H1"}, "flow_ohm OL at 15 °C\n")), json);
}

// Of a program that has °C where kelvin are asked for, every reading was to be at -253 °C.
TEST(Plan, A_temperature_that_no_parser_gives_is_refused) {
  Plan_request request;
  request.codes = {"H1"};
  request.temperature = Part_temperature{};
  const Desk desk;
  EXPECT_TRUE(desk.with(request).problems.empty());
  request.temperature->kelvin = 20;
  EXPECT_TRUE(desk.with(request).steps.empty());
  EXPECT_TRUE(says(desk.with(request).problems, "-253.1 °C is no temperature that a part has"));
}

// An application may fill in a plan of its own.
TEST(Plan, An_outcome_that_shows_nothing_is_printed) {
  Plan empty;
  empty.steps.emplace_back().outcomes.emplace_back().words = "neither";
  EXPECT_NE(text_report(empty).find("if neither"), std::string::npos) << text_report(empty);
}

// ---- the record of a job

TEST(Job, Of_what_is_no_profile_nothing_is_said) {
  const Read_result read = read_json("board.profile.json", "{");
  const Resolved resolved = resolve(read.document, {});
  Job before;
  before.profile = "board";
  EXPECT_EQ(of_another_profile(before, resolved), "");
  EXPECT_TRUE(changes_since(before, resolved).empty());
  EXPECT_EQ(record_of(resolved, plan(resolved, {{"H1"}, {}, {}, {}, {}}), before).profile, "board");
}

// Notes of supplies together make a caution that is longer than a text of a document may be.
TEST(Job, A_record_with_long_cautions_reads_back) {
  std::string noted(board);
  const std::string_view supply = R"({ "kind": "mains", "isolate_at": "fused spur", "enters_at": ["X9.1"] })";
  const std::string more =
      fmt::format(R"(, {{ "kind": "mains", "isolate_at": "meter", "note": "{:ä>1000}" }})", "");
  noted.replace(noted.find(supply), supply.size(), std::string(supply) + more + more);
  const Read_result read = read_json("board.profile.json", noted);
  const Resolved resolved = resolve(read.document, {});
  const Plan found = plan(resolved, {{"H1"}, {}, {}, {}, {}});
  ASSERT_GT(found.cautions.at(1).size(), most_text);
  const Job_read back = read_job("job.json", json_report(record_of(resolved, found, {})));
  ASSERT_TRUE(back.job) << (back.findings.empty() ? "" : back.findings[0].message);
  std::string said, recorded;
  for (const std::string& one : found.cautions) said += one;
  for (const std::string& one : back.job->cautions) recorded += one;
  std::erase(said, ' ');
  std::erase(recorded, ' ');
  EXPECT_EQ(recorded, said);
}

TEST(Job, A_record_reads_back_as_it_was_written) {
  const Desk desk;
  Job_read read = read_job("list", "flow_ohm 15.7 kΩ at 15 °C ± 1 K, answers # remark\n\nreturn_ohm OL\r\n");
  ASSERT_TRUE(read.job);
  Job job = *read.job;
  job.who = "engineer | 12";
  job.serial = "41 \"2\"";
  job.proved_dead = {{"X9.1", "5521", "no voltage", true, {}}};
  job.calibrated = "2026-03";
  job.readings[0].taken = "on_part";
  job.readings[0].minutes_since_running = 400;
  job.replaced = {{"flow", "S-1", ""}};
  std::vector<std::string> problems;
  Plan_request request;
  request.codes = {"H1"};
  request.readings = readings_of(job, problems);
  ASSERT_TRUE(problems.empty());
  const Job record = record_of(desk.resolved, plan(desk.resolved, request), job);
  EXPECT_EQ(record.board, "OV-4410");
  EXPECT_EQ(record.hash.substr(0, 7), "sha256:") << "end_to_end/plan compares it with sha256sum";
  EXPECT_TRUE(changes_since(record, desk.resolved).empty());
  const Read_result altered = read_json("board.profile.json", std::string(board) + "\n");
  EXPECT_TRUE(says(changes_since(record, resolve(altered.document, {})), "another file of the profile"));
  EXPECT_EQ(record.stored_charge.at(0).where, "X5.1 and X5.2");
  EXPECT_EQ(record.readings[0].result, Conformity::within);
  EXPECT_EQ(record.readings[1].result, Conformity::outside);
  EXPECT_EQ(record.readings[1].side, "at_board_plug");
  const std::string json = json_report(record);
  const Job_read back = read_job("job.json", json);
  ASSERT_TRUE(back.job) << (back.findings.empty() ? "" : back.findings[0].message);
  EXPECT_EQ(json_report(*back.job), json);
  const auto again = readings_of(*back.job, problems);
  ASSERT_EQ(again.size(), 2u);
  EXPECT_EQ(again[0].temperature->place, Temperature_place::on_part);
  EXPECT_EQ(again[0].answered, true);
  EXPECT_NE(markdown_report(record).find("engineer \\| 12"), std::string::npos);
  EXPECT_NE(markdown_report(record).find("return to service: **not decided here**"), std::string::npos);
}

TEST(Job, What_somebody_wrote_into_a_record_counts) {
  const auto read = [](Job_reading reading, std::vector<std::string>& problems) {
    Job job;
    job.readings = {std::move(reading)};
    return readings_of(job, problems);
  };
  Job_reading reading;
  reading.test = "flow_ohm";
  reading.range = "6 kΩ";
  std::vector<std::string> problems;
  for (const char* over : {"OL", "0L", "ol"}) {
    reading.reading = over;
    EXPECT_EQ(read(reading, problems).at(0).reading.ohm, 6e3) << over;
  }
  EXPECT_TRUE(problems.empty());
  reading.minutes_since_running = 5;
  EXPECT_TRUE(read(reading, problems).empty()) << "it is not at room temperature";
  EXPECT_TRUE(says(problems, "write the temperature of the part"));
  reading.temperature = "40 °C ± 1 K";
  EXPECT_EQ(read(reading, problems).at(0).temperature->minutes_since_running, 5);
  reading.minutes_since_running = -5;
  EXPECT_TRUE(read(reading, problems).empty()) << "it would be warmer than when it ran";
  EXPECT_TRUE(says(problems, "-5 min is in the future"));

  const Desk desk;
  Job job;
  job.readings = {reading};
  const auto changes = [&](std::string side, std::string probes) {
    job.readings[0].side = std::move(side);
    job.readings[0].probes = std::move(probes);
    return changes_since(job, desk.resolved);
  };
  EXPECT_TRUE(changes("", "").empty());
  EXPECT_TRUE(changes("at_board_plug", "X4.1 to X4.2").empty());
  EXPECT_TRUE(changes("at the plug", "X4.2 and X4.1").empty()) << "in words of its own";
  EXPECT_TRUE(says(changes("at_component", "X4.1 to X4.2"), "was read at component by the record"));
  EXPECT_TRUE(says(changes("at_board_plug", "X4.3 to X4.4"), "was read on X4.3 to X4.4 by the record"));
  EXPECT_TRUE(says(changes("at_board_plug", "X4.12 to X4.2"), "was read on X4.12 to X4.2 by the record"));
}

// Of what must rise, an OL says half; whoever saw it rise has said the other.
TEST(Plan, One_direction_of_two_is_undecided) {
  Desk desk;
  std::string text(board);
  const std::string_view old = R"("probes": ["X5.1", "X5.2"], "side": "at_board_plug",)";
  text.replace(
      text.find(old), old.size(),
      std::string(old) +
          R"( "expect": { "kind": "both_directions", "min": "40 Ω", "max": "46 Ω", "reverse_min": "1 kΩ" },)");
  desk.read = read_json("board.profile.json", text);
  desk.resolved = resolve(desk.read.document, {});
  const Plan half = desk.of({"P1"}, "coil_ohm 43.3 Ω at 20 °C\n"),
             both = desk.of({"P1"}, "coil_ohm 43.3 Ω at 20 °C, reversed OL\n");
  EXPECT_TRUE(says(half.conclusion, "exchange the leads"));
  EXPECT_EQ(line(half), (std::vector<std::string>{"coil_ohm"})) << "asked again";
  EXPECT_TRUE(says(both.conclusion, "nothing abnormal"));
  const Plan one_way = desk.of({"P1"}, "coil_ohm OL\n");
  EXPECT_FALSE(says(one_way.conclusion, "points to")) << "the leads may lie the other way round";
  EXPECT_EQ(line(one_way), (std::vector<std::string>{"coil_ohm"})) << "asked again";
  const Plan exchanged = desk.of({"P1"}, "coil_ohm OL, reversed 43.3 Ω\n");
  EXPECT_TRUE(says(exchanged.conclusion, "each reading is what the other should be"));
  EXPECT_EQ(line(exchanged), (std::vector<std::string>{"coil_ohm"})) << "asked again";
}

TEST(Plan, A_coil_behind_a_rectifier_may_read_open_and_be_good) {
  Desk desk;
  EXPECT_FALSE(says(desk.of({"P1"}, "coil_ohm OL\n").conclusion, "with a meter of low test voltage"));
  std::string text(board);
  const std::string_view old = R"("drive": "dc")";
  text.replace(text.find(old), old.size(), R"("drive": "rectified")");
  desk.read = read_json("board.profile.json", text);
  desk.resolved = resolve(desk.read.document, {});
  EXPECT_TRUE(says(desk.of({"P1"}, "coil_ohm OL\n").conclusion, "with a meter of low test voltage"));
}

TEST(Plan, Of_a_coil_with_a_diode_across_it_the_higher_reading_counts) {
  Changed_board changed;
  changed.put(R"("suppression": "none")", R"("suppression": "diode")");
  changed.put(R"("43 Ω")", R"("4.30 kΩ")");
  changed.put(R"("modes": ["open"], "decided_by": ["coil_ohm"])",
              R"("modes": ["open", "shorted_turns"], "decided_by": ["coil_ohm"])");
  const Desk desk = changed.desk();
  EXPECT_TRUE(says(desk.of({"P1"}, "coil_ohm 3.80 kΩ at 20 °C\n").conclusion, "the diode across the coil"));
  EXPECT_FALSE(says(desk.of({"P1"}, "coil_ohm OL at 20 °C\n").conclusion, "the diode across the coil"));
}

// Behind diodes a short may read OL with a meter of low test voltage, a broken coil does with any; more than
// a good one a short never reads.
TEST(Plan, Behind_a_rectifier_OL_is_rather_open_and_too_high_is_no_short) {
  Changed_board changed;
  changed.put(R"("drive": "dc")", R"("drive": "rectified")");
  changed.put(R"("modes": ["open"], "decided_by": ["coil_ohm"])",
              R"("modes": ["short", "open"], "decided_by": ["coil_ohm"])");
  const Desk desk = changed.desk();
  const Plan open = desk.of({"P1"}, "coil_ohm OL\n");
  EXPECT_TRUE(says(open.conclusion, "points to Valve coil: open, short"))
      << fmt::format("{}", fmt::join(open.conclusion, "\n"));
  EXPECT_EQ(suspect(open, "Valve coil").modes.at(0).mode, Mode::open);
  const Plan two = desk.of({"P1", "H1"}, "coil_ohm OL\nflow_ohm OL at 20 °C\n");
  EXPECT_TRUE(says(two.conclusion, "coil_ohm by itself points to Valve coil: open, short"))
      << fmt::format("{}", fmt::join(two.conclusion, "\n"));
  EXPECT_EQ(standing(desk.of({"P1"}, "coil_ohm 80 Ω at 20 °C\n"), "Valve coil", Mode::short_),
            Standing::suspected)
      << "nothing that is listed reads so";
  EXPECT_EQ(standing(desk.of({"P1"}, "coil_ohm 20 Ω at 20 °C\n"), "Valve coil", Mode::short_),
            Standing::found);
}

TEST(Plan, What_was_seen_by_eye_counts_in_the_verdict) {
  Desk desk;
  std::string text(board);
  const std::string_view old = R"("expect": { "kind": "open", "above": "2 MΩ" })";
  text.replace(text.find(old), old.size(), R"("expect": { "kind": "rises_to_open", "above": "2 MΩ" })");
  desk.read = read_json("board.profile.json", text);
  desk.resolved = resolve(desk.read.document, {});
  const auto result = [&](const char* reading) {
    return desk.of({"H1"}, reading).readings.value().judgements.at(0).result;
  };
  EXPECT_EQ(result("cores OL\n"), Conformity::too_close);
  EXPECT_EQ(result("cores OL, answers\n"), Conformity::within);
  EXPECT_EQ(result("cores OL, does not answer\n"), Conformity::outside);
}

TEST(Job, What_is_no_record_is_said_with_its_place) {
  const auto problem = [](std::string_view text) {
    const Job_read read = read_job("job", text);
    EXPECT_FALSE(read.job) << text;
    return !read.findings.empty() ? read.findings[0].message : read.problems.empty() ? "" : read.problems[0];
  };
  const auto has = [&](std::string_view text, std::string_view part) {
    EXPECT_NE(problem(text).find(part), std::string::npos) << problem(text);
  };
  has("", "no reading stands in it");
  has("flow_ohm\n", "job:1: a line is a test and what the meter showed");
  has("\nflow_ohm 3 kΩ, at part 4 kΩ", "job:2: \"at part 4 kΩ\" is none of");
  has("flow_ohm 15,25 kΩ at 15 °C", "job:1: a comma stands within a number of \"15,25 kΩ at 15 °C\"");
  has("flow_ohm 15.25 kΩ at 15,5 °C, answers", "a comma stands within a number");
  has("flow_ohm 3 kΩ, on part", "job:1: \"on part\" comes without a reading");
  has("flow_ohm 3 kΩ, answers, does not answer", "job:1: \"does not answer\" is the second of its kind");
  has("flow_ohm 3 kΩ, on part 4 kΩ, on part OL", "job:1: \"on part OL\" is the second of its kind");
  has("{", "");
  has(R"({"format": "ohmlore-job/1.0"})", "needs `profile`");
  const std::string head =
      R"({"format": "ohmlore-job/1.0", "profile": "board", "cautions": ["c"], "codes": ["H1"],
    "return_to_service": "not decided here", "readings": )";
  has(head + R"([{"test": "flow_ohm", "raeding": "3 kΩ"}]})", "did you mean \"reading\"?");
  has(R"({"format": "ohmlore-job/9.0", "profile": "board", "cautions": ["c"], "codes": ["H1"],
    "return_to_service": "not decided here", "readings": []})",
      "ohmlore-job/1.0");
  has(R"({"format": "ohmlore/1.0", "kind": "profile"})", "is not a record of a job that this program reads");
  EXPECT_EQ(read_job("job", R"({"format": "ohmlore/1.0", "kind": "profile"})").findings.size(), 1u);
  std::vector<std::string> problems;
  const Job_read unit = read_job("job", head + R"([{"test": "flow_ohm", "reading": "42"}]})");
  ASSERT_TRUE(unit.job);
  EXPECT_TRUE(readings_of(*unit.job, problems).empty());
  EXPECT_TRUE(says(problems, "flow_ohm, reading: \"42\" has no unit"));
}

// exp(5.6 / 2 (T + 298.15 - 656.3) (1 / T - 1 / 298.15)), see tests/unit/judge.cpp: 0.581 at 213.15 K,
// 0.963 at 283.15 K, the worst of the temperatures that are shown.
TEST(Plan, What_is_doubtful_of_the_limits_is_said_once) {
  const Desk desk;
  Plan_request request;
  request.codes = {"H1"};
  const auto count = [&](std::string_view part) {
    const Plan found = desk.with(request);
    return std::count_if(found.remarks.begin(), found.remarks.end(),
                         [&](const std::string& remark) { return remark.find(part) != std::string::npos; });
  };
  EXPECT_EQ(count("Flow sensor: The band is that of one B-value"), 1);
  EXPECT_EQ(count("a healthy one may lie up to 3.7 % below such a curve at 10 °C"), 1);
  EXPECT_EQ(count("with doubt"), 0);
  request.temperature = Part_temperature{zero_celsius - 60, 1, {}, {}};
  EXPECT_EQ(count("a healthy one may lie up to 42 % below such a curve at -60 °C"), 1);
  EXPECT_EQ(count("Flow sensor at -60 °C: computed beyond -40 °C to 200 °C: take it with doubt"), 1);
  request.temperature = Part_temperature{zero_celsius + 25, 1, {}, {}};
  EXPECT_EQ(count("Flow sensor"), 0);
}

// At 10 °C such a sensor reads 20 kΩ: what holds at 25 °C alone is said with that.
TEST(Plan, Limits_of_one_temperature_are_shown_at_that) {
  const std::string model =
      R"("model": { "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_between": "25 °C to 85 °C" })";
  const std::string row =
      R"("model": { "kind": "table", "rows": [{ "at": "25 °C", "nominal": "10 kΩ", "tolerance": "2 %" }] })";
  const std::string flow = R"("service_limit": "3 K", "orderable": "S-1",)";
  const std::string test = R"("flow_ohm": { "component": "flow",)";
  const auto report = [&](std::string_view own_model, std::string_view expected) {
    std::string text(board);
    text.replace(text.find(model), model.size(), own_model);
    if (own_model.empty()) text.replace(text.find(flow), flow.size(), R"("orderable": "S-1")");
    text.insert(text.find(test) + test.size(), expected);
    Desk desk;
    desk.read = read_json("board.profile.json", text);
    desk.resolved = resolve(desk.read.document, {});
    return text_report(desk.of({"H1"}));
  };
  const std::string of_test =
      report("", R"( "expect": { "kind": "band", "nominal": "10 kΩ", "tolerance": "5 %", "at": "25 °C" },)");
  EXPECT_NE(of_test.find("should read  9.5 kΩ to 10.5 kΩ at 25 °C\n"), std::string::npos) << of_test;
  // ± 3 K of B = 3950 K, see tests/unit/judge_limits.cpp
  const std::string of_row = report(row, "");
  EXPECT_NE(of_row.find("should read  8.763 kΩ to 11.45 kΩ at 25 °C (service limit ± 3 K)"),
            std::string::npos)
      << of_row;
  const std::string of_range =
      report("", R"( "expect": { "kind": "band", "min": "9 kΩ", "max": "12 kΩ", "at": "20 °C to 25 °C" },)");
  EXPECT_NE(of_range.find("should read  9 kΩ to 12 kΩ (at 20 °C to 25 °C)\n"), std::string::npos) << of_range;
}

TEST(Plan, Says_whose_limit_it_is) {
  const auto words = [](std::string_view limit) {
    const std::string own = R"("service_limit": "3 K", "orderable")";
    std::string text(board);
    text.replace(text.find(own), own.size(), fmt::format(R"({}"orderable")", limit));
    const auto read = read_json("board.profile.json", text);
    const auto resolved = resolve(read.document, {});
    Plan_request request;
    request.codes = {"H1"};
    return plan(resolved, request).steps.at(0).limit_words;
  };
  EXPECT_EQ(words(R"("service_limit": "3 K", )"), "service limit ± 3 K");
  EXPECT_EQ(words(""), "± 3 K for sensors that state no service limit (common practice)");
}

TEST(Plan, Is_none_where_no_code_is_named) { EXPECT_TRUE(says(Desk().of({}).problems, "no code is named")); }

TEST(Plan, Says_where_nothing_that_is_named_remains) {
  EXPECT_NE(text_report(Desk().of({"amber_3"})).find("there remain:\n  - nothing that the profile names\n"),
            std::string::npos);
  EXPECT_EQ(text_report(Desk().of({"H1"})).find("nothing that the profile names"), std::string::npos);
}

// Leads of 1 Ω ± 0.1 Ω: at 0.5 Ω the usual meter is off by 0.304 Ω, and no path reads less than 0.596 Ω with
// them.
TEST(Plan, What_reads_less_than_the_leads_is_no_evidence) {
  const Desk desk;
  Plan_request request;
  request.codes = {"S1"};
  std::vector<std::string> problems;
  request.readings = readings_of(*read_job("readings", "chain_cold 0.5 Ω").job, problems);
  Judge_means means;
  Job record;
  record.leads = "1 Ω ± 0.1 Ω";
  add_means(record, means, problems);
  ASSERT_TRUE(problems.empty()) << problems[0];
  const Plan found = plan(desk.resolved, request, means);
  EXPECT_TRUE(says(found.problems, "0.5 Ω is less than the leads alone, 1 Ω"));
  EXPECT_TRUE(plan(desk.resolved, request).problems.empty());
  // What was assumed is not written down as measured.
  EXPECT_EQ(record_of(desk.resolved, plan(desk.resolved, request), {}).leads, "");
  Plan_request readable = request;
  readable.readings[0].reading.ohm = 1.5;
  EXPECT_EQ(record_of(desk.resolved, plan(desk.resolved, readable, means), {}).leads, "1 Ω ± 0.1 Ω");
  record.leads = "0.2";
  Judge_means none;
  add_means(record, none, problems);
  EXPECT_TRUE(says(problems, "leads: \"0.2\" has no unit; write \"0.2 Ω\""));
}

// planning.md: more than 20,000 failures times tests are refused. 64 suspects of 4 modes with as many tests,
// and what the profile does not name: 257 · 64 = 16,448; of 6 modes 24,640.
TEST(Plan, Refuses_what_is_too_much_to_put_in_order) {
  const auto planned = [](std::string_view modes) {
    std::string text(board.substr(0, board.find(R"("connectors")")));
    std::string pins, components, tests, suspects;
    for (int i = 1; i <= 64; ++i) {
      const char* comma = i == 1 ? "" : ", ";
      pins += fmt::format(R"({0}"{1}": {{}}, "{2}": {{}})", comma, i, i + 64);
      components += fmt::format(
          R"({0}"c{1}": {{ "kind": "ntc", "name": "Sensor {1}", "between": ["X1.{1}", "X1.{2}"] }})", comma,
          i, i + 64);
      tests += fmt::format(
          R"({0}"t{1}": {{ "component": "c{1}", "unplug": "X1", "probes": ["X1.{1}", "X1.{2}"], "side": "at_board_plug",
             "expect": {{ "kind": "band", "min": "9 kΩ", "max": "11 kΩ", "at": "25 °C" }} }})",
          comma, i, i + 64);
      suspects += fmt::format(
          R"({0}{{ "kind": "component", "component": "c{1}", "modes": [{2}], "decided_by": ["t{1}"] }})",
          comma, i, modes);
    }
    text += fmt::format(
        R"("connectors": {{ "X1": {{ "label": "X1", "ways": 128, "circuit": "selv", "pins": {{ {} }} }} }},
      "components": {{ {} }}, "tests": {{ {} }}, "faults": {{ "H1": {{ "display": {{ "kind": "text", "text": "H1" }},
      "meaning": "sensors", "suspects": [{}] }} }} }})",
        pins, components, tests, suspects);
    const Read_result read = read_json("board.profile.json", text);
    EXPECT_TRUE(read.findings.empty()) << read.findings[0].message;
    const Resolved resolved = resolve(read.document, {});
    Plan_request request;
    request.codes = {"H1"};
    return plan(resolved, request);
  };
  EXPECT_TRUE(planned(R"("open", "short", "drift_high", "drift_low")").problems.empty());
  const Plan refused =
      planned(R"("open", "short", "drift_high", "drift_low", "intermittent", "wet_or_corroded")");
  EXPECT_TRUE(says(refused.problems, "385 failures and 64 tests are too many to put in order at once"));
  EXPECT_TRUE(refused.steps.empty());
}

TEST(Plan, What_is_no_profile_is_told) {
  const Read_result read = read_json("x.json", "{");
  Plan_request request;
  request.codes = {"H1"};
  const Plan none = plan(resolve(read.document, {}), request);
  ASSERT_EQ(none.problems.size(), 1u);
  EXPECT_EQ(none.problems[0], "there is nothing to plan by: the document is no profile");
  EXPECT_TRUE(none.steps.empty());
  EXPECT_GE(none.cautions.size(), cautions().size());
}

// planning.md: what several codes suspect counts for each of them, up to 1,000,000. Here one part by all 16
// modes of 700 codes and 100 tests.
TEST(Plan, Refuses_what_is_too_much_to_look_at) {
  std::string tests, faults;
  for (int i = 0; i < 100; ++i)
    tests += fmt::format(
        R"({0}"t{1}": {{ "component": "c", "unplug": "X1", "probes": ["X1.1", "X1.2"], "side": "at_board_plug",
           "expect": {{ "kind": "band", "min": "9 kΩ", "max": "11 kΩ", "at": "25 °C" }} }})",
        i == 0 ? "" : ", ", i);
  std::string modes;
  for (const Word& mode : Mode_words.words)
    modes += fmt::format("{}\"{}\"", modes.empty() ? "" : ", ", mode.text);
  Plan_request request;
  for (int i = 0; i < 700; ++i) {
    request.codes.push_back(fmt::format("H{}", i));
    faults += fmt::format(
        R"({0}"H{1}": {{ "display": {{ "kind": "text", "text": "H{1}" }}, "meaning": "sensor", "suspects": [
           {{ "kind": "component", "component": "c", "modes": [{2}], "decided_by": ["t{3}"] }}] }})",
        i == 0 ? "" : ", ", i, modes, i % 100);
  }
  const std::string text =
      std::string(board.substr(0, board.find(R"("connectors")"))) +
      fmt::format(
          R"("connectors": {{ "X1": {{ "label": "X1", "ways": 2, "circuit": "selv", "pins": {{ "1": {{}}, "2": {{}} }} }} }},
        "components": {{ "c": {{ "kind": "ntc", "name": "Sensor", "between": ["X1.1", "X1.2"] }} }},
        "tests": {{ {} }}, "faults": {{ {} }} }})",
          tests, faults);
  const Read_result read = read_json("board.profile.json", text);
  EXPECT_TRUE(read.findings.empty()) << read.findings[0].message;
  const Resolved resolved = resolve(read.document, {});
  EXPECT_TRUE(
      says(plan(resolved, request).problems,
           "11200 failures and 100 tests are too many to put in order at once: plan for fewer codes"));
  request.codes.resize(100);
  EXPECT_TRUE(plan(resolved, request).problems.empty());
}

}
}
