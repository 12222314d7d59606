// From readings to resistors: whether any network has them.
#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "ohmlore/networks.h"

namespace ohmlore {

static constexpr Interval point(double x) { return {x, x}; }

double most_between_four(Interval r13, Interval r14, Interval r23, Interval r24, Interval r34) {
  const auto [h13, h14, h23, h24] = std::array{r13.high, r14.high, r23.high, r24.high};
  const double s = r34.low;
  // Both are between 0 and 2 r34 wherever the triangle inequality holds, so that cutting them there changes
  // nothing where a network exists and makes the bound monotone everywhere.
  const auto cut = [&](double high_4, double high_3) {
    return std::clamp((point(high_4) + point(s) - point(high_3)).low, 0.0, 2 * s);
  };
  const double x = cut(h14, h13), y = cut(h24, h23);
  return (point(h14) + point(h24) - point(x) * point(y) / point(2 * s)).high;
}

namespace {

constexpr std::size_t most_terminals = 8;

template <class T>
using Matrix = std::array<std::array<T, most_terminals>, most_terminals>;

// A choice of intervals for the readings: symmetric, nothing on the diagonal.
struct Box {
  std::size_t n = 0;
  Matrix<Interval> r{};
  void set(std::size_t i, std::size_t j, Interval x) { r[i][j] = r[j][i] = x; }
};

template <class F>
void each_pair(std::size_t n, F f) {
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < i; ++j) f(i, j);
}

// Narrows the box to what triangles and sets of four leave of it; false where that is nothing.
bool narrow(Box& box) {
  auto& r = box.r;
  bool left = true;
  for (int round = 0; round < 2; ++round) {
    each_pair(box.n, [&](std::size_t i, std::size_t j) {
      Interval ij = r[i][j];
      for (std::size_t k = 0; k < box.n; ++k) {
        if (k == i || k == j) continue;
        ij.high = std::min(ij.high, (r[i][k] + r[k][j]).high);
        ij.low = std::max({ij.low, (r[i][k] - r[k][j]).low, (r[k][j] - r[i][k]).low});
        for (std::size_t l = 0; l < k; ++l)
          if (l != i && l != j)
            ij.high = std::min(ij.high, most_between_four(r[i][k], r[i][l], r[j][k], r[j][l], r[k][l]));
      }
      left = left && ij.low <= ij.high;
      if (left) box.set(i, j, ij);
    });
    if (!left) return false;
  }
  return true;
}

// With the last terminal as earth: the inverse of the Laplacian without its row and column.
Matrix<Interval> inverse_laplacian(const Box& box) {
  const std::size_t earth = box.n - 1;
  const auto& r = box.r;
  Matrix<Interval> g{};
  for (std::size_t i = 0; i < earth; ++i)
    for (std::size_t j = 0; j < earth; ++j)
      g[i][j] = i == j ? r[i][earth] : (r[i][earth] + r[j][earth] - r[i][j]) * point(0.5);
  return g;
}

Matrix<double> middle_of(const Matrix<Interval>& x) {
  Matrix<double> middle{};
  for (std::size_t i = 0; i < most_terminals; ++i)
    for (std::size_t j = 0; j < most_terminals; ++j) middle[i][j] = x[i][j].middle();
  return middle;
}

// The inverse of the first m rows and columns, to double precision (Gauss and Jordan); empty where there is
// none.
std::optional<Matrix<double>> inverse(Matrix<double> g, std::size_t m) {
  Matrix<double> x{};
  for (std::size_t i = 0; i < m; ++i) x[i][i] = 1;
  for (std::size_t k = 0; k < m; ++k) {
    std::size_t best = k;
    for (std::size_t i = k; i < m; ++i)
      if (std::fabs(g[i][k]) > std::fabs(g[best][k])) best = i;
    std::swap(g[k], g[best]);
    std::swap(x[k], x[best]);
    const double pivot = g[k][k];
    if (pivot == 0 || !std::isfinite(pivot)) return std::nullopt;
    for (std::size_t j = 0; j < m; ++j) g[k][j] /= pivot, x[k][j] /= pivot;
    for (std::size_t i = 0; i < m; ++i) {
      if (i == k) continue;
      const double factor = g[i][k];
      for (std::size_t j = 0; j < m; ++j) g[i][j] -= factor * g[k][j], x[i][j] -= factor * x[k][j];
    }
  }
  return x;
}

// The voltage at terminal j that 1 A into terminal i makes, the last one earthed: 0 in its row and column.
using Voltages = Matrix<double>;
double reading(const Voltages& v, std::size_t i, std::size_t j) { return v[i][i] + v[j][j] - 2 * v[i][j]; }

// Two terminals, what may be read between them, and the conductance there that a search has come to.
struct Pair {
  std::size_t i, j;
  double middle, radius, siemens;
};

// Where the middle of the box itself leads, without the negative conductances that it would need.
std::vector<Pair> conductances_of_middle(const Box& box) {
  std::vector<Pair> pairs;
  const std::size_t n = box.n, m = n - 1;
  const auto start = inverse(middle_of(inverse_laplacian(box)), m);
  each_pair(n, [&](std::size_t i, std::size_t j) {
    const Interval r = box.r[i][j];
    double siemens = 1 / (r.middle() * static_cast<double>(n));
    if (start) {
      siemens = 0;
      for (std::size_t q = 0; q < m; ++q) siemens += i == m ? (*start)[q][j] : 0;
      if (i != m) siemens = -(*start)[i][j];
    }
    pairs.push_back({i, j, r.middle(), std::max(r.width() / 2, 1e-12 * r.high), std::max(siemens, 0.0)});
  });
  return pairs;
}

std::optional<Voltages> voltages_of(const std::vector<Pair>& pairs, std::size_t n) {
  const std::size_t m = n - 1;
  Matrix<double> laplacian{};
  for (const auto& [i, j, middle, radius, siemens] : pairs) {
    if (i < m) laplacian[i][i] += siemens, laplacian[i][j] = laplacian[j][i] = -siemens;
    laplacian[j][j] += siemens;
  }
  return inverse(laplacian, m);
}

double off(const Pair& pair, const Voltages& v) {
  return (pair.middle - reading(v, pair.i, pair.j)) / pair.radius;
}

double misfit(const std::vector<Pair>& pairs, const Voltages& v) {
  double sum = 0;
  for (const Pair& pair : pairs) sum += off(pair, v) * off(pair, v);
  return sum;
}

// The normal equations of one step, row after row, each with its right side; those of conductances that are
// zero and would only fall stay empty.
struct Step {
  std::vector<double> normal;
  std::vector<bool> free;
};

// What a conductance takes off a reading: the square of the voltage across it at 1 A. Conductances are
// counted in units of 1/middle, readings in units of the radius.
Step step_from(const std::vector<Pair>& pairs, const Voltages& v) {
  const std::size_t count = pairs.size();
  std::vector<double> slope(count * count);
  Step step{std::vector<double>(count * (count + 1)), std::vector<bool>(count)};
  for (std::size_t e = 0; e < count; ++e) {
    const auto& [k, l, middle, radius, siemens] = pairs[e];
    double towards = 0;
    for (std::size_t q = 0; q < count; ++q) {
      const auto [i, j] = std::pair{pairs[q].i, pairs[q].j};
      const double volt = v[i][k] - v[j][k] - v[i][l] + v[j][l];
      slope[q * count + e] = -volt * volt / middle / pairs[q].radius;
      towards += slope[q * count + e] * off(pairs[q], v);
    }
    step.free[e] = siemens > 0 || towards > 0;
  }
  for (std::size_t e = 0; e < count; ++e)
    for (std::size_t q = 0; q < count; ++q) {
      if (!step.free[e]) continue;
      step.normal[e * (count + 1) + count] += slope[q * count + e] * off(pairs[q], v);
      for (std::size_t f = 0; f < count; ++f)
        if (step.free[f]) step.normal[e * (count + 1) + f] += slope[q * count + e] * slope[q * count + f];
    }
  return step;
}

std::vector<double> solved(const Step& step, double damping) {
  const std::size_t count = step.free.size(), width = count + 1;
  auto a = step.normal;
  for (std::size_t e = 0; e < count; ++e) a[e * width + e] = a[e * width + e] * (1 + damping) + 1e-300;
  for (std::size_t k = 0; k < count; ++k) // symmetric and positive: no pivots needed
    for (std::size_t e = k + 1; e < count; ++e) {
      const double factor = a[e * width + k] / a[k * width + k];
      for (std::size_t f = k; f < width; ++f) a[e * width + f] -= factor * a[k * width + f];
    }
  std::vector<double> move(count);
  for (std::size_t k = count; k-- > 0;) {
    double sum = a[k * width + count];
    for (std::size_t f = k + 1; f < count; ++f) sum -= a[k * width + f] * move[f];
    move[k] = step.free[k] ? sum / a[k * width + k] : 0;
  }
  return move;
}

// Readings outside of the box count for more from now on. True where none is.
bool sharpen(std::vector<Pair>& pairs, const Box& box, const Voltages& v) {
  bool within = true;
  for (Pair& pair : pairs) {
    if (box.r[pair.i][pair.j].contains(reading(v, pair.i, pair.j))) continue;
    within = false;
    pair.radius *= 0.5;
  }
  return within;
}

// A search, not a proof: conductances between all pairs, none negative, whose readings come nearest to the
// middle of the box, by Gauss and Newton with damping (Levenberg), what lies outside counting ever more.
bool has_network_near_middle(const Box& box) {
  std::vector<Pair> pairs = conductances_of_middle(box);
  auto v = voltages_of(pairs, box.n);
  if (!v) return false;
  double damping = 1e-6;
  for (int round = 0; round < 16; ++round) {
    if (sharpen(pairs, box, *v)) return true;
    const Step step = step_from(pairs, *v);
    const double before = misfit(pairs, *v);
    const std::vector<Pair> kept = pairs;
    bool better = false;
    for (int attempt = 0; attempt < 6 && !better; ++attempt, damping *= 10) {
      const std::vector<double> move = solved(step, damping);
      for (std::size_t e = 0; e < pairs.size(); ++e)
        pairs[e].siemens = std::max(kept[e].siemens + move[e] / kept[e].middle, 0.0);
      const auto then = voltages_of(pairs, box.n);
      better = then && misfit(pairs, *then) < before;
      if (better) v = then;
    }
    if (!better) return false;
    damping = std::max(damping / 100, 1e-12);
  }
  return false;
}

double magnitude(Interval x) { return std::max(std::fabs(x.low), std::fabs(x.high)); }

// Encloses the Laplacian of every choice of readings in the box; empty where that is not possible because the
// box is too wide. With X the true inverse and K an approximate one, X = K + E X, E = 1 - K G, so that |X -
// K| <= |E| |X| while the rows of |E| add up to less than 1; there G is regular throughout.
std::optional<Matrix<Interval>> crude_laplacian(const Box& box) {
  const std::size_t m = box.n - 1;
  const Matrix<Interval> g = inverse_laplacian(box);
  const auto k = inverse(middle_of(g), m);
  if (!k) return std::nullopt;
  const auto up = [](double a, double b, double factor) { // a + b * factor, none negative
    return (point(a) + point(b) * point(factor)).high;
  };
  Matrix<double> e{};
  double row_sum = 0;
  std::array<double, most_terminals> column{};
  for (std::size_t i = 0; i < m; ++i) {
    double sum = 0;
    for (std::size_t j = 0; j < m; ++j) {
      Interval product = point(i == j ? -1 : 0);
      for (std::size_t q = 0; q < m; ++q) product = product + point((*k)[i][q]) * g[q][j];
      e[i][j] = magnitude(product);
      sum = up(sum, e[i][j], 1);
      column[j] = std::max(column[j], std::fabs((*k)[i][j]));
    }
    row_sum = std::max(row_sum, sum);
  }
  if (!(row_sum < 1)) return std::nullopt;
  Matrix<double> off{}; // |X - K| at most
  for (std::size_t i = 0; i < m; ++i)
    for (std::size_t j = 0; j < m; ++j)
      off[i][j] = (point(row_sum) * point(column[j]) / (point(1) - point(row_sum))).high;
  for (int round = 0; round < 2; ++round) {
    Matrix<double> nearer{};
    for (std::size_t i = 0; i < m; ++i)
      for (std::size_t j = 0; j < m; ++j)
        for (std::size_t q = 0; q < m; ++q)
          nearer[i][j] = up(nearer[i][j], e[i][q], up(std::fabs((*k)[q][j]), off[q][j], 1));
    off = nearer;
  }
  Matrix<Interval> l{};
  for (std::size_t i = 0; i < m; ++i)
    for (std::size_t j = 0; j < m; ++j) {
      l[i][j] = point((*k)[i][j]) + Interval{-off[i][j], off[i][j]};
      l[i][m] = l[m][i] = l[i][m] - l[i][j];
      l[m][m] = l[m][m] + l[i][j];
    }
  return l;
}

// The same, as narrow as the derivative dL = L dR L / 2 makes it (mean value theorem).
std::optional<Matrix<Interval>> laplacian(const Box& box) {
  Box middle{box.n, {}};
  each_pair(box.n, [&](std::size_t i, std::size_t j) { middle.set(i, j, point(box.r[i][j].middle())); });
  const auto wide = crude_laplacian(box), at_middle = crude_laplacian(middle);
  if (!wide || !at_middle) return std::nullopt;
  Matrix<Interval> l = *at_middle;
  const auto& w = *wide;
  each_pair(box.n, [&](std::size_t i, std::size_t j) {
    each_pair(box.n, [&](std::size_t p, std::size_t q) {
      const Interval slope = (w[i][p] * w[q][j] + w[i][q] * w[p][j]) * point(0.5);
      l[i][j] = l[i][j] + slope * (box.r[p][q] - middle.r[p][q]);
    });
    l[j][i] = l[i][j];
  });
  return l;
}

// A pair between which a conductance would have to be negative throughout the box.
std::optional<std::pair<std::size_t, std::size_t>> negative_conductance(const Box& box) {
  const auto l = laplacian(box);
  if (!l) return std::nullopt;
  std::pair<std::size_t, std::size_t> worst{0, 0};
  double most = 0;
  each_pair(box.n, [&](std::size_t i, std::size_t j) {
    if ((*l)[i][j].low > most) most = (*l)[i][j].low, worst = {i, j};
  });
  if (most == 0) return std::nullopt;
  return worst;
}

// Splits the box until each piece is excluded; false where a piece holds a network, or after so many pieces.
bool is_excluded(const Box& whole, int most_pieces) {
  std::vector<Box> pieces = {whole};
  for (int i = 0; i < most_pieces && !pieces.empty(); ++i) {
    Box box = pieces.back();
    pieces.pop_back();
    if (!narrow(box)) continue;
    if (has_network_near_middle(box)) return false;
    if (negative_conductance(box)) continue;
    std::pair<std::size_t, std::size_t> widest{1, 0};
    const auto share = [&](std::size_t p, std::size_t q) { return box.r[p][q].width() / box.r[p][q].high; };
    each_pair(box.n, [&](std::size_t p, std::size_t q) {
      if (share(p, q) > share(widest.first, widest.second)) widest = {p, q};
    });
    const auto [p, q] = widest;
    const Interval r = box.r[p][q];
    for (const Interval half : {Interval{r.low, r.middle()}, Interval{r.middle(), r.high}}) {
      box.set(p, q, half);
      pieces.push_back(box);
    }
  }
  return pieces.empty();
}

Box part_of(const Box& box, const std::vector<std::size_t>& terminals) {
  Box part{terminals.size(), {}};
  each_pair(part.n, [&](std::size_t i, std::size_t j) { part.set(i, j, box.r[terminals[i]][terminals[j]]); });
  return part;
}

// Where the middle of the box needs the most negative conductance.
Unrealizable unrealizable(const Box& box, std::vector<std::size_t> terminals) {
  const Box part = part_of(box, terminals);
  std::pair<std::size_t, std::size_t> worst{1, 0};
  const std::size_t m = part.n - 1;
  if (const auto k = inverse(middle_of(inverse_laplacian(part)), m)) {
    const auto l = [&](std::size_t i, std::size_t j) {
      if (i != m) return (*k)[i][j];
      double sum = 0;
      for (std::size_t q = 0; q < m; ++q) sum -= (*k)[q][j];
      return sum;
    };
    each_pair(part.n, [&](std::size_t i, std::size_t j) {
      if (l(i, j) > l(worst.first, worst.second)) worst = {i, j};
    });
  }
  const auto [i, j] = worst;
  return {terminals, terminals[j], terminals[i], std::nullopt};
}

}

std::optional<Unrealizable> find_unrealizable(std::span<const Between> readings, std::size_t terminals) {
  const std::size_t n = terminals;
  if (n < 3 || n > most_terminals) return std::nullopt;
  Box box{n, {}};
  each_pair(n, [&](std::size_t i, std::size_t j) { box.set(i, j, {0, infinity}); });
  for (const auto& [a, b, ohm] : readings) {
    const Interval before = box.r[a][b];
    if (!before.overlaps(ohm)) return std::nullopt; // not one reading
    box.set(a, b, {std::max(before.low, ohm.low), std::min(before.high, ohm.high)});
  }
  bool complete = true;
  each_pair(n, [&](std::size_t i, std::size_t j) {
    complete = complete && box.r[i][j].low > 0 && std::isfinite(box.r[i][j].high);
  });
  if (!complete) return std::nullopt;
  if (Box left = box; narrow(left) && has_network_near_middle(left)) return std::nullopt;

  // The shortest reason first: a triangle, one inequality of four terminals, four terminals, all.
  const auto& r = box.r;
  std::optional<Unrealizable> found;
  std::vector<std::vector<std::size_t>> fours;
  each_pair(n, [&](std::size_t i, std::size_t j) {
    for (std::size_t k = 0; k < n; ++k) {
      if (k == i || k == j) continue;
      const double sum = (r[i][k] + r[k][j]).high;
      if (!found && sum < r[i][j].low) found = Unrealizable{{j, i, k}, j, i, sum};
    }
  });
  if (found) return found;
  each_pair(n, [&](std::size_t i, std::size_t j) {
    each_pair(n, [&](std::size_t k, std::size_t l) {
      if (k == i || k == j || l == i || l == j) return;
      if (i < l) fours.push_back({i, j, k, l});
      const double most = most_between_four(r[i][k], r[i][l], r[j][k], r[j][l], r[k][l]);
      if (!found && most < r[i][j].low) found = Unrealizable{{j, i, l, k}, j, i, most};
    });
  });
  if (found) return found;
  if (n > 4)
    for (const auto& four : fours)
      if (is_excluded(part_of(box, four), 10)) return unrealizable(box, four);
  std::vector<std::size_t> all(n);
  std::iota(all.begin(), all.end(), 0u);
  if (!is_excluded(box, 40)) return std::nullopt;
  return unrealizable(box, all);
}

}
