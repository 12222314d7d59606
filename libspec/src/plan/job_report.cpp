// The record of a job, as JSON that is read back, and as Markdown for the file.
#include <fmt/format.h>

#include "lint/rule.h"
#include "model/spoken.h"
#include "ohmlore/job.h"
#include "publish/job_records.h"
#include "report/json_members.h"

namespace ohmlore {
namespace {

// What is not filled in is left out, so that whoever reads it sees that it is missing.
void filled(Json_writer& out, std::string_view name, const std::string& text) {
  if (!text.empty()) member(out, name, text);
}
void filled(Json_writer& out, std::string_view name, const std::optional<bool>& truth) {
  if (!truth) return;
  key(out, name);
  out.Bool(*truth);
}

void reading_values(Json_writer& out, const Job_reading& one) {
  member(out, "test", one.test);
  member(out, "reading", one.reading);
  filled(out, "time", one.time);
  filled(out, "side", one.side);
  filled(out, "probes", one.probes);
  filled(out, "range", one.range);
  filled(out, "temperature", one.temperature);
  filled(out, "taken", one.taken);
  if (one.minutes_since_running)
    number(out, "minutes_since_running", static_cast<std::uint64_t>(*one.minutes_since_running));
  filled(out, "reverse", one.reverse);
  filled(out, "twin", one.twin);
  filled(out, "at_part", one.at_part);
  filled(out, "after", one.after);
  filled(out, "after_temperature", one.after_temperature);
  filled(out, "answered", one.answered);
  filled(out, "note", one.note);
  if (one.result) word(out, "result", *one.result);
  filled(out, "limits", one.limits);
}

}

std::string json_report(const Job& job) {
  return written_report(job_format, [&](Json_writer& out) {
    member(out, "profile", job.profile);
    number(out, "revision", static_cast<std::uint64_t>(job.revision));
    filled(out, "hash", job.hash);
    list(out, "parts", job.parts, [&](const Job_source& one) {
      member(out, "id", one.id);
      number(out, "revision", static_cast<std::uint64_t>(one.revision));
      filled(out, "hash", one.hash);
    });
    texts(out, "cautions", job.cautions);
    texts(out, "codes", job.codes);
    object(out, "appliance", [&] {
      filled(out, "maker", job.maker);
      filled(out, "model", job.model);
      filled(out, "serial", job.serial);
      filled(out, "board", job.board);
      filled(out, "software", job.software);
    });
    filled(out, "time", job.time);
    filled(out, "who", job.who);
    list(out, "proved_dead", job.proved_dead, [&](const Job_proof& one) {
      member(out, "where", one.where);
      filled(out, "detector", one.detector);
      filled(out, "seen", one.seen);
      filled(out, "checked_before", one.checked_before);
      filled(out, "checked_after", one.checked_after);
    });
    list(out, "stored_charge", job.stored_charge, [&](const Job_charge& one) {
      member(out, "where", one.where);
      filled(out, "waited", one.waited);
      filled(out, "seen", one.seen);
    });
    object(out, "meter", [&] {
      filled(out, "name", job.meter);
      filled(out, "serial", job.meter_serial);
      filled(out, "calibrated", job.calibrated);
      filled(out, "accuracy", job.accuracy);
      filled(out, "leads", job.leads);
    });
    filled(out, "decision_rule", job.decision_rule);
    list(out, "readings", job.readings, [&](const Job_reading& one) { reading_values(out, one); });
    texts(out, "conclusion", job.conclusion);
    filled(out, "action", job.action);
    list(out, "replaced", job.replaced, [&](const Job_part& one) {
      member(out, "component", one.component);
      filled(out, "orderable", one.orderable);
      filled(out, "serial", one.serial);
    });
    filled(out, "note", job.note);
    member(out, "return_to_service", not_decided_here);
  });
}

namespace {

// Text of a person inside Markdown: what would be markup is escaped.
std::string plain(std::string_view text) {
  std::string out;
  for (const char c : printable(text)) {
    if (std::string_view("\\`*_{}[]<>#|~").find(c) != std::string_view::npos) out += '\\';
    out += c;
  }
  return out;
}
constexpr std::string_view blank = "\\_\\_\\_\\_\\_\\_\\_\\_";
std::string or_blank(const std::string& text) { return text.empty() ? std::string(blank) : plain(text); }
std::string or_blank(const std::optional<bool>& truth) {
  return !truth ? std::string(blank) : *truth ? "yes" : "no";
}
std::string temperature_words(const Job_reading& one) {
  if (one.temperature.empty()) return {};
  std::string out = one.temperature;
  if (!one.taken.empty()) out += ", " + spoken(one.taken);
  if (one.minutes_since_running) out += fmt::format(", {} min after running", *one.minutes_since_running);
  return out;
}
std::string more_words(const Job_reading& one) {
  std::string out;
  const auto add = [&](const char* what, const std::string& text) {
    if (!text.empty()) out += fmt::format("{}{} {}", out.empty() ? "" : "; ", what, text);
  };
  add("on the part", one.at_part);
  add("reversed", one.reverse);
  add("twin", one.twin);
  add("after", one.after);
  if (!one.after.empty()) add("at", one.after_temperature);
  if (one.answered)
    out += fmt::format("{}{}", out.empty() ? "" : "; ", *one.answered ? "answers" : "does not answer");
  add("note:", one.note);
  return out;
}

}

std::string markdown_report(const Job& job) {
  std::string out = fmt::format("# Job record: {}\n\n", plain(fmt::format("{}", fmt::join(job.codes, ", "))));
  for (const std::string& caution : job.cautions) out += fmt::format("> {}\n>\n", plain(caution));
  out.resize(out.size() - 2); // the last line of the quotation
  const auto field = [&](const char* name, const std::string& text) {
    out += fmt::format("- {}: {}\n", name, text);
  };
  out += "\n## Appliance\n\n";
  field("maker and model", or_blank(job.maker) + ", " + or_blank(job.model));
  field("serial number", or_blank(job.serial));
  field("control board", or_blank(job.board) + ", software " + or_blank(job.software));
  field("when, by whom", or_blank(job.time) + ", " + or_blank(job.who));
  out += "\n## Proved dead\n\n| where | detector | checked before | checked after | seen |\n| --- | --- | "
         "--- | --- | --- "
         "|\n";
  for (const Job_proof& one : job.proved_dead)
    out += fmt::format("| {} | {} | {} | {} | {} |\n", plain(one.where), or_blank(one.detector),
                       or_blank(one.checked_before), or_blank(one.checked_after), or_blank(one.seen));
  if (job.proved_dead.empty()) out += fmt::format("| {0} | {0} | {0} | {0} | {0} |\n", blank);
  if (!job.stored_charge.empty()) {
    out += "\n## Stored charge\n\n| where | waited | seen then |\n| --- | --- | --- |\n";
    for (const Job_charge& one : job.stored_charge)
      out += fmt::format("| {} | {} | {} |\n", plain(one.where), or_blank(one.waited), or_blank(one.seen));
  }
  out += "\n## Meter\n\n";
  field("meter, serial number", or_blank(job.meter) + ", " + or_blank(job.meter_serial));
  field("calibrated", or_blank(job.calibrated));
  field("accuracy", or_blank(job.accuracy));
  field("leads, subtracted", or_blank(job.leads));
  out += "\n## Readings\n\n| test | leads on | side | range | reading | part's temperature | more | limits | "
         "result |\n"
         "| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";
  for (const Job_reading& one : job.readings)
    out += fmt::format("| {} | {} | {} | {} | {} | {} | {} | {} | {} |\n", plain(one.test), plain(one.probes),
                       plain(spoken(one.side)), plain(one.range), plain(one.reading),
                       plain(temperature_words(one)), plain(more_words(one)), plain(one.limits),
                       one.result ? spoken(*one.result) : "");
  if (job.readings.empty()) out += fmt::format("| {0} | {0} | {0} | {0} | {0} | {0} | | | |\n", blank);
  if (!job.conclusion.empty()) out += "\n## What the readings say\n\n";
  for (const std::string& one : job.conclusion) out += fmt::format("- {}\n", plain(one));
  out += "\n## Done\n\n";
  field("action", or_blank(job.action));
  for (const Job_part& one : job.replaced)
    field("replaced", fmt::format("{}, spare number {}, serial {}", plain(one.component),
                                  or_blank(one.orderable), or_blank(one.serial)));
  if (!job.note.empty()) field("note", plain(job.note));
  out += fmt::format("- return to service: **{}**\n\nProfile {}, revision {}, {}", not_decided_here,
                     plain(job.profile), job.revision, plain(job.hash));
  for (const Job_source& one : job.parts)
    out += fmt::format("; part {}, revision {}, {}", plain(one.id), one.revision, plain(one.hash));
  out += fmt::format("; ohmlore {}; rule {}.\n", job.written_by,
                     plain(spoken(job.decision_rule.empty() ? "guarded" : job.decision_rule)));
  return out;
}

}
