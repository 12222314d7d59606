// ohmlore lint: findings, and the gate.
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <thread>

#include <fmt/format.h>

#include "commands.h"
#include "gate.h"
#include "log.h"
#include "ohmlore/file_names.h"
#include "ohmlore/report.h"

namespace {

struct Lint_options {
  ohmlore::Lint_request request;
  Showing showing;
  std::string write_baseline, owner, why, until;
  std::optional<std::string> shard;
  std::string changed_from;
  const CLI::Option* changed_option = nullptr;
  bool fix = false;
  bool dry_run = false;
};

// On a terminal nothing of the documents may steer it; elsewhere the bytes are for patch.
void print_diff(const std::string& diff) {
  if (isatty(STDOUT_FILENO) != 1) return print(diff);
  for (std::size_t at = 0; at < diff.size();) {
    const std::size_t end = diff.find('\n', at);
    print(ohmlore::printable(diff.substr(at, end - at)) + '\n');
    at = end + 1;
  }
}

int show_fixes(const Lint_options& options) {
  const ohmlore::Fix_run run = ohmlore::fix_paths(options.request, false);
  for (const ohmlore::Fixed_file& file : run.files) print_diff(file.diff);
  std::fflush(stdout);
  for (const std::string& trouble : run.troubles) complain(trouble);
  if (run.files_read == 0) complain(nothing_read);
  if (!run.troubles.empty() || run.files_read == 0) return 2;
  return run.files.empty() ? 0 : 1;
}

// The baseline anew, and what is found with it; or nothing where it was not written.
std::optional<ohmlore::Lint_run> write_baseline(Lint_options& options) {
  options.request.baseline = options.write_baseline;
  if (options.why.empty()) options.why = "known since " + options.request.options.today;
  ohmlore::Baseline_run written =
      ohmlore::write_baseline({options.request, options.owner, options.why, options.until});
  for (const std::string& trouble : written.troubles) complain(trouble);
  if (!written.troubles.empty()) return std::nullopt;
  complain(fmt::format("{}: {} finding{} added, {} kept, {} removed", options.write_baseline, written.added,
                       written.added == 1 ? "" : "s", written.kept, written.removed));
  return std::move(written.run);
}

// One a line; or each ended by a zero byte, as `git diff -z` has them: then no name is in quotes.
std::vector<std::string> listed(std::string_view text) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  const char end = text.find('\0') == std::string::npos ? '\n' : '\0';
  std::vector<std::string> paths;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t stop = std::min(text.find(end, at), text.size());
    std::string path(text.substr(at, stop - at));
    if (end == '\n' && path.ends_with('\r')) path.pop_back();
    if (path.find_first_not_of(" \t\r\n") != std::string::npos) paths.push_back(std::move(path));
    at = stop + 1;
  }
  return paths;
}

// A line that holds more than one name, or more than the name, would be taken for a file that is gone, and be
// green without a look. `between` may stand between names.
bool is_several(const std::string& line, const char* between) {
  std::error_code error;
  if (std::filesystem::exists(line, error)) return false;
  for (std::size_t at = 0, end; at < line.size(); at = end + 1) {
    end = std::min(line.find_first_of(between, at), line.size());
    std::string piece = line.substr(at, end - at);
    std::replace(piece.begin(), piece.end(), '\\', '/');   // as other systems part folders
    const bool is_column = at > 0 && line[at - 1] == '\t'; // of `git diff --name-status`
    if (ohmlore::is_document_name(piece, ".json") &&
        (end < line.size() || is_column || std::filesystem::exists(piece, error)))
      return true;
  }
  return false;
}

// The list of changed files, or why there is none.
std::string read_changed(Lint_options& options) {
  std::string why;
  const auto text = options.changed_from == "-"
                        ? all_of_stdin(ohmlore::any_size)
                        : ohmlore::read_file(options.changed_from, why, ohmlore::any_size);
  if (!text)
    return fmt::format("{}: the list of changed files cannot be read: {}", options.changed_from, why);
  options.request.changed = listed(*text);
  // A name may hold all but the zero byte; of one with a line's end in it the first line is no document.
  const bool ended_by_zero = text->find('\0') != std::string::npos;
  const char* const between = ended_by_zero ? "\n" : " \t\r,;:|'\"()[]";
  for (const std::string& path : *options.request.changed) {
    if (!ended_by_zero && path.starts_with('"'))
      return fmt::format("{}: {} is a name as git quotes it; have it written as it is, by `git diff -z`",
                         options.changed_from, path);
    if (is_several(path, between))
      return fmt::format("{}: `{}` is no file, but holds the name of a document; write one name a line, and "
                         "nothing else, as `git diff --name-only` does",
                         options.changed_from, path);
  }
  return {};
}

int lint(Lint_options& options) {
  ohmlore::Lint_request& request = options.request;
  if (request.paths.empty()) request.paths = {"."};
  read_stdin_of(request, ohmlore::most_bytes);
  if (options.changed_option->count() > 0)
    if (const std::string problem = read_changed(options); !problem.empty()) return complain(problem);
  request.progress = progress_bar();

  if (options.dry_run) return show_fixes(options);
  ohmlore::Fix_run fixed;
  if (options.fix) fixed = ohmlore::fix_paths(request, true);

  ohmlore::Shard_run shard;
  if (!options.write_baseline.empty()) {
    auto run = write_baseline(options);
    if (!run) return 2;
    shard.run = std::move(*run);
  } else if (request.shard) {
    shard = ohmlore::lint_shard(request);
  } else {
    shard.run = ohmlore::lint_paths(request);
  }
  ohmlore::Lint_run& run = shard.run;
  std::string before;
  for (const ohmlore::Fixed_file& file : fixed.files)
    before += fmt::format("{}: {} fixed\n", ohmlore::printable(file.name), file.fixes);
  for (std::string& trouble : fixed.troubles)
    if (std::find(run.troubles.begin(), run.troubles.end(), trouble) == run.troubles.end())
      run.troubles.push_back(std::move(trouble));
  if (run.files_read + run.files_unchanged == 0 && !request.shard) run.troubles.emplace_back(nothing_read);
  std::vector<std::string> inputs;
  if (request.baseline) inputs.push_back(*request.baseline);
  if (request.changed) inputs.push_back(options.changed_from);
  if (request.cache) inputs.push_back(*request.cache);
  return show(run, options.showing, std::move(inputs), shard.text, before);
}

// "3/8".
std::optional<ohmlore::Shard> shard_of(const std::string& text) {
  ohmlore::Shard shard;
  const char* const end = text.data() + text.size();
  const auto number = std::from_chars(text.data(), end, shard.number);
  if (number.ec != std::errc() || number.ptr == end || *number.ptr != '/') return std::nullopt;
  const auto of = std::from_chars(number.ptr + 1, end, shard.of);
  constexpr std::size_t most = 10'000;
  if (of.ec != std::errc() || of.ptr != end || shard.number < 1 || shard.number > shard.of || shard.of > most)
    return std::nullopt;
  return shard;
}

// What does not go together.
void check(Lint_options& options, bool baseline) {
  if (options.shard) {
    options.request.shard = shard_of(*options.shard);
    if (!options.request.shard)
      throw CLI::ValidationError(
          fmt::format("--shard: `{}` is no part of a whole; write 3/8 for the third of eight",
                      ohmlore::printable(*options.shard)));
    options.showing.of_shard = true;
  }
  if (!options.write_baseline.empty() && baseline)
    throw CLI::ValidationError("--write-baseline: it reads the baseline itself; leave --baseline out");
  const auto& paths = options.request.paths;
  const auto same = [](const std::optional<std::string>& a, const std::string& b) {
    return a && !b.empty() && ohmlore::real_path(*a) == ohmlore::real_path(b);
  };
  for (const std::string& other :
       {options.changed_from, options.write_baseline, options.request.baseline.value_or("")})
    if (same(options.request.cache, other))
      throw CLI::ValidationError(fmt::format("--cache: {} is taken already", ohmlore::printable(other)));
  for (const auto& [option, file] : {std::pair("--cache", options.request.cache.value_or("")),
                                     std::pair("--write-baseline", options.write_baseline)})
    if (file == "-")
      throw CLI::ValidationError(fmt::format("{}: what stands in it is read again; name a file", option));
  if (options.request.cache && ohmlore::is_place_of_document(*options.request.cache))
    throw CLI::ValidationError(fmt::format(
        "--cache: none is kept in {}: the name is that of a document; name another, such as lint.cache",
        ohmlore::printable(*options.request.cache)));
  if (options.changed_from == "-" && std::find(paths.begin(), paths.end(), "-") != paths.end())
    throw CLI::ValidationError("--changed-from: standard input is the document already; name a file");
  check_showing(options.showing, options.request);
}

void add_baseline_options(CLI::App& command, Lint_options& options) {
  command
      .add_option("--baseline", options.request.baseline,
                  "findings that this file knows do not count; new ones do")
      ->type_name("FILE");
  CLI::Option* write =
      command
          .add_option("--write-baseline", options.write_baseline,
                      "write what is found now into the baseline: entries that still match stay, with a\n"
                      "smaller count where fewer do and the severity of those, stale ones go, new ones\n"
                      "get the owner; then lint with it")
          ->type_name("FILE");
  CLI::Option* owner =
      command.add_option("--owner", options.owner, "with --write-baseline: who is to mend what is new")
          ->type_name("NAME")
          ->needs(write);
  write->needs(owner);
  command.add_option("--why", options.why, "with --write-baseline: why it may stay for now")
      ->type_name("TEXT")
      ->needs(write);
  command.add_option("--until", options.until, "with --write-baseline: the last day on which it may")
      ->type_name("DATE")
      ->needs(write)
      ->check([](const std::string& date) {
        return ohmlore::is_date(date)
                   ? std::string()
                   : fmt::format("`{}` is no date; write YYYY-MM-DD or YYYY-MM", ohmlore::printable(date));
      });
}

void add_fix_options(CLI::App& command, Lint_options& options) {
  CLI::Option* fix = command.add_flag(
      "--fix", options.fix, "make the fixes that are marked [--fix] in the files, then report what is left");
  command
      .add_flag("--dry-run", options.dry_run,
                "with --fix: change nothing, print a unified diff; exit status 1 where\nthere is one")
      ->needs(fix)
      ->excludes(command.get_option("--report"))
      ->excludes(command.get_option("--baseline"))
      ->excludes(command.get_option("--write-baseline"));
}

// Options of a run over a part of the documents.
void add_part_options(CLI::App& command, Lint_options& options) {
  CLI::Option* fix = command.get_option("--fix");
  CLI::Option* write = command.get_option("--write-baseline");
  CLI::Option* shard =
      command
          .add_option("--shard", options.shard,
                      "lint only this part of the documents, as in 3/8 for the third of eight; with\n"
                      "--report shard=FILE for `ohmlore merge`, which gives the verdict on all")
          ->type_name("N/OF")
          ->excludes(fix)
          ->excludes(write)
          ->excludes(command.get_option("--baseline"))
          ->excludes(command.get_option("--no-waivers"))
          ->excludes(command.get_option("--fail-on"))
          ->excludes(command.get_option("--format"));
  options.changed_option =
      command
          .add_option("--changed-from", options.changed_from,
                      "say only what the changed files can have brought that FILE lists, one a line\n"
                      "(or - for standard input); the others are read for what they have to do with them")
          ->type_name("FILE")
          ->excludes(fix)
          ->excludes(write)
          ->excludes(shard);
}

}

void add_lint(CLI::App& app, int& status) {
  auto options = std::make_shared<Lint_options>();
  CLI::App* command =
      app.add_subcommand("lint", "Check profiles, parts and corpora: say what is wrong, where, and why");
  command
      ->add_option("PATH", options->request.paths,
                   "files, folders, or - for standard input; without one, the folder you are in")
      ->type_name("");
  add_showing(*command, options->showing);
  add_root(*command, options->request.root, "each file");
  add_baseline_options(*command, *options);
  command->add_flag("--no-waivers", options->request.options.no_waivers,
                    "for a gate before documents that are not trusted: their waivers silence nothing");
  add_fix_options(*command, *options);
  add_part_options(*command, *options);
  command
      ->add_option("--cache", options->request.cache,
                   "keep what is found in FILE, so that the next run lints only what changed")
      ->type_name("FILE");
  command
      ->add_option("--jobs", options->request.jobs,
                   "how many threads lint; without it, one for each processor. The output is the same")
      ->type_name("NUMBER")
      ->check(number_within(1, 1024));
  options->request.jobs = std::max(1U, std::thread::hardware_concurrency());
  command->footer(
      "In a folder, *.profile.json, *.part.json and corpus.json are read.\n"
      "Exit status: 0 nothing at or above the failing level, 1 findings, 2 the work could not be done.");
  command->callback([options, command, &status] {
    check(*options, command->count("--baseline") > 0);
    status = lint(*options);
  });
}
