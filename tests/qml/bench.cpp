// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "bench.h"

#include "app/demo.h"
#include "app/scene.h"
#include "base/require.h"
#include "base/text.h"
#include "ledger/body.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QImage>

#include <algorithm>

namespace loopside::test {

namespace {

template<class Use>
void eachEntry(const ledger::Journal& journal, Use use)
{
    const auto read = ledger::readAll(journal, [&](const ledger::Stored& stored) { return use(stored.entry), Done{}; });
    require(read.has_value(), "a test reads its journal");
}

QString runAsText(const run::RunState& run, run::RunTime now)
{
    const auto standing = run::standingOf(run, now);
    const auto& band = standing.credit.turnovers;
    QString text = QStringLiteral("%1 facts, %2, %3, turnovers %4 %5 %6")
                       .arg(run.facts.size())
                       .arg(QString::fromStdString(std::string(run::nameOf(run.phase))),
                            QString::fromStdString(std::string(run::nameOf(standing.mode))),
                            QString::fromStdString(fixed(band.low, 9)), QString::fromStdString(fixed(band.best, 9)),
                            QString::fromStdString(fixed(band.high, 9)));
    for (const run::Fact& fact : run.facts) {
        text += QLatin1Char('\n') + QString::fromStdString(ledger::bodyOf(fact.effective));
    }
    for (const run::Alert& alert : run.alerts) {
        text += QLatin1Char('\n')
            + QString::fromStdString(std::string(run::nameOf(alert.id)) + " " + std::string(run::nameOf(alert.state)));
    }
    return text;
}

void writeInto(const QDir& folder, const QString& name, const QString& text)
{
    QFile file(folder.filePath(name));
    require(QFileInfo(file).dir().mkpath(QStringLiteral(".")) && file.open(QIODevice::WriteOnly | QIODevice::Truncate)
                && file.write(text.toUtf8()) >= 0,
            "the file can be written");
}

} // namespace

Result<ledger::Position> BreakableJournal::append(std::span<const ledger::Entry> entries)
{
    isBroken = isBroken || appendsLeft == 0;
    appendsLeft -= appendsLeft > 0 ? 1 : 0;
    if (isBroken) {
        return fail(Errc::Io, "the disk is full", {"store-disk-full", {{"path", "journal"}}});
    }
    return journal_->append(entries);
}

Result<std::vector<ledger::Stored>> BreakableJournal::read(ledger::Position after, std::size_t limit) const
{
    return journal_->read(after, limit);
}

Result<std::optional<ledger::ChainHead>> BreakableJournal::head(const Id& device) const
{
    return journal_->head(device);
}

Bench::Bench(QObject* parent) : QObject{parent}
{
    begin();
}

void Bench::begin()
{
    beginWith(false);
}

void Bench::beginOnDisk()
{
    beginWith(true);
}

void Bench::beginWith(bool isOnDisk)
{
    close();
    journal_.reset();
    disk_ = nullptr;
    for (const QString& file : QDir(folder_.path()).entryList(QDir::Files)) {
        require(QFile::remove(folder_.filePath(file)), "a test begins without drafts");
    }
    for (const char* folder : {"attachments", "pictures", "backups", "import", "STICK"}) {
        require(QDir(folder_.filePath(QLatin1String(folder))).removeRecursively(), "a test begins without pictures");
    }
    clock_.moveTo(run::RunTime{0});
    isOnDisk_ = isOnDisk;
    openJournal();
    open();
}

std::string Bench::journalPath() const
{
    return folder_.filePath(QStringLiteral("journal.sqlite")).toStdString();
}

QString Bench::backupFolder() const
{
    return folder_.filePath(QStringLiteral("backups"));
}

QString Bench::recordFolder() const
{
    return folder_.filePath(QStringLiteral("records"));
}

void Bench::openJournal()
{
    if (!isOnDisk_) {
        journal_ = std::make_unique<BreakableJournal>(std::make_unique<ledger::MemoryJournal>());
        return;
    }
    auto opened = store::SqliteJournal::open(journalPath());
    require(opened.has_value(), "a test has a disk for its journal");
    disk_ = opened->get();
    journal_ = std::make_unique<BreakableJournal>(*std::move(opened));
}

/// In the order in which the program lets go; what is in memory stays.
void Bench::close()
{
    view_.reset();
    keeper_.reset();
    tablet_.reset();
    drafts_.reset();
    isRestoreAsked_ = false;
}

void Bench::spoilJournal()
{
    constexpr qint64 pageBytes = 4096;
    QFile file(QString::fromStdString(journalPath()));
    require(file.open(QIODevice::ReadWrite), "the journal can be spoilt");
    const qint64 page = file.size() / pageBytes / 2;
    require(page > 2 && file.seek(page * pageBytes) && file.write(QByteArray(pageBytes, '\x5a')) == pageBytes,
            "the journal has a page in the middle");
}

void Bench::blockBackups(bool isBlocked)
{
    QFile file(backupFolder());
    if (!isBlocked) {
        require(file.remove(), "there is a file to take away");
        return;
    }
    require(QDir(backupFolder()).removeRecursively() && file.open(QIODevice::WriteOnly), "backups can be blocked");
}

void Bench::restore()
{
    require(isRestoreAsked_ && disk_ != nullptr, "somebody asked for a restore");
    const words::Words words = tablet_->words(); // the tablet goes meanwhile
    close();
    disk_->leaveAsItIs();
    journal_.reset();
    const Message told = app::restoreRecord(words, journalPath(), backupFolder().toStdString(), clock_.now().wallMs);
    openJournal();
    open();
    tablet_->setNotice(tablet_->say(told));
}

void Bench::putPicture(const QString& name)
{
    const QString folder = folder_.filePath(QStringLiteral("pictures"));
    QImage picture(2000, 1200, QImage::Format_RGB32);
    for (int y = 0; y < picture.height(); ++y) {
        for (int x = 0; x < picture.width(); ++x) {
            picture.setPixel(x, y, qRgb(x % 251, y % 241, (x * y) % 239)); // no two lines alike, as in a photo
        }
    }
    require(QDir().mkpath(folder) && picture.save(folder + QLatin1Char('/') + name), "a test has pictures");
}

int Bench::attachmentFiles() const
{
    return static_cast<int>(attachments_->hashes().value_or(std::vector<std::string>()).size());
}

void Bench::restart()
{
    restartBeforeFrame();
    require(tablet_->takeEarlier(), "the runs that are over can be read");
}

void Bench::restartBeforeFrame()
{
    close();
    if (isOnDisk_) {
        journal_.reset();
        openJournal();
    }
    open();
}

void Bench::open()
{
    auto drafts = store::DraftStore::open((folder_.path() + QStringLiteral("/drafts.sqlite")).toStdString());
    require(drafts.has_value(), "a test has a disk for drafts");
    drafts_ = *std::move(drafts);
    auto words = words::Words::in("en");
    require(words.has_value(), "there are English words");
    const std::array<std::uint8_t, 32> seed = {1, 2, 3};
    Id device;
    device.bytes[0] = 9;
    attachments_ = std::make_unique<store::AttachmentFolder>(folder_.path().toStdString() + "/attachments");
    siteFile_ = std::make_unique<app::SiteFile>(folder_.filePath(QStringLiteral("site.json")).toStdString(),
                                                std::string(app::demoSite()));
    const auto site = siteFile_->read();
    require(site.has_value(), "the site is in order");
    site_ = *site;
    auto tablet = app::Tablet::open({*journal_, *drafts_, clock_, random_, site_, *std::move(words), "en",
                                     importFolder(), (folder_.path() + QStringLiteral("/practice")).toStdString(),
                                     attachments_.get(), siteFile_.get(), ledger::Reach::OpenFirst},
                                    device, ledger::DeviceKey::fromSeed(seed));
    require(tablet.has_value(), "the tablet opens");
    tablet_ = *std::move(tablet);
    view_ = std::make_unique<app::AppView>(*tablet_);
    const auto media = [stick = stick()] { return QDir(stick).exists() ? QStringList{stick} : QStringList(); };
    view_->file()->lookAt(media);
    view_->closeOut()->lookAt(media);
    view_->kit()->lookAt(media);
    view_->notes()->lookIn(folder_.filePath(QStringLiteral("pictures")));
    if (isOnDisk_) {
        openKeeper();
    }
    Q_EMIT restarted();
}

void Bench::openKeeper()
{
    keeper_ = std::make_unique<app::Keeper>(*tablet_, *disk_, journalPath(), backupFolder().toStdString(),
                                            recordFolder().toStdString());
    view_->keeping()->setKeeper(keeper_.get());
    view_->closeOut()->setRecords(&keeper_->records);
    view_->kit()->setRecords(&keeper_->records);
    view_->transfer()->setRecords(&keeper_->records);
    connect(view_->keeping(), &app::KeepingView::restoreWanted, this, [this] {
        isRestoreAsked_ = true;
        Q_EMIT restoreAsked();
    });
}

void Bench::leaveOff(int days)
{
    clock_.moveTo(clock_.time() + std::chrono::hours(24 * days));
    restart();
}

void Bench::pass(int seconds)
{
    for (int i = 0; i < seconds; ++i) {
        clock_.moveTo(clock_.time() + std::chrono::seconds(1));
        if (i % 30 == 29 || i + 1 == seconds) {
            tablet_->tick();
            view_->touched();
        }
    }
}

std::string Bench::importFolder() const
{
    return folder_.filePath(QStringLiteral("import")).toStdString();
}

QString Bench::stick() const
{
    return folder_.filePath(QStringLiteral("STICK"));
}

void Bench::writeFile(const QString& name, const QString& text)
{
    writeInto(QString::fromStdString(importFolder()), name, text);
}

void Bench::writeStick(const QString& name, const QString& text)
{
    writeInto(stick(), name, text);
}

void Bench::pullStick()
{
    require(QDir(stick()).removeRecursively(), "a stick can be pulled out");
}

QString Bench::siteText() const
{
    return QString::fromStdString(siteFile_->text().value());
}

void Bench::breakDisk(bool isBroken)
{
    journal_->isBroken = isBroken;
    journal_->appendsLeft = -1;
}

void Bench::breakDiskAfter(int appends)
{
    journal_->appendsLeft = appends;
}

void Bench::playScene(const QString& name)
{
    const auto scenes = app::readScenes(app::demoScenes());
    require(scenes.has_value(), "the demo scenes are in order");
    const auto scene = std::ranges::find(*scenes, name.toStdString(), &app::Scene::name);
    require(scene != scenes->end() && tablet_->openRun(scene->story.setup), "there is such a scene");
    view_->showRun(view_->chips()->rowCount() - 1);
    const run::RunTime start = clock_.time();
    for (const story::StoryEntry& entry : scene->story.entries) {
        if (view_->alert()->isUp()) {
            view_->alert()->because(0);
        }
        pass(static_cast<int>((start + entry.entered - clock_.time()) / std::chrono::seconds(1)));
        const auto ago = (entry.entered - entry.seen).count();
        for (const story::Step& step : entry.steps) {
            const bool isSaid = tablet_->say(std::get<run::Said>(step), {ago, ago > 0 ? "said" : ""});
            require(isSaid, "a scene says nothing that is refused");
        }
    }
}

int Bench::entries(const QString& kind) const
{
    int count = 0;
    eachEntry(*journal_, [&](const ledger::Entry& entry) { count += entry.kind == kind.toStdString() ? 1 : 0; });
    return count;
}

QString Bench::lastBody(const QString& kind) const
{
    QString body;
    eachEntry(*journal_, [&](const ledger::Entry& entry) {
        if (entry.kind == kind.toStdString()) {
            body = QString::fromStdString(entry.body);
        }
    });
    return body;
}

QString Bench::personOf(const QString& kind, int place) const
{
    QString person;
    eachEntry(*journal_, [&](const ledger::Entry& entry) {
        if (entry.kind == kind.toStdString() && place-- == 0) {
            person = QString::fromStdString(toText(entry.header.person));
        }
    });
    return person;
}

QString Bench::hashes() const
{
    QByteArray all;
    eachEntry(*journal_, [&](const ledger::Entry& entry) {
        all.append(reinterpret_cast<const char*>(entry.hash.data()), static_cast<qsizetype>(entry.hash.size()));
    });
    return QString::fromLatin1(all.toHex());
}

QString Bench::compareWithFold() const
{
    app::TourClock clock;
    SeededRandom random{1};
    const auto afresh = ledger::Logbook::open(*journal_, clock, random);
    if (!afresh) {
        return QString::fromStdString(afresh.error().sentence);
    }
    if (afresh->state().runs.size() != tablet_->state().runs.size()) {
        return QStringLiteral("the fold has another number of runs");
    }
    for (const auto& [id, live] : tablet_->state().runs) {
        const auto now = tablet_->runTime(live);
        const QString liveText = runAsText(live, now);
        const auto* folded = afresh->state().runOf(id);
        if (folded == nullptr || runAsText(*folded, now) != liveText) {
            return QStringLiteral("live:\n") + liveText;
        }
    }
    return {};
}

} // namespace loopside::test
