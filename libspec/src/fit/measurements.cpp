// The table of readings: columns found, units settled, every cell that cannot be used named.
#include <algorithm>
#include <cstring>

#include <fmt/format.h>

#include "document/wording.h"
#include "exchange/csv_findings.h"
#include "judge/typed.h"
#include "lint/rule.h"
#include "ohmlore/description.h"
#include "ohmlore/document.h"
#include "ohmlore/fit.h"
#include "ohmlore/text.h"
#include "text/counted.h"
#include "text/cut.h"
#include "text/small_letters.h"

namespace ohmlore {
namespace {

using rules::quoted;

enum Column : std::size_t { specimen, temperature, resistance, note };
constexpr std::string_view column_names[] = {"specimen", "temperature", "resistance", "note"};
constexpr std::size_t column_count = std::size(column_names);
constexpr std::size_t absent = static_cast<std::size_t>(-1);

bool is_number(std::string_view text) {
  return !text.empty() && text.find_first_of("0123456789") != std::string_view::npos &&
         text.find_first_not_of("0123456789.+-") == std::string_view::npos;
}

// "temperature (°C)", "temperature [°C]", "temperature / °C", "temperature in °C"
struct Heading {
  std::string name;
  std::string_view unit;
};
Heading heading_of(std::string_view cell) {
  cell = trimmed(cell);
  Heading heading{std::string(cell), {}};
  for (const auto& [open, close] : {std::pair("(", ")"), {"[", "]"}, {" / ", ""}, {" in ", ""}}) {
    const std::size_t at = cell.find(open);
    if (at == std::string_view::npos || !cell.ends_with(close)) continue;
    heading.name = trimmed(cell.substr(0, at));
    heading.unit = trimmed(cell.substr(at + std::strlen(open)));
    heading.unit.remove_suffix(std::min(heading.unit.size(), std::strlen(close)));
    break;
  }
  heading.name = small_letters(heading.name);
  return heading;
}

class Table_reader {
public:
  Table_reader(std::string name, std::string_view bytes)
      : bytes_(bytes), reader_([this](char* at, std::size_t room) {
          const std::size_t n = std::min(room, bytes_.size());
          std::memcpy(at, bytes_.data(), n);
          bytes_.remove_prefix(n);
          return n;
        }) {
    result_.measurements.emplace();
    table().file = std::move(name);
  }

  Measurements_result read() {
    if (!next()) {
      row_ = {};
      row_.line = 1;
      if (result_.findings.empty())
        report(0, 0, "measurements-unfit",
               "the table is empty; its first row names the columns: specimen,temperature,resistance");
    } else if (header()) {
      while (next()) row();
      if (table().readings.empty() && result_.findings.empty())
        report(0, 0, "measurements-unfit", "the table has a header, but no readings below it");
    }
    if (!result_.findings.empty()) result_.measurements.reset();
    return std::move(result_);
  }

private:
  Measurements& table() { return *result_.measurements; }

  void report(std::uint32_t begin, std::uint32_t end, std::string_view rule, std::string message) {
    if (result_.findings.size() < most_findings)
      result_.findings.push_back(
          finding_in_bytes(table().file, row_, begin, end, rule, Severity::error, std::move(message)));
  }
  void report(const Csv_cell& cell, std::string_view rule, std::string message) {
    report(cell.begin, cell.end, rule, std::move(message));
  }
  void report_row(std::string_view rule, std::string message) {
    report(0, static_cast<std::uint32_t>(row_.bytes.size()), rule, std::move(message));
  }

  // The next row that holds something. False at the end, and where nothing more can be read.
  bool next() {
    do {
      const Csv_status status = reader_.next(row_);
      if (auto finding = finding_about(status, table().file, row_, reader_.at()))
        result_.findings.push_back(std::move(*finding));
      if (status != Csv_status::row) return false;
    } while (std::all_of(row_.cells.begin(), row_.cells.end(),
                         [](const Csv_cell& cell) { return trimmed(cell.text).empty(); }));
    return true;
  }

  bool header() {
    width_ = row_.cells.size();
    std::fill(std::begin(cells_), std::end(cells_), absent);
    const std::size_t before = result_.findings.size();
    for (std::size_t i = 0; i < width_; ++i) {
      const Csv_cell& cell = row_.cells[i];
      const Heading heading = heading_of(cell.text);
      const auto* place = std::find(std::begin(column_names), std::end(column_names), heading.name);
      if (place == std::end(column_names)) {
        const std::string_view near = nearest_word(heading.name, column_names);
        report(cell, "table-malformed",
               heading.name.empty()
                   ? std::string("a column without a name; remove it, or name it note")
                   : fmt::format("there is no column {} here{}", quoted(heading.name),
                                 near.empty() ? "; known are specimen, temperature, resistance and note"
                                              : fmt::format("; did you mean {}?", near)));
        continue;
      }
      const auto column = static_cast<std::size_t>(place - std::begin(column_names));
      if (cells_[column] != absent) {
        report(cell, "table-malformed",
               fmt::format("the column {} stands here a second time; remove one of the two", *place));
        continue;
      }
      cells_[column] = i;
      if (!heading.unit.empty()) unit_of_column(cell, column, heading.unit);
    }
    for (const std::size_t needed : {temperature, resistance})
      if (cells_[needed] == absent && result_.findings.size() == before)
        report_row("table-malformed",
                   fmt::format("the column {} is missing; the first row names the columns: "
                               "specimen,temperature,resistance",
                               column_names[needed]));
    return result_.findings.size() == before;
  }

  void unit_of_column(const Csv_cell& cell, std::size_t column, std::string_view unit) {
    if (column == specimen || column == note) return;
    const auto dimension = column == temperature ? Dimension::temperature : Dimension::resistance;
    const auto one = parse_quantity(fmt::format("300 {}", unit), dimension);
    if (one.value)
      units_[column] = unit;
    else
      report(cell, rule_of(one.problem->kind),
             fmt::format("{} is no unit of {}; write for example \"{} ({})\"", quoted(unit),
                         dimension_name(dimension), column_names[column],
                         column == temperature ? "°C" : "kΩ"));
  }

  // The value of a cell, its unit from the column's name where it has none of its own.
  std::optional<Quantity> quantity(std::size_t column, Dimension dimension) {
    const Csv_cell& cell = row_.cells[cells_[column]];
    const std::string_view written = trimmed(unguarded(cell.text));
    if (written.empty()) {
      report(cell, "measurements-unfit",
             fmt::format("row {} has no {}; fill the cell, or remove the row", row_.number,
                         column_names[column]));
      return std::nullopt;
    }
    const std::string_view unit = units_[column];
    const std::string text =
        is_number(written) && !unit.empty() ? fmt::format("{} {}", written, unit) : std::string(written);
    const auto read = parse_quantity(text, dimension);
    if (read.value) return read.value;
    std::string message =
        fmt::format("{} in row {}: {}", column_names[column], row_.number, printable(read.problem->detail));
    if (dimension == Dimension::resistance && (written == "OL" || written == "O.L" || written == "0L"))
      message = fmt::format("{} in row {} is no resistance: the specimen is open, or the range was too low; "
                            "a part is fitted to "
                            "readings of good specimens, so remove the row",
                            written, row_.number);
    else if (read.problem->kind == Unit_problem::Kind::unit_missing)
      message = fmt::format("{0} in row {1}: {2}; or name the column \"{0} ({3})\"", column_names[column],
                            row_.number, without_unit(printable(written), dimension),
                            column == temperature ? "°C" : "kΩ");
    else if (!read.problem->suggestion.empty())
      message += fmt::format("; write \"{}\"", read.problem->suggestion);
    report(cell, rule_of(read.problem->kind), std::move(message));
    return std::nullopt;
  }

  void row() {
    if (row_.cells.size() != width_) {
      const bool more = row_.cells.size() > width_;
      report_row("table-malformed",
                 fmt::format("row {} has {} and the header has {}{}", row_.number,
                             counted(row_.cells.size(), "cell"), width_,
                             !more ? ""
                             : reader_.delimiter() == ','
                                 ? "; a decimal comma splits a number in two: write 15.25 kΩ, with a point"
                                 : "; a cell with a separator in it stands in quotation marks"));
      return;
    }
    if (table().readings.size() == most_fit_readings) {
      if (result_.findings.empty())
        report_row("measurements-unfit",
                   fmt::format("more than {} readings; fit fewer of them at once", most_fit_readings));
      return;
    }
    Fit_reading reading;
    const auto at = quantity(temperature, Dimension::temperature);
    const auto ohm = quantity(resistance, Dimension::resistance);
    const bool named = specimen_of(reading);
    if (!at || !ohm || !named) return;
    const Csv_cell& cell = row_.cells[cells_[resistance]];
    const Csv_cell& at_cell = row_.cells[cells_[temperature]];
    constexpr Interval sensible = {zero_celsius - 200, zero_celsius + 850};
    if (!sensible.contains(at->si)) {
      report(at_cell, "measurements-unfit",
             fmt::format("{} in row {} is no temperature at which parts are measured (-200 °C to 850 °C)",
                         rules::celsius(at->si), row_.number));
      return;
    }
    if (!(ohm->si > 0)) {
      report(
          cell, "value-not-positive",
          fmt::format(
              "{} in row {} is not above 0 Ω: a voltage was present, the leads were nulled wrongly, or the "
              "specimen is short",
              quoted(trimmed(cell.text)), row_.number));
      return;
    }
    reading.kelvin = at->si;
    reading.ohm = ohm->si;
    reading.kelvin_half_digit = at->half_digit;
    reading.ohm_half_digit = ohm->half_digit;
    const auto region = [&](const Csv_cell& of) {
      return finding_in_bytes({}, row_, of.begin, of.end, {}, Severity::error, {}).region;
    };
    reading.place = {row_.number, region(cell), region(at_cell),
                     std::string(line_at(row_.bytes, cell.begin))};
    table().readings.push_back(std::move(reading));
  }

  bool specimen_of(Fit_reading& reading) {
    auto& names = table().specimens;
    std::string name;
    if (cells_[specimen] != absent) {
      const Csv_cell& cell = row_.cells[cells_[specimen]];
      name = trimmed(unguarded(cell.text));
      if (name.empty() || name.size() > 64) {
        report(cell, "measurements-unfit",
               name.empty()
                   ? fmt::format("row {} does not say which specimen was read", row_.number)
                   : fmt::format("the name of the specimen in row {} has more than 64 bytes", row_.number));
        return false;
      }
    }
    const auto place = std::find(names.begin(), names.end(), name);
    reading.specimen = static_cast<std::size_t>(place - names.begin());
    if (place != names.end()) return true;
    if (names.size() == most_fit_specimens) {
      report_row("measurements-unfit",
                 fmt::format("row {} would be of specimen {}; fit at most {} of them at once", row_.number,
                             names.size() + 1, most_fit_specimens));
      return false;
    }
    names.push_back(std::move(name));
    return true;
  }

  std::string_view bytes_;
  Csv_reader reader_;
  Csv_row row_;
  std::size_t cells_[column_count] = {};
  std::string units_[column_count];
  std::size_t width_ = 0;
  Measurements_result result_;
};

}

Measurements_result read_measurements(std::string name, std::string_view bytes) {
  return Table_reader(std::move(name), bytes).read();
}

}
