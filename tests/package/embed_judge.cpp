// embed_judge PROFILE TEST READING TEMPERATURE: what the README says of judging.
#include <iostream>

#include <ohmlore/ohmlore.h>

int main(int argc, char** argv) {
  if (argc != 5) return 2;
  std::string problem;
  const auto reading = ohmlore::parse_reading(argv[3], problem); // "15.25k", "OL"
  const auto temperature = ohmlore::parse_part_temperature(argv[4], problem);
  if (!reading || !temperature) {
    std::cerr << problem << '\n';
    return 2;
  }
  ohmlore::Judge_request request;
  request.test = argv[2];
  request.reading = *reading;
  request.temperature = temperature;
  const ohmlore::Judge_run run = ohmlore::judge_file(argv[1], {&request, 1});
  for (const std::string& trouble : run.troubles) std::cerr << trouble << '\n';
  if (run.verdict) std::cout << ohmlore::text_report(*run.verdict); // cautions first; `result()` for programs
  return run.troubles.empty() ? 0 : 2;
}
