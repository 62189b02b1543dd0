// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>

namespace loopside::hub {

/// How often one may ask: so many at once, and so many a second on and on.
struct Rate
{
    double atOnce = 1;
    double perSecond = 1;
};

/// Counts who asks how often, by a bucket that fills up with time. Not thread-safe.
class RateLimit
{
public:
    explicit RateLimit(Rate rate) : rate_{rate} {}

    /// Nothing if `who` may ask at `nowNs` (monotonic); else in how many whole seconds, at least 1.
    [[nodiscard]] std::optional<int> waitOf(const std::string& who, std::uint64_t nowNs);

    /// Of how many it knows something. It forgets those whose buckets are full whenever it knows very many.
    [[nodiscard]] std::size_t known() const { return buckets_.size(); }

private:
    struct Bucket
    {
        double filled = 0;
        std::uint64_t atNs = 0;
    };

    [[nodiscard]] double filledAt(const Bucket& bucket, std::uint64_t nowNs) const;
    void forget(std::uint64_t nowNs);

    Rate rate_;
    std::map<std::string, Bucket> buckets_;
};

} // namespace loopside::hub
