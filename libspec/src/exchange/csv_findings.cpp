#include "exchange/csv_findings.h"

#include <fmt/format.h>

#include "document/findings.h"
#include "ohmlore/description.h"
#include "ohmlore/text.h"

namespace ohmlore {

Finding finding_in_bytes(const std::string& file, const Csv_row& row, std::uint32_t begin, std::uint32_t end,
                         std::string_view rule, Severity severity, std::string message) {
  Finding finding;
  finding.rule = rule;
  finding.severity = severity;
  finding.file = file;
  finding.message = std::move(message);
  Region& region = finding.region;
  region = {begin, end, position_of(row.bytes, begin), position_of(row.bytes, end)};
  const Shown_line line = shown_line(row.bytes, region);
  finding.source_line = line.text;
  finding.source_column = line.column;
  region.begin += static_cast<std::uint32_t>(row.offset);
  region.end += static_cast<std::uint32_t>(row.offset);
  region.first.line += row.line - 1;
  region.last.line += row.line - 1;
  return finding;
}

std::optional<Finding> finding_about(Csv_status status, const std::string& file, const Csv_row& row,
                                     std::uint32_t at) {
  const auto malformed = [&](std::string_view rule, std::uint32_t begin, std::uint32_t end,
                             const std::string& message) {
    return finding_in_bytes(file, row, begin, end, rule, Severity::error,
                            message + fmt::format(" (row {})", row.number));
  };
  switch (status) {
  case Csv_status::end:
  case Csv_status::row: break;
  case Csv_status::quote_inside:
    return malformed("table-malformed", at, at + 1,
                     "a quotation mark stands inside of a cell that does not begin with one; write the cell "
                     "in quotation marks, and this one twice");
  case Csv_status::text_behind_quote:
    return malformed("table-malformed", at, at + 1,
                     "text stands behind the quotation mark that ends the cell; a quotation mark inside of a "
                     "cell is written twice");
  case Csv_status::not_closed:
    return malformed("table-malformed", at, at + 1, "this quotation mark is never closed");
  case Csv_status::too_long:
    return malformed("file-too-large", 0, 0,
                     fmt::format("a row has more than {} bytes (16 MiB)", most_bytes));
  case Csv_status::not_utf8:
    return malformed("utf8-malformed", at, at + 1,
                     fmt::format("byte 0x{:02X} is not UTF-8 here; save the table as UTF-8",
                                 static_cast<unsigned char>(row.bytes[at])));
  }
  return std::nullopt;
}

}
