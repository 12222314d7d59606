#include "ohmlore/interval.h"

#include <cmath>

namespace ohmlore {

// The glibc manual ("Known Maximum Errors in Math Functions", x86_64) states at most 1 ulp for exp and log of
// a double; musl, which WebAssembly uses, has the same algorithms (from memory). Two neighbours cover 1 ulp
// everywhere, also just below a power of two, where neighbours are half an ulp apart. The tests compare with
// MPFR.
constexpr int library_neighbours = 2;

Interval exp(Interval x) {
  const Interval y = widened({std::exp(x.low), std::exp(x.high)}, library_neighbours);
  return {std::max(y.low, 0.0), y.high};
}

Interval log(Interval x) {
  return widened({x.low > 0 ? std::log(x.low) : -infinity, std::log(x.high)}, library_neighbours);
}

}
