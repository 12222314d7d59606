// What was found, shown: as text for people, as JSON for programs.
#include <algorithm>

#include <fmt/format.h>

#include "model/spoken.h"
#include "ohmlore/cautions.h"
#include "ohmlore/find.h"
#include "report/json_members.h"
#include "report/lines.h"

namespace ohmlore {
namespace {

std::size_t shown_of(const Find_run& run, std::size_t most) {
  return most == 0 ? run.found.size() : std::min(most, run.found.size());
}

std::string listed(const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& text : texts) out += fmt::format("{}{}", out.empty() ? "" : ", ", text);
  return out;
}

// "larch: model Larch 24 C", and what it is where it is not the word itself.
std::string in_words(const Find_match& match) {
  std::string out = fmt::format("{}: {} {}", match.word, spoken(match.field), match.text);
  switch (match.likeness) {
  case Likeness::same: break;
  case Likeness::beginning: out += " (begins so)"; break;
  case Likeness::inside: out += " (holds it)"; break;
  case Likeness::misspelt: out += " (spelt nearly so)"; break;
  }
  return out;
}

void add_profile(Lines& lines, const Found_profile& profile, std::size_t number) {
  const std::string board = profile.board.empty() ? "" : fmt::format("; board {}", profile.board);
  lines.wrapped(fmt::format("{}. ", number),
                printable(fmt::format("{} {}{}", profile.maker, listed(profile.models), board)));
  lines.add("profile", profile.file);
  for (const Found_code& code : profile.codes)
    lines.add("code", code.meaning.empty() ? code.shown : fmt::format("{}: {}", code.shown, code.meaning));
  for (const Find_match& match : profile.matches) lines.add("found", in_words(match));
}

}

std::string text_report(const Find_run& run, std::size_t most) {
  Lines lines;
  const std::size_t shown = shown_of(run, most);
  for (std::size_t i = 0; i < shown; ++i) {
    add_profile(lines, run.found[i], i + 1);
    lines.out += '\n';
  }
  if (shown < run.found.size())
    lines.out += fmt::format("and {} more; add a word, or see all with --most 0\n", run.found.size() - shown);
  if (!run.missing.empty())
    lines.wrapped(
        "",
        printable(run.found.empty()
                      ? fmt::format("no profile of {} holds {}; try a piece of it, or a model, board or code",
                                    run.profiles, listed(run.missing))
                      : fmt::format("none of these holds {}", listed(run.missing))));
  if (!run.found.empty()) lines.wrapped("! ", shortest_caution());
  return lines.out;
}

std::string json_report(const Find_run& run, std::size_t most) {
  return written_report("ohmlore-find/1.0", [&](Json_writer& out) {
    all_cautions(out);
    texts(out, "words", run.words);
    texts(out, "missing", run.missing);
    number(out, "searched", run.profiles);
    number(out, "found", run.found.size());
    const std::vector<Found_profile> shown(
        run.found.begin(), run.found.begin() + static_cast<std::ptrdiff_t>(shown_of(run, most)));
    list(out, "profiles", shown, [&](const Found_profile& profile) {
      member(out, "file", profile.file);
      member(out, "id", profile.id);
      if (!profile.title.empty()) member(out, "title", profile.title);
      if (!profile.maker.empty()) member(out, "maker", profile.maker);
      texts(out, "models", profile.models);
      if (!profile.board.empty()) member(out, "board", profile.board);
      list(out, "codes", profile.codes, [&](const Found_code& code) {
        member(out, "id", code.id);
        member(out, "shown", code.shown);
        if (!code.meaning.empty()) member(out, "meaning", code.meaning);
      });
      list(out, "matches", profile.matches, [&](const Find_match& match) {
        member(out, "word", match.word);
        word(out, "field", match.field);
        word(out, "likeness", match.likeness);
        member(out, "text", match.text);
        texts(out, "codes", match.codes);
      });
    });
    texts(out, "troubles", run.troubles);
  });
}

}
