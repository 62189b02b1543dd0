// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/hub_program.h"

#include <catch2/catch.hpp>
#include <fcntl.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <regex>
#include <sstream>
#include <thread>

namespace loopside::test {

namespace {

constexpr auto patience = std::chrono::seconds(60);

/// Begins `loopside-hub VERB` with these variables, its output in the file `output`.
pid_t begin(const std::string& verb, const Variables& variables, const std::string& output)
{
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        const int file = ::open(output.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
        for (const auto& [name, value] : variables) {
            ::setenv(name.c_str(), value.c_str(), 1);
        }
        if (file >= 0 && ::dup2(file, 1) >= 0 && ::dup2(file, 2) >= 0 && ::prctl(PR_SET_PDEATHSIG, SIGKILL) == 0) {
            ::execl(LOOPSIDE_HUB, LOOPSIDE_HUB, verb.c_str(), nullptr);
        }
        ::_exit(127);
    }
    return child;
}

} // namespace

std::string textIn(const std::string& path)
{
    std::ostringstream text;
    text << std::ifstream(path).rdbuf();
    return text.str();
}

std::string found(const std::string& text, const char* pattern)
{
    std::smatch match;
    INFO(text);
    REQUIRE(std::regex_search(text, match, std::regex(pattern)));
    return match[1];
}

HubProgram::HubProgram(Variables more) : variables_{std::move(more)}
{
    std::signal(SIGPIPE, SIG_IGN); // a hub that is killed while it is written to
    std::signal(SIGXFSZ, SIG_IGN); // which the hub inherits: a file that finds no room is an error as on a full disk
    variables_.insert(variables_.end(),
                      {{"LOOPSIDE_HUB_FOLDER", folder_.file("hub")},
                       {"LOOPSIDE_HUB_LISTEN", "127.0.0.1"},
                       {"LOOPSIDE_HUB_NAMES", "127.0.0.1"},
                       {"LOOPSIDE_HUB_PORT", "0"}});
}

HubProgram::~HubProgram()
{
    end(SIGKILL);
}

std::string HubProgram::run(const std::string& verb) const
{
    int status = -1;
    const pid_t child = begin(verb, variables_, folder_.file("verb.txt"));
    REQUIRE(::waitpid(child, &status, 0) == child);
    INFO(textIn(folder_.file("verb.txt")));
    REQUIRE(status == 0);
    return textIn(folder_.file("verb.txt"));
}

void HubProgram::start()
{
    std::filesystem::remove(folder_.file("serve.txt")); // what the last one said
    process_ = begin("serve", variables_, folder_.file("serve.txt"));
    const auto until = std::chrono::steady_clock::now() + patience;
    while (textIn(folder_.file("serve.txt")).find("\"started\"") == std::string::npos) {
        INFO(textIn(folder_.file("serve.txt")));
        REQUIRE(std::chrono::steady_clock::now() < until);
        std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
}

int HubProgram::end(int signal)
{
    int status = -1;
    if (process_ > 0) {
        ::kill(process_, signal);
        ::waitpid(process_, &status, 0);
        process_ = -1;
    }
    return status;
}

void HubProgram::roomForFiles(std::optional<std::uint64_t> bytes) const
{
    rlimit room = {};
    REQUIRE(::prlimit(process(), RLIMIT_FSIZE, nullptr, &room) == 0);
    room.rlim_cur = bytes ? *bytes : room.rlim_max;
    REQUIRE(::prlimit(process(), RLIMIT_FSIZE, &room, nullptr) == 0);
}

pid_t HubProgram::process() const
{
    REQUIRE(process_ > 0); // any other number would mean other programs
    return process_;
}

} // namespace loopside::test
