// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "packaging/shell.h"

#include <catch2/catch.hpp>
#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace loopside::test {

std::string quotedForShell(const std::string& word)
{
    std::string out = "'";
    for (const char sign : word) {
        out += sign == '\'' ? std::string("'\\''") : std::string(1, sign);
    }
    return out + "'";
}

ShellRan runInShell(const std::string& line)
{
    const std::string command = "LC_ALL=C.UTF-8 QT_QPA_PLATFORM=offscreen bash -c " + quotedForShell(line) + " 2>&1";
    std::FILE* const pipe = popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    ShellRan ran;
    std::array<char, 4096> part = {};
    for (std::size_t size = 0; (size = std::fread(part.data(), 1, part.size(), pipe)) > 0;) {
        ran.said.append(part.data(), size);
    }
    const int status = pclose(pipe);
    ran.exitCode = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return ran;
}

std::string sourceText(const std::string& path)
{
    const std::filesystem::path whole = std::filesystem::path(LOOPSIDE_SOURCE_DIR) / path;
    CAPTURE(whole.string());
    std::ifstream file(whole, std::ios::binary);
    REQUIRE(file);
    return {std::istreambuf_iterator<char>(file), {}};
}

} // namespace loopside::test
