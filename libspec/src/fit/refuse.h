// Tables that no fit should be made of.
#pragma once

#include "fit/worked_out.h"

namespace ohmlore {

/// The model that a kind is fitted by, where it may be (an ntc: beta).
std::optional<Model_kind> model_of(Component_kind kind);

/// Why nothing can be fitted, before it is tried.
std::vector<Finding> refused_before(const Measurements& measurements, const Fit_request& request,
                                    Model_kind model);
/// Why what was fitted is none of its kind.
std::vector<Finding> refused_after(const Measurements& measurements, const Worked_fit& work,
                                   Model_kind model);

/// How many temperatures of these readings the thermometer can tell apart: those farther from each other than
/// both of its half-widths.
std::size_t told_apart(std::vector<double> kelvin, double half_width);

}
