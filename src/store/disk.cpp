// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/disk.h"

#include "store/file_handle.h"

#include <fcntl.h>
#include <sys/stat.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <system_error>

namespace loopside::store {

namespace {

tl::unexpected<Error> systemSaysNo(const std::string& path, const char* what)
{
    const int cause = errno;
    const std::string reason = std::generic_category().message(cause);
    if (cause == ENOSPC || cause == EDQUOT) {
        return fail(Errc::Io, "the disk is full: " + path + " was not written; make room and try again",
                    {"store-disk-full", {{"path", path}}});
    }
    return fail(Errc::Io, path + " " + what + ": " + reason,
                {"store-disk-failed", {{"path", path}, {"reason", reason}}});
}

class SystemDisk final : public Disk
{
public:
    Done makeFolder(const std::string& path) override
    {
        return ::mkdir(path.c_str(), S_IRWXU) == 0 || errno == EEXIST ? Done()
                                                                      : systemSaysNo(path, "could not be made");
    }

    Done write(const std::string& path, std::string_view content) override
    {
        const FileHandle file(::open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, S_IRUSR | S_IWUSR));
        if (!file.isOpen()) {
            return systemSaysNo(path, "could not be written");
        }
        while (!content.empty()) {
            const ssize_t written = ::write(file.number(), content.data(), content.size());
            if (written < 0 && errno != EINTR) {
                return systemSaysNo(path, "could not be written");
            }
            content.remove_prefix(written < 0 ? 0 : static_cast<std::size_t>(written));
        }
        return {};
    }

    Done sync(const std::string& path) override { return synced(path, O_RDONLY); }
    Done syncFolder(const std::string& path) override { return synced(path, O_RDONLY | O_DIRECTORY); }

    Done rename(const std::string& from, const std::string& to) override
    {
        return ::rename(from.c_str(), to.c_str()) == 0 ? Done() : systemSaysNo(to, "could not be put in place");
    }

    Done remove(const std::string& path) override
    {
        return ::unlink(path.c_str()) == 0 || errno == ENOENT ? Done() : systemSaysNo(path, "could not be removed");
    }

    Result<std::string> read(const std::string& path, std::size_t most) const override
    {
        const FileHandle file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
        if (!file.isOpen()) {
            return errno == ENOENT ? fail(Errc::NotFound, path + " is not there")
                                   : systemSaysNo(path, "cannot be read");
        }
        std::string content;
        std::array<char, 65536> piece = {};
        while (content.size() <= most) {
            const ssize_t size = ::read(file.number(), piece.data(), std::min(piece.size(), most + 1 - content.size()));
            if (size < 0 && errno != EINTR) {
                return systemSaysNo(path, "cannot be read");
            }
            if (size == 0) {
                break;
            }
            content.append(piece.data(), size < 0 ? 0 : static_cast<std::size_t>(size));
        }
        return content;
    }

    Result<std::vector<std::string>> list(const std::string& path) const override
    {
        std::vector<std::string> names;
        std::error_code cause;
        for (std::filesystem::directory_iterator file(path, cause), end; !cause && file != end; file.increment(cause)) {
            names.push_back(file->path().filename().string());
        }
        if (cause && cause != std::errc::no_such_file_or_directory) {
            return fail(Errc::Io, "the folder " + path + " cannot be read: " + cause.message());
        }
        std::ranges::sort(names);
        return names;
    }

private:
    static Done synced(const std::string& path, int flags)
    {
        const FileHandle file(::open(path.c_str(), flags | O_CLOEXEC));
        if (!file.isOpen() && errno == ENOENT) {
            return fail(Errc::NotFound, path + " is not there");
        }
        return file.isOpen() && ::fsync(file.number()) == 0 ? Done() : systemSaysNo(path, "could not be kept on disk");
    }
};

} // namespace

Disk& systemDisk()
{
    static SystemDisk disk; // has no state
    return disk;
}

} // namespace loopside::store
