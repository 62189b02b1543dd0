// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/id.h"
#include "base/result.h"

#include <map>
#include <memory>
#include <string>
#include <string_view>

namespace loopside::store {

/// What was typed and not yet logged, by run and field, in an SQLite file of its own beside the journal.
///
/// A draft is no entry: it is not sealed, it is shown to a person before it becomes one, and it may be thrown away. So
/// a draft file that cannot be used never stands in the way of the tablet.
class DraftStore
{
public:
    /// Opens the draft file `path`; if no such file is there, makes it, open to its owner alone. One that is damaged,
    /// no draft file, of a newer version or unreadable gets the first free of the names `path`.1, `path`.2 …, and a new
    /// one is begun; `notice` then says so.
    ///
    /// Unavailable if another program keeps the file, Io if the disk or the system lets no new one be made; the old one
    /// is then where it was.
    [[nodiscard]] static Result<std::unique_ptr<DraftStore>> open(const std::string& path);

    ~DraftStore();

    /// Keeps `text` as the draft of `field`, in place of the one before. It is on disk when this returns (write-ahead
    /// log, synchronous FULL); on failure the one before stands. A text that stands already is not written again.
    [[nodiscard]] Done put(const Id& run, std::string_view field, std::string_view text);

    /// All drafts of `run`, text by field; empty if there are none.
    [[nodiscard]] Result<std::map<std::string, std::string>> of(const Id& run) const;

    /// Throws all drafts of `run` away.
    [[nodiscard]] Done clear(const Id& run);

    /// What happened to the drafts of an earlier start, as a sentence with the file's new name; empty if all is well.
    [[nodiscard]] const std::string& notice() const { return notice_; }

private:
    struct Connection;

    explicit DraftStore(std::unique_ptr<Connection> connection);
    [[nodiscard]] static Result<std::unique_ptr<DraftStore>> openAsItIs(const std::string& path);

    std::unique_ptr<Connection> connection_;
    std::string notice_;
};

} // namespace loopside::store
