// RE2, behind what every standard library lays out alike: its package is compiled with that of GNU, this
// program perhaps with another. Linear in the text, without recursion.
#pragma once

#include <cstddef>

namespace ohmlore {

struct Regular_expression;

/// Compiles an expression in the syntax of RE2. Never null; release it with `free_regular_expression`.
const Regular_expression* make_regular_expression(const char* text, std::size_t size);
void free_regular_expression(const Regular_expression* expression);

/// Why it cannot be used; empty where it can.
const char* problem_of(const Regular_expression& expression);

/// Whether it matches a part of a text in UTF-8.
bool matches(const Regular_expression& expression, const char* text, std::size_t size);

}
