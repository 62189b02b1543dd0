// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/chain.h"

#include "base/text.h"

#include <span>

namespace loopside::ledger {

namespace {

/// Walks along a text of which every sign but the values is known.
class Reader
{
public:
    explicit Reader(std::string_view text) : rest_{text} {}

    /// Passes over `expected`; false if something else stands there.
    [[nodiscard]] bool skip(std::string_view expected)
    {
        if (!rest_.starts_with(expected)) {
            return false;
        }
        rest_.remove_prefix(expected.size());
        return true;
    }

    [[nodiscard]] bool id(Id& value)
    {
        const Result<Id> read = idFromText(take(36));
        if (read) {
            value = *read;
        }
        return read.has_value();
    }

    [[nodiscard]] bool hex(std::span<std::uint8_t> value) { return fromHex(take(value.size() * 2), value); }

private:
    std::string_view take(std::size_t count)
    {
        const std::string_view taken = rest_.substr(0, count);
        rest_.remove_prefix(taken.size());
        return taken;
    }

    std::string_view rest_;
};

bool readParent(Reader& reader, std::optional<ParentChain>& parent)
{
    if (reader.skip("null,\"parent_hash\":null")) {
        return true;
    }
    ParentChain named;
    const bool read = reader.skip("\"") && reader.id(named.chain) && reader.skip("\",\"parent_hash\":\"")
        && reader.hex(named.last) && reader.skip("\"");
    parent = named;
    return read;
}

std::string nameOf(const Entry& entry)
{
    return "entry " + std::to_string(entry.header.sequence) + " of chain " + toText(entry.chain);
}

Done mayStand(const Entry& entry)
{
    if (entry.format != entryFormat) {
        return fail(Errc::Incompatible,
                    nameOf(entry) + " has format " + std::to_string(entry.format)
                        + ", which this version does not know");
    }
    if (entry.body.size() > bodyBytesMax || entry.kind.size() > textBytesMax
        || entry.header.observed.how.size() > textBytesMax) {
        return fail(Errc::OutOfRange, nameOf(entry) + " is longer than an entry may be");
    }
    if (entry.hash != hashOf(entry)) {
        return fail(Errc::Corrupt, nameOf(entry) + " states a hash that its bytes do not have");
    }
    return {};
}

Done mayOpen(const Entry& entry)
{
    if (entry.header.sequence != 1 || entry.kind != chainOpenedKind || entry.previous != Hash{}) {
        return fail(Errc::Conflict, nameOf(entry) + " comes before the entry that opens its chain");
    }
    const Result<ChainOpening> opening = chainOpeningFrom(entry.body);
    if (!opening) {
        return fail(opening.error());
    }
    if (opening->device != entry.header.device) {
        return fail(Errc::Conflict, nameOf(entry) + " opens a chain for a device other than the one that made it");
    }
    return {};
}

} // namespace

std::string bodyOf(const ChainOpening& opening)
{
    const auto quoted = [](const std::string& text) { return '"' + text + '"'; };
    const auto& parent = opening.parent;
    return "{\"device\":" + quoted(toText(opening.device)) + ",\"public_key\":" + quoted(toHex(opening.publicKey))
        + ",\"parent_chain\":" + (parent ? quoted(toText(parent->chain)) : "null")
        + ",\"parent_hash\":" + (parent ? quoted(toHex(parent->last)) : "null") + "}";
}

Result<ChainOpening> chainOpeningFrom(std::string_view body)
{
    Reader reader(body);
    ChainOpening opening;
    const bool read = reader.skip("{\"device\":\"") && reader.id(opening.device) && reader.skip("\",\"public_key\":\"")
        && reader.hex(opening.publicKey) && reader.skip("\",\"parent_chain\":") && readParent(reader, opening.parent);
    if (!read || bodyOf(opening) != body) {
        return fail(Errc::Malformed, "\"" + quotable(body) + "\" does not have the form that opens a chain");
    }
    return opening;
}

Done mayFollow(const Entry& entry, const std::optional<ChainTip>& tip)
{
    if (Done stands = mayStand(entry); !stands) {
        return stands;
    }
    if (!tip) {
        return mayOpen(entry);
    }
    if (entry.header.sequence <= tip->sequence) {
        return fail(Errc::Conflict, nameOf(entry) + " is already there");
    }
    if (entry.header.sequence != tip->sequence + 1) {
        return fail(Errc::Conflict,
                    nameOf(entry) + " does not follow entry " + std::to_string(tip->sequence) + ", the last one there");
    }
    if (entry.previous != tip->hash) {
        return fail(Errc::Conflict, nameOf(entry) + " was made to follow another entry than the one before it");
    }
    if (entry.header.clock <= tip->clock) {
        return fail(Errc::Conflict,
                    nameOf(entry) + " has a hybrid clock that is not beyond that of the entry before it");
    }
    if (entry.header.device != tip->device) {
        return fail(Errc::Conflict, nameOf(entry) + " was made by another device than the entry before it");
    }
    return {};
}

} // namespace loopside::ledger
