// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/app_view.h"
#include "app/demo.h"
#include "app/keeper.h"
#include "app/tour.h"
#include "ledger/memory_journal.h"

#include <QObject>
#include <QTemporaryDir>

#include <memory>

namespace loopside::test {

/// A journal whose disk can be made to refuse.
class BreakableJournal final : public ledger::Journal
{
public:
    explicit BreakableJournal(std::unique_ptr<ledger::Journal> journal) : journal_{std::move(journal)} {}

    [[nodiscard]] Result<ledger::Position> append(std::span<const ledger::Entry> entries) override;
    [[nodiscard]] Result<std::vector<ledger::Stored>> read(ledger::Position after, std::size_t limit) const override;
    [[nodiscard]] Result<std::optional<ledger::ChainHead>> head(const Id& device) const override;

    bool isBroken = false;
    int appendsLeft = -1; ///< Until it breaks; below 0: it does not by itself.

private:
    std::unique_ptr<ledger::Journal> journal_;
};

/// What a test in QML holds in its hands: the app over a clock and a disk of its own.
class Bench : public QObject
{
    Q_OBJECT
    Q_PROPERTY(loopside::app::AppView* app READ app NOTIFY restarted)
    /// A restore was asked for: take the window away, then `restore`.
    Q_PROPERTY(bool isRestoreAsked READ isRestoreAsked NOTIFY restoreAsked)

public:
    explicit Bench(QObject* parent = nullptr);

    [[nodiscard]] app::AppView* app() const { return view_.get(); }
    [[nodiscard]] app::Tablet& tablet() const { return *tablet_; }
    [[nodiscard]] bool isRestoreAsked() const { return isRestoreAsked_; }

    /// A new tablet with an empty journal.
    Q_INVOKABLE void begin();
    /// The same with a journal in a file, backups beside it, and somebody who keeps both.
    Q_INVOKABLE void beginOnDisk();
    /// A page in the middle of the journal's file is overwritten behind the program's back.
    Q_INVOKABLE void spoilJournal();
    /// A file stands where the folder of backups should be, or no more.
    Q_INVOKABLE void blockBackups(bool isBlocked);
    /// Does what the program does when a restore is asked for.
    Q_INVOKABLE void restore();
    /// A picture file in the folder where pictures are looked for.
    Q_INVOKABLE void putPicture(const QString& name);
    /// How many files of attachments there are.
    Q_INVOKABLE int attachmentFiles() const;
    /// The program is killed and started again on the same disk.
    Q_INVOKABLE void restart();
    /// The same up to the moment before the first frame: only open runs are known.
    void restartBeforeFrame();
    /// The program is ended, and started again days later.
    void leaveOff(int days);
    /// Time goes on by `seconds`, a tick each second.
    Q_INVOKABLE void pass(int seconds);
    Q_INVOKABLE void breakDisk(bool isBroken);
    /// Refuses behind so many appends more.
    void breakDiskAfter(int appends);
    /// Puts a file where the tablet looks for records.
    Q_INVOKABLE void writeFile(const QString& name, const QString& text);
    /// Puts a file on the stick STICK, which is in the tablet from then on.
    Q_INVOKABLE void writeStick(const QString& name, const QString& text);
    Q_INVOKABLE void pullStick();
    /// Opens the run of a demo scene and says all of it; what takes the screen before its last entry is acknowledged.
    Q_INVOKABLE void playScene(const QString& name);

    /// Where records of runs are written.
    [[nodiscard]] QString recordFolder() const;

    /// What the file of the site says.
    Q_INVOKABLE QString siteText() const;

    /// How many entries of `kind` the journal holds.
    Q_INVOKABLE int entries(const QString& kind) const;
    /// The body of the last entry of `kind`.
    Q_INVOKABLE QString lastBody(const QString& kind) const;
    /// Who said the entry of `kind` in that place, from 0; empty if there is none.
    Q_INVOKABLE QString personOf(const QString& kind, int place) const;
    /// Folds the journal afresh, as the command line does, and compares every run with the live one. Empty if they
    /// agree.
    Q_INVOKABLE QString compareWithFold() const;
    /// Every hash of the journal, in order: the same text, the same bytes.
    Q_INVOKABLE QString hashes() const;

Q_SIGNALS:
    void restarted();
    void restoreAsked();

private:
    void beginWith(bool isOnDisk);
    void close();
    void openJournal();
    void open();
    void openKeeper();
    [[nodiscard]] std::string journalPath() const;
    [[nodiscard]] QString backupFolder() const;
    [[nodiscard]] std::string importFolder() const;
    [[nodiscard]] QString stick() const;

    QTemporaryDir folder_;
    app::TourClock clock_;
    SeededRandom random_{7};
    app::Site site_;
    std::unique_ptr<app::SiteFile> siteFile_;
    std::unique_ptr<BreakableJournal> journal_;
    std::unique_ptr<store::AttachmentFolder> attachments_;
    std::unique_ptr<store::DraftStore> drafts_;
    store::SqliteJournal* disk_ = nullptr; ///< The one of `journal_`, if it stands in a file.
    bool isOnDisk_ = false;
    bool isRestoreAsked_ = false;
    std::unique_ptr<app::Tablet> tablet_;
    std::unique_ptr<app::Keeper> keeper_;
    std::unique_ptr<app::AppView> view_;
};

} // namespace loopside::test
