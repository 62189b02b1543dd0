// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "fault.h"
#include "shown.h"

#include <map>

namespace loopside::scene {

/// Targets that are too small for a gloved finger, stand outside the window, or stand on or too near another.
[[nodiscard]] Faults targetFaults(const Shown& shown, const QSize& window);

/// The smallest target of each kind that was seen, and where.
struct Smallest
{
    double widthMm = 0.0;
    double heightMm = 0.0;
    bool isPrimary = false;
    QString scene;
};

/// Takes in the targets of a scene.
void gather(std::map<QString, Smallest>& kinds, const Shown& shown, const QSize& window, const QString& scene);

} // namespace loopside::scene
