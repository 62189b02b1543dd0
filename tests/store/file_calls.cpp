// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/file_calls.h"

#include <catch2/catch.hpp>
#include <fcntl.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <cstdarg>
#include <filesystem>

namespace loopside::test {

namespace {

/// The one that is in place; the calls have nowhere else to find it.
FileCalls* calls = nullptr;

std::string nameOf(int file)
{
    std::error_code ignored;
    return std::filesystem::read_symlink("/proc/self/fd/" + std::to_string(file), ignored).string();
}

std::string folderOf(const std::string& path)
{
    return std::filesystem::path(path).parent_path().string();
}

struct stat statusOf(int file)
{
    struct stat status = {};
    REQUIRE(::fstat(file, &status) == 0);
    return status;
}

/// Fails as was wished; else does `call`, and `note` if that worked.
template<class Call, class Note>
auto inPlaceOf(Call call, Note note) -> decltype(call())
{
    if (const int cause = calls == nullptr ? 0 : calls->causeForNext(); cause != 0) {
        errno = cause;
        return -1;
    }
    const auto answer = call();
    if (answer >= 0 && calls != nullptr) {
        const int reason = errno;
        note();
        errno = reason;
    }
    return answer;
}

} // namespace

FileCalls::FileCalls()
{
    REQUIRE(calls == nullptr);
    calls = this;
}

FileCalls::~FileCalls()
{
    calls = nullptr;
}

void FileCalls::failAt(int n, int cause)
{
    countdown_ = n;
    cause_ = cause;
    isForGood_ = false;
    isReached_ = false;
}

void FileCalls::failFrom(int n, int cause)
{
    failAt(n, cause);
    isForGood_ = true;
}

void FileCalls::cutPowerAt(int n)
{
    failAt(n, 0);
}

void FileCalls::work()
{
    countdown_ = 0;
}

int FileCalls::causeForNext()
{
    if (countdown_ == 0 || --countdown_ > 0) {
        return 0;
    }
    isReached_ = true;
    if (cause_ == 0) {
        spoilUnsynced();
        ::_exit(cutExit);
    }
    countdown_ = isForGood_ ? 1 : 0;
    return cause_;
}

/// Half of it is there, and another byte: not what anybody wrote.
void FileCalls::spoilUnsynced() const
{
    for (const auto& [file, path] : contents_) {
        struct stat status = {};
        if (::stat(path.c_str(), &status) == 0 && status.st_ino == file) {
            const off_t half = status.st_size / 2;
            std::filesystem::resize_file(path, static_cast<std::uintmax_t>(half));
            std::filesystem::resize_file(path, static_cast<std::uintmax_t>(half) + 1);
        }
    }
}

std::set<std::string> FileCalls::atRisk() const
{
    std::set<std::string> all = names_;
    all.insert(namedBeforeWhole_.begin(), namedBeforeWhole_.end());
    for (const auto& [file, path] : contents_) {
        all.insert(path);
    }
    return all;
}

void FileCalls::made(const std::string& path)
{
    names_.insert(path);
}

void FileCalls::wrote(int file)
{
    if (const struct stat status = statusOf(file); S_ISREG(status.st_mode)) {
        contents_[status.st_ino] = nameOf(file);
    }
}

void FileCalls::synced(int file)
{
    const struct stat status = statusOf(file);
    if (S_ISDIR(status.st_mode)) {
        std::erase_if(names_, [folder = nameOf(file)](const std::string& name) { return folderOf(name) == folder; });
    } else {
        contents_.erase(status.st_ino);
    }
}

void FileCalls::named(const std::string& from, const std::string& to, bool isFromGone)
{
    struct stat status = {};
    if (::stat(to.c_str(), &status) == 0 && contents_.contains(status.st_ino)) {
        namedBeforeWhole_.insert(to);
        contents_[status.st_ino] = to;
    }
    names_.insert(to);
    if (isFromGone) {
        names_.erase(from);
    }
}

void FileCalls::removed(const std::string& path)
{
    names_.erase(path);
    std::erase_if(contents_, [&](const auto& content) { return content.second == path; });
}

bool cutAt(int n, const std::function<bool()>& work)
{
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        FileCalls inChild;
        inChild.cutPowerAt(n);
        const bool isDone = work();
        ::_exit(isDone ? 0 : 1);
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    REQUIRE(WIFEXITED(status));
    REQUIRE((WEXITSTATUS(status) == 0 || WEXITSTATUS(status) == FileCalls::cutExit));
    return WEXITSTATUS(status) == FileCalls::cutExit;
}

} // namespace loopside::test

using loopside::test::calls;
using loopside::test::inPlaceOf;

// The linker puts these in the place of the system's calls (its option --wrap), whose names it gives.
// NOLINTBEGIN
extern "C" {

int __real_open(const char* path, int flags, ...);
ssize_t __real_write(int file, const void* bytes, size_t size);
int __real_fsync(int file);
int __real_link(const char* from, const char* to);
int __real_rename(const char* from, const char* to);
int __real_unlink(const char* path);

int __wrap_open(const char* path, int flags, ...)
{
    va_list more;
    va_start(more, flags);
    const mode_t mode = (flags & O_CREAT) != 0 ? va_arg(more, mode_t) : 0;
    va_end(more);
    if ((flags & (O_CREAT | O_DIRECTORY)) == 0) {
        return __real_open(path, flags, mode);
    }
    struct stat status = {};
    const bool isMade = (flags & O_CREAT) != 0 && ::stat(path, &status) != 0;
    return inPlaceOf([&] { return __real_open(path, flags, mode); },
                     [&] {
                         if (isMade) {
                             calls->made(path);
                         }
                     });
}

ssize_t __wrap_write(int file, const void* bytes, size_t size)
{
    return inPlaceOf([&] { return __real_write(file, bytes, size); }, [&] { calls->wrote(file); });
}

int __wrap_fsync(int file)
{
    return inPlaceOf([&] { return __real_fsync(file); }, [&] { calls->synced(file); });
}

int __wrap_link(const char* from, const char* to)
{
    return inPlaceOf([&] { return __real_link(from, to); }, [&] { calls->named(from, to, false); });
}

int __wrap_rename(const char* from, const char* to)
{
    return inPlaceOf([&] { return __real_rename(from, to); }, [&] { calls->named(from, to, true); });
}

int __wrap_unlink(const char* path)
{
    return inPlaceOf([&] { return __real_unlink(path); }, [&] { calls->removed(path); });
}
}
// NOLINTEND
