# An installed package `ohmlore` with the target ohmlore::spec, and ohmlore::c, the C interface as a shared library.
include(GNUInstallDirs)
include(CMakePackageConfigHelpers)

install(TARGETS ohmlore_spec EXPORT ohmlore_targets FILE_SET HEADERS)
install(TARGETS ohmlore_program)
if(TARGET ohmlore_c)
  install(TARGETS ohmlore_c EXPORT ohmlore_targets)
endif()
install(EXPORT ohmlore_targets NAMESPACE ohmlore:: DESTINATION ${CMAKE_INSTALL_LIBDIR}/cmake/ohmlore)
configure_package_config_file(${CMAKE_CURRENT_LIST_DIR}/ohmlore-config.cmake.in
                              ${CMAKE_CURRENT_BINARY_DIR}/ohmlore-config.cmake
                              INSTALL_DESTINATION ${CMAKE_INSTALL_LIBDIR}/cmake/ohmlore)
write_basic_package_version_file(${CMAKE_CURRENT_BINARY_DIR}/ohmlore-config-version.cmake
                                 COMPATIBILITY SameMajorVersion)
install(FILES ${CMAKE_CURRENT_BINARY_DIR}/ohmlore-config.cmake
              ${CMAKE_CURRENT_BINARY_DIR}/ohmlore-config-version.cmake
        DESTINATION ${CMAKE_INSTALL_LIBDIR}/cmake/ohmlore)
