// How many cases a generated test takes.
#pragma once

#include <cstddef>

namespace ohmlore::test {

/// Of so many, all with OHMLORE_LONG_TESTS; one in OHMLORE_ONE_CASE_IN where every change is to be tested in
/// minutes, or under sanitizers.
constexpr int cases(int all) { return (all + OHMLORE_ONE_CASE_IN - 1) / OHMLORE_ONE_CASE_IN; }

/// Of a list every so manieth: each of them, but under sanitizers, where one goes the ways of the next.
constexpr std::size_t step = OHMLORE_ONE_CASE_IN > 10 ? 5 : 1;

}
