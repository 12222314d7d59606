// Published tables entered as a contributor would, and linted: a true table must pass. Sources: the reference
// folder's README, section by section.
#include "published.h"

#include "ohmlore/bands.h"
#include "ohmlore/curve.h"
#include "ohmlore/open_component.h"
#include "ohmlore/report.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

namespace ohmlore {
namespace {

using namespace test;

std::string above_notes(const std::vector<Finding>& findings) {
  std::string text;
  for (const Finding& finding : findings)
    if (finding.severity > Severity::note) text += text_report(finding);
  return text;
}

bool has(const std::vector<Finding>& findings, std::string_view rule) {
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) { return f.rule == rule; });
}

// ---- thermistors

class Published_ntc : public testing::TestWithParam<Ntc_sheet> {};

TEST_P(Published_ntc, passes) {
  READ_OR_SKIP(csv, GetParam().file);
  const auto rows = printed_rows(*csv, GetParam());
  ASSERT_GE(rows.size(), 34u);
  EXPECT_EQ(above_notes(lint(ntc_text(rows, GetParam().stated_b))), "");
}

// How far it lies from the curve of one of its B-values is what curves, verdicts and plans say at most.
TEST_P(Published_ntc, lies_beside_one_b_value_no_farther_than_is_said) {
  READ_OR_SKIP(csv, GetParam().file);
  std::map<std::string, double> ohm;
  for (const Printed_row& row : printed_rows(*csv, GetParam()))
    ohm[row.celsius] = parse_quantity(row.ohm, Dimension::resistance).value.value().si;
  const auto kelvin = [](const std::string& celsius) { return std::stod(celsius) + zero_celsius; };
  const auto over = [&](const std::string& one, const std::string& other) {
    return 1 / kelvin(one) - 1 / kelvin(other);
  };
  std::size_t compared = 0;
  for (const std::string hot : {"50", "85", "100"}) {
    if (ohm.count("25") == 0 || ohm.count(hot) == 0) continue;
    const double b = std::log(ohm["25"] / ohm[hot]) / over("25", hot);
    const std::string part = part_text(fmt::format(
        R"("kind": "ntc", "name": "N", "model": {{ "kind": "beta", "resistance": "{} Ω", "at": "25 °C",
        "b_value": "{:.6f} K", "b_between": "25 °C to {} °C" }})",
        ohm["25"], b, hot));
    const Opened_component opened = open_component("-", {}, part);
    ASSERT_NE(opened.component, nullptr);
    for (const auto& [celsius, read] : ohm) {
      Curve_request there;
      there.from = there.to = kelvin(celsius);
      const Curve_result curve = curve_of(*opened.component, there);
      ASSERT_TRUE(curve.curve) << curve.problem;
      ++compared;
      double said = 0.5; // less is not said
      for (const Curve_note& note : curve.curve->notes)
        if (note.id == "one_b_below" || note.id == "one_b_above") said = std::stod(note.filled[0]);
      const double off = 100 * std::fabs(read / (ohm["25"] * std::exp(b * over(celsius, "25"))) - 1);
      EXPECT_LE(off, 1.05 * said + 0.1)
          << celsius << " °C by B25/" << hot << ": two digits, and those of the rows";
    }
  }
  EXPECT_GE(compared, ohm.count("50") * 3 * 34) << "the fifth table ends at 0 °C";
}

// Every second to every fifth row, and four windows of three to eight rows: as people shorten a table.
TEST_P(Published_ntc, passes_shortened) {
  READ_OR_SKIP(csv, GetParam().file);
  const auto rows = printed_rows(*csv, GetParam());
  for (std::size_t step = 2; step <= 5; ++step)
    for (std::size_t first = 0; first < step; ++first) {
      std::vector<Printed_row> some;
      for (std::size_t i = first; i < rows.size(); i += step) some.push_back(rows[i]);
      EXPECT_EQ(above_notes(lint(ntc_text(some, GetParam().stated_b))), "") << step << ' ' << first;
      for (std::size_t count = 3; count <= 8 && count <= some.size(); ++count)
        for (std::size_t from = 0; from + count <= some.size(); from += count) {
          const std::vector<Printed_row> window(some.begin() + static_cast<std::ptrdiff_t>(from),
                                                some.begin() + static_cast<std::ptrdiff_t>(from + count));
          EXPECT_EQ(above_notes(lint(ntc_text(window, GetParam().stated_b))), "")
              << step << ' ' << from << ' ' << count;
        }
    }
}

// The part as a beta model: the tables must lie within what the model can mean, all the way.
TEST_P(Published_ntc, lies_within_its_own_beta_taken_generously) {
  if (*GetParam().stated_b == '\0') GTEST_SKIP() << "the source states no B";
  READ_OR_SKIP(csv, GetParam().file);
  const auto rows = printed_rows(*csv, GetParam());
  const auto at_25 =
      std::find_if(rows.begin(), rows.end(), [](const Printed_row& r) { return r.celsius == "25"; });
  ASSERT_NE(at_25, rows.end());
  const Read_result read = read_json(
      "beta.part.json",
      part_text(fmt::format(
          R"("kind": "ntc", "name": "Sensor", "model": {{ "kind": "beta", {} "resistance": "{}", "at": "25 °C", "tolerance": "1 %" }})",
          GetParam().stated_b, at_25->ohm)));
  ASSERT_TRUE(read.findings.empty()) << read.findings.front().message;
  const Resistance_model& model = *read.document.part()->component.model;
  for (const Printed_row& row : rows) {
    const double kelvin = parse_quantity(row.celsius + " °C", Dimension::temperature).value->si;
    const double ohm = parse_quantity(row.ohm, Dimension::resistance).value->si;
    const auto band = model_interval(model, {kelvin, kelvin}, Taken::generously);
    ASSERT_TRUE(band);
    EXPECT_TRUE(band->contains(ohm)) << row.celsius << " °C: " << ohm << " beside " << band->low << " to "
                                     << band->high;
  }
}

double kelvin_of(const std::string& celsius) {
  return parse_quantity(celsius + " °C", Dimension::temperature).value->si;
}

// The same with B from any two of its rows, and the resistance at any third.
TEST_P(Published_ntc, lies_within_each_of_its_betas_taken_generously) {
  READ_OR_SKIP(csv, GetParam().file);
  const auto rows = printed_rows(*csv, GetParam());
  const auto row_at = [&](const char* celsius) {
    return std::find_if(rows.begin(), rows.end(), [&](const Printed_row& r) { return r.celsius == celsius; });
  };
  const auto ohm_of = [](const Printed_row& row) {
    return parse_quantity(row.ohm, Dimension::resistance).value->si;
  };
  constexpr std::pair<const char*, const char*> pairs[] = {{"25", "50"}, {"25", "85"}, {"25", "100"},
                                                           {"0", "100"}, {"0", "50"},  {"20", "60"}};
  for (const auto& [low, high] : pairs)
    for (const char* reference : {"0", "25", "60", "100"}) {
      const auto a = row_at(low), b = row_at(high), at = row_at(reference);
      if (a == rows.end() || b == rows.end() || at == rows.end()) continue;
      const double b_value =
          std::log(ohm_of(*a) / ohm_of(*b)) / (1 / kelvin_of(a->celsius) - 1 / kelvin_of(b->celsius));
      const Read_result read = read_json(
          "beta.part.json",
          part_text(fmt::format(
              R"("kind": "ntc", "name": "Sensor", "model": {{ "kind": "beta", "resistance": "{}", "at": "{} °C",
                 "tolerance": "0.5 %", "b_value": "{:.0f} K", "b_between": "{} °C to {} °C" }})",
              at->ohm, reference, b_value, low, high)));
      ASSERT_TRUE(read.findings.empty()) << read.findings.front().message;
      const Resistance_model& model = *read.document.part()->component.model;
      for (const Printed_row& row : rows) {
        const double kelvin = kelvin_of(row.celsius);
        const auto band = model_interval(model, {kelvin, kelvin}, Taken::generously);
        ASSERT_TRUE(band);
        EXPECT_TRUE(band->contains(ohm_of(row)))
            << low << ", " << high << ", " << reference << ", " << row.celsius << " °C: " << ohm_of(row)
            << " beside " << band->low << " to " << band->high;
      }
    }
}

// Every second to every fifth row kept, with half of the last digit as only tolerance: the rows between must
// lie in the band that the kept ones give, and a range between kept rows must hold all rows inside. A printed
// row is true to half of its last digit; those of B57891S scatter by up to 0.2 % besides, and jump by 1 %
// between -10 and -5 °C, which no drift of B explains.
TEST_P(Published_ntc, rows_lie_in_the_band_between_their_neighbours) {
  READ_OR_SKIP(csv, GetParam().file);
  const auto rows = printed_rows(*csv, GetParam());
  const bool jumps = std::string_view(GetParam().file) == "ntc_b57891s0103_epcos_10k.csv";
  const double scatter = jumps ? 0.002 : 0;
  double widest = 0, loosest = 0;
  int compared = 0;
  for (std::size_t step = 2; step <= 5; ++step)
    for (std::size_t first = 0; first < step; ++first) {
      std::vector<Printed_row> some;
      for (std::size_t i = first; i < rows.size(); i += step) some.push_back(rows[i]);
      const Read_result read =
          read_json("some.part.json",
                    part_text(fmt::format(
                        R"("kind": "ntc", "name": "Sensor", "model": {{ "kind": "table", "rows": [{}] }})",
                        rows_text(some))));
      ASSERT_TRUE(read.findings.empty()) << read.findings.front().message;
      const Resistance_model& model = *read.document.part()->component.model;
      for (std::size_t i = first; i < rows.size(); ++i) {
        const std::size_t below = i - (i - first) % step, above = below + step;
        if (i == below || above >= rows.size()) continue;
        const double kelvin = kelvin_of(rows[i].celsius);
        const double from = kelvin_of(rows[below].celsius), to = kelvin_of(rows[above].celsius);
        if (jumps && from < 268.15 && to > 263.15) continue;
        const Quantity ohm = *parse_quantity(rows[i].ohm, Dimension::resistance).value;
        const Interval printed = written_interval(ohm) * Interval{1 - scatter, 1 + scatter};
        const auto band = model_interval(model, {kelvin, kelvin}, Taken::literally, Between_rows::thermistor);
        ASSERT_TRUE(band);
        EXPECT_TRUE(band->overlaps(printed))
            << rows[i].celsius << " °C by every " << step << "th row: " << ohm.si << " beside " << band->low
            << " to " << band->high;
        const auto monotone = model_interval(model, {kelvin, kelvin});
        EXPECT_TRUE(monotone->contains(*band));
        const auto range =
            model_interval(model, {from + 0.5, to}, Taken::literally, Between_rows::thermistor);
        EXPECT_TRUE(range->overlaps(printed)) << rows[i].celsius;
        const auto back =
            model_temperatures(model, printed, {200, 500}, Taken::literally, Between_rows::thermistor);
        EXPECT_TRUE(back && back->contains(kelvin)) << rows[i].celsius;
        if (step == 2) widest = std::max(widest, band->width() / band->middle());
        loosest = std::max(loosest, band->width() / monotone->width());
        ++compared;
      }
    }
  EXPECT_GT(compared, 60);
  fmt::print("{}: {} rows between others; every second row deleted, the band is at most {:.2f} % wide; never "
             "wider than {:.0f} % of what a falling curve alone allows\n",
             GetParam().file, compared, 100 * widest, 100 * loosest);
  EXPECT_LT(loosest, 0.4);
}

// The B of another pair of references, taken from the table's own rows, must be recognised as such.
TEST_P(Published_ntc, shows_the_b_of_another_pair) {
  READ_OR_SKIP(csv, GetParam().file);
  const auto rows = printed_rows(*csv, GetParam());
  const auto at = [&](std::string_view celsius) {
    for (const Printed_row& row : rows)
      if (row.celsius == celsius) return parse_quantity(row.ohm, Dimension::resistance).value.value();
    return Quantity{};
  };
  const Quantity hot = at("100");
  if (hot.si == 0) GTEST_SKIP() << "the table ends below 100 °C";
  const double b = std::log(at("25").si / hot.si) / (1 / 298.15 - 1 / 373.15);
  const auto stated = [&](double b_value, std::string_view between) {
    return lint(
        ntc_text(rows, fmt::format(R"("b_value": "{:.0f} K", "b_between": "{}",)", b_value, between)));
  };
  EXPECT_EQ(above_notes(stated(b, "25 °C to 100 °C")), "");
  EXPECT_TRUE(has(stated(b, "25 °C to 50 °C"), "b-references-mistaken"));
  if (hot.half_digit > 1e-3 * hot.si) return; // printed too coarsely for what follows
  const auto beyond = stated(1.0025 * b, "25 °C to 50 °C");
  EXPECT_FALSE(has(beyond, "b-references-mistaken")) << "the B of no pair";
  EXPECT_TRUE(has(beyond, "ntc-b-disagrees"));
}

INSTANTIATE_TEST_SUITE_P(sheets, Published_ntc, testing::ValuesIn(sheets), [](const auto& info) {
  std::string name = info.param.file;
  name.resize(name.find('.'));
  return name;
});

// TDK/EPCOS B57861, March 2006: nominal, min and max as printed, R25 and B with their tolerances.
TEST(Published_limits, pass) {
  READ_OR_SKIP(csv, "ntc_minmax_b57861_2k_1pct.csv");
  std::string rows;
  for (std::size_t i = 0; i < csv->rows.size(); ++i)
    rows += fmt::format(R"({}{{ "at": "{} °C", "nominal": "{} Ω", "min": "{} Ω", "max": "{} Ω" }})",
                        i == 0 ? "" : ", ", csv->text(i, "t_C"), csv->text(i, "R_nom"), csv->text(i, "R_min"),
                        csv->text(i, "R_max"));
  EXPECT_EQ(
      above_notes(lint(part_text(fmt::format(
          R"("kind": "ntc", "name": "Sensor", "model": {{ "kind": "table", "resistance": "2000 Ω", "at": "25 °C",
                   "b_value": "3560 K", "b_between": "25 °C to 100 °C", "b_tolerance": "1 %", "rows": [{}] }})",
          rows)))),
      "");
}

// ---- platinum

// Published: IEC 60751 table -200 to 0 °C, sensorsci.com -190 to 600 °C, sensingtemp.com 850 °C.
TEST(Published_platinum, table_passes) {
  READ_OR_SKIP(csv, "pt100_iec60751.csv");
  std::vector<Printed_row> rows;
  for (std::size_t i = 0; i < csv->rows.size(); ++i)
    rows.push_back({csv->text(i, "t_C"), csv->text(i, "R_ohm_published") + " Ω"});
  const auto text = [&](std::string_view metal) {
    return part_text(
        fmt::format(R"("kind": "rtd", "name": "Sensor", {} "model": {{ "kind": "table", "rows": [{}] }})",
                    metal, rows_text(rows)));
  };
  EXPECT_EQ(above_notes(lint(text(R"("metal": "platinum",)"))), "");
  EXPECT_EQ(above_notes(lint(text(""))), "");
  rows[20].ohm = "110.0 Ω"; // 100 Ω at 0 °C
  EXPECT_TRUE(has(lint(text("")), "rtd-row-off-curve"));
}

std::string platinum_profile(std::string_view accuracy, std::string_view celsius, std::string_view band) {
  return fmt::format(R"({{ "format": "ohmlore/1.0", "kind": "profile", "id": "published", "revision": 1,
  "appliance": {{ "maker": "Orrinvale", "models": ["Larch 24 C"], "type": "combination_boiler", "fuel": "natural_gas",
    "controller": {{ "part": "OV-4410" }} }},
  "safety": {{ "supplies": [{{ "kind": "mains", "isolate_at": "fused spur" }}] }},
  "sources": {{ "sheet": {{ "kind": "maker_document", "title": "Data sheet" }} }}, "source": {{ "from": "sheet" }},
  "connectors": {{ "X1": {{ "label": "X1", "ways": 2, "circuit": "selv", "pins": {{ "1": {{}}, "2": {{}} }} }} }},
  "components": {{ "sensor": {{ "kind": "rtd", "name": "Sensor", "between": ["X1.1", "X1.2"],
    "model": {{ "kind": "iec_60751", "r0": "100 Ω", "tolerance_class": "{}", "construction": "wire" }} }} }},
  "tests": {{ "resistance": {{ "component": "sensor", "unplug": "X1", "probes": ["X1.1", "X1.2"], "side": "at_component",
    "expect": {{ "kind": "band", {}, "at": "{} °C" }} }} }} }})",
                     accuracy, band, celsius);
}

// The published tolerance in ohm around the published resistance, as the band of a test: neither outside of
// the class nor narrower than it. Only a better meter could judge it, which the rule for that may say.
TEST(Published_platinum, class_bands_pass) {
  READ_OR_SKIP(table, "pt100_iec60751.csv");
  READ_OR_SKIP(csv, "pt100_tolerance_class_A_B.csv");
  int compared = 0;
  for (std::size_t i = 0; i < csv->rows.size(); ++i)
    for (std::size_t k = 0; k < table->rows.size(); ++k) {
      const std::string t = csv->text(i, "t_C");
      if (table->text(k, "t_C") != t) continue;
      for (const char* accuracy : {"A", "B"}) {
        const std::string off = csv->text(i, std::string(accuracy) + "_ohm_published");
        const auto wire =
            std::string_view(accuracy) == "A" ? std::pair{-100.0, 450.0} : std::pair{-196.0, 600.0};
        if (off.empty() || csv->number(i, "t_C") < wire.first || csv->number(i, "t_C") > wire.second)
          continue;
        const double middle = table->number(k, "R_ohm_published"),
                     half = csv->number(i, std::string(accuracy) + "_ohm_published");
        const auto around = [&](double centre) {
          return lint(platinum_profile(
              accuracy, t,
              fmt::format(R"("min": "{:.2f} Ω", "max": "{:.2f} Ω")", centre - half, centre + half)));
        };
        const auto findings = around(middle);
        EXPECT_FALSE(has(findings, "rtd-outside-class")) << accuracy << t << above_notes(findings);
        EXPECT_FALSE(has(findings, "tolerance-below-model")) << accuracy << t << above_notes(findings);
        EXPECT_FALSE(has(findings, "rtd-outside-range")) << accuracy << t << above_notes(findings);
        EXPECT_TRUE(has(around(middle + 3 * half), "rtd-outside-class")) << accuracy << t;
        EXPECT_TRUE(has(around(middle - 3 * half), "rtd-outside-class")) << accuracy << t;
        ++compared;
      }
    }
  EXPECT_GE(compared, 9);
}

// ---- motor protection

// The limits of DIN 44081 around the nominal temperature of the part. It states one side of each; the other,
// 20 Ω and 1 MΩ, is common practice, no source.
TEST(Published_ptc, limits_pass) {
  READ_OR_SKIP(csv, "ptc_din44081.csv");
  const auto text = [&](int nominal, bool exchanged) {
    std::string rows;
    const auto row = [&](double celsius, std::string_view min, std::string_view max) {
      rows += fmt::format(R"({}{{ "at": "{} °C", "min": "{} Ω", "max": "{} Ω" }})", rows.empty() ? "" : ", ",
                          celsius, min, max);
    };
    for (std::size_t i = 0; i < csv->rows.size(); ++i) {
      const std::string& condition = csv->text(i, "condition");
      const double offset = std::stod(condition.substr(condition.rfind("TNF") + 3));
      const std::size_t limits = exchanged && (i == 1 || i == 2) ? 3 - i : i; // the two nearest to it
      const std::string& ohm = csv->text(limits, "limit_ohm");
      const bool is_max = csv->text(limits, "kind") == "max";
      if (condition.starts_with("-20 C")) row(-20, is_max ? "20" : ohm, is_max ? ohm : "1000000");
      row(nominal + offset, is_max ? "20" : ohm, is_max ? ohm : "1000000");
    }
    return part_text(fmt::format(
        R"("kind": "ptc", "name": "Thermistor", "type": "switching", "model": {{ "kind": "table", "rows": [{}] }})",
        rows));
  };
  for (int nominal = 60; nominal <= 180; nominal += 10) {
    EXPECT_EQ(above_notes(lint(text(nominal, false))), "") << nominal;
    EXPECT_TRUE(has(lint(text(nominal, true)), "ptc-falls")) << nominal;
  }
}

// ---- copper

// Published factors of copper, reference 25 °C. A band that is just wide enough for the whole range passes,
// one that is 1 % narrower does not.
TEST(Published_copper, factors_bound_the_band) {
  READ_OR_SKIP(csv, "copper_factor_ref25.csv");
  for (std::size_t i = 1; i < csv->rows.size(); ++i) {
    const double factor = csv->number(i, "factor_published");
    const auto over_range = [&](double ratio) {
      const double off = (ratio - 1) / (ratio + 1);
      return lint(part_text(fmt::format(
          R"("kind": "winding", "name": "Winding", "connection": "single", "model": {{ "kind": "copper", "resistance": "100.00 Ω",
             "tolerance": "{:.3f} %", "at": "25.0 °C to {}.0 °C" }})",
          100 * off, csv->text(i, "t_C"))));
    };
    // Half a digit of the published factor and of the temperatures.
    EXPECT_FALSE(has(over_range(factor + 0.001), "copper-band-impossible")) << factor;
    EXPECT_TRUE(has(over_range(1 + (factor - 1) * 0.98 - 0.001), "copper-band-impossible")) << factor;
  }
}

}
}
