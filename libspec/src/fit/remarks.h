// What must be known to take a fit for what it is.
#pragma once

#include "fit/worked_out.h"

namespace ohmlore {

/// Sets Fit::remarks and Fit::doubtful; the rest of the fit is complete, but for the document.
void add_remarks(Fit& fit, const Worked_fit& work);

/// How the residuals run: "-0.8 % at 0 °C to 20 °C, +0.5 % at 25 °C to 60 °C, …".
std::string pattern_words(const Worked_fit& work);

/// "+0.8 %", "-0.12 %": of the logarithm of a ratio, what it is more or less than 1.
std::string signed_percent(double logarithm);

}
