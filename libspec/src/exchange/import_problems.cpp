#include "ohmlore/exchange.h"

namespace ohmlore {

std::span<const Import_problem> import_problems() {
  static constexpr Import_problem problems[] = {
      {"xml-syntax",
       "The file is not well-formed XML 1.0, or holds what is refused for safety: a DOCTYPE, an "
       "entity that XML does not have."},
      {"xml-structure",
       "An element, an attribute or text stands where the XML Schema has none, or in another "
       "order, or is missing."},
      {"table-malformed",
       "The table is not RFC 4180, has no header, columns that are unknown or repeated, or a "
       "row of another length; or the format has no table of its name."},
      {"row-out-of-place",
       "A row of a table belongs to a document that is not there, or does not stand with the "
       "other rows of its document."},
      {"cell-malformed",
       "A cell that no member of the document stands in (a key, an ordinal, `empty`, `others`) "
       "does not say what it must."},
      {"measurements-unfit",
       "A table of measurements does not say what is needed of it, or holds what no part of its kind can "
       "read: only `ohmlore fit` reads such tables.",
       "fitting.md"},
      {"number-malformed", "The number beside a written quantity is no number."},
      {"number-differs", "The number beside a written quantity is another one; what is written out counts."},
  };
  return problems;
}

}
