// Sheets: connectors as they lie, readings as their formula gives them, texts that try to break out, sites,
// and the hash that tells bytes apart.
#include "ohmlore/sheet.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <map>

#include <pugixml.hpp>
#include <regex>
#include <set>

#include <unistd.h>

#include "../support/hostile.h"
#include "../support/sheet_page.h"
#include "ohmlore/cautions.h"
#include "ohmlore/plan.h"
#include "sheet/catalogue.h"
#include "sheet/steps.h"
#include "support/bench.h"
#include "support/cases.h"
#include "support/scarce.h"
#include "text/sha256.h"

namespace ohmlore {
namespace {

using test::each_element, test::Made, test::make, test::read, test::text_in, test::tree_of;

// ---- connectors

struct Laid_out {
  Read_result read;
  Layout layout;
};
Laid_out lay_out(const std::string& members) {
  Laid_out out;
  std::string text = test::larch_profile();
  const std::size_t at = text.find("\"connectors\": {") + 15;
  text.insert(at, fmt::format(R"("NEW": {{"label": "NEW", "circuit": "selv", {}}},)", members));
  out.read = read(text);
  out.layout = layout_of(out.read.document.profile()->connectors.find("NEW")->value);
  return out;
}
// "1@0,0 2@0,1": names with row and column; unused ways in parentheses, blanked ones in brackets.
std::string places(const Layout& layout) {
  std::string out;
  for (const Way& way : layout.ways)
    out += fmt::format("{}{}@{},{}", out.empty() ? "" : " ",
                       way.pin != nullptr ? way.name
                       : way.blanked      ? fmt::format("[{}]", way.name)
                                          : fmt::format("({})", way.name),
                       way.row, way.column);
  return out;
}

// What format.md says of `numbering`: along_rows 1, 2, 3 … along the first row, then along the next;
// across_rows 1 in the first row, 2 in the second, and so on.
TEST(Layout, LaysWaysOutAsTheyAreNumbered) {
  EXPECT_EQ(places(lay_out(R"("ways": 3, "pins": {"1": {}, "3": {}})").layout), "1@0,0 (2)@0,1 3@0,2");
  EXPECT_EQ(places(lay_out(R"("ways": 5, "rows": 2, "numbering": "along_rows", "pins": {"1": {}})").layout),
            "1@0,0 (2)@0,1 (3)@0,2 (4)@1,0 (5)@1,1");
  EXPECT_EQ(places(lay_out(R"("ways": 5, "rows": 2, "numbering": "across_rows", "pins": {"2": {}})").layout),
            "(1)@0,0 2@1,0 (3)@0,1 (4)@1,1 (5)@0,2");
  // A strip that is numbered on from the one beside it.
  EXPECT_EQ(places(lay_out(R"("ways": 3, "pins": {"7": {}, "5": {}})").layout), "5@0,0 (6)@0,1 7@0,2");
}

TEST(Layout, NeverGuessesWhereAWayLies) {
  const Laid_out rows = lay_out(R"("ways": 4, "rows": 2, "pins": {"1": {}})");
  EXPECT_TRUE(rows.layout.rows_unknown);
  EXPECT_EQ(rows.layout.rows, 1);
  const Laid_out names = lay_out(R"("ways": 4, "pins": {"L": {}, "N": {}, "PE": {}})");
  EXPECT_TRUE(names.layout.named);
  EXPECT_EQ(places(names.layout), "L@0,0 N@0,1 PE@0,2 ()@0,3");
  // More pins than ways: makers leave the earth out of the count.
  EXPECT_EQ(
      places(
          lay_out(R"("ways": 2, "pins": {"1": {}, "2": {}, "PE": {"circuit": "protective_earth"}})").layout),
      "1@0,0 2@0,1 PE@0,2");
}

TEST(Layout, DrawsTheKeyingThatItSurelyUnderstands) {
  const Laid_out blanked =
      lay_out(R"("ways": 6, "keying": "ways 2, 4 and 6 blanked", "pins": {"1": {}, "2": {}})");
  EXPECT_EQ(places(blanked.layout),
            "1@0,0 2@0,1 (3)@0,2 [4]@0,3 (5)@0,4 [6]@0,5"); // 2 has a pin: the words are wrong
  EXPECT_TRUE(blanked.layout.keys.empty());
  const Laid_out all =
      lay_out(R"("ways": 3, "keying": "rib at way 1, unused ways blanked", "pins": {"2": {}})");
  EXPECT_EQ(places(all.layout), "[1]@0,0 2@0,1 [3]@0,2");
  const auto marks = [](const char* keying) {
    std::string out;
    const Laid_out laid = lay_out(fmt::format(R"("ways": 6, "keying": "{}", "pins": {{"1": {{}}}})", keying));
    for (const Key_mark& key : laid.layout.keys)
      out += fmt::format("{}{} ", key.way + 1, key.other ? fmt::format("-{}", *key.other + 1) : "");
    return out;
  };
  EXPECT_EQ(marks("ridge beside way 3"), "3 ");
  EXPECT_EQ(marks("rib between ways 3 and 5"), "3-5 ");
  EXPECT_EQ(marks("nose on way 2, latch at way 6"), "2 6 ");
  for (const char* other :
       {"square shroud", "way 4 longer", "latch over ways 1 to 8", "ridge beside way 9", "polarised"})
    EXPECT_EQ(marks(other), "") << other;
  const auto of_names = [](const char* keying) {
    const Laid_out laid = lay_out(fmt::format(
        R"("ways": 4, "keying": "{}", "pins": {{"L": {{}}, "PE": {{}}, "b": {{}}, "B": {{}}}})", keying));
    std::string out;
    for (const Key_mark& key : laid.layout.keys) out += laid.layout.ways[key.way].name + " ";
    return out;
  };
  EXPECT_EQ(of_names("nose at way L"), "L ");
  EXPECT_EQ(of_names("rib between ways L and PE, latch at way PE"), "L PE ");
  EXPECT_EQ(of_names("nose at way B"), "") << "or b";
  EXPECT_EQ(of_names("nose at way N"), "");
}

// ---- the page of a profile of every kind of record

TEST(Sheet, DrawsEachWayOnceInItsPlace) {
  const Made made = make(test::larch_profile());
  const pugi::xml_document page = tree_of(made.html());
  for (const auto& [id, key, connector] : made.profile.document.profile()->connectors) {
    std::map<std::string, std::pair<int, int>> drawn;
    each_element(page, [&, name = std::string(id)](pugi::xml_node article) {
      if (fmt::format("connector-{}", name) != article.attribute("id").value()) return;
      each_element(article, [&](pugi::xml_node group) {
        if (std::string_view(group.attribute("class").value()).starts_with("way")) {
          EXPECT_TRUE(drawn
                          .emplace(group.attribute("data-pin").value(),
                                   std::pair(group.attribute("data-row").as_int(),
                                             group.attribute("data-column").as_int()))
                          .second);
        }
      });
    });
    const Layout layout = layout_of(connector);
    ASSERT_EQ(drawn.size(), layout.ways.size()) << id;
    for (const Way& way : layout.ways)
      EXPECT_EQ(drawn[way.name], std::pair(way.row + 1, way.column + 1)) << id << "." << way.name;
  }
}

TEST(Sheet, ShowsAllCautionsBeforeAnythingToDo) {
  const Made made = make(test::larch_profile());
  for (const Language_name& language : languages()) {
    const std::string html = made.html(language.language);
    std::size_t at = 0;
    for (const Caution& caution : cautions()) {
      const std::string_view text = sheet::catalogue(language.language).word("caution", caution.id);
      at = html.find(text, at);
      ASSERT_NE(at, std::string::npos) << language.tag << " " << caution.id;
    }
    for (const char* later : {"id=\"codes\"", "id=\"connectors\"", "id=\"readings\""})
      EXPECT_LT(at, html.find(later)) << language.tag;
  }
  const std::string text = text_in(tree_of(made.html()));
  const Profile& profile = *made.profile.document.profile();
  for (const Supply& supply : profile.safety.supplies)
    EXPECT_NE(text.find(*supply.isolate_at), std::string::npos) << *supply.isolate_at;
  for (const Hazard& hazard : profile.safety.hazards)
    if (hazard.note) {
      EXPECT_NE(text.find(*hazard.note), std::string::npos) << *hazard.note;
    }
}

// Whoever goes from box to box by the keyboard hears of which supply each is: WCAG 2.1, 2.4.6; what is seen
// is part of what is heard, 2.5.3.
TEST(Sheet, TellsItsBoxesApartByTheirNames) {
  std::string text = test::larch_profile();
  const std::string_view supplies = "\"supplies\": [";
  text.insert(text.find(supplies) + supplies.size(),
              R"({"kind": "switched_live", "isolate_at": "night relay"}, )");
  const Made made = make(text);
  for (const Language_name& language : languages()) {
    std::set<std::string> names;
    int boxes = 0;
    each_element(tree_of(made.html(language.language)), [&](pugi::xml_node label) {
      const pugi::xml_node box = label.child("input");
      if (std::string_view(label.name()) != "label" || !box.attribute("aria-label")) return;
      ++boxes;
      const std::string name = box.attribute("aria-label").value();
      EXPECT_TRUE(names.insert(name).second) << name;
      if (std::string_view(box.attribute("type").value()) == "checkbox") {
        EXPECT_TRUE(name.ends_with(": " + text_in(label))) << name;
      }
    });
    EXPECT_GT(boxes, 5) << language.tag;
  }
}

TEST(Sheet, SpeaksAConditionAsThePlanDoes) {
  std::string text = test::larch_profile();
  const std::string_view test = "\"flow_sensor_resistance\": {";
  text.insert(text.find(test) + test.size(), R"("condition": "no_flow", )");
  EXPECT_NE(text_in(tree_of(make(text).html())).find("Condition: no flow"), std::string::npos);
}

TEST(Sheet, SaysInItsLanguageFromWhereToWhereAndWhereBothProbesGo) {
  std::string text = test::larch_profile();
  const std::string_view at = R"("tolerance": "10 %", "at": "20 °C")";
  text.replace(text.find(at), at.size(), R"("tolerance": "10 %", "at": "15 °C to 30 °C")");
  const Made made = make(text);
  const std::string english = text_in(tree_of(made.html()));
  EXPECT_NE(english.find(" at 15\u00A0°C to 30\u00A0°C"), std::string::npos);
  EXPECT_NE(english.find(": probes on 1 and 2"), std::string::npos);
  const std::string german = text_in(tree_of(made.html(Language::german)));
  EXPECT_NE(german.find(" bei 15\u00A0°C bis 30\u00A0°C"), std::string::npos);
  EXPECT_NE(german.find(": Prüfspitzen an 1 und 2"), std::string::npos); // "bis" would be all between
}

// "Never touched by hand" is noted of the part, not of a test.
TEST(Sheet, SaysOfAPartWhereItIsWhatToOrderAndWhatIsNotedOfIt) {
  std::string text = test::larch_profile();
  const std::string_view sensor = "\"flow_sensor\": {";
  text.insert(text.find(sensor) + sensor.size(), R"("note": "slow: wait for a steady reading", )");
  const Made made = make(text);
  const Component& component = made.profile.document.profile()->components.find("flow_sensor")->value;
  ASSERT_TRUE(component.where && component.orderable);
  const std::string english = text_in(tree_of(made.html()));
  EXPECT_NE(english.find(fmt::format("{}; spare number {}", *component.where, *component.orderable)),
            std::string::npos);
  EXPECT_NE(english.find("slow: wait for a steady reading"), std::string::npos);
  EXPECT_NE(text_in(tree_of(made.html(Language::german)))
                .find(fmt::format("Ersatzteilnummer {}", *component.orderable)),
            std::string::npos);
}

TEST(Sheet, SaysOnceWhatIsNotedOfAPartAndOfItsTest) {
  std::string text = test::larch_profile();
  for (const std::string_view at : {"\"flow_sensor\": {", "\"flow_sensor_resistance\": {"})
    text.insert(text.find(at) + at.size(), R"("note": "slow: wait", )");
  const auto count = [](const std::string& page) {
    std::size_t found = 0;
    for (std::size_t at = 0; (at = page.find("slow: wait", at)) != std::string::npos; ++at) ++found;
    return found;
  };
  const Made made = make(text);
  std::size_t tests = 0;
  for (const auto& test : made.profile.document.profile()->tests)
    tests += test.value.component && *test.value.component == "flow_sensor";
  EXPECT_EQ(count(text_in(tree_of(made.html()))), tests);
}

// The twin stands for the thermometer.
TEST(Sheet, ATestOfTwinsHasABoxForEachReadingAndNoneForATemperature) {
  const Made made = make(std::string(test::bench_profile));
  bool found = false;
  each_element(tree_of(made.html()), [&](pugi::xml_node node) {
    if (std::string_view(node.attribute("id").value()) != "test-twins") return;
    found = true;
    const std::string card = text_in(node);
    EXPECT_NE(card.find("Reading of the twin"), std::string::npos) << card;
    EXPECT_EQ(card.find("Part °C"), std::string::npos) << card;
  });
  EXPECT_TRUE(found);
}

TEST(Sheet, NamesWhatItComesFrom) {
  const Made made = make(test::larch_profile());
  const std::string html = made.html();
  const Profile& profile = *made.profile.document.profile();
  EXPECT_NE(html.find(fmt::format("{}, revision {}", *profile.id, *profile.revision)), std::string::npos);
  EXPECT_NE(html.find(sha256(made.profile.document.text())), std::string::npos);
  for (const auto& source : profile.sources)
    EXPECT_NE(html.find(fmt::format("<dt>{}</dt>", source.id)), std::string::npos) << source.id;
  for (const auto& fault : profile.faults)
    EXPECT_NE(html.find(fmt::format("id=\"code-{}\"", fault.id)), std::string::npos) << fault.id;
  EXPECT_EQ(html.find("<script"), std::string::npos);
  for (const char* outside : {"src=", "http://www.w3.org/1999", "https://", "url(", "@import"})
    EXPECT_EQ(html.find(outside), std::string::npos) << outside;
}

TEST(Sheet, HasOneCardWithItsBoxForEachTest) {
  std::string text = test::larch_profile();
  const std::string_view tests = "\"tests\": {";
  text.insert(text.find(tests) + tests.size(), R"("flow_sensor_movement": {
      "component": "flow_sensor", "unplug": "X4", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
      "response": { "kind": "steady_when_moved" }, "excludes": ["intermittent"] },)");
  const Made made = make(text);
  const pugi::xml_document page = tree_of(made.html());
  std::set<std::string> cards, links, targets;
  each_element(page, [&](pugi::xml_node node) {
    const std::string id = node.attribute("id").value(), to = node.attribute("href").value();
    if (!id.empty()) {
      EXPECT_TRUE(targets.insert(id).second) << id;
    }
    if (!to.empty()) links.insert(to);
    if (std::string_view(node.attribute("class").value()) != "test-card") return;
    cards.insert(id);
    int boxes = 0;
    each_element(node,
                 [&](pugi::xml_node inner) { boxes += std::string_view(inner.name()) == "input" ? 1 : 0; });
    EXPECT_GE(boxes, 1) << id;
    // What is read once it is warmed is written too; whether it stays steady is seen.
    const bool after = text_in(node).find("Reading after") != std::string::npos;
    if (id == "test-flow_sensor_resistance") {
      EXPECT_TRUE(after);
    }
    if (id == "test-flow_sensor_movement") {
      EXPECT_FALSE(after);
    }
  });
  for (const auto& test : made.profile.document.profile()->tests)
    EXPECT_TRUE(cards.count(fmt::format("test-{}", test.id))) << test.id;
  for (const std::string& link : links) EXPECT_TRUE(targets.count(link.substr(1))) << link;
}

// The columns of its table are other temperatures.
TEST(Sheet, SaysWhereATableBeginsThatNamesNoneOfItsTemperatures) {
  std::string text(test::bench_profile);
  const std::string_view model =
      R"("model": { "kind": "copper", "resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %" })";
  text.replace(text.find(model), model.size(),
               R"("model": { "kind": "table", "rows": [{ "at": "80 °C", "min": "46 Ω", "max": "54 Ω" }] })");
  EXPECT_NE(make(text).html().find("46 to 54\u00a0Ω at 80\u00a0°C"), std::string::npos);
}

// "other temperatures: table" stood behind no temperature at all.
TEST(Sheet, LeavesATestToTheTableWhoseModelDoesNotReachTwentyDegrees) {
  std::string text(test::bench_profile);
  const std::string_view model =
      R"("model": { "kind": "beta", "resistance": "12 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3435 K", "b_between": "25 °C to 85 °C" })";
  text.replace(
      text.find(model), model.size(),
      R"("model": { "kind": "table", "rows": [{ "at": "30 °C", "nominal": "10 kΩ", "tolerance": "1 %" }] })");
  const std::string html = make(text).html();
  EXPECT_NE(html.find("<strong><a href=\"#readings\">by temperature: table</a></strong>"), std::string::npos);
}

// "let the burner preheat once, then isolate and prove dead again, measure within two minutes" was one
// sentence.
TEST(Sheet, TellsStepsApartThatHaveCommas) {
  std::string text(test::bench_profile);
  const std::string_view test = R"("flow": { "component": "flow",)";
  text.replace(text.find(test), test.size(),
               fmt::format(R"({} "before": ["isolate, then prove dead", "measure at once"],
                              "disconnect_also": ["plug A, right", "plug B"],)",
                           test));
  const std::string html = make(text).html();
  EXPECT_NE(html.find("isolate, then prove dead; measure at once"), std::string::npos);
  EXPECT_NE(html.find("plug A, right; plug B"), std::string::npos);
}

TEST(Sheet, SaysThatAClosedContactReadsItsResistor) {
  std::string text(test::bench_profile);
  const std::string_view contacts = R"("contacts": "nc",)";
  text.replace(text.find(contacts), contacts.size(), R"("contacts": "nc", "series_resistance": "10 kΩ",)");
  EXPECT_NE(make(text).html().find("closed: 9 to 11.01"), std::string::npos);
}

// What a test touches elsewhere is named whole beside the housing, and covers neither another contact nor the
// housing.
TEST(Sheet, DrawsContactsOfOtherConnectorsBesideTheHousing) {
  std::string text = test::larch_profile();
  const auto insert = [&](std::string_view before, std::string_view what) {
    text.insert(text.find(before) + before.size(), what);
  };
  insert("\"connectors\": {", R"("FAR": {"label": "FAR", "circuit": "selv", "ways": 2,
    "pins": {"REFERENCE_POTENTIAL": {}, "SIGNAL": {}}}, "NEAR": {"label": "NEAR", "circuit": "selv", "ways": 1,
    "pins": {"1": {}}},)");
  insert("\"tests\": {", R"("one_far": {"component": "flow_sensor", "unplug": "NEAR", "side": "at_board_plug",
    "probes": ["NEAR.1", "FAR.REFERENCE_POTENTIAL"], "positive": "FAR.REFERENCE_POTENTIAL", "excludes": ["open"]},
    "both_far": {"component": "flow_sensor", "unplug": "NEAR", "side": "at_board_plug",
    "probes": ["FAR.SIGNAL", "FAR.REFERENCE_POTENTIAL"], "excludes": ["open"]},)");
  int tracks = 0;
  each_element(tree_of(make(text).html()), [&](pugi::xml_node article) {
    if (std::string_view(article.attribute("id").value()) != "connector-NEAR") return;
    double width = 0, housing = 0;
    each_element(article, [&](pugi::xml_node element) {
      const std::string_view kind = element.attribute("class").value();
      if (kind == "pinout") width = element.attribute("width").as_double();
      if (kind == "cavity")
        housing =
            std::max(housing, element.attribute("x").as_double() + element.attribute("width").as_double());
      if (kind != "track") return;
      ++tracks;
      double before = 0;
      for (const pugi::xml_node probe : element.children("rect")) {
        const double from = probe.attribute("x").as_double(),
                     to = from + probe.attribute("width").as_double();
        EXPECT_GE(from, before);
        EXPECT_LE(to + 9, width); // a plus sign stands beside it
        if (probe.attribute("width").as_double() > 20) {
          EXPECT_GE(from, housing);
        }
        before = to;
      }
    });
  });
  EXPECT_EQ(tracks, 2);
}

// What stands in each strip of a connector: its ways, and for each test what its probes are named there.
struct Drawn_strip {
  std::vector<std::string> ways;
  std::map<std::string, std::set<std::string>> probes, positive;
};
std::vector<Drawn_strip> strips_drawn(const pugi::xml_document& page, const std::string& article_id) {
  std::vector<Drawn_strip> strips;
  each_element(page, [&](pugi::xml_node article) {
    if (article_id != article.attribute("id").value()) return;
    each_element(article, [&](pugi::xml_node element) {
      const std::string_view kind = element.attribute("class").value();
      if (kind == "pinout") strips.emplace_back();
      if (kind.starts_with("way") && kind != "wire-edge" && element.attribute("data-pin"))
        strips.back().ways.emplace_back(element.attribute("data-pin").value());
      if (kind != "track") return;
      for (const pugi::xml_node name : element.children("text"))
        if (const std::string_view of = name.attribute("class").value(); of.starts_with("probe-name")) {
          strips.back().probes[element.attribute("data-test").value()].insert(text_in(name));
          if (of.ends_with("positive"))
            strips.back().positive[element.attribute("data-test").value()].insert(text_in(name));
        }
    });
  });
  return strips;
}

// Letters and digits of the page's font are about 8 wide; what is set at less than three quarters is a smear.
TEST(Sheet, MakesWaysAsWideAsTheirNamesNeed) {
  std::string text = test::larch_profile(), pins;
  const std::string long_name(64, 'w');
  for (const std::string name : {"L", "PE", "SENSOR-RETURN", long_name.c_str()})
    pins += fmt::format("{}\"{}\": {{}}", pins.empty() ? "" : ", ", name);
  const std::string_view before = "\"connectors\": {";
  text.insert(
      text.find(before) + before.size(),
      fmt::format(R"("LONG": {{"label": "LONG", "circuit": "selv", "ways": 4, "pins": {{{}}}}},)", pins));
  const pugi::xml_document page = tree_of(make(text).html());
  const std::vector<Drawn_strip> strips = strips_drawn(page, "connector-LONG");
  EXPECT_EQ(strips.size(), 4u) << "as wide as is read well across a page";
  std::size_t names = 0;
  each_element(page, [&](pugi::xml_node element) {
    if (std::string_view(element.attribute("class").value()).substr(0, 6) != "number") return;
    ++names;
    const double room = element.attribute("textLength").as_double(1000);
    EXPECT_GE(room, 6.0 * static_cast<double>(code_points(text_in(element)))) << text_in(element);
  });
  EXPECT_GT(names, 4u);
}

// Three letters M are as wide as five digits, and letters of East Asia are squares: they ran into the next
// way.
TEST(Sheet, SqueezesWideLettersIntoTheirWay) {
  std::string text = test::larch_profile();
  const std::string_view before = "\"connectors\": {";
  text.insert(text.find(before) + before.size(), R"("WIDE": {"label": "WIDE", "circuit": "selv", "ways": 4,
    "pins": {"MMM": {"wire": {"base": "other", "other": "赤色と青色"}}, "COM": {"wire": {"base": "RD"}},
    "123": {"wire": {"base": "RD"}}, "NO": {"wire": {"base": "WH", "stripe": "BK"}}}},)");
  std::map<std::string, bool> squeezed;
  each_element(tree_of(make(text).html()), [&](pugi::xml_node element) {
    if (std::string_view(element.name()) == "text")
      squeezed.emplace(text_in(element), !element.attribute("textLength").empty());
  });
  for (const char* wide : {"MMM", "COM", "赤色と青色"}) EXPECT_TRUE(squeezed.at(wide)) << wide;
  for (const char* usual : {"123", "NO", "RD", "WH/BK"}) EXPECT_FALSE(squeezed.at(usual)) << usual;
}

// In a column long names were set less than 2 mm high on A4.
TEST(Sheet, GivesAPictureThatIsWideTheWholePage) {
  std::string text = test::larch_profile();
  const auto insert = [&](std::string_view before, std::string_view what) {
    text.insert(text.find(before) + before.size(), what);
  };
  insert("\"connectors\": {", R"("LONG": {"label": "LONG", "circuit": "selv", "ways": 5,
    "pins": {"COMPRESSOR-RELAY": {}}},
    "FAR": {"label": "FAR", "circuit": "selv", "ways": 7, "pins": {"1": {}}},
    "SEVEN": {"label": "SEVEN", "circuit": "selv", "ways": 7, "pins": {"1": {}}},)");
  insert("\"tests\": {", R"("far": {"component": "flow_sensor", "unplug": "FAR", "side": "at_board_plug",
    "probes": ["FAR.1", "LONG.COMPRESSOR-RELAY"], "excludes": ["open"]},)");
  std::map<std::string, std::string> classes;
  each_element(tree_of(make(text).html()), [&](pugi::xml_node element) {
    classes.emplace(element.attribute("id").value(), element.attribute("class").value());
  });
  EXPECT_EQ(classes.at("connector-LONG"), "connector wide");
  EXPECT_EQ(classes.at("connector-FAR"), "connector wide");
  EXPECT_EQ(classes.at("connector-SEVEN"), "connector");
}

// On one picture the numbers of 40 ways were 1.3 mm high on A4.
TEST(Sheet, DrawsALongConnectorInStripsAndLosesNoWayAndNoProbe) {
  std::string text = test::larch_profile(), pins;
  for (int n = 1; n <= 40; ++n) pins += fmt::format("{}\"{}\": {{}}", n > 1 ? ", " : "", n);
  const auto insert = [&](std::string_view before, std::string_view what) {
    text.insert(text.find(before) + before.size(), what);
  };
  insert("\"connectors\": {",
         fmt::format(R"("LONG": {{"label": "LONG", "circuit": "selv", "ways": 40, "pins": {{{}}}}},
    "EDGE": {{"label": "EDGE", "circuit": "selv", "ways": 16, "pins": {{"1": {{}}, "16": {{}}}}}},)",
                     pins));
  insert("\"tests\": {", R"("within": {"component": "flow_sensor", "unplug": "LONG", "side": "at_board_plug",
    "probes": ["LONG.1", "LONG.2"], "excludes": ["open"]},
    "across": {"component": "flow_sensor", "unplug": "LONG", "side": "at_board_plug",
    "probes": ["LONG.2", "LONG.40"], "positive": "LONG.40", "excludes": ["open"]},
    "elsewhere": {"component": "flow_sensor", "unplug": "LONG", "side": "at_board_plug",
    "probes": ["EDGE.1", "EDGE.16"], "excludes": ["open"]},)");
  const pugi::xml_document page = tree_of(make(text).html());
  EXPECT_EQ(strips_drawn(page, "connector-EDGE").size(), 1u);
  const std::vector<Drawn_strip> strips = strips_drawn(page, "connector-LONG");
  ASSERT_EQ(strips.size(), 3u);
  std::vector<std::string> all;
  for (const Drawn_strip& strip : strips) {
    EXPECT_LE(strip.ways.size(), 16u);
    all.insert(all.end(), strip.ways.begin(), strip.ways.end());
  }
  ASSERT_EQ(all.size(), 40u);
  for (int n = 1; n <= 40; ++n) EXPECT_EQ(all[static_cast<std::size_t>(n - 1)], fmt::format("{}", n));

  using Probes = std::map<std::string, std::set<std::string>>;
  EXPECT_EQ(strips[0].probes,
            (Probes{{"#1", {"1", "2"}}, {"#2", {"2", "LONG.40"}}, {"#3", {"EDGE.1", "EDGE.16"}}}));
  EXPECT_EQ(strips[1].probes, Probes());
  EXPECT_EQ(strips[2].probes, (Probes{{"#2", {"LONG.2", "40"}}}));
  EXPECT_EQ(strips[0].positive, (Probes{{"#2", {"LONG.40"}}}));
  EXPECT_EQ(strips[2].positive, (Probes{{"#2", {"40"}}}));
}

// A probe on a contact with a name is wide enough for it, as far as its way is.
TEST(Sheet, NamesAProbeAsLargeAsItsWayHasRoomFor) {
  std::string text = test::larch_profile();
  const auto insert = [&](std::string_view before, std::string_view what) {
    text.insert(text.find(before) + before.size(), what);
  };
  insert("\"connectors\": {", R"("NAMED": {"label": "NAMED", "circuit": "selv", "ways": 2,
    "pins": {"SIG": {}, "GND": {}}},)");
  insert("\"tests\": {", R"("named": {"component": "flow_sensor", "unplug": "NAMED", "side": "at_board_plug",
    "probes": ["NAMED.SIG", "NAMED.GND"], "excludes": ["open"]},)");
  int names = 0;
  each_element(tree_of(make(text).html()), [&](pugi::xml_node name) {
    if (std::string_view(name.attribute("class").value()) != "probe-name") return;
    if (text_in(name) != "SIG" && text_in(name) != "GND") return;
    ++names;
    EXPECT_FALSE(name.attribute("textLength")) << "squeezed";
  });
  EXPECT_EQ(names, 2);
}

// What is said of a connector stays with it where a page or a column ends.
TEST(Sheet, KeepsWithAConnectorThatNothingUnplugsIt) {
  std::string text = test::larch_profile();
  text.insert(text.find("\"connectors\": {") + 15,
              R"("BARE": {"label": "BARE", "circuit": "selv", "ways": 1, "pins": {"1": {}}},)");
  int said = 0;
  each_element(tree_of(make(text).html()), [&](pugi::xml_node node) {
    if (text_in(node) != "No test of this profile unplugs this connector.") return;
    ++said;
    EXPECT_STREQ(node.parent().attribute("class").value(), "head");
  });
  EXPECT_EQ(said, 1);
}

// A text from right to left would draw the numbers beside it into its own order.
TEST(Sheet, KeepsTextsOfAProfileApartFromItsOwnByTheirDirection) {
  int quoted = 0;
  each_element(tree_of(make(test::larch_profile()).html()), [&](pugi::xml_node node) {
    if (!node.attribute("lang") || std::string_view(node.name()) == "html") return;
    ++quoted;
    EXPECT_STREQ(node.attribute("dir").value(), "auto") << text_in(node);
  });
  EXPECT_GT(quoted, 20);
}

TEST(Sheet, QuotesOfWhatRaisesACodeTheNameAlone) {
  std::string text = test::larch_profile();
  const std::string_view raised = "\"raised\": {";
  text.insert(text.find(raised) + raised.size(), R"("component": "flow_sensor", )");
  int said = 0;
  each_element(tree_of(make(text).html()), [&](pugi::xml_node line) {
    if (std::string_view(line.name()) != "p" ||
        !text_in(line).starts_with("Raised: Flow temperature sensor below"))
      return;
    ++said;
    EXPECT_EQ(text_in(line.child("span")), "Flow temperature sensor");
    EXPECT_STREQ(line.child("span").attribute("dir").value(), "auto");
  });
  EXPECT_EQ(said, 1);
}

TEST(Sheet, SaysNothingOfWhatRaisesACodeWhereNothingIsStated) {
  const auto lines = [](bool empty) {
    std::string text = test::larch_profile();
    const std::size_t raised = text.find("\"raised\": {") + 11;
    if (empty) text.erase(raised, text.find('}', raised) - raised);
    int said = 0;
    each_element(tree_of(make(text).html()), [&](pugi::xml_node line) {
      said += std::string_view(line.name()) == "p" && text_in(line).starts_with("Raised:");
    });
    return said;
  };
  EXPECT_EQ(lines(true), lines(false) - 1);
}

TEST(Sheet, OfWhatIsNoProfileIsEmpty) {
  const Read_result read = read_json("x.json", "{");
  EXPECT_EQ(sheet_html(resolve(read.document, {})), "");
}

// No link leads nowhere, and no heading stands over nothing.
TEST(Sheet, SaysWhatAProfileDoesNotHave) {
  const Made made = make(R"({"format": "ohmlore/1.0", "kind": "profile", "id": "p", "revision": 1,
    "appliance": {"maker": "M", "models": ["A"], "type": "heat_pump", "fuel": "electricity", "controller": {"part": "B"}},
    "safety": {"supplies": [{"kind": "mains", "isolate_at": "s"}]},
    "sources": {"s": {"kind": "standard", "title": "t"}}, "source": {"from": "s"},
    "connectors": {}, "components": {}, "tests": {}, "faults": {}})");
  for (const Language_name& language : languages()) {
    const std::string html = made.html(language.language);
    const sheet::Catalogue& words = sheet::catalogue(language.language);
    for (const Phrase lacking : {Phrase::no_codes, Phrase::no_connectors, Phrase::nothing_varies})
      EXPECT_NE(html.find(words.say(lacking)), std::string::npos) << language.tag;
    int links = 0;
    each_element(tree_of(html), [&](pugi::xml_node link) {
      const std::string to = link.attribute("href").value();
      if (to.empty()) return;
      ++links;
      EXPECT_NE(html.find(fmt::format("id=\"{}\"", to.substr(1))), std::string::npos) << to;
    });
    EXPECT_EQ(links, 5) << language.tag; // codes, connectors, readings, job, sources: no curves
  }
}

// Who profiles the lamp as "red lamp" reads no "lamp red lamp".
TEST(Sheet, NamesALampInTheWordsOfTheProfile) {
  const Made made = make(R"({"format": "ohmlore/1.0", "kind": "profile", "id": "p", "revision": 1,
    "appliance": {"maker": "M", "models": ["A"], "type": "heat_pump", "fuel": "electricity", "controller": {"part": "B"}},
    "safety": {"supplies": [{"kind": "mains", "isolate_at": "s"}]},
    "sources": {"s": {"kind": "standard", "title": "t"}}, "source": {"from": "s"},
    "connectors": {}, "components": {}, "tests": {},
    "faults": {"f": {"display": {"kind": "blink", "pattern": "3 flashes", "lamp": "red lamp"}, "meaning": "no heat",
                     "suspects": [{"kind": "board"}]}}})");
  for (const Language_name& language : languages())
    EXPECT_NE(made.html(language.language).find(">3 flashes (red lamp)<"), std::string::npos) << language.tag;
}

// The first readings stand beside the connectors: who reads 15.250 kΩ there must know what the point is.
TEST(Sheet, SaysBeforeTheFirstReadingThatThePointIsDecimal) {
  const Made made = make(test::larch_profile());
  for (const Language_name& language : languages()) {
    const std::string html = made.html(language.language);
    EXPECT_LT(html.find(sheet::catalogue(language.language).say(Phrase::decimal_point)),
              html.find("test-card\""))
        << language.tag;
  }
}

// ---- readings

// A profile of one sensor, which one test reads.
static Made of_one_sensor(std::string_view sensor) {
  return make(fmt::format(
      R"({{"format": "ohmlore/1.0", "kind": "profile", "id": "p", "revision": 1,
    "appliance": {{"maker": "M", "models": ["A"], "type": "heat_pump", "fuel": "electricity", "controller": {{"part": "B"}}}},
    "safety": {{"supplies": [{{"kind": "mains", "isolate_at": "s"}}]}},
    "sources": {{"s": {{"kind": "standard", "title": "t"}}}}, "source": {{"from": "s"}},
    "connectors": {{"X1": {{"label": "X1", "ways": 2, "circuit": "selv", "pins": {{"1": {{}}, "2": {{}}}}}}}},
    "components": {{"n": {{"name": "N", "between": ["X1.1", "X1.2"], {}}}}},
    "tests": {{"t": {{"component": "n", "unplug": "X1", "probes": ["X1.1", "X1.2"], "side": "at_board_plug",
                    "excludes": ["open"]}}}},
    "faults": {{}}}})",
      sensor));
}

// A beta model by its formula, IEC 60539-1: R = 10 kΩ · exp(3977 K (1/T - 1/298.15 K)); the limit of 3 K is
// the same curve 3 K away. Computed here, not with the library.
TEST(Readings, AreThoseOfTheFormula) {
  const Made made = of_one_sensor(R"("kind": "ntc", "service_limit": "3 K",
      "model": {"kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K",
                "b_between": "25 °C to 85 °C"})");
  const auto readings = sheet_readings(made.resolved, *made.resolved.test("t"));
  ASSERT_EQ(readings.size(), std::size(sheet_celsius));
  const auto r = [](double celsius) { return 10e3 * std::exp(3977 * (1 / (celsius + 273.15) - 1 / 298.15)); };
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const double t = sheet_celsius[i];
    EXPECT_NEAR(*readings[i].nominal / r(t), 1, 1e-9) << t;
    EXPECT_NEAR(readings[i].healthy->low / r(t + 3), 1, 1e-9) << t;
    EXPECT_NEAR(readings[i].healthy->high / r(t - 3), 1, 1e-9) << t;
  }
  const std::string html = made.html();
  EXPECT_NE(html.find("12.55\u00A0kΩ"), std::string::npos); // r(20) = 12554.7 Ω
  EXPECT_NE(html.find("10.94 to 14.45\u00A0kΩ"), std::string::npos) << r(23) << " " << r(17);
}

// 3 K is common practice then, and not the maker's word.
TEST(Readings, SayWhereNoServiceLimitIsStated) {
  const std::string model =
      R"("model": {"kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %",
      "b_value": "3977 K", "b_between": "25 °C to 85 °C"})";
  EXPECT_NE(of_one_sensor(R"("kind": "ntc", )" + model).html().find("usual limit"), std::string::npos);
  EXPECT_EQ(of_one_sensor(R"("kind": "ntc", "service_limit": "3 K", )" + model).html().find("usual limit"),
            std::string::npos);
}

// Pt1000 ± 2 K at 20 °C: R(t) = 1000 Ω (1 + 3.9083e-3 t - 5.775e-7 t²) of IEC 60751 is 1070.162 Ω at 18 °C
// and 1085.703 Ω at 22 °C.
TEST(Readings, AreRoundedOutward) {
  const Made made = of_one_sensor(R"("kind": "rtd", "service_limit": "2 K",
      "model": {"kind": "iec_60751", "r0": "1 kΩ", "tolerance_class": "B", "construction": "film"})");
  EXPECT_NE(made.html().find("1.0701 to 1.0858\u00A0kΩ"), std::string::npos);
}

// One row at 25 °C, 3 K of a usual sensor around it: 10 kΩ exp(3950 K (1/T - 1/298.15 K)) at 28 and 22 °C.
TEST(Readings, OfOneRowAreInTheTable) {
  const Made made = of_one_sensor(R"("kind": "ntc", "service_limit": "3 K",
      "model": {"kind": "table", "rows": [{"at": "25 °C", "nominal": "10 kΩ", "tolerance": "2 %"}]})");
  EXPECT_NE(made.html().find("8.763 to 11.45\u00A0kΩ"), std::string::npos);
  EXPECT_EQ(made.html().find("does not say what is healthy"), std::string::npos);
}

// The middle of 9 kΩ and 11 kΩ is no nominal: it was set in bold as if the maker had stated it, as 850 Ω of a
// heater that reads 450 Ω to 1.25 kΩ.
TEST(Readings, HaveNoNominalThatNobodyStates) {
  for (const char* kind : {"ntc", "ptc"}) {
    const Made made = of_one_sensor(fmt::format(R"("kind": "{}",
        "model": {{"kind": "table", "rows": [{{"at": "20 °C", "min": "9 kΩ", "max": "11 kΩ"}}]}})",
                                                kind));
    int healthy = 0;
    for (const auto& test : made.profile.document.profile()->tests)
      for (const Sheet_reading& reading : sheet_readings(made.resolved, test.value)) {
        EXPECT_FALSE(reading.nominal) << kind << ' ' << reading.kelvin;
        if (reading.healthy) ++healthy;
      }
    EXPECT_GT(healthy, 0) << kind;
  }
}

// ---- the order of tests

TEST(Steps, NameEachTestOnceAndEverySuspect) {
  const Made made = make(test::larch_profile());
  for (const auto& fault : made.profile.document.profile()->faults) {
    std::set<const void*> tests, suspects;
    for (const sheet::Step& step : sheet::steps_of(made.resolved, fault).list) {
      if (step.test != nullptr) {
        EXPECT_TRUE(tests.insert(step.test).second) << fault.id;
      }
      EXPECT_FALSE(step.suspects.empty());
      suspects.insert(step.suspects.begin(), step.suspects.end());
    }
    EXPECT_EQ(suspects.size(), fault.value.suspects.size()) << fault.id;
  }
}

std::string two_suspects(std::string_view suspects) {
  return fmt::format(R"({{"format": "ohmlore/1.0", "kind": "profile", "id": "p", "revision": 1,
    "appliance": {{"maker": "M", "models": ["A"], "type": "heat_pump", "fuel": "electricity", "controller": {{"part": "B"}}}},
    "safety": {{"supplies": [{{"kind": "mains", "isolate_at": "s"}}]}},
    "sources": {{"s": {{"kind": "standard", "title": "t"}}}}, "source": {{"from": "s"}},
    "connectors": {{"X1": {{"label": "X1", "ways": 4, "circuit": "selv", "pins": {{"1": {{}}, "2": {{}}, "3": {{}}, "4": {{}}}}}}}},
    "components": {{
      "coil": {{"kind": "coil", "name": "Coil", "between": ["X1.1", "X1.2"], "drive": "dc", "suppression": "none",
        "model": {{"kind": "fixed", "resistance": "43 Ω", "tolerance": "5 %"}}}},
      "heater": {{"kind": "heater", "name": "Heater", "between": ["X1.3", "X1.4"], "element": "wire",
        "model": {{"kind": "fixed", "resistance": "50 Ω", "tolerance": "10 %"}}}}}},
    "tests": {{
      "coil_covered": {{"component": "coil", "unplug": "X1", "probes": ["X1.1", "X1.2"], "side": "at_component",
        "excludes": ["open"], "effort": "high"}},
      "heater_ohm": {{"component": "heater", "unplug": "X1", "probes": ["X1.3", "X1.4"], "side": "at_board_plug",
        "excludes": ["open"], "effort": "low"}}}},
    "faults": {{"f": {{"display": {{"kind": "text", "text": "F"}}, "meaning": "no heat", "suspects": [{}]}}}}}})",
                     suspects);
}

// H3 names no test for the wires of X4; that of the sensor at the end of them rules a break out, and so says
// the plan.
TEST(Steps, ASuspectWithoutATestIsWithTheOneThatRulesItOut) {
  const Made made = make(test::larch_profile());
  const sheet::Steps steps =
      sheet::steps_of(made.resolved, *made.profile.document.profile()->faults.find("H3"));
  ASSERT_EQ(steps.list.size(), 1u);
  EXPECT_EQ(steps.list[0].test->id, "flow_sensor_resistance");
  ASSERT_EQ(steps.list[0].suspects.size(), 2u);
  EXPECT_EQ(*steps.list[0].suspects[1]->kind, Suspect_kind::harness);
}

// One of two heaters that are named alike has a test: what clears that clears not the other.
TEST(Steps, ASuspectWithoutATestIsNotWithTheTestOfItsNamesake) {
  for (const char* name : {"Heater", "Heater: lower"}) {
    std::string text = two_suspects(
        R"({"kind": "component", "component": "heater", "modes": ["open"], "decided_by": ["heater_ohm"]},
           {"kind": "component", "component": "coil", "modes": ["open"]},
           {"kind": "component", "component": "coil", "modes": ["short"], "decided_by": ["coil_covered"]})");
    const auto replace = [&](std::string_view what, std::string_view by) {
      text.replace(text.find(what), what.size(), by);
    };
    replace(R"("excludes": ["open"], "effort": "high")",
            R"("excludes": ["open", "short"], "effort": "high")");
    replace(R"("name": "Heater")", fmt::format(R"("name": "{}")", name));
    replace(R"("name": "Coil")", R"("name": "Heater")");
    const Made made = make(text);
    const sheet::Steps steps =
        sheet::steps_of(made.resolved, *made.profile.document.profile()->faults.find("f"));
    ASSERT_EQ(steps.list.size(), 2u);
    EXPECT_EQ(steps.list[0].test->id, "heater_ohm");
    EXPECT_EQ(steps.list[0].suspects.size(), 1u) << name;
    EXPECT_EQ(steps.list[1].suspects.size(), 2u) << name;
  }
}

// The case with much work is listed first, being likelier; by hand: 1/1 of 11/6 for 30 minutes, and 1/2 for
// one.
TEST(Steps, ComeInTheOrderOfAPlanAndTheBoardLast) {
  const std::string
      coil =
          R"({"kind": "component", "component": "coil", "modes": ["open"], "decided_by": ["coil_covered"]})",
      heater =
          R"({"kind": "component", "component": "heater", "modes": ["open"], "decided_by": ["heater_ohm"]})",
      board = R"({"kind": "board", "not_decidable": "no dead test shows it"})",
      air = R"({"kind": "cause", "cause": "air", "not_decidable": "hydraulic"})";
  const Made made = make(two_suspects(fmt::format("{}, {}, {}, {}", board, coil, air, heater)));
  const sheet::Steps steps =
      sheet::steps_of(made.resolved, *made.profile.document.profile()->faults.find("f"));
  EXPECT_TRUE(steps.planned);
  ASSERT_EQ(steps.list.size(), 4u);
  EXPECT_EQ(*steps.list[0].suspects[0]->cause, "air") << "likelier than what the next test sees";
  EXPECT_EQ(steps.list[1].test->id, "heater_ohm");
  EXPECT_EQ(steps.list[2].test->id, "coil_covered");
  EXPECT_EQ(*steps.list[3].suspects[0]->kind, Suspect_kind::board);
}

TEST(Steps, AreThoseOfThePlanOfEachCode) {
  const Made made = make(test::larch_profile());
  for (const auto& fault : made.profile.document.profile()->faults) {
    Plan_request request;
    request.codes = {std::string(fault.id)};
    std::vector<std::string> planned, listed, later;
    for (const Plan_step& step : plan(made.resolved, request).steps) planned.push_back(step.test);
    for (const sheet::Step& step : sheet::steps_of(made.resolved, fault).list)
      if (step.test != nullptr) (step.after_abnormal ? later : listed).emplace_back(step.test->id);
    EXPECT_EQ(listed, planned) << fault.id;
  }
}

// It was for "only where a reading before was not healthy", and there is none before.
TEST(Steps, ATestThatAPlanPassesOverIsDoneWhereThereIsNoOther) {
  const Made made = make(two_suspects(
      R"({"kind": "component", "component": "coil", "modes": ["seized"], "decided_by": ["heater_ohm"]})"));
  const auto& fault = *made.profile.document.profile()->faults.find("f");
  Plan_request request;
  request.codes = {"f"};
  ASSERT_TRUE(plan(made.resolved, request).steps.empty());
  const sheet::Steps steps = sheet::steps_of(made.resolved, fault);
  ASSERT_EQ(steps.list.size(), 1u);
  EXPECT_EQ(steps.list[0].test->id, "heater_ohm");
  EXPECT_FALSE(steps.list[0].after_abnormal);
}

TEST(Steps, TooManyForAPlanComeAsTheyAreListedAndThePageSaysSo) {
  std::string components, tests, suspects;
  for (int i = 0; i < 64; ++i) {
    components +=
        fmt::format(R"("c{0}": {{"kind": "heater", "name": "Heater {0}", "between": ["X1.3", "X1.4"],
      "element": "wire", "model": {{"kind": "fixed", "resistance": "50 Ω", "tolerance": "10 %"}}}},)",
                    i);
    tests += fmt::format(R"("t{0}": {{"component": "c{0}", "unplug": "X1", "probes": ["X1.3", "X1.4"],
      "side": "at_board_plug", "excludes": ["open"], "effort": "low"}},)",
                         i);
    suspects += fmt::format(R"({0}{{"kind": "component", "component": "c{1}", "decided_by": ["t{1}"],
      "modes": ["open", "short", "drift_high", "drift_low", "intermittent", "leakage_to_earth"]}})",
                            i == 0 ? "" : ",", 63 - i);
  }
  std::string text = two_suspects(suspects);
  text.insert(text.find("\"components\": {") + 15, components);
  text.insert(text.find("\"tests\": {") + 10, tests);
  const Made made = make(text);
  const sheet::Steps steps =
      sheet::steps_of(made.resolved, *made.profile.document.profile()->faults.find("f"));
  EXPECT_FALSE(steps.planned);
  ASSERT_EQ(steps.list.size(), 64u);
  EXPECT_EQ(steps.list[0].test->id, "t63");
  EXPECT_NE(made.html().find("as the profile lists them"), std::string::npos);
}

// ---- texts that try to break out

TEST(Sheet, LetsNoTextOfAProfileBreakOut) {
  const Read_result plain = read(test::larch_profile());
  std::set<std::string> usual;
  const auto names_in = [](const pugi::xml_document& page, std::set<std::string>& names) {
    each_element(page, [&](pugi::xml_node node) {
      names.insert(node.name());
      for (const pugi::xml_attribute at : node.attributes())
        names.insert(fmt::format("{}@{}", node.name(), at.name()));
    });
  };
  names_in(tree_of(make(test::larch_profile()).html()), usual);
  constexpr unsigned seeds = test::cases(60);
  usual.insert({"text@textLength", "text@lengthAdjust"}); // of names that would not fit
  for (unsigned seed = 0; seed < seeds; ++seed) {
    const Made hostile = make(test::with_hostile_texts(plain.document, seed));
    std::set<std::string> names;
    const std::string html = hostile.html();
    EXPECT_EQ(html.find("<![CDATA["), std::string::npos);
    EXPECT_EQ(html.find("<!--"), std::string::npos);
    names_in(tree_of(html), names);
    for (const std::string& name : names) EXPECT_TRUE(usual.count(name)) << name << ", seed " << seed;
  }
  // Whole, and readable: as text, not as markup; what is not seen is made visible.
  std::string text = test::larch_profile();
  const std::string evil =
      "</style></script><script>alert(1)</script><img src=x onerror=alert(1)>&amp;\\\" ]]> \u202Eevil";
  const std::size_t at = text.find("\"title\": \"") + 10;
  text.insert(at, evil);
  const std::string html = make(text).html();
  EXPECT_EQ(html.find("<script"), std::string::npos);
  EXPECT_EQ(html.find("<img"), std::string::npos);
  EXPECT_NE(html.find("&lt;/style&gt;&lt;/script&gt;"), std::string::npos);
  EXPECT_NE(html.find("&amp;amp;"), std::string::npos);
  EXPECT_EQ(html.find("\u202E"), std::string::npos);
  EXPECT_NE(html.find("\\u{202E}evil"), std::string::npos);
}

TEST(Sheet, IsWholeOrNoneWhereMemoryRunsOut) {
  const Made made = make(test::larch_profile());
  test::expect_whole_or_none([&] { return made.html(); });
}

// ---- files

// FIPS 180-4: the examples that NIST publishes with it ("abc", the empty message, the 448-bit message).
TEST(Sha256, GivesThePublishedDigests) {
  EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  EXPECT_EQ(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(sha256(std::string(1'000'000, 'a')),
            "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST(Site, HoldsASheetForEachProfileAndAnIndexOfThem) {
  const std::filesystem::path folder =
      std::filesystem::temp_directory_path() / fmt::format("ohmlore-site-{}", getpid());
  const Sheet_run run = write_sheets({OHMLORE_SOURCE_DIR "/corpus", folder.string(), {}, Language::german});
  EXPECT_TRUE(run.troubles.empty() && run.findings.empty());
  const std::string index = test::read_bytes(folder / "index.html");
  const pugi::xml_document page = tree_of(std::regex_replace(index, std::regex("<script>[^]*</script>"), ""));
  std::size_t entries = 0;
  each_element(page, [&](pugi::xml_node node) {
    if (std::string_view(node.attribute("class").value()) == "entry") ++entries;
    const std::string to = node.attribute("href").value();
    if (to.empty()) return;
    const std::size_t hash = to.find('#');
    ASSERT_TRUE(std::filesystem::exists(folder / to.substr(0, hash))) << to;
    if (hash == std::string::npos) return;
    const std::string sheet = test::read_bytes(folder / to.substr(0, hash));
    EXPECT_NE(sheet.find(fmt::format("id=\"{}\"", to.substr(hash + 1))), std::string::npos) << to;
  });
  EXPECT_EQ(entries + 1, run.pages);
  EXPECT_GE(entries, 16u);
  const std::size_t script = index.find("<script>") + 8;
  EXPECT_EQ(index.substr(script, index.find("</script>") - script).find_first_of("<>&"), std::string::npos);
  std::filesystem::remove_all(folder);
}

}
}
