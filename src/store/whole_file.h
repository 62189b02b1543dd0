// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"

#include <functional>
#include <ostream>
#include <string>

namespace loopside::store {

/// Makes the file `path`, open to its owner alone, of what `write` writes: under its name there is all of that, on
/// disk, or what was there before. What is there and no file, as a pipe, is written to as it is.
[[nodiscard]] Done writeWhole(const std::string& path, const std::function<Done(std::ostream&)>& write);

} // namespace loopside::store
