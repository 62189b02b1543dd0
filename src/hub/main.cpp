// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/commands.h"

#include <CLI/CLI.hpp>

#include <functional>
#include <iostream>

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
        app_.add_option("--settings", settings_, "file of settings (TOML)");
        add("serve", "answer tablets until told to stop", loopside::hub::serve);
        add("enrol", "print a code that lets one tablet in", loopside::hub::enrol);
        add("devices", "list the tablets, and what was done to the hub", loopside::hub::devices);
        add("verify", "check every hash, link and signature that the hub holds", loopside::hub::verifyAll);
        addWith("revoke", "strike off a tablet that was lost", "device", "its id, as devices lists it",
                loopside::hub::revoke);
        addWith("backup", "write all that the hub holds into one file", "file", "a file that is not there",
                loopside::hub::backUp);
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

    CLI::App app_{"Site hub of Loopside: where tablets hand over what they recorded", "loopside-hub"};
    std::string settings_;
    std::string word_;
    Verb verb_;
};

} // namespace

int main(int count, char** words)
{
    return CommandLine().run(count, words);
}
