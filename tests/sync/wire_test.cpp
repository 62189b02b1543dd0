// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/wire.h"

#include "base/text.h"
#include "sync/handmade.h"

#include <fstream>
#include <map>
#include <sstream>

using namespace loopside;
using namespace loopside::sync;
using namespace loopside::test;

namespace {

/// A message of each kind with everything in it.
std::vector<sync::Message> allMessages()
{
    Hub hub;
    Recorder recorder(1);
    const auto entries = recorder.chainOf(2);
    const auto odd = recorder.seal({{"of-a-later-version", std::string("\xFF\x00\n text", 8), {}, {}, {}}});
    const Id site = someSite().id;
    HandOver handOver{recorder.device(), {entries[0].chain}, {{entries[0].chain, 4, 9}}, entries};
    handOver.entries.push_back(odd.front());
    Marks marks = hub.take(entries);
    marks.clashes = {{entries[0].chain, 3, entries[1].hash}};
    marks.gaps = {Recorder::idOf(0xC0, 4)};
    marks.missing = {{entries[0].chain, 5, 8}};
    marks.unknown = {Recorder::idOf(0xC0, 5)};
    Page page = hub.page(Recorder(2).device(), {{Topic::device(recorder.device()), 0}, {Topic::tank("Öl \"7\""), 0}});
    page.entries[1].isAhead = true;
    return {{site, handOver},
            {site, marks},
            {site, Ask{recorder.device(), {{Topic::catalogue(), 7}, {Topic::tank("winder gearbox"), 0}}}},
            {site, page},
            refusalOf(site, {Errc::Io, "the disk is full"})};
}

std::string replaced(std::string text, const std::string& what, const std::string& with)
{
    const auto at = text.find(what);
    REQUIRE(at != std::string::npos);
    return text.replace(at, what.size(), with);
}

struct WorkedExamples
{
    std::string mark;
    std::string page;
    std::map<std::string, std::string> values = {};
    std::string messages;
};

/// Of schema/wire/README.md, section 5.
WorkedExamples workedExamples()
{
    std::ifstream file(LOOPSIDE_SOURCE_DIR "/schema/wire/README.md");
    REQUIRE(file);
    WorkedExamples examples;
    std::string line;
    while (line != "## 5. Worked examples") {
        REQUIRE(std::getline(file, line));
    }
    std::string* bytes = nullptr;
    while (std::getline(file, line)) {
        bytes = line.starts_with("The mark") ? &examples.mark : line.starts_with("The page") ? &examples.page : bytes;
        std::size_t at = 0;
        std::size_t size = 0;
        const std::string hex = line.substr(line.find_last_of(' ') + 1);
        if (std::istringstream(line) >> at >> size) {
            CHECK(at * 2 == bytes->size());
            CHECK(size * 2 == hex.size());
            *bytes += hex;
        } else if (line.starts_with("hub key") || line.find("signature  ") != std::string::npos) {
            examples.values[line.substr(0, line.find("  "))] = hex;
        } else if (line.starts_with("{")) {
            examples.messages += line + '\n';
        }
    }
    return examples;
}

std::string hexOf(const std::string& bytes)
{
    return toHex({reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()});
}

/// The first message of `text`, which is taken off it.
std::string takeMessage(std::string& text)
{
    auto end = text.find("\n{\"loopside_message\"");
    end = end == std::string::npos ? text.size() : end + 1;
    std::string message = text.substr(0, end);
    text.erase(0, end);
    return message;
}

} // namespace

TEST_CASE("messages, marks and pages have the bytes and signatures of the worked examples in schema wire README")
{
    WorkedExamples examples = workedExamples();
    ledger::Seed seed; // the secret of RFC 8032, section 7.1, test 2
    REQUIRE(fromHex("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb", seed));
    const auto hub = ledger::DeviceKey::fromSeed(seed);
    CHECK(toHex(hub.publicKey()) == examples.values.at("hub key"));
    std::vector<sync::Message> messages;
    while (!examples.messages.empty()) {
        const std::string text = takeMessage(examples.messages);
        const auto message = messageFrom(text);
        REQUIRE(message);
        CHECK(bytesOf(*message) == text);
        messages.push_back(*message);
    }
    REQUIRE(messages.size() == 5);
    const auto& entry = std::get<HandOver>(messages[0].said).entries.front();
    CHECK(hashOf(entry) == entry.hash);
    const auto& mark = std::get<Marks>(messages[1].said).marks.front();
    CHECK(hexOf(signedBytes(mark.mark)) == examples.mark);
    CHECK(signedBy(hub, mark.mark) == mark);
    CHECK(toHex(mark.signature) == examples.values.at("mark signature"));
    CHECK(std::get<Ask>(messages[2].said).places.front() == Place{Topic::tank("PH-3"), 4});
    const auto& page = std::get<Page>(messages[3].said);
    CHECK(hexOf(signedBytes(messages[3].site, page)) == examples.page);
    CHECK(toHex(page.signature) == examples.values.at("page signature"));
    CHECK(ledger::verifies(hub.publicKey(), signedBytes(messages[3].site, page), page.signature));
    CHECK(page.entries.front() == Held{entry, true});
    CHECK(std::get<Refusal>(messages[4].said).code == Errc::Incompatible);
}

TEST_CASE("every message comes back from its bytes")
{
    for (const sync::Message& message : allMessages()) {
        const std::string bytes = bytesOf(message);
        const auto read = messageFrom(bytes);
        INFO((read ? std::string() : read.error().sentence));
        REQUIRE(read);
        CHECK(*read == message);
    }
}

TEST_CASE("a message cut anywhere is refused")
{
    for (const sync::Message& message : allMessages()) {
        const std::string bytes = bytesOf(message);
        for (std::size_t length = 0; length < bytes.size(); ++length) {
            const auto read = messageFrom(std::string_view(bytes).substr(0, length));
            REQUIRE_FALSE(read);
            REQUIRE(read.error().code == Errc::Malformed);
            REQUIRE_FALSE(read.error().sentence.empty());
        }
    }
}

TEST_CASE("a newer protocol is refused with a plain sentence, whatever else it says")
{
    const auto read = messageFrom("{\"loopside_message\":2,\"something\":[\"new\"]}\n");
    REQUIRE_FALSE(read);
    CHECK(read.error().code == Errc::Incompatible);
    CHECK_THAT(read.error().sentence, Catch::Contains("speaks version 2") && Catch::Contains("update Loopside"));
    const auto answer = messageFrom(bytesOf(refusalOf(someSite().id, read.error())));
    REQUIRE(answer);
    CHECK(std::get<Refusal>(answer->said).sentence == read.error().sentence);
}

TEST_CASE("a message beyond its bounds is refused before it is read")
{
    const auto tooLong = messageFrom(std::string(messageBytesMax + 1, ' '));
    REQUIRE_FALSE(tooLong);
    CHECK(tooLong.error().code == Errc::OutOfRange);
    CHECK_THAT(tooLong.error().sentence, Catch::Contains("at most 8 MiB"));
    const std::string handOver = bytesOf(allMessages()[0]);
    const auto tooMany = messageFrom(replaced(handOver, "\"entries\":4", "\"entries\":257"));
    REQUIRE_FALSE(tooMany);
    CHECK(tooMany.error().code == Errc::OutOfRange);
    CHECK_THAT(tooMany.error().sentence, Catch::Contains("at most 256 entries, not 257"));
    std::string chains;
    for (std::size_t i = 0; i <= listedMost; ++i) {
        chains += "\"" + toText(Recorder::idOf(0xC0, 1)) + "\",";
    }
    CHECK_FALSE(messageFrom(replaced(handOver, "\"chains\":[", "\"chains\":[" + chains)));
}

TEST_CASE("a malformed message is refused with the place at fault")
{
    const auto [what, with, words] = GENERATE(table<const char*, const char*, const char*>({
        {"loopside_message", "loopside_massage", "this is no message of Loopside"},
        {"\"loopside_message\":1", "\"loopside_message\":0", "no version 0"},
        {"\"loopside_message\":1", "\"loopside_message\":\"1\"", "this is no message"},
        {"hand-over", "hand-under", "is no kind of message"},
        {"\"missing\"", "\"mislaid\"", "mislaid"},
        {"\"missing\":[{", "\"missing\":[7,{", "missing[0]"},
        {"\"after\":4", "\"after\":8", "no entry can be missing"},
        {"\"entries\":4", "\"entries\":3", "behind the last entry"},
        {"\"entries\":4", "\"entries\":5", "cut short: entry 5 of 5"},
        {"\"entries\":4", "\"entries\":-1", "whole number"},
        {"\"format\":1", "\"format\":x", "line 2 of the message is no entry"},
        {"51000000-", "5100000-", "site"},
    }));
    CAPTURE(what, with);
    const auto read = messageFrom(replaced(bytesOf(allMessages()[0]), what, with));
    REQUIRE_FALSE(read);
    CHECK(read.error().code == Errc::Malformed);
    CHECK_THAT(read.error().sentence, Catch::Contains(words));
}

TEST_CASE("a page that says what cannot be is refused")
{
    const auto [what, with] = GENERATE(table<const char*, const char*>({
        {"\"up_to\":3", "\"up_to\":4"},
        {"\"after\":0", "\"after\":4"},
        {"\"ahead\":[2]", "\"ahead\":[4]"},
        {"\"ahead\":[2]", "\"ahead\":[0]"},
        {"\"ahead\":[2]", "\"ahead\":[2,2]"},
        {"\"topic\":\"device", "\"topic\":\"\",\"x\":\"device"},
    }));
    CAPTURE(what, with);
    CHECK_FALSE(messageFrom(replaced(bytesOf(allMessages()[3]), what, with)));
}
