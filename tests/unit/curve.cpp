// Curves: what a document states, in tables and pictures, against the bands it comes from and published
// values.
#include "ohmlore/curve.h"

#include "../support/contrast.h"
#include "../support/files.h"
#include "job/curve_chart.h"
#include "job/curve_notes.h"
#include "ohmlore/cautions.h"
#include "ohmlore/open_component.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <regex>
#include <set>
#include <sstream>

namespace ohmlore {
namespace {

// A part of one component, kept alive with its curve.
struct Drawn {
  Opened_component opened;
  Curve_result result;
  const Curve& curve() const { return result.curve.value(); }
};
Drawn draw(std::string_view component, const Curve_request& request = {}) {
  Drawn drawn;
  drawn.opened = open_component("-", {},
                                fmt::format(R"({{"format": "ohmlore/1.0", "kind": "part", "id": "p",
    "revision": 1, "sources": {{"s": {{"kind": "standard", "title": "t"}}}}, "source": {{"from": "s"}},
    "component": {{"name": "Part", {}}}}})",
                                            component));
  if (drawn.opened.component == nullptr) {
    ADD_FAILURE() << component << (drawn.opened.findings.empty() ? "" : drawn.opened.findings[0].message);
    return drawn;
  }
  drawn.result = curve_of(*drawn.opened.component, request);
  return drawn;
}
Drawn draw_file(const std::string& name) {
  Drawn drawn;
  drawn.opened = open_component(OHMLORE_SOURCE_DIR "/corpus/parts/" + name + ".part.json");
  drawn.result = curve_of(*drawn.opened.component);
  return drawn;
}

double kelvin(double celsius) { return celsius + zero_celsius; }

const char* sensor = R"("kind": "ntc", "temperature_range": "0 °C to 100 °C", "model": {"kind": "beta",
  "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_tolerance": "1 %",
  "b_between": "25 °C to 85 °C"})";
const char* rows = R"("kind": "ntc", "model": {"kind": "table", "rows": [
  {"at": "0 °C", "nominal": "32.65 kΩ", "tolerance": "4 %"}, {"at": "25 °C", "nominal": "10.0 kΩ", "tolerance": "2 %"},
  {"at": "60.7 °C", "nominal": "2.43 kΩ", "tolerance": "3 %"}]})";

// k is known of copper (IEC 60335-1) and aluminium alone: for another metal that of copper is taken, and
// said.
TEST(Curve, SaysWhereTheKOfAnotherMetalIsNotStated) {
  const auto says = [](std::string_view metal) {
    const Drawn drawn = draw(fmt::format(R"("kind": "coil", "model": {{"kind": "copper", "resistance": "43 Ω",
      "at": "20 °C", "tolerance": "5 %", {}}})",
                                         metal));
    const auto& notes = drawn.curve().notes;
    return std::any_of(notes.begin(), notes.end(),
                       [](const Curve_note& note) { return note.id == "k_of_copper"; });
  };
  EXPECT_TRUE(says(R"("metal": "nickel")"));
  EXPECT_FALSE(says(R"("metal": "nickel", "k": "150 K")"));
  EXPECT_FALSE(says(R"("metal": "aluminium")"));
  EXPECT_FALSE(says(R"("metal": "copper")"));
}

TEST(Curve, PointsAreTheModelsBands) {
  const Drawn drawn = draw(sensor);
  ASSERT_EQ(drawn.curve().points.size(), 21u); // 0 to 100 °C in steps of 5 K
  for (const Curve_point& at : drawn.curve().points) {
    const auto band = model_interval(drawn.curve().model, {at.kelvin, at.kelvin});
    EXPECT_EQ(at.ohm->low, band->low);
    EXPECT_EQ(at.ohm->high, band->high);
    EXPECT_TRUE(at.ohm->contains(*at.nominal));
  }
  EXPECT_NEAR(drawn.curve().points.front().kelvin, kelvin(0), 1e-9);
  EXPECT_NEAR(drawn.curve().points.back().kelvin, kelvin(100), 1e-9);
}

TEST(Curve, WhatIsBetweenRowsIsNotSaidOfARow) {
  const auto notes = [](double celsius) {
    Curve_request request;
    request.from = request.to = kelvin(celsius);
    const Drawn drawn = draw(rows, request);
    std::string text;
    for (const Curve_note& note : drawn.curve().notes) text += note_text(note);
    return text;
  };
  EXPECT_NE(notes(24).find("Between two rows"), std::string::npos);
  EXPECT_EQ(notes(25).find("Between two rows"), std::string::npos);
}

TEST(Curve, TableIsShownFromFirstRowToLastAndItsRowsAreMetExactly) {
  const Drawn drawn = draw(rows);
  const auto& points = drawn.curve().points;
  ASSERT_TRUE(points.front().ohm && points.back().ohm);
  EXPECT_EQ(temperature_text(points.back().kelvin, Temperature_unit::celsius), "60.7 °C");
  EXPECT_EQ(temperature_text(points.back().kelvin, Temperature_unit::celsius, -1), "61 °C") << "threw";
  EXPECT_NEAR(*points.back().nominal, 2430, 1e-9);
  bool met = false;
  for (const Curve_point& at : points)
    if (temperature_text(at.kelvin, Temperature_unit::celsius) == "25 °C") {
      met = true;
      EXPECT_NEAR(at.ohm->low, 9800, 1e-6);
      EXPECT_NEAR(at.ohm->high, 10200, 1e-6);
    }
  EXPECT_TRUE(met);
  EXPECT_EQ(drawn.curve().stated.size(), 3u);
}

TEST(Curve, StepsAreRoundInTheUnitAskedFor) {
  Curve_request request;
  request.unit = Temperature_unit::fahrenheit;
  request.from = kelvin(0);
  request.step = 5; // 9 °F
  const Drawn drawn = draw(sensor, request);
  std::vector<std::string> texts;
  for (std::size_t i = 0; i < 3; ++i)
    texts.push_back(temperature_text(drawn.curve().points.at(i).kelvin, request.unit));
  EXPECT_EQ(texts, (std::vector<std::string>{"32 °F", "41 °F", "50 °F"}));
  request.step.reset();
  request.from.reset();
  request.unit = Temperature_unit::kelvin;
  const Drawn in_kelvin = draw(sensor, request);
  EXPECT_EQ(temperature_text(in_kelvin.curve().points.at(1).kelvin, request.unit), "275 K");
}

// Thirty steps at most, of a round number each.
TEST(Curve, StepsAreAsManyAsFitOnAPage) {
  const auto points = [](double last) {
    Curve_request request;
    request.from = kelvin(0), request.to = kelvin(last);
    return draw(sensor, request).curve().points.size();
  };
  EXPECT_EQ(points(30), 31u); // of 1 K
  EXPECT_EQ(points(31), 16u); // of 2 K
  EXPECT_EQ(points(60), 31u);
}

// B of published tables grows by up to 5.6 K per kelvin: exp(5.6 / 2 (t + 298.15 - 656.3) (1 / t - 1 /
// 298.15)) is 0.992 at 21 °C and 0.996 at 23 °C; what is below 0.5 % is not said.
TEST(Curve, SaysByHowMuchOneBDeparts) {
  const auto departs = [](double celsius) {
    Curve_request request;
    request.from = request.to = kelvin(celsius);
    const Drawn drawn = draw(sensor, request);
    std::string text;
    for (const Curve_note& note : drawn.curve().notes)
      if (note.id == "one_b_below") text = note_text(note);
    return text;
  };
  EXPECT_NE(departs(21).find("up to 0.81 % below"), std::string::npos) << departs(21);
  EXPECT_EQ(departs(23), "");
  // Where nobody says between which temperatures, of 25 and 50 °C: exp(5.6 / 2 · 35 (1 / 358.15 - 1 /
  // 298.15)).
  const Drawn drawn = draw(sensor);
  Resistance_model unstated = drawn.curve().model;
  unstated.b_between = {};
  std::string text;
  for (const Curve_note& note : notes_at(*drawn.opened.component, unstated, {kelvin(85), kelvin(85)}))
    if (note.id == "one_b_below") text = note_text(note);
  EXPECT_NE(text.find("up to 5.4 % below"), std::string::npos) << text;
}

// A resistance that holds over more than all usual temperatures is no point of a curve.
TEST(Curve, MarksWhereAResistanceIsStated) {
  const auto marks = [](const char* at) {
    return draw(fmt::format(
                    R"("kind": "resistor", "model": {{"kind": "fixed", "resistance": "1 kΩ", "at": "{}"}})",
                    at))
        .curve()
        .stated.size();
  };
  EXPECT_EQ(marks("20 °C"), 1u);
  EXPECT_EQ(marks("-40 °C to 125 °C"), 1u);
  EXPECT_EQ(marks("-55 °C to 300 °C"), 0u);
}

// Neither model nor part says how far: usual sensors of heating (common practice, no source).
TEST(Curve, SaysThatItsRangeIsAssumed) {
  const auto says = [](const Drawn& drawn) {
    return std::any_of(drawn.curve().notes.begin(), drawn.curve().notes.end(),
                       [](const Curve_note& note) { return note.id == "usual_range"; });
  };
  const Drawn assumed = draw(R"("kind": "rtd", "model": {"kind": "iec_60751", "r0": "100 Ω"})");
  EXPECT_TRUE(says(assumed));
  EXPECT_EQ(temperature_text(assumed.curve().points.front().kelvin, Temperature_unit::celsius), "-20 °C");
  EXPECT_EQ(temperature_text(assumed.curve().points.back().kelvin, Temperature_unit::celsius), "110 °C");
  EXPECT_FALSE(says(draw(sensor)));
}

TEST(Curve, SaysThatARowStatesNoTolerance) {
  const auto says_none = [](const char* of_rows, std::optional<double> at = {}) {
    Curve_request request;
    request.from = request.to = at;
    const Drawn drawn =
        draw(fmt::format(R"("kind": "ntc", "model": {{"kind": "table", "rows": [{}]}})", of_rows), request);
    return std::any_of(drawn.curve().notes.begin(), drawn.curve().notes.end(),
                       [](const Curve_note& note) { return note.id == "no_tolerance"; });
  };
  EXPECT_FALSE(says_none(R"({"at": "25 °C", "nominal": "10 kΩ", "tolerance": "2 %"})"));
  EXPECT_FALSE(says_none(R"({"at": "25 °C", "nominal": "10 kΩ", "min": "9.8 kΩ", "max": "10.2 kΩ"})"));
  EXPECT_TRUE(says_none(R"({"at": "25 °C", "nominal": "10 kΩ", "min": "9.8 kΩ"})"));
  // Only of the temperatures that lie beside that row.
  const char* one_without =
      R"({"at": "0 °C", "nominal": "32.6 kΩ"}, {"at": "25 °C", "nominal": "10 kΩ", "tolerance": "2 %"},
      {"at": "50 °C", "nominal": "3.60 kΩ", "tolerance": "2 %"})";
  EXPECT_TRUE(says_none(one_without));
  EXPECT_TRUE(says_none(one_without, kelvin(10)));
  EXPECT_FALSE(says_none(one_without, kelvin(25)));
  EXPECT_FALSE(says_none(one_without, kelvin(40)));
}

// ---- asked backwards

TEST(TemperatureMeant, SteinhartHartExample) {
  // Published values at 0 and 30 °C (see the reference folder, NTC: read, recomputed to 1e-8 K).
  const Drawn drawn = draw(R"("kind": "ntc", "model": {"kind": "steinhart_hart", "a": "1.4e-3 K^-1",
    "b": "2.37e-4 K^-1", "c": "9.9e-8 K^-1"})");
  for (const auto& [celsius, ohm] :
       std::map<double, double>{{0, 10030.217595116217}, {30, 2470.6001126460119}}) {
    const auto meant = temperature_meant(drawn.curve(), {ohm, ohm});
    ASSERT_TRUE(meant && meant->kelvin && meant->nominal);
    EXPECT_NEAR(*meant->nominal, kelvin(celsius), 1e-6);
    EXPECT_NEAR(*nominal_resistance(drawn.curve().model, kelvin(celsius)), ohm, 1e-6 * ohm);
  }
}

TEST(TemperatureMeant, CopperExample) {
  // 80 Ω at 20 °C, 100 Ω hot, k = 234.5: 83.625 °C (reference folder, Copper: read, recomputed).
  const Drawn drawn = draw(
      R"("kind": "coil", "drive": "dc", "suppression": "none", "model": {"kind": "copper", "resistance": "80 Ω", "at": "20 °C", "tolerance": "5 %"})");
  const auto meant = temperature_meant(drawn.curve(), {100, 100});
  ASSERT_TRUE(meant && meant->nominal);
  EXPECT_NEAR(*meant->nominal, kelvin(83.625), 1e-6);
  // With ±5 % the same reading is that of a part of 84 Ω or of 76 Ω: from the same formula by hand.
  EXPECT_NEAR(meant->kelvin->low, kelvin(100.0 / 84 * 254.5 - 234.5), 1e-6);
  EXPECT_NEAR(meant->kelvin->high, kelvin(100.0 / 76 * 254.5 - 234.5), 1e-6);
}

TEST(Curve, GoesByTheMetalOfTheComponent) {
  // R2/R1 = (k + t2)/(k + t1) by hand, k = 225 for aluminium: 100 Ω at 20 °C are 124.5 Ω at 80 °C.
  const Drawn drawn = draw(
      R"("kind": "winding", "connection": "single", "metal": "aluminium", "model": {"kind": "copper", "resistance": "100 Ω", "at": "20 °C"})");
  EXPECT_NEAR(*nominal_resistance(drawn.curve().model, kelvin(80)), 100 * 305.0 / 245, 1e-9);
}

TEST(TemperatureMeant, PlatinumAsFarAsItIsDefined) {
  // IEC 60751, table of Pt100: 31.34 Ω at -170 °C, 280.98 Ω at 500 °C; by its formula 390.19 Ω at 849 °C.
  const Drawn drawn = draw(R"("kind": "rtd", "model": {"kind": "iec_60751", "r0": "100 Ω"})");
  for (const auto& [celsius, ohm] : {std::pair{-170.0, 31.3350}, {500.0, 280.9775}, {849.0, 390.1913}}) {
    const auto meant = temperature_meant(drawn.curve(), {ohm, ohm});
    ASSERT_TRUE(meant && meant->nominal) << celsius;
    EXPECT_NEAR(*meant->nominal, kelvin(celsius), 0.01);
  }
}

TEST(TemperatureMeant, UsualSensorAtFifteenDegrees) {
  // Common practice, no source: a 10 kΩ heating sensor (B25/85 from 3435 to 3977) that reads 15.25 kΩ is at
  // 15.2 °C ±1.5 K.
  for (const char* b : {"3435 K", "3977 K"}) {
    const Drawn drawn = draw(fmt::format(
        R"("kind": "ntc", "model": {{"kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %",
           "b_value": "{}", "b_between": "25 °C to 85 °C", "b_tolerance": "1 %"}})",
        b));
    const auto meant = temperature_meant(drawn.curve(), {15250, 15250});
    EXPECT_NEAR(*meant->nominal, kelvin(15.2), 1.5) << b;
  }
}

TEST(TemperatureMeant, TheRowsAtBothEndsOfATable) {
  const Drawn drawn = draw(R"("kind": "ntc", "model": {"kind": "table", "rows": [
    {"at": "0 °C", "nominal": "32.6 kΩ", "tolerance": "3 %"}, {"at": "25 °C", "nominal": "10.0 kΩ", "tolerance": "3 %"},
    {"at": "60 °C", "nominal": "2.49 kΩ", "tolerance": "3 %"}]})");
  for (const auto& [celsius, ohm] : {std::pair{0.0, 32600.0}, {25.0, 10000.0}, {60.0, 2490.0}}) {
    const auto meant = temperature_meant(drawn.curve(), {ohm, ohm});
    ASSERT_TRUE(meant && meant->nominal) << celsius;
    EXPECT_NEAR(*meant->nominal, kelvin(celsius), 1e-6);
  }
}

TEST(TemperatureMeant, NoneWhereNoPartReadsSoAndNoneOfAConstant) {
  const Drawn drawn = draw(rows);
  EXPECT_FALSE(temperature_meant(drawn.curve(), {1, 1})->kelvin);     // a short
  EXPECT_FALSE(temperature_meant(drawn.curve(), {1e7, 1e7})->kelvin); // open
  const Drawn fixed =
      draw(R"("kind": "resistor", "model": {"kind": "fixed", "resistance": "1 kΩ", "tolerance": "5 %"})");
  EXPECT_FALSE(temperature_meant(fixed.curve(), {1000, 1000}));
}

// ---- why there is none

TEST(Curve, SaysWhyThereIsNone) {
  EXPECT_EQ(draw(R"("kind": "electronic", "contains": "a bridge")").result.problem,
            "Part states no resistance model, so it has no curve; its tests say what to expect");
  Curve_request request;
  request.from = kelvin(90), request.to = kelvin(95);
  EXPECT_EQ(draw(rows, request).result.problem,
            "the model says nothing from 90 °C to 95 °C; it speaks of 0 °C to 60.7 °C");
  request.from = kelvin(50), request.to = kelvin(10);
  EXPECT_EQ(draw(rows, request).result.problem, "50 °C is above 10 °C; give the lower temperature first");
}

// What no thermometer shows: one point, or none, and an end of it.
TEST(Curve, EndsWhateverIsAskedFor) {
  constexpr double infinite = std::numeric_limits<double>::infinity();
  const double nothing = std::numeric_limits<double>::quiet_NaN();
  for (const double kelvin : {nothing, infinite, 1e300, 1e-300})
    for (const std::optional<double> step :
         {std::optional(1.0), std::optional(kelvin), std::optional<double>()})
      for (const std::optional<double> to : {std::optional(kelvin), std::optional<double>()}) {
        Curve_request request;
        request.from = kelvin, request.to = to, request.step = step;
        const Curve_result result = draw(sensor, request).result;
        EXPECT_NE(result.curve.has_value(), !result.problem.empty()) << kelvin;
      }
}

TEST(Curve, OneOfSeveralResistancesIsChosenByItsTerminals) {
  const char* windings =
      R"("kind": "winding", "connection": "start_run", "model": {"kind": "copper", "at": "20 °C",
    "tolerance": "5 %", "pairs": [{"from": "run", "to": "common", "resistance": "4 Ω"},
    {"from": "start", "to": "common", "resistance": "11 Ω"}, {"from": "run", "to": "start", "resistance": "15 Ω"}]})";
  EXPECT_NE(draw(windings).result.problem.find("run,common, start,common and run,start: choose one"),
            std::string::npos);
  Curve_request request;
  request.terminals = "common,start"; // in either order
  const Drawn drawn = draw(windings, request);
  EXPECT_NEAR(*nominal_resistance(drawn.curve().model, kelvin(20)), 11, 1e-9);
}

// ---- outputs

TEST(BandText, RoundsOutward) {
  EXPECT_EQ(band_text({9900, 10100}), "9.9 kΩ to 10.1 kΩ");                           // what is decimal stays
  EXPECT_EQ(band_text({43 * 0.95 - 1e-14, 43 * 1.05 + 1e-14}), "40.85 Ω to 45.15 Ω"); // and as computed
  EXPECT_EQ(band_text({100, 100}), "100 Ω");
  EXPECT_EQ(band_text({9899.6, 10100.2}), "9.899 kΩ to 10.11 kΩ");
  EXPECT_EQ(band_text({0, 1}), "at most 1 Ω");
  EXPECT_EQ(band_text({1e6, INFINITY}), "at least 1 MΩ");
  // Four digits would widen narrow limits by much: Pt1000 ± 2 K at 25 °C, R(t) = 1000 Ω (1 + 3.9083e-3 t -
  // 5.775e-7 t²) of IEC 60751 at 23 and 27 °C.
  EXPECT_EQ(band_text({1089.5854, 1105.1031}), "1.0895 kΩ to 1.1052 kΩ");
}

TEST(Curve, EveryFormCarriesTheCautions) {
  const Drawn drawn = draw(sensor);
  EXPECT_TRUE(curve_text(drawn.curve()).starts_with(cautions_text()));
  std::string svg = std::regex_replace(curve_svg(drawn.curve()), std::regex("</text>\n<text[^>]*>"), " ");
  svg = std::regex_replace(svg, std::regex("&#39;|&apos;"), "'");
  for (const Caution& caution : cautions())
    EXPECT_NE(svg.find(caution.text), std::string::npos) << caution.id;
  std::istringstream csv(curve_csv(drawn.curve()));
  std::string line;
  std::getline(csv, line);
  while (std::getline(csv, line)) EXPECT_NE(line.find(shortest_caution()), std::string::npos);
}

TEST(Curve, CsvHoldsTheBandsInOhms) {
  const Drawn drawn = draw(rows);
  std::istringstream csv(curve_csv(drawn.curve()));
  std::string line;
  std::getline(csv, line);
  EXPECT_EQ(line, "temperature_celsius,least_ohm,nominal_ohm,greatest_ohm,caution\r");
  for (const Curve_point& at : drawn.curve().points) {
    ASSERT_TRUE(std::getline(csv, line));
    double t = 0, low = 0, nominal = 0, high = 0;
    ASSERT_EQ(std::sscanf(line.c_str(), "%lf,%lf,%lf,%lf,", &t, &low, &nominal, &high), 4) << line;
    EXPECT_NEAR(kelvin(t), at.kelvin, 1e-6);
    EXPECT_NEAR(low, at.ohm->low, 1e-6 * low);
    EXPECT_NEAR(nominal, *at.nominal, 1e-6 * nominal);
    EXPECT_NEAR(high, at.ohm->high, 1e-6 * high);
    EXPECT_LE(low, at.ohm->low * (1 + 1e-12)) << "rounded outward";
    EXPECT_GE(high, at.ohm->high * (1 - 1e-12)) << "rounded outward";
  }
  EXPECT_FALSE(std::getline(csv, line));
}

// 77.7 V² / 1903 W - 22 Ω is -18.8 Ω: lint says that no part is so, and no meter reads below 0 Ω.
TEST(Curve, CsvHasNoResistanceBelowZero) {
  const Drawn drawn = draw(
      R"("kind": "heater", "model": {"kind": "power", "voltage": "77.7 V", "power": "1903 W", "tolerance": "22 Ω"})");
  EXPECT_NE(curve_csv(drawn.curve()).find(",0,3.172512,25.17252,"), std::string::npos);
  // 100 Ω × (1 + 0.1 × t) is below zero under -10 °C.
  const Drawn below = draw(R"("kind": "rtd", "temperature_range": "-20 °C to 20 °C",
    "model": {"kind": "polynomial", "r0": "100 Ω", "a1": "0.1 K^-1", "tolerance": "1 %"})");
  EXPECT_NE(curve_csv(below.curve()).find("\n-20,,,,"), std::string::npos);
  EXPECT_NE(curve_csv(below.curve()).find("\n20,297,300,303,"), std::string::npos);
}

// ---- the picture

struct Shown {
  std::string text, kind, anchor;
  double x = 0, y = 0;
};
std::vector<Shown> texts_of(const std::string& svg) {
  std::vector<Shown> found;
  const std::regex form(
      R"re(<text class="(\w+)" x="([-\d.]+)" y="([-\d.]+)" (?:text-anchor="(\w+)"|font-size)[^>]*>([^<]*)</text>)re");
  for (std::sregex_iterator it(svg.begin(), svg.end(), form), end; it != end; ++it)
    found.push_back({(*it)[5], (*it)[1], (*it)[4], std::stod((*it)[2]), std::stod((*it)[3])});
  return found;
}

// Where the picture draws a resistance: from the labels of its axis, as a reader would.
TEST(CurvePicture, MarksStandWhereTheAxesSay) {
  const std::string svg = curve_svg(draw(rows).curve());
  std::map<double, double> y_of, x_of; // ln ohm to y, °C to x
  for (const Shown& text : texts_of(svg)) {
    char* rest = nullptr;
    const double number = std::strtod(text.text.c_str(), &rest);
    const std::string unit = rest;
    if (text.anchor == "end" && unit.ends_with("Ω"))
      y_of[std::log(number * (unit == " kΩ" ? 1e3 : 1))] = text.y - 4.5;
    if (text.anchor == "middle" && unit.empty()) x_of[number] = text.x;
  }
  ASSERT_GE(y_of.size(), 2u);
  ASSERT_GE(x_of.size(), 2u);
  const auto along = [](const std::map<double, double>& axis, double value) {
    const auto [a, at_a] = *axis.begin();
    const auto [b, at_b] = *axis.rbegin();
    return at_a + (at_b - at_a) * (value - a) / (b - a);
  };
  const std::regex ring(R"re(<circle class="stated" cx="([\d.]+)" cy="([\d.]+)")re");
  std::vector<std::pair<double, double>> rings;
  for (std::sregex_iterator it(svg.begin(), svg.end(), ring), end; it != end; ++it)
    rings.emplace_back(std::stod((*it)[1]), std::stod((*it)[2]));
  const std::vector<std::pair<double, double>> wanted = {{0, 32650}, {25, 10000}, {60.7, 2430}};
  ASSERT_GE(rings.size(), 1 + wanted.size()); // one in the legend
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    EXPECT_NEAR(rings[i + 1].first, along(x_of, wanted[i].first), 0.2);
    EXPECT_NEAR(rings[i + 1].second, along(y_of, std::log(wanted[i].second)), 0.2);
  }
}

// Where no tolerance is stated, or at one temperature alone, there is no band to explain.
TEST(CurvePicture, NamesTheBandOnlyWhereItIsSeen) {
  const auto names_it = [](std::string_view component, const std::vector<Curve_mark>& measured = {}) {
    for (const Shown& text : texts_of(curve_svg(draw(component).curve(), measured)))
      if (text.text == "manufacturing tolerance") return true;
    return false;
  };
  const Curve_mark off = {{kelvin(25), kelvin(25)}, {10100, 10100}, 10100.0}; // 1 % beside the curve
  EXPECT_TRUE(names_it(sensor, {off}));
  EXPECT_FALSE(names_it(R"("kind": "ntc", "model": {"kind": "beta", "resistance": "10.0000 kΩ", "at": "25 °C",
    "b_value": "3977 K", "b_between": "25 °C to 85 °C"})",
                        {off}));
  EXPECT_FALSE(names_it(
      R"("kind": "ntc", "model": {"kind": "table", "rows": [{"at": "20 °C", "min": "9 kΩ", "max": "11 kΩ"}]})"));
}

TEST(CurvePicture, LabelsDoNotOverlapAndStayInside) {
  // So wide is a letter on average, of its size, in DejaVu Sans: measured in rendered pictures, 0.50 and
  // 0.57.
  constexpr double letter = 0.55, bold_letter = 0.6;
  for (const char* name :
       {"ntc-10k-b3977-1pct", "ntc-50k-b3950-discharge", "pt1000-class-b", "ptc-silicon-2k",
        "gas-valve-24v-dc", "switch-water-pressure", "immersion-3kw", "duct-heater-ptc-1kw"}) {
    const Drawn drawn = draw_file(name);
    const std::vector<Shown> texts = texts_of(curve_svg(drawn.curve()));
    ASSERT_GT(texts.size(), 15u);
    const auto box = [&](const Shown& shown) {
      const double wide = (shown.anchor.empty() ? 17 * bold_letter : 13 * letter) *
                          static_cast<double>(code_points(shown.text));
      const double from = shown.anchor == "end"      ? shown.x - wide
                          : shown.anchor == "middle" ? shown.x - wide / 2
                                                     : shown.x;
      return std::pair(Interval{from, from + wide}, Interval{shown.y - 10, shown.y + 3});
    };
    for (std::size_t i = 0; i < texts.size(); ++i) {
      const auto [x, y] = box(texts[i]);
      EXPECT_GE(x.low, 0) << name << ": " << texts[i].text;
      EXPECT_LE(x.high, 720) << name << ": " << texts[i].text;
      for (std::size_t j = 0; j < i; ++j) {
        const auto [other_x, other_y] = box(texts[j]);
        EXPECT_FALSE(x.overlaps(other_x) && y.overlaps(other_y))
            << name << ": " << texts[i].text << " over " << texts[j].text;
      }
    }
  }
}

// ± 1 % is drawn as ± 1 % wherever the curve is.
TEST(CurvePicture, DeviationIsOfTheNominal) {
  const Drawn drawn =
      draw(R"("kind": "ntc", "temperature_range": "0 °C to 100 °C", "model": {"kind": "steinhart_hart",
    "a": "1.4e-3 K^-1", "b": "2.37e-4 K^-1", "c": "9.9e-8 K^-1", "tolerance": "+2 % -1 %"})");
  const Chart chart = curve_chart(drawn.curve());
  ASSERT_EQ(chart.panels.size(), 2u);
  for (const Chart_stretch& at : chart.panels[1].bands.at(0)) {
    EXPECT_NEAR(at.y.low, -0.01, 1e-9);
    EXPECT_NEAR(at.y.high, 0.02, 1e-9);
  }
}

// From 40 K on R falls over 43 decades: not every one has room for its label.
TEST(CurvePicture, OfManyDecadesLabelsStayApart) {
  Curve_request request;
  request.from = 40;
  std::vector<double> labels;
  for (const Shown& shown : texts_of(curve_svg(draw(sensor, request).curve())))
    if (shown.anchor == "end" && shown.kind == "ink") labels.push_back(shown.y);
  ASSERT_GT(labels.size(), 5u);
  for (std::size_t i = 0; i < labels.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) EXPECT_GE(std::fabs(labels[i] - labels[j]), 13) << i << ' ' << j;
}

// Of a hundredth of a degree each line has a temperature of its own.
TEST(CurvePicture, OfANarrowRangeLabelsDiffer) {
  Curve_request request;
  request.from = kelvin(25);
  request.to = kelvin(25.01);
  std::set<std::string> labels;
  std::size_t count = 0;
  for (const Shown& shown : texts_of(curve_svg(draw(sensor, request).curve())))
    if (shown.anchor == "middle" && shown.kind == "ink") labels.insert(shown.text), ++count;
  EXPECT_GT(count, 2u);
  EXPECT_EQ(labels.size(), count);
}

// Titles come from profiles: of capitals, of one long word, of the square letters of East Asia. A letter of
// DejaVu Sans Bold is on average 0.61 of its size wide in prose and 0.65 in capitals, measured in rendered
// pictures; a square letter is as wide as its size.
TEST(CurvePicture, TitlesStayInsideWhole) {
  const std::string word = "Warmwasserzirkulationspumpenvorlauftemperatur";
  const std::pair<std::string, double> names[] = {
      {"Warm domestic hot water mixing motor, common winding M", 0.61},
      {"MAIN GAS VALVE COIL, UPPER BURNER, AMBER MODEL", 0.65},
      {word + word + word, 0.61},
      {"循环水泵线圈温度传感器循环水泵线圈温度传感器循环水泵线圈温度传感器循环水泵线圈温度传感器", 0.61}};
  const Drawn drawn = draw(sensor);
  Curve curve = drawn.curve();
  for (const auto& [name, letter] : names) {
    curve.title = fmt::format("{}: 43 Ω ±5 % at 20 °C, copper with k = 234.5 K", name);
    std::string title;
    for (const Shown& line : texts_of(curve_svg(curve))) {
      if (!line.anchor.empty()) continue;
      double ems = 0;
      for (std::size_t i = 0; i < line.text.size();)
        ems += next_code_point(line.text, i) < 0x2E80 ? letter : 1;
      EXPECT_LE(line.x + 17 * ems, 720) << line.text;
      title += line.text;
    }
    const auto without_spaces = [](std::string text) {
      std::erase(text, ' ');
      return text;
    };
    EXPECT_EQ(without_spaces(title), without_spaces(curve.title));
  }
}

using test::contrast;

// By UAX #9 a number takes the direction of the letters before it: "10" stood to the left of a Hebrew name,
// and "kΩ" to the right of it.
TEST(CurvePicture, KeepsANumberBesideItsUnit) {
  Drawn drawn = draw(sensor);
  for (const char* name : {"חיישן", "مستشعر -"}) {
    drawn.result.curve->title = fmt::format("{}: 10 kΩ ±1 %", name);
    EXPECT_NE(curve_svg(drawn.curve()).find(fmt::format("{}: \u200E10 kΩ ±1 %", name)), std::string::npos);
  }
  drawn.result.curve->title = "Sensor 2: 10 kΩ";
  EXPECT_EQ(curve_svg(drawn.curve()).find("\u200E"), std::string::npos);
}

TEST(CurvePicture, EveryAxisShowsItsScale) {
  const auto count = [](double low, double high) {
    Chart_axis axis;
    axis.range = {low, high};
    return round_ticks(axis, 4).size();
  };
  EXPECT_EQ(count(-4.8, 4.8), 5u); // ± 5 would stand beyond both ends
  for (double width = 1; width < 100; width *= 1.07)
    for (const double middle : {0.0, 0.3, 41.0, -7.7}) {
      EXPECT_GE(count(middle - width, middle + width), 3u) << middle << " " << width;
      EXPECT_LE(count(middle - width, middle + width), 7u) << middle << " " << width;
    }
  // Of many decades only their beginnings, of few also 2 and 5.
  const auto decades = [](double low, double high) {
    Chart_axis axis;
    axis.logarithmic = true;
    axis.range = {low, high};
    return round_ticks(axis, 8).size();
  };
  EXPECT_EQ(decades(1, 1e6), 7u);
  EXPECT_EQ(decades(1, 1e3), 10u);
}

TEST(CurvePicture, ContrastIsThatOfWcagAa) {
  EXPECT_NEAR(contrast("#000000", "#ffffff"), 21, 1e-9); // the standard's own extreme
  const std::string svg = curve_svg(draw(sensor).curve());
  const std::size_t dark_at = svg.find("@media");
  ASSERT_NE(dark_at, std::string::npos);
  for (const bool dark : {false, true}) {
    const std::string style = dark ? svg.substr(dark_at) : svg.substr(0, dark_at);
    const auto colour = [&](const std::string& kind, const std::string& use) {
      std::smatch found;
      const std::regex form(fmt::format("\\.chart \\.{}\\{{[^}}]*{}:(#[0-9a-f]{{6}})", kind, use));
      EXPECT_TRUE(std::regex_search(style, found, form)) << kind;
      return std::string(found[1]);
    };
    const std::string paper = colour("paper", "fill");
    for (const char* text : {"ink", "muted"}) EXPECT_GE(contrast(colour(text, "fill"), paper), 4.5) << text;
    EXPECT_GE(contrast(colour("warn", "fill"), colour("box", "fill")), 4.5);
    for (const char* edge : {"frame", "band", "line", "stated", "measured", "box"})
      EXPECT_GE(contrast(colour(edge, "stroke"), paper), 3) << edge;
    for (const char* over : {"line", "stated", "measured"})
      EXPECT_GE(contrast(colour(over, "stroke"), colour("band", "fill")), 3) << over;
  }
}

// Lint finds such a threshold, and a curve is drawn all the same.
TEST(CurvePicture, OfAThresholdOfNothingEnds) {
  for (const char* model : {R"({"kind": "closed", "below": "0 Ω"})", R"({"kind": "open", "above": "0 Ω"})"}) {
    const Drawn drawn = draw(fmt::format(R"("kind": "switch", "model": {})", model));
    const std::string svg = curve_svg(drawn.curve());
    EXPECT_NE(svg.find("</svg>"), std::string::npos) << model;
    EXPECT_EQ(svg.find("nan"), std::string::npos) << model;
    EXPECT_EQ(svg.find("inf"), std::string::npos) << model;
  }
}

TEST(CurvePicture, OfNoPointsIsItsFrame) { EXPECT_NE(curve_svg({}).find("<svg"), std::string::npos); }

TEST(Curve, ColumnsStayApart) {
  Curve_request request;
  request.to = kelvin(2500); // where so little is left that it takes long to write
  const Drawn drawn =
      draw(R"("kind": "ntc", "model": {"kind": "beta", "resistance": "0.0000123 Ω", "at": "25 °C",
    "tolerance": "1 %", "b_value": "7999 K", "b_between": "25 °C to 85 °C", "b_tolerance": "1 %"})",
           request);
  const std::string text = curve_text(drawn.curve());
  for (std::size_t at = text.find("Ω"); at != std::string::npos; at = text.find("Ω", at + 1))
    EXPECT_TRUE(text[at + 2] == ' ' || text[at + 2] == '\n') << text;
}

TEST(Curve, BeginsAboveAbsoluteZero) {
  Curve_request request;
  for (const double from : {0.0, -5.0, -1e300}) {
    request.from = from;
    EXPECT_NE(draw(sensor, request).result.problem.find("is not above absolute zero"), std::string::npos)
        << from;
  }
}

TEST(Curve, SaysWhichStepsAreTooMany) {
  Curve_request request;
  request.to = kelvin(3e6);
  EXPECT_NE(draw(sensor, request).result.problem.find("steps of 200 K"), std::string::npos)
      << draw(sensor, request).result.problem;
  // 10 000 rows are the most: with both ends 9999 steps.
  request.from = kelvin(0), request.to = kelvin(10000), request.step = 1;
  EXPECT_NE(draw(sensor, request).result.problem.find("more than 10000 rows"), std::string::npos);
  request.to = kelvin(9999);
  EXPECT_EQ(draw(sensor, request).curve().points.size(), 10000u);
}

TEST(OpenComponent, SaysWhatToName) {
  const std::string profile = OHMLORE_SOURCE_DIR "/corpus/profiles/orrinvale/orrinvale-ov4410.profile.json";
  EXPECT_NE(open_component(profile).troubles.at(0).find("name one of its components"), std::string::npos);
  EXPECT_NE(open_component(profile + ":flow_sensr").troubles.at(0).find("did you mean flow_sensor?"),
            std::string::npos);
  const Opened_component opened = open_component(profile + ":flow_sensor");
  ASSERT_NE(opened.component, nullptr); // its model is the part's
  EXPECT_TRUE(curve_of(*opened.component).curve);
}

}
}
