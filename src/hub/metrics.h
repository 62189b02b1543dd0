// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>

namespace loopside::hub {

/// What the hub counted since it started. Not thread-safe.
class Metrics
{
public:
    void countRequest(std::string_view endpoint, int status);
    void countEntries(std::size_t heard) { entries_ += heard; }
    void countSeconds(double seconds) { seconds_ += seconds; }

    /// As OpenMetrics text, version 1.0.0 (openmetrics.io; from memory): each family with its type, "# EOF" at the end.
    [[nodiscard]] std::string text(bool isReady) const;

private:
    std::map<std::pair<std::string, int>, std::uint64_t> requests_;
    std::uint64_t entries_ = 0;
    double seconds_ = 0;
};

} // namespace loopside::hub
