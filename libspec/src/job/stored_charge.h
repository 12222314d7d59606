// Charge that is stored in an appliance.
#pragma once

#include <string>

#include "ohmlore/resolve.h"

namespace ohmlore {

inline bool is_stored_charge(const Hazard& hazard) {
  return hazard.kind && *hazard.kind == Hazard_kind::stored_charge;
}

/// Between which contacts it is verified, "X1.1 and X1.3", else the component that holds it; empty where
/// neither is stated.
inline std::string where_verified(const Hazard& hazard) {
  std::string where;
  for (const Value<Contact>& contact : hazard.where)
    if (contact) where += (where.empty() ? "" : " and ") + text_of(*contact);
  return where.empty() && hazard.component ? std::string(*hazard.component) : where;
}

}
