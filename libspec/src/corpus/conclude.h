// The second half of a run: what follows from all of its documents together.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "corpus/gather.h"
#include "corpus/lint_run.h"

namespace ohmlore {

/// What a document says that others contradict; why that cannot be known is added.
using Facts_of = std::function<std::vector<Fact>(const Linted&, const Root*, std::vector<std::string>&)>;

struct Conclusion {
  std::vector<std::string> troubles; ///< of the run as a whole
  std::vector<std::string> folders;  ///< those of which all documents are in the run
  Roots& roots;                      ///< for the baseline
  Facts_of facts_of;
  Gone gone = {};   ///< of a run over what changed
  Renew renew = {}; ///< given: the baseline is written before it is applied
};

Lint_run conclude(std::vector<Gathered> documents, const Lint_request& request, Conclusion with);

}
