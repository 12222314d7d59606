// Every sentence of a sheet, in each language. {} stands for what is filled in.
#pragma once

#include <cstddef>
#include <cstdint>

#include "job/errors_caution.h"

namespace ohmlore {

// clang-format off
#define OHMLORE_PHRASES(phrase) \
  /* the head */ \
  phrase(sheet_kind, "Test sheet for a dead appliance", "Prüfblatt für ein spannungsfreies Gerät") \
  phrase(page_title, "{} – test sheet", "{} – Prüfblatt") \
  phrase(maker, "Maker", "Hersteller") \
  phrase(models, "Models", "Modelle") \
  phrase(appliance, "Appliance", "Gerät") \
  phrase(board, "Control board", "Regelungsplatine") \
  phrase(issues, "issue {}", "Ausgabestand {}") \
  phrase(software, "software {}", "Software {}") \
  phrase(markets, "Markets", "Länder") \
  phrase(profile, "Profile", "Profil") \
  phrase(profile_revision, "{}, revision {}", "{}, Revision {}") \
  phrase(note, "Note", "Hinweis") \
  phrase(has_errors, errors_caution, \
    "Fehler, die ohmlore lint in dieser Datei findet: {}. Den Angaben der Datei nicht trauen, bis die Fehler behoben sind, auch die geduldeten.") \
  phrase(contents, "On this sheet", "Auf diesem Blatt") \
  /* cautions */ \
  phrase(cautions, "Before anything is touched", "Bevor etwas berührt wird") \
  phrase(supplies_here, "Supplies of this appliance", "Einspeisungen dieses Geräts") \
  phrase(isolate_at, "isolate at: {}", "freischalten an: {}") \
  phrase(enters_at, "enters at {}", "Einspeisung an {}") \
  phrase(isolated_locked, "isolated and locked off", "freigeschaltet und gegen Wiedereinschalten gesichert") \
  phrase(proved_dead, "proved dead", "Spannungsfreiheit festgestellt") \
  phrase(charge_here, "Stored charge in this appliance", "Gespeicherte Ladung in diesem Gerät") \
  phrase(wait, "wait {}", "{} warten") \
  phrase(verify_below, "verify below {}", "Spannung unter {} feststellen") \
  phrase(verified, "verified", "festgestellt") \
  phrase(hazards_here, "Also in this appliance", "Außerdem in diesem Gerät") \
  phrase(shortest_caution, \
    "Dead test only: isolate and lock off every supply, then prove dead with a two-pole voltage detector; see all cautions", \
    "Nur spannungsfrei messen: alle Einspeisungen freischalten und gegen Wiedereinschalten sichern, dann zweipolig die Spannungsfreiheit feststellen; siehe alle Warnungen") \
  /* codes */ \
  phrase(codes, "Fault codes", "Fehlercodes") \
  phrase(codes_intro, \
    "Tests in order, as long as everything reads healthy: what decides most for the least work comes first. A number with # is a test at the connectors below; what no dead test decides says so. There may be more than one fault: where a code is still there after a repair, start again. ohmlore plan says what each reading means and goes on from it.", \
    "Prüfungen der Reihe nach, solange alles in Ordnung ist: zuerst, was mit der wenigsten Arbeit am meisten entscheidet. Eine Nummer mit # ist eine Prüfung unten bei den Steckern; was keine spannungsfreie Prüfung entscheidet, ist so bezeichnet. Es kann mehr als ein Fehler sein: ist ein Code nach einer Reparatur noch da, von vorn beginnen. ohmlore plan sagt, was jeder Messwert bedeutet, und geht von ihm aus weiter.") \
  phrase(after_abnormal, "only where a reading before was not healthy", "nur, wenn ein Messwert davor nicht in Ordnung war") \
  phrase(no_codes, "The profile names no fault codes.", "Das Profil nennt keine Fehlercodes.") \
  phrase(not_planned, "Too many failures and tests to put in order: as the profile lists them.", \
    "Zu viele Fehler und Prüfungen, um sie zu ordnen: wie das Profil sie nennt.") \
  phrase(applies_to, "only {}", "nur {}") \
  phrase(reset, "Reset: {}", "Rückstellung: {}") \
  phrase(raised_below, "below {}", "unter {}") \
  phrase(raised_above, "above {}", "über {}") \
  phrase(raised, "Raised: {}", "Gemeldet: {}") \
  phrase(raised_after, "after {}", "nach {}") \
  phrase(either, "{} or {}", "{} oder {}") \
  phrase(both, "{} and {}", "{} und {}") \
  phrase(wires_of, "wires and contacts of {}", "Leitungen und Kontakte von {}") \
  phrase(board_suspect, "control board", "Regelungsplatine") \
  phrase(supply_suspect, "supply", "Versorgung") \
  phrase(not_decidable, "no dead test decides this: {}", "keine spannungsfreie Prüfung entscheidet das: {}") \
  phrase(no_test_named, "no test of this profile decides this", "keine Prüfung dieses Profils entscheidet das") \
  phrase(no_suspects, "The profile names no suspects.", "Das Profil nennt keine Ursachen.") \
  /* connectors */ \
  phrase(connectors, "Connectors and tests", "Stecker und Prüfungen") \
  phrase(connectors_intro, \
    "Drawn by position number, the first at the top left. Seen from its other side a plug is mirrored: find the number printed on the plug or the board before you probe.", \
    "Nach Kontaktnummern gezeichnet, die erste oben links. Von der anderen Seite gesehen ist ein Stecker gespiegelt: vor dem Messen die Nummer suchen, die auf Stecker oder Platine gedruckt ist.") \
  phrase(decimal_point, "Numbers have a decimal point, as on the meter: 1.5 is one and a half.", \
    "Zahlen haben einen Dezimalpunkt wie am Messgerät: 1.5 ist eineinhalb.") \
  phrase(no_connectors, "The profile names no connectors.", "Das Profil nennt keine Stecker.") \
  phrase(connector, "Connector {}", "Stecker {}") \
  phrase(labelled, "labelled {}", "beschriftet {}") \
  phrase(ways_one_row, "{} ways in one row", "{}-polig, einreihig") \
  phrase(one_way, "1 way", "1-polig") \
  phrase(ways_rows, "{} ways in {} rows", "{}-polig in {} Reihen") \
  phrase(keying, "Keying: {}", "Kodierung: {}") \
  phrase(rows_not_said, \
    "{} rows, but the profile does not say how the numbers run over them: drawn in one line. Find the printed number.", \
    "{} Reihen, aber das Profil sagt nicht, wie die Nummern darüber laufen: in einer Linie gezeichnet. Die aufgedruckte Nummer suchen.") \
  phrase(order_not_said, \
    "The contacts have names, not numbers: drawn in the order in which the profile lists them.", \
    "Die Kontakte haben Namen statt Nummern: in der Reihenfolge gezeichnet, in der das Profil sie nennt.") \
  phrase(pinout_of, "Pin-out of {}", "Belegung von {}") \
  phrase(pinout_strip, "Pin-out of {}, strip {} of {}", "Belegung von {}, Abschnitt {} von {}") \
  phrase(strips_joined, \
    "Drawn in {} strips, one under the other: where an edge is torn, the connector goes on in the next.", \
    "In {} Abschnitten untereinander gezeichnet: wo der Rand gezackt ist, geht der Stecker im nächsten weiter.") \
  phrase(pin_is, "{} row {}, position {}", "{} Reihe {}, Stelle {}") \
  phrase(blanked, "blanked", "verschlossen") \
  phrase(track_is, "{}: probes on {}", "{}: Prüfspitzen an {}") \
  phrase(pins, "Contacts", "Kontakte") \
  phrase(pin, "Pin", "Kontakt") \
  phrase(signal, "Signal", "Signal") \
  phrase(wire, "Wire", "Ader") \
  phrase(wire_stripe, "{} with {} stripe", "{}, Streifen {}") \
  phrase(shared, "shared by several parts", "von mehreren Bauteilen genutzt") \
  phrase(links_to, "joined on the board with {}", "auf der Platine verbunden mit {}") \
  phrase(ways_unused, "Not used: {}", "Nicht belegt: {}") \
  phrase(no_tests_here, "No test of this profile unplugs this connector.", "Keine Prüfung dieses Profils zieht diesen Stecker ab.") \
  /* tests */ \
  phrase(other_tests, "Other tests", "Weitere Prüfungen") \
  phrase(spare_number, "spare number {}", "Ersatzteilnummer {}") \
  phrase(unplug, "Unplug {}", "{} abziehen") \
  phrase(probes, "probes on {} and {}", "Prüfspitzen an {} und {}") \
  phrase(positive_on, "red on {}", "Rot an {}") \
  phrase(before, "First: {}", "Vorher: {}") \
  phrase(disconnect_also, "Disconnect too: {}", "Auch trennen: {}") \
  phrase(condition, "Condition: {}", "Zustand: {}") \
  phrase(healthy, "Healthy", "In Ordnung") \
  phrase(at_20, "{} at 20 °C", "{} bei 20 °C") \
  phrase(at_20_band, "{} at 20 °C ({})", "{} bei 20 °C ({})") \
  phrase(see_table, "other temperatures: table", "andere Temperaturen: Tabelle") \
  phrase(in_table, "by temperature: table", "je nach Temperatur: Tabelle") \
  phrase(expect_at, "{} at {}", "{} bei {}") \
  phrase(reversed, "leads exchanged: {}", "Prüfspitzen vertauscht: {}") \
  phrase(at_least, "at least {}", "mindestens {}") \
  phrase(at_most, "at most {}", "höchstens {}") \
  phrase(from_to, "{} to {}", "{} bis {}") \
  phrase(any_reading, "any reading", "jeder Messwert") \
  phrase(path_closed, "closed: {}", "geschlossen: {}") \
  phrase(path_open, "open: {}", "offen: {}") \
  phrase(not_short, "no short: {}; says nothing more", "kein Kurzschluss: {}; sagt sonst nichts") \
  phrase(rises_to_open, "climbs to {}", "steigt auf {}") \
  phrase(smooth_sweep, "moves evenly through {} while it is turned", "läuft beim Drehen gleichmäßig durch {}") \
  phrase(pair_with, "as {} reads at the same temperature", "wie {} bei gleicher Temperatur") \
  phrase(pair_within, "as {} reads at the same temperature, within {}", "wie {} bei gleicher Temperatur, Abweichung bis {}") \
  phrase(nothing_expected, "The profile does not say what is healthy here.", "Das Profil sagt nicht, was hier in Ordnung ist.") \
  phrase(part_not_found, "The part {} was not found: what is healthy is not known.", "Das Bauteil {} wurde nicht gefunden: was in Ordnung ist, ist nicht bekannt.") \
  phrase(no_gross_leakage, "A reading as it should be means no more than: no gross leakage seen.", \
    "Ein Messwert wie erwartet heißt nur: kein grober Isolationsfehler gesehen.") \
  phrase(more_in_between, "What lies between the contacts besides the part is read too.", \
    "Was außer dem Bauteil zwischen den Kontakten liegt, wird mitgemessen.") \
  phrase(then, "Then: {}", "Danach: {}") \
  phrase(rules_out, "Can rule out: {}", "Kann ausschließen: {}") \
  phrase(rules_out_nothing, "Rules out nothing by itself", "Schließt allein nichts aus") \
  phrase(reading, "Reading", "Messwert") \
  phrase(reading_reversed, "Reading, leads exchanged", "Messwert, Spitzen vertauscht") \
  phrase(reading_twin, "Reading of the twin", "Messwert des Zwillings") \
  phrase(reading_after, "Reading after", "Messwert danach") \
  phrase(part_temperature, "Part °C", "Bauteil °C") \
  phrase(reading_of, "Reading of {}", "Messwert von {}") \
  phrase(reversed_of, "Reading of {}, leads exchanged", "Messwert von {}, Spitzen vertauscht") \
  phrase(twin_of, "Reading of the twin, {}", "Messwert des Zwillings, {}") \
  phrase(after_of, "Reading after, {}", "Messwert danach, {}") \
  phrase(temperature_of, "Temperature of the part at {}", "Bauteiltemperatur bei {}") \
  /* the table of readings */ \
  phrase(readings, "Expected readings by temperature of the part", "Erwartete Messwerte nach Bauteiltemperatur") \
  phrase(readings_intro, \
    "Nominal in bold, beneath it what still does its job (the service limit, of sensors that state none a usual one, else the tolerance as made). Without leads: subtract what they read with the tips together. The meter and the thermometer add their own error: ohmlore judge says whether a reading is too close to call.", \
    "Nennwert fett, darunter, was noch seinen Dienst tut (Gebrauchsgrenze, bei Fühlern ohne eigene die übliche, sonst Fertigungstoleranz). Ohne Messleitungen: abziehen, was sie bei verbundenen Spitzen zeigen. Messgerät und Thermometer bringen eigene Fehler mit: ohmlore judge sagt, ob ein Messwert zu knapp ist.") \
  phrase(part, "Part", "Bauteil") \
  phrase(limit_used, "limit {}", "Grenze {}") \
  phrase(usual_limit, "usual limit {}, as none is stated", "übliche Grenze {}, da keine genannt ist") \
  phrase(made_within, "made within {}", "gefertigt auf {}") \
  phrase(none_here, "–", "–") \
  phrase(nothing_varies, "No test of this profile expects a reading that changes with temperature.", \
    "Keine Prüfung dieses Profils erwartet einen Messwert, der von der Temperatur abhängt.") \
  /* curves */ \
  phrase(curves, "Curves", "Kennlinien") \
  phrase(curves_intro, "As the part is made, not its service limit.", "Wie das Bauteil gefertigt ist, nicht die Gebrauchsgrenze.") \
  phrase(resistance_axis, "Resistance in ohms", "Widerstand in Ohm") \
  phrase(resistance_axis_log, "Resistance in ohms, logarithmic", "Widerstand in Ohm, logarithmisch") \
  phrase(temperature_axis, "Temperature of the part in", "Temperatur des Bauteils in") \
  phrase(legend_band, "as made", "Toleranz") \
  phrase(legend_healthy, "healthy", "in Ordnung") \
  phrase(legend_nominal, "nominal", "Nennwert") \
  phrase(legend_stated, "stated", "Angabe") \
  phrase(curve_described, "Resistance over temperature: {}.", "Widerstand über der Temperatur: {}.") \
  /* the job */ \
  phrase(job, "Record of this job", "Protokoll dieses Auftrags") \
  phrase(job_serial, "Appliance serial number", "Seriennummer des Geräts") \
  phrase(job_code, "Code shown", "Angezeigter Code") \
  phrase(job_date, "Date and time", "Datum und Uhrzeit") \
  phrase(job_who, "Tested by", "Geprüft von") \
  phrase(job_meter, "Meter and its serial number", "Messgerät und Seriennummer") \
  phrase(job_calibrated, "Calibrated on", "Kalibriert am") \
  phrase(job_leads, "Leads, tips together", "Messleitungen, Spitzen verbunden") \
  phrase(job_thermometer, "Thermometer, where held", "Thermometer, wo gehalten") \
  phrase(job_running, "Minutes since running", "Minuten seit Betrieb") \
  phrase(job_detector, "Voltage detector, checked before and after", "Spannungsprüfer, davor und danach geprüft") \
  phrase(job_action, "Action, part fitted", "Maßnahme, eingebautes Teil") \
  phrase(job_service, "Return to service: not decided here.", "Wiederinbetriebnahme: wird hier nicht entschieden.") \
  /* sources */ \
  phrase(sources, "Where this comes from", "Woher das stammt") \
  phrase(source_number, "number {}", "Nummer {}") \
  phrase(source_edition, "edition {}", "Ausgabe {}") \
  phrase(source_samples, "{} samples", "{} Exemplare") \
  phrase(parts_used, "Shared parts used", "Verwendete gemeinsame Bauteile") \
  phrase(file_hash, "SHA-256 of the profile", "SHA-256 des Profils") \
  phrase(made_by, "Made by ohmlore {} from {}.", "Erzeugt von ohmlore {} aus {}.") \
  phrase(page_of, "page", "Seite") \
  /* the site */ \
  phrase(site_title, "{} – test sheets", "{} – Prüfblätter") \
  phrase(site_kind, "Test sheets for dead appliances", "Prüfblätter für spannungsfreie Geräte") \
  phrase(site_count, "{} boards, {} models, {} fault codes", "{} Platinen, {} Modelle, {} Fehlercodes") \
  phrase(search, "Search makers, models, boards and codes", "Hersteller, Modelle, Platinen und Codes suchen") \
  phrase(search_found, "{} of {} boards shown", "{} von {} Platinen gezeigt") \
  phrase(codes_here, "Codes", "Codes") \
  phrase(site_made_by, "Made by ohmlore {}.", "Erzeugt von ohmlore {}.") \
  phrase(licence, "Licence of the data: {}", "Lizenz der Daten: {}")

#define OHMLORE_PHRASE_KEY(key, ...) key,
enum class Phrase : std::uint8_t { OHMLORE_PHRASES(OHMLORE_PHRASE_KEY) };

#define OHMLORE_PHRASE_ONE(...) +1
inline constexpr std::size_t phrase_count = 0 OHMLORE_PHRASES(OHMLORE_PHRASE_ONE);
// clang-format on

}
