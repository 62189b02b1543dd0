// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/end_witness.h"

#include "base/text.h"
#include "store/mapped_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <string_view>
#include <system_error>

namespace loopside::store {

namespace {

constexpr std::string_view title = "loopside journal end 1\n";
constexpr std::size_t positionDigits = 20;

std::string nameOf(const std::string& path)
{
    return path + ".end";
}

/// One line of fixed length, so that a later one covers an earlier one whole.
std::string textOf(const JournalEnd& end)
{
    const std::string digits = std::to_string(end.position);
    return std::string(title) + std::string(positionDigits - digits.size(), '0') + digits + ' ' + toHex(end.hash)
        + '\n';
}

} // namespace

void EndWitness::write(const JournalEnd& end)
{
    if (!file_) {
        file_ = std::make_unique<FileHandle>(
            ::open(nameOf(path_).c_str(), O_WRONLY | O_CREAT | O_CLOEXEC, S_IRUSR | S_IWUSR));
    }
    const std::string text = textOf(end);
    if (file_->isOpen()) {
        [[maybe_unused]] const ssize_t written = ::pwrite(file_->number(), text.data(), text.size(), 0);
    }
}

std::optional<JournalEnd> writtenEnd(const std::string& path)
{
    const auto file = MappedFile::open(nameOf(path));
    if (!file || !file->bytes().starts_with(title)) {
        return std::nullopt;
    }
    const std::string_view line = file->bytes().substr(title.size());
    JournalEnd end;
    const std::string_view digits = line.substr(0, positionDigits);
    const auto [read, fault] = std::from_chars(digits.data(), digits.data() + digits.size(), end.position);
    const std::string_view hex = line.size() < positionDigits + 1 ? std::string_view()
                                                                  : line.substr(positionDigits + 1, 64);
    const bool isWhole = fault == std::errc() && fromHex(hex, end.hash) && textOf(end) == file->bytes();
    return isWhole ? std::optional(end) : std::nullopt;
}

void forgetEnd(const std::string& path)
{
    ::unlink(nameOf(path).c_str());
}

} // namespace loopside::store
