// A schema that is called compatible accepts whatever the older one accepts: random changes of the published
// schema of profiles, judged by valijson over documents and their mutants.
#include "ohmlore/compatibility.h"

#include <gtest/gtest.h>

#include <rapidjson/document.h>
#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>

#include <algorithm>

#include "ohmlore/publish.h"
#include "ohmlore/schema_engine.h"
#include "support/cases.h"
#include "support/mutants.h"

namespace ohmlore {
namespace {

using test::Dice;

// Sanitizers make the general engine some thirty times slower: they see a few of the changes.
constexpr int changes = test::cases(100);

std::string written(const rapidjson::Value& value) {
  rapidjson::StringBuffer buffer;
  rapidjson::Writer<rapidjson::StringBuffer> out(buffer);
  value.Accept(out);
  return {buffer.GetString(), buffer.GetSize()};
}

void collect(rapidjson::Value& schema, std::vector<rapidjson::Value*>& objects) {
  if (schema.IsArray())
    for (rapidjson::Value& item : schema.GetArray()) collect(item, objects);
  if (!schema.IsObject()) return;
  objects.push_back(&schema);
  std::for_each(schema.MemberBegin(), schema.MemberEnd(),
                [&objects](auto& member) { collect(member.value, objects); });
}

// One change at one place: wider, narrower, or both.
void change(rapidjson::Document& schema, Dice& dice) {
  std::vector<rapidjson::Value*> objects;
  collect(schema, objects);
  auto& allocator = schema.GetAllocator();
  for (int tries = 0; tries < 1000; ++tries) {
    rapidjson::Value& object = *objects[dice.below(objects.size())];
    if (object.ObjectEmpty()) continue;
    const auto member = object.MemberBegin() + static_cast<std::ptrdiff_t>(dice.below(object.MemberCount()));
    const std::string key = member->name.GetString();
    if (key == "description" || key == "title" || key == "examples" || key == "$id" || key == "$schema" ||
        key == "definitions" || key == "$comment")
      continue;
    rapidjson::Value& value = member->value;
    switch (dice.below(4)) {
    case 0: object.RemoveMember(member); return;
    case 1:
      if (value.IsInt()) {
        value.SetInt(std::max(0, value.GetInt() + (dice.below(2) == 0 ? 1 : -1)));
        return;
      }
      if (value.IsBool()) {
        value.SetBool(!value.GetBool());
        return;
      }
      break;
    case 2:
      if (value.IsArray() && !value.Empty()) {
        value.Erase(value.Begin() + static_cast<std::ptrdiff_t>(dice.below(value.Size())));
        return;
      }
      if (value.IsArray()) break;
      if (value.IsObject() && (key == "properties" || key == "patternProperties")) {
        value.AddMember("further",
                        rapidjson::Value(rapidjson::kObjectType).AddMember("type", "string", allocator),
                        allocator);
        return;
      }
      break;
    default:
      if (key == "enum") {
        value.PushBack("further", allocator);
        return;
      }
      if (key == "required") {
        value.PushBack("note", allocator);
        return;
      }
      if (key == "type") {
        object.AddMember(rapidjson::StringRef(dice.below(2) == 0 ? "minLength" : "maximum"), 2, allocator);
        return;
      }
    }
  }
}

TEST(Compatibility, agrees_with_a_schema_engine) {
  if (!has_schema_engine()) GTEST_SKIP() << "built without a schema engine";
  const std::string published = json_schema(Document_kind::profile);
  std::vector<std::string> documents;
  for (std::string& json : test::documents_of_examples())
    if (test::kind_of(json) == Document_kind::profile) documents.push_back(std::move(json));
  const std::size_t whole = documents.size();
  ASSERT_GT(whole, 3u);
  test::Mutator mutator(documents, 7);
  for (int i = 0; i < 30; ++i) documents.push_back(mutator.next().json);

  const Schema older = compile_schema(published);
  ASSERT_TRUE(older) << older.problem;
  std::vector<std::string> accepted;
  for (const std::string& json : documents)
    if (check_schema(older, json).refusals.empty()) accepted.push_back(json);
  ASSERT_GT(accepted.size(), whole / 2);

  Dice dice(11);
  int compatible = 0, refusing = 0, compared = 0;
  for (int i = 0; i < changes; ++i) {
    rapidjson::Document schema;
    schema.Parse(published.data(), published.size());
    change(schema, dice);
    const std::string changed = written(schema);
    const Schema newer = compile_schema(changed);
    if (!newer) continue; // a change that leaves no schema
    ++compared;
    const bool says_compatible = compare_schemas(published, changed).narrowings.empty();
    compatible += says_compatible;
    for (const std::string& json : accepted) {
      const Schema_verdict verdict = check_schema(newer, json);
      if (verdict.refusals.empty()) continue;
      ++refusing;
      EXPECT_FALSE(says_compatible) << verdict.refusals.front().pointer << " "
                                    << verdict.refusals.front().message;
      break;
    }
  }
  std::printf("%d changes of the schema: %d called compatible, %d refuse a document that was good\n",
              compared, compatible, refusing);
  EXPECT_GT(compared, changes * 3 / 4);
  EXPECT_GT(compatible, 0);
  EXPECT_GT(refusing, 0);
}

}
}
