// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/awake.h"
#include "app/demo.h"
#include "app/gallery.h"
#include "app/keeper.h"
#include "app/net_carrier.h"
#include "app/placard.h"
#include "app/scan_filter.h"
#include "app/sleep_watch.h"
#include "app/speaker.h"
#include "app/start_check.h"
#include "app/system_clock.h"
#include "app/tour.h"
#include "app/window.h"
#include "app/wording.h"
#include "handover/handover.h"
#include "ledger/start_clock.h"
#include "paper/face.h"
#include "store/aside_file.h"
#include "store/attachment_folder.h"
#include "store/instance_lock.h"
#include "store/key_file.h"
#include "store/recovery.h"
#include "store/restore_reason.h"

#include <QCommandLineParser>
#include <QDir>
#include <QFile>
#include <QFontDatabase>
#include <QGuiApplication>
#include <QRandomGenerator>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QTimer>
#include <QtQml/qqmlextensionplugin.h>

#include <chrono>
#include <cstdio>
#include <functional>
#include <utility>

Q_IMPORT_QML_PLUGIN(Loopside_ModelPlugin)
Q_IMPORT_QML_PLUGIN(Loopside_UiPlugin)

namespace {

using namespace loopside;

constexpr int exitDone = 0;
constexpr int exitRefused = 1;
constexpr int madeAnew = 1000;     ///< The screens are to be made anew, in another language.
constexpr int restoreAsked = 1001; ///< The journal is to be let go of and put together anew.

int refuse(const std::string& sentence)
{
    std::fprintf(stderr, "loopside: %s\n", sentence.c_str());
    return exitRefused;
}

/// Everything that a tablet stands on, in one folder.
struct Ground
{
    std::unique_ptr<store::SqliteJournal> journal;
    std::unique_ptr<handover::JoinedJournal> joined; ///< With what is held of other devices.
    std::unique_ptr<store::DraftStore> drafts;
    std::optional<store::AttachmentFolder> attachments;
    std::optional<ledger::DeviceKey> key;
    std::vector<Message> notices; ///< What became of the journal and of the key at this start.
};

std::string journalIn(const QString& folder)
{
    return folder.toStdString() + "/journal.sqlite";
}

std::string backupsIn(const QString& folder)
{
    return folder.toStdString() + "/backups";
}

/// Where files of records are put for the tablet to find.
std::string importIn(const QString& folder)
{
    return folder.toStdString() + "/import";
}

std::string recordsIn(const QString& folder)
{
    return folder.toStdString() + "/records";
}

/// Where exercises keep their files.
std::string practiceIn(const QString& folder)
{
    return folder.toStdString() + "/practice";
}

/// Makes the folder and the one in it where files are put; takes the lock of its journal.
Result<store::InstanceLock> lockIn(const QString& folder)
{
    if (!QDir().mkpath(QString::fromStdString(importIn(folder)))) {
        return fail(Errc::Io, "the folder " + folder.toStdString() + " cannot be made");
    }
    return store::InstanceLock::take(journalIn(folder));
}

/// Only while the lock of the journal there is held.
Result<Ground> groundIn(const QString& folder, const std::string& backups, Clock& clock)
{
    const std::string base = folder.toStdString();
    Ground ground;
    auto opened = store::openOrRecover(journalIn(folder), backups, clock.now().wallMs);
    if (!opened) {
        return fail(opened.error());
    }
    auto drafts = store::DraftStore::open(base + "/drafts.sqlite");
    if (!drafts) {
        return fail(drafts.error());
    }
    auto key = store::loadOrCreateKey(base + "/device.key");
    if (!key) {
        return fail(key.error());
    }
    const auto replaced = store::replacedKeyNotice(*opened->journal, base + "/device.key", store::deviceOf(*key));
    if (!replaced) {
        return fail(replaced.error());
    }
    const auto looksWrong = ledger::clockNotice(*opened->journal, clock.now());
    if (!looksWrong) {
        return fail(looksWrong.error());
    }
    for (const Message& notice : {opened->notice(), *replaced, *looksWrong}) {
        if (!notice.id.empty()) {
            ground.notices.push_back(notice);
        }
    }
    ground.journal = std::move(opened->journal);
    ground.joined = std::make_unique<handover::JoinedJournal>(*ground.journal);
    ground.drafts = *std::move(drafts);
    ground.attachments = store::AttachmentFolder::besideJournal(journalIn(folder));
    ground.key = *std::move(key);
    return ground;
}

/// Where and as what a tablet works.
struct Place
{
    QString folder;
    app::SiteFile& siteFile;
    const app::Site& site; ///< As read from it.
    std::string language;
};

/// The tablet on `ground`, which outlives it and gives its key away.
Result<std::unique_ptr<app::Tablet>> tabletOn(Ground& ground, const Place& place, Clock& clock, RandomSource& random)
{
    auto words = words::Words::in(place.language);
    if (!words) {
        return fail(words.error());
    }
    const Id device = store::deviceOf(*ground.key); // before the key is given away
    return app::Tablet::open({*ground.joined, *ground.drafts, clock, random, place.site, *std::move(words),
                              place.language, importIn(place.folder), practiceIn(place.folder), &*ground.attachments,
                              &place.siteFile, ledger::Reach::OpenFirst},
                             device, *std::move(ground.key));
}

sync::Nonce newNonce()
{
    sync::Nonce nonce = {};
    for (std::uint8_t& byte : nonce) {
        byte = static_cast<std::uint8_t>(QRandomGenerator::system()->bounded(256));
    }
    return nonce;
}

/// What hands the journal on `ground` over by `carrier`, signed with `key`; all of it outlives it.
Result<std::unique_ptr<handover::Handover>> handoverOn(Ground& ground, const QString& folder, Clock& clock,
                                                       handover::Carrier& carrier, const ledger::DeviceKey& key)
{
    auto losses = store::lossesOf(*ground.journal);
    if (!losses) {
        return fail(losses.error());
    }
    const std::string path = journalIn(folder);
    return handover::Handover::open(
        {path, *ground.journal, *ground.joined, *std::move(losses), folder.toStdString() + "/site.hub",
         store::deviceOf(key), key, "tablet " + toText(store::deviceOf(key)).substr(0, 4), clock, carrier, newNonce,
         [path](const ledger::Entry& entry) { return store::AsideFile(path).keep(entry); },
         [folder = *ground.attachments](const std::string& name) { return folder.file(name); }});
}

/// What became of journal, key, drafts and `handover` at this start, a line each; empty if all is well.
QString toldAtStart(const Ground& ground, const Done& handover, const app::Tablet& tablet)
{
    QStringList told;
    for (const Message& notice : ground.notices) {
        told.append(tablet.say(store::withReasonTold(tablet.words(), notice)));
    }
    if (!ground.drafts->notice().empty()) {
        told.append(QString::fromStdString(ground.drafts->notice()));
    }
    if (!handover) {
        told.append(tablet.say({"handover.refused", {{"why", handover.error().sentence}}}));
    }
    return told.join(QLatin1Char('\n'));
}

struct Options
{
    QString data;
    QString site;
    QString gallery;
    QString only;
    QString language;
    bool isLanguageAsked = false;
    bool selfTest = false;
    bool restoreTest = false;
    QString nmea = {};
};

Options optionsFrom(const QGuiApplication& program)
{
    QCommandLineParser parser;
    parser.setApplicationDescription(QStringLiteral("The tablet's logbook for portable oil filtration."));
    parser.addHelpOption();
    parser.addVersionOption();
    const QCommandLineOption data(QStringLiteral("data"), QStringLiteral("Where the journal is kept."),
                                  QStringLiteral("folder"),
                                  QStandardPaths::writableLocation(QStandardPaths::AppDataLocation));
    const QCommandLineOption site(
        QStringLiteral("site"),
        QStringLiteral("A site file; without it the site.json beside the journal, or the demo site."),
        QStringLiteral("file"));
    const QCommandLineOption gallery(
        QStringLiteral("gallery"),
        QStringLiteral("Play the demo shift and keep its record and a picture of each screen, in each theme, "
                       "orientation and language, with an index page."),
        QStringLiteral("folder"));
    const QCommandLineOption only(QStringLiteral("only"),
                                  QStringLiteral("With --gallery: only screens whose name contains this."),
                                  QStringLiteral("text"));
    const QCommandLineOption language(QStringLiteral("language"),
                                      QStringLiteral("en, es or de; with --gallery, without it all."),
                                      QStringLiteral("language"), QStringLiteral("en"));
    const QCommandLineOption selfTest(QStringLiteral("self-test"),
                                      QStringLiteral("Load every screen with the demo shift; fail on any warning."));
    const QCommandLineOption restoreTest(
        QStringLiteral("restore-test"),
        QStringLiteral(
            "Put a record of its own together anew as from the page \"Record kept\"; fail if that is not told."));
    const QCommandLineOption nmea(
        QStringLiteral("nmea"),
        QStringLiteral("Positions from NMEA 0183 sentences and not from the system: a file, which is replayed, "
                       "socket://HOST:PORT or serial:DEVICE."),
        QStringLiteral("from"));
    parser.addOptions({data, site, gallery, only, language, selfTest, restoreTest, nmea});
    parser.process(program);
    return {parser.value(data),     parser.value(site),        parser.value(gallery),
            parser.value(only),     parser.value(language),    parser.isSet(language),
            parser.isSet(selfTest), parser.isSet(restoreTest), parser.value(nmea)};
}

/// The file of the site: that of `path`, or without one that beside the journal in `folder`, which begins as the demo
/// site.
app::SiteFile siteFileOf(const QString& path, const QString& folder)
{
    return path.isEmpty() ? app::SiteFile(folder.toStdString() + "/site.json", std::string(app::demoSite()))
                          : app::SiteFile(path.toStdString());
}

/// What looks at the screens of a tour.
using MakeEye = std::function<std::unique_ptr<app::Eye>(app::AppView&, const app::Window&)>;

/// Plays the demo shift at the site of `siteText` with its record in `folder`, without a display or with one. The eye
/// lives until it is over.
int tour(const QString& folder, const std::string& siteText, const std::string& language, const MakeEye& makeEye)
{
    for (const char* old : {"journal.sqlite", "journal.sqlite-wal", "journal.sqlite-shm", "journal.sqlite.end",
                            "drafts.sqlite", "drafts.sqlite-wal", "drafts.sqlite-shm", "device.key", "site.json",
                            "import/STICK/elements.csv", "import/tanks.csv"}) {
        QFile::remove(folder + QLatin1Char('/') + QLatin1String(old)); // of the last tour, nobody's record
    }
    QDir(folder + QStringLiteral("/journal.sqlite.attachments")).removeRecursively();
    app::TourClock clock;
    const auto lock = lockIn(folder);
    auto ground = lock ? groundIn(folder, {}, clock) : fail(lock.error());
    if (!ground) {
        return refuse(ground.error().sentence);
    }
    const auto story = story::parseStory(app::demoShift());
    if (!story) {
        return refuse(story.error().sentence);
    }
    app::SiteFile siteFile(folder.toStdString() + "/site.json", siteText);
    const auto site = siteFile.read();
    if (!site) {
        return refuse(site.error().sentence);
    }
    SeededRandom random(1);
    auto tablet = tabletOn(*ground, {folder, siteFile, *site, language}, clock, random);
    if (!tablet) {
        return refuse(tablet.error().sentence);
    }
    app::AppView view(**tablet);
    app::Window window(view);
    if (window.window() == nullptr) {
        return refuse("the screens could not be loaded");
    }
    const auto eye = makeEye(view, window);
    app::Tour played({**tablet, view, window, clock, *eye}, *story);
    return played.play() ? exitDone : exitRefused;
}

/// Every screen, loaded and laid out; nothing is kept.
int selfTest(const std::string& siteText, const std::string& language)
{
    const QTemporaryDir folder; // gone with the test
    return tour(folder.path(), siteText, language,
                [](app::AppView&, const app::Window& window) { return std::make_unique<app::Glance>(window); });
}

int gallery(const Options& options, const std::string& siteText)
{
    QStringList languages;
    for (const std::string_view language : words::languages()) {
        languages.append(app::toQt(language));
    }
    if (options.isLanguageAsked) {
        languages = {options.language};
    }
    QStringList scenes;
    for (const QString& language : languages) {
        const QString folder = options.gallery + QLatin1Char('/') + language;
        scenes.clear(); // of each language the same
        const int exit = tour(folder + QStringLiteral("/record"), siteText, language.toStdString(),
                              [&](app::AppView& view, const app::Window& window) {
                                  return std::make_unique<app::Camera>(view, window, app::Film{folder, options.only},
                                                                       scenes);
                              });
        if (exit != exitDone) {
            return exit;
        }
    }
    return app::writeGalleryIndex(options.gallery, languages, scenes) ? exitDone
                                                                      : refuse("the index cannot be written");
}

/// Works at a set of screens in the place of a person, from its beginning on.
using Hand = std::function<void(app::AppView&)>;

/// What goes from one set of screens, or one opening of the journal, to the next.
struct Kept
{
    std::optional<app::AppView::Page> page = {}; ///< That somebody was on.
    QString meanwhile = {};                      ///< What to say while the journal is put together anew.
    std::optional<words::Words> words = {};      ///< In which to say what became of it.
    Hand hand = {};                              ///< Empty: a person works at them.
    std::function<void()> drawn = {};            ///< Called behind the first frame of each set of screens.
    QString nmea = {};                           ///< Where positions come from; empty: from the system.
    std::unique_ptr<position::FixSource> fixes = {};
};

/// What tells where the tablet is; made behind the first frame, which need not wait for the system's service.
position::FixSource* fixesOf(Kept& kept)
{
    if (!kept.fixes) {
        kept.fixes = std::make_unique<position::FixSource>(kept.nmea);
    }
    return kept.fixes.get();
}

/// Shows the screens, anew where another language is wished, until the program is to end or the journal to be put
/// together anew; on the page of `kept`, which notes the one that somebody was on last.
int showScreens(app::Tablet& tablet, app::Keeper& keeper, handover::Handover* handover, app::Awake& awake, Kept& kept)
{
    int exit = madeAnew;
    while (exit == madeAnew) {
        app::AppView view(tablet);
        view.keeping()->setKeeper(&keeper);
        view.closeOut()->setRecords(&keeper.records);
        view.kit()->setRecords(&keeper.records);
        view.transfer()->setRecords(&keeper.records);
        view.handover()->setHandover(handover);
        view.go(kept.page.value_or(view.page()));
        app::Window window(view);
        if (window.window() == nullptr) {
            return refuse("the screens could not be loaded");
        }
        QObject::connect(
            &view, &app::AppView::languageChanged, &view, [] { QGuiApplication::exit(madeAnew); },
            Qt::QueuedConnection);
        QObject::connect(
            view.keeping(), &app::KeepingView::restoreWanted, &view, [] { QGuiApplication::exit(restoreAsked); },
            Qt::QueuedConnection);
        QObject::connect(window.window(), &QQuickWindow::frameSwapped, &view, kept.drawn,
                         static_cast<Qt::ConnectionType>(Qt::QueuedConnection | Qt::SingleShotConnection));
        QObject::connect(
            window.window(), &QQuickWindow::frameSwapped, &view, [&] { view.finder()->setSource(fixesOf(kept)); },
            static_cast<Qt::ConnectionType>(Qt::QueuedConnection | Qt::SingleShotConnection));
        app::ScanFilter tags;
        window.window()->installEventFilter(&tags);
        QObject::connect(&tags, &app::ScanFilter::scanned, &view, &app::AppView::takeTag);
        const auto light = [&] { awake.setTheme(view.theme()); };
        QObject::connect(&view, &app::AppView::themeChanged, &awake, light);
        light();
        QObject::connect(view.practice(), &app::PracticeView::exerciseChanged, &awake,
                         [&] { awake.setPractising(view.practice()->exercise() != nullptr); });
        if (kept.hand) {
            kept.hand(view);
        }
        exit = QGuiApplication::exec();
        awake.setPractising(false); // an exercise ends with the screens
        kept.page = view.page();
    }
    return exit;
}

/// Where a tablet is to work, as it was told.
struct Where
{
    QString folder;
    QString site; ///< The path of its file; empty: not told.
    std::string language;
};

/// What the first frame need not wait for.
void behindFirstFrame(app::Tablet& tablet, Ground& ground, const Place& place, app::Keeper& keeper,
                      app::StartCheck& check)
{
    if (tablet.takeEarlier()) {
        // What a restore left only in the backups comes back; what was withdrawn goes. A disk that says no tells it
        // when a picture is looked at.
        static_cast<void>(ground.attachments->takeFrom(store::AttachmentFolder::inBackups(backupsIn(place.folder)),
                                                       store::withdrawnIn(tablet.state())));
    }
    keeper.backups.begin();
    check.begin(journalIn(place.folder));
}

/// The tablet at work on its journal, from its opening to its closing, with `told` to be said first, if anything.
int work(const Where& where, const Message& told, Clock& clock, Kept& kept)
{
    app::SiteFile siteFile = siteFileOf(where.site, where.folder);
    const auto site = siteFile.read(); // anew each time: people may have been told otherwise since
    if (!site) {
        return refuse(site.error().sentence);
    }
    const Place place{where.folder, siteFile, *site, where.language};
    auto ground = groundIn(place.folder, backupsIn(place.folder), clock);
    if (!ground) {
        return refuse(ground.error().sentence);
    }
    if (!told.id.empty()) {
        ground->notices.insert(ground->notices.begin(), told);
    }
    app::SystemRandom random;
    app::NetCarrier carrier;
    const auto key = store::loadOrCreateKey(place.folder.toStdString() + "/device.key");
    if (!key) {
        return refuse(key.error().sentence);
    }
    const auto handover = handoverOn(*ground, place.folder, clock, carrier, *key); // before anything is folded
    const auto tablet = tabletOn(*ground, place, clock, random);
    if (!tablet) {
        return refuse(tablet.error().sentence);
    }
    (*tablet)->setNotice(toldAtStart(*ground, handover ? Done() : fail(handover.error()), **tablet));
    if (handover) {
        (*handover)->onOthersCame = [&] { (*tablet)->takeOthers(); };
    }
    app::Keeper keeper(**tablet, *ground->journal, journalIn(place.folder), backupsIn(place.folder),
                       recordsIn(place.folder));
    app::StartCheck check(**tablet, *ground->journal);
    bool isDrawn = false;
    kept.drawn = [&] {
        if (!std::exchange(isDrawn, true)) {
            behindFirstFrame(**tablet, *ground, place, keeper, check);
        }
    };
    app::Speaker speaker;
    const app::AlertSound sound(**tablet, speaker);
    app::SystemDisplay display;
    app::Awake awake(**tablet, display);
    const app::SleepWatch sleep(**tablet);
    const int exit = showScreens(**tablet, keeper, handover ? handover->get() : nullptr, awake, kept);
    kept.meanwhile = (*tablet)->label("app.keeping.restoring");
    kept.words = (*tablet)->words();
    ground->journal->leaveAsItIs(exit == restoreAsked); // if it is damaged, its log may have what its file has not
    return exit;
}

/// On the floor: at work, and as often as somebody asks for it the journal is put together anew in between. Nobody else
/// gets at it meanwhile.
int floor(const Options& options, const Hand& hand = {})
{
    const auto lock = lockIn(options.data);
    if (!lock) {
        return refuse(lock.error().sentence);
    }
    app::SystemClock clock;
    const Where where{options.data, options.site, options.language.toStdString()};
    Kept kept;
    kept.nmea = options.nmea;
    kept.hand = hand;
    int exit = work(where, {}, clock, kept);
    while (exit == restoreAsked) {
        const Message told = app::behindPlacard(kept.meanwhile, [&] {
            return app::restoreRecord(*kept.words, journalIn(options.data), backupsIn(options.data),
                                      clock.now().wallMs);
        });
        exit = work(where, told, clock, kept);
    }
    return exit;
}

/// Asks for a restore as soon as no backup is under way.
void askForRestore(app::AppView& view)
{
    view.showKeeping();
    auto* const patience = new QTimer(&view);
    QObject::connect(patience, &QTimer::timeout, &view, [&view, patience] {
        if (!view.keeping()->isBusy()) {
            patience->stop();
            view.keeping()->askRestore();
            view.keeping()->turnRead();
            view.keeping()->restore();
        }
    });
    patience->start(std::chrono::milliseconds(50));
}

/// The way of a restore by a key through all of the program: from the page of the record to the placard and back to
/// that page, with what became of it told there and in the journal.
int restoreTest(Options options)
{
    const QTemporaryDir folder; // gone with the test
    options.data = folder.path();
    int sets = 0;
    QString told;
    bool isOnPage = false;
    const int exit = floor(options, [&](app::AppView& view) {
        if (++sets == 1) {
            askForRestore(view);
            return;
        }
        told = view.trouble();
        isOnPage = view.page() == app::AppView::Page::Keeping;
        QMetaObject::invokeMethod(&view, [] { QGuiApplication::exit(exitDone); }, Qt::QueuedConnection);
    });
    const auto journal = store::SqliteJournal::open(journalIn(options.data));
    const auto restores = journal ? (*journal)->restores() : fail(journal.error());
    const auto words = words::Words::in(options.language.toStdString());
    if (!restores || !words) {
        return refuse(restores ? words.error().sentence : restores.error().sentence);
    }
    const std::string all = words->say(
        {"record-restored",
         {{"entries", "1"}, {"backups", "0"}, {"missing", "0"}, {"path", journalIn(options.data) + ".damaged.1"}}});
    const bool isTold = told.contains(QString::fromStdString(all));
    const bool isFine = exit == exitDone && sets == 2 && isOnPage && isTold && restores->size() == 1;
    return isFine ? exitDone
                  : refuse("the restore went otherwise: " + std::to_string(sets) + " sets of screens, "
                           + std::to_string(restores->size()) + " restores; told: " + told.toStdString());
}

} // namespace

int main(int argc, char** argv)
{
    paper::settleFace();
    QGuiApplication program(argc, argv);
    QGuiApplication::setApplicationName(QStringLiteral("loopside"));
    QGuiApplication::setApplicationVersion(QStringLiteral(LOOPSIDE_VERSION));
    QGuiApplication::setDesktopFileName(QStringLiteral("loopside")); // by which a desktop finds name and icon
    const Options options = optionsFrom(program);
    if (options.restoreTest) {
        return restoreTest(options);
    }
    if (!options.selfTest && options.gallery.isEmpty()) {
        return floor(options);
    }
    const auto siteText = options.site.isEmpty() ? Result<std::string>(app::demoSite())
                                                 : app::SiteFile(options.site.toStdString()).text();
    if (!siteText) {
        return refuse(siteText.error().sentence);
    }
    return options.selfTest ? selfTest(*siteText, options.language.toStdString()) : gallery(options, *siteText);
}
