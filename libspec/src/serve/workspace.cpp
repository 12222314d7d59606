#include "serve/workspace.h"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <set>
#include <tuple>

#include "corpus/open_profile.h"
#include "ohmlore/cautions.h"
#include "ohmlore/corpus.h"
#include "ohmlore/file_names.h"
#include "ohmlore/report.h"
#include "text/percent.h"

namespace ohmlore::serve {
namespace fs = std::filesystem;
namespace {

bool is_part_or_corpus(const Open_document& document) {
  return document.is_file && !document.name.ends_with(end_of_profile);
}

bool is_error(const Finding& finding) { return finding.severity == Severity::error; }

// Percent-encoding undone; nothing where it is broken, or of a byte that no path holds.
std::optional<std::string> unescaped(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '%') {
      out += text[i];
      continue;
    }
    const std::optional<char> byte = percent_encoded(text, i);
    if (!byte || *byte == '\0') return std::nullopt;
    out += *byte;
    i += 2;
  }
  return out;
}

std::string normal(const std::string& path) {
  std::error_code error;
  const fs::path whole = fs::absolute(path, error);
  return (error ? fs::path(path) : whole).lexically_normal().string();
}

// "corpus.json" of "corpus.json:1:3: why"; of a text that names no place, nothing.
std::string_view file_of_place(std::string_view trouble) {
  std::string_view file = trouble.substr(0, trouble.find(": "));
  for (int numbers = 0; numbers < 2; ++numbers) { // column and line
    const std::size_t colon = file.find_last_not_of("0123456789");
    if (colon == file.npos || file[colon] != ':' || colon + 1 == file.size()) return {};
    file = file.substr(0, colon);
  }
  return file;
}

}

std::optional<std::string> path_of(std::string_view uri) {
  constexpr std::string_view scheme = "file:";
  if (!uri.starts_with(scheme)) return std::nullopt;
  uri.remove_prefix(scheme.size());
  if (uri.starts_with("//")) { // the host: none, or this one
    const std::size_t slash = uri.find('/', 2);
    if (slash == uri.npos) return std::nullopt;
    const std::string_view host = uri.substr(2, slash - 2);
    if (!host.empty() && host != "localhost") return std::nullopt;
    uri.remove_prefix(slash);
  }
  if (!uri.starts_with('/')) return std::nullopt;
  const auto path = unescaped(uri.substr(0, uri.find_first_of("?#")));
  return path ? std::optional(fs::path(*path).lexically_normal().string()) : std::nullopt;
}

bool Analysis::reads_without_errors() const {
  return std::none_of(read.findings.begin(), read.findings.end(), is_error);
}

const std::string& Analysis::errors_caution() const {
  if (!kept_caution) kept_caution = caution_of_errors(lint_errors(read, around).size());
  return *kept_caution;
}

Open_document* Workspace::open(std::string uri, std::string text, std::optional<std::int64_t> version) {
  Open_document document;
  if (const auto path = path_of(uri)) {
    document.name = *path;
    document.is_file = true;
    document.real = real_path(*path);
  } else {
    const std::string_view last = std::string_view(uri).substr(uri.find_last_of("/:") + 1);
    document.name = unescaped(last).value_or(std::string());
  }
  if (!is_document_name(document.name, ".json")) return nullptr;
  document.uri = uri;
  document.text = std::move(text);
  document.version = version;
  document.turn = ++turns_;
  Open_document& kept = documents_[std::move(uri)] = std::move(document);
  if (is_part_or_corpus(kept)) forget_files(); // its text stands for the file from now on
  return &kept;
}

Open_document* Workspace::find(std::string_view uri) {
  const auto found = documents_.find(uri);
  return found == documents_.end() ? nullptr : &found->second;
}

void Workspace::changed(Open_document& document) {
  document.due = Due::text;
  document.turn = ++turns_;
  document.analysis.reset();
  if (is_part_or_corpus(document)) forget_files();
}

void Workspace::close(Open_document& document) {
  const bool around = is_part_or_corpus(document);
  documents_.erase(std::string(document.uri));
  if (around) forget_files();
}

bool Workspace::is_around_others(std::string_view uri) const {
  const auto path = path_of(uri);
  if (!path || !path->ends_with(".json")) return true; // a folder, perhaps
  if (path->ends_with(end_of_profile)) return false;
  return is_place_of_document(*path) || (roots_ && roots_->name_house_schema(*path));
}

bool Workspace::roots_lie_in(const std::vector<std::string>& folders) const {
  return !roots_ || roots_->lie_in(folders);
}

void Workspace::forget_files() {
  for (auto& [uri, document] : documents_) {
    document.due = std::max(document.due, Due::around);
    document.analysis.reset(); // it views into what is around it
  }
  roots_.reset();
  troubles_.clear();
}

const Open_document* Workspace::open_file(const fs::path& path) const {
  const fs::path real = real_path(path);
  const Open_document* latest = nullptr;
  for (const auto& [uri, document] : documents_)
    if (document.is_file && document.real == real && (latest == nullptr || latest->turn < document.turn))
      latest = &document;
  return latest;
}

std::optional<std::string> Workspace::read(const std::string& path, std::string& why) const {
  const Open_document* document = open_file(path);
  return document != nullptr ? document->text : read_file(path, why);
}

const Analysis& Workspace::analysis(Open_document& document) {
  if (document.analysis) return *document.analysis;
  if (!roots_)
    roots_.emplace(options_.root, troubles_,
                   [this](const std::string& path, std::string& why) { return read(path, why); });
  const Root* root = document.is_file || options_.root ? roots_->of(document.name) : nullptr;
  const Surroundings around = root != nullptr ? root->surroundings() : Surroundings{};
  Read_result read = read_json(document.name, document.text);
  Lint_options lint;
  if (options_.today != nullptr) lint.today = options_.today();
  std::vector<std::string> troubles;
  std::vector<Finding> untold, findings = lint_alone(read, around, lint, troubles, &untold);
  std::set<std::tuple<std::string_view, std::uint32_t, std::uint32_t>> marked;
  const auto is_new = [&](const Finding& finding) {
    return marked.emplace(finding.rule, finding.region.begin, finding.region.end).second;
  };
  for (const Finding& finding : findings) is_new(finding);
  std::erase_if(untold, [&](const Finding& finding) { return !is_error(finding) || !is_new(finding); });
  for (std::string& trouble : troubles)
    if (std::find(troubles_.begin(), troubles_.end(), trouble) == troubles_.end())
      troubles_.push_back(std::move(trouble));
  const std::string_view text = read.document.text();
  document.analysis = std::make_unique<Analysis>(
      Analysis{std::move(read), around, std::move(findings), std::move(untold), Lines_of_text(text),
               root != nullptr ? &root->read.document : nullptr, std::nullopt});
  return *document.analysis;
}

std::string Workspace::uri_of_file(const std::string& path) const {
  const Open_document* document = open_file(path);
  return document != nullptr ? document->uri : uri_of(normal(path), "");
}

std::vector<std::string> Workspace::new_troubles() {
  std::vector<std::string> fresh, said;
  for (const std::string& trouble : troubles_) {
    const std::string_view file = file_of_place(trouble);
    if (!file.empty() && open_file(file) != nullptr) continue;
    if (std::find(said_.begin(), said_.end(), trouble) == said_.end()) fresh.push_back(trouble);
    said.push_back(trouble);
  }
  said_ = std::move(said);
  return fresh;
}

}
