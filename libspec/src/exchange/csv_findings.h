// What is wrong with a table as text, and where.
#pragma once

#include <optional>

#include "exchange/csv_text.h"
#include "ohmlore/finding.h"

namespace ohmlore {

/// A finding about the bytes [begin, end) of a row.
Finding finding_in_bytes(const std::string& file, const Csv_row& row, std::uint32_t begin, std::uint32_t end,
                         std::string_view rule, Severity severity, std::string message);

/// Why the next row could not be read; `at` is where the reader stopped. Empty for a row and for the end.
std::optional<Finding> finding_about(Csv_status status, const std::string& file, const Csv_row& row,
                                     std::uint32_t at);

}
