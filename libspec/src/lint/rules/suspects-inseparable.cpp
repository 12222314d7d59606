#include <algorithm>

#include "lint/rule.h"
#include "lint/worked_out.h"
#include "ohmlore/separation.h"

namespace ohmlore::rules {
namespace {

// All that a fault says of one component or of the wires of one connector.
struct Party {
  Text name;
  const Suspect* suspect = nullptr; ///< the first of it
  std::vector<const Suspected_mode*> seen;
  bool comparable = true;
  bool named = false; // beside another that reads alike
};

bool is_unknown(const Cell& cell) { return cell.shows == Shows::anything; }
bool is_seen(const Cell& cell) { return cell.outcome != Outcome::passes; }

// Those whose modes all have readings that are known, and of which a test sees one.
std::vector<Party> comparable_parties(const Document& document, const Separation& matrix) {
  std::vector<Party> found;
  found.reserve(matrix.rows.size());
  for (const Suspected_mode& row : matrix.rows) {
    const Suspect& suspect = *row.suspect;
    const Text name = suspect.component ? *suspect.component : *suspect.connector;
    if (name.empty()) continue; // board, supply, cause: no dead test sees them
    auto party = std::find_if(found.begin(), found.end(), [&](const Party& known) {
      return known.name == name && *known.suspect->kind == *suspect.kind;
    });
    if (party == found.end()) party = found.insert(party, {.name = name, .suspect = &suspect, .seen = {}});
    // Whoever says why no test decides has answered.
    if (stated(document, suspect, "not_decidable", suspect.not_decidable)) continue;
    if (!row.mode || std::any_of(row.cells.begin(), row.cells.end(), is_unknown)) party->comparable = false;
    if (std::any_of(row.cells.begin(), row.cells.end(), is_seen)) party->seen.push_back(&row);
  }
  std::erase_if(found, [](const Party& party) { return !party.comparable || party.seen.empty(); });
  return found;
}

// Every mode of one reads like some mode of the other.
bool covers(const Party& a, const Party& b) {
  return std::all_of(b.seen.begin(), b.seen.end(), [&](const Suspected_mode* mode) {
    return std::any_of(a.seen.begin(), a.seen.end(), [&](const Suspected_mode* other) {
      return std::equal(other->cells.begin(), other->cells.end(), mode->cells.begin());
    });
  });
}

std::string_view in_words(Shows shows) {
  switch (shows) {
  case Shows::healthy: return "as healthy";
  case Shows::open: return "open";
  case Shows::near_zero: return "nearly nothing";
  case Shows::higher: return "too much";
  case Shows::lower: return "too little";
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
  std::string message;
  Node_id test = 0;
  Text harness;          ///< the connector, where its wires are one of the suspects
  std::size_t again = 0; ///< further faults of which the same holds
};

void judge(const Subject& subject, const Fault& fault, std::vector<Finding_of>& findings) {
  const Separation& matrix = separation_of(subject, fault);
  if (matrix.tests.empty() || fault.suspects.size() < 2) return;
  std::vector<Party> parties = comparable_parties(subject.document, matrix);
  std::vector<const Party*> alike;
  for (auto first = parties.begin(); first != parties.end(); ++first) {
    if (first->named) continue;
    alike = {&*first};
    for (auto party = first + 1; party != parties.end(); ++party) {
      if (party->named || !covers(*first, *party) || !covers(*party, *first)) continue;
      party->named = true;
      alike.push_back(&*party);
    }
    if (alike.size() < 2) continue;
    Text harness;
    std::vector<std::string> names;
    for (const Party* party : alike) {
      names.push_back(label(*party));
      if (*party->suspect->kind == Suspect_kind::harness) harness = party->name;
    }
    const auto known = std::find_if(findings.begin(), findings.end(), [&](const Finding_of& finding) {
      return !harness.empty() && finding.harness == harness;
    });
    if (known != findings.end()) {
      ++known->again;
      continue;
    }
    const Suspected_mode& mode = *first->seen.front();
    const auto column = static_cast<std::size_t>(std::find_if(mode.cells.begin(), mode.cells.end(), is_seen) -
                                                 mode.cells.begin());
    findings.push_back(
        {alike.back()->suspect->node,
         fmt::format(
             "no test that this fault names tells {} apart: {} of any reads {} in {}; add a test that "
             "sees one of them alone, such as at_component beside at_board_plug",
             listed(names), word_of(*mode.mode), in_words(mode.cells[column].shows), matrix.tests[column].id),
         matrix.tests[column].test->node, harness});
  }
}

void check(const Subject& subject, Sink& sink) {
  std::vector<Finding_of> findings;
  each_fault(subject, [&](Text, const Fault& fault) { judge(subject, fault, findings); });
  for (const Finding_of& finding : findings) {
    const std::string again =
        finding.again == 0 ? ""
        : finding.again == 1
            ? fmt::format(" (so in one more fault, with wires of {})", finding.harness)
            : fmt::format(" (so in {} more faults, with wires of {})", finding.again, finding.harness);
    sink.report(finding.node, finding.message + again);
    sink.relate(finding.test, "the test");
  }
}

}

extern const Rule suspects_inseparable = {
    .family = Family::fault,
    .severity = Severity::note,
    .summary = "Two suspects of a fault read the same in every test that it names.",
    .check = check,
};

}
