// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/id.h"
#include "base/result.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::page {

/// What somebody may do on the page: all may look; planners and admins plan jobs; admins keep the accounts.
enum class Role
{
    Engineer,
    Planner,
    Admin
};

[[nodiscard]] std::string_view nameOf(Role role);
[[nodiscard]] std::optional<Role> roleNamed(std::string_view name);

/// Who may sign in. The password itself is nowhere.
struct Account
{
    Id person = {};   ///< Under which their entries stand in the journal.
    std::string name; ///< By which they sign in, as `signInName` has it.
    Role role = Role::Engineer;
    std::string passwordHash; ///< Argon2id, with its salt and costs.
    bool isOut = false;       ///< Kept for old entries; may not sign in.

    friend bool operator==(const Account&, const Account&) = default;
};

/// SHA-256 of a session's token: who reads the store cannot take a session over.
using TokenHash = std::array<std::uint8_t, 32>;

struct Session
{
    TokenHash token = {};
    Id person = {};
    std::int64_t begunMs = 0; ///< UTC.
    std::int64_t usedMs = 0;  ///< Last time, UTC.

    friend bool operator==(const Session&, const Session&) = default;
};

/// One act of administration, for good.
struct AuditLine
{
    std::int64_t atMs = 0; ///< UTC.
    Id by = {};            ///< None: who stands at the hub's own terminal.
    std::string what;      ///< Such as "account added".
    std::string whom;      ///< The account's name.

    friend bool operator==(const AuditLine&, const AuditLine&) = default;
};

/// The door to where accounts and sessions are kept: SQLite, or a database that several hubs share.
///
/// Errors are Io or Unavailable; then nothing was changed. Not thread-safe; the owner serialises calls.
class AccountStore
{
public:
    virtual ~AccountStore() = default;

    [[nodiscard]] virtual Result<std::optional<Account>> named(const std::string& name) = 0;
    [[nodiscard]] virtual Result<std::optional<Account>> of(const Id& person) = 0;
    [[nodiscard]] virtual Result<std::vector<Account>> all() = 0;

    /// Puts an account, new or in place of the one of the same person, with the line of the audit that tells of it:
    /// both or none. All sessions of the account end. Conflict if another person has the name.
    [[nodiscard]] virtual Done put(const Account& account, const AuditLine& line) = 0;

    [[nodiscard]] virtual Result<std::optional<Session>> session(const TokenHash& token) = 0;
    /// A new session, or when it was last used.
    [[nodiscard]] virtual Done put(const Session& session) = 0;
    [[nodiscard]] virtual Done end(const TokenHash& token) = 0;
    /// The sessions of a person, the one that was used last first.
    [[nodiscard]] virtual Result<std::vector<Session>> sessionsOf(const Id& person) = 0;
    /// Ends the sessions that were begun or used last before these times.
    [[nodiscard]] virtual Done endOlder(std::int64_t begunMs, std::int64_t usedMs) = 0;

    /// The latest lines, the latest first, at most `limit`.
    [[nodiscard]] virtual Result<std::vector<AuditLine>> audit(std::size_t limit) = 0;
};

} // namespace loopside::page
