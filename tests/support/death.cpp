// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "support/death.h"

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdlib>

namespace loopside::support {

namespace {

/// The life of the child: no core file, no handler of the test framework, its standard error in the pipe.
[[noreturn]] void liveAndDie(const std::function<void()>& act, int pipeEnd)
{
    const rlimit noCore{0, 0};
    setrlimit(RLIMIT_CORE, &noCore);
    std::signal(SIGABRT, SIG_DFL);
    dup2(pipeEnd, STDERR_FILENO);
    act();
    _exit(0);
}

std::string readAll(int descriptor)
{
    std::string text;
    std::array<char, 512> buffer{};
    for (ssize_t count = 0; (count = read(descriptor, buffer.data(), buffer.size())) > 0;) {
        text.append(buffer.data(), static_cast<std::size_t>(count));
    }
    return text;
}

} // namespace

std::optional<std::string> lastWords(const std::function<void()>& act)
{
    std::array<int, 2> ends{};
    if (pipe(ends.data()) != 0) {
        return std::nullopt;
    }
    const pid_t child = fork();
    if (child == 0) {
        liveAndDie(act, ends[1]);
    }
    close(ends[1]);
    std::string words = readAll(ends[0]);
    close(ends[0]);
    int status = 0;
    if (child < 0 || waitpid(child, &status, 0) != child || !WIFSIGNALED(status) || WTERMSIG(status) != SIGABRT) {
        return std::nullopt;
    }
    return words;
}

} // namespace loopside::support
