// Bytes as a table of measurements, to which a part is fitted.
#include "documents.h"
#include "ohmlore/fit.h"

using namespace ohmlore;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes = fuzz::text_of(data, size);
  const Measurements_result read = read_measurements("table.csv", bytes);
  fuzz::expect(read.measurements.has_value() != fuzz::has_error(read.findings),
               "there is a table or an error");
  fuzz::expect_placed(read.findings, bytes);
  if (!read.measurements) return 0;
  for (const Component_kind kind : {Component_kind::ntc, Component_kind::rtd, Component_kind::heater}) {
    Fit_request request;
    request.kind = kind;
    request.id = "fitted";
    const Fit_result result = fit_part(*read.measurements, request);
    fuzz::expect(result.fit || !result.findings.empty() || !result.problem.empty(),
                 "no part without a reason");
    if (!result.fit) continue;
    fuzz::expect(!text_report(*result.fit).empty() && !json_report(*result.fit).empty() &&
                     !fit_svg(*result.fit).empty(),
                 "a fit is shown");
    const Read_result part = read_json("fitted.part.json", result.fit->part);
    fuzz::expect(!fuzz::has_error(part.findings), "the part can be read", fuzz::shown(part.findings));
  }
  return 0;
}
