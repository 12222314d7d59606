// Files that grow row by row.
#pragma once

#include <cstdio>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/exchange.h"

namespace ohmlore {

/// A file that is written beside its place and takes it when it is finished: half of it is never seen there.
class Growing_file {
public:
  /// Why it cannot be written is added to `troubles`, once.
  Growing_file(std::string path, std::vector<std::string>& troubles);
  ~Growing_file();
  Growing_file(const Growing_file&) = delete;
  Growing_file& operator=(const Growing_file&) = delete;
  void write(std::string_view bytes);
  /// All was written, and can be kept.
  bool complete();
  void finish();

private:
  void fail();
  std::string path_, real_, beside_; ///< real: links followed
  std::FILE* file_ = nullptr;
  std::vector<std::string>& troubles_;
};

inline constexpr std::string_view metadata_file = "csv-metadata.json"; ///< beside the tables

/// A folder of tables, and the metadata beside them.
class Table_files {
public:
  Table_files(const std::string& folder, const Csv_options& options, std::vector<std::string>& troubles);
  /// False where the document has an error.
  bool add(const Read_result& read, std::string_view file);
  void finish();

private:
  Csv_options options_;
  std::vector<std::unique_ptr<Growing_file>> files_; ///< the last is the metadata
  Csv_rows rows_;
};

/// Reads a table of a folder from its beginning; empty where it is not there. Why it cannot be read, or not
/// to its end, is added to `troubles`, which must outlive the reading.
Csv_import::Read open_table(const std::string& folder, std::size_t table, std::vector<std::string>& troubles);

}
