// What is wrong with a text that is not JSON, in the words of the one who wrote it.
#pragma once

#include "ohmlore/document.h"

namespace ohmlore {

/// What the parser was doing when it gave up.
enum class Syntax_stop {
  at_value,   ///< no value begins here, or a literal broke off
  at_key,     ///< a key must stand here
  at_colon,   ///< a colon must follow the key
  in_object,  ///< a comma or } must stand here
  in_array,   ///< a comma or ] must stand here
  after_root, ///< the document is over
  in_text,    ///< a line break, control character or bad escape inside a text
  in_number,  ///< a digit is missing
};

struct Syntax_problem {
  std::size_t begin = 0;
  std::size_t end = 0;
  std::string message;
  std::vector<Related> related;
  std::vector<Fix> fixes;
};

/// JSON's grammar of numbers (RFC 8259, section 6).
bool is_json_number(std::string_view token);

/// `offset` is where the parser stopped, `open` the innermost container that it was in (0: none, or not
/// known).
Syntax_problem explain_syntax(const Document& document, Node_id open, std::size_t offset, Syntax_stop stop);

}
