// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/line.h"

#include "base/text.h"
#include "ledger/json_parts.h"

#include <nlohmann/json.hpp>

#include <span>

namespace loopside::ledger {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view titleKey = "loopside_export";
constexpr int titleVersion = 1;

std::span<const std::uint8_t> bytesOf(std::string_view text)
{
    return {reinterpret_cast<const std::uint8_t*>(text.data()), text.size()};
}

/// Text as text, and bytes that are none as digits under the name with `_hex` behind it.
void put(Json& object, const std::string& name, const std::string& bytes)
{
    if (isUtf8(bytes)) {
        object[name] = bytes;
    } else {
        object[name + "_hex"] = toHex(bytesOf(bytes));
    }
}

std::string readBytes(const JsonReader& object, const std::string& name)
{
    const auto hex = object.find(name + "_hex");
    if (!hex) {
        return object.at(name).text();
    }
    const std::string digits = hex->text();
    std::string bytes(digits.size() / 2, '\0');
    if (object.find(name) || !fromHex(digits, {reinterpret_cast<std::uint8_t*>(bytes.data()), bytes.size()})) {
        hex->refuse("these are not the hexadecimal digits of bytes, or the text stands there too");
    }
    return bytes;
}

Entry readEntry(const JsonReader& object)
{
    object.onlyKeys({"format",
                     "id",
                     "device",
                     "chain",
                     "sequence",
                     "clock",
                     "run",
                     "person",
                     "entered_at",
                     "entered_offset_min",
                     "mono_ns",
                     "boot",
                     "observed_ago_ms",
                     "observed_how",
                     "observed_how_hex",
                     "kind",
                     "kind_hex",
                     "body",
                     "body_hex",
                     "previous_hash",
                     "hash",
                     "signature"});
    Entry entry;
    run::Header& header = entry.header;
    entry.format = wholeOf<std::uint16_t>(object.at("format"));
    header.id = idOf(object.at("id"));
    header.device = idOf(object.at("device"));
    entry.chain = idOf(object.at("chain"));
    header.sequence = wholeOf<std::uint64_t>(object.at("sequence"));
    header.clock = wholeOf<std::uint64_t>(object.at("clock"));
    header.run = object.ifThere("run", idOf).value_or(Id{});
    header.person = idOf(object.at("person"));
    header.entered.wallMs = wholeOf<std::int64_t>(object.at("entered_at"));
    header.entered.offsetMin = wholeOf<int>(object.at("entered_offset_min"));
    header.entered.monoNs = wholeOf<std::uint64_t>(object.at("mono_ns"));
    header.entered.boot = idOf(object.at("boot"));
    header.observed.agoMs = wholeOf<std::int64_t>(object.at("observed_ago_ms"));
    header.observed.how = readBytes(object, "observed_how");
    entry.kind = readBytes(object, "kind");
    entry.body = readBytes(object, "body");
    entry.previous = hexOf<32>(object.at("previous_hash"));
    entry.hash = hexOf<32>(object.at("hash"));
    entry.signature = hexOf<64>(object.at("signature"));
    return entry;
}

} // namespace

std::string lineOf(const Entry& entry)
{
    const run::Header& header = entry.header;
    Json object = {{"format", entry.format},
                   {"id", toText(header.id)},
                   {"device", toText(header.device)},
                   {"chain", toText(entry.chain)},
                   {"sequence", header.sequence},
                   {"clock", header.clock},
                   {"run", header.run.isNone() ? Json() : Json(toText(header.run))},
                   {"person", toText(header.person)},
                   {"entered_at", header.entered.wallMs},
                   {"entered_offset_min", header.entered.offsetMin},
                   {"mono_ns", header.entered.monoNs},
                   {"boot", toText(header.entered.boot)},
                   {"observed_ago_ms", header.observed.agoMs}};
    put(object, "observed_how", header.observed.how);
    put(object, "kind", entry.kind);
    put(object, "body", entry.body);
    object["previous_hash"] = toHex(entry.previous);
    object["hash"] = toHex(entry.hash);
    object["signature"] = toHex(entry.signature);
    return object.dump();
}

Result<Entry> entryFromLine(std::string_view line)
{
    return readJson(line, readEntry);
}

std::string lineOf(const ExportTitle& title)
{
    Json losses = Json::array();
    for (const Loss& loss : title.losses) {
        losses.push_back({{"chain", toText(loss.chain)}, {"after", loss.after}, {"before", loss.before}});
    }
    return Json({{std::string(titleKey), titleVersion}, {"entries", title.entries}, {"missing", losses}}).dump();
}

Result<ExportTitle> titleFromLine(std::string_view line)
{
    const auto version = readJson(line, [](const JsonReader& object) { return wholeOf<int>(object.at(titleKey)); });
    if (!version) {
        return fail(version.error());
    }
    if (*version > titleVersion) {
        return fail(Errc::Incompatible, "this export was written by a newer version of Loopside: update it first");
    }
    return readJson(line, [](const JsonReader& object) {
        object.onlyKeys({titleKey, "entries", "missing"});
        ExportTitle title;
        title.entries = wholeOf<std::uint64_t>(object.at("entries"));
        for (const JsonReader& loss : object.at("missing").items()) {
            title.losses.push_back(lossOf(loss));
        }
        return title;
    });
}

} // namespace loopside::ledger
