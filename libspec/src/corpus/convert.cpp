#include "ohmlore/convert.h"

#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <memory>

#include <fmt/format.h>

#include "corpus/files.h"
#include "corpus/roots.h"
#include "corpus/tables.h"
#include "document/findings.h"
#include "lint/rule.h"
#include "ohmlore/canonical_json.h"
#include "ohmlore/corpus.h"
#include "ohmlore/file_names.h"
#include "ohmlore/text.h"
#include "text/counted.h"

namespace ohmlore {
namespace {

namespace fs = std::filesystem;

std::string_view extension(Document_form form) { return form == Document_form::xml ? ".xml" : ".json"; }

// `-o a.xml` where a folder is asked for: a folder of that name would surprise.
bool is_named_like_a_file(const Convert_request& request) {
  std::error_code error;
  const std::string_view like = request.to == Document_form::csv ? ".csv" : extension(request.to);
  return request.to != Document_form::jsonl && fs::path(request.output).extension() == like &&
         !fs::is_directory(request.output, error);
}

// What would be written over what no output brings back: lines over a document or over what is read, tables
// over those that are read, without the documents that have an error. Empty where all stays.
std::string lost_by(const Convert_request& request) {
  const fs::path output = request.output;
  if (output.empty()) return {};
  const bool lines = request.to == Document_form::jsonl;
  if (lines && (is_place_of_document(output) || is_place_of_document(output, ".xml")))
    return fmt::format(
        "{}: no lines are written there: the name is that of a document; name another, such as all.jsonl",
        request.output);
  std::error_code error;
  const fs::path real = real_path(output);
  const bool is_table =
      request.from == Document_form::csv && real.extension() == ".csv" && fs::exists(real, error);
  const auto is_output = [&](const std::string& path) {
    return fs::equivalent(path, output, error) ||
           (is_table && fs::equivalent(path, real.parent_path(), error));
  };
  if ((lines || (request.from == Document_form::csv && request.to == Document_form::csv)) &&
      std::any_of(request.paths.begin(), request.paths.end(), is_output))
    return fmt::format("{}: not written: what is read stands there; name another {} with -o", request.output,
                       lines ? "file" : "folder");
  return {};
}

// Where documents of the form that is read would be written among them: the next run would take them for more
// of what is to be converted. Hidden folders are not read. Empty where all goes elsewhere, or in their place.
std::string grown_by(const Convert_request& request) {
  if (request.output.empty() || request.from != request.to || request.from == Document_form::csv) return {};
  std::error_code error;
  for (const std::string& path : request.paths) {
    if (path == "-" || !fs::is_directory(path, error)) continue;
    const fs::path below = real_path(request.output).lexically_relative(real_path(path));
    if (std::none_of(below.begin(), below.end(),
                     [](const fs::path& step) { return step.native().starts_with('.'); }))
      return fmt::format(
          "{}: lies in {}, all of which is read, so that the next run would read what this one "
          "writes; name a folder elsewhere with -o, or {} itself to write them in place",
          request.output, path, path);
  }
  return {};
}

// The path below the folder that is converted, named as a document of JSON.
fs::path name_below(const std::string& folder, const std::string& file) {
  fs::path name =
      folder.empty()
          ? fs::path(file).filename()
          : fs::path(file).lexically_normal().lexically_relative(fs::path(folder).lexically_normal());
  return name.replace_extension(".json");
}

// Where nothing else names a document, its id does.
fs::path name_after_id(const Document& document) {
  if (const Profile* profile = document.profile()) return fmt::format("{}.profile.json", *profile->id);
  if (const Part* part = document.part()) return fmt::format("{}.part.json", *part->id);
  return corpus_file;
}

// The file that tables name, where it leads nowhere else and is named as a document of this kind is.
fs::path name_of(const Csv_document& document) {
  const Document& read = document.read.document;
  const std::string_view end = read.profile() ? end_of_profile : read.part() ? end_of_part : corpus_file;
  const fs::path named = fs::path(document.file).lexically_normal();
  const bool is_whole = // a name ends at a NUL, wherever its cell does
      !document.file.empty() && document.file.find('\0') == std::string::npos;
  const bool is_below = is_whole && named.is_relative() &&
                        std::all_of(named.begin(), named.end(),
                                    [](const fs::path& step) { return !step.string().starts_with('.'); });
  const std::string name = named.filename().string();
  return is_below && (read.corpus() ? name == end : name.ends_with(end)) ? named : name_after_id(read);
}

// Names that were met: as little memory as tells them apart, since there may be many.
class Names {
public:
  /// False where the name is there already.
  bool insert(std::string_view name) {
    const auto at = [&](std::uint32_t begin) { return std::string_view(all_.data() + begin); }; // to its NUL
    const auto place =
        std::lower_bound(sorted_.begin(), sorted_.end(), name,
                         [&](std::uint32_t begin, std::string_view n) { return at(begin) < n; });
    if (place != sorted_.end() && at(*place) == name) return false;
    sorted_.insert(place, static_cast<std::uint32_t>(all_.size()));
    all_.append(name).push_back('\0');
    return true;
  }

private:
  std::string all_;
  std::vector<std::uint32_t> sorted_; ///< where each begins
};

// Reads what is to be converted, and hands it on one by one.
class Documents_in {
public:
  Documents_in(const Convert_request& request, Convert_run& run) : request_(request), run_(run) {}

  template <class Take>
  void each(Take take) {
    for (const std::string& path : request_.paths)
      request_.from == Document_form::csv ? tables(path, take) : files(path, take);
  }

private:
  // Remembers the findings; true where there is no error.
  bool is_good(const std::vector<Finding>& findings) {
    bool good = true;
    for (const Finding& finding : findings) {
      good = good && finding.severity != Severity::error;
      if (finding.severity >= Severity::warning) run_.findings.push_back(finding);
    }
    return good;
  }

  template <class Take>
  void files(const std::string& path, Take& take) {
    std::error_code error;
    if (path == "-" || !fs::is_directory(path, error)) {
      file(path, "", take);
      return;
    }
    bool any = false;
    each_document_below(path, run_.troubles, extension(request_.from), [&](const std::string& found) {
      any = true;
      file(found, path, take);
    });
    if (!any)
      run_.troubles.push_back(fmt::format("{0}: holds no *.profile{1}, no *.part{1} and no corpus{1}", path,
                                          extension(request_.from)));
  }

  template <class Take>
  void file(const std::string& file, const std::string& folder, Take& take) {
    std::string why;
    const auto bytes =
        file == "-" ? std::optional(request_.standard_input) : read_file(file, why, most_xml_bytes);
    if (!bytes) {
      run_.troubles.push_back(fmt::format("{}: cannot be read: {}", file, why));
      return;
    }
    ++run_.documents_read;
    std::string name = file == "-" ? std::string(name_of_standard_input) : file;
    const Read_result read = request_.from == Document_form::xml
                                 ? std::move(read_xml(std::move(name), *bytes).read)
                                 : read_json(std::move(name), *bytes);
    if (is_good(read.findings))
      take(read, file, file == "-" ? name_after_id(read.document) : name_below(folder, file));
  }

  template <class Take>
  void tables(const std::string& path, Take& take) {
    std::error_code error;
    if (!fs::is_directory(path, error)) {
      run_.troubles.push_back(error ? fmt::format("{}: cannot be read: {}", path, error.message())
                                    : fmt::format("{}: is no folder of tables", path));
      return;
    }
    const auto is_there = [&](std::string_view table) {
      return fs::exists(fs::path(path) / fmt::format("{}.csv", table), error);
    };
    if (!is_there("profiles") && !is_there("parts") && !is_there("corpora")) {
      run_.troubles.push_back(fmt::format(
          "{}: is no folder of tables: it holds no profiles.csv, parts.csv or corpora.csv", path));
      return;
    }
    look_for_strangers(path);
    look_for_lost(path);
    const std::size_t known = run_.troubles.size();
    Csv_import import((fs::path(path) / "").string(),
                      [&](std::size_t table) { return open_table(path, table, run_.troubles); });
    // Of tables that are not read to their end no document is made: it could lack rows.
    if (run_.troubles.size() > known || !is_good(import.findings())) return;
    while (const std::optional<Csv_document> document = import.next()) {
      ++run_.documents_read;
      if (is_good(document->read.findings)) take(document->read, path, name_of(*document));
    }
  }

  // A table that has another name is not read, and what it holds would be missed by nobody.
  void look_for_strangers(const std::string& folder) {
    const std::vector<std::string> tables = csv_table_names();
    const std::vector<std::string_view> known(tables.begin(), tables.end());
    std::vector<fs::path> found;
    std::error_code error;
    for (fs::directory_iterator at(folder, error), end; !error && at != end; at.increment(error))
      if (const fs::path& file = at->path();
          file.extension() == ".csv" &&
          std::find(tables.begin(), tables.end(), file.stem().string()) == tables.end())
        found.push_back(file);
    std::sort(found.begin(), found.end());
    for (const fs::path& file : found) {
      const std::string_view near = nearest_word(file.stem().string(), known);
      warn(file, fmt::format("the format has no table of this name, so that it is not read{}",
                             near.empty() ? "; where a newer version has one, what it holds is lost"
                                          : fmt::format("; did you mean {}.csv?", near)));
    }
  }

  // Tables may be left out; but what was exported whole is not read in part without a word.
  void look_for_lost(const std::string& folder) {
    const fs::path metadata = fs::path(folder) / metadata_file;
    std::string why;
    const std::string names = read_file(metadata.string(), why).value_or("");
    std::vector<std::string> lost;
    std::error_code error;
    for (const std::string& table : csv_table_names())
      if (const std::string file = table + ".csv";
          names.find('"' + file + '"') != std::string::npos && !fs::exists(fs::path(folder) / file, error))
        lost.push_back(file);
    if (!lost.empty())
      warn(metadata, fmt::format("it names {}, which {} not here: what {} held is missing; where that is "
                                 "meant, leave this file out too",
                                 rules::listed(lost), lost.size() == 1 ? "is" : "are",
                                 lost.size() == 1 ? "it" : "they"));
  }

  void warn(const fs::path& file, std::string message) {
    Finding& finding = run_.findings.emplace_back();
    finding.rule = "table-malformed";
    finding.severity = Severity::warning;
    finding.file = file.string();
    finding.message = std::move(message);
  }

  const Convert_request& request_;
  Convert_run& run_;
};

// Writes what was read, as the request says.
class Documents_out {
public:
  Documents_out(const Convert_request& request, Convert_run& run)
      : request_(request), run_(run), roots_(request.root, run.troubles) {
    if (request.to == Document_form::csv)
      tables_ = std::make_unique<Table_files>(request.output, request.csv, run.troubles);
    else if (request.to == Document_form::jsonl && !request.output.empty())
      lines_ = std::make_unique<Growing_file>(request.output, run.troubles);
  }

  void take(const Read_result& read, const std::string& file, const fs::path& name) {
    switch (request_.to) {
    case Document_form::csv: row(read, file, name); return;
    case Document_form::jsonl: line(read, file); return;
    case Document_form::xml: document(xml_of(read), file, fs::path(name).replace_extension(".xml")); return;
    case Document_form::json: document(canonical_json(read.document), file, name); return;
    }
  }

  void finish() {
    // Where nothing came, what stood there before stays.
    if (tables_ && run_.documents_written > 0) tables_->finish();
    finish_lines();
    if (request_.to == Document_form::jsonl && run_.documents_written == 0 && run_.troubles.empty() &&
        run_.findings.empty())
      run_.troubles.push_back("there is no profile in what was named, and a line is a profile");
    if (waiting_ && run_.documents_read > 1) {
      run_.troubles.push_back("several documents need a folder to be written to; name it with -o");
    } else if (waiting_) {
      request_.print(*waiting_);
      ++run_.documents_written;
    }
  }

private:
  void row(const Read_result& read, const std::string& file, const fs::path& name) {
    const Document& document = read.document;
    const std::string id = document.profile() ? fmt::format("profile {}", *document.profile()->id)
                           : document.part()  ? fmt::format("part {}", *document.part()->id)
                                              : fmt::format("corpus {}", name.generic_string());
    if (find_invalid_utf8(name.string()) != std::string::npos)
      run_.troubles.push_back(fmt::format(
          "{}: left out: its name, which tables hold, is not UTF-8; rename the file or folder", file));
    else if (!taken_.insert(id))
      run_.troubles.push_back(
          fmt::format("{}: left out: {} is there already, and rows are told apart by it", file, id));
    else if (tables_->add(read, name.generic_string()))
      ++run_.documents_written;
    else
      run_.troubles.push_back(fmt::format(
          "{}: left out: one of its rows would have more than {} bytes ({} MiB), and could not be read again",
          file, most_bytes, most_bytes >> 20));
  }

  void line(const Read_result& read, const std::string& file) {
    if (read.document.profile() == nullptr) return; // parts lie in the lines of profiles
    const Root* root = request_.from == Document_form::json ? roots_.of(file) : nullptr;
    const Surroundings surroundings = root ? root->surroundings() : Surroundings{};
    look_for_parts(read.document, surroundings.parts);
    const std::string text = jsonl_of(read, surroundings);
    lines_ ? lines_->write(text) : request_.print(text);
    ++run_.documents_written;
  }

  // What a part holds that is not found is not in the line. Many lines may lack theirs: that is said once.
  void look_for_parts(const Document& profile, const Parts* parts) {
    for (const auto& component : profile.profile()->components) {
      const Value<Text>& part = component.value.part;
      if (part.node == 0 || (parts != nullptr && parts->find(*part) != nullptr) || lacking_++ > 0) continue;
      const bool json =
          request_.from == Document_form::json; // else the place in the text is none in the file
      const Node node = json ? profile.node(part.node) : Node{};
      first_lacking_ =
          unplaced_finding(profile, "part-unknown", Severity::warning, part.node, node.begin, node.end,
                           fmt::format("part {} is not found, so that the line lacks what it holds of {}",
                                       *part, component.id));
      if (json) place(profile.text(), {&first_lacking_, 1});
    }
  }

  void finish_lines() {
    if (lines_ && run_.documents_written > 0) lines_->finish();
    if (lacking_ == 0) return;
    if (lacking_ > 1)
      first_lacking_.message += fmt::format(", and so it is of {} more", counted(lacking_ - 1, "component"));
    first_lacking_.message += request_.from == Document_form::json
                                  ? "; `ohmlore lint` says why, and --root names the folder of a corpus.json"
                                  : "; parts are laid beneath components where JSON is read: convert to that "
                                    "first, and put it below its corpus.json";
    run_.findings.push_back(std::move(first_lacking_));
  }

  void document(std::string text, const std::string& file, const fs::path& name) {
    const std::size_t most = request_.to == Document_form::xml ? most_xml_bytes : most_bytes;
    if (text.empty() || text.size() > most) { // of XML that is too large there is no text
      run_.troubles.push_back(
          fmt::format("{}: left out: it would have more than {} bytes ({} MiB), and could not be read again",
                      file, most, most >> 20));
      return;
    }
    if (request_.output.empty()) {
      waiting_ = std::move(text);
      return;
    }
    if (hopeless_) return;
    // Within one folder no two have one name.
    if ((request_.paths.size() > 1 || request_.from == Document_form::csv) &&
        !taken_.insert(name.generic_string())) {
      run_.troubles.push_back(fmt::format("{}: left out: {} is written already; convert them one by one",
                                          file, name.generic_string()));
      return;
    }
    const fs::path target = fs::path(request_.output) / name, folder = target.parent_path();
    std::error_code error;
    fs::create_directories(folder, error);
    std::string why;
    if (!error && write_file(target.string(), text, why)) {
      ++run_.documents_written;
      return;
    }
    run_.troubles.push_back(error ? fmt::format("{}: cannot be made: {}", folder.string(), error.message())
                                  : fmt::format("{}: cannot be written: {}", target.string(), why));
    // What holds for the first document would hold for all.
    hopeless_ = run_.documents_written == 0 && (error || access(folder.c_str(), W_OK) != 0);
  }

  const Convert_request& request_;
  Convert_run& run_;
  Roots roots_;
  std::unique_ptr<Table_files> tables_;
  std::unique_ptr<Growing_file> lines_;
  Names taken_;
  std::size_t lacking_ = 0; ///< components whose part is not found
  Finding first_lacking_;
  bool hopeless_ = false; ///< there is no place to write to, and that was said
  std::optional<std::string> waiting_;
};

}

Convert_run convert(const Convert_request& request) {
  Convert_run run;
  if (request.paths.empty()) {
    run.troubles.emplace_back(no_path_named);
    return run;
  }
  if (request.to == Document_form::csv && request.output.empty()) {
    run.troubles.push_back("tables need a folder to be written to; name it with -o");
    return run;
  }
  if (request.output.empty() && !request.print) {
    run.troubles.push_back("the request has neither `output` nor `print`");
    return run;
  }
  if (is_named_like_a_file(request)) {
    run.troubles.push_back(fmt::format(
        "{}: is named like a file, and {}", request.output,
        request.to == Document_form::csv
            ? "tables go into a folder; name a folder"
            : fmt::format(
                  "documents go into a folder; name a folder, or print one document and redirect it: > {}",
                  request.output)));
    return run;
  }
  for (std::string (*const why_not)(const Convert_request&) : {lost_by, grown_by})
    if (std::string trouble = why_not(request); !trouble.empty()) {
      run.troubles.push_back(std::move(trouble));
      return run;
    }
  Documents_out out(request, run);
  if (!run.troubles.empty()) return run; // there is no place to write to
  Documents_in(request, run)
      .each([&](const Read_result& read, const std::string& file, const fs::path& name) {
        out.take(read, file, name);
      });
  out.finish();
  return run;
}

}
