// Parts laid beneath components, contacts and references bound. What is expected follows from the words of
// spec/v1/format.md: an absent member is the part's, a model is replaced whole, links hold both ways.
#include "ohmlore/resolve.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <set>
#include <string>

namespace ohmlore {
namespace {

Document read(std::string_view text, std::string name = "test.json") {
  Read_result result = read_json(std::move(name), text);
  EXPECT_TRUE(result.document.whole());
  return std::move(result.document);
}

Document profile(std::string_view members) {
  return read(fmt::format(R"({{ "format": "ohmlore/1.0", "kind": "profile", "id": "p", "revision": 1, {} }})",
                          members));
}

Document part(std::string_view id, std::string_view component, std::string name = "part.json") {
  return read(
      fmt::format(
          R"({{ "format": "ohmlore/1.0", "kind": "part", "id": "{}", "revision": 1, "component": {} }})", id,
          component),
      std::move(name));
}

// One component "c" of a kind over one part, each with some members.
struct Overlaid {
  Document document;
  Parts parts;
  Resolved resolved;
  Overlaid(std::string_view kind, std::string_view own, std::string_view of_part)
      : document(profile(
            fmt::format(R"("components": {{ "c": {{ "kind": "{}", "part": "x" {}}} }})", kind, own))) {
    parts.add(part("x", fmt::format(R"({{ "kind": "{}" {}}})", kind, of_part)));
    resolved = resolve(document, {nullptr, &parts});
  }
  const Resolved_component& c() const { return *resolved.component("c"); }
  template <class T>
  auto get(T Component_type::*member) const {
    return c().get(member);
  }
};

// ---- one member of each shape: the part's where absent, else the component's own

template <class T, class Same>
void expect_overlay(std::string_view kind, T Component_type::*member, std::string_view key,
                    std::string_view own, std::string_view of_part, Same is_own) {
  SCOPED_TRACE(std::string(key));
  const std::string mine = fmt::format(R"(, "{}": {} )", key, own);
  const std::string theirs = fmt::format(R"(, "{}": {} )", key, of_part);
  {
    const Overlaid both(kind, mine, theirs);
    ASSERT_TRUE(both.get(member));
    EXPECT_EQ(both.get(member).document, &both.document);
    EXPECT_TRUE(is_own(*both.get(member)));
  }
  {
    const Overlaid absent(kind, "", theirs);
    ASSERT_TRUE(absent.get(member));
    EXPECT_EQ(absent.get(member).document, absent.c().part);
    EXPECT_FALSE(is_own(*absent.get(member)));
    EXPECT_EQ(absent.get(member).document->written(absent.get(member)->node), of_part);
  }
  {
    const Overlaid own_only(kind, mine, "");
    ASSERT_TRUE(own_only.get(member));
    EXPECT_TRUE(is_own(*own_only.get(member)));
  }
  {
    const Overlaid unread(kind, fmt::format(R"(, "{}": [7])", key), theirs);
    EXPECT_FALSE(unread.get(member)) << "what replaces the part's could not be read";
    const Overlaid misspelt(kind, fmt::format(R"(, "q{}": {})", key, own), theirs);
    EXPECT_FALSE(misspelt.get(member));
  }
  {
    const Overlaid neither(kind, "", "");
    EXPECT_FALSE(neither.get(member)) << "absent in both";
    ASSERT_NE(neither.get(member).value, nullptr);
    EXPECT_EQ(neither.get(member)->node, 0u);
  }
}

TEST(Overlay, text) {
  expect_overlay("ntc", &Component_type::orderable, "orderable", R"("A-1")", R"("B-2")",
                 [](const auto& v) { return *v == "A-1"; });
}
TEST(Overlay, quantity) {
  expect_overlay("coil", &Component_type::rated_voltage, "rated_voltage", R"("24 V dc")", R"("230 V ac")",
                 [](const auto& v) { return v->si == 24; });
}
TEST(Overlay, tolerance) {
  expect_overlay("ntc", &Component_type::service_limit, "service_limit", R"("3 K")", R"("5 %")",
                 [](const auto& v) { return !v->relative(); });
}
TEST(Overlay, range) {
  expect_overlay("ntc", &Component_type::temperature_range, "temperature_range", R"("0 °C to 90 °C")",
                 R"("-20 °C to 110 °C")", [](const auto& v) { return v->low.si == 273.15; });
}
TEST(Overlay, integer) {
  expect_overlay("rtd", &Component_type::wires, "wires", "2", "4", [](const auto& v) { return *v == 2; });
}
TEST(Overlay, word) {
  expect_overlay("coil", &Component_type::drive, "drive", R"("dc")", R"("ac")",
                 [](const auto& v) { return *v == Drive::dc; });
}
TEST(Overlay, a_false_that_is_written_is_not_absent) {
  expect_overlay("ntc", &Component_type::linearised, "linearised", "false", "true",
                 [](const auto& v) { return !*v; });
}
TEST(Overlay, record) {
  expect_overlay("winding", &Component_type::protector, "protector", R"({ "reset": "manual" })",
                 R"({ "reset": "automatic" })",
                 [](const auto& v) { return *v.reset == Protector_reset::manual; });
}
TEST(Overlay, map) {
  expect_overlay("switch", &Component_type::states, "states", R"({ "cold": "closed" })",
                 R"({ "cold": "open", "hot": "closed" })", [](const auto& v) { return v.size() == 1; });
}

TEST(Overlay, replaces_a_model_whole) {
  const Overlaid both("resistor", R"(, "model": { "kind": "fixed", "resistance": "470 Ω" })",
                      R"(, "model": { "kind": "fixed", "resistance": "1 kΩ", "tolerance": "5 %" })");
  const auto model = both.get(&Component_type::model);
  ASSERT_TRUE(model);
  EXPECT_EQ(model->resistance->si, 470);
  EXPECT_FALSE(model->tolerance) << "the tolerance of another model must not slip in";
}

TEST(Overlay, keeps_what_the_part_says_beside_a_key_of_a_newer_version) {
  const Document document = read(R"({ "format": "ohmlore/1.9", "kind": "profile", "id": "p", "revision": 1,
  "components": { "c": { "kind": "ntc", "part": "x", "of_tomorrow": 1, "linearised": 7 } } })");
  ASSERT_GT(document.minor(), 0u);
  Parts parts;
  parts.add(part("x", R"({ "kind": "ntc", "orderable": "B-2", "linearised": true })"));
  const Resolved resolved = resolve(document, {nullptr, &parts});
  EXPECT_TRUE(resolved.component("c")->get(&Component_type::orderable));
  EXPECT_FALSE(resolved.component("c")->get(&Component_type::linearised));
}

// ---- components without a part beneath

TEST(Overlay, of_an_unknown_part_is_empty) {
  const Document document = profile(R"("components": { "c": { "kind": "ntc", "part": "missing" } })");
  const Parts parts;
  EXPECT_EQ(resolve(document, {nullptr, &parts}).component("c")->part, nullptr);
  EXPECT_EQ(resolve(document, {}).component("c")->part, nullptr) << "without a root";
  EXPECT_FALSE(resolve(document, {}).component("c")->get(&Component_type::model));
}

TEST(Overlay, a_part_does_not_inherit) {
  // A part's component has no member `part`: what stands there is unknown to it, and nothing is followed.
  Parts parts;
  parts.add(part("base", R"({ "kind": "ntc", "orderable": "B-2" })"));
  parts.add(part("x", R"({ "kind": "ntc", "part": "base" })"));
  const Document document = profile(R"("components": { "c": { "kind": "ntc", "part": "x" } })");
  const Resolved resolved = resolve(document, {nullptr, &parts});
  ASSERT_NE(resolved.component("c")->part, nullptr);
  EXPECT_FALSE(resolved.component("c")->get(&Component_type::orderable));
}

TEST(Resolved, of_a_part_is_its_one_component) {
  const Document document = part("x", R"({ "kind": "ntc", "orderable": "B-2" })");
  const Resolved resolved = resolve(document, {});
  ASSERT_EQ(resolved.components.size(), 1u);
  EXPECT_EQ(resolved.components[0].id, "x");
  EXPECT_EQ(resolved.components[0].placed, nullptr);
  EXPECT_TRUE(resolved.components[0].contacts.empty());
  EXPECT_TRUE(resolved.components[0].get(&Component_type::orderable));
  EXPECT_EQ(resolved.connector("X4"), nullptr);
  EXPECT_EQ(resolved.test("t"), nullptr);
  EXPECT_EQ(resolved.fault("f"), nullptr);
}

TEST(Resolved, of_a_corpus_is_empty) {
  const Document document =
      read(R"({ "format": "ohmlore/1.0", "kind": "corpus", "title": "t", "licence": "CC0-1.0" })");
  EXPECT_TRUE(resolve(document, {}).components.empty());
}

TEST(Resolved, leaves_out_what_is_no_record) {
  const Document document =
      profile(R"("components": { "a": 7, "b": { "kind": "ntc" }, "c": { "kind": "sponge" }, "d": null })");
  const Resolved resolved = resolve(document, {});
  ASSERT_EQ(resolved.components.size(), 2u);
  EXPECT_EQ(resolved.component("a"), nullptr);
  EXPECT_TRUE(resolved.component("b")->is(Component_kind::ntc));
  EXPECT_FALSE(resolved.component("c")->is(Component_kind::ntc)) << "an unknown kind is no kind";
}

TEST(Resolved, contacts_are_of_between_and_of_terminals) {
  const Document document = profile(R"("components": { "c": { "kind": "winding", "between": ["X1.1", 5],
      "terminals": { "start": "X9.1", "common": "bad", "run": "X9.3" } } })");
  const Resolved resolved = resolve(document, {});
  const auto contacts = resolved.component("c")->contacts;
  ASSERT_EQ(contacts.size(), 3u);
  EXPECT_EQ(text_of(*contacts[0]), "X1.1");
  EXPECT_EQ(text_of(*contacts[1]), "X9.1");
  EXPECT_EQ(text_of(*contacts[2]), "X9.3");
}

// ---- connectors, pins, classes

TEST(Resolved, the_class_of_a_contact_is_its_pins_else_its_connectors) {
  const Document document = profile(R"("connectors": {
      "X9": { "circuit": "mains", "pins": { "1": {}, "5": { "circuit": "protective_earth" } } },
      "X4": { "pins": { "1": {} } } })");
  const Resolved resolved = resolve(document, {});
  const auto class_of = [&](Text connector, Text pin) {
    return resolved.circuit_class(Contact{connector, pin});
  };
  ASSERT_NE(class_of("X9", "1"), nullptr);
  EXPECT_EQ(**class_of("X9", "1"), Circuit_class::mains);
  EXPECT_EQ(**class_of("X9", "5"), Circuit_class::protective_earth);
  EXPECT_EQ(class_of("X4", "1"), nullptr) << "neither says";
  EXPECT_EQ(class_of("X7", "1"), nullptr) << "no such connector";
  EXPECT_NE(resolved.pin(Contact{"X9", "5"}), nullptr);
  EXPECT_EQ(resolved.pin(Contact{"X9", "7"}), nullptr);
}

TEST(Joined_contacts, hold_both_ways_and_on) {
  const Document document = profile(R"("connectors": {
      "X1": { "pins": { "1": { "links": ["X2.1"] }, "2": {}, "3": { "links": ["X1.3", "X7.7"] } } },
      "X2": { "pins": { "1": { "links": ["X3.1"] } } },
      "X3": { "pins": { "1": { "links": ["X1.1", "bad"] } } } })");
  const Resolved resolved = resolve(document, {});
  const auto joined = [&](Text connector, Text pin) {
    std::string all;
    const std::vector<Contact>* set = joined_set(resolved, {connector, pin});
    if (set == nullptr) return all;
    for (const Contact& contact : *set) all += text_of(contact) + ' ';
    return all;
  };
  EXPECT_EQ(joined("X1", "1"), "X1.1 X2.1 X3.1 ");
  EXPECT_EQ(joined("X2", "1"), "X1.1 X2.1 X3.1 ");
  EXPECT_EQ(joined("X3", "1"), "X1.1 X2.1 X3.1 ") << "a ring ends";
  EXPECT_EQ(joined("X1", "2"), "");
  EXPECT_EQ(joined("X1", "3"), "X1.3 X7.7 ") << "itself once; an undeclared end is still an end";
  EXPECT_EQ(joined("X7", "7"), "X1.3 X7.7 ");
}

TEST(Contact_index, holds_components_circuits_and_supplies_in_that_order) {
  const Document document =
      profile(R"("connectors": { "X1": { "pins": { "1": {}, "2": {}, "3": {}, "4": {} } } },
    "components": { "a": { "kind": "ntc", "between": ["X1.1", "X1.2"] },
                    "b": { "kind": "ntc", "between": ["X1.2", "X1.3"] } },
    "circuits": { "chain": { "between": ["X1.2", "X1.3"] } },
    "safety": { "supplies": [{ "kind": "mains", "isolate_at": "spur", "enters_at": ["X1.2"] }] })");
  const Resolved resolved = resolve(document, {});
  const auto lying = [&](Text pin) {
    std::string all;
    for (const Lying& thing : resolved.lying.at({"X1", pin}))
      all += thing.component != nullptr ? std::string(thing.component->id) + ' '
             : thing.circuit != nullptr ? "circuit "
             : thing.supply != nullptr  ? "supply "
                                        : "nothing ";
    return all;
  };
  EXPECT_EQ(lying("1"), "a ");
  EXPECT_EQ(lying("2"), "a b circuit supply ");
  EXPECT_EQ(lying("3"), "b circuit ");
  EXPECT_EQ(lying("4"), "");
  EXPECT_EQ(lying("9"), "");
}

// ---- sources

TEST(Resolved, a_source_holds_for_what_stands_in_its_record) {
  const Document document = profile(R"("components": {
      "with": { "kind": "ntc", "source": { "from": "s" }, "model": { "kind": "fixed", "resistance": "1 Ω" } },
      "without": { "kind": "ntc", "model": { "kind": "fixed", "resistance": "1 Ω" } },
      "inside": { "kind": "ntc", "model": { "kind": "fixed", "resistance": "1 Ω", "source": { "from": "s" } } } })");
  const Resolved resolved = resolve(document, {});
  const auto has = [&](std::string_view pointer) { return resolved.may_have_source(document.find(pointer)); };
  EXPECT_TRUE(has("/components/with/model/resistance"));
  EXPECT_FALSE(has("/components/without/model"));
  EXPECT_TRUE(has("/components/inside/model"));
  EXPECT_FALSE(has("/components/inside")) << "a source inside does not hold for the record around it";
  EXPECT_FALSE(has("/components"));
  const Document sourced = profile(R"("source": { "from": "s" }, "components": { "a": { "kind": "ntc" } })");
  EXPECT_TRUE(resolve(sourced, {}).may_have_source(sourced.find("/components/a")));
  EXPECT_FALSE(resolved.may_have_source(0));
  const Document misspelt = profile(R"("sorce": {"from": "notes"}, "components": {"a": {"kind": "ntc"}})");
  EXPECT_TRUE(resolve(misspelt, {}).may_have_source(misspelt.find("/components/a")));
}

// ---- parts

TEST(Parts, the_first_one_of_an_id_stays) {
  Parts parts;
  parts.add(part("x", R"({ "kind": "ntc", "orderable": "first" })", "a.part.json"));
  parts.add(part("x", R"({ "kind": "ntc", "orderable": "second" })", "b.part.json"));
  ASSERT_NE(parts.find("x"), nullptr);
  EXPECT_EQ(parts.size(), 1u);
  EXPECT_EQ(*parts.find("x")->part()->component.orderable, "first");
  EXPECT_EQ(parts.find("x")->name(), "a.part.json");
}

TEST(Parts, without_a_part_or_an_id_are_left_out) {
  Parts parts;
  parts.add(profile(R"("title": "no part")"));
  parts.add(read(R"({ "format": "ohmlore/1.0", "kind": "part", "revision": 1 })"));
  parts.add(Document());
  EXPECT_EQ(parts.size(), 0u);
}

TEST(Parts, remember_a_broken_file_by_its_name) {
  Parts parts;
  parts.add_broken("ntc-10k.part.json", "corpus/parts/ntc-10k.part.json");
  EXPECT_EQ(parts.broken("ntc-10k"), "corpus/parts/ntc-10k.part.json");
  EXPECT_EQ(parts.broken("ntc-12k"), "");
  EXPECT_EQ(parts.find("ntc-10k"), nullptr);
}

TEST(Redirects, end_at_the_first_that_is_there) {
  const auto end_of = [](std::set<std::string_view> there) {
    const Redirects redirects = {{"a", "b"}, {"b", "c"}, {"c", "d"}, {"e", "c"},
                                 {"x", "y"}, {"y", "x"}, {"z", "y"}};
    return ends_of(redirects, [&](std::string_view id) { return there.contains(id); });
  };
  EXPECT_EQ(end_of({}), Redirects());
  EXPECT_EQ(end_of({"d"}), (Redirects{{"a", "d"}, {"b", "d"}, {"c", "d"}, {"e", "d"}}));
  EXPECT_EQ(end_of({"b", "d"}), (Redirects{{"a", "b"}, {"c", "d"}, {"e", "d"}}));
  EXPECT_EQ(end_of({"y"}), (Redirects{{"x", "y"}, {"z", "y"}}));
}

TEST(Missing_part, says_why_a_named_part_is_not_there) {
  const Document named = profile(R"("components": {
    "nothing": { "kind": "ntc" },
    "there": { "kind": "ntc", "part": "x" }, "renamed": { "kind": "ntc", "part": "old" },
    "renamed_twice": { "kind": "ntc", "part": "older" },
    "broken": { "kind": "ntc", "part": "ntc-10k" }, "unknown": { "kind": "ntc", "part": "y" },
    "renamed_and_broken": { "kind": "ntc", "part": "ntc-ten" } })");
  Parts parts;
  parts.add(part("x", R"({ "kind": "ntc" })"));
  parts.add_broken("ntc-10k.part.json", "corpus/parts/ntc-10k.part.json");
  parts.redirect({{"older", "old"}, {"old", "x"}, {"ntc-ten", "ntc-10k"}});
  const Resolved among = resolve(named, {nullptr, &parts}), alone = resolve(named, {});
  const auto missing = [](const Resolved& resolved, Text id) {
    const Resolved_component& component = *resolved.component(id);
    const auto found = missing_part(resolved, component);
    EXPECT_EQ(component.lacks_part(), found.has_value()) << id;
    return found;
  };
  EXPECT_FALSE(missing(among, "nothing"));
  EXPECT_FALSE(missing(alone, "nothing"));
  EXPECT_FALSE(missing(among, "there"));
  EXPECT_FALSE(missing(among, "renamed"));
  EXPECT_FALSE(missing(among, "renamed_twice"));
  const auto without_root = missing(alone, "there"), broken = missing(among, "broken"),
             unknown = missing(among, "unknown");
  ASSERT_TRUE(without_root && broken && unknown);
  EXPECT_EQ(without_root->why, Missing_part::Why::no_root);
  EXPECT_EQ(without_root->id, "x");
  EXPECT_EQ(broken->why, Missing_part::Why::broken);
  EXPECT_EQ(broken->broken, "corpus/parts/ntc-10k.part.json");
  const auto renamed_and_broken = missing(among, "renamed_and_broken");
  ASSERT_TRUE(renamed_and_broken);
  EXPECT_EQ(renamed_and_broken->why, Missing_part::Why::broken);
  EXPECT_EQ(renamed_and_broken->broken, "corpus/parts/ntc-10k.part.json");
  EXPECT_EQ(unknown->why, Missing_part::Why::unknown);
  EXPECT_EQ(unknown->id, "y");
  EXPECT_EQ(unknown->broken, "");
  parts.add_unread("y.Part.json: is not read");
  const auto unread = missing(among, "unknown"), still_broken = missing(among, "broken");
  ASSERT_TRUE(unread && still_broken);
  EXPECT_EQ(unread->why, Missing_part::Why::unread);
  EXPECT_EQ(unread->unread, "y.Part.json: is not read");
  EXPECT_EQ(still_broken->why, Missing_part::Why::broken);
  EXPECT_FALSE(missing(among, "there"));
}

TEST(Parts, records_outlive_a_move_of_their_documents) {
  Parts parts;
  parts.add(part("x", R"({ "kind": "ntc", "orderable": "Ω \"quoted\"" })"));
  const Parts moved = std::move(parts);
  EXPECT_EQ(*moved.find("x")->part()->component.orderable, "Ω \"quoted\"");
}

}
}
