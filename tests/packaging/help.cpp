// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "packaging/help.h"

#include "packaging/shell.h"

#include <catch2/catch.hpp>

#include <regex>

namespace loopside::test {

namespace {

/// The options that stand at the beginning of `text`: "-h,--help   Print …" has two.
std::set<std::string> leadingOptions(std::string text)
{
    std::set<std::string> options;
    const std::regex option("^(--?[A-Za-z][A-Za-z0-9-]*)(, ?)?");
    for (std::smatch match; std::regex_search(text, match, option); text = match.suffix()) {
        options.insert(match[1]);
        if (!match[2].matched) {
            break;
        }
    }
    return options;
}

void addWalked(NamedByCommand& all, const std::string& path, const std::string& command)
{
    const ShellRan ran = runInShell(quotedForShell(path) + " " + command + " --help");
    CAPTURE(path, command, ran.said);
    REQUIRE(ran.exitCode == 0);
    const Named named = namedInHelp(ran.said);
    REQUIRE_FALSE(named.options.empty());
    all[command] = named;
    for (const std::string& part : named.commands) {
        addWalked(all, path, command.empty() ? part : command + " " + part);
    }
}

std::string withoutMarks(const std::string& roff)
{
    return std::regex_replace(roff, std::regex(R"(\\(-|&))"), "$1");
}

} // namespace

Named namedInHelp(const std::string& text)
{
    Named named;
    bool isCommands = false;
    const std::regex title("^[ ]*([A-Z][a-z]+|\\[Option Group.*\\]):?.*$");
    const std::regex line("^ {2,4}([^ ].*)$");
    const std::regex command("^[a-z-]+");
    for (const std::string& row : linesOf(text)) {
        std::smatch match;
        if (std::regex_match(row, match, line)) {
            const std::string told = match[1];
            if (isCommands && std::regex_search(told, match, command)) {
                named.commands.insert(match.str());
            }
            named.options.merge(leadingOptions(told));
        } else if (std::regex_match(row, match, title)) {
            isCommands = row == "Subcommands:";
        }
    }
    return named;
}

NamedByCommand namedByProgram(const std::string& path)
{
    NamedByCommand all;
    addWalked(all, path, "");
    return all;
}

NamedByCommand namedInPage(const std::string& roff)
{
    NamedByCommand all;
    std::string command;
    bool isNaming = false;
    bool isTerm = false;
    for (const std::string& row : linesOf(roff)) {
        if (row.starts_with(".SH ")) {
            isNaming = row == ".SH OPTIONS" || row == ".SH COMMANDS";
            command.clear();
        } else if (isNaming && row.starts_with(".SS ")) {
            command = withoutMarks(row.substr(5, row.size() - 6));
        } else if (isNaming && isTerm && row.starts_with(".B ")) {
            const std::string term = withoutMarks(row.substr(3));
            const auto options = leadingOptions(term);
            if (options.empty() && std::regex_match(term, std::regex("[a-z-]+"))) {
                all[command].commands.insert(term);
            }
            all[command].options.insert(options.begin(), options.end());
        }
        isTerm = row == ".TP";
    }
    return all;
}

const std::map<std::string, std::string>& programs()
{
    static const std::map<std::string, std::string> all = {
        {"loopside", LOOPSIDE_APP}, {"loopside-cli", LOOPSIDE_CLI}, {"loopside-hub", LOOPSIDE_HUB}};
    return all;
}

} // namespace loopside::test
