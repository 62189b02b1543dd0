// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "clipping_check.h"

#include "panel.h"

#include <QJSValue>

#include <algorithm>

namespace loopside::scene {

namespace {

/// Rounding of glyphs and boxes.
constexpr double slack = 1.5;

QRectF boxOf(const QQuickItem* item)
{
    return item->mapRectToScene(QRectF(0, 0, item->width(), item->height()));
}

bool holds(const QRectF& outer, const QRectF& inner)
{
    return outer.adjusted(-slack, -slack, slack, slack).contains(inner);
}

/// What the words are written on: the nearest thing around them that has a colour, an edge, or cuts.
void checkGrounds(Faults& faults, const Lettering& words)
{
    for (const QQuickItem* ground = words.item->parentItem(); ground != nullptr; ground = ground->parentItem()) {
        if (isScroller(ground)) {
            return; // the rest of the page is reached by scrolling
        }
        const bool isPainted = isRectangle(ground)
            && (ground->property("color").value<QColor>().alpha() > 0
                || ground->property("border").value<QObject*>() == nullptr
                || ground->property("border").value<QObject*>()->property("width").toDouble() > 0);
        if ((isPainted || ground->clip()) && !holds(boxOf(ground), words.letters)) {
            faults.push_back(
                {placeOf(words.item),
                 QStringLiteral("goes over the edge of ") + placeOf(ground) + QStringLiteral(": ") + words.text});
            return;
        }
    }
}

void checkItself(Faults& faults, const Lettering& words, const QSize& window)
{
    const auto complain = [&](const QString& what) {
        faults.push_back({placeOf(words.item), what + QStringLiteral(": ") + words.text});
    };
    if (words.item->inherits("QQuickTextInput")) {
        return; // moves under its own edge, as it is typed
    }
    if (words.item->property("truncated").toBool()) {
        complain(QStringLiteral("is cut"));
    }
    const QRectF box = boxOf(words.item);
    const QRectF letters = words.letters;
    if (letters.left() < box.left() - slack || letters.right() > box.right() + slack) {
        complain(QStringLiteral("is wider than its box by %1").arg(letters.width() - box.width(), 0, 'f', 0));
    }
    if (letters.top() < box.top() - slack || letters.bottom() > box.bottom() + slack) {
        complain(QStringLiteral("is higher than its box by %1").arg(letters.height() - box.height(), 0, 'f', 0));
    }
    if (!holds(words.within, letters)) {
        complain(QStringLiteral("cannot be brought into sight whole"));
    }
    const double unit = std::min(window.width(), window.height()) / 800.0;
    const int pixels = words.item->property("fontInfo").value<QJSValue>().property(QStringLiteral("pixelSize")).toInt();
    if (pixels > 0 && pixels < letterPxMin * unit - 0.6) {
        complain(QStringLiteral("is small, %1 px").arg(pixels));
    }
}

void checkNeighbours(Faults& faults, const Shown& shown, std::size_t index)
{
    const Lettering& words = shown.letterings[index];
    if (words.seen.isEmpty()) {
        return;
    }
    for (std::size_t k = 0; k < index; ++k) {
        const Lettering& other = shown.letterings[k];
        const QRectF common = words.seen.intersected(other.seen);
        if (common.width() > slack && common.height() > slack) {
            faults.push_back(
                {placeOf(words.item), QStringLiteral("stands on other words: %1 | %2").arg(words.text, other.text)});
        }
    }
    for (const Target& target : shown.targets) {
        const QRectF common = words.seen.intersected(target.seen);
        // what stands beside a target in the same thing that is touched belongs to it
        const bool isPart = isWithin(words.item, target.item)
            || (target.item->parentItem() != nullptr && target.item->parentItem()->isAncestorOf(words.item)
                && target.rect.size() == boxOf(target.item->parentItem()).size());
        const bool isHint = target.item->inherits("QQuickTextInput");
        if (!isPart && !isHint && common.width() > slack && common.height() > slack) {
            faults.push_back(
                {placeOf(words.item), QStringLiteral("stands on %1: %2").arg(placeOf(target.item), words.text)});
        }
    }
}

} // namespace

Faults clippingFaults(const Shown& shown, const QSize& window)
{
    Faults faults;
    for (std::size_t i = 0; i < shown.letterings.size(); ++i) {
        checkItself(faults, shown.letterings[i], window);
        checkGrounds(faults, shown.letterings[i]);
        checkNeighbours(faults, shown, i);
    }
    return faults;
}

} // namespace loopside::scene
