// Which failures a reading fits, and which it excludes. Common practice, no source.
#include "ohmlore/judge.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <tuple>

#include "support/bench.h"
#include "support/judged.h"

namespace ohmlore {
namespace {

using namespace test;

TEST(Judge, Open_and_short_are_seen) {
  const Judgement open = Bench().of("flow", "OL", "15 °C");
  EXPECT_EQ(open.result, Conformity::outside);
  EXPECT_TRUE(fits(open, Mode::open));
  EXPECT_FALSE(fits(open, Mode::drift_high));
  const Judgement shorted = Bench().of("flow", "0.4 Ω", "15 °C");
  EXPECT_TRUE(fits(shorted, Mode::short_));
  EXPECT_FALSE(fits(shorted, Mode::drift_low));
  EXPECT_TRUE(fits(Bench().of("flow", "40 kΩ", "15 °C"), Mode::drift_high));
  // A sensor is open from a hundred times its limit of 18.4 kΩ on.
  EXPECT_FALSE(fits(Bench().of("flow", "1.20 MΩ", "15 °C"), Mode::open));
  EXPECT_TRUE(fits(Bench().of("flow", "1.20 MΩ", "15 °C"), Mode::drift_high));
  EXPECT_TRUE(fits(Bench().of("flow", "2.00 MΩ", "15 °C"), Mode::open));
  // A dead short to earth is leakage too. What reads below the least that a test asks for has not drifted.
  EXPECT_TRUE(fits(Bench().of("pump_earth", "0.4 Ω"), Mode::leakage_to_earth));
  const std::string_view side = R"("probes": ["X4.3", "X4.2"], "side": "at_board_plug")";
  const Bench least(
      bench_with(side, fmt::format(R"({}, "expect": {{ "kind": "not_short", "above": "500 Ω" }})", side)));
  EXPECT_TRUE(fits(least.of("return", "300 Ω"), Mode::short_));
  EXPECT_FALSE(fits(least.of("return", "300 Ω"), Mode::drift_low));
  EXPECT_TRUE(fits(Bench().of("coil", "30 Ω", "20 °C"), Mode::shorted_turns));
}

// The test asks for more than 20 Ω: what reads less is a short to it, and not only what reads below 1 Ω.
TEST(Judge, The_test_that_failed_never_clears_a_short) {
  for (const char* shown : {"0.4 Ω", "5.0 Ω", "12.0 Ω"}) {
    const Judgement found = Bench().of("fan", shown);
    EXPECT_EQ(found.result, Conformity::outside) << shown;
    EXPECT_TRUE(fits(found, Mode::short_)) << shown;
  }
  EXPECT_EQ(of_mode(Bench().of("fan", "20.0 Ω"), Mode::short_), Mode_verdict::undecided);
  EXPECT_EQ(of_mode(Bench().of("fan", "4.7 kΩ"), Mode::short_), Mode_verdict::excluded);
  // "2 kΩ" may be 1.5 kΩ rounded, and the limit is 2 kΩ: 0.9 of it fails, and is the short that it looks for.
  for (const auto& [kind, limit, shown] :
       {std::tuple{"not_short", "2 kΩ", "1.80 kΩ"}, {"open", "500 Ω", "450 Ω"}, {"open", "1 kΩ", "900 Ω"}}) {
    std::string profile(bench_profile);
    const std::string_view stated = R"("kind": "not_short", "above": "20 Ω")";
    profile.replace(profile.find(stated), stated.size(),
                    fmt::format(R"("kind": "{}", "above": "{}")", kind, limit));
    const Judgement found = Bench(profile).of("fan", shown);
    EXPECT_EQ(found.result, Conformity::outside) << limit;
    EXPECT_TRUE(fits(found, Mode::short_)) << limit;
  }
  // A coil of at least 40.85 Ω that reads less than a tenth of it, and one that does not.
  EXPECT_TRUE(fits(Bench().of("coil", "3.0 Ω", "20 °C"), Mode::short_));
  EXPECT_EQ(of_mode(Bench().of("coil", "30.0 Ω", "20 °C"), Mode::short_), Mode_verdict::excluded);
}

// A resistor that tells the board its model: any other value is that of another model, but nothing and no
// end.
TEST(Judge, Another_value_of_a_coding_is_that_of_another_model) {
  std::string profile = bench_with(R"("kind": "ntc", "name": "Tank sensor", "between": ["X4.7", "X4.8"],
      "model": { "kind": "beta", "resistance": "12 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3435 K", "b_between": "25 °C to 85 °C" })",
                                   R"("kind": "coding", "name": "Coding", "between": ["X4.7", "X4.8"],
      "model": { "kind": "fixed", "resistance": "470 Ω", "tolerance": "5 %" })");
  const std::string_view old = R"("side": "at_board_plug", "excludes": ["open"] },
    "coil")";
  profile.replace(profile.find(old), old.size(),
                  R"("side": "at_board_plug", "excludes": ["open", "short", "wrong_part"] },
    "coil")");
  const Bench bench(profile);
  for (const char* other : {"220.0 Ω", "1.000 kΩ"})
    EXPECT_TRUE(fits(bench.of("tank", other), Mode::wrong_part)) << other;
  EXPECT_EQ(of_mode(bench.of("tank", "470.3 Ω"), Mode::wrong_part), Mode_verdict::excluded);
  // Within a meter's doubt of 446.5 Ω and of 493.5 Ω.
  for (const char* near : {"445.0 Ω", "492.0 Ω"})
    EXPECT_EQ(of_mode(bench.of("tank", near), Mode::wrong_part), Mode_verdict::undecided) << near;
  for (const auto& [shown, mode] : {std::pair{"0.4 Ω", Mode::short_}, {"OL", Mode::open}}) {
    EXPECT_TRUE(fits(bench.of("tank", shown), mode)) << shown;
    // A link, or nothing, may be the code of another model.
    EXPECT_EQ(of_mode(bench.of("tank", shown), Mode::wrong_part), Mode_verdict::undecided) << shown;
    for (const Mode_answer& answer : bench.of("tank", shown).modes) {
      if (answer.mode != Mode::wrong_part) continue;
      EXPECT_NE(answer.why.find("another model's code"), std::string::npos) << answer.why;
    }
  }
}

// 61 kΩ is above a range of 60 kΩ, as an open path is.
TEST(Judge, Over_range_of_a_low_range_may_be_drift) {
  const Judgement low_range = Bench().of("flow", "OL 60 kΩ", "15 °C");
  EXPECT_EQ(of_mode(low_range, Mode::drift_high), Mode_verdict::undecided);
  EXPECT_EQ(of_mode(low_range, Mode::open), Mode_verdict::undecided);
  EXPECT_EQ(of_mode(low_range, Mode::drift_low), Mode_verdict::excluded);
  EXPECT_TRUE(fits(Bench().of("flow", "OL 6 MΩ", "15 °C"), Mode::open));
  EXPECT_TRUE(fits(Bench().of("coil", "OL 6 kΩ", "20 °C"), Mode::open)) << "no wire drifts that far";
}

TEST(Judge, Drift_may_be_too_close_while_open_is_excluded) {
  const Judgement found = Bench().of("flow", "14.2 kΩ", "15 °C ± 1 K");
  EXPECT_EQ(found.result, Conformity::too_close);
  EXPECT_EQ(of_mode(found, Mode::open), Mode_verdict::excluded);
  EXPECT_EQ(of_mode(found, Mode::short_), Mode_verdict::excluded);
  EXPECT_EQ(of_mode(found, Mode::drift_low), Mode_verdict::undecided);
  EXPECT_TRUE(says(found.settle, "a thermometer that is within")) << found.settle.at(0);
  EXPECT_TRUE(says(found.settle, "--at-part"));
  Judge_request both = Bench::request("flow", "14.2 kΩ", "15 °C ± 1 K");
  both.at_part = Bench::reading("14.2 kΩ");
  EXPECT_FALSE(says(Bench().of(both).settle, "--at-part")) << "it is given";
}

// One that is reset by hand has opened for a reason, and in a chain it need not be this one.
TEST(Judge, A_limiter_that_is_open_may_have_done_its_work) {
  std::string profile(bench_profile);
  const auto replace = [&](std::string_view old, std::string_view by) {
    profile.replace(profile.find(old), old.size(), by);
  };
  EXPECT_FALSE(says(Bench(profile).of("stat", "OL").remarks, "find what opened it"));
  replace(R"("contacts": "nc")", R"("contacts": "nc", "manual_reset": true)");
  EXPECT_TRUE(says(Bench(profile).of("stat", "OL").remarks, "find what opened it"));
  EXPECT_FALSE(says(Bench(profile).of("stat", "OL").remarks, "several parts lie in this path"));
  replace(R"("tests": {)", R"("circuits": { "chain": { "between": ["X4.6", "X4.2"], "arrangement": "series",
    "elements": [{ "kind": "component", "component": "coil" }, { "kind": "component", "component": "stat" }] } },
  "tests": {)");
  EXPECT_TRUE(says(Bench(profile).of("stat", "OL").remarks, "several parts lie in this path"));
}

TEST(Judge, Of_a_chain_with_a_limiter_any_reading_says_to_find_what_opened_it) {
  std::string profile(bench_profile);
  profile.insert(profile.find(R"("tests": {)"),
                 R"("circuits": { "chain": { "between": ["X4.6", "X4.2"], "arrangement": "series",
    "elements": [{ "kind": "component", "component": "stat" }, { "kind": "component", "component": "limit" }] } },
  )");
  const auto beside = [&](std::string_view what) {
    std::string text(profile);
    const std::string_view components = R"("components": {)";
    text.insert(text.find(components) + components.size(),
                R"( "limit": { "kind": "switch", "name": "Limiter")" + std::string(what) + " },");
    return Bench(text).of("stat", "OL").remarks;
  };
  EXPECT_TRUE(says(beside(R"(, "manual_reset": true)"), "find what opened it"));
  EXPECT_FALSE(says(beside(""), "find what opened it"));
}

TEST(Judge, A_fuse_that_reads_a_little_looks_like_a_bad_contact) {
  std::string profile(bench_profile);
  const auto replace = [&](std::string_view old, std::string_view by) {
    profile.replace(profile.find(old), old.size(), by);
  };
  replace(R"("kind": "switch", "name": "Limit")", R"("kind": "fuse", "name": "Fuse")");
  replace(R"(, "contacts": "nc", "states": { "cold": "closed", "hot": "open" })", "");
  replace(R"("condition": "cold",)", R"("expect": { "kind": "closed", "below": "1 Ω" },)");
  replace(R"(["open", "stuck_open", "high_contact_resistance"])", R"(["open"])");
  const Bench bench(profile);
  for (const char* shown : {"30 Ω", "900 Ω"}) {
    const Judgement found = bench.of("stat", shown);
    EXPECT_TRUE(fits(found, Mode::high_contact_resistance)) << shown;
    EXPECT_EQ(of_mode(found, Mode::open), Mode_verdict::excluded) << shown;
  }
  const Judgement blown = bench.of("stat", "OL");
  EXPECT_TRUE(fits(blown, Mode::open));
  EXPECT_TRUE(says(blown.remarks, "find what opened it")) << "it may have done its work";
  EXPECT_FALSE(says(bench.of("stat", "30 Ω").remarks, "find what opened it"));
  EXPECT_FALSE(fits(blown, Mode::high_contact_resistance));
  EXPECT_FALSE(fits(bench.of("stat", "0.4 Ω"), Mode::high_contact_resistance));
}

// A float switch with a resistor of 4.7 kΩ beside its contact, which is open while the float is up.
TEST(Judge, A_contact_that_closes_badly_beside_its_resistor_is_stuck_closed) {
  std::string profile(bench_profile);
  const std::string_view cold = R"("condition": "cold",)";
  profile.replace(profile.find(cold), cold.size(),
                  R"("condition": "hot", "expect": { "kind": "band", "min": "4.5 kΩ", "max": "4.9 kΩ" },)");
  const std::string_view excludes = R"("excludes": ["open", "stuck_open", "high_contact_resistance"])";
  profile.replace(profile.find(excludes), excludes.size(), R"("excludes": ["stuck_closed"])");
  const Bench bench(profile);
  for (const char* shown : {"0.5 Ω", "12 Ω", "500 Ω"})
    EXPECT_TRUE(fits(bench.of("stat", shown), Mode::stuck_closed)) << shown;
  EXPECT_EQ(of_mode(bench.of("stat", "2.0 kΩ"), Mode::stuck_closed), Mode_verdict::excluded);
  // About 0 Ω nothing has drifted: up to 10 Ω, which long leads and bad contacts leave of a short.
  EXPECT_TRUE(fits(bench.of("flow", "500 Ω", "20 °C"), Mode::drift_low));
  EXPECT_EQ(of_mode(bench.of("flow", "5.0 Ω", "20 °C"), Mode::drift_low), Mode_verdict::excluded);
  // No contact of a sensor is closed.
  EXPECT_EQ(of_mode(bench.of("flow", "500 Ω", "20 °C"), Mode::short_), Mode_verdict::excluded);
}

// Where the contact opens the resistor reads on. Both of them are hardly open: the way to them is.
TEST(Judge, A_contact_that_is_open_beside_a_resistor_does_not_read_OL_by_itself) {
  const Bench bench(bench_with(R"("tests": {)", R"("circuits": { "watched": { "between": ["X4.6", "X4.2"],
    "arrangement": "parallel", "elements": [{ "kind": "component", "component": "stat" },
                                            { "kind": "resistor", "resistance": "4.7 kΩ", "tolerance": "5 %" }] } },
  "tests": {)"));
  EXPECT_TRUE(fits(bench.of("stat", "4.70 kΩ"), Mode::stuck_open));
  for (const char* shown : {"OL", "1.500 MΩ"}) {
    const Judgement open = bench.of("stat", shown);
    EXPECT_EQ(of_mode(open, Mode::stuck_open), Mode_verdict::undecided) << shown;
    EXPECT_EQ(of_mode(open, Mode::open), Mode_verdict::undecided) << shown;
    EXPECT_EQ(of_mode(open, Mode::high_contact_resistance), Mode_verdict::excluded) << shown;
    EXPECT_TRUE(says(open.remarks, "rather the way to all")) << shown;
  }
  EXPECT_FALSE(says(bench.of("stat", "4.70 kΩ").remarks, "rather the way to all"));
  EXPECT_TRUE(fits(Bench().of("stat", "OL"), Mode::stuck_open));
}

// Two coils of 43 Ω ± 5 % side by side read 20.4 to 22.6 Ω, one alone 40.9 to 45.2 Ω, and 39.3 Ω where 1 kΩ
// of damp lies beside its break. In a row they read 81.7 to 90.3 Ω, and one alone where the other is shorted.
TEST(Judge, What_the_others_in_a_path_read_tells_whether_one_of_them_is_open_or_shorted) {
  const auto two = [](std::string_view arrangement, std::string_view band) {
    std::string profile =
        bench_with(R"("min": "40 Ω", "max": "46 Ω", "at": "20 °C" }, "excludes": ["open"])",
                   fmt::format(R"({}, "at": "20 °C" }}, "excludes": ["open", "short"])", band));
    const std::string_view pump = R"("pump": {)", tests = R"("tests": {)";
    profile.replace(profile.find(tests), tests.size(),
                    fmt::format(R"("circuits": {{ "coils": {{
      "between": ["X4.4", "X4.5"], "arrangement": "{}", "elements": [
        {{ "kind": "component", "component": "coil" }}, {{ "kind": "component", "component": "second" }}] }} }},
  "tests": {{)",
                                arrangement));
    return profile.replace(profile.find(pump), pump.size(),
                           R"("second": { "kind": "coil", "name": "Second coil",
      "metal": "copper", "drive": "dc", "suppression": "none",
      "model": { "kind": "copper", "resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %" } },
    "pump": {)");
  };
  const Bench beside(two("parallel", R"("min": "20.4 Ω", "max": "22.6 Ω")"));
  for (const char* shown : {"26.0 Ω", "36.0 Ω"}) {
    EXPECT_TRUE(fits(beside.of("band", shown, "20 °C"), Mode::drift_high)) << shown;
    EXPECT_EQ(of_mode(beside.of("band", shown, "20 °C"), Mode::open), Mode_verdict::excluded) << shown;
  }
  EXPECT_EQ(of_mode(beside.of("band", "39.5 Ω", "20 °C"), Mode::open), Mode_verdict::undecided);
  EXPECT_TRUE(fits(beside.of("band", "43.3 Ω", "20 °C"), Mode::open));
  // Twice what one alone reads neither does where the other is open; and from 1 kΩ on both may be.
  EXPECT_EQ(of_mode(beside.of("band", "95.0 Ω", "20 °C"), Mode::open), Mode_verdict::excluded);
  EXPECT_EQ(of_mode(beside.of("band", "1.50 kΩ", "20 °C"), Mode::open), Mode_verdict::undecided);
  // Copper, it goes along with the temperature: at 0 °C one alone reads 37.7 to 41.6 Ω, at 100 °C 53.7
  // to 59.4 Ω.
  EXPECT_TRUE(fits(beside.of("band", "38.0 Ω", "0 °C"), Mode::open));
  EXPECT_TRUE(fits(beside.of("band", "57.0 Ω", "100 °C"), Mode::open));
  EXPECT_EQ(of_mode(beside.of("band", "38.0 Ω"), Mode::open), Mode_verdict::undecided) << "5 °C to 30 °C";

  const Bench in_a_row(two("series", R"("min": "81.7 Ω", "max": "90.3 Ω")"));
  EXPECT_EQ(of_mode(in_a_row.of("band", "68.0 Ω", "20 °C"), Mode::short_), Mode_verdict::excluded);
  EXPECT_TRUE(fits(in_a_row.of("band", "43.3 Ω", "20 °C"), Mode::short_));
  EXPECT_TRUE(fits(in_a_row.of("band", "55.0 Ω", "100 °C"), Mode::short_));
  EXPECT_TRUE(fits(in_a_row.of("band", "OL", "20 °C"), Mode::open));
  // About nothing is read where both are shorted, or what lies before them is.
  for (const Mode_answer& answer : in_a_row.of("band", "0.5 Ω", "20 °C").modes) {
    if (answer.mode != Mode::short_) continue;
    EXPECT_EQ(answer.verdict, Mode_verdict::undecided);
    EXPECT_NE(answer.why.find("whether what lies in a row with it is shorted too"), std::string::npos)
        << answer.why;
  }
}

// Three windings of 30 Ω in a ring read 20 Ω at each pair of ends. With one open its own ends read the other
// two in a row, 60 Ω, and the other ends one of them alone, 30 Ω (Ohm's law).
TEST(Judge, Of_three_windings_in_a_ring_the_other_two_read_on_where_one_is_open) {
  std::string profile(bench_profile);
  const auto put = [&](std::string_view old, std::string_view text) {
    profile.replace(profile.find(old), old.size(), text);
  };
  put(R"("start_run")", R"("delta")");
  for (const char* ohm : {R"("44 Ω")", R"("16 Ω")", R"("60 Ω")"}) put(ohm, R"("20 Ω")");
  const Bench bench(profile);
  for (const char* shown : {"60.3 Ω", "30.3 Ω"})
    EXPECT_TRUE(fits(bench.of("pump_cs", shown, "20 °C"), Mode::open)) << shown;
  EXPECT_EQ(of_mode(bench.of("pump_cs", "20.3 Ω", "20 °C"), Mode::open), Mode_verdict::excluded);
  EXPECT_EQ(of_mode(bench.of("pump_cs", "24.5 Ω", "20 °C"), Mode::open), Mode_verdict::excluded);
  EXPECT_EQ(of_mode(bench.of("pump_cs", "OL", "20 °C"), Mode::open), Mode_verdict::undecided)
      << "or its wire";
  EXPECT_FALSE(fits(Bench().of("pump_cs", "60.3 Ω", "20 °C"), Mode::open)) << "of two with a common end";
  const Verdict together = bench.verdict(std::vector{Bench::request("pump_cs", "60.3 Ω", "20 °C"),
                                                     Bench::request("pump_cr", "30.3 Ω", "20 °C"),
                                                     Bench::request("pump_sr", "30.3 Ω", "20 °C")});
  EXPECT_NE(together.sets.at(0).words.find("a break in the other"), std::string::npos);
}

// Half of 44 Ω: a winding that is shorted, of which nothing says how the others lie beside it.
TEST(Judge, Of_several_windings_the_others_read_on_where_one_is_shorted) {
  const auto of_short = [](const char* shown, const char* temperature) {
    const Bench bench(bench_profile);
    return of_mode(bench.of("pump_cs", shown, temperature), Mode::short_);
  };
  EXPECT_EQ(of_short("22.3 Ω", "20 °C"), Mode_verdict::undecided);
  EXPECT_EQ(of_short("48.3 Ω", "80 °C"), Mode_verdict::undecided) << "what is healthy cold";
  EXPECT_EQ(of_short("44.3 Ω", "20 °C"), Mode_verdict::excluded);
  EXPECT_EQ(of_short("60.3 Ω", "20 °C"), Mode_verdict::excluded);
  EXPECT_EQ(of_short("39.9 Ω", "20 °C"), Mode_verdict::excluded) << "too close to call, and no short";
  EXPECT_TRUE(fits(Bench().of("pump_cs", "0.4 Ω", "20 °C"), Mode::short_));
}

// A diode across 4.3 kΩ conducts a little at the half volt of a meter, one across 43 Ω sees none (Ohm's law).
TEST(Judge, The_diode_across_a_coil_is_told_of_where_it_may_conduct) {
  const auto told = [](std::string_view suppression, std::string_view ohm, const char* shown) {
    std::string profile =
        bench_with(R"("suppression": "none")", fmt::format(R"("suppression": "{}")", suppression));
    profile.replace(profile.find(R"("43 Ω")"), std::string_view(R"("43 Ω")").size(), ohm);
    return says(Bench(profile).of("coil", shown, "20 °C").remarks, "the diode across the coil");
  };
  EXPECT_TRUE(told("diode", R"("4.30 kΩ")", "3.80 kΩ"));
  EXPECT_FALSE(told("diode", R"("4.30 kΩ")", "4.30 kΩ"));
  EXPECT_FALSE(told("diode", R"("4.30 kΩ")", "5.30 kΩ"));
  EXPECT_FALSE(told("diode", R"("4.30 kΩ")", "0.5 Ω"));
  EXPECT_FALSE(told("diode", R"("43 Ω")", "38.3 Ω"));
  EXPECT_FALSE(told("none", R"("4.30 kΩ")", "3.80 kΩ"));
}

// A short behind its resistor of 330 Ω reads what that has, which is healthy; one before it reads nothing.
TEST(Judge, A_short_behind_the_resistor_of_a_contact_is_not_seen) {
  std::string profile =
      test::reed_profile_with_resistor(R"({ "kind": "band", "min": "310 Ω", "max": "350 Ω" })");
  const std::string_view modes = R"("modes": ["stuck_open", "stuck_closed"])";
  profile.replace(profile.find(modes), modes.size(), R"("modes": ["stuck_open", "stuck_closed", "short"])");
  const Bench bench(profile);
  EXPECT_EQ(of_mode(bench.of("stat", "330 Ω"), Mode::short_), Mode_verdict::not_seen);
  EXPECT_TRUE(fits(bench.of("stat", "0.4 Ω"), Mode::short_));
}

// A closed contact is to read at most 0.5 Ω: with 0.8 Ω it closes badly, and is neither shorted nor stuck.
TEST(Judge, What_reads_more_than_a_closed_contact_is_no_short) {
  Bench bench(bench_with(R"("condition": "cold",)", R"("expect": { "kind": "closed", "below": "0.5 Ω" },)"));
  std::string problem;
  bench.means.leads = parse_leads("0 ± 0", problem);
  for (const char* shown : {"0.5 Ω", "0.6 Ω", "1.0 Ω"}) {
    const Judgement found = bench.of("stat", shown);
    EXPECT_FALSE(fits(found, Mode::short_)) << shown;
    EXPECT_FALSE(fits(found, Mode::stuck_closed)) << shown;
  }
  EXPECT_TRUE(fits(bench.of("stat", "1.5 Ω"), Mode::high_contact_resistance));
}

// Behind a lamp across it a contact that is open reads OL, as the lamp does.
TEST(Judge, A_contact_that_is_stuck_open_beside_a_lamp_may_read_OL) {
  const Bench bench(bench_with(R"("contacts": "nc")", R"("contacts": "nc", "indicator": true)"));
  EXPECT_TRUE(fits(bench.of("stat", "OL"), Mode::stuck_open));
}

TEST(Judge, What_is_outside_hides_nothing_inside_the_limits) {
  const Bench bench(bench_with(
      R"("probes": ["X4.4", "X4.5"], "side": "at_board_plug", "excludes": ["open", "short"])",
      R"("probes": ["X4.4", "X4.5"], "side": "at_board_plug", "excludes": ["open", "shorted_turns"])"));
  EXPECT_EQ(of_mode(bench.of("coil", "OL", "20 °C"), Mode::shorted_turns), Mode_verdict::excluded);
  EXPECT_EQ(of_mode(bench.of("coil", "43.3 Ω", "20 °C"), Mode::shorted_turns), Mode_verdict::not_seen);
  EXPECT_TRUE(fits(bench.of("coil", "20.0 Ω", "20 °C"), Mode::shorted_turns));
}

TEST(Judge, With_the_part_off_the_failures_are_those_of_the_wires) {
  std::string profile(bench_profile);
  const std::string_view band = R"("band": { "component": "coil")";
  profile.replace(profile.find(band), band.size(), R"("cores": { "component": "flow", "unplug": "X4",
      "disconnect_also": ["the plug on the sensor"], "probes": ["X4.1", "X4.2"], "side": "harness",
      "expect": { "kind": "open", "above": "2 MΩ" }, "excludes": ["short"] },
    "band": { "component": "coil")");
  const std::string_view end = "\n  }\n}";
  profile.replace(profile.rfind(end), end.size(), R"(
  },
  "faults": { "H1": { "display": { "kind": "text", "text": "H1" }, "meaning": "flow sensor", "suspects": [
    { "kind": "component", "component": "flow", "modes": ["drift_high"], "decided_by": ["flow"] },
    { "kind": "harness", "connector": "X4", "modes": ["short", "wet_or_corroded"], "decided_by": ["cores"] }] } }
})");
  const Bench bench(profile);
  const Judgement none = bench.of("cores", "0.4 Ω"), over = bench.of("cores", "OL");
  EXPECT_EQ(none.result, Conformity::outside);
  EXPECT_TRUE(fits(none, Mode::short_));
  EXPECT_EQ(over.result, Conformity::within);
  EXPECT_EQ(of_mode(over, Mode::short_), Mode_verdict::excluded);
  for (const Judgement& found : {none, over}) {
    EXPECT_EQ(of_mode(found, Mode::wet_or_corroded), Mode_verdict::not_seen);
    EXPECT_TRUE(says(found.remarks, "the part is off: the failures are those of the wires"));
    EXPECT_TRUE(std::none_of(found.modes.begin(), found.modes.end(), [](const Mode_answer& one) {
      return one.mode == Mode::drift_high || one.why.find("the leads read the same") != std::string::npos;
    })) << "that is suspected of the sensor";
  }
  EXPECT_EQ(of_mode(bench.of("cores", "100 kΩ"), Mode::short_), Mode_verdict::undecided);
  EXPECT_FALSE(says(bench.of("flow", "12.5 kΩ", "20 °C").remarks, "the part is off"));
}

// A track of at most 12 kΩ that reads a little more is worn or dirty, and not broken.
TEST(Judge, A_track_that_reads_a_little_too_high_is_not_open) {
  const Bench bench(test::dial_profile());
  for (const char* shown : {"13.2 kΩ", "100 kΩ"}) {
    EXPECT_TRUE(fits(bench.of("stat", shown), Mode::high_contact_resistance)) << shown;
    EXPECT_FALSE(fits(bench.of("stat", shown), Mode::open)) << shown;
  }
  for (const char* shown : {"150 kΩ", "OL"}) EXPECT_TRUE(fits(bench.of("stat", shown), Mode::open)) << shown;
}

// One position says nothing of the others: who saw the whole sweep says that it was even.
TEST(Judge, A_track_is_whole_where_its_sweep_was_seen_to_be_even) {
  const Bench bench(test::dial_profile());
  Judge_request request = Bench::request("stat", "5.0 kΩ");
  EXPECT_EQ(of_mode(bench.of(request), Mode::open), Mode_verdict::undecided);
  request.answered = true;
  EXPECT_EQ(of_mode(bench.of(request), Mode::open), Mode_verdict::excluded);
  EXPECT_EQ(of_mode(bench.of(request), Mode::high_contact_resistance), Mode_verdict::excluded);
  request.answered = false;
  EXPECT_EQ(of_mode(bench.of(request), Mode::open), Mode_verdict::undecided);
  request.answered.reset();
  request.after = Bench::reading("OL");
  EXPECT_EQ(bench.of(request).result, Conformity::outside) << "no position of a whole track reads so";
  request.after = Bench::reading("OL 6 kΩ");
  EXPECT_EQ(bench.of(request).result, Conformity::too_close) << "a track of 12 kΩ may";
}

// Traces of metal and damp conduct on beside the break.
TEST(Judge, A_broken_contact_that_leaks_is_open) {
  for (const char* shown : {"1.1 kΩ", "5.0 kΩ", "100 kΩ", "500 kΩ"}) {
    const Judgement found = Bench().of("stat", shown);
    EXPECT_TRUE(fits(found, Mode::stuck_open)) << shown;
    EXPECT_FALSE(says(found.remarks, "neither closed nor open")) << shown;
  }
  EXPECT_TRUE(says(Bench().of("stat", "900 Ω").remarks, "neither closed nor open"));
  EXPECT_EQ(of_mode(Bench().of("stat", "30 Ω"), Mode::stuck_open), Mode_verdict::excluded);
}

// What a shorted coil reads behind its rectifier is not known, so that nothing clears it; 0 Ω looks like one.
TEST(Judge, Nothing_at_all_behind_a_rectifier_looks_like_a_short) {
  std::string profile(bench_profile);
  const auto replace = [&](std::string_view from, std::string_view to) {
    profile.replace(profile.find(from), from.size(), to);
  };
  replace(R"("drive": "dc")", R"("drive": "rectified")");
  replace(
      R"("expect": { "kind": "band", "min": "40 Ω", "max": "46 Ω", "at": "20 °C" }, "excludes": ["open"])",
      R"("expect": { "kind": "both_directions", "min": "2 kΩ", "reverse_min": "2 kΩ" }, "excludes": ["short"])");
  const Judgement nothing = Bench(profile).of("band", "0.5 Ω");
  EXPECT_EQ(nothing.result, Conformity::outside);
  EXPECT_TRUE(fits(nothing, Mode::short_));
  for (const char* shown : {"1.00 kΩ", "1.80 kΩ", "10.0 kΩ"})
    EXPECT_EQ(of_mode(Bench(profile).of("band", shown), Mode::short_), Mode_verdict::not_seen) << shown;
  // Of a meter that drives less voltage than its diodes take, no current flows through a good one either.
  replace(R"("reverse_min": "2 kΩ")", R"("max": "9 kΩ", "reverse_min": "2 kΩ")");
  Judge_request both_ways = Bench::request("band", "OL");
  both_ways.reverse = Bench::reading("OL");
  EXPECT_TRUE(says(Bench(profile).of(both_ways).remarks, "with a meter of low test voltage"));
  EXPECT_FALSE(says(Bench(profile).of("band", "1.80 kΩ").remarks, "with a meter of low test voltage"));
}

// A diode across a coil lies beside the path, one in series with it in the path (Ohm's law).
TEST(Judge, OL_may_be_a_meter_of_low_test_voltage_only_where_diodes_lie_in_the_path) {
  struct Built {
    const char *drive, *suppression;
    bool in_the_path;
  };
  for (const Built& one : {Built{"dc", "none", false},
                           {"dc", "diode", false},
                           {"ac", "varistor", false},
                           {"dc", "series_diode", true},
                           {"ac", "bridge", true},
                           {"economiser", "none", true},
                           {"rectified", "none", true}}) {
    const std::string profile =
        bench_with(R"("drive": "dc", "suppression": "none")",
                   fmt::format(R"("drive": "{}", "suppression": "{}")", one.drive, one.suppression));
    EXPECT_EQ(says(Bench(profile).of("band", "OL", "20 °C").remarks, "with a meter of low test voltage"),
              one.in_the_path)
        << one.drive << ' ' << one.suppression;
  }
}

// No copper drifts to ten times its resistance: what is left then is damp beside the break.
TEST(Judge, A_broken_wire_that_leaks_is_open_and_has_not_drifted) {
  for (const char* shown : {"1.2 kΩ", "300 kΩ", "999 kΩ"}) {
    const Judgement found = Bench().of("coil", shown, "20 °C");
    EXPECT_TRUE(fits(found, Mode::open)) << shown;
    EXPECT_FALSE(fits(found, Mode::drift_high)) << shown;
  }
  const Judgement drifted = Bench().of("coil", "60 Ω", "20 °C");
  EXPECT_TRUE(fits(drifted, Mode::drift_high));
  EXPECT_EQ(of_mode(drifted, Mode::open), Mode_verdict::excluded);
  // 430 Ω + 5 % at 20 °C is 380.5 Ω at -20 °C (k = 234.5 K): ten times that is 3.81 kΩ, and 4.52 kΩ at 20 °C.
  std::string cold(bench_profile);
  const std::string_view ohm = R"("resistance": "43 Ω")";
  cold.replace(cold.find(ohm), ohm.size(), R"("resistance": "430 Ω")");
  const Judgement broken = Bench(cold).of("coil", "4.20 kΩ", "-20 °C"),
                  less_of_it = Bench(cold).of("coil", "3.50 kΩ", "-20 °C"),
                  warm = Bench(cold).of("coil", "4.20 kΩ", "20 °C");
  EXPECT_TRUE(fits(broken, Mode::open));
  EXPECT_FALSE(fits(broken, Mode::drift_high));
  for (const Judgement& less : {less_of_it, warm}) {
    EXPECT_TRUE(fits(less, Mode::drift_high));
    EXPECT_EQ(of_mode(less, Mode::open), Mode_verdict::excluded);
  }
  // A sensor is not of wire: it may have drifted so far. Beyond ten times its limit (some 14 kΩ) it may be
  // damp beside a break as well.
  for (const auto& [shown, of_open] :
       {std::pair{"100 kΩ", Mode_verdict::excluded}, {"300 kΩ", Mode_verdict::undecided}}) {
    const Judgement high = Bench().of("flow", shown, "20 °C");
    EXPECT_TRUE(fits(high, Mode::drift_high)) << shown;
    EXPECT_EQ(of_mode(high, Mode::open), of_open) << shown;
  }
}

// A closed contact is broken from 1 kΩ on (common practice, no source): as near as the meter tells there,
// open is neither excluded nor found.
TEST(Judge, What_reads_about_1_kohm_where_a_closed_contact_is_asked_for_may_be_open) {
  EXPECT_EQ(of_mode(Bench().of("stat", "900 Ω"), Mode::open), Mode_verdict::excluded);
  EXPECT_EQ(of_mode(Bench().of("stat", "1000 Ω"), Mode::open), Mode_verdict::undecided);
  EXPECT_EQ(of_mode(Bench().of("stat", "1.10 kΩ"), Mode::open), Mode_verdict::fits);
}

// Its `states` are those from common to normally open (format.md, Components); what its terminal is called,
// in capital letters too, says that this is the other contact.
TEST(Judge, The_normally_closed_contact_of_a_changeover_reads_the_reverse_of_its_states) {
  std::string profile(bench_profile);
  const std::string_view ends = R"("between": ["X4.6", "X4.2"], "contacts": "nc")";
  for (const auto& [terminal, healthy, other] :
       {std::tuple("no", "0.4 Ω", "OL"), {"NC", "OL", "0.4 Ω"}, {"normally_closed", "OL", "0.4 Ω"}}) {
    std::string changeover = profile;
    changeover.replace(
        changeover.find(ends), ends.size(),
        fmt::format(R"("terminals": {{ "common": "X4.2", "{}": "X4.6" }}, "contacts": "changeover")",
                    terminal));
    EXPECT_EQ(Bench(changeover).of("stat", healthy).result, Conformity::within) << terminal;
    EXPECT_EQ(Bench(changeover).of("stat", other).result, Conformity::outside) << terminal;
  }
}

// Between its two throws no state closes anything.
TEST(Judge, From_throw_to_throw_a_changeover_is_open_in_every_state) {
  std::string profile(bench_profile);
  const auto put = [&](std::string_view old, std::string_view text) {
    profile.replace(profile.find(old), old.size(), text);
  };
  put(R"("between": ["X4.6", "X4.2"], "contacts": "nc")",
      R"("terminals": { "common": "X4.8", "NO": "X4.6", "normally_closed": "X4.2" }, "contacts": "changeover")");
  const std::string_view cold = R"("condition": "cold")";
  std::string hot = profile;
  hot.replace(hot.find(cold), cold.size(), R"("condition": "hot")");
  for (const std::string& each : {profile, hot}) {
    EXPECT_EQ(Bench(each).of("stat", "OL").result, Conformity::within);
    EXPECT_EQ(Bench(each).of("stat", "0.4 Ω").result, Conformity::outside);
  }
}

// An open switch that damp conducts over is not a closed one: up to 1 kΩ (common practice, no source) it is a
// contact, with its resistor where it has one; above, nobody knows.
TEST(Judge, What_leaks_over_an_open_contact_is_no_short) {
  std::string profile(bench_profile);
  const std::string_view cold = R"("condition": "cold",)";
  profile.replace(profile.find(cold), cold.size(),
                  R"("condition": "hot", "expect": { "kind": "open", "above": "1 MΩ" },)");
  const std::string_view excludes = R"("excludes": ["open", "stuck_open", "high_contact_resistance"])";
  profile.replace(profile.find(excludes), excludes.size(), R"("excludes": ["stuck_closed", "short"])");
  for (const char* shown : {"0.4 Ω", "30 Ω", "800 Ω"}) {
    const Judgement found = Bench(profile).of("stat", shown);
    EXPECT_TRUE(fits(found, Mode::stuck_closed)) << shown;
    EXPECT_FALSE(says(found.remarks, "damp or leaking")) << shown;
  }
  for (const char* shown : {"5.0 kΩ", "100 kΩ", "700 kΩ", "900 kΩ"}) {
    const Judgement found = Bench(profile).of("stat", shown);
    EXPECT_EQ(found.result, Conformity::outside) << shown;
    for (const Mode mode : {Mode::stuck_closed, Mode::short_})
      EXPECT_EQ(of_mode(found, mode), Mode_verdict::undecided) << shown;
    EXPECT_TRUE(says(found.remarks, "damp or leaking")) << shown;
  }
  EXPECT_EQ(of_mode(Bench(profile).of("stat", "OL"), Mode::stuck_closed), Mode_verdict::excluded);
  // So it is in a chain of two.
  std::string chain = profile;
  const std::string_view between = R"("between": ["X4.6", "X4.2"], "contacts")", fan = R"("fan": { "kind")",
                         tests = R"("tests": {)";
  chain.replace(chain.find(between), between.size(), R"("contacts")");
  chain.replace(chain.find(fan), fan.size(),
                R"("limiter": { "kind": "switch", "name": "Limiter", "contacts": "nc",
      "states": { "cold": "closed", "hot": "open" } },
    "fan": { "kind")");
  chain.replace(chain.find(tests), tests.size(), R"("circuits": { "chain": { "between": ["X4.6", "X4.2"],
    "arrangement": "series", "elements": [{ "kind": "component", "component": "limiter" },
                                          { "kind": "component", "component": "stat" }] } },
  "tests": {)");
  for (const Mode mode : {Mode::stuck_closed, Mode::short_}) {
    EXPECT_TRUE(fits(Bench(chain).of("stat", "0.4 Ω"), mode));
    const Judgement leaks = Bench(chain).of("stat", "300 kΩ");
    EXPECT_EQ(of_mode(leaks, mode), Mode_verdict::undecided);
    EXPECT_TRUE(std::any_of(leaks.modes.begin(), leaks.modes.end(), [&](const Mode_answer& one) {
      return one.mode == mode && one.why.find("by whether a contact or damp conducts") != std::string::npos;
    }));
  }
  // With a resistor of 1 kΩ in the float; a short before it reads nothing.
  const std::string_view contacts = R"("contacts": "nc")";
  profile.replace(profile.find(contacts), contacts.size(),
                  R"("contacts": "nc", "series_resistance": "1 kΩ")");
  // Up to 1 kΩ and a tenth more than its resistor.
  for (const char* shown : {"0.5 Ω", "1.05 kΩ", "2.05 kΩ"}) {
    const Judgement found = Bench(profile).of("stat", shown);
    for (const Mode mode : {Mode::stuck_closed, Mode::short_}) EXPECT_TRUE(fits(found, mode)) << shown;
    EXPECT_FALSE(says(found.remarks, "damp or leaking")) << shown;
  }
  EXPECT_EQ(of_mode(Bench(profile).of("stat", "2.20 kΩ"), Mode::short_), Mode_verdict::undecided);
  EXPECT_EQ(of_mode(Bench(profile).of("stat", "100 kΩ"), Mode::short_), Mode_verdict::undecided);
}

TEST(Judge, Says_what_a_good_reading_does_not_say) {
  EXPECT_TRUE(says(Bench().of("pump_earth", "OL").remarks, "no gross leakage seen"));
  const Judgement fan = Bench().of("fan", "4.7 kΩ");
  EXPECT_TRUE(says(fan.remarks, "not a short; it says nothing more"));
  EXPECT_TRUE(says(fan.remarks, "no dead test shows them to be good"));
  EXPECT_TRUE(says(fan.remarks, "the positive lead belongs on X6.1"));
  EXPECT_EQ(text_report(Bench().verdict(std::vector{Bench::request("fan", "4.7 kΩ")})).find("part good"),
            std::string::npos);
}

TEST(Judge, A_capacitor_that_reads_more_than_its_bleeder_has_an_open_one) {
  const Bench bench(bench_with(R"("kind": "electronic", "name": "Fan",)",
                               R"("kind": "capacitor", "name": "Run capacitor", "bleeder": "1 MΩ",)"));
  EXPECT_TRUE(says(bench.of("fan", "OL").remarks, "the bleeder is open, and a charge stays"));
  EXPECT_TRUE(says(bench.of("fan", "3.0 MΩ").remarks, "the bleeder is open"));
  EXPECT_FALSE(says(bench.of("fan", "1.05 MΩ").remarks, "the bleeder is open"));
}

// From memory: from hand to hand a person reads a few kΩ to several MΩ.
TEST(Judge, Fingers_on_the_tips_may_be_what_conducts) {
  const Bench bench;
  EXPECT_TRUE(says(bench.of("pump_earth", "1.5 MΩ").remarks, "fingers on both tips"));
  EXPECT_TRUE(says(bench.of("pump_earth", "40 kΩ").remarks, "fingers on both tips"));
  EXPECT_FALSE(says(bench.of("pump_earth", "12 Ω").remarks, "fingers")) << "no hand reads so little";
  EXPECT_FALSE(says(bench.of("pump_earth", "OL").remarks, "fingers"));
  EXPECT_FALSE(says(bench.of("pump_earth", "OL 1 MΩ").remarks, "fingers"));
  EXPECT_FALSE(says(bench.of("flow", "5 kΩ", "25 °C").remarks, "fingers"))
      << "beside 10 kΩ they matter little";
}

TEST(Judge, Digits_of_a_healthy_part_with_another_prefix_are_looked_at_again) {
  const Bench bench;
  EXPECT_TRUE(says(bench.of("flow", "10.1 Ω", "25 °C").remarks, "10.1 kΩ would be within: look once more"));
  EXPECT_TRUE(says(bench.of("flow", "10.1 MΩ", "25 °C").remarks, "10.1 kΩ would be within"));
  EXPECT_TRUE(says(bench.of("coil", "43 kΩ", "20 °C").remarks, "43 Ω would be within"));
  Judge_request request = Bench::request("flow", "10.1 kΩ", "25 °C");
  request.at_part = Bench::reading("10.1 Ω");
  EXPECT_TRUE(says(bench.of(request).remarks, "on the part 10.1 kΩ would be within"));
  EXPECT_FALSE(says(bench.of("flow", "10.1 kΩ", "25 °C").remarks, "would be within: look"));
  EXPECT_FALSE(says(bench.of("flow", "14 Ω", "25 °C").remarks, "would be within: look"));
  EXPECT_FALSE(says(bench.of("coil", "OL", "20 °C").remarks, "would be within: look"));
  EXPECT_TRUE(says(bench.of("flow", "0.0101 kΩ", "25 °C").remarks, "10.1 kΩ would be within: look"));
  EXPECT_FALSE(says(bench.of("flow", "0.01 kΩ", "25 °C").remarks, "would be within: look")) << "5 Ω to 15 Ω";
  EXPECT_FALSE(says(bench.of("pump_earth", "5 kΩ").remarks, "would be within: look")) << "a leak";
  EXPECT_FALSE(says(bench.of("stat", "400 Ω").remarks, "would be within: look")) << "a burnt contact";
}

// 60 Ω at 20 °C, of which the start winding alone leaves 44 Ω: 56.1 Ω at 90 °C (copper), which a motor has
// that just ran. What is cold reads 54 Ω at least, and 44 Ω would be too little for it by far.
TEST(Judge, A_short_that_warmth_hides_is_excluded_only_of_what_is_cold) {
  const Bench bench(bench_with(R"("side": "at_board_plug", "excludes": ["open"] },
    "pump_earth")",
                               R"("side": "at_board_plug", "excludes": ["open", "short"] },
    "pump_earth")"));
  Judge_request request = Bench::request("pump_sr", "56.4 Ω", "25 °C");
  request.temperature->minutes_since_running = 2;
  EXPECT_EQ(bench.of(request).result, Conformity::too_close);
  EXPECT_EQ(of_mode(bench.of(request), Mode::short_), Mode_verdict::undecided);
  const Judgement cold = bench.of("pump_sr", "54.2 Ω", "20 °C");
  EXPECT_EQ(cold.result, Conformity::too_close);
  EXPECT_EQ(of_mode(cold, Mode::short_), Mode_verdict::excluded);
}

TEST(Judge, A_protector_may_be_what_is_open) {
  const std::string_view old = R"("probes": ["X5.2", "X5.1"], "side": "at_board_plug", "excludes": [)";
  const Bench bench(bench_with(old, std::string(old) + R"("protector_open", )"));
  EXPECT_TRUE(says(bench.of("pump_cs", "OL", "20 °C").remarks, "let it cool, and read again"));
  EXPECT_FALSE(says(bench.of("pump_cs", "44.3 Ω", "20 °C").remarks, "let it cool"));
  EXPECT_FALSE(says(bench.of("pump_cr", "OL", "20 °C").remarks, "let it cool")) << "it has none";
  // One that is reset by hand does not close by cooling, and a one-shot never.
  const auto resets = [&](const std::string& how) {
    std::string profile = bench_with(old, std::string(old) + R"("protector_open", )");
    const std::string_view connection = R"("connection": "start_run",)";
    profile.replace(
        profile.find(connection), connection.size(),
        fmt::format(R"({} "protector": {{ "position": "common", "reset": "{}" }},)", connection, how));
    return Bench(profile).of("pump_cs", "OL", "20 °C").remarks;
  };
  EXPECT_TRUE(says(resets("automatic"), "heat: let it cool, and read again"));
  EXPECT_TRUE(says(resets("manual"), "let it cool, find what opened it, reset it, and read again"));
  EXPECT_TRUE(says(resets("none"), "never closes again"));
  EXPECT_FALSE(says(resets("none"), "read again"));
}

TEST(Judge, A_reed_with_a_resistor_is_closed_where_it_reads_that) {
  const Bench bench(test::reed_profile_with_resistor(R"({ "kind": "open", "above": "1 MΩ" })"));
  const auto read = [&](std::string_view first, std::string_view after) {
    Judge_request request = Bench::request("stat", first);
    if (!after.empty()) request.after = Bench::reading(after);
    return bench.of(request);
  };
  for (const auto& [first, after] : {std::pair{"OL", "331 Ω"}, std::pair{"331 Ω", "OL"}}) {
    EXPECT_EQ(read(first, after).result, Conformity::within) << first;
    EXPECT_EQ(of_mode(read(first, after), Mode::stuck_closed), Mode_verdict::excluded) << first;
  }
  EXPECT_EQ(read("331 Ω", {}).result, Conformity::too_close);
  EXPECT_EQ(read("331 Ω", "331 Ω").result, Conformity::outside);
  EXPECT_EQ(of_mode(read("331 Ω", "331 Ω"), Mode::stuck_closed), Mode_verdict::fits);
  // Something lies beside the resistor, or it is not there.
  EXPECT_NE(read("OL", "0.5 Ω").result, Conformity::within);
}

// A pinched lead shorts the whole of it.
TEST(Judge, A_part_with_a_resistor_that_reads_nothing_is_shorted) {
  const Bench bench(
      test::reed_profile_with_resistor(R"({ "kind": "band", "min": "310 Ω", "max": "350 Ω" })"));
  const Judgement found = bench.of("stat", "0.4 Ω");
  EXPECT_TRUE(fits(found, Mode::short_));
  EXPECT_EQ(of_mode(found, Mode::stuck_closed), Mode_verdict::excluded);
}

// On a range that ends below its resistor, as of a beeper, a closed one reads OL too.
TEST(Judge, OL_on_a_low_range_is_no_open_contact_of_a_part_with_a_resistor) {
  const Bench bench(
      test::reed_profile_with_resistor(R"({ "kind": "band", "min": "310 Ω", "max": "350 Ω" })"));
  const auto changed = [&](std::string_view first) {
    Judge_request request = Bench::request("stat", first);
    request.after = Bench::reading("331 Ω");
    return bench.of(request);
  };
  EXPECT_EQ(changed("OL 200 Ω").result, Conformity::too_close);
  EXPECT_NE(of_mode(changed("OL 200 Ω"), Mode::stuck_closed), Mode_verdict::excluded);
  EXPECT_EQ(changed("OL 600 Ω").result, Conformity::within);
}

TEST(Judge, A_contact_that_is_closed_reads_its_resistor) {
  const Bench bench(bench_with(R"("contacts": "nc",)", R"("contacts": "nc", "series_resistance": "10 kΩ",)"));
  const Judgement healthy = bench.of("stat", "10.0 kΩ");
  EXPECT_EQ(healthy.result, Conformity::within);
  EXPECT_EQ(of_mode(healthy, Mode::open), Mode_verdict::excluded);
  const Judgement low = bench.of("stat", "5.00 kΩ");
  EXPECT_EQ(low.result, Conformity::outside);
  EXPECT_FALSE(says(low.remarks, "contact resistance"));
  EXPECT_TRUE(fits(bench.of("stat", "0.4 Ω"), Mode::short_));
  EXPECT_TRUE(fits(low, Mode::short_)) << "it has one path alone";
  EXPECT_FALSE(fits(bench.of("stat", "11.0 kΩ"), Mode::short_)) << "more than the resistor";
  EXPECT_TRUE(fits(bench.of("stat", "OL"), Mode::stuck_open));
}

TEST(Judge, A_contact_without_a_model_that_closes_well_has_no_contact_resistance) {
  EXPECT_EQ(of_mode(Bench().of("stat", "0.4 Ω"), Mode::high_contact_resistance), Mode_verdict::excluded);
}

// Turns lie within one winding: what leaks between two is something else.
TEST(Judge, What_leaks_between_two_windings_is_no_shorted_turns) {
  const std::string_view old = R"("probes": ["X5.2", "X5.1"], "side": "at_board_plug",)";
  const Bench bench(bench_with(old, std::string(old) + R"("expect": { "kind": "open", "above": "1 MΩ" },)"));
  const Judgement found = bench.of("pump_cs", "400 kΩ");
  EXPECT_EQ(found.result, Conformity::outside);
  EXPECT_FALSE(fits(found, Mode::shorted_turns));
}

TEST(Judge, What_comes_and_goes_is_excluded_where_the_reading_stayed_steady_while_moved) {
  std::string profile(bench_profile);
  const std::string_view old =
      R"("probes": ["X4.4", "X4.5"], "side": "at_board_plug", "excludes": ["open", "short"])";
  profile.replace(
      profile.find(old), old.size(),
      R"("probes": ["X4.4", "X4.5"], "side": "at_board_plug", "excludes": ["open", "intermittent"],
      "response": { "kind": "steady_when_moved" })");
  const Bench bench(profile);
  Judge_request request = Bench::request("coil", "43.3 Ω", "20 °C");
  EXPECT_EQ(of_mode(bench.of(request), Mode::intermittent), Mode_verdict::undecided);
  request.after = Bench::reading("43.4 Ω");
  EXPECT_EQ(of_mode(bench.of(request), Mode::intermittent), Mode_verdict::excluded);
  for (const char* moved : {"60 Ω", "OL"}) {
    request.after = Bench::reading(moved);
    EXPECT_EQ(of_mode(bench.of(request), Mode::intermittent), Mode_verdict::fits) << moved;
  }
  // 1 Ω of a coil counts as steady.
  request.after = Bench::reading("44.3 Ω");
  const Judgement close = bench.of(request);
  ASSERT_EQ(close.response->result, Conformity::too_close);
  EXPECT_EQ(of_mode(close, Mode::intermittent), Mode_verdict::undecided);
  for (const Mode_answer& one : close.modes) EXPECT_EQ(one.why.find("watched"), one.why.npos) << one.why;
  request.reading = Bench::reading("OL");
  request.after = Bench::reading("43.3 Ω");
  EXPECT_EQ(of_mode(bench.of(request), Mode::intermittent), Mode_verdict::fits);
  request.after = Bench::reading("OL");
  EXPECT_EQ(of_mode(bench.of(request), Mode::intermittent), Mode_verdict::undecided);
}

// "open both ways is usual with a meter of low test voltage" is what the reading is understood by.
// What falls when it is warmed may come and go all the same: that shows only while it is moved.
TEST(Judge, An_answer_tells_of_the_modes_that_it_looks_at) {
  const Bench bench(bench_with(R"("excludes": ["open", "short", "drift_high", "drift_low"])",
                               R"("excludes": ["open", "short", "intermittent"])"));
  Judge_request request = Bench::request("flow", "10.00 kΩ", "25 °C ± 1 K");
  request.answered = true;
  const Judgement falls = bench.of(request);
  EXPECT_EQ(falls.result, Conformity::within);
  EXPECT_NE(of_mode(falls, Mode::intermittent), Mode_verdict::excluded);
  EXPECT_FALSE(says(falls.remarks, "seen by eye"));
  request.answered = false;
  const Judgement stays = bench.of(request);
  EXPECT_EQ(stays.result, Conformity::outside);
  EXPECT_FALSE(fits(stays, Mode::intermittent));
  EXPECT_TRUE(says(stays.remarks, "seen by eye, it does not answer as the test asks"));
}

TEST(Judge, Few_ohms_of_a_winding_that_lost_turns_are_no_short) {
  std::string profile = bench_with(R"("resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %")",
                                   R"("resistance": "2.1 Ω", "at": "20 °C", "tolerance": "5 %")");
  const Bench bench(profile);
  EXPECT_EQ(of_mode(bench.of("coil", "1.1 Ω", "20 °C"), Mode::shorted_turns), Mode_verdict::fits);
  EXPECT_EQ(of_mode(bench.of("coil", "0.3 Ω", "20 °C"), Mode::short_), Mode_verdict::fits);
}

}
}
