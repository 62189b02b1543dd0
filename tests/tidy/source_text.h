// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "tidy/finding.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::tidy {

/// C++ or QML `text` with every sign of its comments replaced by a blank; lines and columns stay.
[[nodiscard]] std::string withoutComments(std::string_view text);

/// As `withoutComments`, with the insides of its strings blank too.
[[nodiscard]] std::string withoutCommentsAndStrings(std::string_view text);

/// The lines of `text`, without their ends.
[[nodiscard]] std::vector<std::string> linesOf(std::string_view text);

/// The line, from 1, in which the sign at `offset` stands.
[[nodiscard]] std::size_t lineAt(std::string_view text, std::size_t offset);

/// Whether `file` lies in the folder `folder`, at any depth.
[[nodiscard]] bool isIn(const SourceFile& file, std::string_view folder);

/// Whether the name of `file` ends in one of `endings`, such as ".h".
[[nodiscard]] bool endsIn(const SourceFile& file, const std::vector<std::string_view>& endings);

/// The part of a path behind its last '/'.
[[nodiscard]] std::string_view fileName(std::string_view path);

} // namespace loopside::tidy
