// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/mapped_file.h"

#include "store/file_handle.h"

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>

#include <cerrno>
#include <system_error>
#include <utility>

namespace loopside::store {

Result<MappedFile> MappedFile::open(const std::string& path)
{
    const auto refuse = [&](int cause) {
        return fail(Errc::Io, path + " cannot be read: " + std::generic_category().message(cause),
                    {"store-cannot-open", {{"path", path}}});
    };
    MappedFile mapped;
    const FileHandle file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    if (!file.isOpen()) {
        return errno == ENOENT ? Result<MappedFile>(std::move(mapped)) : refuse(errno);
    }
    struct stat status = {};
    if (::fstat(file.number(), &status) != 0) {
        return refuse(errno);
    }
    if (!S_ISREG(status.st_mode)) {
        return refuse(EINVAL);
    }
    if (status.st_size == 0) {
        return mapped;
    }
    const auto size = static_cast<std::size_t>(status.st_size);
    void* start = ::mmap(nullptr, size, PROT_READ, MAP_PRIVATE, file.number(), 0);
    if (start == MAP_FAILED) {
        return refuse(errno);
    }
    mapped.start_ = start;
    mapped.size_ = size;
    return mapped;
}

MappedFile::MappedFile(MappedFile&& other) noexcept
    : start_{std::exchange(other.start_, nullptr)}, size_{std::exchange(other.size_, 0)}
{
}

MappedFile::~MappedFile()
{
    if (start_ != nullptr) {
        ::munmap(start_, size_);
    }
}

} // namespace loopside::store
