#include "exchange/csv_text.h"

#include <algorithm>

#include "ohmlore/description.h"
#include "ohmlore/text.h"
#include "text/small_letters.h"

namespace ohmlore {
namespace {

constexpr std::size_t block_size = 1 << 16;

bool runs(std::string_view text) {
  if (std::string_view("=+-@\t\r'").find(text[0]) != std::string_view::npos) return true;
  std::size_t next = 0;
  const char32_t c = next_code_point(text, next);
  return c == 0xFF1D || c == 0xFF0B || c == 0xFF0D || c == 0xFF20; // full width: ＝ ＋ － ＠
}

// Numbers, dates and percentages begin with a digit or point, with or without a currency or bracket; "mar
// 21", "okt 3" and "true" are words that it knows, in the languages that sheets are printed in.
bool is_rewritten(std::string_view text) {
  const std::size_t first = std::min(text.find_first_not_of(" $(.,"), text.size());
  if (first < text.size() && text[first] >= '0' && text[first] <= '9') return true;
  const std::string small = small_letters(text);
  static constexpr std::string_view truths[] = {"true", "false", "wahr", "falsch"};
  if (std::find(std::begin(truths), std::end(truths), small) != std::end(truths)) return true;
  const auto is_letter = [](char c) {
    return (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80;
  };
  const std::string_view word(
      small.data(),
      static_cast<std::size_t>(std::find_if_not(small.begin(), small.end(), is_letter) - small.begin()));
  static constexpr std::string_view months[] = {
      "january", "february", "march",    "april", "may",  "june", "july", "august",  "september",
      "october", "november", "december", "märz",  "mÄrz", "mai",  "juni", "oktober", "dezember"};
  return word.size() >= 3 && text.find_first_of("0123456789") != std::string_view::npos &&
         std::any_of(std::begin(months), std::end(months),
                     [&](std::string_view month) { return month.starts_with(word); });
}

}

std::string guarded_cell(std::string_view text, bool spreadsheet) {
  if (text.empty()) return {};
  std::string cell;
  if (runs(text) || (spreadsheet && is_rewritten(text))) cell += '\'';
  return cell.append(text);
}

void append_cell(std::string& row, std::string_view cell, char delimiter) {
  const auto asks_for_quotes = [&](char c) { return c == '"' || c == '\r' || c == '\n' || c == delimiter; };
  if (!cell.starts_with(' ') && !cell.ends_with(' ') &&
      std::none_of(cell.begin(), cell.end(), asks_for_quotes)) {
    row += cell;
    return;
  }
  row += '"';
  for (const char c : cell) {
    if (c == '"') row += '"';
    row += c;
  }
  row += '"';
}

int Csv_reader::peek() {
  if (position_ == filled_) {
    if (ended_) return -1;
    block_.resize(block_size);
    filled_ = read_(block_.data(), block_.size());
    position_ = 0;
    ended_ = filled_ == 0;
    if (ended_) return -1;
  }
  return static_cast<unsigned char>(block_[position_]);
}

int Csv_reader::take(Csv_row& row) {
  const int c = peek();
  if (c < 0) return c;
  ++position_;
  ++offset_;
  if (c == '\n') ++line_;
  row.bytes += static_cast<char>(c);
  return c;
}

Csv_status Csv_reader::quoted(Csv_row& row, std::string& text) {
  const auto begin = static_cast<std::uint32_t>(row.bytes.size());
  take(row);
  for (;;) {
    const int c = take(row);
    at_ = begin;
    if (c < 0) return Csv_status::not_closed;
    if (row.bytes.size() > most_bytes) return Csv_status::too_long;
    if (c == '"') {
      if (peek() != '"') return Csv_status::row;
      take(row);
    }
    if (c == '\r' && peek() == '\n') continue; // a line break in a cell is LF
    text += static_cast<char>(c);
  }
}

Csv_status Csv_reader::next(Csv_row& row) {
  row.cells.clear();
  row.bytes.clear();
  if (offset_ == 0) { // a byte order mark
    Csv_row mark;
    for (const int byte : {0xEF, 0xBB, 0xBF}) {
      if (peek() != byte) break;
      take(mark);
    }
  }
  for (;;) { // empty lines
    const int c = peek();
    if (c < 0) return Csv_status::end;
    if (c != '\n' && c != '\r') break;
    Csv_row nothing;
    take(nothing);
    if (c == '\n') ++number_;
  }
  row.offset = offset_;
  row.line = line_;
  row.number = ++number_;
  for (;;) {
    Csv_cell& cell = row.cells.emplace_back();
    cell.begin = static_cast<std::uint32_t>(row.bytes.size());
    const bool has_quotes = peek() == '"';
    if (has_quotes)
      if (const Csv_status status = quoted(row, cell.text); status != Csv_status::row) return status;
    int c = -1;
    for (;;) {
      c = peek();
      const bool splits = delimiter_ != 0 ? c == delimiter_ : c == ',' || c == ';' || c == '\t';
      if (splits && delimiter_ == 0) delimiter_ = static_cast<char>(c);
      if (c < 0 || c == '\n' || splits) break;
      at_ = static_cast<std::uint32_t>(row.bytes.size());
      if (c == '\r') {
        take(row);
        row.bytes.pop_back();
        if (peek() == '\n' || peek() < 0) continue;
        c = '\n'; // lines that end in CR alone
        break;
      }
      if (has_quotes) return Csv_status::text_behind_quote;
      if (c == '"') return Csv_status::quote_inside;
      take(row);
      cell.text += static_cast<char>(c);
      if (row.bytes.size() > most_bytes) return Csv_status::too_long;
    }
    cell.end = static_cast<std::uint32_t>(row.bytes.size());
    if (c >= 0 && c != '\n') {
      take(row);
      continue;
    }
    if (peek() == '\n') {
      Csv_row nothing;
      take(nothing);
    }
    break;
  }
  if (const std::size_t bad = find_invalid_utf8(row.bytes); bad != std::string::npos) {
    at_ = static_cast<std::uint32_t>(bad);
    return Csv_status::not_utf8;
  }
  // A spreadsheet's word to itself, which it counts as no row.
  if (row.line == 1 && row.cells.size() == 2 && row.cells[0].text == "sep=" && row.cells[1].text.empty()) {
    number_ = 0;
    return next(row);
  }
  return Csv_status::row;
}

}
