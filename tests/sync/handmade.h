// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// One hub and recorders that hand over to it, message by message, as a test wants them.

#pragma once

#include "ledger/recorder.h"
#include "sync/hub_side.h"
#include "sync/memory_hub.h"
#include "sync/tablet_side.h"
#include "sync/wire.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

namespace loopside::test {

inline constexpr std::uint8_t hubNumber = 99;

/// What recorders enter, they enter about then.
inline constexpr std::int64_t aboutNowMs = 1'751'958'400'000;

inline sync::Site someSite()
{
    return {Recorder::idOf(0x51, 1), Recorder::keyOf(hubNumber).publicKey()};
}

/// A hub at which the recorders 1 to 9 are enrolled.
struct Hub
{
    sync::MemoryHub store = {};
    sync::HubSide side;

    explicit Hub(const Id& log = Recorder::idOf(0x10, 1))
        : side{{someSite().id, log,
                [](const Id& device) {
                    const bool isEnrolled = device == Recorder::idOf(0xD0, device.bytes[15]) && device.bytes[15] <= 9;
                    return isEnrolled ? std::optional(Recorder::keyOf(device.bytes[15]).publicKey()) : std::nullopt;
                }},
               store,
               Recorder::keyOf(hubNumber)}
    {
    }

    [[nodiscard]] Result<sync::Message> hear(const sync::HandOver& said, std::int64_t nowMs = aboutNowMs)
    {
        return side.hear({someSite().id, said}, nowMs);
    }

    /// The marks with which it answers.
    sync::Marks take(const std::vector<ledger::Entry>& entries, std::int64_t nowMs = aboutNowMs)
    {
        sync::HandOver said{entries.front().header.device};
        said.entries = entries;
        const auto answer = hear(said, nowMs);
        REQUIRE(answer);
        return std::get<sync::Marks>(answer->said);
    }

    sync::Page page(const Id& device, const std::vector<sync::Place>& places)
    {
        const auto answer = side.hear({someSite().id, sync::Ask{device, places}}, aboutNowMs);
        REQUIRE(answer);
        return std::get<sync::Page>(answer->said);
    }

    [[nodiscard]] std::size_t count() const
    {
        std::size_t entries = 0;
        const auto tips = store.tips();
        for (const sync::Tip& tip : *tips) {
            entries += store.behind(tip.chain, 0, 100'000).value().size() + store.asides(tip.chain).value().size();
        }
        return entries;
    }
};

/// An entry with its hash and signature made good after a change.
inline ledger::Entry resealed(ledger::Entry entry, std::uint8_t signer)
{
    entry.hash = hashOf(entry);
    entry.signature = signatureOf(entry, Recorder::keyOf(signer));
    return entry;
}

} // namespace loopside::test
