#include "exchange/numbers.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <rapidjson/document.h>

#include "document/syntax.h"

namespace ohmlore {

std::optional<Numbers> numbers_of(std::string_view text, const Field& field, const Type& type) {
  if (type.shape == Shape::tolerance) {
    const auto tolerance = parse_tolerance(text, field.dimensions).value;
    if (!tolerance) return std::nullopt;
    return Numbers{{tolerance->minus, tolerance->plus}, 2, si_unit(tolerance->dimension)};
  }
  if (type.shape == Shape::range && !field.single) {
    const auto range = parse_range(text, field.dimensions).value;
    if (!range) return std::nullopt;
    return Numbers{{range->low.si, range->high.si}, 2, si_unit(range->low.dimension)};
  }
  const auto quantity = parse_quantity(text, field.dimensions).value;
  if (!quantity) return std::nullopt;
  return Numbers{{quantity->si, 0}, 1, si_unit(quantity->dimension)};
}

std::string number_text(double value) { return fmt::format("{}", value); }

std::optional<double> number_in(std::string_view text) {
  rapidjson::Document number;
  number.Parse<rapidjson::kParseFullPrecisionFlag>(text.data(), text.size());
  if (number.HasParseError() || !number.IsNumber()) return std::nullopt;
  return number.GetDouble();
}

std::string json_number(std::string_view text) {
  const auto take_digits = [&] {
    const std::string_view digits = text.substr(0, text.find_first_not_of("0123456789"));
    text.remove_prefix(digits.size());
    return digits;
  };
  const std::string_view sign = text.starts_with('-') ? "-" : "";
  if (!sign.empty() || text.starts_with('+')) text.remove_prefix(1);
  std::string_view whole = take_digits(), behind;
  if (text.starts_with('.')) {
    text.remove_prefix(1);
    behind = take_digits();
  }
  if (whole.empty() && behind.empty()) return {};
  whole.remove_prefix(std::min(whole.find_first_not_of('0'), whole.size()));
  std::string number =
      fmt::format("{}{}{}{}{}", sign, whole.empty() ? "0" : whole, behind.empty() ? "" : ".", behind, text);
  return is_json_number(number) ? number : std::string();
}

bool same_number(double one, double other) {
  return std::fabs(one - other) <= 5e-15 * std::max(std::fabs(one), std::fabs(other));
}

}
