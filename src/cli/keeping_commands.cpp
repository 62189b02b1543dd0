// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/commands.h"
#include "cli/files.h"
#include "ledger/json.h"
#include "ledger/line.h"
#include "ledger/logbook.h"
#include "ledger/verify.h"
#include "store/attachment_folder.h"
#include "store/backup.h"
#include "store/instance_lock.h"
#include "store/key_file.h"
#include "store/recovery.h"

#include <nlohmann/json.hpp>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <functional>
#include <istream>
#include <set>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;
using ledger::Entry;

std::int64_t wallMs()
{
    const auto now = std::chrono::system_clock::now().time_since_epoch();
    return std::chrono::duration_cast<std::chrono::milliseconds>(now).count();
}

Result<std::unique_ptr<store::SqliteJournal>> openJournal(const std::string& path)
{
    return mustBeThere(path).and_then([&] { return store::SqliteJournal::open(path); });
}

/// Reads lines of an export one after the other and says which one is at fault.
class ExportReader
{
public:
    ExportReader(std::istream& in, std::string name) : in_{in}, name_{std::move(name)} {}

    [[nodiscard]] Result<std::string> next()
    {
        ++number_;
        std::string line;
        char sign = 0;
        while (in_.get(sign) && sign != '\n') {
            line += sign;
            if (line.size() > ledger::JsonLimits{}.bytes) {
                return fail(fault("is longer than any entry"));
            }
        }
        if (line.empty() && in_.eof()) {
            return fail(fault("is not there: the file was cut short"));
        }
        return line;
    }

    [[nodiscard]] bool isAtEnd() { return in_.peek() == std::istream::traits_type::eof(); }

    [[nodiscard]] Error fault(const std::string& what) const
    {
        return {Errc::Malformed, name_ + ": line " + std::to_string(number_) + " " + what};
    }

private:
    std::istream& in_;
    std::string name_;
    std::size_t number_ = 0;
};

struct Imported
{
    std::vector<Entry> entries;
    std::vector<ledger::Loss> losses;
};

/// Everything in an export, each hash, link and signature checked.
Result<Imported> readExport(ExportReader& reader)
{
    const auto first = reader.next();
    const auto title = first ? ledger::titleFromLine(*first) : fail(first.error());
    if (!title) {
        return fail(first && title.error().code == Errc::Malformed
                        ? reader.fault("is not the beginning of an export: " + title.error().sentence)
                        : title.error());
    }
    Imported imported{{}, title->losses};
    ledger::Verifier verifier;
    verifier.forgive(title->losses);
    for (std::uint64_t i = 0; i < title->entries; ++i) {
        const auto line = reader.next();
        auto entry = line ? ledger::entryFromLine(*line) : fail(line.error());
        if (!entry) {
            return fail(line ? reader.fault("is no entry: " + entry.error().sentence) : line.error());
        }
        verifier.take({i + 1, *entry});
        if (!verifier.faults().empty()) {
            return fail(reader.fault("is not as it was written: " + verifier.faults().front().sentence));
        }
        imported.entries.push_back(*std::move(entry));
    }
    if (!reader.isAtEnd()) {
        static_cast<void>(reader.next());
        return fail(reader.fault("stands behind the last entry that the first line announces"));
    }
    return imported;
}

/// Folding needs a clock and randomness at hand, but uses neither.
class NoClock final : public Clock
{
public:
    Stamp now() override { return {}; }
};

/// The files of attachments that were withdrawn: they are carried nowhere.
Result<std::set<std::string>> withdrawnOf(ledger::Journal& journal)
{
    NoClock clock;
    SeededRandom random(0);
    const auto folded = ledger::Logbook::open(journal, clock, random);
    if (!folded) {
        return fail(folded.error());
    }
    return store::withdrawnIn(folded->state());
}

/// Brings the attachments of one folder into another; how many.
Result<std::size_t> carry(ledger::Journal& journal, const store::AttachmentFolder& from, store::AttachmentFolder to)
{
    return withdrawnOf(journal).and_then([&](const auto& withdrawn) { return to.takeFrom(from, withdrawn); });
}

std::string told(std::size_t attachments)
{
    return attachments == 0 ? std::string() : ", " + std::to_string(attachments) + " attachments";
}

} // namespace

Done exportJournal(const KeepOptions& options, std::ostream& out)
{
    const auto journal = openJournal(options.journal);
    const auto losses = journal ? store::lossesOf(**journal) : fail(journal.error());
    const auto last = journal ? (*journal)->last() : fail(journal.error());
    if (!losses || !last) {
        return fail(losses ? last.error() : losses.error());
    }
    std::ofstream file;
    if (!options.to.empty()) {
        file.open(options.to, std::ios::binary | std::ios::trunc);
        if (!file) {
            return fail(Errc::Io,
                        options.to + " cannot be written: see that its folder is there and may be written to");
        }
        std::error_code ignored;
        std::filesystem::permissions(options.to,
                                     std::filesystem::perms::owner_read | std::filesystem::perms::owner_write, ignored);
    }
    std::ostream& target = options.to.empty() ? out : file;
    target << lineOf(ledger::ExportTitle{*last, *losses}) << '\n';
    std::uint64_t left = *last; // an entry that came meanwhile is not announced
    const Done written = ledger::readAll(**journal, [&](const ledger::Stored& stored) -> Done {
        if (left > 0) {
            --left;
            target << lineOf(stored.entry) << '\n';
        }
        return {};
    });
    target.flush();
    if (written && !target) {
        return fail(Errc::Io, (options.to.empty() ? "the output" : options.to) + " could not be written to its end");
    }
    if (!written || options.to.empty()) {
        return written;
    }
    const auto carried = carry(**journal, store::AttachmentFolder::besideJournal(options.journal),
                               store::AttachmentFolder::besideJournal(options.to));
    return carried.transform([&](std::size_t attachments) {
        out << (options.json ? Json({{"entries", *last}, {"attachments", attachments}}).dump()
                             : std::to_string(*last) + " entries in " + options.to + told(attachments))
            << '\n';
    });
}

Done importJournal(const KeepOptions& options, std::ostream& out)
{
    std::ifstream file(options.from.front(), std::ios::binary);
    if (!file) {
        return fail(Errc::Io, options.from.front() + " cannot be opened");
    }
    ExportReader reader(file, options.from.front());
    const auto imported = readExport(reader);
    if (!imported) {
        return fail(imported.error());
    }
    const store::Restore restore{wallMs(), 0, "imported from " + options.from.front(), imported->losses};
    return store::SqliteJournal::make(options.journal, imported->entries, restore)
        .and_then([&] { return store::SqliteJournal::open(options.journal); })
        .and_then([&](const auto& journal) {
            return carry(*journal, store::AttachmentFolder::besideJournal(options.from.front()),
                         store::AttachmentFolder::besideJournal(options.journal));
        })
        .transform([&](std::size_t attachments) {
            out << (options.json ? Json({{"entries", imported->entries.size()}, {"attachments", attachments}}).dump()
                                 : std::to_string(imported->entries.size()) + " entries imported" + told(attachments))
                << '\n';
        });
}

Done backUpJournal(const KeepOptions& options, std::ostream& out)
{
    const auto journal = openJournal(options.journal);
    const auto made = journal ? store::backUp(**journal, options.to, wallMs()) : fail(journal.error());
    const auto carried = made ? carry(**journal, store::AttachmentFolder::besideJournal(options.journal),
                                      store::AttachmentFolder::inBackups(options.to))
                              : fail(made.error());
    if (!carried) {
        return fail(carried.error());
    }
    if (options.json) {
        out << Json({{"backup", *made ? Json((*made)->path) : Json()},
                     {"entries", *made ? Json((*made)->last) : Json()},
                     {"attachments", *carried}})
                   .dump()
            << '\n';
    } else {
        out << (*made ? (*made)->path + ": " + std::to_string((*made)->last) + " entries, checked"
                      : "the last backup has everything")
            << told(*carried) << '\n';
    }
    return {};
}

namespace {

/// The attachments that backups and other journals have and this one has not; how many.
Result<std::size_t> bringBack(const KeepOptions& options)
{
    const auto journal = openJournal(options.journal);
    if (!journal) {
        return fail(journal.error());
    }
    std::vector<store::AttachmentFolder> sources;
    if (!options.to.empty()) {
        sources.push_back(store::AttachmentFolder::inBackups(options.to));
    }
    for (const std::string& source : options.from) {
        sources.push_back(store::AttachmentFolder::besideJournal(source));
    }
    std::size_t all = 0;
    for (const store::AttachmentFolder& source : sources) {
        const auto carried = carry(**journal, source, store::AttachmentFolder::besideJournal(options.journal));
        if (!carried) {
            return carried;
        }
        all += *carried;
    }
    return all;
}

} // namespace

Done restoreJournal(const KeepOptions& options, std::ostream& out)
{
    const auto lock = store::InstanceLock::take(options.journal);
    const auto backups = options.to.empty() ? Result<std::vector<store::Backup>>(std::vector<store::Backup>())
                                            : store::backupsIn(options.to);
    if (!lock || !backups) {
        return fail(lock ? backups.error() : lock.error());
    }
    std::vector<std::string> sources = options.from;
    for (const std::string& source : sources) {
        if (const Done there = mustBeThere(source); !there) {
            return there;
        }
    }
    for (const store::Backup& backup : *backups) {
        sources.push_back(backup.path);
    }
    const auto recovered = store::recover(options.journal, sources, wallMs(), "restored by a person");
    const auto attachments = recovered ? bringBack(options) : fail(recovered.error());
    if (!attachments) {
        return fail(attachments.error());
    }
    if (options.json) {
        out << Json({{"entries", recovered->entries},
                     {"from_backups", recovered->fromBackups},
                     {"missing", recovered->missing()},
                     {"kept_as", recovered->keptAs.empty() ? Json() : Json(recovered->keptAs)},
                     {"attachments", *attachments}})
                   .dump()
            << '\n';
        return {};
    }
    out << recovered->entries << " entries, " << recovered->fromBackups << " of them only in backups; "
        << recovered->missing() << " are known to be missing\n";
    if (*attachments > 0) {
        out << *attachments << " attachments brought back\n";
    }
    if (!recovered->keptAs.empty()) {
        out << "the file before is kept as " << recovered->keptAs << '\n';
    }
    return {};
}

Done newKey(const std::string& path, bool json, std::ostream& out)
{
    return store::replaceKey(path).transform([&](const std::string& kept) {
        out << (json ? Json({{"kept_as", kept}}).dump()
                     : "a new key is made; the old one is kept as " + kept
                        + ". From the next start on the tablet writes as a new device; what the old key signed stays "
                          "checkable by the opening of its chain.")
            << '\n';
    });
}

} // namespace loopside::cli
