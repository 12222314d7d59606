// What several rules ask of one document: worked out at the first question, kept for the others.
#pragma once

#include <map>
#include <optional>
#include <span>
#include <vector>

#include "lint/measured.h"
#include "lint/named.h"
#include "lint/network.h"
#include "lint/rows.h"
#include "lint/wiring.h"
#include "ohmlore/separation.h"

namespace ohmlore {

struct Worked_out {
  /// What is asked of one test.
  struct Of_test {
    std::optional<std::optional<Interval>> expected, expected_generously, healthy;
    std::optional<std::optional<rules::Band_across>> across;
    std::optional<std::optional<rules::Measured>> measured;
    std::optional<std::span<const rules::Branch>> way;
  };
  struct Of_model {
    std::vector<rules::Row> rows;
    std::vector<rules::Impossible_row> impossible;
  };

  std::vector<Of_test> tests;                                        ///< in the order of the profile
  std::vector<std::optional<std::vector<rules::Readings>>> readings; ///< in the order of the components
  std::optional<std::vector<rules::Readings>> at_plugs;
  std::vector<std::size_t> tests_of; ///< how many, in the order of the components
  std::optional<rules::Components_by_words> by_words;
  std::optional<rules::Wiring> wiring;
  /// See all_linear_behind: by the numbers of contacts, as far as it was asked.
  std::vector<std::optional<bool>> linear_behind;
  std::optional<std::vector<Separation>> separations; ///< in the order of the faults
  std::map<Node_id, Of_model> models;                 ///< tables of the document itself
  Arena arena; ///< of texts that stand nowhere in the document, and of ways
  /// Quantities in another spelling than the canonical one.
  std::optional<std::vector<std::pair<const Quantity_use*, Unit_problem>>> spellings;
};

namespace rules {

Worked_out::Of_test& worked_out(const Subject& subject, const Test& test);

const std::vector<std::pair<const Quantity_use*, Unit_problem>>& spellings_of(const Subject& subject);
/// The band that a test expects: expected_interval.
const std::optional<Interval>& expected(const Subject& subject, const Test& test,
                                        Taken taken = Taken::literally);
/// See healthy_readings(expectation).
const std::optional<Interval>& healthy_readings(const Subject& subject, const Test& test);
/// How many tests a component of a profile has.
std::size_t tests_of(const Subject& subject, const Resolved_component& component);

const Components_by_words& components_by_words(const Subject& subject);
const Wiring& wiring_of(const Subject& subject);
/// Its node in the wiring, of a contact that Resolved has numbered; 0 where nothing has an end.
std::size_t node_of(const Subject& subject, const Value<Contact>& contact);
/// See on_the_way: between the leads of a test, whose plug is withdrawn. The nodes of one alone mean nothing.
std::span<const Branch> on_the_way(const Subject& subject, const Test& test);
/// Whether a current between the leads of a test has a way past its component, as in a ring of three heaters;
/// not through what leaves the plug, of which nobody knows where it goes.
bool has_way_past(const Subject& subject, const Test& test);
const Separation& separation_of(const Subject& subject, const Fault& fault);
/// The rows of a table of the document itself, by temperature, and those that no bare NTC can have.
const Worked_out::Of_model& rows_of(const Subject& subject, const Resistance_model& model);

}
}
