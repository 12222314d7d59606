// Other forms of a document: XML and tables, out and in.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/resolve.h"

namespace ohmlore {

/// Limits of an XML document that is read. A level of JSON is up to two levels of XML.
inline constexpr std::size_t most_xml_bytes = 2 * most_bytes;
inline constexpr unsigned most_xml_depth = 2 * most_depth;

/// The XML of a document: namespace urn:ohmlore:1, valid under spec/v1/exchange.xsd where all references of
/// the document lead somewhere. Nothing is lost but layout. UTF-8, LF, indented by two spaces. Empty where
/// the document has an error, as what was not read cannot be written, or where the XML would have more than
/// `most_xml_bytes` and could not be read again.
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

// ---- tables: a folder of CSV files (RFC 4180), described by spec/v1/tables.json

struct Csv_options {
  char delimiter = ','; ///< or a semicolon or tab: tables with another are not read back
  /// For spreadsheets: a byte order mark, and an apostrophe before text that they would take for a number.
  bool excel = false;
};

/// Takes rows of a table, by its place among csv_table_names().
using Csv_rows = std::function<void(std::size_t table, std::string_view bytes)>;

/// The names of all tables; each is a file NAME.csv.
std::vector<std::string> csv_table_names();
/// The header of every table.
void csv_headers(const Csv_options& options, const Csv_rows& rows);
/// The rows of one document, those of each table in order. `file` is where it was, relative to the folder
/// that is converted. False, and no row, where the document has an error, or a row would have more than
/// `most_bytes` and could not be read again.
bool csv_of(const Read_result& read, std::string_view file, const Csv_options& options, const Csv_rows& rows);
/// What stands beside the tables as csv-metadata.json.
std::string csv_metadata(const Csv_options& options);

/// A document that was made from rows.
struct Csv_document {
  Read_result read; ///< findings located in the tables
  std::string file; ///< as the tables name it, or after its id; empty where that is no place below a folder
};

/// Reads documents from tables, one after the other: only the rows of one are held, and the keys of all. The
/// rows of a document must stand together, documents in one order in every table.
class Csv_import {
public:
  /// Fills memory with the next bytes and returns how many; 0 at the end.
  using Read = std::function<std::size_t(char* at, std::size_t room)>;
  /// Begins to read a table from its beginning; an empty function where there is no such table. Each is
  /// opened twice: the first time only to see that it can be read to its end.
  using Open = std::function<Read(std::size_t table)>;
  /// `folder` stands before the names of tables in findings.
  Csv_import(std::string folder, Open open);
  ~Csv_import();

  /// What is wrong with the tables themselves. Where there is an error, there are no documents.
  const std::vector<Finding>& findings() const;
  /// The next document, or nothing at the end.
  std::optional<Csv_document> next();

private:
  struct State;
  std::unique_ptr<State> state_;
};

// ---- lines: for programs that query a whole corpus

/// A profile as one line of JSON with its LF: the members of its parts laid beneath its components, the
/// numbers of quantities beside what is written (`at`, `at_si`, `at_unit`), the sources of a part as
/// PART/SOURCE. Empty for other documents, and where there is an error.
std::string jsonl_of(const Read_result& read, const Surroundings& surroundings);

// ---- what only an import finds

/// A name that findings of read_xml, Csv_import and read_measurements bear beside the rules of the reader. It
/// is no rule of lint: no JSON can break it.
struct Import_problem {
  std::string_view slug;
  std::string_view summary;
  std::string_view page = "exchange.md"; ///< of spec/v1: describes what is read
};
std::span<const Import_problem> import_problems();

}
