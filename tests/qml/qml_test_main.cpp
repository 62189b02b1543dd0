// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "bench.h"
#include "paper/face.h"

#include <QQmlContext>
#include <QQmlEngine>
#include <QtQml/qqmlextensionplugin.h>
#include <QtQuickTest>

Q_IMPORT_QML_PLUGIN(Loopside_ModelPlugin)
Q_IMPORT_QML_PLUGIN(Loopside_UiPlugin)

/// Gives each test file a bench.
class Setup : public QObject
{
    Q_OBJECT

public Q_SLOTS:
    void applicationAvailable() { loopside::paper::settleFace(); }

    void qmlEngineAvailable(QQmlEngine* engine)
    {
        engine->addImportPath(QStringLiteral("qrc:/qt/qml"));
        engine->rootContext()->setContextProperty(QStringLiteral("bench"), new loopside::test::Bench(engine));
    }
};

QUICK_TEST_MAIN_WITH_SETUP(loopside, Setup)

#include "qml_test_main.moc"
