// Published tables as a contributor enters them, for the tests that lint them. Sources: the reference
// folder's README, section by section.
#pragma once

#include "../support/csv.h"
#include "ohmlore/lint.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <ostream>
#include <string>
#include <vector>

namespace ohmlore::test {

inline std::string reference_file(const std::string& name) {
  return OHMLORE_REFERENCE_DIR "/reference/" + name;
}

#define READ_OR_SKIP(csv, name)                                                                              \
  const std::optional<Csv> csv = read_csv(reference_file(name));                                             \
  if (!csv) GTEST_SKIP() << "no reference values at " << reference_file(name)

struct Printed_row {
  std::string celsius;
  std::string ohm;            // as printed
  std::string tolerance = {}; // empty: none is entered
};

inline std::string rows_text(const std::vector<Printed_row>& rows) {
  std::string text;
  for (const Printed_row& row : rows)
    text += fmt::format(R"({}{{ "at": "{} °C", "nominal": "{}"{} }})", text.empty() ? "" : ",\n", row.celsius,
                        row.ohm,
                        row.tolerance.empty() ? "" : fmt::format(R"(, "tolerance": "{}")", row.tolerance));
  return text;
}

inline std::string part_text(std::string_view component) {
  return fmt::format(R"({{ "format": "ohmlore/1.0", "kind": "part", "id": "published", "revision": 1,
  "sources": {{ "sheet": {{ "kind": "maker_document", "title": "Data sheet" }} }}, "source": {{ "from": "sheet" }},
  "component": {{ {} }} }})",
                     component);
}

inline std::vector<Finding> lint(const std::string& text) {
  const Read_result read = read_json("published.part.json", text);
  return settle({lint_document(read, {})}, {}, nullptr, {});
}

struct Ntc_sheet {
  const char* file;
  const char* column;
  const char* unit;     // of the column; a ratio R/R25 is printed for a rated 1 kΩ
  const char* stated_b; // members that state B; empty where the source states none
  double b;             // in kelvin, for the tolerance away from 25 °C
};

inline void PrintTo(const Ntc_sheet& sheet, std::ostream* out) { *out << sheet.file; }

// B is stated ±1 % for the first two; for the next two it is from memory, as the README says; for the last it
// is that of the rows at -40 and 0 °C. The B57891S table jumps by 1 % between -10 and 0 °C.
constexpr Ntc_sheet sheets[] = {
    {"ntc_b57861s_rt8016.csv", "RT_over_R25", "kΩ",
     R"("b_value": "3988 K", "b_between": "25 °C to 100 °C", "b_tolerance": "1 %",)", 3988},
    {"ntc_b57891s0103_epcos_10k.csv", "R_ohm", "Ω",
     R"("b_value": "3950 K", "b_between": "25 °C to 100 °C", "b_tolerance": "1 %",)", 3950},
    {"ntc_ncpXXwb473_murata_47k.csv", "R_ohm", "Ω", R"("b_value": "4050 K", "b_between": "25 °C to 50 °C",)",
     4050},
    {"ntc_b57330v2103_epcos_10k.csv", "R_ohm", "Ω", R"("b_value": "3455 K", "b_between": "25 °C to 100 °C",)",
     3455},
    {"ntc_10k3mcd1_campbell109ss.csv", "R_ohm", "Ω", "", 3713},
};

inline std::vector<Printed_row> printed_rows(const Csv& csv, const Ntc_sheet& sheet) {
  std::vector<Printed_row> rows;
  for (std::size_t i = 0; i < csv.rows.size(); ++i)
    rows.push_back({csv.text(i, "t_C"), csv.text(i, sheet.column) + ' ' + sheet.unit});
  for (Printed_row& row : rows)
    if (row.ohm == "1.0 kΩ") row.ohm = "1.0000 kΩ"; // a ratio of 1 is exact
  return rows;
}

/// ±1 % on R25 and ±1 % on B, as makers print it at each temperature: B57861S is stated so; for the others it
/// is taken as the tightest that is common.
inline double stated_tolerance(const Ntc_sheet& sheet, double celsius) {
  return 0.01 + 0.01 * sheet.b * std::fabs(1 / (celsius + 273.15) - 1 / 298.15);
}

inline std::string ntc_text(const std::vector<Printed_row>& rows, std::string_view stated_b) {
  return part_text(
      fmt::format(R"("kind": "ntc", "name": "Sensor", "model": {{ "kind": "table", {} "rows": [{}] }})",
                  stated_b, rows_text(rows)));
}

}
