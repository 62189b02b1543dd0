// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/files.h"

#include "base/text.h"
#include "ledger/body.h"
#include "ledger/digest.h"
#include "ledger/json_parts.h"

#include <nlohmann/json.hpp>

#include <charconv>

namespace loopside::sync {

namespace {

using Json = nlohmann::ordered_json;
using ledger::JsonReader;

constexpr std::string_view versionKey = "loopside_files";
constexpr int version = 1;
constexpr std::size_t placeBytesMost = 128; // of one in a list

/// `entry` as the event `Wanted`; nothing if it is another one.
template<class Wanted>
std::optional<Wanted> eventIn(const ledger::Entry& entry, std::string_view kind)
{
    if (entry.kind != kind) {
        return std::nullopt;
    }
    const auto event = ledger::eventFrom(entry.kind, entry.body);
    const auto* wanted = event ? std::get_if<Wanted>(&*event) : nullptr;
    return wanted == nullptr ? std::nullopt : std::optional(*wanted);
}

FileList readList(const JsonReader& object)
{
    object.onlyKeys({versionKey, "files"});
    FileList files;
    for (const JsonReader& file : object.at("files").items()) {
        file.onlyKeys({"chain", "sequence"});
        files.push_back({ledger::idOf(file.at("chain")), ledger::wholeOf<std::uint64_t>(file.at("sequence"))});
    }
    if (files.size() > filesListedMost) {
        object.at("files").refuse("a list names at most " + std::to_string(filesListedMost) + " files");
    }
    return files;
}

} // namespace

std::string bytesOf(const FileList& files)
{
    Json list = Json::array();
    for (const FilePlace& place : files) {
        list.push_back({{"chain", toText(place.chain)}, {"sequence", place.sequence}});
    }
    return Json({{std::string(versionKey), version}, {"files", std::move(list)}}).dump() + '\n';
}

Result<FileList> fileListFrom(std::string_view bytes)
{
    const ledger::JsonLimits limits = {(filesListedMost + 1) * placeBytesMost, 4};
    const auto stated = ledger::readJson(
        bytes, [](const JsonReader& object) { return ledger::wholeOf<int>(object.at(versionKey)); }, limits);
    if (!stated) {
        return fail(Errc::Malformed, "this is no list of files of Loopside: " + stated.error().sentence);
    }
    if (*stated > version) {
        return fail(Errc::Incompatible, "the list of files is of a newer version: update Loopside here first");
    }
    return ledger::readJson(bytes, readList, limits);
}

std::string pathOf(const FilePlace& place)
{
    return std::string(filesPath) + '/' + toText(place.chain) + '/' + std::to_string(place.sequence);
}

std::optional<FilePlace> filePlaceIn(std::string_view path)
{
    if (!path.starts_with(filesPath) || path.substr(filesPath.size(), 1) != "/") {
        return std::nullopt;
    }
    path.remove_prefix(filesPath.size() + 1);
    const auto cut = path.find('/');
    const auto chain = idFromText(path.substr(0, cut));
    if (cut == std::string_view::npos || !chain) {
        return std::nullopt;
    }
    FilePlace place{*chain, 0};
    const std::string_view digits = path.substr(cut + 1);
    const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), place.sequence);
    return read.ec == std::errc() && pathOf(place).ends_with('/' + std::string(digits)) ? std::optional(place)
                                                                                        : std::nullopt;
}

std::optional<std::string> fileNamedBy(const ledger::Entry& entry)
{
    const auto added = eventIn<run::AttachmentAdded>(entry, "attachment-added");
    return added ? std::optional(added->hash) : std::nullopt;
}

std::optional<Id> withdrawnBy(const ledger::Entry& entry)
{
    const auto withdrawn = eventIn<run::AttachmentWithdrawn>(entry, "attachment-withdrawn");
    return withdrawn ? std::optional(withdrawn->of) : std::nullopt;
}

Done mayKeep(const ledger::Entry& entry, std::string_view file)
{
    const auto name = fileNamedBy(entry);
    if (!name) {
        return fail(Errc::Conflict, "the entry at that place names no file");
    }
    if (file.size() > fileBytesMax) {
        return fail(Errc::OutOfRange, "a file has at most " + std::to_string(fileBytesMax) + " bytes");
    }
    return toHex(ledger::sha256(file)) == *name ? Done{}
                                                : fail(Errc::Corrupt, "the file is not the one that its entry names");
}

} // namespace loopside::sync
