// What may be given to judge, how it is read, and what is refused.
#include "ohmlore/judge.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "ohmlore/cautions.h"
#include "support/bench.h"
#include "support/judged.h"

namespace ohmlore {
namespace {

using namespace test;

TEST(Judge, A_part_whose_file_has_errors_is_not_said_to_be_missing) {
  std::string text(bench_profile);
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

// Of a program that has °C where kelvin are asked for, every sensor was outside.
TEST(Judge, Numbers_that_no_parser_gives_are_refused) {
  const double none = std::numeric_limits<double>::quiet_NaN();
  const auto refused = [](std::string_view why, auto change) {
    Judge_request request = Bench::request("flow", "12.5 kΩ", "20 °C");
    Bench bench;
    ASSERT_TRUE(bench.verdict({&request, 1}).problems.empty());
    change(request, bench.means);
    const Verdict verdict = bench.verdict({&request, 1});
    EXPECT_TRUE(verdict.judgements.empty()) << why;
    EXPECT_TRUE(says(verdict.problems, why)) << why;
  };
  for (const double kelvin : {20.0, 0.0, -5.0, 1e9, none}) {
    refused("is no temperature that a part has",
            [&](Judge_request& request, Judge_means&) { request.temperature->kelvin = kelvin; });
    refused("is no temperature that a part has", [&](Judge_request& request, Judge_means&) {
      request.after_temperature = request.temperature;
      request.after_temperature->kelvin = kelvin;
    });
    refused("the room: ", [&](Judge_request&, Judge_means& means) { means.room = {kelvin, kelvin}; });
  }
  for (const double less : {-1.0, none}) {
    refused("after running, is none",
            [&](Judge_request& request, Judge_means&) { request.temperature->half_width = less; });
    refused("after running, is none",
            [&](Judge_request& request, Judge_means&) { request.temperature->minutes_since_running = less; });
    for (const Meter_accuracy meter :
         {Meter_accuracy{less, 3, 6000}, Meter_accuracy{0.01, less, 6000}, Meter_accuracy{0.01, 3, less}})
      refused("a meter of ±(", [&](Judge_request&, Judge_means& means) { means.meter = meter; });
    for (const Decision_rule rule : {Decision_rule{less, 0.05}, Decision_rule{0.05, less}})
      refused("a rule that accepts", [&](Judge_request&, Judge_means& means) { means.rule = rule; });
  }
  refused("a rule that accepts", [](Judge_request&, Judge_means& means) { means.rule = {1, 0.05}; });
  refused("do not rise", [](Judge_request&, Judge_means& means) { means.room = {300, 280}; });
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

// A meter of 6000 counts shows 0.1 Ω at least: "12.5 mΩ" was written for 12.5 MΩ, or 12.5 Ω.
TEST(Judge, What_no_meter_shows_is_asked_for_its_unit) {
  const Bench bench;
  EXPECT_TRUE(says(bench.of("flow", "12.5 mΩ", "20 °C").remarks, "look at the unit on its display"));
  for (const char* shown : {"0 Ω", "0.1 Ω", "12.5 kΩ", "OL"})
    EXPECT_FALSE(says(bench.of("flow", shown, "20 °C").remarks, "look at the unit on its display")) << shown;
}

TEST(Judge, What_is_no_profile_is_told) {
  for (const char* text : {"{", R"({ "format": "ohmlore/1.0", "kind": "corpus" })"}) {
    const Read_result read = read_json("x.json", text);
    const Resolved resolved = resolve(read.document, {});
    const Verdict verdict = judge(resolved, std::vector{Bench::request("flow", "10 kΩ")}, {});
    ASSERT_EQ(verdict.problems.size(), 1u);
    EXPECT_EQ(verdict.problems[0], "there is nothing to judge by: the document is no profile");
    EXPECT_EQ(verdict.result(), Conformity::too_close);
    EXPECT_GE(verdict.cautions.size(), cautions().size());
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
  for (const char* open : {"OL", "O.L", "0L", "ol", " OL ", "Ol", "0.l", ".OL", "O.L.", "0 .L"}) {
    const auto reading = parse_reading(open, problem);
    EXPECT_TRUE(reading && reading->over_range && reading->ohm == 0) << open;
  }
  EXPECT_DOUBLE_EQ(ohm("OL 6 MΩ"), 6e6);
  EXPECT_DOUBLE_EQ(ohm("OL .5 MΩ"), 5e5);
  EXPECT_DOUBLE_EQ(ohm("OL. 6 MΩ"), 6e6);
  EXPECT_DOUBLE_EQ(ohm(">6M"), 6e6);
  struct Wrong {
    const char *text, *says;
  };
  for (const Wrong& wrong :
       {Wrong{"42.1", "\"42.1\" has no unit, and the meter switches between Ω, kΩ and MΩ"},
        {"15,25 kΩ", "write \"15.25 kΩ\""},
        {"1.", "write OL where the display says that it is above its range"},
        {"1 .", "write OL where the display says that it is above its range"},
        {"1. MΩ", "write OL where the display says that it is above its range"},
        {"15k±5%", "is a tolerance"},
        {"15.25 kΩ ± 1 %", "write \"15.25 kΩ\""},
        {"15.25 kΩ +5 %", "is a tolerance"},
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
  problem.clear();
  EXPECT_FALSE(parse_reading("42.1", problem));
  EXPECT_EQ(problem.find("write OL"), std::string::npos) << problem;
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
  for (const char* text : {"14 °C ± 0.5 K", "14C±0.5", "14 °C +/- 0.5 K", "14C+-0.5K", "57.2 °F ± 0.9 °F",
                           "57.2F±0.9", "57.2℉ ± 0.9"}) {
    EXPECT_NEAR(temperature(text).kelvin, 287.15, 1e-9) << text;
    EXPECT_NEAR(temperature(text).half_width, 0.5, 1e-9) << text;
  }
  EXPECT_EQ(temperature("-5 °C").half_width, 1);
  EXPECT_NEAR(temperature("399 °C").kelvin, 672.15, 1e-9);
  for (const char* text : {"14", "warm", "14 K ± x", "900 °C", "14 °C ± -1 K", "14 °C ± 80 K", "20 Ω", ""})
    EXPECT_FALSE(parse_part_temperature(text, problem)) << text;
  EXPECT_FALSE(parse_part_temperature("14", problem));
  EXPECT_NE(problem.find("\"14\" has no unit"), std::string::npos) << problem;
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
