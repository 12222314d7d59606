// Within which limits a reading is good. Where no source is named, what is expected is common practice.
#include "ohmlore/judge.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>

#include "support/bench.h"
#include "support/judged.h"

namespace ohmlore {
namespace {

using namespace test;

// One of ± 20 % is healthy at 11.8 kΩ, and 4 K off its nominal curve.
TEST(Judge, A_limit_that_is_assumed_condemns_no_part_as_it_was_made) {
  const std::string_view stated = R"("service_limit": "3 K",
      "model": { "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %")";
  const auto judged = [&](std::string_view limit, std::string_view shown) {
    const std::string by = fmt::format(
        R"({}"model": {{ "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "20 %")", limit);
    return Bench(bench_with(stated, by)).of("flow", shown, "25 °C ± 0.2 K");
  };
  const Judgement assumed = judged("", "11.80 kΩ");
  EXPECT_EQ(assumed.service.basis, Limit_basis::practice);
  EXPECT_EQ(assumed.result, Conformity::within);
  EXPECT_NEAR(assumed.service.ohm.low, 8000, 1e-6);
  EXPECT_NEAR(assumed.service.ohm.high, 12000, 1e-6);
  EXPECT_TRUE(says(assumed.remarks, "± 3 K is assumed, and what the part is made within (± 20 %)"));
  EXPECT_EQ(judged("", "12.40 kΩ").result, Conformity::outside);
  const Judgement limited = judged(R"("service_limit": "3 K", )", "11.80 kΩ");
  EXPECT_EQ(limited.result, Conformity::outside) << "who states a limit means it";
  EXPECT_FALSE(says(limited.remarks, "is assumed"));
}

// 10 kΩ exp(3977 K (1/T - 1/298.15 K)) is 12.55 kΩ at 20 °C and 8.025 kΩ at 30 °C, 11.45 kΩ at 22 °C.
TEST(Judge, A_corpus_says_what_sensors_without_a_limit_are_judged_by) {
  const Read_result profile = read_json("bench.profile.json", bench_profile);
  const auto judged = [&](std::string_view policy, std::string_view test) {
    const Read_result read = read_json(
        "corpus.json", fmt::format(R"({{ "format": "ohmlore/1.0", "kind": "corpus", "title": "Demonstration",
                                         "licence": "CC0-1.0"{} }})",
                                   policy));
    EXPECT_NE(read.document.corpus(), nullptr);
    const Judge_request request = Bench::request(test, "10.00 kΩ", "25 °C ± 1 K");
    return judge(resolve(profile.document, Surroundings{read.document.corpus()}), {&request, 1}, {})
        .judgements.at(0)
        .service;
  };
  const std::string_view five = R"(, "policy": { "service_limit": "5 K" })";
  const auto of_policy = judged(five, "return");
  EXPECT_EQ(of_policy.basis, Limit_basis::policy);
  EXPECT_NEAR(of_policy.ohm.high, 12550, 5);
  EXPECT_NEAR(of_policy.ohm.low, 8025, 5);
  for (const std::string_view none : {"", R"(, "policy": { "fail_on": "warning" })"}) {
    const auto usual = judged(none, "return");
    EXPECT_EQ(usual.basis, Limit_basis::practice);
    EXPECT_NEAR(usual.ohm.high, 11450, 10);
  }
  EXPECT_EQ(judged(five, "flow").basis, Limit_basis::service_limit) << "it states its own";
}

// 43 Ω ± 5 % at 20 °C, read 42.1 Ω with the leads subtracted: within there; close at 25 °C (limit 41.65 Ω),
// outside at 30 °C (limit 42.46 Ω).
TEST(Judge, A_copper_coil_is_judged_at_its_temperature) {
  Bench bench;
  std::string problem;
  bench.means.leads = parse_leads("0 ± 0", problem);
  const auto at = [&](const char* temperature) { return bench.of("coil", "42.1 Ω", temperature); };
  bench.means.rule = guarded_acceptance;
  EXPECT_EQ(at("20 °C").result, Conformity::within);
  const Judgement close = at("25 °C"), beyond = at("30 °C");
  EXPECT_NEAR(close.service.ohm.low, 41.65, 0.005);
  EXPECT_EQ(close.result, Conformity::too_close);
  EXPECT_NEAR(beyond.service.ohm.low, 42.46, 0.005);
  EXPECT_EQ(beyond.result, Conformity::outside);
  // The likelier side alone.
  bench.means.rule = simple_acceptance;
  EXPECT_EQ(at("25 °C").result, Conformity::within);
  EXPECT_EQ(at("30 °C").result, Conformity::outside);
  // 5 % on both sides: with ± 0.64 Ω of the meter nobody is that sure of what is 0.36 Ω beyond; with a finer
  // one yes.
  bench.means.rule = guarded;
  EXPECT_EQ(at("20 °C").result, Conformity::within);
  EXPECT_EQ(at("25 °C").result, Conformity::too_close);
  EXPECT_EQ(at("30 °C").result, Conformity::too_close);
  bench.means.meter = parse_meter("0.2 % + 1 of 60000", problem);
  EXPECT_EQ(at("30 °C ± 0.5 K").result, Conformity::outside);
  // With a good meter, and the thermometer of ± 1 K that is taken where none is stated. How probable it is to
  // be below the limit is that two rectangular errors do not add up to what is between (a trapezoid: JCGM
  // 100, 4.3.9, of two half-widths): 1 - (a + b - d)² / 8ab.
  bench.means.meter = parse_meter("0.2 % + 2", problem);
  EXPECT_EQ(at("20 °C").result, Conformity::within);
  EXPECT_EQ(at("25 °C").result, Conformity::within);
  const Judgement outside = at("30 °C");
  EXPECT_EQ(outside.result, Conformity::outside);
  const double a = 0.002 * 42.1 + 2 * 0.1, b = 43 * 0.95 / (234.5 + 20), d = outside.service.ohm.low - 42.1;
  EXPECT_NEAR(outside.service.least.below, 1 - (a + b - d) * (a + b - d) / (8 * a * b), 1e-3);
}

// The reference data: 80 Ω at 20 °C and 100 Ω hot is a rise of 63.625 K (k = 234.5; read, recomputed): judged
// at 83.625 °C, 100 Ω is the nominal.
TEST(Judge, Reproduces_the_rise_of_a_copper_winding) {
  std::string profile(bench_profile);
  profile.replace(profile.find("\"43 Ω\""), std::string_view("\"43 Ω\"").size(), "\"80 Ω\"");
  Bench bench(profile);
  std::string problem;
  bench.means.leads = parse_leads("0 ± 0", problem);
  const Judgement found = bench.of("coil", "100 Ω", "83.625 °C ± 0 K");
  ASSERT_TRUE(found.nominal);
  EXPECT_NEAR(*found.nominal, 100, 1e-9);
  EXPECT_EQ(found.result, Conformity::within);
}

// What a healthy part reads never looks outside. 10 kΩ ± 1 %, B 3977 K ± 0.75 % at 15 °C: up to 10.1 kΩ
// exp(3977 K · 1.0075 (1 / 288.15 K - 1 / 298.15 K)) = 16.1017 kΩ. Pt1000 ± 2 K: see tests/unit/curve.cpp.
TEST(Judge, Limits_are_shown_rounded_outward) {
  const auto shown = [](const char* test, std::string_view old, std::string_view limits) {
    std::string profile(bench_profile);
    profile.replace(profile.find(old), old.size(), limits);
    return text_report(Bench(profile).verdict(std::vector{Bench::request(test, "43.3 Ω", "20 °C")}));
  };
  const std::string_view band = R"("min": "40 Ω", "max": "46 Ω")";
  const std::string usual = shown("band", band, R"("min": "15673.6 Ω", "max": "16101.7 Ω")");
  EXPECT_NE(usual.find("limits       15.67 kΩ to 16.11 kΩ at"), std::string::npos) << usual;
  const std::string narrow = shown("band", band, R"("min": "1089.5854 Ω", "max": "1105.1031 Ω")");
  EXPECT_NE(narrow.find("limits       1.0895 kΩ to 1.1052 kΩ at"), std::string::npos) << narrow;
  const std::string decimal = shown("band", band, R"("min": "9.9 kΩ", "max": "10.1 kΩ")");
  EXPECT_NE(decimal.find("limits       9.9 kΩ to 10.1 kΩ at"), std::string::npos) << decimal;
  const std::string open = shown("fan", R"("above": "20 Ω")", R"("above": "20.006 Ω")");
  EXPECT_NE(open.find("limits       at least 20 Ω: by the test"), std::string::npos) << open;
}

TEST(Judge, Limits_in_json_are_rounded_outward_too) {
  std::string profile(bench_profile);
  const std::string_view band = R"("min": "40 Ω", "max": "46 Ω")";
  profile.replace(profile.find(band), band.size(), R"("min": "40.123456 Ω", "max": "46.123454 Ω")");
  const std::string json =
      json_report(Bench(profile).verdict(std::vector{Bench::request("band", "43.3 Ω", "20 °C")}));
  EXPECT_NE(json.find(R"("low": "40.1234 Ω")"), std::string::npos) << json;
  EXPECT_NE(json.find(R"("high": "46.1235 Ω")"), std::string::npos) << json;
}

// 3 K is usual for sensors that state nothing (common practice, no source).
TEST(Judge, A_sensor_without_a_service_limit_may_be_3_kelvin_off) {
  const Judgement found = Bench().of("return", "10 kΩ", "25 °C");
  const auto ohm = [](double celsius) {
    return 10000 * std::exp(3977 * (1 / (273.15 + celsius) - 1 / 298.15));
  };
  EXPECT_EQ(found.service.basis, Limit_basis::practice);
  EXPECT_NEAR(found.service.ohm.low, ohm(28), 1e-6);
  EXPECT_NEAR(found.service.ohm.high, ohm(22), 1e-6);
}

TEST(Judge, A_service_limit_may_be_a_share_of_the_nominal_or_ohms) {
  const auto limits = [](std::string_view limit) {
    std::string profile =
        bench_with(R"("service_limit": "3 K")", fmt::format(R"("service_limit": "{}")", limit));
    return Bench(profile).of("flow", "10 kΩ", "25 °C").service.ohm;
  };
  EXPECT_NEAR(limits("+10 % -5 %").low, 9500, 1e-6);
  EXPECT_NEAR(limits("+10 % -5 %").high, 11000, 1e-6);
  EXPECT_NEAR(limits("+900 Ω -400 Ω").low, 9600, 1e-6);
  EXPECT_NEAR(limits("+900 Ω -400 Ω").high, 10900, 1e-6);
  // Warmer is less: 5 K above and 2 K below.
  const auto ohm = [](double celsius) {
    return 10000 * std::exp(3977 * (1 / (273.15 + celsius) - 1 / 298.15));
  };
  EXPECT_NEAR(limits("+5 K -2 K").low, ohm(30), 1e-6);
  EXPECT_NEAR(limits("+5 K -2 K").high, ohm(23), 1e-6);
}

// 230 V² / 2000 W is 26.45 Ω.
TEST(Judge, A_service_limit_holds_of_what_reads_the_same_at_every_temperature) {
  const auto limits = [](std::string_view model, std::string_view limit) {
    const std::string profile = bench_with(
        R"("model": { "kind": "copper", "resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %" })",
        fmt::format(R"("service_limit": "{}", "model": {{ {} }})", limit, model));
    return Bench(profile).of("coil", "30 Ω", "20 °C").service.ohm;
  };
  const char *fixed = R"("kind": "fixed", "resistance": "43 Ω", "tolerance": "5 %")",
             *power = R"("kind": "power", "voltage": "230 V", "power": "2000 W")";
  EXPECT_NEAR(limits(fixed, "10 %").low, 38.7, 1e-9);
  EXPECT_NEAR(limits(fixed, "4 Ω").high, 47, 1e-9);
  EXPECT_NEAR(limits(power, "+10 % -5 %").low, 26.45 * 0.95, 1e-9);
  EXPECT_NEAR(limits(power, "+10 % -5 %").high, 26.45 * 1.1, 1e-9);
}

// A table of 0 °C to 60 °C, straight in ln R over 1/T, also 3 K beyond either end.
TEST(Judge, Where_a_table_ends_its_curve_goes_on) {
  std::string profile = bench_with(
      R"({ "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_between": "25 °C to 85 °C" })",
      R"({ "kind": "table", "rows": [{ "at": "0 °C", "nominal": "32.65 kΩ", "tolerance": "1 %" },
                                                 { "at": "60 °C", "nominal": "2.488 kΩ", "tolerance": "1 %" }] })");
  const double b = std::log(32650 / 2488.0) / (1 / 273.15 - 1 / 333.15);
  const auto share = [&](double from, double to) {
    return std::exp(b * (1 / (273.15 + to) - 1 / (273.15 + from)));
  };
  const Bench bench(profile);
  const Interval hot = bench.of("flow", "2.5 kΩ", "60 °C").service.ohm,
                 cold = bench.of("flow", "32.65 kΩ", "0 °C").service.ohm;
  EXPECT_NEAR(hot.low, 2488 * share(60, 63), 1e-6);
  EXPECT_NEAR(hot.high, 2488 * share(60, 57), 1e-6);
  EXPECT_NEAR(cold.low, 32650 * share(0, 3), 1e-5);
  EXPECT_NEAR(cold.high, 32650 * share(0, -3), 1e-5);
}

TEST(Judge, A_contact_is_closed_below_what_its_model_states) {
  const Bench stated(bench_with(R"("contacts": "nc",)",
                                R"("contacts": "nc", "model": { "kind": "closed", "below": "5 Ω" },)"));
  const Judgement found = stated.of("stat", "4.0 Ω");
  EXPECT_EQ(found.result, Conformity::within);
  EXPECT_EQ(found.service.ohm.high, 5);
  EXPECT_EQ(found.service.words, "a closed contact");
  EXPECT_EQ(stated.of("stat", "6.0 Ω").result, Conformity::outside);
  const Judgement usual = Bench().of("stat", "4.0 Ω");
  EXPECT_EQ(usual.result, Conformity::outside);
  EXPECT_EQ(usual.service.words, "a closed contact (common practice)");
}

TEST(Judge, Limits_without_a_temperature_are_remarked_where_the_part_changes_with_it) {
  const auto remarked = [](std::string_view test, std::string_view of, std::string_view shown) {
    const std::string old = fmt::format(R"("{}": {{ "component": "{}",)", test, of);
    const Bench bench(
        bench_with(old, old + R"( "expect": { "kind": "band", "min": "0 Ω", "max": "12 kΩ" },)"));
    return says(bench.of(test, shown, "20 °C").remarks, "does not say at which temperature");
  };
  EXPECT_TRUE(remarked("coil", "coil", "43.3 Ω"));
  EXPECT_TRUE(remarked("tank", "tank", "10 kΩ"));
  EXPECT_FALSE(remarked("stat", "stat", "0.4 Ω"));
}

TEST(Judge, A_state_has_two_thresholds_with_a_zone_between) {
  EXPECT_EQ(Bench().of("stat", "0.4 Ω").result, Conformity::within);
  const Judgement bad = Bench().of("stat", "30 Ω");
  EXPECT_EQ(bad.result, Conformity::outside);
  EXPECT_TRUE(fits(bad, Mode::high_contact_resistance));
  EXPECT_TRUE(says(bad.remarks, "neither closed nor open"));
  const Judgement open = Bench().of("stat", "OL");
  EXPECT_TRUE(fits(open, Mode::stuck_open));
  EXPECT_FALSE(says(open.remarks, "neither closed nor open"));
  EXPECT_EQ(Bench().of("stat", "1.3 Ω").result, Conformity::too_close) << "1.0 Ω without the leads";
}

TEST(Judge, A_photocell_reads_by_the_light_on_it) {
  std::string profile(bench_profile);
  const auto replace = [&](std::string_view old, std::string_view by) {
    profile.replace(profile.find(old), old.size(), by);
  };
  replace(R"("kind": "switch", "name": "Limit")", R"("kind": "photocell", "name": "Photocell")");
  replace(R"(, "contacts": "nc", "states": { "cold": "closed", "hot": "open" })", "");
  replace(R"("condition": "cold",)", R"("expect": { "kind": "open", "above": "1 MΩ" },)");
  replace(R"(["open", "stuck_open", "high_contact_resistance"])", R"(["short"])");
  const Judgement lit = Bench(profile).of("stat", "30 kΩ");
  EXPECT_TRUE(says(lit.remarks, "a photocell reads by the light on it"));
  EXPECT_FALSE(says(lit.remarks, "damp or leaking"));
  EXPECT_FALSE(says(Bench(profile).of("stat", "OL").remarks, "by the light on it"));
}

// Of a part that reads otherwise when it is warm, limits without a temperature are taken as they stand, and
// said.
TEST(Judge, Says_that_limits_without_a_temperature_are_taken_for_any) {
  constexpr std::string_view said = "does not say at which temperature its limits hold";
  EXPECT_FALSE(says(Bench().of("band", "42.5 Ω", "40 °C").remarks, said));
  std::string profile(bench_profile);
  const std::string_view at = R"(, "at": "20 °C" }, "excludes": ["open"])";
  profile.replace(profile.find(at), at.size(), R"( }, "excludes": ["open"])");
  const Judgement warm = Bench(profile).of("band", "42.5 Ω", "40 °C");
  EXPECT_TRUE(says(warm.remarks, said));
  EXPECT_EQ(warm.service.ohm.high, 46);
}

TEST(Judge, A_band_of_a_test_is_carried_to_another_temperature) {
  const Judgement at_20 = Bench().of("band", "43.3 Ω", "20 °C"),
                  at_40 = Bench().of("band", "43.3 Ω", "40 °C");
  EXPECT_DOUBLE_EQ(at_20.service.ohm.low, 40);
  EXPECT_NEAR(at_40.service.ohm.low, 40 * (234.5 + 40) / (234.5 + 20), 1e-9) << "copper, k = 234.5";
  // Stated over a range it holds all over it, and nobody knows from where to carry it.
  const Judgement over = Bench(bench_with(R"("at": "20 °C" }, "excludes": ["open"] })",
                                          R"("at": "10 °C to 30 °C" }, "excludes": ["open"] })"))
                             .of("band", "43.3 Ω", "40 °C");
  EXPECT_EQ(over.service.ohm.low, 40);
  EXPECT_EQ(over.service.ohm.high, 46);
  EXPECT_TRUE(says(over.remarks, "the limits hold at 10 °C to 30 °C, not at 40 °C"));
  // A tolerance wider than the nominal leaves nothing below zero.
  EXPECT_EQ(Bench(bench_with(R"("min": "40 Ω", "max": "46 Ω")", R"("nominal": "1 Ω", "tolerance": "2 Ω")"))
                .of("band", "0.8 Ω", "20 °C")
                .service.ohm.low,
            0);
}

// A model that does not speak at 20 °C carries no limit from there; half a kelvin beside it they hold still.
// A sensor of 10 kΩ at 25 °C (B = 3977 K) is 33.90 kΩ at 0 °C, 3.563 kΩ at 50 °C and 1.253 kΩ at 80 °C,
// beside 10 kΩ 7.722 kΩ, 2.627 kΩ and 1.113 kΩ, in a row with it 43.90 kΩ, 13.56 kΩ and 11.25 kΩ (Ohm's law).
TEST(Judge, A_band_of_a_circuit_is_carried_as_all_of_its_parts_change) {
  const auto with = [](std::string_view arrangement, std::string_view of, std::string_view band) {
    std::string profile =
        bench_with(R"("response": { "kind": "falls_when_warmed" },)",
                   fmt::format(R"("expect": {{ "kind": "band", {}, "at": "25 °C" }},)", band));
    const auto put = [&](std::string_view old, std::string_view text) {
      profile.replace(profile.find(old), old.size(), text);
    };
    put(R"("tests": {)",
        fmt::format(R"("circuits": {{ "net": {{ "between": ["X4.1", "X4.2"], "arrangement": "{}",
    "elements": [{{ "kind": "component", "component": "flow" }}, {{ "kind": "component", "component": "code" }}] }} }},
  "tests": {{)",
                    arrangement));
    put(R"("component": "flow", "unplug")", fmt::format(R"("component": "{}", "unplug")", of));
    put(R"("pump": {)", R"("code": { "kind": "coding", "name": "Code",
      "model": { "kind": "fixed", "resistance": "10.00 kΩ", "tolerance": "1 %" } },
    "pump": {)");
    return profile;
  };
  for (const char* of : {"flow", "code"}) {
    const Bench beside(with("parallel", of, R"("min": "4.95 kΩ", "max": "5.05 kΩ")"));
    const Bench in_a_row(with("series", of, R"("min": "19.8 kΩ", "max": "20.2 kΩ")"));
    for (const auto& [shown, at] :
         {std::pair("7.722 kΩ", "0 °C"), {"2.627 kΩ", "50 °C"}, {"1.113 kΩ", "80 °C"}}) {
      EXPECT_NE(beside.of("flow", shown, at).result, Conformity::outside) << of << " " << at;
      EXPECT_EQ(in_a_row.of("flow", shown, at).result, Conformity::outside) << of << " " << at;
    }
    for (const auto& [shown, at] :
         {std::pair("43.90 kΩ", "0 °C"), {"13.56 kΩ", "50 °C"}, {"11.25 kΩ", "80 °C"}}) {
      EXPECT_NE(in_a_row.of("flow", shown, at).result, Conformity::outside) << of << " " << at;
      EXPECT_EQ(beside.of("flow", shown, at).result, Conformity::outside) << of << " " << at;
    }
    // With a break or a short of the resistor the sensor alone is read, which changes by more than both
    // together.
    EXPECT_NE(of_mode(beside.of("flow", "1.250 kΩ", "80 °C"), Mode::open), Mode_verdict::excluded) << of;
    EXPECT_NE(of_mode(in_a_row.of("flow", "33.60 kΩ", "0 °C"), Mode::short_), Mode_verdict::excluded) << of;
  }
}

TEST(Judge, A_band_that_no_model_carries_holds_where_it_is_stated) {
  const Bench bench(bench_with(
      R"("model": { "kind": "copper", "resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %" })",
      R"("model": { "kind": "table", "rows": [{ "at": "60 °C", "nominal": "50 Ω" }, { "at": "90 °C", "nominal": "55 Ω" }] })"));
  const Judgement here = bench.of("band", "43.3 Ω", "20.3 °C ± 0 K");
  EXPECT_EQ(here.service.ohm.low, 40);
  EXPECT_EQ(here.result, Conformity::within);
  EXPECT_FALSE(bench.verdict(std::vector{Bench::request("band", "43.3 Ω", "22 °C ± 0 K")}).problems.empty());
}

Bench with_coil_by_limits() {
  return Bench(
      bench_with(R"("model": { "kind": "copper", "resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %" })",
                 R"("model": { "kind": "table", "rows": [{ "at": "20 °C", "min": "40 Ω", "max": "46 Ω" },
                                     { "at": "60 °C", "min": "46 Ω", "max": "54 Ω" }] })"));
}

TEST(Judge, At_a_row_of_limits_the_thermometer_adds_nothing_that_is_known) {
  const Judgement by_limits = with_coil_by_limits().of("coil", "43.3 Ω", "20 °C ± 1 K");
  EXPECT_LT(by_limits.uncertainty, 1);
  for (const Contribution& part : by_limits.budget) EXPECT_NE(part.from, Contributor::thermometer);
  EXPECT_LT(Bench().of("coil", "43.3 Ω", "20 °C").uncertainty, 1);
}

TEST(Judge, A_table_of_one_row_stands_for_a_little_around_it) {
  std::string profile(bench_profile);
  const std::string_view old =
      R"("model": { "kind": "copper", "resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %" })";
  profile.replace(
      profile.find(old), old.size(),
      R"("model": { "kind": "table", "rows": [{ "at": "20 °C", "min": "40 Ω", "max": "46 Ω" }] })");
  const Bench bench(profile);
  const Judgement near = bench.of("coil", "43.3 Ω", "17 °C");
  EXPECT_EQ(near.result, Conformity::within);
  EXPECT_TRUE(says(near.remarks, "its model states 20 °C only: taken for 17 °C"));
  EXPECT_FALSE(says(near.remarks, "from usual sensors"));
  // By 15 K at most (common practice, no source).
  EXPECT_EQ(bench.of("coil", "44.5 Ω", "34.9 °C").result, Conformity::within);
  EXPECT_FALSE(bench.verdict(std::vector{Bench::request("coil", "43.3 Ω", "35.1 °C")}).problems.empty());
  const Verdict far = bench.verdict(std::vector{Bench::request("coil", "43.3 Ω", "60 °C")});
  EXPECT_TRUE(far.judgements.empty());
  EXPECT_TRUE(says(far.problems, "its model does not reach there, only 20 °C")) << far.problems.at(0);
}

// By (234.5 + t)/(234.5 + 20) (IEC 60335-1) copper has 1.0589 times as much at 35 °C: 40 Ω to 46 Ω become
// 42.36 Ω to 48.71 Ω.
TEST(Judge, Limits_of_a_coil_away_from_where_they_hold_are_sure_where_copper_agrees) {
  const std::string_view copper =
      R"("model": { "kind": "copper", "resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %" })";
  const std::string_view row =
      R"("model": { "kind": "table", "rows": [{ "at": "20 °C", "min": "40 Ω", "max": "46 Ω" }] })";
  Bench bench(bench_with(copper, row));
  std::string problem;
  bench.means.meter = parse_meter("0.1 % + 1 of 60000", problem);
  bench.means.leads = parse_leads("0 ± 0", problem);
  const auto at = [&](const char* reading, const char* temperature) {
    return bench.of("coil", reading, temperature);
  };
  EXPECT_EQ(at("44.50 Ω", "35 °C ± 0.2 K").result, Conformity::within) << "by both";
  EXPECT_EQ(at("49.50 Ω", "35 °C ± 0.2 K").result, Conformity::outside) << "by both";
  EXPECT_EQ(at("39.50 Ω", "35 °C ± 0.2 K").result, Conformity::outside) << "by both";
  for (const char* reading : {"41.00 Ω", "47.50 Ω"}) {
    const Judgement doubtful = at(reading, "35 °C ± 0.2 K");
    EXPECT_EQ(doubtful.result, Conformity::too_close) << reading;
    EXPECT_EQ(doubtful.service.result, Conformity::too_close) << "a plan goes by that";
    EXPECT_TRUE(says(doubtful.settle, "read it again at 20 °C, where its limits hold: of copper, as most "
                                      "windings are, they would be 42.3"))
        << reading;
    for (const Mode_answer& one : doubtful.modes) {
      const bool by_any_metal = one.mode == Mode::open || one.mode == Mode::short_;
      EXPECT_EQ(one.verdict, by_any_metal ? Mode_verdict::excluded : Mode_verdict::undecided)
          << reading << ' ' << one.why;
    }
  }
  // A finer meter settles nothing where copper is outside.
  const Judgement at_the_end = at("40.00 Ω", "35 °C ± 0.2 K");
  EXPECT_EQ(at_the_end.result, Conformity::too_close);
  EXPECT_TRUE(says(at_the_end.settle, "read it again at 20 °C"));
  EXPECT_FALSE(says(at_the_end.settle, "a meter"));
  for (const char* reading : {"47.60 Ω", "49.50 Ω"}) {
    Judge_request both = Bench::request("coil", reading, "35 °C ± 0.2 K");
    both.at_part = Bench::reading("47.50 Ω");
    const Judgement beside = bench.verdict(std::vector{both}).judgements.at(0);
    ASSERT_TRUE(beside.harness) << reading;
    EXPECT_TRUE(says(std::vector{beside.harness->words}, "the part itself is too close to call")) << reading;
    EXPECT_TRUE(says(beside.settle, "read it again at 20 °C")) << reading;
  }
  // Somewhere between the coldest and the warmest that it may be, copper reads that.
  Judge_request run = Bench::request("coil", "48.50 Ω", "32 °C");
  run.temperature->minutes_since_running = 5;
  const Judgement warm = bench.of(run);
  EXPECT_EQ(warm.result, Conformity::too_close);
  EXPECT_EQ(warm.service.least.within, 0);
  EXPECT_NEAR(warm.service.most.within, 1, 1e-9);
  // 47.50 Ω is within a service limit of 20 %, and of copper as it was made.
  Bench served(bench_with(copper, fmt::format(R"("service_limit": "20 %", {})", row)));
  const Judgement made = served.of("coil", "47.50 Ω", "35 °C ± 0.2 K");
  EXPECT_EQ(made.result, Conformity::within);
  ASSERT_TRUE(made.manufacturing);
  EXPECT_EQ(made.manufacturing->result, Conformity::too_close);
  EXPECT_EQ(at("41.00 Ω", "20 °C ± 0.2 K").result, Conformity::within) << "where they hold";
  EXPECT_EQ(at("47.50 Ω", "20 °C ± 0.2 K").result, Conformity::outside) << "where they hold";
}

// Copper of 43.00 Ω at 20 °C has 42.16 Ω at 15 °C, 43.84 Ω at 25 °C, 48.92 Ω at 55 °C, 49.76 Ω at 60 °C and
// 50.61 Ω at 65 °C, by (234.5 + t)/(234.5 + 20).
TEST(Judge, A_limit_in_kelvin_reaches_beyond_the_last_row_of_a_coil) {
  Bench bench(
      bench_with(R"("model": { "kind": "copper", "resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %" })",
                 R"("service_limit": "5 K", "model": { "kind": "table", "rows": [
        { "at": "20 °C", "nominal": "43.00 Ω", "tolerance": "1 %" },
        { "at": "60 °C", "nominal": "49.76 Ω", "tolerance": "1 %" }] })"));
  std::string problem;
  bench.means.meter = parse_meter("0.1 % + 1 of 60000", problem);
  bench.means.leads = parse_leads("0 ± 0", problem);
  const Judgement cold = bench.of("coil", "42.60 Ω", "20 °C ± 0.2 K");
  EXPECT_EQ(cold.result, Conformity::within) << "as it was made";
  for (const Judgement& found : {cold, bench.of("coil", "42.60 Ω", "17 °C ± 0.2 K")}) {
    EXPECT_NEAR(found.service.ohm.low, 42.16, 0.02);
    EXPECT_NEAR(found.service.ohm.high, 43.84, 0.02);
  }
  const Judgement hot = bench.of("coil", "50.20 Ω", "60 °C ± 0.2 K");
  EXPECT_EQ(hot.result, Conformity::within);
  EXPECT_NEAR(hot.service.ohm.low, 48.92, 0.02);
  EXPECT_NEAR(hot.service.ohm.high, 50.61, 0.02);
}

// The sensor "flow" by rows of the curve R = 10 kΩ exp(3977 K (1/T - 1/298.15 K)).
Bench with_rows(std::string_view rows) {
  std::string profile = bench_with(
      R"("model": { "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_between": "25 °C to 85 °C" })",
      fmt::format(R"("model": {{ "kind": "table", "rows": [{}] }})", rows));
  return Bench(profile);
}

// What is uncertain reaches beyond the rows: there the curve goes on. Numbers by hand from the same curve.
TEST(Judge, Beyond_its_rows_a_sensor_changes_on) {
  const Bench bench = with_rows(R"({ "at": "20 °C", "nominal": "12.550 kΩ", "tolerance": "2 %" },
                                   { "at": "25 °C", "nominal": "10.000 kΩ", "tolerance": "2 %" })");
  // 26.1 kΩ at 5 °C is healthy, and nobody said how warm it is.
  const Judgement anywhere = bench.of("flow", "25 kΩ");
  EXPECT_EQ(anywhere.result, Conformity::too_close);
  EXPECT_NEAR(anywhere.service.ohm.high, 30.5e3, 0.1e3) << "at 2 °C";
  EXPECT_TRUE(says(anywhere.remarks, "states 20 °C to 25 °C only: taken for 5 °C to 30 °C"));
  EXPECT_FALSE(says(anywhere.remarks, "has one row"));
  EXPECT_EQ(bench.of("flow", "60 kΩ").result, Conformity::outside);
  // At its last row the thermometer counts as it does beside it: 4.628 % per kelvin.
  const Judgement at_end = bench.of("flow", "12.55 kΩ", "20 °C ± 1 K");
  EXPECT_NEAR(at_end.uncertainty, std::hypot(581, 130.7) / std::sqrt(3), 2);
  // As made 12.30 to 12.80 kΩ there, of which ± 1 K leaves less than half, as for a sensor of one B.
  EXPECT_NEAR(at_end.manufacturing.value().least.within, 0.43, 0.01);
}

TEST(Judge, A_sensor_of_one_row_has_a_slope) {
  const Bench bench = with_rows(R"({ "at": "25 °C", "nominal": "10.0 kΩ", "tolerance": "2 %" })");
  const Judgement found = bench.of("flow", "10.05 kΩ", "25 °C ± 1 K");
  EXPECT_EQ(found.result, Conformity::within);
  // 10 kΩ exp(3950 K (1/T - 1/298.15 K)) at 28 °C and 22 °C
  EXPECT_NEAR(found.service.ohm.low, 8763, 1);
  EXPECT_NEAR(found.service.ohm.high, 11442, 1);
  EXPECT_TRUE(says(found.remarks, "has one row"));
  EXPECT_EQ(bench.of("flow", "25 kΩ").result, Conformity::too_close);
  EXPECT_TRUE(bench.verdict(std::vector{Bench::request("flow", "10 kΩ", "24 °C")}).judgements.empty());
}

// Platinum has 101.17 Ω at 3 °C and 98.83 Ω at -3 °C (IEC 60751), silicon of 1000 Ω at 25 °C 1040 Ω at 30 °C
// and 961 Ω at 20 °C (KTY81-110, from memory).
TEST(Judge, A_sensor_of_one_row_changes_as_its_like_do) {
  const std::string_view ntc =
      R"("kind": "ntc", "name": "Flow sensor", "between": ["X4.1", "X4.2"], "service_limit": "3 K",
      "model": { "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_between": "25 °C to 85 °C" })";
  const Judgement platinum =
      Bench(bench_with(
                ntc,
                R"("kind": "rtd", "name": "Flow sensor", "between": ["X4.1", "X4.2"], "service_limit": "3 K",
      "model": { "kind": "table", "rows": [{ "at": "0 °C", "nominal": "100.0 Ω", "tolerance": "0.1 %" }] })"))
          .of("flow", "100.3 Ω", "0 °C ± 0.2 K");
  EXPECT_NEAR(platinum.service.ohm.low, 98.83, 0.02);
  EXPECT_NEAR(platinum.service.ohm.high, 101.17, 0.02);
  const Judgement silicon =
      Bench(
          bench_with(
              ntc,
              R"("kind": "ptc", "type": "silicon", "name": "Flow sensor", "between": ["X4.1", "X4.2"], "service_limit": "5 K",
      "model": { "kind": "table", "rows": [{ "at": "25 °C", "nominal": "1000 Ω", "tolerance": "1 %" }] })"))
          .of("flow", "1000 Ω", "25 °C ± 0.2 K");
  EXPECT_NEAR(silicon.service.ohm.low, 961, 1);
  EXPECT_NEAR(silicon.service.ohm.high, 1040, 1);
}

// A platinum sensor by rows of limits alone, in the place of "flow".
Bench with_platinum_limits(std::string_view service_limit) {
  std::string profile(bench_profile);
  const std::string_view old =
      R"("kind": "ntc", "name": "Flow sensor", "between": ["X4.1", "X4.2"], "service_limit": "3 K",
      "model": { "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_between": "25 °C to 85 °C" })";
  profile.replace(
      profile.find(old), old.size(),
      fmt::format(
          R"("kind": "rtd", "name": "Flow sensor", "between": ["X4.1", "X4.2"], "service_limit": "{}",
      "model": {{ "kind": "table", "rows": [{{ "at": "0 °C", "min": "99 Ω", "max": "101 Ω" }},
                                       {{ "at": "50 °C", "min": "118.5 Ω", "max": "120.3 Ω" }},
                                       {{ "at": "100 °C", "min": "137.5 Ω", "max": "139.5 Ω" }}] }})",
          service_limit));
  return Bench(profile);
}

// 98.83 Ω at -3 °C, 118.24 and 120.55 Ω at 47 and 53 °C, 139.64 Ω at 103 °C (IEC 60751).
TEST(Judge, Beside_rows_of_limits_a_sensor_changes_as_from_row_to_row) {
  const Bench bench = with_platinum_limits("3 K");
  const Judgement hot = bench.of("flow", "200 Ω", "100 °C"), cold = bench.of("flow", "60 Ω", "0 °C"),
                  at_row = bench.of("flow", "113 Ω", "50 °C");
  EXPECT_EQ(hot.result, Conformity::outside);
  EXPECT_NEAR(hot.service.ohm.high, 139.64, 0.3);
  EXPECT_EQ(cold.result, Conformity::outside);
  EXPECT_NEAR(cold.service.ohm.low, 98.83, 0.3);
  EXPECT_NE(at_row.result, Conformity::within);
  EXPECT_NEAR(at_row.service.ohm.low, 118.24, 0.3);
  EXPECT_NEAR(at_row.service.ohm.high, 120.55, 0.3);
}

// 109.73 Ω at 25 °C, 115.54 Ω at 40 °C, 123.24 Ω at 60 °C and 128.99 Ω at 75 °C (IEC 60751).
TEST(Judge, Between_rows_of_limits_no_healthy_sensor_is_outside) {
  for (const char* service_limit : {"3 K", "2 %", "1 Ω"})
    for (const auto& [shown, temperature] :
         {std::pair{"109.7 Ω", "25 °C"}, {"115.5 Ω", "40 °C"}, {"123.2 Ω", "60 °C"}, {"129.0 Ω", "75 °C"}})
      EXPECT_EQ(with_platinum_limits(service_limit).of("flow", shown, temperature).result, Conformity::within)
          << service_limit << " at " << temperature;
  const Judgement warm = with_platinum_limits("3 K").of("flow", "129.0 Ω", "75 °C");
  EXPECT_NEAR(warm.means.value(), zero_celsius + 75, 2); // by the chord of 50 K
  EXPECT_NEAR(warm.nominal.value(), 128.99, 1);
}

// Straight in ln R over 1/T, as thermistor tables are interpolated (EPCOS, "Standardized R/T
// characteristics").
TEST(Judge, A_reading_means_a_temperature_to_the_very_ends_of_a_table) {
  const Bench bench(bench_with(
      R"({ "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_between": "25 °C to 85 °C" })",
      R"({ "kind": "table", "rows": [{ "at": "1 °C", "nominal": "32.0 kΩ" }, { "at": "25 °C", "nominal": "10.0 kΩ" },
          { "at": "95 °C", "nominal": "785 Ω" }, { "at": "98 °C", "nominal": "720 Ω" }] })"));
  const auto meant = [&](const char* shown) {
    return bench.of("flow", shown, "20 °C").means.value_or(0) - zero_celsius;
  };
  EXPECT_NEAR(meant("725.0 Ω"), 97.8, 0.1);
  EXPECT_NEAR(meant("31.90 kΩ"), 1.06, 0.1);
  EXPECT_EQ(bench.of("flow", "710.0 Ω", "20 °C").means, std::nullopt) << "beyond";
}

// A copper coil of 43 Ω at 20 °C has 45.5 Ω at 35 °C, by (234.5 + 35)/(234.5 + 20).
TEST(Judge, Limits_that_a_test_states_are_carried_along_rows_of_limits) {
  const Judgement found = with_coil_by_limits().of("band", "45.5 Ω", "35 °C");
  EXPECT_EQ(found.result, Conformity::within);
  EXPECT_NEAR(found.service.ohm.low, 40 * 45.5 / 43, 0.3);
  EXPECT_NEAR(found.service.ohm.high, 46 * 45.5 / 43, 0.3);
}

// 19.9 kΩ at 10 °C is what a usual 10 kΩ sensor reads: that its test states 9.5 to 10.5 kΩ at 25 °C does not
// make it bad.
TEST(Judge, A_sensor_without_a_model_is_judged_where_its_test_states_limits) {
  std::string profile(bench_profile);
  const auto put = [&](std::string_view old, std::string_view text) {
    profile.replace(profile.find(old), old.size(), text);
  };
  put(R"(, "service_limit": "3 K",
      "model": { "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_between": "25 °C to 85 °C" })",
      "");
  put(R"("response": { "kind": "falls_when_warmed" },)",
      R"("expect": { "kind": "band", "nominal": "10 kΩ", "tolerance": "5 %", "at": "25 °C" },)");
  const Bench bench(profile);
  const Verdict elsewhere = bench.verdict(std::vector{Bench::request("flow", "19.9 kΩ", "10 °C")});
  EXPECT_TRUE(elsewhere.judgements.empty());
  EXPECT_TRUE(says(
      elsewhere.problems,
      "the test does not reach there, only 25 °C; read it again at that temperature; without --temperature"))
      << elsewhere.problems.at(0);
  const Judgement anywhere = bench.of("flow", "19.9 kΩ");
  EXPECT_EQ(anywhere.result, Conformity::too_close);
  // 10.5 kΩ exp(3950 K (1/278.15 K - 1/298.15 K))
  EXPECT_NEAR(anywhere.service.ohm.high, 27220.8, 0.1);
  EXPECT_TRUE(says(anywhere.remarks, "it has no model"));
  EXPECT_TRUE(fits(bench.of("flow", "OL"), Mode::open));
  // The thermometer counts: 4.44 % per kelvin.
  EXPECT_EQ(bench.of("flow", "10.40 kΩ", "25 °C ± 1 K").result, Conformity::too_close);
  const Judgement there = bench.of("flow", "10.00 kΩ", "25 °C ± 1 K");
  EXPECT_EQ(there.result, Conformity::within);
  EXPECT_FALSE(says(Bench().of("flow", "10.00 kΩ", "25 °C ± 1 K").remarks, "from usual sensors"));
  EXPECT_NEAR(there.uncertainty, std::hypot(444.4, 110) / std::sqrt(3), 1);
  // One with a model, which carries no limits that hold over a range.
  const Bench over_a_range(bench_with(
      R"("response": { "kind": "falls_when_warmed" },)",
      R"("expect": { "kind": "band", "min": "8 kΩ", "max": "12.5 kΩ", "at": "20 °C to 30 °C" },)"));
  const Judgement below = over_a_range.of("flow", "12.2 kΩ", "19.8 °C");
  EXPECT_TRUE(says(below.remarks, "what its test states holds over a range: how it changes"));
  EXPECT_FALSE(says(below.remarks, "it has no model"));
}

// A copper coil of 43 Ω at 20 °C reads 43 Ω (234.5 + 60)/254.5 = 49.76 Ω at 60 °C.
TEST(Judge, A_coil_without_a_model_changes_as_its_metal_does) {
  std::string profile = bench_with(R"("suppression": "none",
      "model": { "kind": "copper", "resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %" })",
                                   R"("suppression": "none")");
  const std::string_view test = R"("coil": { "component": "coil",)";
  profile.replace(
      profile.find(test), test.size(),
      std::string(test) +
          R"( "expect": { "kind": "band", "nominal": "43 Ω", "tolerance": "5 %", "at": "20 °C" },)");
  const Judgement hot = Bench(profile).of("coil", "50.1 Ω", "60 °C ± 1 K");
  EXPECT_EQ(hot.result, Conformity::within);
  EXPECT_NEAR(hot.service.ohm.low, 0.95 * 49.76, 0.01);
  EXPECT_NEAR(hot.service.ohm.high, 1.05 * 49.76, 0.01);
  EXPECT_FALSE(hot.manufacturing) << "nothing says how it is made";
}

}
}
