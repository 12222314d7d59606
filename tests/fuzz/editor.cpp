// Bytes as what an editor sends: a stream of messages where they begin with a header, else a document that is
// open, and asked about at places that its bytes choose.
#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>

#include "fuzz.h"
#include "ohmlore/serve.h"
#include "ohmlore/text.h"

using namespace ohmlore;

namespace {

constexpr std::string_view initialize =
    R"({"jsonrpc": "2.0", "id": 1, "method": "initialize", "params": {"capabilities": {}}})";
constexpr const char* uri = "file:///nowhere/a.profile.json";

void tell(Language_server& server, std::string_view message) {
  for (const std::string& answer : server.take({std::string(message), ""}))
    fuzz::expect(!framed(answer).empty(), "an answer is a message");
}

void as_stream(std::string_view bytes) {
  Language_server server;
  Message_reader reader;
  const std::size_t half = bytes.size() / 2;
  for (const std::string_view part : {bytes.substr(0, half), bytes.substr(half)}) {
    reader.add(part);
    while (const std::optional<Received> received = reader.next()) server.take(*received);
    while (!server.when_idle().empty()) continue;
  }
}

std::string quoted(std::string_view text) {
  rapidjson::StringBuffer buffer;
  rapidjson::Writer<rapidjson::StringBuffer>(buffer).String(text.data(),
                                                            static_cast<rapidjson::SizeType>(text.size()));
  return {buffer.GetString(), buffer.GetSize()};
}

void as_document(std::string_view bytes) {
  if (find_invalid_utf8(bytes) != std::string_view::npos) return; // no message holds it
  Language_server server;
  tell(server, initialize);
  tell(server, R"({"jsonrpc": "2.0", "method": "initialized", "params": {}})");
  tell(server,
       std::string(R"({"jsonrpc": "2.0", "method": "textDocument/didOpen", "params": {"textDocument": )") +
           R"({"uri": ")" + uri + R"(", "languageId": "json", "version": 1, "text": )" + quoted(bytes) +
           "}}}");
  fuzz::expect(!server.when_idle().empty(), "who opens a document is told of it");
  const std::size_t seed = bytes.empty() ? 0 : static_cast<unsigned char>(bytes.back());
  for (const char* method : {"hover", "completion", "definition", "codeAction"}) {
    for (std::size_t i = 0; i < 8; ++i) {
      const std::size_t line = (seed * 31 + i * 7) % 40, character = (seed + i * 13) % 60;
      const std::string place =
          R"({"line": )" + std::to_string(line) + R"(, "character": )" + std::to_string(character) + "}";
      tell(server, std::string(R"({"jsonrpc": "2.0", "id": 2, "method": "textDocument/)") + method +
                       R"(", "params": {"textDocument": {"uri": ")" + uri + R"("}, "position": )" + place +
                       R"(, "range": {"start": )" + place + R"(, "end": )" + place +
                       R"(}, "context": {"diagnostics": []}}})");
    }
  }
}

}

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes = fuzz::text_of(data, size);
  if (bytes.starts_with("Content-"))
    as_stream(bytes);
  else
    as_document(bytes);
  return 0;
}
