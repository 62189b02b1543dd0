// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/sign_in_pace.h"

#include <algorithm>

namespace loopside::page {

namespace {

constexpr int freeTries = 4;
constexpr int longestDoubling = 10;
constexpr std::int64_t secondMs = 1'000;
constexpr std::int64_t longestMs = 15 * 60 * secondMs;
constexpr std::int64_t forgottenMs = 24 * 60 * 60 * secondMs;

} // namespace

std::int64_t SignInPace::waitMsAfter(int wrong)
{
    if (wrong < freeTries) {
        return 0;
    }
    const int doublings = std::min(wrong - freeTries, longestDoubling);
    return std::min(longestMs, secondMs << static_cast<unsigned>(doublings));
}

int SignInPace::waitS(const std::string& key, std::int64_t nowMs) const
{
    const auto found = tries_.find(key);
    if (found == tries_.end()) {
        return 0;
    }
    const std::int64_t leftMs = found->second.lastMs + waitMsAfter(found->second.wrong) - nowMs;
    return leftMs <= 0 ? 0 : static_cast<int>((leftMs + secondMs - 1) / secondMs);
}

void SignInPace::failed(const std::string& key, std::int64_t nowMs)
{
    if (tries_.size() >= knownMost && !tries_.contains(key)) {
        tries_.erase(std::ranges::min_element(tries_, {}, [](const auto& one) { return one.second.lastMs; }));
    }
    Tries& tries = tries_[key];
    tries.wrong = nowMs - tries.lastMs >= forgottenMs ? 1 : tries.wrong + 1;
    tries.lastMs = nowMs;
}

void SignInPace::succeeded(const std::string& key)
{
    tries_.erase(key);
}

} // namespace loopside::page
