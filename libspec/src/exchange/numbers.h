// The numbers of a quantity, for readers that do not know its grammar.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "publish/exchange_names.h"

namespace ohmlore {

/// One number of a quantity, two of a tolerance (minus, plus) or a range (low, high), in the SI unit.
struct Numbers {
  std::array<double, 2> values{};
  std::size_t count = 1;
  std::string_view unit; ///< symbol of the SI unit
};

/// The numbers of a text that its field accepts.
std::optional<Numbers> numbers_of(std::string_view text, const Field& field, const Type& type);

/// The shortest decimal that reads back as the same double.
std::string number_text(double value);

/// A number in the grammar of JSON.
std::optional<double> number_in(std::string_view text);

/// A number in the lexical space of `double` and `integer` (W3C XML Schema 1.1, part 2, 3.3.5 and 3.4.13), as
/// JSON writes it: without the plus sign and the zeros before it, and with a digit on both sides of its
/// point. Empty where it is none, and of INF and NaN.
std::string json_number(std::string_view text);

/// The same number, allowing for programs that keep 15 digits.
bool same_number(double one, double other);

}
