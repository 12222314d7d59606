#include "exchange/json_escapes.h"

#include <fmt/format.h>
#include <rapidjson/reader.h>

#include "ohmlore/text.h"
#include "text/json_memory.h"

namespace ohmlore {

bool needs_escapes(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const char32_t c = next_code_point(text, i);
    if (c < 0x20 || c == 0xFFFE || c == 0xFFFF) return true;
  }
  return false;
}

std::string with_escapes(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t at = i;
    const char32_t c = next_code_point(text, i);
    if (c >= 0xFFFE && c <= 0xFFFF) {
      out += c == 0xFFFE ? "\\uFFFE" : "\\uFFFF";
      continue;
    }
    Json_buffer buffer;
    Json_line_writer writer(buffer);
    writer.String(text.data() + at, static_cast<rapidjson::SizeType>(i - at));
    out.append(buffer.GetString() + 1, buffer.GetSize() - 2);
  }
  return out;
}

bool is_escaped_text(std::string_view text) {
  const std::string json = fmt::format("\"{}\"", text);
  rapidjson::MemoryStream bytes(json.data(), json.size());
  rapidjson::BaseReaderHandler<> nothing;
  rapidjson::Reader reader;
  return !reader.Parse<rapidjson::kParseValidateEncodingFlag>(bytes, nothing).IsError();
}

}
