#include "ohmlore/edit.h"

#include <algorithm>

#include <fmt/format.h>

namespace ohmlore {
namespace {

void sort(std::vector<Edit>& edits) {
  std::stable_sort(edits.begin(), edits.end(),
                   [](const Edit& a, const Edit& b) { return a.begin < b.begin; });
}

std::int64_t growth(const Edit& edit) {
  return static_cast<std::int64_t>(edit.text.size()) - static_cast<std::int64_t>(edit.end - edit.begin);
}

// One edit of the text that those it touches leave, and these, as one. `shift`: from the first text to the
// one that is edited, before the first of them.
Edit merged_with(Edit edit, const std::vector<Edit>& touched, std::int64_t shift) {
  const auto moved = [&](std::int64_t offset) { return static_cast<std::uint32_t>(offset - shift); };
  Edit merged{moved(edit.begin), moved(edit.end), std::move(edit.text)};
  for (const Edit& one : touched) {
    const std::int64_t begin = one.begin + shift, end = begin + static_cast<std::int64_t>(one.text.size());
    if (begin <= edit.begin) {
      merged.begin = std::min(merged.begin, one.begin); // of two that meet there the one in front
      merged.text.insert(0, one.text, 0, static_cast<std::size_t>(edit.begin - begin));
    }
    if (end >= edit.end) merged.text.append(one.text, static_cast<std::size_t>(edit.end - begin));
    shift += growth(one);
    merged.end = end >= edit.end ? one.end : moved(edit.end);
  }
  return merged;
}

// Whole lines that change: the bytes [begin, end) of the old text, and what stands there in the new.
struct Change {
  std::size_t begin, end;
  std::string text;
};

std::size_t line_begin(std::string_view text, std::size_t at) {
  return at == 0 ? 0 : text.rfind('\n', at - 1) + 1;
}
std::size_t line_end(std::string_view text, std::size_t at) { // past its LF
  const std::size_t end = text.find('\n', at);
  return end == std::string_view::npos ? text.size() : end + 1;
}

std::vector<Change> changes_of(std::string_view text, std::span<const Edit> edits) {
  std::vector<Change> changes;
  for (std::size_t i = 0; i < edits.size();) {
    Change change{line_begin(text, edits[i].begin), line_end(text, edits[i].end), {}};
    std::vector<Edit> inside;
    for (; i < edits.size() && (inside.empty() || edits[i].begin < change.end); ++i) {
      const auto begin = static_cast<std::uint32_t>(change.begin);
      inside.push_back({edits[i].begin - begin, edits[i].end - begin, edits[i].text});
      if (edits[i].end >= change.end) change.end = line_end(text, edits[i].end);
    }
    const std::string_view old = text.substr(change.begin, change.end - change.begin);
    change.text = apply_edits(old, inside);
    if (change.text != old) changes.push_back(std::move(change));
  }
  return changes;
}

// The lines of a stretch of text, each with its mark in front. Returns how many there are.
std::size_t append_lines(std::string& out, std::string_view lines, char mark) {
  std::size_t count = 0;
  for (; !lines.empty(); ++count) {
    const std::size_t end = line_end(lines, 0);
    out += mark;
    out += lines.substr(0, end);
    if (lines[end - 1] != '\n') out += "\n\\ No newline at end of file\n";
    lines.remove_prefix(end);
  }
  return count;
}

// A name as the head of a diff has it: with characters that would end it early, in quotation marks as in C.
std::string name_in_head(std::string_view name) {
  std::string out;
  bool plain = true;
  for (const char c : name) {
    const bool control = (c >= 0 && c < 0x20) || c == 0x7F;
    if (control)
      out += fmt::format("\\{:03o}", static_cast<unsigned>(c));
    else if (c == '"' || c == '\\')
      out += fmt::format("\\{}", c);
    else
      out += c;
    plain = plain && !control && c != '"' && c != '\\';
  }
  if (!plain) return fmt::format("\"{}\"", out);
  return name.find(' ') == std::string_view::npos ? out : out + '\t';
}

}

std::string apply_edits(std::string_view text, std::span<const Edit> edits) {
  std::vector<Edit> sorted(edits.begin(), edits.end());
  sort(sorted);
  std::string out;
  std::size_t at = 0;
  for (const Edit& edit : sorted) {
    out += text.substr(at, edit.begin - at);
    out += edit.text;
    at = edit.end;
  }
  return out += text.substr(at);
}

std::vector<Edit> combined(std::vector<Edit> first, std::vector<Edit> second) {
  sort(first);
  sort(second);
  std::vector<std::int64_t> shifts = {
      0}; // from the first text to the one between, before each of the first edits
  for (const Edit& edit : first) shifts.push_back(shifts.back() + growth(edit));

  // From the back, so that the offsets of those in front stay true.
  std::vector<Edit> behind;
  for (auto edit = second.rbegin(); edit != second.rend(); ++edit) {
    const auto left = [&](const Edit& e, std::size_t place) { return e.begin + shifts[place]; };
    for (; !first.empty() && left(first.back(), first.size() - 1) > edit->end; first.pop_back())
      behind.push_back(std::move(first.back()));
    std::vector<Edit> touched; // from the back, too
    if (!behind.empty() && left(behind.back(), first.size()) <= edit->end) {
      touched.push_back(std::move(behind.back()));
      behind.pop_back();
    }
    for (; !first.empty() &&
           left(first.back(), first.size() - 1) + static_cast<std::int64_t>(first.back().text.size()) >=
               edit->begin;
         first.pop_back())
      touched.push_back(std::move(first.back()));
    std::reverse(touched.begin(), touched.end());
    behind.push_back(merged_with(std::move(*edit), touched, shifts[first.size()]));
  }
  first.insert(first.end(), std::make_move_iterator(behind.rbegin()), std::make_move_iterator(behind.rend()));
  return first;
}

std::string unified_diff(std::string_view name, std::string_view text, std::span<const Edit> edits) {
  constexpr int context = 3;
  std::vector<Edit> sorted(edits.begin(), edits.end());
  sort(sorted);
  const std::vector<Change> changes = changes_of(text, sorted);
  if (changes.empty()) return {};
  const std::string shown = name_in_head(name);
  std::string out = fmt::format("--- {}\n+++ {}\n", shown, shown);

  const auto back = [&](std::size_t at) {
    for (int i = 0; i < context && at > 0; ++i) at = line_begin(text, at - 1);
    return at;
  };
  const auto on = [&](std::size_t at) {
    for (int i = 0; i < context && at < text.size(); ++i) at = line_end(text, at);
    return at;
  };
  std::size_t counted = 0, line = 1; // the line that begins at the byte `counted`
  std::ptrdiff_t grown = 0;          // lines that the new text has more so far
  for (std::size_t i = 0; i < changes.size();) {
    std::string body;
    const std::size_t begin = back(changes[i].begin);
    std::size_t old_lines = 0, new_lines = 0, at = begin, end = begin;
    const auto keep = [&](std::size_t to) {
      const std::size_t lines = append_lines(body, text.substr(at, to - at), ' ');
      old_lines += lines;
      new_lines += lines;
    };
    do {
      const Change& change = changes[i++];
      keep(change.begin);
      old_lines += append_lines(body, text.substr(change.begin, change.end - change.begin), '-');
      new_lines += append_lines(body, change.text, '+');
      at = change.end;
      end = on(at);
    } while (i < changes.size() && back(changes[i].begin) <= end);
    keep(end);

    line += static_cast<std::size_t>(std::count(text.begin() + static_cast<std::ptrdiff_t>(counted),
                                                text.begin() + static_cast<std::ptrdiff_t>(begin), '\n'));
    counted = begin;
    const std::size_t new_line = line + static_cast<std::size_t>(grown);
    // A side without lines names the line before it.
    fmt::format_to(std::back_inserter(out), "@@ -{},{} +{},{} @@\n{}", old_lines == 0 ? line - 1 : line,
                   old_lines, new_lines == 0 ? new_line - 1 : new_line, new_lines, body);
    grown += static_cast<std::ptrdiff_t>(new_lines) - static_cast<std::ptrdiff_t>(old_lines);
  }
  return out;
}

}
