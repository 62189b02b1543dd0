// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/account_commands.h"
#include "hub/commands.h"

#include <CLI/CLI.hpp>

#include <functional>
#include <iostream>
#include <optional>

namespace {

using loopside::Done;
using loopside::hub::Settings;

constexpr int exitDone = 0;
constexpr int exitRefused = 1;
constexpr int exitUsage = 2;

using Verb = std::function<Done(const Settings&, std::ostream&)>;

/// The command line: fills in the options and remembers what to do with them.
class CommandLine
{
public:
    CommandLine()
    {
        app_.require_subcommand(1);
        app_.set_version_flag("--version", "loopside-hub " LOOPSIDE_VERSION, "print the version and exit");
        app_.add_option("--settings", settings_, "file of settings (TOML)");
        add("serve", "answer tablets until told to stop", loopside::hub::serve);
        add("enrol", "print a code that lets one tablet in", loopside::hub::enrol);
        add("devices", "list the tablets, and what was done to the hub", loopside::hub::devices);
        add("verify", "check every hash, link and signature that the hub holds", loopside::hub::verifyAll);
        addWith("revoke", "strike off a tablet that was lost", "device", "its id, as devices lists it",
                loopside::hub::revoke);
        addWith("backup", "write all that the hub holds into one file", "file", "a file that is not there",
                loopside::hub::backUp);
        addAccounts();
        addWith("restore", "put a backup into an empty database", "file", "the backup", loopside::hub::restore);
    }

    int run(int count, char** words)
    {
        try {
            app_.parse(count, words);
        } catch (const CLI::ParseError& problem) {
            return app_.exit(problem) == 0 ? exitDone : exitUsage;
        }
        const auto settings = loopside::hub::loadSettings(settings_);
        const Done done = settings ? verb_(*settings, std::cout) : loopside::fail(settings.error());
        if (!done) {
            std::cerr << "loopside-hub: " << done.error().sentence << '\n';
            return exitRefused;
        }
        return exitDone;
    }

private:
    void add(const std::string& name, const std::string& what, const Verb& verb)
    {
        app_.add_subcommand(name, what)->callback([this, verb] { verb_ = verb; });
    }

    void addWith(const std::string& name, const std::string& what, const std::string& word, const std::string& meaning,
                 Done (*verb)(const Settings&, const std::string&, std::ostream&))
    {
        CLI::App* command = app_.add_subcommand(name, what);
        command->add_option(word, word_, meaning)->required();
        command->callback([this, verb] {
            verb_ = [this, verb](const Settings& settings, std::ostream& out) { return verb(settings, word_, out); };
        });
    }

    void addAccounts()
    {
        add("accounts", "list who may sign in to the page, and what was done to accounts", loopside::hub::accounts);
        CLI::App* account = app_.add_subcommand("account",
                                                "let people in to the page, change or shut out their account");
        account->require_subcommand(1);
        CLI::App* adding = account->add_subcommand("add", "let somebody in; the password is asked for");
        addName(adding);
        addRole(adding);
        adding->add_option("--person", person_, "id of the person; without it the one of that name, or a new one");
        adding->callback([this] {
            verb_ = [this](const Settings& settings, std::ostream& out) {
                return loopside::hub::addAccount(settings, {word_, *role_, person_}, std::cin, out);
            };
        });
        CLI::App* role = account->add_subcommand("role", "make of somebody something else");
        addName(role);
        addRole(role);
        role->callback([this] {
            verb_ = [this](const Settings& settings, std::ostream& out) {
                return loopside::hub::setRole(settings, word_, *role_, out);
            };
        });
        CLI::App* password = account->add_subcommand("password", "set a new password; it is asked for");
        addName(password);
        password->callback([this] {
            verb_ = [this](const Settings& settings, std::ostream& out) {
                return loopside::hub::setPassword(settings, word_, std::cin, out);
            };
        });
        addSwitch(account, "out", "let somebody in no more", true);
        addSwitch(account, "in", "let somebody in again", false);
    }

    void addSwitch(CLI::App* account, const std::string& verb, const std::string& what, bool isOut)
    {
        CLI::App* command = account->add_subcommand(verb, what);
        addName(command);
        command->callback([this, isOut] {
            verb_ = [this, isOut](const Settings& settings, std::ostream& out) {
                return loopside::hub::setOut(settings, word_, isOut, out);
            };
        });
    }

    void addName(CLI::App* command) { command->add_option("name", word_, "by which they sign in")->required(); }

    void addRole(CLI::App* command)
    {
        command->add_option("role", roleName_, "engineer (looks), planner (plans jobs too) or admin")
            ->required()
            ->check([this](const std::string& name) {
                role_ = loopside::page::roleNamed(name);
                return role_ ? std::string() : "there is no role \"" + name + "\": engineer, planner or admin";
            });
    }

    CLI::App app_{"Site hub of Loopside: where tablets hand over what they recorded", "loopside-hub"};
    std::string settings_;
    std::string word_;
    std::string person_;
    std::string roleName_;
    std::optional<loopside::page::Role> role_;
    Verb verb_;
};

} // namespace

int main(int count, char** words)
{
    return CommandLine().run(count, words);
}
