// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/mounted_media.h"

#include <QStorageInfo>

#include <algorithm>
#include <array>

namespace loopside::app {

bool isPutIn(const QString& root)
{
    constexpr std::array<const char*, 3> places = {"/media/", "/run/media/", "/mnt/"};
    return std::ranges::any_of(places, [&](const char* place) { return root.startsWith(QLatin1String(place)); });
}

QStringList mountedMedia()
{
    QStringList roots;
    for (const QStorageInfo& volume : QStorageInfo::mountedVolumes()) {
        if (volume.isValid() && volume.isReady() && isPutIn(volume.rootPath())) {
            roots.append(volume.rootPath());
        }
    }
    roots.sort();
    return roots;
}

} // namespace loopside::app
