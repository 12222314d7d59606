// XML in and out: what stands where, what is refused and at which place, and what pugixml alone would let
// pass.
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <algorithm>

#include "ohmlore/exchange.h"
#include "ohmlore/lint.h"
#include "ohmlore/publish.h"
#include "ohmlore/text.h"
#include "support/files.h"
#include "support/hostile.h"
#include "support/scarce.h"

namespace ohmlore {
namespace {

const std::string head = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";

std::string part(const std::string& members) {
  return head +
         "<part xmlns=\"urn:ohmlore:1\" format=\"ohmlore/1.0\">\n<id>a</id>\n<revision>1</revision>\n" +
         members + "\n</part>\n";
}

const std::string component = "<component><ntc><name>Sensor</name></ntc></component>";

// The one finding: "LINE:COLUMN rule: message"; or all rules where there are more.
std::string found(const std::string& xml) {
  const Xml_import import = read_xml("a.xml", xml);
  std::string all;
  for (const Finding& finding : import.read.findings) {
    EXPECT_TRUE(find_rule(finding.rule) != nullptr ||
                std::any_of(import_problems().begin(), import_problems().end(),
                            [&](const Import_problem& problem) { return problem.slug == finding.rule; }))
        << finding.rule;
    if (!all.empty()) all += '\n';
    all += std::to_string(finding.region.first.line) + ":" + std::to_string(finding.region.first.column) +
           " " + std::string(finding.rule) + ": " + finding.message;
  }
  return all;
}

TEST(Xml, a_part_is_read) {
  const Xml_import import = read_xml("a.xml", part(component));
  EXPECT_EQ(found(part(component)), "");
  ASSERT_NE(import.read.document.part(), nullptr);
  EXPECT_EQ(*import.read.document.part()->id, "a");
  EXPECT_EQ(*import.read.document.part()->component.name, "Sensor");
  EXPECT_EQ(import.read.document.name(), "a.xml");
}

TEST(Xml, what_is_written_is_what_the_page_says) {
  const Read_result read = read_json("a", R"({ "kind": "part", "format": "ohmlore/1.0", "x_b": [1.50, null],
    "component": { "name": "]]> & \"<", "kind": "switch", "states": { "cold": "open" } }, "revision": 2, "id": "a",
    "x_a": "\u0001" })");
  EXPECT_EQ(xml_of(read), head + R"(<part xmlns="urn:ohmlore:1" format="ohmlore/1.0">
  <id>a</id>
  <revision>2</revision>
  <component>
    <switch>
      <name>]]&gt; &amp; "&lt;</name>
      <states>
        <entry id="cold">open</entry>
      </states>
    </switch>
  </component>
  <extension>
    <array key="x_b">
      <number>1.50</number>
      <null />
    </array>
    <string key="x_a" escaped="true">\u0001</string>
  </extension>
</part>
)");
}

TEST(Xml, quantities_stand_beside_their_numbers) {
  const Read_result read =
      read_json("a", R"({ "kind": "part", "format": "ohmlore/1.0", "id": "a", "revision": 1,
    "component": { "kind": "ntc", "name": "a", "temperature_range": "-20 °C to 110 °C", "model": { "kind": "beta",
      "resistance": "10 kΩ", "at": "25 °C", "tolerance": "+10 % -5 %", "b_value": "3977 K",
      "b_between": "25 °C to 85 °C" } } })");
  const std::string xml = xml_of(read);
  for (const char* line :
       {"<resistance si=\"10000\" unit=\"Ω\">10 kΩ</resistance>", "<at si=\"298.15\" unit=\"K\">25 °C</at>",
        "<tolerance minus=\"0.05\" plus=\"0.1\" unit=\"1\">+10 % -5 %</tolerance>",
        "<temperature_range low=\"253.15\" high=\"383.15\" unit=\"K\">-20 °C to 110 °C</temperature_range>"})
    EXPECT_NE(xml.find(line), std::string::npos) << line << xml;
}

TEST(Xml, a_document_with_an_error_is_not_written) {
  EXPECT_EQ(xml_of(read_json("a", "{")), "");
  EXPECT_EQ(xml_of(read_json("a", R"({ "kind": "part", "format": "ohmlore/1.0" })")), "");
}

// ---- findings stand where the XML is wrong

TEST(Xml, findings_of_the_reader_stand_at_their_element) {
  EXPECT_EQ(found(part("<component><ntc><name></name></ntc></component>")),
            "5:17 text-empty: `name` is empty; it is needed, for example \"Flow temperature sensor\"");
  EXPECT_EQ(found(part("<component><ntc><nmae>a</nmae></ntc></component>")),
            "5:17 key-unknown: `component` of kind `ntc` has no key \"nmae\"; did you mean \"name\"?");
  EXPECT_EQ(found(part("<component><ncc><name>a</name></ncc></component>")),
            "5:12 word-unknown: `kind` cannot be \"ncc\"; did you mean \"ntc\"?");
  EXPECT_EQ(
      found(part("<component><coil>\n<name>a</name><rated_voltage>230</rated_voltage></coil></component>"))
          .substr(0, 5),
      "6:30 "); // the text, not its tag
  EXPECT_EQ(found(part("<component><ntc><name>a</name><model><table><rows>\n<table_row/>"
                       "</rows></table></model></ntc></component>"))
                .substr(0, 16),
            "6:1 key-missing:"); // the first row, not the list of rows
  EXPECT_EQ(found(part("")),
            "2:1 key-missing: a part needs `component` (what the part is; a component that names "
            "the part takes over what it does not say itself), for example \"component\": { \"kind\": "
            "\"ntc\", \"name\": \"10 kΩ sensor\" }");
}

// exchange.xsd: what an element has no attribute for is refused, whatever stands before it.
TEST(Xml, attributes_that_no_element_has_are_reported_where_they_stand) {
  const auto expect = [](const std::string& good, std::initializer_list<std::string> names) {
    EXPECT_EQ(found(good), "");
    for (const std::string& name : names) {
      std::string xml = good;
      const std::size_t end = xml.find('>', xml.find("<" + name));
      xml.insert(end - (xml[end - 1] == '/' ? 1 : 0), " hue=\"\"");
      const std::string all = found(xml);
      EXPECT_TRUE(all.ends_with(fmt::format(" xml-structure: `{}` has no attribute `hue`", name))) << all;
      EXPECT_EQ(all.find('\n'), std::string::npos) << all;
    }
  };
  expect(part("<component><switch><name>S</name><rated_voltage si=\"24\" unit=\"V\">24 V dc</rated_voltage>"
              "<states><entry id=\"cold\">open</entry></states></switch></component>"
              "<extension><array key=\"x_a\"><null/></array></extension>"),
         {"part", "id", "component", "switch", "name", "rated_voltage", "states", "entry", "extension",
          "array", "null"});
  expect(part("<component><ntc><name>S</name><model><table><rows><table_row><at>25 °C</at><nominal>10 "
              "kΩ</nominal>"
              "</table_row></rows></table></model></ntc></component>"),
         {"model", "table", "rows", "table_row", "at"});
}

TEST(Xml, a_member_that_stands_twice_is_a_duplicate_and_nothing_else) {
  const std::string all = found(part("<revision>1</revision>" + component));
  EXPECT_TRUE(all.starts_with("5:1 key-duplicate: ")) << all;
  EXPECT_EQ(all.find('\n'), std::string::npos) << all;
}

TEST(Xml, text_between_elements_is_reported_where_it_stands) {
  EXPECT_EQ(found(part(component + "\n  mind the gap\n")),
            "6:3 xml-structure: text stands in `part`, which holds elements");
  EXPECT_EQ(found(part("<component>\n<ntc><name>Sensor</name>\n&#65;</ntc></component>")),
            "7:1 xml-structure: text stands in `ntc`, which holds elements");
  EXPECT_EQ(found(part("<component>\n<ntc><![CDATA[]]><name>Sensor</name></ntc></component>")),
            "6:1 xml-structure: text stands in `ntc`, which holds elements");
}

TEST(Xml, findings_of_rules_can_be_moved_to_the_xml) {
  const std::string xml =
      part("<sources><standard id=\"s\"><title>t</title></standard></sources>\n<source><from>s</from>"
           "</source>\n<component>\n<resistor>\n<name>R</name>\n<model><fixed>"
           "<resistance>-5 Ω</resistance></fixed></model></resistor></component>");
  const Xml_import import = read_xml("a.xml", xml);
  Linted linted = lint_document(import.read, {});
  relocate(import, xml, linted.findings);
  ASSERT_FALSE(linted.findings.empty());
  bool negative = false;
  for (const Finding& finding : linted.findings)
    if (finding.rule == "band-negative") {
      negative = true;
      EXPECT_EQ(finding.region.first.line, 10u);
      EXPECT_NE(finding.source_line.find("-5 Ω"), std::string::npos);
    }
  EXPECT_TRUE(negative);
}

TEST(Xml, numbers_beside_a_quantity_must_agree_with_it) {
  const auto with = [](const std::string& attributes) {
    return found(part("<component><resistor><name>R</name><rated_power" + attributes +
                      ">2 kW</rated_power></resistor></component>"));
  };
  EXPECT_EQ(with(""), "");
  EXPECT_EQ(with(" si=\"2000\" unit=\"W\""), "");
  EXPECT_EQ(with(" si=\"2.000000000000001E+03\""), "");
  EXPECT_EQ(with(" si=\"2001\""),
            "5:49 number-differs: `si` says 2001 W, but \"2 kW\" is 2000 W; what is written out "
            "counts");
  EXPECT_EQ(with(" si=\"2,0\""),
            "5:49 number-malformed: `si` is \"2,0\", which is no number; write 2000, or leave it out");
  for (const char* loose : {"+2000", "02000", "2000.", "INF"}) // numbers of XML Schema, and none of JSON
    EXPECT_NE(with(fmt::format(" si=\"{}\"", loose)).find("number-malformed"), std::string::npos) << loose;
  EXPECT_EQ(with(" unit=\"V\""),
            "5:49 number-differs: `unit` is \"V\"; the numbers beside \"2 kW\" are in W");
}

TEST(Xml, an_element_of_a_newer_minor_is_left_out_and_that_is_said) {
  std::string xml =
      part("<torque>5</torque>" + component + "<extension><null key=\"torque_b\"/></extension>");
  xml.replace(xml.find("ohmlore/1.0"), 11, "ohmlore/1.7");
  const Xml_import import = read_xml("a.xml", xml);
  ASSERT_EQ(import.read.findings.size(), 3u) << found(xml);
  EXPECT_EQ(import.read.findings[0].rule, "format-newer");
  EXPECT_EQ(import.read.findings[1].message,
            "`torque` is left out: this program does not know it, nor what it holds");
  EXPECT_EQ(import.read.findings[1].severity, Severity::warning);
  EXPECT_EQ(import.read.findings[2].rule, "key-unknown"); // kept
  EXPECT_NE(xml_of(import.read).find("<null key=\"torque_b\" />"), std::string::npos);
}

// ---- what is XML, and what is not (Extensible Markup Language 1.0, fifth edition; Namespaces in XML 1.0)

TEST(Xml, is_read_in_every_spelling) {
  const std::string good = xml_of(read_xml("a", part(component)).read);
  const auto same = [&](const std::string& xml) {
    EXPECT_EQ(found(xml), "");
    EXPECT_EQ(xml_of(read_xml("a", xml).read), good) << xml;
  };
  const auto with = [](std::string from, const std::string& to, std::string xml = part(component)) {
    xml.replace(xml.find(from), from.size(), to);
    return xml;
  };
  same("\xEF\xBB\xBF" + part(component));
  same(with(head, ""));
  same(with(head, "<?xml version='1.0' standalone='yes'?>\r\n"));
  same(with("Sensor", "Se&#110;s&#x6F;r"));
  same(with("Sensor", "Se&#0000000000000000000110;s&#x0000000000000000006F;r"));
  same(with("Sensor", "<![CDATA[Sen]]>sor"));
  same(with("Sensor", "Sen<!-- a comment -->sor"));
  same(with("Sensor", "Sen<?stop here?>sor"));
  same(with("<id>", "<!-- - -> --><?a b?><id\n>"));
  same(with("<revision>1", "<revision> 1 \n"));
  same(with("xmlns=", "xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\" "
                      "xsi:schemaLocation=\"urn:ohmlore:1 exchange.xsd\" xmlns="));
  same(head +
       "<o:part xmlns:o=\"urn:ohmlore:1\" format=\"ohmlore/1.0\"><o:id>a</o:id><p:revision "
       "xmlns:p=\"urn:ohmlore:1\">1</p:revision><component xmlns=\"urn:ohmlore:1\"><ntc><name>Sensor</name>"
       "</ntc></component></o:part><!-- end -->");
}

TEST(Xml, text_is_kept_to_the_byte) {
  for (const std::string text : {" ", "  a  ", "&#32;a", " <![CDATA[ ]]> ", "]]&gt;", "a<!-- -->\xC2\xA0"}) {
    const Xml_import import =
        read_xml("a", part("<component><ntc><name>" + text + "</name></ntc></component>"));
    ASSERT_TRUE(import.read.findings.empty()) << found(part(text));
    const std::string again = xml_of(import.read);
    EXPECT_EQ(test::tree_difference(import.read.document, read_xml("a", again).read.document), "");
  }
  const Xml_import spaces =
      read_xml("a", part("<component><ntc><name> <![CDATA[ ]]> </name></ntc></component>"));
  EXPECT_EQ(*spaces.read.document.part()->component.name, "   ");
}

TEST(Xml, what_is_not_well_formed_is_refused_at_its_place) {
  const auto rule_at = [](const std::string& xml) { return found(xml).substr(0, found(xml).find(": ")); };
  EXPECT_EQ(rule_at(part("<a>&b;</a>")), "5:4 xml-syntax");
  EXPECT_EQ(rule_at(part("<a>a & b</a>")), "5:6 xml-syntax");
  EXPECT_EQ(rule_at(part("<a b='1' b='2'/>")), "5:10 xml-syntax");
  EXPECT_EQ(rule_at(part("<a b='<'/>")), "5:7 xml-syntax");
  EXPECT_EQ(rule_at(part("<a>]]></a>")), "5:4 xml-syntax");
  EXPECT_EQ(rule_at(part("<!-- a -- b -->")), "5:5 xml-syntax");
  EXPECT_EQ(rule_at(part("<a>\x01</a>")), "5:4 xml-syntax");
  EXPECT_EQ(rule_at(part("<a>\xFF</a>")), "5:4 utf8-malformed");
  EXPECT_EQ(rule_at(part("<p:a/>")), "5:1 xml-syntax");
  EXPECT_EQ(rule_at(part("<?xml version=\"1.0\"?>")), "5:6 xml-syntax");
  EXPECT_EQ(rule_at("words " + part("").substr(head.size())), "1:1 xml-syntax");
  EXPECT_EQ(rule_at(part("") + "<part/>"), "7:1 xml-syntax");
  EXPECT_EQ(rule_at(part("") + "words"), "7:1 xml-syntax");
  EXPECT_EQ(rule_at(""), "1:1 xml-syntax");
  const auto open = [](const std::string& xml) {
    const Finding finding = read_xml("a", xml).read.findings.at(0);
    const auto at = [](const Region& region) {
      return fmt::format("{}:{}", region.first.line, region.first.column);
    };
    return fmt::format("{} {}{}", at(finding.region), finding.message,
                       finding.related.empty() ? "" : ", at " + at(finding.related[0].region));
  };
  const std::string cut_off = " is still open; it may have been cut off";
  const std::string misspelt = " is open; an end tag is missing before, or this one is misspelt";
  EXPECT_EQ(open("<a>\n <b>x</b>\n <c>y"), "3:6 the file ends here, and `c`" + cut_off + ", at 3:2");
  EXPECT_EQ(open("<a>\n <b>x</b>\n"), "3:1 the file ends here, and `a`" + cut_off + ", at 1:1");
  EXPECT_EQ(open("<a>\n <b><c d='/>'/>x\n"), "3:1 the file ends here, and `b`" + cut_off + ", at 2:2");
  EXPECT_EQ(open("<a>\n <b><c d='>'>x</c >"), "2:20 the file ends here, and `b`" + cut_off + ", at 2:2");
  EXPECT_EQ(open("<a>\n <b><c d='/>'>x</c >"), "2:21 the file ends here, and `b`" + cut_off + ", at 2:2");
  EXPECT_EQ(open("<a><b/><!-- </a> -->"),
            "1:20 an end tag is missing before the end of the file, or misspelt");
  EXPECT_EQ(open("<a><b>x</d></a>"), "1:8 `d` is ended here, but `b`" + misspelt + ", at 1:4");
  EXPECT_EQ(open("<a><b/></d></a>"), "1:8 `d` is ended here, but `a`" + misspelt + ", at 1:1");
  EXPECT_EQ(rule_at("<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?><part/>"), "1:21 utf8-malformed");
  // 4.3.3: a byte that the encoding does not have is a fatal error.
  EXPECT_EQ(rule_at("<?xml version=\"1.0\" encoding=\"US-ASCII\"?><part>\xC2\xB0</part>"),
            "1:21 utf8-malformed");
  EXPECT_EQ(rule_at("\xEF\xBB\xBF<?xml version=\"1.0\" encoding=\"US-ASCII\"?><part>&#xB0;</part>"),
            "1:43 xml-structure");
  EXPECT_EQ(rule_at(std::string("\xFF\xFE<\0a\0", 6)), "1:1 utf8-malformed");
}

TEST(Xml, json_is_told_from_xml) {
  const std::string says = "xml-syntax: this is no XML; JSON is read where `--from xml` is left out";
  EXPECT_EQ(found("{}"), "1:1 " + says);
  EXPECT_EQ(found("\n {\"maker\": \"<maker>\", \"models\": [\"<model, as on the rating plate>\"]}"),
            "2:2 " + says);
}

TEST(Xml, a_doctype_is_refused_and_nothing_of_it_is_read) {
  const std::string type =
      "<!DOCTYPE part [<!ENTITY a SYSTEM \"file:///etc/passwd\">\n<!ENTITY b \"&a;\">]>\n";
  std::string xml = part("<component><ntc><name>&a;</name></ntc></component>");
  xml.insert(head.size(), type);
  EXPECT_EQ(found(xml),
            "2:1 xml-syntax: a DOCTYPE is not read, nor what it declares; remove it, and write out what its "
            "entities stand for");
  EXPECT_EQ(read_xml("a", xml).read.document.part(), nullptr);
}

TEST(Xml, depth_and_size_are_limited) {
  std::string deep = part(component);
  for (int i = 0; i < 200; ++i) deep.insert(deep.find("<component>"), "<a>");
  EXPECT_NE(found(deep).find("xml-syntax"), std::string::npos); // not ended
  const auto nested = [](unsigned levels) {
    std::string inner;
    for (unsigned i = 0; i < levels; ++i) inner += "<array>";
    for (unsigned i = 0; i < levels; ++i) inner += "</array>";
    return part(component + "<extension><array key=\"x_a\">" + inner + "</array></extension>");
  };
  EXPECT_EQ(found(nested(most_depth - 2)), "");
  EXPECT_NE(found(nested(most_depth - 1)).find("nesting-too-deep: brackets"), std::string::npos);
  EXPECT_NE(found(nested(most_xml_depth)).find("elements are nested more than 128 deep"), std::string::npos);
  EXPECT_NE(found(nested(1'000'000)).find("nesting-too-deep"), std::string::npos);
  EXPECT_NE(found(std::string(most_xml_bytes + 1, ' ')).find("file-too-large"), std::string::npos);
}

TEST(Xml, namespace_and_version_are_checked) {
  std::string xml = part(component);
  const auto with = [&](const std::string& uri) {
    std::string changed = xml;
    changed.replace(changed.find("urn:ohmlore:1"), 13, uri);
    return found(changed);
  };
  EXPECT_EQ(with("urn:ohmlore:2"),
            "2:1 format-unsupported: urn:ohmlore:2 is a version that this program does not read; "
            "it reads urn:ohmlore:1");
  EXPECT_EQ(with("urn:example").substr(0, 17), "2:1 xml-structure");
  EXPECT_EQ(with("").substr(0, 17), "2:1 xml-structure");
  xml.replace(xml.find("ohmlore/1.0"), 11, "ohmlore/2.0");
  EXPECT_EQ(found(xml).substr(0, 23), "2:29 format-unsupported");
}

// In step with the file: it would be minutes, were each compared with each.
TEST(Xml, attributes_and_namespaces_may_be_many) {
  std::string attributes, elements;
  for (int i = 0; i < 100000; ++i) attributes += fmt::format(" xmlns:n{}='u'", i);
  for (int i = 0; i < 100000; ++i) elements += "<note/>";
  const std::string xml = "<part xmlns='urn:ohmlore:1' format='ohmlore/1.0'" + attributes + ">" + elements;
  EXPECT_EQ(read_xml("a.xml", xml + "<n7:id/></part>").read.findings.front().rule, "xml-structure");
}

// A prefix stands for what the innermost element says that declares it, and for nothing behind that.
TEST(Xml, prefixes_hold_inside_of_their_element) {
  const auto with = [](const std::string& name, const std::string& inside) {
    return found(
        "<o:part xmlns:o='urn:ohmlore:1' format='ohmlore/1.0'><o:id>a</o:id><o:revision>1</o:revision>"
        "<o:component><o:ntc><" +
        name + ">" + inside + "</o:name></o:ntc></o:component></o:part>");
  };
  EXPECT_EQ(with("o:name", "S"), "");
  EXPECT_EQ(with("o:name xmlns:o='urn:ohmlore:1'", "S"), "");
  EXPECT_NE(with("o:name xmlns:o='u'", "S").find("is in the namespace u;"), std::string::npos);
  for (const std::string id : {"<id xmlns:p='u'>a</id>", "<id xmlns:p='u'/>"})
    EXPECT_NE(found("<part xmlns='urn:ohmlore:1' format='ohmlore/1.0'>" + id + "<p:revision/></part>")
                  .find("the prefix p stands for no namespace"),
              std::string::npos)
        << id;
}

// Namespaces in XML 1.0, [4] NCName
TEST(Xml, a_prefix_is_a_name) {
  const auto with = [](const std::string& prefix) {
    return found(fmt::format("<part xmlns='urn:ohmlore:1' xmlns:{}='u' format='ohmlore/1.0'><id>a</id>"
                             "<revision>1</revision>{}</part>",
                             prefix, component));
  };
  for (const std::string prefix : {"A", "Z", "a", "z", "_", "\xC3\xA9", "a0", "a9", "a-", "a.", "a_"})
    EXPECT_EQ(with(prefix), "") << prefix;
  for (const std::string prefix : {"0", "9a", "-a", ".a"})
    EXPECT_NE(with(prefix).find("xml-syntax: a prefix is a name"), std::string::npos) << prefix;
}

// Extensible Markup Language 1.0, [2] Char and [66] CharRef
TEST(Xml, characters_are_those_of_xml) {
  const auto is_refused = [](const std::string& text) {
    return found(part("<component><ntc><name>" + text + "</name></ntc></component>")).find("xml-syntax") !=
           std::string::npos;
  };
  for (const std::uint32_t code : {0x9u, 0xAu, 0xDu, 0x20u, 0xD7FFu, 0xE000u, 0xFFFDu, 0x10000u, 0x10FFFFu}) {
    std::string text;
    append_code_point(text, code);
    for (const std::string& written : {text, fmt::format("&#{};", code), fmt::format("&#x{:X};", code)})
      EXPECT_FALSE(is_refused(written)) << code;
  }
  for (const std::uint32_t code :
       {0x0u, 0x8u, 0xBu, 0xCu, 0xEu, 0x1Fu, 0xD800u, 0xDFFFu, 0xFFFEu, 0xFFFFu, 0x110000u})
    EXPECT_TRUE(is_refused(fmt::format("&#{};", code)) && is_refused(fmt::format("&#x{:x};", code))) << code;
  for (const std::string text : {"\x8", "\xB", "\xC", "\xE", "\x1F", "\xEF\xBF\xBE", "\xEF\xBF\xBF", "&#;",
                                 "&#x;", "&#X41;", "&#x4G;", "&#4A;", "&#-1;", "&# 65;", "&amp ;", "&Amp;"})
    EXPECT_TRUE(is_refused(text)) << text;
}

// Names that come from the descriptions must not meet those that XML adds.
TEST(Xml, names_of_members_and_kinds_are_names_in_xml) {
  const auto is_name = [](std::string_view name) {
    return is_id(name) && !(name[0] >= '0' && name[0] <= '9') && !name.starts_with("xml");
  };
  for (const Document_kind kind : {Document_kind::profile, Document_kind::part, Document_kind::corpus})
    for (const Record* record : records_of(document_record(kind))) {
      for (const Field& field : record->fields) {
        EXPECT_TRUE(is_name(field.key) || field.key == "$schema") << field.key;
        EXPECT_FALSE(field.key == "extension" || field.key == "json_schema" || field.key.starts_with("x_"));
      }
      if (record->kinds == nullptr) continue;
      for (const Word& word : record->kinds->words) EXPECT_TRUE(is_name(word.text)) << word.text;
    }
}

TEST(Xml, is_whole_or_none_where_memory_runs_out) {
  const Read_result read = read_json("a", test::larch_profile());
  test::expect_whole_or_none([&] { return xml_of(read); });
  const std::string xml = xml_of(read);
  test::expect_whole_or_none([&] { return std::string(read_xml("a", xml).read.document.text()); });
}

// Brackets of JSON become lines of XML: of those the tree alone would take many times what may be read.
TEST(Xml, is_none_where_it_could_not_be_read_again) {
  const auto with = [](std::size_t values) {
    std::string json = test::larch_profile();
    json.erase(json.rfind('}'));
    for (std::size_t i = 0; i < values; ++i)
      json += fmt::format(",\"x_{}\":{}{}", i, std::string(50, '['), std::string(50, ']'));
    return xml_of(read_json("a", json + "}"));
  };
  const std::size_t none = with(0).size(), one = with(1).size() - none, most = (most_xml_bytes - none) / one;
  EXPECT_GT(with(most - most / 50).size(), most_xml_bytes / 10 * 9);
  EXPECT_EQ(with(most + most / 50), "");
}

TEST(Xml, bytes_cut_anywhere_are_refused_and_nothing_worse) {
  const std::string xml = xml_of(read_json("a", test::larch_profile()));
  ASSERT_FALSE(xml.empty());
  for (std::size_t cut = 0; cut + 2 < xml.size(); cut += 97) {
    const Xml_import import = read_xml("a", xml.substr(0, cut));
    EXPECT_FALSE(import.read.findings.empty()) << cut;
  }
}

}
}
