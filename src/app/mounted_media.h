// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QString>
#include <QStringList>

namespace loopside::app {

/// Whether a volume that is mounted at `root` is one that somebody put in, such as a stick: below /media, /run/media or
/// /mnt, where systems mount what is removable (Filesystem Hierarchy Standard 3.0, from memory; /run/media: common
/// practice).
[[nodiscard]] bool isPutIn(const QString& root);

/// Where the sticks and cards that are in the tablet now are mounted.
[[nodiscard]] QStringList mountedMedia();

} // namespace loopside::app
