// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Messages between a tablet and a hub: what is read comes back from its bytes; and whatever comes, neither side trips
// over it, nor takes what is not signed.

#include "fuzz/target.h"
#include "sync/hub_side.h"
#include "sync/memory_hub.h"
#include "sync/tablet_side.h"
#include "sync/wire.h"

#include <optional>

using namespace loopside;

namespace {

const Id site = {{5}};

} // namespace

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const auto message = sync::messageFrom(fuzz::textOf(data, size));
    if (!message) {
        fuzz::must(!message.error().sentence.empty(), "a message is refused without a word");
        return 0;
    }
    const auto again = sync::messageFrom(bytesOf(*message));
    fuzz::must(again && *again == *message, "a message does not come back from its bytes");

    static const auto key = ledger::DeviceKey::fromSeed({}).publicKey(); // to derive it takes as long as all the rest
    static std::optional<sync::MemoryHub> store(std::in_place);
    static sync::HubSide hub({site, {}, [](const Id&) { return std::optional(key); }}, *store,
                             ledger::DeviceKey::fromSeed({}));
    store.emplace(); // in the same place: each input is looked at alone
    sync::Message said = *message;
    said.site = site;
    if (const auto answer = hub.hear(said, 0)) {
        fuzz::must(sync::messageFrom(bytesOf(*answer)).has_value(), "a hub says what cannot be read");
    }
    const sync::MemoryShelf own(sync::MemoryShelf::Keeps::Chains);
    const sync::TabletSide tablet({site, key}, {}, own, {}, {sync::Topic::catalogue()});
    static_cast<void>(tablet.hear(said));
    return 0;
}
