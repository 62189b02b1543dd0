// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

namespace loopside::paper {

/// Text is laid out by Qt, which wants a program for it: where there is none, makes one without a screen, for good.
void startGui();

} // namespace loopside::paper
