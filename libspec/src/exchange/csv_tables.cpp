#include "exchange/csv_tables.h"

#include <algorithm>

#include <fmt/format.h>

#include "exchange/csv_findings.h"
#include "ohmlore/text.h"

namespace ohmlore {
Finding finding_in_row(const std::string& file, const Table_row_text& row, std::size_t column,
                       std::string_view rule, Severity severity, std::string message) {
  const Csv_cell* cell = column == Table::none ? nullptr : row.cell(column);
  const Table& table = all_tables()[row.table];
  if (cell == nullptr)
    return finding_in_bytes(file, row.row, 0, static_cast<std::uint32_t>(row.row.bytes.size()), rule,
                            severity, fmt::format("{} (row {})", message, row.row.number));
  return finding_in_bytes(
      file, row.row, cell->begin, cell->end, rule, severity,
      fmt::format("{} (row {}, column {})", message, row.row.number, table.columns[column].name));
}

Csv_table::Csv_table(std::size_t index, std::string file, Csv_import::Read read,
                     std::vector<Finding>& findings)
    : index_(index), file_(std::move(file)), source_(std::move(read)),
      reader_([this](char* at, std::size_t room) { return source_(at, room); }), findings_(findings) {
  readable_ = source_ != nullptr && header();
}

void Csv_table::report(std::string_view rule, std::uint32_t begin, std::uint32_t end, std::string message) {
  whole_ = false;
  if (findings_.size() < most_findings)
    findings_.push_back(finding_in_bytes(file_, row_, begin, end, rule, Severity::error, std::move(message)));
}

// The next row, or the end. All else is reported.
Csv_status Csv_table::take() {
  const Csv_status status = reader_.next(row_);
  if (auto finding = finding_about(status, file_, row_, reader_.at())) {
    whole_ = false;
    if (findings_.size() < most_findings) findings_.push_back(std::move(*finding));
  }
  return status;
}

// Columns may stand in any order, and those that are nowhere needed may be absent.
bool Csv_table::header() {
  const Table& table = all_tables()[index_];
  cells_.assign(table.columns.size(), Table::none);
  if (const Csv_status status = take(); status != Csv_status::row) {
    if (status != Csv_status::end) return false;
    row_.line = row_.number = 1;
    report("table-malformed", 0, 0,
           fmt::format("the table {} has no header; its first row names the columns", table.name));
    return false;
  }
  if (const std::size_t nul = row_.bytes.find('\0'); nul != std::string::npos) {
    const auto at = static_cast<std::uint32_t>(nul);
    report("utf8-malformed", at, at + 1,
           "a NUL byte stands here; remove it, or save the table as UTF-8 if it is in UTF-16 (row 1)");
    return false;
  }
  bool good = true;
  std::vector<std::string_view> names;
  for (const Table_column& column : table.columns) names.push_back(column.name);
  for (std::size_t i = 0; i < row_.cells.size(); ++i) {
    const Csv_cell& cell = row_.cells[i];
    const auto place = table.places.find(cell.text);
    if (place != table.places.end() && cells_[place->second] == Table::none) {
      cells_[place->second] = i;
      continue;
    }
    good = false;
    const std::string_view near = nearest_word(cell.text, names);
    report(
        "table-malformed", cell.begin, cell.end,
        place != table.places.end()
            ? fmt::format("the column {} stands here a second time", printable(cell.text))
        : cell.text.empty()
            ? std::string("a column without a name; remove it")
            : fmt::format("the table {} has no column {}{}", table.name, printable(cell.text.substr(0, 64)),
                          near.empty()
                              ? "; members of your own, and of a newer version, go into the column `others`"
                              : fmt::format("; did you mean {}?", near)));
  }
  width_ = row_.cells.size();
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    const std::string& name = table.columns[i].name;
    if ((i >= table.own_keys && name != table.key) || cells_[i] != Table::none) continue;
    good = false;
    report("table-malformed", 0, static_cast<std::uint32_t>(row_.bytes.size()),
           fmt::format("the table {} needs the column {}", table.name, name));
  }
  return good;
}

bool Csv_table::next(Table_row_text& row) {
  while (readable_) {
    if (take() != Csv_status::row) return readable_ = false;
    if (std::all_of(row_.cells.begin(), row_.cells.end(),
                    [](const Csv_cell& cell) { return cell.text.empty(); }))
      continue;
    if (row_.cells.size() != width_) {
      report("table-malformed", 0, static_cast<std::uint32_t>(row_.bytes.size()),
             fmt::format(
                 "the row has {} cells and the header has {}{} (row {})", row_.cells.size(), width_,
                 row_.cells.size() > width_
                     ? fmt::format("; a cell with `{}` in it stands in quotation marks", reader_.delimiter())
                     : "",
                 row_.number));
      continue;
    }
    row.row = std::move(row_);
    row_ = {};
    row.table = index_;
    row.cells = &cells_;
    return true;
  }
  return false;
}

}
