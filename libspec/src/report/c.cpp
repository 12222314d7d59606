#include "ohmlore/c.h"

#include <cstdlib>
#include <cstring>

#include "ohmlore/lint.h"
#include "ohmlore/report.h"
#include "ohmlore/version.h"

extern "C" const char* ohmlore_version(void) { return ohmlore::program_version.data(); }

extern "C" char* ohmlore_lint(const char* name, const char* bytes, size_t size) {
  try {
    const ohmlore::Read_result read = ohmlore::read_json(
        name != nullptr ? name : "", bytes != nullptr ? std::string_view(bytes, size) : "");
    std::vector<ohmlore::Linted> linted;
    linted.push_back(ohmlore::lint_document(read, {}));
    ohmlore::Lint_run run;
    run.files_read = 1;
    run.troubles = linted.front().troubles;
    auto judged = ohmlore::judge_facts(std::move(linted.front().facts));
    run.findings = ohmlore::settle(std::move(linted), std::move(judged), nullptr, {}, &run.suppressed);
    for (ohmlore::Finding& finding : run.findings)
      finding.fails = finding.severity == ohmlore::Severity::error &&
                      ohmlore::may_fail(*ohmlore::find_rule(finding.rule)->rule, nullptr);
    const std::string report = ohmlore::json_report(run);
    char* text = static_cast<char*>(std::malloc(report.size() + 1));
    if (text != nullptr) std::memcpy(text, report.c_str(), report.size() + 1);
    return text;
  } catch (...) { // want of memory; no exception may cross into C
    return nullptr;
  }
}

extern "C" void ohmlore_free(char* text) { std::free(text); }
