// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a tablet and a site hub say to each other. A tablet says `HandOver` and `Ask`; a hub answers with `Marks`,
// `Page` or `Refusal`. Each message stands by itself: repeated, late or lost it changes nothing that was stored.

#pragma once

#include "sync/mark.h"
#include "sync/shelf.h"
#include "sync/topic.h"

#include <string>
#include <variant>
#include <vector>

namespace loopside::sync {

/// Bounds of a message. What goes beyond them is refused; a batch stays below `batchBytes` unless one entry is longer.
inline constexpr std::size_t entriesMost = 256;
inline constexpr std::size_t listedMost = 512; ///< Chains, gaps, marks, places or conflicts.
inline constexpr std::size_t batchBytes = std::size_t{256} << 10U;
inline constexpr std::size_t messageBytesMax = std::size_t{8} << 20U;

/// Entries of the tablet's journal, and the question how far the hub has its chains.
struct HandOver
{
    Id device = {};                        ///< Who says it.
    std::vector<Id> chains = {};           ///< Those of which it wants to know.
    std::vector<ledger::Loss> losses = {}; ///< Gaps in its chains that will not be filled.
    std::vector<ledger::Entry> entries = {};

    friend bool operator==(const HandOver&, const HandOver&) = default;
};

/// Two entries for one place of a chain. The hub keeps both.
struct Clash
{
    Id chain = {};
    std::uint64_t sequence = 0;
    ledger::Hash aside = {}; ///< Of the one that came later and is kept aside.

    friend bool operator==(const Clash&, const Clash&) = default;
};

/// How far the hub has the chains that were named or handed over.
struct Marks
{
    Id log = {};
    std::vector<SignedMark> marks = {};
    std::vector<Clash> clashes = {};
    std::vector<Id> gaps = {}; ///< Chains of which something came that goes on from what the hub does not have.
    std::vector<ledger::Loss> missing = {}; ///< Gaps in the chains that were named, told to the hub as lost.
    std::vector<Id> unknown = {};           ///< Chains that were named and of which the hub has nothing.

    friend bool operator==(const Marks&, const Marks&) = default;
};

/// How far a tablet has gone through a topic.
struct Place
{
    Topic topic;
    std::uint64_t after = 0; ///< Entries of the topic that it has.

    friend bool operator==(const Place&, const Place&) = default;
};

/// What a tablet wants to know.
struct Ask
{
    Id device = {};
    std::vector<Place> places = {};

    friend bool operator==(const Ask&, const Ask&) = default;
};

/// With the entries of its page a tablet that had `after` entries of the topic has `upTo`, of `last` that there are.
struct Section
{
    Topic topic;
    std::uint64_t after = 0;
    std::uint64_t upTo = 0;
    std::uint64_t last = 0;

    friend bool operator==(const Section&, const Section&) = default;
};

/// Entries of other devices, with the mark of each chain that they are of. Signed whole by the hub, so that nothing can
/// be left out of it on the way.
struct Page
{
    Id log = {};
    std::vector<Section> sections = {};
    std::vector<SignedMark> marks = {};
    std::vector<Held> entries = {};
    ledger::Signature signature = {};

    friend bool operator==(const Page&, const Page&) = default;
};

/// That a message was not taken, and why. Nothing was changed by it.
struct Refusal
{
    Errc code = Errc::Conflict;
    std::string sentence;

    friend bool operator==(const Refusal&, const Refusal&) = default;
};

struct Message
{
    Id site = {};
    std::variant<HandOver, Marks, Ask, Page, Refusal> said;

    friend bool operator==(const Message&, const Message&) = default;
};

} // namespace loopside::sync
