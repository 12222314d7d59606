// Tables as text: RFC 4180, and what keeps a spreadsheet from running or rewriting a cell.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace ohmlore {

/// A text as it stands in a cell. A leading apostrophe is put before what a spreadsheet would run as a
/// formula (= + - @, also in full width, tab, carriage return) and before an apostrophe; with `spreadsheet`
/// also before what it would take for a number, a date or a truth value, in English or German.
std::string guarded_cell(std::string_view text, bool spreadsheet);
/// The text of a guarded cell.
inline std::string_view unguarded(std::string_view cell) {
  return cell.starts_with('\'') ? cell.substr(1) : cell;
}

/// Appends a cell with the quotation marks that it needs.
void append_cell(std::string& row, std::string_view cell, char delimiter);

struct Csv_cell {
  std::string text;
  std::uint32_t begin = 0; ///< byte offsets in the row's bytes
  std::uint32_t end = 0;
};

struct Csv_row {
  std::vector<Csv_cell> cells;
  std::string bytes;        ///< as they stand in the file, without the end of the row
  std::uint64_t offset = 0; ///< of the first byte, in the file
  std::uint32_t number = 0; ///< from 1; the header is row 1, as in a spreadsheet
  std::uint32_t line = 0;   ///< in which it begins, from 1
};

enum class Csv_status { row, end, quote_inside, text_behind_quote, not_closed, not_utf8, too_long };

/// Reads rows one after the other. Strict: what is no RFC 4180 is not repaired. Rows end in LF or CR LF.
class Csv_reader {
public:
  /// `read` fills the memory that it is given and returns how many bytes; 0 at the end.
  explicit Csv_reader(std::function<std::size_t(char*, std::size_t)> read) : read_(std::move(read)) {}

  /// The next row. On a status that is neither row nor end, `row` holds what was read of it, `at` the byte in
  /// it, and nothing more can be read. Passed over are empty lines, and the line above the header with which
  /// spreadsheets tell each other the delimiter: `sep=;`.
  Csv_status next(Csv_row& row);
  /// Found behind the first cell of the first row: a comma, a semicolon or a tab.
  char delimiter() const { return delimiter_; }
  std::uint32_t at() const { return at_; }

private:
  int peek();
  int take(Csv_row& row);
  Csv_status quoted(Csv_row& row, std::string& text);

  std::function<std::size_t(char*, std::size_t)> read_;
  std::vector<char> block_;
  std::size_t position_ = 0, filled_ = 0;
  std::uint64_t offset_ = 0;
  std::uint32_t number_ = 0, line_ = 1, at_ = 0;
  char delimiter_ = 0;
  bool ended_ = false;
};

}
