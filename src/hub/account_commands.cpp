// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/account_commands.h"

#include "base/text.h"
#include "hub/commands.h"
#include "hub/device_register.h"
#include "hub/page/accounts.h"
#include "hub/sql_accounts.h"
#include "store/system_clock.h"

#include <termios.h>
#include <unistd.h>

#include <algorithm>
#include <istream>
#include <ostream>

namespace loopside::hub {

namespace {

/// The accounts that the settings name, open.
class Opened
{
public:
    [[nodiscard]] static Result<Opened> from(const Settings& settings)
    {
        auto sql = openDatabase(settings);
        if (!sql) {
            return fail(sql.error());
        }
        store::SystemRandom random;
        const auto site = siteIn(**sql, settings.site, store::SystemClock().now().wallMs, random);
        return site ? Result<Opened>(Opened(*std::move(sql), site->site)) : fail(site.error());
    }

    [[nodiscard]] SqlAccounts& store() { return *store_; }
    [[nodiscard]] page::Accounts accounts() { return page::Accounts(*store_); }

private:
    Opened(std::unique_ptr<Sql> sql, const Id& site)
        : sql_{std::move(sql)}, store_{std::make_unique<SqlAccounts>(*sql_, site)}
    {
    }

    std::unique_ptr<Sql> sql_;
    std::unique_ptr<SqlAccounts> store_;
};

/// Nobody sees what is typed while this stands, where somebody types at all.
class Unseen
{
public:
    Unseen() : isTerminal_{::isatty(STDIN_FILENO) == 1 && ::tcgetattr(STDIN_FILENO, &before_) == 0}
    {
        if (isTerminal_) {
            termios now = before_;
            now.c_lflag &= ~static_cast<tcflag_t>(ECHO);
            ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &now);
        }
    }
    Unseen(const Unseen&) = delete;
    Unseen& operator=(const Unseen&) = delete;
    ~Unseen()
    {
        if (isTerminal_) {
            ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &before_);
        }
    }

private:
    termios before_ = {};
    bool isTerminal_;
};

Result<std::string> passwordFrom(std::istream& in, std::ostream& out)
{
    out << "Password, at least " << page::passwordSignsLeast << " signs: " << std::flush;
    const Unseen unseen;
    std::string password;
    const bool isRead = static_cast<bool>(std::getline(in, password));
    out << '\n';
    return isRead ? Result<std::string>(password) : fail(Errc::Malformed, "no password was given");
}

/// Whose entries those of the account will be.
Result<Id> personOf(const Settings& settings, const NewAccount& wanted)
{
    if (!wanted.person.empty()) {
        return idFromText(wanted.person);
    }
    return catalogueOf(settings).transform([&](const site::Site& site) {
        const auto found = std::ranges::find(site.people, page::signInName(wanted.name),
                                             [](const auto& person) { return page::signInName(person.name); });
        store::SystemRandom random;
        return found != site.people.end() ? found->id : IdMaker(random).next(store::SystemClock().now().wallMs);
    });
}

/// Does `change` to the accounts and says so.
template<class Change>
Done changed(const Settings& settings, std::ostream& out, const std::string& said, Change change)
{
    auto opened = Opened::from(settings);
    if (!opened) {
        return fail(opened.error());
    }
    page::Accounts accounts = opened->accounts();
    const Done done = change(accounts, store::SystemClock().now().wallMs);
    if (done) {
        out << said << '\n';
    }
    return done;
}

} // namespace

Done accounts(const Settings& settings, std::ostream& out)
{
    auto opened = Opened::from(settings);
    const auto all = opened ? opened->store().all() : fail(opened.error());
    constexpr std::size_t linesMost = 1000;
    const auto lines = all ? opened->store().audit(linesMost) : fail(all.error());
    if (!lines) {
        return fail(lines.error());
    }
    for (const page::Account& account : *all) {
        out << quotable(account.name) << "  " << page::nameOf(account.role) << "  " << toText(account.person)
            << (account.isOut ? "  may not sign in" : "") << '\n';
    }
    for (const page::AuditLine& line : *lines) {
        out << utcText(line.atMs) << ' ' << line.what << ": " << quotable(line.whom)
            << (line.by.isNone() ? std::string() : ", by " + toText(line.by)) << '\n';
    }
    return {};
}

Done addAccount(const Settings& settings, const NewAccount& wanted, std::istream& in, std::ostream& out)
{
    const auto person = personOf(settings, wanted);
    const auto password = person ? passwordFrom(in, out) : fail(person.error());
    if (!password) {
        return fail(password.error());
    }
    return changed(settings, out, "The account is there. Its entries stand under the person " + toText(*person) + ".",
                   [&](page::Accounts& accounts, std::int64_t nowMs) -> Done {
                       const auto added = accounts.add({}, *person, wanted.name, wanted.role, *password, nowMs);
                       return added ? Done{} : fail(added.error());
                   });
}

Done setPassword(const Settings& settings, const std::string& name, std::istream& in, std::ostream& out)
{
    const auto password = passwordFrom(in, out);
    if (!password) {
        return fail(password.error());
    }
    return changed(
        settings, out, "The new password holds. All sessions of the account ended.",
        [&](page::Accounts& accounts, std::int64_t nowMs) { return accounts.setPassword({}, name, *password, nowMs); });
}

Done setRole(const Settings& settings, const std::string& name, page::Role role, std::ostream& out)
{
    return changed(
        settings, out, "The new role holds. All sessions of the account ended.",
        [&](page::Accounts& accounts, std::int64_t nowMs) { return accounts.setRole({}, name, role, nowMs); });
}

Done setOut(const Settings& settings, const std::string& name, bool isOut, std::ostream& out)
{
    return changed(
        settings, out,
        isOut ? "The account may not sign in any more. What its person wrote stays." : "It may sign in again.",
        [&](page::Accounts& accounts, std::int64_t nowMs) { return accounts.setOut({}, name, isOut, nowMs); });
}

} // namespace loopside::hub
