// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/face.h"

#include <fontconfig/fontconfig.h>

#include <string_view>

namespace loopside::paper {

void settleFace()
{
    constexpr std::string_view rule = R"(<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig><selectfont><rejectfont><glob>*/B612Mono-*</glob></rejectfont></selectfont></fontconfig>)";
    FcConfig* config = FcInitLoadConfig();
    if (config == nullptr) {
        return; // no fonts at all would be Qt's to say
    }
    const auto* bytes = reinterpret_cast<const FcChar8*>(rule.data()); // fontconfig's own byte type
    FcConfigParseAndLoadFromMemory(config, bytes, FcTrue);
    FcConfigBuildFonts(config);
    FcConfigSetCurrent(config);
}

} // namespace loopside::paper
