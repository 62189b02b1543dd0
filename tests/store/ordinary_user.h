// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <catch2/catch.hpp>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <filesystem>
#include <functional>
#include <string>

namespace loopside::test {

/// What `work` says when a user without special rights does it, to whom `folder` and the files in it belong. Rights to
/// files mean nothing to root, as whom tests may run.
inline std::string asOrdinaryUser(const std::filesystem::path& folder, const std::function<std::string()>& work)
{
    constexpr uid_t nobody = 65534;
    const bool isRoot = ::geteuid() == 0;
    if (isRoot) {
        REQUIRE(::chown(folder.c_str(), nobody, nobody) == 0);
        for (const auto& file : std::filesystem::directory_iterator(folder)) {
            REQUIRE(::chown(file.path().c_str(), nobody, nobody) == 0);
        }
    }
    std::array<int, 2> ends = {};
    REQUIRE(::pipe(ends.data()) == 0);
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        const bool isOrdinary = !isRoot || (::setgid(nobody) == 0 && ::setuid(nobody) == 0);
        const std::string said = isOrdinary ? work() : "could not become an ordinary user";
        const bool written = ::write(ends[1], said.data(), said.size()) == static_cast<ssize_t>(said.size());
        ::_exit(written ? 0 : 1);
    }
    ::close(ends[1]);
    std::string said;
    std::array<char, 256> piece = {};
    for (ssize_t size = 0; (size = ::read(ends[0], piece.data(), piece.size())) > 0;) {
        said.append(piece.data(), static_cast<std::size_t>(size));
    }
    ::close(ends[0]);
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    REQUIRE((WIFEXITED(status) && WEXITSTATUS(status) == 0));
    return said;
}

} // namespace loopside::test
