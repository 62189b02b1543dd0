// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/id.h"
#include "store/disk.h"

#include <map>
#include <optional>
#include <set>

namespace loopside::test {

/// A disk in memory that can fail at any call and lose its power after any: what was not synced may then be there,
/// partly there, or not, and a name that was not synced may be the old one or the new one.
class CrashDisk final : public store::Disk
{
public:
    explicit CrashDisk(std::uint64_t seed) : random_{seed} {}

    /// The `n`th call that changes something, from 1, and every one behind it fails.
    void failFrom(int n)
    {
        countdown_ = n;
        isForGood_ = true;
    }
    /// The `n`th such call fails, and those behind it do not.
    void failAt(int n)
    {
        countdown_ = n;
        isForGood_ = false;
    }
    void work() { countdown_ = 0; }
    /// From now on a sync is acknowledged and not done.
    void lieAboutSyncs() { isLying_ = true; }

    /// What a power cut at this moment may leave; the disk goes on from there.
    void cutPower();

    /// What is in it now, as a program would see it.
    [[nodiscard]] const std::map<std::string, std::string>& files() const { return files_; }
    /// Turns a byte of a file.
    void spoil(const std::string& path) { files_.at(path).back() ^= 1; }

    [[nodiscard]] Done makeFolder(const std::string& path) override;
    [[nodiscard]] Done write(const std::string& path, std::string_view content) override;
    [[nodiscard]] Done sync(const std::string& path) override;
    [[nodiscard]] Done rename(const std::string& from, const std::string& to) override;
    [[nodiscard]] Done syncFolder(const std::string& path) override;
    [[nodiscard]] Done remove(const std::string& path) override;
    [[nodiscard]] Result<std::string> read(const std::string& path, std::size_t most) const override;
    [[nodiscard]] Result<std::vector<std::string>> list(const std::string& path) const override;

private:
    [[nodiscard]] Done next();

    SeededRandom random_;
    int countdown_ = 0; ///< 0: never fails.
    bool isForGood_ = true;
    bool isLying_ = false;
    std::map<std::string, std::string> files_;  ///< As a program sees them.
    std::map<std::string, std::string> onDisk_; ///< By name: the content that has surely this name.
    std::map<std::string, std::string> synced_; ///< By name as a program sees it: content that is surely on disk.
};

} // namespace loopside::test
