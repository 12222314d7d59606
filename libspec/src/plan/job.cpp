#include "ohmlore/job.h"

#include <algorithm>

#include <fmt/format.h>

#include "document/decoder.h"
#include "job/stored_charge.h"
#include "judge/case.h"
#include "judge/shown.h"
#include "lint/rule.h"
#include "model/spoken.h"
#include "ohmlore/version.h"
#include "plan/job_list.h"
#include "publish/job_records.h"
#include "publish/records.h"
#include "text/cut.h"
#include "text/sha256.h"

namespace ohmlore {
namespace {

using namespace rules;

std::string text(const Value<Text>& value) { return value ? std::string(*value) : std::string(); }
std::vector<std::string> texts(const List<Value<Text>>& list) {
  std::vector<std::string> out;
  for (const Value<Text>& one : list)
    if (one) out.emplace_back(*one);
  return out;
}
template <class T>
std::optional<T> given(const Value<T>& value) {
  return value ? std::optional(*value) : std::nullopt;
}

Job_reading reading_of(const Described_job_reading& from) {
  Job_reading to;
  to.test = text(from.test);
  to.reading = text(from.reading);
  to.time = text(from.time);
  to.side = text(from.side);
  to.probes = text(from.probes);
  to.range = text(from.range);
  to.temperature = text(from.temperature);
  if (from.taken) to.taken = std::string(word_of(*from.taken));
  to.minutes_since_running = given(from.minutes_since_running);
  to.reverse = text(from.reverse);
  to.twin = text(from.twin);
  to.at_part = text(from.at_part);
  to.after = text(from.after);
  to.after_temperature = text(from.after_temperature);
  to.answered = given(from.answered);
  to.note = text(from.note);
  to.result = given(from.result);
  to.limits = text(from.limits);
  return to;
}

Job job_of(const Described_job& from) {
  Job to;
  to.profile = text(from.profile);
  to.hash = text(from.hash);
  to.revision = from.revision ? *from.revision : 0;
  for (const Described_job_source& one : from.parts)
    to.parts.push_back({text(one.id), text(one.hash), one.revision ? *one.revision : 0});
  to.written_by = text(from.program.version);
  to.codes = texts(from.codes);
  to.maker = text(from.appliance.maker);
  to.model = text(from.appliance.model);
  to.serial = text(from.appliance.serial);
  to.board = text(from.appliance.board);
  to.software = text(from.appliance.software);
  to.time = text(from.time);
  to.who = text(from.who);
  for (const Described_job_proof& one : from.proved_dead)
    to.proved_dead.push_back({text(one.where), text(one.detector), text(one.seen), given(one.checked_before),
                              given(one.checked_after)});
  for (const Described_job_charge& one : from.stored_charge)
    to.stored_charge.push_back({text(one.where), text(one.waited), text(one.seen)});
  to.meter = text(from.meter.name);
  to.meter_serial = text(from.meter.serial);
  to.calibrated = text(from.meter.calibrated);
  to.accuracy = text(from.meter.accuracy);
  to.leads = text(from.meter.leads);
  to.decision_rule = text(from.decision_rule);
  for (const Described_job_reading& one : from.readings) to.readings.push_back(reading_of(one));
  to.conclusion = texts(from.conclusion);
  to.action = text(from.action);
  to.note = text(from.note);
  for (const Described_job_part& one : from.replaced)
    to.replaced.push_back({text(one.component), text(one.orderable), text(one.serial)});
  to.cautions = texts(from.cautions);
  return to;
}

// Reads one text with a parser of ohmlore/judge.h; an empty one is none.
template <class T>
void parse(const std::string& what, const std::string& written,
           std::optional<T> (*parser)(std::string_view, std::string&), std::optional<T>& into,
           std::vector<std::string>& problems) {
  if (written.empty()) return;
  std::string problem;
  into = parser(written, problem);
  if (!into) problems.push_back(fmt::format("{}: {}", what, problem));
}

Job_source source_of(const Document& part) {
  return {std::string(*part.part()->id), named_sha256(part.text()), *part.part()->revision};
}

// What a record was written by may have changed since; 0 and an empty hash are not stated.
void add_change(const std::string& what, const Job_source& was, const Job_source& is,
                std::vector<std::string>& changes) {
  const bool revised = was.revision != 0 && was.revision != is.revision;
  if (!revised && (was.hash.empty() || was.hash == is.hash)) return;
  const std::string by =
      revised ? fmt::format("revision {} of {}, which now has revision {}", was.revision, what, is.revision)
              : fmt::format("another file of {} than this one, of revision {}", what, is.revision);
  changes.push_back(fmt::format("the record was written by {}: look whether the tests are the same; all "
                                "readings are judged anew, by what it is now",
                                by));
}

std::string accuracy_words(const Meter_accuracy& meter) {
  return fmt::format("{} + {:.0f} of {:.0f}", percent(meter.of_reading), meter.counts, meter.display_counts);
}

}

Job_read read_job(std::string name, std::string_view bytes) {
  Job_read result;
  const std::size_t first = bytes.find_first_not_of(" \t\r\n\xEF\xBB\xBF");
  if (first == std::string_view::npos || bytes[first] != '{') {
    Job job;
    job.readings = read_list(name, bytes, result.problems);
    if (job.readings.empty() && result.problems.empty())
      result.problems.push_back(fmt::format("{}: no reading stands in it", printable(name)));
    if (result.problems.empty()) result.job = std::move(job);
    return result;
  }
  Described_job described;
  Read_result read = read_described(std::move(name), bytes, job_record, &described);
  // Of another document, or of another version, no more can be said.
  if (read.document.whole() && described.format && *described.format != job_format)
    read.findings = {
        finding_at(read.document, "format-unsupported", Severity::error, described.format.node,
                   fmt::format("{} is not a record of a job that this program reads; it reads \"{}\"",
                               quoted(*described.format), job_format))};
  std::erase_if(read.findings, [](const Finding& finding) { return finding.severity != Severity::error; });
  result.findings = std::move(read.findings);
  if (result.findings.empty()) result.job = job_of(described);
  return result;
}

std::vector<Judge_request> readings_of(const Job& job, std::vector<std::string>& problems) {
  std::vector<Judge_request> out;
  for (const Job_reading& from : job.readings) {
    const std::size_t before = problems.size();
    const auto what = [&](const char* part) { return fmt::format("{}, {}", from.test, part); };
    Judge_request request;
    request.test = from.test;
    request.answered = from.answered;
    std::optional<Reading> reading;
    parse(what("reading"), from.reading, parse_reading, reading, problems);
    if (reading && reading->over_range && reading->ohm <= 0 && !from.range.empty())
      parse(what("range"), "OL " + from.range, parse_reading, reading, problems);
    if (reading) request.reading = *reading;
    parse(what("temperature"), from.temperature, parse_part_temperature, request.temperature, problems);
    if (from.minutes_since_running && *from.minutes_since_running < 0) // by a program: read_job refuses it
      problems.push_back(fmt::format("{}: {} min is in the future; write how long ago the part last ran",
                                     what("minutes since running"), *from.minutes_since_running));
    if (request.temperature) {
      if (const auto place = enumerator_of<Temperature_place>(from.taken))
        request.temperature->place = *place;
      if (from.minutes_since_running)
        request.temperature->minutes_since_running = static_cast<double>(*from.minutes_since_running);
    } else if (from.temperature.empty() && from.minutes_since_running) {
      problems.push_back(
          fmt::format("{}: it may still be warm, {} min after it ran; write the temperature of the "
                      "part that was taken then",
                      what("minutes since running"), *from.minutes_since_running));
    }
    parse(what("reversed"), from.reverse, parse_reading, request.reverse, problems);
    parse(what("twin"), from.twin, parse_reading, request.twin, problems);
    parse(what("on the part"), from.at_part, parse_reading, request.at_part, problems);
    parse(what("after"), from.after, parse_reading, request.after, problems);
    parse(what("temperature after"), from.after_temperature, parse_part_temperature,
          request.after_temperature, problems);
    if (problems.size() == before) out.push_back(std::move(request));
  }
  return out;
}

void add_means(const Job& job, Judge_means& means, std::vector<std::string>& problems) {
  if (!means.meter) parse("meter", job.accuracy, parse_meter, means.meter, problems);
  if (!means.leads) parse("leads", job.leads, parse_leads, means.leads, problems);
  if (job.decision_rule.empty() || means.rule != guarded) return;
  for (const Decision_rule& rule : {guarded, guarded_acceptance, simple_acceptance})
    if (name_of(rule) == job.decision_rule) {
      means.rule = rule;
      return;
    }
  problems.push_back(fmt::format("decision rule {}: it is one of guarded, guarded_acceptance and simple",
                                 quoted(job.decision_rule)));
}

std::string of_another_profile(const Job& before, const Resolved& resolved) {
  if (resolved.document->profile() == nullptr) return {};
  const std::string id(*resolved.document->profile()->id);
  return before.profile.empty() || before.profile == id
             ? std::string()
             : fmt::format("the record is one of profile {}, not of {}", before.profile, id);
}

// "X4.12" names no X4.1.
static bool names_contact(std::string_view text, std::string_view contact) {
  for (std::size_t at = text.find(contact); at != text.npos; at = text.find(contact, at + 1)) {
    const std::string_view before = text.substr(0, at), behind = text.substr(at + contact.size());
    if ((before.empty() || !is_id(before.substr(before.size() - 1))) && !is_id(behind.substr(0, 1)))
      return true;
  }
  return false;
}

// A reading of other contacts than those of its test, as the record has them.
static std::string read_elsewhere(const Job_reading& reading, const Test& test) {
  const auto side = enumerator_of<Side>(reading.side);
  const bool other_side = side && test.side && *side != *test.side;
  const bool other_probes =
      !reading.probes.empty() &&
      std::any_of(test.probes.begin(), test.probes.end(), [&](const Value<Contact>& probe) {
        return probe && !names_contact(reading.probes, text_of(*probe));
      });
  if (!other_side && !other_probes) return {};
  return fmt::format("{} was read{}{} by the record, and its test has {}{} now: it is judged as that; "
                     "where the leads lay elsewhere, read it again",
                     reading.test, other_side ? " " + spoken(*side) : "",
                     other_probes ? " on " + printable(reading.probes) : "", contacts_of(test),
                     test.side ? " " + spoken(*test.side) : "");
}

std::vector<std::string> changes_since(const Job& before, const Resolved& resolved) {
  std::vector<std::string> changes;
  if (resolved.document->profile() == nullptr) return changes;
  add_change(
      "the profile", {before.profile, before.hash, before.revision},
      {before.profile, named_sha256(resolved.document->text()), *resolved.document->profile()->revision},
      changes);
  for (const Job_source& was : before.parts)
    for (const Resolved_component& component : resolved.components)
      if (component.part != nullptr && *component.part->part()->id == was.id) {
        add_change("part " + was.id, was, source_of(*component.part), changes);
        break;
      }
  for (const Job_reading& reading : before.readings)
    if (const Test* test = resolved.test(reading.test))
      if (std::string elsewhere = read_elsewhere(reading, *test); !elsewhere.empty())
        changes.push_back(std::move(elsewhere));
  return changes;
}

// What is longer than one text of a record may be becomes several.
static std::vector<std::string> as_recorded(const std::vector<std::string>& texts) {
  std::vector<std::string> recorded;
  for (const std::string& text : texts)
    for (std::string& piece : in_pieces(text, most_text)) recorded.push_back(std::move(piece));
  return recorded;
}

namespace {

// What is left open, for whoever fills it in.
std::vector<Job_proof> to_prove_dead(const Profile& profile) {
  std::vector<Job_proof> places;
  for (const Supply& supply : profile.safety.supplies) {
    std::string where;
    for (const Value<Contact>& contact : supply.enters_at)
      if (contact) where += (where.empty() ? "" : ", ") + text_of(*contact);
    if (where.empty() && supply.isolate_at) where = "supply from " + std::string(*supply.isolate_at);
    if (!where.empty()) places.push_back({where, {}, {}, {}, {}});
  }
  return places;
}

std::vector<Job_charge> to_verify(const Profile& profile) {
  std::vector<Job_charge> places;
  for (const Hazard& hazard : profile.safety.hazards) {
    if (!is_stored_charge(hazard)) continue;
    if (std::string where = where_verified(hazard); !where.empty())
      places.push_back({std::move(where), {}, {}});
  }
  return places;
}

// The documents of parts that readings were judged by.
void add_parts(Job& job, const Resolved& resolved, const Verdict& verdict) {
  for (const Judgement& judgement : verdict.judgements) {
    const Resolved_component* component = resolved.component(judgement.component);
    if (component == nullptr || component->part == nullptr) continue;
    const std::string_view id = *component->part->part()->id;
    const bool known =
        std::any_of(job.parts.begin(), job.parts.end(), [&](const Job_source& one) { return one.id == id; });
    if (!known) job.parts.push_back(source_of(*component->part));
  }
}

// Beside the readings that were judged, in their order.
void add_results(Job& job, const Verdict& verdict) {
  std::size_t at = 0;
  for (Job_reading& reading : job.readings) {
    reading.result.reset();
    reading.limits.clear();
    if (at == verdict.judgements.size() || verdict.judgements[at].test != reading.test) continue;
    const Judgement& judgement = verdict.judgements[at++];
    reading.side = judgement.side;
    reading.probes = judgement.probes;
    reading.result = judgement.result;
    reading.limits = shown_ohm(judgement.service.ohm);
  }
}

}

Job record_of(const Resolved& resolved, const Plan& plan, Job job) {
  if (resolved.document->profile() == nullptr) return job;
  const Profile& profile = *resolved.document->profile();
  job.profile = plan.profile;
  job.revision = plan.revision;
  job.hash = named_sha256(resolved.document->text());
  job.written_by = std::string(program_version);
  job.codes.clear();
  for (const Plan_code& code : plan.codes) job.codes.push_back(code.id);
  if (job.maker.empty() && profile.appliance.maker) job.maker = std::string(*profile.appliance.maker);
  if (job.board.empty() && profile.appliance.controller.part)
    job.board = std::string(*profile.appliance.controller.part);
  job.cautions = as_recorded(plan.cautions);
  job.conclusion = as_recorded(plan.conclusion);
  if (job.proved_dead.empty()) job.proved_dead = to_prove_dead(profile);
  if (job.stored_charge.empty()) job.stored_charge = to_verify(profile);
  job.parts.clear();
  if (!plan.readings) return job;
  const Verdict& verdict = *plan.readings;
  if (job.accuracy.empty()) job.accuracy = accuracy_words(verdict.meter);
  if (job.leads.empty() && verdict.leads_stated)
    job.leads = fmt::format("{} ± {}", shown_ohm(verdict.leads.ohm), shown_ohm(verdict.leads.half_width));
  job.decision_rule = std::string(name_of(verdict.rule));
  add_parts(job, resolved, verdict);
  add_results(job, verdict);
  return job;
}

}
