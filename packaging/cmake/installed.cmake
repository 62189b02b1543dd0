# SPDX-FileCopyrightText: The Loopside authors
# SPDX-License-Identifier: GPL-3.0-or-later

# What is installed beside the programs, and the three Debian packages that CPack makes of it (packaging/deb).

set(documents_folder ${PROJECT_BINARY_DIR}/documents)
file(MAKE_DIRECTORY ${documents_folder})

# compressed(<input> <name>): a rule for documents/<name>, as gzip, always of the same bytes.
function(compressed input name)
  add_custom_command(OUTPUT ${documents_folder}/${name}
    COMMAND gzip -9nc ${input} > ${documents_folder}/${name}
    DEPENDS ${input} VERBATIM)
endfunction()

# documents_of(<program> <section>): manual page and completion, both from the program's own helps; changelog, copyright and
# what it is made of and needs (SPDX).
function(documents_of program section)
  set(manual ${PROJECT_SOURCE_DIR}/packaging/manual)
  set(told ${documents_folder}/${program}.told)
  set(page ${documents_folder}/${program}.${section})
  set(completion ${documents_folder}/${program}.bash)
  add_custom_command(OUTPUT ${told}
    COMMAND ${manual}/told $<TARGET_FILE:${program}> > ${told}
    DEPENDS ${program} ${manual}/told VERBATIM)
  add_custom_command(OUTPUT ${page}
    COMMAND ${manual}/page ${manual}/${program}.${section} ${PROJECT_VERSION} < ${told} > ${page}
    DEPENDS ${told} ${manual}/page ${manual}/${program}.${section} VERBATIM)
  add_custom_command(OUTPUT ${completion}
    COMMAND ${manual}/completion ${program} < ${told} > ${completion}
    DEPENDS ${told} ${manual}/completion VERBATIM)
  compressed(${page} ${program}.${section}.gz)
  set(sbom ${PROJECT_SOURCE_DIR}/packaging/sbom)
  set(parts ${documents_folder}/${program}.spdx.json)
  add_custom_command(OUTPUT ${parts}
    COMMAND ${sbom} ${program} ${PROJECT_VERSION} $<TARGET_FILE:${program}> > ${parts}
    DEPENDS ${program} ${sbom} ${sbom}.awk ${PROJECT_SOURCE_DIR}/packaging/dependencies VERBATIM)
  add_custom_target(${program}_documents ALL DEPENDS ${page}.gz ${completion} ${documents_folder}/changelog.gz ${parts})
  install(FILES ${page}.gz DESTINATION share/man/man${section} COMPONENT ${program})
  install(FILES ${completion} DESTINATION share/bash-completion/completions RENAME ${program} COMPONENT ${program})
  install(FILES ${documents_folder}/changelog.gz ${PROJECT_SOURCE_DIR}/packaging/debian/copyright ${parts}
    DESTINATION share/doc/${program} COMPONENT ${program})
endfunction()

compressed(${PROJECT_SOURCE_DIR}/packaging/debian/changelog changelog.gz)
documents_of(loopside 1)
documents_of(loopside-cli 1)
documents_of(loopside-hub 8)

set(files ${PROJECT_SOURCE_DIR}/packaging/files)
install(FILES ${files}/loopside.desktop DESTINATION share/applications COMPONENT loopside)
install(FILES ${files}/loopside.svg DESTINATION share/icons/hicolor/scalable/apps COMPONENT loopside)
install(FILES ${files}/loopside.metainfo.xml DESTINATION share/metainfo COMPONENT loopside)
install(FILES ${files}/loopside-kiosk@.service DESTINATION lib/systemd/system COMPONENT loopside)
install(FILES ${files}/loopside-hub.service DESTINATION lib/systemd/system COMPONENT loopside-hub)
if(CMAKE_INSTALL_PREFIX STREQUAL "/usr")
  install(FILES ${files}/hub.toml DESTINATION /etc/loopside COMPONENT loopside-hub)
else()
  install(FILES ${files}/hub.toml DESTINATION etc/loopside COMPONENT loopside-hub)
endif()

# The user's guide, to be read and to be printed: guide.html and guide.pdf in English, guide-<language>.* in the others.
add_executable(guide_pdf packaging/guide/guide_pdf.cpp src/paper/face.cpp) # of paper it needs the face alone
target_include_directories(guide_pdf PRIVATE ${PROJECT_SOURCE_DIR}/src)
target_link_libraries(guide_pdf PRIVATE Qt6::Gui Fontconfig::Fontconfig loopside_warnings)
target_compile_definitions(guide_pdf PRIVATE QT_NO_CAST_FROM_ASCII)
set(guides "")
foreach(language de en es)
  set(source ${PROJECT_SOURCE_DIR}/docs/guide/${language}.md)
  set(guide ${documents_folder}/guide-${language})
  if(language STREQUAL "en")
    set(guide ${documents_folder}/guide)
  endif()
  add_custom_command(OUTPUT ${guide}.html
    COMMAND ${PROJECT_SOURCE_DIR}/packaging/guide/html ${language} ${source} > ${guide}.html
    DEPENDS ${source} ${PROJECT_SOURCE_DIR}/packaging/guide/html VERBATIM)
  add_custom_command(OUTPUT ${guide}.pdf
    COMMAND ${CMAKE_COMMAND} -E env QT_QPA_PLATFORM=offscreen LC_ALL=C.UTF-8
      $<TARGET_FILE:guide_pdf> ${source} ${guide}.pdf
    DEPENDS ${source} guide_pdf VERBATIM)
  list(APPEND guides ${guide}.html ${guide}.pdf)
endforeach()
add_custom_target(guide ALL DEPENDS ${guides})
install(FILES ${guides} DESTINATION share/doc/loopside COMPONENT loopside)

# needed_unseen(<variable> <pattern>): of the packages in packaging/dependencies those that fit, which no program is linked to.
function(needed_unseen variable pattern)
  file(STRINGS ${PROJECT_SOURCE_DIR}/packaging/dependencies lines REGEX "^(build|run) ")
  set(found "")
  foreach(line ${lines})
    if(line MATCHES "^(build|run) +(${pattern}[^ ]*)")
      list(APPEND found ${CMAKE_MATCH_2})
    endif()
  endforeach()
  list(REMOVE_DUPLICATES found)
  list(JOIN found ", " text)
  set(${variable} "${text}" PARENT_SCOPE)
endfunction()

needed_unseen(qml_modules qml6-module-)
needed_unseen(faces fonts-)
needed_unseen(plugins libqt6[a-z0-9]+-plugins)
needed_unseen(displays qt6-qpa-plugins)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME loopside)
set(CPACK_PACKAGE_VENDOR "The Loopside authors")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "") # each package has its own
set(CPACK_PACKAGE_CONTACT "The Loopside authors <authors@loopside.example>")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL loopside loopside-cli loopside-hub)
set(CPACK_COMPONENTS_GROUPING IGNORE)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON) # needs dpkg-dev and file; without them it is passed over in silence
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)

set(CPACK_DEBIAN_LOOPSIDE_PACKAGE_NAME loopside)
set(CPACK_DEBIAN_LOOPSIDE_PACKAGE_SECTION science)
set(CPACK_DEBIAN_LOOPSIDE_PACKAGE_DEPENDS "${qml_modules}, ${plugins}, ${faces}")
set(CPACK_DEBIAN_LOOPSIDE_PACKAGE_RECOMMENDS "qt6-wayland, gstreamer1.0-plugins-good")
set(CPACK_DEBIAN_LOOPSIDE_PACKAGE_SUGGESTS "cage, ${displays}, loopside-cli")
set(CPACK_DEBIAN_LOOPSIDE_DESCRIPTION "logbook of a portable oil filter cart, on a tablet
Logbook, calculator and lookout for the lubrication technician who cleans oil
with a portable two-stage filter cart. What three gauges show becomes each
stage's differential pressure, corrected for the oil's viscosity; it tells when
a stage reaches its change limit and counts the turnovers that really went
through the filters. It works a whole shift without a network.
.
With cage installed, the unit loopside-kiosk@ACCOUNT shows it on the whole
screen of a tablet, and shows it again whenever it ends.")
set(CPACK_DEBIAN_LOOPSIDE_PACKAGE_CONTROL_EXTRA
  "${PROJECT_SOURCE_DIR}/packaging/debian/loopside/postinst;${PROJECT_SOURCE_DIR}/packaging/debian/loopside/prerm;${PROJECT_SOURCE_DIR}/packaging/debian/loopside/postrm")

set(CPACK_DEBIAN_LOOPSIDE-CLI_PACKAGE_NAME loopside-cli)
set(CPACK_DEBIAN_LOOPSIDE-CLI_PACKAGE_SECTION science)
set(CPACK_DEBIAN_LOOPSIDE-CLI_PACKAGE_DEPENDS "${faces}")
set(CPACK_DEBIAN_LOOPSIDE-CLI_DESCRIPTION "command line of Loopside, the logbook of an oil filter cart
Computes what the tablet's screens compute, and works on its record: looks at
it, checks every hash and signature, backs it up, restores it, prints it and
hands it over to a site hub.")

set(CPACK_DEBIAN_LOOPSIDE-HUB_PACKAGE_NAME loopside-hub)
set(CPACK_DEBIAN_LOOPSIDE-HUB_PACKAGE_SECTION science)
set(CPACK_DEBIAN_LOOPSIDE-HUB_PACKAGE_DEPENDS adduser)
set(CPACK_DEBIAN_LOOPSIDE-HUB_PACKAGE_SUGGESTS postgresql)
set(CPACK_DEBIAN_LOOPSIDE-HUB_DESCRIPTION "site hub of Loopside, the logbook of an oil filter cart
Takes what the tablets of a site recorded, keeps it in a file of its own or in
PostgreSQL, gives other tablets what interests them, and serves a page to
planner and engineer.")
set(CPACK_DEBIAN_LOOPSIDE-HUB_PACKAGE_CONTROL_EXTRA
  "${PROJECT_SOURCE_DIR}/packaging/debian/loopside-hub/postinst;${PROJECT_SOURCE_DIR}/packaging/debian/loopside-hub/prerm;${PROJECT_SOURCE_DIR}/packaging/debian/loopside-hub/postrm;${PROJECT_SOURCE_DIR}/packaging/debian/loopside-hub/conffiles")

include(CPack)
