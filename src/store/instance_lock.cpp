// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/instance_lock.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>

#include <cerrno>
#include <system_error>

namespace loopside::store {

Result<InstanceLock> InstanceLock::take(const std::string& path)
{
    const std::string name = path + ".lock";
    auto file = std::make_unique<FileHandle>(::open(name.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, S_IRUSR | S_IWUSR));
    if (!file->isOpen()) {
        const std::string reason = std::generic_category().message(errno);
        return fail(Errc::Io,
                    name + " cannot be made (" + reason + "): see that its folder is there and may be written",
                    {"store-not-writable", {{"path", path}}});
    }
    if (::flock(file->number(), LOCK_EX | LOCK_NB) != 0) {
        return fail(Errc::Unavailable, path + " is open in another window of Loopside: go on there, or close it first",
                    {"store-in-use", {{"path", path}}});
    }
    return InstanceLock(std::move(file));
}

} // namespace loopside::store
