#include "ohmlore/open_component.h"

#include <filesystem>

#include <fmt/format.h>

#include "corpus/files.h"
#include "corpus/open_profile.h"
#include "lint/rule.h"
#include "ohmlore/cautions.h"
#include "ohmlore/corpus.h"
#include "ohmlore/file_names.h"

namespace ohmlore {
namespace {

struct Opened {
  Opened(const std::optional<std::string>& root, Opened_component& result)
      : roots(root, result.troubles, result.warnings) {}
  Roots roots;
  Read_result read;
  Resolved resolved;
};

struct Name {
  std::string file, component;
};

// A file may have a colon in its name: where it is there, the whole is the file.
Name split(const std::string& name) {
  std::error_code error;
  const std::size_t colon = name.rfind(':');
  if (colon == std::string::npos || std::filesystem::exists(name, error)) return {name, {}};
  return {name.substr(0, colon), name.substr(colon + 1)};
}

std::string no_such_component(const Resolved& resolved, const Name& name, bool is_part) {
  if (is_part)
    return fmt::format("{} is a part, which is one component; leave out `:{}`", name.file, name.component);
  std::vector<std::string_view> ids, shown;
  for (const Resolved_component& component : resolved.components) {
    ids.push_back(component.id);
    if (component.get(&Component_type::model)) shown.push_back(component.id);
  }
  if (ids.empty()) return fmt::format("{} has no components", name.file);
  const std::string has = shown.empty()
                              ? "none of its components states a resistance model"
                              : fmt::format("a resistance model is stated by {}", rules::listed(shown));
  if (name.component.empty()) // behind --, since a word that begins with - is an option
    return fmt::format("{} is a profile: name one of its components, {}:COMPONENT; {}", name.file,
                       name.file == name_of_standard_input ? "-- -" : name.file, has);
  const std::string_view near = nearest_word(name.component, ids);
  return fmt::format("{} has no component `{}`; {}", name.file, name.component,
                     near.empty() ? has : fmt::format("did you mean {}?", near));
}

}

Opened_component open_component(const std::string& name, const std::optional<std::string>& root,
                                std::string_view standard_input) {
  Opened_component result;
  const auto fail = [&](std::string why) {
    result.troubles.push_back(std::move(why));
    return std::move(result);
  };
  Name wanted = split(name);
  std::string why;
  const bool from_input = wanted.file == "-";
  const auto bytes =
      from_input ? std::optional(std::string(standard_input)) : read_document_file(wanted.file, why);
  if (!bytes) return fail(fmt::format("{}: cannot be read: {}", wanted.file, why));
  const std::string file = wanted.file;
  if (from_input) wanted.file = std::string(name_of_standard_input);

  const auto opened = std::make_shared<Opened>(root, result);
  opened->read = read_json(wanted.file, *bytes);
  for (Finding& finding : opened->read.findings)
    if (finding.severity == Severity::error) result.findings.push_back(std::move(finding));
  if (!result.findings.empty())
    return fail(fmt::format("{}: a document that does not read without errors has no curve", wanted.file));
  const Document& document = opened->read.document;
  if (document.profile() == nullptr && document.part() == nullptr)
    return fail(
        fmt::format("{} is a corpus, which has no components; name a part or a profile", wanted.file));
  const Root* around = opened->roots.of(file);
  if (!result.troubles.empty()) return result;
  opened->resolved = resolve(document, around ? around->surroundings() : Surroundings{});
  const bool is_part = document.part() != nullptr;
  if (is_part && wanted.component.empty())
    result.component = &opened->resolved.components.front();
  else if (!is_part && !wanted.component.empty())
    result.component = opened->resolved.component(wanted.component);
  if (result.component == nullptr) return fail(no_such_component(opened->resolved, wanted, is_part));

  const Resolved_component& component = *result.component;
  if (component.lacks_part() && !component.own->model) {
    const std::string part(*component.placed->part);
    result.component = nullptr;
    return fail(
        around == nullptr
            ? fmt::format("{}: the part {} of {} is not known, as no corpus.json lies at or above the "
                          "file; name its folder with --root",
                          wanted.file, part, wanted.component)
            : fmt::format("{}: the part {} of {} is not in its corpus, or has errors; `ohmlore lint` "
                          "says more",
                          wanted.file, part, wanted.component));
  }
  result.findings = lint_errors(opened->read, opened->resolved.surroundings);
  result.caution = caution_of_errors(result.findings.size());
  result.documents = opened;
  return result;
}

}
