// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A long journal to measure on.

#pragma once

#include "ledger/body.h"
#include "ledger/journal.h"
#include "ledger/sealer.h"

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

namespace loopside::bench {

inline constexpr int readingsInRun = 200;

/// Ends the program with `why`; a figure from a run in which something failed is worth nothing.
inline void must(bool condition, const char* why)
{
    if (!condition) {
        std::fprintf(stderr, "no figure: %s\n", why);
        std::exit(1);
    }
}

template<class Work>
double secondsOf(Work work)
{
    const auto begin = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

/// A clock that goes on by a minute with every look at it.
class MinuteClock final : public Clock
{
public:
    MinuteClock() = default;
    explicit MinuteClock(std::int64_t wallMs) { stamp_.wallMs = wallMs; }

    Stamp now() override
    {
        stamp_.wallMs += 60'000;
        stamp_.monoNs += 60'000'000'000;
        return stamp_;
    }

private:
    Stamp stamp_ = {1'751'958'400'000, 0, 0, {{1}}};
};

inline Decimal number(int tenths)
{
    return Decimal(tenths, 1);
}

inline run::Setup setup()
{
    const auto* psi = units::unitNamed<units::Pressure>("psi").value();
    const run::GaugeRecord dial{psi, number(1000), number(10), "B"};
    run::Setup made{.title = "bench",
                    .tank = {.name = "T1",
                             .volume = units::Typed<units::Volume>::parse("400 L").value(),
                             .fluid = {.kind = "hydraulic", .grade = "ISO VG 46", .viscosityIndex = number(980)}},
                    .cart = {.name = "C1",
                             .flow = units::Typed<units::Flow>::parse("19 L/min").value(),
                             .lastFluid = {},
                             .gauges = {dial, dial, dial}},
                    .stages = std::vector<run::StageRecord>(2)};
    for (run::StageRecord& stage : made.stages) {
        stage.kind = "particle";
        stage.cleanDp = units::Typed<units::Pressure>::parse("4 psi").value();
        stage.cleanAt = run::CleanAt{made.cart.flow, units::Typed<units::KinematicViscosity>::parse("46 cSt").value()};
        stage.changeLimit = units::Typed<units::Pressure>::parse("90 psi").value();
    }
    return made;
}

inline run::ReadingLogged reading(int i)
{
    run::ReadingLogged set;
    for (const int tenths : {300 + i % 50, 200 + i % 30, 40}) {
        set.gauges.push_back(run::GaugeTyped{number(tenths), std::nullopt});
    }
    set.oil = units::Typed<units::Temperature>::parse("41.5 °C").value();
    return set;
}

/// Writes into a journal that is empty: runs of 200 readings each, one after the other, each closed but the last.
class Filler
{
public:
    /// Each of several `tablet`s writes entries of its own.
    explicit Filler(ledger::Journal& journal, std::uint16_t tablet = 0)
        : journal_{journal},
          random_{1U + tablet},
          ids_{random_},
          sealer_{ledger::Sealer::startChain(numbered(device, tablet), numbered({{4}}, tablet), keyOf(tablet))}
    {
        add({sealer_.chainOpened()});
    }

    /// Goes on until the journal holds `entries`, up to `batch` entries in a commit.
    void fillTo(std::size_t entries, std::size_t batch)
    {
        std::vector<ledger::Draft> drafts;
        while (made_ + drafts.size() < entries) {
            drafts.push_back(next());
            if (drafts.size() >= batch || made_ + drafts.size() == entries) {
                add(drafts);
                drafts.clear();
            }
        }
    }

    static constexpr Id device{{2}}; ///< Of tablet 0.

    [[nodiscard]] static ledger::DeviceKey keyOf(std::uint16_t tablet)
    {
        return ledger::DeviceKey::fromSeed(
            {1, static_cast<std::uint8_t>(tablet >> 8U), static_cast<std::uint8_t>(tablet)});
    }

private:
    static Id numbered(Id id, std::uint16_t tablet)
    {
        id.bytes[14] = static_cast<std::uint8_t>(tablet >> 8U);
        id.bytes[15] = static_cast<std::uint8_t>(tablet);
        return id;
    }

    ledger::Draft next()
    {
        const auto draft = [&](const run::Event& event) {
            return ledger::Draft{std::string(ledger::kindOf(event)), ledger::bodyOf(event), run_, {}, {}};
        };
        const int step = step_++ % (readingsInRun + 3);
        if (step == 0) {
            run_ = ids_.next(clock_.now().wallMs);
            return draft(run::RunOpened{setup(), {}});
        }
        if (step == readingsInRun + 2) {
            return draft(run::RunClosed{run::Ending::StoppedEarly, "shift over", {6.8, 7.1, 7.4}, 2840.0});
        }
        return step == 1 ? draft(run::ModeChanged{run::Mode::Filtering, {}}) : draft(reading(step - 2));
    }

    void add(const std::vector<ledger::Draft>& drafts)
    {
        const auto sealed = sealer_.seal(drafts, clock_.now(), {{3}}, ids_);
        must(journal_.append(sealed).has_value(), "an append failed");
        sealer_.accept(sealed);
        made_ += sealed.size();
    }

    ledger::Journal& journal_;
    MinuteClock clock_;
    SeededRandom random_;
    IdMaker ids_;
    ledger::Sealer sealer_;
    Id run_;
    int step_ = 0;
    std::size_t made_ = 0;
};

} // namespace loopside::bench
