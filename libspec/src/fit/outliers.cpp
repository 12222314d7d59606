#include "fit/outliers.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "fit/distributions.h"

namespace ohmlore {

std::vector<std::optional<double>> studentised(const Regression& regression) {
  std::vector<std::optional<double>> out(regression.residuals.size());
  if (regression.freedom < 2) return out;
  const double others = static_cast<double>(regression.freedom - 1);
  for (std::size_t i = 0; i < out.size(); ++i) {
    const double free = 1 - regression.leverages[i];
    if (free < 1e-6) continue;
    const double square =
        regression.residuals[i] * regression.residuals[i] / (regression.variances[i] * free);
    // What rounding alone makes is no mistake, however well the others agree.
    const double variance = std::fmax((regression.chi_square - square) / others,
                                      regression.resolutions[i] / regression.variances[i]);
    if (!(variance > 0)) continue;
    out[i] = std::copysign(std::sqrt(square / variance), regression.residuals[i]);
  }
  return out;
}

std::vector<std::optional<double>> studentised(std::span<const double> values,
                                               std::span<const double> resolutions) {
  std::vector<std::optional<double>> out(values.size());
  const double n = static_cast<double>(values.size());
  if (values.size() < 4) return out;
  const double mean = std::accumulate(values.begin(), values.end(), 0.0) / n;
  double sum = 0;
  for (const double value : values) sum += (value - mean) * (value - mean);
  for (std::size_t i = 0; i < out.size(); ++i) {
    const double off = values[i] - mean, square = off * off * n / (n - 1);
    const double variance = std::fmax((sum - square) / (n - 2), resolutions[i]);
    if (!(variance > 0)) continue;
    out[i] = std::copysign(std::sqrt(square / variance), off);
  }
  return out;
}

std::optional<std::size_t> farthest(std::span<const std::optional<double>> studentised_values, double freedom,
                                    double rate) {
  std::optional<std::size_t> found;
  double count = 0;
  for (std::size_t i = 0; i < studentised_values.size(); ++i) {
    if (!studentised_values[i]) continue;
    ++count;
    if (!found || std::fabs(*studentised_values[i]) > std::fabs(*studentised_values[*found])) found = i;
  }
  if (!found || !(freedom >= 1)) return std::nullopt;
  const double chance = count * student_beyond(*studentised_values[*found], freedom);
  return chance < rate ? found : std::nullopt;
}

std::optional<Two_groups> two_groups(std::span<const double> values, double resolution) {
  const std::size_t n = values.size();
  if (n < 4) return std::nullopt;
  std::vector<std::size_t> order(n);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
  const auto mean = [&](std::size_t begin, std::size_t end) {
    double sum = 0;
    for (std::size_t i = begin; i < end; ++i) sum += values[order[i]];
    return sum / static_cast<double>(end - begin);
  };
  const double freedom = static_cast<double>(n - 2), digit = 2 * std::sqrt(3 * resolution);
  Two_groups best;
  double most = 0;
  for (std::size_t low = 2; low + 2 <= n; ++low) { // the farthest lie one after the other
    const double of_low = mean(0, low), of_high = mean(low, n);
    double sum = 0;
    for (std::size_t i = 0; i < n; ++i) sum += std::pow(values[order[i]] - (i < low ? of_low : of_high), 2);
    const double variance = std::fmax(sum / freedom, resolution);
    const double t = (of_high - of_low - digit) /
                     std::sqrt(variance * (1 / static_cast<double>(low) + 1 / static_cast<double>(n - low)));
    if (!(t > most)) continue;
    most = t;
    const bool low_is_smaller = 2 * low <= n;
    const auto cut = order.begin() + static_cast<std::ptrdiff_t>(low);
    best.smaller.assign(low_is_smaller ? order.begin() : cut, low_is_smaller ? cut : order.end());
    best.off = low_is_smaller ? of_low - of_high : of_high - of_low;
    best.within = std::sqrt(sum / freedom);
  }
  if (best.smaller.empty()) return std::nullopt;
  std::sort(best.smaller.begin(), best.smaller.end());
  const double ways = std::pow(2.0, static_cast<double>(n - 1)) - 1 - static_cast<double>(n);
  best.chance = std::fmin(1, ways * student_beyond(most, freedom));
  return best;
}

std::vector<std::size_t> outlying_readings(const Fit_curve& curve, std::span<const Observation> observations,
                                           std::size_t specimens, bool own_slopes, double rate) {
  std::vector<std::size_t> found, kept(observations.size());
  std::iota(kept.begin(), kept.end(), std::size_t{0});
  std::vector<Observation> left(observations.begin(), observations.end());
  while (found.size() < most_outliers && 4 * found.size() < observations.size()) {
    const auto regression = regress(curve, left, specimens, own_slopes);
    if (!regression || regression->freedom < 2) break;
    const auto values = studentised(*regression);
    const auto worst = farthest(values, static_cast<double>(regression->freedom - 1), rate);
    if (!worst) break;
    found.push_back(kept[*worst]);
    kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(*worst));
    left.erase(left.begin() + static_cast<std::ptrdiff_t>(*worst));
  }
  return found;
}

}
