// Words of the format that a sheet shows, in each language; and the wire colours of IEC 60757. Every word of
// an enumeration that stands here has its line: a test looks for it.
#pragma once

// clang-format off
#define OHMLORE_SHEET_WORDS(word) \
  word("appliance_type", "combination_boiler", "combination boiler", "Kombitherme") \
  word("appliance_type", "system_boiler", "system boiler", "Heiztherme") \
  word("appliance_type", "heat_only_boiler", "heat-only boiler", "Heizkessel") \
  word("appliance_type", "heat_pump", "heat pump", "Wärmepumpe") \
  word("appliance_type", "hybrid", "hybrid of heat pump and boiler", "Hybridgerät aus Wärmepumpe und Kessel") \
  word("appliance_type", "storage_water_heater", "storage water heater", "Warmwasserspeicher") \
  word("appliance_type", "instantaneous_water_heater", "instantaneous water heater", "Durchlauferhitzer") \
  word("appliance_type", "ventilation_unit", "ventilation unit", "Lüftungsgerät") \
  word("appliance_type", "warm_air_heater", "warm-air heater", "Warmlufterzeuger") \
  word("appliance_type", "room_heater", "room heater", "Raumheizer") \
  word("appliance_type", "controller", "separate controller", "eigenständiger Regler") \
  word("fuel", "natural_gas", "natural gas", "Erdgas") \
  word("fuel", "lpg", "LPG", "Flüssiggas") \
  word("fuel", "natural_gas_or_lpg", "natural gas or LPG", "Erdgas oder Flüssiggas") \
  word("fuel", "oil", "oil", "Heizöl") \
  word("fuel", "electricity", "electricity", "Strom") \
  word("fuel", "pellets", "pellets", "Pellets") \
  word("fuel", "solid", "solid fuel", "Festbrennstoff") \
  word("supply_kind", "mains", "mains", "Netz") \
  word("supply_kind", "switched_live", "switched live", "geschalteter Außenleiter") \
  word("supply_kind", "external_control", "external control", "fremde Steuerleitung") \
  word("supply_kind", "second_tariff", "second tariff", "Zweittarif") \
  word("supply_kind", "immersion_heater", "immersion heater", "Einschraubheizkörper") \
  word("supply_kind", "solar_diverter", "solar diverter", "Solar-Überschusssteuerung") \
  word("supply_kind", "battery", "battery", "Batterie") \
  word("supply_kind", "other_appliance", "another appliance", "anderes Gerät") \
  word("hazard_kind", "stored_charge", "stored charge", "gespeicherte Ladung") \
  word("hazard_kind", "generates_when_turned", "generates voltage when turned", "erzeugt beim Drehen Spannung") \
  word("hazard_kind", "ignition_voltage", "ignition voltage", "Zündspannung") \
  word("hazard_kind", "hot_surface", "hot surface", "heiße Oberfläche") \
  word("hazard_kind", "fuel_gas", "fuel gas", "Brenngas") \
  word("hazard_kind", "flammable_refrigerant", "flammable refrigerant", "brennbares Kältemittel") \
  word("hazard_kind", "sealed_case", "sealed case", "dichtes Gehäuse") \
  word("hazard_kind", "pressure", "pressure", "Druck") \
  word("circuit_class", "selv", "SELV", "SELV") \
  word("circuit_class", "pelv", "PELV", "PELV") \
  word("circuit_class", "mains", "mains", "Netz") \
  word("circuit_class", "live_referenced", "low voltage, not isolated from mains", "Kleinspannung ohne Trennung vom Netz") \
  word("circuit_class", "ignition_hv", "ignition high voltage", "Zündhochspannung") \
  word("circuit_class", "bus", "data bus", "Datenbus") \
  word("circuit_class", "protective_earth", "PE", "PE") \
  word("mounting", "board", "on the board", "auf der Platine") \
  word("mounting", "inline", "in the harness", "im Kabelbaum") \
  word("mounting", "component", "on the part", "am Bauteil") \
  word("side", "at_board_plug", "in the withdrawn plug, towards the harness", "im abgezogenen Stecker, zum Kabelbaum") \
  word("side", "at_component", "on the part, its plug withdrawn", "am Bauteil, dessen Stecker abgezogen") \
  word("side", "at_inline_connector", "at the connector between, towards the part", "an der Zwischenkupplung, zum Bauteil") \
  word("side", "harness", "the wires alone, unplugged at both ends", "nur die Leitungen, beidseitig abgezogen") \
  word("response_kind", "falls_when_warmed", "the reading falls when warmed", "der Wert fällt beim Erwärmen") \
  word("response_kind", "rises_when_warmed", "the reading rises when warmed", "der Wert steigt beim Erwärmen") \
  word("response_kind", "toggles_with_magnet", "the contact changes as a magnet passes", "der Kontakt schaltet, wenn ein Magnet vorbeigeführt wird") \
  word("response_kind", "rises_to_open", "the reading climbs until nothing flows", "der Wert steigt, bis nichts mehr fließt") \
  word("response_kind", "smooth_sweep", "the reading moves evenly with the shaft", "der Wert folgt der Welle gleichmäßig") \
  word("response_kind", "steady_when_moved", "the reading stays steady when the wires are moved", "der Wert bleibt ruhig, wenn die Leitung bewegt wird") \
  word("mode", "open", "open", "Unterbrechung") \
  word("mode", "short", "short", "Kurzschluss") \
  word("mode", "drift_high", "reads too high", "zu hoher Wert") \
  word("mode", "drift_low", "reads too low", "zu niedriger Wert") \
  word("mode", "leakage_to_earth", "leakage to earth", "Erdschluss") \
  word("mode", "intermittent", "intermittent", "Wackelkontakt") \
  word("mode", "stuck_open", "stuck open", "schließt nicht") \
  word("mode", "stuck_closed", "stuck closed", "öffnet nicht") \
  word("mode", "high_contact_resistance", "high contact resistance", "hoher Übergangswiderstand") \
  word("mode", "shorted_turns", "shorted turns", "Windungsschluss") \
  word("mode", "seized", "seized", "festgelaufen") \
  word("mode", "protector_open", "protector open", "Wicklungsschutz offen") \
  word("mode", "low_capacitance", "low capacitance", "zu kleine Kapazität") \
  word("mode", "wrong_part", "wrong part", "falsches Bauteil") \
  word("mode", "wet_or_corroded", "wet or corroded", "feucht oder korrodiert") \
  word("mode", "consumed", "consumed", "verbraucht") \
  word("fault_reset", "automatic", "clears by itself", "von selbst") \
  word("fault_reset", "manual", "at the appliance", "am Gerät") \
  word("fault_reset", "power_cycle", "when the supply returns", "mit Wiederkehr der Versorgung") \
  word("source_kind", "maker_document", "maker's document", "Unterlage des Herstellers") \
  word("source_kind", "measurement", "measurement", "Messung") \
  word("source_kind", "standard", "standard", "Norm") \
  word("source_kind", "calculation", "calculation", "Berechnung") \
  word("source_kind", "common_practice", "common practice, no source", "übliche Praxis, ohne Quelle") \
  /* their English is that of lint/colours.h */ \
  word("colour", "BK", "", "schwarz") \
  word("colour", "BN", "", "braun") \
  word("colour", "RD", "", "rot") \
  word("colour", "OG", "", "orange") \
  word("colour", "YE", "", "gelb") \
  word("colour", "GN", "", "grün") \
  word("colour", "BU", "", "blau") \
  word("colour", "VT", "", "violett") \
  word("colour", "GY", "", "grau") \
  word("colour", "WH", "", "weiß") \
  word("colour", "PK", "", "rosa") \
  word("colour", "GD", "", "gold") \
  word("colour", "TQ", "", "türkis") \
  word("colour", "SR", "", "silber") \
  word("colour", "GNYE", "", "grün-gelb") \
  /* the cautions: their English is that of ohmlore/cautions.h */ \
  word("caution", "dead-test-only", "", \
    "Nur spannungsfrei messen: nie den Widerstand an einem Stromkreis unter Spannung messen.") \
  word("caution", "isolate", "", \
    "Alle Einspeisungen freischalten und gegen Wiedereinschalten sichern, bevor eine Abdeckung abgenommen wird.") \
  word("caution", "prove-dead", "", \
    "Danach, vor jedem Berühren oder Messen, die Spannungsfreiheit feststellen: an den Einspeiseklemmen und an jedem Stecker, der geprüft wird, alle aktiven Leiter gegeneinander und gegen Erde, mit einem zweipoligen Spannungsprüfer, der davor und danach an einer bekannten Spannungsquelle geprüft wird. Ein Multimeter im Widerstandsbereich beweist nichts.") \
  word("caution", "stored-charge", "", \
    "Warten, bis gespeicherte Ladung abgeklungen ist, dann feststellen, dass sie fort ist; nie mit einem Werkzeug entladen.") \
  word("caution", "licensed-work", "", \
    "Arbeiten an Gas, an Kältemittel und an geschlossenen Verbrennungskreisen nur durch Personen, die dafür am Ort der Arbeit zugelassen sind. Eine Undichtheit beendet die Prüfung.") \
  word("caution", "maker-first", "", \
    "Die Anleitungen des Herstellers und die örtlichen Vorschriften gehen vor.") \
  word("caution", "never-bridge", "", \
    "Nie eine Sicherheitseinrichtung überbrücken oder umgehen.") \
  word("caution", "plug-and-part-only", "", \
    "Am abgezogenen Stecker oder am Bauteil messen, nie an der Stiftleiste der Platine, und keine Prüfspitze in eine Buchse drücken: ein aufgeweiteter Kontakt ist der nächste Fehler.") \
  word("caution", "no-return-to-service", "", \
    "Ein Messwert schließt nur die Fehler aus, die er sehen kann, und kein Messwert macht ein Gerät sicher genug für die Wiederinbetriebnahme.") \
  word("curve_note", "threshold", "", \
    "Ein Schalter oder eine Sicherung hat bei jeder Temperatur eine Schwelle, ohne Messleitungen; was zwischen geschlossen und offen liegt, ist ein zweifelhafter Kontakt.") \
  word("curve_note", "as_made", "", \
    "Das Band ist die Fertigungstoleranz: ist es dieses Bauteil? Ob es noch seinen Dienst tut, entscheidet seine Gebrauchsgrenze{}.") \
  word("curve_note", "no_tolerance", "", \
    "Es ist keine Toleranz angegeben: das Band ist nur, was die Stellen offen lassen, und ein gutes Bauteil kann außerhalb liegen.") \
  word("curve_note", "one_b_below", "", \
    "Das Band ist das eines einzigen B-Werts; B driftet in jedem Thermistor: ein guter kann bis zu {} unter einer solchen Kurve liegen (bei {}). Wo das zählt, eine Tabelle oder Steinhart-Hart suchen.") \
  word("curve_note", "one_b_above", "", \
    "Das Band ist das eines einzigen B-Werts; B driftet in jedem Thermistor: ein guter kann bis zu {} über einer solchen Kurve liegen (bei {}). Wo das zählt, eine Tabelle oder Steinhart-Hart suchen.") \
  word("curve_note", "bends_between", "", "Zwischen zwei Zeilen ist das Band so breit, wie sich Kurven von Thermistoren krümmen.") \
  word("curve_note", "unknown_between", "", \
    "Zwischen zwei Zeilen ist nur bekannt, dass ein gutes Bauteil zwischen dem liegt, was die beiden erlauben.") \
  word("curve_note", "k_of_copper", "", \
    "Es ist kein k des Metalls angegeben: genommen ist das von Kupfer, so dass ein gutes Bauteil außerhalb liegen kann.") \
  word("curve_note", "usual_range", "", \
    "Das Bauteil nennt keinen Temperaturbereich: gezeigt ist der üblicher Fühler.") \
  word("curve_note", "stated_range", "", "Das Bauteil ist für {} bis {} angegeben.")
// clang-format on
