// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/decimal.h"

#include <QString>

#include <string>

namespace loopside::app {

/// A text as it stands on a screen: no line ends between a number and its unit or at the slash of a unit, and a minus
/// before such a number is one. To be shown only: never kept, and never compared with what was typed.
[[nodiscard]] QString asShown(const QString& text);
[[nodiscard]] QString asShown(const std::string& text);

/// "−38": a number with a minus that is one. To be shown only.
[[nodiscard]] QString numberAsShown(const Decimal& number);

/// With a capital at its beginning: the name of a member where it stands as a head, not behind "Stage 1".
[[nodiscard]] QString asHead(const QString& name);

} // namespace loopside::app
