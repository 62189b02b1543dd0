// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"

#include <cstddef>
#include <string>
#include <string_view>

namespace loopside::store {

/// The bytes of a file, without a copy of them in memory. Nobody may shorten the file meanwhile.
class MappedFile
{
public:
    /// Io if the file cannot be read. A file that is not there is one without bytes.
    [[nodiscard]] static Result<MappedFile> open(const std::string& path);

    MappedFile(MappedFile&& other) noexcept;
    MappedFile& operator=(MappedFile&&) = delete;
    ~MappedFile();

    [[nodiscard]] std::string_view bytes() const { return {static_cast<const char*>(start_), size_}; }

private:
    MappedFile() = default;

    void* start_ = nullptr;
    std::size_t size_ = 0;
};

} // namespace loopside::store
