// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"

#include <map>
#include <set>
#include <string>
#include <string_view>

namespace loopside::tidy {

/// Which module may use which: what the modules' build statements say, taken together.
class Layers
{
public:
    /// Reads the build's layers.txt: a line "module: what it depends on" for each module, lower modules first.
    /// Malformed for another form, Conflict if a module depends on itself or on one that is not above it in the file.
    [[nodiscard]] static Result<Layers> parse(std::string_view text);

    [[nodiscard]] bool has(const std::string& module) const { return reach_.contains(module); }

    /// Whether `module` may include files of `other`: its own, and those of what it depends on, directly or not.
    [[nodiscard]] bool mayUse(const std::string& module, const std::string& other) const;

private:
    std::map<std::string, std::set<std::string>> reach_;
};

} // namespace loopside::tidy
