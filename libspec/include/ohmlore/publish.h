// What is derived from the descriptions and committed under spec/: the schemas of each form, and the tables
// of format.md; and the skeletons that a contributor begins with.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/description.h"

namespace ohmlore {

/// The JSON Schema (draft-07) of one kind of document. It accepts what the reader accepts without an error,
/// apart from what spec/README.md lists (quantities, duplicate keys, 1.0 for an integer …).
std::string json_schema(Document_kind kind);

/// The JSON Schema of the report that `lint --format json` prints.
std::string report_schema();

/// The JSON Schema of the report that `diff --format json` prints.
std::string diff_schema();

/// The JSON Schema of the report that `find --format json` prints.
std::string find_schema();

/// The JSON Schema of the report that `fit --format json` prints.
std::string fit_schema();

/// The JSON Schema of the report that `judge --format json` prints.
std::string judgement_schema();

/// The JSON Schema of the report that `plan --format json` prints.
std::string plan_schema();

/// The JSON Schema of the record of a job (see ohmlore/job.h).
std::string job_schema();

/// The JSON Schema of a baseline (see ohmlore/baseline.h).
std::string baseline_schema();

/// The XML Schema (XSD 1.0) of the XML form of all kinds of document, references within a document included.
std::string xml_schema();

/// The W3C metadata (CSVW) of the tables that documents are as CSV: columns, units, primary and foreign keys.
std::string tables_metadata();

/// A record and all that it holds, in the order of first use.
std::vector<const Record*> records_of(const Record& root);
/// The enumerations that these records use, in the order of first use.
std::vector<const Enumeration*> enumerations_of(const std::vector<const Record*>& records);
/// Every record that is published: of the three kinds of document, then of the reports.
std::vector<const Record*> published_records();

/// The fields of a record as a Markdown table, and the words of an enumeration as a Markdown list.
std::string field_table(const Record& record);
std::string word_list(const Enumeration& enumeration);

/// A derived file: its path under spec/, and its bytes (UTF-8, LF).
struct Spec_file {
  std::string path;
  std::string bytes;
};

/// What the derived files need beside the descriptions.
struct Spec_inputs {
  std::string format_page; ///< v1/format.md as it stands; its prose is kept
};

struct Spec_files {
  std::vector<Spec_file> files;      ///< sorted by path
  std::vector<std::string> problems; ///< markers of format.md that name nothing, or are not closed
};

/// Every derived file. The result depends on the arguments and the descriptions alone.
Spec_files spec_files(const Spec_inputs& inputs);

/// A document to be filled in, of that id (a corpus has none): a JSON text with an example of each record.
/// Texts to be replaced stand in angle brackets, "<maker>"; so does the id where the one given is none.
std::string skeleton(Document_kind kind, std::string_view id);

}
