// Many documents from one form to another.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/exchange.h"

namespace ohmlore {

enum class Document_form : std::uint8_t { json, xml };

struct Convert_request {
  /// Files, folders (all documents of the form `from` below them, hidden folders left out), or "-".
  std::vector<std::string> paths;
  Document_form from = Document_form::json;
  Document_form to = Document_form::json;
  /// The document that "-" stands for.
  std::string standard_input;
  /// Folder to write to: a document keeps its path below the folder that was named, with another extension.
  /// Empty: one document is handed to `print`.
  std::string folder;
  std::function<void(std::string_view)> print;
};

struct Convert_run {
  std::vector<Finding> findings; ///< errors and warnings of what was read; what has an error is not written
  std::size_t files_read = 0;
  std::size_t files_written = 0;
  std::vector<std::string> troubles; ///< why some of the work could not be done; one sentence each
};

/// Converts documents one after the other: memory does not grow with their number.
Convert_run convert(const Convert_request& request);

}
