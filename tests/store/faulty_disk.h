// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/id.h"

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::test {

/// What a power cut does to writes that were not synced.
enum class PowerCut
{
    DropsAll,
    KeepsAll,
    KeepsFirst, ///< Up to one of them.
    KeepsSome,  ///< Any of them: a disk writes in its own order.
    Tears,      ///< Of one only the beginning is there, of those behind it some.
    Garbles     ///< In place of one there are bytes that nobody wrote, of those behind it some.
};

/// The disk as SQLite sees it, while this lives: it can fail at a chosen moment, and it keeps what each file held when
/// it was synced last, which is all that a power cut must leave, and what was written since.
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

    /// From now on syncs alone count. When one fails, everything behind it does.
    void countSyncsAlone() { countsSyncsAlone_ = true; }

    /// From now on every call of the disk counts and may fail, not only those that change something.
    void countAllCalls() { countsAll_ = true; }

    /// Whether it failed since `failFrom`.
    [[nodiscard]] bool hasFailed() const { return hasFailed_; }

    /// What was synced last, by file; an empty text for what was opened and never synced.
    [[nodiscard]] const std::map<std::string, std::string>& synced() const { return synced_; }

    /// What a power cut at this moment may leave of the file `path`.
    [[nodiscard]] std::string afterCut(const std::string& path, PowerCut cut, RandomSource& random) const;

    /// The planted fault: from now on a sync is acknowledged and not done.
    void lieAboutSyncs() { isLying_ = true; }

    /// For the functions that SQLite calls.
    [[nodiscard]] int codeForNext();
    [[nodiscard]] int codeForChange() { return countsSyncsAlone_ && !hasFailed_ ? 0 : codeForNext(); }
    [[nodiscard]] int codeForAnyOther() { return countsAll_ ? codeForNext() : 0; }
    [[nodiscard]] bool isLying() const { return isLying_; }
    void opened(const std::string& path);
    void keep(const std::string& path);
    void wrote(const std::string& path, std::int64_t at, std::string_view bytes);
    void cut(const std::string& path, std::int64_t size);

private:
    /// A write of `bytes` at `at`, or a cut to the size `at`.
    struct Change
    {
        std::size_t at;
        std::string bytes;
        bool isCut;
    };
    static void apply(std::string& content, const Change& change);

    int countdown_ = 0; ///< 0: never fails.
    int code_ = 0;
    bool hasFailed_ = false;
    bool countsAll_ = false;
    bool countsSyncsAlone_ = false;
    bool isLying_ = false;
    std::map<std::string, std::string> synced_;
    std::map<std::string, std::vector<Change>> since_; ///< What was changed since, by file, in order.
};

} // namespace loopside::test
