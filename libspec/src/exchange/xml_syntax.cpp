#include "exchange/xml_syntax.h"

#include <algorithm>
#include <charconv>
#include <unordered_set>

#include <fmt/format.h>

#include "ohmlore/text.h"
#include "publish/exchange_names.h"
#include "text/small_letters.h"
#include "text/xml_text.h"

namespace ohmlore {
namespace {

constexpr std::string_view schema_instance = "http://www.w3.org/2001/XMLSchema-instance";
constexpr std::string_view xml_prefix_uri = "http://www.w3.org/XML/1998/namespace";

// Entities and the text around elements are kept as written, since pugixml keeps what it does not know.
constexpr unsigned parse_flags = pugi::parse_cdata | pugi::parse_eol | pugi::parse_wconv_attribute |
                                 pugi::parse_comments | pugi::parse_pi | pugi::parse_declaration |
                                 pugi::parse_doctype | pugi::parse_fragment | pugi::parse_ws_pcdata;

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }
bool is_beyond_ascii(char c) { return static_cast<unsigned char>(c) > 0x7F; }
bool is_blank(std::string_view text) { return std::all_of(text.begin(), text.end(), is_space); }

bool is_xml_char(char32_t c) {
  return c == 0x9 || c == 0xA || c == 0xD || (c >= 0x20 && c <= 0xD7FF) || (c >= 0xE000 && c <= 0xFFFD) ||
         (c >= 0x10000 && c <= 0x10FFFF);
}

// The character that "&…;" stands for (`name` without the two marks); 0 where it is none.
char32_t referenced(std::string_view name) {
  if (name == "amp") return '&';
  if (name == "lt") return '<';
  if (name == "gt") return '>';
  if (name == "quot") return '"';
  if (name == "apos") return '\'';
  if (!name.starts_with('#')) return 0;
  name.remove_prefix(1);
  const bool hexadecimal = name.starts_with('x');
  if (hexadecimal) name.remove_prefix(1);
  std::uint32_t code = 0;
  const auto [end, error] =
      std::from_chars(name.data(), name.data() + name.size(), code, hexadecimal ? 16 : 10);
  const bool whole = !name.empty() && error == std::errc{} && end == name.data() + name.size();
  return whole && is_xml_char(code) ? code : 0;
}

// NCName (Namespaces in XML 1.0), letters beyond ASCII not told apart.
bool is_prefix(std::string_view name) {
  const auto letter = [](char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '_' || is_beyond_ascii(c);
  };
  return !name.empty() && letter(name[0]) && std::all_of(name.begin(), name.end(), [&](char c) {
    return letter(c) || (c >= '0' && c <= '9') || c == '-' || c == '.';
  });
}

std::string_view reason(pugi::xml_parse_status status) {
  switch (status) {
  case pugi::status_unrecognized_tag:
    return "`<` begins neither a tag nor a comment here; as text it is written &lt;";
  case pugi::status_bad_pi:
    return "this processing instruction is not ended, has no name, or is an XML declaration inside of the "
           "document";
  case pugi::status_bad_comment: return "this comment is not ended with -->";
  case pugi::status_bad_cdata: return "this CDATA section is not ended with ]]>";
  case pugi::status_bad_doctype: return "this DOCTYPE is malformed, and none is read anyway";
  case pugi::status_bad_pcdata: return "the text ends inside an element";
  case pugi::status_bad_start_element: return "this start tag is malformed, or not ended with >";
  case pugi::status_bad_attribute:
    return "this attribute is malformed; write name=\"value\" with a space before it";
  case pugi::status_bad_end_element: return "this end tag is malformed, or not ended with >";
  case pugi::status_no_document_element: return "there is no element";
  default: return "the text is not XML here";
  }
}

}

Xml_source::Xml_source(std::string name, std::string_view bytes, std::vector<Finding>& findings)
    : name_(std::move(name)), bytes_(bytes), copy_(bytes.begin(), bytes.end()), findings_(findings) {
  copy_.push_back('\0');
}

void Xml_source::report(std::string_view rule, Source_bytes at, std::string message, Severity severity) {
  if (severity == Severity::error) failed_ = true;
  if (findings_.size() >= most_findings) return;
  Finding& finding = findings_.emplace_back();
  finding.rule = rule;
  finding.severity = severity;
  finding.file = name_;
  finding.region.begin = at.begin;
  finding.region.end = std::max(at.begin, at.end);
  finding.message = std::move(message);
}

Source_bytes Xml_source::place(pugi::xml_node element) const {
  const Source_bytes name = place_of(element.name());
  return {name.begin == 0 ? 0 : name.begin - 1, name.end}; // with its <
}

Source_bytes Xml_source::place(pugi::xml_attribute attribute) const {
  const Source_bytes name = place_of(attribute.name()), value = place_of(attribute.value());
  return {name.begin, value.end + 1};
}

Source_bytes Xml_source::place_of_text(pugi::xml_node element) const {
  for (const pugi::xml_node child : element.children())
    if (child.type() == pugi::node_pcdata || child.type() == pugi::node_cdata) return place_of(child.value());
  return place(element);
}

std::string Xml_source::decoded(std::string_view raw) const {
  std::string out;
  for (std::size_t i = 0; i < raw.size(); ++i) {
    if (raw[i] != '&') {
      out += raw[i];
      continue;
    }
    const std::size_t end = raw.find(';', i);
    append_code_point(out, referenced(raw.substr(i + 1, end - i - 1)));
    i = end;
  }
  return out;
}

std::string Xml_source::text(pugi::xml_node element) {
  std::string out;
  for (const pugi::xml_node child : element.children()) {
    if (child.type() == pugi::node_pcdata) out += decoded(child.value());
    if (child.type() == pugi::node_cdata) out += child.value();
  }
  return out;
}

bool Xml_source::check_bytes() {
  if (bytes_.size() > most_xml_bytes) {
    report(
        "file-too-large", {},
        fmt::format("the file has {} bytes; XML is read up to {} (32 MiB)", bytes_.size(), most_xml_bytes));
    return false;
  }
  if (bytes_.starts_with("\xFF\xFE") || bytes_.starts_with("\xFE\xFF")) {
    report("utf8-malformed", {0, 2}, "the file is written in UTF-16; save it as UTF-8");
    return false;
  }
  const std::size_t start = bytes_.starts_with("\xEF\xBB\xBF") ? 3 : 0;
  for (std::size_t i = start; i < bytes_.size();) {
    const auto begin = static_cast<std::uint32_t>(i);
    if (utf8_length(bytes_, i) == 0) {
      report("utf8-malformed", {begin, begin + 1},
             fmt::format("byte 0x{:02X} is not UTF-8 here; save the file as UTF-8",
                         static_cast<unsigned char>(bytes_[i])));
      return false;
    }
    const char32_t c = next_code_point(bytes_, i);
    if (is_xml_char(c)) continue;
    report("xml-syntax", {begin, static_cast<std::uint32_t>(i)},
           fmt::format("XML cannot carry the character U+{:04X}{}", static_cast<std::uint32_t>(c),
                       c == 0 ? "; save the file as UTF-8 if it is in UTF-16" : ""));
    return false;
  }
  const std::size_t first = bytes_.find_first_not_of(" \t\r\n", start);
  if (first != std::string_view::npos && bytes_[first] == '{') {
    const auto at = static_cast<std::uint32_t>(first);
    report("xml-syntax", {at, at + 1}, "this is no XML; JSON is read where `--from xml` is left out");
    return false;
  }
  return true;
}

pugi::xml_node Xml_source::root() {
  if (!check_bytes()) return {};
  const pugi::xml_parse_result result =
      document_.load_buffer_inplace(copy_.data(), copy_.size() - 1, parse_flags, pugi::encoding_utf8);
  must_be_made(result.status != pugi::status_out_of_memory);
  // A DOCTYPE before the place of an error is the better thing to speak of.
  for (const pugi::xml_node node : document_.children())
    if (node.type() == pugi::node_doctype) {
      const auto at = static_cast<std::uint32_t>(std::min(bytes_.find("<!DOCTYPE"), bytes_.size()));
      report("xml-syntax", {at, at + 9},
             "a DOCTYPE is not read, nor what it declares; remove it, and write out what its entities stand "
             "for");
      return {};
    }
  if (!result) {
    const auto at = static_cast<std::uint32_t>(
        std::min<std::size_t>(static_cast<std::size_t>(result.offset), bytes_.size()));
    if (result.status == pugi::status_end_element_mismatch)
      report_open(at);
    else
      report("xml-syntax", {at, at}, std::string(reason(result.status)));
    return {};
  }
  check_outside();
  const pugi::xml_node root = document_.document_element();
  if (!failed_) check_elements(root);
  return failed_ ? pugi::xml_node() : root;
}

// The innermost element that is open at a byte. Null where that cannot be told: comments, CDATA sections and
// processing instructions may hold what looks like a tag.
pugi::xml_node Xml_source::open_at(std::uint32_t at) const {
  std::vector<pugi::xml_node> last; // each the last child of the one before
  const auto element_in = [](pugi::xml_node parent) {
    pugi::xml_node child = parent.last_child();
    while (child && child.type() != pugi::node_element) child = child.previous_sibling();
    return child;
  };
  for (pugi::xml_node node = element_in(document_); node; node = element_in(node)) last.push_back(node);
  if (last.empty()) return {};
  const pugi::xml_attribute attribute = last.back().last_attribute();
  const std::uint32_t begin = attribute ? place(attribute).end : place(last.back()).end;
  if (begin >= at) return {};
  const std::string_view behind = bytes_.substr(begin, at - begin);
  if (behind.find("<!") != std::string_view::npos || behind.find("<?") != std::string_view::npos) return {};
  // Only end tags stand there: what else began would be the last element.
  const std::size_t tag_end = behind.find('>');
  std::size_t closed = tag_end != std::string_view::npos && tag_end > 0 && behind[tag_end - 1] == '/' ? 1 : 0;
  for (std::size_t i = behind.find("</"); i != std::string_view::npos; i = behind.find("</", i + 1)) ++closed;
  return closed < last.size() ? last[last.size() - 1 - closed] : pugi::xml_node();
}

// At `at` stands the name of an end tag that ends no open element; or the file ends while one is open, and
// then `at` is some place before.
void Xml_source::report_open(std::uint32_t at) {
  const auto size = static_cast<std::uint32_t>(bytes_.size());
  const bool at_tag = at >= 2 && bytes_.substr(at - 2, 2) == "</";
  const std::string_view name =
      bytes_.substr(at, std::min(bytes_.find_first_of("> \t\r\n", at), bytes_.size()) - at);
  const auto end = at + static_cast<std::uint32_t>(name.size());
  pugi::xml_node open = open_at(at_tag ? at - 2 : size);
  const bool misspelt = at_tag && open && name != open.name();
  if (!misspelt) open = open_at(size);
  if (misspelt)
    report("xml-syntax", {at - 2, end},
           fmt::format(
               "`{}` is ended here, but `{}` is open; an end tag is missing before, or this one is misspelt",
               printable(name.substr(0, 64)), printable(open.name())));
  else if (open)
    report("xml-syntax", {size, size},
           fmt::format("the file ends here, and `{}` is still open; it may have been cut off",
                       printable(open.name())));
  else
    report("xml-syntax", {at, end}, "an end tag is missing before the end of the file, or misspelt");
  if (const Source_bytes opened = place(open); open && findings_.size() < most_findings)
    findings_.back().related.push_back({name_, {opened.begin, opened.end, {}, {}}, "opened here"});
}

void Xml_source::check_declaration(pugi::xml_node declaration) {
  const std::size_t start = bytes_.starts_with("\xEF\xBB\xBF") ? 3 : 0;
  const Source_bytes at = place(declaration);
  if (std::string_view(declaration.name()) != "xml" || at.begin != start + 1) {
    report("xml-syntax", at, "an XML declaration stands at the very beginning, and nowhere else");
    return;
  }
  static constexpr std::string_view known[] = {"version", "encoding", "standalone"};
  std::size_t next = 0;
  for (const pugi::xml_attribute attribute : declaration.attributes()) {
    const auto* found = std::find(std::begin(known), std::end(known), std::string_view(attribute.name()));
    const auto index = static_cast<std::size_t>(found - std::begin(known));
    if (found == std::end(known) || index < next || (next == 0 && index != 0)) {
      report("xml-syntax", place(attribute),
             "an XML declaration has version, encoding and standalone, in this order");
      return;
    }
    next = index + 1;
    const std::string value = small_letters(attribute.value());
    if (index == 0 && value != "1.0")
      report("xml-syntax", place(attribute), "XML 1.0 is read, and no other version of XML");
    if (index == 1 && value != "utf-8" && value != "us-ascii")
      report("utf8-malformed", place(attribute),
             "the file names another encoding; save it as UTF-8, and say so here");
    if (index == 1 && value == "us-ascii" &&
        std::any_of(bytes_.begin() + static_cast<std::ptrdiff_t>(start), bytes_.end(), is_beyond_ascii))
      report("utf8-malformed", place(attribute),
             "the file holds characters that the encoding named here does not have; write UTF-8 here");
    if (index == 2 && value != "yes" && value != "no")
      report("xml-syntax", place(attribute), "standalone is yes or no");
  }
  if (next == 0) report("xml-syntax", at, "an XML declaration names its version: <?xml version=\"1.0\"?>");
}

// Around the root element: comments, processing instructions, and space.
void Xml_source::check_outside() {
  bool seen = false;
  for (const pugi::xml_node node : document_.children()) {
    if (node.type() == pugi::node_declaration) check_declaration(node);
    if (node.type() == pugi::node_element) {
      if (seen)
        report("xml-syntax", place(node), "a second root element begins here; a file holds one document");
      seen = true;
    }
    const bool text = node.type() == pugi::node_pcdata || node.type() == pugi::node_cdata;
    if (text && (!is_blank(node.value()) || node.type() == pugi::node_cdata)) {
      std::string_view words = node.value();
      words.remove_prefix(std::min(words.find_first_not_of(" \t\r\n"), words.size()));
      report("xml-syntax", place_of(words), "text stands outside of the root element");
    }
  }
  if (!seen && !failed_) report("xml-syntax", {}, "there is no element in this file");
}

std::string_view Xml_source::uri_of(std::string_view prefix) const {
  const auto known = uris_.find(prefix);
  if (known != uris_.end() && !known->second.empty()) return known->second.back();
  return prefix == "xml" ? xml_prefix_uri : std::string_view();
}

// In document order, without recursion: depth is what the file says it is.
void Xml_source::check_elements(pugi::xml_node root) {
  unsigned depth = 1;
  pugi::xml_node node = root;
  const auto leave = [&] {
    for (; !prefixes_.empty() && prefixes_.back().depth == depth; prefixes_.pop_back())
      uris_[prefixes_.back().prefix].pop_back();
  };
  for (;;) {
    switch (node.type()) {
    case pugi::node_element:
      if (depth > most_xml_depth) {
        report("nesting-too-deep", place(node),
               fmt::format("elements are nested more than {} deep here", most_xml_depth));
        return;
      }
      enter(node, depth);
      break;
    case pugi::node_pcdata: check_text(node.value(), false); break;
    case pugi::node_comment:
      if (const std::string_view words = node.value();
          words.find("--") != std::string_view::npos || words.ends_with('-'))
        report("xml-syntax", place_of(words), "`--` stands inside a comment; XML ends comments there");
      break;
    case pugi::node_declaration: check_declaration(node); break;
    default: break;
    }
    // What is wrong with the root is mostly wrong with every element.
    if (failed_ && (node == root || findings_.size() >= most_findings)) return;
    if (node.type() == pugi::node_element && node.first_child()) {
      node = node.first_child();
      ++depth;
      continue;
    }
    if (node.type() == pugi::node_element) leave();
    while (node != root && !node.next_sibling()) {
      node = node.parent();
      --depth;
      leave();
    }
    if (node == root) return;
    node = node.next_sibling();
  }
}

void Xml_source::enter(pugi::xml_node element, unsigned depth) {
  const auto prefix_of = [](std::string_view name) {
    const std::size_t colon = name.find(':');
    return colon == std::string_view::npos ? std::string_view() : name.substr(0, colon);
  };
  std::unordered_set<std::string_view> names;
  for (const pugi::xml_attribute attribute : element.attributes()) {
    const std::string_view name = attribute.name();
    if (!names.insert(name).second)
      report("xml-syntax", place(attribute),
             fmt::format("the attribute {} stands here twice", printable(name)));
    if (!check_text(attribute.value(), true)) continue;
    if (name == "xmlns" || prefix_of(name) == "xmlns") {
      const std::string uri = text(attribute);
      if (name != "xmlns" && (uri.empty() || !is_prefix(local(name))))
        report("xml-syntax", place(attribute), "a prefix is a name, and stands for a namespace that has one");
      prefixes_.push_back({std::string(name == "xmlns" ? "" : local(name)), depth});
      uris_[prefixes_.back().prefix].push_back(uri);
    }
  }
  const std::string_view name = element.name();
  const std::string_view uri = uri_of(prefix_of(name));
  if (name.find(':') != name.rfind(':') || local(name).empty() || name.starts_with(':')) {
    report("xml-syntax", place(element), "a name has one colon at most, between a prefix and a name");
  } else if (!prefix_of(name).empty() && uri.empty()) {
    report("xml-syntax", place(element),
           fmt::format("the prefix {} stands for no namespace; declare it with xmlns:{}",
                       printable(prefix_of(name)), printable(prefix_of(name))));
  } else if (uri != xml_namespace) {
    const bool other_version = uri.starts_with("urn:ohmlore:");
    report(other_version ? "format-unsupported" : "xml-structure", place(element),
           uri.empty()
               ? fmt::format("this element is in no namespace; write xmlns=\"{}\" in the root element",
                             xml_namespace)
           : other_version
               ? fmt::format("{} is a version that this program does not read; it reads {}", printable(uri),
                             xml_namespace)
               : fmt::format("this element is in the namespace {}; all elements of a document are in {}",
                             printable(uri), xml_namespace));
  }
  for (const pugi::xml_attribute attribute : element.attributes()) {
    const std::string_view attribute_name = attribute.name();
    if (attribute_name.find(':') == std::string_view::npos || prefix_of(attribute_name) == "xmlns") continue;
    // Where an editor finds the schema.
    const bool hint =
        uri_of(prefix_of(attribute_name)) == schema_instance &&
        (local(attribute_name) == "schemaLocation" || local(attribute_name) == "noNamespaceSchemaLocation");
    if (!hint)
      report("xml-structure", place(attribute),
             fmt::format("there is no attribute {} in this format", printable(attribute_name)));
  }
}

bool Xml_source::check_text(std::string_view raw, bool attribute) {
  for (std::size_t i = 0; i < raw.size(); ++i) {
    const std::string_view rest = raw.substr(i);
    if (rest[0] == '&') {
      // Before a number stand any zeros (XML 1.0, section 4.1).
      const std::size_t zeros = std::min(rest.find_first_not_of("&#x0"), rest.size());
      const std::size_t end = rest.substr(0, zeros + 16).find(';');
      if (end != std::string_view::npos && referenced(rest.substr(1, end - 1)) != 0) continue;
      const std::size_t shown = end == std::string_view::npos ? 1 : end + 1;
      report("xml-syntax", place_of(rest.substr(0, shown)),
             end == std::string_view::npos
                 ? std::string("`&` begins an entity and this one is not ended; as text it is written &amp;")
                 : fmt::format(
                       "there is no entity {}; XML has &amp;, &lt;, &gt;, &quot;, &apos; and characters by "
                       "number",
                       printable(rest.substr(0, shown).substr(0, 64))));
      return false;
    }
    if (attribute && rest[0] == '<') {
      report("xml-syntax", place_of(rest.substr(0, 1)), "`<` stands in an attribute; it is written &lt;");
      return false;
    }
    if (!attribute && rest.starts_with("]]>")) {
      report("xml-syntax", place_of(rest.substr(0, 3)), "`]]>` stands in a text; it is written ]]&gt;");
      return false;
    }
  }
  return true;
}

}
