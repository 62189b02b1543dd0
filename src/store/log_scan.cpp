// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/log_scan.h"

#include "store/page_layout.h"

#include <functional>
#include <map>

namespace loopside::store {

namespace {

constexpr std::uint32_t magic = 0x377F0682; // its lowest bit says in which order the sums take their bytes

/// The running check sum of a log.
struct Sum
{
    std::uint32_t first = 0;
    std::uint32_t second = 0;

    static Sum from(std::string_view sums) { return {numberAt(sums, 0), numberAt(sums, 4)}; }
    friend bool operator==(const Sum&, const Sum&) = default;
};

std::uint32_t wordAt(std::string_view bytes, std::size_t at, bool highestFirst)
{
    const std::uint32_t word = numberAt(bytes, at);
    return highestFirst ? word : __builtin_bswap32(word);
}

/// `sum` carried on over `bytes`, a multiple of eight of them.
Sum carriedOn(Sum sum, std::string_view bytes, bool highestFirst)
{
    for (std::size_t at = 0; at + 8 <= bytes.size(); at += 8) {
        sum.first += wordAt(bytes, at, highestFirst) + sum.second;
        sum.second += wordAt(bytes, at + 4, highestFirst) + sum.first;
    }
    return sum;
}

bool isHeaderSound(std::string_view log)
{
    if (log.size() < logHeaderBytes) {
        return false;
    }
    const bool highestFirst = (numberAt(log, 0) & 1U) != 0;
    return (numberAt(log, 0) | 1U) == (magic | 1U) && isPageSize(numberAt(log, 8))
        && carriedOn({}, log.substr(0, 24), highestFirst) == Sum::from(log.substr(24, 8));
}

/// Gives the frames of a log with a sound header to `take`, up to the first that is not as it was written.
void eachSound(std::string_view log, const std::function<void(const Frame&)>& take)
{
    const std::size_t pageBytes = pageBytesOfLog(log);
    const bool highestFirst = (numberAt(log, 0) & 1U) != 0;
    Sum sum = Sum::from(log.substr(24, 8));
    for (std::size_t i = 0; i < framesIn(log, pageBytes); ++i) {
        const Frame frame = frameAt(log, pageBytes, i);
        sum = carriedOn(carriedOn(sum, frame.head, highestFirst), frame.content, highestFirst);
        if (frame.salts != log.substr(16, 8) || frame.page == 0 || sum != Sum::from(frame.sums)) {
            return;
        }
        take(frame);
    }
}

/// Whether `frame` is left from an earlier round: the first salt goes up by one from round to round.
bool isOfEarlierRound(const Frame& frame, std::string_view salts)
{
    constexpr std::uint32_t roundsMax = 1'000'000;
    const std::uint32_t ago = numberAt(salts, 0) - numberAt(frame.salts, 0);
    return ago > 0 && ago < roundsMax;
}

/// The frames behind the ones that SQLite takes, of which the first bad one has number `bad`.
void judgeRest(LogScan& scan, std::string_view log, std::size_t taken, std::size_t bad)
{
    const std::size_t pageBytes = pageBytesOfLog(log);
    const std::size_t frames = framesIn(log, pageBytes);
    const std::string_view salts = log.substr(16, 8);
    const std::size_t end = logHeaderBytes + frames * (frameHeaderBytes + pageBytes);
    std::size_t commitsBehind = 0;
    scan.isTorn = bad > taken || (bad == frames && log.size() > end);
    for (std::size_t i = bad; i < frames; ++i) {
        const Frame frame = frameAt(log, pageBytes, i);
        scan.isTorn = scan.isTorn || !isOfEarlierRound(frame, salts);
        if (i > bad && frame.salts == salts && frame.commit != 0) {
            ++commitsBehind;
        }
    }
    const bool endsTransaction = bad < frames && frameAt(log, pageBytes, bad).salts == salts
        && frameAt(log, pageBytes, bad).commit != 0;
    scan.isDamaged = commitsBehind >= (endsTransaction ? 1 : 2);
    scan.isTorn = scan.isTorn && !scan.isDamaged;
}

/// A log whose header is spoilt: SQLite takes nothing from it. All is well only where the database has it already.
LogScan judgeHeadless(std::string_view log, std::string_view database)
{
    const std::size_t pageBytes = pageBytesOfDatabase(database);
    const std::size_t frames = framesIn(log, pageBytes);
    std::map<std::uint32_t, std::string_view> committed;
    std::map<std::uint32_t, std::string_view> open;
    for (std::size_t i = 0; i < frames; ++i) {
        const Frame frame = frameAt(log, pageBytes, i);
        if (frame.salts != frameAt(log, pageBytes, 0).salts) {
            break;
        }
        open[frame.page] = frame.content;
        if (frame.commit != 0) {
            for (const auto& [page, content] : open) {
                committed[page] = content;
            }
            open.clear();
        }
    }
    LogScan scan;
    for (const auto& [page, content] : committed) {
        const std::size_t at = page == 0 ? database.size() : (page - 1) * pageBytes;
        scan.isDamaged = scan.isDamaged || at > database.size() || database.substr(at, pageBytes) != content;
    }
    scan.isTorn = !scan.isDamaged;
    return scan;
}

} // namespace

bool isHeadless(std::string_view log)
{
    return !log.empty() && !isHeaderSound(log);
}

LogScan scanLog(std::string_view log, std::string_view database)
{
    if (log.empty()) {
        return {};
    }
    if (!isHeaderSound(log)) {
        return judgeHeadless(log, database);
    }
    LogScan scan;
    std::size_t taken = 0;
    std::size_t next = 0;
    eachSound(log, [&](const Frame& frame) {
        ++next;
        if (frame.commit != 0) {
            ++scan.commits;
            taken = next;
        }
    });
    judgeRest(scan, log, taken, next);
    return scan;
}

std::string_view committedPage(std::string_view log, std::uint32_t page)
{
    std::string_view written;
    std::string_view committed;
    if (isHeaderSound(log)) {
        eachSound(log, [&](const Frame& frame) {
            written = frame.page == page ? frame.content : written;
            committed = frame.commit != 0 ? written : committed;
        });
    }
    return committed;
}

} // namespace loopside::store
