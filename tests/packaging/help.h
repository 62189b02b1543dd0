// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <map>
#include <set>
#include <string>

namespace loopside::test {

/// What a help names: commands, and options as they are typed (-h, --help).
struct Named
{
    std::set<std::string> commands;
    std::set<std::string> options;

    bool operator==(const Named&) const = default;
};

/// By command: empty for the program itself, "bundle export" for a command in a command.
using NamedByCommand = std::map<std::string, Named>;

/// What the help `text` of one command names. Read apart from packaging/manual/told.
[[nodiscard]] Named namedInHelp(const std::string& text);

/// What the helps of the program at `path` and of all its commands name.
[[nodiscard]] NamedByCommand namedByProgram(const std::string& path);

/// What a manual page (its source `roff`) names.
[[nodiscard]] NamedByCommand namedInPage(const std::string& roff);

/// The programs by name, with where they were built.
[[nodiscard]] const std::map<std::string, std::string>& programs();

} // namespace loopside::test
