# SPDX-FileCopyrightText: The Loopside authors
# SPDX-License-Identifier: GPL-3.0-or-later

# embed_file(<target> <file> <namespace> <name>)
#
# Gives <target> the header "embedded/<name>.h" with `<namespace>::<name>()`, a std::string_view of the file's bytes, so
# that the core can carry a table without opening a file. The file is split into pieces that every compiler takes.
function(embed_file target file namespace name)
  cmake_path(ABSOLUTE_PATH file BASE_DIRECTORY ${PROJECT_SOURCE_DIR} OUTPUT_VARIABLE input)
  set(folder ${PROJECT_BINARY_DIR}/embedded_${target})
  set(header ${folder}/embedded/${name}.h)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${input})
  file(READ ${input} text)
  string(LENGTH "${text}" length)
  set(pieces "")
  set(at 0)
  while(at LESS length)
    string(SUBSTRING "${text}" ${at} 4000 piece)
    string(APPEND pieces "\n    R\"embedded(${piece})embedded\"")
    math(EXPR at "${at} + 4000")
  endwhile()
  file(CONFIGURE OUTPUT ${header} @ONLY CONTENT
"// Made at configure time from @file@; do not edit.
#pragma once
#include <string_view>
namespace @namespace@ {
inline std::string_view @name@()
{
    static constexpr char text[] =@pieces@;
    return {text, sizeof(text) - 1};
}
} // namespace @namespace@
")
  target_include_directories(${target} PRIVATE ${folder})
endfunction()
