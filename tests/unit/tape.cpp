// The located tree: every value and key with its bytes, whatever stands around them.
#include "ohmlore/document.h"

#include <gtest/gtest.h>

#include <random>
#include <utility>

#include "../support/files.h"

namespace ohmlore {

std::ostream& operator<<(std::ostream& out, Node_type type) { return out << static_cast<int>(type); }

namespace {

using enum Node_type;

Document tree(std::string_view text) { return read_json("t", text).document; }

std::vector<std::string> rules(std::string_view text) {
  std::vector<std::string> all;
  for (const Finding& finding : read_json("t", text).findings) all.emplace_back(finding.rule);
  return all;
}

bool has_rule(std::string_view text, std::string_view rule) {
  for (const std::string& found : rules(text))
    if (found == rule) return true;
  return false;
}

// The bytes of every node in order, separated by a bar.
std::string written(std::string_view text) {
  const Document document = tree(text);
  std::string all;
  for (Node_id id = Document::root; id < document.nodes().size(); ++id) {
    if (id > Document::root) all += " | ";
    all += document.written(id);
  }
  return all;
}

// Where each node ends and whose child it is, checked without looking at the text.
void expect_sound(const Document& document) {
  const auto nodes = document.nodes();
  for (Node_id id = Document::root; id < nodes.size(); ++id) {
    const Node& n = nodes[id];
    const bool holds = n.type == array || n.type == object;
    ASSERT_LE(n.begin, n.end);
    ASSERT_LE(n.end, document.text().size());
    ASSERT_GT(n.next, id);
    ASSERT_LE(n.next, nodes.size());
    if (!holds) {
      ASSERT_EQ(n.next, id + 1);
      continue;
    }
    std::uint32_t children = 0;
    std::uint32_t last = n.begin + 1;
    for (Node_id child = id + 1; child < n.next; child = nodes[child].next) {
      const Node& c = nodes[child];
      ASSERT_EQ(c.parent, id);
      ASSERT_EQ(c.key, n.type == object && children % 2 == 0);
      ASSERT_GE(c.begin, last);
      ASSERT_LE(c.end, n.end);
      ASSERT_LE(c.next, n.next);
      last = c.end;
      ++children;
    }
    ASSERT_EQ(n.count, n.type == object ? children / 2 : children);
  }
}

// ---- regions: what RapidJSON's Tell() says at each event is not documented, so it is pinned here

TEST(Tape, a_scalar_is_its_own_document) {
  EXPECT_EQ(written("null"), "null");
  EXPECT_EQ(written(" true "), "true");
  EXPECT_EQ(written("\n\tfalse\r\n"), "false");
  EXPECT_EQ(written(" -1.50e+007 "), "-1.50e+007");
  EXPECT_EQ(written(R"( "text" )"), R"("text")");
}

TEST(Tape, brackets_beside_brackets) {
  EXPECT_EQ(written("[[1,2],[[]],{}]"), "[[1,2],[[]],{}] | [1,2] | 1 | 2 | [[]] | [] | {}");
  EXPECT_EQ(written(R"({"a":{"b":{}},"c":[]})"),
            R"({"a":{"b":{}},"c":[]} | "a" | {"b":{}} | "b" | {} | "c" | [])");
  EXPECT_EQ(written("[ [ ] , { } ]"), "[ [ ] , { } ] | [ ] | { }");
}

TEST(Tape, literals_and_numbers_end_where_they_end) {
  EXPECT_EQ(written("[true,false,null]"), "[true,false,null] | true | false | null");
  EXPECT_EQ(written("[ true , false , null ]"), "[ true , false , null ] | true | false | null");
  EXPECT_EQ(written(R"({"a":null,"b":true})"), R"({"a":null,"b":true} | "a" | null | "b" | true)");
  EXPECT_EQ(
      written("[0,-0,-1,1.0,1e5,1E+5,-1.25e-05,12345678901234567890123456789]"),
      "[0,-0,-1,1.0,1e5,1E+5,-1.25e-05,12345678901234567890123456789] | 0 | -0 | -1 | 1.0 | 1e5 | 1E+5 | "
      "-1.25e-05 | 12345678901234567890123456789");
}

TEST(Tape, strings_reach_from_mark_to_mark) {
  EXPECT_EQ(
      written(R"(["","a","\"","\\","a\"b","\u00e9","\ud83d\ude00","/","\/"])"),
      R"(["","a","\"","\\","a\"b","\u00e9","\ud83d\ude00","/","\/"] | "" | "a" | "\"" | "\\" | "a\"b" | )"
      R"("\u00e9" | "\ud83d\ude00" | "/" | "\/")");
  EXPECT_EQ(written(R"({"\"k\"":"10 kΩ"})"), R"({"\"k\"":"10 kΩ"} | "\"k\"" | "10 kΩ")");
}

TEST(Tape, strings_are_decoded) {
  const Document document =
      tree(R"(["plain","","\"\\\/\b\f\n\r\t","\u0041\u00e9\u20ac\ud83d\ude00","a\u0000b","10 k\u03A9"])");
  using namespace std::string_view_literals;
  const std::vector<std::string_view> expected = {"plain", "", "\"\\/\b\f\n\r\t", "Aé€😀", "a\0b"sv, "10 kΩ"};
  ASSERT_EQ(document.node(1).count, expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i)
    EXPECT_EQ(document.string(static_cast<Node_id>(i + 2)), expected[i]);
}

// The reader passes over plain letters eight at a time.
TEST(Tape, strings_are_decoded_wherever_an_escape_stands) {
  for (std::size_t before = 0; before < 20; ++before)
    for (std::size_t behind = 0; behind < 20; ++behind)
      for (const auto& [escape, meant] : {std::pair{R"(\")", "\""},
                                          {R"(\\)", "\\"},
                                          {R"(\n)", "\n"},
                                          {R"(\u00b0)", "\u00B0"},
                                          {R"(\"\\)", "\"\\"},
                                          {"\u00B0", "\u00B0"},
                                          {"\x7F", "\x7F"}}) {
        const std::string plain(before, 'a'), rest(behind, ' ');
        const Document document = tree('"' + plain + escape + rest + '"');
        ASSERT_EQ(document.string(Document::root), plain + meant + rest);
      }
}

TEST(Tape, node_types) {
  const Document document = tree(R"({"a":null,"b":true,"c":false,"d":1,"e":"","f":[],"g":{}})");
  const std::vector<Node_type> expected = {null, boolean, boolean, number, string, array, object};
  for (std::size_t i = 0; i < expected.size(); ++i) {
    const auto key = static_cast<Node_id>(2 + 2 * i);
    EXPECT_EQ(document.node(key).type, string);
    EXPECT_TRUE(document.node(key).key);
    EXPECT_EQ(document.node(key + 1).type, expected[i]);
    EXPECT_FALSE(document.node(key + 1).key);
    EXPECT_EQ(document.key_of(key + 1), key);
    EXPECT_EQ(document.key_of(key), 0u);
  }
  EXPECT_TRUE(document.node(5).truth);
  EXPECT_FALSE(document.node(7).truth);
  EXPECT_EQ(document.key_of(Document::root), 0u);
}

TEST(Tape, next_parent_and_count) {
  const Document document = tree(R"({"a":[1,[2,3],{}],"b":{"c":{"d":4}},"e":5})");
  ASSERT_EQ(
      written(R"({"a":[1,[2,3],{}],"b":{"c":{"d":4}},"e":5})"),
      R"({"a":[1,[2,3],{}],"b":{"c":{"d":4}},"e":5} | "a" | [1,[2,3],{}] | 1 | [2,3] | 2 | 3 | {} | "b" | )"
      R"({"c":{"d":4}} | "c" | {"d":4} | "d" | 4 | "e" | 5)");
  const std::vector<Node_id> next = {17, 3, 9, 5, 8, 7, 8, 9, 10, 15, 12, 15, 14, 15, 16, 17};
  const std::vector<Node_id> parent = {0, 1, 1, 3, 3, 5, 5, 3, 1, 1, 10, 10, 12, 12, 1, 1};
  const std::vector<std::uint32_t> count = {3, 0, 3, 0, 2, 0, 0, 0, 0, 1, 0, 1, 0, 0, 0, 0};
  for (Node_id id = 1; id < document.nodes().size(); ++id) {
    EXPECT_EQ(document.node(id).next, next[id - 1]) << id;
    EXPECT_EQ(document.node(id).parent, parent[id - 1]) << id;
    EXPECT_EQ(document.node(id).count, count[id - 1]) << id;
  }
}

// ---- the same for trees that nobody chose: the writer of the text knows where everything stands

struct Written_node {
  std::size_t begin, end;
  Node_type type;
  bool key;
  bool escaped;
  std::string decoded; // of a string
};

class Writer {
public:
  explicit Writer(unsigned seed) : engine_(seed) {}
  std::string text;
  std::vector<Written_node> nodes;

  void value(unsigned depth) {
    space();
    const int choice = one_of(depth < 6 ? 10 : 6);
    if (choice < 3)
      string_text(false);
    else if (choice == 3)
      scalar(number,
             pick({"0", "-0", "7", "-12", "3.250", "1e9", "1E-9", "-0.5e+3", "18446744073709551616"}));
    else if (choice == 4)
      scalar(boolean, pick({"true", "false"}));
    else if (choice == 5)
      scalar(null, "null");
    else
      container(choice < 8 ? object : array, depth);
    space();
  }

private:
  int one_of(int n) { return std::uniform_int_distribution<int>(0, n - 1)(engine_); }
  std::string_view pick(std::initializer_list<std::string_view> all) {
    return all.begin()[one_of(static_cast<int>(all.size()))];
  }
  void space() { text += pick({"", "", "", " ", "\n  ", "\t", "\r\n"}); }
  void scalar(Node_type type, std::string_view written) {
    nodes.push_back({text.size(), text.size() + written.size(), type, false, false, {}});
    text += written;
  }
  void string_text(bool key) {
    const std::size_t begin = text.size();
    std::string decoded;
    bool escaped = false;
    text += '"';
    for (int i = one_of(8); i > 0; --i) {
      const auto [written, meaning] =
          std::initializer_list<std::pair<std::string_view, std::string_view>>{
              {"a", "a"},     {"Ω", "Ω"},    {" ", " "},        {"/", "/"},       {"{", "{"}, {"\\\"", "\""},
              {"\\\\", "\\"}, {"\\n", "\n"}, {"\\u0022", "\""}, {"\\u03a9", "Ω"}, {"~", "~"}}
              .begin()[one_of(11)];
      escaped |= written[0] == '\\';
      text += written;
      decoded += meaning;
    }
    text += '"';
    nodes.push_back({begin, text.size(), string, key, escaped, std::move(decoded)});
  }
  void container(Node_type type, unsigned depth) {
    const std::size_t at = nodes.size();
    nodes.push_back({text.size(), 0, type, false, false, {}});
    text += type == object ? '{' : '[';
    const int members = one_of(5);
    if (members == 0) space();
    for (int i = 0; i < members; ++i) {
      if (i > 0) text += ',';
      if (type == object) {
        space();
        string_text(true);
        space();
        text += ':';
      }
      value(depth + 1);
    }
    text += type == object ? '}' : ']';
    nodes[at].end = text.size();
  }

  std::mt19937 engine_;
};

TEST(Tape, every_node_of_random_documents_is_where_it_was_written) {
  std::size_t seen = 0;
  for (unsigned seed = 0; seed < 4000; ++seed) {
    Writer writer(seed);
    writer.value(0);
    const Document document = tree(writer.text);
    ASSERT_TRUE(document.whole()) << writer.text;
    ASSERT_EQ(document.nodes().size(), writer.nodes.size() + 1) << writer.text;
    expect_sound(document);
    for (std::size_t i = 0; i < writer.nodes.size(); ++i) {
      const auto id = static_cast<Node_id>(i + 1);
      const Node& n = document.node(id);
      const Written_node& w = writer.nodes[i];
      ASSERT_EQ(n.begin, w.begin) << writer.text;
      ASSERT_EQ(n.end, w.end) << writer.text;
      ASSERT_EQ(n.type, w.type) << writer.text;
      ASSERT_EQ(n.key, w.key) << writer.text;
      ASSERT_EQ(n.escaped, w.escaped) << writer.text;
      if (n.type == string) {
        ASSERT_EQ(document.string(id), w.decoded) << writer.text;
      }
      ++seen;
    }
  }
  EXPECT_GT(seen, 20'000u);
}

// ---- pointers

// RFC 6901, section 5.
TEST(Find, examples_of_rfc_6901) {
  const Document document =
      tree(R"({"foo":["bar","baz"],"":0,"a/b":1,"c%d":2,"e^f":3,"g|h":4,"i\\j":5,"k\"l":6," ":7,"m~n":8})");
  const std::vector<std::pair<std::string_view, std::string_view>> examples = {{"/foo", R"(["bar","baz"])"},
                                                                               {"/foo/0", R"("bar")"},
                                                                               {"/", "0"},
                                                                               {"/a~1b", "1"},
                                                                               {"/c%d", "2"},
                                                                               {"/e^f", "3"},
                                                                               {"/g|h", "4"},
                                                                               {"/i\\j", "5"},
                                                                               {"/k\"l", "6"},
                                                                               {"/ ", "7"},
                                                                               {"/m~0n", "8"}};
  for (const auto& [pointer, value] : examples) {
    const Node_id id = document.find(pointer);
    ASSERT_NE(id, 0u) << pointer;
    EXPECT_EQ(document.written(id), value) << pointer;
    EXPECT_EQ(document.pointer(id), pointer);
  }
  EXPECT_EQ(document.find(""), Document::root);
  EXPECT_EQ(document.pointer(Document::root), "");
}

TEST(Find, what_is_not_there_is_nothing) {
  const Document document = tree(R"({"a":[10,20],"b":{"c":1},"d~":2})");
  for (const auto pointer : {"a", "x", "/x", "/a/2", "/a/-", "/a/00", "/a/01", "/a/-1", "/a/0x", "/a/",
                             "/b/c/d", "/b/", "/d~", "/d~2", "//a", "/a/4294967296"})
    EXPECT_EQ(document.find(pointer), 0u) << pointer;
  EXPECT_EQ(Document().find(""), 0u) << "no document, no root";
  EXPECT_EQ(tree("").find(""), 0u);
}

TEST(Find, the_first_of_equal_keys) {
  const Document document = tree(R"({"a":1,"a":2})");
  EXPECT_EQ(document.written(document.find("/a")), "1");
  EXPECT_EQ(document.written(document.member(Document::root, "a")), "1");
}

TEST(Find, a_key_is_found_however_it_is_spelled) {
  const Document document = tree(R"({"\u006bind":1,"a\/b":2})");
  EXPECT_EQ(document.written(document.find("/kind")), "1");
  EXPECT_EQ(document.written(document.find("/a~1b")), "2");
  EXPECT_EQ(document.written(document.member(Document::root, "kind")), "1");
  EXPECT_EQ(document.pointer(document.find("/a~1b")), "/a~1b");
}

TEST(Find, every_node_of_a_profile_is_found_by_its_pointer) {
  const Document document = tree(test::larch_profile());
  ASSERT_GT(document.nodes().size(), 500u);
  expect_sound(document);
  for (Node_id id = Document::root; id < document.nodes().size(); ++id) {
    const Node_id value = document.node(id).key ? id + 1 : id;
    ASSERT_EQ(document.find(document.pointer(id)), value) << document.pointer(id);
  }
}

TEST(Member, of_what_is_no_object_is_nothing) {
  const Document document = tree(R"(["a", {"a": 1}])");
  EXPECT_EQ(document.member(Document::root, "a"), 0u);
  EXPECT_EQ(document.member(2, "a"), 0u);
  EXPECT_EQ(document.written(document.member(3, "a")), "1");
}

// ---- moves

class Moved : public testing::TestWithParam<std::size_t> {};

TEST_P(Moved, views_and_records_stay_valid) {
  // A title with and one without escapes, behind padding that takes the document over small sizes.
  std::string text = R"({"format":"ohmlore/1.0","kind":"part","id":"short","revision":1,)";
  text += R"("title":"caf\u00e9","component":{"kind":"ntc","name":"plain"})";
  if (GetParam() > 0) text += R"(,"x_pad":")" + std::string(GetParam(), 'p') + '"';
  text += '}';
  Document first = tree(text);
  ASSERT_NE(first.part(), nullptr);
  const Part* part = first.part();
  const Text id = *part->id;
  const Text title = *part->title;
  const Text written = first.written(Document::root);

  Document second = std::move(first);
  Document third;
  third = std::move(second);
  EXPECT_EQ(third.part(), part);
  EXPECT_EQ(id, "short");
  EXPECT_EQ(title, "café");
  EXPECT_EQ(*third.part()->component.name, "plain");
  EXPECT_EQ(written, text);
  EXPECT_EQ(third.text().data(), written.data());
  EXPECT_EQ(third.string(third.find("/title")), "café");
  EXPECT_EQ(third.text(), text);
}

INSTANTIATE_TEST_SUITE_P(Sizes, Moved, testing::Values(0, 100, 2000, 100'000));

TEST(Document_, an_empty_one_can_be_asked) {
  const Document document;
  EXPECT_EQ(document.text(), "");
  EXPECT_TRUE(document.nodes().empty());
  EXPECT_EQ(document.profile(), nullptr);
  EXPECT_FALSE(document.whole());
}

// ---- limits

std::string nested(std::size_t depth, char open, char close) {
  return std::string(depth, open) + std::string(depth, close);
}

TEST(Depth, sixty_four_are_enough_and_no_more) {
  EXPECT_FALSE(has_rule(nested(64, '[', ']'), "nesting-too-deep"));
  EXPECT_TRUE(tree(nested(64, '[', ']')).whole());
  EXPECT_EQ(tree(nested(64, '[', ']')).nodes().size(), 65u);

  const auto [document, findings] = read_json("t", nested(65, '[', ']'));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].rule, "nesting-too-deep");
  EXPECT_EQ(findings[0].region.begin, 64u);
  EXPECT_EQ(findings[0].region.end, 65u);
  EXPECT_FALSE(document.whole());
  EXPECT_EQ(document.nodes().size(), 65u) << "what is not too deep is kept";
  expect_sound(document);
}

TEST(Depth, of_objects) {
  std::string text;
  for (int i = 0; i < 64; ++i) text += R"({"a":)";
  const std::string closing(64, '}');
  EXPECT_TRUE(tree(text + "1" + closing).whole());
  const auto [document, findings] = read_json("t", text + "{}" + closing);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].rule, "nesting-too-deep");
  EXPECT_EQ(findings[0].region.begin, 64u * 5);
  expect_sound(document);
}

TEST(Depth, syntax_beyond_it_is_still_checked) {
  EXPECT_EQ(rules(nested(65, '[', ']')), (std::vector<std::string>{"nesting-too-deep"}));
  EXPECT_EQ(rules(std::string(65, '[')), (std::vector<std::string>{"nesting-too-deep", "json-syntax"}));
  EXPECT_EQ(rules(std::string(100'000, '[')), (std::vector<std::string>{"nesting-too-deep", "json-syntax"}));
  EXPECT_EQ(rules(nested(100'000, '[', ']')), (std::vector<std::string>{"nesting-too-deep"}));
  EXPECT_EQ(rules(nested(65, '[', ']') + "]"), (std::vector<std::string>{"nesting-too-deep", "json-syntax"}));
}

TEST(Size, sixteen_mebibytes_and_no_more) {
  std::string text = R"({"x_pad":")";
  text.resize(most_bytes - 2, 'p');
  text += "\"}";
  ASSERT_EQ(text.size(), most_bytes);
  EXPECT_FALSE(has_rule(text, "file-too-large"));
  EXPECT_TRUE(tree(text).whole());
  text += ' ';
  const auto [document, findings] = read_json("t", text);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].rule, "file-too-large");
  EXPECT_EQ(findings[0].message,
            "the file has 16777217 bytes or more; a document has at most 16777216 (16 MiB)");
  EXPECT_FALSE(document.whole());
}

TEST(Text_length, two_kibibytes_and_no_more) {
  auto part = [](std::size_t bytes) {
    return R"({"format":"ohmlore/1.0","kind":"part","id":"p","revision":1,"component":{"kind":"ntc","name":")" +
           std::string(bytes, 'n') + R"("}})";
  };
  EXPECT_TRUE(rules(part(2048)).empty());
  EXPECT_EQ(rules(part(2049)), (std::vector<std::string>{"text-too-long"}));
}

TEST(Text_length, is_counted_in_bytes_of_the_decoded_text) {
  auto part = [](std::string_view unit, std::size_t times) {
    std::string text =
        R"({"format":"ohmlore/1.0","kind":"part","id":"p","revision":1,"component":{"kind":"ntc","name":")";
    for (std::size_t i = 0; i < times; ++i) text += unit;
    return text + R"("}})";
  };
  EXPECT_TRUE(rules(part("Ω", 1024)).empty());
  EXPECT_EQ(rules(part("Ω", 1025)), (std::vector<std::string>{"text-too-long"}));
  EXPECT_TRUE(rules(part("\\u0041", 2048)).empty());
  EXPECT_EQ(rules(part("\\u0041", 2049)), (std::vector<std::string>{"text-too-long"}));
}

// ---- documents that stop early

TEST(Truncated, the_tree_is_kept_and_its_containers_are_closed) {
  const Document document = tree(R"({"a":[1,{"b":"text","c")");
  EXPECT_FALSE(document.whole());
  expect_sound(document);
  EXPECT_EQ(written(R"({"a":[1,{"b":"text","c")"),
            R"({"a":[1,{"b":"text","c" | "a" | [1,{"b":"text","c" | 1 | {"b":"text","c" | "b" | "text")")
      << "the key without a value is no member";
  EXPECT_EQ(document.written(document.find("/a/1/b")), R"("text")");
}

TEST(Truncated, at_every_byte_of_a_profile) {
  const std::string text = test::larch_profile();
  const Document whole = tree(text);
  ASSERT_TRUE(whole.whole());
  const std::size_t root_end = whole.node(Document::root).end;
  std::size_t kept = 0;
  for (std::size_t size = 0; size < root_end; ++size) {
    const auto [document, findings] = read_json("t", std::string_view(text).substr(0, size));
    ASSERT_FALSE(document.whole()) << size;
    ASSERT_FALSE(findings.empty()) << size;
    expect_sound(document);
    // What stands before the cut is as in the whole document.
    for (Node_id id = Document::root + 1; id < document.nodes().size(); ++id) {
      ASSERT_EQ(document.node(id).begin, whole.node(id).begin) << size;
      ASSERT_EQ(document.node(id).type, whole.node(id).type) << size;
      ASSERT_LE(document.node(id).end, whole.node(id).end) << size;
    }
    kept = document.nodes().size();
  }
  EXPECT_EQ(kept, whole.nodes().size());
}

TEST(Truncated, two_values_glued_together) {
  for (const auto text :
       {"[1-2]", "[1+2]", "[1.5.5]", "[\"a\"\"b\"]", "[1e5e5]", "[truefalse]", "{\"a\":1-2}", "[[]1]"}) {
    const auto [document, findings] = read_json("t", text);
    EXPECT_FALSE(document.whole()) << text;
    ASSERT_EQ(findings.size(), 1u) << text;
    EXPECT_EQ(findings[0].rule, "json-syntax") << text;
    expect_sound(document);
  }
}

// RFC 8259, section 7: U+0000 to U+001F stand in no text unescaped. A parser that looks at many bytes at a
// time may miss some of them at some places.
TEST(Truncated, a_control_character_in_a_text_wherever_it_stands) {
  for (const std::string_view start : {R"({"a": ")", R"({")", R"({"a": "\n)"})
    for (char c = 0x01; c < 0x20; ++c)
      for (std::size_t before = 0; before <= 40; ++before) {
        const std::string letters(before, 'x'),
            text = std::string(start) + letters + c + "yyyyyyyyyyyyyyyy\": 1}";
        const auto [document, findings] = read_json("t", text);
        EXPECT_FALSE(document.whole()) << start << before << ' ' << int{c};
        ASSERT_EQ(findings.size(), 1u) << start << before << ' ' << int{c};
        EXPECT_EQ(findings[0].rule, "json-syntax");
        const bool ends_line = c == '\n' || c == '\r'; // then the text is taken for one that is not closed
        const std::size_t shown = ends_line ? start.rfind('"') : start.size() + before;
        EXPECT_EQ(findings[0].region.begin, shown) << start << before << ' ' << int{c};
      }
}

// ---- regions

TEST(Region, begins_and_ends_where_its_bytes_do) {
  const Document document = tree("{\n  \"Ωk\": [1,\n\t\"ä\\n\", {\"b\": \"€\"}\n  ],\r\n\"c\": 7}");
  const std::string_view text = document.text();
  const auto same = [](Position a, Position b) { return a.line == b.line && a.column == b.column; };
  for (std::uint32_t begin = 0; begin <= text.size(); ++begin)
    for (std::uint32_t end = begin; end <= text.size() + 1; ++end) {
      if (begin < text.size() && utf8_length(text, begin) == 0) continue; // inside a character
      const Region region = document.region(begin, end);
      EXPECT_TRUE(same(region.first, position_of(text, begin))) << begin;
      EXPECT_TRUE(same(region.last, position_of(text, end))) << begin << " to " << end;
    }
}

}
}
