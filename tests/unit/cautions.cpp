// The cautions say what design and trade demand of them, in the order of the work.
#include "ohmlore/cautions.h"

#include <gtest/gtest.h>

#include <set>
#include <vector>

#include "ohmlore/document.h"

namespace ohmlore {
namespace {

TEST(Cautions, StandInTheOrderOfTheWork) {
  std::vector<std::string_view> ids;
  for (const Caution& caution : cautions()) ids.push_back(caution.id);
  EXPECT_EQ(ids, (std::vector<std::string_view>{"dead-test-only", "isolate", "prove-dead", "stored-charge",
                                                "licensed-work", "maker-first", "never-bridge",
                                                "plug-and-part-only", "no-return-to-service"}));
}

TEST(Cautions, TextHoldsEveryOneInOrder) {
  const std::string text = cautions_text();
  std::size_t at = 0;
  for (const Caution& caution : cautions()) {
    at = text.find(caution.text, at);
    ASSERT_NE(at, std::string::npos) << caution.id;
  }
}

// Of a supply and of a charge the profile's own words are what a person acts on.
TEST(Cautions, OfErrorsSayHowMany) {
  EXPECT_EQ(caution_of_errors(0), "");
  EXPECT_NE(caution_of_errors(17).find(": 17. Do not rely"), std::string::npos) << caution_of_errors(17);
}

TEST(Cautions, HoldWhatTheProfileNotesOfSupplyAndCharge) {
  const Read_result read = read_json("noted.profile.json", R"({
    "format": "ohmlore/1.0", "kind": "profile", "id": "noted", "revision": 1,
    "appliance": { "maker": "Orrinvale", "models": ["Larch 24 C"], "type": "combination_boiler", "fuel": "natural_gas",
                   "controller": { "part": "OV-4410" } },
    "safety": {
      "supplies": [{ "kind": "mains", "isolate_at": "spur" },
                   { "kind": "second_tariff", "isolate_at": "meter", "note": "may come on at any time" }],
      "hazards": [{ "kind": "stored_charge", "where": ["X6.1", "X6.2"], "component": "fan", "wait": "1 min", "verify_below": "10 V dc",
                    "note": "the bleeder may be broken" },
                  { "kind": "generates_when_turned", "component": "fan" },
                  { "kind": "hot_surface", "note": "flue" }] },
    "components": { "fan": { "kind": "electronic", "name": "Combustion fan", "between": ["X6.1", "X6.2"] } },
    "connectors": { "X6": { "label": "X6", "ways": 2, "circuit": "mains", "pins": { "1": {}, "2": {} } } } })");
  ASSERT_NE(read.document.profile(), nullptr);
  const std::vector<std::string> texts = cautions_for(*read.document.profile());
  EXPECT_NE(
      texts.at(1).find(R"( Here: mains at "spur"; second tariff at "meter" (may come on at any time).)"),
      std::string::npos)
      << texts.at(1);
  EXPECT_NE(texts.at(3).find(" Here: Combustion fan, X6.1 and X6.2: wait 1 min, verify below 10 V dc (the "
                             "bleeder may be broken)."),
            std::string::npos)
      << texts.at(3);
  EXPECT_EQ(texts.at(texts.size() - 2), "Also in this appliance: generates when turned, Combustion fan.");
  EXPECT_EQ(texts.back(), "Also in this appliance: hot surface; flue.");
}

}
}
