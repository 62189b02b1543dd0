// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/keys.h"

#include "base/text.h"

#include <catch2/catch.hpp>

#include <type_traits>

using namespace loopside;
using namespace loopside::ledger;

static_assert(!std::is_copy_constructible_v<DeviceKey>);
static_assert(!std::is_copy_assignable_v<DeviceKey>);

namespace {

Seed seedOf(const char* hex)
{
    Seed seed;
    REQUIRE(fromHex(hex, seed));
    return seed;
}

} // namespace

TEST_CASE("keys and signatures are those that RFC 8032 prints")
{
    // RFC 8032, section 7.1, tests 1 and 2; from memory, test 2 confirmed with OpenSSL 3.0.
    struct Vector
    {
        const char* seed;
        const char* publicKey;
        std::string message;
        const char* signature;
    };
    const auto vector = GENERATE(
        values<Vector>({{"9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
                         "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a", "",
                         "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b"
                         "46bd25bf5f0595bbe24655141"
                         "438e7a100b"},
                        {"4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
                         "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c", "\x72",
                         "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11"
                         "d8c387b2eaeb4302aeeb00d29"
                         "1612bb0c00"}}));
    const DeviceKey key = DeviceKey::fromSeed(seedOf(vector.seed));
    CHECK(toHex(key.publicKey()) == vector.publicKey);
    const Signature signature = key.sign(vector.message);
    CHECK(toHex(signature) == vector.signature);
    CHECK(verifies(key.publicKey(), vector.message, signature));
}

TEST_CASE("a signature with any bit turned is refused")
{
    const DeviceKey key = DeviceKey::fromSeed({7});
    const Signature signature = key.sign("two stages");
    CHECK(verifies(key.publicKey(), "two stages", signature));
    CHECK_FALSE(verifies(key.publicKey(), "two stage", signature));
    for (std::size_t i = 0; i < signature.size() * 8; ++i) {
        Signature turned = signature;
        turned[i / 8] = static_cast<std::uint8_t>(turned[i / 8] ^ (1U << (i % 8)));
        CAPTURE(i);
        CHECK_FALSE(verifies(key.publicKey(), "two stages", turned));
    }
}

TEST_CASE("generated keys differ and come back from their seed")
{
    const DeviceKey one = DeviceKey::generate();
    const DeviceKey other = DeviceKey::generate();
    CHECK(one.publicKey() != other.publicKey());
    CHECK(DeviceKey::fromSeed(one.seed()).publicKey() == one.publicKey());
}

TEST_CASE("a key that was moved away leaves no secret behind")
{
    DeviceKey key = DeviceKey::fromSeed({7});
    const DeviceKey moved = std::move(key);
    CHECK(moved.seed() == Seed{7});
    CHECK(key.seed() == Seed{}); // NOLINT(bugprone-use-after-move): what is left is the point
}
