#include "publish/tables.h"

#include <algorithm>

#include <fmt/format.h>

#include "publish/exchange_names.h"

namespace ohmlore {

bool is_table(const Type& type) {
  return type.item != nullptr && (type.shape == Shape::map || type.item->record != nullptr);
}

std::int64_t fixed_items(const Field& field) {
  const Type& type = *field.member.type;
  const bool plain = type.shape == Shape::list && type.item->record == nullptr;
  return plain && field.limits.least == field.limits.most ? field.limits.least : 0;
}

std::array<std::string_view, 2> column_numbers(const Record& record, const Field& field) {
  const Field* range = record.keys.find(record.fields, field.key, [](const Field& other) {
    return other.member.type->shape == Shape::range && !other.single;
  });
  const Field& shown = range != nullptr ? *range : field;
  return number_names(shown, *shown.member.type);
}

std::string column_name(std::string_view prefix, const Field& field) {
  return std::string(prefix).append(element_name(field));
}

namespace {

Column_type column_type(const Type& type) {
  switch (type.shape) {
  case Shape::boolean: return Column_type::boolean;
  case Shape::integer: return Column_type::integer;
  case Shape::word: return Column_type::word;
  default: return Column_type::text;
  }
}

// Ids, contacts and words have no spaces; other texts have no line breaks.
std::string_view separator_of(const Field& field, const Type& item) {
  return item.shape == Shape::text && field.form == Form::free && field.target == Target::none ? "\n" : " ";
}

std::string_view plural(std::string_view root) {
  return root == "profile" ? "profiles" : root == "part" ? "parts" : "corpora";
}

class Table_maker {
public:
  std::vector<Table> make() {
    for (const Document_kind kind : {Document_kind::profile, Document_kind::part, Document_kind::corpus})
      root(document_record(kind));
    for (std::size_t i = 0; i < tables_.size(); ++i) refer(i);
    return std::move(tables_);
  }

private:
  void root(const Record& record) {
    prefix_ = record.name == "profile" ? "" : fmt::format("{}_", record.name);
    root_name_ = record.name;
    const std::size_t index = tables_.size();
    Table& table = tables_.emplace_back();
    table.name = plural(record.name);
    table.doc = record.doc;
    table.record = &record;
    // A corpus has no id: its file is its name.
    table.key = record.name == "corpus" ? std::string(file_column) : "id";
    table.primary_key = {table.key};
    add(index, {std::string(file_column),
                "Where the document was, relative to the folder that was converted.",
                Column_type::text,
                nullptr,
                {},
                {},
                record.name == "corpus"});
    if (record.name != "corpus")
      for (const Field& field : record.fields)
        if (field.key == "id")
          add(index, {"id", std::string(field.doc), Column_type::text, &field, {}, {}, true});
    members(index, record, "");
    last_columns(index);
  }

  void child(std::size_t parent, const Field& field) {
    const Type& item = *field.member.type->item;
    const std::size_t index = tables_.size();
    tables_.emplace_back();
    Table& table = tables_[index];
    table.name = fmt::format("{}{}", prefix_, field.key);
    table.doc = field.doc;
    table.record = item.record;
    table.field = &field;
    table.parent = parent;
    // The keys of the rows around it, from the document inward.
    const Table& around = tables_[parent];
    for (std::size_t i = 0; i < around.own_keys; ++i) add(index, around.columns[i]);
    const std::string key_of_parent =
        fmt::format("{}_id", around.is_root() ? root_name_ : around.record->name);
    add(index, {key_of_parent,
                fmt::format("Key of the row of {} that it belongs to.", around.name),
                Column_type::text,
                nullptr,
                {},
                {},
                true});
    table.own_keys = around.own_keys + 1;
    add(index, {std::string(ordinal_column),
                "Its place among the rows of one parent, from 1.",
                Column_type::integer,
                nullptr,
                {},
                {},
                true,
                {1, most_items}});
    for (std::size_t i = 0; i < table.own_keys; ++i) table.primary_key.push_back(table.columns[i].name);
    Foreign_key up{table.primary_key, parent, {}};
    for (std::size_t i = 0; i < around.own_keys; ++i) up.others.push_back(around.columns[i].name);
    up.others.push_back(around.key.empty() ? std::string(ordinal_column) : around.key);
    table.foreign_keys.push_back(std::move(up));
    if (table.is_map()) {
      table.key = key_attribute(*field.member.type);
      const bool pin = table.key == "contact";
      add(index, {table.key,
                  pin ? "The contact: connector, point, pin." : "Its id.",
                  Column_type::text,
                  nullptr,
                  {},
                  {},
                  true});
      // A contact is unique in its document: so that contacts elsewhere can refer to it.
      if (pin) table.primary_key.resize(1);
    }
    table.primary_key.push_back(table.key.empty() ? std::string(ordinal_column) : table.key);
    if (table.record != nullptr) {
      members(index, *table.record, "");
      last_columns(index);
    } else {
      add(index,
          {std::string(value_column), std::string(field.doc), column_type(item), &field, {}, {}, true});
    }
  }

  void last_columns(std::size_t index) {
    add(index,
        {std::string(empty_column),
         "Members that are there and hold nothing, by the names that columns of them have or would have.",
         Column_type::text,
         nullptr,
         " ",
         {},
         false});
    add(index, {std::string(others_column),
                "JSON: members that no description names, by JSON Pointer from the record of this row.",
                Column_type::text,
                nullptr,
                {},
                {},
                false});
  }

  void members(std::size_t index, const Record& record, const std::string& prefix) {
    for (const Field& field : record.fields) {
      const bool of_root = tables_[index].is_root() && prefix.empty();
      if (of_root && (field.key == "kind" || (field.key == "id" && root_name_ != "corpus"))) continue;
      const Type& type = *field.member.type;
      if (is_table(type)) {
        if (child_of(index, field) == Table::none) child(index, field);
      } else if (type.record != nullptr) {
        members(index, *type.record, fmt::format("{}{}_", prefix, field.key));
      } else {
        plain(index, record, field, prefix);
      }
    }
  }

  void plain(std::size_t index, const Record& record, const Field& field, const std::string& prefix) {
    const Type& type = *field.member.type;
    const std::string name = column_name(prefix, field);
    const bool required =
        prefix.empty() &&
        (record.kinds == nullptr ? field.required_always() : field.required && field.kinds == every_kind);
    if (const std::int64_t items = fixed_items(field); items > 0) {
      for (std::int64_t i = 1; i <= items; ++i)
        add(index, {fmt::format("{}_{}", name, i),
                    std::string(field.doc),
                    column_type(*type.item),
                    &field,
                    {},
                    {},
                    required});
      return;
    }
    if (type.shape == Shape::list) {
      add(index, {name,
                  std::string(field.doc),
                  column_type(*type.item),
                  &field,
                  separator_of(field, *type.item),
                  {},
                  required && field.limits.least > 0});
      return;
    }
    add(index, {name, std::string(field.doc), column_type(type), &field, {}, {}, required, field.limits});
    numbers(index, record, field, name);
  }

  // Beside what is written: its value in SI, and the unit where that is not always the same.
  void numbers(std::size_t index, const Record& record, const Field& field, const std::string& name) {
    std::string_view unit;
    std::size_t units = 0;
    for (unsigned d = 0; d <= static_cast<unsigned>(Dimension::ratio); ++d) {
      const auto dimension = static_cast<Dimension>(d);
      if (!field.dimensions.has(dimension) || si_unit(dimension) == unit) continue;
      unit = si_unit(dimension);
      ++units;
    }
    if (units > 1) unit = {};
    for (const std::string_view number : column_numbers(record, field))
      if (!number.empty())
        add(index, {fmt::format("{}_{}", name, number),
                    fmt::format("{} as a number in the SI unit.",
                                number == "si" ? name : fmt::format("{} of {}", number, name)),
                    Column_type::number,
                    nullptr,
                    {},
                    unit,
                    false});
    if (units > 1)
      add(index,
          {name + "_unit", "The unit of the numbers before.", Column_type::text, nullptr, {}, {}, false});
  }

  // A field that two kinds describe differently is one column.
  void add(std::size_t index, Table_column column) {
    Table& table = tables_[index];
    const auto [place, fresh] = table.places.emplace(column.name, table.columns.size());
    if (fresh) table.columns.push_back(std::move(column));
  }

  std::size_t child_of(std::size_t parent, const Field& field) const {
    for (std::size_t i = 0; i < tables_.size(); ++i)
      if (tables_[i].parent == parent && tables_[i].field->key == field.key) return i;
    return Table::none;
  }

  // References that stand alone in a cell lead to rows of the same document.
  void refer(std::size_t index) {
    std::size_t root = index;
    while (tables_[root].parent != Table::none) root = tables_[root].parent;
    Table& table = tables_[index];
    for (const Table_column& column : table.columns) {
      if (column.field == nullptr || !column.separator.empty() || column.field->target == Target::none)
        continue;
      const bool contact = column.field->target == Target::contact;
      const std::string_view key = contact ? "pins" : target_map(column.field->target);
      for (std::size_t other = root; other < tables_.size(); ++other) {
        const Table& target = tables_[other];
        const bool found = target.field != nullptr && target.field->key == key &&
                           target.primary_key.size() == 2 && in_root(other, root);
        if (!found) continue;
        const std::string own = tables_[index].is_root() ? table.key : table.columns[0].name;
        table.foreign_keys.push_back({{own, column.name}, other, target.primary_key});
      }
    }
  }

  bool in_root(std::size_t table, std::size_t root) const {
    while (tables_[table].parent != Table::none) table = tables_[table].parent;
    return table == root;
  }

  std::vector<Table> tables_;
  std::string prefix_;
  std::string_view root_name_;
};

}

const std::vector<Table>& all_tables() {
  static const std::vector<Table> tables = Table_maker().make();
  return tables;
}

std::size_t child_table(std::size_t parent, const Field& field) {
  const std::vector<Table>& tables = all_tables();
  for (std::size_t i = parent + 1; i < tables.size(); ++i)
    if (tables[i].parent == parent && tables[i].field->key == field.key) return i;
  return Table::none;
}

std::size_t root_table(Document_kind kind) {
  const std::vector<Table>& tables = all_tables();
  for (std::size_t i = 0; i < tables.size(); ++i)
    if (tables[i].is_root() && tables[i].record == &document_record(kind)) return i;
  return Table::none;
}

}
