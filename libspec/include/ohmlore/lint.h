// The linter: rules, and the engine that runs them over one document and over a corpus.
#pragma once

#include <compare>
#include <initializer_list>
#include <memory>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/resolve.h"

namespace ohmlore {

enum class Family : std::uint8_t {
  json,
  shape,
  unit,
  band,
  ntc,
  ptc,
  rtd,
  copper,
  heater,
  coil,
  network,
  meter,
  pin,
  fault,
  safety,
  source,
  corpus
};
std::string_view name_of(Family family);

/// Life of a rule. A preview rule never fails a gate; a deprecated one works on, and names its successor.
enum class Rule_status : std::uint8_t { preview, stable, deprecated };
std::string_view name_of(Rule_status status);

/// A version of the set of stable rules. A corpus that pins one is not failed by rules that came later.
struct Ruleset {
  unsigned major = 1, minor = 0;
  friend auto operator<=>(const Ruleset&, const Ruleset&) = default;
};
inline constexpr Ruleset current_ruleset = {1, 0};
std::string name_of(Ruleset ruleset);
/// "1.0"; nothing where the text is no version.
std::optional<Ruleset> ruleset_of(std::string_view text);

/// What a rule looks at: one document, bound to its surroundings.
struct Subject {
  Subject(const Document& document, const Resolved& resolved);
  ~Subject();
  Subject(const Subject&) = delete;
  Subject& operator=(const Subject&) = delete;

  const Document& document;
  const Resolved& resolved;
  /// What rules share, found once; a subject is for one thread.
  const std::unique_ptr<struct Worked_out> worked_out;
  const Profile* profile() const { return document.profile(); }
};

/// Takes the findings of one rule. They are rare: what makes them is kept apart from the code that runs over
/// every document.
class Sink {
public:
  Sink(const Document& document, std::string_view rule, Severity severity, std::vector<Finding>& findings)
      : document_(document), rule_(rule), severity_(severity), findings_(findings) {}

  /// A finding about the value at `node`, with the severity of the rule. The reference holds until the next
  /// call.
  [[gnu::cold]] Finding& report(Node_id node, std::string message) {
    return report_as(severity_, node, std::move(message));
  }
  /// The same with another severity, where the rule's page says when.
  [[gnu::cold]] Finding& report_as(Severity severity, Node_id node, std::string message);
  /// Explains the finding by another place of the same document.
  [[gnu::cold]] void relate(Node_id node, std::string message) {
    relate(document_, node, std::move(message));
  }
  [[gnu::cold]] void relate(const Document& document, Node_id node, std::string message);
  /// The last `size` findings, two at least, come of one mistake: where none of them is suppressed, the first
  /// is told for all, in these words. Each has a key of its own, so that a baseline or a waiver of some does
  /// not hide others.
  [[gnu::cold]] void tell_as_one(std::size_t size, std::string message);
  /// The same, and what is told is the first of the worst, as it is.
  [[gnu::cold]] void tell_the_worst(std::size_t size);
  /// Not all was looked at: no baseline may know this document, as what is new in it would be hidden.
  void not_all_is_told() { all_told_ = false; }
  bool all_told() const { return all_told_; }

private:
  const Document& document_;
  std::string_view rule_;
  Severity severity_;
  std::vector<Finding>& findings_;
  bool all_told_ = true;
};

/// Something that one document says and that must agree over a corpus. It owns all it needs, so that facts of
/// many machines can be judged together without the documents.
struct Fact {
  std::string_view rule;
  std::string_view key;   ///< facts of one key are judged together
  std::string_view value; ///< what is compared
  std::string_view text;  ///< what a message says of it
  std::string_view file;
  std::string_view document; ///< see Finding: facts are in an order that no moved file changes; may be empty
  Region region;
  std::string_view pointer;
  std::string_view source_line;
  std::uint32_t source_column = 1;
  std::shared_ptr<const char[]> texts; ///< where the texts lie: in one piece for all facts of a document
};

/// All that is kept of a fact until it is known whether others contradict it: hashes of its rule and key, and
/// of the words in which it is said.
struct Fact_mark {
  std::uint64_t key = 0;
  std::uint64_t said = 0;
  bool operator==(const Fact_mark&) const = default;
};

struct Rule_entry;

/// Takes the facts of one rule: whole, their marks, or both.
class Fact_sink {
public:
  Fact_sink(const Document& document, const Rule_entry& rule, Arena& texts, std::vector<Fact>& facts,
            std::vector<Fact_mark>* marks = nullptr)
      : document_(document), rule_(rule), texts_(&texts), facts_(&facts), marks_(marks) {}
  Fact_sink(const Document& document, const Rule_entry& rule, std::vector<Fact_mark>& marks)
      : document_(document), rule_(rule), marks_(&marks) {}
  /// Asked before each fact: whether to add it. False where its mark does. Facts of one key that are `said`
  /// in the same words must agree.
  bool wants(std::string_view key, std::initializer_list<std::string_view> said);
  /// The texts are copied.
  void add(Node_id node, std::string_view key, std::string_view value, std::string_view text);

private:
  const Document& document_;
  const Rule_entry& rule_;
  Arena* texts_ = nullptr;
  std::vector<Fact>* facts_ = nullptr;
  std::vector<Fact_mark>* marks_ = nullptr;
};

/// See Sink::tell_as_one and tell_the_worst.
void tell_as_one(std::span<Finding> findings, std::size_t size, std::string message);
void tell_the_worst(std::span<Finding> findings, std::size_t size);

/// A finding at the place of a fact.
Finding finding_of(const Fact& fact, Severity severity, std::string message);
Related related_of(const Fact& fact, std::string message);

/// One rule. Its slug is the name of its source file, of its page and of its folder of cases.
struct Rule {
  Family family = Family::shape;
  Severity severity = Severity::error; ///< of its findings, unless the page says when another applies
  std::string_view summary;            ///< one sentence: what it finds
  /// Looks at one document. Null for what the reader or the engine itself reports.
  void (*check)(const Subject& subject, Sink& sink) = nullptr;
  /// Corpus-wide: what one document says, and the verdict on all facts of one key, two at least, sorted by
  /// value, document, file and place.
  void (*collect)(const Subject& subject, Fact_sink& sink) = nullptr;
  void (*judge)(std::span<const Fact> facts, Severity severity, std::vector<Finding>& findings) = nullptr;
  /// The verdict is on facts that no other shares its key with: it holds where the whole corpus was looked
  /// at, and is left out elsewhere.
  bool judges_lone_facts = false;
  /// It finds what the keeper of a corpus asked for, not what is wrong in itself: a policy may lower even its
  /// errors.
  bool is_of_the_house = false;
  Rule_status status = Rule_status::stable;
  /// `check` goes by what is not there: it looks at no document in which something could not be read, as that
  /// may be it. Such a rule finds no errors: mending one place of a document brings none to light elsewhere.
  bool goes_by_absence = false;
  /// Which of several records `check` tells goes by which it meets first. The order of members means nothing:
  /// where such a rule found something, all such are asked again, of the records in the order of their ids.
  bool goes_by_order = false;
  Ruleset since = {1, 0};            ///< the set in which it came to be stable; of a preview rule unused
  std::string_view replaced_by = {}; ///< of a deprecated rule the slug of its successor
};

/// Where a rule is in its life: "preview", "stable", "stable since 1.1", "deprecated, replaced by X". Of the
/// first set the version goes without saying.
std::string life_of(const Rule& rule);

/// A rule with its slug and its page (Markdown of spec/v1/rules).
struct Rule_entry {
  std::string_view slug;
  const Rule* rule = nullptr;
  std::string_view page;
};

/// All rules, sorted by slug.
std::span<const Rule_entry> all_rules();
/// The rule of a slug, or null.
const Rule_entry* find_rule(std::string_view slug);
/// The rule of a finding or a fact. Of what no rule of the linter finds (see import_problems) it is one that
/// stands for any reader: an error of the family shape, which fails, and which nothing waives.
const Rule& rule_of(std::string_view slug);

/// A waiver as the engine keeps it after its document is gone.
struct Kept_waiver {
  std::string rule, at, why, until;
  Finding unused; ///< what is reported where it waives nothing; without a message nothing is
};

/// What linting one document gives; the document may be dropped afterwards.
struct Linted {
  std::string file;
  std::string document; ///< see Finding; empty where no id can be read
  std::vector<Finding> findings;
  std::vector<Fact> facts;      ///< of the corpus-wide rules
  std::vector<Fact_mark> marks; ///< in their place, where they were asked for
  std::vector<Kept_waiver> waivers;
  std::vector<std::string> troubles; ///< rules that could not do their work
  bool whole = false; ///< it parsed to its end, and no finding of the reader or of the house was left out
  bool all_rules_ran =
      false;              ///< and nothing was refused, no part missing: what a rule did not find is not there
  bool is_corpus = false; ///< the document of a root: where one is linted, the whole corpus is
};

struct Lint_options {
  std::string today;       ///< YYYY-MM-DD, for waivers with a last day; empty: none has expired
  bool no_waivers = false; ///< of documents that are not trusted: no waiver of theirs silences anything
  bool part_of_run =
      false; ///< more documents are linted elsewhere: whether a waiver is unused is known there
};

/// Runs rules over one document that was read, all of them unless some are given. Never throws on bad input.
/// What a rule throws is a trouble of the document, and the other rules run.
Linted lint_document(const Read_result& read, const Surroundings& surroundings,
                     std::span<const Rule_entry> rules = all_rules());

/// Facts of many documents need much memory, and hardly any is contradicted: marks tell whose facts to
/// collect.
enum class Kept_facts : std::uint8_t { whole, marks };

/// The same over several documents with the same surroundings, in their order. Each rule looks at all of them
/// before the next one does: its code then stays in the processor's caches. `batch` is a number that pays:
/// with more, the documents leave the caches.
std::vector<Linted> lint_documents(std::span<const Read_result> read, const Surroundings& surroundings,
                                   std::span<const Rule_entry> rules = all_rules(),
                                   Kept_facts kept = Kept_facts::whole);
inline constexpr std::size_t batch = 8;

/// Which of several documents to collect the facts of, by their marks, in order: the verdicts on those facts
/// are the verdicts on all.
std::vector<std::size_t> contested(std::span<const Linted> linted);
/// The facts of one document; `marks` takes theirs, where somebody asks.
std::vector<Fact> facts_of(const Read_result& read, const Surroundings& surroundings,
                           std::vector<Fact_mark>* marks = nullptr);
/// The verdicts of the corpus-wide rules; where `files` are given, those in which one of them has a say, and
/// those on facts that no other shares its key with.
std::vector<Finding> judge_facts(std::vector<Fact> facts,
                                 const std::set<std::string, std::less<>>* files = nullptr);

/// Whether findings of a rule can fail a gate: it is no preview rule, and not newer than the set of rules
/// that the corpus pins.
bool may_fail(const Rule& rule, const Corpus* corpus);
/// The failing level that the policy of a corpus states; error where it states none, or there is no corpus.
Severity failing_level(const Corpus* corpus);
/// Whether a finding fails a gate: it is at or above its failing level, and of a rule that can.
bool fails(const Finding& finding, Severity fail_on, const Corpus* corpus);
/// Why a corpus cannot be judged by the rules that this program has, or nothing: it pins a set that is newer.
std::string ruleset_problem(const Corpus& corpus, Ruleset known = current_ruleset);

/// True where a waiver may silence the findings of a rule: not those of the reader, which leaves out what it
/// refuses, so that no other rule looks at it.
bool can_be_waived(const Rule& rule);

/// The steps after all documents: waivers, unused waivers, policy, order. `findings` of the corpus-wide rules
/// are given to the files they stand in. An error keeps its severity, but for rules of the house; a waiver in
/// place silences it.
/// What waivers silence is not among the findings; `waived` takes it, where somebody asks. Left to do are
/// `tell_once`, and `fails` of each finding.
std::vector<Finding> settle(std::vector<Linted> linted, std::vector<Finding> judged, const Corpus* corpus,
                            const Lint_options& options, std::vector<Finding>* waived = nullptr);

/// Of each group of which all findings are left, the first in the words for all; the others go. For when
/// everything is suppressed that will be. `untold` takes those that go, where somebody asks.
void tell_once(std::vector<Finding>& findings, std::vector<Finding>* untold = nullptr);

/// Reads and lints one document beside what surrounds it, without the other documents of its corpus. All
/// findings, in order, by the policy there; those at or above its failing level fail. `waived` takes what
/// waivers silence, `troubles` why a rule could not do its work: then not all is looked at.
std::vector<Finding> lint_text(std::string name, std::string_view bytes,
                               const Surroundings& surroundings = {}, const Lint_options& options = {},
                               std::vector<Finding>* waived = nullptr,
                               std::vector<std::string>* troubles = nullptr);

}
