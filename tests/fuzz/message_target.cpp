// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Messages between a tablet and a hub: what is read comes back from its bytes; and whatever comes, neither side trips
// over it, nor takes what is not signed.

#include "fuzz/target.h"
#include "sync/hub_side.h"
#include "sync/memory_hub.h"
#include "sync/tablet_side.h"
#include "sync/wire.h"

using namespace loopside;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const auto message = sync::messageFrom(fuzz::textOf(data, size));
    if (!message) {
        fuzz::must(!message.error().sentence.empty(), "a message is refused without a word");
        return 0;
    }
    const auto again = sync::messageFrom(bytesOf(*message));
    fuzz::must(again && *again == *message, "a message does not come back from its bytes");

    const auto key = ledger::DeviceKey::fromSeed({});
    sync::MemoryHub store;
    sync::HubSide hub({message->site, {}, [&](const Id&) { return std::optional(key.publicKey()); }}, store,
                      ledger::DeviceKey::fromSeed({}));
    if (const auto answer = hub.hear(*message, 0)) {
        fuzz::must(sync::messageFrom(bytesOf(*answer)).has_value(), "a hub says what cannot be read");
    }
    const sync::MemoryShelf own(sync::MemoryShelf::Keeps::Chains);
    const sync::TabletSide tablet({message->site, key.publicKey()}, {}, own, {}, {sync::Topic::catalogue()});
    static_cast<void>(tablet.hear(*message));
    return 0;
}
