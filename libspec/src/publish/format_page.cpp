// The tables of spec/v1/format.md, from the descriptions.
#include <fmt/format.h>

#include "ohmlore/publish.h"
#include "publish/phrases.h"
#include "publish/records.h"

namespace ohmlore {
namespace {

std::string kind_words(const Record& record, std::uint64_t kinds) {
  std::string out;
  for (unsigned kind = 0; kind < record.kinds->words.size(); ++kind)
    if ((kinds >> kind) & 1u)
      out += fmt::format("{}`{}`", out.empty() ? "" : ", ", record.kinds->words[kind].text);
  return out;
}

// A reference in the model to a described thing becomes a link to the line that each table and list begins
// with.
std::string link(std::string_view words, std::string_view anchor) {
  return fmt::format("[{}](#{})", words, anchor);
}

std::string counted(const Field& field) {
  const std::int64_t least = field.limits.least;
  const std::int64_t most = field.limits.most;
  if (most == 0) return least == 0 ? "" : fmt::format(", at least {}", least);
  return least == most ? fmt::format(", exactly {}", most) : fmt::format(", {} to {}", least, most);
}

std::string value_words(const Field& field, const Type& type) {
  switch (type.shape) {
  case Shape::text:
    if (!field.constant.empty()) return fmt::format("`{}`", field.constant);
    if (field.target != Target::none)
      return fmt::format("{} of {}", link("id", "ids"), target_words(field.target));
    switch (field.form) {
    case Form::free: return "text";
    case Form::any: return "text, may be empty";
    case Form::id: return link("id", "ids");
    case Form::date: return link("date", "dates");
    case Form::country: return "two capital letters";
    case Form::pointer: return "JSON Pointer";
    case Form::path: return link("path", "paths");
    case Form::version: return "version, MAJOR.MINOR";
    }
    return {};
  case Shape::boolean: return "true or false";
  case Shape::integer: return fmt::format("integer, {} to {}", field.limits.least, field.limits.most);
  case Shape::word:
    return field.constant.empty() ? link("word", fmt::format("words-{}", type.words->name))
                                  : fmt::format("`{}`", field.constant);
  case Shape::contact: return link("contact", "contacts");
  case Shape::quantity:
    return fmt::format("{}: {}", link("quantity", "quantities"), dimension_words(field.dimensions));
  case Shape::tolerance:
    return fmt::format("{}: {}", link("tolerance", "quantities"), dimension_words(field.dimensions));
  case Shape::range:
    return fmt::format("{}: {}", link(field.single ? "quantity" : "range", "quantities"),
                       dimension_words(field.dimensions));
  case Shape::record: return link(type.record->name, fmt::format("fields-{}", type.record->name));
  case Shape::list: return fmt::format("list of {}{}", value_words(field, *type.item), counted(field));
  case Shape::map:
    return fmt::format("{} of {}{}", link("map", "maps"), value_words(field, *type.item), counted(field));
  }
  return {};
}

std::string required_words(const Record& record, const Field& field) {
  if (field.required) return "yes";
  if (field.required_by == 0) return "";
  return (field.required_by & field.kinds) == field.kinds ? "yes"
                                                          : "in " + kind_words(record, field.required_by);
}

const Record* find_record(std::string_view name) {
  for (const Record* record : published_records())
    if (record->name == name) return record;
  return nullptr;
}

const Enumeration* find_enumeration(std::string_view name) {
  for (const Enumeration* words : enumerations_of(published_records()))
    if (words->name == name) return words;
  return nullptr;
}

}

std::string field_table(const Record& record) {
  const bool variant = record.kinds != nullptr;
  std::string out = fmt::format("<a id=\"fields-{}\"></a>\n\n", record.name);
  out += variant ? "| key | value | required | kinds | meaning |\n| --- | --- | --- | --- | --- |\n"
                 : "| key | value | required | meaning |\n| --- | --- | --- | --- |\n";
  for (const Field& field : record.fields) {
    out += fmt::format("| `{}` | {} | {} |", field.key, value_words(field, *field.member.type),
                       required_words(record, field));
    if (variant)
      out += fmt::format(" {} |", field.kinds == every_kind ? "all" : kind_words(record, field.kinds));
    out += fmt::format(" {} |\n", field.doc);
  }
  return out;
}

std::string word_list(const Enumeration& enumeration) {
  std::string out = fmt::format("<a id=\"words-{}\"></a>\n\n", enumeration.name);
  for (const Word& word : enumeration.words) out += fmt::format("- `{}`: {}\n", word.text, word.doc);
  return out;
}

namespace {

// One marked block, or an empty text and a problem.
std::string block(std::string_view what, std::string_view name, std::vector<std::string>& problems) {
  if (what == "fields") {
    if (const Record* record = find_record(name)) return field_table(*record);
    problems.push_back(fmt::format("format.md asks for the fields of `{}`, which is no record", name));
  } else {
    if (const Enumeration* words = find_enumeration(name)) return word_list(*words);
    problems.push_back(fmt::format("format.md asks for the words of `{}`, which is no enumeration", name));
  }
  return {};
}

}

std::string fill_format_page(std::string_view page, std::vector<std::string>& problems) {
  constexpr std::string_view end_mark = "<!-- end -->";
  std::string out;
  for (;;) {
    const std::size_t fields = page.find("<!-- fields: ");
    const std::size_t words = page.find("<!-- words: ");
    const std::size_t begin = std::min(fields, words);
    if (begin == std::string_view::npos) break;
    const std::string_view what = begin == fields ? "fields" : "words";
    const std::size_t name_begin = begin + std::string_view("<!-- : ").size() + what.size();
    const std::size_t name_end = page.find(" -->", name_begin);
    const std::size_t end = page.find(end_mark, begin);
    if (name_end == std::string_view::npos || end == std::string_view::npos || end < name_end) {
      problems.push_back(fmt::format("format.md opens a block of {} and does not end it", what));
      break;
    }
    const std::string_view name = page.substr(name_begin, name_end - name_begin);
    out += page.substr(0, name_end);
    out += fmt::format(" -->\n{}{}", block(what, name, problems), end_mark);
    page.remove_prefix(end + end_mark.size());
  }
  out += page;
  return out;
}

}
