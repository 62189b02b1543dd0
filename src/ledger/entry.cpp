// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/entry.h"

#include "base/require.h"
#include "ledger/digest.h"

#include <limits>
#include <span>
#include <string_view>
#include <utility>

namespace loopside::ledger {

namespace {

/// Said before the hash when an entry is signed.
constexpr std::string_view purpose{"loopside entry\0", 15};

/// Lays values one behind the other, numbers with the highest byte first.
class Layout
{
public:
    void number(std::uint64_t value, unsigned bytes)
    {
        for (unsigned i = bytes; i > 0; --i) {
            text_ += static_cast<char>(value >> (8U * (i - 1)) & 0xFFU);
        }
    }

    void bytes(std::span<const std::uint8_t> value)
    {
        text_.append(reinterpret_cast<const char*>(value.data()), value.size());
    }

    void counted(std::string_view value)
    {
        require(value.size() <= std::numeric_limits<std::uint32_t>::max(), "a text of an entry is below 4 GiB");
        number(value.size(), 4);
        text_ += value;
    }

    [[nodiscard]] std::string take() { return std::move(text_); }

private:
    std::string text_;
};

std::string messageFor(const Hash& hash)
{
    std::string message(purpose);
    message.append(reinterpret_cast<const char*>(hash.data()), hash.size());
    return message;
}

} // namespace

std::string signedBytes(const Entry& entry)
{
    const run::Header& header = entry.header;
    Layout layout;
    layout.number(entry.format, 2);
    layout.bytes(header.id.bytes);
    layout.bytes(header.device.bytes);
    layout.bytes(entry.chain.bytes);
    layout.number(header.sequence, 8);
    layout.number(header.clock, 8);
    layout.bytes(header.run.bytes);
    layout.bytes(header.person.bytes);
    layout.number(static_cast<std::uint64_t>(header.entered.wallMs), 8);
    layout.number(static_cast<std::uint32_t>(header.entered.offsetMin), 4);
    layout.number(header.entered.monoNs, 8);
    layout.bytes(header.entered.boot.bytes);
    layout.number(static_cast<std::uint64_t>(header.observed.agoMs), 8);
    layout.bytes(entry.previous);
    layout.counted(header.observed.how);
    layout.counted(entry.kind);
    layout.counted(entry.body);
    return layout.take();
}

Hash hashOf(const Entry& entry)
{
    return sha256(signedBytes(entry));
}

Signature signatureOf(const Entry& entry, const DeviceKey& key)
{
    return key.sign(messageFor(entry.hash));
}

bool isSignedBy(const Entry& entry, const PublicKey& signer)
{
    return verifies(signer, messageFor(entry.hash), entry.signature);
}

} // namespace loopside::ledger
