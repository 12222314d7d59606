// An HTML page as a tree, so that nothing is ever escaped by hand.
#pragma once

#include <string>
#include <string_view>

#include <pugixml.hpp>

namespace ohmlore::sheet {

using Element = pugi::xml_node;

/// A new last child.
Element add(Element parent, const char* name, std::string_view css_class = {});
/// The same with a text in it.
Element add(Element parent, const char* name, std::string_view css_class, std::string_view text);
void set(Element element, const char* attribute, std::string_view value);
void set(Element element, const char* attribute, double value); ///< at most two decimals

/// Appends text of the sheet's own.
void say(Element element, std::string_view text);
/// Appends text of the profile, whose language is not known: `element` holds nothing else. Characters that
/// are not seen are made visible.
Element quote(Element element, std::string_view text);

/// Appends a picture (an <svg> element as text), without the style that it brings along.
Element add_picture(Element parent, const std::string& svg);

/// The page: <!DOCTYPE html> and `document`, with end tags where HTML wants them.
std::string html_of(pugi::xml_document& document);

}
