#include <algorithm>
#include <map>
#include <span>

#include "lint/rule.h"
#include "text/counted.h"

namespace ohmlore::rules {
namespace {

// What a kind of reference is looked up in; the ids sorted, since of several as near the first is meant.
struct Place {
  std::string_view noun, key;
  std::vector<std::string_view> ids = {};
  std::vector<Node_id> missed = {}; // what names one, where there are none
};

bool holds(const Place& place, Text id) { return std::binary_search(place.ids.begin(), place.ids.end(), id); }

template <class T>
Place place(const Subject& subject, std::string_view noun, std::string_view key, Keyed<T> Profile::*map) {
  Place place{noun, key};
  if (const Profile* profile = subject.profile()) place.ids = ids_of(profile->*map);
  std::sort(place.ids.begin(), place.ids.end());
  return place;
}

Place place_of(const Subject& subject, Target target) {
  switch (target) {
  case Target::component: return place(subject, "component", "components", &Profile::components);
  case Target::connector: return place(subject, "connector", "connectors", &Profile::connectors);
  case Target::circuit: return place(subject, "circuit", "circuits", &Profile::circuits);
  case Target::test: return place(subject, "test", "tests", &Profile::tests);
  case Target::source: {
    Place place{"source", "sources"};
    if (const Keyed<Source>* sources = subject.document.sources()) place.ids = ids_of(*sources);
    std::sort(place.ids.begin(), place.ids.end());
    return place;
  }
  default: return {};
  }
}

// What nearly every reference is: told without the lists. Parts, rules and contacts are for other rules; a
// condition is looked up in its component.
bool is_there(const Subject& subject, Target target, Text id) {
  const Resolved& resolved = subject.resolved;
  switch (target) {
  case Target::component: return resolved.component(id) != nullptr;
  case Target::connector: return resolved.connector(id) != nullptr;
  case Target::circuit: return resolved.circuit(id) != nullptr;
  case Target::test: return resolved.test(id) != nullptr;
  case Target::source:
    return subject.document.sources() != nullptr && subject.document.sources()->find(id) != nullptr;
  default: return true;
  }
}

void report_none_declared(const Document& document, const Place& place, Sink& sink) {
  const auto missing = [&](Node_id node) {
    return fmt::format("there is no {} {}, nor any other: `{}` has none", place.noun, document.string(node),
                       place.key);
  };
  for (const Node_id node : place.missed) sink.report(node, missing(node) + "; declare it there");
  if (place.missed.size() > 1)
    sink.tell_as_one(place.missed.size(),
                     fmt::format("{}; declare there what is named in {}", missing(place.missed[0]),
                                 counted(place.missed.size(), "place")));
}

// All places that name one id, which is not there: told once, and mended at once.
void report_missing(const Document& document, const Place& place, Text id, const std::vector<Node_id>& named,
                    std::string_view near, Sink& sink) {
  const std::string message =
      fmt::format("there is no {} {}{}", place.noun, id,
                  near.empty() ? fmt::format("; declare it in `{}`, or name one that stands there", place.key)
                               : fmt::format("; did you mean {}?", near));
  const std::string written = fmt::format("\"{}\"", near);
  const auto fix_at = [&](std::span<const Node_id> places) {
    Fix fix{"write " + written, Fix_safety::unsafe, {}};
    if (places.size() > 1) fix.description += fmt::format(" in {} places", places.size());
    for (const Node_id at : places)
      fix.edits.push_back({document.node(at).begin, document.node(at).end, written});
    return fix;
  };
  for (std::size_t i = 0; i < named.size(); ++i) {
    Finding& finding = sink.report(named[i], message);
    if (!near.empty()) // the first is told for all
      finding.fixes.push_back(fix_at(std::span(named).subspan(i, i == 0 ? named.size() : 1)));
  }
  if (named.size() > 1)
    sink.tell_as_one(named.size(), fmt::format("{} ({} is named in {} places)", message, id, named.size()));
}

void check(const Subject& subject, Sink& sink) {
  const Document& document = subject.document;
  std::map<Target, Place> places;
  std::map<std::pair<Target, Text>, std::vector<Node_id>> missing;
  for (const Reference_use& use : document.references()) {
    const Text id = document.string(use.node);
    if (is_there(subject, use.target, id)) continue;
    auto known = places.find(use.target);
    if (known == places.end()) known = places.emplace(use.target, place_of(subject, use.target)).first;
    Place& place = known->second;
    if (holds(place, id)) continue; // but could not be read
    if (place.ids.empty()) {
      // A map that could not be read is reported as such, once.
      const Node_id map = document.member(Document::root, place.key);
      const bool is_empty =
          map != 0 && document.node(map).type == Node_type::object && document.node(map).count == 0;
      if (is_empty || !stated(document, Document::root, place.key)) place.missed.push_back(use.node);
      continue;
    }
    missing[{use.target, id}].push_back(use.node);
  }
  std::size_t hints = 1000; // each asks all ids; who has more to mend than that needs no hints
  for (const auto& [what, named] : missing) {
    const Place& place = places[what.first];
    const std::string_view near = hints > 0 ? nearest_word(what.second, place.ids) : std::string_view();
    if (hints > 0) --hints;
    if (!near.empty() && !is_id(near)) continue; // "boiler sensor", of which id-malformed tells
    report_missing(document, place, what.second, named, near, sink);
  }
  for (const auto& [target, place] : places) report_none_declared(document, place, sink);
}

}

extern const Rule reference_dangling = {
    .family = Family::fault,
    .severity = Severity::error,
    .summary = "A component, connector, circuit, test or source is named that the document does not have.",
    .check = check,
};

}
