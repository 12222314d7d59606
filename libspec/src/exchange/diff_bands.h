// Bands before and after.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "ohmlore/bands.h"
#include "ohmlore/resolve.h"

namespace ohmlore {

/// A band as a row or an expectation states it.
struct Stated {
  Interval ohm;
  std::optional<double> nominal; ///< ohm
};
/// By the node of their record.
using Bands = std::map<Node_id, Stated>;

/// The bands that the rows and expectations of a document state.
Bands bands_of(const Resolved& resolved);

/// The keys of a row or expectation that its band is made of.
inline constexpr std::string_view limit_keys[] = {"nominal", "tolerance", "min", "max"};
bool is_limit(std::string_view key);

/// True where two bands are one but for the outward rounding of their bounds. A nominal counts where both
/// state one.
bool same_band(const Stated& older, const Stated& newer);

/// A band as a text that is another one for every band that is not the same; with a nominal another one than
/// without.
std::string band_meaning(const Stated& band);

/// What became of a band: "9.9 kΩ to 10.1 kΩ becomes 11.88 kΩ to 12.12 kΩ (+20 %)".
std::string band_step(const Stated& older, const Stated& newer);

/// What became of the resistance of a component whose model is a formula: a sentence a temperature, for those
/// that both documents speak of. Nothing where both are tables, whose rows speak for themselves.
std::vector<std::string> model_steps(const Resolved& older, Node_id older_component, const Resolved& newer,
                                     Node_id newer_component);

}
