// pugixml leaves out what it has no memory for, and goes on: a text that lacks a sentence is worse than none.
#pragma once

#include <gtest/gtest.h>

#include <cstdlib>
#include <new>
#include <pugixml.hpp>
#include <utility>

namespace ohmlore::test {

// `made` gives the same, or throws, whichever memory is refused to pugixml.
template <class F>
void expect_whole_or_none(F made) {
  const auto whole = made();
  const std::pair usual(pugi::get_memory_allocation_function(), pugi::get_memory_deallocation_function());
  static long left;
  pugi::set_memory_management_functions(
      [](std::size_t size) { return left-- > 0 ? std::malloc(size) : nullptr; }, std::free);
  long thrown = 0;
  left = -1;
  for (long most = 0; left < 0; ++most) { // until none is refused
    left = most;
    try {
      EXPECT_EQ(made(), whole) << "with " << most << " pieces of memory";
    } catch (const std::bad_alloc&) {
      ++thrown;
    }
  }
  pugi::set_memory_management_functions(usual.first, usual.second);
  EXPECT_GT(thrown, 0);
}

}
