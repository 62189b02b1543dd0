// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/gallery.h"

#include <QCoreApplication>
#include <QDir>
#include <QFile>

#include <array>
#include <cstdio>

namespace loopside::app {

namespace {

constexpr std::array<const char*, 2> orientations = {"landscape", "portrait"};
constexpr std::array<const char*, 3> themes = {"day", "night", "sun"};

void turn(QQuickWindow& window)
{
    window.resize(window.height(), window.width());
    QCoreApplication::processEvents();
}

QString pathOf(const QString& language, const char* orientation, const QString& theme, const QString& scene)
{
    return QStringList{language, QLatin1String(orientation), theme, scene + QStringLiteral(".png")}.join(
        QLatin1Char('/'));
}

QString picturesOf(const QString& language, const QString& scene)
{
    QString html;
    for (const char* orientation : orientations) {
        for (const char* theme : themes) {
            html += QStringLiteral("<a href=\"%1\"><img class=\"%2\" loading=\"lazy\" src=\"%1\" alt=\"%3\"></a>\n")
                        .arg(pathOf(language, orientation, QLatin1String(theme), scene), QLatin1String(orientation),
                             QStringList{scene, language, QLatin1String(orientation), QLatin1String(theme)}.join(
                                 QStringLiteral(", ")));
        }
    }
    return html;
}

constexpr const char* head = R"(<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<title>Loopside: every screen</title>
<style>
body { font-family: sans-serif; margin: 1em; background: #fff; color: #000; }
img { border: 1px solid #777; margin: 2px; vertical-align: top; }
img.landscape { width: 320px; height: 200px; }
img.portrait { width: 125px; height: 200px; }
nav a { display: inline-block; margin-right: 1em; }
</style>
</head>
<body>
<h1>Every screen</h1>
<p>For each scene and language: day, night and sun at 1280 × 800, then at 800 × 1280.</p>
)";

} // namespace

Camera::Camera(AppView& view, const Window& window, Film film, QStringList& taken)
    : view_{view}, window_{window}, film_{std::move(film)}, taken_{taken}
{
}

bool Camera::look(const QString& scene)
{
    if (!scene.contains(film_.only)) {
        return true;
    }
    taken_.append(scene);
    bool isTaken = true;
    for (const char* orientation : orientations) {
        isTaken = take(QLatin1String(orientation), scene) && isTaken;
        turn(*window_.window());
    }
    if (!isTaken) {
        std::fprintf(stderr, "loopside: no picture of %s could be written to %s\n", qUtf8Printable(scene),
                     qUtf8Printable(film_.folder));
    }
    return isTaken;
}

bool Camera::take(const QString& orientation, const QString& scene)
{
    bool isTaken = true;
    for (std::size_t i = 0; i < themes.size(); ++i) {
        const QString folder = QStringList{film_.folder, orientation, view_.onScreen().theme()}.join(QLatin1Char('/'));
        isTaken = QDir().mkpath(folder) && window_.save(folder + QLatin1Char('/') + scene + QStringLiteral(".png"))
            && isTaken;
        view_.onScreen().stepTheme();
    }
    return isTaken;
}

bool Glance::look(const QString&)
{
    for (int side = 0; side < 2; ++side) {
        QCoreApplication::processEvents();
        turn(*window_.window());
    }
    return true;
}

bool writeGalleryIndex(const QString& folder, const QStringList& languages, const QStringList& scenes)
{
    QString page = QString::fromUtf8(head);
    page += QStringLiteral("<nav>\n");
    for (const QString& scene : scenes) {
        page += QStringLiteral("<a href=\"#%1\">%1</a>\n").arg(scene);
    }
    page += QStringLiteral("</nav>\n");
    for (const QString& scene : scenes) {
        page += QStringLiteral("<h2 id=\"%1\">%1</h2>\n").arg(scene);
        for (const QString& language : languages) {
            page += QStringLiteral("<h3>%1</h3>\n<div>\n%2</div>\n").arg(language, picturesOf(language, scene));
        }
    }
    page += QStringLiteral("</body>\n</html>\n");
    QFile file(folder + QStringLiteral("/index.html"));
    return file.open(QIODevice::WriteOnly) && file.write(page.toUtf8()) >= 0 && file.flush();
}

} // namespace loopside::app
