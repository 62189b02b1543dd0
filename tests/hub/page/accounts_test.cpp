// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/accounts.h"

#include "hub/page/cookie.h"
#include "hub/page/sign_in_pace.h"
#include "hub/page/some_accounts.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::page;
using loopside::test::personOf;
using loopside::test::SomeAccounts;

namespace {

constexpr std::int64_t now = 1'783'836'900'000;
constexpr std::int64_t hour = 3'600'000;
constexpr const char* right = "four plain words here";

} // namespace

TEST_CASE("who signs in by name and password has a session until signing out")
{
    SomeAccounts some;
    const auto signedIn = some.accounts.signIn("  INES ", right, now);
    REQUIRE(signedIn.has_value());
    CHECK(signedIn->token.size() == 43);
    const auto who = some.accounts.whoIs(signedIn->token, now + 1);
    REQUIRE((who.has_value() && who->has_value()));
    CHECK((*who)->name == "ines");
    CHECK((*who)->role == Role::Planner);
    REQUIRE(some.accounts.signOut(signedIn->token).has_value());
    CHECK_FALSE(some.accounts.whoIs(signedIn->token, now + 2)->has_value());
}

TEST_CASE("a wrong name, a wrong password and one who is out are told alike")
{
    SomeAccounts some;
    REQUIRE(some.accounts.setOut({}, "ruth", true, now).has_value());
    for (const auto& [name, password] : std::map<std::string, std::string>{{"ines", "four plain words her"},
                                                                           {"nobody", right},
                                                                           {"ruth", right},
                                                                           {"", ""},
                                                                           {"tomasz", std::string(500, 'x')}}) {
        const auto refused = some.accounts.signIn(name, password, now);
        CAPTURE(name);
        REQUIRE_FALSE(refused.has_value());
        CHECK(refused.error().code == Errc::NotFound);
        CHECK(refused.error().say.id == "page.refused.sign-in");
    }
}

TEST_CASE("a session ends after half an hour without use, and after twelve hours at all")
{
    SomeAccounts some;
    const std::string idle = some.accounts.signIn("ines", right, now)->token;
    CHECK(some.accounts.whoIs(idle, now + hour / 2 - 1)->has_value()); // counts as use
    CHECK(some.accounts.whoIs(idle, now + hour - 2)->has_value());
    CHECK_FALSE(some.accounts.whoIs(idle, now + 3 * hour / 2)->has_value());

    const std::string busy = some.accounts.signIn("ines", right, now)->token;
    for (std::int64_t at = now; at < now + 12 * hour; at += hour / 3) {
        CHECK(some.accounts.whoIs(busy, at)->has_value());
    }
    CHECK_FALSE(some.accounts.whoIs(busy, now + 12 * hour)->has_value());
}

TEST_CASE("another role, another password and leaving end all sessions of an account, and only of that")
{
    SomeAccounts some;
    const std::string hers = some.accounts.signIn("ines", right, now)->token;
    const std::string his = some.accounts.signIn("tomasz", right, now)->token;
    SECTION("role")
    {
        REQUIRE(some.accounts.setRole({}, "ines", Role::Engineer, now).has_value());
    }
    SECTION("password")
    {
        REQUIRE(some.accounts.setPassword({}, "ines", "another four plain words", now).has_value());
        CHECK_FALSE(some.accounts.signIn("ines", right, now).has_value());
    }
    SECTION("out")
    {
        REQUIRE(some.accounts.setOut({}, "ines", true, now).has_value());
    }
    CHECK_FALSE(some.accounts.whoIs(hers, now + 1)->has_value());
    CHECK(some.accounts.whoIs(his, now + 1)->has_value());
}

TEST_CASE("neither password nor token is in the store, and what is there is argon2id")
{
    SomeAccounts some;
    const std::string token = some.accounts.signIn("ines", right, now)->token;
    const auto account = *some.store.named("ines");
    REQUIRE(account.has_value());
    CHECK(account->passwordHash.starts_with("$argon2id$"));
    CHECK(account->passwordHash.find(right) == std::string::npos);
    TokenHash plain = {};
    std::copy_n(token.begin(), plain.size(), plain.begin());
    CHECK_FALSE(some.store.session(plain)->has_value());
}

TEST_CASE("a short password, one that is no text and a name that is taken are refused")
{
    SomeAccounts some;
    const auto codeOf = [&](std::string_view name, std::string_view password) {
        const auto added = some.accounts.add({}, personOf(9), name, Role::Planner, password, now);
        return added ? std::optional<Errc>() : added.error().code;
    };
    CHECK(codeOf("eva", "eleven sign") == Errc::Malformed);
    CHECK(codeOf("eva", "\xFF\xFE twelve and more") == Errc::Malformed);
    CHECK(codeOf("\n", right) == Errc::Malformed);
    CHECK(codeOf("Ines", right) == Errc::Conflict);
    CHECK_FALSE(codeOf("eva", "twelve signs").has_value());
}

TEST_CASE(
    "passwords that are tried first are refused, whatever is put behind them, and odd ones of some length are not")
{
    for (const char* easy : {"passwordpassword", "Password1234!", "P@ssw0rd2026", "123456789012", "qwertyuiop12",
                             "qwertzuiop12", "aaaaaaaaaaaa", "abcabcabcabc", "Loopside2026!", "ines12345678",
                             "iloveyou1234", "abcdefghijkl", "lkjhgfdsa1234", "Willkommen123", "dot.dot.dot.dot."}) {
        CAPTURE(easy);
        CHECK(isEasilyGuessed(easy, "ines"));
    }
    for (const char* odd : {"four plain words here", "twelve signs", "quite another four words", "xK9!vd2#qLmw",
                            "sal mina roble tubo", "\xC3\x84pfel im Schrank", "my password is a heron"}) {
        CAPTURE(odd);
        CHECK_FALSE(isEasilyGuessed(odd, "ines"));
    }
}

TEST_CASE("a password may have up to 128 signs of any alphabet")
{
    SomeAccounts some;
    std::string longest;
    for (int i = 0; i < 32; ++i) {
        longest += "\xF0\x9F\x98" + std::string(1, static_cast<char>(0x80 + i % 30)) + "\xC3\xA9x"
            + static_cast<char>('a' + i % 25);
    }
    REQUIRE(some.accounts.setPassword({}, "ines", longest, now).has_value());
    CHECK(some.accounts.signIn("ines", longest, now).has_value());
    CHECK_FALSE(some.accounts.signIn("ines", longest.substr(0, longest.size() - 1), now).has_value());
    CHECK_FALSE(some.accounts.setPassword({}, "ines", longest + "x", now).has_value());
}

TEST_CASE("each act of administration stands in the audit, which nobody takes a line out of")
{
    SomeAccounts some;
    REQUIRE(some.accounts.setRole(personOf(3), "Ines", Role::Admin, now + 5).has_value());
    CHECK_FALSE(some.accounts.setRole(personOf(3), "nobody", Role::Admin, now).has_value());
    const auto audit = some.store.audit(10);
    REQUIRE(audit.has_value());
    REQUIRE(audit->size() == 4); // three were added
    CHECK(audit->front() == AuditLine{now + 5, personOf(3), "role is now admin", "ines"});
    CHECK(audit->back().what == "account added as planner");
    CHECK(some.store.audit(1)->size() == 1);
}

TEST_CASE("after four wrong tries each further one doubles the wait, up to a quarter of an hour")
{
    SignInPace pace;
    for (int i = 0; i < 3; ++i) {
        pace.failed("name ines", 1000);
        CHECK(pace.waitS("name ines", 1000) == 0);
    }
    std::vector<int> waits;
    for (int i = 0; i < 12; ++i) {
        pace.failed("name ines", 1000);
        waits.push_back(pace.waitS("name ines", 1000));
    }
    CHECK(waits == std::vector<int>{1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 900, 900});
    CHECK(pace.waitS("name ines", 1000 + 899'001) == 1);
    CHECK(pace.waitS("name ines", 1000 + 900'000) == 0);
    CHECK(pace.waitS("name ruth", 1000) == 0);
    pace.succeeded("name ines");
    pace.failed("name ines", 2000);
    CHECK(pace.waitS("name ines", 2000) == 0);
}

TEST_CASE("the pace of sign-ins holds no more than it may, and forgets the oldest")
{
    SignInPace pace;
    for (std::size_t i = 0; i < SignInPace::knownMost + 5; ++i) {
        for (int k = 0; k < (i == SignInPace::knownMost ? 8 : 1); ++k) {
            pace.failed("address " + std::to_string(i), static_cast<std::int64_t>(i));
        }
    }
    CHECK(pace.known() == SignInPace::knownMost);
    CHECK(pace.waitS("address " + std::to_string(SignInPace::knownMost), SignInPace::knownMost) > 0);
}

TEST_CASE("the cookie is for this host over HTTPS alone, and no script reads it")
{
    CHECK(cookieWith("abc") == "__Host-loopside=abc; Path=/; Secure; HttpOnly; SameSite=Strict");
    CHECK(cookieWithout().find("Max-Age=0") != std::string::npos);
    CHECK(tokenIn("a=1; __Host-loopside=abc; b=2") == "abc");
    CHECK_FALSE(tokenIn("a=1; loopside=abc").has_value());
    CHECK_FALSE(tokenIn("__Host-loopside=abc; __Host-loopside=def").has_value());
    CHECK_FALSE(tokenIn("").has_value());
}

TEST_CASE("an account that is there is not made anew: its password stays")
{
    SomeAccounts some;
    const std::string other = "four other words here";
    const auto sameName = some.accounts.add({}, personOf(1), "INES", Role::Admin, other, now);
    REQUIRE_FALSE(sameName.has_value());
    CHECK(sameName.error().code == Errc::Conflict);
    const auto samePerson = some.accounts.add({}, personOf(1), "ines keller", Role::Admin, other, now);
    REQUIRE_FALSE(samePerson.has_value());
    CHECK(samePerson.error().sentence.find("\"ines\"") != std::string::npos);
    CHECK(some.accounts.signIn("ines", right, now).has_value());
}
