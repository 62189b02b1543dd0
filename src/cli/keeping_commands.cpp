// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/commands.h"
#include "cli/files.h"
#include "ledger/json.h"
#include "ledger/line.h"
#include "ledger/read_all.h"
#include "ledger/verify.h"
#include "store/attachment_folder.h"
#include "store/backup.h"
#include "store/instance_lock.h"
#include "store/keeping.h"
#include "store/key_file.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <istream>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;

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

Result<ledger::ExportTitle> readTitle(ExportReader& reader)
{
    const auto first = reader.next();
    auto title = first ? ledger::titleFromLine(*first) : fail(first.error());
    return first && !title && title.error().code == Errc::Malformed
        ? fail(reader.fault("is not the beginning of an export: " + title.error().sentence))
        : title;
}

/// Gives the entries behind `title` to `take`.
Done readEntries(ExportReader& reader, const ledger::ExportTitle& title, const store::PutEntry& take)
{
    for (std::uint64_t i = 0; i < title.entries; ++i) {
        const auto line = reader.next();
        auto entry = line ? ledger::entryFromLine(*line) : fail(line.error());
        if (!entry) {
            return fail(line ? reader.fault("is no entry: " + entry.error().sentence) : line.error());
        }
        if (Done taken = take({i + 1, *std::move(entry)}); !taken) {
            return taken;
        }
    }
    if (!reader.isAtEnd()) {
        static_cast<void>(reader.next());
        return fail(reader.fault("stands behind the last entry that the first line announces"));
    }
    return {};
}

/// The ends of chains that are not in the export `path`, through which `verifier` was led. Reads it once more, if at
/// all, instead of holding it.
Result<std::vector<ledger::Loss>> endsMissing(const ledger::Verifier& verifier, const std::string& path)
{
    Done read;
    const auto ends = verifier.endsMissing([&](const auto& take) {
        std::ifstream file(path, std::ios::binary);
        ExportReader reader(file, path);
        read = readTitle(reader).and_then(
            [&](const ledger::ExportTitle& title) { return readEntries(reader, title, take); });
        return read;
    });
    std::vector<ledger::Loss> losses;
    std::ranges::transform(ends, std::back_inserter(losses), &ledger::Verifier::EndMissing::loss);
    return read ? Result<std::vector<ledger::Loss>>(std::move(losses)) : fail(read.error());
}

/// Everything in the export `path` goes to `put`, each hash, link and signature checked; what is missing there.
Result<std::vector<ledger::Loss>> takeExport(const std::string& path, const store::PutEntry& put)
{
    std::ifstream file(path, std::ios::binary);
    if (!file) {
        return fail(Errc::Io, path + " cannot be opened");
    }
    ExportReader reader(file, path);
    auto title = readTitle(reader);
    if (!title) {
        return fail(title.error());
    }
    ledger::Verifier verifier;
    verifier.forgive(title->losses);
    const Done read = readEntries(reader, *title, [&](const ledger::Stored& stored) {
        verifier.take(stored);
        return verifier.faults().empty()
            ? put(stored)
            : fail(reader.fault("is not as it was written: " + verifier.faults().front().sentence));
    });
    const auto ends = read ? endsMissing(verifier, path) : fail(read.error());
    if (!ends) {
        return fail(ends.error());
    }
    std::vector<ledger::Loss>& losses = title->losses;
    std::ranges::copy_if(*ends, std::back_inserter(losses), [&](const ledger::Loss& loss) { // told for good from now on
        return std::ranges::find(losses, loss) == losses.end();
    });
    return std::move(losses);
}

/// For an answer in JSON: how many; null where they could not be carried.
Json numberOf(const Result<std::size_t>& carried)
{
    return carried ? Json(*carried) : Json();
}

std::string told(const Result<std::size_t>& carried)
{
    return carried.value_or(0) == 0 ? std::string() : ", " + std::to_string(*carried) + " attachments";
}

/// Ends a command whose entries are where they belong, and were told.
Done endedWith(const Result<std::size_t>& carried)
{
    return carried
        ? Done()
        : fail(carried.error().code,
               "that was done with the entries, but not with all their attachments: " + carried.error().sentence);
}

/// Writes the title and the entries that it announces; how many.
Result<std::uint64_t> writeExport(const store::SqliteJournal& journal, std::ostream& target, const std::string& name)
{
    const auto losses = store::lossesOf(journal);
    const auto last = journal.last();
    if (!losses || !last) {
        return fail(losses ? last.error() : losses.error());
    }
    target << lineOf(ledger::ExportTitle{*last, *losses}) << '\n';
    std::uint64_t left = *last; // an entry that came meanwhile is not announced
    const Done written = ledger::readAll(journal, [&](const ledger::Stored& stored) -> Done {
        if (left > 0) {
            --left;
            target << lineOf(stored.entry) << '\n';
        }
        return {};
    });
    target.flush();
    if (!written) {
        return fail(written.error());
    }
    if (!target) {
        return fail(Errc::Io, name + " could not be written to its end");
    }
    return *last;
}

} // namespace

Done exportJournal(const KeepOptions& options, std::ostream& out)
{
    const auto journal = openExisting(options.journal);
    if (!journal) {
        return fail(journal.error());
    }
    if (options.to.empty()) {
        return writeExport(**journal, out, "the output").transform([](std::uint64_t) {});
    }
    std::uint64_t entries = 0;
    const Done exported = writeWhole(options.to, [&](std::ostream& file) {
        return writeExport(**journal, file, options.to).transform([&](std::uint64_t written) { entries = written; });
    });
    if (!exported) {
        return exported;
    }
    const auto carried = store::carryBeside(**journal, store::Beside::file(options.journal),
                                            store::Beside::file(options.to));
    out << (options.json ? Json({{"entries", entries}, {"attachments", numberOf(carried)}}).dump()
                         : std::to_string(entries) + " entries in " + options.to + told(carried))
        << '\n';
    return endedWith(carried);
}

Done importJournal(const KeepOptions& options, std::ostream& out)
{
    const std::string& from = options.from.front();
    const auto lock = store::InstanceLock::take(options.journal);
    const auto give = [&](const store::PutEntry& put) {
        return takeExport(from, put).transform([&](std::vector<ledger::Loss> losses) {
            return store::Restore{wallMs(), 0, "imported from " + from, std::move(losses)};
        });
    };
    const Done made = lock ? store::makeImported(options.journal, give) : fail(lock.error());
    const auto journal = made ? store::SqliteJournal::open(options.journal) : fail(made.error());
    const auto entries = journal ? (*journal)->last() : fail(journal.error());
    if (!entries) {
        return fail(entries.error());
    }
    const auto carried = store::carryBeside(**journal, store::Beside::file(from), store::Beside::file(options.journal));
    out << (options.json ? Json({{"entries", *entries}, {"attachments", numberOf(carried)}}).dump()
                         : std::to_string(*entries) + " entries imported" + told(carried))
        << '\n';
    return endedWith(carried);
}

Done backUpJournal(const KeepOptions& options, std::ostream& out)
{
    const auto journal = openExisting(options.journal);
    const auto made = journal ? store::backUp(**journal, options.to, wallMs()) : fail(journal.error());
    if (!made) {
        return fail(made.error());
    }
    const auto carried = store::carryBeside(**journal, store::Beside::file(options.journal),
                                            store::Beside::inBackups(options.to));
    if (options.json) {
        out << Json({{"backup", *made ? Json((*made)->path) : Json()},
                     {"entries", *made ? Json((*made)->last) : Json()},
                     {"attachments", numberOf(carried)}})
                   .dump()
            << '\n';
    } else {
        out << (*made ? (*made)->path + ": " + std::to_string((*made)->last) + " entries, checked"
                      : "the last backup has everything")
            << told(carried) << '\n';
    }
    return endedWith(carried);
}

namespace {

/// What a restore takes from, where every journal that was named is there.
Result<store::RestoreSources> sourcesOf(const KeepOptions& options)
{
    for (const std::string& source : options.from) {
        if (const Done there = mustBeThere(source); !there) {
            return fail(there.error());
        }
    }
    return store::RestoreSources{options.from, options.to};
}

void tellRestored(const store::Recovered& recovered, const Result<std::size_t>& attachments, bool json,
                  std::ostream& out)
{
    if (json) {
        out << Json({{"entries", recovered.entries},
                     {"from_backups", recovered.fromBackups},
                     {"missing", recovered.missing()},
                     {"kept_as", recovered.keptAs.empty() ? Json() : Json(recovered.keptAs)},
                     {"attachments", numberOf(attachments)}})
                   .dump()
            << '\n';
        return;
    }
    out << recovered.entries << " entries, " << recovered.fromBackups << " of them only in backups; "
        << recovered.missing() << " are known to be missing\n";
    if (attachments.value_or(0) > 0) {
        out << *attachments << " attachments brought back\n";
    }
    if (!recovered.keptAs.empty()) {
        out << "the file before is kept as " << recovered.keptAs << '\n';
    }
}

} // namespace

Done restoreJournal(const KeepOptions& options, std::ostream& out)
{
    const auto lock = store::InstanceLock::take(options.journal);
    const auto sources = lock ? sourcesOf(options) : fail(lock.error());
    const auto restored = sources ? store::restoreByHand(options.journal, *sources, wallMs()) : fail(sources.error());
    if (!restored) {
        return fail(restored.error());
    }
    tellRestored(restored->recovered, restored->attachments, options.json, out);
    return endedWith(restored->attachments);
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
