// What the files of this folder share.
#pragma once

#include <string>
#include <vector>

#include "ohmlore/description.h"

namespace ohmlore {

/// The report of findings, described like the records of the format, so that the same loops publish it.
extern const Record report_record;
/// The report of differences, likewise.
extern const Record diff_record;
/// The report of verdicts, likewise.
extern const Record judgement_record;
/// The report of a plan, likewise.
extern const Record plan_record;
/// The record of a job, which is read back too (see publish/job_records.h).
extern const Record job_record;
/// A baseline, which is read back too (see publish/baseline_records.h).
extern const Record baseline_record;
/// The report of a search, likewise.
extern const Record find_record;
/// The report of a fit, likewise.
extern const Record fit_record;

/// The type of the items of lists and maps, or the type itself.
const Type& innermost(const Type& type);

/// format.md with its marked blocks written anew:
///   <!-- fields: RECORD --> … <!-- end -->   and   <!-- words: ENUMERATION --> … <!-- end -->
std::string fill_format_page(std::string_view page, std::vector<std::string>& problems);

}
