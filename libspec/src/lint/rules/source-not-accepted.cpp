#include "lint/sourced.h"
#include "model/names.h"

namespace ohmlore::rules {
namespace {

// The source that a reference names, or null where none is named that could be read: others say so.
const Source* source_of(const Document& document, Node_id reference) {
  const Node_id from = document.member(reference, "from");
  if (from == 0 || document.node(from).type != Node_type::string) return nullptr;
  const Keyed<Source>* sources = document.sources();
  const auto* entry = sources != nullptr ? sources->find(document.string(from)) : nullptr;
  return entry != nullptr && entry->value.kind ? &entry->value : nullptr;
}

void check(const Subject& subject, Sink& sink) {
  const Corpus* corpus = subject.resolved.surroundings.corpus;
  if (corpus == nullptr || corpus->policy.required_sources.empty()) return;
  std::vector<std::string> accepted;
  for (const Value<Source_kind>& kind : corpus->policy.required_sources)
    if (kind) accepted.push_back(fmt::format("`{}`", word_of(*kind)));
  const auto is_accepted = [&](Source_kind kind) { return names(corpus->policy.required_sources, kind); };
  const std::string wanted = fmt::format("{}", fmt::join(accepted, " or "));

  each_sourced(subject, [&](Node_id node, const std::string& what) {
    const Node_id reference = subject.resolved.source_reference(node);
    if (reference == 0) {
      if (subject.resolved.may_have_source(node)) return;
      sink.report(node,
                  fmt::format("{} has no source, and this corpus asks for {}: cite one in `source`, here "
                              "or in a record around it",
                              what, wanted));
      return;
    }
    const Source* source = source_of(subject.document, reference);
    if (source == nullptr || is_accepted(*source->kind)) return;
    sink.report(node,
                fmt::format("the source of {} is of kind `{}`, and this corpus asks for {}: cite such a "
                            "source where the numbers stand, or take them from one",
                            what, word_of(*source->kind), wanted));
    sink.relate(reference, "this source holds here");
  });
}

}

extern const Rule source_not_accepted = {
    .family = Family::source,
    .severity = Severity::error,
    .summary = "Numbers or a pin-out have no source of a kind that the corpus asks for.",
    .check = check,
    .is_of_the_house = true,
};

}
