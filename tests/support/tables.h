// Tables in memory, as convert writes them into files.
#pragma once

#include <cstring>
#include <memory>
#include <string>
#include <vector>

#include "ohmlore/exchange.h"

namespace ohmlore::test {

class Tables {
public:
  explicit Tables(Csv_options options = {}) : options_(options), bytes(csv_table_names().size()) {
    csv_headers(options_, rows());
  }
  bool add(const Read_result& read, std::string_view file) { return csv_of(read, file, options_, rows()); }

  /// The bytes of a table; the tables must stay where they are while they are read.
  std::string& of(std::string_view name) {
    const std::vector<std::string> names = csv_table_names();
    for (std::size_t i = 0; i < names.size(); ++i)
      if (names[i] == name) return bytes[i];
    return bytes.front();
  }
  Csv_import::Open open() const {
    return [this](std::size_t table) -> Csv_import::Read {
      auto position = std::make_shared<std::size_t>(0);
      return [this, table, position](char* at, std::size_t room) {
        // In pieces, so that ends of blocks fall everywhere.
        const std::size_t n = std::min({room, bytes[table].size() - *position, std::size_t{37}});
        std::memcpy(at, bytes[table].data() + *position, n);
        *position += n;
        return n;
      };
    };
  }

private:
  Csv_rows rows() {
    return [this](std::size_t table, std::string_view row) { bytes[table] += row; };
  }
  Csv_options options_;

public:
  std::vector<std::string> bytes;
};

}
