// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Holds every screen of the tour against what gloved hands, glare and night ask of it. A screen that is added to the
// tour is held against it with no more ado.

#pragma once

#include "app/eye.h"
#include "app/window.h"
#include "contrast.h"
#include "target_check.h"
#include "words/words.h"

#include <QSize>
#include <QStringList>

#include <string>
#include <vector>

namespace loopside::scene {

/// How a screen is looked at.
struct Look
{
    QSize window;
    double textScale = 1.0;
};

inline constexpr QSize lengthwise = QSize(1280, 800);
inline constexpr QSize upright = QSize(800, 1280);
inline constexpr QSize large = QSize(1920, 1200);

/// What is looked for.
struct Wanted
{
    std::vector<Look> looks;
    bool clipping = false;
    bool targets = false;
    bool naming = false;
    bool keyboard = false;
    bool contrast = false; ///< At the first look, in each theme.
    QString only = {};     ///< Scenes whose name contains this.
    QString pictures = {}; ///< A folder for a picture of each look; empty: none.
};

/// What was found on all screens.
struct Found
{
    QStringList faults; ///< Each once, with the scene and look where it was first seen and on how many it was.
    int scenes = 0;
    std::map<QString, Smallest> targets;
    std::map<ColourPair, Seen> colours;
    std::map<QString, QString> roles; ///< "theme #rrggbb" to the roles that have this colour.
    QStringList warnings;             ///< Of Qt and QML.
    bool isPlayed = false;            ///< The tour came to its end.
};

/// Plays the tour with `words` and looks at each of its screens.
[[nodiscard]] Found audit(words::Words words, const std::string& language, const Wanted& wanted);

} // namespace loopside::scene
