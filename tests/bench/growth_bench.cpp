// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a journal costs as it grows, in time of the processor: opening, reading, folding what is at hand, beside that
// one submitted reading and one durable append, and folding all of it; and the memory of the folded states.
// `bench_growth [ENTRIES]...`; none: 1000 and 100000. One process for each, for the memory's sake.

#include "bench/long_journal.h"
#include "bench/measure.h"
#include "ledger/logbook.h"
#include "store/recovery.h"

#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <functional>

using namespace loopside;
using namespace loopside::bench;

namespace {

/// Microseconds, the median of `rounds`.
double medianUs(int rounds, const std::function<void(int)>& work)
{
    std::vector<double> times;
    for (int i = 0; i < rounds; ++i) {
        times.push_back(processorSecondsOf([&] { work(i); }) * 1e6);
    }
    return medianOf(std::move(times));
}

void measure(std::size_t entries, const std::string& folder)
{
    constexpr int rounds = 500;
    const std::string path = folder + "/journal.db";
    {
        auto journal = store::SqliteJournal::open(path);
        must(journal.has_value(), "the journal cannot be made");
        Filler(**journal).fillTo(entries, 1000);
    }
    const double fileMb = static_cast<double>(std::filesystem::file_size(path)) / 1e6;
    std::unique_ptr<store::SqliteJournal> journal;
    const double opening = processorSecondsOf([&] {
        auto opened = store::openOrRecover(path, "", 0);
        must(opened.has_value() && !opened->recovered, "the journal cannot be opened");
        journal = std::move(opened->journal);
    });
    const double structure = processorSecondsOf(
        [&] { must(journal->checkStructure().has_value(), "the structure is not whole"); });
    // Before anything is folded: gigabytes of a state beside it are not what reading costs.
    const double read = medianUs(rounds, [&](int i) {
        const auto after = (static_cast<ledger::Position>(i) * 7919) % (entries - 100);
        must(journal->read(after, 100).has_value(), "entries cannot be read");
    });
    const double first = ownMb();
    constexpr std::int64_t later = 2'500'000'000'000; // behind all that is in the journal, as in life
    MinuteClock clock(later);
    SeededRandom random(7);
    std::optional<ledger::Logbook> logbook;
    const double foldingAtHand = processorSecondsOf([&] {
        auto folded = ledger::Logbook::open(*journal, clock, random, ledger::Reach::AtHand);
        must(folded.has_value(), "what is at hand cannot be folded");
        logbook.emplace(*std::move(folded));
    });
    const double memoryAtHand = ownMb() - first;
    // As on a tablet, beside what is at hand.
    must(logbook->enrol({{5}}, ledger::DeviceKey::fromSeed({5})).has_value(), "the device cannot write");
    const Id run = logbook->newId();
    const ledger::Hand hand{{{5}}, {{3}}};
    must(logbook->submit(run::OpenRun{run, setup()}, hand).has_value(), "a run cannot be opened");
    must(logbook->submit(run::Say{run, run::ModeChanged{run::Mode::Filtering, {}}}, hand).has_value(), "no mode");
    const double submit = medianUs(60, [&](int i) {
        must(logbook->submit(run::Say{run, reading(i)}, hand).has_value(), "a reading was refused");
    });
    const double head = medianUs(rounds, [&](int) { must(journal->head(Filler::device).has_value(), "no head"); });
    auto sealer = ledger::Sealer::startChain({{9}}, {{9}}, ledger::DeviceKey::fromSeed({9}));
    IdMaker ids(random);
    const auto appendUs = medianUs(rounds, [&](int i) {
        const ledger::Draft draft = i == 0 ? sealer.chainOpened()
                                           : ledger::Draft{"reading-logged", ledger::bodyOf(reading(i)), {}, {}, {}};
        const auto sealed = sealer.seal(std::span(&draft, 1), clock.now(), {{3}}, ids);
        must(journal->append(sealed).has_value(), "an append failed");
        sealer.accept(sealed);
    });
    logbook.reset();
    const double before = ownMb();
    const double folding = processorSecondsOf([&] {
        auto folded = ledger::Logbook::open(*journal, clock, random);
        must(folded.has_value(), "the journal cannot be folded");
        logbook.emplace(*std::move(folded));
    });
    const double memory = ownMb() - before;
    const auto each = [&](double seconds) { return seconds * 1e6 / static_cast<double>(entries); };
    std::printf("%9zu %9.1f %9.2f %9.2f %9.2f %9.2f %9.1f %9.2f %9.2f %9.1f %9.1f %9.1f %9.1f %9.1f\n", entries, fileMb,
                opening, each(opening), structure, foldingAtHand, memoryAtHand, folding, each(folding), memory, read,
                head, appendUs, submit);
}

} // namespace

int main(int argc, char** argv)
{
    std::printf("  entries   file MB    open s   us each structure at hand s        MB    fold s   us each fold MB  "
                "read100us   "
                "head us append us "
                "submit us\n");
    std::fflush(stdout);
    for (const std::size_t size : sizesTold(argc, argv)) {
        std::string folder = (std::filesystem::temp_directory_path() / "loopside-growth-XXXXXX").string();
        must(mkdtemp(folder.data()) != nullptr, "no folder to work in");
        const pid_t child = fork();
        must(child >= 0, "no process to work in");
        if (child == 0) {
            measure(size, folder);
            std::fflush(stdout);
            _exit(0);
        }
        int status = 0;
        must(waitpid(child, &status, 0) == child && status == 0, "a measurement failed");
        std::filesystem::remove_all(folder);
    }
    return 0;
}
