# SPDX-License-Identifier: GPL-3.0-or-later
# What `cmake --install` puts beside the program, and the Debian package: `cpack --config .build/release/CPackConfig.cmake`.
include(GNUInstallDirs)
set(package ${PROJECT_SOURCE_DIR}/resources/package)
install(FILES ${package}/org.prillbook.Prillbook.desktop DESTINATION ${CMAKE_INSTALL_DATADIR}/applications)
install(FILES ${package}/org.prillbook.Prillbook.metainfo.xml DESTINATION ${CMAKE_INSTALL_DATADIR}/metainfo)
install(FILES ${package}/org.prillbook.Prillbook.xml DESTINATION ${CMAKE_INSTALL_DATADIR}/mime/packages)
install(FILES ${package}/org.prillbook.Prillbook.svg DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps)
install(FILES ${package}/prillbook.bash DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions RENAME prillbook)

# Debian policy 12.1 and 12.3: manual pages and change logs are compressed, without a time in them.
find_program(PRILLBOOK_GZIP gzip REQUIRED)
function(install_compressed source name destination)
  set(compressed ${PROJECT_BINARY_DIR}/package/${name}.gz)
  add_custom_command(OUTPUT ${compressed} DEPENDS ${source} VERBATIM
    COMMAND ${CMAKE_COMMAND} -E make_directory ${PROJECT_BINARY_DIR}/package
    COMMAND sh -c "\"$1\" -9nc \"$2\" > \"$3\"" sh ${PRILLBOOK_GZIP} ${source} ${compressed})
  add_custom_target(package_${name} ALL DEPENDS ${compressed})
  install(FILES ${compressed} DESTINATION ${destination})
endfunction()
install_compressed(${package}/prillbook.1 prillbook.1 ${CMAKE_INSTALL_MANDIR}/man1)
install_compressed(${package}/changelog changelog ${CMAKE_INSTALL_DOCDIR})
install(FILES ${package}/copyright DESTINATION ${CMAKE_INSTALL_DOCDIR})

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_CONTACT "Prillbook maintainers <maintainers@prillbook.example>")
set(CPACK_PACKAGE_DESCRIPTION "Follows each sample of a small assay lab from its arrival to the client
summary: custody,
crushing and splitting, pan concentrates and crucible assays,
sieve fractions and bead weighings, in one file, with the uncertainty of
every figure.")
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS fonts-dejavu-core)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS
    OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
include(CPack)

# Makes the Debian package and looks it over with lintian, which brings many packages of its own: no part of the tests.
add_custom_target(package_check VERBATIM
  COMMAND ${CMAKE_CPACK_COMMAND} --config ${PROJECT_BINARY_DIR}/CPackConfig.cmake -B ${PROJECT_BINARY_DIR}/package
  COMMAND sh -c "lintian --fail-on error \"$1\"/package/*.deb" sh ${PROJECT_BINARY_DIR})
add_dependencies(package_check prillbook package_prillbook.1 package_changelog)
