// The language server: its base protocol, places in texts, and what it answers about a document. The
// sentences of the specification (Language Server Protocol 3.17, Microsoft) are quoted where they are held
// to.
#include "ohmlore/serve.h"

#include <unistd.h>

#include <algorithm>
#include <fstream>
#include <functional>
#include <random>
#include <set>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidjson/document.h>
#include <rapidjson/pointer.h>
#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>

#include "ohmlore/cautions.h"
#include "ohmlore/document.h"
#include "serve/cursor.h"
#include "serve/positions.h"
#include "serve/workspace.h"
#include "support/cases.h"
#include "support/files.h"

namespace ohmlore {
namespace {

using serve::Encoding, serve::Lines_of_text, serve::Place;
using Json = rapidjson::Document;

// ---- places

// "a string of the form a𐐀b the character offset of the character a is 0, the character offset of 𐐀 is 1 and
// the character offset of b is 3 since 𐐀 is represented using two code units in UTF-16."
TEST(Serve_positions, example_of_the_specification) {
  const std::string text = "a𐐀b";
  const Lines_of_text lines(text);
  const std::size_t b = text.find('b');
  EXPECT_EQ(lines.place_of(0, Encoding::utf16).character, 0u);
  EXPECT_EQ(lines.place_of(1, Encoding::utf16).character, 1u);
  EXPECT_EQ(lines.place_of(b, Encoding::utf16).character, 3u);
  EXPECT_EQ(lines.offset_of({0, 3}, Encoding::utf16), b);
  EXPECT_EQ(lines.offset_of({0, 2}, Encoding::utf16), 1u) << "between the two halves";
  // With the encoding utf-8, "character offsets count UTF-8 code units (e.g bytes)".
  EXPECT_EQ(lines.place_of(b, Encoding::utf8).character, 5u);
  EXPECT_EQ(lines.offset_of({0, 5}, Encoding::utf8), b);
  EXPECT_EQ(lines.offset_of({0, 3}, Encoding::utf8), 1u) << "inside of it";
}

// "export const EOL: string[] = ['\n', '\r\n', '\r'];"
TEST(Serve_positions, line_ends_of_the_specification) {
  const std::string text = "ä\nb\r\nc\rd\r\r\n";
  const Lines_of_text lines(text);
  const auto at = [&](const char* what) { return lines.place_of(text.find(what), Encoding::utf16); };
  EXPECT_EQ(at("b").line, 1u);
  EXPECT_EQ(at("c").line, 2u);
  EXPECT_EQ(at("d").line, 3u);
  EXPECT_EQ(lines.place_of(text.size(), Encoding::utf16).line, 5u);
  // "If the character value is greater than the line length it defaults back to the line length."
  EXPECT_EQ(lines.offset_of({0, 9}, Encoding::utf16), 2u);
  EXPECT_EQ(lines.offset_of({1, 9}, Encoding::utf16), text.find("b") + 1);
  EXPECT_EQ(lines.offset_of({4, 9}, Encoding::utf16), text.find("d") + 2);
  EXPECT_EQ(lines.offset_of({99, 0}, Encoding::utf16), text.size());
  EXPECT_EQ(lines.offset_of({0xFFFFFFFF, 0xFFFFFFFF}, Encoding::utf16), text.size());
}

TEST(Serve_positions, there_and_back_of_every_character) {
  std::mt19937 random(3);
  const std::string_view pieces[] = {"a", "Ω", "€", "𐐀", "\n", "\r\n", "\r", "\"", "\xFF"};
  for (int round = 0; round < test::cases(400); ++round) {
    std::string text;
    for (int i = 0; i < 40; ++i) text += pieces[random() % std::size(pieces)];
    const Lines_of_text lines(text);
    for (const Encoding encoding : {Encoding::utf8, Encoding::utf16})
      for (std::size_t at = 0; at <= text.size();) {
        const bool inside_of_line_end =
            at > 0 && at < text.size() && text[at - 1] == '\r' && text[at] == '\n';
        if (!inside_of_line_end) {
          EXPECT_EQ(lines.offset_of(lines.place_of(at, encoding), encoding), at);
        }
        if (at == text.size()) break;
        next_code_point(text, at);
      }
  }
}

TEST(Serve_positions, in_long_lines) {
  std::mt19937 random(5);
  const std::string_view pieces[] = {"a", "b", "Ω", "€", "𐐀", "\xFF"};
  for (const std::string_view line_end : {"", "\n", "\r\n"}) {
    std::string text;
    std::vector<std::size_t> starts; // of the characters of the second line
    text += fmt::format("first{}", line_end.empty() ? "\n" : line_end);
    const std::size_t begin = text.size();
    for (int i = 0; i < 6000; ++i) {
      starts.push_back(text.size());
      text += pieces[random() % std::size(pieces)];
    }
    starts.push_back(text.size());
    text += fmt::format("{}last", line_end);
    const Lines_of_text lines(text);
    std::uint32_t utf16 = 0;
    for (std::size_t i = 0; i + 1 < starts.size(); ++i) {
      const auto utf8 = static_cast<std::uint32_t>(starts[i] - begin);
      EXPECT_EQ(lines.place_of(starts[i], Encoding::utf8).character, utf8);
      EXPECT_EQ(lines.place_of(starts[i], Encoding::utf16).character, utf16);
      EXPECT_EQ(lines.place_of(starts[i + 1] - 1, Encoding::utf16).character, utf16) << "inside of it";
      EXPECT_EQ(lines.offset_of({1, utf8}, Encoding::utf8), starts[i]);
      EXPECT_EQ(lines.offset_of({1, utf16}, Encoding::utf16), starts[i]);
      utf16 += starts[i + 1] - starts[i] == 4 ? 2 : 1;
    }
    if (!line_end.empty()) {
      EXPECT_EQ(lines.offset_of({1, 0xFFFFFFFF}, Encoding::utf16), starts.back());
    }
    EXPECT_EQ(lines.offset_of({2, 2}, Encoding::utf16), line_end.empty() ? text.size() : text.size() - 2);
  }
}

// A document of one line with thousands of findings: counted from the line's start each time, this would take
// minutes.
TEST(Serve_positions, of_a_long_line_cost_little) {
  std::string text;
  for (int i = 0; i < 200'000; ++i) text += "aΩ";
  const Lines_of_text lines(text);
  std::size_t wrong = 0;
  for (std::uint32_t i = 0; i < 20'000; ++i)
    wrong += lines.offset_of(lines.place_of(text.size() - 3 * i, Encoding::utf16), Encoding::utf16) !=
             text.size() - 3 * i;
  EXPECT_EQ(wrong, 0u);
}

TEST(Serve_uris, files) {
  EXPECT_EQ(serve::path_of("file:///a/b.profile.json"), "/a/b.profile.json");
  EXPECT_EQ(serve::path_of("file://localhost/a%20b/%CE%A9.json"), "/a b/Ω.json");
  EXPECT_EQ(serve::path_of("file:/a/../b"), "/b"); // RFC 8089, appendix B
  for (const char* none : {"file://elsewhere/a", "untitled:a", "https://a/b", "file:a", "file://", "",
                           "file:///%4", "file:///%zz", "file:///%00", "file:///%"})
    EXPECT_EQ(serve::path_of(none), std::nullopt) << none;
}

// ---- framing

std::vector<Received> read_all(std::string_view stream, std::size_t at_once) {
  Message_reader reader;
  std::vector<Received> all;
  for (std::size_t i = 0; i < stream.size(); i += at_once) {
    reader.add(stream.substr(i, at_once));
    while (auto received = reader.next()) all.push_back(std::move(*received));
  }
  return all;
}

TEST(Serve_framing, whatever_the_pieces_are) {
  const std::string stream =
      framed("{}") +
      "content-length:  3 \r\nContent-Type: application/vscode-jsonrpc; charset=utf-8\r\n\r\n\"Ω" +
      "Content-Type: x; charset=utf8\r\nContent-Length: 0\r\n\r\n" + framed("[1]");
  for (const std::size_t at_once : {1u, 2u, 7u, 1000u}) {
    const auto all = read_all(stream, at_once);
    ASSERT_EQ(all.size(), 4u);
    EXPECT_EQ(all[0].content, "{}");
    EXPECT_EQ(all[1].content, "\"Ω");
    EXPECT_EQ(all[2].content, "");
    EXPECT_EQ(all[3].content, "[1]");
  }
}

TEST(Serve_framing, goes_on_behind_damage) {
  for (const std::string& damage :
       {std::string("Content-Length: x\r\n\r\n{}"), std::string("Content-Length: 4x\r\n\r\n{}"),
        std::string("Content-Length: -1\r\n\r\n{}"), std::string("Content-Length:\r\n\r\n{}"),
        std::string("Content-Type: a\r\n\r\n{}"),
        std::string("Content-Length: 2\r\nContent-Type: a; charset=utf-16\r\n\r\n{}"),
        std::string("no colon\r\n\r\n{}"), std::string("tail of a message that was longer}"),
        std::string(10'000, 'x'), std::string("\r\n\r\n"),
        std::string("Content-Length: 18446744073709551616\r\n\r\n"),
        fmt::format("Content-Length: {}\r\n\r\n{{}}", most_message + 1)})
    for (const std::size_t at_once : {1u, 100'000u}) {
      const auto all = read_all(damage + framed("[]") + framed("{}"), at_once);
      ASSERT_EQ(all.size(), 3u) << damage;
      EXPECT_FALSE(all[0].problem.empty()) << damage;
      EXPECT_EQ(all[all.size() - 2].content, "[]") << damage;
      EXPECT_EQ(all.back().content, "{}") << damage;
    }
  // Where a wrong length reaches into what follows, that is lost, too, and no more.
  for (const char* damage :
       {"Content-Length: 2\r\nContent-Length: 3\r\n\r\n{}", "Content-Length: 30\r\n\r\n{}"})
    EXPECT_EQ(read_all(damage + framed("[]") + framed("[1]") + framed("{}"), 1).back().content, "{}")
        << damage;
}

// ---- a session

std::string text_of(const rapidjson::Value& json) {
  rapidjson::StringBuffer buffer;
  rapidjson::Writer writer(buffer);
  json.Accept(writer);
  return buffer.GetString();
}
std::string json_text(std::string_view text) {
  return text_of(
      rapidjson::Value(rapidjson::StringRef(text.data(), static_cast<rapidjson::SizeType>(text.size()))));
}

constexpr std::string_view cursor = "‸"; // in documents: where the editor's cursor stands

struct Editor {
  Language_server server;
  int asked = 0;
  std::string uri = "file:///nowhere/example.profile.json";
  std::string text; // of the document, without the cursor
  Place place;

  explicit Editor(const std::string& capabilities = R"({"general": {"positionEncodings": ["utf-8"]},
      "textDocument": {"hover": {"contentFormat": ["markdown"]},
                       "completion": {"completionItem": {"snippetSupport": true}},
                       "publishDiagnostics": {"relatedInformation": true},
                       "codeAction": {"codeActionLiteralSupport": {}}}})") {
    ask("initialize", fmt::format(R"({{"capabilities": {}}})", capabilities));
    notify("initialized", "{}");
  }
  std::vector<Json> take(const std::string& message) {
    std::vector<Json> answers;
    for (const std::string& one : server.take({message, {}})) {
      Json& json = answers.emplace_back();
      json.Parse(one.c_str());
      EXPECT_FALSE(json.HasParseError()) << one;
      EXPECT_STREQ(json["jsonrpc"].GetString(), "2.0");
    }
    return answers;
  }
  Json ask(const std::string& method, const std::string& params) {
    auto answers = take(fmt::format(R"({{"jsonrpc": "2.0", "id": {}, "method": "{}", "params": {}}})",
                                    ++asked, method, params));
    EXPECT_FALSE(answers.empty());
    if (answers.empty()) return {};
    EXPECT_EQ(answers[0]["id"].GetInt(), asked);
    return std::move(answers[0]);
  }
  std::vector<Json> notify(const std::string& method, const std::string& params) {
    return take(fmt::format(R"({{"jsonrpc": "2.0", "method": "{}", "params": {}}})", method, params));
  }
  int error_of(const std::string& method, const std::string& params) {
    const Json answer = ask(method, params);
    return answer.HasMember("error") ? answer["error"]["code"].GetInt() : 0;
  }
  void open(std::string_view written) {
    text = written;
    const std::size_t at = text.find(cursor);
    if (at != std::string::npos) text.erase(at, cursor.size());
    place = Lines_of_text(text).place_of(at == std::string::npos ? 0 : at, Encoding::utf8);
    notify("textDocument/didOpen",
           fmt::format(R"({{"textDocument": {{"uri": {}, "version": 1, "text": {}}}}})", json_text(uri),
                       json_text(text)));
  }
  std::string at_cursor() const {
    return fmt::format(R"({{"textDocument": {{"uri": {}}}, "position": {{"line": {}, "character": {}}}}})",
                       json_text(uri), place.line, place.character);
  }
  std::vector<Json> close() {
    return notify("textDocument/didClose",
                  fmt::format(R"({{"textDocument": {{"uri": {}}}}})", json_text(uri)));
  }
  // All actions in the document that was opened last.
  Json actions(std::string_view context = "") {
    return ask("textDocument/codeAction",
               fmt::format(R"({{"textDocument": {{"uri": {}}}, "context": {{"diagnostics": []{}}},
            "range": {{"start": {{"line": 0, "character": 0}}, "end": {{"line": 99, "character": 0}}}}}})",
                           json_text(uri), context));
  }
  // Result of a request about the cursor of a document.
  Json about(const std::string& method, std::string_view written) {
    open(written);
    Json answer = ask("textDocument/" + method, at_cursor());
    Json result;
    EXPECT_TRUE(answer.HasMember("result")) << text_of(answer);
    if (answer.HasMember("result")) result.CopyFrom(answer["result"], result.GetAllocator());
    return result;
  }
  std::string hover(std::string_view written) {
    const Json result = about("hover", written);
    return result.IsNull() ? "" : result["contents"]["value"].GetString();
  }
  // "label -> what is written", a quotation mark that stands there already included
  std::vector<std::string> offered(std::string_view written) {
    const Json result = about("completion", written);
    std::vector<std::string> all;
    if (result.IsObject())
      for (const auto& item : result["items"].GetArray()) {
        const auto& edit = item["textEdit"];
        const std::size_t begin = offset_of(edit["range"]["start"]);
        all.push_back(fmt::format("{} -> {}{}", item["label"].GetString(),
                                  begin > 0 && text[begin - 1] == '"' ? "\"" : "",
                                  edit["newText"].GetString()));
      }
    return all;
  }
  // The text with what is offered first taken; empty where nothing is.
  std::string completed(std::string_view written) {
    const Json result = about("completion", written);
    if (!result.IsObject() || result["items"].Empty()) return "";
    const auto& edit = result["items"][0]["textEdit"];
    EXPECT_EQ(edit["range"]["start"]["line"].GetUint(), edit["range"]["end"]["line"].GetUint());
    const std::string old = range_text(edit["range"]);
    return std::string(text).replace(offset_of(edit["range"]["start"]), old.size(),
                                     edit["newText"].GetString());
  }
  // The text at the range of a definition in the same document; empty where there is none.
  std::string definition(std::string_view written) {
    const Json result = about("definition", written);
    if (result.IsNull()) return "";
    EXPECT_EQ(result["uri"].GetString(), uri);
    return range_text(result["range"]);
  }
  std::size_t offset_of(const rapidjson::Value& position) const {
    return Lines_of_text(text).offset_of({position["line"].GetUint(), position["character"].GetUint()},
                                         Encoding::utf8);
  }
  std::string range_text(const rapidjson::Value& range) const {
    const std::size_t begin = offset_of(range["start"]);
    return text.substr(begin, offset_of(range["end"]) - begin);
  }
  std::vector<Json> idle() {
    std::vector<Json> all;
    for (auto sent = server.when_idle(); !sent.empty(); sent = server.when_idle())
      for (const std::string& one : sent) all.emplace_back().Parse(one.c_str());
    return all;
  }
};

std::vector<std::string> messages_shown(const std::vector<Json>& sent) {
  std::vector<std::string> shown;
  for (const Json& one : sent)
    if (std::string_view(one["method"].GetString()) == "window/showMessage")
      shown.emplace_back(one["params"]["message"].GetString());
  return shown;
}

// A corpus on disk.
struct Corpus_folder {
  std::filesystem::path path =
      std::filesystem::temp_directory_path() / fmt::format("ohmlore-unit-serve-{}", getpid());
  Corpus_folder() {
    std::filesystem::remove_all(path);
    write("corpus.json", good);
  }
  ~Corpus_folder() { std::filesystem::remove_all(path); }
  void write(const std::string& name, std::string_view text) const {
    std::filesystem::create_directories((path / name).parent_path());
    std::ofstream(path / name, std::ios::binary) << text;
  }
  std::string uri(std::string_view name) const { return fmt::format("file://{}/{}", path.string(), name); }
  static constexpr std::string_view good =
      R"({"format": "ohmlore/1.0", "kind": "corpus", "title": "Example", "licence": "CC0-1.0"})";
};

bool has(const std::vector<std::string>& all, std::string_view one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

// A profile with these members behind the usual ones.
std::string profile(std::string_view members) {
  return fmt::format(R"({{
  "format": "ohmlore/1.0",
  "kind": "profile",
  "id": "example",
  "revision": 1,
  "appliance": {{ "maker": "Orrinvale", "models": ["Larch 24 C"], "type": "combination_boiler",
                 "fuel": "natural_gas", "controller": {{ "part": "OV-4410" }} }},
  "safety": {{ "supplies": [{{ "kind": "mains", "isolate_at": "spur under the stairs" }}] }},
  "sources": {{ "notes": {{ "kind": "maker_document", "title": "Larch service notes" }} }},
  "source": {{ "from": "notes" }},
  "connectors": {{ "X4": {{ "label": "X4", "ways": 2, "circuit": "selv", "pins": {{ "1": {{ "signal": "sensor" }}, "2": {{}} }} }} }},
{}
}})",
                     members);
}

TEST(Serve_session, life) {
  {
    Language_server server;
    EXPECT_EQ(server.status(), 1);
    const auto answers = server.take({R"({"jsonrpc":"2.0","id":"a","method":"shutdown"})", {}});
    ASSERT_EQ(answers.size(), 1u);
    Json json;
    json.Parse(answers[0].c_str());
    EXPECT_EQ(json["error"]["code"].GetInt(), -32002); // ServerNotInitialized
    EXPECT_STREQ(json["id"].GetString(), "a");
    EXPECT_TRUE(server.take({R"({"jsonrpc":"2.0","method":"exit"})", {}}).empty());
    EXPECT_TRUE(server.ended());
    EXPECT_EQ(server.status(), 1);
  }
  Editor editor;
  EXPECT_EQ(editor.error_of("initialize", "{}"), -32600);
  EXPECT_EQ(editor.error_of("no/such", "{}"), -32601);
  EXPECT_EQ(editor.error_of("$/no/such", "{}"), -32601);
  EXPECT_TRUE(editor.notify("$/cancelRequest", R"({"id": 3})").empty());
  EXPECT_TRUE(editor.notify("no/such", "{}").empty());
  EXPECT_EQ(editor.error_of("textDocument/hover", "{}"), -32602);
  EXPECT_EQ(editor.error_of("textDocument/hover",
                            R"({"textDocument": {"uri": "a"}, "position": {"line": -1, "character": 0}})"),
            -32602);
  EXPECT_EQ(editor.error_of("textDocument/hover",
                            R"({"textDocument": {"uri": "a"}, "position": {"line": 0, "character": 0}})"),
            0);
  EXPECT_EQ(editor.error_of("shutdown", "null"), 0);
  EXPECT_EQ(editor.error_of("textDocument/hover", "{}"), -32600);
  EXPECT_FALSE(editor.server.ended());
  EXPECT_TRUE(editor.notify("exit", "null").empty());
  EXPECT_TRUE(editor.server.ended());
  EXPECT_EQ(editor.server.status(), 0);
}

// JSON-RPC 2.0, section 5.1, and its examples in section 7.
TEST(Serve_session, what_is_no_request) {
  Editor editor;
  const auto code = [&](const std::string& message) {
    const auto answers = editor.take(message);
    EXPECT_EQ(answers.size(), 1u) << message;
    if (answers.size() != 1) return 0;
    return answers[0]["error"]["code"].GetInt();
  };
  EXPECT_EQ(code(R"({"jsonrpc": "2.0", "method": "foobar, "params": "bar", "baz])"), -32700);
  EXPECT_EQ(code(R"({"jsonrpc": "2.0", "method": 1, "params": "bar"})"), -32600);
  EXPECT_EQ(code("[]"), -32600);
  EXPECT_EQ(code("[1,2,3]"), -32600);
  EXPECT_EQ(code(""), -32700);
  EXPECT_EQ(code("null"), -32600);
  EXPECT_EQ(code(R"({"jsonrpc": "2.0", "id": {}, "method": "shutdown"})"), -32600);
  EXPECT_EQ(code(R"({"id": 1, "method": "shutdown"})"), -32600);
  EXPECT_EQ(code(R"({"jsonrpc": "2.0", "id": 1, "method": "\ud800"})"), -32700);
  EXPECT_EQ(code("\"\xFF\""), -32700);
  EXPECT_EQ(code(std::string(1'000'000, '[')), -32700);
  EXPECT_EQ(code(std::string(100, '[') + std::string(100, ']')), -32600);
  EXPECT_TRUE(editor.take(R"({"jsonrpc": "2.0", "id": "ohmlore/watch", "result": null})").empty());
  EXPECT_EQ(editor.server.take({{}, "why"}).size(), 1u);
}

// "It MUST be the same as the value of the id member in the Request Object": JSON-RPC 2.0, section 5.
TEST(Serve_session, answers_with_the_id_as_it_was_written) {
  Language_server server;
  for (const std::string id : {"1", "-7", "18446744073709551615", "18446744073709551616", "1e29", "1.50",
                               "0.1000000000000000000001", "-0", "null", R"("1e29")"}) {
    const auto answers =
        server.take({R"({"jsonrpc": "2.0", "params": {"id": 2, "more": [{"id": 3}]}, "id": )" + id +
                         R"(, "method": "no"})",
                     {}});
    ASSERT_EQ(answers.size(), 1u) << id;
    EXPECT_NE(answers[0].find("\"id\": " + id + ","), std::string::npos) << answers[0];
  }
}

TEST(Serve_session, encoding) {
  for (const auto& [offered, agreed] : {std::pair{R"(["utf-16", "utf-8"])", "utf-8"},
                                        {R"(["utf-32"])", "utf-16"},
                                        {R"("utf-8")", "utf-16"},
                                        {"7", "utf-16"}}) {
    Language_server server;
    const auto answers = server.take({fmt::format(R"({{"jsonrpc": "2.0", "id": 1, "method": "initialize",
                         "params": {{"capabilities": {{"general": {{"positionEncodings": {}}}}}}}}})",
                                                  offered),
                                      {}});
    Json json;
    json.Parse(answers.at(0).c_str());
    EXPECT_STREQ(json["result"]["capabilities"]["positionEncoding"].GetString(), agreed) << offered;
  }
}

// "The `CodeActionOptions` return type is only valid if the client signals code action literal support via
// the property `textDocument.codeAction.codeActionLiteralSupport`."
TEST(Serve_session, actions_are_offered_to_who_knows_them) {
  for (const bool literals : {false, true}) {
    Language_server server;
    const auto answers = server.take({fmt::format(R"({{"jsonrpc": "2.0", "id": 1, "method": "initialize",
        "params": {{"capabilities": {{"textDocument": {{"codeAction": {}}}}}}}}})",
                                                  literals ? R"({"codeActionLiteralSupport": {}})" : "{}"),
                                      {}});
    Json json;
    json.Parse(answers.at(0).c_str());
    const auto& offered = json["result"]["capabilities"]["codeActionProvider"];
    EXPECT_EQ(offered.IsObject(), literals) << text_of(offered);
    EXPECT_EQ(offered.IsFalse(), !literals) << text_of(offered);
  }
}

TEST(Serve_session, asks_to_be_told_of_files) {
  Editor editor(R"({"workspace": {"didChangeWatchedFiles": {"dynamicRegistration": true}}})");
  const auto sent = editor.notify("initialized", "{}");
  ASSERT_EQ(sent.size(), 1u);
  EXPECT_STREQ(sent[0]["method"].GetString(), "client/registerCapability");
  EXPECT_STREQ(sent[0]["params"]["registrations"][0]["method"].GetString(),
               "workspace/didChangeWatchedFiles");
  const auto& watchers = sent[0]["params"]["registrations"][0]["registerOptions"]["watchers"];
  ASSERT_EQ(watchers.Size(), 1u);
  EXPECT_STREQ(watchers[0]["globPattern"].GetString(), "**/*.json") << "a house schema may have any name";
  EXPECT_TRUE(Editor("{}").notify("initialized", "{}").empty());
}

TEST(Serve_documents, findings_follow_what_is_typed) {
  Editor editor;
  editor.open(profile(R"("x_note": "𐐀", "revisio": 1)"));
  auto sent = editor.idle();
  ASSERT_EQ(sent.size(), 1u);
  EXPECT_STREQ(sent[0]["params"]["uri"].GetString(), editor.uri.c_str());
  EXPECT_EQ(sent[0]["params"]["version"].GetInt(), 1);
  ASSERT_EQ(sent[0]["params"]["diagnostics"].Size(), 1u);
  const auto& finding = sent[0]["params"]["diagnostics"][0];
  EXPECT_STREQ(finding["code"].GetString(), "key-unknown");
  EXPECT_STREQ(finding["source"].GetString(), "ohmlore");
  EXPECT_EQ(finding["severity"].GetInt(), 1);
  EXPECT_EQ(editor.range_text(finding["range"]), "\"revisio\"");
  EXPECT_TRUE(editor.idle().empty()) << "nothing changed";

  // both changes of one message, the second in the text that the first left
  const auto line = finding["range"]["start"]["line"].GetUint();
  const auto column = finding["range"]["start"]["character"].GetUint();
  editor.notify("textDocument/didChange",
                fmt::format(R"({{"textDocument": {{"uri": {}, "version": 2}}, "contentChanges": [
      {{"range": {{"start": {{"line": {}, "character": {}}}, "end": {{"line": {}, "character": {}}}}}, "text": "\"y"}},
      {{"range": {{"start": {{"line": {}, "character": {}}}, "end": {{"line": {}, "character": {}}}}}, "text": "x_"}}]}})",
                            json_text(editor.uri), line, column, line, column + 8, line, column + 1, line,
                            column + 2));
  sent = editor.idle();
  ASSERT_EQ(sent.size(), 1u);
  EXPECT_EQ(sent[0]["params"]["version"].GetInt(), 2);
  EXPECT_EQ(sent[0]["params"]["diagnostics"].Size(), 0u) << text_of(sent[0]);

  // the whole text
  editor.notify(
      "textDocument/didChange",
      fmt::format(R"({{"textDocument": {{"uri": {}, "version": 3}}, "contentChanges": [{{"text": "{{"}}]}})",
                  json_text(editor.uri)));
  sent = editor.idle();
  ASSERT_EQ(sent.size(), 1u);
  EXPECT_STREQ(sent[0]["params"]["diagnostics"][0]["code"].GetString(), "json-syntax");
  const auto closed = editor.notify(
      "textDocument/didClose", fmt::format(R"({{"textDocument": {{"uri": {}}}}})", json_text(editor.uri)));
  ASSERT_EQ(closed.size(), 1u);
  EXPECT_EQ(closed[0]["params"]["diagnostics"].Size(), 0u);
  EXPECT_TRUE(editor.idle().empty());
}

// Of PublishDiagnosticsParams the version is optional: none is made up where the editor gives none.
TEST(Serve_documents, findings_have_no_version_where_a_change_had_none) {
  Editor editor;
  for (const char* version : {"", R"(, "version": null)", R"(, "version": "2")"}) {
    editor.open("{");
    editor.notify("textDocument/didChange",
                  fmt::format(R"({{"textDocument": {{"uri": {}{}}}, "contentChanges": [{{"text": "{{"}}]}})",
                              json_text(editor.uri), version));
    const auto sent = editor.idle();
    ASSERT_EQ(sent.size(), 1u) << version;
    EXPECT_FALSE(sent[0]["params"].HasMember("version")) << version;
    EXPECT_EQ(sent[0]["params"]["diagnostics"].Size(), 1u) << version;
  }
}

// Which files changed is not known: all may have.
TEST(Serve_documents, files_that_changed_without_a_name_are_all_looked_at) {
  Editor editor;
  for (const char* parameters :
       {"{}", R"({"changes": null})", R"({"changes": []})", R"({"changes": [{}]})"}) {
    editor.open("{");
    editor.idle();
    editor.notify("workspace/didChangeWatchedFiles", parameters);
    EXPECT_EQ(editor.idle().size(), 1u) << parameters;
  }
}

TEST(Serve_documents, a_change_that_cannot_be_made_is_said) {
  for (
      const char* change :
      {R"({"range": {"start": {"line": 0, "character": 1}, "end": {"line": 0, "character": 0}}, "text": ""})",
       R"({"range": {"start": {"line": 0}, "end": {"line": 0, "character": 0}}, "text": ""})",
       R"({"text": 1})", "3", R"({"range": 1, "text": ""})"}) {
    Editor editor;
    editor.open("{}");
    const auto sent = editor.notify(
        "textDocument/didChange",
        fmt::format(R"({{"textDocument": {{"uri": {}, "version": 2}}, "contentChanges": [{}]}})",
                    json_text(editor.uri), change));
    ASSERT_EQ(sent.size(), 2u) << change;
    EXPECT_STREQ(sent[0]["method"].GetString(), "window/showMessage");
    EXPECT_EQ(sent[1]["params"]["diagnostics"].Size(), 0u) << "its findings are withdrawn";
    EXPECT_TRUE(editor.idle().empty());
  }
}

// What is lost may have changed the text: a fix of the text before it would damage what the editor shows.
TEST(Serve_documents, a_change_that_was_lost_ends_what_is_said_of_them) {
  const std::string change = R"({"jsonrpc": "2.0", "method": "textDocument/didChange", "params": )";
  const std::vector<Received> losses = {
      {change + R"({"contentChanges": [{"text": "\ud83d"}]}})", {}},
      {change + "\"\xFF\"}", {}},
      {change + std::string(1000, '['), {}},
      {R"({"jsonrpc": "2.0", "method": "textDocument\/didOpen", "params": )", {}},
      {{}, "a header has no Content-Length"}};
  for (const Received& loss : losses) {
    Editor editor;
    editor.open("{}");
    editor.uri = "file:///nowhere/other.profile.json";
    editor.open(profile(R"("titel": "Larch")"));
    editor.idle();
    ASSERT_EQ(editor.actions()["result"].Size(), 1u);
    std::vector<Json> answers;
    for (const std::string& one : editor.server.take(loss)) answers.emplace_back().Parse(one.c_str());
    ASSERT_EQ(answers.size(), 4u) << loss.content;
    EXPECT_EQ(answers[0]["error"]["code"].GetInt(), -32700);
    EXPECT_STREQ(answers[1]["method"].GetString(), "window/showMessage");
    for (const std::size_t one : {2u, 3u})
      EXPECT_EQ(answers[one]["params"]["diagnostics"].Size(), 0u) << "findings are withdrawn";
    // The next change is one of a text that is not known.
    EXPECT_TRUE(editor
                    .notify("textDocument/didChange",
                            fmt::format(R"({{"textDocument": {{"uri": {}, "version": 3}}, "contentChanges": [
        {{"range": {{"start": {{"line": 0, "character": 0}}, "end": {{"line": 0, "character": 0}}}}, "text": " "}}]}})",
                                        json_text(editor.uri)))
                    .empty());
    EXPECT_TRUE(editor.actions()["result"].IsNull());
    EXPECT_TRUE(editor.idle().empty());
    editor.open(profile(R"("titel": "Larch")"));
    EXPECT_EQ(editor.actions()["result"].Size(), 1u) << "opened again";
  }
  Editor editor;
  editor.open(profile(R"("titel": "Larch")"));
  EXPECT_EQ(editor.take(R"({"jsonrpc": "2.0", "id": 3, "method": "textDocument/hover", "params": )").size(),
            1u);
  EXPECT_EQ(editor.actions()["result"].Size(), 1u) << "a question changes nothing";
}

TEST(Serve_documents, errors_of_an_open_document_are_shown_in_it_alone) {
  const Corpus_folder folder;
  Editor editor;
  editor.uri = folder.uri("larch.profile.json");
  editor.open(profile("\"title\": \"a\""));
  editor.uri = folder.uri("corpus.json");
  editor.open("{");
  auto sent = editor.idle();
  EXPECT_EQ(sent.size(), 2u) << "the findings of both";
  EXPECT_TRUE(messages_shown(sent).empty());
  folder.write("corpus.json", "{");
  editor.close();
  const auto shown = messages_shown(editor.idle());
  ASSERT_EQ(shown.size(), 1u) << "not open any more";
  EXPECT_EQ(shown[0].find((folder.path / "corpus.json").string() + ":1:"), 0u) << shown[0];
}

TEST(Serve_documents, what_is_wrong_with_files_is_said_once) {
  const Corpus_folder folder;
  folder.write("corpus.json", "{");
  Editor editor;
  editor.uri = folder.uri("larch.profile.json");
  editor.open(profile("\"title\": \"a\""));
  EXPECT_EQ(messages_shown(editor.idle()).size(), 1u);
  editor.notify("textDocument/didSave",
                fmt::format(R"({{"textDocument": {{"uri": {}}}}})", json_text(editor.uri)));
  editor.ask("textDocument/completion", editor.at_cursor()); // at a place where nothing is looked at
  EXPECT_TRUE(messages_shown(editor.idle()).empty());
  folder.write("corpus.json", "");
  editor.notify("workspace/didChangeWatchedFiles", R"({"changes": []})");
  EXPECT_EQ(messages_shown(editor.idle()).size(), 1u) << "another error";
}

// Each part was read and each open document linted anew whenever any file was opened, saved or closed.
TEST(Serve_documents, only_what_may_have_changed_is_looked_at_anew) {
  const Corpus_folder folder;
  folder.write("corpus.json",
               R"({"format": "ohmlore/1.0", "kind": "corpus", "title": "Example", "licence": "CC0-1.0",
                   "house_schema": "house.json"})");
  folder.write("house.json", R"({"type": "object"})");
  const auto editor_of = [](const std::string& watched) {
    return fmt::format(R"({{"workspace": {{"didChangeWatchedFiles": {{"dynamicRegistration": true}}}}}},
                           "workspaceFolders": [{{"uri": "{}", "name": "a"}}])",
                       watched);
  };
  const std::string first = folder.uri("larch.profile.json"), second = folder.uri("alder.profile.json");
  const auto open = [](Editor& editor, const std::string& uri) {
    editor.uri = uri;
    editor.open(profile("\"title\": \"a\""));
    return editor.idle().size();
  };
  const auto changed = [](Editor& editor, const std::string& uri) {
    editor.notify("workspace/didChangeWatchedFiles",
                  fmt::format(R"({{"changes": [{{"uri": "{}", "type": 2}}]}})", uri));
    return editor.idle().size();
  };
  const std::string save = fmt::format(R"({{"textDocument": {{"uri": "{}"}}}})", first);
  Editor editor(editor_of(folder.uri("")));
  EXPECT_EQ(open(editor, first), 1u);
  EXPECT_EQ(open(editor, second), 1u) << "the other is as it was";
  editor.notify("textDocument/didSave", save);
  EXPECT_TRUE(editor.idle().empty()) << "its text is known already";
  EXPECT_EQ(changed(editor, first), 0u);
  EXPECT_EQ(changed(editor, folder.uri("package.json")), 0u);
  for (const char* name : {"corpus.json", "parts/new.part.json", "house.json", "parts"})
    EXPECT_EQ(changed(editor, folder.uri(name)), 2u) << name;
  // What is typed into a document that lies around the others is a change of it.
  Editor typing(editor_of(folder.uri("")));
  open(typing, first);
  open(typing, second);
  typing.uri = folder.uri("corpus.json");
  typing.open("{");
  EXPECT_EQ(typing.idle().size(), 3u);
  typing.notify(
      "textDocument/didChange",
      fmt::format(
          R"({{"textDocument": {{"uri": "{}", "version": 2}}, "contentChanges": [{{"text": "[["}}]}})",
          typing.uri));
  EXPECT_EQ(typing.idle().size(), 3u);
  editor.close();
  EXPECT_TRUE(editor.idle().empty());
  editor.take(R"({"jsonrpc": "2.0", "id": "ohmlore/watch", "result": null})");
  editor.notify("textDocument/didSave", save);
  EXPECT_TRUE(editor.idle().empty()) << "it watches";
  editor.take(R"({"jsonrpc": "2.0", "id": "ohmlore/watch", "error": {"code": -32601, "message": "no"}})");
  editor.notify("textDocument/didSave", save);
  EXPECT_EQ(editor.idle().size(), 1u) << "it said that it can watch files, and then that it does not";

  // What was a folder of the workspace is watched no longer, also where it has lost its slash meanwhile.
  Editor leaving(editor_of(folder.uri("")));
  open(leaving, first);
  open(leaving, second);
  const std::string here = fmt::format(R"([{{"uri": "file://{}", "name": "a"}}])", folder.path.string());
  for (const auto& [event, looked_at] :
       {std::pair{R"({{"removed": {}, "added": []}})", 2u}, {R"({{"removed": [], "added": {}}})", 0u}}) {
    leaving.notify("workspace/didChangeWorkspaceFolders",
                   fmt::format(R"({{"event": {}}})", fmt::format(fmt::runtime(event), here)));
    EXPECT_EQ(leaving.idle().size(), 2u) << "what changed in it before is not told";
    leaving.notify("textDocument/didSave", save);
    EXPECT_EQ(leaving.idle().size(), looked_at) << event;
  }

  // Parts that it does not watch may have changed by then.
  Editor elsewhere(editor_of(folder.uri("profiles")));
  open(elsewhere, first);
  open(elsewhere, second);
  elsewhere.notify("textDocument/didSave", save);
  EXPECT_EQ(elsewhere.idle().size(), 2u);
}

TEST(Serve_documents, a_corpus_that_is_begun_where_a_link_leads_is_seen) {
  const Corpus_folder folder;
  std::filesystem::remove(folder.path / "corpus.json");
  folder.write("larch.profile.json", profile("\"title\": \"a\""));
  folder.write("watched/other.profile.json", "{}");
  std::filesystem::create_symlink("../larch.profile.json", folder.path / "watched/larch.profile.json");
  Editor editor(fmt::format(
      R"({{"workspace": {{"didChangeWatchedFiles": {{"dynamicRegistration": true}}}}}},
          "workspaceFolders": [{{"uri": "{}", "name": "a"}}])",
      folder.uri("watched")));
  editor.uri = folder.uri("watched/larch.profile.json");
  editor.open(profile("\"title\": \"a\""));
  EXPECT_EQ(editor.idle().size(), 1u);
  editor.notify("textDocument/didSave",
                fmt::format(R"({{"textDocument": {{"uri": {}}}}})", json_text(editor.uri)));
  EXPECT_EQ(editor.idle().size(), 1u) << "nobody watches there";
}

// "begin one with `ohmlore new corpus`" says part-unknown. An editor that can watch files watches none where
// one document was opened by itself, without a folder.
TEST(Serve_documents, a_corpus_that_is_begun_later_is_seen) {
  const Corpus_folder folder;
  std::filesystem::remove(folder.path / "corpus.json");
  for (const bool watched : {false, true}) {
    Editor editor(fmt::format(
        R"({{"workspace": {{"didChangeWatchedFiles": {{"dynamicRegistration": true}}}}}},
            "workspaceFolders": [{{"uri": "{}", "name": "a"}}])",
        watched ? folder.uri("") : folder.uri("elsewhere")));
    editor.uri = folder.uri("larch.profile.json");
    editor.open(profile("\"title\": \"a\""));
    EXPECT_EQ(editor.idle().size(), 1u);
    editor.notify("textDocument/didSave",
                  fmt::format(R"({{"textDocument": {{"uri": {}}}}})", json_text(editor.uri)));
    EXPECT_EQ(editor.idle().size(), watched ? 0u : 1u);
  }
}

// With 2,000 documents open, who asked something after a letter in a part waited for 2 s.
TEST(Serve_documents, one_at_a_time_and_first_what_is_typed_into) {
  const Corpus_folder folder;
  Editor editor;
  for (const char* name : {"alder.profile.json", "corpus.json", "larch.profile.json"}) {
    editor.uri = folder.uri(name);
    editor.open(name == std::string_view("corpus.json") ? std::string(folder.good)
                                                        : profile("\"title\": \"a\""));
  }
  EXPECT_EQ(editor.idle().size(), 3u);
  editor.notify(
      "textDocument/didChange",
      fmt::format(
          R"({{"textDocument": {{"uri": "{}", "version": 2}}, "contentChanges": [{{"text": "[["}}]}})",
          folder.uri("corpus.json")));
  for (const char* name : {"corpus.json", "larch.profile.json", "alder.profile.json"}) {
    const auto sent = editor.server.when_idle();
    ASSERT_EQ(sent.size(), 1u) << name;
    EXPECT_NE(sent[0].find(folder.uri(name)), std::string::npos) << sent[0];
  }
  EXPECT_TRUE(editor.server.when_idle().empty());
}

TEST(Serve_completion, ids_stand_with_their_names) {
  Editor editor;
  const Json result = editor.about("completion", profile(R"("components": {
      "flow": { "kind": "ntc", "name": "Flow sensor" }, "stat": { "kind": "switch" },
      "pump": { "kind": "coil", "name": "Pump" } }, "tests": { "a": { "component": "‸" } })"));
  ASSERT_TRUE(result.IsObject());
  std::string all;
  for (const auto& item : result["items"].GetArray())
    all += fmt::format("{}: {}\n", item["label"].GetString(),
                       item.HasMember("detail") ? item["detail"].GetString() : "");
  EXPECT_EQ(all, "flow: Flow sensor\nstat: \npump: Pump\n");
}

TEST(Serve_documents, one_file_under_two_paths) {
  const Corpus_folder folder;
  const std::string name = "parts/pt1000-class-b.part.json";
  const std::string part = test::read_bytes(std::filesystem::path(OHMLORE_SOURCE_DIR) / "corpus" / name);
  folder.write(name, part);
  std::filesystem::create_directory_symlink(".", folder.path / "link");
  const auto is_unknown = [](Editor& editor) {
    bool seen = false;
    for (const Json& one : editor.idle())
      for (const auto& finding : one["params"]["diagnostics"].GetArray())
        seen = seen || std::string_view(finding["code"].GetString()) == "part-unknown";
    return seen;
  };
  const std::string profile_of_it = profile(
      R"("components": { "a": { "kind": "rtd", "name": "A", "between": ["X4.1", "X4.2"], "part": "pt1000-class-b" } })");
  Editor editor;
  editor.uri = folder.uri(name);
  editor.open("{");
  editor.uri = folder.uri("link/larch.profile.json");
  editor.open(profile_of_it);
  EXPECT_TRUE(is_unknown(editor)) << "the text that is typed counts";
  // Open under both, what was typed last.
  for (const std::string& uri : {folder.uri("link/" + name), folder.uri(name)}) {
    editor.uri = uri;
    editor.open(part);
    EXPECT_FALSE(is_unknown(editor)) << uri;
    editor.notify(
        "textDocument/didChange",
        fmt::format(
            R"({{"textDocument": {{"uri": "{}", "version": 2}}, "contentChanges": [{{"text": "{{"}}]}})",
            uri));
    EXPECT_TRUE(is_unknown(editor)) << uri;
  }
}

TEST(Serve_documents, others_are_left_alone) {
  for (const char* uri : {"file:///a/b.json", "file:///a/profile.json", "untitled:a", "", "file:///"}) {
    Editor editor;
    editor.uri = uri;
    editor.open("{");
    EXPECT_TRUE(editor.idle().empty()) << uri;
  }
  Editor editor;
  editor.uri = "untitled:a.profile.json"; // no file, but its name says what it is
  editor.open("{");
  EXPECT_EQ(editor.idle().size(), 1u);
}

TEST(Serve_documents, related_places) {
  const std::string twice = profile(R"("title": "a", "title": "b")");
  Editor editor;
  editor.open(twice);
  const auto with = editor.idle();
  const auto& diagnostics = with.at(0)["params"]["diagnostics"];
  ASSERT_EQ(diagnostics.Size(), 1u);
  const auto& related = diagnostics[0]["relatedInformation"];
  ASSERT_EQ(related.Size(), 1u);
  EXPECT_EQ(editor.range_text(related[0]["location"]["range"]), "\"title\"");

  Editor plain("{}");
  plain.open(twice);
  const auto without = plain.idle();
  const auto& message = without.at(0)["params"]["diagnostics"][0];
  EXPECT_FALSE(message.HasMember("relatedInformation"));
  EXPECT_NE(std::string_view(message["message"].GetString()).find("/nowhere/example.profile.json:12:1: "),
            std::string_view::npos)
      << message["message"].GetString();
}

TEST(Serve_documents, every_place_that_names_what_is_not_there_is_marked) {
  Editor editor;
  editor.open(
      profile(R"("components": { "link": { "kind": "coding", "name": "Link", "between": ["X9.1", "X9.2"] } },
    "tests": { "link_test": { "component": "link", "unplug": "X4", "probes": ["X4.1", "X9.1"],
      "side": "at_board_plug" } })"));
  std::vector<std::string> marked;
  const auto sent = editor.idle();
  for (const auto& finding : sent.at(0)["params"]["diagnostics"].GetArray())
    if (finding["code"] == "pin-undeclared") marked.push_back(editor.range_text(finding["range"]));
  EXPECT_EQ(marked, (std::vector<std::string>{"\"X9.1\"", "\"X9.2\"", "\"X9.1\""}));
}

// What is told as one is marked at each place of an error alone, and there once.
TEST(Serve_documents, no_place_is_marked_twice_for_one_rule_nor_each_of_what_is_doubted) {
  const auto marked = [](std::string_view name, std::string_view code) {
    Editor editor;
    editor.open(test::read_bytes(std::filesystem::path(OHMLORE_SOURCE_DIR) / "tests/rules" / code / name));
    std::vector<std::string> places;
    const auto sent = editor.idle();
    for (const auto& finding : sent.at(0)["params"]["diagnostics"].GetArray())
      if (finding["code"].GetString() == code) places.push_back(editor.range_text(finding["range"]));
    return places;
  };
  auto rows = marked("bad-two-beside-each-other.json", "ntc-rises");
  EXPECT_GT(rows.size(), 1u);
  std::sort(rows.begin(), rows.end());
  EXPECT_EQ(std::adjacent_find(rows.begin(), rows.end()), rows.end());
  EXPECT_EQ(marked("bad-none.json", "test-uncited").size(), 1u);
}

TEST(Serve_documents, related_places_in_the_schema_of_the_house) {
  const std::filesystem::path corpus =
      std::filesystem::path(OHMLORE_SOURCE_DIR) / "tests/rules/house-schema-broken/bad-demands";
  Editor editor;
  editor.uri = fmt::format("file://{}/larch.profile.json", corpus.string());
  editor.open(test::read_bytes(corpus / "larch.profile.json"));
  const auto sent = editor.idle();
  editor.text = test::read_bytes(corpus / "house.schema.json");
  std::size_t places = 0;
  for (const auto& finding : sent.at(0)["params"]["diagnostics"].GetArray()) {
    const std::string_view message = finding["message"].GetString();
    if (!finding.HasMember("relatedInformation") || message.find("Alder") == message.npos) continue;
    const auto& location = finding["relatedInformation"][0]["location"];
    EXPECT_STREQ(location["uri"].GetString(),
                 fmt::format("file://{}/house.schema.json", corpus.string()).c_str());
    EXPECT_EQ(editor.range_text(location["range"]), "\"^Larch\"");
    ++places;
  }
  EXPECT_EQ(places, 1u);
}

// ---- hover

constexpr std::string_view fixed_resistor =
    R"("components": { "link": { "kind": "coding", "name": "Link", "between": ["X4.1", "X4.2"],
    "code": "24 kW", "model": { "kind": "fixed", "resistance": "470 Ω", "tolerance": "5 %" } } },
  "tests": { "link_test": { "component": "link", "unplug": "X4", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
    "expect": { "kind": "band", "nominal": "480 Ω", "tolerance": "10 %", "at": "20 °C" } } })";

std::string with_cursor(std::string text, std::string_view before) {
  const std::size_t at = text.find(before);
  EXPECT_NE(at, std::string::npos) << before;
  return text.insert(at + before.size(), cursor);
}

TEST(Serve_hover, bands_and_every_caution) {
  // by hand: 470 Ω less and plus 5 %; 480 Ω less and plus 10 %
  const std::string text = profile(fixed_resistor);
  for (const auto& [before, band] : {std::pair{"\"li", "446.5 Ω to 493.5 Ω"},
                                     {"24 kW\", \"mod", "446.5 Ω to 493.5 Ω"},
                                     {"\"component\": \"li", "446.5 Ω to 493.5 Ω"},
                                     {"\"link_", "432 Ω to 528 Ω"},
                                     {"\"exp", "432 Ω to 528 Ω"}}) {
    Editor editor;
    const std::string shown = editor.hover(with_cursor(text, before));
    ASSERT_NE(shown.find(band), std::string::npos) << before << ": " << shown;
    // In Markdown some letters are escaped: compared without.
    std::string plain;
    for (const char c : shown.substr(0, shown.find(band)))
      if (c != '\\') plain += c;
    for (const Caution& caution : cautions()) // what a profile adds stands behind the sentence
      EXPECT_NE(plain.find(caution.text.substr(0, caution.text.size() - 1)), std::string::npos)
          << caution.text;
    EXPECT_NE(plain.find("spur under the stairs"), std::string::npos);
  }
}

// "The order describes the preferred format of the client."
TEST(Serve_hover, in_the_format_that_the_editor_prefers) {
  for (const auto& [formats, kind] : {std::pair{R"(["markdown", "plaintext"])", "markdown"},
                                      {R"(["plaintext", "markdown"])", "plaintext"},
                                      {"[]", "plaintext"},
                                      {"[7]", "plaintext"},
                                      {R"("markdown")", "plaintext"}}) {
    Editor editor(fmt::format(R"({{"general": {{"positionEncodings": ["utf-8"]}},
        "textDocument": {{"hover": {{"contentFormat": {}}}}}}})",
                              formats));
    const Json shown = editor.about("hover", with_cursor(profile(fixed_resistor), "\"li"));
    EXPECT_STREQ(shown["contents"]["kind"].GetString(), kind) << formats;
  }
}

TEST(Serve_hover, no_band_where_nothing_can_be_relied_on) {
  Editor editor;
  const std::string broken = with_cursor(profile(std::string(fixed_resistor) + R"(, "revisio": 1)"), "\"li");
  EXPECT_NE(editor.hover(broken).find("No band is shown"), std::string::npos);
  // An error of lint alone: the band, and before all else the warning.
  std::string wrong(fixed_resistor);
  wrong.replace(wrong.find(R"("X4.2"], "side")"), 6, R"("X4.7")");
  const std::string shown = editor.hover(with_cursor(profile(wrong), "\"li"));
  EXPECT_EQ(shown.find("- Errors that ohmlore lint finds in this file: "), 0u) << shown;
  EXPECT_NE(shown.find("446.5 Ω to 493.5 Ω"), std::string::npos);
}

TEST(Serve_hover, no_band_while_the_policy_is_not_known) {
  const Corpus_folder folder;
  Editor editor;
  editor.uri = folder.uri("larch.profile.json");
  const std::string text = with_cursor(profile(fixed_resistor), "\"link_");
  EXPECT_NE(editor.hover(text).find("432 Ω to 528 Ω"), std::string::npos);
  folder.write("corpus.json", R"({"policy": {"service_limit": )");
  editor.notify("workspace/didChangeWatchedFiles", R"({"changes": []})");
  const std::string shown = editor.hover(text);
  EXPECT_NE(shown.find("No band is shown while"), std::string::npos) << shown;
  EXPECT_EQ(shown.find("432 Ω"), std::string::npos) << shown;
}

TEST(Serve_hover, a_part) {
  // IEC 60751:2022, table 1: 107.79 Ω at 20 °C of a part with 100 Ω at 0 °C; here ten times that.
  Editor editor;
  editor.uri = "file:///nowhere/pt1000-class-b.part.json";
  const std::string shown = editor.hover(with_cursor(
      test::read_bytes(std::filesystem::path(OHMLORE_SOURCE_DIR) / "corpus/parts/pt1000-class-b.part.json"),
      "\"comp"));
  EXPECT_NE(shown.find("nominal 1.078 kΩ"), std::string::npos) << shown;
  EXPECT_EQ(shown.find("- Dead test only"), 0u) << shown;
}

TEST(Serve_hover, beyond_what_a_model_speaks_of) {
  Editor editor;
  const std::string shown = editor.hover(profile(
      R"("components": { "mo‸del": { "kind": "ntc", "name": "Flue sensor", "between": ["X4.1", "X4.2"], "temperature_range": "50 °C to 200 °C",
         "model": { "kind": "beta", "resistance": "10 kΩ", "tolerance": "2 %", "at": "100 °C", "b_value": "3977 K", "b_between": "25 °C to 85 °C" } } })"));
  EXPECT_NE(shown.find("beyond 50 °C to 200 °C: take it with doubt"), std::string::npos) << shown;
}

TEST(Serve_hover, the_condition_of_a_test) {
  Editor editor;
  const std::string shown = editor.hover(profile(
      R"("components": { "stat": { "kind": "switch", "name": "Stat", "between": ["X4.1", "X4.2"], "states": { "cold": "closed" } } },
         "tests": { "st‸at_cold": { "component": "stat", "probes": ["X4.1", "X4.2"], "side": "at_component", "condition": "cold" } })"));
  EXPECT_NE(shown.find("while cold"), std::string::npos) << shown;
}

TEST(Serve_hover, a_part_that_is_not_known) {
  Editor editor;
  const std::string shown = editor.hover(profile(
      R"("components": { "fl‸ow": { "kind": "ntc", "name": "Flow", "between": ["X4.1", "X4.2"], "part": "none" } })"));
  EXPECT_NE(shown.find("The part none is not known here"), std::string::npos) << shown;
}

TEST(Serve_hover, a_part_whose_file_has_errors) {
  const Corpus_folder folder;
  folder.write("parts/lost.part.json", "{");
  const std::string text = profile(
      R"("components": { "flow": { "kind": "ntc", "name": "Flow", "between": ["X4.1", "X4.2"], "part": "lost" } },
         "tests": { "flow_test": { "component": "flow", "unplug": "X4", "probes": ["X4.1", "X4.2"], "side": "at_board_plug" } })");
  Editor editor("{}");
  editor.uri = folder.uri("larch.profile.json");
  for (const char* before : {"\"components\": { \"fl", "\"flow_"}) {
    const std::string shown = editor.hover(with_cursor(text, before));
    EXPECT_NE(shown.find("lost.part.json cannot be read without errors"), std::string::npos) << shown;
    EXPECT_EQ(shown.find("is not found"), std::string::npos) << shown;
    EXPECT_EQ(shown.find("not known here"), std::string::npos) << shown;
  }
}

TEST(Serve_hover, keys_words_and_rules) {
  Editor editor;
  const std::string text = profile(fixed_resistor);
  const std::string key = editor.hover(with_cursor(text, "\"unpl"));
  EXPECT_NE(key.find("The connector to withdraw, or disconnect, first."), std::string::npos) << key;
  EXPECT_EQ(key.find("at 20 °C"), std::string::npos);
  EXPECT_NE(editor.hover(with_cursor(text, "\"prob")).find("required"), std::string::npos);
  EXPECT_NE(editor.hover(with_cursor(text, "\"at_board")).find("plug"), std::string::npos);
  EXPECT_EQ(editor.hover(with_cursor(text, "Larch")), "");
  const std::string rule = editor.hover(with_cursor(profile(R"("revisio": 1)"), "\"revisio\""));
  EXPECT_NE(rule.find("# key-unknown"), std::string::npos) << rule;
  EXPECT_NE(rule.find("a profile has no key \"revisio\""), std::string::npos) << rule;
  const std::string waived = editor.hover(with_cursor(
      profile(R"("waivers": [{"rule": "source-unused", "at": "/sources", "why": "x"}])"), "\"source-un"));
  EXPECT_NE(waived.find("# source-unused"), std::string::npos) << waived;
  editor.uri = "file:///house/corpus.json";
  const std::string policy = R"({"kind": "corpus", "policy": {"severities": {"source-unused": "off"}}})";
  const std::string lowered = editor.hover(with_cursor(policy, "\"source-un"));
  EXPECT_NE(lowered.find("# source-unused"), std::string::npos) << lowered;
  EXPECT_EQ(editor.definition(with_cursor(policy, "\"source-un")), "") << "a rule stands in no document";
}

TEST(Serve_hover, help_comes_before_what_is_found_of_all_around) {
  Editor editor;
  const std::string shown = editor.hover(with_cursor(profile(R"("components": {
    "a": { "kind": "coil", "between": ["X4.1", "X4.2"], "name": "Valve" } },
    "faults": { "E1": { "display": { "kind": "text", "text": "E1" }, "meaning": "lockout",
      "suspects": [{ "kind": "board", "not_decidable": "no dead test shows it" }] } })"),
                                                     "\"name\""));
  const std::size_t help = shown.find("Its name, as"), around = shown.find("component-unreached");
  ASSERT_NE(around, std::string::npos) << shown;
  EXPECT_LT(help, around) << shown;
}

TEST(Serve_hover, while_a_word_is_typed) {
  Editor editor;
  const auto with = [](std::string_view typed) {
    return profile(fmt::format(
        "\"components\": {{ \"a\": {{ \"kind\": \"ntc\",\n{}\n\"name\": \"Sensor\" }} }}", typed));
  };
  for (const auto typed : {"\"note\"", "\"note", "\"note\": \"x\"", "\"note\": \"x", "\"no"})
    EXPECT_NE(editor.hover(with_cursor(with(typed), "\"nam")).find("Its name, as"), std::string::npos)
        << typed;
  EXPECT_NE(editor.hover(with_cursor(with("\"note\""), "\n\"not")).find("What else to know."),
            std::string::npos);
}

TEST(Serve_hover, words_of_documents_are_no_markup) {
  std::string text(fixed_resistor);
  text.replace(text.find("Link\""), 4, "![x](http://a) <b>");
  Editor editor;
  const std::string shown = editor.hover(with_cursor(profile(text), "\"li"));
  EXPECT_EQ(shown.find("![x]("), std::string::npos) << shown;
  EXPECT_EQ(shown.find("<b>"), std::string::npos) << shown;
  Editor plain("{}");
  EXPECT_NE(plain.hover(with_cursor(profile(text), "\"li")).find("![x](http://a) <b>"), std::string::npos)
      << "no Markdown, nothing to escape";
}

// ---- completion

TEST(Serve_completion, keys) {
  Editor editor;
  const auto keys = editor.offered(profile(R"("tests": { "a": { "side": "at_component", ‸ } })"));
  ASSERT_GE(keys.size(), 3u);
  EXPECT_EQ(keys[0], R"(component -> "component": "$1")") << "required first";
  EXPECT_EQ(keys[1], R"(probes -> "probes": [$1])");
  EXPECT_TRUE(has(keys, R"(expect -> "expect": {$1})"));
  EXPECT_FALSE(has(keys, R"(side -> "side": "$1")")) << "it is there already";
  // those behind the cursor are there, too
  const auto before = editor.offered(profile(R"("tests": { "a": { "‸" "side": "at_component" } })"));
  EXPECT_FALSE(has(before, R"(side -> "side": "$1",)"));
  EXPECT_TRUE(has(before, R"(component -> "component": "$1",)")) << "the comma that is missing then";
  // where a colon follows, the key alone
  EXPECT_TRUE(
      has(editor.offered(profile(R"("tests": { "a": { "eff‸": "low" } })")), R"(effort -> "effort")"));
  // of a variant, those of its kind
  const auto of_kind = editor.offered(profile(R"("components": { "a": { "kind": "ptc", ‸ } })"));
  EXPECT_TRUE(has(of_kind, R"(type -> "type": "$1")"));
  EXPECT_FALSE(has(of_kind, R"(linearised -> "linearised": $1)"));
  const auto without = editor.offered(profile(R"("components": { "a": {‸} })"));
  EXPECT_EQ(without.at(0), R"(kind -> "kind": "$1")");
  // at the root, of an empty document too; $ means something in snippets
  const auto root = editor.offered("{‸");
  EXPECT_EQ(root.at(0), R"(format -> "format": "ohmlore/1.0")");
  EXPECT_TRUE(has(root, R"(kind -> "kind": "profile")"));
  EXPECT_TRUE(has(root, R"($schema -> "\$schema": "$1")"));
  EXPECT_TRUE(editor.offered(profile(R"("tests": {‸})")).empty()) << "ids are free";
  EXPECT_TRUE(editor.offered(profile(R"("x_own": {‸})")).empty());
  EXPECT_TRUE(editor.offered("‸").empty());
  EXPECT_TRUE(editor.offered("{}‸").empty());
  Editor plain("{}");
  EXPECT_EQ(plain.offered("{\"fo‸").at(0), R"(format -> "format": "ohmlore/1.0")");
  EXPECT_TRUE(has(plain.offered("{‸"), R"(id -> "id": )"));
}

TEST(Serve_completion, words_and_references) {
  Editor editor;
  const auto in_test = [&](std::string_view member) {
    return editor.offered(profile(fmt::format(
        R"("components": {{ "flow": {{ "kind": "switch", "name": "Flow switch", "states": {{ "cold": "closed", "hot": "open" }} }} }},
           "tests": {{ "a": {{ "component": "flow", {} }} }})",
        member)));
  };
  EXPECT_TRUE(has(in_test(R"("side": "‸")"), R"(at_component -> "at_component")"));
  EXPECT_TRUE(has(in_test(R"("side": at‸)"), R"(at_component -> "at_component")"))
      << "without quotation marks";
  EXPECT_EQ(in_test(R"("unplug": "‸")"), std::vector<std::string>{R"(X4 -> "X4")"});
  EXPECT_EQ(in_test(R"("probes": ["X4.‸"])"),
            (std::vector<std::string>{R"(X4.1 -> "X4.1")", R"(X4.2 -> "X4.2")"}));
  EXPECT_EQ(in_test(R"("probes": ["X4.‸", "X4.2"])"), std::vector<std::string>{R"(X4.1 -> "X4.1")"})
      << "both leads on one contact would read 0 Ω";
  EXPECT_EQ(in_test(R"("probes": ["X4.1" "X‸)"), std::vector<std::string>{R"(X4.2 -> "X4.2")"})
      << "without the comma, and nothing is closed";
  EXPECT_EQ(in_test(R"("probes": ["X4.2", "X4.9"], "positive": "‸")"),
            std::vector<std::string>{R"(X4.2 -> "X4.2")"})
      << "a lead goes to each of the probes";
  EXPECT_EQ(in_test(R"("positive": "‸", "probes": ["X4.2"])").size(), 2u) << "the other is not known yet";
  EXPECT_EQ(in_test(R"("condition": "‸")"),
            (std::vector<std::string>{R"(cold -> "cold")", R"(hot -> "hot")"}));
  EXPECT_EQ(in_test(R"("source": { "from": ‸ })"), std::vector<std::string>{R"(notes -> "notes")"});
  EXPECT_TRUE(in_test(R"("note": "‸")").empty());
  EXPECT_TRUE(in_test(R"("note": "a" ‸)").empty()) << "a comma must come first";
  EXPECT_EQ(editor.offered(profile(R"("components": { "flow": { "kind": "ntc", "name": "Flow" } },
                                      "tests": { "a": { "component": "f‸" } })")),
            std::vector<std::string>{R"(flow -> "flow")"});
  EXPECT_TRUE(has(editor.offered(profile(R"("components": { "a": { "kind": "‸" } })")), R"(ntc -> "ntc")"));
  EXPECT_TRUE(
      has(editor.offered(profile(R"("components": { "a": { "kind": "rtd", "purely_resistive": ‸ } })")),
          "true -> true"));
  EXPECT_TRUE(has(editor.offered(profile(R"("waivers": [{ "rule": "band-‸" }])")),
                  R"(band-inverted -> "band-inverted")"));
  EXPECT_TRUE(has(editor.offered(profile(R"("faults": { "H1": { "suspects": [{ "kind": "‸" }] } })")),
                  R"(harness -> "harness")"));
}

// What part-kind-differs and mode-impossible would find is not offered.
TEST(Serve_completion, nothing_that_contradicts_the_kind) {
  const Corpus_folder folder;
  for (const std::string name : {"pt1000-class-b.part.json", "photocell-oil.part.json"})
    folder.write("parts/" + name,
                 test::read_bytes(std::filesystem::path(OHMLORE_SOURCE_DIR) / "corpus/parts" / name));
  Editor editor;
  editor.uri = folder.uri("larch.profile.json");
  const auto parts = [&](std::string_view kind) {
    return editor.offered(
        profile(fmt::format(R"("components": {{ "a": {{ "kind": {}, "part": "‸" }} }})", kind)));
  };
  EXPECT_EQ(parts("\"rtd\""), std::vector<std::string>{R"(pt1000-class-b -> "pt1000-class-b")"});
  EXPECT_TRUE(parts("\"ntc\"").empty());
  for (const char* unknown : {"\"\"", "\"rdt\"", "7"}) EXPECT_EQ(parts(unknown).size(), 2u) << unknown;

  const auto modes = [&](std::string_view kind, std::string_view circuits = "") {
    return editor.offered(profile(fmt::format(
        R"("components": {{ "a": {{ "kind": "{}", "name": "A", "between": ["X4.1", "X4.2"] }} }}, {}
           "faults": {{ "H1": {{ "suspects": [{{ "kind": "component", "component": "a", "modes": ["open", "‸"] }}] }} }})",
        kind, circuits)));
  };
  EXPECT_TRUE(has(modes("ntc"), R"(short -> "short")"));
  EXPECT_FALSE(has(modes("ntc"), R"(open -> "open")")) << "it stands there";
  EXPECT_FALSE(has(modes("ntc"), R"(stuck_open -> "stuck_open")")) << "nothing in it moves";
  EXPECT_TRUE(has(modes("switch"), R"(stuck_open -> "stuck_open")"));
  EXPECT_TRUE(has(modes("ntc", R"("circuits": { "c": { "between": ["X4.1", "X4.2"], "arrangement": "series",
      "elements": [{ "kind": "component", "component": "a" }] } },)"),
                  R"(stuck_open -> "stuck_open")"))
      << "the other elements may";
}

TEST(Serve_completion, rules_that_a_policy_may_name) {
  Editor editor;
  editor.uri = "file:///house/corpus.json";
  const auto offered = [&](std::string_view severities) {
    return editor.offered(
        fmt::format(R"({{"kind": "corpus", "policy": {{"severities": {{{}}}}}}})", severities));
  };
  EXPECT_TRUE(has(offered(R"("band-‸")"), R"(band-inverted -> "band-inverted": "$1")"));
  EXPECT_TRUE(has(offered(R"("band-‸": "note")"), R"(band-inverted -> "band-inverted")"));
  EXPECT_FALSE(has(offered(R"("band-inverted": "note", "‸": "off")"), R"(band-inverted -> "band-inverted")"))
      << "it is there";
  EXPECT_TRUE(has(offered(R"("band-inverted": "‸")"), R"(off -> "off")"));
}

// An editor compares what stands between the begin of the edit and the cursor with `filterText`, else with
// the label; Neovim (0.7.2 was tried) with what is written, and then only from where the edit begins.
TEST(Serve_completion, begins_behind_the_quotation_mark) {
  Editor editor;
  const Json result = editor.about("completion", profile(R"("tests": { "𐐀": { "side": "at_‸board" } })"));
  const auto& item = result["items"][0];
  EXPECT_EQ(editor.range_text(item["textEdit"]["range"]), "at_board\"");
  EXPECT_STREQ(item["textEdit"]["newText"].GetString(), "at_board_plug\"");
  EXPECT_FALSE(item.HasMember("filterText"));
  const Json truths = editor.about(
      "completion", profile(R"("components": { "a": { "kind": "rtd", "purely_resistive": "t‸" } })"));
  const auto& truth = truths["items"][0];
  EXPECT_EQ(editor.range_text(truth["textEdit"]["range"]), "\"t\"") << "no truth is a text";
  EXPECT_STREQ(truth["textEdit"]["newText"].GetString(), "true");
  EXPECT_STREQ(truth["filterText"].GetString(), "\"true\"");
}

TEST(Serve_completion, leaves_nothing_of_the_word) {
  Editor editor;
  const auto is = [&](std::string_view written, std::string_view completed) {
    const auto in_test = [](std::string_view members) {
      return profile(fmt::format(
          R"("components": {{ "flow_sensor": {{ "kind": "ntc", "name": "Flow" }} }}, "tests": {{ "a": {{ {} }} }})",
          members));
    };
    EXPECT_EQ(editor.completed(in_test(written)), completed.empty() ? "" : in_test(completed)) << written;
  };
  is(R"("component": "fl‸öw_sensor")", R"("component": "flow_sensor")");
  is(R"("component": "fl‸ow sensor" , "probes": [])", R"("component": "flow_sensor" , "probes": [])");
  is(R"("component": "‸flow \" sensor")", R"("component": "flow_sensor")");
  is("\"component\": \"fl‸ow sensor\"\r\n", "\"component\": \"flow_sensor\"\r\n");
  is(R"("probes": ["X4 ‸.2", "X4.2"])", R"("probes": ["X4.1", "X4.2"])");
  is(R"("compo ‸nent": "flow_sensor", "probes": [], "side": "at_component")",
     R"("component": "flow_sensor", "probes": [], "side": "at_component")");
  // its quotation mark is missing: the next one begins another text
  is(R"("component": "fl‸, "probes": [])", R"("component": "flow_sensor", "probes": [])");
  is(R"("component": "fl‸ow "probes": [])", R"("component": "flow_sensor", "probes": [])");
  is(R"("probes": ["X4.‸, "X4.2"])", R"("probes": ["X4.1", "X4.2"])");
}

TEST(Serve_completion, writes_no_second_value) {
  Editor editor;
  const auto in_test = [](std::string_view members) {
    return profile(fmt::format(
        R"("components": {{ "flow": {{ "kind": "ntc", "name": "Flow" }} }}, "tests": {{ "a": {{ {} }} }})",
        members));
  };
  for (const char* before :
       {R"("component": ‸"flow")", R"("component":‸ "flow", "probes": [])", R"("component": ‸ { "x": 1 })",
        R"("component": ‸ [])", "\"component\": ‸\n\"flow\""})
    EXPECT_EQ(editor.completed(in_test(before)), "") << before;
  EXPECT_EQ(editor.completed(in_test(R"("probes": [‸"X4.2"])")), in_test(R"("probes": ["X4.1","X4.2"])"));
  EXPECT_EQ(editor.completed(in_test("\"component\": ‸\n  \"probes\": []")),
            in_test("\"component\": \"flow\",\n  \"probes\": []"))
      << "what follows is the next key";
}

// "Note: The range of the edit must be a single line range."
TEST(Serve_completion, of_one_line) {
  for (const std::string_view written :
       {"{\"kind\": \"pro\rfile‸\"}", "{\"kind\": \"pro\nfile‸\"}", "{\"kind\": \"pro\\\nfile‸\"}",
        "{\"kind\": \"pro\\\r\nfile‸\"}", "{\"kind\": \"pro‸\rfile\"}", "{\"kind\": \"pro‸\\\nfile\"}"}) {
    std::string text(written);
    const std::size_t at = text.find(cursor);
    text.erase(at, cursor.size());
    const auto found = serve::cursor_in(text, at);
    if (!found) continue;
    const std::string word = text.substr(found->begin, found->end - found->begin);
    EXPECT_EQ(word.find_first_of("\r\n"), std::string::npos) << written;
  }
}

// ---- definitions

TEST(Serve_definition, of_each_kind_of_reference) {
  Editor editor;
  const std::string text =
      profile(R"("components": { "flow": { "kind": "switch", "name": "Flow", "between": ["X4.1", "X4.3"],
      "states": { "cold": "closed" }, "source": { "from": "notes" } } },
    "circuits": { "chain": { "between": ["X4.1", "X4.2"], "arrangement": "series", "elements": [] } },
    "tests": { "a_test": { "component": "flow", "unplug": "X4", "probes": [], "side": "at_component", "condition": "cold" } },
    "faults": { "H1": { "suspects": [{ "kind": "component", "component": "no_such", "decided_by": ["a_test"] }] } })");
  for (const auto& [before, found] : {std::pair{"\"component\": \"fl", "\"flow\""},
                                      {"\"unplug\": \"X", "\"X4\""},
                                      {"[\"X4.1", "\"1\""},
                                      {"\"X4.3", "\"X4\""},
                                      {"\"condition\": \"c", "\"cold\""},
                                      {"[\"a_t", "\"a_test\""},
                                      {"\"source\": { \"from\": \"no", "\"notes\""},
                                      {"\"no_such", ""},
                                      {"\"side\": \"at", ""},
                                      {"\"kind\": \"pro", ""}})
    EXPECT_EQ(editor.definition(with_cursor(text, before)), found) << before;
}

TEST(Serve_definition, of_a_part_is_its_file) {
  const std::filesystem::path corpus = std::filesystem::path(OHMLORE_SOURCE_DIR) / "corpus";
  Editor editor;
  editor.uri = fmt::format("file://{}/profiles/new.profile.json", corpus.string());
  const Json result = editor.about(
      "definition", profile(R"("components": { "a": { "kind": "ntc", "part": "ntc-10k-‸b3977-1pct" } })"));
  ASSERT_TRUE(result.IsObject());
  const std::filesystem::path file = corpus / "parts/ntc-10k-b3977-1pct.part.json";
  EXPECT_EQ(result["uri"].GetString(), "file://" + file.string());
  editor.text = test::read_bytes(file);
  EXPECT_EQ(editor.range_text(result["range"]), "\"ntc-10k-b3977-1pct\"");
  // and all of its kind are offered
  const auto parts = editor.offered(profile(R"("components": { "a": { "kind": "rtd", "part": "‸" } })"));
  EXPECT_TRUE(has(parts, R"(pt1000-class-b -> "pt1000-class-b")"));
}

// ---- actions

TEST(Serve_actions, fixes_that_a_person_may_take) {
  for (const bool versioned : {false, true}) {
    Editor editor(fmt::format(R"({{"general": {{"positionEncodings": ["utf-8"]}},
        "workspace": {{"workspaceEdit": {{"documentChanges": {}}}}},
        "textDocument": {{"codeAction": {{"codeActionLiteralSupport": {{}}}}}}}})",
                              versioned));
    editor.open(profile(R"("x_note": "𐐀", "titel": "Larch")"));
    const Json answer = editor.actions();
    ASSERT_EQ(answer["result"].Size(), 1u) << text_of(answer);
    const auto& action = answer["result"][0];
    EXPECT_STREQ(action["kind"].GetString(), "quickfix");
    EXPECT_STREQ(action["diagnostics"][0]["code"].GetString(), "key-unknown");
    const auto& edit = action["edit"];
    const auto& change =
        versioned ? edit["documentChanges"][0]["edits"][0] : edit["changes"][editor.uri.c_str()][0];
    EXPECT_EQ(editor.range_text(change["range"]), "\"titel\"");
    EXPECT_STREQ(change["newText"].GetString(), "\"title\"");
    if (versioned) {
      EXPECT_EQ(edit["documentChanges"][0]["textDocument"]["version"].GetInt(), 1);
    }
    EXPECT_TRUE(editor.actions(R"(, "only": ["refactor"])")["result"].IsNull());
    EXPECT_EQ(editor.actions(R"(, "only": ["quickfix"])")["result"].Size(), 1u);
    EXPECT_EQ(editor.actions(R"(, "only": [""])")["result"].Size(), 1u) << "the empty kind holds all";
  }
}

// Of what is told as one the first place offers all, each other its own; nobody is offered what stands
// elsewhere.
TEST(Serve_actions, fixes_of_the_place_that_is_asked_for) {
  Editor editor;
  editor.open(
      profile(R"("components": { "flow_sensor": { "kind": "ntc", "name": "A", "between": ["X4.1", "X4.2"] } },
    "faults": { "F1": { "display": { "kind": "text", "text": "F1" }, "meaning": "m", "suspects": [
      { "kind": "component", "component": "flow_sensr" },
      { "kind": "component", "component": "flow_sensr" }] } })"));
  const std::string wrong = "\"flow_sensr\"";
  const std::size_t first = editor.text.find(wrong), second = editor.text.find(wrong, first + 1);
  const auto offered = [&](std::size_t offset) {
    const auto at = Lines_of_text(editor.text).place_of(offset, Encoding::utf8);
    const std::string place = fmt::format(R"({{"line": {}, "character": {}}})", at.line, at.character);
    const Json answer =
        editor.ask("textDocument/codeAction",
                   fmt::format(R"({{"textDocument": {{"uri": {}}}, "context": {{"diagnostics": []}},
                       "range": {{"start": {}, "end": {}}}}})",
                               json_text(editor.uri), place, place));
    std::vector<std::string> titles;
    for (const auto& action : answer["result"].GetArray()) titles.emplace_back(action["title"].GetString());
    return titles;
  };
  EXPECT_EQ(offered(first + 1), (std::vector<std::string>{"write \"flow_sensor\" in 2 places"}));
  EXPECT_EQ(offered(second + 1), (std::vector<std::string>{"write \"flow_sensor\""}));
  EXPECT_EQ(offered(0), std::vector<std::string>());
}

TEST(Serve_actions, none_that_only_shows_what_was_meant) {
  // Limits that were surely not merely exchanged: the fix is for display (band-inverted).
  Editor editor;
  editor.open(
      profile(R"("components": { "a": { "kind": "ntc", "name": "A", "between": ["X4.1", "X4.2"], "model":
      { "kind": "table", "rows": [{ "at": "25 °C", "min": "99 kΩ", "max": "9.8 kΩ" }] } } })"));
  const Json answer = editor.actions();
  for (const auto& action : answer["result"].GetArray())
    EXPECT_STRNE(action["diagnostics"][0]["code"].GetString(), "band-inverted");
}

// ---- whatever is typed

TEST(Serve_robustness, every_question_at_places_of_damaged_documents) {
  const std::string whole = test::larch_profile();
  std::mt19937 random(11);
  Editor editor("{}");
  for (int round = 0; round < test::cases(400); ++round) {
    std::string text = whole;
    switch (random() % 4) {
    case 0: text.resize(random() % text.size()); break;
    case 1: text.erase(random() % text.size(), random() % 30); break;
    case 2: text.insert(random() % text.size(), 1, "{}[]\",:\\ \n"[random() % 10]); break;
    default: break;
    }
    std::size_t at = random() % (text.size() + 1);
    while (at > 0 && at < text.size() && (text[at] & 0xC0) == 0x80) --at;
    if (find_invalid_utf8(text) != std::string::npos) continue; // no message can carry it
    text.insert(at, cursor);
    for (const char* question : {"hover", "completion", "definition"}) editor.about(question, text);
    const auto mended = serve::cursor_in(editor.text, at);
    if (mended) {
      ASSERT_LE(mended->begin, mended->end);
      ASSERT_LE(mended->end, editor.text.size());
      const std::string word = editor.text.substr(mended->begin, mended->end - mended->begin);
      ASSERT_EQ(word.find_first_of("\r\n"), std::string::npos);
    }
    ASSERT_EQ(editor.idle().size(), 1u);
  }
}

// Every value of good messages replaced by others: nothing of a message is taken for granted.
void each_value(rapidjson::Value& value, const std::function<void(rapidjson::Value&)>& take) {
  take(value);
  if (value.IsObject())
    for (int i = 0; i < static_cast<int>(value.MemberCount()); ++i)
      each_value((value.MemberBegin() + i)->value, take);
  if (value.IsArray())
    for (auto& one : value.GetArray()) each_value(one, take);
}

TEST(Serve_robustness, values_of_other_types_in_messages) {
  const std::string uri = "file:///nowhere/example.profile.json";
  const std::string at = fmt::format(
      R"("textDocument": {{"uri": "{}"}}, "position": {{"line": 3, "character": 4}}, "context": {{"diagnostics": [], "only": ["quickfix"]}},
         "range": {{"start": {{"line": 1, "character": 4}}, "end": {{"line": 3, "character": 2}}}})",
      uri);
  std::vector<std::string> messages = {
      R"({"jsonrpc": "2.0", "id": 1, "method": "initialize", "params": {"capabilities": {"general": {"positionEncodings": ["utf-8"]},
          "textDocument": {"hover": {"contentFormat": ["markdown"]}, "codeAction": {"codeActionLiteralSupport": {}}}}}})",
      fmt::format(R"({{"jsonrpc": "2.0", "method": "textDocument/didOpen", "params": {{"textDocument":
          {{"uri": "{}", "version": 1, "text": {}}}}}}})",
                  uri, json_text("{\n  \"kind\": \"profile\",\n  \"id\": \"a\",\n  \"revision\": 1\n}")),
      fmt::format(
          R"({{"jsonrpc": "2.0", "method": "textDocument/didChange", "params": {{"textDocument": {{"uri": "{}", "version": 2}},
          "contentChanges": [{{"range": {{"start": {{"line": 1, "character": 4}}, "end": {{"line": 1, "character": 5}}}}, "text": "f"}}]}}}})",
          uri)};
  for (const char* method : {"hover", "completion", "definition", "codeAction"})
    messages.push_back(fmt::format(
        R"({{"jsonrpc": "2.0", "id": 2, "method": "textDocument/{}", "params": {{{}}}}})", method, at));
  const char* others[] = {"null", "true", "-1", "4294967296", "1e300", "\"\"", "\"file:///a.part.json\"",
                          "[]",   "[[]]", "{}"};
  for (std::size_t changed = 0; changed < messages.size(); ++changed) {
    Json whole;
    whole.Parse(messages[changed].c_str());
    std::size_t values = 0;
    each_value(whole, [&](rapidjson::Value&) { ++values; });
    for (std::size_t chosen = 0; chosen < values; ++chosen)
      for (const char* other : others) {
        Json message, replacement;
        message.CopyFrom(whole, message.GetAllocator());
        replacement.Parse(other);
        std::size_t number = 0;
        rapidjson::Value* place = nullptr;
        each_value(message, [&](rapidjson::Value& value) {
          if (number++ == chosen) place = &value;
        });
        place->CopyFrom(replacement, message.GetAllocator());
        Language_server server;
        for (std::size_t i = 0; i < messages.size(); ++i)
          for (const std::string& answer : server.take({i == changed ? text_of(message) : messages[i], {}})) {
            Json json;
            ASSERT_FALSE(json.Parse(answer.c_str()).HasParseError()) << answer;
          }
        server.when_idle();
      }
  }
}

}
}
