// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/tablet.h"
#include "store/backup.h"

#include <QObject>

#include <cstdint>
#include <future>
#include <optional>
#include <string>

namespace loopside::app {

/// Makes a backup of the tablet's journal after each run and each hour, beside the work that goes on: with a connection
/// of its own, on a thread of its own. A backup that cannot be made is told once, until one succeeds again.
class BackupTimer : public QObject
{
    Q_OBJECT

public:
    /// The backup, or none where the last one had everything.
    using Made = Result<std::optional<store::Backup>>;

    /// Of the journal `path` into `folder`; `tablet` outlives it. It waits at its end for a backup that is under way.
    BackupTimer(Tablet& tablet, std::string path, std::string folder);

    /// Begins a backup now, unless one is under way.
    void begin();

    /// Whether one is under way.
    [[nodiscard]] bool isBusy() const { return running_.valid(); }

    /// What became of the last one; nothing before the first.
    [[nodiscard]] const std::optional<Made>& made() const { return made_; }

Q_SIGNALS:
    /// One begins or is over.
    void changed();

private:
    void look();
    void finish();
    [[nodiscard]] std::size_t closedRuns() const;

    Tablet& tablet_;
    std::string path_;
    std::string folder_;
    std::size_t closedBefore_;
    std::uint64_t lastNs_; ///< Monotonic clock at the last one.
    bool isTold_ = false;
    std::optional<Made> made_;
    std::future<Made> running_;
};

} // namespace loopside::app
