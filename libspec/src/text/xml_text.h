// An XML tree, made and written as text. What pugixml has no memory for it leaves out, and goes on: a page
// would lack a sentence that nobody misses, so here that is thrown.
#pragma once

#include <new>
#include <string>

#include <pugixml.hpp>

namespace ohmlore {

/// Of what pugixml answers to a change.
inline void must_be_made(bool made) {
  if (!made) throw std::bad_alloc();
}
inline pugi::xml_node add_element(pugi::xml_node parent, const char* name) {
  pugi::xml_node element = parent.append_child(pugi::node_element);
  must_be_made(element.set_name(name));
  return element;
}
inline void add_attribute(pugi::xml_node node, const char* name, const char* value) {
  pugi::xml_attribute attribute = node.append_attribute("");
  must_be_made(attribute.set_name(name) && attribute.set_value(value));
}
inline void add_text(pugi::xml_node node, const char* text) {
  must_be_made(node.append_child(pugi::node_pcdata).set_value(text));
}
/// <?xml version="1.0" encoding="UTF-8"?>
inline void add_declaration(pugi::xml_document& document) {
  const pugi::xml_node declaration = document.append_child(pugi::node_declaration);
  add_attribute(declaration, "version", "1.0");
  add_attribute(declaration, "encoding", "UTF-8");
}

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
