// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What stands on a window now, taken from its real items: what can be touched, what can be read, in the order in which
// it is painted. What a sheet or an alert covers is not there.

#pragma once

#include <QColor>
#include <QQuickItem>
#include <QQuickWindow>
#include <QRectF>
#include <QString>

#include <vector>

namespace loopside::scene {

/// Something that takes a touch.
struct Target
{
    QQuickItem* item = nullptr;
    QRectF rect;   ///< On the window.
    QRectF seen;   ///< What of it is in sight; a page that scrolls hides the rest.
    QRectF within; ///< Where it can be brought into sight: the window, or all of a page that scrolls.
    bool isPrimary = false;
};

/// Words on the screen.
struct Lettering
{
    QQuickItem* item = nullptr;
    QString text;
    QRectF
        letters; ///< Where its letters are, on the window; not the box that they stand in, nor the room between lines.
    QRectF seen; ///< What of that is in sight.
    QRectF within; ///< Where it can be brought into sight.
    QColor ink;
    double opacity = 1.0;
};

struct Shown
{
    std::vector<QQuickItem*> items; ///< In the order of painting.
    std::vector<Target> targets;
    std::vector<Lettering> letterings;
};

[[nodiscard]] Shown shownOn(const QQuickWindow& window);

/// "Header > BigKey who": the type and name of an item, and of what it stands in.
[[nodiscard]] QString placeOf(const QQuickItem* item);
/// "BigKey": the type as QML names it.
[[nodiscard]] QString typeOf(const QQuickItem* item);
/// The name without its number: keys of one list are of one kind.
[[nodiscard]] QString kindOf(const QQuickItem* item);

[[nodiscard]] bool isWithin(const QQuickItem* item, const QQuickItem* ancestor);
[[nodiscard]] bool isText(const QQuickItem* item);
[[nodiscard]] bool isRectangle(const QQuickItem* item);
[[nodiscard]] bool isScroller(const QQuickItem* item);

} // namespace loopside::scene
