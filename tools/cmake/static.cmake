# A program that loads nothing when it starts: a run over one file takes half the time, and the file can be carried to
# another machine. For gates and hooks; a distribution links to its own packages.
include(from_headers/fmt)
find_library(PUGIXML_ARCHIVE libpugixml.a REQUIRED)
add_library(pugixml::pugixml STATIC IMPORTED GLOBAL)
set_target_properties(pugixml::pugixml PROPERTIES IMPORTED_LOCATION ${PUGIXML_ARCHIVE})
ohmlore_compiled_here(pugixml)
