// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/journal_shelf.h"

#include "ledger/read_all.h"

#include <algorithm>
#include <iterator>
#include <set>
#include <utility>

namespace loopside::sync {

using ledger::ChainTip;
using ledger::Entry;
using ledger::Stored;

Result<std::unique_ptr<JournalShelf>> JournalShelf::open(ledger::Journal& journal, AsideKeeper keepAside,
                                                         std::vector<Entry> aside)
{
    std::unique_ptr<JournalShelf> shelf(new JournalShelf(journal, std::move(keepAside)));
    shelf->asides_ = std::move(aside);
    return shelf->refresh().transform([&] { return std::move(shelf); });
}

Done JournalShelf::refresh()
{
    return ledger::readBehind(*journal_, last_, [&](const Stored& stored) -> Done {
        note(stored);
        return {};
    });
}

void JournalShelf::note(const Stored& stored)
{
    const Entry& entry = stored.entry;
    Chain& chain = chains_[entry.chain];
    chain.device = entry.header.device;
    chain.places[entry.header.sequence] = stored.position;
    chain.tip = {entry.header.device, entry.header.sequence, entry.header.clock, entry.hash};
    last_ = stored.position;
}

/// The outcomes of a batch, each told with what the ones before it would add.
class JournalShelf::Trial
{
public:
    explicit Trial(const JournalShelf& shelf) : shelf_{&shelf} {}

    [[nodiscard]] Result<Put> of(const Entry& entry)
    {
        const auto there = hashAt(entry.chain, entry.header.sequence);
        const auto before = hashAt(entry.chain, entry.header.sequence - 1);
        if (!there || !before) {
            return fail(there ? before.error() : there.error());
        }
        if (*there == entry.hash) {
            return Put::Same;
        }
        const std::optional<ChainTip> tip = tipOf(entry.chain);
        if (mayFollow(entry, tip)) {
            tips_[entry.chain] = {entry.header.device, entry.header.sequence, entry.header.clock, entry.hash};
            created_[{entry.chain, entry.header.sequence}] = entry.hash;
            return Put::Created;
        }
        const bool followsAside = aside_.contains(entry.previous)
            || std::ranges::find(shelf_->asides_, entry.previous, &Entry::hash) != shelf_->asides_.end();
        if (tip && (followsAside || *before == entry.previous || entry.header.sequence == 1)) {
            aside_.insert(entry.hash);
            return Put::Conflict;
        }
        return Put::Gap;
    }

private:
    [[nodiscard]] std::optional<ChainTip> tipOf(const Id& chain) const
    {
        if (const auto grown = tips_.find(chain); grown != tips_.end()) {
            return grown->second;
        }
        const auto known = shelf_->chains_.find(chain);
        return known == shelf_->chains_.end() ? std::nullopt : std::optional(known->second.tip);
    }

    [[nodiscard]] Result<std::optional<ledger::Hash>> hashAt(const Id& chain, std::uint64_t sequence) const
    {
        if (const auto created = created_.find({chain, sequence}); created != created_.end()) {
            return created->second;
        }
        return shelf_->at(chain, sequence).transform([](const std::optional<Held>& held) {
            return held ? std::optional(held->entry.hash) : std::nullopt;
        });
    }

    const JournalShelf* shelf_;
    std::map<Id, ChainTip> tips_;
    std::map<std::pair<Id, std::uint64_t>, ledger::Hash> created_;
    std::set<ledger::Hash> aside_;
};

std::function<Result<Put>(const Entry&)> JournalShelf::trial() const
{
    return [trial = std::make_shared<Trial>(*this)](const Entry& entry) { return trial->of(entry); };
}

Result<std::vector<Put>> JournalShelf::outcomesOf(std::span<const Held> entries) const
{
    Trial trial(*this);
    std::vector<Put> outcomes;
    for (const Held& held : entries) {
        const auto outcome = trial.of(held.entry);
        if (!outcome) {
            return fail(outcome.error());
        }
        outcomes.push_back(*outcome);
    }
    return outcomes;
}

Result<std::vector<Put>> JournalShelf::put(std::span<const Held> entries, std::span<const ledger::Loss> /*losses*/)
{
    auto outcomes = outcomesOf(entries);
    if (!outcomes) {
        return outcomes;
    }
    std::vector<Entry> created;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const Entry& entry = entries[i].entry;
        const bool isNew = std::ranges::find(asides_, entry.hash, &Entry::hash) == asides_.end();
        if ((*outcomes)[i] == Put::Created) {
            created.push_back(entry);
        } else if ((*outcomes)[i] == Put::Conflict && isNew) {
            if (const Done kept = keepAside_(entry); !kept) {
                return fail(kept.error());
            }
            asides_.push_back(entry);
        }
    }
    if (created.empty()) {
        return outcomes;
    }
    if (const auto appended = journal_->append(created); !appended) {
        return fail(appended.error());
    }
    return refresh().transform([&] { return *outcomes; });
}

Result<std::optional<Held>> JournalShelf::at(const Id& chain, std::uint64_t sequence) const
{
    const auto known = chains_.find(chain);
    if (known == chains_.end() || !known->second.places.contains(sequence)) {
        return std::nullopt;
    }
    const auto read = journal_->read(known->second.places.at(sequence) - 1, 1);
    if (!read || read->empty()) {
        return fail(read ? Error{Errc::Corrupt, "an entry of the journal is gone"} : read.error());
    }
    return Held{read->front().entry};
}

Result<std::vector<Held>> JournalShelf::behind(const Id& chain, std::uint64_t after, std::size_t most) const
{
    std::vector<Held> found;
    const auto known = chains_.find(chain);
    if (known == chains_.end()) {
        return found;
    }
    const auto& places = known->second.places;
    for (auto next = places.upper_bound(after); next != places.end() && found.size() < most; ++next) {
        const auto held = at(chain, next->first);
        if (!held) {
            return fail(held.error());
        }
        found.push_back(**held);
    }
    return found;
}

Result<std::vector<Tip>> JournalShelf::tips() const
{
    std::vector<Tip> tips;
    for (const auto& [id, chain] : chains_) {
        tips.push_back({chain.device, id, chain.tip.sequence, chain.tip.hash});
    }
    return tips;
}

Result<std::vector<Entry>> JournalShelf::asides(const Id& chain) const
{
    std::vector<Entry> found;
    std::ranges::copy_if(asides_, std::back_inserter(found), [&](const Entry& entry) { return entry.chain == chain; });
    return found;
}

} // namespace loopside::sync
