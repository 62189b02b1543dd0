// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/commands.h"

#include <CLI/CLI.hpp>

#include <functional>
#include <iostream>

namespace {

using loopside::Done;

constexpr int exitDone = 0;
constexpr int exitRefused = 1;
constexpr int exitUsage = 2;

/// The command line: fills in the options and remembers what to do with them.
class CommandLine
{
public:
    CommandLine()
    {
        app_.require_subcommand(1);
        addReplay();
        addPlan();
        addViscosity();
        addJournal("record", "list the entries of a journal, oldest first", loopside::cli::record);
        addJournal("verify", "check every hash, link and signature of a journal", loopside::cli::verify);
    }

    int run(int argc, char** argv)
    {
        try {
            app_.parse(argc, argv);
        } catch (const CLI::ParseError& error) {
            return app_.exit(error) == 0 ? exitDone : exitUsage;
        }
        const Done done = action_();
        std::cout.flush();
        if (!done) {
            std::cerr << "loopside-cli: " << done.error().sentence << "\n";
            return exitRefused;
        }
        return exitDone;
    }

private:
    void addReplay()
    {
        CLI::App* verb = app_.add_subcommand("replay", "send a story down the road of touches and tell what is told");
        verb->add_option("STORY", replay_.story, "the story file")->required();
        verb->add_option("--journal", replay_.journal, "write the entries to this journal");
        verb->add_option("--language", replay_.language, "en, es or de");
        verb->add_flag("--json", replay_.json, "one JSON object a line");
        verb->add_flag("--check", replay_.check, "also hold the story against what it expects");
        verb->callback([this] { action_ = [this] { return loopside::cli::replay(replay_, std::cout); }; });
    }

    void addPlan()
    {
        CLI::App* verb = app_.add_subcommand("plan", "what a story's set-up comes to before the start");
        verb->add_option("STORY", path_, "the story file")->required();
        verb->add_flag("--json", json_, "one JSON object");
        verb->callback([this] { action_ = [this] { return loopside::cli::plan(path_, json_, std::cout); }; });
    }

    void addViscosity()
    {
        CLI::App* verb = app_.add_subcommand("viscosity", "viscosity of an oil at a temperature");
        verb->add_option("--grade", viscosity_.grade, "such as 'ISO VG 68'")->required();
        verb->add_option("--vi", viscosity_.viscosityIndex, "viscosity index, such as 95")->required();
        verb->add_option("--at", viscosity_.at, "such as '0 C' or '72 F'")->required();
        verb->add_flag("--json", viscosity_.json, "one JSON object");
        verb->callback([this] { action_ = [this] { return loopside::cli::viscosity(viscosity_, std::cout); }; });
    }

    void addJournal(const char* name, const char* what,
                    const std::function<Done(const std::string&, bool, std::ostream&)>& act)
    {
        CLI::App* verb = app_.add_subcommand(name, what);
        verb->add_option("JOURNAL", path_, "the journal file")->required();
        verb->add_flag("--json", json_, "one JSON object a line");
        verb->callback([this, act] { action_ = [this, act] { return act(path_, json_, std::cout); }; });
    }

    CLI::App app_{"Loopside without a screen: what the technician is told, from story files and journals."};
    std::function<Done()> action_;
    loopside::cli::ReplayOptions replay_;
    loopside::cli::ViscosityOptions viscosity_;
    std::string path_;
    bool json_ = false;
};

} // namespace

int main(int argc, char** argv)
{
    return CommandLine().run(argc, argv);
}
