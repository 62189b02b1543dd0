// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/demo.h"

#include "embedded/scenesJson.h"
#include "embedded/shiftJson.h"
#include "embedded/siteJson.h"

namespace loopside::app {

std::string_view demoSite()
{
    return siteJson();
}

std::string_view demoScenes()
{
    return scenesJson();
}

std::string_view demoShift()
{
    return shiftJson();
}

} // namespace loopside::app
