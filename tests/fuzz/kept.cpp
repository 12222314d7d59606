// Bytes as what a run of the program left for a later one: a baseline, what linting a document gave, the
// record of a job, a list of readings. The first byte says which.
#include "corpus/kept.h"
#include "fuzz.h"
#include "ohmlore/baseline.h"
#include "ohmlore/job.h"

using namespace ohmlore;

namespace {

void as_baseline(std::string_view bytes) {
  const Baseline_read read = read_baseline("baseline.json", bytes);
  if (!read.problems.empty()) return;
  const std::string text = baseline_text(read.baseline.entries);
  const Baseline_read again = read_baseline("baseline.json", text);
  fuzz::expect(again.problems.empty(), "a baseline that was written can be read", text);
  fuzz::expect(baseline_text(again.baseline.entries) == text, "and says the same", text);
}

// A line of a shard or of the cache, behind the checksum that guards it.
void as_linted(std::string_view bytes) {
  const std::optional<Linted> linted = linted_of(bytes);
  if (!linted) return;
  const std::string text = kept_text(*linted);
  const std::optional<Linted> again = linted_of(text);
  fuzz::expect(again && kept_text(*again) == text, "what was kept comes back", text);
}

void as_job(std::string_view bytes) {
  const Job_read read = read_job("job.json", bytes);
  fuzz::expect(read.job || !read.findings.empty() || !read.problems.empty(), "what is refused is said");
  if (!read.job) return;
  std::vector<std::string> problems;
  readings_of(*read.job, problems);
  Judge_means means;
  add_means(*read.job, means, problems);
  if (read.job->profile.empty()) return; // a list of readings
  const std::string text = json_report(*read.job);
  fuzz::expect(read_job("job.json", text).job.has_value(), "a record that was written can be read", text);
  fuzz::expect(!markdown_report(*read.job).empty(), "and shown");
}

}

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const std::string_view bytes = fuzz::text_of(data + 1, size - 1);
  switch (data[0]) {
  case 'b': as_baseline(bytes); break;
  case 'l': as_linted(bytes); break;
  default: as_job(bytes);
  }
  return 0;
}
