// valijson, without what it would take from the standard library. For one file: it is dear to compile, and
// wants to come before any header of RapidJSON.
#pragma once

#if !defined(VALIJSON_USE_EXCEPTIONS) || VALIJSON_USE_EXCEPTIONS != 1
#error "Define VALIJSON_USE_EXCEPTIONS as 1: without it a bad schema ends the program"
#endif
#include <deque>
#include <functional>
#include <limits>
#include <regex>
#include <stdexcept>
#include <string>

#include "publish/pattern.h"

// A name of its own: whoever embeds the library may have valijson as it is, and the linker would take one for
// both.
#define valijson valijson_of_ohmlore

// valijson 1.0 names std::regex, which recurses over the text that it searches, takes for some texts longer
// than anyone waits, and counts bytes. Within valijson, this is what it finds by that name.
namespace valijson::std {
using namespace ::std;

class regex {
public:
  explicit regex(const string& text) : pattern_(ohmlore::compile_pattern(text)) {}
  bool in(const string& text) const { return ohmlore::found(pattern_, text); }

private:
  ohmlore::Pattern pattern_;
};

inline bool regex_search(const string& text, const regex& expression) { return expression.in(text); }
// Of formats, which are annotations: never asked.
inline bool regex_match(const string&, smatch&, const regex&) { return true; }
inline bool regex_match(const string&, const regex&) { return true; }

// The errors that the engine tells. Each item of a long list may have some, and each holds about a kilobyte:
// the first are enough.
inline constexpr size_t most_told = 2000;
template <class T>
class deque : public ::std::deque<T> {
public:
  void push_back(T told) {
    if (this->size() < most_told) ::std::deque<T>::push_back(move(told));
  }
};

// What the engine calls each time that it applies a schema to a value: references may double that at every
// level of a document.
inline thread_local double applications_left = numeric_limits<double>::infinity();
template <class... T>
auto bind(T&&... parts) {
  if (--applications_left < 0)
    throw runtime_error("its schemas apply too often to the values of this document");
  return ::std::bind(forward<T>(parts)...);
}
}

#include <valijson/adapters/rapidjson_adapter.hpp> // before any header of RapidJSON

#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>
