// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/start_clock.h"

#include "base/text.h"

namespace loopside::ledger {

namespace {

/// To the minute, such as "2026-07-12 06:15 UTC": the local time may be what is wrong.
std::string minuteText(std::int64_t wallMs)
{
    constexpr std::size_t daySigns = 10;
    constexpr std::size_t minuteSigns = 16;
    std::string text = utcText(wallMs);
    if (text.size() > minuteSigns && text[daySigns] == 'T') {
        text[daySigns] = ' ';
        text = text.substr(0, minuteSigns) + " UTC";
    }
    return text;
}

} // namespace

Result<Message> clockNotice(const Journal& journal, const Stamp& now)
{
    const auto last = journal.last();
    const auto read = last && *last > 0 ? journal.read(*last - 1, 1)
                                        : Result<std::vector<Stored>>(std::vector<Stored>());
    if (!last || !read) {
        return fail(last ? read.error() : last.error());
    }
    if (read->empty()) {
        return Message{};
    }
    const std::int64_t lastMs = read->front().entry.header.entered.wallMs;
    const bool isBehind = now.wallMs < lastMs && lastMs - now.wallMs > startBehindMs;
    const bool isAhead = now.wallMs > lastMs && now.wallMs - startAheadMs > lastMs;
    return isBehind || isAhead
        ? Message{"clock-at-start", {{"now", minuteText(now.wallMs)}, {"last", minuteText(lastMs)}}}
        : Message{};
}

} // namespace loopside::ledger
