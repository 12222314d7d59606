// The commands: each file adds one to the program. A command sets the exit status: 0 nothing at or above the
// failing level, 1 findings, 2 the work could not be done.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include <CLI/CLI.hpp>

#include "ohmlore/finding.h"

void add_lint(CLI::App& app, int& status);
void add_merge(CLI::App& app, int& status);
void add_normalise(CLI::App& app, int& status);
void add_rules(CLI::App& app, int& status);
void add_explain(CLI::App& app, int& status);
void add_new(CLI::App& app, int& status);
void add_convert(CLI::App& app, int& status);
void add_schema(CLI::App& app, int& status);
void add_diff(CLI::App& app, int& status);
void add_upgrade(CLI::App& app, int& status);
void add_curve(CLI::App& app, int& status);
void add_judge(CLI::App& app, int& status);
void add_plan(CLI::App& app, int& status);
void add_sheet(CLI::App& app, int& status);
void add_serve(CLI::App& app, int& status);
void add_find(CLI::App& app, int& status);
void add_fit(CLI::App& app, int& status);

/// What is wrong with the words of the command line, and what to do.
std::string usage_problem(const CLI::App& app, const CLI::ParseError& error);

/// Says on stderr why the work could not be done; returns the exit status of that, 2.
int complain(const std::string& trouble);
/// Says on stderr what was found in documents.
void complain(const std::vector<ohmlore::Finding>& findings);

/// Says on stderr what does not stop the work.
void warn(const std::vector<std::string>& warnings);

/// YYYY-MM-DD, where the machine stands.
std::string today();

/// Prints to stdout; main() looks whether all was written.
void print(const std::string& text);

/// Why a command does not take - for its profile.
inline constexpr const char* no_input_for_profile =
    "the profile is read from a file, since its parts lie beside it; name the file";

/// Standard input, hardly more than `most` bytes of it.
std::string all_of_stdin(std::size_t most);
/// The same into a request that has - among its paths.
template <class Request>
void read_stdin_of(Request& request, std::size_t most) {
  if (std::find(request.paths.begin(), request.paths.end(), "-") != request.paths.end())
    request.standard_input = all_of_stdin(most);
}

/// --root, of a command that reads `what`.
void add_root(CLI::App& command, std::optional<std::string>& root, const std::string& what = "the file");
/// --format text or json.
CLI::Option* add_format(CLI::App& command, std::string& format);

/// Accepts only these words.
CLI::Validator one_of(std::vector<std::string> words);
/// Refuses the empty value, as of a script whose variable is not set: no command is to go on without what was
/// given.
CLI::Validator not_empty();
/// Accepts only whole numbers from the first to the last.
CLI::Validator number_within(std::size_t first, std::size_t last);
