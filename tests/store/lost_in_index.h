// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "store/files.h"

#include <catch2/catch.hpp>

#include <cstddef>
#include <string>

namespace loopside::test {

/// Takes the last row out of an index of the closed journal `path`, as a page gone bad would: the entry is in its table
/// and is not found along that index. (SQLite file format, "B-tree pages": type 0x0A, number of cells at 3.)
inline void loseInIndex(const std::string& path)
{
    constexpr std::size_t pageBytes = 4096;
    constexpr char leafOfIndex = 0x0A;
    std::string file = contentOf(path);
    for (std::size_t page = pageBytes; page + pageBytes <= file.size(); page += pageBytes) {
        if (file[page] == leafOfIndex && file[page + 4] > 0) {
            --file[page + 4];
            write(path, file);
            return;
        }
    }
    FAIL("no index has a row");
}

} // namespace loopside::test
