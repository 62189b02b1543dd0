// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/journal.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace loopside::ledger {

/// Something in a journal that is not as it was written, and where it shows first.
struct Fault
{
    Position position = 0;
    std::string sentence;
};

/// Goes through a journal's entries in order and finds what was changed, dropped, moved or put in.
///
/// Each entry's hash is computed anew from its bytes, compared with what the next one of the chain says of it, and its
/// signature checked with the key that the chain's first entry states. A break is told once, where it shows; the
/// entries behind it are checked against what stands there.
///
/// What it cannot see: entries missing at the very end, and a whole chain written anew with another key. Both show only
/// against what the site hub has.
class Verifier
{
public:
    /// Looks at the next entry. Entries come in the order of their positions, from the first one on.
    void take(const Stored& stored);

    [[nodiscard]] const std::vector<Fault>& faults() const { return faults_; }

private:
    struct Chain
    {
        ChainTip tip;
        std::optional<PublicKey> key; ///< None: the chain's opening is not there or cannot be read.
    };

    void checkPosition(const Stored& stored);
    Chain& chainOf(const Stored& stored);
    void checkLink(const Stored& stored, const ChainTip& tip);
    void say(const Stored& stored, const std::string& what);

    Position last_ = 0; ///< Of the entry looked at last.
    std::map<Id, Chain> chains_;
    std::vector<Fault> faults_;
};

/// All faults of `journal`. Where reading itself fails, that is the last fault.
[[nodiscard]] std::vector<Fault> verifyAll(const Journal& journal);

} // namespace loopside::ledger
