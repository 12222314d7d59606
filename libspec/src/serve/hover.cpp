// What is shown over a place.
#include <algorithm>

#include <fmt/format.h>

#include "corpus/open_profile.h"
#include "ohmlore/cautions.h"
#include "ohmlore/curve.h"
#include "plan/instructions.h"
#include "plan/words.h"
#include "report/markdown_text.h"
#include "serve/cursor.h"
#include "serve/features.h"
#include "serve/places.h"

namespace ohmlore::serve {
namespace {

constexpr double shown_kelvin = zero_celsius + 20;

// Paragraphs, as Markdown or as plain text. What documents say is never markup.
struct Page {
  bool markdown = false;
  std::string text = {};

  std::string plain(std::string_view words) const {
    return markdown ? markdown_text(words) : printable(words);
  }
  std::string strong(std::string_view words) const {
    return markdown ? fmt::format("**{}**", markdown_text(words)) : printable(words);
  }
  void add(const std::string& paragraph) { text += paragraph + "\n\n"; }
  void items(const std::vector<std::string>& all) {
    for (const std::string& one : all) text += fmt::format("- {}\n", plain(one));
    text += '\n';
  }
  void divide() {
    if (!text.empty()) add("---");
  }
};

// What stands at the cursor that has a reading: one of the two.
struct Measured {
  const Resolved_component* component = nullptr;
  const Keyed<Test>::Entry* test = nullptr;
};

const Keyed<Test>::Entry* test_of(const Document& document, Node_id value) {
  if (document.profile() != nullptr)
    for (const auto& entry : document.profile()->tests)
      if (entry.value.node == value) return &entry;
  return nullptr;
}
const Resolved_component* component_of(const Resolved& resolved, Node_id value) {
  for (const Resolved_component& component : resolved.components)
    if (component.node == value) return &component;
  return nullptr;
}

// Of the keys of components and tests, of `expect` and `model` in them, and of what names them.
Measured measured_at(const Resolved& resolved, Node_id node) {
  const Document& document = *resolved.document;
  Node_id record = 0;
  if (document.node(node).key) {
    const Text key = document.string(node);
    const bool is_member = (key == "expect" || key == "model") && !described(document, node).is_entry;
    record = is_member ? document.node(node).parent : node + 1;
  } else if (const Target target = target_of(document, node);
             target == Target::component || target == Target::test) {
    const Declared place = declared(resolved, node, target);
    if (place.document != nullptr) record = place.key + 1;
  }
  if (record == 0) return {};
  return {component_of(resolved, record), test_of(document, record)};
}

std::string at_20_celsius(const Curve& curve) {
  const auto band = curve_band(curve, {shown_kelvin, shown_kelvin});
  const std::string at = temperature_text(shown_kelvin, Temperature_unit::celsius);
  if (!band) return fmt::format("at {}: the model says nothing here", at);
  const auto nominal = nominal_resistance(curve.model, shown_kelvin);
  return fmt::format("at {}: {}{}{}", at, band_text(*band),
                     nominal ? fmt::format(", nominal {}", describe(*nominal, Dimension::resistance)) : "",
                     curve.kelvin.contains(shown_kelvin)
                         ? std::string()
                         : "; that is " + beyond_text(curve.kelvin, Temperature_unit::celsius));
}

void add_missing_part(Page& page, const Missing_part& part) {
  page.add(page.plain(
      part.why == Missing_part::Why::broken ? fmt::format("The part {} cannot be used: {} cannot be read "
                                                          "without errors. So it is not known what it reads.",
                                                          part.id, part.broken)
      : part.why == Missing_part::Why::unread
          ? fmt::format("The part {} is not among those that could be read; {}", part.id, part.unread)
          : fmt::format("The part {} is not known here, so neither is what it reads.", part.id)));
}

void add_component(Page& page, const Resolved& resolved, const Resolved_component& component) {
  if (const auto part = missing_part(resolved, component); part && !component.own->model)
    return add_missing_part(page, *part);
  std::vector<std::string> terminals; // of each resistance that the model states
  const auto model = component.get(&Component_type::model);
  if (model)
    for (const Terminal_pair& pair : model->pairs)
      if (pair.from && pair.to) terminals.push_back(fmt::format("{},{}", *pair.from, *pair.to));
  if (terminals.empty()) terminals.emplace_back();
  std::vector<std::string> said;
  for (const std::string& pair : terminals) {
    Curve_request request;
    request.terminals = pair;
    const Curve_result result = curve_of(component, request);
    if (!result.curve) {
      page.add(page.plain(result.problem));
      continue;
    }
    if (&pair == &terminals.front()) page.add(page.strong(result.curve->title));
    page.add(page.strong((pair.empty() ? "" : pair + " ") + at_20_celsius(*result.curve)));
    for (const Curve_note& note : result.curve->notes) {
      std::string words = note_text(note);
      if (std::find(said.begin(), said.end(), words) == said.end()) said.push_back(std::move(words));
    }
  }
  for (const std::string& words : said) page.add(page.plain(words));
}

void add_test(Page& page, const Resolved& resolved, const Keyed<Test>::Entry& entry) {
  Plan_step step;
  Part_temperature temperature;
  temperature.kelvin = shown_kelvin;
  add_limits(step, resolved, entry.value, temperature);
  const std::string limits = limits_words(step);
  page.add(page.strong(fmt::format("{} should read: {}", entry.id,
                                   limits.empty() ? std::string("the profile does not say") : limits)));
}

// Whoever sees a band sees every caution before it.
void add_reading(Page& page, const Analysis& analysis, Node_id node) {
  const Document& document = analysis.read.document;
  if (document.profile() == nullptr && document.part() == nullptr) return;
  const Resolved resolved = resolve(document, analysis.around);
  const Measured measured = measured_at(resolved, node);
  if (measured.component == nullptr && measured.test == nullptr) return;
  if (!analysis.reads_without_errors())
    return page.add(page.plain("No band is shown of a document that does not read without errors."));
  if (analysis.corpus != nullptr && analysis.around.corpus == nullptr) // its policy and its parts decide
    return page.add(page.plain("No band is shown while corpus.json cannot be used: mend it first."));
  std::vector<std::string> warnings;
  if (const std::string caution = caution_of_errors(analysis.errors().size()); !caution.empty())
    warnings.push_back(caution);
  if (document.profile() != nullptr)
    for (std::string& caution : cautions_for(*document.profile())) warnings.push_back(std::move(caution));
  else
    for (const Caution& caution : cautions()) warnings.emplace_back(caution.text);
  page.items(warnings);
  if (measured.test != nullptr) return add_test(page, resolved, *measured.test);
  add_component(page, resolved, *measured.component);
  if (document.profile() != nullptr)
    for (const auto& test : document.profile()->tests)
      if (test.value.component && *test.value.component == measured.component->id)
        add_test(page, resolved, test);
}

void add_findings(Page& page, const std::vector<const Finding*>& findings) {
  std::vector<std::string_view> rules;
  for (const Finding* finding : findings) {
    page.divide();
    page.add(fmt::format("{}: {} [{}]", page.strong(word_of(finding->severity)), page.plain(finding->message),
                         finding->rule));
    if (std::find(rules.begin(), rules.end(), finding->rule) != rules.end()) continue;
    rules.push_back(finding->rule);
    page.add(std::string(find_rule(finding->rule)->page));
  }
}

// The page of a rule that a waiver or a policy names.
void add_rule(Page& page, const Document& document, Node_id node) {
  const bool names_rule = target_of(document, node) == Target::rule;
  const Rule_entry* rule = names_rule ? find_rule(document.string(node)) : nullptr;
  if (rule == nullptr) return;
  page.divide();
  page.add(std::string(rule->page));
}

// What the format says of a key, or of a word of an enumeration.
void add_meaning(Page& page, const Document& document, Node_id node) {
  const Described here = described(document, node);
  if (here.field == nullptr) return;
  if (document.node(node).key) {
    if (here.is_entry) return; // an id
    page.divide();
    page.add(fmt::format("{} ({}{}): {}", page.strong(here.field->key), page.plain(here.around->title),
                         is_required(*here.field, here.kind) ? ", required" : "",
                         page.plain(here.field->doc)));
    page.add(page.markdown ? fmt::format("```json\n\"{}\": {}\n```", here.field->key, here.field->example)
                           : fmt::format("\"{}\": {}", here.field->key, here.field->example));
  } else if (here.type != nullptr && here.type->words != nullptr &&
             document.node(node).type == Node_type::string) {
    for (const Word& word : here.type->words->words)
      if (word.text == document.string(node)) {
        page.divide();
        page.add(fmt::format("{}: {}", page.strong(word.text), page.plain(word.doc)));
      }
  }
}

// A text that is no JSON yet, since a key or a value is being typed, as it reads with that word mended; only
// for what stands there or behind it.
struct Mended {
  Read_result read;
  std::size_t longer = 0; // than the text, before the place; where it is shorter, this wraps round
};
std::optional<Mended> mended(const Document& document, std::span<const Finding> findings,
                             std::size_t offset) {
  if (document.whole()) return std::nullopt;
  const std::string_view text = document.text();
  for (const Finding& finding : findings) {
    const std::size_t stopped = finding.region.begin;
    if (finding.rule != "json-syntax" || stopped == 0) continue;
    // Behind the quotation mark that begins the word, or before the one that ends it.
    for (const std::size_t place : {stopped + 1, stopped - 1}) {
      const auto cursor = cursor_in(text, std::min(place, text.size()));
      if (!cursor || offset < cursor->begin) continue;
      std::string other = cursor->mended;
      const std::string_view word = text.substr(cursor->begin, cursor->end - cursor->begin);
      const std::string_view stand_in = "\" \"";
      if (cursor->is_key && word.size() > 1 && word.starts_with('"') && word.ends_with('"'))
        other.replace(cursor->place, stand_in.size(), word);
      const std::size_t before = offset <= cursor->end ? cursor->begin : text.size();
      const std::size_t then = offset <= cursor->end ? cursor->place : other.size();
      Mended result{read_json(document.name(), other), then - before};
      if (result.read.document.whole()) return result;
    }
  }
  return std::nullopt;
}

}

void write_hover(const Asked& asked, std::size_t offset) {
  Json_writer& out = asked.out;
  const Analysis& analysis = asked.workspace.analysis(asked.document);
  const std::optional<Mended> other = mended(analysis.read.document, analysis.findings, offset);
  const Document& document = other ? other->read.document : analysis.read.document;
  const std::size_t longer = other ? other->longer : 0;
  const Node_id node = node_at(document, offset + longer);
  const bool at_word =
      node != 0 && (document.node(node).key || document.node(node).type == Node_type::string);
  const std::size_t begin = at_word ? document.node(node).begin - longer : 0;
  const std::size_t end = at_word ? document.node(node).end - longer : 0;
  std::vector<const Finding*> of_word, of_all_around;
  for (const auto* findings : {&analysis.findings, &analysis.told_elsewhere})
    for (const Finding& finding : *findings)
      if (const Region& region = finding.region; region.begin <= offset && offset <= region.end)
        (at_word && (region.begin < begin || region.end > end) ? of_all_around : of_word).push_back(&finding);

  Page page{asked.client.markdown};
  if (at_word && !other) add_reading(page, analysis, node);
  add_findings(page, of_word);
  if (at_word) {
    add_rule(page, document, node);
    add_meaning(page, document, node);
  }
  add_findings(page, of_all_around);
  if (page.text.empty()) return void(out.Null());
  out.StartObject();
  object(out, "contents", [&] {
    member(out, "kind", page.markdown ? "markdown" : "plaintext");
    member(out, "value", page.text);
  });
  if (at_word) {
    key(out, "range");
    write_range(out, analysis.lines, begin, end, asked.client.encoding);
  }
  out.EndObject();
}

}
