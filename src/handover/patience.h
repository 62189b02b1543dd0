// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>

namespace loopside::handover {

/// When a tablet tries the hub again by itself: soon, then less and less often while nobody answers. Told by a clock
/// that goes on while the tablet sleeps, so that after a sleep it is due at once.
class Patience
{
public:
    static constexpr std::uint64_t firstS = 30; ///< After the first failure, and for what is new after a success.
    static constexpr std::uint64_t mostS = 900; ///< Between two tries.
    static constexpr std::uint64_t calmS = 300; ///< After a success with nothing new here: others may have news.

    [[nodiscard]] bool isDue(std::uint64_t monoNs, bool hasNews) const
    {
        return !wait_ || monoNs < sinceNs_ || monoNs - sinceNs_ >= waitS(hasNews) * nsOfS;
    }

    void succeeded(std::uint64_t monoNs)
    {
        failures_ = 0;
        begin(monoNs, calmS);
    }

    /// The hub asked for `askedS`, if it did.
    void failed(std::uint64_t monoNs, std::optional<int> askedS = {})
    {
        const std::uint64_t doubled = firstS << std::min(failures_, 10U);
        ++failures_;
        const std::uint64_t asked = askedS && *askedS > 0 ? static_cast<std::uint64_t>(*askedS) : 0;
        begin(monoNs, std::clamp(std::max(doubled, asked), firstS, mostS));
    }

    /// Due at once: the tablet woke, or was enrolled.
    void wake() { wait_.reset(); }

private:
    static constexpr std::uint64_t nsOfS = 1'000'000'000;

    void begin(std::uint64_t monoNs, std::uint64_t seconds)
    {
        sinceNs_ = monoNs;
        wait_ = seconds;
    }

    [[nodiscard]] std::uint64_t waitS(bool hasNews) const
    {
        return failures_ == 0 && hasNews ? firstS : wait_.value_or(0);
    }

    unsigned failures_ = 0;
    std::uint64_t sinceNs_ = 0;
    std::optional<std::uint64_t> wait_ = {};
};

} // namespace loopside::handover
