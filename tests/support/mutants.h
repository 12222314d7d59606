// Documents that hold every record and kind, and small damages to them, for tests that compare two judges.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "ohmlore/description.h"

namespace ohmlore::test {

/// A generator that gives the same numbers on every machine (SplitMix64, Steele, Lea and Flood 2014).
class Dice {
public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}
  std::uint64_t next() {
    std::uint64_t z = (state_ += 0x9E3779B97F4A7C15u);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
  }
  /// 0 to below - 1
  std::size_t below(std::size_t limit) { return static_cast<std::size_t>(next() % limit); }
  template <class T>
  const T& one_of(const std::vector<T>& list) {
    return list[below(list.size())];
  }

private:
  std::uint64_t state_;
};

/// Good documents, written from the examples of the descriptions: full ones that together hold every field of
/// every kind, and sparse ones with some of the optional fields.
std::vector<std::string> documents_of_examples();

/// Every document under corpus/.
std::vector<std::string> documents_of_corpus();

struct Mutant {
  std::string json;
  std::string what; ///< was done to it
};

/// Makes mutants of documents: keys dropped, renamed or added; types changed; values of other fields;
/// containers emptied or lengthened; kinds changed; text and numbers at and beyond their limits. The same
/// seed gives the same mutants.
class Mutator {
public:
  Mutator(const std::vector<std::string>& documents, std::uint64_t seed);
  ~Mutator();
  Mutant next();

private:
  struct State;
  std::unique_ptr<State> state_;
};

/// For every key that holds text, and every map: each text at or beyond the limits of any form, in the
/// smallest document that has the key.
std::vector<Mutant> mutants_by_text(const std::vector<std::string>& documents);

/// What a document says its kind is; profile where it says nothing that can be read.
Document_kind kind_of(const std::string& json);

/// The verdict of the reader on structure alone, as far as a schema can share it: duplicate keys, forbidden
/// characters, the length of texts, nesting and the grammar of quantities are left out (spec/README.md lists
/// them). `why` gets the first finding.
bool reader_accepts(const std::string& json, std::string& why);

}
