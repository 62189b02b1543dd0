// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "stage.h"

#include "app/face.h"

#include <QGuiApplication>
#include <QtQml/qqmlextensionplugin.h>

Q_IMPORT_QML_PLUGIN(Loopside_ModelPlugin)
Q_IMPORT_QML_PLUGIN(Loopside_UiPlugin)

namespace loopside::scene {

void theProgram()
{
    static int words = 1;
    static char name[] = "test_scene";
    static char* arguments[] = {name, nullptr};
    static const bool isSettled = (app::settleFace(), true);
    static const auto* program = new QGuiApplication(words, arguments); // lives longer than anything static of Qt
    static_cast<void>(isSettled);
    static_cast<void>(program);
}

} // namespace loopside::scene
