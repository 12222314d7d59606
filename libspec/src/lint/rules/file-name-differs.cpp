#include "lint/rule.h"
#include "ohmlore/file_names.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  const Part* part = subject.document.part();
  if (profile == nullptr && part == nullptr) return;
  const Value<Text>& id = profile ? profile->id : part->id;
  const std::string_view ending = profile ? end_of_profile : end_of_part;
  std::string_view name = subject.document.name();
  if (const std::size_t slash = name.find_last_of("/\\"); slash != std::string_view::npos)
    name.remove_prefix(slash + 1);
  if (!id || !name.ends_with(ending)) return;
  name.remove_suffix(ending.size());
  if (name != *id)
    sink.report(id.node, fmt::format("the file is named {}, but the id is {}; name the file {}{}",
                                     quoted(name), quoted(*id), *id, ending));
}

extern const Rule file_name_differs = {
    .family = Family::corpus,
    .severity = Severity::warning,
    .summary = "The name of a file is not the id of what it holds.",
    .check = check,
};

}
