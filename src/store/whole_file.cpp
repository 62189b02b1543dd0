// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/whole_file.h"

#include "store/disk.h"

#include <filesystem>
#include <fstream>
#include <system_error>

namespace loopside::store {

namespace {

tl::unexpected<Error> cannotBeWritten(const std::string& path)
{
    return fail(Errc::Io, path + " cannot be written: see that its folder is there, has room and may be written to",
                {"store-not-written", {{"file", path}}});
}

/// Writes the file `name`, which is or is to become `path`, with `write`.
Done writeTo(const std::string& name, const std::string& path, const std::function<Done(std::ostream&)>& write)
{
    std::ofstream file(name, std::ios::binary | std::ios::trunc);
    const Done written = file ? write(file) : Done();
    file.close();
    return written && !file ? cannotBeWritten(path) : written;
}

} // namespace

Done writeWhole(const std::string& path, const std::function<Done(std::ostream&)>& write)
{
    std::error_code ignored;
    const auto status = std::filesystem::status(path, ignored);
    if (std::filesystem::exists(status) && !std::filesystem::is_regular_file(status)) {
        return writeTo(path, path, write);
    }
    const std::string unfinished = path + ".new";
    Disk& disk = systemDisk();
    const auto slash = path.find_last_of('/');
    if (!disk.write(unfinished, {})) { // made here, so that it is never open to others
        return cannotBeWritten(path);
    }
    const Done done = writeTo(unfinished, path, write).and_then([&] { return disk.sync(unfinished); }).and_then([&] {
        return disk.rename(unfinished, path);
    });
    if (!done) {
        static_cast<void>(disk.remove(unfinished));
        return done;
    }
    return disk.syncFolder(slash == std::string::npos ? "." : path.substr(0, slash));
}

} // namespace loopside::store
