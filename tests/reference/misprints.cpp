// Published tables with a single misprint in one row after the other: how many are found. A misprint is
// beyond tolerance and rounding where it moves a row by more than the tolerance that the maker allows a part
// at that temperature and half a digit of every row that the curve there is drawn through; of these none may
// be missed in an inner row. Sources: the reference folder's README, section by section.
#include "published.h"

#include "ohmlore/bands.h"
#include "ohmlore/report.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <map>
#include <string>
#include <vector>

namespace ohmlore {
namespace {

using namespace test;

using Rows = std::vector<Printed_row>;

Quantity read_ohm(const std::string& text) { return *parse_quantity(text, Dimension::resistance).value; }
double read_celsius(const Printed_row& row) { return std::stod(row.celsius); }

// One digit replaced by each other, or two neighbouring digits exchanged, in the text of a number.
std::vector<std::string> misprints_of(const std::string& text) {
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

// Every table with a single misprint in row `i`: a digit, two digits, the value of a neighbour, or the values
// of two rows exchanged.
std::vector<Rows> misprinted(const Rows& rows, std::size_t i) {
  std::vector<Rows> all;
  for (const std::string& wrong : misprints_of(rows[i].ohm)) {
    if (read_ohm(wrong).si == 0) continue;
    all.push_back(rows);
    all.back()[i].ohm = wrong;
  }
  for (const std::size_t beside : {i - 1, i + 1}) {
    if (beside >= rows.size()) continue;
    all.push_back(rows);
    all.back()[i].ohm = rows[beside].ohm;
    if (beside < i) continue;
    all.push_back(rows);
    std::swap(all.back()[i].ohm, all.back()[beside].ohm);
  }
  return all;
}

constexpr std::array<double, 5> sizes = {0.002, 0.005, 0.01, 0.05, INFINITY};
constexpr std::array<const char*, 5> size_names = {"to 0.2 %", "to 0.5 %", "to 1 %", "to 5 %", "above"};
constexpr std::array<std::size_t, 3> lengths = {11, 24, 500};
constexpr std::array<const char*, 3> length_names = {"5 to 11 rows", "12 to 24 rows", "25 rows and more"};

struct Share {
  int tried = 0, found = 0;
  int at_row = 0;  // at the row itself, and nowhere else
  int offered = 0; // with the printed number
  void add(const Share& other) {
    tried += other.tried, found += other.found, at_row += other.at_row, offered += other.offered;
  }
  std::string text() const {
    return tried == 0 ? "            -" : fmt::format("{:6.1f} %{:6}", 100.0 * found / tried, tried);
  }
};

struct Report {
  // By length of the table, inner row or end row, size of the change.
  std::array<std::array<std::array<Share, 5>, 2>, 3> shares;
  Share beyond, beyond_at_ends; // tolerance and rounding
  double largest_missed = 0;    // of inner rows, as a share of the resistance

  void print(const std::string& title) const {
    fmt::print("{}: share of misprints found, and how many, by change of the resistance\n{:32}", title, "");
    for (const char* name : size_names) fmt::print("{:>14}", name);
    fmt::print("\n");
    for (std::size_t length = 0; length < shares.size(); ++length)
      for (std::size_t end = 0; end < 2; ++end) {
        fmt::print("  {:18}{:12}", length_names[length], end == 0 ? "inner row" : "end row");
        for (const Share& share : shares[length][end]) fmt::print(" {}", share.text());
        fmt::print("\n");
      }
    fmt::print(
        "  beyond tolerance and rounding: inner rows {} of {} found, {:.1f} % at the row alone, {:.1f} % "
        "with "
        "the printed number; end rows {} of {} found\n  largest change of an inner row that is missed: "
        "{:.2f} %\n",
        beyond.found, beyond.tried, 100.0 * beyond.at_row / std::max(beyond.tried, 1),
        100.0 * beyond.offered / std::max(beyond.tried, 1), beyond_at_ends.found, beyond_at_ends.tried,
        100 * largest_missed);
  }
};

// Half of the last digit, as a share of the resistance.
double rounding(const Printed_row& row) {
  const Quantity ohm = read_ohm(row.ohm);
  return ohm.half_digit / ohm.si;
}

struct Allowed {
  double logarithm = 0; // of the resistance in ohm
  double rounding = 0;  // what the digits explain, as a share of it
};

// The cubic of ln R in 1/T through the two rows on either side, or the nearest four (Neville's scheme), and
// by how much half a digit of each moves it.
Allowed by_cubic(const Rows& rows, std::size_t i) {
  const std::size_t first = std::min(i < 2 ? 0 : i - 2, rows.size() - 5);
  std::vector<std::size_t> others;
  for (std::size_t k = first; k < first + 5; ++k)
    if (k != i) others.push_back(k);
  const auto x = [&](std::size_t k) { return 1 / (read_celsius(rows[k]) + 273.15); };
  const auto neville = [&](std::vector<double> y) {
    for (std::size_t order = 1; order < y.size(); ++order)
      for (std::size_t k = 0; k + order < y.size(); ++k) {
        const double low = x(others[k]), high = x(others[k + order]);
        y[k] = ((x(i) - high) * y[k] + (low - x(i)) * y[k + 1]) / (low - high);
      }
    return y[0];
  };
  std::vector<double> logarithms;
  for (const std::size_t k : others) logarithms.push_back(std::log(read_ohm(rows[k].ohm).si));
  Allowed allowed = {neville(logarithms), 0};
  for (std::size_t k = 0; k < others.size(); ++k) {
    std::vector<double> digit(others.size(), 0);
    digit[k] = rounding(rows[others[k]]);
    allowed.rounding += std::fabs(neville(digit));
  }
  return allowed;
}

// `tolerance(celsius)` of a part, as a share of its resistance; `allowed(rows, i)` by the other rows.
struct Table {
  std::function<std::string(const Rows&)> text;
  std::function<double(double)> tolerance;
  std::function<Allowed(const Rows&, std::size_t)> allowed;
};

void try_misprints(const Rows& rows, const Table& table, Report& report, int every = 1) {
  std::size_t length = 0;
  while (rows.size() > lengths[length]) ++length;
  int number = 0;
  for (std::size_t i = 0; i < rows.size(); ++i)
    for (const Rows& wrong : misprinted(rows, i)) {
      if (++number % every != 0) continue;
      const auto change = [&](std::size_t k) {
        return std::fabs(std::log(read_ohm(wrong[k].ohm).si / read_ohm(rows[k].ohm).si));
      };
      const bool end = i == 0 || i + 1 == rows.size();
      std::size_t size = 0;
      while (change(i) > sizes[size]) ++size;
      const auto findings = lint(table.text(wrong));
      const std::string here = fmt::format("/component/model/rows/{}", i);
      int at_row = 0, elsewhere = 0;
      bool offered = false;
      for (const Finding& finding : findings) {
        if (finding.severity < Severity::warning) continue;
        const bool on_row = finding.pointer == here || finding.pointer.starts_with(here + '/');
        ++(on_row ? at_row : elsewhere);
        offered = offered || finding.message.find(rows[i].ohm + '?') != std::string::npos;
      }
      const Share one = {1, at_row + elsewhere > 0, at_row == 1 && elsewhere == 0, offered};
      report.shares[length][end].at(size).add(one);
      if (!end && !one.found) report.largest_missed = std::max(report.largest_missed, change(i));
      const Allowed allowed = table.allowed(rows, i);
      if (std::fabs(std::log(read_ohm(wrong[i].ohm).si) - allowed.logarithm) <=
          table.tolerance(read_celsius(rows[i])) + allowed.rounding + rounding(wrong[i]))
        continue;
      (end ? report.beyond_at_ends : report.beyond).add(one);
      if (end) continue;
      EXPECT_TRUE(one.found) << rows.front().celsius << " to " << rows.back().celsius << " °C, "
                             << rows.size() << " rows: " << wrong[i].ohm << " for " << rows[i].ohm << " at "
                             << rows[i].celsius << " °C";
    }
}

// Every n-th row, from each of the first n on; and of what is left, stretches of five and of eight rows.
std::vector<Rows> shortened(const Rows& rows) {
  std::vector<Rows> all;
  for (std::size_t step = 1; step <= 6; ++step)
    for (std::size_t first = 0; first < step; ++first) {
      Rows some;
      for (std::size_t i = first; i < rows.size(); i += step) some.push_back(rows[i]);
      if (step > 1 && some.size() >= 5) all.push_back(some);
      for (const std::size_t count : {5u, 8u})
        for (std::size_t from = 0; from + count <= some.size(); from += count)
          all.emplace_back(some.begin() + static_cast<std::ptrdiff_t>(from),
                           some.begin() + static_cast<std::ptrdiff_t>(from + count));
    }
  return all;
}

// Where the curve is known, the row as it is printed.
Allowed as_printed(const Rows& rows, std::size_t i) {
  return {std::log(read_ohm(rows[i].ohm).si), rounding(rows[i])};
}

constexpr int every = 2 * OHMLORE_ONE_CASE_IN; // misprint of the shortened tables

class Misprints : public testing::TestWithParam<Ntc_sheet> {};

TEST_P(Misprints, of_a_thermistor_are_found_beyond_tolerance_and_rounding) {
  const Ntc_sheet& sheet = GetParam();
  READ_OR_SKIP(csv, sheet.file);
  const Table table = {[&](const Rows& rows) { return ntc_text(rows, ""); },
                       [&](double celsius) { return stated_tolerance(sheet, celsius); }, by_cubic};
  Rows rows = printed_rows(*csv, sheet);
  Report bare;
  try_misprints(rows, table, bare);
  bare.print(fmt::format("{}, whole, entered without tolerance", sheet.file));
  for (Printed_row& row : rows)
    row.tolerance = fmt::format("{:.1f} %", 100 * table.tolerance(read_celsius(row)));
  Report whole, parts;
  try_misprints(rows, table, whole);
  whole.print(fmt::format("{}, whole, entered with its tolerance", sheet.file));
  for (const Rows& some : shortened(rows)) {
    // Unmisprinted, each is silent.
    for (const Finding& finding : lint(table.text(some)))
      EXPECT_LT(finding.severity, Severity::warning) << text_report(finding);
    try_misprints(some, table, parts, every);
  }
  parts.print(fmt::format("{}, shortened, entered with its tolerance", sheet.file));
}

INSTANTIATE_TEST_SUITE_P(sheets, Misprints, testing::ValuesIn(sheets), [](const auto& info) {
  std::string name = info.param.file;
  name.resize(name.find('.'));
  return name;
});

// Entered with class B; IEC 60751 as the reference folder lists its tolerance, in kelvin, and the slope of
// its curve.
TEST(Misprints_of_platinum, are_found_beyond_tolerance_and_rounding) {
  READ_OR_SKIP(csv, "pt100_iec60751.csv");
  Rows rows;
  for (std::size_t i = 0; i < csv->rows.size(); ++i)
    rows.push_back({csv->text(i, "t_C"), csv->text(i, "R_ohm_published") + " Ω"});
  const auto ohm_at = [&](double celsius) {
    for (std::size_t i = 0; i < csv->rows.size(); ++i)
      if (csv->number(i, "t_C") == celsius) return csv->number(i, "R_ohm_published");
    return 0.0;
  };
  const Table table = {
      [](const Rows& some) {
        return part_text(fmt::format(
            R"("kind": "rtd", "name": "Sensor", "metal": "platinum", "model": {{ "kind": "table", "rows": [{}] }})",
            rows_text(some)));
      },
      [&](double t) {
        const double per_kelvin = 0.39083 - 1.155e-4 * t + (t < 0 ? 4.183e-10 * (300 - 4 * t) * t * t : 0);
        return per_kelvin * (0.3 + 0.005 * std::fabs(t)) / ohm_at(t);
      },
      as_printed};
  Report whole, parts;
  try_misprints(rows, table, whole);
  whole.print("pt100_iec60751.csv, whole");
  for (const Rows& some : shortened(rows)) try_misprints(some, table, parts, every);
  parts.print("pt100_iec60751.csv, shortened");
  EXPECT_EQ(whole.beyond_at_ends.found,
            whole.beyond_at_ends.tried); // the curve is known, so ends are no less sure
}

// The published factors as a winding of 100 Ω at 25 °C, ±1 %.
TEST(Misprints_of_copper, are_found_beyond_tolerance_and_rounding) {
  READ_OR_SKIP(csv, "copper_factor_ref25.csv");
  Rows rows;
  for (std::size_t i = 0; i < csv->rows.size(); ++i)
    rows.push_back({csv->text(i, "t_C"), fmt::format("{:.1f} Ω", 100 * csv->number(i, "factor_published"))});
  const Table table = {
      [](const Rows& some) {
        return part_text(fmt::format(
            R"("kind": "winding", "name": "Winding", "connection": "single", "model": {{ "kind": "table", "rows": [{}] }})",
            rows_text(some)));
      },
      [](double) { return 0.01; }, as_printed};
  for (const Finding& finding : lint(table.text(rows)))
    EXPECT_LT(finding.severity, Severity::warning) << text_report(finding);
  Report whole, parts;
  try_misprints(rows, table, whole);
  whole.print("copper_factor_ref25.csv, whole");
  for (const Rows& some : shortened(rows)) try_misprints(some, table, parts, every);
  parts.print("copper_factor_ref25.csv, shortened");
}

}
}
