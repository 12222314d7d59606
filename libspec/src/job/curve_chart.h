// A curve as a chart, to be shown with whatever stands around it. Whoever shows it shows the cautions too.
#pragma once

#include "job/chart.h"
#include "ohmlore/curve.h"

namespace ohmlore {

/// The words in the picture; before the unit stands `temperature`.
struct Curve_chart_words {
  std::string resistance = "Resistance in ohms", resistance_logarithmic = "Resistance in ohms, logarithmic";
  std::string temperature = "Temperature of the part in";
  std::string band = "manufacturing tolerance", healthy = "healthy", nominal = "nominal", stated = "stated",
              measured = "measured";
};

Chart curve_chart(const Curve& curve, const std::vector<Curve_mark>& measured = {},
                  const Curve_chart_words& words = {});

}
