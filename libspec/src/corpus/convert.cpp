#include "ohmlore/convert.h"

#include <algorithm>
#include <filesystem>
#include <map>

#include <fmt/format.h>

#include "corpus/files.h"
#include "ohmlore/canonical_json.h"
#include "ohmlore/corpus.h"

namespace ohmlore {
namespace {

namespace fs = std::filesystem;

std::string_view extension(Document_form form) { return form == Document_form::xml ? ".xml" : ".json"; }

struct Job {
  std::string file;
  fs::path target; ///< relative to the folder that is written to
};

// Each file, and where it goes.
std::vector<Job> jobs_of(const Convert_request& request, std::vector<std::string>& troubles) {
  std::vector<Job> jobs;
  std::map<fs::path, std::string> taken;
  for (const std::string& path : request.paths) {
    std::error_code error;
    const bool is_folder = path != "-" && fs::is_directory(path, error);
    for (std::string& file : files_of({path}, troubles, extension(request.from))) {
      fs::path target =
          file == "-" ? fs::path("standard-input.json")
          : is_folder
              ? fs::path(file).lexically_normal().lexically_relative(fs::path(path).lexically_normal())
              : fs::path(file).filename();
      target.replace_extension(extension(request.to));
      const auto [known, fresh] = taken.emplace(target, file);
      if (fresh)
        jobs.push_back({std::move(file), std::move(target)});
      else if (known->second != file)
        troubles.push_back(fmt::format("{}: would be written to {}, as {} is; convert them one by one", file,
                                       target.string(), known->second));
    }
  }
  return jobs;
}

Read_result read(Document_form form, std::string name, std::string_view bytes) {
  if (form == Document_form::xml) return std::move(read_xml(std::move(name), bytes).read);
  return read_json(std::move(name), bytes);
}

std::string text_of(Document_form form, const Read_result& read) {
  return form == Document_form::xml ? xml_of(read) : canonical_json(read.document);
}

}

Convert_run convert(const Convert_request& request) {
  Convert_run run;
  const std::vector<Job> jobs = jobs_of(request, run.troubles);
  if (jobs.size() > 1 && request.folder.empty()) {
    run.troubles.push_back(
        fmt::format("{} documents need a folder to be written to; name it with -o", jobs.size()));
    return run;
  }
  for (const Job& job : jobs) {
    std::string why;
    const auto bytes =
        job.file == "-" ? std::optional(request.standard_input) : read_file(job.file, why, most_xml_bytes);
    if (!bytes) {
      run.troubles.push_back(fmt::format("{}: cannot be read: {}", job.file, why));
      continue;
    }
    ++run.files_read;
    const Read_result document = read(request.from, job.file == "-" ? "standard input" : job.file, *bytes);
    bool refused = false;
    for (const Finding& finding : document.findings) {
      refused = refused || finding.severity == Severity::error;
      if (finding.severity >= Severity::warning) run.findings.push_back(finding);
    }
    if (refused) continue;
    const std::string text = text_of(request.to, document);
    if (request.folder.empty()) {
      request.print(text);
      ++run.files_written;
      continue;
    }
    const fs::path target = fs::path(request.folder) / job.target;
    std::error_code error;
    fs::create_directories(target.parent_path(), error);
    if (error)
      run.troubles.push_back(
          fmt::format("{}: cannot be made: {}", target.parent_path().string(), error.message()));
    else if (!write_file(target.string(), text, why))
      run.troubles.push_back(fmt::format("{}: cannot be written: {}", target.string(), why));
    else
      ++run.files_written;
  }
  return run;
}

}
