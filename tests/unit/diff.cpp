// What `diff` says of one change at a time, on a document of the corpus.
#include "ohmlore/diff.h"

#include <gtest/gtest.h>

#include <fmt/format.h>

#include "ohmlore/corpus.h"
#include "ohmlore/publish.h"
#include "ohmlore/schema_engine.h"

namespace ohmlore {
namespace {

constexpr std::string_view part = R"json({
  "format": "ohmlore/1.0", "kind": "part", "id": "larch-sensor", "revision": 2,
  "sources": {"notes": {"kind": "maker_document", "title": "Larch service notes"}},
  "source": {"from": "notes"},
  "component": {"kind": "ntc", "name": "Sensor",
    "model": {"kind": "table", "rows": [
      {"at": "0 °C", "nominal": "32.6 kΩ", "tolerance": "5 %"},
      {"at": "25 °C", "nominal": "10.0 kΩ", "tolerance": "5 %"},
      {"at": "60 °C", "min": "2.40 kΩ", "max": "2.60 kΩ"}]}}
})json";

constexpr std::string_view profile = R"json({
  "format": "ohmlore/1.0", "kind": "profile", "id": "larch", "revision": 3,
  "appliance": {"maker": "Orrinvale", "models": ["Larch 24", "Larch 30"], "type": "system_boiler",
    "fuel": "natural_gas", "controller": {"part": "OV-1"}},
  "safety": {"supplies": [{"kind": "mains", "isolate_at": "fused spur"}]},
  "sources": {"notes": {"kind": "maker_document", "title": "Larch service notes"}},
  "source": {"from": "notes"},
  "connectors": {"X2": {"label": "X2", "ways": 4, "circuit": "selv", "pins": {
    "1": {"signal": "flow sensor", "wire": {"base": "RD"}},
    "2": {"signal": "common", "wire": {"base": "BK"}},
    "3": {"signal": "return sensor", "wire": {"base": "BU"}}}}},
  "components": {
    "flow": {"kind": "ntc", "name": "Flow sensor", "between": ["X2.1", "X2.2"],
      "model": {"kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %",
                "b_value": "3977 K", "b_between": "25 °C to 85 °C", "b_tolerance": "1 %"}},
    "return": {"kind": "ntc", "name": "Return sensor", "between": ["X2.3", "X2.2"]}},
  "tests": {
    "flow_cold": {"component": "flow", "unplug": "X2", "probes": ["X2.1", "X2.2"], "side": "at_board_plug",
      "expect": {"kind": "band", "at": "20 °C", "nominal": "12.5 kΩ", "tolerance": "10 %"}},
    "return_cold": {"component": "return", "unplug": "X2", "probes": ["X2.3", "X2.2"],
      "side": "at_board_plug", "expect": {"kind": "band", "at": "20 °C", "min": "11 kΩ", "max": "14 kΩ"}}},
  "faults": {"E3": {"display": {"kind": "text", "text": "E3"}, "meaning": "flow sensor", "suspects": [
    {"kind": "component", "component": "flow", "modes": ["open", "short"], "decided_by": ["flow_cold"]},
    {"kind": "harness", "connector": "X2", "modes": ["open"], "decided_by": ["flow_cold"]}]}}
})json";

struct Replacement {
  std::string_view from, to;
};

std::string replaced(std::string_view text, std::vector<Replacement> replacements) {
  std::string out(text);
  for (const auto& [from, to] : replacements) {
    const std::size_t at = out.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    if (at != std::string::npos) out.replace(at, from.size(), to);
  }
  return out;
}

Document_diff diff(std::string_view older, std::string_view newer) {
  const Read_result a = read_json("older.json", older), b = read_json("newer.json", newer);
  for (const Read_result* read : {&a, &b})
    for (const Finding& finding : read->findings)
      EXPECT_NE(finding.severity, Severity::error) << finding.file << ": " << finding.message;
  return diff_documents(a.document, {}, b.document, {});
}

Document_diff changed(std::vector<Replacement> replacements, std::string_view text = profile) {
  return diff(text, replaced(text, std::move(replacements)));
}

// "meaning changed: place: message", one line a change.
std::string said(const Document_diff& diff) {
  std::string out;
  for (const Change& change : diff.changes)
    out += std::string(word_of(change.weight)) + " " + std::string(word_of(change.kind)) + ": " +
           (change.place.empty() ? "" : change.place + ": ") + change.message + "\n";
  return out;
}

// "pointer -> pointer", one line a change; - on the side where it stands nowhere.
std::string places(const Document_diff& diff) {
  const auto place = [](const Change_side& side) {
    return side.node == 0 ? "-" : fmt::format("{}:{}", side.region.first.line, side.pointer);
  };
  std::string out;
  for (const Change& change : diff.changes) out += place(change.older) + " -> " + place(change.newer) + "\n";
  return out;
}

TEST(Diff, FindsNothingInTwoCopies) {
  EXPECT_EQ(said(diff(profile, profile)), "");
  EXPECT_EQ(said(diff(part, part)), "");
  EXPECT_FALSE(diff(profile, profile).revision_must_grow());
}

TEST(Diff, SaysByHowMuchANominalMoved) {
  const Document_diff found = changed({{R"("nominal": "12.5 kΩ")", R"("nominal": "15 kΩ")"}});
  EXPECT_EQ(said(found),
            "meaning band: flow_cold, expect: 11.25 kΩ to 13.75 kΩ becomes 13.5 kΩ to 16.5 kΩ (+20 %)\n");
  EXPECT_TRUE(found.revision_must_grow());
}

TEST(Diff, SaysThatABandWidened) {
  EXPECT_EQ(said(changed({{R"("min": "11 kΩ", "max": "14 kΩ")", R"("min": "10 kΩ", "max": "15 kΩ")"}})),
            "meaning band: return_cold, expect: 11 kΩ to 14 kΩ becomes 10 kΩ to 15 kΩ (wider: ±20 % instead "
            "of ±12 %)\n");
  EXPECT_EQ(said(changed({{R"("tolerance": "10 %")", R"("tolerance": "4 %")"}})),
            "meaning band: flow_cold, expect: 11.25 kΩ to 13.75 kΩ becomes 12 kΩ to 13 kΩ (narrower: ±4 % "
            "instead of ±10 %)\n");
}

TEST(Diff, KnowsARowByItsTemperature) {
  EXPECT_EQ(
      said(changed({{R"("at": "25 °C", "nominal": "10.0 kΩ")", R"("at": "25 °C", "nominal": "10.4 kΩ")"}},
                   part)),
      "meaning band: component, model, rows, row at 25 °C: 9.5 kΩ to 10.5 kΩ becomes 9.88 kΩ to 10.92 kΩ (+4 "
      "%)\n");
  // Where the row before it is gone too, it is still the one at 25 °C.
  EXPECT_EQ(
      said(changed({{R"({"at": "0 °C", "nominal": "32.6 kΩ", "tolerance": "5 %"},)", ""},
                    {R"("nominal": "10.0 kΩ")", R"("nominal": "10.4 kΩ")"}},
                   part)),
      "meaning band: component, model, rows, row at 25 °C: 9.5 kΩ to 10.5 kΩ becomes 9.88 kΩ to 10.92 kΩ "
      "(+4 %)\n"
      "meaning removed: component, model, rows, row at 0 °C: removed\n");
}

TEST(Diff, TakesTwoSpellingsOfOneValueForOne) {
  const Document_diff found = changed({{R"("resistance": "10 kΩ")", R"("resistance": "10k")"},
                                       {R"("b_value": "3977 K")", R"("b_value": "3977K")"},
                                       {R"("min": "11 kΩ")", R"("min": "11000 ohm")"},
                                       {R"("at": "25 °C")", R"("at": "25 degC")"}});
  EXPECT_EQ(found.count(Change_weight::meaning), 0u) << said(found);
  EXPECT_EQ(found.count(Change_weight::spelling), 4u) << said(found);
  EXPECT_FALSE(found.revision_must_grow());
}

TEST(Diff, TakesABandInLimitsAndInPercentForOne) {
  const Document_diff found =
      changed({{R"("nominal": "12.5 kΩ", "tolerance": "10 %")", R"("min": "11.25 kΩ", "max": "13.75 kΩ")"}});
  EXPECT_EQ(said(found), "spelling changed: flow_cold, expect: the same band, min 11.25 kΩ max 13.75 kΩ "
                         "instead of nominal 12.5 kΩ tolerance 10 %\n");
}

TEST(Diff, CountsTheDigitsOfAValueWithoutTolerance) {
  const std::vector<Replacement> bare = {
      {R"("nominal": "12.5 kΩ", "tolerance": "10 %")", R"("nominal": "12 kΩ")"}};
  const std::vector<Replacement> exact = {
      {R"("nominal": "12.5 kΩ", "tolerance": "10 %")", R"("nominal": "12.0 kΩ")"}};
  EXPECT_EQ(
      said(diff(replaced(profile, bare), replaced(profile, exact))),
      "meaning band: flow_cold, expect: 11.5 kΩ to 12.5 kΩ becomes 11.95 kΩ to 12.05 kΩ (narrower: ±0.42 % "
      "instead of ±4.2 %)\n");
}

TEST(Diff, CountsTheDigitsOfAModelWithoutTolerance) {
  const std::string fixed =
      replaced(profile, {{R"("kind": "ntc", "name": "Return sensor", "between": ["X2.3", "X2.2"])",
                          R"("kind": "resistor", "name": "Coding", "between": ["X2.3", "X2.2"],
                    "model": {"kind": "fixed", "resistance": "10 kΩ"})"}});
  const std::vector<Replacement> digits = {
      {R"("fixed", "resistance": "10 kΩ")", R"("fixed", "resistance": "10.00 kΩ")"}};
  const Document_diff found = changed(digits, fixed);
  EXPECT_EQ(said(found),
            "spelling changed: return, model, resistance: 10 kΩ becomes 10.00 kΩ\n"
            "meaning band: return: 9.5 kΩ to 10.5 kΩ becomes 9.995 kΩ to 10.01 kΩ (narrower: ±0.05 % instead "
            "of ±5 %)\n");
  EXPECT_TRUE(found.revision_must_grow());
  // Beside a tolerance the digits of a value mean nothing.
  EXPECT_EQ(said(changed({{R"("resistance": "10 kΩ")", R"("resistance": "10.00 kΩ")"}})),
            "spelling changed: flow, model, resistance: 10 kΩ becomes 10.00 kΩ\n");
  EXPECT_EQ(said(changed({{R"("at": "25 °C")", R"("at": "298.15 K")"}})),
            "spelling changed: flow, model, at: 25 °C becomes 298.15 K\n");
}

// V²/P of 230 V and 3 kW was "wider: ±5 % instead of ±0.000000000000081 %".
TEST(Diff, AValueThatIsWorkedOutHasNoWidthOfItsOwn) {
  const std::string heater =
      replaced(profile, {{R"("kind": "ntc", "name": "Return sensor", "between": ["X2.3", "X2.2"])",
                          R"("kind": "heater", "name": "Heater", "between": ["X2.3", "X2.2"],
                    "model": {"kind": "power", "voltage": "230 V", "power": "3 kW"})"}});
  const std::string text =
      said(changed({{R"("power": "3 kW")", R"("power": "3 kW", "tolerance": "5 %")"}}, heater));
  EXPECT_NE(text.find("(wider: ±5 % instead of ±0 %)"), std::string::npos) << text;
}

TEST(Diff, SaysInOhmWhatATakenToleranceMeansAsOfOneThatComes) {
  const std::string added = R"("power": "3 kW", "tolerance": "5 %")";
  const std::string heater =
      replaced(profile, {{R"("kind": "ntc", "name": "Return sensor", "between": ["X2.3", "X2.2"])",
                          fmt::format(R"("kind": "heater", "name": "Heater", "between": ["X2.3", "X2.2"],
                    "model": {{"kind": "power", "voltage": "230 V", {}}})",
                                      added)}});
  const std::string text = said(changed({{added, R"("power": "3 kW")"}}, heater));
  EXPECT_NE(text.find("(narrower: ±0 % instead of ±5 %)"), std::string::npos) << text;
}

TEST(Diff, SaysWhatChangedBetweenTwoTerminals) {
  const std::string motor =
      replaced(profile, {{R"("kind": "ntc", "name": "Return sensor", "between": ["X2.3", "X2.2"])",
                          R"("kind": "winding", "name": "Motor", "connection": "start_run",
                             "terminals": {"start": "X2.1", "run": "X2.3", "common": "X2.2"},
                             "model": {"kind": "copper", "at": "20 °C", "pairs": [
                               {"from": "start", "to": "common", "resistance": "50 Ω"},
                               {"from": "run", "to": "common", "resistance": "20.0 Ω"}]})"}});
  EXPECT_EQ(said(changed({{R"("resistance": "50 Ω")", R"("resistance": "50.0 Ω")"}}, motor)),
            "spelling changed: return, model, pairs, common, resistance: 50 Ω becomes 50.0 Ω\n"
            "meaning band: return: between start and common 49.5 Ω to 50.5 Ω becomes 49.95 Ω to 50.05 Ω "
            "(narrower: ±0.1 % instead of ±1 %)\n");
}

TEST(Diff, SaysWhatAnotherModelMeansInOhm) {
  const std::string found = said(changed({{R"("b_value": "3977 K")", R"("b_value": "3435 K")"}}));
  EXPECT_NE(found.find("flow, model, b_value: 3977 K becomes 3435 K"), std::string::npos) << found;
  // 10 kΩ · exp(3977 K (1/273.15 K - 1/298.15 K)) = 33.90 kΩ, with 3435 K 28.70 kΩ: -15.3 %
  EXPECT_NE(found.find("band: flow: at 0 °C"), std::string::npos) << found;
  EXPECT_NE(found.find("(-15.3 %"), std::string::npos) << found;
}

TEST(Diff, SaysInWhichDirectionALimitMoved) {
  const auto of = [](std::string_view older, std::string_view newer) {
    const auto with = [](std::string_view members) {
      return replaced(
          profile, {{R"("b_tolerance": "1 %"}})", fmt::format(R"("b_tolerance": "1 %"}}, {}}})", members)}});
    };
    return said(diff(with(older), with(newer)));
  };
  const std::string limit = "meaning changed: flow, service_limit: 3 K becomes ";
  const std::string_view three = R"("service_limit": "3 K")";
  EXPECT_EQ(of(three, R"("service_limit": "+3 K -4 K")"), limit + "+3 K -4 K (wider)\n");
  EXPECT_EQ(of(three, R"("service_limit": "+4 K -3 K")"), limit + "+4 K -3 K (wider)\n");
  EXPECT_EQ(of(three, R"("service_limit": "+2 K -3 K")"), limit + "+2 K -3 K (narrower)\n");
  EXPECT_EQ(of(three, R"("service_limit": "+3 K -2 K")"), limit + "+3 K -2 K (narrower)\n");
  EXPECT_EQ(of(three, R"("service_limit": "+4 K -2 K")"), limit + "+4 K -2 K\n");
  EXPECT_EQ(of(R"("rated_voltage": "5 V dc")", R"("rated_voltage": "15 V dc")"),
            "meaning changed: flow, rated_voltage: 5 V dc becomes 15 V dc (3 times as much)\n");
  EXPECT_EQ(of(R"("rated_voltage": "15 V dc")", R"("rated_voltage": "5 V dc")"),
            "meaning changed: flow, rated_voltage: 15 V dc becomes 5 V dc (3 times less)\n");
  const auto raised = [](std::string_view above) {
    return replaced(
        profile,
        {{R"("meaning": "flow sensor",)",
          fmt::format(R"("meaning": "flow sensor", "raised": {{"component": "flow", "above": "{}"}},)",
                      above)}});
  };
  EXPECT_EQ(said(diff(raised("105 °C"), raised("110 °C"))),
            "meaning changed: faults, E3, raised, above: 105 °C becomes 110 °C (+5 K)\n");
}

TEST(Diff, SaysWhichContactMoved) {
  EXPECT_EQ(said(changed({{R"("between": ["X2.3", "X2.2"])", R"("between": ["X2.1", "X2.2"])"}})),
            "meaning changed: return, between: X2.3 becomes X2.1\n");
}

TEST(Diff, SeesExchangedWiresAndPlugs) {
  EXPECT_EQ(said(changed({{R"("wire": {"base": "RD"})", R"("wire": {"base": "xx"})"},
                          {R"("wire": {"base": "BU"})", R"("wire": {"base": "RD"})"},
                          {R"({"base": "xx"})", R"({"base": "BU"})"}})),
            "meaning exchanged: connectors, X2, pins, 1 and 3: wire exchanged\n");
  EXPECT_EQ(said(changed({{R"("between": ["X2.1", "X2.2"])", R"("between": ["X2.x", "X2.2"])"},
                          {R"("between": ["X2.3", "X2.2"])", R"("between": ["X2.1", "X2.2"])"},
                          {R"(["X2.x", "X2.2"])", R"(["X2.3", "X2.2"])"}})),
            "meaning exchanged: flow and return: between exchanged\n");
  // Two entries that took each other's place whole say so once, whatever their members are.
  EXPECT_EQ(said(changed({{R"("1": {"signal": "flow sensor", "wire": {"base": "RD"}})",
                           R"("1": {"signal": "return sensor", "wire": {"base": "BU"}})"},
                          {R"("3": {"signal": "return sensor", "wire": {"base": "BU"}})",
                           R"("3": {"signal": "flow sensor", "wire": {"base": "RD"}})"}})),
            "meaning exchanged: connectors, X2, pins, 1 and 3: exchanged\n");
}

TEST(Diff, FollowsARenamedTest) {
  EXPECT_EQ(said(changed({{R"("flow_cold": {)", R"("flow_at_20": {)"},
                          {R"(["flow_cold"])", R"(["flow_at_20"])"},
                          {R"(["flow_cold"])", R"(["flow_at_20"])"}})),
            "meaning renamed: flow_cold: renamed to flow_at_20\n");
}

TEST(Diff, FollowsARenamedComponentAlsoWhereItIsReferredToFromAbove) {
  const std::string older = replaced(profile, {{R"("isolate_at": "fused spur"}]})",
                                                R"("isolate_at": "fused spur"}],
    "hazards": [{"kind": "hot_surface", "component": "flow", "wait": "20 min"}]})"},
                                               {R"("modes": ["open"], "decided_by": ["flow_cold"]}]}})",
                                                R"("modes": ["open"], "decided_by": ["flow_cold"]}]}},
  "waivers": [{"rule": "band-too-wide", "at": "/components/flow/model", "why": "measured"}])"}});
  const std::string newer =
      replaced(older, {{R"("component": "flow", "wait")", R"("component": "tank", "wait")"},
                       {R"("flow": {"kind")", R"("tank": {"kind")"},
                       {R"("component": "flow", "unplug")", R"("component": "tank", "unplug")"},
                       {R"("component": "flow", "modes")", R"("component": "tank", "modes")"},
                       {"/components/flow/model", "/components/tank/model"}});
  EXPECT_EQ(said(diff(older, newer)), "meaning renamed: flow: renamed to tank\n");
}

TEST(Diff, FollowsARenamedConnectorInEveryContact) {
  const std::string older =
      replaced(profile, {{R"("signal": "common", "wire": {"base": "BK"})",
                          R"("signal": "common", "wire": {"base": "BK"}, "links": ["X2.4"])"}});
  std::string newer = replaced(older, {{R"("X2": {"label")", R"("X9": {"label")"},
                                       {R"("connector": "X2")", R"("connector": "X9")"},
                                       {R"("unplug": "X2")", R"("unplug": "X9")"},
                                       {R"("unplug": "X2")", R"("unplug": "X9")"}});
  for (std::size_t at = 0; (at = newer.find("X2.", at)) != std::string::npos;) newer.replace(at, 2, "X9");
  EXPECT_EQ(said(diff(older, newer)), "meaning renamed: connectors, X2: renamed to X9\n");
  EXPECT_EQ(said(diff(older, replaced(newer, {{R"(["X9.4"])", R"(["X9.3"])"}}))),
            "meaning renamed: connectors, X2: renamed to X9\n"
            "meaning changed: connectors, X9, pins, 2, links: X9.4 becomes X9.3\n");
}

TEST(Diff, SaysWhereAnEntryStandsInBothDocuments) {
  EXPECT_EQ(places(changed({{R"("flow_cold": {)", R"("flow_at_20": {)"},
                            {R"(["flow_cold"])", R"(["flow_at_20"])"},
                            {R"(["flow_cold"])", R"(["flow_at_20"])"}})),
            "18:/tests/flow_cold -> 18:/tests/flow_at_20\n");
  const std::string without =
      replaced(profile, {{R"("1": {"signal": "flow sensor", "wire": {"base": "RD"}},)", ""}});
  EXPECT_EQ(places(diff(profile, without)), "9:/connectors/X2/pins/1 -> -\n");
  EXPECT_EQ(places(diff(without, profile)), "- -> 9:/connectors/X2/pins/1\n");
}

TEST(Diff, SaysWhatElseChangedInARenamedEntry) {
  EXPECT_EQ(said(changed({{R"("flow_cold": {)", R"("flow_at_20": {)"},
                          {R"("nominal": "12.5 kΩ")", R"("nominal": "15 kΩ")"},
                          {R"(["flow_cold"])", R"(["flow_at_20"])"},
                          {R"(["flow_cold"])", R"(["flow_at_20"])"}})),
            "meaning renamed: flow_cold: renamed to flow_at_20\n"
            "meaning band: flow_at_20, expect: 11.25 kΩ to 13.75 kΩ becomes 13.5 kΩ to 16.5 kΩ (+20 %)\n");
}

TEST(Diff, NamesWhatIsNewAndWhatIsGone) {
  const Document_diff gone =
      diff(profile,
           replaced(profile,
                    {{R"("return": {"kind": "ntc", "name": "Return sensor", "between": ["X2.3", "X2.2"]})",
                      R"("tank": {"kind": "ntc", "name": "Tank sensor"})"},
                     {R"("component": "return")", R"("component": "tank")"}}));
  EXPECT_EQ(said(gone), "meaning removed: return: removed: Return sensor\n"
                        "meaning added: tank: added: Tank sensor\n"
                        "meaning changed: return_cold, component: \"return\" becomes \"tank\"\n");
}

TEST(Diff, SeesAnotherOrderOnlyWhereItIsAStatement) {
  EXPECT_EQ(said(changed({{R"("Larch 24", "Larch 30")", R"("Larch 30", "Larch 24")"}})),
            "spelling reordered: appliance, models: Larch 24 and Larch 30 becomes Larch 30 and Larch 24\n");
  const std::string harness =
      R"({"kind": "harness", "connector": "X2", "modes": ["open"], "decided_by": ["flow_cold"]})";
  const std::string sensor =
      R"({"kind": "component", "component": "flow", "modes": ["open", "short"], "decided_by": ["flow_cold"]})";
  EXPECT_EQ(said(changed({{harness, "here"}, {sensor, harness}, {"here", sensor}})),
            "meaning reordered: faults, E3, suspects: flow and X2 becomes X2 and flow\n");
}

TEST(Diff, KnowsTwoSuspectsOfOneComponentApart) {
  const auto suspect = [](std::string_view modes) {
    return fmt::format(
        R"({{"kind": "component", "component": "flow", "modes": [{}], "decided_by": ["flow_cold"]}})", modes);
  };
  const auto with = [&](std::string_view first, std::string_view second) {
    return replaced(profile, {{suspect(R"("open", "short")"), suspect(first) + ", " + suspect(second)}});
  };
  const std::string older = with(R"("open", "short")", R"("drift_low")");
  EXPECT_EQ(said(diff(older, with(R"("drift_low")", R"("open", "short")"))),
            "meaning reordered: faults, E3, suspects: flow (1), flow (2) and X2 becomes flow (2), flow (1) "
            "and X2\n");
  EXPECT_EQ(
      said(diff(older, with(R"("drift_low", "drift_high")", R"("open", "short")"))),
      "meaning reordered: faults, E3, suspects: flow (1), flow (2) and X2 becomes flow (2), flow (1) and X2\n"
      "meaning changed: faults, E3, suspects, flow, modes: with drift_high\n");
  EXPECT_EQ(said(diff(older, with(R"("open", "short")", R"("drift_high")"))),
            "meaning changed: faults, E3, suspects, flow, modes: drift_low becomes drift_high\n");
}

TEST(Diff, TellsWordsFromMeaning) {
  const Document_diff found =
      changed({{R"("name": "Flow sensor")", R"("name": "Flow temperature sensor")"},
               {R"("title": "Larch service notes")", R"("title": "Larch notes, issue 2")"}});
  EXPECT_EQ(found.count(Change_weight::explanation), 2u) << said(found);
  EXPECT_EQ(found.changes.size(), 2u) << said(found);
  EXPECT_FALSE(found.revision_must_grow());
  // How a supply is isolated is more than words.
  EXPECT_EQ(changed({{"fused spur", "plug top"}}).count(Change_weight::meaning), 1u);
}

// A long note that changes at its end is not shown twice by its beginning.
TEST(Diff, ShowsLongTextsWhereTheyPart) {
  const std::string front = "refrigerant and oil in the shell lower the reading when cold; repeat ";
  const auto noted = [&](std::string_view end) {
    return replaced(profile, {{R"("name": "Flow sensor",)",
                               fmt::format(R"("name": "Flow sensor", "note": "{}{}",)", front, end)}});
  };
  EXPECT_EQ(said(diff(noted("after the heater has run"), noted("after it has run, isolate and prove dead"))),
            "explanation changed: flow, note: \"…cold; repeat after the heater has run\" becomes \"…cold; "
            "repeat after "
            "it has run, isolate and prove dead\"\n");
  const std::string word(50, 'x');
  EXPECT_EQ(
      said(diff(replaced(noted("a"), {{front, word}}), replaced(noted("b"), {{front, word}}))),
      fmt::format("explanation changed: flow, note: \"…{0}a\" becomes \"…{0}b\"\n", std::string(20, 'x')));
}

TEST(Diff, AsksForAGreaterRevision) {
  const std::vector<Replacement> meaning = {{R"("Larch 30")", R"("Larch 35")"}};
  EXPECT_TRUE(changed(meaning).revision_must_grow());
  EXPECT_FALSE(diff(profile, replaced(replaced(profile, meaning), {{R"("revision": 3)", R"("revision": 4)"}}))
                   .revision_must_grow());
  EXPECT_TRUE(diff(profile, replaced(replaced(profile, meaning), {{R"("revision": 3)", R"("revision": 2)"}}))
                  .revision_must_grow());
}

TEST(Diff, KeepsAnEyeOnMembersThatItDoesNotKnow) {
  const Document_diff found = changed({{R"("revision": 3,)", R"("revision": 3, "x_shelf": {"row": 4},)"}});
  EXPECT_EQ(said(found), "explanation added: x_shelf: added; this program does not know what it means\n");
}

TEST(Diff, TellsSpellingFromChangeInMembersThatItDoesNotKnow) {
  const auto of = [](std::string_view older, std::string_view newer) {
    const auto with = [](std::string_view json) {
      return replaced(profile, {{R"("revision": 3,)", fmt::format(R"("revision": 3, "x_mine": {},)", json)}});
    };
    return said(diff(with(older), with(newer)));
  };
  const std::string spelling = "spelling changed: x_mine: one JSON value, written in two ways\n";
  const std::string changed =
      "explanation changed: x_mine: changed; this program does not know what it means\n";
  // RFC 8259: section 2 (space between tokens), 7 (escapes), 4 (an object is unordered).
  EXPECT_EQ(of("[1, 2]", "[ 1,2\n]"), spelling);
  EXPECT_EQ(of(R"("A/\u00b5")", R"("\u0041\/µ")"), spelling);
  EXPECT_EQ(of(R"({"a": 1, "b": [{}]})", R"({"b":[{ }],"\u0061":1})"), spelling);
  EXPECT_EQ(of(R"({"a": [1], "a": 2})", R"({"a": [ 1], "a": 2})"), spelling) << "keys that stand twice";
  EXPECT_EQ(of("{}", "{ }"), spelling);
  EXPECT_EQ(of("{}", "{}"), "");

  EXPECT_EQ(of("[1, 2]", "[2, 1]"), changed) << "the order of a list may mean something";
  EXPECT_EQ(of("[1]", "[1, 1]"), changed);
  EXPECT_EQ(of("[]", "{}"), changed);
  EXPECT_EQ(of("1", "\"1\""), changed);
  EXPECT_EQ(of("true", "false"), changed);
  EXPECT_EQ(of("null", "false"), changed);
  EXPECT_EQ(of(R"({"a": 1})", R"({"b": 1})"), changed);
  EXPECT_EQ(of(R"({"a": {"b": 1}})", R"({"a": {"b": 2}})"), changed);
  EXPECT_EQ(of(R"({"a": 1, "a": 2})", R"({"a": 2, "a": 1})"), changed) << "programs keep one of the two";
  // Written digits count, so that the canonical form keeps them.
  EXPECT_EQ(of("1.0", "1.00"), changed);
  EXPECT_EQ(of("1000", "1e3"), changed);
}

// Every document of the corpus against a copy in which one place of it differs.
TEST(Diff, MissesNoQuantityOfTheCorpus) {
  std::size_t tried = 0;
  std::string why;
  const std::string path = OHMLORE_SOURCE_DIR "/corpus/profiles/orrinvale/orrinvale-ov4410.profile.json";
  const auto bytes = read_file(path, why);
  ASSERT_TRUE(bytes) << why;
  const Read_result read = read_json("older.json", *bytes);
  for (const Quantity_use& use : read.document.quantities()) {
    const Node& node = read.document.node(use.node);
    // Another first digit is another value, in every unit and whatever the form of the quantity.
    std::size_t digit = node.begin;
    while (digit < node.end && ((*bytes)[digit] < '0' || (*bytes)[digit] > '9')) ++digit;
    ASSERT_LT(digit, node.end);
    std::string other = *bytes;
    other[digit] = other[digit] == '2' ? '3' : '2';
    const Read_result changed = read_json("newer.json", other);
    const Document_diff found = diff_documents(read.document, {}, changed.document, {});
    EXPECT_GE(found.count(Change_weight::meaning), 1u) << read.document.pointer(use.node);
    ++tried;
  }
  EXPECT_GT(tried, 20u);
}

TEST(Diff, ReportsAsItsSchemaSays) {
  Diff_run run;
  run.compared = 1;
  run.documents.push_back(
      changed({{R"("Larch 30")", R"("Larch 35")"}, {R"("X2.3", "X2.2")", R"("X2.1", "X2.2")"}}));
  const Read_result read = read_json("newer.json", profile);
  run.documents.push_back(added_document(read.document));
  run.documents.push_back(removed_document(read.document));
  run.troubles.push_back("one");
  const Schema_verdict verdict = check_schema(compile_schema(diff_schema()), json_report(run));
  EXPECT_TRUE(verdict.problem.empty()) << verdict.problem;
  EXPECT_TRUE(verdict.refusals.empty())
      << verdict.refusals.front().pointer << verdict.refusals.front().message;
}

TEST(Diff, EscapesMarkupInMarkdown) {
  Diff_run run;
  run.documents.push_back(changed({{R"("name": "Flow sensor")", R"("name": "<b>|*x*@y")"}}));
  const std::string text = markdown_report(run);
  EXPECT_EQ(text.find("<b>"), std::string::npos) << text;
  EXPECT_NE(text.find("&lt;b\\>\\|\\*x\\*&#64;y"), std::string::npos) << text;
}

}
}
