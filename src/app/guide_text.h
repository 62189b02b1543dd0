// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QList>
#include <QString>
#include <QStringList>

#include <string_view>

namespace loopside::app {

/// One line of the guide as a screen shows it: no table and no picture needs more width than the words have.
struct GuideLine
{
    /// text, item (of a list), code, head (what a row of a table is about), cell (what that row says to it).
    QString kind;
    /// Of an item its number or sign, of a cell the head of its column where there are several; else empty.
    QString mark;
    /// With the few tags of Qt's styled text: names of keys are bold and slanted.
    QString text;
    /// The same without tags, to be read out.
    QString plain;
};

/// A part of the guide, by its heading.
struct GuidePart
{
    QString title;
    QList<GuideLine> lines;
};

/// The parts of a guide in Markdown, in their order; what stands before the first heading of the second level is a part
/// with the title of the whole. A guide without any heading has no part.
[[nodiscard]] QList<GuidePart> guideParts(std::string_view markdown);

/// The titles of `guideParts`, where each heading is a line of its own that begins with its signs: the rest is not
/// read.
[[nodiscard]] QStringList guideTitles(std::string_view markdown);

/// `markdown` without the comments at its head, which are for who edits it.
[[nodiscard]] QString withoutComments(std::string_view markdown);

} // namespace loopside::app
