// The ten lines of the README.
#include <iostream>

#include <ohmlore/ohmlore.h>

int main(int argc, char** argv) {
  ohmlore::Lint_request request;
  request.paths.assign(argv + 1, argv + argc);
  const ohmlore::Lint_run run = ohmlore::lint_paths(request);
  for (const ohmlore::Finding& finding : run.findings) std::cout << ohmlore::text_report(finding);
  for (const std::string& trouble : run.troubles) std::cerr << trouble << '\n';
  return run.troubles.empty() ? (run.failing > 0 ? 1 : 0) : 2;
}
