// What the tests of a fault tell apart. The expected patterns are what the trade goes by (common practice, no
// source): an open part reads OL, a short nearly nothing, a broken wire shows at the withdrawn plug and not
// on the part.
#include "ohmlore/separation.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <limits>
#include <string>

#include "ohmlore/description.h"

namespace ohmlore {
namespace {

constexpr std::string_view head = R"({
  "format": "ohmlore/1.0", "kind": "profile", "id": "example", "revision": 1,
  "appliance": { "maker": "Orrinvale", "models": ["Larch 24 C"], "type": "combination_boiler", "fuel": "natural_gas",
                 "controller": { "part": "OV-4410" } },
  "safety": { "supplies": [{ "kind": "mains", "isolate_at": "fused spur" }] },
  "connectors": {
    "X4": { "label": "X4", "ways": 4, "circuit": "selv", "pins": { "1": {}, "2": {}, "3": {}, "4": {} } },
    "X5": { "label": "X5", "ways": 4, "circuit": "mains",
            "pins": { "1": {}, "2": {}, "3": {}, "4": { "circuit": "protective_earth" } } },
    "X6": { "label": "X6", "ways": 2, "circuit": "mains", "pins": { "1": { "links": ["X5.1"] }, "2": { "links": ["X5.2"] } } },
    "XI": { "label": "XI", "ways": 2, "mounted": "inline", "circuit": "selv", "pins": { "1": {}, "2": {} } }
  },)";

// One line a row: "suspect mode: shows outcome, shows outcome …".
std::string matrix(std::string_view rest) {
  const Read_result read = read_json("example.profile.json", std::string(head) + std::string(rest) + "}");
  for (const Finding& finding : read.findings)
    if (finding.severity == Severity::error) ADD_FAILURE() << finding.message;
  if (read.document.profile() == nullptr) return "no profile";
  const Resolved resolved = resolve(read.document, {});
  const Separation found = separation(resolved, read.document.profile()->faults.items[0].value);
  constexpr std::string_view shows[] = {"healthy", "open", "near_zero", "higher", "lower", "unsteady", "?"};
  constexpr std::string_view outcomes[] = {"passes", "fails", "either"};
  std::string out;
  for (const Suspected_mode& row : found.rows) {
    EXPECT_EQ(row.cells.size(), found.tests.size());
    const Suspect& suspect = *row.suspect;
    const Text name = suspect.component   ? *suspect.component
                      : suspect.connector ? *suspect.connector
                                          : word_of(*suspect.kind);
    out += fmt::format("{} {}:", name, row.mode ? word_of(*row.mode) : "-");
    for (const Cell& cell : row.cells)
      out += fmt::format(" {} {},", shows[static_cast<int>(cell.shows)],
                         outcomes[static_cast<int>(cell.outcome)]);
    if (!row.cells.empty()) out.pop_back();
    out += '\n';
  }
  return out;
}

constexpr std::string_view sensor = R"(
  "components": { "flow": { "kind": "ntc", "name": "Flow sensor", "between": ["X4.1", "X4.2"],
    "model": { "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K",
               "b_between": "25 °C to 85 °C" } } },)";

// A fault with one suspect after another, as JSON.
std::string fault(std::string_view suspects) {
  return fmt::format(R"("faults": {{ "F1": {{ "display": {{ "kind": "text", "text": "F1" }}, "meaning": "m",
    "suspects": [{}] }} }})",
                     suspects);
}

TEST(Separation, Of_what_is_no_profile_there_is_none) {
  const Read_result read = read_json("x.json", "{}");
  EXPECT_TRUE(separations(resolve(read.document, {})).empty());
}

TEST(Separation, A_broken_wire_shows_at_the_plug_and_not_on_the_part) {
  const std::string tests = R"("tests": {
    "at_plug": { "component": "flow", "probes": ["X4.1", "X4.2"], "side": "at_board_plug" },
    "on_part": { "component": "flow", "probes": ["X4.1", "X4.2"], "side": "at_component" },
    "wires": { "component": "flow", "probes": ["X4.1", "XI.1"], "side": "harness",
               "expect": { "kind": "closed", "below": "1 Ω" } } },)";
  EXPECT_EQ(matrix(std::string(sensor) + tests + fault(R"(
    { "kind": "component", "component": "flow", "modes": ["open", "short", "drift_high", "drift_low"],
      "decided_by": ["at_plug", "on_part"] },
    { "kind": "harness", "connector": "X4", "modes": ["open", "short", "high_contact_resistance"],
      "decided_by": ["at_plug", "wires"] },
    { "kind": "board", "not_decidable": "no dead test shows it" },
    { "kind": "cause", "cause": "air", "not_decidable": "hydraulic" })")),
            "flow open: open fails, open fails, healthy passes\n"
            "flow short: near_zero fails, near_zero fails, healthy passes\n"
            "flow drift_high: higher fails, higher fails, healthy passes\n"
            "flow drift_low: lower fails, lower fails, healthy passes\n"
            // the two tests of X4 touch different wires of it: a broken one need not be in each
            "X4 open: open either, healthy passes, open either\n"
            "X4 short: near_zero either, healthy passes, near_zero passes\n"
            "X4 high_contact_resistance: higher either, healthy passes, higher either\n"
            "board -: healthy passes, healthy passes, healthy passes\n"
            "cause -: healthy passes, healthy passes, healthy passes\n");
}

TEST(Separation, The_wire_of_the_only_pair_is_the_suspected_one) {
  const std::string tests = R"("tests": {
    "at_plug": { "component": "flow", "probes": ["X4.1", "X4.2"], "side": "at_board_plug" },
    "at_inline": { "component": "flow", "probes": ["XI.1", "XI.2"], "side": "at_inline_connector" } },)";
  EXPECT_EQ(matrix(std::string(sensor) + tests + fault(R"(
    { "kind": "harness", "connector": "X4", "modes": ["open", "high_contact_resistance"], "decided_by": ["at_plug"] },
    { "kind": "harness", "connector": "XI", "modes": ["open"], "decided_by": ["at_inline"] },
    { "kind": "harness", "connector": "X5", "modes": ["open"] },
    { "kind": "harness", "connector": "X4" })")),
            "X4 open: open fails, healthy passes\n"
            // some ohms more need not leave the band of a sensor
            "X4 high_contact_resistance: higher either, healthy passes\n"
            "XI open: ? either, open fails\n"
            "X5 open: healthy passes, healthy passes\n"
            "X4 -: ? either, healthy passes\n");
}

// Two coils of 100 Ω in parallel read 50 Ω, and 100 Ω while one is open; a resistor of 4.7 kΩ beside a float
// switch shows a closed one, an open one and a broken wire apart.
TEST(Separation, Of_a_chain_with_models_says_what_it_reads) {
  const std::string parts = R"("components": {
      "one": { "kind": "coil", "name": "First valve",
               "model": { "kind": "copper", "resistance": "100 Ω", "at": "20 °C", "tolerance": "5 %" } },
      "two": { "kind": "coil", "name": "Second valve",
               "model": { "kind": "copper", "resistance": "100 Ω", "at": "20 °C", "tolerance": "5 %" } },
      "float": { "kind": "switch", "name": "Float", "contacts": "no" } },
    "circuits": {
      "valves": { "between": ["X4.1", "X4.2"], "arrangement": "parallel", "elements": [
        { "kind": "component", "component": "one" }, { "kind": "component", "component": "two" }] },
      "loop": { "between": ["X4.3", "X4.4"], "arrangement": "parallel", "elements": [
        { "kind": "component", "component": "float" },
        { "kind": "resistor", "resistance": "4.70 kΩ", "tolerance": "5 %" }] } },
    "tests": {
      "both": { "component": "one", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
                "expect": { "kind": "band", "min": "46 Ω", "max": "54 Ω", "at": "20 °C" } },
      "down": { "component": "float", "probes": ["X4.3", "X4.4"], "side": "at_board_plug",
                "expect": { "kind": "band", "nominal": "4.70 kΩ", "tolerance": "6 %", "at": "20 °C" } } },)";
  EXPECT_EQ(matrix(parts + fault(R"(
    { "kind": "component", "component": "two", "modes": ["open", "short"], "decided_by": ["both"] },
    { "kind": "component", "component": "float", "modes": ["stuck_open", "stuck_closed"], "decided_by": ["down"] },
    { "kind": "harness", "connector": "X4", "modes": ["open"], "decided_by": ["down"] })")),
            "two open: higher fails, healthy passes\n"
            "two short: near_zero fails, healthy passes\n"
            "float stuck_open: healthy passes, higher passes\n"
            "float stuck_closed: healthy passes, near_zero fails\n"
            "X4 open: open either, open either\n");
}

TEST(Separation, In_a_chain_each_contact_opens_all_and_none_shorts_all) {
  const std::string parts = R"("components": {
      "stat": { "kind": "switch", "name": "Limit", "contacts": "nc", "model": { "kind": "closed", "below": "1 Ω" } },
      "flow": { "kind": "switch", "name": "Flow switch", "contacts": "nc", "between": ["XI.1", "XI.2"],
                "states": { "still": "closed", "flowing": "open" } } },
    "circuits": { "loop": { "between": ["X4.1", "X4.2"], "arrangement": "series", "elements": [
      { "kind": "component", "component": "stat" }, { "kind": "component", "component": "flow" }] } },
    "tests": {
      "loop": { "component": "stat", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
                "expect": { "kind": "closed", "below": "2 Ω" } },
      "turned": { "component": "stat", "probes": ["X4.2", "X4.1"], "side": "at_board_plug",
                  "expect": { "kind": "closed", "below": "2 Ω" } },
      "tabs": { "component": "flow", "probes": ["XI.1", "XI.2"], "side": "at_component", "condition": "still",
                "expect": { "kind": "closed", "below": "1 Ω" } },
      "flowing": { "component": "flow", "probes": ["XI.1", "XI.2"], "side": "at_component",
                   "condition": "flowing" } },)";
  EXPECT_EQ(matrix(parts + fault(R"(
    { "kind": "component", "component": "stat", "modes": ["stuck_open", "short", "high_contact_resistance"],
      "decided_by": ["loop", "turned"] },
    { "kind": "component", "component": "flow", "modes": ["stuck_open", "stuck_closed"],
      "decided_by": ["tabs", "flowing"] })")),
            "stat stuck_open: open fails, open fails, healthy passes, healthy passes\n"
            "stat short: lower passes, lower passes, healthy passes, healthy passes\n"
            "stat high_contact_resistance: higher fails, higher fails, healthy passes, healthy passes\n"
            "flow stuck_open: open fails, open fails, open fails, open passes\n"
            "flow stuck_closed: lower passes, lower passes, near_zero passes, near_zero fails\n");
}

// At rest the one is closed and the other open. What never closes the one stays closed at the other.
TEST(Separation, The_two_contacts_of_a_changeover_are_in_opposite_states) {
  EXPECT_EQ(matrix(R"("components": {
      "end": { "kind": "switch", "name": "End switch", "contacts": "changeover",
        "terminals": { "common": "X4.1", "no": "X4.2", "nc": "X4.3" },
        "states": { "rest": "closed", "driven": "open" } } },
    "tests": {
      "no": { "component": "end", "probes": ["X4.1", "X4.2"], "side": "at_board_plug", "condition": "driven" },
      "nc": { "component": "end", "probes": ["X4.1", "X4.3"], "side": "at_board_plug", "condition": "rest" } },)" +
                   fault(R"(
    { "kind": "component", "component": "end", "modes": ["stuck_open"], "decided_by": ["no", "nc"] })")),
            "end stuck_open: open passes, near_zero either\n");
}

TEST(Separation, Beside_another_valve_an_open_one_reads_higher_and_a_short_nearly_nothing) {
  const std::string parts = R"("components": {
      "one": { "kind": "coil", "name": "First valve", "between": ["X4.1", "X4.2"] },
      "two": { "kind": "coil", "name": "Second valve", "between": ["X4.1", "X4.2"] } },
    "tests": {
      "both": { "component": "one", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
                "expect": { "kind": "band", "min": "45 Ω", "max": "55 Ω", "at": "20 °C" } },
      "alone": { "component": "one", "probes": ["X4.1", "X4.2"], "side": "at_component",
                 "expect": { "kind": "band", "min": "90 Ω", "max": "110 Ω", "at": "20 °C" } } },)";
  EXPECT_EQ(matrix(parts + fault(R"(
    { "kind": "component", "component": "one", "modes": ["open", "short", "shorted_turns", "stuck_closed"],
      "decided_by": ["both", "alone"] },
    { "kind": "component", "component": "two", "modes": ["open", "short", "drift_high"], "decided_by": ["both"] })")),
            "one open: higher either, open fails\n"
            "one short: near_zero fails, near_zero fails\n"
            "one shorted_turns: lower either, lower either\n"
            "one stuck_closed: healthy passes, healthy passes\n" // the valve sticks, not the coil
            "two open: higher either, healthy passes\n"
            "two short: near_zero fails, healthy passes\n"
            "two drift_high: higher either, healthy passes\n"); // by less than the band of both, perhaps
}

TEST(Separation, What_is_off_or_in_another_model_is_not_read_beside_it) {
  const auto found = [](std::string_view when, std::string_view off) {
    return matrix(
        fmt::format(R"("components": {{
      "one": {{ "kind": "coil", "name": "First valve", "between": ["X4.1", "X4.2"], "when": {{ "models": ["Larch 24 C"] }} }},
      "two": {{ "kind": "coil", "name": "Second valve", "between": ["X4.1", "X4.2"], "when": {{ "models": ["{}"] }} }} }},
    "tests": {{ "both": {{ "component": "one", "probes": ["X4.1", "X4.2"], "side": "at_board_plug", {}
                "expect": {{ "kind": "band", "min": "45 Ω", "max": "55 Ω", "at": "20 °C" }} }} }},)",
                    when, off) +
        fault(R"({ "kind": "component", "component": "one", "modes": ["open"], "decided_by": ["both"] },
    { "kind": "component", "component": "two", "modes": ["open"], "decided_by": ["both"] })"));
  };
  EXPECT_EQ(found("Larch 24 C", ""), "one open: higher either\ntwo open: higher either\n");
  EXPECT_EQ(found("Larch 30 C", ""), "one open: open fails\ntwo open: higher either\n");
  EXPECT_EQ(found("Larch 24 C", R"("disconnect_also": ["the second valve"],)"),
            "one open: open fails\ntwo open: healthy passes\n");
}

// A pump whose protector sits in the common: hot, it reads open from start and from run to common, and start
// to run still reads.
TEST(Separation, An_open_protector_leaves_the_windings_that_it_does_not_feed) {
  const std::string parts = R"("components": {
      "pump": { "kind": "winding", "name": "Pump", "connection": "start_run",
        "terminals": { "start": "X5.1", "common": "X5.2", "run": "X5.3" },
        "protector": { "position": "common", "reset": "automatic" },
        "model": { "kind": "copper", "at": "20 °C", "tolerance": "10 %", "pairs": [
          { "from": "start", "to": "common", "resistance": "30.0 Ω" },
          { "from": "run", "to": "common", "resistance": "20.0 Ω" },
          { "from": "start", "to": "run", "resistance": "50.0 Ω" }] } } },
    "tests": {
      "run": { "component": "pump", "probes": ["X5.3", "X5.2"], "side": "at_board_plug" },
      "start": { "component": "pump", "probes": ["X5.2", "X5.1"], "side": "at_board_plug" },
      "ends": { "component": "pump", "probes": ["X5.1", "X5.3"], "side": "at_board_plug" },
      "earth": { "component": "pump", "probes": ["X5.2", "X5.4"], "side": "at_board_plug",
                 "expect": { "kind": "open", "above": "2 MΩ" } } },)";
  EXPECT_EQ(matrix(parts + fault(R"(
    { "kind": "component", "component": "pump",
      "modes": ["protector_open", "open", "short", "leakage_to_earth", "seized", "wet_or_corroded"],
      "decided_by": ["run", "start", "ends", "earth"] },
    { "kind": "harness", "connector": "X5", "modes": ["short", "leakage_to_earth"], "decided_by": ["earth"] })")),
            "pump protector_open: open fails, open fails, healthy passes, healthy passes\n"
            "pump open: open either, open either, open either, healthy passes\n"
            "pump short: near_zero either, near_zero either, near_zero either, healthy passes\n"
            "pump leakage_to_earth: healthy passes, healthy passes, healthy passes, lower either\n"
            "pump seized: healthy passes, healthy passes, healthy passes, healthy passes\n"
            "pump wet_or_corroded: ? either, ? either, ? either, ? either\n"
            // a wire shorts to another, or to the casing
            "X5 short: near_zero either, near_zero either, near_zero either, near_zero either\n"
            "X5 leakage_to_earth: healthy passes, healthy passes, healthy passes, lower either\n");
}

// The place of a protector may be one that the part has no terminal at: it opens all then.
TEST(Separation, A_protector_whose_terminal_is_not_there_opens_everything) {
  EXPECT_EQ(matrix(R"("components": { "pump": { "kind": "winding", "name": "Pump",
      "terminals": { "start": "X5.1", "run": "X5.3" },
      "protector": { "position": "common", "reset": "automatic" } } },
    "tests": { "ends": { "component": "pump", "probes": ["X5.1", "X5.3"], "side": "at_board_plug",
      "expect": { "kind": "band", "min": "45 Ω", "max": "55 Ω", "at": "20 °C" } } },)" +
                   fault(R"(
    { "kind": "component", "component": "pump", "modes": ["protector_open"], "decided_by": ["ends"] })")),
            "pump protector_open: open fails\n");
}

// A short between turns lies within one winding: to another, isolated one nothing conducts for that.
TEST(Separation, Shorted_turns_join_no_isolated_windings) {
  EXPECT_EQ(matrix(R"("components": { "motor": { "kind": "winding", "name": "Motor", "connection": "isolated",
      "terminals": { "a1": "X4.1", "a2": "X4.2", "b1": "X4.3", "b2": "X4.4" } } },
    "tests": { "between": { "component": "motor", "probes": ["X4.1", "X4.3"], "side": "at_board_plug",
      "expect": { "kind": "open", "above": "2 MΩ" } } },)" +
                   fault(R"(
    { "kind": "component", "component": "motor", "modes": ["shorted_turns"], "decided_by": ["between"] })")),
            "motor shorted_turns: healthy passes\n");
}

TEST(Separation, A_winding_of_less_than_an_ohm_drifts_like_any) {
  EXPECT_EQ(
      matrix(R"("components": { "fan": { "kind": "winding", "name": "Fan", "between": ["X4.1", "X4.2"] } },
    "tests": { "t": { "component": "fan", "probes": ["X4.1", "X4.2"], "side": "at_component",
      "expect": { "kind": "band", "min": "0.40 Ω", "max": "0.60 Ω", "at": "20 °C" } } },)" +
             fault(R"(
    { "kind": "component", "component": "fan", "modes": ["drift_low", "drift_high"], "decided_by": ["t"] })")),
      "fan drift_low: lower fails\nfan drift_high: higher fails\n");
}

TEST(Separation, Of_a_test_of_what_is_not_there_only_what_it_expects_is_known) {
  EXPECT_EQ(
      matrix(
          R"("tests": {
      "own": { "component": "gone", "probes": ["X4.1", "X4.2"], "side": "at_board_plug" },
      "stated": { "component": "gone", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
                  "expect": { "kind": "closed", "below": "1 Ω" } } },)" +
          fault(
              R"({ "kind": "harness", "connector": "X4", "modes": ["open"], "decided_by": ["own", "stated"] })")),
      "X4 open: open either, open fails\n");
}

TEST(Separation, What_comes_and_goes_is_seen_while_it_is_watched) {
  const std::string tests = R"("tests": {
    "still": { "component": "flow", "probes": ["X4.1", "X4.2"], "side": "at_board_plug" },
    "moved": { "component": "flow", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
               "response": { "kind": "steady_when_moved" } },
    "warmed": { "component": "flow", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
                "response": { "kind": "falls_when_warmed", "how": "hand" } } },)";
  EXPECT_EQ(
      matrix(std::string(sensor) + tests + fault(R"(
    { "kind": "component", "component": "flow", "modes": ["intermittent", "wrong_part"],
      "decided_by": ["still", "moved", "warmed"] })")),
      "flow intermittent: unsteady either, unsteady fails, unsteady either\n" // warmth shows some breaks
      "flow wrong_part: ? either, ? either, ? either\n");
}

TEST(Separation, The_coding_of_another_model_is_seen_by_its_value) {
  EXPECT_EQ(matrix(R"("components": {
      "plug": { "kind": "coding", "name": "Coding plug", "between": ["X4.1", "X4.2"],
                "model": { "kind": "fixed", "resistance": "4.7 kΩ", "tolerance": "1 %" } } },
    "tests": { "value": { "component": "plug", "probes": ["X4.1", "X4.2"], "side": "at_board_plug" } },)" +
                   fault(R"(
    { "kind": "component", "component": "plug", "modes": ["wrong_part"], "decided_by": ["value"] })")),
            "plug wrong_part: ? fails\n");
}

TEST(Separation, Twins_show_a_break_of_either_and_drift_perhaps) {
  const std::string parts = R"("components": {
      "flow": { "kind": "ntc", "name": "Flow", "between": ["X4.1", "X4.2"] },
      "return": { "kind": "ntc", "name": "Return", "between": ["X4.3", "X4.4"] } },
    "tests": { "twins": { "component": "flow", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
      "expect": { "kind": "pair", "with": "return", "largest_difference": "2 K" } } },)";
  EXPECT_EQ(matrix(parts + fault(R"(
    { "kind": "component", "component": "flow", "modes": ["open", "drift_high"], "decided_by": ["twins"] },
    { "kind": "component", "component": "return", "modes": ["open", "short", "drift_low"], "decided_by": ["twins"] })")),
            "flow open: open fails\n"
            "flow drift_high: higher either\n"
            "return open: lower fails\n"
            "return short: higher fails\n"
            "return drift_low: higher either\n")
      << "beside a twin that reads too little it reads too much";
}

// A capacitor that is open shows OL at once, without a rise; how much it holds an ohmmeter does not tell.
TEST(Separation, A_capacitor_must_rise) {
  const std::string parts = R"("components": {
      "run": { "kind": "capacitor", "name": "Run capacitor", "between": ["X5.1", "X5.2"], "capacitance": "4 µF" } },
    "tests": { "charges": { "component": "run", "probes": ["X5.1", "X5.2"], "side": "at_board_plug",
      "expect": { "kind": "rises_to_open", "above": "5 MΩ" } } },)";
  EXPECT_EQ(matrix(parts + fault(R"(
    { "kind": "component", "component": "run", "modes": ["open", "short", "low_capacitance", "drift_low"],
      "decided_by": ["charges"] })")),
            "run open: open fails\n"
            "run short: near_zero fails\n"
            "run low_capacitance: ? either\n"
            "run drift_low: lower either\n");
}

// Behind a rectifier nobody knows what shorted turns of the coil read, and an open one reads open both ways.
TEST(Separation, A_rectified_coil_hides_its_short) {
  const std::string parts = R"("components": {
      "gas": { "kind": "coil", "name": "Gas valve", "between": ["X5.1", "X5.2"], "drive": "rectified",
               "suppression": "bridge" } },
    "tests": {
      "ways": { "component": "gas", "probes": ["X5.1", "X5.2"], "positive": "X5.1", "side": "at_board_plug",
        "expect": { "kind": "both_directions", "min": "3 kΩ", "max": "5 kΩ", "reverse_min": "3 kΩ" } },
      "short": { "component": "gas", "probes": ["X5.1", "X5.2"], "side": "at_board_plug",
        "expect": { "kind": "not_short", "above": "100 Ω" } } },)";
  EXPECT_EQ(matrix(parts + fault(R"(
    { "kind": "component", "component": "gas", "modes": ["open", "short"], "decided_by": ["ways", "short"] })")),
            "gas open: open fails, open passes\n"
            "gas short: ? either, ? either\n");
}

// A broken coil reads OL both ways round: with a most in one direction, that tells.
TEST(Separation, Of_both_ways_round_one_that_fails_is_enough) {
  EXPECT_EQ(matrix(R"("components": {
      "gas": { "kind": "coil", "name": "Gas valve", "between": ["X5.1", "X5.2"], "drive": "dc", "suppression": "diode" } },
    "tests": { "ways": { "component": "gas", "probes": ["X5.1", "X5.2"], "positive": "X5.1", "side": "at_board_plug",
        "expect": { "kind": "both_directions", "min": "3 kΩ", "reverse_min": "3 kΩ", "reverse_max": "5 kΩ" } },
      "loose": { "component": "gas", "probes": ["X5.1", "X5.2"], "positive": "X5.1", "side": "at_board_plug",
        "expect": { "kind": "both_directions", "min": "3 kΩ", "reverse_min": "3 kΩ" } } },)" +
                   fault(R"(
    { "kind": "component", "component": "gas", "modes": ["open"], "decided_by": ["ways", "loose"] })")),
            "gas open: open fails, open passes\n"); // without a most it may read open (format.md)
}

// A lamp across a contact conducts on where the contact is open, beside a resistor too (format.md,
// `indicator`).
TEST(Separation, Beside_a_lamp_an_open_contact_need_not_read_open) {
  const auto found = [](bool lamp) {
    return matrix(fmt::format(R"("components": {{
      "stat": {{ "kind": "switch", "name": "Limit", "contacts": "nc", "between": ["X5.1", "X5.2"], "indicator": {0} }},
      "float": {{ "kind": "switch", "name": "Float", "contacts": "no", "indicator": {0} }} }},
    "circuits": {{ "loop": {{ "between": ["X4.1", "X4.2"], "arrangement": "parallel", "elements": [
        {{ "kind": "component", "component": "float" }},
        {{ "kind": "resistor", "resistance": "4.70 kΩ", "tolerance": "5 %" }}] }} }},
    "tests": {{
      "closed": {{ "component": "stat", "probes": ["X5.1", "X5.2"], "side": "at_board_plug",
                  "expect": {{ "kind": "closed", "below": "1 Ω" }} }},
      "down": {{ "component": "float", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
                "expect": {{ "kind": "band", "nominal": "4.70 kΩ", "tolerance": "6 %", "at": "20 °C" }} }} }},)",
                              lamp) +
                  fault(R"(
    { "kind": "component", "component": "stat", "modes": ["stuck_open"], "decided_by": ["closed"] },
    { "kind": "component", "component": "float", "modes": ["stuck_open"], "decided_by": ["down"] })"));
  };
  EXPECT_EQ(found(false), "stat stuck_open: open fails, healthy passes\n"
                          "float stuck_open: healthy passes, higher passes\n");
  EXPECT_EQ(found(true), "stat stuck_open: higher either, healthy passes\n"
                         "float stuck_open: healthy passes, higher either\n");
}

TEST(Separation, A_wiper_is_swept) {
  const std::string parts = R"("components": {
      "pot": { "kind": "potentiometer", "name": "Damper position", "between": ["X4.1", "X4.2"] } },
    "tests": { "sweep": { "component": "pot", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
      "expect": { "kind": "smooth_sweep", "min": "0 Ω", "max": "5 kΩ" } } },)";
  EXPECT_EQ(matrix(parts + fault(R"(
    { "kind": "component", "component": "pot", "modes": ["open", "short", "seized", "intermittent"],
      "decided_by": ["sweep"] })")),
            "pot open: open fails\n"
            "pot short: near_zero fails\n"
            "pot seized: healthy fails\n"
            "pot intermittent: unsteady fails\n");
}

// A wide sanity band passes a sensor that has drifted out of its own tolerance; a short of the flame
// electrode's insulation shows, its absence does not.
TEST(Separation, A_band_much_wider_than_the_part_need_not_see_drift) {
  const std::string tests = R"("tests": { "sane": { "component": "flow", "probes": ["X4.1", "X4.2"],
    "side": "at_board_plug",
    "expect": { "kind": "band", "min": "5 kΩ", "max": "30 kΩ", "at": "0 °C to 40 °C" } } },)";
  EXPECT_EQ(matrix(std::string(sensor) + tests + fault(R"(
    { "kind": "component", "component": "flow", "modes": ["drift_high", "open"], "decided_by": ["sane"] })")),
            "flow drift_high: higher either\n"
            "flow open: open fails\n");
  // 9.9 kΩ to 10.1 kΩ at 25 °C: a band five times as wide need not see it, one less than twice as wide does.
  for (const auto& [band, outcome] : {std::pair{R"("min": "9.500 kΩ", "max": "10.50 kΩ")", "either"},
                                      {R"("min": "9.850 kΩ", "max": "10.20 kΩ")", "fails"}})
    EXPECT_EQ(
        matrix(
            std::string(sensor) +
            fmt::format(R"("tests": {{ "sane": {{ "component": "flow", "probes": ["X4.1", "X4.2"],
    "side": "at_board_plug", "expect": {{ "kind": "band", {}, "at": "25 °C" }} }} }},)",
                        band) +
            fault(
                R"({ "kind": "component", "component": "flow", "modes": ["drift_high"], "decided_by": ["sane"] })")),
        fmt::format("flow drift_high: higher {}\n", outcome));
  // Earth may be written as its other end.
  for (const std::string_view ends :
       {R"("terminals": { "lead": "X5.1" })", R"("between": ["X5.1", "X5.4"])"}) {
    const std::string electrode = fmt::format(R"("components": {{
      "rod": {{ "kind": "electrode", "name": "Flame rod", {}, "purpose": "flame_sensing", "path": "none" }} }},
    "tests": {{ "to_earth": {{ "component": "rod", "probes": ["X5.1", "X5.4"], "side": "at_board_plug",
      "expect": {{ "kind": "open", "above": "10 MΩ" }} }} }},)",
                                              ends);
    EXPECT_EQ(matrix(electrode + fault(R"(
    { "kind": "component", "component": "rod", "modes": ["leakage_to_earth", "open", "short"],
      "decided_by": ["to_earth"] })")),
              "rod leakage_to_earth: lower either\n"
              "rod open: open passes\n"
              "rod short: near_zero fails\n");
  }
}

TEST(Separation, A_lead_on_the_parts_own_earth_sees_what_leaks) {
  EXPECT_EQ(matrix(R"(
    "components": { "fan": { "kind": "electronic", "name": "Fan",
      "terminals": { "line": "X5.1", "neutral": "X5.2", "earth": "X5.4" } } },
    "tests": { "to_earth": { "component": "fan", "probes": ["X5.1", "X5.4"], "side": "at_board_plug",
                             "expect": { "kind": "open", "above": "2 MΩ" } } },
    "faults": { "E1": { "display": { "kind": "text", "text": "E1" }, "meaning": "fan", "suspects": [
      { "kind": "component", "component": "fan", "modes": ["leakage_to_earth", "open"], "decided_by": ["to_earth"] }
    ] } })"),
            "fan leakage_to_earth: lower either\n"
            "fan open: healthy passes\n");
}

// The middle of the secondary lies on the case: each half is read against earth, and OL when it is open.
TEST(Separation, What_conducts_to_earth_by_its_model_is_read_there) {
  EXPECT_EQ(matrix(R"(
    "components": { "ignition": { "kind": "transformer", "name": "Ignition transformer",
      "terminals": { "first": "X5.1", "second": "X5.2", "earth": "X5.4" },
      "model": { "kind": "copper", "at": "20 °C", "tolerance": "12 %", "pairs": [
        { "from": "first", "to": "earth", "resistance": "5.25 kΩ" },
        { "from": "first", "to": "second", "resistance": "10.50 kΩ" }] } } },
    "tests": { "half": { "component": "ignition", "probes": ["X5.1", "X5.4"], "side": "at_board_plug",
                         "expect": { "kind": "band", "nominal": "5.25 kΩ", "tolerance": "12 %", "at": "20 °C" } } },
    "faults": { "E1": { "display": { "kind": "text", "text": "E1" }, "meaning": "ignition", "suspects": [
      { "kind": "component", "component": "ignition", "modes": ["open", "short", "leakage_to_earth"],
        "decided_by": ["half"] }
    ] } })"),
            "ignition open: open either\n"
            "ignition short: near_zero either\n"
            "ignition leakage_to_earth: lower either\n");
}

// A leak at an end of it shorts the half that lies on earth: half is left. On the primary no reading changes.
TEST(Separation, From_end_to_end_a_leak_to_earth_shorts_a_piece_where_the_middle_lies_on_earth) {
  EXPECT_EQ(matrix(R"(
    "components": { "ignition": { "kind": "transformer", "name": "Ignition transformer",
      "terminals": { "first": "X5.1", "second": "X5.2", "earth": "X5.4", "live": "X5.3", "neutral": "X4.1" },
      "model": { "kind": "copper", "at": "20 °C", "tolerance": "12 %", "pairs": [
        { "from": "first", "to": "earth", "resistance": "5.25 kΩ" },
        { "from": "second", "to": "earth", "resistance": "5.25 kΩ" },
        { "from": "first", "to": "second", "resistance": "10.50 kΩ" },
        { "from": "live", "to": "neutral", "resistance": "80 Ω" }] } } },
    "tests": { "whole": { "component": "ignition", "probes": ["X5.1", "X5.2"], "side": "at_board_plug" },
               "primary": { "component": "ignition", "probes": ["X5.3", "X4.1"], "side": "at_board_plug" } },
    "faults": { "E1": { "display": { "kind": "text", "text": "E1" }, "meaning": "ignition", "suspects": [
      { "kind": "component", "component": "ignition", "modes": ["leakage_to_earth"],
        "decided_by": ["whole", "primary"] }
    ] } })"),
            "ignition leakage_to_earth: lower either, healthy passes\n");
}

TEST(Separation, An_open_capacitor_beside_a_winding_changes_no_reading) {
  EXPECT_EQ(matrix(R"(
    "components": {
      "pump": { "kind": "winding", "name": "Pump", "connection": "start_run",
                "terminals": { "common": "X5.1", "run": "X5.2", "start": "X5.3" } },
      "run_capacitor": { "kind": "capacitor", "name": "Run capacitor", "capacitance": "4 µF", "bleeder": "1 MΩ",
                         "between": ["X5.2", "X5.3"] } },
    "tests": { "ends": { "component": "pump", "probes": ["X5.2", "X5.3"], "side": "at_board_plug",
                         "expect": { "kind": "band", "nominal": "522 Ω", "tolerance": "5 %", "at": "20 °C" } } },
    "faults": { "E1": { "display": { "kind": "text", "text": "E1" }, "meaning": "pump", "suspects": [
      { "kind": "component", "component": "run_capacitor", "modes": ["open", "short"], "decided_by": ["ends"] }
    ] } })"),
            "run_capacitor open: healthy passes\n"
            "run_capacitor short: near_zero fails\n");
}

// A withdrawn plug looks into its harness: what lies on another plug, joined with it by the board, is off.
TEST(Separation, What_the_board_joins_is_not_read_at_a_withdrawn_plug) {
  EXPECT_EQ(matrix(R"(
  "components": {
    "motor": { "kind": "winding", "name": "Motor", "between": ["X5.1", "X5.2"],
               "model": { "kind": "copper", "resistance": "100 Ω", "at": "20 °C", "tolerance": "10 %" } },
    "run": { "kind": "capacitor", "name": "Run capacitor", "between": ["X6.1", "X6.2"] } },
  "tests": {
    "withdrawn": { "component": "motor", "unplug": "X5", "probes": ["X5.1", "X5.2"], "side": "at_board_plug" },
    "fitted": { "component": "motor", "probes": ["X5.1", "X5.2"], "side": "at_board_plug" } },)" +
                   fault(R"({ "kind": "component", "component": "run", "modes": ["short"],
                              "decided_by": ["withdrawn", "fitted"] })")),
            "run short: healthy passes, near_zero fails\n");
}

// Circuits that hold themselves, or each other many times over, are findings of other rules.
TEST(Separation, Ends_where_circuits_loop) {
  std::string circuits = R"("c0": { "between": ["X4.1", "X4.2"], "arrangement": "series",
    "elements": [{ "kind": "circuit", "circuit": "c0" }, { "kind": "circuit", "circuit": "c1" }] })";
  for (int i = 1; i < 60; ++i)
    circuits +=
        fmt::format(R"(, "c{0}": {{ "between": ["X4.3", "X4.4"], "arrangement": "series", "elements": [
      {{ "kind": "circuit", "circuit": "c{1}" }}, {{ "kind": "circuit", "circuit": "c{1}" }}] }})",
                    i, i + 1);
  circuits += R"(, "c60": { "between": ["X4.3", "X4.4"], "arrangement": "series", "elements": [
    { "kind": "component", "component": "stat" }, { "kind": "circuit", "circuit": "c0" }] })";
  EXPECT_EQ(matrix(R"("components": { "stat": { "kind": "switch", "name": "Limit", "contacts": "nc" } },
    "circuits": {)" +
                   circuits +
                   R"(}, "tests": { "loop": { "component": "stat", "probes": ["X4.1", "X4.2"],
      "side": "at_board_plug", "expect": { "kind": "closed", "below": "2 Ω" } } },)" +
                   fault(R"({ "kind": "component", "component": "stat", "modes": ["open"],
                              "decided_by": ["loop"] })")),
            "stat open: open fails\n");
}

TEST(Separation, Of_a_fault_without_tests_has_rows_without_cells) {
  EXPECT_EQ(matrix(fault(R"({ "kind": "component", "component": "gone", "modes": ["open"] },
                             { "kind": "harness", "connector": "X4" }, { "kind": "board" })")),
            "gone open:\nX4 -:\nboard -:\n");
}

// What is below the least that a test states is what its author calls a short: 5 Ω where 30 Ω is asked for,
// as much as 0 Ω. Of a coil of 64 Ω it is a tenth.
TEST(Separation, A_short_reaches_up_to_what_the_test_calls_one) {
  const auto short_of = [](std::string_view expect) {
    const Read_result read = read_json(
        "example.profile.json",
        fmt::format(
            R"({}"components": {{ "gas": {{ "kind": "coil", "name": "Gas valve", "between": ["X5.1", "X5.2"] }} }},
          "tests": {{ "t": {{ "component": "gas", "probes": ["X5.1", "X5.2"], "side": "at_board_plug",
                              "expect": {{ {} }} }} }}, {}}})",
            head, expect,
            fault(
                R"({ "kind": "component", "component": "gas", "modes": ["short"], "decided_by": ["t"] })")));
    const Resolved resolved = resolve(read.document, {});
    return separation(resolved, read.document.profile()->faults.items[0].value).rows[0].cells[0];
  };
  for (const char* kind : {"not_short", "open", "rises_to_open"}) {
    const Cell cell = short_of(fmt::format(R"("kind": "{}", "above": "30 Ω")", kind));
    EXPECT_EQ(cell.shows, Shows::near_zero);
    EXPECT_EQ(cell.outcome, Outcome::fails) << kind;
    EXPECT_TRUE(cell.ohm.contains(5)) << kind;
    EXPECT_FALSE(cell.ohm.contains(30)) << kind;
    // Written "1 MΩ" may be 500 kΩ rounded: 900 kΩ is too little all the same.
    const Cell coarse = short_of(fmt::format(R"("kind": "{}", "above": "1 MΩ")", kind));
    EXPECT_EQ(coarse.outcome, Outcome::fails) << kind;
    EXPECT_TRUE(coarse.ohm.contains(900e3)) << kind;
    EXPECT_FALSE(coarse.ohm.contains(1e6)) << kind;
  }
  const Cell both_ways = short_of(R"("kind": "both_directions", "min": "2 kΩ", "reverse_min": "2 kΩ")");
  EXPECT_EQ(both_ways.outcome, Outcome::fails);
  EXPECT_TRUE(both_ways.ohm.contains(1.8e3));
  const Cell coil = short_of(R"("kind": "band", "min": "64 Ω", "max": "72 Ω", "at": "20 °C")");
  EXPECT_NEAR(coil.ohm.high, 6.4, 0.1);
  // Any short has up to 1 Ω (common practice, no source), which a least of 1 Ω calls healthy.
  EXPECT_EQ(short_of(R"("kind": "not_short", "above": "1 Ω")").outcome, Outcome::either);
}

// A float that is up has opened its contact: the resistor beside it reads, however badly the contact closes.
TEST(Separation, A_contact_that_is_open_has_no_contact_resistance) {
  EXPECT_EQ(
      matrix(fmt::format(
          R"("components": {{ "float": {{ "kind": "switch", "name": "Float", "between": ["X4.1", "X4.2"],
      "contacts": "nc", "states": {{ "dry": "closed", "wet": "open" }} }} }},
    "circuits": {{ "watched": {{ "between": ["X4.1", "X4.2"], "arrangement": "parallel", "elements": [
      {{ "kind": "component", "component": "float" }}, {{ "kind": "resistor", "resistance": "4.7 kΩ", "tolerance": "5 %" }}] }} }},
    "tests": {{
      "down": {{ "component": "float", "probes": ["X4.1", "X4.2"], "side": "at_board_plug", "condition": "dry",
                "expect": {{ "kind": "closed", "below": "2 Ω" }} }},
      "up": {{ "component": "float", "probes": ["X4.1", "X4.2"], "side": "at_board_plug", "condition": "wet",
              "expect": {{ "kind": "band", "nominal": "4.7 kΩ", "tolerance": "5 %" }} }} }}, {})",
          fault(
              R"({ "kind": "component", "component": "float", "modes": ["high_contact_resistance"], "decided_by": ["down", "up"] })"))),
      "float high_contact_resistance: higher either, healthy passes\n");
}

// Of what a sensor with electronics says of itself, its supply shows nothing.
TEST(Separation, A_test_for_a_short_shows_no_drift) {
  EXPECT_EQ(
      matrix(R"("components": { "pressure": { "kind": "electronic", "name": "Pressure sensor",
      "between": ["X4.1", "X4.2"] } },
    "tests": { "t": { "component": "pressure", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
                      "expect": { "kind": "not_short", "above": "100 Ω" } } },)" +
             fault(R"({ "kind": "component", "component": "pressure",
      "modes": ["short", "drift_low", "drift_high"], "decided_by": ["t"] })")),
      "pressure short: near_zero fails\npressure drift_low: healthy passes\npressure drift_high: healthy "
      "passes\n");
}

// A contact that is stuck closed behind a resistor of 1 kΩ reads what that has, within a tenth (common
// practice, no source), and a contact. A short lies behind it, or before it: then it reads nothing.
TEST(Separation, A_short_behind_a_resistor_reads_at_most_the_resistor) {
  const Read_result read =
      read_json("example.profile.json", std::string(head) + R"("components": {
      "float": { "kind": "switch", "name": "Float", "between": ["X4.1", "X4.2"], "series_resistance": "1 kΩ" } },
    "tests": { "t": { "component": "float", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
                      "expect": { "kind": "band", "min": "4.7 kΩ", "max": "5.7 kΩ" } } },)" +
                                            fault(R"({ "kind": "component", "component": "float",
      "modes": ["short", "stuck_closed"], "decided_by": ["t"] })") +
                                            "}");
  const Resolved resolved = resolve(read.document, {});
  const Separation found = separation(resolved, read.document.profile()->faults.items[0].value);
  ASSERT_EQ(found.rows.size(), 2u);
  EXPECT_EQ(found.rows[0].cells[0].ohm.low, 0);
  EXPECT_NEAR(found.rows[1].cells[0].ohm.low, 900, 1e-9);
  for (const Suspected_mode& row : found.rows) EXPECT_NEAR(row.cells[0].ohm.high, 1101, 1e-9);
}

TEST(Separation, States_its_readings_in_ohm) {
  const std::string tests = R"("tests": {
    "at_plug": { "component": "flow", "probes": ["X4.1", "X4.2"], "side": "at_board_plug" } },)";
  const Read_result read =
      read_json("example.profile.json", std::string(head) + std::string(sensor) + tests +
                                            fault(R"({ "kind": "component", "component": "flow",
              "modes": ["open", "short", "drift_high", "drift_low"], "decided_by": ["at_plug", "at_plug", "missing"] })") +
                                            "}");
  const Resolved resolved = resolve(read.document, {});
  const Separation found = separation(resolved, read.document.profile()->faults.items[0].value);
  ASSERT_EQ(found.tests.size(), 1u); // each once, and what is missing is left out
  ASSERT_TRUE(found.tests[0].healthy);
  // B 3977 K from 10 kΩ at 25 °C: 12.55 kΩ at 20 °C.
  EXPECT_TRUE(found.tests[0].healthy->contains(12.55e3));
  ASSERT_EQ(found.rows.size(), 4u);
  EXPECT_EQ(found.rows[0].cells[0].ohm.low, 60e6); // the highest range of 6000 counts
  EXPECT_EQ(found.rows[1].cells[0].ohm.high, 10);  // what long leads and bad contacts leave of a short
  EXPECT_GT(found.rows[2].cells[0].ohm.low, found.tests[0].healthy->high);
  EXPECT_EQ(found.rows[2].cells[0].ohm.high, std::numeric_limits<double>::infinity());
  EXPECT_EQ(found.rows[3].cells[0].ohm.low, 0);
  EXPECT_LT(found.rows[3].cells[0].ohm.high, found.tests[0].healthy->low);
}

}
}
