#include "publish/regular_expression.h"

#include <re2/re2.h>

namespace ohmlore {

struct Regular_expression {
  RE2 compiled;
};

static RE2::Options quiet() {
  RE2::Options options;
  options.set_log_errors(false);
  options.set_never_capture(true);
  return options;
}

const Regular_expression* make_regular_expression(const char* text, std::size_t size) {
  return new Regular_expression{RE2(re2::StringPiece(text, size), quiet())};
}

void free_regular_expression(const Regular_expression* expression) { delete expression; }

const char* problem_of(const Regular_expression& expression) { return expression.compiled.error().c_str(); }

bool matches(const Regular_expression& expression, const char* text, std::size_t size) {
  return expression.compiled.Match(re2::StringPiece(text, size), 0, size, RE2::UNANCHORED, nullptr, 0);
}

}
