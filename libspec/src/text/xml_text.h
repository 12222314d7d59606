// An XML tree as text.
#pragma once

#include <string>

#include <pugixml.hpp>

namespace ohmlore {

/// UTF-8; indented by two spaces unless `format` says otherwise.
inline std::string xml_text(const pugi::xml_document& document, unsigned format = pugi::format_indent) {
  struct Writer : pugi::xml_writer {
    std::string text;
    void write(const void* data, std::size_t size) override {
      text.append(static_cast<const char*>(data), size);
    }
  } writer;
  document.save(writer, "  ", format, pugi::encoding_utf8);
  return std::move(writer.text);
}

}
