// Base protocol of LSP 3.17: header fields, each ended by CR LF, an empty line, then the content.
#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "ohmlore/serve.h"
#include "text/cut.h"
#include "text/small_letters.h"

namespace ohmlore {
namespace {

constexpr std::string_view length_field = "content-length";
constexpr std::size_t most_header = 4096;

bool is_same(char a, char b) { return small_letter(a) == small_letter(b); }
bool alike(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), is_same);
}

// What a header says; without a length, why.
struct Header {
  std::optional<std::size_t> length;
  std::string problem;
};

Header header_of(std::string_view text) {
  Header header;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find("\r\n"), text.size());
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + 2, text.size()));
    const std::size_t colon = line.find(':');
    if (colon == std::string_view::npos) return {{}, "a header field has no colon"};
    const std::string_view value = trimmed(line.substr(colon + 1));
    if (alike(line.substr(0, colon), length_field)) {
      if (header.length) return {{}, "a header states two lengths"};
      std::size_t length = 0;
      const char* last = value.data() + value.size();
      const auto [stopped, error] = std::from_chars(value.data(), last, length);
      if (error != std::errc() || stopped != last || value.empty())
        return {{}, "Content-Length is no number of bytes"};
      header.length = length;
    } else if (alike(line.substr(0, colon), "content-type")) {
      const std::size_t charset = value.find("charset=");
      const std::string_view name = charset == value.npos ? "utf-8" : value.substr(charset + 8);
      if (!alike(name, "utf-8") && !alike(name, "utf8")) return {{}, "the charset is not utf-8"};
    }
  }
  if (!header.length) header.problem = "a header has no Content-Length";
  return header;
}

}

// From here on the next header is looked for. No message holds what looks like one: in JSON, line breaks of a
// text are escaped, and outside of texts there are no such words.
std::optional<Received> Message_reader::lose(std::string problem) {
  lost_ = true;
  buffer_.erase(0, 1); // not this one again
  return Received{{}, std::move(problem)};
}

// False: none is there yet, and what can not belong to one is dropped.
bool Message_reader::find_header() {
  const auto found =
      std::search(buffer_.begin(), buffer_.end(), length_field.begin(), length_field.end(), is_same);
  const bool here = found != buffer_.end();
  const std::size_t kept = std::min(buffer_.size(), length_field.size());
  buffer_.erase(buffer_.begin(), here ? found : buffer_.end() - static_cast<std::ptrdiff_t>(kept));
  return here;
}

std::optional<Received> Message_reader::next() {
  for (;;) {
    if (reads_content_) {
      if (buffer_.size() < content_) return std::nullopt;
      Received received{buffer_.substr(0, content_), {}};
      buffer_.erase(0, content_);
      reads_content_ = false;
      return received;
    }
    if (lost_ && !find_header()) return std::nullopt;
    lost_ = false;
    const std::size_t end = buffer_.find("\r\n\r\n");
    if (end == std::string::npos) {
      if (buffer_.size() > most_header)
        return lose(fmt::format("no header ends within {} bytes", most_header));
      return std::nullopt;
    }
    const Header header = header_of(std::string_view(buffer_).substr(0, end));
    if (!header.length) return lose(header.problem);
    if (*header.length > most_message)
      return lose(fmt::format("a message of {} bytes is left out: at most {} are read. If it changed a "
                              "document, close that and open it again",
                              *header.length, most_message));
    buffer_.erase(0, end + 4);
    content_ = *header.length;
    reads_content_ = true;
  }
}

std::string framed(std::string_view message) {
  return fmt::format("Content-Length: {}\r\n\r\n{}", message.size(), message);
}

}
