# SPDX-FileCopyrightText: The Loopside authors
# SPDX-License-Identifier: GPL-3.0-or-later

# One function per kind of target, so that a module's whole build statement is one call.

add_library(loopside_warnings INTERFACE)
target_compile_options(loopside_warnings INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wnon-virtual-dtor -Wold-style-cast -Wunused-result
  $<$<BOOL:${LOOPSIDE_WARNINGS_AS_ERRORS}>:-Werror>)

set_property(GLOBAL PROPERTY LOOPSIDE_LAYERS "")

# project_module(<name> DEPENDS <modules> [SOURCES <files>] [HEADERS <files>] [LIBS <targets>] [PRECOMPILE <headers>])
#
# Makes the static library `loopside_<name>` from files in src/<name>, included as "<name>/file.h".
# DEPENDS is the only statement of the layering: the modules named, and what they name in turn. It is written to
# layers.txt in the build folder, and the tidy test checks every #include against it.
# LIBS are outside libraries; nothing else may include them.
# PRECOMPILE names headers that most files of the module read: they are read once. A file still includes what it uses.
function(project_module name)
  cmake_parse_arguments(PARSE_ARGV 1 arg "" "" "DEPENDS;SOURCES;HEADERS;LIBS;PRECOMPILE")
  if(arg_UNPARSED_ARGUMENTS)
    message(FATAL_ERROR "project_module(${name}): unknown words ${arg_UNPARSED_ARGUMENTS}")
  endif()
  set(target loopside_${name})
  set(kind PUBLIC)
  if(arg_SOURCES)
    add_library(${target} STATIC ${arg_SOURCES})
    target_link_libraries(${target} PRIVATE loopside_warnings)
    target_precompile_headers(${target} PRIVATE ${arg_PRECOMPILE})
  else()
    add_library(${target} INTERFACE)
    set(kind INTERFACE)
  endif()
  target_sources(${target} ${kind} FILE_SET HEADERS BASE_DIRS ${PROJECT_SOURCE_DIR}/src FILES ${arg_HEADERS})
  list(TRANSFORM arg_DEPENDS PREPEND loopside_ OUTPUT_VARIABLE uses)
  target_link_libraries(${target} ${kind} ${uses} ${arg_LIBS})
  string(JOIN " " line "${name}:" ${arg_DEPENDS})
  set_property(GLOBAL APPEND PROPERTY LOOPSIDE_LAYERS "${line}")
endfunction()

# Writes layers.txt: a line per module, "name: what it depends on", in the order of the layers.
function(write_layers)
  get_property(lines GLOBAL PROPERTY LOOPSIDE_LAYERS)
  string(JOIN "\n" text ${lines})
  file(WRITE ${PROJECT_BINARY_DIR}/layers.txt "${text}\n")
endfunction()
