// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "sync/memory_shelf.h"

#include <cstdlib>
#include <string_view>

namespace loopside::test {

/// A shelf that breaks one rule of the contract, the one that LOOPSIDE_PLANT names: the contract must find it. With
/// "none" it keeps to all.
class PlantedShelf final : public sync::Shelf
{
public:
    [[nodiscard]] Result<std::vector<sync::Put>> put(std::span<const sync::Held> entries,
                                                     std::span<const ledger::Loss> losses) override
    {
        using sync::Put;
        auto outcomes = shelf_.put(entries, losses);
        for (std::size_t i = 0; outcomes && i < outcomes->size(); ++i) {
            Put& outcome = (*outcomes)[i];
            if (outcome == Put::Conflict && !later_) {
                later_ = entries[i];
            }
            const bool isWrong = (is("same-as-new") && outcome == Put::Same)
                || (is("gap-as-new") && outcome == Put::Gap) || (is("conflict-as-new") && outcome == Put::Conflict);
            outcome = isWrong ? Put::Created : outcome;
            outcome = is("gap-as-conflict") && outcome == Put::Gap ? Put::Conflict : outcome;
        }
        return outcomes;
    }

    [[nodiscard]] Result<std::optional<sync::Held>> at(const Id& chain, std::uint64_t sequence) const override
    {
        auto held = shelf_.at(chain, is("place-beside") ? sequence + 1 : sequence);
        if (held && *held && is("alters-body")) {
            (*held)->entry.body += " ";
        }
        return held;
    }

    [[nodiscard]] Result<std::vector<sync::Held>> behind(const Id& chain, std::uint64_t after,
                                                         std::size_t most) const override
    {
        auto held = shelf_.behind(chain, after, is("more-than-asked") ? most + 1 : most);
        for (std::size_t i = 0; held && i < held->size(); ++i) {
            const bool isTaken = later_ && later_->entry.header.sequence == (*held)[i].entry.header.sequence;
            if (is("overwrites") && isTaken) {
                (*held)[i] = *later_;
            }
        }
        return held;
    }

    [[nodiscard]] Result<std::vector<sync::Tip>> tips() const override
    {
        return shelf_.tips().transform([](std::vector<sync::Tip> tips) {
            if (is("old-tip") && !tips.empty()) {
                --tips.front().sequence;
            }
            if (is("one-tip") && tips.size() > 1) {
                tips.pop_back();
            }
            return tips;
        });
    }

    [[nodiscard]] Result<std::vector<ledger::Entry>> asides(const Id& chain) const override
    {
        return shelf_.asides(chain).transform([](std::vector<ledger::Entry> asides) {
            if (is("loses-aside")) {
                asides.clear();
            }
            if (is("aside-twice") && !asides.empty()) {
                asides.push_back(asides.back());
            }
            return asides;
        });
    }

private:
    [[nodiscard]] static bool is(std::string_view plant)
    {
        const char* const named = std::getenv("LOOPSIDE_PLANT");
        return named != nullptr && plant == named;
    }

    sync::MemoryShelf shelf_{sync::MemoryShelf::Keeps::Chains};
    std::optional<sync::Held> later_; ///< That was kept aside first.
};

} // namespace loopside::test
