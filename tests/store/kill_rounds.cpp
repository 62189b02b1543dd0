// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/kill_rounds.h"

#include "ledger/recorder.h"
#include "ledger/verify.h"
#include "store/files.h"
#include "store/recovery.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <csignal>

namespace loopside::test {

namespace {

/// Bodies of all sizes from 0 to some pages, each known from its place.
std::string bodyAt(std::uint64_t sequence)
{
    std::string body(sequence * sequence * 37 % 6000, static_cast<char>('a' + sequence % 26));
    return body;
}

Result<ledger::Sealer> sealerFor(ledger::Journal& journal, IdMaker& ids)
{
    const Id device = Recorder::idOf(0xD0, 1);
    const auto head = journal.head(device);
    if (!head) {
        return fail(head.error());
    }
    if (head->has_value()) {
        return ledger::Sealer::continueChain(**head, Recorder::keyOf(1));
    }
    ledger::Sealer sealer = ledger::Sealer::startChain(device, Recorder::idOf(0xC0, 1), Recorder::keyOf(1));
    const ledger::Draft opening = sealer.chainOpened();
    const auto entries = sealer.seal(std::span(&opening, 1), {}, {}, ids);
    if (const auto appended = journal.append(entries); !appended) {
        return fail(appended.error());
    }
    sealer.accept(entries);
    return sealer;
}

/// What the killed process does: records until it dies. Ends by itself only when something fails.
[[noreturn]] void record(const std::string& path, std::uint64_t seed, Acknowledges when, int pipe)
{
    auto journal = store::SqliteJournal::open(path);
    if (!journal) {
        ::_exit(2);
    }
    SeededRandom random(seed);
    IdMaker ids(random);
    Result<ledger::Sealer> sealer = sealerFor(**journal, ids);
    if (!sealer) {
        ::_exit(3);
    }
    while (true) {
        const std::uint64_t next = sealer->sequence() + 1;
        const std::vector<ledger::Draft> draft = {{"note-made", bodyAt(next)}};
        const auto entries = sealer->seal(draft, {}, {}, ids);
        if (when == Acknowledges::BeforeAppending) {
            static_cast<void>(!::write(pipe, &next, sizeof(next)));
            ::raise(SIGKILL);
        }
        if (!(*journal)->append(entries)) {
            ::_exit(4);
        }
        sealer->accept(entries);
        if (::write(pipe, &next, sizeof(next)) != sizeof(next)) {
            ::_exit(5);
        }
    }
}

/// Reads one acknowledgement; false when the other end is closed.
bool hear(int pipe, std::uint64_t& sequence)
{
    return ::read(pipe, &sequence, sizeof(sequence)) == sizeof(sequence);
}

std::optional<std::string> faultIn(const std::string& path, std::uint64_t acknowledged)
{
    const auto opened = store::openOrRecover(path, "", 0);
    if (!opened) {
        return opened.error().sentence;
    }
    const ledger::Journal& journal = *opened->journal;
    const std::vector<ledger::Stored> stored = allOf(journal);
    if (stored.size() < acknowledged) {
        return "entry " + std::to_string(acknowledged) + " was acknowledged, " + std::to_string(stored.size())
            + " are there";
    }
    if (opened->recovered) {
        return "there was something to recover: " + opened->recovered->why;
    }
    const std::vector<ledger::Fault> faults = ledger::verifyAll(journal);
    if (!faults.empty()) {
        return faults.front().sentence;
    }
    for (std::size_t i = 1; i < stored.size(); ++i) {
        if (stored[i].entry.body != bodyAt(i + 1)) {
            return "the body of entry " + std::to_string(i + 1) + " was never written";
        }
    }
    return std::nullopt;
}

} // namespace

std::optional<std::string> killAndReopen(const std::string& path, std::uint64_t seed, Acknowledges when,
                                         std::uint64_t& acknowledged)
{
    SeededRandom random(seed);
    const std::uint64_t heardFirst = random.next() % 30; // none: killed while it opens, recovers or makes the file
    const std::uint64_t turnsMore = random.next() % 400'000;
    std::array<int, 2> ends = {};
    REQUIRE(::pipe(ends.data()) == 0);
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        ::close(ends[0]);
        record(path, seed, when, ends[1]);
    }
    ::close(ends[1]);
    std::uint64_t last = 0;
    for (std::uint64_t i = 0; i < heardFirst && hear(ends[0], last); ++i) {
    }
    for (volatile std::uint64_t turn = 0; turn < turnsMore;) {
        turn = turn + 1;
    }
    ::kill(child, SIGKILL);
    while (hear(ends[0], last)) {
    }
    ::close(ends[0]);
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    if (!WIFSIGNALED(status)) {
        return "the recording process ended by itself with " + std::to_string(WEXITSTATUS(status));
    }
    acknowledged = std::max(acknowledged, last);
    return faultIn(path, acknowledged);
}

void checkKillRounds(int rounds, int firstSeed)
{
    constexpr int roundsPerFile = 8;
    std::uint64_t inAll = 0;
    for (int round = 0; round < rounds;) {
        const TempFolder folder;
        std::uint64_t acknowledged = 0;
        for (int i = 0; i < roundsPerFile && round < rounds; ++i, ++round) {
            const int seed = firstSeed + round;
            CAPTURE(seed);
            CHECK(killAndReopen(folder.file("journal.db"), static_cast<std::uint64_t>(seed),
                                Acknowledges::AfterAppending, acknowledged)
                  == std::nullopt);
        }
        inAll += acknowledged;
    }
    CHECK(inAll > static_cast<std::uint64_t>(rounds)); // else nothing was tried
}

} // namespace loopside::test
