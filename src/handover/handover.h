// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "handover/carrier.h"
#include "handover/files_away.h"
#include "handover/hub_file.h"
#include "handover/joined_journal.h"
#include "handover/others_shelf.h"
#include "handover/patience.h"
#include "ledger/keys.h"
#include "sync/enrolment_code.h"
#include "sync/journal_shelf.h"
#include "sync/signed_request.h"

#include <functional>
#include <memory>
#include <optional>
#include <string>

namespace loopside::handover {

/// How the journal stands with the hub.
struct HandoverStanding
{
    bool isUnderWay = false;
    std::uint64_t there = 0;      ///< Entries of the journal that the hub has acknowledged.
    std::uint64_t waiting = 0;    ///< Those that are still only here.
    std::size_t filesWaiting = 0; ///< Pictures, drawings and sounds of which it is not known that the hub has them.
    std::string digest = {};      ///< Of the receipts: SHA-256, in hexadecimal digits; empty without one.
    std::int64_t reachedAtMs = 0; ///< When all entries were there last; 0: never.
    std::int64_t clockOffMs = 0;  ///< The tablet's clock less the hub's, where that is further off than a request may.
    bool isForked = false;        ///< The hub holds another end of a chain of this tablet: a copy of it was used.
    std::optional<Message> trouble = {}; ///< Why the last round did not come to its end.
};

/// Hands the journal over to the hub at which the tablet is enrolled, and takes in what is of interest: round by round,
/// each until nothing is left to say; the files of attachments go behind the entries. What fails changes nothing, stays
/// here and is tried again.
///
/// Not thread-safe. The owner calls `tick` each second.
class Handover
{
public:
    /// All of it outlives the handover.
    struct Parts
    {
        std::string path; ///< Of the journal's file.
        ledger::Journal& journal;
        JoinedJournal& joined; ///< Shows what is held of others.
        std::vector<ledger::Loss> losses = {};
        std::string hubFile;
        Id device;
        const ledger::DeviceKey& key;
        std::string name = {}; ///< What the hub calls the tablet.
        Clock& clock;
        Carrier& carrier;
        std::function<sync::Nonce()> nonce;
        sync::AsideKeeper keepAside = [](const ledger::Entry&) -> Done { return {}; };
        FilesAway::ReadFile readFile = [](const std::string&) -> Result<std::string> {
            return fail(Errc::NotFound, "no files are kept here");
        };
    };

    /// Goes through the journal where the tablet is enrolled, and shows what is held of others.
    [[nodiscard]] static Result<std::unique_ptr<Handover>> open(Parts parts);

    ~Handover() { parts_.carrier.giveUp(); }
    Handover(const Handover&) = delete;
    Handover& operator=(const Handover&) = delete;

    [[nodiscard]] const std::optional<Hub>& hub() const { return hub_; }
    [[nodiscard]] HandoverStanding standing() const;

    /// Enrols the tablet at the hub `address` with the code from its terminal; a round follows.
    void enrol(const std::string& address, const sync::EnrolmentCode& code);

    /// What it asks the hub for from now on (interest.h), in a round that is under way as well. Whether there is
    /// something in it that was not asked for before.
    bool setInterest(std::set<sync::Topic> interest);

    /// Begins a round now, unless one is under way or there is no hub.
    void begin();
    /// Begins a round when it is time for one.
    void tick();
    /// It is time for one: the tablet woke.
    void wake() { patience_.wake(); }

    /// Looks for files in the next entries of the journal; false where all were looked at. `tick` and `begin` do it,
    /// some thousand entries at a time.
    bool lookForFiles();

    /// The entries of others that take no precedence until a person settles them.
    [[nodiscard]] const std::vector<ledger::Entry>& unsettled() const { return parts_.joined.unsettled(); }
    /// Shows what is held of others anew, after something was settled.
    void showOthers();

    /// Called when something of `standing` changed.
    std::function<void()> onChanged = [] {};
    /// Called when something came that folds otherwise: `joined` shows it.
    std::function<void()> onOthersCame = [] {};

private:
    explicit Handover(Parts parts) : parts_{std::move(parts)} {}

    [[nodiscard]] Done openShelves();
    [[nodiscard]] Done seeOwn();
    [[nodiscard]] Done goOn();
    [[nodiscard]] Done goOnWithFiles();
    [[nodiscard]] Done keepReached(const KeptProgress& reached);
    void endWell();
    void post(const std::string& path, std::string body, bool isAgain);
    void onAnswer(const std::string& path, const std::string& body, bool isAgain, const Result<Answer>& answer);
    [[nodiscard]] Done takeEnrolment(const Answer& answer);
    [[nodiscard]] Done takeMessage(const Answer& answer);
    [[nodiscard]] Done takeOfFiles(const Answer& answer);
    void lookForFilesFrom(ledger::Position done);
    [[nodiscard]] bool isRefusedFile(const std::string& path, const Answer& answer);
    void settle(const Done& done);
    void stop(const Error& error, std::optional<int> retryAfterS = {});
    void end();
    [[nodiscard]] Message troubleOf(const Answer& answer) const;

    Parts parts_;
    std::set<sync::Topic> interest_ = {};
    std::optional<Hub> hub_ = {};
    std::optional<Hub> wanted_ = {}; ///< At which the tablet is being enrolled.
    std::string pin_ = {};
    std::unique_ptr<OthersShelf> others_ = {};
    std::unique_ptr<sync::JournalShelf> own_ = {};
    std::optional<sync::TabletSide> side_ = {};
    std::optional<FilesAway> files_ = {};
    KeptProgress kept_ = {};
    std::uint64_t seen_ = 0; ///< Entries of the journal that `own_` knows of.
    Patience patience_ = {};
    HandoverStanding told_ = {}; ///< What of the standing is not counted afresh.
    std::int64_t strayMs_ = 0;   ///< The hub's clock less the tablet's, for stamps.
    bool someCame_ = false;
};

} // namespace loopside::handover
