// Readings as a person writes them down, one a line.
#pragma once

#include "ohmlore/job.h"

namespace ohmlore {

/// See Job_read. What is no reading is a problem with its line.
std::vector<Job_reading> read_list(std::string_view name, std::string_view text,
                                   std::vector<std::string>& problems);

}
