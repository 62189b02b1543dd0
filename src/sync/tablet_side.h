// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "sync/message.h"

#include <map>
#include <optional>
#include <set>
#include <vector>

namespace loopside::sync {

/// The site that a tablet was enrolled at, and the key by which its hub signs.
struct Site
{
    Id id = {};
    ledger::PublicKey hub = {};
};

/// How far a tablet has come with its hub. Kept on disk with the entries that it speaks of; one that was lost costs
/// only that things are said again. A journal that was restored or copied begins with an empty one.
struct Progress
{
    Id log = {};                                ///< The hub's record that all of it is about; none: never heard of one.
    std::map<Id, SignedMark> receipts = {};     ///< By chain: the furthest of what was handed over.
    std::map<Topic, std::uint64_t> places = {}; ///< By topic: how many of its entries were stored.

    friend bool operator==(const Progress&, const Progress&) = default;
};

class TabletSide;

/// What came of a message: to be stored, then accepted.
struct Heard
{
    std::vector<Held> entries = {}; ///< Of other devices, or lost here: to be put singly.
    Progress progress = {};         ///< To be kept in the same write.
    std::set<Id> forked = {}; ///< Own chains of which the hub holds another end: the device goes on with a new one.
    std::vector<Clash> clashes = {}; ///< Own entries that the hub keeps aside, as their places hold others.
    std::optional<Refusal> refusal = {};

private:
    friend class TabletSide;
    struct Round
    {
        std::set<Id> greeted = {}; ///< Chains of which the hub told in this round how far it has them.
        std::map<Id, std::uint64_t> handedUpTo = {};
        std::set<Id> stuck = {}; ///< Chains that the hub cannot take; they wait for the next round.
        std::set<Topic> ended = {};
        bool wantsOwn = false; ///< The hub has entries of this device that the journal does not have.
    };
    Round round = {};
};

/// A tablet's side of the conversation with its hub. It does no input or output: ask it what to say, tell it what came.
///
/// One round: `say`, send it, `hear` the answer, store what it gives, `accept`; until `say` has nothing left. An answer
/// that never comes is no matter: `say` says the same again. Answers may come late, twice and in any order.
class TabletSide
{
public:
    /// `own` holds the chains of this tablet and outlives it; `losses` are its known gaps.
    TabletSide(const Site& site, const Id& device, const Shelf& own, std::vector<ledger::Loss> losses,
               std::set<Topic> interest, Progress progress = {});

    /// What to say next; nothing if all is handed over and everything of interest was heard in this round.
    [[nodiscard]] Result<std::optional<Message>> say() const;

    /// What comes of `message`; changes nothing. Conflict for another site, Corrupt for a signature that does not hold
    /// or an entry that is not as it was written, the errors of `mayEnter`, Malformed for what a hub does not say.
    [[nodiscard]] Result<Heard> hear(const Message& message) const;

    /// Goes on from what `hear` gave last, once it is stored.
    void accept(const Heard& heard);

    /// Begins anew: asks how far the hub is, and for what is new.
    void beginRound() { round_ = {}; }

    /// What interests from now on.
    void setInterest(std::set<Topic> interest) { interest_ = std::move(interest); }

    [[nodiscard]] const Progress& progress() const { return progress_; }

private:
    using Round = Heard::Round;

    [[nodiscard]] std::optional<Message> greeting(const std::vector<Tip>& tips) const;
    [[nodiscard]] Result<std::optional<Message>> handOver(const std::vector<Tip>& tips) const;
    [[nodiscard]] std::optional<Message> question() const;
    [[nodiscard]] Result<std::uint64_t> handedUpTo(const Id& chain) const;
    [[nodiscard]] Result<bool> isOwn(const Mark& mark) const;
    [[nodiscard]] Done take(const Marks& said, Heard& heard) const;
    [[nodiscard]] Done fillGaps(const Marks& said, Heard& heard) const;
    [[nodiscard]] Done take(const Page& said, Heard& heard) const;
    [[nodiscard]] Done take(const SignedMark& signedMark, Heard& heard) const;
    [[nodiscard]] Done mayBelieve(const SignedMark& mark, const Id& log) const;
    void noteLog(const Id& log, Heard& heard) const;

    Site site_;
    Id device_;
    const Shelf* own_;
    std::vector<ledger::Loss> losses_;
    std::set<Topic> interest_;
    Progress progress_;
    Round round_ = {};
};

} // namespace loopside::sync
