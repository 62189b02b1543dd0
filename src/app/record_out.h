// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"
#include "report/labels.h"
#include "report/record_file.h"

#include <QObject>

#include <functional>
#include <future>
#include <optional>
#include <string>
#include <vector>

namespace loopside::app {

/// Writes for others what a run leaves behind, as PDF: its record, which they can read and check, and labels to stick
/// on. Beside the work that goes on: with a connection of its own to the journal, on a thread of its own. The name of
/// the file tells run and digest, so that a record of what was known earlier stays. A record in the tablet's own folder
/// is attached to its run as well, where the tablet has a hub: so it goes there with the journal.
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

    enum class What
    {
        Record,
        Labels
    };

    /// Begins with the record of `run`, into `folder`; empty: the tablet's own. Nothing happens while one is under way.
    void begin(const Id& run, const std::string& folder);
    /// The same with the labels of bottles and elements of `run`, or of the container that `job` filled.
    void beginLabels(const run::RunState& run, const std::string& folder);
    void beginLabels(const run::Job& job, const std::string& folder);

    /// Whether one is under way.
    [[nodiscard]] bool isBusy() const { return running_.valid(); }
    /// The run or job of the one that is under way, or else of the last one, and what it is of it.
    [[nodiscard]] const Id& run() const { return run_; }
    [[nodiscard]] What what() const { return what_; }
    /// What became of the last one; nothing before the first.
    [[nodiscard]] const std::optional<Written>& written() const { return written_; }
    [[nodiscard]] Handing handing() const { return handing_; }
    /// Of the last one that was to go to the hub.
    [[nodiscard]] std::int64_t bytes() const { return bytes_; }

Q_SIGNALS:
    /// One begins or is over.
    void changed();

private:
    /// A file that is to be written.
    struct Made
    {
        std::string name;
        std::string bytes;
    };

    void start(const Id& run, What what, const std::string& folder, std::function<Result<Made>()> make);
    void beginLabels(const Id& of, std::vector<report::Label> labels, const std::string& folder);
    [[nodiscard]] static Result<Made> makeRecord(const std::string& path, const Id& run,
                                                 const report::Telling& telling);
    [[nodiscard]] static Written write(const Result<Made>& made, const std::string& folder);
    [[nodiscard]] report::NameOf nameOf() const;
    void finish();
    [[nodiscard]] Handing attach(const std::string& path);

    Tablet& tablet_;
    std::string path_;
    std::string folder_;
    Id run_;
    What what_ = What::Record;
    std::optional<Written> written_;
    bool isOwn_ = false; ///< It goes into the tablet's own folder.
    Handing handing_ = Handing::None;
    std::int64_t bytes_ = 0;
    std::future<Written> running_;
};

/// Whether `run` left anything that wants a label.
[[nodiscard]] bool hasLabels(const Tablet& tablet, const run::RunState& run);

/// Keys that write labels, on the tablet and onto each of `sticks`. Rows: text, say (`labelsFolder` of it tells where).
[[nodiscard]] QList<RowModel::Row> labelKeysFor(const Tablet& tablet, const QStringList& sticks);
/// The folder that such a key names, empty for the tablet's own; nothing if `say` is of another key.
[[nodiscard]] std::optional<std::string> labelsFolder(const QString& say);

/// What became of the last `what` of `run`: that it is under way, where it is, or why there is none; empty where it was
/// something else.
[[nodiscard]] QString writtenText(const Tablet& tablet, const RecordOut& records, RecordOut::What what, const Id& run);

} // namespace loopside::app
