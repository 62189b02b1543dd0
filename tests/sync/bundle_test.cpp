// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/bundle.h"

#include "base/text.h"
#include "ledger/line.h"
#include "ledger/recorder.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <map>
#include <sstream>

using namespace loopside;
using namespace loopside::sync;
using loopside::test::Recorder;

namespace {

struct Made
{
    BundleTitle title = {};
    std::vector<ledger::Entry> entries = {};
    std::map<std::string, std::string> attachments = {};
    std::string bytes;
};

std::vector<BundledChain> chainsOf(const std::vector<ledger::Entry>& entries)
{
    ChainsGathered gathered;
    for (const ledger::Entry& entry : entries) {
        gathered.add(entry);
    }
    return gathered.chains();
}

/// A bundle of two devices with two attachments.
Made someBundle()
{
    Made made;
    made.entries = Recorder(1).chainOf(3);
    const auto others = Recorder(2).chainOf(1);
    made.entries.insert(made.entries.end(), others.begin(), others.end());
    for (const std::string& file :
         {std::string(100, 'a'), std::string("\n{\"\x00 bytes\xFF", 12) + std::string(40, '\n')}) {
        made.attachments[toHex(ledger::sha256(file))] = file;
    }
    made.title = {
        "Brackwater Mill",   1'752'300'900'000,       Recorder(1).device(),   Recorder::keyOf(1).publicKey(),
        made.entries.size(), made.attachments.size(), chainsOf(made.entries), {{made.entries[0].chain, 9, 12}}};
    std::ostringstream out;
    BundleWriter writer(out, made.title);
    for (const ledger::Entry& entry : made.entries) {
        writer.add(entry);
    }
    for (const auto& [hash, file] : made.attachments) {
        writer.add(hash, file);
    }
    writer.end(Recorder::keyOf(1));
    made.bytes = out.str();
    return made;
}

Result<Bundle> read(const std::string& bytes, const BundleTaker& take = {})
{
    std::istringstream in(bytes);
    return readBundle(in, "the stick", take);
}

std::string replaced(std::string text, const std::string& what, const std::string& with)
{
    const auto at = text.find(what);
    REQUIRE(at != std::string::npos);
    return text.replace(at, what.size(), with);
}

/// `bytes` signed again, as whoever altered them might.
std::string signedAnew(const std::string& bytes, std::uint8_t key)
{
    const std::string body = bytes.substr(0, bytes.rfind("{\"sha256\""));
    const auto digest = ledger::sha256(body);
    std::string message("loopside bundle\0", 16);
    message.append(reinterpret_cast<const char*>(digest.data()), digest.size());
    return body + "{\"sha256\":\"" + toHex(digest) + "\",\"signature\":\"" + toHex(Recorder::keyOf(key).sign(message))
        + "\"}\n";
}

/// A sentence that names the file comes of it, and never a part of what is in it.
void isTold(const std::string& bytes)
{
    const auto bundle = read(bytes);
    REQUIRE_FALSE(bundle);
    REQUIRE(bundle.error().sentence.starts_with("the stick: "));
    REQUIRE(bundle.error().sentence.size() > 20);
}

} // namespace

TEST_CASE("a bundle comes back as it was made")
{
    const Made made = someBundle();
    std::vector<ledger::Entry> entries;
    std::map<std::string, std::string> files;
    BundleTaker take;
    take.entry = [&](const ledger::Entry& entry, std::uint64_t) -> Done {
        entries.push_back(entry);
        return {};
    };
    take.attachment = [&](const std::string& hash, std::string_view file, std::uint64_t) -> Done {
        files[hash] = file;
        return {};
    };
    const auto bundle = read(made.bytes, take);
    REQUIRE(bundle);
    CHECK(bundle->title == made.title);
    CHECK(bundle->digest == ledger::sha256(made.bytes.substr(0, made.bytes.rfind("{\"sha256\""))));
    CHECK(entries == made.entries);
    CHECK(files == made.attachments);
}

TEST_CASE("what is in a bundle is found again where it was told to begin")
{
    const Made made = someBundle();
    std::vector<std::uint64_t> places;
    BundleTaker take;
    take.entry = [&](const ledger::Entry&, std::uint64_t at) -> Done {
        places.push_back(at);
        return {};
    };
    take.attachment = [&](const std::string& hash, std::string_view file, std::uint64_t at) -> Done {
        CHECK(made.bytes.substr(at, file.size()) == made.attachments.at(hash));
        return {};
    };
    REQUIRE(read(made.bytes, take));
    REQUIRE(places.size() == made.entries.size());
    std::istringstream in(made.bytes);
    for (std::size_t i = places.size(); i-- > 0;) {
        CHECK(bundledEntryAt(in, places[i]) == made.entries[i]);
    }
    CHECK_FALSE(bundledEntryAt(in, places[1] + 1));
    CHECK_FALSE(bundledEntryAt(in, made.bytes.size() + 5));
    std::istringstream changed(replaced(made.bytes, made.entries[1].kind, "other"));
    CHECK_FALSE(bundledEntryAt(changed, places[1]));
}

TEST_CASE("a bundle begins with what a person can read")
{
    const std::string line = someBundle().bytes.substr(0, someBundle().bytes.find('\n'));
    CHECK_THAT(
        line,
        Catch::StartsWith("{\"loopside_bundle\":1,\"about\":\"What a Loopside tablet recorded of Brackwater Mill: "
                          "6 entries, 2 attachments. To look at it: loopside-cli bundle show FILE.")
            && Catch::Contains("\"made\":\"2025-07-12T06:15:00Z\""));
}

TEST_CASE("a bundle has the bytes of the worked example in schema README")
{
    std::ifstream file(LOOPSIDE_SOURCE_DIR "/schema/README.md");
    std::string line;
    std::string example;
    while (std::getline(file, line)) {
        if (line.starts_with("{\"loopside_bundle\"") || line.starts_with("{\"sha256\":\"")) {
            example += line + '\n';
        }
    }
    ledger::Seed seed; // the secret of RFC 8032, section 7.1, test 1
    REQUIRE(fromHex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60", seed));
    const auto key = ledger::DeviceKey::fromSeed(seed);
    const Id device = idFromText("00000000-0000-4000-8000-0000000000d1").value();
    std::ostringstream out;
    BundleWriter(out, {"Brackwater Mill", 1'751'958'400'000, device, key.publicKey()}).end(key);
    CHECK(out.str() == example);
    CHECK(read(example));
}

TEST_CASE("an empty bundle is a bundle")
{
    std::ostringstream out;
    const BundleTitle title{"", 0, Recorder(1).device(), Recorder::keyOf(1).publicKey()};
    BundleWriter(out, title).end(Recorder::keyOf(1));
    const auto bundle = read(out.str());
    REQUIRE(bundle);
    CHECK(bundle->title == title);
}

TEST_CASE("a bundle cut anywhere is told")
{
    const std::string bytes = someBundle().bytes;
    for (std::size_t length = 0; length < bytes.size(); ++length) {
        CAPTURE(length);
        isTold(bytes.substr(0, length));
    }
    const auto cut = read(bytes.substr(0, bytes.size() / 2));
    CHECK_THAT(cut.error().sentence, Catch::Contains("was cut short"));
    CHECK_THAT(cut.error().sentence, Catch::Contains("Copy the bundle again"));
}

TEST_CASE("a byte turned at every seventh place of a bundle is told")
{
    const std::string bytes = someBundle().bytes;
    for (std::size_t place = 0; place < bytes.size(); place += 7) {
        for (const unsigned bit : {0U, 5U}) {
            std::string turned = bytes;
            turned[place] = static_cast<char>(static_cast<unsigned char>(turned[place]) ^ (1U << bit));
            CAPTURE(place, bit);
            isTold(turned);
        }
    }
}

TEST_CASE("what is no bundle, a newer one, and one with something behind its end are told")
{
    const Made made = someBundle();
    const auto [bytes, code, words] = GENERATE_REF(table<std::string, Errc, const char*>({
        {"", Errc::Malformed, "this is no bundle of Loopside"},
        {"\n", Errc::Malformed, "this is no bundle of Loopside"},
        {"%PDF-1.4\nand so on\n", Errc::Malformed, "this is no bundle of Loopside"},
        {"{\"loopside_export\":1,\"entries\":0,\"missing\":[]}\n", Errc::Malformed, "this is no bundle of Loopside"},
        {"{\"loopside_bundle\":2,\"other\":true}\n", Errc::Incompatible, "newer version of Loopside: update this one"},
        {made.bytes + "x", Errc::Malformed, "something stands behind the end"},
        {made.bytes + made.bytes, Errc::Malformed, "something stands behind the end"},
    }));
    const auto bundle = read(bytes);
    REQUIRE_FALSE(bundle);
    CHECK(bundle.error().code == code);
    CHECK_THAT(bundle.error().sentence, Catch::Contains(words));
}

TEST_CASE("a bundle that was altered and signed anew shows it")
{
    const Made made = someBundle();
    SECTION("by another device")
    {
        const auto bundle = read(signedAnew(replaced(made.bytes, "Brackwater", "Blackwater"), 2));
        REQUIRE_FALSE(bundle);
        CHECK(bundle.error().code == Errc::Corrupt);
        CHECK_THAT(bundle.error().sentence, Catch::Contains("not signed by the device that it says made it"));
    }
    SECTION("by the device itself, with an entry changed")
    {
        const auto bundle = read(signedAnew(replaced(made.bytes, "note 2", "note 3"), 1));
        REQUIRE_FALSE(bundle);
        CHECK(bundle.error().code == Errc::Corrupt);
        CHECK_THAT(bundle.error().sentence,
                   Catch::Contains("line 4: entry 3 of chain") && Catch::Contains("was changed"));
    }
    SECTION("by the device itself, with an attachment changed")
    {
        const auto bundle = read(signedAnew(replaced(made.bytes, "aaaa", "aaba"), 1));
        REQUIRE_FALSE(bundle);
        CHECK_THAT(bundle.error().sentence, Catch::Contains("the attachment") && Catch::Contains("was altered"));
    }
    SECTION("by the device itself, with an entry left out")
    {
        const auto line = lineOf(made.entries[3]) + '\n';
        isTold(signedAnew(replaced(made.bytes, line, ""), 1));
    }
    SECTION("with another key for a chain")
    {
        const auto bundle = read(signedAnew(
            replaced(made.bytes, toHex(Recorder::keyOf(2).publicKey()), toHex(Recorder::keyOf(3).publicKey())), 1));
        REQUIRE_FALSE(bundle);
        CHECK_THAT(bundle.error().sentence, Catch::Contains("is not signed by the device that it says wrote it"));
    }
}

TEST_CASE("chains without an opening have no place in a bundle")
{
    const auto entries = Recorder(1).chainOf(3);
    CHECK(chainsOf({entries[1], entries[2]}).empty());
    ChainsGathered gathered;
    gathered.add(entries[1]);
    CHECK_FALSE(gathered.has(entries[0].chain));
    CHECK((gathered.entries() == 0 && gathered.leftOut() == 1));
    gathered.add(entries[0]); // it may stand behind the others
    CHECK(gathered.has(entries[0].chain));
    CHECK((gathered.entries() == 2 && gathered.leftOut() == 0));
    const auto chains = chainsOf(entries);
    REQUIRE(chains.size() == 1);
    CHECK(chains.front() == BundledChain{Recorder(1).device(), Recorder::keyOf(1).publicKey(), entries[0].chain, 1, 4});
}

TEST_CASE("a taker that fails ends the reading")
{
    const auto isFull = [](const auto&...) -> Done { return fail(Errc::Io, "the disk is full"); };
    for (const BundleTaker& take : {BundleTaker{isFull, nullptr}, BundleTaker{nullptr, isFull}}) {
        const auto bundle = read(someBundle().bytes, take);
        REQUIRE_FALSE(bundle);
        CHECK(bundle.error().code == Errc::Io);
    }
}
