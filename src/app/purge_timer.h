// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/own_words.h"

#include <cstdint>
#include <optional>
#include <string>

namespace loopside::app {

/// How long a port has run out before its bottle is filled: begun and ended by a person, counted by the monotonic
/// clock. It goes on while the program is away; where the device was started anew meanwhile, nobody knows how long it
/// was, nor where nobody ended it within a day.
class PurgeTimer
{
public:
    /// Kept among the drafts `page`.
    PurgeTimer(Tablet& tablet, const Id& page) : tablet_{tablet}, kept_{tablet, page} {}

    /// Takes up what was begun for `subject`.
    void about(const std::string& subject) { kept_.about(subject); }

    [[nodiscard]] bool isRunning() const;
    /// Up to now while it runs, else up to its end; none before it was begun, and where it is not known.
    [[nodiscard]] std::optional<std::int64_t> seconds() const;
    /// It was begun, and how long ago is not known any more.
    [[nodiscard]] bool isLost() const { return isRunning() && !seconds(); }

    /// Begins, ends, or begins anew.
    void press();
    void clear() { kept_.clear(); }

private:
    Tablet& tablet_;
    OwnWords kept_; ///< "from <nanoseconds> <start of the device>" or "ran <seconds>".
};

} // namespace loopside::app
