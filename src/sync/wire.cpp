// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/wire.h"

#include "ledger/json_parts.h"
#include "ledger/line.h"
#include "sync/layout.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

namespace loopside::sync {

namespace {

using Json = nlohmann::ordered_json;
using ledger::JsonReader;

constexpr std::string_view versionKey = "loopside_message";
constexpr std::string_view pagePurpose{"loopside page\0", 14};

constexpr std::array<std::pair<Errc, std::string_view>, 8> codes = {{{Errc::OutOfRange, "out-of-range"},
                                                                     {Errc::Malformed, "malformed"},
                                                                     {Errc::NotFound, "not-found"},
                                                                     {Errc::Conflict, "conflict"},
                                                                     {Errc::Corrupt, "corrupt"},
                                                                     {Errc::Io, "io"},
                                                                     {Errc::Unavailable, "unavailable"},
                                                                     {Errc::Incompatible, "incompatible"}}};

// Writing.

template<class Items, class Write>
Json listOf(const Items& items, Write write)
{
    Json list = Json::array();
    for (const auto& item : items) {
        list.push_back(write(item));
    }
    return list;
}

Json idsOf(const std::vector<Id>& ids)
{
    return listOf(ids, [](const Id& id) { return Json(toText(id)); });
}

Json lossesOf(const std::vector<ledger::Loss>& losses)
{
    return listOf(losses, [](const ledger::Loss& loss) {
        return Json{{"chain", toText(loss.chain)}, {"after", loss.after}, {"before", loss.before}};
    });
}

Json markJson(const SignedMark& signedMark)
{
    const Mark& mark = signedMark.mark;
    return {{"site", toText(mark.site)},
            {"log", toText(mark.log)},
            {"device", toText(mark.device)},
            {"key", toHex(mark.key)},
            {"chain", toText(mark.chain)},
            {"sequence", mark.sequence},
            {"hash", toHex(mark.hash)},
            {"aside", mark.isAside},
            {"at_ms", mark.atMs},
            {"signature", toHex(signedMark.signature)}};
}

Json marksJson(const std::vector<SignedMark>& marks)
{
    return listOf(marks, markJson);
}

/// The first line, and the entries that go into the lines behind it.
struct Written
{
    Json title;
    std::vector<const ledger::Entry*> entries = {};
};

Written write(const HandOver& said)
{
    Written written{{{"kind", "hand-over"},
                     {"device", toText(said.device)},
                     {"chains", idsOf(said.chains)},
                     {"missing", lossesOf(said.losses)},
                     {"entries", said.entries.size()}}};
    std::ranges::for_each(said.entries, [&](const ledger::Entry& entry) { written.entries.push_back(&entry); });
    return written;
}

Written write(const Marks& said)
{
    return {{{"kind", "marks"},
             {"log", toText(said.log)},
             {"marks", marksJson(said.marks)},
             {"conflicts",
              listOf(said.clashes,
                     [](const Clash& clash) {
                         return Json{{"chain", toText(clash.chain)},
                                     {"sequence", clash.sequence},
                                     {"aside", toHex(clash.aside)}};
                     })},
             {"gaps", idsOf(said.gaps)},
             {"missing", lossesOf(said.missing)},
             {"unknown", idsOf(said.unknown)}}};
}

Written write(const Ask& said)
{
    return {{{"kind", "ask"}, {"device", toText(said.device)}, {"places", listOf(said.places, [](const Place& place) {
                                                                    return Json{{"topic", place.topic.name},
                                                                                {"after", place.after}};
                                                                })}}};
}

Written write(const Page& said)
{
    Json ahead = Json::array();
    Written written;
    for (const Held& held : said.entries) {
        if (held.isAhead) {
            ahead.push_back(written.entries.size() + 1);
        }
        written.entries.push_back(&held.entry);
    }
    written.title = {{"kind", "page"},
                     {"log", toText(said.log)},
                     {"sections",
                      listOf(said.sections,
                             [](const Section& section) {
                                 return Json{{"topic", section.topic.name},
                                             {"after", section.after},
                                             {"up_to", section.upTo},
                                             {"last", section.last}};
                             })},
                     {"marks", marksJson(said.marks)},
                     {"ahead", ahead},
                     {"entries", said.entries.size()},
                     {"signature", toHex(said.signature)}};
    return written;
}

Written write(const Refusal& said)
{
    const auto code = std::ranges::find(codes, said.code, &std::pair<Errc, std::string_view>::first);
    return {{{"kind", "refusal"}, {"code", code->second}, {"sentence", said.sentence}}};
}

// Reading. Lists are bounded before they are read.

std::vector<JsonReader> itemsOf(const JsonReader& object, std::string_view key)
{
    auto items = object.at(key).items();
    if (items.size() > listedMost) {
        object.at(key).refuse("a message lists at most " + std::to_string(listedMost));
    }
    return items;
}

template<class Read>
auto readList(const JsonReader& object, std::string_view key, Read read)
{
    std::vector<std::invoke_result_t<Read, JsonReader>> list;
    for (const JsonReader& item : itemsOf(object, key)) {
        list.push_back(read(item));
    }
    return list;
}

std::uint64_t numberOf(const JsonReader& object, std::string_view key)
{
    return ledger::wholeOf<std::uint64_t>(object.at(key));
}

std::size_t entryCount(const JsonReader& title)
{
    const auto count = numberOf(title, "entries");
    if (count > entriesMost) {
        throw ledger::JsonFault{{Errc::OutOfRange,
                                 "entries: a message has at most " + std::to_string(entriesMost) + " entries, not "
                                     + std::to_string(count)}};
    }
    return static_cast<std::size_t>(count);
}

Topic topicOf(const JsonReader& reader)
{
    Topic topic{reader.text()};
    if (topic.name.empty() || topic.name.size() > topicBytesMax) {
        reader.refuse("a topic has 1 to " + std::to_string(topicBytesMax) + " bytes");
    }
    return topic;
}

SignedMark markOf(const JsonReader& reader)
{
    reader.onlyKeys({"site", "log", "device", "key", "chain", "sequence", "hash", "aside", "at_ms", "signature"});
    return {{ledger::idOf(reader.at("site")), ledger::idOf(reader.at("log")), ledger::idOf(reader.at("device")),
             ledger::hexOf<32>(reader.at("key")), ledger::idOf(reader.at("chain")), numberOf(reader, "sequence"),
             ledger::hexOf<32>(reader.at("hash")), reader.at("aside").boolean(),
             ledger::wholeOf<std::int64_t>(reader.at("at_ms"))},
            ledger::hexOf<64>(reader.at("signature"))};
}

/// What the first line says, and how many entries stand behind it.
struct Title
{
    Message message;
    std::size_t entries = 0;
    std::vector<std::size_t> ahead = {}; ///< Entries of a page, from 1.
};

void readHandOver(const JsonReader& title, Title& read)
{
    title.onlyKeys({versionKey, "site", "kind", "device", "chains", "missing", "entries"});
    HandOver said;
    said.device = ledger::idOf(title.at("device"));
    said.chains = readList(title, "chains", ledger::idOf);
    said.losses = readList(title, "missing", ledger::lossOf);
    read.entries = entryCount(title);
    read.message.said = std::move(said);
}

void readMarks(const JsonReader& title, Title& read)
{
    title.onlyKeys({versionKey, "site", "kind", "log", "marks", "conflicts", "gaps", "missing", "unknown"});
    Marks said;
    said.log = ledger::idOf(title.at("log"));
    said.marks = readList(title, "marks", markOf);
    said.clashes = readList(title, "conflicts", [](const JsonReader& clash) {
        clash.onlyKeys({"chain", "sequence", "aside"});
        return Clash{ledger::idOf(clash.at("chain")), numberOf(clash, "sequence"),
                     ledger::hexOf<32>(clash.at("aside"))};
    });
    said.gaps = readList(title, "gaps", ledger::idOf);
    said.missing = readList(title, "missing", ledger::lossOf);
    said.unknown = readList(title, "unknown", ledger::idOf);
    read.message.said = std::move(said);
}

void readAsk(const JsonReader& title, Title& read)
{
    title.onlyKeys({versionKey, "site", "kind", "device", "places"});
    Ask said;
    said.device = ledger::idOf(title.at("device"));
    said.places = readList(title, "places", [](const JsonReader& place) {
        place.onlyKeys({"topic", "after"});
        return Place{topicOf(place.at("topic")), numberOf(place, "after")};
    });
    read.message.said = std::move(said);
}

void readPage(const JsonReader& title, Title& read)
{
    title.onlyKeys({versionKey, "site", "kind", "log", "sections", "marks", "ahead", "entries", "signature"});
    Page said;
    said.log = ledger::idOf(title.at("log"));
    said.sections = readList(title, "sections", [](const JsonReader& section) {
        section.onlyKeys({"topic", "after", "up_to", "last"});
        Section part{topicOf(section.at("topic")), numberOf(section, "after"), numberOf(section, "up_to"),
                     numberOf(section, "last")};
        if (part.after > part.upTo || part.upTo > part.last) {
            section.refuse("after, up_to and last must not fall");
        }
        return part;
    });
    said.marks = readList(title, "marks", markOf);
    said.signature = ledger::hexOf<64>(title.at("signature"));
    read.entries = entryCount(title);
    std::size_t last = 0;
    for (const JsonReader& place : itemsOf(title, "ahead")) {
        const auto number = ledger::wholeOf<std::size_t>(place);
        if (number <= last || number > read.entries) {
            place.refuse("the places of entries rise from 1 to their number");
        }
        last = number;
        read.ahead.push_back(number);
    }
    read.message.said = std::move(said);
}

void readRefusal(const JsonReader& title, Title& read)
{
    title.onlyKeys({versionKey, "site", "kind", "code", "sentence"});
    const std::string name = title.at("code").text();
    const auto code = std::ranges::find(codes, name, &std::pair<Errc, std::string_view>::second);
    if (code == codes.end()) {
        title.at("code").refuse("\"" + quotable(name) + "\" is no reason of a refusal");
    }
    read.message.said = Refusal{code->first, title.at("sentence").text()};
}

Title readTitle(const JsonReader& title)
{
    Title read;
    read.message.site = ledger::idOf(title.at("site"));
    const std::string kind = title.at("kind").text();
    using Reader = void (*)(const JsonReader&, Title&);
    static constexpr std::array<std::pair<std::string_view, Reader>, 5> readers = {{{"hand-over", readHandOver},
                                                                                    {"marks", readMarks},
                                                                                    {"ask", readAsk},
                                                                                    {"page", readPage},
                                                                                    {"refusal", readRefusal}}};
    const auto reader = std::ranges::find(readers, kind, &std::pair<std::string_view, Reader>::first);
    if (reader == readers.end()) {
        title.at("kind").refuse("\"" + quotable(kind) + "\" is no kind of message");
    }
    reader->second(title, read);
    return read;
}

Result<Title> titleFrom(std::string_view line)
{
    const auto version = ledger::readJson(
        line, [](const JsonReader& title) { return ledger::wholeOf<int>(title.at(versionKey)); });
    if (!version) {
        return fail(Errc::Malformed, "this is no message of Loopside: " + version.error().sentence);
    }
    if (*version > protocol) {
        return fail(Errc::Incompatible,
                    "the other side speaks version " + std::to_string(*version) + " of the protocol and this one "
                        + std::to_string(protocol) + ": update Loopside here first");
    }
    if (*version < 1) {
        return fail(Errc::Malformed, "there is no version " + std::to_string(*version) + " of the protocol");
    }
    return ledger::readJson(line, readTitle);
}

/// The line that `rest` begins with, which is taken off it; nothing if its end is not there.
std::optional<std::string_view> takeLine(std::string_view& rest)
{
    const auto end = rest.find('\n');
    if (end == std::string_view::npos) {
        return std::nullopt;
    }
    const std::string_view line = rest.substr(0, end);
    rest.remove_prefix(end + 1);
    return line;
}

void addEntry(Title& read, std::size_t number, ledger::Entry entry)
{
    if (auto* page = std::get_if<Page>(&read.message.said)) {
        const bool isAhead = std::ranges::find(read.ahead, number) != read.ahead.end();
        page->entries.push_back({std::move(entry), isAhead});
    } else {
        std::get<HandOver>(read.message.said).entries.push_back(std::move(entry));
    }
}

} // namespace

std::string bytesOf(const Message& message)
{
    const Written written = std::visit([](const auto& said) { return write(said); }, message.said);
    Json title = {{std::string(versionKey), protocol}, {"site", toText(message.site)}};
    title.update(written.title);
    std::string bytes = title.dump(-1, ' ', false, Json::error_handler_t::replace) + '\n';
    for (const ledger::Entry* entry : written.entries) {
        bytes += ledger::lineOf(*entry) + '\n';
    }
    return bytes;
}

Result<Message> messageFrom(std::string_view bytes)
{
    if (bytes.size() > messageBytesMax) {
        return fail(Errc::OutOfRange,
                    "a message has at most " + std::to_string(messageBytesMax >> 20U) + " MiB; this one has "
                        + std::to_string(bytes.size()) + " bytes");
    }
    const auto first = takeLine(bytes);
    if (!first) {
        return fail(Errc::Malformed, "this is no message of Loopside: its first line has no end");
    }
    auto read = titleFrom(*first);
    if (!read) {
        return fail(read.error());
    }
    for (std::size_t number = 1; number <= read->entries; ++number) {
        const auto line = takeLine(bytes);
        if (!line) {
            return fail(Errc::Malformed,
                        "the message was cut short: entry " + std::to_string(number) + " of "
                            + std::to_string(read->entries) + " is not there");
        }
        auto entry = ledger::entryFromLine(*line);
        if (!entry) {
            return fail(Errc::Malformed,
                        "line " + std::to_string(number + 1)
                            + " of the message is no entry: " + entry.error().sentence);
        }
        addEntry(*read, number, *std::move(entry));
    }
    if (!bytes.empty()) {
        return fail(Errc::Malformed, "something stands behind the last entry that the message announces");
    }
    return std::move(read->message);
}

Message refusalOf(const Id& site, const Error& error)
{
    return {site, Refusal{error.code, error.sentence}};
}

std::string signedBytes(const Id& site, const Page& page)
{
    std::string bytes(pagePurpose);
    append(bytes, site.bytes);
    append(bytes, page.log.bytes);
    append(bytes, page.sections.size());
    for (const Section& section : page.sections) {
        append(bytes, section.topic.name.size());
        bytes += section.topic.name;
        append(bytes, section.after);
        append(bytes, section.upTo);
        append(bytes, section.last);
    }
    append(bytes, page.entries.size());
    for (const Held& held : page.entries) {
        append(bytes, held.entry.hash);
        bytes += held.isAhead ? '\1' : '\0';
    }
    return bytes;
}

} // namespace loopside::sync
