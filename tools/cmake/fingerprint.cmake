# Writes the source file that says what the library was made of.
# As a module: ohmlore_fingerprint(TARGET). As a script: cmake -D folder=… -D output=… -P fingerprint.cmake
set(fingerprint_script ${CMAKE_CURRENT_LIST_FILE})

function(ohmlore_fingerprint target)
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/libspec/*.cpp ${PROJECT_SOURCE_DIR}/libspec/*.h
                                              ${PROJECT_SOURCE_DIR}/spec/v1/rules/*.md)
  set(output ${CMAKE_CURRENT_BINARY_DIR}/fingerprint.cpp)
  add_custom_command(OUTPUT ${output}
                     COMMAND ${CMAKE_COMMAND} -D folder=${PROJECT_SOURCE_DIR} -D output=${output} -P ${fingerprint_script}
                     DEPENDS ${sources} ${fingerprint_script}
                     VERBATIM)
  target_sources(${target} PRIVATE ${output})
endfunction()

if(CMAKE_SCRIPT_MODE_FILE)
  file(GLOB_RECURSE sources RELATIVE ${folder} ${folder}/libspec/*.cpp ${folder}/libspec/*.h ${folder}/spec/v1/rules/*.md)
  list(SORT sources)
  set(all "")
  foreach(source IN LISTS sources)
    file(SHA256 ${folder}/${source} one)
    string(APPEND all "${source} ${one}\n")
  endforeach()
  string(SHA256 all "${all}")
  file(WRITE ${output} "// Written by tools/cmake/fingerprint.cmake.
#include \"corpus/fingerprint.h\"

namespace ohmlore {

std::string_view fingerprint() { return \"${all}\"; }

}
")
endif()
