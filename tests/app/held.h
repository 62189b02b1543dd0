// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QString>

namespace loopside::test {

/// With ~ for a space at which no line ends, and ~/~ for a slash of that kind.
[[nodiscard]] inline QString held(const char* utf8)
{
    return QString::fromUtf8(utf8)
        .replace(QStringLiteral("~/~"), QStringLiteral("\u2060/\u2060"))
        .replace(QLatin1Char('~'), QChar(0x00A0));
}

} // namespace loopside::test
