// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/site_page.h"

#include "hub/page/site_views.h"
#include "ledger/logbook.h"

#include <algorithm>
#include <cctype>
#include <cstdlib>

namespace loopside::hub {

using page::Known;

namespace {

// Where tablets hand over all the time, what came is looked for at most so often.
constexpr std::int64_t foldedForMs = 5'000;

/// The hub's own chain for who adds to it and looks at nothing that is there: what a planner tells is decided by itself
/// alone, and a whole journal would be folded for it. `latestClock` is what the next entry has to fold behind.
class ForAdding final : public ledger::Journal
{
public:
    ForAdding(ledger::Journal& own, std::uint64_t latestClock) : own_{&own}, latestClock_{latestClock} {}

    [[nodiscard]] Result<ledger::Position> append(std::span<const ledger::Entry> entries) override
    {
        return own_->append(entries);
    }
    [[nodiscard]] Result<std::vector<ledger::Stored>> read(ledger::Position, std::size_t) const override
    {
        return std::vector<ledger::Stored>();
    }
    [[nodiscard]] Result<std::uint64_t> latestClock() const override { return latestClock_; }
    [[nodiscard]] Result<ledger::Position> last() const override { return own_->last(); }
    [[nodiscard]] Result<std::optional<ledger::ChainHead>> head(const Id& device) const override
    {
        return own_->head(device);
    }

private:
    ledger::Journal* own_;
    std::uint64_t latestClock_;
};

std::string lowered(std::string text)
{
    std::ranges::transform(text, text.begin(),
                           [](unsigned char sign) { return static_cast<char>(std::tolower(sign)); });
    return text;
}

page::Ask askOf(const PageRequest& request)
{
    page::Ask ask{request.method, request.path, {}, {}, request.body, request.address};
    ask.query.insert(request.query.begin(), request.query.end());
    for (const auto& [name, value] : request.headers) {
        ask.headers[lowered(name)] = value;
    }
    return ask;
}

PageAnswer answerOf(page::Answer answer)
{
    PageAnswer given{answer.status, answer.header("Content-Type"), std::move(answer.body), std::move(answer.headers)};
    std::erase_if(given.headers, [](const auto& header) { return header.first == "Content-Type"; });
    return given;
}

} // namespace

SitePage::SitePage(Sql& sql, const SiteRecord& site, PageSettings settings, Clock& clock, RandomSource& random)
    : key_{std::move(settings.key)},
      clock_{&clock},
      random_{&random},
      catalogue_{std::move(settings.catalogue)},
      onTrouble_{std::move(settings.onTrouble)},
      device_{settings.device},
      store_{sql, site.site},
      register_{sql, site.site},
      files_{sql, site.site},
      accountStore_{sql, site.site},
      accounts_{accountStore_, settings.cost},
      own_{store_, device_},
      fold_{store_,
            [this](const run::RunState& run) {
                page::isSignedOff(run) ? void(signedAway_->insert(run.id)) : void(signedAway_->erase(run.id));
            }},
      router_{{[this] { return known(); },
               [this](const run::PutRecords& records, const Id& person) { return commit(records, person); }, accounts_,
               clock, std::move(settings.files), [this](const Id& entry) { return files_.of(entry); },
               [this](const Id& entry) { return files_.has(entry); },
               [this](const Id& run) { return fold_.takeOut(run); }, std::move(settings.onTry)}}
{
}

PageAnswer SitePage::answer(const PageRequest& request)
{
    const std::lock_guard lock(oneAtATime_);
    return answerOf(router_.answer(askOf(request)));
}

void SitePage::show(page::Verified verified)
{
    const std::lock_guard lock(oneAtATime_);
    verified_ = std::move(verified);
    if (known_ != nullptr) {
        Known now = *known_;
        now.verified = verified_;
        known_ = std::make_shared<const Known>(std::move(now));
    }
}

/// What is known; null where the database is away and nothing was folded yet. What was folded last is shown on where it
/// went away since.
std::shared_ptr<const Known> SitePage::known()
{
    const std::int64_t nowMs = clock_->now().wallMs;
    if (known_ == nullptr || std::abs(nowMs - foldedAtMs_) >= foldedForMs) {
        const Done folded = catchUp();
        foldedAtMs_ = nowMs;
        if (!folded) {
            onTrouble_(folded.error());
        }
    }
    return known_;
}

Done SitePage::catchUp()
{
    const auto isNew = fold_.catchUp();
    if (!isNew) {
        return fail(isNew.error());
    }
    isKnownOld_ = isKnownOld_ || *isNew;
    if (known_ != nullptr && !isKnownOld_) {
        return {};
    }
    auto site = siteNow(*fold_.state());
    if (!site) {
        return fail(site.error());
    }
    known_ = std::make_shared<const Known>(
        Known{fold_.state(), *std::move(site), fold_.entries(), verified_, device_, fold_.changes(), signedAway_});
    isKnownOld_ = false;
    return {};
}

/// The catalogue with what was put since, and with the names of those who may sign in.
Result<site::Site> SitePage::siteNow(const run::State& state)
{
    return accountStore_.all().transform([&](const std::vector<page::Account>& accounts) {
        site::Site site = site::withRecords(catalogue_, state.records);
        for (const page::Account& account : accounts) {
            const bool isNamed = std::ranges::find(site.people, account.person, &site::SitePerson::id)
                != site.people.end();
            if (!isNamed) {
                site.peopleOut.push_back({account.person, account.name});
            }
        }
        return site;
    });
}

Done SitePage::commit(const run::PutRecords& records, const Id& person)
{
    if (known_ == nullptr) {
        return fail(Errc::Unavailable, "what the hub holds could not be read yet");
    }
    auto key = key_();
    if (!key) {
        return fail(key.error());
    }
    ForAdding journal(own_, fold_.latestClock());
    auto logbook = ledger::Logbook::open(journal, *clock_, *random_, ledger::Reach::AtHand);
    if (!logbook) {
        return fail(logbook.error());
    }
    const Done committed = letIn(key->publicKey())
                               .and_then([&] { return logbook->enrol(device_, *std::move(key)); })
                               .and_then([&]() -> Done {
                                   const auto done = logbook->submit(records, {device_, person});
                                   return done ? Done{} : fail(done.error());
                               });
    foldedAtMs_ = 0; // whoever told it sees it at the next look
    if (!committed) {
        onTrouble_(committed.error());
    }
    return committed;
}

/// So that whoever checks the entries finds the key.
Done SitePage::letIn(const ledger::PublicKey& key)
{
    const auto found = register_.find(device_);
    if (!found || *found) {
        return found ? Done{} : fail(found.error());
    }
    return register_.put({device_, key, "the site's page", clock_->now().wallMs, {}});
}

} // namespace loopside::hub
