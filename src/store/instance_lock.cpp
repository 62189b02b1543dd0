// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/instance_lock.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>

#include <cerrno>
#include <chrono>
#include <system_error>
#include <thread>

namespace loopside::store {

namespace {

bool isLocked(int file, int waitMs)
{
    constexpr int pauseMs = 10;
    bool locked = ::flock(file, LOCK_EX | LOCK_NB) == 0;
    for (int waited = 0; !locked && waited < waitMs; waited += pauseMs) {
        std::this_thread::sleep_for(std::chrono::milliseconds(pauseMs));
        locked = ::flock(file, LOCK_EX | LOCK_NB) == 0;
    }
    return locked;
}

} // namespace

Result<InstanceLock> InstanceLock::take(const std::string& path, int waitMs)
{
    const std::string name = path + ".lock";
    auto file = std::make_unique<FileHandle>(::open(name.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, S_IRUSR | S_IWUSR));
    if (!file->isOpen()) {
        const std::string reason = std::generic_category().message(errno);
        return fail(Errc::Io,
                    name + " cannot be made (" + reason + "): see that its folder is there and may be written",
                    {"store-not-writable", {{"path", path}}});
    }
    if (!isLocked(file->number(), waitMs)) {
        return fail(Errc::Unavailable, path + " is open in another window of Loopside: go on there, or close it first",
                    {"store-in-use", {{"path", path}}});
    }
    return InstanceLock(std::move(file));
}

} // namespace loopside::store
