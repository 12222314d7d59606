# Everything with the standard library of LLVM. Packages of C++ libraries are compiled for the other one: fmt and
# GoogleTest are compiled here, pugixml hands no std::string over.
add_compile_options(-stdlib=libc++)
add_link_options(-stdlib=libc++)

include(from_headers/fmt)
set(googletest_sources /usr/src/googletest/googletest) # of Debian's package googletest
add_subdirectory(${googletest_sources} googletest EXCLUDE_FROM_ALL)
ohmlore_compiled_here(GTest)
