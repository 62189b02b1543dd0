// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "hub/page/account_store.h"
#include "hub/page/password.h"

#include <functional>
#include <string>

namespace loopside::page {

/// What a password costs to check. The default is libsodium's interactive one: 64 MiB, two passes, some 0.1 s; OWASP
/// asks for at least 19 MiB and two passes (Password Storage Cheat Sheet, from memory).
struct PasswordCost
{
    unsigned long long passes = 2;
    std::size_t bytes = 64U << 20U;
};

/// How long a session lasts: without use, and at all.
struct SessionLife
{
    std::int64_t idleMs = 30LL * 60 * 1000; ///< OWASP ASVS 4, 3.3.2, level 2; from memory.
    std::int64_t wholeMs = 12LL * 60 * 60 * 1000;
};

/// `name` without blanks around it and in small letters (of ASCII). Empty if it can be no name.
[[nodiscard]] std::string signInName(std::string_view name);

/// A session that has begun. The token is told once, to the browser.
struct SignedIn
{
    std::string token; ///< 43 signs of base64url: 256 random bits.
    Account account;
};

/// By which a session can be named to its owner: some digits of the hash of its token.
[[nodiscard]] std::string markOf(const Session& session);

/// The session of `token`, by its mark.
[[nodiscard]] std::string markOf(std::string_view token);

/// Who may sign in, and who has. Takes passwords and tokens, and keeps neither.
///
/// Not thread-safe; the owner serialises calls. The store outlives it. `nowMs` is UTC.
class Accounts
{
public:
    explicit Accounts(AccountStore& store, const PasswordCost& cost = {}, const SessionLife& life = {});

    /// Malformed if name or password can be none, Conflict if the name is taken or the person has an account.
    [[nodiscard]] Result<Account> add(const Id& by, const Id& person, std::string_view name, Role role,
                                      std::string_view password, std::int64_t nowMs);
    /// Each ends all sessions of that account, and stands in the audit. NotFound if there is no such account.
    [[nodiscard]] Done setRole(const Id& by, std::string_view name, Role role, std::int64_t nowMs);
    [[nodiscard]] Done setPassword(const Id& by, std::string_view name, std::string_view password, std::int64_t nowMs);
    [[nodiscard]] Done setOut(const Id& by, std::string_view name, bool isOut, std::int64_t nowMs);

    /// Begins a session. NotFound, after the same time, for a wrong name as for a wrong password or one who is out.
    [[nodiscard]] Result<SignedIn> signIn(std::string_view name, std::string_view password, std::int64_t nowMs);

    /// Whose session `token` is; nobody if it is none or is over. Counts as use if somebody asks, and not the page by
    /// itself.
    [[nodiscard]] Result<std::optional<Account>> whoIs(std::string_view token, std::int64_t nowMs, bool isUse = true);

    [[nodiscard]] Done signOut(std::string_view token);

    /// Whether somebody has `name`; false too while nobody can look.
    [[nodiscard]] bool isThere(std::string_view name);

    /// The password of `who`, by themselves. Ends all of their sessions and begins a new one. NotFound if `old` is not
    /// the one they have, Malformed if `wanted` can be none or is the same; `say` tells which.
    [[nodiscard]] Result<SignedIn> changePassword(const Account& who, std::string_view old, std::string_view wanted,
                                                  std::int64_t nowMs);

    /// The sessions of `who` that are not over, the one that was used last first.
    [[nodiscard]] Result<std::vector<Session>> sessionsOf(const Account& who, std::int64_t nowMs);

    /// Ends those sessions of `who` whose marks `isToEnd` wants.
    [[nodiscard]] Done endSessions(const Account& who, const std::function<bool(const std::string& mark)>& isToEnd);

private:
    [[nodiscard]] bool isOver(const Session& session, std::int64_t nowMs) const;
    [[nodiscard]] Result<SignedIn> begin(const Account& account, std::int64_t nowMs);
    template<class Change>
    [[nodiscard]] Done change(const Id& by, std::string_view name, const std::string& what, std::int64_t nowMs,
                              Change change);
    [[nodiscard]] Result<std::string> hashOf(std::string_view password) const;

    AccountStore& store_;
    PasswordCost cost_;
    SessionLife life_;
    std::string nobodysHash_; ///< Checked where there is no account, so that both take the same time.
};

} // namespace loopside::page
