// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/tablet.h"

#include <QObject>

#include <future>
#include <optional>
#include <string>

namespace loopside::app {

/// Writes the record of a run as a PDF that others can read and check, beside the work that goes on: with a connection
/// of its own to the journal, on a thread of its own. The name of the file tells run and digest, so that a record of
/// what was known earlier stays. One in the tablet's own folder is attached to its run as well, where the tablet has a
/// hub: so it goes there with the journal.
class RecordOut : public QObject
{
    Q_OBJECT

public:
    /// The path of the file, or why there is none.
    using Written = Result<std::string>;

    /// Whether the last one goes to the hub.
    enum class Handing
    {
        None, ///< There is no hub, or it went onto a stick.
        Goes,
        TooLarge
    };

    /// Of the journal `path`, into `folder` where no other is told; `tablet` outlives it. It waits at its end for a
    /// record that is under way.
    RecordOut(Tablet& tablet, std::string path, std::string folder);
    ~RecordOut() override;
    RecordOut(const RecordOut&) = delete;
    RecordOut& operator=(const RecordOut&) = delete;

    /// Begins with the record of `run`, into `folder`; empty: the tablet's own. Nothing happens while one is under way.
    void begin(const Id& run, const std::string& folder);

    /// Whether one is under way.
    [[nodiscard]] bool isBusy() const { return running_.valid(); }
    /// The run of the one that is under way, or else of the last one.
    [[nodiscard]] const Id& run() const { return run_; }
    /// What became of the last one; nothing before the first.
    [[nodiscard]] const std::optional<Written>& written() const { return written_; }
    [[nodiscard]] Handing handing() const { return handing_; }
    /// Of the last one that was to go to the hub.
    [[nodiscard]] std::int64_t bytes() const { return bytes_; }

Q_SIGNALS:
    /// One begins or is over.
    void changed();

private:
    void finish();
    [[nodiscard]] Handing attach(const std::string& path);

    Tablet& tablet_;
    std::string path_;
    std::string folder_;
    Id run_;
    std::optional<Written> written_;
    bool isOwn_ = false; ///< It goes into the tablet's own folder.
    Handing handing_ = Handing::None;
    std::int64_t bytes_ = 0;
    std::future<Written> running_;
};

} // namespace loopside::app
