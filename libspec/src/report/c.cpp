#include "ohmlore/c.h"

#include <cstdlib>
#include <cstring>

#include "ohmlore/report.h"
#include "ohmlore/version.h"

extern "C" const char* ohmlore_version(void) { return ohmlore::program_version.data(); }

extern "C" char* ohmlore_lint(const char* name, const char* bytes, size_t size) {
  try {
    ohmlore::Lint_run run;
    run.files_read = 1;
    run.findings = ohmlore::lint_text(name != nullptr ? name : "",
                                      bytes != nullptr ? std::string_view(bytes, size) : std::string_view(),
                                      {}, {}, &run.suppressed, &run.troubles);
    const std::string report = ohmlore::json_report(run);
    char* text = static_cast<char*>(std::malloc(report.size() + 1));
    if (text != nullptr) std::memcpy(text, report.c_str(), report.size() + 1);
    return text;
  } catch (...) { // want of memory; no exception may cross into C
    return nullptr;
  }
}

extern "C" void ohmlore_free(char* text) { std::free(text); }
