// The members of a record in the order of its description, and those that no description names.
#pragma once

#include <vector>

#include "ohmlore/document.h"

namespace ohmlore {

struct Members {
  int kind = -1;               ///< of a variant
  std::vector<Node_id> fields; ///< value nodes, one for each field of the record; 0: absent
  std::vector<Node_id> others; ///< key nodes, in document order
};

Members members_of(const Document& document, const Record& record, Node_id object);

/// True where the reader has nothing against the document.
bool is_readable(const Read_result& read);

}
