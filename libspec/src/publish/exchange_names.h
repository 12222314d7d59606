// The names that XML and tables give to what JSON has no name for.
#pragma once

#include <array>
#include <string_view>

#include "ohmlore/description.h"

namespace ohmlore {

inline constexpr std::string_view xml_namespace = "urn:ohmlore:1";

/// Holds the members that no description names, last in a record.
inline constexpr std::string_view extension_name = "extension";

/// The element of a member: its key, but `$schema` is no name in XML.
inline std::string_view element_name(const Field& field) {
  return field.key == "$schema" ? "json_schema" : field.key;
}

/// The element of an item of a list or map, unless it is a variant: those are named by their kind.
inline std::string_view item_name(const Type& container) {
  if (container.item->record != nullptr) return container.item->record->name;
  return container.shape == Shape::map ? "entry" : "item";
}

/// A pin is keyed by its whole contact, so that contacts can refer to it; everything else by its id.
inline std::string_view key_attribute(const Type& map) {
  return map.item->record == &pin_record ? "contact" : "id";
}

/// True where a member stands in the root's element itself: the element is named by the kind of document, and
/// the format is an attribute. No other member has one value only.
inline bool is_in_root_element(const Field& field) { return !field.constant.empty(); }

/// The map of the root that a reference leads to, or empty. Pins lie in the connectors.
inline std::string_view target_map(Target target) {
  switch (target) {
  case Target::component: return "components";
  case Target::connector: return "connectors";
  case Target::circuit: return "circuits";
  case Target::test: return "tests";
  case Target::source: return "sources";
  default: return {};
  }
}

/// What the numbers beside a written quantity are called: "si"; of a tolerance "minus" and "plus", of a range
/// "low" and "high". Empty: no such type.
inline std::array<std::string_view, 2> number_names(const Field& field, const Type& type) {
  switch (type.shape) {
  case Shape::quantity: return {"si"};
  case Shape::tolerance: return {"minus", "plus"};
  case Shape::range:
    if (field.single) return {"si"};
    return {"low", "high"};
  default: return {};
  }
}

/// Symbol of the SI unit that a dimension's numbers are in; 1 for a ratio.
inline std::string_view si_unit(Dimension dimension) {
  switch (dimension) {
  case Dimension::resistance: return "Ω";
  case Dimension::voltage: return "V";
  case Dimension::current: return "A";
  case Dimension::power: return "W";
  case Dimension::capacitance: return "F";
  case Dimension::temperature:
  case Dimension::temperature_difference:
  case Dimension::thermal_constant: return "K";
  case Dimension::per_kelvin: return "K^-1";
  case Dimension::per_kelvin_2: return "K^-2";
  case Dimension::per_kelvin_3: return "K^-3";
  case Dimension::per_kelvin_4: return "K^-4";
  case Dimension::per_kelvin_5: return "K^-5";
  case Dimension::per_kelvin_6: return "K^-6";
  case Dimension::time: return "s";
  case Dimension::ratio: return "1";
  }
  return {};
}

}
