// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/tablet.h"
#include "store/whole_check.h"

#include <QObject>

#include <future>
#include <optional>
#include <string>

namespace loopside::app {

/// Checks the tablet's whole journal when somebody asks for it, beside the work that goes on: with a connection of its
/// own, on a thread of its own.
class RecordCheck : public QObject
{
    Q_OBJECT

public:
    using Found = Result<store::Verified>;

    /// Of the journal `path`; `tablet` outlives it.
    RecordCheck(Tablet& tablet, std::string path);
    /// Ends a check that is under way, and waits for it.
    ~RecordCheck() override;

    /// Begins a check now, unless one is under way.
    void begin();

    [[nodiscard]] bool isBusy() const { return running_.valid(); }
    /// How much of the entries was looked at, 0 to 99 while one is under way.
    [[nodiscard]] int percent() const;
    /// What the last one found; nothing before the first.
    [[nodiscard]] const std::optional<Found>& found() const { return found_; }
    /// When it was over.
    [[nodiscard]] const Stamp& at() const { return at_; }

Q_SIGNALS:
    /// One begins or is over.
    void changed();

private:
    void finish();

    Tablet& tablet_;
    std::string path_;
    store::CheckWatch watch_;
    std::optional<Found> found_;
    Stamp at_ = {};
    std::future<Found> running_;
};

} // namespace loopside::app
