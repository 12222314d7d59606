// Healthy profiles, made from physics and from the honest oddities of the trade: no rule may call one wrong.
#pragma once

#include <string>
#include <vector>

namespace ohmlore::test {

struct Named_text {
  std::string name, text;
};

/// The profile of a number, always the same.
Named_text healthy_profile(int number);

/// The corpus that the profiles lie in: its root document, and the parts that some of them name.
std::string healthy_corpus();
std::vector<Named_text> healthy_parts();

}
