// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/program.h"

#include "store/temp_folder.h"

#include <catch2/catch.hpp>
#include <sys/wait.h>

#include <cstdlib>
#include <fstream>
#include <iterator>

namespace loopside::test {

namespace {

std::string quoted(const std::string& argument)
{
    std::string out = "'";
    for (const char sign : argument) {
        out += sign == '\'' ? std::string("'\\''") : std::string(1, sign);
    }
    return out + "'";
}

std::string textOf(const std::string& path)
{
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

} // namespace

Ran runProgram(const std::vector<std::string>& arguments)
{
    const TempFolder folder;
    std::string command = quoted(LOOPSIDE_CLI);
    for (const std::string& argument : arguments) {
        command += " " + quoted(argument);
    }
    command += " > " + quoted(folder.file("out")) + " 2> " + quoted(folder.file("err"));
    const int status = std::system(command.c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, textOf(folder.file("out")), textOf(folder.file("err"))};
}

nlohmann::json answerOf(const std::string& verb, std::vector<std::string> options)
{
    options.insert(options.begin(), verb);
    options.emplace_back("--json");
    const Ran ran = runProgram(options);
    CAPTURE(options, ran.err);
    REQUIRE(ran.exitCode == 0);
    return nlohmann::json::parse(ran.out);
}

} // namespace loopside::test
