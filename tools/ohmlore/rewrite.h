// What the commands that rewrite documents share.
#pragma once

#include "commands.h"
#include "ohmlore/corpus.h"

struct Rewrite_options {
  ohmlore::Rewrite_request request;
  bool check = false, write = false;
};

/// PATH, --check and --write.
void add_rewrite_options(CLI::App& command, Rewrite_options& options);

/// The request as the words of the command line put it; standard input is read where it is named.
const ohmlore::Rewrite_request& rewrite_request(Rewrite_options& options);

/// Prints the outcome, and returns the exit status.
int print_rewrite(const ohmlore::Rewrite_request& request, const ohmlore::Rewrite_run& run);
