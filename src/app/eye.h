// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QString>

namespace loopside::app {

/// Looks at each screen of a tour as it comes. It may turn theme and size of the window, and leaves them as they were.
class Eye
{
public:
    Eye() = default;
    Eye(const Eye&) = delete;
    Eye& operator=(const Eye&) = delete;
    virtual ~Eye() = default;

    /// False if the tour has failed with what was seen; the reason is on standard error then.
    [[nodiscard]] virtual bool look(const QString& scene) = 0;
};

} // namespace loopside::app
