// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QString>

#include <vector>

namespace loopside::scene {

/// What is wrong with an item on a screen.
struct Fault
{
    QString item;     ///< Where it stands among its parents.
    QString sentence; ///< What is wrong.
};

using Faults = std::vector<Fault>;

} // namespace loopside::scene
