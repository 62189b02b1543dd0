// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <sys/types.h>

#include <filesystem>
#include <string>

namespace loopside::test {

/// A PostgreSQL 15 of the tests' own, on a socket in a folder of its own; it ends with this program, however that ends.
class PostgresServer
{
public:
    /// The one of this program, made and started when it is first asked for. Fails the test, and says which package
    /// is wanted, where PostgreSQL 15 is not installed.
    [[nodiscard]] static PostgresServer& running();

    enum class Disk
    {
        Unsynced, ///< Tests cut no power.
        Synced
    };

    /// Another one, made and not started.
    explicit PostgresServer(Disk disk = Disk::Unsynced);
    PostgresServer(const PostgresServer&) = delete;
    PostgresServer& operator=(const PostgresServer&) = delete;
    ~PostgresServer();

    [[nodiscard]] std::string connection() const;

    void start();

    /// As a site's database that is taken down: connections are cut.
    void stop();

private:
    Disk disk_;
    std::filesystem::path folder_;
    pid_t process_ = -1;
};

} // namespace loopside::test
