// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <string>

namespace loopside::page {

/// How soon somebody may try to sign in again. Four wrong tries are free, then each one doubles the wait, up to a
/// quarter of an hour; a right one, or a day without a try, forgets them. Counted by name and by address, so that
/// neither one name from everywhere nor all names from one place are tried quickly. Costs: who knows a name can make
/// its owner wait, a quarter of an hour at most; and behind a proxy that hides addresses all count as one.
///
/// Times are those of a monotonic clock, in milliseconds. Not thread-safe. Each hub counts for itself.
class SignInPace
{
public:
    /// For how many whole seconds there is still to be waited; 0: not at all. A try before that is not to be heard.
    [[nodiscard]] int waitS(const std::string& key, std::int64_t nowMs) const;

    void failed(const std::string& key, std::int64_t nowMs);
    void succeeded(const std::string& key);

    /// Of how many it knows something; beyond `knownMost` it forgets those who tried longest ago.
    [[nodiscard]] std::size_t known() const { return tries_.size(); }
    static constexpr std::size_t knownMost = 10'000;

private:
    struct Tries
    {
        int wrong = 0;
        std::int64_t lastMs = 0;
    };

    [[nodiscard]] static std::int64_t waitMsAfter(int wrong);

    std::map<std::string, Tries> tries_;
};

} // namespace loopside::page
