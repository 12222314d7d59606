// What the redirects of a corpus say of ids.
#pragma once

#include "lint/rule.h"

namespace ohmlore::rules {

/// Calls `f(kind, ids)` for each kind of document of which a corpus redirects ids.
template <class F>
void each_redirected_kind(const Subject& subject, F f) {
  const Corpus* corpus = subject.document.corpus();
  if (corpus == nullptr || subject.resolved.surroundings.corpus == nullptr)
    return; // without it no part is known
  f(std::string_view("profile"), corpus->redirects.profiles);
  f(std::string_view("part"), corpus->redirects.parts);
}

/// The document's own id, `f(kind, id, ids)`, with what its corpus redirects of that kind. Most documents
/// have nothing to do with redirects: what they say of their id is asked for only where it matters.
template <class F>
void with_own_id(const Subject& subject, F f) {
  const Corpus* corpus = subject.resolved.surroundings.corpus;
  if (corpus == nullptr || !corpus->redirects) return;
  if (const Profile* profile = subject.profile(); profile != nullptr && profile->id)
    f(std::string_view("profile"), profile->id, corpus->redirects.profiles);
  if (const Part* part = subject.document.part(); part != nullptr && part->id)
    f(std::string_view("part"), part->id, corpus->redirects.parts);
}

}
