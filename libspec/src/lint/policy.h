// What the policy of a corpus makes of findings.
#pragma once

#include <cstddef>
#include <vector>

#include "ohmlore/lint.h"

namespace ohmlore {

/// The severity of a finding under the policy of its corpus. An error keeps its own: policy speaks of what is
/// implausible, could be better, or is asked for by the house itself.
Severity severity_under(const Corpus& corpus, const Finding& finding);
/// Takes out, from a place on, what the policy switches off. What is left of a group is all of it then.
void drop_switched_off(std::vector<Finding>& findings, std::size_t from, const Corpus& corpus);

}
