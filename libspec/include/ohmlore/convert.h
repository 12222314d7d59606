// Many documents from one form to another.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/exchange.h"

namespace ohmlore {

/// jsonl is written only: one profile a line, for programs that query; no document comes back from it.
enum class Document_form : std::uint8_t { json, jsonl, xml, csv };

struct Convert_request {
  /// Files, folders (all documents of the form `from` below them, hidden folders left out), or "-". Of csv:
  /// folders of tables. One at least.
  std::vector<std::string> paths;
  Document_form from = Document_form::json;
  Document_form to = Document_form::json;
  /// The document that "-" stands for.
  std::string standard_input;
  /// Where to write. A document of json or xml keeps its path below the folder that was named, with another
  /// extension; csv is one folder of tables, jsonl one file. Empty: one document, or jsonl, is handed to
  /// `print`, which must be there then.
  std::string output;
  std::function<void(std::string_view)> print;
  Csv_options csv;
  /// Root of the corpus whose parts jsonl resolves; absent: the nearest above each file.
  std::optional<std::string> root;
};

struct Convert_run {
  std::vector<Finding> findings; ///< errors and warnings of what was read; what has an error is not written
  std::size_t documents_read = 0;
  std::size_t documents_written = 0;
  std::vector<std::string> troubles; ///< why some of the work could not be done; one sentence each
};

/// Converts documents one after the other: memory does not grow with their number, their names and ids apart.
Convert_run convert(const Convert_request& request);

}
