// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "report/evidence.h"

#include "ledger/digest.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <string_view>

namespace loopside::report {

namespace {

using ledger::Entry;

constexpr std::string_view digestOver("loopside record\0", 16);

std::string_view bytesOf(const ledger::Hash& hash)
{
    return {reinterpret_cast<const char*>(hash.data()), hash.size()};
}

/// Openings and entries of each chain, by sequence.
std::map<Id, std::vector<const Entry*>> byChain(const Evidence& evidence)
{
    std::map<Id, std::vector<const Entry*>> chains;
    for (const auto* entries : {&evidence.openings, &evidence.entries}) {
        for (const Entry& entry : *entries) {
            chains[entry.chain].push_back(&entry);
        }
    }
    for (auto& [id, entries] : chains) {
        std::ranges::stable_sort(entries, {}, [](const Entry* entry) { return entry->header.sequence; });
    }
    return chains;
}

/// The gaps between entries that are there: of those the check of a chain says nothing.
std::vector<ledger::Loss> gapsIn(const std::map<Id, std::vector<const Entry*>>& chains)
{
    std::vector<ledger::Loss> gaps;
    for (const auto& [id, entries] : chains) {
        std::uint64_t before = 0;
        for (const Entry* entry : entries) {
            if (entry->header.sequence > before + 1) {
                gaps.push_back({id, before, entry->header.sequence});
            }
            before = std::max(before, entry->header.sequence);
        }
    }
    return gaps;
}

std::string named(const Entry& entry)
{
    return "entry " + toText(entry.header.id);
}

void addStrangers(const Evidence& evidence, std::vector<std::string>& faults)
{
    for (const Entry& entry : evidence.entries) {
        if (entry.header.run != evidence.run) {
            faults.push_back(named(entry) + " is of another run");
        }
    }
    for (const Entry& entry : evidence.openings) {
        if (entry.kind != ledger::chainOpenedKind || entry.header.sequence != 1) {
            faults.push_back(named(entry) + " is said to begin a chain and does not");
        }
    }
    if (evidence.entries.empty()) {
        faults.emplace_back("there is no entry of the run");
    }
}

void addKeyless(const std::vector<ChainPart>& chains, std::vector<std::string>& faults)
{
    for (const ChainPart& part : chains) {
        if (!part.key) {
            faults.push_back("the first entry of chain " + toText(part.chain)
                             + " is not there, so that no signature of it can be checked");
        }
    }
}

} // namespace

Result<Evidence> evidenceOf(const ledger::EntryReader& read, const Id& run)
{
    Evidence evidence{run, {}, {}};
    std::vector<Entry> openings;
    const Done done = read([&](const ledger::Stored& stored) -> Done {
        if (stored.entry.kind == ledger::chainOpenedKind) {
            openings.push_back(stored.entry);
        } else if (stored.entry.header.run == run) {
            evidence.entries.push_back(stored.entry);
        }
        return {};
    });
    if (!done) {
        return fail(done.error());
    }
    if (evidence.entries.empty()) {
        return fail(Errc::NotFound, "nothing of run " + toText(run) + " is there", {"no-entry-of-run", {}});
    }
    std::ranges::sort(evidence.entries,
                      [](const Entry& a, const Entry& b) { return run::foldsBefore(a.header, b.header); });
    std::ranges::copy_if(openings, std::back_inserter(evidence.openings), [&](const Entry& opening) {
        return std::ranges::find(evidence.entries, opening.chain, &Entry::chain) != evidence.entries.end();
    });
    return evidence;
}

ledger::Hash digestOf(const Evidence& evidence)
{
    ledger::Sha256 digest;
    digest.add(digestOver);
    for (const Entry& entry : evidence.entries) {
        digest.add(bytesOf(entry.hash));
    }
    return digest.end();
}

std::vector<ChainPart> chainsOf(const Evidence& evidence)
{
    std::vector<ChainPart> parts;
    for (const Entry& entry : evidence.entries) {
        const std::uint64_t sequence = entry.header.sequence;
        const auto known = std::ranges::find(parts, entry.chain, &ChainPart::chain);
        if (known == parts.end()) {
            parts.push_back({entry.header.device, entry.chain, {}, sequence, sequence, 1});
            continue;
        }
        known->first = std::min(known->first, sequence);
        known->last = std::max(known->last, sequence);
        ++known->entries;
    }
    for (const Entry& entry : evidence.openings) {
        const auto part = std::ranges::find(parts, entry.chain, &ChainPart::chain);
        const auto opening = ledger::chainOpeningFrom(entry.body);
        if (part != parts.end() && opening) {
            part->key = opening->publicKey;
        }
    }
    return parts;
}

std::vector<std::string> faultsIn(const Evidence& evidence)
{
    std::vector<std::string> faults;
    addStrangers(evidence, faults);
    addKeyless(chainsOf(evidence), faults);
    const auto chains = byChain(evidence);
    const auto gaps = gapsIn(chains);
    for (const auto& [id, entries] : chains) {
        ledger::Verifier verifier;
        verifier.forgive(gaps);
        ledger::Position position = 0;
        for (const Entry* entry : entries) {
            verifier.take({++position, *entry});
        }
        for (const ledger::Fault& fault : verifier.faults()) {
            faults.push_back(fault.sentence);
        }
    }
    return faults;
}

} // namespace loopside::report
