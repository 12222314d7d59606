// Reads the small CSV files of reference values: a header line, quoted fields, no line breaks inside a field.
#pragma once

#include <cstdlib>
#include <fstream>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace ohmlore::test {

struct Csv {
  std::vector<std::string> columns;
  std::vector<std::vector<std::string>> rows;

  const std::string& text(std::size_t row, const std::string& column) const {
    for (std::size_t i = 0; i < columns.size(); ++i)
      if (columns[i] == column) return rows.at(row).at(i);
    throw std::out_of_range("no column " + column);
  }
  double number(std::size_t row, const std::string& column) const {
    const std::string& field = text(row, column);
    char* end = nullptr;
    const double value = std::strtod(field.c_str(), &end);
    if (field.empty() || *end != '\0') throw std::invalid_argument(column + " holds no number: " + field);
    return value;
  }
};

inline std::vector<std::string> csv_fields(const std::string& line) {
  std::vector<std::string> fields(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"')
      quoted = !quoted;
    else if (c == ',' && !quoted)
      fields.emplace_back();
    else if (c != '\r')
      fields.back() += c;
  }
  return fields;
}

/// Empty where the file cannot be read.
inline std::optional<Csv> read_csv(const std::string& path) {
  std::ifstream file(path);
  std::string line;
  if (!std::getline(file, line)) return {};
  Csv csv{csv_fields(line), {}};
  while (std::getline(file, line))
    if (!line.empty()) csv.rows.push_back(csv_fields(line));
  return csv;
}

}
