# Everything with the standard library of LLVM. Packages of C++ libraries are compiled for the other one: fmt and
# GoogleTest are compiled here, pugixml hands no std::string over.
add_compile_options(-stdlib=libc++)
add_link_options(-stdlib=libc++)

add_library(fmt_from_headers STATIC ${CMAKE_CURRENT_LIST_DIR}/fmt.cpp)
target_compile_features(fmt_from_headers PUBLIC cxx_std_20)
add_library(fmt::fmt INTERFACE IMPORTED GLOBAL)
target_link_libraries(fmt::fmt INTERFACE fmt_from_headers)

set(googletest_sources /usr/src/googletest/googletest) # of Debian's package googletest
add_subdirectory(${googletest_sources} googletest EXCLUDE_FROM_ALL)

# What find_package is to find in place of the packages.
foreach(package IN ITEMS fmt GTest)
  file(WRITE ${CMAKE_FIND_PACKAGE_REDIRECTS_DIR}/${package}Config.cmake "# compiled here\n")
endforeach()
