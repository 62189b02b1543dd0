// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/metrics.h"

#include "base/text.h"

namespace loopside::hub {

void Metrics::countRequest(std::string_view endpoint, int status)
{
    ++requests_[{std::string(endpoint), status}];
}

std::string Metrics::text(bool isReady) const
{
    std::string text = "# TYPE loopside_hub_requests counter\n"
                       "# HELP loopside_hub_requests Requests answered, by endpoint and status.\n";
    for (const auto& [what, count] : requests_) {
        text += "loopside_hub_requests_total{endpoint=\"" + what.first + "\",status=\"" + std::to_string(what.second)
            + "\"} " + std::to_string(count) + "\n";
    }
    text += "# TYPE loopside_hub_entries_heard counter\n"
            "# HELP loopside_hub_entries_heard Entries in hand-overs that were answered with marks, repetitions too.\n"
            "loopside_hub_entries_heard_total "
        + std::to_string(entries_)
        + "\n# TYPE loopside_hub_message_seconds counter\n"
          "# UNIT loopside_hub_message_seconds seconds\n"
          "# HELP loopside_hub_message_seconds Time spent on messages and files.\n"
          "loopside_hub_message_seconds_total "
        + fixed(seconds_, 6)
        + "\n# TYPE loopside_hub_ready gauge\n"
          "# HELP loopside_hub_ready 1 while the database answers.\n"
          "loopside_hub_ready "
        + (isReady ? "1" : "0") + "\n# EOF\n";
    return text;
}

} // namespace loopside::hub
