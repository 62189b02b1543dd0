// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "report/record_file.h"

#include "base/text.h"
#include "ledger/json_parts.h"
#include "ledger/line.h"
#include "ledger/prices_json.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <tuple>

namespace loopside::report {

namespace {

using Json = nlohmann::ordered_json;
using ledger::JsonReader;

constexpr std::string_view formatKey = "loopside_record";
constexpr int format = 1;
constexpr std::string_view sealBegins = "LOOPSIDE RECORD 1";

template<class Unit>
Json symbolOf(const Unit* unit)
{
    return unit == nullptr ? Json() : Json(std::string(unit->symbol));
}

Json priceOf(const std::optional<Decimal>& price)
{
    return price ? Json(price->toText()) : Json();
}

Json tellingJson(const Telling& telling)
{
    Json names = Json::object();
    for (const auto& [person, name] : telling.names) {
        names[toText(person)] = name;
    }
    Json prices;
    if (telling.prices) {
        prices = {{"currency", telling.prices->currency},
                  {"element", priceOf(telling.prices->element)},
                  {"oil_per_litre", priceOf(telling.prices->oilPerLitre)},
                  {"hour", priceOf(telling.prices->hour)}};
    }
    return {{"language", telling.language},
            {"pressure", symbolOf(telling.wanted.pressure)},
            {"volume", symbolOf(telling.wanted.volume)},
            {"temperature", symbolOf(telling.wanted.temperature)},
            {"names", names},
            {"prices", prices}};
}

Json tableJson(const Table& table)
{
    Json columns = Json::array();
    for (const Column& column : table.columns) {
        columns.push_back({{"id", column.id}, {"title", column.title}});
    }
    Json rows = Json::array();
    for (const Row& row : table.rows) {
        rows.push_back({{"id", row.id}, {"cells", row.cells}});
    }
    return {{"id", table.id}, {"title", table.title}, {"columns", columns}, {"rows", rows}, {"empty", table.empty}};
}

Json entriesJson(const std::vector<ledger::Entry>& entries)
{
    Json list = Json::array();
    for (const ledger::Entry& entry : entries) {
        list.push_back(Json::parse(ledger::lineOf(entry)));
    }
    return list;
}

std::vector<std::string> textsOf(const JsonReader& list)
{
    std::vector<std::string> texts;
    for (const JsonReader& item : list.items()) {
        texts.push_back(item.text());
    }
    return texts;
}

Table readTable(const JsonReader& object)
{
    object.onlyKeys({"id", "title", "columns", "rows", "empty"});
    Table table{object.at("id").text(), object.at("title").text(), {}, {}, object.at("empty").text()};
    for (const JsonReader& column : object.at("columns").items()) {
        column.onlyKeys({"id", "title"});
        table.columns.push_back({column.at("id").text(), column.at("title").text()});
    }
    for (const JsonReader& row : object.at("rows").items()) {
        row.onlyKeys({"id", "cells"});
        table.rows.push_back({row.at("id").text(), textsOf(row.at("cells"))});
        if (table.rows.back().cells.size() != table.columns.size()) {
            row.refuse("it has another number of cells than the table has columns");
        }
    }
    return table;
}

RunRecord readRecord(const JsonReader& object)
{
    RunRecord record;
    record.title = object.at("title").text();
    record.subject = object.at("subject").text();
    record.code = object.at("code").text();
    record.run = ledger::idOf(object.at("run"));
    record.isPractice = object.at("practice").boolean();
    record.notices = textsOf(object.at("notices"));
    record.verdict = object.at("verdict").text();
    record.digest = object.at("digest").text();
    record.entries = ledger::wholeOf<std::size_t>(object.at("entry_count"));
    const auto tables = object.at("tables").items();
    for (const JsonReader& table : tables) {
        record.tables.push_back(readTable(table));
    }
    if (!std::ranges::equal(record.tables, tableIds, {}, &Table::id)) {
        object.at("tables").refuse("these are not the parts of a record, in their order");
    }
    return record;
}

Telling readTelling(const JsonReader& object)
{
    object.onlyKeys({"language", "pressure", "volume", "temperature", "names", "prices"});
    Telling telling;
    telling.language = object.at("language").text();
    if (const auto unit = object.find("pressure")) {
        telling.wanted.pressure = unit->unit<units::Pressure>();
    }
    if (const auto unit = object.find("volume")) {
        telling.wanted.volume = unit->unit<units::Volume>();
    }
    if (const auto unit = object.find("temperature")) {
        telling.wanted.temperature = unit->unit<units::Temperature>();
    }
    const JsonReader names = object.at("names");
    for (const auto& [person, name] : names.value().members) {
        telling.names[names.orRefuse(idFromText(person))] = names.at(person).text();
    }
    telling.prices = object.ifThere("prices", ledger::readPrices);
    return telling;
}

std::vector<ledger::Entry> readEntries(const JsonReader& list)
{
    std::vector<ledger::Entry> entries;
    for (const JsonReader& item : list.items()) {
        entries.push_back(item.orRefuse(ledger::entryFromLine(ledger::toJson(item.value()))));
    }
    return entries;
}

RecordFile readFile(const JsonReader& object)
{
    object.onlyKeys({formatKey, "program", "title", "subject", "code", "run", "practice", "notices", "verdict",
                     "digest", "entry_count", "told_beside", "tables", "openings", "entries"});
    RecordFile file;
    file.program = object.at("program").text();
    file.telling = readTelling(object.at("told_beside"));
    file.record = readRecord(object);
    file.evidence = {file.record.run, readEntries(object.at("openings")), readEntries(object.at("entries"))};
    return file;
}

/// The parts of `made` that differ from those of `stated`, by their titles.
std::string partsThatDiffer(const RunRecord& stated, const RunRecord& made)
{
    std::vector<std::string> parts;
    const auto headOf = [](const RunRecord& record) {
        return std::tie(record.title, record.subject, record.code, record.isPractice, record.notices, record.verdict);
    };
    if (headOf(stated) != headOf(made)) {
        parts.push_back(made.title);
    }
    for (const Table& table : made.tables) {
        if (stated.table(table.id) != table) {
            parts.push_back(table.title);
        }
    }
    return joined(parts);
}

void holdTables(const RecordFile& file, std::string_view program, std::vector<std::string>& faults)
{
    const auto made = recordOf(file.evidence, file.telling);
    if (!made) {
        faults.push_back("the entries make no record: " + made.error().sentence);
        return;
    }
    const std::string differs = partsThatDiffer(file.record, *made);
    if (differs.empty()) {
        return;
    }
    faults.push_back(file.program == program ? "these parts say other things than the entries come to: " + differs
                                             : "these parts say other things than the entries come to by version "
                             + std::string(program) + "; version " + file.program
                             + " is said to have made them, so hold them against that one: " + differs);
}

std::vector<std::string> notesOf(const std::vector<ChainPart>& chains)
{
    std::vector<std::string> notes = {
        "Whether a key is the tablet's own, only the tablet or the site hub can tell: compare it there.",
        "Entries that were said after the last one here do not show in this file."};
    for (const ChainPart& part : chains) {
        if (part.others() > 0) {
            notes.push_back("Between the entries of chain " + toText(part.chain) + " stand "
                            + std::to_string(part.others())
                            + " that are not in this file. They are said to be of other work; only the journal shows "
                              "that none of them is of this run.");
        }
    }
    return notes;
}

void keepWriters(Telling& telling, const Evidence& evidence)
{
    std::erase_if(telling.names, [&](const auto& named) {
        return std::ranges::none_of(evidence.entries, [&](const ledger::Entry& entry) {
            return entry.header.person == named.first || entry.body.find(toText(named.first)) != std::string::npos;
        });
    });
}

} // namespace

Result<RecordFile> recordFileOf(std::string program, Evidence evidence, Telling telling)
{
    keepWriters(telling, evidence);
    auto record = recordOf(evidence, telling);
    return record ? Result<RecordFile>(
                        RecordFile{std::move(program), std::move(telling), *std::move(record), std::move(evidence)})
                  : fail(record.error());
}

std::string jsonOf(const RecordFile& file)
{
    const RunRecord& record = file.record;
    Json tables = Json::array();
    for (const Table& table : record.tables) {
        tables.push_back(tableJson(table));
    }
    const Json object = {{std::string(formatKey), format},
                         {"program", file.program},
                         {"title", record.title},
                         {"subject", record.subject},
                         {"code", record.code},
                         {"run", toText(record.run)},
                         {"practice", record.isPractice},
                         {"notices", record.notices},
                         {"verdict", record.verdict},
                         {"digest", record.digest},
                         {"entry_count", record.entries},
                         {"told_beside", tellingJson(file.telling)},
                         {"tables", tables},
                         {"openings", entriesJson(file.evidence.openings)},
                         {"entries", entriesJson(file.evidence.entries)}};
    return object.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

Result<RecordFile> recordFileFrom(std::string_view json)
{
    const ledger::JsonLimits limits{.bytes = recordBytesMax};
    const auto version = ledger::readJson(
        json, [](const JsonReader& object) { return ledger::wholeOf<int>(object.at(formatKey)); }, limits);
    if (!version) {
        return fail(version.error());
    }
    if (*version > format) {
        return fail(Errc::Incompatible,
                    "this record has layout " + std::to_string(*version) + ", which a newer version wrote");
    }
    return ledger::readJson(json, readFile, limits);
}

RecordChecked checkRecord(const RecordFile& file, std::string_view program)
{
    RecordChecked checked;
    checked.faults = faultsIn(file.evidence);
    checked.digest = toHex(digestOf(file.evidence));
    checked.entries = file.evidence.entries.size();
    checked.chains = chainsOf(file.evidence);
    checked.notes = notesOf(checked.chains);
    if (file.record.digest != checked.digest || file.record.entries != checked.entries) {
        checked.faults.push_back("the digest that it states is not that of its entries: one was altered, added or "
                                 "taken out");
    }
    holdTables(file, program, checked.faults);
    return checked;
}

std::string sealOf(const RunRecord& record)
{
    return std::string(sealBegins) + " " + record.code + " " + toText(record.run) + " " + std::to_string(record.entries)
        + " " + record.digest;
}

Done matchesSeal(const RecordFile& file, std::string_view seal)
{
    const std::string_view told = trimmed(seal.substr(0, seal.find_first_of("\r\n"))); // a scanner ends with one
    if (!told.starts_with(sealBegins)) {
        return fail(Errc::NotFound,
                    "\"" + quotable(seal) + "\" is not what the QR code of a record says: it begins with "
                        + std::string(sealBegins));
    }
    RunRecord stated = file.record;
    stated.digest = toHex(digestOf(file.evidence));
    stated.entries = file.evidence.entries.size();
    return told == sealOf(stated)
        ? Done()
        : fail(Errc::Conflict, "the printed record is not of these entries: they come to " + sealOf(stated));
}

} // namespace loopside::report
