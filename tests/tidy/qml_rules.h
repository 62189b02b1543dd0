// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "tidy/finding.h"

namespace loopside::tidy {

/// Colours written out in QML, by number or by name, anywhere but in Theme.qml. "transparent" is no colour.
[[nodiscard]] Findings checkColours(const SourceFile& file);

/// Calls of `console` in QML.
[[nodiscard]] Findings checkConsole(const SourceFile& file);

/// Words written out in QML where a person reads or hears them: they stand in assets/words. The program's name is none
/// of them.
[[nodiscard]] Findings checkWrittenWords(const SourceFile& file);

} // namespace loopside::tidy
