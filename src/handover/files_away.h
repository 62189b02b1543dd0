// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/journal.h"
#include "sync/files.h"

#include <deque>
#include <functional>
#include <optional>
#include <string>

namespace loopside::handover {

/// Finds the files that a journal names and tells what to say to the hub until it has them, one after the other. It
/// does no input or output but to read journal and files.
///
/// What was said is said again until an answer is heard. A file that cannot be read is passed over: what is missing or
/// damaged here is told by the check of the journal.
class FilesAway
{
public:
    /// Reads the file of that name, its salt in front.
    using ReadFile = std::function<Result<std::string>(const std::string& name)>;

    struct Saying
    {
        std::string path;
        std::string body;
    };

    /// Whether the hub has acknowledged the entry at that place: before that it wants no file of it.
    using IsThere = std::function<bool(const sync::FilePlace& place)>;

    /// The hub has the files of all entries up to `done`. `journal` outlives it.
    FilesAway(const ledger::Journal& journal, ReadFile read, IsThere isThere, ledger::Position done)
        : journal_{&journal}, read_{std::move(read)}, isThere_{std::move(isThere)}, done_{done}, seen_{done}
    {
    }

    /// Looks for files in the next entries, some thousands at most; false where there were none to look at.
    [[nodiscard]] Result<bool> look();

    /// What to say next; nothing: the hub has the files of all entries that were looked at and that it has.
    [[nodiscard]] std::optional<Saying> say();

    /// Takes the answer to what was said. Malformed if it is none.
    [[nodiscard]] Done hear(std::string_view answer);

    /// Goes on without the file that was said last: the hub cannot take it.
    void passOver();

    /// Files of which it is not known that the hub has them.
    [[nodiscard]] std::size_t waiting() const { return found_.size() + wanted_.size(); }

    /// Up to where the hub has all files.
    [[nodiscard]] ledger::Position done() const { return done_; }

private:
    struct File
    {
        sync::FilePlace place;
        std::string name;
    };

    void settle();

    const ledger::Journal* journal_;
    ReadFile read_;
    IsThere isThere_;
    ledger::Position done_;
    ledger::Position seen_;
    std::deque<File> found_ = {};  ///< Not offered yet, or not answered.
    sync::FileList offered_ = {};  ///< Of those, in the list that was said last.
    std::deque<File> wanted_ = {}; ///< By the hub, and not there yet.
};

} // namespace loopside::handover
