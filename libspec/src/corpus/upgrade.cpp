// Many files, brought to this version of the format.
#include "ohmlore/upgrade.h"

#include <fmt/format.h>

#include "corpus/rewrite.h"

namespace ohmlore {

Upgrade_run upgrade_paths(const Rewrite_request& request, std::span<const Format_step> steps) {
  Upgrade_run run;
  rewrite_paths(request, run, [&](const std::string& name, const std::string& bytes) {
    Upgraded upgraded = upgrade_text(name, bytes, steps);
    std::optional<std::string> text(std::move(upgraded.text));
    switch (upgraded.outcome) {
    case Upgrade_outcome::upgraded: break;
    case Upgrade_outcome::current: ++run.current; break;
    case Upgrade_outcome::newer_minor: run.newer.push_back({name, std::move(upgraded.from)}); break;
    case Upgrade_outcome::newer_major:
      run.troubles.push_back(
          fmt::format("{}: cannot be upgraded: it is {}, and this program knows {}; in another major version "
                      "every key may mean something else: take a newer ohmlore",
                      name, upgraded.from, format_tag));
      return std::optional<std::string>();
    case Upgrade_outcome::refused:
      std::move(upgraded.findings.begin(), upgraded.findings.end(), std::back_inserter(run.findings));
      return std::optional<std::string>();
    }
    return text;
  });
  return run;
}

}
