#include "ohmlore/words.h"

namespace ohmlore {
namespace {
// A trailing underscore keeps an enumerator clear of C++ keywords; the word has none.
constexpr std::string_view word_text(std::string_view name) {
  return name.ends_with('_') ? name.substr(0, name.size() - 1) : name;
}
}

#define OHMLORE_WORD(name, doc) {word_text(#name), doc},
#define OHMLORE_WORDS(type, name, list)                                                                      \
  static constexpr Word type##_list[] = {list(OHMLORE_WORD)};                                                \
  constinit const Enumeration type##_words = {name, type##_list};

OHMLORE_WORDS(Document_kind, "document_kind", OHMLORE_DOCUMENT_KINDS)
OHMLORE_WORDS(Severity, "severity", OHMLORE_SEVERITIES)
OHMLORE_WORDS(Failing_level, "failing_level", OHMLORE_FAILING_LEVELS)
OHMLORE_WORDS(Appliance_type, "appliance_type", OHMLORE_APPLIANCE_TYPES)
OHMLORE_WORDS(Fuel, "fuel", OHMLORE_FUELS)
OHMLORE_WORDS(Supply_kind, "supply_kind", OHMLORE_SUPPLY_KINDS)
OHMLORE_WORDS(Hazard_kind, "hazard_kind", OHMLORE_HAZARD_KINDS)
OHMLORE_WORDS(Circuit_class, "circuit_class", OHMLORE_CIRCUIT_CLASSES)
OHMLORE_WORDS(Mounting, "mounting", OHMLORE_MOUNTINGS)
OHMLORE_WORDS(Numbering, "numbering", OHMLORE_NUMBERINGS)
OHMLORE_WORDS(Source_kind, "source_kind", OHMLORE_SOURCE_KINDS)
OHMLORE_WORDS(Component_kind, "component_kind", OHMLORE_COMPONENT_KINDS)
OHMLORE_WORDS(Ptc_type, "ptc_type", OHMLORE_PTC_TYPES)
OHMLORE_WORDS(Metal, "metal", OHMLORE_METALS)
OHMLORE_WORDS(Drive, "drive", OHMLORE_DRIVES)
OHMLORE_WORDS(Suppression, "suppression", OHMLORE_SUPPRESSIONS)
OHMLORE_WORDS(Connection, "connection", OHMLORE_CONNECTIONS)
OHMLORE_WORDS(Heater_element, "heater_element", OHMLORE_HEATER_ELEMENTS)
OHMLORE_WORDS(Contacts, "contacts", OHMLORE_CONTACTS)
OHMLORE_WORDS(Contact_state, "contact_state", OHMLORE_CONTACT_STATES)
OHMLORE_WORDS(Fuse_construction, "fuse_construction", OHMLORE_FUSE_CONSTRUCTIONS)
OHMLORE_WORDS(Electrode_purpose, "electrode_purpose", OHMLORE_ELECTRODE_PURPOSES)
OHMLORE_WORDS(Electrode_path, "electrode_path", OHMLORE_ELECTRODE_PATHS)
OHMLORE_WORDS(Anode_protection, "anode_protection", OHMLORE_ANODE_PROTECTIONS)
OHMLORE_WORDS(Protector_reset, "protector_reset", OHMLORE_PROTECTOR_RESETS)
OHMLORE_WORDS(Model_kind, "model_kind", OHMLORE_MODEL_KINDS)
OHMLORE_WORDS(Tolerance_class, "tolerance_class", OHMLORE_RTD_CLASSES)
OHMLORE_WORDS(Rtd_construction, "rtd_construction", OHMLORE_RTD_CONSTRUCTIONS)
OHMLORE_WORDS(Expectation_kind, "expectation_kind", OHMLORE_EXPECTATION_KINDS)
OHMLORE_WORDS(Side, "side", OHMLORE_SIDES)
OHMLORE_WORDS(Response_kind, "response_kind", OHMLORE_RESPONSES)
OHMLORE_WORDS(Mode, "mode", OHMLORE_MODES)
OHMLORE_WORDS(Effort, "effort", OHMLORE_EFFORTS)
OHMLORE_WORDS(Display_kind, "display_kind", OHMLORE_DISPLAY_KINDS)
OHMLORE_WORDS(Fault_reset, "fault_reset", OHMLORE_RESETS)
OHMLORE_WORDS(Suspect_kind, "suspect_kind", OHMLORE_SUSPECT_KINDS)
OHMLORE_WORDS(Arrangement, "arrangement", OHMLORE_ARRANGEMENTS)
OHMLORE_WORDS(Element_kind, "element_kind", OHMLORE_ELEMENT_KINDS)

}
