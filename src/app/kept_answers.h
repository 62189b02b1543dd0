// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/tablet.h"
#include "run/event.h"

#include <chrono>
#include <map>
#include <optional>
#include <string>

namespace loopside::app {

/// Answers older than this are not offered again: the place may look otherwise by then.
inline constexpr std::chrono::hours answersOffered{12};

/// Answers to points of checklists that have no run yet to be written to, kept as drafts, so that they outlive a tablet
/// that stops. They are offered again where the same thing is looked at, and each is answered anew by a person: what
/// was kept is never written to the journal.
class KeptAnswers
{
public:
    struct Answer
    {
        run::CheckAnswered said;
        Id person;
        std::int64_t wallMs = 0;
    };

    /// Those of the drafts `page`.
    KeptAnswers(Tablet& tablet, const Id& page);

    /// Keeps the answer of who holds the tablet, in place of the one before to the same point. `about` is what was
    /// looked at, such as the tank. One that cannot be stored is told once and stands in nobody's way.
    void keep(const std::string& about, const run::CheckAnswered& said);

    /// What was answered to `check` about the same thing, not long ago.
    [[nodiscard]] std::optional<Answer> before(const std::string& about, std::string_view check) const;

    /// They were written to the journal, or nobody wants them any more.
    void forget();

private:
    struct Kept
    {
        std::string about;
        Answer answer;
    };

    void read();

    Tablet& tablet_;
    Id page_;
    std::map<std::string, Kept, std::less<>> kept_; ///< By the id of the point.
    bool isTold_ = false;
};

} // namespace loopside::app
