// Other forms of a document: XML, out and in.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/document.h"

namespace ohmlore {

/// Limits of an XML document that is read. A level of JSON is up to two levels of XML.
inline constexpr std::size_t most_xml_bytes = 2 * most_bytes;
inline constexpr unsigned most_xml_depth = 2 * most_depth;

/// The XML of a document: namespace urn:ohmlore:1, valid under spec/v1/exchange.xsd where all references of
/// the document lead somewhere. Nothing is lost but layout. UTF-8, LF, indented by two spaces. Empty where
/// the document has an error: what was not read cannot be written.
std::string xml_of(const Read_result& read);

/// Part of the text of an imported document, and the number of the place that it was made from.
struct Origin {
  std::uint32_t begin = 0; ///< byte offset in the text; the next origin begins where this one ends
  std::uint32_t place = 0; ///< of the importer's places
};

/// A stretch of the bytes that a document was imported from.
struct Source_bytes {
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
};

/// A document that was made from XML. Its text is JSON that was made on import; findings are located where it
/// came from.
struct Xml_import {
  Read_result read; ///< findings about the XML and, of the reader, about what it holds
  std::vector<Origin> origins;
  std::vector<Source_bytes> places;
};

/// Reads one XML document, and what it holds with the same checks as JSON. What is not well-formed is
/// refused, and so is a DOCTYPE: no entity but the five of XML is ever looked up. Never throws on bad input
/// (std::bad_alloc apart).
Xml_import read_xml(std::string name, std::string_view bytes);

/// Moves findings about the document of an import (of rules, for example) to the XML that it was made from:
/// `bytes` as given to read_xml. Edits are dropped: they speak of the JSON.
void relocate(const Xml_import& import, std::string_view bytes, std::vector<Finding>& findings);

}
