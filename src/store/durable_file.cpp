// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/durable_file.h"

#include "store/file_handle.h"

#include <fcntl.h>
#include <sys/stat.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <system_error>
#include <vector>

namespace loopside::store {

namespace {

tl::unexpected<Error> systemSaysNo(const std::string& path, int cause)
{
    const std::string reason = std::generic_category().message(cause);
    const std::string folder = std::filesystem::path(path).parent_path().string();
    switch (cause) {
    case EEXIST:
        return fail(Errc::Conflict, path + " is there already");
    case ENOENT:
    case ENOTDIR:
        return fail(Errc::Io, "the folder " + folder + " is not there: make it, or name another place for " + path,
                    {"store-folder-missing", {{"path", path}, {"folder", folder}}});
    case ENOSPC:
    case EDQUOT:
        return fail(Errc::Io, "the disk is full: " + path + " was not written; make room and try again",
                    {"store-disk-full", {{"path", path}}});
    case EACCES:
    case EPERM:
    case EROFS:
        return fail(Errc::Io, path + " may not be written (" + reason + "): allow it, or name another place",
                    {"store-not-writable", {{"path", path}}});
    default:
        return fail(Errc::Io, path + " could not be written: " + reason,
                    {"store-disk-failed", {{"path", path}, {"reason", reason}}});
    }
}

/// 0 when all of `content` was written and synced, else the system's reason.
int writeAll(const FileHandle& file, std::string_view content)
{
    while (!content.empty()) {
        const ssize_t written = ::write(file.number(), content.data(), content.size());
        if (written < 0 && errno != EINTR) {
            return errno;
        }
        content.remove_prefix(written < 0 ? 0 : static_cast<std::size_t>(written));
    }
    return ::fsync(file.number()) == 0 ? 0 : errno;
}

Done syncFolderOf(const std::string& path)
{
    const std::filesystem::path parent = std::filesystem::path(path).parent_path();
    const std::string folder = parent.empty() ? "." : parent.string();
    const FileHandle handle(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (!handle.isOpen() || ::fsync(handle.number()) != 0) {
        return systemSaysNo(folder, errno);
    }
    return {};
}

} // namespace

Done writePrivateFile(const std::string& path, std::string_view content)
{
    const FileHandle file(::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, S_IRUSR | S_IWUSR));
    if (!file.isOpen()) {
        return systemSaysNo(path, errno);
    }
    if (const int cause = writeAll(file, content); cause != 0) {
        ::unlink(path.c_str());
        return systemSaysNo(path, cause);
    }
    return {};
}

Done syncName(const std::string& path)
{
    return syncFolderOf(path);
}

Done putInPlace(const std::string& from, const std::string& to)
{
    // A rename would put the file over one that another program made meanwhile; a second name does not.
    if (::link(from.c_str(), to.c_str()) != 0) {
        return systemSaysNo(to, errno);
    }
    if (::unlink(from.c_str()) != 0) {
        return systemSaysNo(from, errno);
    }
    return syncFolderOf(to);
}

Done replacePrivateFile(const std::string& path, std::string_view content)
{
    const std::string made = path + ".new";
    if (::unlink(made.c_str()) != 0 && errno != ENOENT) { // half of one that a cut left
        return systemSaysNo(path, errno);
    }
    if (Done written = writePrivateFile(made, content); !written) {
        return written;
    }
    if (::rename(made.c_str(), path.c_str()) != 0) {
        const int cause = errno;
        ::unlink(made.c_str());
        return systemSaysNo(path, cause);
    }
    return syncFolderOf(path);
}

Result<bool> isThere(const std::string& path)
{
    struct stat status = {};
    if (::lstat(path.c_str(), &status) == 0) {
        return true;
    }
    if (errno == ENOENT) {
        return false;
    }
    return systemSaysNo(path, errno);
}

void removeDatabase(const std::string& path)
{
    for (const char* ending : {"", "-journal", "-wal", "-shm"}) {
        ::unlink((path + ending).c_str()); // what is not there, or stays, stands in nobody's way
    }
}

Done moveDatabase(const std::string& from, const std::string& to)
{
    std::vector<std::string> moved;
    int cause = 0;
    for (const char* ending : {"", "-wal", "-shm"}) {
        if (cause == 0 && ::rename((from + ending).c_str(), (to + ending).c_str()) == 0) {
            moved.emplace_back(ending);
        } else if (cause == 0 && errno != ENOENT) {
            cause = errno;
        }
    }
    Done done = cause == 0 ? syncFolderOf(to) : systemSaysNo(to, cause);
    for (std::size_t i = 0; !done && i < moved.size(); ++i) {
        ::rename((to + moved[i]).c_str(), (from + moved[i]).c_str());
    }
    return done;
}

} // namespace loopside::store
