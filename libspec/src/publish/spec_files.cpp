// Every file under spec/ that is derived from the descriptions.
#include "ohmlore/publish.h"
#include "publish/records.h"

namespace ohmlore {

Spec_files spec_files(const Spec_inputs& inputs) {
  Spec_files result;
  std::string page = fill_format_page(inputs.format_page, result.problems);
  result.files = {
      {"v1/baseline.schema.json", baseline_schema()},
      {"v1/corpus.schema.json", json_schema(Document_kind::corpus)},
      {"v1/diff.schema.json", diff_schema()},
      {"v1/exchange.xsd", xml_schema()},
      {"v1/find.schema.json", find_schema()},
      {"v1/fit.schema.json", fit_schema()},
      {"v1/format.md", std::move(page)},
      {"v1/job.schema.json", job_schema()},
      {"v1/judgement.schema.json", judgement_schema()},
      {"v1/part.schema.json", json_schema(Document_kind::part)},
      {"v1/plan.schema.json", plan_schema()},
      {"v1/profile.schema.json", json_schema(Document_kind::profile)},
      {"v1/report.schema.json", report_schema()},
      {"v1/tables.json", tables_metadata()},
  };
  return result;
}

}
