// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "stage.h"

#include "paper/face.h"

#include <QGuiApplication>
#include <QImage>
#include <QtQml/qqmlextensionplugin.h>

#include <utility>

Q_IMPORT_QML_PLUGIN(Loopside_ModelPlugin)
Q_IMPORT_QML_PLUGIN(Loopside_UiPlugin)

namespace loopside::scene {

void theProgram()
{
    static int words = 1;
    static char name[] = "test_scene";
    static char* arguments[] = {name, nullptr};
    static const bool isSettled = (paper::settleFace(), true);
    static const auto* program = new QGuiApplication(words, arguments); // lives longer than anything static of Qt
    static_cast<void>(isSettled);
    static_cast<void>(program);
}

void settle(QQuickWindow& window)
{
    constexpr int mostRounds = 8; // what swings or flashes never is
    QImage before;
    for (int round = 0; round < mostRounds; ++round) {
        QCoreApplication::sendPostedEvents();
        QCoreApplication::processEvents();
        QMetaObject::invokeMethod(&window, "update");
        QImage frame = window.grabWindow();
        if (frame == before) {
            return;
        }
        before = std::move(frame);
    }
}

} // namespace loopside::scene
