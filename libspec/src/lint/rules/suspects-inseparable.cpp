#include <algorithm>

#include "lint/rule.h"
#include "lint/worked_out.h"
#include "ohmlore/separation.h"

namespace ohmlore::rules {
namespace {

// All that a fault says of one component or of the wires of one connector.
struct Party {
  Text name;
  const Suspect* suspect = nullptr;           ///< the first of it
  const Suspected_mode* first_seen = nullptr; ///< null where no test sees any
  bool comparable = true;
  bool named = false; // beside another that reads alike
};

bool is_unknown(const Cell& cell) { return cell.shows == Shows::anything; }
bool is_seen(const Cell& cell) { return cell.outcome != Outcome::passes; }

// The parties of a fault, and which of them each row that a test sees is of.
struct Parties {
  static constexpr std::size_t nobody = static_cast<std::size_t>(-1);
  std::vector<Party> all;
  std::vector<std::size_t> of_seen_rows;
};

// Comparable are those whose modes all have readings that are known.
void find_parties(const Separation& matrix, Parties& found) {
  found.all.clear();
  found.of_seen_rows.assign(matrix.rows.size(), Parties::nobody);
  for (std::size_t i = 0; i < matrix.rows.size(); ++i) {
    const Suspected_mode& row = matrix.rows[i];
    const Suspect& suspect = *row.suspect;
    const Text name = suspect.component ? *suspect.component : *suspect.connector;
    if (name.empty()) continue; // board, supply, cause: no dead test sees them
    auto party = std::find_if(found.all.begin(), found.all.end(), [&](const Party& known) {
      return *known.suspect->kind == *suspect.kind && known.name == name;
    });
    if (party == found.all.end()) party = found.all.insert(party, {.name = name, .suspect = &suspect});
    // Whoever says why no test decides has answered.
    if (suspect.not_decidable) continue;
    if (!row.mode || std::any_of(row.cells.begin(), row.cells.end(), is_unknown)) party->comparable = false;
    if (std::none_of(row.cells.begin(), row.cells.end(), is_seen)) continue;
    if (party->first_seen == nullptr) party->first_seen = &row;
    found.of_seen_rows[i] = static_cast<std::size_t>(party - found.all.begin());
  }
}

// Every mode of one reads like some mode of the other.
bool covers(const Separation& matrix, const Parties& parties, std::size_t a, std::size_t b) {
  const auto any_of_a = [&](const Suspected_mode& mode) {
    for (std::size_t i = 0; i < matrix.rows.size(); ++i)
      if (parties.of_seen_rows[i] == a &&
          std::equal(matrix.rows[i].cells.begin(), matrix.rows[i].cells.end(), mode.cells.begin()))
        return true;
    return false;
  };
  for (std::size_t i = 0; i < matrix.rows.size(); ++i)
    if (parties.of_seen_rows[i] == b && !any_of_a(matrix.rows[i])) return false;
  return true;
}

std::string_view in_words(Shows shows) {
  switch (shows) {
  case Shows::healthy: return "as healthy";
  case Shows::open: return "open";
  case Shows::near_zero: return "nearly 0 Ω";
  case Shows::higher: return "too high";
  case Shows::lower: return "too low";
  case Shows::unsteady: return "unsteady";
  case Shows::anything: break;
  }
  return "anything";
}

std::string label(const Party& party) {
  return *party.suspect->kind == Suspect_kind::harness ? fmt::format("the harness of {}", party.name)
                                                       : std::string(party.name);
}

struct Finding_of {
  Node_id node = 0;
  std::string names, message;
  Node_id test = 0;
};
// Findings by themselves; or of several faults, with the wires of one connector among the suspects of each.
struct Findings_of {
  Text harness; ///< that connector, or empty
  std::vector<Finding_of> all;
};

void judge(const Subject& subject, const Fault& fault, Parties& parties, std::vector<Findings_of>& findings) {
  if (fault.suspects.size() < 2) return;
  const Separation& matrix = separation_of(subject, fault);
  if (matrix.tests.empty()) return;
  find_parties(matrix, parties);
  const auto may_be_alike = [&](std::size_t i) {
    const Party& party = parties.all[i];
    return party.comparable && party.first_seen != nullptr && !party.named;
  };
  std::vector<const Party*> alike;
  for (std::size_t first = 0; first < parties.all.size(); ++first) {
    if (!may_be_alike(first)) continue;
    alike.clear();
    for (std::size_t other = first + 1; other < parties.all.size(); ++other) {
      if (!may_be_alike(other) || !covers(matrix, parties, first, other) ||
          !covers(matrix, parties, other, first))
        continue;
      if (alike.empty()) alike.push_back(&parties.all[first]);
      parties.all[other].named = true;
      alike.push_back(&parties.all[other]);
    }
    if (alike.size() < 2) continue;
    Text harness;
    std::vector<std::string> names;
    for (const Party* party : alike) {
      names.push_back(label(*party));
      if (*party->suspect->kind == Suspect_kind::harness) harness = party->name;
    }
    auto same = std::find_if(findings.begin(), findings.end(), [&](const Findings_of& known) {
      return !harness.empty() && known.harness == harness;
    });
    if (same == findings.end()) same = findings.insert(same, {harness, {}});
    const Suspected_mode& mode = *alike.front()->first_seen;
    const auto column = static_cast<std::size_t>(std::find_if(mode.cells.begin(), mode.cells.end(), is_seen) -
                                                 mode.cells.begin());
    same->all.push_back(
        {alike.back()->suspect->node, fmt::format("{}", fmt::join(names, ", ")),
         fmt::format("no test that this fault names tells {} apart: a failure of each reads {} in {}; add a "
                     "test that "
                     "sees one of them alone, such as one `at_component`",
                     listed(names), in_words(mode.cells[column].shows), matrix.tests[column].id),
         matrix.tests[column].test->node});
  }
}

void check(const Subject& subject, Sink& sink) {
  Parties parties; // of one fault after the other
  std::vector<Findings_of> findings;
  each_fault(subject, [&](Text, const Fault& fault) { judge(subject, fault, parties, findings); });
  for (const auto& [harness, all] : findings) {
    for (const Finding_of& finding : all) {
      sink.report(finding.node, finding.message).value = finding.names;
      sink.relate(finding.test, "the test");
    }
    if (all.size() < 2) continue;
    const std::string more =
        all.size() == 2 ? "one more fault" : fmt::format("{} more faults", all.size() - 1);
    sink.tell_as_one(all.size(),
                     fmt::format("{} (so in {}, with wires of {})", all.front().message, more, harness));
  }
}

}

extern const Rule suspects_inseparable = {
    .family = Family::fault,
    .severity = Severity::note,
    .summary = "Two suspects of a fault read the same in every test that it names.",
    .check = check,
    .goes_by_absence = true,
};

}
