// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/site_file.h"
#include "ledger/handed.h"
#include "ledger/logbook.h"
#include "run/standing.h"
#include "store/attachment_folder.h"
#include "store/draft_store.h"
#include "words/words.h"

#include <QObject>

#include <algorithm>
#include <chrono>
#include <functional>
#include <memory>
#include <optional>

namespace loopside::app {

/// The tablet behind all views: the logbook, who holds it, which run is shown, and the one place where commands go in.
///
/// Every view reads from here and listens to `changed` (something was logged) and `secondPassed` (time went on).
class Tablet : public QObject
{
    Q_OBJECT

public:
    /// What the tablet stands on; all of it outlives the tablet.
    struct Parts
    {
        ledger::Journal& journal;
        store::DraftStore& drafts;
        Clock& clock;
        RandomSource& random;
        const Site& site;
        words::Words words;
        std::string language = "en";     ///< The one of `words`.
        std::string importFolder = {};   ///< Where files of records are looked for; empty: nowhere.
        std::string practiceFolder = {}; ///< Where exercises keep their files; empty: nobody can practise.
        store::AttachmentFolder* attachments = nullptr; ///< Where pictures and sounds are kept; null: nowhere.
        SiteFile* siteFile = nullptr;                ///< That `site` was read from; null: its people stay as they are.
        ledger::Reach reach = ledger::Reach::AtHand; ///< Open first: `takeEarlier` is to be called soon.
    };

    /// Opens the logbook of `device`. Fails with the sentence to show.
    [[nodiscard]] static Result<std::unique_ptr<Tablet>> open(Parts parts, const Id& device, ledger::DeviceKey key);

    [[nodiscard]] const run::State& state() const { return logbook_.state(); }
    /// The site as its file has it, with what was put into the catalogue since.
    [[nodiscard]] const Site& site() const { return site_; }
    /// As its file has it.
    [[nodiscard]] const Site& siteAsBegun() const { return begun_; }
    [[nodiscard]] const std::string& importFolder() const { return parts_.importFolder; }
    [[nodiscard]] store::DraftStore& drafts() const { return parts_.drafts; }

    /// The run on the screen; null before the first.
    [[nodiscard]] const run::RunState* shown() const;
    void show(const Id& run);

    /// How a run stands now, computed once for each change or second.
    [[nodiscard]] const run::Standing& standing(const run::RunState& run) const;
    [[nodiscard]] run::RunTime runTime(const run::RunState& run) const;

    /// Pairs of runs that may be one and of which nobody said whether they are.
    [[nodiscard]] const std::vector<run::RunPair>& linkProposals() const;
    /// The runs that `run` is one with, as somebody said; without itself.
    [[nodiscard]] const std::vector<const run::RunState*>& linkedRuns(const run::RunState& run) const;
    /// What `run` and those come to as one, computed once for each change or ten seconds. Null where it is one with
    /// none, or where one of them is put away.
    [[nodiscard]] const run::LinkedCredit* linkedCredit(const run::RunState& run) const;
    /// The turnovers of `run`: with those that it is one with the union, else as closed, else as they stand.
    [[nodiscard]] run::TurnoverBand turnovers(const run::RunState& run) const;

    /// Where its logbook stands, for whoever brings entries of others into it; `takeOthers` is to be called then.
    [[nodiscard]] ledger::Journal& journal() const { return parts_.journal; }
    /// This tablet.
    [[nodiscard]] const Id& device() const { return device_; }
    [[nodiscard]] Stamp now() const { return parts_.clock.now(); }
    [[nodiscard]] RandomSource& random() const { return parts_.random; }
    [[nodiscard]] const std::string& practiceFolder() const { return parts_.practiceFolder; }

    /// Sends a command down the road. False if it was refused or could not be written; `trouble` then says why in
    /// words.
    bool submit(const run::Command& command, const run::Observed& observed = {});
    /// In the name of `person`, who did it and has handed the tablet on since.
    bool submitAs(const Id& person, const run::Command& command, const run::Observed& observed = {});

    /// Says something about the shown run.
    bool say(run::Said what, const run::Observed& observed = {});
    bool sayAs(const Id& person, run::Said what, const run::Observed& observed = {});

    /// Keeps `content` for the run `run` and returns the name of its file, which an entry may then point to; that of
    /// the file that is there already where the run has the same content. Nothing, with `trouble` set, if it cannot be
    /// kept.
    [[nodiscard]] std::optional<std::string> keepAttachment(const run::RunState& run, std::string_view content);
    /// The content of a file that was kept.
    [[nodiscard]] Result<std::string> attachment(const std::string& hash) const;
    /// Removes the file of an attachment that was withdrawn, unless another entry points to it. One that cannot be
    /// removed now goes at the next start.
    void forgetAttachment(const std::string& hash);

    /// Opens a run and shows it.
    bool openRun(run::Setup setup);

    /// Opens a job that is no run; its id, or nothing if it was refused or could not be written.
    [[nodiscard]] std::optional<Id> openJob(run::JobOpened what);
    bool sayOfJob(const Id& job, run::JobSaid what, const run::Observed& observed = {});
    [[nodiscard]] run::RunTime jobTime(const run::Job& job) const;

    /// Says in the name of who holds the tablet that `entries`, whose clocks ran ahead, count by their clocks. False,
    /// with `trouble` set, if it could not be written.
    bool settle(const std::vector<Id>& entries);
    /// Knows the runs that are over too from now on, where the opening left them for later; every command and second
    /// does it by itself. False, with a notice, if they cannot be read.
    bool takeEarlier();
    /// Folds the journal anew: entries of other devices came into it, or count in another order.
    void takeOthers();

    /// Lets time speak: call it every second.
    void tick();

    /// Notes that for `length` the tablet could remind nobody.
    void noteSlept(std::chrono::milliseconds length);

    [[nodiscard]] QString person() const;
    [[nodiscard]] QString nameOf(const Id& person) const;
    /// The name of a person as an entry tells of one: by id, or in entries of earlier versions by name.
    [[nodiscard]] QString personTold(const std::string& told) const;
    /// Who holds the tablet.
    [[nodiscard]] const Id& personId() const { return site_.people[static_cast<std::size_t>(person_)].id; }
    void setPerson(int index);
    /// Puts a person into the site file: one that is new, under another name, or out of service. No entry is made: a
    /// name stands in no journal. False, with `trouble` set, if nothing was stored; who holds the tablet stays.
    bool tellPerson(const site::PersonTold& person);
    [[nodiscard]] int personIndex() const { return person_; }
    /// What who holds the tablet wants.
    [[nodiscard]] const run::PersonRecord& wants() const;
    /// The units of it.
    [[nodiscard]] const units::Wanted& wanted() const { return parts_.words.wanted(); }
    /// Speaks that language from now on; the views are to be made anew. False if there are no such words.
    bool speak(const std::string& language);
    [[nodiscard]] const std::string& language() const { return language_; }

    /// Why the last command did not happen, or what is to be known beside; empty if there is nothing to tell.
    [[nodiscard]] QString trouble() const { return trouble_; }
    /// Whether `trouble` tells why nothing was logged.
    [[nodiscard]] bool isNothingLogged() const { return !trouble_.isEmpty() && isNothingLogged_; }
    void clearTrouble();

    /// Tells why nothing was logged.
    void setTrouble(const QString& sentence);
    /// Tells what is to be known although nothing that was said is lost by it, such as what happened to the drafts at
    /// the start. Where trouble stands, that is to be read first: it stays.
    void setNotice(const QString& sentence);

    /// Entries that are on this tablet only: all, until a hub acknowledged them.
    [[nodiscard]] int entriesHere() const { return entries_ - std::min(handed_, entries_); }
    [[nodiscard]] bool hasHub() const { return hasHub_; }
    /// How many entries the hub has acknowledged, and whether there is one.
    void setHanded(bool hasHub, int entries);

    [[nodiscard]] QString say(const Message& message) const;
    [[nodiscard]] QString label(const char* id) const { return say(Message{id, {}}); }
    [[nodiscard]] const words::Words& words() const { return parts_.words; }

Q_SIGNALS:
    void changed();
    void secondPassed();
    void shownChanged();
    void personChanged();
    /// A record was put or serviced; `before` is the site as it was.
    void siteChanged(const loopside::app::Site& before);
    void troubleChanged();

private:
    [[nodiscard]] std::optional<std::string> keptAlready(const run::RunState& run, std::string_view content) const;
    Tablet(Parts parts, const Id& device, ledger::Logbook logbook);

    void forgetStandings();
    void takeWishes();
    void tellClocks(const std::vector<ledger::Committed>& committed);
    void tell(const QString& sentence, bool isNothingLogged);
    void takePeople(const Site& told);

    Parts parts_;
    Id device_;
    ledger::Logbook logbook_;
    Site begun_; ///< As the file has it.
    Site site_;
    std::string language_;
    Id shown_;
    int person_ = 0;
    int entries_ = 0;
    QString trouble_;
    bool isNothingLogged_ = false;
    mutable std::map<Id, run::Standing> standings_;
    /// Of standings that are past, as long as nothing was said since.
    mutable std::map<Id, run::Standing> earlier_;
    struct Linked
    {
        std::vector<const run::RunState*> others = {};
        std::optional<run::LinkedCredit> credit = {};
        std::int64_t asOfMs = 0;
    };
    [[nodiscard]] Linked& linkedOf(const run::RunState& run) const;
    [[nodiscard]] std::optional<run::TurnoverBand> together(const run::RunState& run) const;

    mutable std::optional<std::vector<run::RunPair>> proposals_;
    mutable std::map<Id, Linked> linked_; ///< Points into the runs.
    bool hasHub_ = false;
    int handed_ = 0;
};

} // namespace loopside::app
