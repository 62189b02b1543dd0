// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "document.h"
#include "keystrokes.h"
#include "stage.h"
#include "tables.h"

#include <catch2/catch.hpp>

using namespace loopside;

TEST_CASE("the keystrokes in docs/screens.md are what the screens take now")
{
    scene::theProgram();
    CHECK(scene::tableIn(scene::screensDocument(), "keystrokes").value() == scene::keystrokeTable(scene::performAll()));
}
