// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "sync/placing.h"

#include <cstdint>
#include <limits>
#include <map>
#include <span>

namespace loopside::hub {

/// A part of a chain of which every entry is known, so that nobody has to ask what stands around a place in it.
class Stretch
{
public:
    /// Knows nothing.
    Stretch() = default;

    /// `before` is the nearest entry in front of a place, if there is one, `from` those from that place on, by
    /// sequence; `isToEnd`: there are no more of them.
    Stretch(const std::optional<sync::Placed>& before, std::span<const sync::Placed> from, bool isToEnd)
        : after_{before ? before->sequence : 0},
          upTo_{isToEnd            ? std::numeric_limits<std::uint64_t>::max()
                    : from.empty() ? after_
                                   : from.back().sequence}
    {
        if (before) {
            placed_.emplace(before->sequence, *before);
        }
        for (const sync::Placed& one : from) {
            placed_.emplace(one.sequence, one);
        }
    }

    /// Whether it tells what stands around the place `sequence`.
    [[nodiscard]] bool covers(std::uint64_t sequence) const { return after_ < sequence && sequence < upTo_; }

    /// Puts in `around` what stands around a place that it covers.
    void lookAround(std::uint64_t sequence, sync::Surroundings& around) const
    {
        auto next = placed_.lower_bound(sequence);
        if (next != placed_.begin()) {
            around.before = std::prev(next)->second;
        }
        if (next != placed_.end() && next->first == sequence) {
            around.there = next->second;
            ++next;
        }
        if (next != placed_.end()) {
            around.next = next->second;
        }
    }

    /// An entry has got its place.
    void add(const sync::Placed& placed)
    {
        if (covers(placed.sequence)) {
            placed_.emplace(placed.sequence, placed);
        }
    }

private:
    std::map<std::uint64_t, sync::Placed> placed_ = {};
    std::uint64_t after_ = 0; ///< Known from behind here on; an entry that stands here is known as well.
    std::uint64_t upTo_ = 0;  ///< As far as here.
};

} // namespace loopside::hub
