// W3C metadata for tables (Metadata Vocabulary for Tabular Data, 2015): columns, keys and units of every
// table.
#include <fmt/format.h>

#include "publish/phrases.h"
#include "publish/tables.h"
#include "text/json_memory.h"

namespace ohmlore {
namespace {

class Metadata_writer {
public:
  std::string write(char delimiter) {
    json_.SetIndent(' ', 2).SetFormatOptions(rapidjson::kFormatSingleLineArray);
    json_.StartObject();
    json_.Key("@context");
    json_.StartArray();
    text("http://www.w3.org/ns/csvw");
    json_.StartObject();
    member("@language", "en");
    json_.EndObject();
    json_.EndArray();
    member("dc:title", "Ohmlore documents as tables, version 1.0");
    member("dc:description",
           "Text that a spreadsheet would run as a formula begins with an apostrophe, and so does text that "
           "begins "
           "with one. Quantities stand as written, and beside that as numbers in the SI unit.");
    key("dialect");
    json_.StartObject();
    member("delimiter", std::string_view(&delimiter, 1));
    member("encoding", "utf-8");
    key("header");
    json_.Bool(true);
    key("lineTerminators");
    json_.StartArray();
    text("\r\n");
    text("\n");
    json_.EndArray();
    member("quoteChar", "\"");
    key("trim"); // space in a text counts, and readers differ on what holds without a word
    json_.Bool(false);
    json_.EndObject();
    key("tables");
    json_.StartArray();
    for (const Table& table : all_tables()) write(table);
    json_.EndArray();
    json_.EndObject();
    return std::string(buffer_.GetString(), buffer_.GetSize()) + '\n';
  }

private:
  void key(std::string_view name) { json_.Key(name.data(), static_cast<rapidjson::SizeType>(name.size())); }
  void text(std::string_view value) {
    json_.String(value.data(), static_cast<rapidjson::SizeType>(value.size()));
  }
  void member(std::string_view name, std::string_view value) {
    key(name);
    text(value);
  }
  void names(std::string_view name, const std::vector<std::string>& list) {
    key(name);
    json_.StartArray();
    for (const std::string& one : list) text(one);
    json_.EndArray();
  }

  void write(const Table& table) {
    json_.StartObject();
    member("url", table.name + ".csv");
    member("dc:description", table.doc);
    key("tableSchema");
    json_.StartObject();
    key("columns");
    json_.StartArray();
    for (const Table_column& column : table.columns) write(column);
    json_.EndArray();
    names("primaryKey", table.primary_key);
    key("foreignKeys");
    json_.StartArray();
    for (const Foreign_key& foreign : table.foreign_keys) {
      json_.StartObject();
      names("columnReference", foreign.columns);
      key("reference");
      json_.StartObject();
      member("resource", all_tables()[foreign.table].name + ".csv");
      names("columnReference", foreign.others);
      json_.EndObject();
      json_.EndObject();
    }
    json_.EndArray();
    json_.EndObject();
    json_.EndObject();
  }

  void write(const Table_column& column) {
    json_.StartObject();
    member("name", column.name);
    member("titles", column.name);
    member("dc:description", column.doc);
    datatype(column);
    if (column.required) {
      key("required");
      json_.Bool(true);
    }
    if (!column.separator.empty()) member("separator", column.separator);
    if (!column.unit.empty()) member("schema:unitText", column.unit);
    json_.EndObject();
  }

  void datatype(const Table_column& column) {
    const auto with = [&](std::string_view base, std::string_view format) {
      key("datatype");
      json_.StartObject();
      member("base", base);
      member("format", format);
      json_.EndObject();
    };
    switch (column.type) {
    case Column_type::number: member("datatype", "double"); return;
    case Column_type::boolean: with("boolean", "true|false"); return;
    case Column_type::integer:
      key("datatype");
      json_.StartObject();
      member("base", "integer");
      key("minimum");
      json_.Int64(column.limits.least);
      key("maximum");
      json_.Int64(column.limits.most);
      json_.EndObject();
      return;
    case Column_type::word: {
      const Type* type = column.field->member.type;
      while (type->item != nullptr) type = type->item;
      std::string words;
      for (const Word& word : type->words->words)
        words += fmt::format("{}{}", words.empty() ? "" : "|", word.text);
      with("string", words);
      return;
    }
    case Column_type::text: member("datatype", "string"); return;
    }
  }

  Json_buffer buffer_;
  Json_writer json_{buffer_};
};

}

std::string tables_metadata(char delimiter) { return Metadata_writer().write(delimiter); }

std::string tables_metadata() { return tables_metadata(','); }

}
