// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/commands.h"

#include "base/text.h"
#include "hub/certificate.h"
#include "hub/log.h"
#include "hub/postgres_sql.h"
#include "hub/server.h"
#include "hub/service.h"
#include "hub/site_page.h"
#include "hub/sqlite_sql.h"
#include "hub/upkeep.h"
#include "store/durable_file.h"
#include "store/key_file.h"
#include "store/system_clock.h"
#include "sync/enrolment_code.h"

#include <unistd.h>

#include <condition_variable>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <mutex>
#include <ostream>
#include <sstream>
#include <thread>

namespace loopside::hub {

namespace {

std::int64_t nowMs()
{
    return store::SystemClock().now().wallMs;
}

/// What a verb works on.
struct Opened
{
    std::unique_ptr<Sql> sql;
    SiteRecord site;
};

Result<Opened> open(const Settings& settings)
{
    auto sql = openDatabase(settings);
    if (!sql) {
        return fail(sql.error());
    }
    store::SystemRandom random;
    const auto site = siteIn(**sql, settings.site, nowMs(), random);
    return site ? Result<Opened>(Opened{*std::move(sql), *site}) : fail(site.error());
}

Done makeFolder(const Settings& settings)
{
    std::error_code fault;
    const bool isNew = std::filesystem::create_directories(settings.folder, fault);
    if (isNew && !fault) {
        std::filesystem::permissions(settings.folder, std::filesystem::perms::owner_all, fault);
    }
    return fault ? fail(Errc::Io, settings.folder + " cannot be made: " + fault.message()) : Done{};
}

Result<ledger::Hash> certificateOf(const Settings& settings)
{
    return makeFolder(settings).and_then([&] {
        return loadOrCreateCertificate({settings.certificateFile(), settings.certificateKeyFile()}, settings.names);
    });
}

std::string textOf(const Counted& counted)
{
    return std::to_string(counted.entries) + " entries in " + std::to_string(counted.chains) + " chains of "
        + std::to_string(counted.devices) + " tablets, " + std::to_string(counted.asides) + " kept aside, and "
        + std::to_string(counted.files) + " files";
}

std::string withAccounts(const Counted& counted)
{
    return textOf(counted) + ", with " + std::to_string(counted.accounts) + " accounts of people";
}

Result<std::string> contentOf(const std::string& path)
{
    std::ifstream file(path, std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    return file ? Result<std::string>(std::move(text).str()) : fail(Errc::Io, path + " cannot be read");
}

/// The page's files, with the face that the system has.
std::map<std::string, page::PageFile> pageFilesOfSystem()
{
    const std::string folder = "/usr/share/fonts/opentype/b612/";
    auto regular = contentOf(folder + "B612-Regular.otf");
    auto bold = contentOf(folder + "B612-Bold.otf");
    return regular && bold ? page::pageFilesWithFace(*std::move(regular), *std::move(bold)) : page::pageFiles();
}

/// Looks at all that the hub holds, at the start and then each hour, through a connection of its own: reading goes on
/// meanwhile. Ends when it is destroyed, at the next chain.
class HourlyLook
{
public:
    HourlyLook(const Settings& settings, SitePage& page)
        : settings_{&settings}, page_{&page}, thread_{[this] { run(); }}
    {
    }
    HourlyLook(const HourlyLook&) = delete;
    HourlyLook& operator=(const HourlyLook&) = delete;
    ~HourlyLook()
    {
        {
            const std::lock_guard lock(mutex_);
            isOver_ = true;
        }
        waiting_.notify_all();
        thread_.join();
    }

private:
    void run()
    {
        std::unique_lock lock(mutex_);
        do {
            lock.unlock();
            look();
            lock.lock();
        } while (!waiting_.wait_for(lock, std::chrono::hours(1), [this] { return isOver_; }));
    }

    void look()
    {
        const auto opened = open(*settings_);
        const auto found = opened ? verify(*opened->sql, opened->site) : fail(opened.error());
        if (!found) {
            return; // the page goes on showing the last look, with its time
        }
        page::Verified verified = {found->counted.entries, nowMs(), {}};
        for (const std::string& fault : found->faults) {
            verified.faults.push_back({0, fault});
        }
        page_->show(std::move(verified));
    }

    const Settings* settings_;
    SitePage* page_;
    std::mutex mutex_;
    std::condition_variable waiting_;
    bool isOver_ = false;
    std::thread thread_;
};

/// Holds back the signals that stop the program, so that a thread can wait for them.
sigset_t holdSignals()
{
    sigset_t signals;
    sigemptyset(&signals);
    sigaddset(&signals, SIGTERM);
    sigaddset(&signals, SIGINT);
    pthread_sigmask(SIG_BLOCK, &signals, nullptr);
    std::signal(SIGPIPE, SIG_IGN); // a tablet that goes away while it is answered
    return signals;
}

} // namespace

Result<Settings> loadSettings(const std::string& path)
{
    const auto content = path.empty() ? Result<std::string>(std::string()) : contentOf(path);
    if (!content) {
        return fail(content.error());
    }
    return settingsFrom(*content, path, [](const std::string& name) {
        const char* value = std::getenv(name.c_str());
        return value == nullptr ? std::nullopt : std::optional<std::string>(value);
    });
}

Result<std::unique_ptr<Sql>> openDatabase(const Settings& settings)
{
    if (!settings.database.empty()) {
        return PostgresSql::open(settings.database).transform([](auto sql) {
            return std::unique_ptr<Sql>(std::move(sql));
        });
    }
    return makeFolder(settings).and_then([&] { return SqliteSql::open(settings.file()); }).transform([](auto sql) {
        return std::unique_ptr<Sql>(std::move(sql));
    });
}

Result<site::Site> catalogueOf(const Settings& settings)
{
    if (settings.catalogue.empty()) {
        return site::Site();
    }
    return contentOf(settings.catalogue).and_then([&](const std::string& json) {
        return site::siteFrom(json).map_error(
            [&](const Error& error) { return Error{error.code, settings.catalogue + ": " + error.sentence}; });
    });
}

namespace {

/// A hub that nobody can speak to is of no use: the first code comes by itself.
Done offerFirstCode(const Settings& settings, const Opened& opened, std::ostream& out)
{
    const auto devices = DeviceRegister(*opened.sql, opened.site.site).all();
    if (!devices) {
        return fail(devices.error());
    }
    return devices->empty() ? enrol(settings, out) : Done{};
}

} // namespace

Done serve(const Settings& settings, std::ostream& out)
{
    const sigset_t signals = holdSignals();
    const auto fingerprint = certificateOf(settings);
    auto opened = fingerprint ? open(settings) : fail(fingerprint.error());
    auto key = opened ? store::loadOrCreateKey(settings.keyFile()) : fail(opened.error());
    if (!key) {
        return fail(key.error());
    }
    auto catalogue = catalogueOf(settings);
    const auto pageSql = catalogue ? openDatabase(settings) : fail(catalogue.error());
    if (!pageSql) {
        return fail(pageSql.error());
    }
    store::SystemClock clock;
    store::SystemRandom random;
    Log log;
    SitePage page(**pageSql, opened->site,
                  {.device = store::deviceOf(*key),
                   .key = [&] { return store::loadOrCreateKey(settings.keyFile()); },
                   .catalogue = *std::move(catalogue),
                   .onTrouble = [&](const Error& error) { log.say("page", error.sentence); },
                   .onTry = [&](const page::TryTold& tried) { log.tried(tried); },
                   .files = pageFilesOfSystem()},
                  clock, random);
    Service service(*opened->sql, opened->site, *std::move(key), clock);
    auto server = Server::open(
        settings, service, [&](const Served& served) { log.served(served); },
        [&](const PageRequest& request) { return std::optional(page.answer(request)); });
    if (!server) {
        return fail(server.error());
    }
    const HourlyLook looking(settings, page);
    out << "Site " << toText(opened->site.site) << "\nCertificate, SHA-256: " << fingerprintText(*fingerprint)
        << "\nListening at " << settings.listen << ", port " << (*server)->port() << '\n'
        << std::flush;
    if (const Done first = offerFirstCode(settings, *opened, out); !first) {
        return first;
    }
    log.say("started", "the hub answers at port " + std::to_string((*server)->port()));
    std::thread waiting([&] {
        int signal = 0;
        sigwait(&signals, &signal);
        (*server)->stop();
    });
    (*server)->run();
    // Where it ended by itself, the waiting thread is let go as if somebody had stopped it.
    ::kill(::getpid(), SIGTERM);
    waiting.join();
    log.say("stopped", "what was being answered was answered to the end");
    return {};
}

Done enrol(const Settings& settings, std::ostream& out)
{
    const auto fingerprint = certificateOf(settings);
    const auto opened = fingerprint ? open(settings) : fail(fingerprint.error());
    if (!opened) {
        return fail(opened.error());
    }
    store::SystemRandom random;
    const std::uint64_t bits = random.next();
    std::array<std::uint8_t, 5> bytes = {};
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        bytes[i] = static_cast<std::uint8_t>(bits >> (8 * i));
    }
    const std::string secret = sync::enrolmentSecretOf(bytes);
    const Done added = DeviceRegister(*opened->sql, opened->site.site).addCode(secret, nowMs());
    if (added) {
        out << "Type this on the tablet within 15 minutes; it lets one tablet in:\n\n    "
            << toText(sync::EnrolmentCode{secret, sync::enrolmentPinOf(*fingerprint)}) << "\n\n"
            << "Certificate, SHA-256: " << fingerprintText(*fingerprint) << '\n';
    }
    return added;
}

Done devices(const Settings& settings, std::ostream& out)
{
    const auto opened = open(settings);
    const auto all = opened ? DeviceRegister(*opened->sql, opened->site.site).all() : fail(opened.error());
    const auto deeds = all ? deedsOf(*opened->sql, opened->site.site) : fail(all.error());
    if (!deeds) {
        return fail(deeds.error());
    }
    for (const Device& device : *all) {
        out << toText(device.id) << "  enrolled " << utcText(device.enrolledAtMs) << "  "
            << (device.revokedAtMs ? "struck off " + utcText(*device.revokedAtMs) + "  " : std::string())
            << quotable(device.name) << '\n';
    }
    for (const std::string& deed : *deeds) {
        out << deed << '\n';
    }
    return {};
}

Done revoke(const Settings& settings, const std::string& device, std::ostream& out)
{
    const auto id = idFromText(device);
    const auto opened = id ? open(settings) : fail(id.error());
    const Done done = opened ? DeviceRegister(*opened->sql, opened->site.site).revoke(*id, nowMs())
                             : fail(opened.error());
    if (done) {
        out << "The tablet " << toText(*id) << " may say nothing more. What it handed over stays." << '\n';
    }
    return done;
}

Done backUp(const Settings& settings, const std::string& path, std::ostream& out)
{
    const auto opened = open(settings);
    const auto there = opened ? store::isThere(path) : fail(opened.error());
    if (!there || *there) {
        return there ? fail(Errc::Conflict, path + " is there already: nothing was written") : fail(there.error());
    }
    // Under another name first: under its own there is the whole backup or none.
    const std::string unfinished = path + ".new";
    const Done made = store::replacePrivateFile(unfinished, {});
    std::ofstream file(unfinished, std::ios::binary);
    const auto counted = made ? writeBackup(*opened->sql, opened->site, file) : fail(made.error());
    file.close();
    Done done = counted ? store::putInPlace(unfinished, path) : fail(counted.error());
    if (!done) {
        std::error_code none;
        std::filesystem::remove(unfinished, none);
        return done;
    }
    out << "Backed up: " << withAccounts(*counted) << ".\nKeep " << settings.keyFile() << ", "
        << settings.certificateFile() << " and " << settings.certificateKeyFile()
        << " as well, in a safe place: without them every tablet must be enrolled anew." << '\n';
    return {};
}

Done restore(const Settings& settings, const std::string& path, std::ostream& out)
{
    const auto text = contentOf(path);
    auto sql = text ? openDatabase(settings) : fail(text.error());
    if (!sql) {
        return fail(sql.error());
    }
    store::SystemRandom random;
    const auto counted = restoreBackup(**sql, *text, nowMs(), random);
    if (!counted) {
        return fail(counted.error());
    }
    out << "Restored: " << withAccounts(*counted)
        << ".\nTablets hand over what came after the backup by themselves. Accounts are as they were then." << '\n';
    return {};
}

Done verifyAll(const Settings& settings, std::ostream& out)
{
    const auto opened = open(settings);
    const auto verified = opened ? verify(*opened->sql, opened->site) : fail(opened.error());
    if (!verified) {
        return fail(verified.error());
    }
    for (const std::string& fault : verified->faults) {
        out << fault << '\n';
    }
    out << textOf(verified->counted) << " were looked at." << '\n';
    return verified->faults.empty()
        ? Done{}
        : fail(Errc::Corrupt, std::to_string(verified->faults.size()) + " faults were found in what the hub holds");
}

} // namespace loopside::hub
