// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/postgres_server.h"

#include <catch2/catch.hpp>
#include <fcntl.h>
#include <grp.h>
#include <libpq-fe.h>
#include <pwd.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <thread>
#include <vector>

namespace loopside::test {

namespace {

const std::filesystem::path programs = "/usr/lib/postgresql/15/bin";
constexpr auto patience = std::chrono::seconds(60);

/// PostgreSQL refuses to run as root.
const passwd* serverUser()
{
    return ::geteuid() == 0 ? ::getpwnam("postgres") : ::getpwuid(::geteuid());
}

/// In a child: becomes the server's user, ends with its parent, says what it says into the file `log`.
bool makeReady(const std::filesystem::path& folder, const passwd& user)
{
    const int log = ::open((folder / "log").c_str(), O_WRONLY | O_CREAT | O_APPEND, 0644);
    return log >= 0 && ::dup2(log, 1) >= 0 && ::dup2(log, 2) >= 0 && ::chdir(folder.c_str()) == 0
        && (::geteuid() != 0
            || (::initgroups(user.pw_name, user.pw_gid) == 0 && ::setgid(user.pw_gid) == 0
                && ::setuid(user.pw_uid) == 0))
        && ::prctl(PR_SET_PDEATHSIG, SIGINT) == 0;
}

pid_t begin(const std::filesystem::path& folder, std::vector<std::string> words)
{
    const passwd user = *serverUser();
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        std::vector<char*> arguments;
        for (std::string& word : words) {
            arguments.push_back(word.data());
        }
        arguments.push_back(nullptr);
        if (makeReady(folder, user)) {
            ::execv(arguments.front(), arguments.data());
        }
        ::_exit(1);
    }
    return child;
}

} // namespace

PostgresServer& PostgresServer::running()
{
    static PostgresServer server;
    if (server.process_ < 0) {
        server.start();
    }
    return server;
}

PostgresServer::PostgresServer(Disk disk) : disk_{disk}
{
    if (!std::filesystem::exists(programs / "initdb") || serverUser() == nullptr) {
        FAIL("PostgreSQL 15 is not installed: install the package postgresql-15, as packaging/dependencies says");
    }
    std::string pattern = (std::filesystem::temp_directory_path() / "loopside-pg-XXXXXX").string();
    REQUIRE(::mkdtemp(pattern.data()) != nullptr);
    folder_ = pattern;
    REQUIRE(::chown(folder_.c_str(), serverUser()->pw_uid, serverUser()->pw_gid) == 0);
    const pid_t made = begin(folder_,
                             {(programs / "initdb").string(), "-D", (folder_ / "data").string(), "-U", "hub", "-A",
                              "trust", "-E", "UTF8", "--locale=C.UTF-8", "--no-sync"});
    int status = -1;
    REQUIRE(::waitpid(made, &status, 0) == made);
    INFO("see " << (folder_ / "log").string());
    REQUIRE(status == 0);
}

PostgresServer::~PostgresServer()
{
    stop();
    std::error_code none;
    std::filesystem::remove_all(folder_, none);
}

std::string PostgresServer::connection() const
{
    return "host=" + folder_.string() + " user=hub dbname=postgres";
}

void PostgresServer::start()
{
    process_ = begin(folder_,
                     {(programs / "postgres").string(), "-D", (folder_ / "data").string(), "-c",
                      "listen_addresses=", "-c", "unix_socket_directories=" + folder_.string(), "-c",
                      disk_ == Disk::Synced ? "fsync=on" : "fsync=off", "-c", "log_min_messages=warning"});
    const auto until = std::chrono::steady_clock::now() + patience;
    while (::PQping(connection().c_str()) != PQPING_OK) {
        INFO("see " << (folder_ / "log").string());
        REQUIRE(std::chrono::steady_clock::now() < until);
        std::this_thread::sleep_for(std::chrono::milliseconds(50));
    }
}

void PostgresServer::stop()
{
    if (process_ > 0) {
        ::kill(process_, SIGINT); // its "fast" way to shut down
        ::waitpid(process_, nullptr, 0);
        process_ = -1;
    }
}

} // namespace loopside::test
