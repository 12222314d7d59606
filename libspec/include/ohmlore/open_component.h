// One component of one document, as a command names it.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/resolve.h"

namespace ohmlore {

/// A component with its documents read, its part laid beneath it, and its corpus around it.
struct Opened_component {
  const Resolved_component* component = nullptr; ///< null: `findings` or `troubles` say why
  std::vector<Finding> findings;                 ///< errors of the document
  std::string caution;                   ///< that it has errors, to be shown first; empty: it has none
  std::vector<std::string> warnings;     ///< why a file among the parts is not read
  std::vector<std::string> troubles;     ///< why the component could not be had; one sentence each
  std::shared_ptr<const void> documents; ///< keeps all alive that `component` views into
};

/// `name` is the path of a part, or PROFILE:COMPONENT; "-" for the path is `standard_input`. `root` is the
/// folder that holds corpus.json; absent: the nearest at or above the file.
Opened_component open_component(const std::string& name, const std::optional<std::string>& root = {},
                                std::string_view standard_input = {});

}
