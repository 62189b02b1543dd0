# SPDX-FileCopyrightText: The Loopside authors
# SPDX-License-Identifier: GPL-3.0-or-later

# The targets `format` (rewrites), `format_check` (only looks), `lint` (clang-tidy, and qmllint where there is QML) and
# `lint_second` (cppcheck over the core).
# packaging/style does the work and names the Debian package of a tool that is missing.

foreach(pair format:format format_check:check lint:lint lint_second:second)
  string(REPLACE ":" ";" pair ${pair})
  list(GET pair 0 target)
  list(GET pair 1 task)
  add_custom_target(${target}
    COMMAND ${PROJECT_SOURCE_DIR}/packaging/style ${task} ${PROJECT_BINARY_DIR}
    USES_TERMINAL VERBATIM)
endforeach()

# Qt makes all_qmllint with the first QML module, which is after this file was read.
function(lint_qml_too)
  if(TARGET all_qmllint)
    add_dependencies(lint all_qmllint)
  endif()
endfunction()
cmake_language(DEFER CALL lint_qml_too)
