// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/entry.h"

#include "base/text.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <map>
#include <sstream>

using namespace loopside;
using namespace loopside::ledger;

namespace {

Id id(const char* text)
{
    return idFromText(text).value();
}

/// The entry of the worked example in schema/README.md, field by field as its table gives them.
Entry exampleEntry()
{
    Entry entry;
    entry.header.id = id("0197e8db-ac00-7001-8000-00000000000a");
    entry.header.device = id("00000000-0000-4000-8000-0000000000d1");
    entry.header.sequence = 2;
    entry.header.clock = (1'751'958'400'000U << 16U) + 3;
    entry.header.run = id("0197e8db-1e48-7001-8000-00000000000b");
    entry.header.entered = {1'751'958'400'000, -300, 81'234'567'890, id("00000000-0000-4000-8000-0000000000b1")};
    entry.header.observed = {600'000, "said"};
    entry.header.person = id("00000000-0000-4000-8000-0000000000e1");
    entry.chain = id("00000000-0000-4000-8000-0000000000c1");
    entry.kind = "note-made";
    entry.body = "{\"text\":\"35 °C\"}";
    for (std::uint8_t i = 0; i < 32; ++i) {
        entry.previous[i] = i;
    }
    return entry;
}

/// The worked example: its rows' bytes one behind the other, and its named values.
struct WorkedExample
{
    std::string bytes;
    std::map<std::string, std::string> values;
};

WorkedExample workedExample()
{
    std::ifstream file(LOOPSIDE_SOURCE_DIR "/schema/README.md");
    REQUIRE(file);
    std::string line;
    while (line != "### Worked example") {
        REQUIRE(std::getline(file, line));
    }
    WorkedExample example;
    while (std::getline(file, line) && !line.starts_with("## ")) {
        std::size_t at = 0;
        std::size_t size = 0;
        const std::string hex = line.substr(line.find_last_of(' ') + 1);
        if (std::istringstream(line) >> at >> size) {
            CHECK(at * 2 == example.bytes.size());
            CHECK(size * 2 == hex.size());
            example.bytes += hex;
        } else if (line.starts_with("hash") || line.starts_with("public key") || line.starts_with("signature")) {
            example.values[line.substr(0, line.find("  "))] = hex;
        }
    }
    return example;
}

std::span<const std::uint8_t> asBytes(const std::string& text)
{
    return {reinterpret_cast<const std::uint8_t*>(text.data()), text.size()};
}

/// The secret of RFC 8032, section 7.1, test 1.
Seed publishedSeed()
{
    Seed seed;
    REQUIRE(fromHex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60", seed));
    return seed;
}

} // namespace

TEST_CASE("an entry has the bytes, hash and signature of the worked example in schema README")
{
    const WorkedExample example = workedExample();
    REQUIRE(example.bytes.size() == 432); // two digits for each of 216 bytes
    Entry entry = exampleEntry();
    CHECK(toHex(asBytes(signedBytes(entry))) == example.bytes);

    entry.hash = hashOf(entry);
    CHECK(toHex(entry.hash) == example.values.at("hash"));
    const DeviceKey key = DeviceKey::fromSeed(publishedSeed());
    CHECK(toHex(key.publicKey()) == example.values.at("public key"));
    CHECK(toHex(signatureOf(entry, key)) == example.values.at("signature"));
}

TEST_CASE("a text moved from one field of an entry to the next gives other bytes")
{
    Entry one = exampleEntry();
    Entry other = exampleEntry();
    one.kind = "ab";
    one.body = "c";
    other.kind = "a";
    other.body = "bc";
    CHECK(signedBytes(one).size() == signedBytes(other).size());
    CHECK(signedBytes(one) != signedBytes(other));
}

TEST_CASE("a signature of an entry holds for its hash and its signer alone")
{
    const DeviceKey key = DeviceKey::fromSeed(publishedSeed());
    Entry entry = exampleEntry();
    entry.hash = hashOf(entry);
    entry.signature = signatureOf(entry, key);
    CHECK(isSignedBy(entry, key.publicKey()));

    SECTION("another signer")
    {
        CHECK_FALSE(isSignedBy(entry, DeviceKey::fromSeed({1}).publicKey()));
    }
    SECTION("another hash")
    {
        entry.hash[31] ^= 1U;
        CHECK_FALSE(isSignedBy(entry, key.publicKey()));
    }
    SECTION("the bare hash signed without the words that say what it is")
    {
        entry.signature = key.sign({reinterpret_cast<const char*>(entry.hash.data()), entry.hash.size()});
        CHECK_FALSE(isSignedBy(entry, key.publicKey()));
    }
}
