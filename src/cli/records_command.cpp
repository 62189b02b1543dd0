// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/files.h"
#include "ledger/logbook.h"
#include "site/columns.h"
#include "site/preview.h"
#include "site/results_file.h"
#include "site/value_table.h"
#include "store/instance_lock.h"
#include "store/key_file.h"
#include "store/sqlite_journal.h"
#include "store/system_clock.h"
#include "words/field_told.h"
#include "words/words.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <memory>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;
using site::PreviewRow;
using site::RowFate;

/// The tablet's journal, opened for what is to be written.
struct Ground
{
    std::optional<store::InstanceLock> lock;
    std::unique_ptr<store::SqliteJournal> journal;
    store::SystemClock clock;
    store::SystemRandom random;
    std::optional<ledger::Logbook> logbook;
};

Done openGround(const RecordsOptions& options, Ground& ground)
{
    const std::string path = options.data + "/journal.sqlite";
    if (const Done there = mustBeThere(path); !there) {
        return there;
    }
    if (options.previewOnly) {
        auto seen = openExisting(path);
        if (!seen) {
            return fail(seen.error());
        }
        ground.journal = *std::move(seen);
    } else {
        auto held = openToWrite(path, options.language);
        if (!held) {
            return fail(held.error());
        }
        ground.lock = std::move(held->lock);
        ground.journal = std::move(held->journal);
    }
    auto logbook = ledger::Logbook::open(*ground.journal, ground.clock, ground.random, ledger::Reach::AtHand);
    if (!logbook) {
        return fail(logbook.error());
    }
    ground.logbook.emplace(*std::move(logbook));
    return {};
}

/// Takes the good rows: of records all or none, of results one by one. How many were taken before the first that could
/// not be goes to `taken`.
Done take(const site::Preview& preview, const RecordsOptions& options, const Id& person, Ground& ground, int& taken)
{
    const std::vector<run::Command> commands = preview.commands();
    if (commands.empty()) {
        return {};
    }
    auto key = store::loadOrCreateKey(options.data + "/device.key");
    if (!key) {
        return fail(key.error());
    }
    const Id device = store::deviceOf(*key);
    if (const Done enrolled = ground.logbook->enrol(device, *std::move(key)); !enrolled) {
        return enrolled;
    }
    for (const run::Command& command : commands) {
        if (const auto done = ground.logbook->submit(command, {device, person}); !done) {
            return fail(done.error());
        }
        taken += std::holds_alternative<run::Say>(command) ? 1 : preview.takes();
    }
    return {};
}

/// What the file would do, by its kind.
Result<site::Preview> previewFor(const RecordsOptions& options, std::string text, const site::Site& site,
                                 const run::State& state)
{
    const std::string file = std::filesystem::path(options.file).filename().string();
    if (options.kind == site::resultsKind) {
        return site::resultsPreviewOf(file, std::move(text), state);
    }
    const auto kind = site::recordKindOf(options.kind);
    return kind ? site::previewOf(file, std::move(text), *kind, withRecords(site, state.records), state.stock)
                : fail(kind.error());
}

std::string changesText(const words::Words& words, const PreviewRow& row)
{
    std::string text;
    for (const site::Change& change : row.changes) {
        text += (text.empty() ? ": " : "; ")
            + (row.fate == RowFate::New ? site::valueText(words, change) : site::changeText(words, change));
    }
    return text;
}

void tell(const site::Preview& preview, const words::Words& words, std::ostream& out)
{
    for (const PreviewRow& row : preview.rows) {
        const std::string begin = words.say({"file.row", {{"line", std::to_string(row.line)}}}) + "  "
            + words.say("file.fate." + std::string(nameOf(row.fate)));
        if (row.faults.empty()) {
            out << begin << "  " << quotable(row.name) << changesText(words, row) << "\n";
        }
        for (const Message& odd : row.odd) {
            out << begin << "  " << quotable(row.name) << ": " << words.say(odd) << "\n";
        }
        for (const site::RowFault& fault : row.faults) {
            out << begin << "  " << quotable(row.name) << (row.name.empty() ? "" : ", ")
                << (fault.column.empty() ? "" : words.say({"file.column", {{"column", fault.column}}}) + ": ")
                << (fault.value.empty() ? "" : "\"" + quotable(fault.value) + "\" ") << words.say(fault.what) << ". "
                << words.say(fault.todo) << "\n";
        }
    }
    std::string columns;
    for (const std::string& column : preview.passedOver) {
        columns += (columns.empty() ? "" : ", ") + column;
    }
    if (!columns.empty()) {
        out << words.say({"file.passed-over", {{"columns", columns}}}) << "\n";
    }
    const auto number = [&](RowFate fate) { return std::to_string(preview.count(fate)); };
    out << words.say({"file.summary",
                      {{"new", number(RowFate::New)},
                       {"changed", number(RowFate::Changed)},
                       {"same", number(RowFate::Same)},
                       {"unreadable", number(RowFate::Unreadable)}}})
        << "\n";
}

Json rowJson(const PreviewRow& row, const words::Words& words)
{
    Json changes = Json::array();
    for (const site::Change& change : row.changes) {
        changes.push_back({{"what", words::fieldName(words, change.place)},
                           {"was", change.was.empty() ? Json() : Json(change.was)},
                           {"becomes", change.becomes.empty() ? Json() : Json(change.becomes)}});
    }
    Json faults = Json::array();
    for (const site::RowFault& fault : row.faults) {
        faults.push_back({{"column", fault.column.empty() ? Json() : Json(fault.column)},
                          {"value", fault.value},
                          {"fault", words.say(fault.what)},
                          {"do", words.say(fault.todo)}});
    }
    Json odd = Json::array();
    for (const Message& message : row.odd) {
        odd.push_back(words.say(message));
    }
    return {{"line", row.line},   {"name", row.name}, {"fate", nameOf(row.fate)},
            {"changes", changes}, {"faults", faults}, {"odd", odd}};
}

Json previewJson(const site::Preview& preview, const words::Words& words)
{
    Json rows = Json::array();
    for (const PreviewRow& row : preview.rows) {
        rows.push_back(rowJson(row, words));
    }
    return {{"rows", rows},
            {"new", preview.count(RowFate::New)},
            {"changed", preview.count(RowFate::Changed)},
            {"same", preview.count(RowFate::Same)},
            {"unreadable", preview.count(RowFate::Unreadable)},
            {"passed_over", preview.passedOver}};
}

std::string takenText(const words::Words& words, const RecordsOptions& options, int taken)
{
    return taken == 0 ? words.say("file.nothing-new")
                      : words.say({"file.taken", {{"records", std::to_string(taken)}, {"person", options.person}}});
}

void show(const site::Preview& preview, const RecordsOptions& options, const words::Words& words, int taken,
          std::ostream& out)
{
    if (options.json) {
        Json json = previewJson(preview, words);
        json["taken"] = taken;
        out << json.dump(-1, ' ', false, Json::error_handler_t::replace) << "\n";
        return;
    }
    tell(preview, words, out);
    if (!options.previewOnly) {
        out << takenText(words, options, taken) << "\n";
    }
}

} // namespace

Done takeRecords(const RecordsOptions& options, std::ostream& out)
{
    const auto words = words::Words::in(options.language);
    const auto known = words && options.kind != site::resultsKind
        ? site::recordKindOf(options.kind).transform([](const auto&) {})
        : words.transform([](const auto&) {});
    auto text = known ? readFile(options.file, site::tableBytesMax) : fail(known.error());
    const auto site = text ? readSite(options.site) : fail(text.error());
    if (!site) {
        return fail(site.error());
    }
    const auto person = options.previewOnly ? Result<Id>(Id{}) : personIn(*site, options.person);
    if (!person) {
        return fail(person.error());
    }
    Ground ground;
    if (const Done opened = options.data.empty() ? Done() : openGround(options, ground); !opened) {
        return opened;
    }
    const run::State state = ground.logbook ? ground.logbook->state() : run::State{};
    const auto preview = previewFor(options, *std::move(text), *site, state);
    if (!preview) {
        return fail(preview.error().code, words->say(preview.error()));
    }
    int taken = 0;
    if (!options.previewOnly) {
        if (const Done done = take(*preview, options, *person, ground, taken); !done) {
            return taken == 0
                ? done
                : fail(done.error().code, takenText(*words, options, taken) + " " + words->say(done.error()));
        }
    }
    show(*preview, options, *words, taken, out);
    const int faults = preview->count(RowFate::Unreadable);
    return faults == 0 ? Done()
                       : fail(Errc::Malformed, options.file + ": rows that cannot be read: " + std::to_string(faults));
}

} // namespace loopside::cli
