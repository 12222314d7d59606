#include "gate.h"

#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <map>

#include <fmt/format.h>

#include "commands.h"
#include "log.h"
#include "ohmlore/file_names.h"
#include "ohmlore/report.h"

namespace {

// A terminal that knows the codes of ECMA-48: "dumb" is terminfo's name for one that knows none.
bool knows_codes(int stream) {
  const char* kind = std::getenv("TERM");
  return isatty(stream) == 1 && (kind == nullptr || std::string_view(kind) != "dumb");
}

bool wants_colour() {
  const char* off = std::getenv("NO_COLOR");
  return (off == nullptr || *off == '\0') && knows_codes(STDOUT_FILENO);
}

constexpr const char* kind_for_merge = "shard"; // see ohmlore::Shard_run

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

// A plain file that the shell wrote stdout into.
bool is_stdout(const std::string& file) {
  struct stat out = {};
  struct stat named = {};
  return fstat(STDOUT_FILENO, &out) == 0 && S_ISREG(out.st_mode) && stat(file.c_str(), &named) == 0 &&
         out.st_dev == named.st_dev && out.st_ino == named.st_ino;
}

// What is wrong with the words of --report, which the whole run would be done in vain for; or nothing.
std::string report_problem(Showing& showing) {
  std::vector<std::string> kinds;
  for (const auto& [kind, writer] : writers()) kinds.push_back(kind);
  if (showing.of_shard) kinds = {kind_for_merge};
  std::map<std::string, std::string> by_file;
  for (const std::string& given : showing.reports_given) {
    const std::size_t sign = std::min(given.find('='), given.size());
    Showing::Report report{given.substr(0, sign), given.substr(std::min(sign + 1, given.size()))};
    if (report.file.empty())
      return fmt::format("--report: `{}` names no file; write KIND=FILE, as in sarif=findings.sarif",
                         ohmlore::printable(given));
    if (report.kind == kind_for_merge && !showing.of_shard)
      return "--report: a report for the merge is one of a shard; say which with --shard";
    if (const std::string unknown = one_of(kinds)(report.kind); !unknown.empty())
      return showing.of_shard
                 ? "--report: a shard reports to the merge alone, as shard=FILE; the merge writes "
                   "all other reports"
                 : "--report: " + unknown;
    if (const auto [other, fresh] = by_file.emplace(
            report.file == "-" ? report.file : ohmlore::real_path(report.file).string(), report.kind);
        !fresh)
      return fmt::format("--report: {} and {} cannot both go to {}", other->second, report.kind,
                         ohmlore::printable(report.file));
    if (is_stdout(report.file))
      return fmt::format("--report: stdout goes to {} already, and one would replace the other; write {}=-",
                         ohmlore::printable(report.file), report.kind);
    if (ohmlore::is_place_of_document(report.file))
      return fmt::format(
          "--report: the report {} is not written to {}: the name is that of a document; name another",
          report.kind, ohmlore::printable(report.file));
    if (report.file == "-" && showing.format_option->count() > 0)
      return "--report: with --format, stdout is taken; leave --format out, or name a file";
    showing.reports.push_back(std::move(report));
  }
  if (showing.of_shard && showing.reports.empty())
    return "--shard: what it finds is for the merge; name a file for it, as in --report shard=FILE";
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
bool is_read(const std::string& file, const ohmlore::Lint_run& run, const std::vector<std::string>& inputs) {
  std::error_code error;
  if (!std::filesystem::exists(file, error)) return false; // nothing could have been read there
  const std::string real = ohmlore::real_path(file);
  const auto same = [&](const std::string& other) { return ohmlore::real_path(other) == real; };
  const auto among = [&](const std::vector<std::string>& others) {
    return std::any_of(others.begin(), others.end(), same);
  };
  return among(run.files) || among(run.house_schemas) || among(inputs);
}

// Every report that can be written; why another could not is a trouble.
void write_reports(const Showing& showing, const ohmlore::Lint_run& run,
                   const std::vector<std::string>& inputs, const std::string& shard,
                   std::vector<std::string>& troubles) {
  std::error_code error;
  const ohmlore::Report_context context{std::filesystem::current_path(error).string(), showing.started};
  for (const Showing::Report& report : showing.reports) {
    const std::string text = report.kind == kind_for_merge ? shard : writers().at(report.kind)(run, context);
    std::string why;
    if (report.file == "-")
      print(text);
    else if (is_read(report.file, run, inputs))
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

// It says nothing of what only all documents show; what it found is not lost, so it is the merge that fails.
int end_of_shard(const ohmlore::Lint_run& run) {
  complain(fmt::format("{} document{} of this shard linted; `ohmlore merge` gives the verdict",
                       run.files_read, run.files_read == 1 ? "" : "s"));
  return 0;
}

}

void add_showing(CLI::App& command, Showing& showing) {
  showing.format_option = add_format(command, showing.format);
  showing.report_option =
      command
          .add_option("--report", showing.reports_given,
                      "write a report beside the text, as often as you like: json, sarif, junit,\n"
                      "github (annotations) or markdown; - as FILE is stdout, in the place of the text")
          ->type_name("KIND=FILE")
          ->allow_extra_args(false)
          ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
  command
      .add_option("--fail-on", showing.fail_on,
                  "error, warning or note: the least that gives exit status 1;\n"
                  "without it, what corpus.json says, else error")
      ->type_name("SEVERITY")
      ->check(one_of({"error", "warning", "note"}));
}

void check_showing(Showing& showing, ohmlore::Lint_request& request) {
  using ohmlore::Severity;
  const auto started = now();
  if (!started && !showing.reports_given.empty())
    throw CLI::ValidationError("SOURCE_DATE_EPOCH: it is no number of seconds from 1970 up to the year 9999");
  showing.started = started.value_or("");
  if (const std::string problem = report_problem(showing); !problem.empty())
    throw CLI::ValidationError(problem);
  static const std::map<std::string, Severity> levels = {
      {"error", Severity::error}, {"warning", Severity::warning}, {"note", Severity::note}};
  if (!showing.fail_on.empty()) request.fail_on = levels.at(showing.fail_on);
  request.options.today = today();
}

int show(ohmlore::Lint_run& run, const Showing& showing, std::vector<std::string> inputs,
         const std::string& shard, const std::string& before) {
  std::vector<std::string> unwritten;
  write_reports(showing, run, inputs, shard, unwritten);
  const bool text = std::none_of(showing.reports.begin(), showing.reports.end(),
                                 [](const Showing::Report& report) { return report.file == "-"; });
  if (showing.format == "json") {
    print(ohmlore::json_report(run));
  } else if (text && run.files_read + run.files_unchanged > 0) {
    const bool colour = wants_colour();
    print(for_log(before));
    for (const ohmlore::Finding& finding : run.findings)
      print(for_log(ohmlore::text_report(finding, colour)));
    if (!showing.of_shard) print(ohmlore::summary_line(run));
  }
  std::fflush(stdout);
  for (const std::string& trouble : run.troubles) complain(trouble);
  for (const std::string& trouble : unwritten) complain(trouble);
  if (!run.troubles.empty() || !unwritten.empty()) return 2;
  if (showing.of_shard) return end_of_shard(run);
  return run.failing > 0 ? 1 : 0;
}

std::function<void(std::size_t, std::size_t)> progress_bar() {
  if (!knows_codes(STDERR_FILENO)) return {};
  using Clock = std::chrono::steady_clock;
  const auto started = Clock::now();
  return [started, last = started](std::size_t done, std::size_t all) mutable {
    const auto now = Clock::now();
    constexpr auto at_first = std::chrono::milliseconds(500), between = std::chrono::milliseconds(100);
    const bool drawn = last > started;
    if (done < all && now - started > at_first && now - last > between) {
      last = now;
      constexpr std::size_t width = 40;
      const std::size_t full = done * width / all;
      std::fprintf(stderr, "\r[%s%s] %zu of %zu documents", std::string(full, '#').c_str(),
                   std::string(width - full, ' ').c_str(), done, all);
    } else if (done == all && drawn) {
      std::fputs("\r\x1B[K", stderr); // to the end of the line; what comes next begins on a clean one
    }
    std::fflush(stderr);
  };
}
