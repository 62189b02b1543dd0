// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

namespace loopside::paper {

/// Makes "B612" mean the proportional face. Its package names the monospaced one "B612" too, and which of them is found
/// for regular text is chance. Call it before QGuiApplication is made.
void settleFace();

} // namespace loopside::paper
