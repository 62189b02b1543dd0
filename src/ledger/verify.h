// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/read_all.h"

#include <functional>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace loopside::ledger {

/// Told after each piece up to which position a journal was looked at. False: the look ends there.
using GoOn = std::function<bool(Position)>;

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
/// A chain that goes on from another names the last entry of that one: it must be there, of the same device. That is
/// told last, by `endsMissing`, since an entry may come from elsewhere after the chain that names it.
///
/// What it cannot see: entries missing at the very end, and a whole chain written anew with another key. Both show only
/// against what the site hub has.
class Verifier
{
public:
    enum class Signatures
    {
        Checked,
        PassedOver, ///< Thirty times as quick; what was changed and hashed anew by a forger is then not seen.
    };

    explicit Verifier(Signatures signatures = Signatures::Checked) : signatures_{signatures} {}

    /// Takes gaps that a restore has told of for what they are: no faults.
    void forgive(std::span<const Loss> losses) { losses_.assign(losses.begin(), losses.end()); }

    /// Begins behind `position` instead of before the first entry. `openings` are the first entries of the chains that
    /// began up to there. What links the first entry of each chain to the one before it is then not seen.
    void beginBehind(Position position, std::span<const Entry> openings);

    /// Looks at the next entry. Entries come in the order of their positions, from the first one on.
    void take(const Stored& stored);

    [[nodiscard]] const std::vector<Fault>& faults() const { return faults_; }

    /// That the end of a chain from which another goes on is not there.
    struct EndMissing
    {
        Fault fault;
        Loss loss; ///< As it is told once it is known: of one entry behind the last; of how many, nobody knows.
    };

    /// The chains whose last entry, as those that go on from them name it, is neither there nor told to be missing.
    /// `read` gives all that was looked at once more; it is called only where a chain names another than the last entry
    /// before it.
    [[nodiscard]] std::vector<EndMissing> endsMissing(const EntryReader& read) const;

private:
    struct Chain
    {
        ChainTip tip = {};
        std::optional<PublicKey> key = {}; ///< None: the chain's opening is not there or cannot be read.
        bool isTipKnown = true;
    };

    /// An opening that names an entry which was not the last of its chain when the opening came.
    struct Named
    {
        Fault fault;
        Id device;
        ParentChain parent;
    };

    void checkPosition(const Stored& stored);
    void noteParent(const Stored& stored, const ChainOpening& opening);
    [[nodiscard]] Loss endLossOf(const Id& chain) const;
    [[nodiscard]] static Fault faultOf(const Stored& stored, const std::string& what);
    Chain& chainOf(const Stored& stored);
    void checkLink(const Stored& stored, const Chain& chain);
    [[nodiscard]] bool isForgiven(const Entry& entry, std::uint64_t after) const;
    void say(const Stored& stored, const std::string& what);

    Signatures signatures_;
    std::vector<Loss> losses_;
    Position last_ = 0; ///< Of the entry looked at last.
    std::map<Id, Chain> chains_;
    std::vector<Named> named_;
    std::vector<Fault> faults_;
};

/// All faults of `journal`. Where reading itself fails, that is the last fault. Gaps that `losses` tells of are none.
[[nodiscard]] std::vector<Fault> verifyAll(const Journal& journal, std::span<const Loss> losses = {},
                                           const GoOn& goOn = {});

/// What `verifier`, which stands at `after`, finds from there on in at most `limit` entries.
[[nodiscard]] std::vector<Fault> verifyPiece(Verifier verifier, const Journal& journal, Position after,
                                             std::size_t limit, const GoOn& goOn = {});

} // namespace loopside::ledger
