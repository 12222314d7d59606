// Values without members, compared by what they mean.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ohmlore/diff.h"

namespace ohmlore {

/// True where a field is free text for people, or says where numbers come from: a change of it leaves the
/// meaning of a document as it was, as far as a program can tell.
bool explains(const Field& field);

/// True where the order of a list is a statement.
bool order_matters(const Field& field);

/// A value in one spelling, for comparing: canonical where it is a quantity, else as it was read.
std::string canonical_text(const Field& field, const Type& type, const Document& document, Node_id node);

/// One text for all values that mean the same, "1000 Ω" and "1.000 kΩ".
std::string value_meaning(const Field& field, const Type& type, const Document& document, Node_id node);

/// The difference between two values of one JSON type; empty where they are one. `spelling`: both mean the
/// same.
struct Value_difference {
  bool spelling = false;
  std::string message;
};
std::optional<Value_difference> value_difference(const Field& field, const Type& type, const Document& older,
                                                 Node_id a, const Document& newer, Node_id b);

/// A value of any JSON without what has no meaning: layout, escapes, the order of members. The digits of a
/// number have one, as in all of the format.
std::string json_meaning(const Document& document, Node_id node);

/// Texts one after the other, so that where each ends is not in doubt.
std::string joined(const std::vector<std::string>& texts);

/// "+20 %" of a value that has a zero to measure from, "+5 K" of a temperature.
std::string step_between(double older, double newer, Dimension dimension);

/// Text of a document in a message, cut where it is long.
std::string shown(std::string_view text);

}
