#include "support/mutants.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <set>
#include <span>

#include <fmt/format.h>
#include <rapidjson/document.h>
#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>

#include "ohmlore/document.h"
#include "ohmlore/publish.h"

namespace ohmlore::test {
namespace {

// ---- good documents

class Writer_of_examples {
public:
  Writer_of_examples(std::uint64_t seed, std::size_t optional_percent)
      : dice_(seed), optional_percent_(optional_percent) {}

  std::string document(Document_kind kind) { return record(document_record(kind), -1); }

private:
  bool full() const { return optional_percent_ >= 100; }

  std::string record(const Record& record, int kind) {
    std::string out = "{";
    for (const Field& field : record.fields) {
      if (kind >= 0 && !field.in(static_cast<unsigned>(kind))) continue;
      const bool required =
          kind >= 0 ? field.required_in(static_cast<unsigned>(kind)) : field.required_always();
      if (!required && dice_.below(100) >= optional_percent_) continue;
      const bool is_kind = kind >= 0 && &field == record.fields.data();
      if (out.size() > 1) out += ", ";
      out += fmt::format(R"("{}": {})", field.key,
                         is_kind ? quoted(record.kinds->words[static_cast<std::size_t>(kind)].text)
                                 : value(field, *field.member.type));
    }
    return out + "}";
  }

  // Kinds take turns, so that each comes up wherever a record stands often enough.
  std::string next_of(const Record& held) {
    if (held.kinds == nullptr) return record(held, -1);
    const std::size_t count = held.kinds->words.size();
    return record(held, static_cast<int>(full() ? turn_[&held]++ % count : dice_.below(count)));
  }

  std::size_t items(const Field& field, const Type& item) {
    const std::size_t wanted = !full()              ? 1 + dice_.below(2)
                               : item.record->kinds ? item.record->kinds->words.size()
                                                    : 3;
    return std::min(wanted,
                    static_cast<std::size_t>(field.limits.most != 0 ? field.limits.most : most_items));
  }

  static std::string quoted(std::string_view word) { return fmt::format(R"("{}")", word); }

  std::string value(const Field& field, const Type& type) {
    if (!field.constant.empty()) return quoted(field.constant);
    if (type.shape == Shape::record) return next_of(*type.record);
    const bool holds_records = type.item != nullptr && type.item->shape == Shape::record;
    if (!holds_records) return std::string(field.example);
    std::string out;
    for (std::size_t i = 0; i < items(field, *type.item); ++i) {
      if (i > 0) out += ", ";
      if (type.shape == Shape::map) out += fmt::format(R"("id{}": )", i + 1);
      out += next_of(*type.item->record);
    }
    return type.shape == Shape::map ? "{" + out + "}" : "[" + out + "]";
  }

  Dice dice_;
  std::size_t optional_percent_;
  std::map<const Record*, std::size_t> turn_;
};

std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

}

std::vector<std::string> documents_of_examples() {
  std::vector<std::string> documents;
  const auto kinds = {Document_kind::profile, Document_kind::part, Document_kind::corpus};
  Writer_of_examples full(1, 100);
  for (int i = 0; i < 20; ++i) // a part holds one component: as many as there are kinds
    documents.push_back(full.document(Document_kind::part));
  for (int i = 0; i < 3; ++i) documents.push_back(full.document(Document_kind::profile));
  documents.push_back(full.document(Document_kind::corpus));
  Writer_of_examples sparse(2, 30);
  for (int i = 0; i < 100; ++i)
    for (const Document_kind kind : kinds) documents.push_back(sparse.document(kind));
  return documents;
}

std::vector<std::string> documents_of_corpus() {
  std::set<std::filesystem::path> paths; // sorted: the order of a folder is not the same everywhere
  const std::filesystem::path root = OHMLORE_SOURCE_DIR "/corpus";
  if (std::filesystem::exists(root))
    for (const auto& entry : std::filesystem::recursive_directory_iterator(root))
      if (entry.path().extension() == ".json") paths.insert(entry.path());
  std::vector<std::string> documents;
  for (const auto& path : paths) documents.push_back(bytes_of(path));
  return documents;
}

// ---- mutants

using Json = rapidjson::Value;

namespace {

// RapidJSON's own iterators compare in a way that C++20 finds ambiguous.
std::span<Json::Member> members(Json& object) {
  return {object.ObjectEmpty() ? nullptr : &*object.MemberBegin(), object.MemberCount()};
}

rapidjson::Value text_value(std::string_view text, rapidjson::Document::AllocatorType& memory) {
  return Json(text.data(), static_cast<rapidjson::SizeType>(text.size()), memory);
}

// At and beyond the limits of every form of text.
const std::vector<std::string>& texts() {
  static const std::string id64(64, 'a'), id65(65, 'a');
  static const std::vector<std::string> list = {
      "",           " ",          "a",           "Z9",        "id-",         "i_d",
      "_id",        "-id",        "i d",         "é",         "x_y",         id64,
      id65,         "X4.1",       "X4",          "X4.",       ".1",          ".",
      "X4.1.2",     "X4..1",      "X 4.1",       "_4.1",      "X4._1",       id64 + "." + id64,
      id65 + ".1",  "X4." + id65, "2021",        "2021-00",   "2021-01",     "2021-12",
      "2021-13",    "2021-1",     "2021-012",    "02021-1",   "2021-12-00",  "2021-12-01",
      "2021-12-31", "2021-12-32", "2021-02-31",  "2021-12-1", "2021/12",     "2021-12-31-",
      "202a-01",    "IE",         "ie",          "IRL",       "I",           "I1",
      "/",          "/a/b",       "a/b",         "/a~b",      "#/a",         "parts",
      "parts/",     "/parts",     "../x",        "a/../b",    "a//b",        "a/.b",
      "a/b.c",      "./a",        "-a",          "_a/b-c",    "a b",         "a\\b",
      "a/..",       "a..b",       "ohmlore/1.0", "ohmlore/1", "ohmlore/2.0", "ohmlore/1.00",
      "profile",    "part",       "corpus",      "Profile",   "10 kΩ",       "10",
      "5 %"};
  return list;
}

const std::vector<std::string>& numbers() {
  static const std::vector<std::string> list = {
      "0",    "-1",      "1",       "2",        "3",   "4",    "5",
      "8",    "9",       "100",     "99",       "200", "201",  "1000",
      "1001", "1000000", "1000001", "10000001", "2.5", "-0.5", "9223372036854775807",
      "1e30"};
  return list;
}

}

struct Mutator::State {
  std::vector<std::string> documents;
  Dice dice;
  std::vector<std::string> keys, words, values;

  // Places in one document; the parent is null for the root.
  struct Spot {
    Json* value;
    Json* parent;
    rapidjson::SizeType index; // in the parent
  };
  rapidjson::Document document;

  explicit State(const std::vector<std::string>& list, std::uint64_t seed) : documents(list), dice(seed) {
    std::set<std::string> all_keys, all_words;
    for (const Record* record : published_records())
      for (const Field& field : record->fields) {
        all_keys.emplace(field.key);
        values.emplace_back(field.example);
      }
    for (const Enumeration* words_of : enumerations_of(published_records()))
      for (const Word& word : words_of->words) all_words.emplace(word.text);
    keys.assign(all_keys.begin(), all_keys.end());
    words.assign(all_words.begin(), all_words.end());
    for (const char* plain : {"null", "true", "false", "0", "1", "3", "1000000000", "2.5", "\"\"", "\"a\"",
                              "[]", "{}", "[null]", "{\"a\": null}", "[[]]"})
      values.emplace_back(plain);
  }

  static void collect(Json& value, Json* parent, rapidjson::SizeType index, std::vector<Spot>& spots) {
    spots.push_back({&value, parent, index});
    if (value.IsObject()) {
      rapidjson::SizeType i = 0;
      for (auto& member : members(value)) collect(member.value, &value, i++, spots);
    } else if (value.IsArray()) {
      for (rapidjson::SizeType i = 0; i < value.Size(); ++i) collect(value[i], &value, i, spots);
    }
  }

  template <class Wanted>
  Spot* pick(std::vector<Spot>& spots, Wanted wanted) {
    std::vector<Spot*> fit;
    for (Spot& spot : spots)
      if (wanted(spot)) fit.push_back(&spot);
    return fit.empty() ? nullptr : fit[dice.below(fit.size())];
  }

  static std::string key_of(const Spot& spot) {
    const Json& name = (spot.parent->MemberBegin() + spot.index)->name;
    return {name.GetString(), name.GetStringLength()};
  }

  // Another key than those that the object has.
  std::string other_key(const Json& object, std::string key) {
    for (;;) {
      switch (dice.below(6)) {
      case 0: key += 's'; break;
      case 1: key = dice.one_of(keys); break;
      case 2: key = "x_" + key; break;
      case 3: key = dice.one_of(texts()); break;
      case 4:
        if (!key.empty()) key.erase(dice.below(key.size()), 1);
        break;
      default: key = dice.one_of(words); break;
      }
      const bool ascii = std::all_of(key.begin(), key.end(), [](char c) { return c > 0; });
      if (ascii && !object.HasMember(key.c_str())) return key;
    }
  }

  Json parsed(const std::string& text) {
    rapidjson::Document value(&document.GetAllocator());
    value.Parse(text.c_str());
    return Json(value, document.GetAllocator());
  }

  Json any_value(std::vector<Spot>& spots) {
    if (dice.below(2) == 0) return parsed(dice.one_of(values));
    return Json(*spots[dice.below(spots.size())].value, document.GetAllocator());
  }

  // Empty where the document has no place for this damage.
  std::string damage() {
    auto& memory = document.GetAllocator();
    std::vector<Spot> spots;
    collect(document, nullptr, 0, spots);
    const auto is_member = [](const Spot& s) { return s.parent != nullptr && s.parent->IsObject(); };
    const auto of_type = [](auto test) { return [test](const Spot& s) { return test(*s.value); }; };
    Spot* spot = nullptr;
    switch (dice.below(10)) {
    case 0:
      if (!(spot = pick(spots, is_member))) return {};
      {
        std::string what = "dropped key " + key_of(*spot);
        spot->parent->EraseMember(spot->parent->MemberBegin() + spot->index);
        return what;
      }
    case 1:
      if (!(spot = pick(spots, is_member))) return {};
      {
        const std::string old = key_of(*spot), fresh = other_key(*spot->parent, old);
        (spot->parent->MemberBegin() + spot->index)->name = text_value(fresh, memory);
        return fmt::format("renamed {} to {}", old, fresh);
      }
    case 2:
      spot = pick(spots, of_type([](const Json& v) { return v.IsObject(); }));
      {
        const std::string fresh = other_key(*spot->value, dice.one_of(keys));
        Json value = any_value(spots);
        spot->value->AddMember(text_value(fresh, memory), value, memory);
        return "added key " + fresh;
      }
    case 3:
    case 4:
      spot = pick(spots, [](const Spot&) { return true; });
      *spot->value = any_value(spots);
      return "another value" + (is_member(*spot) ? " for " + key_of(*spot) : std::string());
    case 5:
      if (!(spot = pick(spots, of_type([](const Json& v) { return v.IsObject() || v.IsArray(); }))))
        return {};
      if (spot->value->IsArray())
        spot->value->Clear();
      else
        spot->value->RemoveAllMembers();
      return "emptied a container";
    case 6:
      if (!(spot = pick(spots, [&](const Spot& s) { return is_member(s) && key_of(s) == "kind"; })))
        return {};
      {
        const std::string word = dice.one_of(words);
        *spot->value = text_value(word, memory);
        return "kind changed to " + word;
      }
    case 7:
      if (!(spot = pick(spots, of_type([](const Json& v) { return v.IsString(); })))) return {};
      {
        const std::string text = dice.below(3) == 0 ? dice.one_of(words) : dice.one_of(texts());
        *spot->value = text_value(text, memory);
        return fmt::format("text \"{}\"{}", text, is_member(*spot) ? " for " + key_of(*spot) : "");
      }
    case 8:
      if (!(spot = pick(spots, of_type([](const Json& v) { return v.IsNumber(); })))) return {};
      {
        const std::string number = dice.one_of(numbers());
        *spot->value = parsed(number);
        return "number " + number;
      }
    default:
      if (!(spot = pick(spots, of_type([](const Json& v) { return v.IsArray() && !v.Empty(); })))) return {};
      {
        // Rarely beyond the limits of the longest lists, since that takes long to read.
        static const std::vector<std::size_t> few = {1, 2, 3, 16, 17, 32, 33},
                                              many = {64, 65, 100, 101, 500, 501, 1000, 1001};
        const std::size_t wanted = dice.below(8) == 0 ? dice.one_of(many) : dice.one_of(few);
        Json& list = *spot->value;
        while (list.Size() > wanted) list.PopBack();
        while (list.Size() < wanted) {
          Json copy(list[0], memory);
          list.PushBack(copy, memory);
        }
        return fmt::format("a list of {} items", wanted);
      }
    }
  }
};

Mutator::Mutator(const std::vector<std::string>& documents, std::uint64_t seed)
    : state_(std::make_unique<State>(documents, seed)) {}
Mutator::~Mutator() = default;

Mutant Mutator::next() {
  State& s = *state_;
  for (;;) {
    s.document = rapidjson::Document();
    s.document.Parse(s.dice.one_of(s.documents).c_str());
    std::string what = s.damage();
    if (what.empty()) continue;
    rapidjson::StringBuffer buffer;
    rapidjson::Writer<rapidjson::StringBuffer> writer(buffer);
    s.document.Accept(writer);
    return {{buffer.GetString(), buffer.GetSize()}, std::move(what)};
  }
}

std::vector<Mutant> mutants_by_text(const std::vector<std::string>& documents) {
  std::vector<std::string> sorted = documents;
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const std::string& a, const std::string& b) { return a.size() < b.size(); });
  std::set<std::string> maps, seen;
  for (const Record* record : published_records())
    for (const Field& field : record->fields)
      if (field.member.type->shape == Shape::map) maps.emplace(field.key);

  std::vector<Mutant> mutants;
  rapidjson::Document document;
  const auto write = [&](std::string what) {
    rapidjson::StringBuffer buffer;
    rapidjson::Writer<rapidjson::StringBuffer> writer(buffer);
    document.Accept(writer);
    mutants.push_back({{buffer.GetString(), buffer.GetSize()}, std::move(what)});
  };
  const auto try_all = [&](Json& text, const std::string& where) {
    if (!seen.insert(where).second) return;
    Json old(text, document.GetAllocator());
    for (const std::string& fresh : texts()) {
      text = text_value(fresh, document.GetAllocator());
      write(fmt::format("text \"{}\" {}", fresh, where));
    }
    text = old;
  };
  // A key means different things in different records: it counts with the key of what holds it.
  const auto visit = [&](auto& self, Json& value, const std::string& holder, const std::string& key) -> void {
    if (value.IsString()) {
      try_all(value, fmt::format("for {} in {}", key, holder));
    } else if (value.IsArray()) {
      for (Json& item : value.GetArray()) self(self, item, holder, key);
    } else if (value.IsObject() && maps.contains(key)) {
      if (!value.ObjectEmpty()) try_all(value.MemberBegin()->name, "as a key of " + key);
      for (auto& member : members(value)) self(self, member.value, key, "an entry");
    } else if (value.IsObject()) {
      const std::string& record = key == "an entry" ? holder : key;
      for (auto& member : members(value)) self(self, member.value, record, member.name.GetString());
    }
  };
  for (const std::string& json : sorted) {
    document.Parse(json.c_str());
    visit(visit, document, "", "the document");
  }
  return mutants;
}

// ---- verdicts

Document_kind kind_of(const std::string& json) {
  rapidjson::Document document;
  document.Parse(json.c_str());
  if (!document.IsObject() || !document.HasMember("kind") || !document["kind"].IsString())
    return Document_kind::profile;
  const std::string_view kind = document["kind"].GetString();
  return kind == "part"     ? Document_kind::part
         : kind == "corpus" ? Document_kind::corpus
                            : Document_kind::profile;
}

bool reader_accepts(const std::string& json, std::string& why) {
  static const std::set<std::string_view> apart = {"key-duplicate", "text-forbidden-character",
                                                   "text-too-long", "nesting-too-deep"};
  static const std::set<std::string_view> grammar = {
      "unit-missing",       "unit-of-other-dimension", "quantity-unreadable",  "decimal-comma",
      "look-alike-refused", "digits-too-many",         "quantity-out-of-reach"};
  const Read_result read = read_json("mutant.json", json);
  for (const Finding& finding : read.findings) {
    if (finding.severity != Severity::error || apart.contains(finding.rule)) continue;
    // A number where a quantity belongs is structure; a text that is none is grammar.
    if (grammar.contains(finding.rule) &&
        read.document.node(read.document.find(finding.pointer)).type == Node_type::string)
      continue;
    why = fmt::format("{}: {} [{}]", finding.pointer, finding.message, finding.rule);
    return false;
  }
  why.clear();
  return true;
}

}
