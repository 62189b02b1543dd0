// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/mark.h"

#include "sync/layout.h"

#include <string_view>

namespace loopside::sync {

namespace {

constexpr std::string_view purpose{"loopside mark\0", 14};

} // namespace

std::string signedBytes(const Mark& mark)
{
    std::string text(purpose);
    append(text, mark.site.bytes);
    append(text, mark.log.bytes);
    append(text, mark.device.bytes);
    append(text, mark.key);
    append(text, mark.chain.bytes);
    append(text, mark.sequence);
    append(text, mark.hash);
    text += mark.isAside ? '\1' : '\0';
    append(text, static_cast<std::uint64_t>(mark.atMs));
    return text;
}

SignedMark signedBy(const ledger::DeviceKey& hub, const Mark& mark)
{
    return {mark, hub.sign(signedBytes(mark))};
}

bool isSignedBy(const SignedMark& mark, const ledger::PublicKey& hub)
{
    return ledger::verifies(hub, signedBytes(mark.mark), mark.signature);
}

} // namespace loopside::sync
