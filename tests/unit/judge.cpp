// The verdict on readings. Where no source is named, what is expected is common practice.
#include "ohmlore/judge.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include "ohmlore/cautions.h"
#include "ohmlore/description.h"
#include "support/bench.h"

namespace ohmlore {
namespace {

using test::Bench;

Mode_verdict of_mode(const Judgement& judgement, Mode mode) {
  for (const Mode_answer& answer : judgement.modes)
    if (answer.mode == mode) return answer.verdict;
  ADD_FAILURE() << "nothing is said of " << word_of(mode);
  return Mode_verdict::not_seen;
}
bool fits(const Judgement& judgement, Mode mode) {
  return std::any_of(judgement.modes.begin(), judgement.modes.end(), [&](const Mode_answer& answer) {
    return answer.mode == mode && answer.verdict == Mode_verdict::fits;
  });
}
bool says(const std::vector<std::string>& texts, std::string_view part) {
  return std::any_of(texts.begin(), texts.end(),
                     [&](const std::string& text) { return text.find(part) != std::string::npos; });
}

std::string bench_with(std::string_view old, std::string_view by) {
  std::string profile(test::bench_profile);
  profile.replace(profile.find(old), old.size(), by);
  return profile;
}

// trade: a healthy 1 % sensor with a perfect reading and a thermometer of ± 1 K has probability 0.23 of being
// within its 1 % band, and is within its service limit of 3 K.
TEST(Judge, A_healthy_sensor_is_within_its_service_limit_and_not_decided_as_made) {
  const Judgement found = Bench().of("flow", "10.00 kΩ", "25 °C ± 1 K");
  EXPECT_EQ(found.result, Conformity::within);
  EXPECT_GT(found.service.least.within, 0.99);
  ASSERT_TRUE(found.manufacturing);
  EXPECT_EQ(found.manufacturing->result, Conformity::too_close);
  EXPECT_NEAR(found.manufacturing->least.within, 0.23, 0.01);
  EXPECT_TRUE(says(found.remarks,
                   "cannot be decided here: even a reading in the middle of 9.9 kΩ to 10.1 kΩ would be "
                   "within with probability 0.22 only, because of the thermometer"))
      << found.remarks.back();
  for (const Mode mode : {Mode::open, Mode::short_, Mode::drift_high, Mode::drift_low})
    EXPECT_EQ(of_mode(found, mode), Mode_verdict::excluded) << word_of(mode);
  // With better means it could be decided, only not so near to the limit.
  Bench fine;
  std::string problem;
  fine.means.meter = parse_meter("0.2 % + 1", problem);
  const Judgement near = fine.of("flow", "10.08 kΩ", "25 °C ± 0.1 K");
  EXPECT_EQ(near.manufacturing.value().result, Conformity::too_close);
  EXPECT_GT(near.manufacturing->best.value(), 0.95);
  EXPECT_FALSE(says(near.remarks, "even a reading in the middle"));
}

// 43.3 Ω less the leads of 0.3 Ω is the very middle: no reading is surer.
TEST(Judge, The_best_that_means_can_do_is_the_middle_with_its_leads) {
  Bench bench(bench_with(R"("at": "20 °C", "tolerance": "5 %")", R"("at": "20 °C", "tolerance": "1.5 %")"));
  const Judgement found = bench.of("coil", "43.3 Ω", "20 °C");
  EXPECT_EQ(found.result, Conformity::too_close);
  EXPECT_NEAR(found.service.best.value(), found.service.least.within, 1e-9);
}

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
  const Read_result profile = read_json("bench.profile.json", test::bench_profile);
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

// Usual 10 kΩ sensors, B25/85 from 3435 to 3977 (component sheets, read): 15.25 kΩ is 15.2 °C ± 1.5 K, and a
// room at about 14 °C fits.
TEST(Judge, A_usual_sensor_at_15_kilohm_is_at_15_degrees) {
  for (const char* b : {"3435", "3977"}) {
    std::string profile(test::bench_profile);
    for (std::size_t at; (at = profile.find("3977")) != std::string::npos;) profile.replace(at, 4, "b_b_");
    for (std::size_t at; (at = profile.find("b_b_")) != std::string::npos;) profile.replace(at, 4, b);
    const Bench bench(profile);
    const Judgement found = bench.of("flow", "15.25 kΩ", "14 °C ± 1 K");
    EXPECT_EQ(found.result, Conformity::within) << b;
    ASSERT_TRUE(found.means && found.means_between) << b;
    EXPECT_NEAR(*found.means - zero_celsius, 15.2, 1.5) << b;
    EXPECT_GT(found.means_between->low - zero_celsius, 15.2 - 1.5) << b;
    EXPECT_LT(found.means_between->high - zero_celsius, 15.2 + 1.5) << b;
    EXPECT_NEAR(*found.deviation, *found.means - zero_celsius - 14, 1e-9);
  }
}

TEST(Judge, A_part_whose_file_has_errors_is_not_said_to_be_missing) {
  std::string text(test::bench_profile);
  const std::size_t model = text.find("\"model\"");
  text.replace(model, text.find('}', model) + 1 - model, "\"part\": \"ntc-10k\"");
  const Read_result read = read_json("bench.profile.json", text);
  for (const bool broken : {false, true}) {
    Parts parts;
    if (broken) parts.add_broken("ntc-10k.part.json", "corpus/parts/ntc-10k.part.json");
    const Resolved resolved = resolve(read.document, Surroundings{nullptr, &parts});
    const Judge_request request = Bench::request("flow", "10.00 kΩ", "25 °C ± 1 K");
    const Verdict found = judge(resolved, {&request, 1}, {});
    EXPECT_EQ(says(found.problems, "corpus/parts/ntc-10k.part.json cannot be read without errors"), broken);
    EXPECT_EQ(says(found.problems, "is not found below parts"), !broken);
  }
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

// 42.1 Ω lies 0.45 Ω above the limit at 25 °C, and 0.36 Ω below that at 30 °C: a rule that asks for as much
// certainty on both sides never calls the nearer one outside and the farther one too close.
TEST(Judge, No_meter_is_surer_of_what_is_nearer_to_the_limit) {
  Bench bench;
  std::string problem;
  bench.means.leads = parse_leads("0 ± 0", problem);
  bool outside = false, close = false;
  for (int percent = 1; percent < 30; ++percent) {
    bench.means.meter = parse_meter(fmt::format("0.{:02} % + 2", 3 * percent), problem);
    ASSERT_TRUE(bench.means.meter) << problem;
    const Conformity at_25 = bench.of("coil", "42.1 Ω", "25 °C").result,
                     at_30 = bench.of("coil", "42.1 Ω", "30 °C").result;
    EXPECT_FALSE(at_30 == Conformity::outside && at_25 != Conformity::within) << percent;
    outside = outside || at_30 == Conformity::outside;
    close = close || at_25 == Conformity::too_close;
  }
  EXPECT_TRUE(outside && close);
}

TEST(Judge, Names_the_temperature_at_which_a_sensor_outside_would_be_healthy) {
  // B 3977 K, 10 kΩ at 25 °C: 9.5 kΩ is 298.15 K / (1 + 298.15 / 3977 ln 0.95) = 299.3 K.
  const Bench bench;
  const Judgement warm = bench.of("flow", "9.5 kΩ", "15 °C ± 1 K");
  EXPECT_EQ(warm.result, Conformity::outside);
  EXPECT_TRUE(
      says(warm.remarks, "a healthy one would read so at 26.15 °C: make sure that the part is at 15 °C"));
  EXPECT_FALSE(says(bench.of("flow", "15.7 kΩ", "15 °C ± 1 K").remarks, "would read so at"));
  EXPECT_FALSE(says(bench.of("flow", "0.5 Ω", "15 °C ± 1 K").remarks, "would read so at")) << "at none";
}

// B of published tables grows by up to 5.6 K per kelvin (tests/unit/curve.cpp), here from the mean of 25 and
// 85 °C to that of -20 and 25 °C: exp(5.6 / 2 (253.15 + 298.15 - 656.3) (1 / 253.15 - 1 / 298.15)) is 0.84.
TEST(Judge, Says_what_the_curve_says_of_itself) {
  std::string profile(test::bench_profile);
  const std::string_view limit = R"("service_limit": "3 K",)";
  profile.insert(profile.find(limit), R"("temperature_range": "-20 °C to 110 °C", )");
  const Bench bench(profile);
  const auto count = [](const Judgement& judgement, std::string_view part) {
    return std::count_if(judgement.remarks.begin(), judgement.remarks.end(),
                         [&](const std::string& remark) { return remark.find(part) != std::string::npos; });
  };
  const std::string_view beyond = "computed beyond -20 °C to 110 °C: take it with doubt", drifts = "B drifts";
  const Judgement cold = bench.of("flow", "95 kΩ", "-20 °C");
  EXPECT_EQ(count(cold, "published tables lie up to 16 % below such a curve at -20 °C"), 1);
  EXPECT_EQ(count(cold, beyond), 0);
  const Judgement usual = bench.of("flow", "10 kΩ", "25 °C");
  EXPECT_EQ(count(usual, beyond) + count(usual, drifts), 0);
  for (const char* temperature : {"-60 °C", "200 °C"}) {
    const Judgement far = bench.of("flow", "15.25 kΩ", temperature);
    EXPECT_EQ(count(far, beyond), 1) << temperature;
    EXPECT_EQ(count(far, drifts), 1) << temperature;
    EXPECT_EQ(count(far, "is stated for"), 0) << "the same in other words";
  }
  EXPECT_EQ(count(bench.of("flow", "15.25 kΩ"), "below such a curve at 5 °C"), 1) << "the room's worst end";
  const std::string report =
      json_report(bench.verdict(std::vector{Bench::request("flow", "60 Ω", "200 °C")}));
  EXPECT_NE(report.find(beyond), std::string::npos) << report;
  // Copper has no B, and limits that a test states are no curve's.
  EXPECT_EQ(count(bench.of("band", "43.3 Ω", "40 °C"), drifts), 0);
}

// The reference data: 80 Ω at 20 °C and 100 Ω hot is a rise of 63.625 K (k = 234.5; read, recomputed): judged
// at 83.625 °C, 100 Ω is the nominal.
TEST(Judge, Reproduces_the_rise_of_a_copper_winding) {
  std::string profile(test::bench_profile);
  profile.replace(profile.find("\"43 Ω\""), std::string_view("\"43 Ω\"").size(), "\"80 Ω\"");
  Bench bench(profile);
  std::string problem;
  bench.means.leads = parse_leads("0 ± 0", problem);
  const Judgement found = bench.of("coil", "100 Ω", "83.625 °C ± 0 K");
  ASSERT_TRUE(found.nominal);
  EXPECT_NEAR(*found.nominal, 100, 1e-9);
  EXPECT_EQ(found.result, Conformity::within);
}

TEST(Judge, Takes_the_meter_of_the_corpus) {
  const Read_result corpus = read_json(
      "corpus.json", R"({ "format": "ohmlore/1.0", "kind": "corpus", "title": "t", "licence": "CC0-1.0",
    "meter": { "accuracy": "0 %", "counts": 5, "display_counts": 10000, "leads": "0 Ω" } })");
  const Read_result read = read_json("bench.profile.json", test::bench_profile);
  ASSERT_NE(corpus.document.corpus(), nullptr);
  const Resolved resolved = resolve(read.document, Surroundings{corpus.document.corpus(), nullptr});
  const Judge_request request = Bench::request("stat", "0.4 Ω");
  const Verdict found = judge(resolved, {&request, 1}, {});
  EXPECT_EQ(found.meter.of_reading, 0);
  EXPECT_EQ(found.meter.counts, 5);
  EXPECT_EQ(found.meter.display_counts, 10000);
  EXPECT_EQ(found.leads.ohm, 0);
}

TEST(Judge, Subtracts_the_leads) {
  Bench bench;
  EXPECT_DOUBLE_EQ(bench.of("coil", "42.4 Ω", "20 °C").ohm, 42.1)
      << "0.1 to 0.5 Ω (read): 0.3 where none is stated";
  std::string problem;
  bench.means.leads = parse_leads("0.2 Ω ± 0.05 Ω", problem);
  EXPECT_DOUBLE_EQ(bench.of("coil", "42.3 Ω", "20 °C").ohm, 42.1);
  // ± 0.2 Ω is a third of the variance beside a meter that is off by 0.8 % of 0.4 Ω + 0.3 Ω.
  EXPECT_TRUE(
      says(Bench().of("stat", "0.4 Ω").remarks, "the leads were not measured: taken for 0.3 Ω ± 0.2 Ω"));
  EXPECT_FALSE(says(Bench().of("coil", "42.4 Ω", "20 °C").remarks, "the leads were not measured"));
  EXPECT_FALSE(says(bench.of("stat", "0.4 Ω").remarks, "the leads were not measured"));
}

// What a healthy part reads never looks outside. 10 kΩ ± 1 %, B 3977 K ± 0.75 % at 15 °C: up to 10.1 kΩ
// exp(3977 K · 1.0075 (1 / 288.15 K - 1 / 298.15 K)) = 16.1017 kΩ. Pt1000 ± 2 K: see tests/unit/curve.cpp.
TEST(Judge, Limits_are_shown_rounded_outward) {
  const auto shown = [](const char* test, std::string_view old, std::string_view limits) {
    std::string profile(test::bench_profile);
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
  std::string profile(test::bench_profile);
  const std::string_view band = R"("min": "40 Ω", "max": "46 Ω")";
  profile.replace(profile.find(band), band.size(), R"("min": "40.123456 Ω", "max": "46.123454 Ω")");
  const std::string json =
      json_report(Bench(profile).verdict(std::vector{Bench::request("band", "43.3 Ω", "20 °C")}));
  EXPECT_NE(json.find(R"("low": "40.1234 Ω")"), std::string::npos) << json;
  EXPECT_NE(json.find(R"("high": "46.1235 Ω")"), std::string::npos) << json;
}

TEST(Judge, Budget_adds_up) {
  const Judgement found = Bench().of("flow", "15.25 kΩ", "14 °C ± 1 K");
  double shares = 0, squares = 0;
  for (const Contribution& one : found.budget) {
    shares += one.share;
    squares += one.ohm * one.ohm;
    EXPECT_NEAR(one.ohm, one.half_width / std::sqrt(3.0) * std::fabs(one.sensitivity), 1e-9 * one.ohm);
  }
  EXPECT_NEAR(shares, 1, 1e-12);
  EXPECT_NEAR(std::sqrt(squares), found.uncertainty, 1e-9);
  ASSERT_FALSE(found.budget.empty());
  EXPECT_EQ(found.budget[0].from, Contributor::thermometer);
  // dR/dT = -R B / T²
  EXPECT_NEAR(found.budget[0].sensitivity, -*found.nominal * 3977 / (287.15 * 287.15), 0.1);
}

const Contribution* contribution(const Judgement& judgement, Contributor from) {
  const auto found = std::find_if(judgement.budget.begin(), judgement.budget.end(),
                                  [&](const Contribution& one) { return one.from == from; });
  return found == judgement.budget.end() ? nullptr : &*found;
}

// 0.5 V across 10 kΩ is 25 µW, and 0.5 mA through 100 Ω is as much: 1/60 K at 1.5 mW per kelvin. In between,
// at 1 kΩ, both are 0.25 mW: 1/6 K.
TEST(Judge, A_meter_warms_a_sensor_by_what_it_drives_through_it) {
  for (const auto& [shown, kelvins] :
       {std::pair{"10 kΩ", 1.0 / 60}, {"1 kΩ", 1.0 / 6}, {"100 Ω", 1.0 / 60}}) {
    Bench bench(bench_with(R"("resistance": "10 kΩ")", fmt::format(R"("resistance": "{}")", shown)));
    std::string problem;
    bench.means.leads = parse_leads("0 ± 0", problem);
    const Judgement found = bench.of("flow", shown, "25 °C");
    const Contribution* warmed = contribution(found, Contributor::self_heating);
    ASSERT_NE(warmed, nullptr) << shown;
    EXPECT_NEAR(warmed->half_width, kelvins, 1e-9) << shown;
  }
  EXPECT_EQ(contribution(Bench().of("coil", "43.3 Ω", "20 °C"), Contributor::self_heating), nullptr);
}

// A reading of 15.25 kΩ less 0.3 Ω of leads, ± 0.8 % + 3 · 10 Ω + 0.2 Ω, on a curve of 10 kΩ ± 1 % and B 3977
// K: 1/T = 1/298.15 K + ln(R / R25) / 3977 K, with the least R over the greatest R25 and the reverse.
TEST(Judge, Means_any_temperature_that_meter_leads_and_tolerance_leave) {
  const Judgement found = Bench().of("flow", "15.25 kΩ", "15 °C");
  ASSERT_TRUE(found.means_between);
  const double half_width = 0.008 * 15250 + 30 + 0.2, ohm = 15249.7;
  const auto kelvin = [](double r, double r25) { return 1 / (1 / 298.15 + std::log(r / r25) / 3977); };
  EXPECT_NEAR(found.means_between->low, kelvin(ohm + half_width, 9900), 1e-6);
  EXPECT_NEAR(found.means_between->high, kelvin(ohm - half_width, 10100), 1e-6);
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

// A reading that is a value of the table to the last bit, at its end and at a place where the search steps.
TEST(Judge, What_reads_just_as_a_row_means_its_temperature) {
  std::string profile = bench_with(R"("service_limit": "3 K",
      "model": { "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_between": "25 °C to 85 °C" })",
                                   R"("temperature_range": "0 °C to 60 °C",
      "model": { "kind": "table", "rows": [{ "at": "0 °C", "nominal": "32.65 kΩ", "tolerance": "1 %" },
        { "at": "30 °C", "nominal": "8.06 kΩ", "tolerance": "1 %" }, { "at": "60 °C", "nominal": "2.488 kΩ", "tolerance": "1 %" }] })");
  Bench bench(profile);
  std::string problem;
  bench.means.leads = parse_leads("0 ± 0", problem);
  for (const auto& [shown, celsius] : {std::pair{"32.65 kΩ", 0}, {"8.06 kΩ", 30}, {"2.488 kΩ", 60}}) {
    const Judgement found = bench.of("flow", shown, "20 °C");
    ASSERT_TRUE(found.means) << shown;
    EXPECT_NEAR(*found.means - zero_celsius, celsius, 1e-9) << shown;
  }
}

TEST(Judge, Place_and_running_widen_the_temperature) {
  Judge_request request = Bench::request("flow", "15.25 kΩ", "14 °C ± 1 K");
  const double plain = Bench().of(request).uncertainty;
  request.temperature->place = Temperature_place::on_pipe;
  const double on_pipe = Bench().of(request).uncertainty;
  request.temperature->minutes_since_running = 10;
  const double soon = Bench().of(request).uncertainty;
  // Of 20 K a share of 1/e is left after every half hour (common practice, no source).
  for (const double minutes : {0.0, 30.0, 90.0}) {
    request.temperature->minutes_since_running = minutes;
    const Judgement found = Bench().of(request);
    const Contribution* running = contribution(found, Contributor::running);
    ASSERT_NE(running, nullptr) << minutes;
    EXPECT_NEAR(running->half_width, 20 * std::exp(-minutes / 30), 1e-9);
  }
  for (const auto& [place, kelvins] : {std::pair{Temperature_place::immersed, 0.5},
                                       {Temperature_place::on_part, 1.0},
                                       {Temperature_place::on_pipe, 3.0},
                                       {Temperature_place::room, 2.0}}) {
    request.temperature = Part_temperature{287.15, 1, place, {}};
    const Judgement found = Bench().of(request);
    const Contribution* taken = contribution(found, Contributor::place);
    ASSERT_NE(taken, nullptr) << word_of(place);
    EXPECT_EQ(taken->half_width, kelvins) << word_of(place);
  }
  request.temperature->place = Temperature_place::on_pipe;
  request.temperature->minutes_since_running = 600;
  EXPECT_LT(plain, on_pipe);
  EXPECT_LT(on_pipe, soon);
  EXPECT_DOUBLE_EQ(Bench().of(request).uncertainty, on_pipe) << "the next day nothing is left of it";
}

// 43 Ω of copper at 20 °C reads 43 (234.5 + 80) / 254.5 = 53.1 Ω at 80 °C, where nobody has a thermometer.
TEST(Judge, A_coil_that_ran_is_warmer_than_what_is_around_it) {
  Judge_request request = Bench::request("coil", "52.0 Ω", "20 °C");
  EXPECT_EQ(Bench().of(request).result, Conformity::outside);
  request.temperature->minutes_since_running = 2;
  const Judgement warm = Bench().of(request);
  EXPECT_NEAR(contribution(warm, Contributor::running)->half_width, 80 * std::exp(-2.0 / 30), 1e-9);
  EXPECT_EQ(warm.result, Conformity::too_close);
  EXPECT_TRUE(says(warm.settle, "cool"));
}

TEST(Judge, Without_a_temperature_it_judges_over_the_room_range) {
  const Judgement sensor = Bench().of("flow", "15.25 kΩ");
  EXPECT_EQ(sensor.result, Conformity::too_close);
  EXPECT_EQ(of_mode(sensor, Mode::open), Mode_verdict::excluded);
  EXPECT_EQ(of_mode(sensor, Mode::drift_high), Mode_verdict::undecided);
  EXPECT_TRUE(says(sensor.remarks, "no temperature of the part was given: judged for all of 5 °C to 30 °C"));
  EXPECT_TRUE(says(sensor.settle, "--temperature"));
  // The limits of 3 K at 30 °C and at 5 °C.
  const auto ohm = [](double celsius) {
    return 10000 * std::exp(3977 * (1 / (273.15 + celsius) - 1 / 298.15));
  };
  EXPECT_NEAR(sensor.service.ohm.low, ohm(33), 1e-6);
  EXPECT_NEAR(sensor.service.ohm.high, ohm(2), 1e-6);
  // Healthy at the hottest of the room only, and no farther than 0.2 K from there.
  Bench fine;
  std::string problem;
  fine.means.meter = parse_meter("0.01 % + 1 of 60000", problem);
  fine.means.leads = parse_leads("0 ± 0", problem);
  for (const auto& [celsius, result] : {std::pair{32.9, Conformity::too_close},
                                        {2.1, Conformity::too_close},
                                        {33.1, Conformity::outside},
                                        {1.9, Conformity::outside}})
    EXPECT_EQ(fine.of("flow", fmt::format("{:.0f} Ω", ohm(celsius))).result, result) << celsius;
  // What no part in the room reads is outside without a thermometer.
  EXPECT_EQ(Bench().of("flow", "60 kΩ").result, Conformity::outside);
  EXPECT_TRUE(fits(Bench().of("flow", "60 kΩ"), Mode::drift_high));
  EXPECT_EQ(Bench().of("flow", "3 kΩ").result, Conformity::outside);
  // A state needs none.
  EXPECT_EQ(Bench().of("fan", "4.7 kΩ").result, Conformity::within);
}

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
    std::string profile(test::bench_profile);
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

// A switching PTC spreads by ± 50 % and tells no temperature: it is judged as it is made.
TEST(Judge, A_switching_ptc_is_no_thermometer) {
  const auto judged = [](std::string_view type) {
    return Bench(bench_with(
                     R"("kind": "ntc", "name": "Return sensor", "between": ["X4.3", "X4.2"],
      "model": { "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_between": "25 °C to 85 °C" })",
                     fmt::format(
                         R"("kind": "ptc", "type": "{}", "name": "Return sensor", "between": ["X4.3", "X4.2"],
      "model": {{ "kind": "table", "rows": [{{ "at": "0 °C", "nominal": "800 Ω", "tolerance": "2 %" }},
                                            {{ "at": "50 °C", "nominal": "1.2 kΩ", "tolerance": "2 %" }}] }})",
                         type)))
        .of("return", "1000 Ω", "25 °C");
  };
  EXPECT_EQ(judged("silicon").service.basis, Limit_basis::practice);
  EXPECT_TRUE(judged("silicon").means);
  EXPECT_EQ(judged("switching").service.basis, Limit_basis::manufacturing);
  EXPECT_FALSE(judged("switching").means);
}

// What no text of a reading says, a program that is fed by a meter may hand over.
TEST(Judge, Refuses_what_no_meter_shows) {
  const double none = std::numeric_limits<double>::quiet_NaN(),
               endless = std::numeric_limits<double>::infinity();
  for (const double ohm : {-50.0, -1e-3, none, endless, -endless}) {
    Judge_request request = Bench::request("stat", "0.3 Ω");
    ASSERT_EQ(Bench().of(request).result, Conformity::within);
    request.reading.ohm = ohm;
    const Verdict verdict = Bench().verdict({&request, 1});
    EXPECT_TRUE(verdict.judgements.empty()) << ohm;
    ASSERT_EQ(verdict.problems.size(), 1u) << ohm;
    EXPECT_NE(verdict.problems[0].find(ohm < 0 && std::isfinite(ohm) ? "prove dead again" : "over_range"),
              std::string::npos)
        << verdict.problems[0];
    EXPECT_EQ(verdict.result(), Conformity::too_close);
  }
  Judge_request request = Bench::request("stat", "0.3 Ω");
  request.at_part = Reading{-2, 0.05, false};
  EXPECT_EQ(Bench().verdict({&request, 1}).problems.size(), 1u);
  request.at_part = Reading{2, -0.05, false};
  EXPECT_EQ(Bench().verdict({&request, 1}).problems.size(), 1u);
}

// Such a curve has no slope anywhere: the limits were not a number.
TEST(Judge, Rows_at_absolute_zero_or_of_no_resistance_give_no_limits_between_them) {
  constexpr std::string_view beta =
      R"({ "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_between": "25 °C to 85 °C" })";
  for (const std::string_view rows :
       {R"({ "at": "0 K", "nominal": "12 kΩ" }, { "at": "30 °C", "nominal": "8 kΩ" })",
        R"({ "at": "20 °C", "min": "0 Ω", "max": "0 Ω" }, { "at": "30 °C", "min": "0 Ω", "max": "0 Ω" })"}) {
    const Bench bench(bench_with(beta, fmt::format(R"({{ "kind": "table", "rows": [{}] }})", rows)));
    for (const std::string_view at : {"20 °C", "25 °C", "31 °C"}) {
      const Judge_request request = Bench::request("flow", "10 kΩ", at);
      for (const Judgement& one : bench.verdict({&request, 1}).judgements) {
        EXPECT_FALSE(std::isnan(one.service.ohm.low) || std::isnan(one.service.ohm.high))
            << rows << " at " << at;
        EXPECT_FALSE(one.manufacturing && std::isnan(one.manufacturing->ohm.low)) << rows << " at " << at;
      }
    }
  }
}

// A lead of NaN was subtracted, and the reading called outside.
TEST(Judge, Leads_that_are_no_resistance_are_refused) {
  const double none = std::numeric_limits<double>::quiet_NaN(),
               endless = std::numeric_limits<double>::infinity();
  for (const Leads leads : {Leads{none, 0.1}, Leads{endless, 0.1}, Leads{-5, 0.1}, Leads{0.1, none},
                            Leads{0.1, endless}, Leads{0.1, -1}}) {
    Bench bench;
    bench.means.leads = leads;
    const Judge_request request = Bench::request("stat", "0.3 Ω");
    const Verdict verdict = bench.verdict({&request, 1});
    EXPECT_TRUE(verdict.judgements.empty());
    ASSERT_EQ(verdict.problems.size(), 1u);
    EXPECT_NE(verdict.problems[0].find("are none"), std::string::npos) << verdict.problems[0];
  }
}

TEST(Judge, Refuses_what_no_multimeter_reads_and_asks_of_what_this_one_does_not) {
  for (const char* shown : {"99999999 MΩ", "OL 99999999 MΩ"}) {
    const Verdict verdict = Bench().verdict(std::vector{Bench::request("pump_earth", shown, "")});
    EXPECT_TRUE(verdict.judgements.empty()) << shown;
    EXPECT_TRUE(says(verdict.problems, "no reading of a multimeter")) << shown;
  }
  // 6000 counts end at 60 MΩ.
  const Judgement beyond = Bench().of("pump_earth", "100 MΩ");
  EXPECT_EQ(beyond.result, Conformity::within);
  EXPECT_TRUE(says(beyond.remarks, "100 MΩ is above 60 MΩ"));
  EXPECT_FALSE(says(Bench().of("pump_earth", "59.9 MΩ").remarks, "is above"));
}

// Leads of 1 Ω ± 0.1 Ω and the usual meter: at 0.5 Ω that is off by 0.8 % · 0.5 Ω + 3 · 0.1 Ω = 0.304 Ω, so
// no part reads less than 1 Ω - 0.1 Ω - 0.304 Ω = 0.596 Ω with them.
TEST(Judge, Refuses_less_than_the_leads_read_alone) {
  Bench bench;
  bench.means.leads = Leads{1, 0.1};
  Judge_request request = Bench::request("stat", "0.6 Ω");
  EXPECT_EQ(bench.of(request).result, Conformity::within);
  request.at_part = Bench::reading("0.5 Ω");
  EXPECT_EQ(bench.verdict({&request, 1}).problems.size(), 1u);
  request = Bench::request("stat", "0.5 Ω");
  const Verdict verdict = bench.verdict({&request, 1});
  EXPECT_TRUE(verdict.judgements.empty());
  EXPECT_EQ(verdict.result(), Conformity::too_close);
  EXPECT_TRUE(says(verdict.problems, "0.5 Ω is less than the leads alone, 1 Ω, by more than the 0.404 Ω that "
                                     "meter and leads may be off: a resistance is not, so a voltage is still "
                                     "there, or the leads were nulled wrongly"))
      << verdict.problems.at(0);
  // With fewer digits its rounding counts besides: 0.8 Ω is within 0.1 Ω + 0.3 Ω + 0.5 Ω of "0 Ω".
  bench.means.leads = Leads{0.8, 0.1};
  EXPECT_EQ(bench.of("stat", "0 Ω").result, Conformity::within);
  request.reading = Bench::reading("0.0 Ω");
  EXPECT_EQ(bench.verdict({&request, 1}).problems.size(), 1u);
}

// A meter of 0.2 % + 2 · 0.01 Ω and leads of 0.3 Ω ± 0.2 Ω that nobody measured: 0.02 Ω is less than
// 0.3 Ω - 0.2 Ω - 0.02004 Ω, and usual where the leads were nulled.
TEST(Judge, Asks_whether_leads_that_nobody_measured_were_nulled) {
  Bench bench;
  std::string problem;
  bench.means.meter = parse_meter("0.2 % + 2 of 60000", problem);
  const Judgement nulled = bench.of("stat", "0.02 Ω");
  EXPECT_EQ(nulled.result, Conformity::within);
  EXPECT_EQ(nulled.ohm, 0);
  EXPECT_TRUE(says(nulled.remarks, "0.02 Ω is less than the 0.3 Ω that leads are taken for"));
  EXPECT_TRUE(says(nulled.remarks, "--leads 0"));
  EXPECT_FALSE(says(bench.of("stat", "0.4 Ω").remarks, "nulled"));
  bench.means.leads = Leads{0.3, 0.2};
  const Judge_request request = Bench::request("stat", "0.02 Ω");
  EXPECT_EQ(bench.verdict({&request, 1}).problems.size(), 1u) << "they were measured";
  // The usual meter may be off by more than that.
  EXPECT_EQ(Bench().of("stat", "0 Ω").result, Conformity::within);
}

TEST(Judge, Over_range_means_more_than_this_range) {
  // 6 kΩ is less than a healthy sensor reads: nothing is decided.
  const Judgement low_range = Bench().of("flow", "OL 6 kΩ", "15 °C");
  EXPECT_EQ(low_range.result, Conformity::too_close);
  EXPECT_EQ(of_mode(low_range, Mode::open), Mode_verdict::undecided);
  // At 14.1 °C, 5 % from the cold end of 15 °C ± 1 K, the limit is 19.20 kΩ; a meter of 0.8 % + 3 that reads
  // OL at 19.39 kΩ has no less before it.
  EXPECT_TRUE(says(low_range.settle, "range that ends above 19.4 kΩ")) << low_range.settle.at(0);
  EXPECT_EQ(Bench().of("flow", "OL 60 kΩ", "15 °C").result, Conformity::outside);
  // An insulation test at 600 kΩ proves nothing, at 60 MΩ no gross leakage.
  EXPECT_EQ(Bench().of("pump_earth", "OL 600 kΩ").result, Conformity::too_close);
  EXPECT_EQ(Bench().of("pump_earth", "OL 60 MΩ").result, Conformity::within);
  // A short of a sensor reads up to 10 Ω, and this is more.
  EXPECT_EQ(of_mode(Bench().of("flow", "OL 10 Ω", "15 °C"), Mode::short_), Mode_verdict::excluded);
  // A range that ends inside 40 Ω to 46 Ω leaves it open, and so does one whose end meter and leads may be
  // off by more than what is beyond 46 Ω.
  EXPECT_EQ(Bench().of("band", "OL 43 Ω", "20 °C").result, Conformity::too_close);
  EXPECT_EQ(Bench().of("band", "OL 46 Ω", "20 °C").result, Conformity::too_close);
  EXPECT_EQ(Bench().of("band", "OL 48 Ω", "20 °C").result, Conformity::outside);
}

// Leads of 0.3 Ω ± 0.2 Ω are part of what is above the range: 46.4 Ω may be 45.9 Ω and they, 46.7 Ω hardly.
TEST(Judge, Over_range_takes_the_leads_off) {
  Bench bench;
  std::string problem;
  bench.means.meter = parse_meter("0.1 % + 1 of 60000", problem);
  EXPECT_EQ(bench.of("band", "OL 46.4 Ω", "20 °C ± 0.1 K").result, Conformity::too_close);
  EXPECT_EQ(bench.of("band", "OL 46.7 Ω", "20 °C ± 0.1 K").result, Conformity::outside);
}

// A healthy sensor reads OL on a range of 60 kΩ where it is below -7.16 °C: of -7 °C ± 3 K in 47.4 % (by hand
// from R = 10 kΩ exp(3977 K (1/T - 1/298.15 K)), 3 K colder, and 60 kΩ less 0.8 %, 3 counts and 0.5 Ω).
TEST(Judge, Over_range_counts_in_what_is_uncertain) {
  const Judgement cold = Bench().of("flow", "OL 60 kΩ", "-7 °C ± 3 K");
  EXPECT_EQ(cold.result, Conformity::too_close);
  EXPECT_NEAR(cold.service.most.within, 0.474, 0.001);
  EXPECT_NEAR(cold.service.least.above, 0.526, 0.001);
  // The limit is 59.98 kΩ there, and a meter of 0.8 % may take 59.6 kΩ for more than 60 kΩ.
  EXPECT_EQ(Bench().of("flow", "OL 60 kΩ", "-7.3 °C ± 0.1 K").result, Conformity::too_close);
  EXPECT_EQ(Bench().of("flow", "OL 60 kΩ", "-5 °C ± 0.5 K").result, Conformity::outside);
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

// What `settle` promises holds.
TEST(Judge, What_is_said_to_settle_it_does) {
  const Judgement found = Bench().of("flow", "14.2 kΩ", "15 °C ± 1 K");
  ASSERT_EQ(found.result, Conformity::too_close);
  const std::string& advice = found.settle.at(0);
  const std::string_view begin = "a thermometer that is within ± ";
  ASSERT_EQ(advice.find(begin), 0u) << advice;
  const std::string width = advice.substr(begin.size(), advice.find(" (") - begin.size());
  const double needed = parse_quantity(width, Dimension::temperature_difference).value.value().si;
  EXPECT_NE(Bench().of("flow", "14.2 kΩ", fmt::format("15 °C ± {} K", needed)).result, Conformity::too_close);
  EXPECT_EQ(Bench().of("flow", "14.2 kΩ", fmt::format("15 °C ± {} K", needed * 1.05)).result,
            Conformity::too_close);
}

// Of 45.2 Ω, 0.1 % and one digit are 0.145 Ω, 0.2 % and one digit 0.190 Ω.
TEST(Judge, A_finer_meter_settles_as_it_is_said_to) {
  Bench bench;
  std::string problem;
  bench.means.leads = parse_leads("0.30 ± 0.05", problem);
  const auto judged = [&](std::string_view meter) {
    bench.means.meter = parse_meter(meter, problem);
    return bench.of("coil", "45.2 Ω", "20 °C ± 0.2 K");
  };
  const std::string advice = judged("0.8 % + 3").settle.at(0);
  const std::string_view begin = "a meter that is within ± ";
  ASSERT_EQ(advice.find(begin), 0u) << advice;
  const std::string width = advice.substr(begin.size(), advice.find(" here") - begin.size());
  const double needed = parse_quantity(width, Dimension::resistance).value.value().si;
  EXPECT_GT(needed, 0.145);
  EXPECT_EQ(judged("0.1 % + 1").result, Conformity::within);
  EXPECT_LT(needed, 0.190);
  EXPECT_EQ(judged("0.2 % + 1").result, Conformity::too_close);
}

// 45.1 Ω, below a limit of 45.15 Ω by less than what the leads alone leave open (0.2 Ω), and the meter.
TEST(Judge, Where_no_doubt_alone_settles_it_several_are_named_together) {
  const Judgement coil = Bench().of("coil", "45.4 Ω", "20 °C ± 1 K");
  ASSERT_EQ(coil.result, Conformity::too_close);
  EXPECT_TRUE(says(coil.settle, "several of them together: cool to the room, a finer meter and thermometer"));
  EXPECT_TRUE(says(coil.settle, "at another temperature"));
  // A contact is closed at any temperature.
  const Judgement contact = Bench().of("stat", "1.3 Ω");
  EXPECT_TRUE(says(contact.settle, "several of them together: a finer meter, and leads nulled"));
  EXPECT_FALSE(says(contact.settle, "temperature"));
  EXPECT_FALSE(says(Bench().of("flow", "14.2 kΩ", "15 °C ± 1 K").settle, "several of them"));
}

TEST(Judge, What_was_read_on_the_part_is_not_sent_there) {
  const Bench bench(bench_with(R"("side": "at_board_plug",
      "response": { "kind": "falls_when_warmed" })",
                               R"("side": "at_component",
      "response": { "kind": "falls_when_warmed" })"));
  const Judgement found = bench.of("flow", "14.2 kΩ", "15 °C ± 1 K");
  EXPECT_EQ(found.result, Conformity::too_close);
  EXPECT_FALSE(says(found.settle, "--at-part"));
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

TEST(Judge, Leads_that_are_not_on_the_part_read_what_lies_between_too) {
  const std::string_view own = R"("coil": { "component": "coil", "unplug": "X4", "probes": ["X4.4", "X4.5"])";
  const std::string_view off = R"("coil": { "component": "coil", "unplug": "X4", "probes": ["X4.4", "X4.2"])";
  const auto remarked = [](const std::string& profile) {
    return says(Bench(profile).of("coil", "43.3 Ω", "20 °C").remarks, "not on the component's own contacts");
  };
  EXPECT_TRUE(remarked(bench_with(own, off)));
  EXPECT_FALSE(remarked(std::string(test::bench_profile)));
  EXPECT_FALSE(remarked(bench_with(own, std::string(off) + R"(, "disconnect_also": ["the lead to X4.5"])")))
      << "the test says what else is taken off";
}

// Warm, it gives a voltage of its own; its wires alone do not.
TEST(Judge, A_thermocouple_is_said_to_be_read_while_cold) {
  const auto remarked = [](std::string_view side) {
    std::string profile = bench_with(
        R"("kind": "coil", "name": "Valve coil", "between": ["X4.4", "X4.5"], "metal": "copper", "drive": "dc", "suppression": "none",
      "model": { "kind": "copper", "resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %" })",
        R"("kind": "thermocouple", "name": "Thermocouple", "between": ["X4.4", "X4.5"])");
    const std::string_view test =
        R"("coil": { "component": "coil", "unplug": "X4", "probes": ["X4.4", "X4.5"], "side": "at_board_plug")";
    profile.replace(
        profile.find(test), test.size(),
        fmt::format(
            R"("coil": {{ "component": "coil", "unplug": "X4", "probes": ["X4.4", "X4.5"], "side": "{}",
      "expect": {{ "kind": "closed", "below": "2 Ω" }})",
            side));
    return says(Bench(profile).of("coil", "0.4 Ω").remarks, "holds while it is cold");
  };
  EXPECT_TRUE(remarked("at_board_plug"));
  EXPECT_FALSE(remarked("harness"));
  EXPECT_FALSE(says(Bench().of("coil", "43.3 Ω", "20 °C").remarks, "holds while it is cold"));
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

// One that is reset by hand has opened for a reason, and in a chain it need not be this one.
TEST(Judge, A_limiter_that_is_open_may_have_done_its_work) {
  std::string profile(test::bench_profile);
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
  std::string profile(test::bench_profile);
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
  std::string profile(test::bench_profile);
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

TEST(Judge, A_photocell_reads_by_the_light_on_it) {
  std::string profile(test::bench_profile);
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

// A float switch with a resistor of 4.7 kΩ beside its contact, which is open while the float is up.
TEST(Judge, A_contact_that_closes_badly_beside_its_resistor_is_stuck_closed) {
  std::string profile(test::bench_profile);
  const std::string_view cold = R"("condition": "cold",)";
  profile.replace(profile.find(cold), cold.size(),
                  R"("condition": "hot", "expect": { "kind": "band", "min": "4.5 kΩ", "max": "4.9 kΩ" },)");
  const std::string_view excludes = R"("excludes": ["open", "stuck_open", "high_contact_resistance"])";
  profile.replace(profile.find(excludes), excludes.size(), R"("excludes": ["stuck_closed"])");
  const Bench bench(profile);
  for (const char* shown : {"0.5 Ω", "12 Ω", "500 Ω"})
    EXPECT_TRUE(fits(bench.of("stat", shown), Mode::stuck_closed)) << shown;
  EXPECT_EQ(of_mode(bench.of("stat", "2.0 kΩ"), Mode::stuck_closed), Mode_verdict::excluded);
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
  std::string profile(test::bench_profile);
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
  std::string profile(test::bench_profile);
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
  EXPECT_TRUE(says(Bench(profile).of("band", "OL").remarks, "with a meter of low test voltage"));
  EXPECT_FALSE(says(Bench(profile).of("band", "1.80 kΩ").remarks, "with a meter of low test voltage"));
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
  std::string cold(test::bench_profile);
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

// Of a part that reads otherwise when it is warm, limits without a temperature are taken as they stand, and
// said.
TEST(Judge, Says_that_limits_without_a_temperature_are_taken_for_any) {
  constexpr std::string_view said = "does not say at which temperature its limits hold";
  EXPECT_FALSE(says(Bench().of("band", "42.5 Ω", "40 °C").remarks, said));
  std::string profile(test::bench_profile);
  const std::string_view at = R"(, "at": "20 °C" }, "excludes": ["open"])";
  profile.replace(profile.find(at), at.size(), R"( }, "excludes": ["open"])");
  const Judgement warm = Bench(profile).of("band", "42.5 Ω", "40 °C");
  EXPECT_TRUE(says(warm.remarks, said));
  EXPECT_EQ(warm.service.ohm.high, 46);
}

// Its `states` are those from common to normally open (format.md, Components); what its terminal is called,
// in capital letters too, says that this is the other contact.
TEST(Judge, The_normally_closed_contact_of_a_changeover_reads_the_reverse_of_its_states) {
  std::string profile(test::bench_profile);
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
  std::string profile(test::bench_profile);
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
  std::string profile(test::bench_profile);
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

TEST(Judge, Finds_the_part_that_the_leads_may_be_on) {
  // Too much for the 10 kΩ sensor at 14 °C, right for the 12 kΩ one on the same connector.
  const Judgement found = Bench().of("return", "20.5 kΩ", "14 °C ± 0.5 K");
  EXPECT_NE(found.result, Conformity::within);
  ASSERT_FALSE(found.others.empty());
  EXPECT_EQ(found.others[0].component, "tank");
  EXPECT_EQ(found.others[0].probes, "X4.7 to X4.8");
  // Of one part, other contacts.
  const Judgement pump = Bench().of("pump_cr", "60.2 Ω", "20 °C");
  ASSERT_FALSE(pump.others.empty());
  EXPECT_EQ(pump.others[0].probes, "X5.1 to X5.3");
  EXPECT_TRUE(Bench().of("flow", "15.6 kΩ", "15 °C").others.empty())
      << "a healthy reading asks for no other part";
  // 12 kΩ and B 3435 K at 14 °C and 3 K colder are 21.1 kΩ: 21.6 kΩ is hardly that sensor either.
  EXPECT_TRUE(Bench().of("return", "21.6 kΩ", "14 °C ± 0.5 K").others.empty());
  EXPECT_TRUE(Bench().of("flow", "0.4 Ω", "15 °C").others.empty())
      << "a closed contact reads as a short does";
  const Judgement close = Bench().of("flow", "14.2 kΩ", "15 °C ± 1 K");
  EXPECT_EQ(close.result, Conformity::too_close);
  EXPECT_TRUE(close.others.empty()) << "a sensor of the same curve fits as well, not better";
}

// 43.3 Ω is that of the coil too, whose plug is another.
TEST(Judge, Leads_may_be_on_the_same_plug_only_and_each_pair_of_contacts_is_named_once) {
  const Judgement pump = Bench().of("pump_cr", "43.3 Ω", "20 °C");
  ASSERT_EQ(pump.others.size(), 1u);
  EXPECT_EQ(pump.others[0].test, "pump_cs");
  EXPECT_TRUE(Bench().of("pump_cs", "OL", "20 °C").others.empty())
      << "what is open reads as no leakage to earth does";
  // 45.6 Ω is within what `band` says of the same two contacts.
  EXPECT_TRUE(Bench().of("coil", "45.9 Ω", "20 °C ± 0.2 K").others.empty());
}

// At 22 °C the 10 kΩ sensor has 11.45 kΩ, and that of 12 kΩ 13.5 kΩ; at 28 °C the latter has 10.7 kΩ.
TEST(Judge, The_part_that_a_reading_fits_best_is_named_first) {
  const Judgement found = Bench().of("coil", "11.30 kΩ", "25 °C ± 1 K");
  ASSERT_EQ(found.others.size(), 3u);
  EXPECT_EQ(found.others[0].component, "tank");
  EXPECT_GT(found.others[0].probability, found.others[1].probability);
}

// Without a curve the limits lie around what the twin reads: 15.4 kΩ less 0.3 Ω of leads.
TEST(Judge, Twins_may_differ_by_a_share_or_by_ohms) {
  const auto judged = [](std::string_view most, const char* shown) {
    std::string profile =
        bench_with(R"("largest_difference": "2 K")", fmt::format(R"("largest_difference": "{}")", most));
    Judge_request request = Bench::request("twins", shown);
    request.twin = Bench::reading("15.40 kΩ");
    return Bench(profile).of(request);
  };
  const double ohm = 15399.7;
  const Judgement share = judged("5 %", "15.25 kΩ"), ohms = judged("800 Ω", "15.25 kΩ");
  EXPECT_NEAR(share.service.ohm.low, 0.95 * ohm, 1e-9);
  EXPECT_NEAR(share.service.ohm.high, 1.05 * ohm, 1e-9);
  EXPECT_NEAR(ohms.service.ohm.low, ohm - 800, 1e-9);
  EXPECT_NEAR(ohms.service.ohm.high, ohm + 800, 1e-9);
  for (const char* most : {"5 %", "800 Ω"}) {
    EXPECT_EQ(judged(most, "15.25 kΩ").result, Conformity::within) << most;
    for (const char* apart : {"14.2 kΩ", "16.6 kΩ"})
      EXPECT_EQ(judged(most, apart).result, Conformity::outside) << most << ' ' << apart;
  }
  // Both readings count, each by 0.8 % + 3 · 10 Ω and 0.2 Ω of leads (rectangular: u = a / √3).
  const Contribution* twin = contribution(share, Contributor::twin);
  ASSERT_NE(twin, nullptr);
  const double of_twin = 0.008 * 15400 + 30 + 0.2, of_meter = 0.008 * 15250 + 30;
  EXPECT_NEAR(twin->ohm, of_twin / std::sqrt(3.0), 1e-9);
  EXPECT_NEAR(share.uncertainty, std::sqrt((of_twin * of_twin + of_meter * of_meter + 0.2 * 0.2) / 3), 1e-9);
  EXPECT_NEAR(twin->share, std::pow(twin->ohm / share.uncertainty, 2), 1e-9);
  EXPECT_EQ(judged("+1 K -3 K", "15.25 kΩ").service.words, "at most 3 K from return")
      << "either may be the warmer";
}

TEST(Judge, Twins_cancel_the_thermometer) {
  Judge_request request = Bench::request("twins", "15.25 kΩ");
  request.twin = Bench::reading("15.4 kΩ");
  const Judgement alike = Bench().of(request);
  EXPECT_EQ(alike.result, Conformity::within);
  EXPECT_EQ(alike.service.words, "at most 2 K from return");
  request.twin = Bench::reading("18.5 kΩ");
  const Judgement apart = Bench().of(request);
  EXPECT_EQ(apart.result, Conformity::outside) << "4 K apart";
  EXPECT_TRUE(says(apart.remarks, "which of them is wrong, this does not say"));
  EXPECT_FALSE(says(alike.remarks, "which of them is wrong"));
  for (const auto& [shown, mode] : {std::pair("OL", Mode::open), {"0.3 Ω", Mode::short_}}) {
    request.reading = Bench::reading(shown);
    const Judgement by_itself = Bench().of(request);
    EXPECT_EQ(by_itself.result, Conformity::outside);
    EXPECT_TRUE(
        std::any_of(by_itself.modes.begin(), by_itself.modes.end(), [fits = mode](const auto& answer) {
          return answer.mode == fits && answer.verdict == Mode_verdict::fits;
        }));
    EXPECT_FALSE(says(by_itself.remarks, "which of them is wrong")) << shown;
  }
  request.reading = Bench::reading("15.25 kΩ");
  // 15.4 kΩ less the leads may be off by 0.8 % + 3 · 10 Ω + 0.2 Ω and by half of its last digit: in kelvin by
  // dR/dT = -R B / T².
  const Contribution* twin = contribution(alike, Contributor::twin);
  ASSERT_NE(twin, nullptr);
  const double ohm = 15399.7, kelvin = 1 / (1 / 298.15 + std::log(ohm / 10000) / 3977);
  EXPECT_NEAR(twin->half_width, (0.008 * 15400 + 30 + 0.2 + 50) * kelvin * kelvin / (3977 * ohm), 1e-5);
  const Verdict alone = Bench().verdict(std::vector{Bench::request("twins", "15.25 kΩ")});
  EXPECT_TRUE(alone.judgements.empty());
  EXPECT_TRUE(says(alone.problems, "--twin")) << "what is missing is said";
}

TEST(Judge, A_sensor_that_reads_a_few_ohms_beside_its_twin_is_shorted) {
  Judge_request request = Bench::request("twins", "5.0 Ω");
  request.twin = Bench::reading("15.4 kΩ");
  EXPECT_TRUE(fits(Bench().of(request), Mode::short_));
}

// The twin was read by the same meter, through the same leads: it leaves at least as much open as the meter.
TEST(Judge, The_twin_stands_in_the_budget_by_its_share) {
  std::string profile(test::bench_profile);
  const std::string_view kelvins = R"("largest_difference": "2 K")";
  const std::size_t at = profile.find(kelvins);
  ASSERT_NE(at, std::string::npos);
  profile.replace(at, kelvins.size(), R"("largest_difference": "5 %")");
  Judge_request request = Bench::request("twins", "15.25 kΩ");
  request.twin = Bench::reading("15.4 kΩ");
  const Judgement found = Bench(profile).of(request);
  ASSERT_EQ(found.budget.size(), 3U);
  EXPECT_EQ(found.budget[0].from, Contributor::twin);
  EXPECT_EQ(found.budget[1].from, Contributor::meter);
  EXPECT_EQ(found.budget[2].from, Contributor::leads);
}

TEST(Judge, Plug_and_part_tell_harness_from_part) {
  const auto judged = [](const char* plug, const char* part) {
    Judge_request request = Bench::request("coil", plug, "20 °C");
    request.at_part = Bench::reading(part);
    return Bench().of(request);
  };
  EXPECT_EQ(judged("OL", "43.2 Ω").harness->mode, Mode::open);
  EXPECT_EQ(judged("OL", "43.2 Ω").harness->result, Conformity::outside);
  EXPECT_EQ(of_mode(judged("OL", "43.2 Ω"), Mode::open), Mode_verdict::excluded) << "of the part";
  EXPECT_FALSE(fits(judged("60 Ω", "43.2 Ω"), Mode::drift_high)) << "though nobody asked";
  EXPECT_FALSE(judged("OL", "OL").harness->mode) << "then it is the part";
  EXPECT_TRUE(fits(judged("OL", "OL"), Mode::open));
  EXPECT_EQ(judged("43.4 Ω", "43.2 Ω").harness->result, Conformity::within);
  EXPECT_EQ(judged("49.8 Ω", "43.2 Ω").harness->mode, Mode::high_contact_resistance);
  EXPECT_EQ(judged("0.5 Ω", "43.2 Ω").harness->mode, Mode::short_);
  // An eighth of 18369.78 Ω - 13780.95 Ω (12 °C and 18 °C) is 573.604 Ω.
  Judge_request sensor = Bench::request("flow", "15.8 kΩ", "15 °C");
  sensor.at_part = Bench::reading("15.7 kΩ");
  EXPECT_NE(Bench().of(sensor).harness->words.find("at most 573.7 Ω would matter"), std::string::npos)
      << "rounded outward";
  // A healthy reading at the plug does not hide a bad harness.
  EXPECT_EQ(judged("44.9 Ω", "41.9 Ω").result, Conformity::outside);
  // Without a temperature the part is judged all over the room, as the plug is.
  Judge_request room = Bench::request("flow", "15.25 kΩ");
  room.at_part = Bench::reading("15.25 kΩ");
  EXPECT_EQ(Bench().of(room).harness.value().result, Conformity::within);
  // 1.3 Ω and 2.3 Ω less the leads: a closed contact has at most 1 Ω (common practice).
  EXPECT_EQ(judged("1.3 Ω", "43.2 Ω").harness->mode, Mode::short_);
  EXPECT_EQ(judged("2.3 Ω", "43.2 Ω").harness->mode, Mode::wet_or_corroded);
  for (const auto& [plug, part, words] :
       {std::tuple{"49.8 Ω", "43.2 Ω", "the plug reads 6.6 Ω more than the part"},
        {"0.5 Ω", "43.2 Ω",
         "the plug reads 42.7 Ω less than the part: the harness has a path beside the part, a short"},
        {"2.3 Ω", "43.2 Ω", "damp or chafed"},
        {"43.4 Ω", "43.2 Ω", "the part itself is within its limits"},
        {"60 Ω", "60 Ω", "the part itself is outside its limits"}})
    EXPECT_NE(judged(plug, part).harness->words.find(words), std::string::npos)
        << judged(plug, part).harness->words;
}

TEST(Judge, What_a_response_should_have_been_is_said) {
  Judge_request request = Bench::request("flow", "10.00 kΩ", "25 °C ± 1 K");
  const auto words = [&](const char* after) {
    request.after = Bench::reading(after);
    return Bench().of(request).response.value().words;
  };
  EXPECT_EQ(words("8.00 kΩ").find("fell from 10 kΩ to 8 kΩ as it must"), 0u) << words("8.00 kΩ");
  EXPECT_EQ(words("12.00 kΩ").find("went from 10 kΩ to 12 kΩ, where it must have fallen"), 0u);
  EXPECT_NE(words("10.00 kΩ").find("that it fell); warm it longer and read again"), std::string::npos);
}

// Plug and part are read by one meter, so that of 0.8 % + 3 counts its share of the lesser reading cancels on
// one range, as the leads do; on two ranges nothing of the meter does (rectangular: u = a / √3).
// 12.55 kΩ is healthy at 20 °C, and OL on a range that ends at 6 kΩ.
TEST(Judge, An_OL_on_a_range_that_ends_below_the_other_reading_says_nothing_of_the_harness) {
  const Bench bench;
  const auto judged = [&](const char* plug, const char* part) {
    Judge_request request = Bench::request("flow", plug, "20 °C ± 0.5 K");
    std::string problem;
    request.at_part = parse_reading(part, problem);
    return bench.of(request);
  };
  for (const auto& [plug, part] :
       {std::pair{"12.5 kΩ", "OL 6 kΩ"}, {"OL 6 kΩ", "12.5 kΩ"}, {"OL 6 kΩ", "OL 6 kΩ"}, {"OL", "OL 6 kΩ"}}) {
    const Judgement found = judged(plug, part);
    EXPECT_EQ(found.harness->result, Conformity::too_close) << plug << " and " << part;
    EXPECT_FALSE(found.harness->mode) << plug << " and " << part;
    EXPECT_NE(found.harness->words.find("says nothing of the harness"), std::string::npos)
        << found.harness->words;
  }
  EXPECT_EQ(judged("OL 60 kΩ", "12.5 kΩ").harness->mode, Mode::open);
  EXPECT_EQ(judged("12.5 kΩ", "OL 60 kΩ").harness->mode, Mode::wet_or_corroded);
  EXPECT_EQ(judged("0.4 Ω", "OL 60 kΩ").harness->mode, Mode::short_);
}

// At least 2 MΩ are asked for: what is above differs by damp and by the day.
TEST(Judge, What_both_plug_and_part_read_above_an_open_limit_is_no_fault_of_the_harness) {
  const Bench bench;
  const auto judged = [&](const char* plug, const char* part) {
    Judge_request request = Bench::request("pump_earth", plug, "");
    std::string problem;
    request.at_part = parse_reading(part, problem);
    return bench.of(request);
  };
  for (const auto& [plug, part] : {std::pair{"15.0 MΩ", "16.5 MΩ"},
                                   {"16.5 MΩ", "15.0 MΩ"},
                                   {"15.0 MΩ", "OL"},
                                   {"OL", "15.0 MΩ"},
                                   {"OL", "OL"}})
    EXPECT_EQ(judged(plug, part).result, Conformity::within) << plug << " and " << part;
  EXPECT_EQ(judged("300 kΩ", "16.5 MΩ").harness->mode, Mode::wet_or_corroded);
  EXPECT_EQ(judged("300 kΩ", "290 kΩ").harness->result, Conformity::within) << "it is the part";
}

TEST(Judge, Of_plug_and_part_what_is_off_alike_cancels) {
  const auto uncertainty = [](const char* plug, const char* part) {
    Judge_request request = Bench::request("flow", plug, "20 °C");
    request.at_part = Bench::reading(part);
    return Bench().of(request).harness.value().uncertainty;
  };
  const double root = std::sqrt(3.0);
  EXPECT_NEAR(uncertainty("49.8 Ω", "43.2 Ω"),
              std::hypot(0.008 * 49.8 + 0.3 - 0.008 * 42.9, 0.008 * 43.2 + 0.3 - 0.008 * 42.9) / root, 1e-9);
  // Of what is written to the ohm half an ohm each besides.
  EXPECT_NEAR(uncertainty("50 Ω", "43 Ω"),
              std::sqrt(std::pow(0.008 * 50 + 0.3 - 0.008 * 42.7, 2) +
                        std::pow(0.008 * 43 + 0.3 - 0.008 * 42.7, 2) + 2 * 0.25) /
                  root,
              1e-9);
  EXPECT_NEAR(uncertainty("610 Ω", "590.0 Ω"), std::hypot(0.008 * 610 + 3, 0.008 * 590 + 0.3) / root, 1e-9);
}

// 10 kΩ at 25 °C, B 3977 K: 12.55 kΩ at 20 °C is healthy at the plug.
TEST(Judge, Nothing_is_excluded_against_the_reading_on_the_part) {
  const auto with = [](auto given) {
    Judge_request request = Bench::request("flow", "12.5 kΩ", "20 °C");
    given(request);
    const Judgement found = Bench().of(request);
    EXPECT_EQ(found.service.result, Conformity::within);
    EXPECT_EQ(found.result, Conformity::outside);
    return found;
  };
  const auto on_part = [&](const char* shown) {
    return with([&](Judge_request& request) { request.at_part = Bench::reading(shown); });
  };
  const Judgement high = on_part("300 kΩ"), open = on_part("OL");
  EXPECT_EQ(of_mode(high, Mode::drift_high), Mode_verdict::undecided);
  EXPECT_EQ(of_mode(high, Mode::short_), Mode_verdict::excluded);
  EXPECT_EQ(of_mode(open, Mode::open), Mode_verdict::undecided);
  EXPECT_EQ(of_mode(open, Mode::drift_low), Mode_verdict::excluded);
  const Judgement rose = with([](Judge_request& request) { request.after = Bench::reading("13.5 kΩ"); });
  for (const Mode mode : {Mode::open, Mode::short_, Mode::drift_high, Mode::drift_low})
    EXPECT_EQ(of_mode(rose, mode), Mode_verdict::undecided) << word_of(mode);
}

TEST(Judge, Warming_a_sensor_lowers_its_reading) {
  const auto after = [](const char* shown, const char* temperature = "") {
    Judge_request request = Bench::request("flow", "15.25 kΩ", "15 °C");
    request.after = Bench::reading(shown);
    std::string problem;
    if (*temperature) request.after_temperature = parse_part_temperature(temperature, problem);
    return Bench().of(request).response.value();
  };
  const Response_verdict fell = after("9.5 kΩ");
  EXPECT_EQ(fell.result, Conformity::within);
  ASSERT_TRUE(fell.warmed_by);
  // B = 3977 K: 1/T2 = 1/T1 + ln(R2/R1)/B.
  const double before = 1 / (1 / 298.15 + std::log(1.52497) / 3977),
               now = 1 / (1 / 298.15 + std::log(0.94997) / 3977);
  EXPECT_NEAR(*fell.warmed_by, now - before, 0.01);
  EXPECT_EQ(after("15.24 kΩ").result, Conformity::too_close) << "less than the meter tells";
  EXPECT_EQ(after("19 kΩ").result, Conformity::outside);
  EXPECT_EQ(after("OL").result, Conformity::outside) << "the path opened";
  EXPECT_EQ(after("9.5 kΩ", "26 °C").result, Conformity::within);
  EXPECT_EQ(after("9.5 kΩ", "50 °C").result, Conformity::outside) << "3.6 kΩ is expected there";
  // 10 kΩ exp(3977 K (1/283.15 K - 1/298.15 K)) = 20.27 kΩ: who lets it cool sees it rise.
  EXPECT_EQ(after("20.3 kΩ", "10 °C").result, Conformity::within);
  EXPECT_EQ(after("9.5 kΩ", "10 °C").result, Conformity::outside);
  EXPECT_EQ(after("OL 20 kΩ").result, Conformity::outside) << "it rose";
  EXPECT_EQ(after("OL 6 kΩ").result, Conformity::too_close) << "the range was changed";
}

// A silicon sensor of 1.95 kΩ leaves the range of 2 kΩ when it is warmed.
TEST(Judge, A_sensor_that_rises_out_of_the_range_is_read_on_a_higher_one) {
  const Bench bench(bench_with(R"("falls_when_warmed")", R"("rises_when_warmed")"));
  Judge_request request = Bench::request("flow", "15.25 kΩ", "15 °C");
  request.after = Bench::reading("OL 20 kΩ");
  EXPECT_EQ(bench.of(request).response.value().result, Conformity::too_close);
  EXPECT_NE(bench.of(request).response->words.find("read it again on a higher one"), std::string::npos);
  request.after = Bench::reading("OL 6 MΩ");
  EXPECT_EQ(bench.of(request).response.value().result, Conformity::outside);
}

// 10 kΩ at 25 °C, B 3977 K: 12.55 kΩ at 20 °C. A sensor that rises where it must fall does not answer,
// whatever was seen; and one that was seen not to answer did not, whatever was written behind it.
TEST(Judge, Of_what_was_read_after_and_what_was_seen_the_worse_counts) {
  const auto found = [](const char* after, bool answered) {
    Judge_request request = Bench::request("flow", "12.5 kΩ", "20 °C");
    request.after = Bench::reading(after);
    request.answered = answered;
    return Bench().of(request);
  };
  for (const Judgement& contrary : {found("13 kΩ", true), found("11 kΩ", false)}) {
    EXPECT_EQ(contrary.service.result, Conformity::within);
    EXPECT_EQ(contrary.result, Conformity::outside);
    EXPECT_EQ(of_mode(contrary, Mode::drift_high), Mode_verdict::undecided);
    EXPECT_TRUE(says(contrary.remarks, "contradict each other: the worse of the two counts"));
  }
  const Judgement alike = found("11 kΩ", true);
  EXPECT_EQ(alike.result, Conformity::within);
  EXPECT_FALSE(says(alike.remarks, "contradict"));
  EXPECT_EQ(found("12.49 kΩ", true).result, Conformity::too_close) << "less than the meter tells";
}

TEST(Judge, A_test_without_a_response_condemns_nothing_for_its_absence) {
  for (const bool answered : {true, false}) {
    Judge_request request = Bench::request("coil", "43.3 Ω", "20 °C");
    request.answered = answered;
    const Judgement found = Bench().of(request);
    EXPECT_EQ(found.result, Conformity::within);
    EXPECT_EQ(of_mode(found, Mode::open), Mode_verdict::excluded);
    EXPECT_TRUE(says(found.remarks, "asks for no response: whether it answers is not judged"));
  }
}

// 43 Ω lies within both bands; with the leads exchanged another part of the path is read.
TEST(Judge, One_direction_of_two_is_not_within) {
  const Bench bench(
      bench_with(R"("kind": "band", "min": "40 Ω", "max": "46 Ω", "at": "20 °C")",
                 R"("kind": "both_directions", "min": "40 Ω", "max": "46 Ω", "reverse_min": "1 MΩ")"));
  Judge_request request = Bench::request("band", "43.3 Ω", "20 °C");
  const Judgement half = bench.of(request);
  EXPECT_EQ(half.service.result, Conformity::within);
  EXPECT_EQ(half.result, Conformity::too_close);
  EXPECT_TRUE(says(half.settle, "exchange the leads, and give that reading with --reverse"));
  request.reverse = Bench::reading("OL");
  EXPECT_EQ(bench.of(request).result, Conformity::within);
  EXPECT_EQ(of_mode(bench.of(request), Mode::open), Mode_verdict::excluded);
  EXPECT_TRUE(bench.of(request).settle.empty());
  request.reverse = Bench::reading("43.3 Ω");
  EXPECT_EQ(bench.of(request).result, Conformity::outside);
  EXPECT_EQ(of_mode(bench.of(request), Mode::open), Mode_verdict::undecided);
}

// Ohm's law with a diode in the path: which way conducts is a matter of the leads, or of the meter's
// polarity.
TEST(Judge, Two_readings_that_fit_exchanged_condemn_nothing) {
  const Bench bench(
      bench_with(R"("kind": "band", "min": "40 Ω", "max": "46 Ω", "at": "20 °C")",
                 R"("kind": "both_directions", "min": "40 Ω", "max": "46 Ω", "reverse_min": "1 MΩ")"));
  Judge_request request = Bench::request("band", "OL", "20 °C");
  EXPECT_EQ(bench.of(request).result, Conformity::outside);
  EXPECT_TRUE(says(bench.of(request).remarks, "exchange the leads, and give that reading with --reverse"));
  request.reverse = Bench::reading("OL");
  EXPECT_EQ(bench.of(request).result, Conformity::outside) << "open both ways";
  EXPECT_EQ(of_mode(bench.of(request), Mode::open), Mode_verdict::fits);
  request.reverse = Bench::reading("43.3 Ω");
  const Judgement exchanged = bench.of(request);
  EXPECT_EQ(exchanged.result, Conformity::too_close);
  EXPECT_EQ(of_mode(exchanged, Mode::open), Mode_verdict::undecided);
  EXPECT_TRUE(says(exchanged.settle, "each reading is what the other should be"));
}

// 130 kΩ is no wire: the capacitor charges still, or leaks.
TEST(Judge, What_is_rising_still_is_no_short) {
  std::string profile = bench_with(R"("not_short")", R"("rises_to_open")");
  const std::string_view old = R"("above": "20 Ω")";
  profile.replace(profile.find(old), old.size(), R"("above": "300 kΩ")");
  Judge_request request = Bench::request("fan", "120 kΩ");
  request.after = Bench::reading("130 kΩ");
  const Judgement rising = Bench(profile).of(request);
  EXPECT_EQ(rising.result, Conformity::outside);
  EXPECT_EQ(of_mode(rising, Mode::short_), Mode_verdict::undecided);
  EXPECT_TRUE(says(rising.remarks, "it may be rising still"));
  request.reading = request.after.emplace(Bench::reading("0.5 Ω"));
  EXPECT_TRUE(fits(Bench(profile).of(request), Mode::short_));
}

// A capacitor charges from the meter: low at first, and where it ends is what the limit is for.
TEST(Judge, What_rises_is_within_where_it_ends) {
  std::string profile = bench_with(R"("not_short")", R"("rises_to_open")");
  const std::string_view old = R"("above": "20 Ω" }, "excludes": [)";
  profile.replace(profile.find(old), old.size(), std::string(old) + R"("open", )");
  const Bench bench(profile);
  Judge_request request = Bench::request("fan", "OL");
  EXPECT_EQ(bench.of(request).result, Conformity::too_close) << "an open one reads so too";
  EXPECT_TRUE(says(bench.of(request).settle, "--after"));
  request.after = Bench::reading("OL");
  EXPECT_EQ(bench.of(request).result, Conformity::too_close) << "OL from the start";
  request.reading = Bench::reading("5.0 Ω");
  const Judgement rose = bench.of(request);
  EXPECT_EQ(rose.result, Conformity::within);
  EXPECT_EQ(rose.response->words, "rose from 4.7 Ω to OL, as it must");
  for (const Mode mode : {Mode::open, Mode::short_})
    EXPECT_EQ(of_mode(rose, mode), Mode_verdict::excluded) << word_of(mode);
  request.after = Bench::reading("5.0 Ω");
  const Judgement stays = bench.of(request);
  EXPECT_EQ(stays.result, Conformity::outside) << "a short stays one";
  EXPECT_NE(stays.response->words.find("hold the leads on it longer"), std::string::npos)
      << stays.response->words;
  EXPECT_EQ(stays.response->words.find("warm"), std::string::npos) << stays.response->words;
}

// A meter of 6000 counts shows 0.1 Ω at least: "12.5 mΩ" was written for 12.5 MΩ, or 12.5 Ω.
TEST(Judge, What_no_meter_shows_is_asked_for_its_unit) {
  const Bench bench;
  EXPECT_TRUE(says(bench.of("flow", "12.5 mΩ", "20 °C").remarks, "look at the unit on its display"));
  for (const char* shown : {"0 Ω", "0.1 Ω", "12.5 kΩ", "OL"})
    EXPECT_FALSE(says(bench.of("flow", shown, "20 °C").remarks, "look at the unit on its display")) << shown;
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

// Winding sums: common to start and common to run make start to run (published example 4 + 11 = 15, here
// times 4); the sets 15/20/25 and 6/7/8 of motor_windings_examples.csv break the sum, and obey the triangle.
TEST(Judge, The_windings_of_a_set_are_compared) {
  const auto set = [](const char* cs, const char* cr, const char* sr) {
    Bench bench;
    std::string problem;
    bench.means.leads = parse_leads("0 ± 0", problem);
    return bench.verdict(std::vector{Bench::request("pump_cs", cs, "20 °C"),
                                     Bench::request("pump_cr", cr, "20 °C"),
                                     Bench::request("pump_sr", sr, "20 °C")});
  };
  const Verdict good = set("44.0 Ω", "16.0 Ω", "60.0 Ω");
  ASSERT_EQ(good.sets.size(), 1u);
  EXPECT_EQ(good.sets[0].result, Conformity::within) << good.sets[0].words;
  EXPECT_EQ(good.result(), Conformity::within);
  const Verdict short_of_sum = set("20 Ω", "15 Ω", "25 Ω");
  EXPECT_EQ(short_of_sum.sets.at(0).result, Conformity::outside);
  EXPECT_NE(short_of_sum.sets[0].words.find("should add up"), std::string::npos)
      << short_of_sum.sets[0].words;
  EXPECT_NE(set("44 Ω", "16 Ω", "75 Ω").sets.at(0).words.find("no winding reads more directly"),
            std::string::npos);
  // Nor is it open from end to end where both halves conduct: a lead was off its contact. From one end on it
  // may be.
  const Verdict off = set("44.0 Ω", "16.0 Ω", "OL");
  EXPECT_EQ(off.sets.at(0).result, Conformity::outside);
  EXPECT_NE(off.sets[0].words.find("reads OL, pump_cs and pump_cr together 60 Ω: no winding"),
            std::string::npos)
      << off.sets[0].words;
  EXPECT_TRUE(set("44.0 Ω", "OL", "OL").sets.empty());
}

std::string pump_of(std::string_view start, std::string_view run, std::string_view both) {
  const auto pairs = [](std::string_view a, std::string_view b, std::string_view c) {
    return fmt::format(R"("pairs": [
        {{ "from": "common", "to": "start", "resistance": "{}" }}, {{ "from": "common", "to": "run", "resistance": "{}" }},
        {{ "from": "start", "to": "run", "resistance": "{}" }}])",
                       a, b, c);
  };
  return bench_with(pairs("44 Ω", "16 Ω", "60 Ω"), pairs(start, run, both));
}

TEST(Judge, A_pair_of_windings_is_one_whichever_lead_is_where) {
  const Judgement turned = Bench(bench_with(R"("probes": ["X5.2", "X5.3"])", R"("probes": ["X5.3", "X5.2"])"))
                               .of("pump_cr", "16.3 Ω", "20 °C");
  EXPECT_EQ(turned.result, Conformity::within);
  EXPECT_NEAR(turned.nominal.value(), 16, 1e-9);
}

// Three alike, of 100 Ω: by 5 % at most (common practice, no source). What the leads are off by cancels.
TEST(Judge, Windings_that_are_alike_read_alike) {
  const auto set = [](const char* least, double leads, const char* third = "99.50 Ω") {
    Bench bench(pump_of("100 Ω", "100 Ω", "100 Ω"));
    std::string problem;
    bench.means.meter = parse_meter("0.05 % + 1 of 60000", problem);
    bench.means.leads = Leads{leads, leads};
    const Verdict found = bench.verdict(std::vector{Bench::request("pump_cs", "100.00 Ω", "20 °C"),
                                                    Bench::request("pump_cr", least, "20 °C"),
                                                    Bench::request("pump_sr", third, "20 °C")});
    EXPECT_EQ(found.sets.size(), 1u);
    return found.sets.at(0).result;
  };
  EXPECT_EQ(set("95.20 Ω", 0), Conformity::within);
  EXPECT_EQ(set("94.80 Ω", 0), Conformity::outside);
  EXPECT_EQ(set("95.20 Ω", 1), Conformity::within);
  EXPECT_EQ(set("95.00 Ω", 0), Conformity::too_close);
  EXPECT_EQ(set("100.00 Ω", 0, "100.00 Ω"), Conformity::within); // to the last digit, too
}

// 44 Ω and 16 Ω do not make 52 Ω, as other resistors lie beside them: then only the triangle holds.
TEST(Judge, Windings_that_do_not_add_up_need_not) {
  const auto set = [](const char* both) {
    Bench bench(pump_of("44 Ω", "16 Ω", "52 Ω"));
    std::string problem;
    bench.means.meter = parse_meter("0.05 % + 1 of 60000", problem);
    bench.means.leads = parse_leads("0 ± 0", problem);
    return bench
        .verdict(std::vector{Bench::request("pump_cs", "44.00 Ω", "20 °C"),
                             Bench::request("pump_cr", "16.00 Ω", "20 °C"),
                             Bench::request("pump_sr", both, "20 °C")})
        .sets;
  };
  EXPECT_TRUE(set("52.00 Ω").empty());
  EXPECT_TRUE(set("59.90 Ω").empty());
  ASSERT_EQ(set("60.50 Ω").size(), 1u);
  EXPECT_EQ(set("60.50 Ω")[0].result, Conformity::outside);
}

TEST(Judge, Only_what_lies_between_the_same_ends_is_compared) {
  // Read twice, a winding is compared with no other.
  const Verdict twice = Bench(pump_of("44 Ω", "16 Ω", "60 Ω"))
                            .verdict(std::vector{Bench::request("pump_cs", "44.3 Ω", "20 °C"),
                                                 Bench::request("pump_cs", "40.3 Ω", "20 °C")});
  EXPECT_TRUE(twice.sets.empty());
  // Three windings on one common make no triangle.
  std::string star = pump_of("44 Ω", "16 Ω", "80 Ω");
  for (const auto& [old, by] : {std::pair{R"("run": "X5.3" })", R"("run": "X5.3", "third": "X5.4" })"},
                                {R"("from": "start", "to": "run")", R"("from": "common", "to": "third")"},
                                {R"("probes": ["X5.1", "X5.3"])", R"("probes": ["X5.2", "X5.4"])"}})
    star.replace(star.find(old), std::string_view(old).size(), by);
  const Verdict found = Bench(star).verdict(std::vector{Bench::request("pump_cs", "44.3 Ω", "20 °C"),
                                                        Bench::request("pump_cr", "16.3 Ω", "20 °C"),
                                                        Bench::request("pump_sr", "80.3 Ω", "20 °C")});
  EXPECT_EQ(found.judgements.size(), 3u);
  EXPECT_TRUE(found.sets.empty());
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
TEST(Judge, A_band_that_no_model_carries_holds_where_it_is_stated) {
  const Bench bench(bench_with(
      R"("model": { "kind": "copper", "resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %" })",
      R"("model": { "kind": "table", "rows": [{ "at": "60 °C", "nominal": "50 Ω" }, { "at": "90 °C", "nominal": "55 Ω" }] })"));
  const Judgement here = bench.of("band", "43.3 Ω", "20.3 °C ± 0 K");
  EXPECT_EQ(here.service.ohm.low, 40);
  EXPECT_EQ(here.result, Conformity::within);
  EXPECT_FALSE(bench.verdict(std::vector{Bench::request("band", "43.3 Ω", "22 °C ± 0 K")}).problems.empty());
}

// Two coils in parallel: the limits are the test's, their course over temperature copper's, and what one coil
// is made within says nothing here.
TEST(Judge, A_path_of_several_parts_is_not_judged_as_one) {
  std::string profile = bench_with(R"("min": "40 Ω", "max": "46 Ω")", R"("min": "20 Ω", "max": "23 Ω")");
  const Judgement found = Bench(profile).of("band", "21.8 Ω", "40 °C");
  EXPECT_NEAR(found.service.ohm.low, 20 * (234.5 + 40) / (234.5 + 20), 1e-9);
  EXPECT_FALSE(found.manufacturing);
  EXPECT_NEAR(found.nominal.value(), 21.5 * (234.5 + 40) / (234.5 + 20), 1e-9) << "of both";
  const auto thermometer =
      std::find_if(found.budget.begin(), found.budget.end(),
                   [](const Contribution& one) { return one.from == Contributor::thermometer; });
  ASSERT_NE(thermometer, found.budget.end());
  EXPECT_NEAR(thermometer->sensitivity, 21.5 / (234.5 + 20), 1e-6);
  EXPECT_TRUE(Bench().of("band", "43.3 Ω", "20 °C").manufacturing);
  // Nor where a circuit holds the coil, though its own band would do.
  const Bench circuit(bench_with(R"("tests": {)", R"("circuits": { "valve": { "between": ["X4.4", "X4.5"],
    "arrangement": "parallel", "elements": [{ "kind": "component", "component": "coil" },
                                            { "kind": "resistor", "resistance": "10 kΩ" }] } },
  "tests": {)"));
  EXPECT_FALSE(circuit.of("band", "43.3 Ω", "20 °C").manufacturing);
  // Too high or too low, it may be any of them.
  for (const char* shown : {"86 Ω", "20 Ω", "0.5 Ω"}) {
    EXPECT_TRUE(says(circuit.of("band", shown, "20 °C").remarks, "read each by itself")) << shown;
    EXPECT_FALSE(says(Bench().of("band", shown, "20 °C").remarks, "read each by itself")) << shown;
  }
  EXPECT_FALSE(says(circuit.of("band", "43.3 Ω", "20 °C").remarks, "read each by itself"));
}

// Of a thermostat and a cut-out in one chain the thermostat is closed, and the cut-out may be what is open:
// no word of the harness.
TEST(Judge, A_reading_on_one_part_of_several_tells_nothing_of_the_harness) {
  const std::string chain =
      bench_with(R"("tests": {)", R"("circuits": { "chain": { "between": ["X4.6", "X4.2"],
    "arrangement": "series", "elements": [{ "kind": "component", "component": "stat" },
                                          { "kind": "component", "component": "coil" }] } },
  "tests": {)");
  Judge_request request = Bench::request("stat", "OL");
  request.at_part = Bench::reading("0.4 Ω");
  const Judgement several = Bench(chain).of(request), alone = Bench().of(request);
  EXPECT_FALSE(several.harness);
  EXPECT_TRUE(fits(several, Mode::stuck_open));
  EXPECT_TRUE(says(several.remarks, "it does not say of which of them it is"));
  EXPECT_FALSE(says(several.remarks, "several parts lie in this path: open"));
  ASSERT_TRUE(alone.harness);
  EXPECT_EQ(alone.harness->mode, Mode::open);
  // A chain that is closed while the thermostat in it is open is bridged, or the two readings were exchanged.
  request.reading = Bench::reading("0.4 Ω");
  request.at_part = Bench::reading("OL");
  const Judgement bridged = Bench(chain).of(request);
  EXPECT_EQ(bridged.result, Conformity::outside);
  ASSERT_TRUE(bridged.harness);
  EXPECT_NE(bridged.harness->words.find("a path that the part does not have"), std::string::npos);
  // Side by side it is the other way round.
  std::string parallel = chain;
  parallel.replace(parallel.find(R"("series")"), 8, R"("parallel")");
  EXPECT_FALSE(Bench(parallel).of(request).harness);
  std::swap(request.reading, *request.at_part);
  ASSERT_TRUE(Bench(parallel).of(request).harness);
}

// A sensor of 10 kΩ with 5 kΩ in series: what both read is no temperature on the curve of one.
TEST(Judge, What_a_sensor_reads_with_another_part_means_no_temperature) {
  const Bench bench(bench_with(
      R"("response": { "kind": "falls_when_warmed" },)",
      R"("expect": { "kind": "band", "nominal": "15.0 kΩ", "tolerance": "5 %", "at": "25 °C" },)"));
  const Judgement healthy = bench.of("flow", "15.0 kΩ", "25 °C ± 0.5 K");
  EXPECT_EQ(healthy.result, Conformity::within);
  EXPECT_FALSE(healthy.means);
  EXPECT_FALSE(says(bench.of("flow", "20.0 kΩ", "25 °C").remarks, "a healthy one would read so at"));
}

// Where the turbine stopped, its magnet holds the contact or does not: only that it changes says anything.
TEST(Judge, A_reed_that_rests_in_either_state_is_judged_by_its_change) {
  const Bench bench(test::reed_profile());
  const auto read = [&](std::string_view first, std::string_view after, std::string_view part = {}) {
    Judge_request request = Bench::request("stat", first);
    if (!after.empty()) request.after = Bench::reading(after);
    if (!part.empty()) request.at_part = Bench::reading(part);
    return bench.of(request);
  };
  for (const auto& [first, after] : {std::pair{"OL", "0.5 Ω"}, std::pair{"0.5 Ω", "OL"}}) {
    const Judgement changed = read(first, after);
    EXPECT_EQ(changed.result, Conformity::within) << first;
    EXPECT_EQ(of_mode(changed, Mode::stuck_open), Mode_verdict::excluded) << first;
    EXPECT_EQ(of_mode(changed, Mode::stuck_closed), Mode_verdict::excluded) << first;
  }
  for (const char* first : {"OL", "0.5 Ω"}) {
    EXPECT_EQ(read(first, {}).result, Conformity::too_close) << first;
    EXPECT_TRUE(says(read(first, {}).settle, "--after")) << first;
    EXPECT_EQ(read(first, first).result, Conformity::outside) << first;
  }
  EXPECT_EQ(of_mode(read("OL", {}), Mode::stuck_open), Mode_verdict::undecided);
  EXPECT_EQ(of_mode(read("OL", {}), Mode::stuck_closed), Mode_verdict::excluded);
  EXPECT_EQ(of_mode(read("OL", "OL"), Mode::stuck_open), Mode_verdict::fits);
  EXPECT_FALSE(fits(read("OL", "OL"), Mode::stuck_closed));
  EXPECT_EQ(of_mode(read("0.5 Ω", "0.5 Ω"), Mode::stuck_closed), Mode_verdict::fits) << "it stayed so";
  EXPECT_EQ(of_mode(read("0.5 Ω", "0.5 Ω"), Mode::stuck_open), Mode_verdict::excluded);
  // What its limit of 2 Ω calls closed is closed, with 0.3 Ω of leads.
  EXPECT_EQ(read("1.6 Ω", "OL").result, Conformity::within);
  EXPECT_EQ(read("OL", "1.6 Ω").result, Conformity::within);
  EXPECT_EQ(read("30 Ω", "OL").result, Conformity::outside);
  // The magnet may have moved between plug and part: that is nothing of the harness, and nothing of the part.
  for (const auto& [first, after, part, result] : {std::tuple{"OL", "", "OL", Conformity::too_close},
                                                   {"OL", "", "0.5 Ω", Conformity::too_close},
                                                   {"0.5 Ω", "", "OL", Conformity::too_close},
                                                   {"OL", "0.5 Ω", "OL", Conformity::within},
                                                   {"0.5 Ω", "OL", "OL", Conformity::within}}) {
    const Judgement both = read(first, after, part);
    EXPECT_EQ(both.result, result) << first << after << part;
    EXPECT_FALSE(both.harness) << first << after << part;
    EXPECT_TRUE(says(both.remarks, "plug and part are not compared")) << first << after << part;
  }
  // Unless it was seen not to change at the plug.
  EXPECT_EQ(read("OL", "OL", "0.5 Ω").harness.value().mode, Mode::open);
  EXPECT_EQ(read("0.5 Ω", "OL", "0.5 Ω").harness.value().result, Conformity::within);
  // A burnt contact is neither, wherever the magnet rests.
  EXPECT_EQ(read("30 Ω", {}).result, Conformity::outside);
  EXPECT_EQ(read("OL", "30 Ω").result, Conformity::outside);
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
  std::string profile(test::bench_profile);
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

TEST(Judge, What_the_profile_notes_of_a_test_is_said) {
  std::string profile(test::bench_profile);
  const std::string_view old = R"("coil": { "component": "coil",)";
  profile.replace(profile.find(old), old.size(),
                  std::string(old) + R"( "note": "twice: one of two is open",)");
  EXPECT_TRUE(says(Bench(profile).of("coil", "86 Ω", "20 °C").remarks,
                   R"(the profile notes of this test: "twice: one of two is open")"));
  EXPECT_FALSE(says(Bench().of("coil", "86 Ω", "20 °C").remarks, "notes of this test"));
  // What stands behind may be what matters: a note is a caution too.
  const std::string whole =
      "a damp element may recover when it is dried; below 2 MΩ it is renewed, never put up with";
  profile.replace(profile.find("twice: one of two is open"),
                  std::string_view("twice: one of two is open").size(), whole);
  EXPECT_TRUE(says(Bench(profile).of("coil", "86 Ω", "20 °C").remarks, '"' + whole + '"'));
  // So is what it notes of the part: a wet sleeve reads low, and dries.
  const Bench noted(bench_with(R"("kind": "ntc",)", R"("kind": "ntc", "note": "a wet sleeve reads low",)"));
  EXPECT_TRUE(says(noted.of("flow", "10 kΩ", "25 °C").remarks,
                   R"(the profile notes of this part: "a wet sleeve reads low")"));
  // And what it notes of both, once.
  std::string both = bench_with(R"("kind": "ntc",)", R"("kind": "ntc", "note": "a wet sleeve reads low",)");
  const std::string_view test = R"("component": "flow",)";
  both.insert(both.find(test) + test.size(), R"( "note": "a wet sleeve reads low",)");
  EXPECT_FALSE(says(Bench(both).of("flow", "10 kΩ", "25 °C").remarks, "notes of this part"));
  EXPECT_TRUE(says(Bench(both).of("flow", "10 kΩ", "25 °C").remarks, "notes of this test"));
}

// Cut off, a note read "open before and closed after the button is pressed: the limi…".
TEST(Judge, What_the_profile_says_to_do_is_said_to_its_end) {
  std::string profile(test::bench_profile);
  const std::string note =
      "open before and closed after the button is pressed: the limit had tripped, find why";
  const std::string how = "wait ten seconds on the highest range: the reading climbs and must not fall back";
  const std::string_view old = R"("coil": { "component": "coil",)";
  profile.replace(profile.find(old), old.size(),
                  std::string(old) + R"( "note": ")" + note +
                      R"(", "response": { "kind": "rises_when_warmed", "how": ")" + how + "\" },");
  const Judgement judged = Bench(profile).of("coil", "43.3 Ω", "20 °C");
  EXPECT_TRUE(says(judged.remarks, note));
  EXPECT_TRUE(says(judged.remarks, how));
  // Nobody warms what is open.
  EXPECT_FALSE(says(Bench(profile).of("coil", "OL", "20 °C").remarks, how));
}

// Nothing is easier to read than OL, with leads that touch nothing.
TEST(Judge, An_OL_that_is_healthy_counts_once_the_leads_are_known_to_touch) {
  EXPECT_TRUE(says(Bench().of("pump_earth", "OL").remarks, "before it counts as healthy"));
  EXPECT_FALSE(says(Bench().of("pump_earth", "50 MΩ").remarks, "before it counts as healthy"));
  EXPECT_FALSE(says(Bench().of("pump_earth", "OL 600 Ω").remarks, "before it counts as healthy"));
}

static Bench with_coil_by_limits() {
  return Bench(
      bench_with(R"("model": { "kind": "copper", "resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %" })",
                 R"("model": { "kind": "table", "rows": [{ "at": "20 °C", "min": "40 Ω", "max": "46 Ω" },
                                     { "at": "60 °C", "min": "46 Ω", "max": "54 Ω" }] })"));
}

TEST(Judge, A_twin_that_is_shorted_is_no_thermometer) {
  Judge_request request = Bench::request("twins", "15.25 kΩ");
  request.twin = Bench::reading("0.8 Ω");
  const Verdict found = Bench().verdict({&request, 1});
  EXPECT_TRUE(found.judgements.empty());
  EXPECT_TRUE(says(found.problems, "of \"return\" means no temperature on its curve"))
      << found.problems.at(0);
}

TEST(Judge, At_a_row_of_limits_the_thermometer_adds_nothing_that_is_known) {
  const Judgement by_limits = with_coil_by_limits().of("coil", "43.3 Ω", "20 °C ± 1 K");
  EXPECT_LT(by_limits.uncertainty, 1);
  for (const Contribution& part : by_limits.budget) EXPECT_NE(part.from, Contributor::thermometer);
  EXPECT_LT(Bench().of("coil", "43.3 Ω", "20 °C").uncertainty, 1);
}

TEST(Judge, Few_ohms_of_a_winding_that_lost_turns_are_no_short) {
  std::string profile = bench_with(R"("resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %")",
                                   R"("resistance": "2.1 Ω", "at": "20 °C", "tolerance": "5 %")");
  const Bench bench(profile);
  EXPECT_EQ(of_mode(bench.of("coil", "1.1 Ω", "20 °C"), Mode::shorted_turns), Mode_verdict::fits);
  EXPECT_EQ(of_mode(bench.of("coil", "0.3 Ω", "20 °C"), Mode::short_), Mode_verdict::fits);
}

TEST(Judge, A_table_of_one_row_stands_for_a_little_around_it) {
  std::string profile(test::bench_profile);
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
  EXPECT_EQ(bench.of("coil", "43.3 Ω", "34.9 °C").result, Conformity::within);
  EXPECT_FALSE(bench.verdict(std::vector{Bench::request("coil", "43.3 Ω", "35.1 °C")}).problems.empty());
  const Verdict far = bench.verdict(std::vector{Bench::request("coil", "43.3 Ω", "60 °C")});
  EXPECT_TRUE(far.judgements.empty());
  EXPECT_TRUE(says(far.problems, "its model does not reach there, only 20 °C")) << far.problems.at(0);
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

namespace {

// The sensor "flow" by rows of the curve R = 10 kΩ exp(3977 K (1/T - 1/298.15 K)).
Bench with_rows(std::string_view rows) {
  std::string profile = bench_with(
      R"("model": { "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_between": "25 °C to 85 °C" })",
      fmt::format(R"("model": {{ "kind": "table", "rows": [{}] }})", rows));
  return Bench(profile);
}

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

namespace {

// A platinum sensor by rows of limits alone, in the place of "flow".
Bench with_platinum_limits(std::string_view service_limit) {
  std::string profile(test::bench_profile);
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
  std::string profile(test::bench_profile);
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
  EXPECT_TRUE(says(elsewhere.problems, "the test does not reach there, only 25 °C; without --temperature"))
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
}

// 20 kΩ at 25 °C are 67 kΩ at 0 °C (B = 3950 K).
TEST(Judge, Another_sensor_without_a_model_fits_better_only_at_its_temperature) {
  std::string profile(test::bench_profile);
  const auto put = [&](std::string_view old, std::string_view text) {
    profile.replace(profile.find(old), old.size(), text);
  };
  put(R"(,
      "model": { "kind": "beta", "resistance": "12 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3435 K", "b_between": "25 °C to 85 °C" })",
      "");
  put(R"("tank": { "component": "tank",)",
      R"("tank": { "component": "tank", "expect": { "kind": "band", "nominal": "20 kΩ", "tolerance": "5 %", "at": "25 °C" },)");
  const Bench bench(profile);
  EXPECT_TRUE(bench.of("flow", "20.0 kΩ", "0 °C ± 1 K").others.empty());
  const Judgement anywhere = bench.of("return", "39.0 kΩ"); // the 10 kΩ sensors read at most 29 kΩ at 5 °C
  ASSERT_FALSE(anywhere.others.empty()) << "at some temperature of the room";
  EXPECT_EQ(anywhere.others[0].component, "tank");
  const Judgement there = bench.of("flow", "20.0 kΩ", "25 °C ± 0.5 K");
  ASSERT_FALSE(there.others.empty());
  EXPECT_EQ(there.others[0].component, "tank");
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

TEST(Judge, Cautions_are_always_there) {
  const Verdict empty = Bench().verdict({});
  const Verdict one = Bench().verdict(std::vector{Bench::request("flow", "10 kΩ", "25 °C")});
  ASSERT_EQ(one.cautions.size(), cautions().size());
  EXPECT_EQ(empty.cautions, one.cautions);
  EXPECT_EQ(one.cautions[0].find("Dead test only"), 0u);
  EXPECT_NE(one.cautions[1].find("fused spur"), std::string::npos);
  EXPECT_NE(one.cautions[3].find("X6.1 and X6.2: wait 5 min, verify below 50 V"), std::string::npos)
      << one.cautions[3];
  for (std::string report : {text_report(one), json_report(one)}) {
    std::erase_if(report, [](char c) { return c == ' ' || c == '\n'; }); // wherever the lines end
    EXPECT_NE(report.find("noreadingmakesanappliancesafetoputbackinservice."), std::string::npos) << report;
  }
}

TEST(Judge, Says_what_it_cannot_judge) {
  const Verdict unknown = Bench().verdict(std::vector{Bench::request("flwo", "10 kΩ")});
  EXPECT_TRUE(says(unknown.problems, "profile bench has no test \"flwo\"; did you mean flow?"))
      << unknown.problems[0];
  EXPECT_EQ(unknown.result(), Conformity::too_close);
  const Verdict half =
      Bench().verdict(std::vector{Bench::request("stat", "0.4 Ω"), Bench::request("flwo", "10 kΩ")});
  EXPECT_EQ(half.judgements.at(0).result, Conformity::within);
  EXPECT_EQ(half.result(), Conformity::too_close) << "one of two readings was not judged";
}

TEST(Judge, Reads_what_a_display_shows) {
  std::string problem;
  const auto ohm = [&](const char* text) {
    const auto reading = parse_reading(text, problem);
    return reading ? reading->ohm : -1;
  };
  EXPECT_DOUBLE_EQ(ohm("15.25 kΩ"), 15250);
  EXPECT_DOUBLE_EQ(ohm("15.25k"), 15250);
  EXPECT_DOUBLE_EQ(ohm("1.2M"), 1.2e6);
  EXPECT_DOUBLE_EQ(ohm("15k25"), 15250);
  EXPECT_DOUBLE_EQ(ohm("0 Ω"), 0);
  for (const char* open : {"OL", "O.L", "0L", "ol", " OL "}) {
    const auto reading = parse_reading(open, problem);
    EXPECT_TRUE(reading && reading->over_range && reading->ohm == 0) << open;
  }
  EXPECT_DOUBLE_EQ(ohm("OL 6 MΩ"), 6e6);
  EXPECT_DOUBLE_EQ(ohm(">6M"), 6e6);
  struct Wrong {
    const char *text, *says;
  };
  for (const Wrong& wrong :
       {Wrong{"42.1", "\"42.1\" has no unit, and the meter switches between Ω, kΩ and MΩ"},
        {"1.", "write OL where the display says that it is above its range"},
        {"inf", "write OL where"},
        {"", "is empty"},
        {"15,25 kΩ", "decimal point"},
        {"-3 Ω", "stop and prove dead again"},
        {"12 V", "measures a voltage"},
        {"OL banana", "does not say where the range ends"},
        {"OL 0 Ω", "does not say where the range ends"},
        {">", "does not say where the range ends"},
        {"good", "does not start with a number"}}) {
    problem.clear();
    EXPECT_FALSE(parse_reading(wrong.text, problem)) << wrong.text;
    EXPECT_NE(problem.find(wrong.says), std::string::npos) << wrong.text << ": " << problem;
  }
}

TEST(Judge, Reads_temperatures_in_one_spelling_everywhere) {
  std::string problem;
  EXPECT_EQ(parse_part_temperature("57.2f±0.9", problem)->kelvin,
            parse_part_temperature("57.2 °F ± 0.9 °F", problem)->kelvin);
  EXPECT_EQ(parse_part_temperature("57.2f±0.9", problem)->half_width, 0.5);
  for (const char* room : {"5 °C to 30 °C", "5C to 30C", "5 C to 30 c", "41F to 86F"}) {
    EXPECT_NEAR(parse_room(room, problem)->low, 278.15, 1e-9) << room;
    EXPECT_NEAR(parse_room(room, problem)->high, 303.15, 1e-9) << room;
  }
  for (const char* room : {"30C to 5C", "5 to 30", "warm", ""})
    EXPECT_FALSE(parse_room(room, problem)) << room;
}

TEST(Judge, Reads_temperatures_and_leads) {
  std::string problem;
  const auto temperature = [&](const char* text) {
    return parse_part_temperature(text, problem).value_or(Part_temperature{0, 0, {}, {}});
  };
  for (const char* text :
       {"14 °C ± 0.5 K", "14C±0.5", "14 °C +/- 0.5 K", "14C+-0.5K", "57.2 °F ± 0.9 °F", "57.2F±0.9"}) {
    EXPECT_NEAR(temperature(text).kelvin, 287.15, 1e-9) << text;
    EXPECT_NEAR(temperature(text).half_width, 0.5, 1e-9) << text;
  }
  EXPECT_EQ(temperature("-5 °C").half_width, 1);
  EXPECT_NEAR(temperature("399 °C").kelvin, 672.15, 1e-9);
  for (const char* text : {"14", "warm", "14 K ± x", "900 °C", "14 °C ± -1 K", "14 °C ± 80 K", "20 Ω", ""})
    EXPECT_FALSE(parse_part_temperature(text, problem)) << text;
  EXPECT_DOUBLE_EQ(parse_leads("0", problem)->ohm, 0);
  EXPECT_DOUBLE_EQ(parse_leads("0.2 Ω", problem)->half_width, 0.1) << "of contact";
  EXPECT_DOUBLE_EQ(parse_leads("0 ± 0", problem)->half_width, 0);
  EXPECT_DOUBLE_EQ(parse_leads("0.2 Ω ± 0.05", problem)->half_width, 0.05);
  EXPECT_DOUBLE_EQ(parse_leads("200 mΩ", problem)->ohm, 0.2);
  EXPECT_DOUBLE_EQ(parse_leads("200 mΩ ± 50", problem)->half_width, 0.05);
  struct Wrong {
    const char *text, *says;
  };
  for (const Wrong& wrong : {Wrong{"", "no resistance of leads"},
                             {".", "no resistance of leads"},
                             {"x", "no resistance of leads"},
                             {"-1", "no resistance of leads"},
                             {"0.2 V", "no resistance of leads"},
                             {"0 ± 0.1", "no resistance of leads"},
                             {"0.2 Ω ± -0.1 Ω", "no resistance of leads"},
                             {"0.2", "\"0.2\" has no unit; write \"0.2 Ω\""},
                             {"-0.2 Ω", "leads of -0.2 Ω are negative"},
                             // 0.1 to 0.5 Ω is common practice
                             {"2.1 Ω", "leads of 2.1 Ω are broken"},
                             {"0.2 Ω ± 3 Ω", "leads that may be off by 3 Ω are broken"}}) {
    problem.clear();
    EXPECT_FALSE(parse_leads(wrong.text, problem)) << wrong.text;
    EXPECT_NE(problem.find(wrong.says), std::string::npos) << wrong.text << ": " << problem;
  }
}

}
}
