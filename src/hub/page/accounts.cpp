// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/accounts.h"

#include "base/require.h"
#include "base/text.h"

#include <sodium.h>

#include <algorithm>
#include <array>

namespace loopside::page {

namespace {

constexpr std::array<std::string_view, 3> roleNames = {"engineer", "planner", "admin"};
constexpr std::int64_t usedAgainMs = 60'000; ///< A use is told to the store once a minute: fewer writes.

TokenHash hashOfToken(std::string_view token)
{
    TokenHash hash = {};
    crypto_hash_sha256(hash.data(), reinterpret_cast<const unsigned char*>(token.data()), token.size());
    return hash;
}

std::string newToken()
{
    std::array<unsigned char, 32> bytes = {};
    randombytes_buf(bytes.data(), bytes.size());
    constexpr int variant = sodium_base64_VARIANT_URLSAFE_NO_PADDING;
    std::string text(sodium_base64_encoded_len(bytes.size(), variant), '\0');
    sodium_bin2base64(text.data(), text.size(), bytes.data(), bytes.size(), variant);
    text.pop_back(); // the zero at its end
    return text;
}

} // namespace

std::string_view nameOf(Role role)
{
    return roleNames.at(static_cast<std::size_t>(role));
}

std::optional<Role> roleNamed(std::string_view name)
{
    const auto found = std::ranges::find(roleNames, name);
    return found == roleNames.end() ? std::nullopt : std::optional(static_cast<Role>(found - roleNames.begin()));
}

std::string signInName(std::string_view name)
{
    constexpr std::size_t longest = 64;
    std::string plain(trimmed(name));
    std::ranges::transform(plain, plain.begin(), [](char sign) {
        return sign >= 'A' && sign <= 'Z' ? static_cast<char>(sign - 'A' + 'a') : sign;
    });
    const bool hasControl = std::ranges::any_of(
        plain, [](char sign) { return static_cast<unsigned char>(sign) < 0x20U || sign == 0x7F; });
    return hasControl || plain.size() > longest || !isUtf8(plain) ? std::string() : plain;
}

Accounts::Accounts(AccountStore& store, const PasswordCost& cost, const SessionLife& life)
    : store_{store}, cost_{cost}, life_{life}
{
    require(sodium_init() >= 0, "libsodium can be used");
    nobodysHash_ = hashOf("nobody has this password").value_or(std::string());
}

Result<std::string> Accounts::hashOf(std::string_view password) const
{
    std::array<char, crypto_pwhash_STRBYTES> hash = {};
    if (crypto_pwhash_str_alg(hash.data(), password.data(), password.size(), cost_.passes, cost_.bytes,
                              crypto_pwhash_ALG_ARGON2ID13)
        != 0) {
        return fail(Errc::Unavailable, "there is not enough memory to take a password");
    }
    return std::string(hash.data());
}

Result<Account> Accounts::add(const Id& by, const Id& person, std::string_view name, Role role,
                              std::string_view password, std::int64_t nowMs)
{
    const std::string plain = signInName(name);
    if (plain.empty()) {
        return fail(Errc::Malformed, "\"" + quotable(name) + "\" can be no name to sign in by");
    }
    if (const Done fits = mayBePassword(password, plain); !fits) {
        return fail(fits.error());
    }
    const auto there = store_.named(plain);
    const auto same = there ? store_.of(person) : fail(there.error());
    if (!same) {
        return fail(same.error());
    }
    if (*there || *same) {
        return fail(Errc::Conflict,
                    *there ? "there is an account \"" + plain + "\" already"
                           : "the person has an account already, \"" + (*same)->name + "\"");
    }
    const auto hash = hashOf(password);
    if (!hash) {
        return fail(hash.error());
    }
    const Account account{person, plain, role, *hash, false};
    const Done put = store_.put(account, {nowMs, by, "account added as " + std::string(nameOf(role)), plain});
    return put ? Result<Account>(account) : fail(put.error());
}

template<class Change>
Done Accounts::change(const Id& by, std::string_view name, const std::string& what, std::int64_t nowMs, Change change)
{
    auto found = store_.named(signInName(name));
    if (!found) {
        return fail(found.error());
    }
    if (!*found) {
        return fail(Errc::NotFound, "there is no account \"" + quotable(name) + "\"");
    }
    change(**found);
    return store_.put(**found, {nowMs, by, what, (*found)->name});
}

Done Accounts::setRole(const Id& by, std::string_view name, Role role, std::int64_t nowMs)
{
    return change(by, name, "role is now " + std::string(nameOf(role)), nowMs,
                  [&](Account& account) { account.role = role; });
}

Done Accounts::setPassword(const Id& by, std::string_view name, std::string_view password, std::int64_t nowMs)
{
    if (Done fits = mayBePassword(password, signInName(name)); !fits) {
        return fits;
    }
    const auto hash = hashOf(password);
    if (!hash) {
        return fail(hash.error());
    }
    return change(by, name, "password set", nowMs, [&](Account& account) { account.passwordHash = *hash; });
}

Done Accounts::setOut(const Id& by, std::string_view name, bool isOut, std::int64_t nowMs)
{
    return change(by, name, isOut ? "may not sign in any more" : "may sign in again", nowMs,
                  [&](Account& account) { account.isOut = isOut; });
}

Result<SignedIn> Accounts::signIn(std::string_view name, std::string_view password, std::int64_t nowMs)
{
    const auto found = store_.named(signInName(name));
    if (!found) {
        return fail(found.error());
    }
    const bool mayBe = *found && !(*found)->isOut && password.size() <= passwordBytesMost;
    const std::string& hash = mayBe ? (*found)->passwordHash : nobodysHash_;
    const bool fits = crypto_pwhash_str_verify(hash.c_str(), password.data(), password.size()) == 0;
    if (!fits || !mayBe) {
        return fail(Errc::NotFound, "name or password is not right", {"page.refused.sign-in", {}});
    }
    if (const Done cleared = store_.endOlder(nowMs - life_.wholeMs, nowMs - life_.idleMs); !cleared) {
        return fail(cleared.error());
    }
    return begin(**found, nowMs);
}

Result<SignedIn> Accounts::begin(const Account& account, std::int64_t nowMs)
{
    SignedIn signedIn{newToken(), account};
    const Done begun = store_.put(Session{hashOfToken(signedIn.token), account.person, nowMs, nowMs});
    return begun ? Result<SignedIn>(std::move(signedIn)) : fail(begun.error());
}

bool Accounts::isOver(const Session& session, std::int64_t nowMs) const
{
    return nowMs - session.begunMs >= life_.wholeMs || nowMs - session.usedMs >= life_.idleMs;
}

Result<std::optional<Account>> Accounts::whoIs(std::string_view token, std::int64_t nowMs, bool isUse)
{
    const auto session = store_.session(hashOfToken(token));
    if (!session) {
        return fail(session.error());
    }
    if (!*session || isOver(**session, nowMs)) {
        return std::optional<Account>();
    }
    auto account = store_.of((*session)->person);
    if (!account || !*account || (*account)->isOut) {
        return account ? Result<std::optional<Account>>(std::nullopt) : account;
    }
    if (isUse && nowMs - (*session)->usedMs >= usedAgainMs) {
        Session used = **session;
        used.usedMs = nowMs;
        if (const Done told = store_.put(used); !told) {
            return fail(told.error());
        }
    }
    return account;
}

Done Accounts::signOut(std::string_view token)
{
    return store_.end(hashOfToken(token));
}

bool Accounts::isThere(std::string_view name)
{
    const auto found = store_.named(signInName(name));
    return found && *found;
}

Result<SignedIn> Accounts::changePassword(const Account& who, std::string_view old, std::string_view wanted,
                                          std::int64_t nowMs)
{
    const auto now = store_.of(who.person);
    if (!now) {
        return fail(now.error());
    }
    const bool isRight = *now && old.size() <= passwordBytesMost
        && crypto_pwhash_str_verify((*now)->passwordHash.c_str(), old.data(), old.size()) == 0;
    if (!isRight) {
        return fail(Errc::NotFound, "the password is not right", {"page.refused.password-wrong", {}});
    }
    if (old == wanted) {
        return fail(Errc::Malformed, "the new password is the old one", {"page.refused.password-same", {}});
    }
    const Done set = setPassword(who.person, who.name, wanted, nowMs);
    return set ? begin(**now, nowMs) : fail(set.error());
}

Result<std::vector<Session>> Accounts::sessionsOf(const Account& who, std::int64_t nowMs)
{
    return store_.sessionsOf(who.person).transform([&](std::vector<Session> all) {
        std::erase_if(all, [&](const Session& session) { return isOver(session, nowMs); });
        return all;
    });
}

Done Accounts::endSessions(const Account& who, const std::function<bool(const std::string& mark)>& isToEnd)
{
    const auto all = store_.sessionsOf(who.person);
    if (!all) {
        return fail(all.error());
    }
    for (const Session& session : *all) {
        const Done ended = isToEnd(markOf(session)) ? store_.end(session.token) : Done{};
        if (!ended) {
            return ended;
        }
    }
    return {};
}

std::string markOf(const Session& session)
{
    constexpr std::size_t markBytes = 8;
    return toHex(std::span(session.token).first(markBytes));
}

std::string markOf(std::string_view token)
{
    return markOf(Session{.token = hashOfToken(token)});
}

} // namespace loopside::page
