# SPDX-FileCopyrightText: The Loopside authors
# SPDX-License-Identifier: GPL-3.0-or-later

# Most of what a file of tests costs is reading the same headers and making the same templates as the file beside it.
# With LOOPSIDE_TESTS_TOGETHER the compiler gets several files at once, each in a namespace of its own, so that no two
# of them can get into each other's way. What they include is included before, outside of these namespaces.

option(LOOPSIDE_TESTS_TOGETHER "Compile files of tests several at a time: built sooner where all of them are built" OFF)

set(read_together_script ${CMAKE_CURRENT_LIST_DIR}/write_together.cmake)
set(read_together_size 8)

# read_together(<result> <name> <files>): gives the files to compile instead of the *_test.cpp among the files of the
# current folder. Those that open a namespace of a name or say something to the preprocessor stay as they are.
function(read_together result name)
  set(compiled "")
  set(batch "")
  set(number 0)
  foreach(file ${ARGN} end)
    if(file MATCHES "_test\\.cpp$")
      file(STRINGS ${file} needs_own REGEX "^(namespace [a-zA-Z]|#[^i]|#if|#include.*\\.moc)" LIMIT_COUNT 1)
    else()
      set(needs_own TRUE)
    endif()
    if(NOT needs_own)
      list(APPEND batch ${CMAKE_CURRENT_SOURCE_DIR}/${file})
    elseif(NOT file STREQUAL end)
      list(APPEND compiled ${file})
    endif()
    list(LENGTH batch length)
    if(length EQUAL read_together_size OR (file STREQUAL end AND batch))
      math(EXPR number "${number} + 1")
      set(together ${CMAKE_CURRENT_BINARY_DIR}/${name}_${number}.cpp)
      add_custom_command(
        OUTPUT ${together}
        COMMAND ${CMAKE_COMMAND} "-DFILES=${batch}" -DTOGETHER=${together} -P ${read_together_script}
        DEPENDS ${batch} ${read_together_script}
        VERBATIM)
      list(APPEND compiled ${together})
      set(batch "")
    endif()
  endforeach()
  set(${result} ${compiled} PARENT_SCOPE)
endfunction()
