// From the tree to rows of tables.
#include <algorithm>

#include <fmt/format.h>

#include "document/described.h"
#include "exchange/csv_text.h"
#include "exchange/json_escapes.h"
#include "exchange/members.h"
#include "exchange/numbers.h"
#include "ohmlore/exchange.h"
#include "publish/tables.h"

namespace ohmlore {
namespace {

constexpr std::string_view end_of_row = "\r\n";

// A row that is being filled.
class Row {
public:
  explicit Row(const Table& table) : table_(table), cells_(table.columns.size()) {}
  const Table& table() const { return table_; }

  void set(std::string_view column, std::string value) {
    set(table_.places.find(column)->second, std::move(value));
  }
  void set(std::size_t column, std::string value) { cells_[column] = std::move(value); }
  const std::string& at(std::size_t column) const { return cells_[column]; }
  void keep_empty(std::string_view name) { empty_ += fmt::format("{}{}", empty_.empty() ? "" : " ", name); }
  void keep_other(std::string_view pointer, std::string_view json) {
    others_ += fmt::format("{}{}:{}", others_.empty() ? "{" : ",", pointer, json);
  }

  std::string text(char delimiter) {
    if (!empty_.empty()) set(empty_column, empty_);
    if (!others_.empty()) set(others_column, others_ + "}");
    std::string row;
    for (std::size_t i = 0; i < cells_.size(); ++i) {
      if (i > 0) row += delimiter;
      append_cell(row, cells_[i], delimiter);
    }
    return row.append(end_of_row);
  }

private:
  const Table& table_;
  std::vector<std::string> cells_;
  std::string empty_, others_;
};

class Row_writer {
public:
  Row_writer(const Document& document, const Csv_options& options, const Csv_rows& rows)
      : document_(document), options_(options), rows_(rows) {}

  bool document(Document_kind kind, std::string_view file) {
    const std::size_t index = root_table(kind);
    Row row(all_tables()[index]);
    row.set(file_column, guard(file));
    if (const Node_id id = document_.member(Document::root, "id"); id != 0)
      row.set("id", guard(document_.string(id)));
    keys_ = {row.at(row.table().places.find(row.table().key)->second)};
    members(index, row, *row.table().record, Document::root, "", "");
    kept_.emplace_back(index, row.text(options_.delimiter));
    const bool is_read = std::all_of(kept_.begin(), kept_.end(), [](const auto& kept) {
      return kept.second.size() - end_of_row.size() <= most_bytes;
    });
    if (is_read) flush();
    return is_read;
  }

private:
  std::string guard(std::string_view text) const { return guarded_cell(text, options_.excel); }

  // Rows are kept until all are made: a table stands behind its parent, and all are written or none.
  void flush() {
    std::stable_sort(kept_.begin(), kept_.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    for (const auto& [table, text] : kept_) rows_(table, text);
    kept_.clear();
  }

  // `pointer` is that of the record from the record of the row.
  void members(std::size_t index, Row& row, const Record& record, Node_id object, const std::string& prefix,
               const std::string& pointer) {
    const Members found = members_of(document_, record, object);
    const bool of_root = row.table().is_root() && prefix.empty();
    for (std::size_t i = 0; i < record.fields.size(); ++i) {
      const Field& field = record.fields[i];
      const Node_id node = found.fields[i];
      if (node == 0) continue;
      if (of_root && (field.key == "kind" || field.key == "id")) continue;
      const Type& type = *field.member.type;
      const std::string name = column_name(prefix, field);
      const bool is_empty = document_.node(node).count == 0 &&
                            (type.item != nullptr ||
                             (type.record != nullptr && document_.node(node).type == Node_type::object));
      if (is_empty)
        row.keep_empty(name);
      else if (is_table(type))
        children(child_table(index, field), node);
      else if (type.record != nullptr)
        members(index, row, *type.record, node, name + "_", fmt::format("{}/{}", pointer, field.key));
      else
        value(row, record, field, type, node, name);
    }
    for (const Node_id key : found.others) {
      const std::string other = fmt::format("{}/{}", pointer, pointer_token(document_.string(key)));
      row.keep_other(fmt::format("\"{}\"", with_escapes(other)), document_.written(key + 1));
    }
  }

  void value(Row& row, const Record& record, const Field& field, const Type& type, Node_id node,
             const std::string& name) {
    if (type.shape == Shape::list) {
      list(row, field, node, name);
      return;
    }
    row.set(name, scalar(node));
    const auto names = column_numbers(record, field);
    if (names[0].empty()) return;
    const std::optional<Numbers> numbers = numbers_of(document_.string(node), field, type);
    if (!numbers) return;
    for (std::size_t i = 0; i < names.size() && !names[i].empty(); ++i)
      row.set((name + '_').append(names[i]), number_text(numbers->values[std::min(i, numbers->count - 1)]));
    if (const auto unit = row.table().places.find(name + "_unit"); unit != row.table().places.end())
      row.set(unit->second, std::string(numbers->unit));
  }

  std::string scalar(Node_id node) const {
    return document_.node(node).type == Node_type::string ? guard(document_.string(node))
                                                          : std::string(document_.written(node));
  }

  void list(Row& row, const Field& field, Node_id node, const std::string& name) {
    std::size_t number = 0;
    std::string all;
    const std::size_t place = fixed_items(field) > 0 ? 0 : row.table().places.find(name)->second;
    for (Node_id item = node + 1; item < document_.node(node).next; item = document_.node(item).next) {
      if (fixed_items(field) > 0) {
        row.set(fmt::format("{}_{}", name, ++number), scalar(item));
        continue;
      }
      if (number++ > 0) all += row.table().columns[place].separator;
      all += document_.string(item);
    }
    if (fixed_items(field) == 0) row.set(name, guard(all));
  }

  void children(std::size_t index, Node_id node) {
    const Table& table = all_tables()[index];
    const std::string around = keys_.back();
    std::int64_t ordinal = 0;
    for (Node_id at = node + 1; at < document_.node(node).next; at = document_.node(at).next) {
      const Text key = table.is_map() ? document_.string(at) : Text();
      if (table.is_map()) ++at;
      Row row(table);
      for (std::size_t i = 0; i < table.own_keys; ++i) row.set(i, keys_[i]);
      row.set(ordinal_column, std::to_string(++ordinal));
      std::string own = std::to_string(ordinal);
      if (table.is_map()) {
        own = guard(table.key == "contact" ? fmt::format("{}.{}", unguarded(around), key) : std::string(key));
        row.set(table.key, own);
      }
      if (table.record != nullptr) {
        keys_.push_back(own);
        members(index, row, *table.record, at, "", "");
        keys_.pop_back();
      } else {
        row.set(value_column, scalar(at));
      }
      kept_.emplace_back(index, row.text(options_.delimiter));
    }
  }

  const Document& document_;
  const Csv_options& options_;
  const Csv_rows& rows_;
  std::vector<std::string> keys_; // of the rows around, as they stand in their cells
  std::vector<std::pair<std::size_t, std::string>> kept_;
};

}

std::vector<std::string> csv_table_names() {
  std::vector<std::string> names;
  for (const Table& table : all_tables()) names.push_back(table.name);
  return names;
}

void csv_headers(const Csv_options& options, const Csv_rows& rows) {
  for (std::size_t i = 0; i < all_tables().size(); ++i) {
    std::string header = options.excel ? "\xEF\xBB\xBF" : "";
    for (const Table_column& column : all_tables()[i].columns) {
      if (&column != all_tables()[i].columns.data()) header += options.delimiter;
      header += column.name;
    }
    rows(i, header.append(end_of_row));
  }
}

std::string csv_metadata(const Csv_options& options) { return tables_metadata(options.delimiter); }

bool csv_of(const Read_result& read, std::string_view file, const Csv_options& options,
            const Csv_rows& rows) {
  if (!is_readable(read)) return false;
  return Row_writer(read.document, options, rows).document(kind_of(read.document), file);
}

}
