// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The page of a site on what its hub holds: takes in the entries that came since the last look (sync/live_fold.h), and
// commits the jobs that planners tell, signed with the hub's key.

#pragma once

#include "hub/device_register.h"
#include "hub/own_chain.h"
#include "hub/page/router.h"
#include "hub/server.h"
#include "hub/sql_accounts.h"
#include "hub/sql_files.h"
#include "hub/sql_hub.h"
#include "sync/live_fold.h"

#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <set>

namespace loopside::hub {

/// How a page is set up.
struct PageSettings
{
    Id device = {};                                 ///< Under which the hub signs jobs,
    std::function<Result<ledger::DeviceKey>()> key; ///< and its key, which is asked for at each.
    site::Site catalogue = {};                      ///< The site as tablets have it, with the names of its people.
    /// Told why something could not be shown or stored.
    std::function<void(const Error&)> onTrouble = [](const Error&) {};
    /// Told of each try to sign in.
    std::function<void(const page::TryTold&)> onTry = [](const page::TryTold&) {};
    page::PasswordCost cost = {};
    std::map<std::string, page::PageFile> files = page::pageFiles();
};

/// Answers one request at a time, from any thread.
class SitePage
{
public:
    /// `sql`, laid out, is used by nobody else; it, `clock` and `random` outlive the page.
    SitePage(Sql& sql, const SiteRecord& site, PageSettings settings, Clock& clock, RandomSource& random);

    [[nodiscard]] PageAnswer answer(const PageRequest& request);

    /// Shows what came of a look at all that the hub holds.
    void show(page::Verified verified);

private:
    [[nodiscard]] std::shared_ptr<const page::Known> known();
    [[nodiscard]] Done catchUp();
    [[nodiscard]] Result<site::Site> siteNow(const run::State& state);
    [[nodiscard]] Done commit(const run::PutRecords& records, const Id& person);
    [[nodiscard]] Done letIn(const ledger::PublicKey& key);

    std::mutex oneAtATime_;
    std::function<Result<ledger::DeviceKey>()> key_;
    Clock* clock_;
    RandomSource* random_;
    site::Site catalogue_;
    std::function<void(const Error&)> onTrouble_;
    Id device_;
    SqlHub store_;
    DeviceRegister register_;
    SqlFiles files_;
    SqlAccounts accountStore_;
    page::Accounts accounts_;
    OwnChain own_;
    std::shared_ptr<std::set<Id>> signedAway_ = std::make_shared<std::set<Id>>();
    sync::LiveFold fold_;
    std::int64_t foldedAtMs_ = 0;
    bool isKnownOld_ = false; ///< Something was taken in that `known_` does not tell of yet.
    std::shared_ptr<const page::Known> known_ = nullptr;
    std::optional<page::Verified> verified_ = {};
    page::Router router_;
};

} // namespace loopside::hub
