// XML that is well-formed, in one namespace, and without a DOCTYPE: what pugixml lets pass is refused here.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include <pugixml.hpp>

#include "ohmlore/exchange.h"

namespace ohmlore {

class Xml_source {
public:
  /// `findings` are in the order in which they were found, without lines and columns.
  Xml_source(std::string name, std::string_view bytes, std::vector<Finding>& findings);

  /// Parses and checks. Null where the bytes are no XML that can be read; that is reported.
  pugi::xml_node root();

  /// The name of an element or attribute without its prefix.
  static std::string_view local(std::string_view name) { return name.substr(name.find(':') + 1); }
  /// Text of an element that holds no elements.
  std::string text(pugi::xml_node element);
  std::string text(pugi::xml_attribute attribute) { return decoded(attribute.value()); }

  Source_bytes place(pugi::xml_node element) const;
  Source_bytes place(pugi::xml_attribute attribute) const;
  /// Of a stretch of a name or value that pugixml gave.
  Source_bytes place_of(std::string_view in_copy) const {
    return {offset(in_copy.data()), offset(in_copy.data() + in_copy.size())};
  }
  /// The text of an element; its name where it has none.
  Source_bytes place_of_text(pugi::xml_node element) const;

  void report(std::string_view rule, Source_bytes at, std::string message,
              Severity severity = Severity::error);
  bool failed() const { return failed_; }

private:
  struct Prefix {
    std::string prefix;
    unsigned depth; ///< of the element that declares it
  };
  bool check_bytes();
  pugi::xml_node open_at(std::uint32_t at) const;
  void report_open(std::uint32_t at);
  void check_declaration(pugi::xml_node declaration);
  void check_outside();
  void check_elements(pugi::xml_node root);
  void enter(pugi::xml_node element, unsigned depth);
  bool check_text(std::string_view raw, bool attribute);
  std::string_view uri_of(std::string_view prefix) const;
  std::string decoded(std::string_view raw) const;
  // What is empty may stand outside of the copy.
  std::uint32_t offset(const char* in_copy) const {
    const bool inside =
        !std::less<>()(in_copy, copy_.data()) && std::less<>()(in_copy, copy_.data() + copy_.size());
    return inside ? static_cast<std::uint32_t>(in_copy - copy_.data()) : 0;
  }
  std::string name_;
  std::string_view bytes_;
  std::vector<char> copy_; // pugixml works in it, so that its names and values tell where they stand
  std::vector<Finding>& findings_;
  pugi::xml_document document_;
  std::vector<Prefix> prefixes_;                                      ///< that hold here, the innermost last
  std::map<std::string, std::vector<std::string>, std::less<>> uris_; ///< of each prefix, likewise
  bool failed_ = false;
};

}
