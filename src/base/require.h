// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <cstdio>
#include <cstdlib>
#include <source_location>

namespace loopside {

/// Stops the program, in release builds too, if `condition` does not hold.
///
/// For what only a wrong program can do, never for what a person typed or a disk did. The journal is durable and
/// start-up replays it, so stopping loses nothing and going on might.
inline void require(bool condition, const char* what, std::source_location where = std::source_location::current())
{
    if (condition) {
        return;
    }
    std::fprintf(stderr, "loopside: a rule of the program was broken: %s (%s:%u)\n", what, where.file_name(),
                 static_cast<unsigned>(where.line()));
    std::abort();
}

} // namespace loopside
