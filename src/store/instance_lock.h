// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"
#include "store/file_handle.h"

#include <memory>
#include <string>

namespace loopside::store {

/// That this program alone works with a journal. The operating system lets go of it when the program ends, however it
/// ends. Programs that only read a journal need none.
class InstanceLock
{
public:
    /// Takes the lock of the journal `path`: of the file `<path>.lock`, which stays. Unavailable if another program has
    /// it and keeps it for `waitMs`, Io if the file cannot be made. Whoever only looks at a log holds it for a moment.
    [[nodiscard]] static Result<InstanceLock> take(const std::string& path, int waitMs = 300);

private:
    explicit InstanceLock(std::unique_ptr<FileHandle> file) : file_{std::move(file)} {}

    std::unique_ptr<FileHandle> file_;
};

} // namespace loopside::store
