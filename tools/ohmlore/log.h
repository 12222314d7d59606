// What is printed where a program may read it.
#pragma once

#include <string>

/// A text for people as a log may hold it: where GitHub Actions takes lines of the log for workflow commands,
/// what would be one is broken, visibly. Documents and file names are not to command.
std::string for_log(const std::string& text);
