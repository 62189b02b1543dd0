// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "sync/hub_store.h"
#include "sync/message.h"

#include <functional>
#include <optional>

namespace loopside::sync {

/// What a site hub knows of itself and of its tablets.
struct HubSettings
{
    Id site = {};
    Id log = {}; ///< New whenever the hub's record was made, restored or copied.
    /// The key of a device that is enrolled, or was: what it wrote stays believed. Whether one that was struck off may
    /// still hand over is for the transport, like everything about who may speak.
    std::function<std::optional<ledger::PublicKey>(const Id& device)> keyOf;
};

/// The hub's side of every conversation. It remembers nothing between messages but what its store holds.
///
/// What may be stored is decided here, entry by entry.
class HubSide
{
public:
    /// `store` outlives it.
    HubSide(HubSettings settings, HubStore& store, ledger::DeviceKey key);

    /// Takes in what a tablet says at `nowMs` (UTC, milliseconds since 1970) and gives the answer. What its marks name
    /// is stored by then. On failure nothing was stored: Conflict for another site or a device that is not enrolled,
    /// OutOfRange beyond the bounds of message.h, the errors of `mayEnter`, and those of the store.
    [[nodiscard]] Result<Message> hear(const Message& message, std::int64_t nowMs);

    [[nodiscard]] ledger::PublicKey publicKey() const { return key_.publicKey(); }

private:
    [[nodiscard]] Result<Marks> take(const HandOver& said, std::int64_t nowMs);
    [[nodiscard]] Done addMarks(const HandOver& said, std::int64_t nowMs, Marks& marks) const;
    [[nodiscard]] Result<Page> answer(const Ask& said, std::int64_t nowMs) const;
    [[nodiscard]] Result<std::optional<SignedMark>> markOf(const Id& chain, std::int64_t nowMs) const;
    [[nodiscard]] SignedMark marked(const Tip& tip, bool isAside, std::int64_t nowMs) const;
    [[nodiscard]] Done mayTake(const HandOver& said) const;

    HubSettings settings_;
    HubStore* store_;
    ledger::DeviceKey key_;
};

} // namespace loopside::sync
