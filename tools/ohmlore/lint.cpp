// ohmlore lint: findings, and the gate.
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>

#include <fmt/format.h>

#include "commands.h"
#include "log.h"
#include "ohmlore/corpus.h"
#include "ohmlore/file_names.h"
#include "ohmlore/report.h"

namespace {

bool wants_colour() {
  const char* off = std::getenv("NO_COLOR");
  return (off == nullptr || *off == '\0') && isatty(STDOUT_FILENO) == 1;
}

// main() looks whether all was written.
void print(const std::string& text) { std::fwrite(text.data(), 1, text.size(), stdout); }

// A report that goes into a file, or with "-" to stdout in the place of the text.
struct Report {
  std::string kind, file;
};

using Writer = std::string (*)(const ohmlore::Lint_run&, const ohmlore::Report_context&);
const std::map<std::string, Writer>& writers() {
  static const std::map<std::string, Writer> all = {
      {"github", ohmlore::github_report},
      {"json", [](const ohmlore::Lint_run& run, const auto&) { return ohmlore::json_report(run); }},
      {"junit", ohmlore::junit_report},
      {"markdown", ohmlore::markdown_report},
      {"sarif", ohmlore::sarif_report}};
  return all;
}

struct Options {
  ohmlore::Lint_request request;
  std::string format = "text";
  std::string started; // of the run, for the reports
  std::vector<std::string> reports_given;
  std::vector<Report> reports;
  std::string write_baseline, owner, why, until;
  std::string fail_on;
  bool fix = false;
  bool dry_run = false;
};

constexpr const char* nothing_read = "no document was read, so nothing was checked";

// On a terminal nothing of the documents may steer it; elsewhere the bytes are for patch.
void print_diff(const std::string& diff) {
  if (isatty(STDOUT_FILENO) != 1) return print(diff);
  for (std::size_t at = 0; at < diff.size();) {
    const std::size_t end = diff.find('\n', at);
    print(ohmlore::printable(diff.substr(at, end - at)) + '\n');
    at = end + 1;
  }
}

int show_fixes(const Options& options) {
  const ohmlore::Fix_run run = ohmlore::fix_paths(options.request, false);
  for (const ohmlore::Fixed_file& file : run.files) print_diff(file.diff);
  std::fflush(stdout);
  for (const std::string& trouble : run.troubles) complain(trouble);
  if (run.files_read == 0) complain(nothing_read);
  if (!run.troubles.empty() || run.files_read == 0) return 2;
  return run.files.empty() ? 0 : 1;
}

// However it is spelt.
std::string real_path(const std::string& file) {
  std::error_code error;
  // What is not there yet stays relative, unless it was made absolute.
  const std::filesystem::path real =
      std::filesystem::weakly_canonical(std::filesystem::absolute(file, error), error);
  return error ? file : real.string();
}

// What is wrong with the words of --report, which the whole run would be done in vain for; or nothing.
std::string report_problem(Options& options, bool format_given) {
  std::vector<std::string> kinds;
  for (const auto& [kind, writer] : writers()) kinds.push_back(kind);
  std::map<std::string, std::string> by_file;
  for (const std::string& given : options.reports_given) {
    const std::size_t sign = std::min(given.find('='), given.size());
    Report report{given.substr(0, sign), given.substr(std::min(sign + 1, given.size()))};
    if (report.file.empty())
      return fmt::format("--report: `{}` names no file; write KIND=FILE, as in sarif=findings.sarif",
                         ohmlore::printable(given));
    if (const std::string unknown = one_of(kinds)(report.kind); !unknown.empty())
      return "--report: " + unknown;
    if (const auto [other, fresh] =
            by_file.emplace(report.file == "-" ? report.file : real_path(report.file), report.kind);
        !fresh)
      return fmt::format("--report: {} and {} cannot both go to {}", other->second, report.kind,
                         ohmlore::printable(report.file));
    if (ohmlore::is_place_of_document(report.file))
      return fmt::format("--report: the report {} is not written to {}: the name is that of a document",
                         report.kind, ohmlore::printable(report.file));
    if (report.file == "-" && format_given)
      return "--report: with --format, stdout is taken; leave --format out, or name a file";
    options.reports.push_back(std::move(report));
  }
  return {};
}

// The time that reports say; or nothing where the environment gives one that is none.
std::optional<std::string> now() {
  std::time_t time = std::time(nullptr);
  if (const char* set = std::getenv("SOURCE_DATE_EPOCH")) { // reproducible-builds.org: the time to write
    constexpr std::time_t end_of_9999 = 253402300799;
    const char* end = set + std::string_view(set).size();
    const auto [stopped, error] = std::from_chars(set, end, time);
    if (error != std::errc() || stopped != end || time < 0 || time > end_of_9999 || *set == '-')
      return std::nullopt;
  }
  std::tm utc{};
  gmtime_r(&time, &utc);
  char text[20];
  return std::string(text, std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%S", &utc));
}

// What is linted is never written over.
bool is_read(const std::string& file, const ohmlore::Lint_run& run, const Options& options) {
  std::error_code error;
  if (!std::filesystem::exists(file, error)) return false; // nothing could have been read there
  const std::string real = real_path(file);
  const auto same = [&](const std::string& other) { return real_path(other) == real; };
  return std::any_of(run.files.begin(), run.files.end(), same) ||
         (options.request.baseline && same(*options.request.baseline));
}

// Every report that can be written; why another could not is a trouble.
void write_reports(const Options& options, const ohmlore::Lint_run& run, std::vector<std::string>& troubles) {
  std::error_code error;
  const ohmlore::Report_context context{std::filesystem::current_path(error).string(), options.started};
  for (const Report& report : options.reports) {
    const std::string text = writers().at(report.kind)(run, context);
    std::string why;
    if (report.file == "-")
      print(text);
    else if (is_read(report.file, run, options))
      troubles.push_back(
          fmt::format("{}: the report {} is not written over what was read", report.file, report.kind));
    else if (!ohmlore::write_file(report.file, text, why))
      troubles.push_back(
          fmt::format("{}: the report {} cannot be written: {}", report.file, report.kind, why));
    if (const std::size_t runs = ohmlore::sarif_runs(run); report.kind == "sarif" && runs > 1)
      complain(fmt::format("{}: {} results, more than the {} of one run: split into {} runs", report.file,
                           run.findings.size() + run.suppressed.size(), ohmlore::most_sarif_results, runs));
  }
}

// The baseline anew; the run after it is as with --baseline. False: it was not written.
bool write_baseline(Options& options) {
  options.request.baseline = options.write_baseline;
  if (options.why.empty()) options.why = "known since " + options.request.options.today;
  const ohmlore::Baseline_run written =
      ohmlore::write_baseline({options.request, options.owner, options.why, options.until});
  for (const std::string& trouble : written.troubles) complain(trouble);
  if (!written.troubles.empty()) return false;
  complain(fmt::format("{}: {} findings added, {} kept, {} removed", options.write_baseline, written.added,
                       written.kept, written.removed));
  return true;
}

int lint(Options& options) {
  using ohmlore::Severity;
  if (options.request.paths.empty()) options.request.paths = {"."};
  for (const std::string& path : options.request.paths)
    if (path == "-" && options.request.standard_input.empty())
      options.request.standard_input = all_of_stdin(ohmlore::most_bytes);
  static const std::map<std::string, Severity> levels = {
      {"error", Severity::error}, {"warning", Severity::warning}, {"note", Severity::note}};
  if (!options.fail_on.empty()) options.request.fail_on = levels.at(options.fail_on);
  options.request.options.today = today();

  if (options.dry_run) return show_fixes(options);
  ohmlore::Fix_run fixed;
  if (options.fix) fixed = ohmlore::fix_paths(options.request, true);
  if (!options.write_baseline.empty() && !write_baseline(options)) return 2;

  ohmlore::Lint_run run = ohmlore::lint_paths(options.request);
  for (std::string& trouble : fixed.troubles)
    if (std::find(run.troubles.begin(), run.troubles.end(), trouble) == run.troubles.end())
      run.troubles.push_back(std::move(trouble));
  if (run.files_read == 0) run.troubles.emplace_back(nothing_read);
  std::vector<std::string> unwritten;
  write_reports(options, run, unwritten);
  const bool text = std::none_of(options.reports.begin(), options.reports.end(),
                                 [](const Report& report) { return report.file == "-"; });
  if (options.format == "json") {
    print(ohmlore::json_report(run));
  } else if (text && run.files_read > 0) {
    const bool colour = wants_colour();
    for (const ohmlore::Fixed_file& file : fixed.files)
      print(for_log(fmt::format("{}: {} fixed\n", ohmlore::printable(file.name), file.fixes)));
    for (const ohmlore::Finding& finding : run.findings)
      print(for_log(ohmlore::text_report(finding, colour)));
    print(ohmlore::summary_line(run));
  }
  std::fflush(stdout);
  for (const std::string& trouble : run.troubles) complain(trouble);
  for (const std::string& trouble : unwritten) complain(trouble);
  if (!run.troubles.empty() || !unwritten.empty()) return 2;
  return run.failing > 0 ? 1 : 0;
}

}

void add_lint(CLI::App& app, int& status) {
  auto options = std::make_shared<Options>();
  CLI::App* command =
      app.add_subcommand("lint", "Check profiles, parts and corpora: say what is wrong, where, and why");
  command
      ->add_option("PATH", options->request.paths,
                   "files, folders, or - for standard input; without one, the folder you are in")
      ->type_name("");
  CLI::Option* format =
      command->add_option("--format", options->format, "text for people (the default), json for programs")
          ->type_name("FORMAT")
          ->check(one_of({"text", "json"}));
  CLI::Option* report =
      command
          ->add_option("--report", options->reports_given,
                       "write a report beside the text, as often as you like: json, sarif, junit,\n"
                       "github (annotations) or markdown; - as FILE is stdout, in the place of the text")
          ->type_name("KIND=FILE")
          ->allow_extra_args(false)
          ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
  command
      ->add_option("--fail-on", options->fail_on,
                   "error, warning or note: the least that gives exit status 1;\n"
                   "without it, what corpus.json says, else error")
      ->type_name("SEVERITY")
      ->check(one_of({"error", "warning", "note"}));
  command
      ->add_option("--root", options->request.root,
                   "the folder that holds corpus.json; without it, the nearest at or\nabove each file")
      ->type_name("FOLDER");
  CLI::Option* baseline = command
                              ->add_option("--baseline", options->request.baseline,
                                           "findings that this file knows do not count; new ones do")
                              ->type_name("FILE");
  CLI::Option* write =
      command
          ->add_option("--write-baseline", options->write_baseline,
                       "write what is found now into the baseline: entries that still match stay, with a\n"
                       "smaller count where fewer do, stale ones go, new ones get the owner; then lint\n"
                       "with it")
          ->type_name("FILE");
  CLI::Option* owner =
      command->add_option("--owner", options->owner, "with --write-baseline: who is to mend what is new")
          ->type_name("NAME")
          ->needs(write);
  write->needs(owner);
  command->add_option("--why", options->why, "with --write-baseline: why it may stay for now")
      ->type_name("TEXT")
      ->needs(write);
  command->add_option("--until", options->until, "with --write-baseline: the last day on which it may")
      ->type_name("DATE")
      ->needs(write)
      ->check([](const std::string& date) {
        return ohmlore::is_date(date)
                   ? std::string()
                   : fmt::format("`{}` is no date; write YYYY-MM-DD or YYYY-MM", ohmlore::printable(date));
      });
  command->add_flag("--no-waivers", options->request.options.no_waivers,
                    "for a gate before documents that are not trusted: their waivers silence nothing");
  CLI::Option* fix = command->add_flag(
      "--fix", options->fix, "make the fixes that are marked [--fix] in the files, then report what is left");
  command
      ->add_flag("--dry-run", options->dry_run,
                 "with --fix: change nothing, print a unified diff; exit status 1 where\nthere is one")
      ->needs(fix)
      ->excludes(report)
      ->excludes(baseline)
      ->excludes(write);
  command->footer(
      "In a folder, *.profile.json, *.part.json and corpus.json are read.\n"
      "Exit status: 0 nothing at or above the failing level, 1 findings, 2 the work could not be done.");
  command->callback([options, format, baseline, write, &status] {
    if (*write && *baseline)
      throw CLI::ValidationError("--write-baseline: it reads the baseline itself; leave --baseline out");
    if (*write && options->write_baseline.empty())
      throw CLI::ValidationError("--write-baseline: the name of its file is empty");
    const auto started = now();
    if (!started && !options->reports_given.empty())
      throw CLI::ValidationError(
          "SOURCE_DATE_EPOCH: it is no number of seconds from 1970 up to the year 9999");
    options->started = started.value_or("");
    if (const std::string problem = report_problem(*options, format->count() > 0); !problem.empty())
      throw CLI::ValidationError(problem);
    status = lint(*options);
  });
}
