// Bytes as a profile, and what is done with it at the appliance: curves, verdicts, plans, sheets.
#include "documents.h"
#include "ohmlore/curve.h"
#include "ohmlore/judge.h"
#include "ohmlore/plan.h"
#include "ohmlore/sheet.h"

using namespace ohmlore;

namespace {

constexpr double read_ohm[] = {0, 0.4, 12, 5250, 1e6};

void judge_all(const Resolved& resolved, const Profile& profile) {
  std::vector<Judge_request> requests;
  for (const auto& entry : profile.tests) {
    for (const double ohm : read_ohm) {
      Judge_request request;
      request.test = entry.id;
      request.reading = {ohm, ohm / 1000, ohm == read_ohm[4]};
      request.temperature = Part_temperature{};
      requests.push_back(request);
    }
  }
  const Verdict verdict = judge(resolved, requests, {});
  fuzz::expect(!verdict.cautions.empty(), "a verdict has its cautions");
  fuzz::expect(verdict.judgements.size() + verdict.problems.size() >= requests.size(),
               "every reading is judged, or it is said why not");
  text_report(verdict);
  json_report(verdict);
}

void plan_all(const Resolved& resolved, const Profile& profile) {
  for (const auto& fault : profile.faults) {
    const Plan one = plan(resolved, {{std::string(fault.id)}, {}, {}, {}, {}});
    fuzz::expect(!one.cautions.empty(), "a plan has its cautions");
    text_report(one);
    json_report(one);
  }
}

void draw_all(const Resolved& resolved) {
  for (const Resolved_component& component : resolved.components) {
    const Curve_result result = curve_of(component);
    fuzz::expect(result.curve.has_value() == result.problem.empty(), "a curve, or why there is none");
    if (!result.curve) continue;
    curve_text(*result.curve);
    curve_csv(*result.curve);
    curve_svg(*result.curve);
  }
}

}

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const Read_result read = read_json("document.json", fuzz::text_of(data, size));
  if (fuzz::has_error(read.findings)) return 0;
  const Resolved resolved = resolve(read.document, {});
  draw_all(resolved);
  const Profile* profile = read.document.profile();
  if (profile == nullptr) return 0;
  judge_all(resolved, *profile);
  plan_all(resolved, *profile);
  fuzz::expect(!sheet_html(resolved).empty(), "a profile has a sheet");
  return 0;
}
