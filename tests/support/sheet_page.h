// A sheet made of a profile, and its page as a tree.
#pragma once

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <functional>
#include <pugixml.hpp>
#include <regex>

#include "files.h"
#include "ohmlore/sheet.h"

namespace ohmlore::test {

inline Read_result read(const std::string& text) {
  Read_result read = read_json("test.profile.json", text);
  for (const Finding& finding : read.findings)
    if (finding.severity == Severity::error) ADD_FAILURE() << finding.message;
  return read;
}

struct Made {
  Read_result profile;
  Resolved resolved;
  std::string html(Language language = Language::english) const { return sheet_html(resolved, language); }
};
inline Made make(const std::string& text) {
  Made made{read(text), {}};
  made.resolved = resolve(made.profile.document, {});
  return made;
}

// A page as a tree: HTML of this writer is XML, but for its void elements and the text in <style>.
inline pugi::xml_document tree_of(std::string html) {
  static const std::regex void_element("<(meta|input)((?: [^<>]*[^/])?)>");
  html = std::regex_replace(html, void_element, "<$1$2/>");
  pugi::xml_document document;
  const auto parsed =
      document.load_buffer(html.data(), html.size(), pugi::parse_full & ~pugi::parse_comments);
  EXPECT_TRUE(parsed) << parsed.description() << " at "
                      << html.substr(static_cast<std::size_t>(parsed.offset), 80);
  return document;
}

inline void each_element(pugi::xml_node node, const std::function<void(pugi::xml_node)>& f) {
  for (const pugi::xml_node child : node.children()) {
    if (child.type() == pugi::node_element) f(child);
    each_element(child, f);
  }
}

inline std::string text_in(pugi::xml_node node) {
  std::string text;
  for (const pugi::xml_node child : node.children())
    text += child.type() == pugi::node_pcdata ? child.value() : text_in(child);
  return text;
}

}
