// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/admit.h"

#include "base/text.h"
#include "ledger/body.h"
#include "ledger/chain.h"

#include <string>

namespace loopside::sync {

using ledger::Entry;

namespace {

std::string nameOf(const Entry& entry)
{
    return "entry " + std::to_string(entry.header.sequence) + " of chain " + toText(entry.chain);
}

Done mayOpen(const Entry& entry, const ledger::PublicKey& key)
{
    if (entry.kind != ledger::chainOpenedKind || entry.previous != ledger::Hash{}) {
        return fail(Errc::Conflict, nameOf(entry) + " stands first in its chain and does not open it");
    }
    const auto opening = ledger::chainOpeningFrom(entry.body);
    if (!opening) {
        return fail(opening.error());
    }
    if (opening->device != entry.header.device || opening->publicKey != key) {
        return fail(Errc::Conflict, nameOf(entry) + " opens a chain for another device or key than its own");
    }
    return {};
}

} // namespace

Done mayEnter(const Entry& entry, const ledger::PublicKey& key)
{
    if (entry.format != ledger::entryFormat) {
        return fail(Errc::Incompatible,
                    nameOf(entry) + " was written by a newer version of Loopside: update this one first");
    }
    if (entry.body.size() > ledger::bodyBytesMax || entry.kind.size() > ledger::textBytesMax
        || entry.header.observed.how.size() > ledger::textBytesMax || entry.header.sequence == 0) {
        return fail(Errc::OutOfRange, nameOf(entry) + " is longer than an entry may be, or has no place in its chain");
    }
    if (hashOf(entry) != entry.hash) {
        return fail(Errc::Corrupt, nameOf(entry) + " was changed: its bytes do not have the hash that it states");
    }
    if (!isSignedBy(entry, key)) {
        return fail(Errc::Corrupt, nameOf(entry) + " is not signed by the device that it says wrote it");
    }
    return entry.header.sequence == 1 ? mayOpen(entry, key) : Done{};
}

Done mayEnter(const Entry& entry, const Mark& mark)
{
    if (mark.isAside || entry.chain != mark.chain || entry.header.device != mark.device) {
        return fail(Errc::Conflict, nameOf(entry) + " is not of the chain that the site hub's mark is of");
    }
    if (entry.header.sequence > mark.sequence || (entry.header.sequence == mark.sequence && entry.hash != mark.hash)) {
        return fail(Errc::Conflict, nameOf(entry) + " is not what the site hub's mark says that it holds");
    }
    return mayEnter(entry, mark.key);
}

Done mayBeFolded(const Entry& entry)
{
    if (entry.kind == ledger::chainOpenedKind) {
        return {};
    }
    const auto event = ledger::eventFrom(entry.kind, entry.body);
    if (event || event.error().code == Errc::Incompatible) {
        return {};
    }
    return fail(Errc::Malformed,
                nameOf(entry) + " does not say what its kind \"" + quotable(entry.kind)
                    + "\" should say: " + event.error().sentence);
}

} // namespace loopside::sync
