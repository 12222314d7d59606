// The tables of an import: each a file with a header, read row by row.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "exchange/csv_text.h"
#include "ohmlore/exchange.h"
#include "publish/tables.h"

namespace ohmlore {

/// A row with its cells at the places of the table's columns.
struct Table_row_text {
  Csv_row row;
  std::size_t table = 0;
  const std::vector<std::size_t>* cells = nullptr; ///< of a column: its cell, or Table::none

  const Csv_cell* cell(std::size_t column) const {
    return (*cells)[column] == Table::none ? nullptr : &row.cells[(*cells)[column]];
  }
  /// The text of a cell; empty where there is none.
  std::string_view text(std::size_t column) const {
    const Csv_cell* found = cell(column);
    return found == nullptr ? std::string_view() : unguarded(found->text);
  }
};

/// Where a finding about a row stands: at a cell, or at all of the row.
Finding finding_in_row(const std::string& file, const Table_row_text& row, std::size_t column,
                       std::string_view rule, Severity severity, std::string message);

class Csv_table {
public:
  Csv_table(std::size_t index, std::string file, Csv_import::Read read, std::vector<Finding>& findings);

  /// The next row that is not empty; false at the end, or where the table cannot be read on.
  bool next(Table_row_text& row);
  /// False once there was something to say against the table: then rows may be missing.
  bool is_whole() const { return whole_; }

private:
  Csv_status take();
  bool header();
  void report(std::string_view rule, std::uint32_t begin, std::uint32_t end, std::string message);

  std::size_t index_;
  std::string file_;
  Csv_import::Read source_;
  Csv_reader reader_;
  Csv_row row_;
  std::vector<std::size_t> cells_;
  std::size_t width_ = 0;
  std::vector<Finding>& findings_;
  bool readable_ = false, whole_ = true;
};

}
