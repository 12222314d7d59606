// A profile to work with on a job: read without errors, its parts and policy those of its corpus.
#pragma once

#include "corpus/roots.h"
#include "ohmlore/lint.h"

namespace ohmlore {

/// What lint finds in one document by itself: what must agree over a corpus is left out. `untold`: see
/// tell_once.
std::vector<Finding> lint_alone(const Read_result& read, const Surroundings& surroundings,
                                const Lint_options& options, std::vector<std::string>& troubles,
                                std::vector<Finding>* untold = nullptr);

/// What lint finds to be wrong in one document by itself, whatever waives it.
std::vector<Finding> lint_errors(const Read_result& read, const Surroundings& surroundings);

/// Read without errors; those that lint finds in it are said with whatever is made of it.
struct Opened_profile {
  /// `use` completes "nothing is … by a profile that does not read without errors": "judged".
  Opened_profile(const std::string& profile, const std::optional<std::string>& root, std::string_view use);
  Opened_profile(const Opened_profile&) = delete;
  Opened_profile& operator=(const Opened_profile&) = delete;

  Read_result read;
  std::optional<Resolved> resolved;  ///< empty where `troubles` says why
  std::vector<Finding> findings;     ///< errors of the profile
  std::vector<std::string> warnings; ///< why a file among the parts is not read
  std::vector<std::string> troubles; ///< also where a part of it is missing

  /// Puts the caution that it has errors before the others.
  void warn(std::vector<std::string>& cautions) const;

private:
  std::optional<Roots> roots_;
};

}
