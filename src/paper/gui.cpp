// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/gui.h"

#include "paper/face.h"

#include <QGuiApplication>
#include <QHashFunctions>

#include <array>
#include <string>

namespace loopside::paper {

void startGui()
{
    if (QCoreApplication::instance() != nullptr) {
        return;
    }
    QHashSeed::setDeterministicGlobalSeed(); // else the fonts of a PDF stand in another order each time
    settleFace();
    qputenv("QT_QPA_PLATFORM", "offscreen");
    static int count = 1;
    static std::string name = "loopside";
    static std::array<char*, 2> arguments = {name.data(), nullptr};
    static const QGuiApplication program(count, arguments.data());
}

} // namespace loopside::paper
