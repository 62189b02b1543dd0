// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/tablet.h"
#include "store/recovery.h"

#include <QObject>

#include <future>
#include <string>

namespace loopside::app {

/// Looks behind the start, beside the work that goes on, at what the start left out of a journal, and tells of damage:
/// before the first screen it would cost half a second, and of a large file seconds (docs/durability.md).
class StartCheck : public QObject
{
    Q_OBJECT

public:
    /// Of `journal`, which with `tablet` outlives it.
    StartCheck(Tablet& tablet, store::SqliteJournal& journal);
    /// Waits for the end of a look that is under way.
    ~StartCheck() override;

    /// Begins to look at the file of the journal, `path`.
    void begin(const std::string& path);

    [[nodiscard]] bool isBusy() const { return running_.valid(); }

private:
    void finish();
    void tell(const std::string& reason);

    Tablet& tablet_;
    store::SqliteJournal& journal_;
    std::future<Result<store::PieceChecked>> running_;
};

} // namespace loopside::app
