# SPDX-FileCopyrightText: The Loopside authors
# SPDX-License-Identifier: GPL-3.0-or-later

# Writes TOGETHER, a file that compiles FILES, each in a namespace of its own behind what all of them include: our own
# headers first, as in the files themselves, for some of a library's are full of macros.

set(own "")
set(foreign "")
set(bodies "")
set(number 0)
foreach(file ${FILES})
  get_filename_component(folder ${file} DIRECTORY)
  file(STRINGS ${file} lines REGEX "^#include ")
  foreach(line ${lines})
    string(REGEX REPLACE "#include [\"<](.*)[\">]" "\\1" header ${line})
    if(EXISTS ${folder}/${header})
      set(line "#include \"${folder}/${header}\"")
    endif()
    if(line MATCHES "\"")
      list(APPEND own ${line})
    else()
      list(APPEND foreign ${line})
    endif()
  endforeach()
  math(EXPR number "${number} + 1")
  string(APPEND bodies "namespace file_${number} {\n#include \"${file}\"\n}\n")
endforeach()
set(includes ${own} ${foreign})
list(REMOVE_DUPLICATES includes)
list(JOIN includes "\n" includes)
file(WRITE ${TOGETHER} "${includes}\n\n${bodies}")
