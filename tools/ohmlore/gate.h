// What the commands share that end a run of the linter: its reports, its text, its exit status.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <CLI/CLI.hpp>

#include "ohmlore/corpus.h"

/// How a run is shown, by the words of the command line.
struct Showing {
  struct Report {
    std::string kind, file; ///< with "-" it goes to stdout in the place of the text
  };
  std::string format = "text";
  std::vector<std::string> reports_given;
  std::vector<Report> reports;
  std::string fail_on;
  std::string started;   ///< of the run, for the reports
  bool of_shard = false; ///< there is a report for the merge, and no word on the whole
  const CLI::Option *format_option = nullptr, *report_option = nullptr;
};

/// --format, --report and --fail-on.
void add_showing(CLI::App& command, Showing& showing);

/// Looks at what was given; throws CLI::ValidationError where the whole run would be done in vain for it.
void check_showing(Showing& showing, ohmlore::Lint_request& request);

/// What a program may read or a person see of a run: `inputs` are not written over, `shard` is the report for
/// the merge, `before` stands before the findings. Returns the exit status.
int show(ohmlore::Lint_run& run, const Showing& showing, std::vector<std::string> inputs,
         const std::string& shard = {}, const std::string& before = {});

inline constexpr const char* nothing_read = "no document was read, so nothing was checked";

/// Told how far a run is, it draws that on stderr, where this is a terminal and the run takes its time.
std::function<void(std::size_t, std::size_t)> progress_bar();
