// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Manual pages and completion name what the programs' own helps name, and nothing else.

#include "packaging/help.h"
#include "packaging/shell.h"

#include <catch2/catch.hpp>

using namespace loopside::test;

namespace {

const std::string documents = LOOPSIDE_DOCUMENTS "/";

std::string pageOf(const std::string& program)
{
    return documents + program + (program == "loopside-hub" ? ".8" : ".1");
}

/// What completion offers behind `words`, of which the last is the beginning of one.
std::set<std::string> offered(const std::string& program, const std::string& words, const std::string& begun)
{
    std::string function = "_" + program;
    std::replace(function.begin(), function.end(), '-', '_');
    const ShellRan ran = runInShell("cd /nowhere 2>/dev/null; source " + quotedForShell(documents + program + ".bash")
                                    + " && COMP_WORDS=(" + program + " " + words + " '" + begun
                                    + "') COMP_CWORD=$((${#COMP_WORDS[@]} - 1)) && " + function
                                    + " && printf '%s\\n' \"${COMPREPLY[@]}\"");
    CAPTURE(ran.said);
    REQUIRE(ran.exitCode == 0);
    const auto lines = linesOf(ran.said);
    std::set<std::string> all(lines.begin(), lines.end());
    all.erase("");
    return all;
}

} // namespace

TEST_CASE("a help is read with its commands, options and groups")
{
    const Named named = namedInHelp("what it is\nUsage: x [OPTIONS] SUBCOMMAND\n\nPositionals:\n"
                                    "  FILE TEXT REQUIRED          with --left\n\nOptions:\n"
                                    "  -h,--help                   Print --this\n"
                                    "  --to TEXT REQUIRED          it goes\n"
                                    "                              on\n"
                                    "[Option Group: of]\n   \n  Options:\n    --as4059 TEXT ...           sizes\n\n"
                                    "Subcommands:\n  take-it                     that\n");
    CHECK(named.options == std::set<std::string>{"-h", "--help", "--to", "--as4059"});
    CHECK(named.commands == std::set<std::string>{"take-it"});
}

TEST_CASE("a page that leaves an option out, or a command, is found")
{
    const std::string page = ".SH COMMANDS\n.TP\n.B \\-h,\\-\\-help\nit.\n.TP\n.B take\\-it\nthat.\n"
                             ".SS \"take\\-it\"\nthat.\n.TP\n.B \\-\\-to TEXT\nwhere.\n.SH FILES\n.TP\n.B more\nx\n";
    const NamedByCommand all = {{"", {{"take-it"}, {"-h", "--help"}}}, {"take-it", {{}, {"--to"}}}};
    CHECK(namedInPage(page) == all);
    CHECK_FALSE(namedInPage(page.substr(0, page.find(".SS"))) == all);
}

TEST_CASE("the manual page of each program names what its helps name")
{
    for (const auto& [program, path] : programs()) {
        CAPTURE(program);
        const NamedByCommand told = namedByProgram(path);
        const NamedByCommand page = namedInPage(sourceText(pageOf(program)));
        CHECK(told.at("").options.contains("--version"));
        for (const auto& [command, named] : told) {
            CAPTURE(command);
            REQUIRE(page.contains(command));
            CHECK(page.at(command).commands == named.commands);
            CHECK(page.at(command).options == named.options);
        }
        CHECK(page.size() == told.size());
    }
}

TEST_CASE("the manual pages are set without a warning")
{
    for (const auto& [program, path] : programs()) {
        const ShellRan ran = runInShell("man --warnings -l -E UTF-8 -P cat " + quotedForShell(pageOf(program))
                                        + " 2>&1 >/dev/null");
        CAPTURE(program);
        CHECK(ran.exitCode == 0);
        CHECK(ran.said.empty());
    }
}

TEST_CASE("completion offers what the helps name, and files as what a command takes")
{
    for (const auto& [program, path] : programs()) {
        for (const auto& [command, named] : namedByProgram(path)) {
            CAPTURE(program, command);
            CHECK(offered(program, command, "-") == named.options);
            if (!named.commands.empty()) {
                std::set<std::string> words = offered(program, command, "");
                std::erase_if(words, [](const std::string& word) { return word.starts_with("-"); });
                if (command.empty()) { // files are offered too behind a command
                    CHECK(words == named.commands);
                }
                CHECK(std::includes(words.begin(), words.end(), named.commands.begin(), named.commands.end()));
            }
        }
    }
    CHECK(offered("loopside-cli", "verify", LOOPSIDE_SOURCE_DIR "/REA")
          == std::set<std::string>{LOOPSIDE_SOURCE_DIR "/README.md"});
    CHECK(offered("loopside", "--site", LOOPSIDE_SOURCE_DIR "/REA")
          == std::set<std::string>{LOOPSIDE_SOURCE_DIR "/README.md"});
}
