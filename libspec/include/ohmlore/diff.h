// What changed between two documents: physically, in words, or in spelling alone.
#pragma once

#include <string>
#include <vector>

#include "ohmlore/resolve.h"

namespace ohmlore {

#define OHMLORE_CHANGE_WEIGHTS(word)                                                                         \
  word(spelling, "One value written in two ways, or an order that means nothing.")                           \
      word(explanation, "Names, notes, sources, waivers: whether the meaning changed, a reader must say.")   \
          word(meaning, "What is measured, expected, referred to or suspected.")
OHMLORE_ENUM(Change_weight, OHMLORE_CHANGE_WEIGHTS)

#define OHMLORE_CHANGE_KINDS(word)                                                                           \
  word(added, "Stands only in the newer document.") word(removed, "Stands only in the older document.")      \
      word(changed, "Stands in both, and differs.") word(renamed, "The same under another id.")              \
          word(exchanged, "Two entries, each with what the other one had.")                                  \
              word(reordered, "The same items in another order.")                                            \
                  word(band, "The resistances of a healthy part are others.")
OHMLORE_ENUM(Change_kind, OHMLORE_CHANGE_KINDS)

/// One side of a change; `node` 0 where there is nothing.
struct Change_side {
  Node_id node = 0;
  std::string pointer;
  Region region;
};

struct Change {
  Change_weight weight = Change_weight::meaning;
  Change_kind kind = Change_kind::changed;
  Change_side older, newer;
  std::string place;   ///< for people: "flow_sensor, model, row at 25 °C"
  std::string message; ///< what changed, with its numbers: "10 kΩ to 12 kΩ (+20 %)"
};

/// All that changed between two documents of one kind. It owns all it needs: it outlives the documents.
struct Document_diff {
  Document_kind kind = Document_kind::profile;
  std::string id;                                      ///< of the newer one; of a corpus empty
  std::string older_file, newer_file;                  ///< empty where there is no such document
  std::int64_t older_revision = 0, newer_revision = 0; ///< 0 where there is none
  std::vector<Change> changes; ///< in the order of the descriptions; `revision` itself is none

  std::size_t count(Change_weight weight) const;
  /// The meaning changed and the revision did not grow.
  bool revision_must_grow() const;
};

/// Compares two documents of one kind that were read without errors. Order means nothing but in lists whose
/// order is a statement (suspects, steps). Numbers are compared in SI, so that two spellings of one value are
/// no difference; a band is compared by its limits. With surroundings, models of parts are compared too.
Document_diff diff_documents(const Document& older, const Surroundings& older_surroundings,
                             const Document& newer, const Surroundings& newer_surroundings);

/// A document that stands on one side only.
Document_diff added_document(const Document& newer);
Document_diff removed_document(const Document& older);

/// What a comparison of files or folders gives.
struct Diff_run {
  std::vector<Document_diff> documents; ///< those that differ, by kind and id
  std::size_t compared = 0;             ///< pairs that were compared
  std::vector<Finding> findings;        ///< errors of documents that could not be compared
  std::vector<std::string> troubles;    ///< why some of the work could not be done
  std::size_t count(Change_weight weight) const;
};

/// Compares two files, or all documents below two folders: pairs are found by kind and id, corpora by their
/// place in the folder. One that may stand in a file with errors is neither gone nor new. One of the two may
/// be "-", which stands for the document `standard_input`.
Diff_run diff_paths(const std::string& older, const std::string& newer,
                    const std::string& standard_input = {});

/// The run as text, as Markdown for a review, as one JSON object (spec/v1/diff.schema.json).
std::string text_report(const Diff_run& run);
std::string markdown_report(const Diff_run& run);
std::string json_report(const Diff_run& run);

}
