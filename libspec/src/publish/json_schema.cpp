// JSON Schemas (draft-07) from the descriptions.
//
// A variant is two layers: an open base with what all kinds share, and for each kind a closed record that is
// complete in itself. The base says no more than the reader does while `kind` is missing or unknown; `if`
// demands `kind`, so that one mistake gives one message. Nothing stands beside a `$ref`, where draft-07 would
// ignore it.
#include <algorithm>

#include <fmt/format.h>

#include "ohmlore/publish.h"
#include "publish/phrases.h"
#include "publish/records.h"
#include "text/json_memory.h"

namespace ohmlore {
namespace {

constexpr std::string_view id_pattern = "^[A-Za-z0-9][A-Za-z0-9_-]{0,63}$";
constexpr std::string_view contact_pattern =
    "^[A-Za-z0-9][A-Za-z0-9_-]{0,63}[.][A-Za-z0-9][A-Za-z0-9_-]{0,63}$";

// ASCII, without repeated groups and `\d`: read alike by every engine, and without deep recursion.
std::string_view pattern_of(Form form) {
  switch (form) {
  case Form::free:
  case Form::any: return {};
  case Form::id: return id_pattern;
  case Form::date: return "^[0-9]{4}-(0[1-9]|1[0-2])$|^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$";
  case Form::country: return "^[A-Z][A-Z]$";
  case Form::pointer: return "^/";
  case Form::path: return "^(?!.*/[./])[A-Za-z0-9_][A-Za-z0-9_./-]*$";
  case Form::version: return "^(0|[1-9][0-9]{0,3})\\.(0|[1-9][0-9]{0,3})$";
  }
  return {};
}

class Schema_writer {
public:
  Schema_writer() { out_.SetIndent(' ', 2).SetFormatOptions(rapidjson::kFormatSingleLineArray); }

  std::string publish(const Record& root, std::string_view name, std::string_view title) {
    out_.StartObject();
    member("$schema", "http://json-schema.org/draft-07/schema#");
    member("$id", fmt::format("https://example.org/ohmlore/v1/{}.schema.json", name));
    member("$comment", "Written by `ohmlore schema --write-spec`; not edited by hand.");
    member("title", title);
    member("description", root.doc);
    closed(root, -1);
    key("definitions");
    out_.StartObject();
    for (const Record* record : records_of(root)) {
      if (record == &root) continue;
      if (record->kinds == nullptr)
        plain_definition(*record);
      else
        variant_definitions(*record);
    }
    out_.EndObject();
    out_.EndObject();
    return std::string(buffer_.GetString(), buffer_.GetSize()) + '\n';
  }

private:
  void key(std::string_view name) { out_.Key(name.data(), static_cast<rapidjson::SizeType>(name.size())); }
  void text(std::string_view value) {
    out_.String(value.data(), static_cast<rapidjson::SizeType>(value.size()));
  }
  void member(std::string_view name, std::string_view value) {
    key(name);
    text(value);
  }
  void member(std::string_view name, std::int64_t value) {
    key(name);
    out_.Int64(value);
  }
  // A whole value, on one line.
  void reference(std::string_view pointer) {
    raw(fmt::format(R"({{ "$ref": "#/definitions/{}" }})", pointer));
  }
  void raw(std::string_view json) { out_.RawValue(json.data(), json.size(), rapidjson::kObjectType); }

  static std::string definition_of_kind(const Record& record, unsigned kind) {
    return fmt::format("{}_{}", record.name, record.kinds->words[kind].text);
  }

  void plain_definition(const Record& record) {
    key(record.name);
    out_.StartObject();
    member("title", record.title);
    member("description", record.doc);
    closed(record, -1);
    out_.EndObject();
  }

  void variant_definitions(const Record& record) {
    const auto kinds = static_cast<unsigned>(record.kinds->words.size());
    key(record.name);
    out_.StartObject();
    member("title", record.title);
    member("description", record.doc);
    member("type", "object");
    required(record, -1);
    key("properties");
    out_.StartObject();
    for (const Field& field : record.fields)
      if (field.kinds == every_kind) property(field);
    out_.EndObject();
    key("allOf");
    out_.StartArray();
    for (unsigned kind = 0; kind < kinds; ++kind) branch(record, kind);
    out_.EndArray();
    out_.EndObject();

    for (unsigned kind = 0; kind < kinds; ++kind) {
      key(definition_of_kind(record, kind));
      out_.StartObject();
      member("title", fmt::format("{} of kind {}", record.title, record.kinds->words[kind].text));
      member("description", record.kinds->words[kind].doc);
      closed(record, static_cast<int>(kind));
      out_.EndObject();
    }
  }

  void branch(const Record& record, unsigned kind) {
    out_.StartObject();
    key("if");
    out_.StartObject();
    member("type", "object"); // what is no object has no kind: else every branch would complain
    key("required");
    out_.StartArray();
    text("kind");
    out_.EndArray();
    key("properties");
    out_.StartObject();
    key("kind");
    out_.StartObject();
    member("const", record.kinds->words[kind].text);
    out_.EndObject();
    out_.EndObject();
    out_.EndObject();
    key("then");
    reference(definition_of_kind(record, kind));
    out_.EndObject();
  }

  // The members of a closed record; of a variant, of one kind.
  void closed(const Record& record, int kind) {
    member("type", "object");
    required(record, kind);
    key("properties");
    out_.StartObject();
    for (const Field& field : record.fields) {
      if (kind < 0)
        property(field);
      else if (&field == record.fields.data())
        kind_property(record, static_cast<unsigned>(kind));
      else if (field.kinds == every_kind && field.member.type->shape != Shape::map)
        common_property(record, field); // a map in full: valijson 1.0 loses `propertyNames` behind a `$ref`
      else if (field.in(static_cast<unsigned>(kind)))
        property(field);
    }
    out_.EndObject();
    key("patternProperties");
    out_.StartObject();
    key("^x_");
    out_.StartObject();
    out_.EndObject();
    out_.EndObject();
    key("additionalProperties");
    out_.Bool(false);
  }

  void required(const Record& record, int kind) {
    auto is_required = [&](const Field& field) {
      return kind < 0 ? field.required_always() : field.required_in(static_cast<unsigned>(kind));
    };
    if (std::none_of(record.fields.begin(), record.fields.end(), is_required)) return;
    key("required");
    out_.StartArray();
    for (const Field& field : record.fields)
      if (is_required(field)) text(field.key);
    out_.EndArray();
  }

  void kind_property(const Record& record, unsigned kind) {
    const Word& word = record.kinds->words[kind];
    key("kind");
    out_.StartObject();
    member("description", word.doc);
    key("examples");
    out_.StartArray();
    text(word.text);
    out_.EndArray();
    member("const", word.text);
    out_.EndObject();
  }

  void common_property(const Record& record, const Field& field) {
    key(field.key);
    reference(fmt::format("{}/properties/{}", record.name, field.key));
  }

  void property(const Field& field) {
    const Type& type = *field.member.type;
    key(field.key);
    out_.StartObject();
    member("description", fmt::format("{}{}", field.doc, addition(field, innermost(type))));
    key("examples");
    out_.StartArray();
    raw(field.example);
    out_.EndArray();
    if (type.shape == Shape::record) {
      key("allOf");
      out_.StartArray();
      item(field, type);
      out_.EndArray();
    } else {
      constraints(field, type);
    }
    out_.EndObject();
  }

  // What the one line of documentation leaves to the type.
  static std::string addition(const Field& field, const Type& type) {
    switch (type.shape) {
    case Shape::word: {
      std::string out;
      if (field.constant.empty())
        for (const Word& word : type.words->words) out += fmt::format("\n- `{}`: {}", word.text, word.doc);
      return out;
    }
    case Shape::contact: return " Written as connector, point, pin: X4.1.";
    case Shape::quantity: return fmt::format(" A quantity: {}.", dimension_words(field.dimensions));
    case Shape::tolerance: return fmt::format(" A tolerance: {}.", dimension_words(field.dimensions));
    case Shape::range:
      return fmt::format("{}: {}.", field.single ? " A quantity" : " One quantity, or two with `to` between",
                         dimension_words(field.dimensions));
    case Shape::text:
      return field.target == Target::none ? "" : fmt::format(" Refers to {}.", target_words(field.target));
    default: return {};
    }
  }

  void item(const Field& field, const Type& type) {
    if (type.shape == Shape::record) {
      reference(type.record->name);
      return;
    }
    out_.StartObject();
    constraints(field, type);
    out_.EndObject();
  }

  void constraints(const Field& field, const Type& type) {
    switch (type.shape) {
    case Shape::text: text_constraints(field); return;
    case Shape::boolean: member("type", "boolean"); return;
    case Shape::integer:
      member("type", "integer");
      member("minimum", field.limits.least);
      member("maximum", field.limits.most);
      return;
    case Shape::word:
      if (!field.constant.empty()) {
        member("const", field.constant);
        return;
      }
      key("enum");
      out_.StartArray();
      for (const Word& word : type.words->words) text(word.text);
      out_.EndArray();
      return;
    case Shape::contact:
      member("type", "string");
      member("pattern", contact_pattern);
      return;
    case Shape::quantity:
    case Shape::tolerance:
    case Shape::range:
      // Their grammar is for the reader alone: a pattern could neither say it nor say what is wrong.
      member("type", "string");
      member("minLength", 1);
      return;
    case Shape::list:
      member("type", "array");
      if (field.limits.least > 0) member("minItems", field.limits.least);
      member("maxItems", most_of(field));
      key("items");
      item(field, *type.item);
      return;
    case Shape::map:
      member("type", "object");
      if (field.limits.least > 0) member("minProperties", field.limits.least);
      member("maxProperties", most_of(field));
      key("propertyNames");
      out_.StartObject();
      member("pattern", id_pattern);
      out_.EndObject();
      key("additionalProperties");
      item(field, *type.item);
      return;
    case Shape::record: return;
    }
  }

  void text_constraints(const Field& field) {
    if (!field.constant.empty()) {
      member("const", field.constant);
      return;
    }
    member("type", "string");
    if (field.form != Form::any) member("minLength", 1);
    if (const std::string_view pattern = pattern_of(field.form); !pattern.empty()) member("pattern", pattern);
  }

  Json_buffer buffer_;
  Json_writer out_{buffer_};
};

}

std::string json_schema(Document_kind kind) {
  const Record& record = document_record(kind);
  return Schema_writer().publish(record, record.name, fmt::format("Ohmlore {}, version 1.0", record.name));
}

std::string report_schema() {
  return Schema_writer().publish(report_record, report_record.name,
                                 "Report of ohmlore lint --format json, version 1.0");
}

std::string judgement_schema() {
  return Schema_writer().publish(judgement_record, judgement_record.name,
                                 "Report of ohmlore judge --format json, version 1.0");
}

std::string plan_schema() {
  return Schema_writer().publish(plan_record, plan_record.name,
                                 "Report of ohmlore plan --format json, version 1.0");
}

std::string job_schema() {
  return Schema_writer().publish(job_record, job_record.name,
                                 "Record of a job, as ohmlore plan --record writes it, version 1.0");
}

std::string baseline_schema() {
  return Schema_writer().publish(baseline_record, baseline_record.name,
                                 "Baseline, as ohmlore lint --write-baseline writes it, version 1.0");
}

std::string find_schema() {
  return Schema_writer().publish(find_record, find_record.name,
                                 "Report of ohmlore find --format json, version 1.0");
}

std::string fit_schema() {
  return Schema_writer().publish(fit_record, fit_record.name,
                                 "Report of ohmlore fit --format json, version 1.0");
}

std::string diff_schema() {
  return Schema_writer().publish(diff_record, diff_record.name,
                                 "Report of ohmlore diff --format json, version 1.0");
}

}
