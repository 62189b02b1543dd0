// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/recorder.h"
#include "store/sqlite_journal.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>
#include <memory>
#include <string>
#include <vector>

namespace loopside::test {

inline std::string contentOf(const std::string& path)
{
    std::ifstream file(path, std::ios::binary | std::ios::ate);
    if (!file) {
        return {}; // there is none
    }
    std::string content(static_cast<std::size_t>(file.tellg()), '\0');
    file.seekg(0);
    REQUIRE(file.read(content.data(), std::ssize(content)));
    return content;
}

inline void write(const std::string& path, const std::string& content)
{
    std::ofstream file(path, std::ios::binary | std::ios::trunc);
    file << content;
    REQUIRE(file.flush());
}

inline std::unique_ptr<store::SqliteJournal> openedJournal(const std::string& path)
{
    auto opened = store::SqliteJournal::open(path);
    INFO((opened ? std::string() : opened.error().sentence));
    REQUIRE(opened);
    return std::move(*opened);
}

/// Makes a journal that holds `entries`, and closes it.
inline void makeJournal(const std::string& path, const std::vector<ledger::Entry>& entries)
{
    REQUIRE(openedJournal(path)->append(entries));
}

} // namespace loopside::test
