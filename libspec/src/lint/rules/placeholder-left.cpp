#include <algorithm>
#include <string>
#include <vector>

#include "lint/rule.h"
#include "ohmlore/publish.h"

namespace ohmlore::rules {

// The texts in angle brackets of all skeletons.
static std::vector<std::string> placeholders() {
  std::vector<std::string> texts;
  for (const Document_kind kind : {Document_kind::profile, Document_kind::part, Document_kind::corpus}) {
    const Document document = read_json("skeleton", skeleton(kind, "skeleton")).document;
    for (Node_id id = Document::root; id < document.nodes().size(); ++id)
      if (document.node(id).type == Node_type::string && document.string(id).starts_with('<'))
        texts.emplace_back(document.string(id));
  }
  return texts;
}

static void check(const Subject& subject, Sink& sink) {
  const Document& document = subject.document;
  if (document.text().find('<') == std::string_view::npos) return; // as the skeleton has it
  for (Node_id id = Document::root; id < document.nodes().size(); ++id) {
    const Node& node = document.node(id);
    if (node.type != Node_type::string || node.key || !document.string(id).starts_with('<')) continue;
    static const std::vector<std::string> known = placeholders();
    if (std::find(known.begin(), known.end(), document.string(id)) != known.end())
      sink.report(id, fmt::format("{} stands as the skeleton has it; write what it asks for, or leave the "
                                  "member out where it is not required",
                                  quoted(document.string(id))));
  }
}

extern const Rule placeholder_left = {
    .family = Family::shape,
    .severity = Severity::note,
    .summary = "A text still stands as `ohmlore new` wrote it.",
    .check = check,
};

}
