#include "ohmlore/cautions.h"

#include <fmt/format.h>

#include "job/errors_caution.h"

namespace ohmlore {

static constexpr Caution all[] = {
    {"dead-test-only", "Dead test only: never measure resistance on an energised circuit."},
    {"isolate", "Isolate every supply and lock it off before a cover comes off."},
    {"prove-dead",
     "Then, before touching or probing, prove dead at the supply terminals and at each connector to be "
     "tested, "
     "all live poles to each other and to earth, with a two-pole voltage detector that is checked on a known "
     "source before and after. A multimeter on ohms proves nothing."},
    {"stored-charge", "Wait for stored charge, then verify that it is gone; never discharge it with a tool."},
    {"licensed-work", "Gas work, refrigerant work and work on sealed combustion circuits is only for those "
                      "licensed for it where the work is done. A leak ends the test."},
    {"maker-first", "The maker's instructions and local codes come first."},
    {"never-bridge", "Never bridge or link out a safety device."},
    {"plug-and-part-only",
     "Probe the withdrawn plug or the part, never the board's own header, and push no tip into a "
     "female contact: one that is spread is the next fault."},
    {"no-return-to-service", "A reading excludes only the failures that it can see, and no reading makes an "
                             "appliance safe to put back in service."},
};

std::span<const Caution> cautions() { return all; }

std::string caution_of_errors(std::size_t errors) {
  return errors == 0 ? std::string() : fmt::format(fmt::runtime(errors_caution), errors);
}

std::string cautions_text() {
  std::string text;
  for (const Caution& caution : all) text += fmt::format("{}\n", caution.text);
  return text;
}

std::string_view shortest_caution() {
  return "Dead test only: isolate and lock off every supply, then prove dead with a two-pole voltage "
         "detector; "
         "see all cautions";
}

}
