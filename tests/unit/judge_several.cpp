// Verdicts on several readings: of twins, at plug and part, before and after, of a set.
// Where no source is named, what is expected is common practice.
#include "ohmlore/judge.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "ohmlore/description.h"
#include "support/bench.h"
#include "support/judged.h"

namespace ohmlore {
namespace {

using namespace test;

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
  std::string profile(bench_profile);
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
  // At 35 °C it reads 6.49 kΩ, 5.79 kΩ at 38 °C and 7.29 kΩ at 32 °C.
  request.after_temperature = Bench::request("flow", "1 kΩ", "35 °C ± 0.5 K").temperature;
  for (const auto& [after, judged] : {std::pair{"6.50 kΩ", "is expected: within"},
                                      {"8.50 kΩ", "is expected: outside"},
                                      {"7.30 kΩ", "is expected: too close to call"}})
    EXPECT_NE(words(after).find(judged), std::string::npos) << words(after);
  const auto expected = Bench().of(request).response->expected_ohm;
  ASSERT_TRUE(expected);
  EXPECT_NEAR(expected->low, 10000 * std::exp(3977 * (1 / 311.15 - 1 / 298.15)), 1);
  EXPECT_NEAR(expected->high, 10000 * std::exp(3977 * (1 / 305.15 - 1 / 298.15)), 1);
}

// Plug and part are read by one meter, so that of 0.8 % + 3 counts its share of the lesser reading cancels on
// one range, as the leads do; on two ranges nothing of the meter does (rectangular: u = a / √3).
// 12.55 kΩ is healthy at 20 °C, and OL on a range that ends at 6 kΩ. A meter of 0.8 % + 3 counts may show OL
// at 12.87 kΩ where its range ends at 13 kΩ, which is as near to 12.5 kΩ as matters.
TEST(Judge, An_OL_on_a_range_that_ends_below_the_other_reading_says_nothing_of_the_harness) {
  const Bench bench;
  const auto judged = [&](const char* plug, const char* part) {
    Judge_request request = Bench::request("flow", plug, "20 °C ± 0.5 K");
    std::string problem;
    request.at_part = parse_reading(part, problem);
    return bench.of(request);
  };
  for (const auto& [plug, part] : {std::pair{"12.5 kΩ", "OL 6 kΩ"},
                                   {"OL 6 kΩ", "12.5 kΩ"},
                                   {"OL 6 kΩ", "OL 6 kΩ"},
                                   {"OL", "OL 6 kΩ"},
                                   {"OL 13 kΩ", "12.50 kΩ"},
                                   {"12.50 kΩ", "OL 13 kΩ"}}) {
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
      bench_with(R"("kind": "band", "min": "40 Ω", "max": "46 Ω", "at": "20 °C" }, "excludes": ["open"])",
                 R"("kind": "both_directions", "min": "40 Ω", "max": "46 Ω", "reverse_min": "1 MΩ" },
                   "excludes": ["open", "short"])"));
  Judge_request request = Bench::request("band", "OL", "20 °C");
  EXPECT_EQ(bench.of(request).result, Conformity::too_close) << "the leads may lie the other way round";
  EXPECT_EQ(of_mode(bench.of(request), Mode::short_), Mode_verdict::undecided)
      << "a shorted one reads OL that way, too";
  EXPECT_EQ(of_mode(bench.of(request), Mode::open), Mode_verdict::undecided);
  EXPECT_TRUE(says(bench.of(request).settle, "exchange the leads, and give that reading with --reverse"));
  EXPECT_EQ(bench.of("band", "4.0 Ω", "20 °C").result, Conformity::outside) << "neither way round";
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
  EXPECT_NE(good.sets[0].words.find("pump_cs and pump_cr together 60 Ω: they add up"), std::string::npos)
      << good.sets[0].words;
  EXPECT_EQ(good.result(), Conformity::within);
  EXPECT_EQ(of_mode(good.judgements[0], Mode::open), Mode_verdict::excluded) << "the profile says so";
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
    const Set_check& check = found.sets.at(0);
    // 5 % of 100 Ω
    EXPECT_EQ(check.words.find("whether that is more than 5 Ω apart is too close to call") !=
                  std::string::npos,
              check.result == Conformity::too_close)
        << check.words;
    EXPECT_EQ(check.words.find("more than 5 Ω apart: shorted turns") != std::string::npos,
              check.result == Conformity::outside)
        << check.words;
    return check.result;
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

// 15 MΩ to earth beside a coil of 43 Ω, both healthy.
TEST(Judge, What_is_read_to_earth_is_no_second_winding) {
  const std::string_view tests = R"("tests": {)";
  const Verdict found = Bench(bench_with(tests, std::string(tests) + R"(
    "coil_earth": { "component": "coil", "unplug": "X4", "probes": ["X4.4", "X5.4"], "side": "at_board_plug",
      "expect": { "kind": "open", "above": "2 MΩ" } },)"))
                            .verdict(std::vector{Bench::request("coil", "43.3 Ω", "20 °C"),
                                                 Bench::request("coil_earth", "15.0 MΩ", "20 °C")});
  EXPECT_EQ(found.judgements.size(), 2u);
  EXPECT_TRUE(found.sets.empty());
  EXPECT_EQ(found.result(), Conformity::within);
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

// 60 Ω from start to run, of which no test is.
TEST(Judge, A_reading_that_is_healthy_between_other_contacts_is_said_to_be) {
  const Bench bench(bench_with(
      R"("pump_sr": { "component": "pump", "unplug": "X5", "probes": ["X5.1", "X5.3"], "side": "at_board_plug", "excludes": ["open"] },)",
      ""));
  const Judgement found = bench.of("pump_cs", "60.3 Ω", "20 °C");
  ASSERT_EQ(found.others.size(), 1u);
  EXPECT_EQ(found.others[0].component, "pump");
  EXPECT_EQ(found.others[0].test, "");
  EXPECT_EQ(found.others[0].probes, "X5.1 to X5.3");
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

TEST(Judge, A_twin_that_is_shorted_is_no_thermometer) {
  Judge_request request = Bench::request("twins", "15.25 kΩ");
  request.twin = Bench::reading("0.8 Ω");
  const Verdict found = Bench().verdict({&request, 1});
  EXPECT_TRUE(found.judgements.empty());
  EXPECT_TRUE(says(found.problems, "of \"return\" means no temperature on its curve"))
      << found.problems.at(0);
}

}
}
