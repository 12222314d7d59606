#include <algorithm>
#include <filesystem>
#include <iterator>
#include <set>

#include <fmt/format.h>

#include "corpus/files.h"
#include "corpus/open_profile.h"
#include "corpus/roots.h"
#include "ohmlore/corpus.h"
#include "ohmlore/file_names.h"
#include "ohmlore/sheet.h"
#include "sheet/site.h"
#include "text/small_letters.h"

namespace ohmlore {
namespace {

namespace fs = std::filesystem;

bool is_no_error(const Finding& finding) { return finding.severity != Severity::error; }

// One profile read without errors; empty where it cannot be used, and the run says why.
std::optional<Read_result> read_profile(const std::string& path, Sheet_run& run) {
  std::string why;
  const auto bytes = read_document_file(path, why);
  if (!bytes) {
    run.troubles.push_back(fmt::format("{}: cannot be read: {}", path, why));
    return std::nullopt;
  }
  Read_result read = read_json(path, *bytes);
  if (!std::all_of(read.findings.begin(), read.findings.end(), is_no_error)) {
    std::remove_copy_if(read.findings.begin(), read.findings.end(), std::back_inserter(run.findings),
                        is_no_error);
    run.troubles.push_back(
        fmt::format("{}: no sheet is made of a profile that does not read without errors", path));
    return std::nullopt;
  }
  if (read.document.profile() == nullptr) {
    run.troubles.push_back(fmt::format("{}: this is a {}, and a sheet is made of a profile", path,
                                       read.document.part() != nullptr ? "part" : "corpus"));
    return std::nullopt;
  }
  return read;
}

// The page, and in the run the errors that it warns of.
std::string html_of(const Read_result& read, Roots& roots, const std::string& path, Language language,
                    Sheet_run& run) {
  const Root* around = roots.of(path);
  const Surroundings surroundings = around != nullptr ? around->surroundings() : Surroundings{};
  std::vector<Finding> errors = lint_errors(read, surroundings);
  const std::size_t count = errors.size();
  run.findings.insert(run.findings.end(), std::make_move_iterator(errors.begin()),
                      std::make_move_iterator(errors.end()));
  return sheet_html(resolve(read.document, surroundings), language, count);
}

void write_page(const fs::path& path, const std::string& html, Sheet_run& run) {
  std::string why;
  if (write_file(path.string(), html, why))
    ++run.pages;
  else
    run.troubles.push_back(fmt::format("{}: cannot be written: {}", path.string(), why));
}

void write_one(const Sheet_request& request, Roots& roots, Sheet_run& run) {
  const auto read = read_profile(request.path, run);
  if (!read) return;
  std::string html = html_of(*read, roots, request.path, request.language, run);
  if (!run.troubles.empty()) return; // its corpus could not be used
  if (request.output.empty()) {
    run.html = std::move(html);
    return;
  }
  std::error_code error;
  const bool in_folder = fs::is_directory(request.output, error);
  if (!in_folder && !request.output.ends_with(".html")) {
    run.troubles.push_back(
        fmt::format("{}: not written: a sheet is a page, and its file ends in .html", request.output));
    return;
  }
  write_page(in_folder ? fs::path(request.output) / fmt::format("{}.html", *read->document.profile()->id)
                       : fs::path(request.output),
             html, run);
}

void write_site(const Sheet_request& request, Roots& roots, Sheet_run& run) {
  if (request.output.empty()) {
    run.troubles.push_back(
        fmt::format("{} is a folder, and a site goes into a folder; name it with -o", request.path));
    return;
  }
  std::error_code error;
  fs::create_directories(request.output, error);
  if (error) {
    run.troubles.push_back(fmt::format("{}: cannot be made: {}", request.output, error.message()));
    return;
  }
  const fs::path folder = request.output;
  const sheet::Catalogue& words = sheet::catalogue(request.language);
  std::vector<sheet::Site_entry> entries;
  std::set<std::string> taken = {"index.html"};
  for (const std::string& path : documents_below(request.path, run.troubles)) {
    if (!path.ends_with(end_of_profile)) continue;
    const auto read = read_profile(path, run);
    if (!read) continue;
    sheet::Site_entry entry = sheet::site_entry(*read->document.profile(), words);
    // Where a disk or a server takes capital letters for small ones, one page would stand in for the other.
    if (!taken.insert(small_letters(entry.file)).second) {
      run.troubles.push_back(
          fmt::format("{}: left out: {} is written already, capital letters aside; give it another id", path,
                      entry.file));
      continue;
    }
    write_page(folder / entry.file, html_of(*read, roots, path, request.language, run), run);
    entries.push_back(std::move(entry));
  }
  if (entries.empty()) {
    if (run.troubles.empty())
      run.troubles.push_back(fmt::format("{}: holds no *.profile.json", request.path));
    return;
  }
  const Root* around = roots.of((fs::path(request.path) / corpus_file).string());
  const Corpus* corpus = around != nullptr ? around->corpus : nullptr;
  const std::string title(corpus != nullptr && corpus->title ? *corpus->title : Text(request.path));
  write_page(folder / "index.html",
             sheet::site_html(title,
                              std::string(corpus != nullptr && corpus->licence ? *corpus->licence : Text()),
                              std::move(entries), words),
             run);
}

}

Sheet_run write_sheets(const Sheet_request& request) {
  Sheet_run run;
  std::error_code error;
  const bool is_site = fs::is_directory(request.path, error);
  Roots roots(request.root, run.troubles, is_site ? run.troubles : run.warnings);
  if (!run.troubles.empty()) return run;
  if (is_site)
    write_site(request, roots, run);
  else
    write_one(request, roots, run);
  return run;
}

}
