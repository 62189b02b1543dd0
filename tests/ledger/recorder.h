// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/journal.h"
#include "ledger/sealer.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

namespace loopside::test {

/// A device that records notes into a chain of its own; the same number makes the same entries.
class Recorder
{
public:
    explicit Recorder(std::uint8_t number)
        : random_{number},
          ids_{random_},
          sealer_{ledger::Sealer::startChain(idOf(0xD0, number), idOf(0xC0, number), keyOf(number))}
    {
    }

    [[nodiscard]] static ledger::DeviceKey keyOf(std::uint8_t number)
    {
        ledger::Seed seed = {};
        seed.fill(number);
        return ledger::DeviceKey::fromSeed(seed);
    }

    [[nodiscard]] static Id idOf(std::uint8_t kind, std::uint8_t number)
    {
        Id id;
        id.bytes[0] = kind;
        id.bytes[15] = number;
        return id;
    }

    [[nodiscard]] Id device() const { return sealer_.device(); }
    [[nodiscard]] ledger::Sealer& sealer() { return sealer_; }

    /// The entries for `drafts`, a second after the ones before; the chain goes on only when they are accepted.
    [[nodiscard]] std::vector<ledger::Entry> seal(const std::vector<ledger::Draft>& drafts)
    {
        now_.wallMs += 1000;
        now_.monoNs += 1'000'000'000;
        return sealer_.seal(drafts, now_, idOf(0xE0, 1), ids_);
    }

    [[nodiscard]] std::vector<ledger::Entry> open() { return accepted(seal({sealer_.chainOpened()})); }

    [[nodiscard]] std::vector<ledger::Entry> notes(const std::vector<std::string>& bodies)
    {
        return accepted(sealedNotes(bodies));
    }

    [[nodiscard]] std::vector<ledger::Entry> sealedNotes(const std::vector<std::string>& bodies)
    {
        std::vector<ledger::Draft> drafts;
        drafts.reserve(bodies.size());
        for (const std::string& body : bodies) {
            drafts.push_back({"note-made", body, idOf(0xA0, 1), {60'000, "said"}, {}});
        }
        return seal(drafts);
    }

    /// Its opening and `count` notes.
    [[nodiscard]] std::vector<ledger::Entry> chainOf(int count)
    {
        std::vector<ledger::Entry> entries = open();
        for (int i = 1; i <= count; ++i) {
            entries.push_back(notes({"note " + std::to_string(i)}).front());
        }
        return entries;
    }

private:
    std::vector<ledger::Entry> accepted(std::vector<ledger::Entry> entries)
    {
        sealer_.accept(entries);
        return entries;
    }

    SeededRandom random_;
    IdMaker ids_;
    ledger::Sealer sealer_;
    Stamp now_ = {1'751'958'400'000, 120, 5'000'000'000, idOf(0xB0, 1)};
};

/// Everything in `journal`.
inline std::vector<ledger::Stored> allOf(const ledger::Journal& journal)
{
    const auto read = journal.read(0, 1'000'000);
    REQUIRE(read);
    return *read;
}

/// `entries` as a journal that holds nothing else stores them.
inline std::vector<ledger::Stored> inOrder(const std::vector<ledger::Entry>& entries)
{
    std::vector<ledger::Stored> stored;
    stored.reserve(entries.size());
    for (const ledger::Entry& entry : entries) {
        stored.push_back({stored.size() + 1, entry});
    }
    return stored;
}

} // namespace loopside::test
