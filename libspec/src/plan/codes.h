// Which faults a person means by a code.
#pragma once

#include <string>
#include <vector>

#include "plan/situation.h"

namespace ohmlore {

/// "H1", "A4 1", "amber 3 flashes": as the appliance shows it.
std::string displayed(const Display& display);

struct Found_codes {
  std::vector<Planned_fault> faults; ///< each once, as they were asked for
  std::vector<std::string> remarks;  ///< where one code means several things
  std::vector<std::string> problems; ///< codes that the profile does not have, or not for this model
};
/// By id or by what is displayed, on this model and software where they are given.
Found_codes find_codes(const Profile& profile, const std::vector<std::string>& codes,
                       const std::optional<std::string>& model, const std::optional<std::string>& software);

/// The plan for faults that were found; the codes of the request are not looked at.
Plan plan_faults(const Resolved& resolved, Found_codes found, const Plan_request& request,
                 const Judge_means& means);

}
