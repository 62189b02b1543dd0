// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <map>
#include <string>

namespace loopside::test {

/// The disk as SQLite sees it, while this lives: it can fail at a chosen moment, and it keeps what each file held when
/// it was synced last, which is all that a power cut must leave.
class FaultyDisk
{
public:
    FaultyDisk();
    FaultyDisk(const FaultyDisk&) = delete;
    FaultyDisk& operator=(const FaultyDisk&) = delete;
    ~FaultyDisk();

    /// From the `n`th write or sync on (from 1), every one fails with SQLite's `code`.
    void failFrom(int n, int code);
    void work() { countdown_ = 0; }

    /// Whether it failed since `failFrom`.
    [[nodiscard]] bool hasFailed() const { return hasFailed_; }

    /// What was synced last, by file; an empty text for what was opened and never synced.
    [[nodiscard]] const std::map<std::string, std::string>& synced() const { return synced_; }

    /// For the functions that SQLite calls.
    [[nodiscard]] int codeForNext();
    void opened(const std::string& path);
    void keep(const std::string& path);

private:
    int countdown_ = 0; ///< 0: never fails.
    int code_ = 0;
    bool hasFailed_ = false;
    std::map<std::string, std::string> synced_;
};

} // namespace loopside::test
