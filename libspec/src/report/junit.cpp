// JUnit XML, as the schema of the Ant task writes it (Windy Road's JUnit.xsd), which viewers of most services
// read.
#include <map>

#include <fmt/format.h>
#include <pugixml.hpp>

#include "ohmlore/report.h"
#include "text/xml_text.h"

namespace ohmlore {
namespace {

// What XML 1.0 cannot hold ([2] Char) is shown as what it is.
std::string for_xml(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const char32_t c = next_code_point(text, i);
    const bool control = c < 0x20 && c != '\t' && c != '\n' && c != '\r';
    if (control || c == 0xFFFE || c == 0xFFFF)
      out += fmt::format("\\u{{{:04X}}}", static_cast<std::uint32_t>(c));
    else
      append_code_point(out, c);
  }
  return out;
}

void set(pugi::xml_node node, const char* name, const std::string& value) {
  add_attribute(node, name, for_xml(value).c_str());
}
void count(pugi::xml_node node, const char* name, std::size_t value) {
  add_attribute(node, name, std::to_string(value).c_str());
}
void say(pugi::xml_node node, const std::string& text) { add_text(node, for_xml(text).c_str()); }

struct Suite {
  std::string name;
  // By what became of them, then by rule: what fails, what does not, what is suppressed.
  std::map<std::string_view, std::vector<const Finding*>> failing, passing, suppressed;
};

class Writer {
public:
  Writer(pugi::xml_node root, const Report_context& context) : root_(root), context_(context) {}

  void troubles(const std::vector<std::string>& troubles) {
    if (troubles.empty()) return;
    begin("ohmlore", troubles.size(), 0, troubles.size(), 0);
    for (const std::string& trouble : troubles) {
      pugi::xml_node error = add_element(test("the work could not be done"), "error");
      set(error, "message", trouble);
      set(error, "type", "trouble");
      say(error, trouble);
    }
    end({});
  }

  void suite(const Suite& of) {
    const std::size_t tests = of.failing.size() + of.passing.size() + of.suppressed.size();
    begin(of.name, std::max<std::size_t>(tests, 1), of.failing.size(), 0, of.suppressed.size());
    if (tests == 0) test("nothing found");
    for (const auto& [rule, findings] : of.failing) {
      pugi::xml_node failure = add_element(test(std::string(rule)), "failure");
      set(failure, "message", title(findings));
      set(failure, "type", std::string(word_of(findings.front()->severity)));
      say(failure, text_of(findings));
    }
    std::string below;
    for (const auto& [rule, findings] : of.passing) {
      test(fmt::format("{} (does not fail)", rule));
      below += text_of(findings);
    }
    for (const auto& [rule, findings] : of.suppressed) {
      pugi::xml_node skipped = add_element(test(fmt::format("{} (suppressed)", rule)), "skipped");
      const Finding_suppression& why = *findings.front()->suppressed;
      set(skipped, "message",
          fmt::format("{}{}{}", why.by == Suppressed_by::waiver ? "waived" : "in the baseline",
                      why.why.empty() ? "" : ": ", why.why));
      say(skipped, text_of(findings));
    }
    end(below);
  }

private:
  static std::string text_of(const std::vector<const Finding*>& findings) {
    std::string out;
    for (const Finding* finding : findings) out += text_report(*finding);
    return out;
  }
  static std::string title(const std::vector<const Finding*>& findings) {
    const Finding& first = *findings.front();
    return fmt::format("{}:{}: {}{}", first.region.first.line, first.region.first.column,
                       printable(first.message),
                       findings.size() > 1 ? fmt::format(" (and {} more)", findings.size() - 1) : "");
  }

  void begin(const std::string& name, std::size_t tests, std::size_t failures, std::size_t errors,
             std::size_t skipped) {
    suite_ = add_element(root_, "testsuite");
    name_ = printable(name);
    set(suite_, "name", name_);
    set(suite_, "package", "ohmlore");
    count(suite_, "id", number_++);
    set(suite_, "timestamp", context_.started);
    set(suite_, "hostname", "localhost"); // the schema's word for one that is not told
    count(suite_, "tests", tests);
    count(suite_, "failures", failures);
    count(suite_, "errors", errors);
    count(suite_, "skipped", skipped);
    set(suite_, "time", "0"); // required, and not measured for each file
    add_element(suite_, "properties");
  }
  pugi::xml_node test(const std::string& name) {
    pugi::xml_node node = add_element(suite_, "testcase");
    set(node, "name", name);
    set(node, "classname", name_);
    set(node, "time", "0");
    return node;
  }
  void end(const std::string& said) {
    say(add_element(suite_, "system-out"), said);
    add_element(suite_, "system-err");
  }

  pugi::xml_node root_;
  const Report_context& context_;
  pugi::xml_node suite_;
  std::string name_;
  std::size_t number_ = 0;
};

}

std::string junit_report(const Lint_run& run, const Report_context& context) {
  pugi::xml_document document;
  add_declaration(document);
  Writer writer(add_element(document, "testsuites"), context);
  writer.troubles(run.troubles);

  // Suites in the order of the files; what was read beside them (a baseline) comes last.
  std::vector<Suite> suites;
  std::map<std::string_view, std::size_t> by_file;
  const auto suite_of = [&](const std::string& file) -> Suite& {
    const auto [at, fresh] = by_file.emplace(file, suites.size());
    if (fresh) suites.push_back({file, {}, {}, {}});
    return suites[at->second];
  };
  for (const std::string& file : run.files) suite_of(file);
  for (const Finding& finding : run.findings) {
    Suite& suite = suite_of(finding.file);
    (finding.fails ? suite.failing : suite.passing)[finding.rule].push_back(&finding);
  }
  for (const Finding& finding : run.suppressed)
    suite_of(finding.file).suppressed[finding.rule].push_back(&finding);
  for (const Suite& suite : suites) writer.suite(suite);

  return xml_text(document);
}

}
