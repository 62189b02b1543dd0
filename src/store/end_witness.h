// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a journal cannot know of itself: how far it once was. Beside it stands a small file that names its last
// acknowledged entry. It is written after the commit and not synced, so it costs next to nothing: after a power cut it
// may tell too little, never too much. Where it names an entry that the journal does not have, that entry was lost.

#pragma once

#include "ledger/journal.h"
#include "store/file_handle.h"

#include <memory>
#include <optional>
#include <string>
#include <utility>

namespace loopside::store {

struct JournalEnd
{
    ledger::Position position = 0;
    ledger::Hash hash = {};

    friend bool operator==(const JournalEnd&, const JournalEnd&) = default;
};

/// Writes the end of the journal `path` to the file `<path>.end` (schema/README.md).
class EndWitness
{
public:
    explicit EndWitness(std::string path) : path_{std::move(path)} {}

    /// Makes the file, for its owner alone, at the first time. Where that fails it writes nothing: a journal without a
    /// witness is still a journal.
    void write(const JournalEnd& end);

private:
    std::string path_;
    std::unique_ptr<FileHandle> file_;
};

/// The end that was written last for the journal `path`; nothing if none can be read.
[[nodiscard]] std::optional<JournalEnd> writtenEnd(const std::string& path);

/// Takes the witness of the journal `path` away: what it names is no longer what should be there.
void forgetEnd(const std::string& path);

} // namespace loopside::store
