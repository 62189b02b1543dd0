// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <sys/types.h>

#include <functional>
#include <map>
#include <set>
#include <string>

namespace loopside::test {

/// The calls of the operating system that change files and names, while this lives: open (of a file to be made, or of
/// a folder), write, fsync, link, rename, unlink. Each can fail, or be the last before the power goes. SQLite's own
/// calls go past it; faulty_disk.h has those.
///
/// It takes for granted that names reach the disk in the order in which they were changed, as on file systems with a
/// log of their own (common practice), and content only with a sync. So what a cut leaves is what stands there at one
/// of the calls, with content that was not synced spoilt; and of what was acknowledged nothing may be left to sync.
class FileCalls
{
public:
    FileCalls();
    FileCalls(const FileCalls&) = delete;
    FileCalls& operator=(const FileCalls&) = delete;
    ~FileCalls();

    /// The `n`th call from now on, from 1, fails for the reason `cause`, and no other.
    void failAt(int n, int cause);
    /// It and all behind it fail.
    void failFrom(int n, int cause);
    /// In place of the `n`th call from now on the power goes: this process ends with `cutExit`.
    void cutPowerAt(int n);
    static constexpr int cutExit = 77;

    /// All calls work again.
    void work();
    /// Whether the call that was chosen last was reached.
    [[nodiscard]] bool isReached() const { return isReached_; }

    /// Files that a power cut now could take, or leave spoilt: names that were given and not synced with their folder,
    /// content that was written and not synced, and what had its name before its content was on disk.
    [[nodiscard]] std::set<std::string> atRisk() const;

    // For the calls in place of the system's.
    [[nodiscard]] int causeForNext();
    void made(const std::string& path);
    void wrote(int file);
    void synced(int file);
    void named(const std::string& from, const std::string& to, bool isFromGone);
    void removed(const std::string& path);

private:
    void spoilUnsynced() const;

    int countdown_ = 0; ///< 0: none is chosen.
    int cause_ = 0;     ///< 0: the power goes.
    bool isForGood_ = false;
    bool isReached_ = false;
    std::set<std::string> names_;            ///< Given, and not synced.
    std::map<ino_t, std::string> contents_;  ///< Written and not synced, by their last name.
    std::set<std::string> namedBeforeWhole_; ///< Renamed or linked while their content was not synced.
};

/// Does `work` in a process of its own in which the power goes at the `n`th call. True if there were that many; false
/// if `work` was through before, and its answer was true.
[[nodiscard]] bool cutAt(int n, const std::function<bool()>& work);

} // namespace loopside::test
