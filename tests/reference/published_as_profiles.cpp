// Published tables entered as a contributor would, and linted: a true table must pass, and a misprint in it
// must be found. Sources: the reference folder's README, section by section.
#include "../support/csv.h"
#include "ohmlore/bands.h"
#include "ohmlore/lint.h"
#include "ohmlore/report.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

namespace ohmlore {
namespace {

using test::Csv;
using test::read_csv;

std::string reference_file(const std::string& name) { return OHMLORE_REFERENCE_DIR "/reference/" + name; }

#define READ_OR_SKIP(csv, name)                                                                              \
  const std::optional<Csv> csv = read_csv(reference_file(name));                                             \
  if (!csv) GTEST_SKIP() << "no reference values at " << reference_file(name)

struct Printed_row {
  std::string celsius;
  std::string ohm; // as printed
};

std::string rows_text(const std::vector<Printed_row>& rows) {
  std::string text;
  for (const Printed_row& row : rows)
    text += fmt::format(R"({}{{ "at": "{} °C", "nominal": "{}" }})", text.empty() ? "" : ",\n", row.celsius,
                        row.ohm);
  return text;
}

std::string part_text(std::string_view component) {
  return fmt::format(R"({{ "format": "ohmlore/1.0", "kind": "part", "id": "published", "revision": 1,
  "sources": {{ "sheet": {{ "kind": "maker_document", "title": "Data sheet" }} }}, "source": {{ "from": "sheet" }},
  "component": {{ {} }} }})",
                     component);
}

std::vector<Finding> lint(const std::string& text) {
  const Read_result read = read_json("published.part.json", text);
  return settle({lint_document(read, {})}, {}, nullptr, {});
}

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

struct Ntc_sheet {
  const char* file;
  const char* column;
  const char* unit;     // of the column; a ratio R/R25 is printed for a rated 1 kΩ
  const char* stated_b; // members that state B; empty where the source states none
  double least_found;   // of the misprints that change an inner row by more than 0.2 %
};

void PrintTo(const Ntc_sheet& sheet, std::ostream* out) { *out << sheet.file; }

// ±1 % is stated for the first two; for the others B is from memory, as the README says. The B57891S table
// jumps by 1 % between -10 and 0 °C, so that only larger misprints stand out of it.
constexpr Ntc_sheet sheets[] = {
    {"ntc_b57861s_rt8016.csv", "RT_over_R25", "kΩ",
     R"("b_value": "3988 K", "b_between": "25 °C to 100 °C", "b_tolerance": "1 %",)", 0.9},
    {"ntc_b57891s0103_epcos_10k.csv", "R_ohm", "Ω",
     R"("b_value": "3950 K", "b_between": "25 °C to 100 °C", "b_tolerance": "1 %",)", 0.75},
    {"ntc_ncpXXwb473_murata_47k.csv", "R_ohm", "Ω", R"("b_value": "4050 K", "b_between": "25 °C to 50 °C",)",
     0.9},
    {"ntc_b57330v2103_epcos_10k.csv", "R_ohm", "Ω", R"("b_value": "3455 K", "b_between": "25 °C to 100 °C",)",
     0.9},
    {"ntc_10k3mcd1_campbell109ss.csv", "R_ohm", "Ω", "", 0.99},
};

std::vector<Printed_row> printed_rows(const Csv& csv, const Ntc_sheet& sheet) {
  std::vector<Printed_row> rows;
  for (std::size_t i = 0; i < csv.rows.size(); ++i)
    rows.push_back({csv.text(i, "t_C"), csv.text(i, sheet.column) + ' ' + sheet.unit});
  for (Printed_row& row : rows)
    if (row.ohm == "1.0 kΩ") row.ohm = "1.0000 kΩ"; // a ratio of 1 is exact
  return rows;
}

std::string ntc_text(const std::vector<Printed_row>& rows, std::string_view stated_b) {
  return part_text(
      fmt::format(R"("kind": "ntc", "name": "Sensor", "model": {{ "kind": "table", {} "rows": [{}] }})",
                  stated_b, rows_text(rows)));
}

class Published_ntc : public testing::TestWithParam<Ntc_sheet> {};

TEST_P(Published_ntc, passes) {
  READ_OR_SKIP(csv, GetParam().file);
  const auto rows = printed_rows(*csv, GetParam());
  ASSERT_GE(rows.size(), 34u);
  EXPECT_EQ(above_notes(lint(ntc_text(rows, GetParam().stated_b))), "");
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
  const Resistance_model& model = read.document.part()->component.model;
  for (const Printed_row& row : rows) {
    const double kelvin = parse_quantity(row.celsius + " °C", Dimension::temperature).value->si;
    const double ohm = parse_quantity(row.ohm, Dimension::resistance).value->si;
    const auto band = model_interval(model, {kelvin, kelvin}, Taken::generously);
    ASSERT_TRUE(band);
    EXPECT_TRUE(band->contains(ohm)) << row.celsius << " °C: " << ohm << " beside " << band->low << " to "
                                     << band->high;
  }
}

// The B of another pair of references, taken from the table's own rows, must be recognised as such.
TEST_P(Published_ntc, shows_the_b_of_another_pair) {
  READ_OR_SKIP(csv, GetParam().file);
  const auto rows = printed_rows(*csv, GetParam());
  const auto ohm = [&](std::string_view celsius) {
    for (const Printed_row& row : rows)
      if (row.celsius == celsius) return parse_quantity(row.ohm, Dimension::resistance).value->si;
    return 0.0;
  };
  if (ohm("100") == 0) GTEST_SKIP() << "the table ends below 100 °C";
  const double b = std::log(ohm("25") / ohm("100")) / (1 / 298.15 - 1 / 373.15);
  const auto stated = [&](std::string_view between) {
    return lint(ntc_text(rows, fmt::format(R"("b_value": "{:.0f} K", "b_between": "{}",)", b, between)));
  };
  EXPECT_EQ(above_notes(stated("25 °C to 100 °C")), "");
  EXPECT_TRUE(has(stated("25 °C to 50 °C"), "b-references-mistaken"));
}

// One digit replaced, or two neighbouring digits exchanged, in the text of a number.
std::vector<std::string> misprints(const std::string& text) {
  std::vector<std::string> all;
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (!digit(text[i])) continue;
    for (char c = '0'; c <= '9'; ++c) {
      std::string changed = text;
      changed[i] = c;
      if (c != text[i]) all.push_back(changed);
    }
    const std::size_t other = i + 1 < text.size() && text[i + 1] == '.' ? i + 2 : i + 1;
    if (other < text.size() && digit(text[other]) && text[other] != text[i]) {
      std::string exchanged = text;
      std::swap(exchanged[i], exchanged[other]);
      all.push_back(exchanged);
    }
  }
  return all;
}

struct Share {
  int tried = 0, found = 0, placed = 0, meant = 0;
};

// Every misprint of every inner row, by how far it changes the resistance. Found: an error or a warning about
// any row. Placed: at the row itself, and nowhere else. Meant: the printed number is offered.
TEST_P(Published_ntc, shows_misprints) {
  READ_OR_SKIP(csv, GetParam().file);
  const auto rows = printed_rows(*csv, GetParam());
  constexpr std::array<double, 5> limits = {0.002, 0.005, 0.01, 0.05, INFINITY};
  constexpr std::array<const char*, 5> names = {"below 0.2 %", "0.2 to 0.5 %", "0.5 to 1 %", "1 to 5 %",
                                                "above 5 %"};
  std::array<Share, 5> shares;
  for (std::size_t i = 1; i + 1 < rows.size(); ++i) {
    const double right = parse_quantity(rows[i].ohm, Dimension::resistance).value->si;
    for (const std::string& wrong : misprints(rows[i].ohm)) {
      const double ohm = parse_quantity(wrong, Dimension::resistance).value->si;
      if (ohm == 0) continue;
      std::size_t size = 0;
      while (std::fabs(std::log(ohm / right)) > limits[size]) ++size;
      auto changed = rows;
      changed[i].ohm = wrong;
      const auto findings = lint(ntc_text(changed, ""));
      Share& share = shares[size];
      ++share.tried;
      const std::string here = fmt::format("/component/model/rows/{}", i);
      int at_row = 0, elsewhere = 0;
      bool offered = false;
      for (const Finding& finding : findings) {
        if (finding.severity < Severity::warning) continue;
        const bool on_row = finding.pointer == here || finding.pointer.starts_with(here + '/');
        ++(on_row ? at_row : elsewhere);
        offered = offered || finding.message.find(rows[i].ohm + '?') != std::string::npos;
      }
      share.found += at_row + elsewhere > 0;
      share.placed += at_row == 1 && elsewhere == 0;
      share.meant += offered;
    }
  }
  Share beyond;
  for (std::size_t size = 0; size < shares.size(); ++size) {
    const Share& s = shares[size];
    fmt::print("{}: {} change of an inner row: {} misprints, {:.1f} % found, {:.1f} % at the row alone, "
               "{:.1f} % with the "
               "printed number offered\n",
               GetParam().file, names[size], s.tried, 100.0 * s.found / std::max(s.tried, 1),
               100.0 * s.placed / std::max(s.tried, 1), 100.0 * s.meant / std::max(s.tried, 1));
    if (size > 0) beyond = {beyond.tried + s.tried, beyond.found + s.found, beyond.placed + s.placed, 0};
  }
  fmt::print("{}: of all that change it by more than 0.2 %: {:.1f} % found, {:.1f} % at the row alone\n",
             GetParam().file, 100.0 * beyond.found / beyond.tried, 100.0 * beyond.placed / beyond.tried);
  EXPECT_GE(beyond.found, GetParam().least_found * beyond.tried);
  EXPECT_GE(beyond.placed, 0.8 * beyond.found);
  // Above 5 % a misprint is more than a kelvin off; hardly any may be missed.
  EXPECT_GE(shares[4].found, 0.99 * shares[4].tried);
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
