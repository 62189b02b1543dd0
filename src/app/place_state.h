// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/tablet.h"

#include <QString>

namespace loopside::app {

/// How a tank or a cart stands, in a few words.
struct PlaceState
{
    QString text;
    bool isInUse = false; ///< By a run or a job that is open.
};

/// What goes on at a tank: the run or transfer that is open there, else its last run, else that there was none.
[[nodiscard]] PlaceState tankStateOf(const Tablet& tablet, const std::string& tank);

/// What a cart does: where it is, that it has to be flushed, else its last oil.
[[nodiscard]] PlaceState cartStateOf(const Tablet& tablet, const std::string& cart);

} // namespace loopside::app
