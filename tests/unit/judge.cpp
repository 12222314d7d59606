// The verdict on readings. Where no source is named, what is expected is common practice.
#include "ohmlore/judge.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "ohmlore/cautions.h"
#include "ohmlore/description.h"
#include "support/bench.h"
#include "support/judged.h"

namespace ohmlore {
namespace {

using namespace test;

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

// What is stated needs no remark: the temperature and where it was taken, the leads, what the test excludes.
TEST(Judge, Of_a_healthy_reading_with_all_that_it_needs_nothing_is_remarked) {
  Bench bench;
  bench.means.leads = Leads{0.2, 0.1};
  const auto of = [&](const char* test, const char* shown, const char* temperature) {
    Judge_request request = Bench::request(test, shown, temperature);
    request.temperature->place = Temperature_place::immersed;
    return bench.of(request);
  };
  for (const char* test : {"coil", "band"}) {
    const Judgement found = of(test, "43.2 Ω", "20 °C ± 0.1 K");
    EXPECT_EQ(found.result, Conformity::within) << test;
    EXPECT_EQ(found.remarks, std::vector<std::string>{}) << test;
  }
  // 0.5 K of water beside the element (common practice, no source) is more than half of its 1 %.
  const Judgement sensor = of("tank", "12.00 kΩ", "25 °C ± 0.1 K");
  EXPECT_EQ(sensor.result, Conformity::within);
  EXPECT_EQ(sensor.remarks.size(), 1u);
  EXPECT_TRUE(says(sensor.remarks, "because of where the temperature was taken"));
}

// What clears a part is said of a healthy reading alone.
TEST(Judge, A_leak_or_a_short_is_not_remarked_as_none) {
  const Bench bench;
  const Judgement leak = bench.of("pump_earth", "0.80 MΩ"), none = bench.of("pump_earth", "OL");
  EXPECT_EQ(leak.result, Conformity::outside);
  EXPECT_FALSE(says(leak.remarks, "no gross leakage"));
  EXPECT_TRUE(says(none.remarks, "no gross leakage"));
  const Judgement shorted = bench.of("fan", "3.0 Ω"), other = bench.of("fan", "5.00 kΩ");
  EXPECT_EQ(shorted.result, Conformity::outside);
  EXPECT_FALSE(says(shorted.remarks, "not a short"));
  EXPECT_TRUE(says(other.remarks, "not a short; it says nothing more"));
  EXPECT_TRUE(says(other.remarks, "no dead test shows them to be good"));
  EXPECT_FALSE(says(none.remarks, "electronics"));
}

// Electronics have no curve: their limits hold where they were stated.
TEST(Judge, Limits_that_no_curve_carries_hold_at_their_own_temperature) {
  const Bench bench(
      bench_with(R"("band": { "component": "coil", "unplug": "X4", "probes": ["X4.4", "X4.5"])",
                 R"("band": { "component": "fan", "unplug": "X6", "probes": ["X6.1", "X6.2"])"));
  EXPECT_FALSE(says(bench.of("band", "43.0 Ω", "20 °C").remarks, "the limits hold at"));
  EXPECT_TRUE(says(bench.of("band", "43.0 Ω", "30 °C").remarks, "the limits hold at 20 °C, not at 30 °C"));
}

// 43.3 Ω less the leads of 0.3 Ω is the very middle: no reading is surer.
TEST(Judge, The_best_that_means_can_do_is_the_middle_with_its_leads) {
  Bench bench(bench_with(R"("at": "20 °C", "tolerance": "5 %")", R"("at": "20 °C", "tolerance": "1.5 %")"));
  const Judgement found = bench.of("coil", "43.3 Ω", "20 °C");
  EXPECT_EQ(found.result, Conformity::too_close);
  EXPECT_NEAR(found.service.best.value(), found.service.least.within, 1e-9);
}

// Usual 10 kΩ sensors, B25/85 from 3435 to 3977 (component sheets, read): 15.25 kΩ is 15.2 °C ± 1.5 K, and a
// room at about 14 °C fits.
TEST(Judge, A_usual_sensor_at_15_kilohm_is_at_15_degrees) {
  for (const char* b : {"3435", "3977"}) {
    std::string profile(bench_profile);
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
  std::string profile(bench_profile);
  const std::string_view limit = R"("service_limit": "3 K",)";
  profile.insert(profile.find(limit), R"("temperature_range": "-20 °C to 110 °C", )");
  const Bench bench(profile);
  const auto count = [](const Judgement& judgement, std::string_view part) {
    return std::count_if(judgement.remarks.begin(), judgement.remarks.end(),
                         [&](const std::string& remark) { return remark.find(part) != std::string::npos; });
  };
  const std::string_view beyond = "computed beyond -20 °C to 110 °C: take it with doubt", drifts = "B drifts";
  const Judgement cold = bench.of("flow", "95 kΩ", "-20 °C");
  EXPECT_EQ(count(cold, "a healthy one may lie up to 16 % below such a curve at -20 °C"), 1);
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

TEST(Judge, Takes_the_meter_of_the_corpus) {
  const Read_result corpus = read_json(
      "corpus.json", R"({ "format": "ohmlore/1.0", "kind": "corpus", "title": "t", "licence": "CC0-1.0",
    "meter": { "accuracy": "0 %", "counts": 5, "display_counts": 10000, "leads": "0 Ω" } })");
  const Read_result read = read_json("bench.profile.json", bench_profile);
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
  // Limits at 15 °C ± 1 K are 13.78 kΩ to 18.37 kΩ.
  for (const auto& [test, shown, words] : {std::tuple{"coil", "43.0 Ω", "probability of conformity 1\n"},
                                           {"flow", "14.55 kΩ", "probability of conformity above 0.99\n"},
                                           {"flow", "13.00 kΩ", "probability of conformity below 0.01\n"},
                                           {"flow", "12.00 kΩ", "probability of conformity 0\n"}}) {
    const std::string temperature = std::string_view(test) == "coil" ? "20 °C ± 1 K" : "15 °C ± 1 K";
    const std::string text =
        text_report(Bench().verdict(std::vector{Bench::request(test, shown, temperature)}));
    EXPECT_NE(text.find(words), std::string::npos) << shown << text;
  }
  // The highest range of 6000 counts ends at 60 MΩ: no switch helps there.
  const Judgement insulated =
      Bench(bench_with(R"("above": "2 MΩ")", R"("above": "100 MΩ")")).of("pump_earth", "OL");
  EXPECT_TRUE(says(insulated.settle,
                   "a meter with a range that ends above 102 MΩ (the highest of this one ends at "
                   "60 MΩ)"))
      << insulated.settle.at(0);
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

TEST(Judge, Leads_that_are_not_on_the_part_read_what_lies_between_too) {
  const std::string_view own = R"("coil": { "component": "coil", "unplug": "X4", "probes": ["X4.4", "X4.5"])";
  const std::string_view off = R"("coil": { "component": "coil", "unplug": "X4", "probes": ["X4.4", "X4.2"])";
  const auto remarked = [](const std::string& profile) {
    return says(Bench(profile).of("coil", "43.3 Ω", "20 °C").remarks, "not on the component's own contacts");
  };
  EXPECT_TRUE(remarked(bench_with(own, off)));
  EXPECT_FALSE(remarked(std::string(bench_profile)));
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

TEST(Judge, What_the_profile_notes_of_a_test_is_said) {
  std::string profile(bench_profile);
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
  std::string profile(bench_profile);
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

// 20 kΩ at 25 °C are 67 kΩ at 0 °C (B = 3950 K).
TEST(Judge, Another_sensor_without_a_model_fits_better_only_at_its_temperature) {
  std::string profile(bench_profile);
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

}
}
