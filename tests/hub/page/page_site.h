// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/clock.h"
#include "hub/page/look.h"
#include "ledger/memory_journal.h"
#include "run/decide.h"

#include <memory>
#include <string>

namespace loopside::test {

/// A clock that shows one moment.
class OneMoment final : public Clock
{
public:
    explicit OneMoment(const Stamp& stamp) : stamp_{stamp} {}
    [[nodiscard]] Stamp now() override { return stamp_; }

private:
    Stamp stamp_;
};

/// The demo site with what stories and files of records put into its journal, as a hub knows it.
class PageSite
{
public:
    /// The site of assets/demo, with no entry.
    PageSite();

    /// Sends a story of its own into the journal: Cart B at `tank`, which filters and is read each five minutes; each
    /// element of `sets` is what G1, G2 and G3 show, such as "[145, 110, 40]". `more` are further entries, such as
    /// `{"at": "01:00:00", "mode": "stopped"}`, each with a comma in front.
    PageSite& run(const std::string& tank, const std::vector<std::string>& sets, const std::string& more = {},
                  const std::string& target = R"({"turnovers": 5})");

    /// Sends the shift of assets/demo.
    PageSite& demoShift();

    /// Puts jobs, as a file of records tells them.
    PageSite& jobs(const std::string& csv);

    /// Moves the stock of an element type by a person's word.
    PageSite& stock(const std::string& type, int elements, const std::string& why);

    /// Says something of each run at `tank`.
    PageSite& say(const std::string& tank, const run::Said& said);

    /// The journal folded, and the site with its records.
    [[nodiscard]] page::Known known() const;

    /// So long after the last entry of the journal.
    [[nodiscard]] Stamp after(int minutes) const;

    [[nodiscard]] ledger::MemoryJournal& journal() { return *journal_; }

private:
    PageSite& story(const std::string& text);
    PageSite& submit(const run::Command& command);

    std::unique_ptr<ledger::MemoryJournal> journal_ = std::make_unique<ledger::MemoryJournal>();
    site::Site site_;
};

/// A look at what `site` knows, in `language`, `minutes` after its last entry.
class Looking
{
public:
    explicit Looking(const PageSite& site, int minutes = 0, const std::string& language = "en");
    Looking(page::Known known, const Stamp& now, const std::string& language = "en");

    [[nodiscard]] const page::Look& look() const { return look_; }

    /// The one run at `tank`.
    [[nodiscard]] const run::RunState& runAt(const std::string& tank) const;

private:
    page::Standings standings_;
    words::Words words_;
    page::Look look_;
};

} // namespace loopside::test
