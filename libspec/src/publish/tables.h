// The tables that documents are as CSV: one for each kind of document and for each list or map of records,
// derived from the descriptions.
//
// A record that stands alone in another lies in the row of that one, its key before the names of its columns.
#pragma once

#include <array>
#include <functional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "ohmlore/description.h"

namespace ohmlore {

enum class Column_type : std::uint8_t { text, word, integer, number, boolean };

struct Table_column {
  std::string name;
  std::string doc;
  Column_type type = Column_type::text;
  const Field* field = nullptr; ///< of the descriptions; null for keys, ordinals and numbers
  std::string_view separator;   ///< of a list in one cell
  std::string_view unit;        ///< of a number, where it is always the same
  bool required = false;        ///< in every row
  Limits limits = {};           ///< of an integer
};

struct Text_hash {
  using is_transparent = void;
  std::size_t operator()(std::string_view text) const { return std::hash<std::string_view>()(text); }
};

struct Foreign_key {
  std::vector<std::string> columns;
  std::size_t table = 0;
  std::vector<std::string> others; ///< columns of that table
};

struct Table {
  std::string name;
  std::string doc;
  const Record* record = nullptr; ///< of a row; null for a map of plain values
  const Field* field = nullptr;   ///< the list or map; null for a kind of document
  std::size_t parent = none;
  std::vector<Table_column> columns;
  std::size_t own_keys = 0; ///< how many columns at the beginning are the keys of the rows around it
  std::string key;          ///< column of the key of a row, or empty where the ordinal is the key
  std::vector<std::string> primary_key;
  std::vector<Foreign_key> foreign_keys;
  std::unordered_map<std::string, std::size_t, Text_hash, std::equal_to<>> places; ///< of columns by name

  static constexpr std::size_t none = static_cast<std::size_t>(-1);
  bool is_root() const { return field == nullptr; }
  bool is_map() const { return field != nullptr && field->member.type->shape == Shape::map; }
};

/// All tables; a table stands behind that which holds it. Made once.
const std::vector<Table>& all_tables();

/// The table of a list or map in the rows of `parent`, or none.
std::size_t child_table(std::size_t parent, const Field& field);
/// The table of a kind of document.
std::size_t root_table(Document_kind kind);

/// A list that always has the same number of plain items has a column for each of them; else 0.
std::int64_t fixed_items(const Field& field);
/// The list or map is a table of its own.
bool is_table(const Type& type);

/// Columns that no description names.
inline constexpr std::string_view ordinal_column = "ordinal";
inline constexpr std::string_view file_column = "file";   ///< of a document, relative to the folder converted
inline constexpr std::string_view value_column = "value"; ///< of a map of plain values
inline constexpr std::string_view empty_column = "empty"; ///< names members that are there and hold nothing
inline constexpr std::string_view others_column = "others"; ///< JSON: members of others, by JSON Pointer

/// What the numbers beside a column are called. A column that is one temperature in some kinds and a range in
/// others has two in all of them: they are equal then.
std::array<std::string_view, 2> column_numbers(const Record& record, const Field& field);

/// "model_" and "at": the column of a member.
std::string column_name(std::string_view prefix, const Field& field);

/// The W3C CSVW metadata of all tables, for a delimiter.
std::string tables_metadata(char delimiter);

}
