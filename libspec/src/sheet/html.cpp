#include "sheet/html.h"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "ohmlore/text.h"
#include "text/xml_text.h"

namespace ohmlore::sheet {
namespace {

template <std::size_t n>
bool is_one_of(std::string_view name, const std::string_view (&names)[n]) {
  return std::find(std::begin(names), std::end(names), name) != std::end(names);
}

constexpr std::string_view without_end_tag[] = {"meta", "input", "link", "br", "hr", "img"};
constexpr std::string_view on_a_new_line[] = {
    "head", "body", "header", "main",  "footer", "nav",   "section", "article", "h1", "h2", "h3",     "ol",
    "ul",   "li",   "dl",     "table", "tr",     "style", "script",  "svg",     "g",  "p",  "figure", "div"};

// No line ends between a number and its unit, or its sign: U+00A0 stands there, which `parse_quantity` reads
// as a space.
std::string with_units_bound(std::string text) {
  static constexpr std::string_view units[] = {"mΩ", "Ω", "kΩ", "MΩ", "°C", "K", "%", "V", "s", "min"};
  static constexpr std::string_view bound = "\u00A0";
  for (std::size_t at = text.find(' '); at != std::string::npos; at = text.find(' ', at + 1)) {
    if (std::string_view(text).substr(0, at).ends_with("±")) {
      text.replace(at, 1, bound);
      continue;
    }
    if (at == 0 || text[at - 1] < '0' || text[at - 1] > '9') continue;
    const std::string_view rest = std::string_view(text).substr(at + 1);
    const std::string_view word = rest.substr(0, rest.find_first_of(" ,;:)."));
    if (is_one_of(word, units)) text.replace(at, 1, bound);
  }
  return text;
}

// HTML takes <td/> for a start tag alone: what is empty gets an empty text, so that its end is written.
void finish(Element element) {
  for (Element child = element.first_child(); child; child = child.next_sibling()) {
    if (child.type() != pugi::node_element) continue;
    const std::string_view name = child.name();
    if (is_one_of(name, on_a_new_line))
      must_be_made(element.insert_child_before(pugi::node_pcdata, child).set_value("\n"));
    if (!child.first_child() && !is_one_of(name, without_end_tag))
      must_be_made(child.append_child(pugi::node_pcdata));
    finish(child);
  }
}

}

Element add(Element parent, const char* name, std::string_view css_class) {
  Element element = add_element(parent, name);
  if (!css_class.empty()) set(element, "class", css_class);
  return element;
}

Element add(Element parent, const char* name, std::string_view css_class, std::string_view text) {
  Element element = add(parent, name, css_class);
  say(element, text);
  return element;
}

void set(Element element, const char* attribute, std::string_view value) {
  const std::string text = printable(value);
  if (pugi::xml_attribute at = element.attribute(attribute))
    must_be_made(at.set_value(text.c_str()));
  else
    add_attribute(element, attribute, text.c_str());
}

void set(Element element, const char* attribute, double value) {
  std::string text = fmt::format("{:.2f}", value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  set(element, attribute, std::string_view(text));
}

void say(Element element, std::string_view text) {
  add_text(element, with_units_bound(printable(text)).c_str());
}

Element quote(Element element, std::string_view text) {
  set(element, "lang", "");
  set(element, "dir", "auto"); // what is written from right to left leaves what stands beside it in its order
  say(element, text);
  return element;
}

Element add_picture(Element parent, const std::string& svg) {
  must_be_made(
      parent.append_buffer(svg.data(), svg.size(), pugi::parse_default | pugi::parse_ws_pcdata_single));
  Element root = parent.last_child();
  root.remove_child("style");
  return root;
}

std::string html_of(pugi::xml_document& document) {
  finish(document);
  return "<!DOCTYPE html>" + xml_text(document, pugi::format_raw | pugi::format_no_declaration) + '\n';
}

}
