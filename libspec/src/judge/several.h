// Several readings: plug and part, before and after, the windings of one part.
#pragma once

#include "judge/measuring.h"

namespace ohmlore {

/// What plug and part, or before and after, say together.
Harness_verdict harness_verdict(const Judgement& at_plug, const Known& plug, const Known& part,
                                const Judged& of_part, const Means& means);
Response_verdict response_verdict(const Test& test, const Expected& expected, const Known& before,
                                  const Known& after, const Judge_request& request, const Means& means);
/// Whether it answered, by the second reading and as seen by eye: the worse of the two. Empty where nothing
/// says so, or the test asks for no response.
std::optional<Conformity> answer_of(const Test& test, const Judge_request& request,
                                    const std::optional<Response_verdict>& response);
/// What the readings of one component say together.
std::vector<Set_check> set_checks(const Resolved& resolved, std::span<const Judgement> judgements,
                                  const Means& means);

}
