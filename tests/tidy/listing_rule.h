// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "tidy/finding.h"

namespace loopside::tidy {

/// C++ and QML files of src/ and qml/, and .cpp files of tests/, that no CMakeLists.txt of their folder or one above it
/// names: they would not be built, and nobody would notice.
[[nodiscard]] Findings checkFilesAreListed(const std::vector<SourceFile>& files);

} // namespace loopside::tidy
