#include "exchange/csv_document.h"

#include <algorithm>

#include <fmt/format.h>

#include "document/syntax.h"
#include "exchange/numbers.h"
#include "text/pointer.h"

namespace ohmlore {
namespace {

std::vector<std::string> split(std::string_view text, std::string_view separator) {
  std::vector<std::string> parts;
  for (;;) {
    const std::size_t end = text.find(separator);
    parts.emplace_back(text.substr(0, end));
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + separator.size());
  }
}

// Where kinds describe one key differently, the field of the kind of this row; of a kind that has no such key
// the first, so that the reader can speak of it.
bool is_meant(const Record& record, const Field& field, std::string_view kind) {
  std::size_t number = 0;
  while (record.kinds != nullptr && number < record.kinds->words.size() &&
         record.kinds->words[number].text != kind)
    ++number;
  const Field* meant = nullptr;
  for (const Field& other : record.fields) {
    if (other.key != field.key) continue;
    if (meant == nullptr || (record.kinds != nullptr && other.in(static_cast<unsigned>(number)) &&
                             !meant->in(static_cast<unsigned>(number))))
      meant = &other;
  }
  return meant == &field;
}

bool is_implied(const Record& record, const Field& field) {
  return field.key == "kind" && record.kinds == nullptr && !field.constant.empty();
}

}

std::uint32_t Csv_document_maker::at(const Table_row_text& row, std::size_t column) {
  places_.push_back({&row, column});
  return static_cast<std::uint32_t>(places_.size() - 1);
}

void Csv_document_maker::report(const Table_row_text& row, std::size_t column, std::string_view rule,
                                std::string message, Severity severity) {
  if (findings_.size() < most_findings)
    findings_.push_back(finding_in_row(files_[row.table], row, column, rule, severity, std::move(message)));
}

std::size_t Csv_document_maker::column(const Table_row_text& row, std::string_view name) const {
  const auto& places = all_tables()[row.table].places;
  const auto found = places.find(name);
  return found == places.end() ? Table::none : found->second;
}

Csv_document_maker::Extras Csv_document_maker::extras_of(const Table_row_text& row) {
  Extras extras;
  const std::size_t empty = column(row, empty_column), others = column(row, others_column);
  if (empty != Table::none && !row.text(empty).empty())
    for (std::string& name : split(row.text(empty), " ")) extras.empty.emplace_back(std::move(name), false);
  if (others == Table::none || row.text(others).empty()) return extras;
  const Read_result read = read_json("others", row.text(others));
  const Document& json = read.document;
  if (!json.whole() || json.node(Document::root).type != Node_type::object) {
    report(row, others, "cell-malformed", "`others` is no JSON object of members by their JSON Pointer");
    return extras;
  }
  for (Node_id key = Document::root + 1; key < json.node(Document::root).next;
       key = json.node(key + 1).next) {
    const Text pointer = json.string(key);
    const std::size_t slash = pointer.rfind('/');
    if (slash == Text::npos) {
      report(row, others, "cell-malformed",
             fmt::format("\"{}\" in `others` is no JSON Pointer; it begins with /", printable(pointer)));
      continue;
    }
    extras.others.push_back({std::string(pointer.substr(0, slash)), token_text(pointer.substr(slash + 1)),
                             std::string(json.written(key + 1))});
  }
  return extras;
}

void Csv_document_maker::look_for_unmet(const Table_row_text& row, const Extras& extras) {
  for (const auto& [name, met] : extras.empty)
    if (!met)
      report(row, column(row, empty_column), "cell-malformed",
             fmt::format("`empty` names \"{}\", which is no member of this row that could hold nothing, or "
                         "holds something",
                         printable(name)));
  for (const Extras::Other& other : extras.others)
    if (!other.met)
      report(row, column(row, others_column), "cell-malformed",
             fmt::format("there is no record \"{}\" in this row for the member `{}`", printable(other.parent),
                         printable(other.key)));
}

bool Csv_document_maker::take_empty(Extras& extras, std::string_view name) {
  for (auto& [known, met] : extras.empty)
    if (known == name && !met) return met = true;
  return false;
}

Csv_document_maker::Csv_document_maker(const std::vector<std::string>& files,
                                       const std::vector<std::vector<Table_row_text>>& rows)
    : files_(files), rows_(rows), below_(rows.size()) {
  for (std::size_t table = 0; table < rows.size(); ++table)
    for (const Table_row_text& row : rows[table]) {
      Keys keys;
      for (std::size_t i = 0; i < all_tables()[table].own_keys; ++i) keys.push_back(row.text(i));
      below_[table][std::move(keys)].push_back(&row);
    }
}

const std::vector<const Table_row_text*>& Csv_document_maker::children(const Table_row_text& row,
                                                                       std::size_t table) const {
  const Table& around = all_tables()[row.table];
  Keys keys;
  for (std::size_t i = 0; i < around.own_keys; ++i) keys.push_back(row.text(i));
  keys.push_back(row.text(
      around.places.find(around.key.empty() ? ordinal_column : std::string_view(around.key))->second));
  static const std::vector<const Table_row_text*> none;
  const auto found = below_[table].find(keys);
  return found == below_[table].end() ? none : found->second;
}

bool Csv_document_maker::is_there(const Table_row_text& row, const Extras& extras, const Record& record,
                                  const std::string& prefix, const std::string& pointer) const {
  for (const Extras::Other& other : extras.others)
    if (other.parent == pointer || other.parent.starts_with(pointer + "/")) return true;
  const auto filled = [&](const std::string& name) {
    const std::size_t place = column(row, name);
    return place != Table::none && !row.text(place).empty();
  };
  for (const Field& field : record.fields) {
    const Type& type = *field.member.type;
    const std::string name = column_name(prefix, field);
    for (const auto& [empty, met] : extras.empty)
      if (empty == name) return true;
    if (is_table(type)) {
      if (!children(row, child_table(row.table, field)).empty()) return true;
    } else if (type.record != nullptr) {
      if (is_there(row, extras, *type.record, name + "_", fmt::format("{}/{}", pointer, field.key)))
        return true;
    } else if (fixed_items(field) > 0) {
      for (std::int64_t i = 1; i <= fixed_items(field); ++i)
        if (filled(fmt::format("{}_{}", name, i))) return true;
    } else {
      if (filled(name)) return true;
      for (const std::string_view number : column_numbers(record, field))
        if (!number.empty() && filled(fmt::format("{}_{}", name, number))) return true;
    }
  }
  return false;
}

void Csv_document_maker::members(const Table_row_text& row, Extras& extras, const Record& record,
                                 const std::string& prefix, const std::string& pointer) {
  std::string_view kind;
  if (record.kinds != nullptr)
    if (const std::size_t place = column(row, prefix + "kind"); place != Table::none) kind = row.text(place);
  for (const Field& field : record.fields) {
    if (is_implied(record, field) || !is_meant(record, field, kind)) continue;
    const Type& type = *field.member.type;
    const std::string name = column_name(prefix, field);
    const std::string_view key = field.key;
    if (is_table(type)) {
      const std::size_t table = child_table(row.table, field);
      const bool any = !children(row, table).empty();
      const bool is_empty = !any && take_empty(extras, name);
      if (!any && !is_empty) continue;
      const std::uint32_t place = at(row, is_empty ? column(row, empty_column) : Table::none);
      json_.key(key, place);
      children_of(row, table, field, place);
    } else if (type.record != nullptr) {
      const std::string inner = fmt::format("{}/{}", pointer, field.key);
      const bool is_empty = take_empty(extras, name);
      if (!is_empty && !is_there(row, extras, *type.record, name + "_", inner)) continue;
      const std::uint32_t place = at(row, is_empty ? column(row, empty_column) : column(row, name + "_kind"));
      json_.key(key, place);
      json_.open_object(place);
      if (!is_empty) members(row, extras, *type.record, name + "_", inner);
      json_.close_object();
    } else if (type.shape == Shape::list && take_empty(extras, name)) {
      json_.key(key, at(row, column(row, empty_column)));
      json_.open_array(at(row, column(row, empty_column)));
      json_.close_array();
    } else {
      value(row, record, field, name);
    }
  }
  for (Extras::Other& other : extras.others) {
    if (other.met || other.parent != pointer) continue;
    other.met = true;
    const std::uint32_t place = at(row, column(row, others_column));
    json_.key(other.key, place);
    json_.raw(other.json, rapidjson::kObjectType, place);
  }
}

// The rows of a list or map inside of a row, in the order of their ordinals.
void Csv_document_maker::children_of(const Table_row_text& row, std::size_t index, const Field& field,
                                     std::uint32_t place) {
  const Table& table = all_tables()[index];
  std::vector<std::pair<std::int64_t, const Table_row_text*>> sorted;
  const std::size_t ordinal = table.places.find(ordinal_column)->second;
  for (const Table_row_text* child : children(row, index)) {
    const std::string_view written = child->text(ordinal);
    const std::optional<double> number = number_in(json_number(written));
    const bool whole =
        number && *number >= 1 && *number <= 1e9 && written.find_first_of(".eE") == std::string_view::npos;
    if (!written.empty() && !whole)
      report(*child, ordinal, "cell-malformed",
             fmt::format("\"{}\" is no ordinal; write 1, 2, 3 …, or leave the column empty",
                         printable(written)));
    // Without one, and behind one that cannot be read, the order of the table holds.
    const std::int64_t last = sorted.empty() ? 0 : sorted.back().first;
    sorted.emplace_back(whole ? static_cast<std::int64_t>(*number) : last, child);
  }
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  for (std::size_t i = 1; i < sorted.size(); ++i)
    if (sorted[i].first == sorted[i - 1].first && number_in(json_number(sorted[i].second->text(ordinal))))
      report(*sorted[i].second, ordinal, "cell-malformed",
             fmt::format("the ordinal {} stands twice; number the rows of one parent in their order",
                         sorted[i].first));

  table.is_map() ? json_.open_object(place) : json_.open_array(place);
  for (const auto& [number, child] : sorted) {
    used_.insert(child);
    const std::size_t key = table.key.empty() ? Table::none : table.places.find(table.key)->second;
    if (table.is_map()) {
      std::string_view id = child->text(key);
      if (table.key == "contact") {
        const std::string_view connector = child->text(table.own_keys - 1);
        const std::size_t point = id.find('.');
        if (id.substr(0, point) != connector || point == std::string_view::npos)
          report(*child, key, "cell-malformed",
                 fmt::format("\"{}\" is no contact of the connector {}; it begins with \"{}.\"",
                             printable(id), printable(connector), printable(connector)));
        id.remove_prefix(point == std::string_view::npos ? 0 : point + 1);
      }
      json_.key(id, at(*child, key));
    }
    if (table.record == nullptr) {
      const std::size_t value = table.places.find(value_column)->second;
      scalar(*child, value, *field.member.type->item, child->text(value));
      continue;
    }
    Extras extras = extras_of(*child);
    const std::size_t kind = column(*child, "kind");
    json_.open_object(at(*child, key != Table::none               ? key
                                 : table.record->kinds != nullptr ? kind
                                                                  : Table::none));
    members(*child, extras, *table.record, "", "");
    json_.close_object();
    look_for_unmet(*child, extras);
  }
  table.is_map() ? json_.close_object() : json_.close_array();
}

void Csv_document_maker::value(const Table_row_text& row, const Record& record, const Field& field,
                               const std::string& name) {
  const std::string_view key = field.key;
  const Type& type = *field.member.type;
  if (fixed_items(field) > 0) {
    std::vector<std::size_t> filled;
    for (std::int64_t i = 1; i <= fixed_items(field); ++i)
      if (const std::size_t place = column(row, fmt::format("{}_{}", name, i)); !row.text(place).empty())
        filled.push_back(place);
    if (filled.empty()) return;
    json_.key(key, at(row, filled[0]));
    json_.open_array(at(row, filled[0]));
    for (const std::size_t place : filled) scalar(row, place, *type.item, row.text(place));
    json_.close_array();
    return;
  }
  const std::size_t place = column(row, name);
  if (!number_names(field, type)[0].empty()) compare_numbers(row, record, field, name);
  const std::string_view text = row.text(place);
  if (text.empty()) return;
  json_.key(key, at(row, place));
  if (type.shape != Shape::list) {
    scalar(row, place, type, text);
    return;
  }
  json_.open_array(at(row, place));
  for (const std::string& item : split(text, all_tables()[row.table].columns[place].separator))
    scalar(row, place, *type.item, item);
  json_.close_array();
}

void Csv_document_maker::scalar(const Table_row_text& row, std::size_t column, const Type& type,
                                std::string_view text) {
  const std::uint32_t place = at(row, column);
  // A spreadsheet writes truth values in capitals.
  if (type.shape == Shape::boolean && (text == "true" || text == "TRUE"))
    json_.raw("true", rapidjson::kTrueType, place);
  else if (type.shape == Shape::boolean && (text == "false" || text == "FALSE"))
    json_.raw("false", rapidjson::kFalseType, place);
  else if (const std::string number = json_number(text); type.shape == Shape::integer && !number.empty())
    json_.raw(number, rapidjson::kNumberType, place);
  else
    json_.text(text, place);
}

// Numbers stand beside the written quantity for other programs; the written one counts.
void Csv_document_maker::compare_numbers(const Table_row_text& row, const Record& record, const Field& field,
                                         const std::string& name) {
  const Type& type = *field.member.type;
  const std::string written(row.text(column(row, name)));
  const std::optional<Numbers> numbers = written.empty() ? std::nullopt : numbers_of(written, field, type);
  const auto names = column_numbers(record, field);
  for (std::size_t i = 0; i < names.size() && !names[i].empty(); ++i) {
    const std::size_t place = column(row, fmt::format("{}_{}", name, names[i]));
    const std::string_view given = row.text(place);
    if (given.empty()) continue;
    const std::optional<double> number = number_in(json_number(given));
    const double wanted = numbers ? numbers->values[std::min(i, numbers->count - 1)] : 0;
    if (written.empty())
      report(row, place, "number-differs",
             fmt::format("a number stands here, and nothing in {}; write the quantity there, with its unit",
                         name));
    else if (!number)
      report(row, place, "number-malformed",
             fmt::format("\"{}\" is no number{}", printable(given),
                         numbers ? fmt::format("; write {}, or leave it empty", number_text(wanted)) : ""));
    else if (numbers && !same_number(*number, wanted))
      report(row, place, "number-differs",
             fmt::format("{} says {} {}, but \"{}\" is {} {}; what is written out counts",
                         all_tables()[row.table].columns[place].name, number_text(*number), numbers->unit,
                         printable(written), number_text(wanted), numbers->unit),
             Severity::warning);
  }
  const std::size_t unit = column(row, name + "_unit");
  if (unit != Table::none && numbers && !row.text(unit).empty() && row.text(unit) != numbers->unit)
    report(row, unit, "number-differs",
           fmt::format("the unit is \"{}\"; the numbers beside \"{}\" are in {}", printable(row.text(unit)),
                       printable(written), numbers->unit));
}

void Csv_document_maker::relocate(std::vector<Finding>& findings) {
  const std::vector<Origin> origins = json_.take_origins();
  for (Finding& finding : findings) {
    const Place& place = places_[place_of(origins, finding.region.begin)];
    Finding moved = finding_in_row(files_[place.row->table], *place.row, place.column, finding.rule,
                                   finding.severity, std::move(finding.message));
    moved.pointer = std::move(finding.pointer);
    for (Fix& fix : finding.fixes)
      moved.fixes.push_back({std::move(fix.description), Fix_safety::display_only, {}});
    for (const Related& related : finding.related) {
      const Place& other = places_[place_of(origins, related.region.begin)];
      const Finding there = finding_in_row(files_[other.row->table], *other.row, other.column, "",
                                           Severity::note, related.message);
      moved.related.push_back({there.file, there.region, there.message});
    }
    finding = std::move(moved);
  }
}

Csv_document Csv_document_maker::make(std::size_t root) {
  const Table& table = all_tables()[root];
  const Table_row_text& row = rows_[root].front();
  Extras extras = extras_of(row);
  const std::uint32_t here = at(row, table.places.find(table.key)->second);
  json_.open_object(here);
  json_.key("kind", here);
  json_.text(table.record->name, here);
  members(row, extras, *table.record, "", "");
  json_.close_object();
  look_for_unmet(row, extras);
  for (const std::vector<Table_row_text>& rows : rows_)
    for (const Table_row_text& one : rows)
      if (&one != &row && !used_.contains(&one)) {
        const Table& orphan = all_tables()[one.table];
        report(one, orphan.own_keys - 1, "cell-malformed",
               fmt::format("there is no such row in {} for this document", all_tables()[orphan.parent].name));
      }

  Csv_document result;
  result.read = read_json(files_[root], json_.json());
  relocate(result.read.findings);
  std::move(findings_.begin(), findings_.end(), std::back_inserter(result.read.findings));
  result.file = row.text(table.places.find(file_column)->second);
  return result;
}

}
