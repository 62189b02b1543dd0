// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/rate_limit.h"

#include <algorithm>
#include <cmath>

namespace loopside::hub {

namespace {

constexpr std::size_t knownMost = 10'000;
constexpr double nanosecondsOfSecond = 1e9;

} // namespace

double RateLimit::filledAt(const Bucket& bucket, std::uint64_t nowNs) const
{
    const double seconds = static_cast<double>(nowNs - bucket.atNs) / nanosecondsOfSecond;
    return std::min(rate_.atOnce, bucket.filled + seconds * rate_.perSecond);
}

std::optional<int> RateLimit::waitOf(const std::string& who, std::uint64_t nowNs)
{
    if (buckets_.size() >= knownMost) {
        forget(nowNs);
    }
    Bucket& bucket = buckets_.try_emplace(who, Bucket{rate_.atOnce, nowNs}).first->second;
    bucket = {filledAt(bucket, nowNs), nowNs};
    if (bucket.filled >= 1) {
        bucket.filled -= 1;
        return std::nullopt;
    }
    return std::max(1, static_cast<int>(std::ceil((1 - bucket.filled) / rate_.perSecond)));
}

void RateLimit::forget(std::uint64_t nowNs)
{
    std::erase_if(buckets_, [&](const auto& named) { return filledAt(named.second, nowNs) >= rate_.atOnce; });
}

} // namespace loopside::hub
