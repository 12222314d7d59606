#include "corpus/open_profile.h"

#include <fmt/format.h>

#include "corpus/files.h"
#include "ohmlore/cautions.h"
#include "ohmlore/corpus.h"

namespace ohmlore {

std::vector<Finding> lint_alone(const Read_result& read, const Surroundings& surroundings,
                                const Lint_options& options, std::vector<std::string>& troubles,
                                std::vector<Finding>* untold) {
  std::vector<Linted> linted;
  linted.push_back(lint_document(read, surroundings));
  linted.front().facts.clear();
  for (std::string& trouble : linted.front().troubles) troubles.push_back(std::move(trouble));
  std::vector<Finding> findings = settle(std::move(linted), {}, surroundings.corpus, options);
  tell_once(findings, untold);
  return findings;
}

std::vector<Finding> lint_errors(const Read_result& read, const Surroundings& surroundings) {
  std::vector<std::string> troubles; // a rule that broke says nothing of the document
  Lint_options options;
  options.no_waivers = true; // who accepts an error does not make a part that has it
  std::vector<Finding> errors = lint_alone(read, surroundings, options, troubles);
  std::erase_if(errors, [](const Finding& finding) { return finding.severity != Severity::error; });
  return errors;
}

void Opened_profile::warn(std::vector<std::string>& cautions) const {
  if (!findings.empty()) cautions.insert(cautions.begin(), caution_of_errors(findings.size()));
}

Opened_profile::Opened_profile(const std::string& profile, const std::optional<std::string>& root,
                               std::string_view use) {
  std::string why;
  const auto bytes = read_document_file(profile, why);
  if (!bytes) {
    troubles.push_back(fmt::format("{}: cannot be read: {}", profile, why));
    return;
  }
  read = read_json(profile, *bytes);
  std::erase_if(read.findings, [](const Finding& finding) { return finding.severity != Severity::error; });
  if (!read.findings.empty()) {
    findings = std::move(read.findings);
    troubles.push_back(
        fmt::format("{}: nothing is {} by a profile that does not read without errors", profile, use));
    return;
  }
  if (read.document.profile() == nullptr) {
    troubles.push_back(fmt::format("{}: this is a {}, and tests stand in a profile", profile,
                                   read.document.part() != nullptr ? "part" : "corpus"));
    return;
  }
  roots_.emplace(root, troubles, warnings);
  const Root* around = roots_->of(profile);
  if (!troubles.empty()) return;
  resolved = resolve(read.document, around != nullptr ? around->surroundings() : Surroundings{});
  findings = lint_errors(read, resolved->surroundings);
}

}
