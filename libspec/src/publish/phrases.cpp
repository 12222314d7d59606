#include "publish/phrases.h"

#include <vector>

namespace ohmlore {

std::string dimension_words(Dimensions dimensions) {
  std::vector<std::string_view> names;
  for (unsigned d = 0; d <= static_cast<unsigned>(Dimension::ratio); ++d)
    if (dimensions.has(static_cast<Dimension>(d))) names.push_back(dimension_name(static_cast<Dimension>(d)));
  std::string out;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) out += i + 1 == names.size() ? " or " : ", ";
    out += names[i];
  }
  return out;
}

std::string_view target_words(Target target) {
  switch (target) {
  case Target::component: return "an entry of `components`";
  case Target::connector: return "an entry of `connectors`";
  case Target::circuit: return "an entry of `circuits`";
  case Target::test: return "an entry of `tests`";
  case Target::source: return "an entry of `sources`";
  case Target::part: return "a part document";
  case Target::rule: return "a rule";
  case Target::state: return "an entry of the component's `states`";
  case Target::contact: return "a pin of `connectors`";
  case Target::none: break;
  }
  return {};
}

}
