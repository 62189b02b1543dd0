// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Pictures of every screen of a tour, in one folder for people to look through:
//
//   index.html                           one row a scene, its pictures beside each other
//   <language>/<landscape|portrait>/<day|night|sun>/<scene>.png
//   <language>/record/                   the journal that the tour wrote

#pragma once

#include "app/app_view.h"
#include "app/eye.h"
#include "app/window.h"

#include <QStringList>

namespace loopside::app {

/// Where pictures go, and of which scenes: those whose name contains `only`.
struct Film
{
    QString folder;
    QString only;
};

/// Takes a picture of each scene in each theme and orientation.
class Camera final : public Eye
{
public:
    /// `taken` gets the names of the scenes, in the order of the tour.
    Camera(AppView& view, const Window& window, Film film, QStringList& taken);

    [[nodiscard]] bool look(const QString& scene) override;

private:
    bool take(const QString& orientation, const QString& scene);

    AppView& view_;
    const Window& window_;
    Film film_;
    QStringList& taken_;
};

/// Lays each scene out in both orientations and keeps nothing: what QML complains of is collected by the window.
class Glance final : public Eye
{
public:
    explicit Glance(const Window& window) : window_{window} {}

    [[nodiscard]] bool look(const QString& scene) override;

private:
    const Window& window_;
};

/// Writes `folder`/index.html over the pictures of `scenes` in `languages`. False if it cannot be written.
[[nodiscard]] bool writeGalleryIndex(const QString& folder, const QStringList& languages, const QStringList& scenes);

} // namespace loopside::app
