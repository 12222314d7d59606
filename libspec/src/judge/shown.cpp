#include "judge/shown.h"

#include <cmath>

#include <fmt/format.h>

#include "units/outward.h"

namespace ohmlore {

std::string shown_ohm(double ohm) {
  if (std::fabs(ohm) >= 1 || ohm == 0) return describe(ohm, Dimension::resistance);
  return fmt::format("{:.4g} Ω", std::round(ohm * 1000) / 1000);
}

std::string shown_rounded(double ohm) {
  constexpr double least = 1e-4; // below it zeros hide the number
  return ohm >= 1 || ohm < least ? limit_text(ohm) : fmt::format("{:.5g} Ω", ohm);
}

std::string shown_ohm(Interval limits) {
  const Interval shown = outward(limits);
  if (std::isinf(limits.high)) return fmt::format("at least {}", shown_rounded(shown.low));
  if (limits.low <= 0) return fmt::format("at most {}", shown_rounded(shown.high));
  return fmt::format("{} to {}", shown_rounded(shown.low), shown_rounded(shown.high));
}

std::string shown_probability(double probability) {
  if (probability > 0.99) return probability >= 1 - 1e-9 ? "1" : "above 0.99";
  if (probability < 0.01) return probability <= 1e-9 ? "0" : "below 0.01";
  return fmt::format("{:.2f}", probability);
}

std::string shown_probability(const Probable& probable) {
  const std::string least = shown_probability(probable.least.within),
                    most = shown_probability(probable.most.within);
  return least == most ? least : fmt::format("{} to {}", least, most);
}

std::string basis_words(Limit_basis basis, const std::string& words) {
  switch (basis) {
  case Limit_basis::service_limit: return fmt::format("service limit {}", words);
  case Limit_basis::policy: return fmt::format("the corpus's service limit for sensors, {}", words);
  case Limit_basis::practice:
    return fmt::format("{} for sensors that state no service limit (common practice)", words);
  case Limit_basis::manufacturing:
    return fmt::format("tolerance as made, {}; no service limit is stated", words);
  case Limit_basis::expectation: return "by the test";
  case Limit_basis::state: return words;
  case Limit_basis::twin: return words;
  }
  return {};
}

}
