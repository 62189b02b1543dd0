// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "shown.h"

#include <QMetaMethod>
#include <QStringList>

#include <algorithm>

namespace loopside::scene {

namespace {

/// Lets `isSignalConnected` be asked of any object.
struct Asked : QObject
{
    using QObject::isSignalConnected;
};

bool isConnected(const QObject* object, const char* signal)
{
    const int index = object->metaObject()->indexOfSignal(signal);
    return index >= 0 && (object->*(&Asked::isSignalConnected))(object->metaObject()->method(index));
}

bool isMouseArea(const QQuickItem* item)
{
    return item->inherits("QQuickMouseArea");
}

/// A mouse area that only keeps touches from what it covers is no target.
bool takesTouch(const QQuickItem* item)
{
    if (isMouseArea(item)) {
        return isConnected(item, "clicked(QQuickMouseEvent*)") || isConnected(item, "pressed(QQuickMouseEvent*)");
    }
    if (item->inherits("QQuickTextInput")) {
        return true;
    }
    return std::ranges::any_of(item->children(),
                               [](const QObject* child) { return child->inherits("QQuickTapHandler"); });
}

QRectF boxOf(const QQuickItem* item)
{
    return item->mapRectToScene(QRectF(0, 0, item->width(), item->height()));
}

/// Keeps touches off what is under it: of a sheet, an alert, a banner.
bool isShield(const QQuickItem* item)
{
    return isMouseArea(item) && !takesTouch(item);
}

/// The whole window is under its colour: a sheet's scrim, the ground of an alert.
bool coversWindow(const QQuickItem* item, const QQuickWindow& window)
{
    return isRectangle(item) && item->property("color").value<QColor>().alpha() > 0
        && boxOf(item).contains(QRectF(1, 1, window.width() - 2, window.height() - 2));
}

/// Among the keys that are touched most, or the one main key.
bool isPrimary(const QQuickItem* item)
{
    for (const QQuickItem* one = item; one != nullptr; one = one->parentItem()) {
        const QString type = typeOf(one);
        if (type == QStringLiteral("NumberKeys") || type == QStringLiteral("ModeKeys")) {
            return true;
        }
    }
    return item->property("isMain").toBool();
}

double shift(int alignment, int centre, int end, double room)
{
    return (alignment & end) != 0 ? room : (alignment & centre) != 0 ? room / 2 : 0.0;
}

/// A line of text is higher than its letters, by this share of itself, above and below together.
constexpr double leading = 0.36;
/// Rounding of glyphs.
constexpr double slack = 1.5;

QRectF lettersOf(const QQuickItem* item)
{
    if (item->inherits("QQuickTextInput")) {
        const double padding = item->property("padding").toDouble();
        return item->mapRectToScene(
            QRectF(padding, padding, item->width() - 2 * padding, item->height() - 2 * padding));
    }
    const double width = item->property("contentWidth").toDouble();
    const double height = item->property("contentHeight").toDouble();
    const double x = shift(item->property("effectiveHorizontalAlignment").toInt(), Qt::AlignHCenter, Qt::AlignRight,
                           item->width() - width);
    const double y = shift(item->property("verticalAlignment").toInt(), Qt::AlignVCenter, Qt::AlignBottom,
                           item->height() - height);
    const double spare = height / std::max(1, item->property("lineCount").toInt()) * leading / 2;
    return item->mapRectToScene(QRectF(x, y, width, height).adjusted(slack, spare, -slack, -spare));
}

QList<QQuickItem*> inOrder(const QQuickItem* parent)
{
    QList<QQuickItem*> children = parent->childItems();
    std::ranges::stable_sort(children, {}, &QQuickItem::z);
    return children;
}

/// All that a page that scrolls can bring into sight.
QRectF scrolledBy(const QQuickItem& scroller)
{
    const auto* content = scroller.property("contentItem").value<QQuickItem*>();
    return content->mapRectToScene(QRectF(0, 0, scroller.width(), scroller.property("contentHeight").toDouble()));
}

/// What of `rect` is not under `cover`: the part above, below or beside it; all of it where only a corner is covered.
QRectF beside(QRectF rect, const QRectF& cover)
{
    if (!rect.intersects(cover)) {
        return rect;
    }
    if (cover.left() <= rect.left() && cover.right() >= rect.right()) {
        cover.top() > rect.top() ? rect.setBottom(cover.top()) : rect.setTop(cover.bottom());
    } else if (cover.top() <= rect.top() && cover.bottom() >= rect.bottom()) {
        cover.left() > rect.left() ? rect.setRight(cover.left()) : rect.setLeft(cover.right());
    }
    return rect;
}

struct Around
{
    double opacity = 1.0;
    QRectF within;
    QRectF sight;
};

class Walk
{
public:
    explicit Walk(const QQuickWindow& window) : window_{window} {}

    Shown run()
    {
        const QRectF all(QPointF(), QSizeF(window_.size()));
        visit(window_.contentItem(), {1.0, all, QRectF(-1e6, -1e6, 2e6, 2e6)});
        return std::move(shown_);
    }

private:
    void visit(QQuickItem* item, Around around)
    {
        around.opacity *= item->opacity();
        if (!item->isVisible() || around.opacity <= 0.0) {
            return;
        }
        const QList<QQuickItem*> children = inOrder(item);
        const auto behind = std::ranges::find_if(children, [](const QQuickItem* child) { return child->z() >= 0.0; });
        std::for_each(children.begin(), behind, [&](QQuickItem* child) { visit(child, around); });
        take(item, around);
        if (isScroller(item)) {
            around.within = scrolledBy(*item);
            around.sight = around.sight.intersected(boxOf(item));
        }
        std::for_each(behind, children.end(), [&](QQuickItem* child) { visit(child, around); });
    }

    void take(QQuickItem* item, const Around& around)
    {
        if (coversWindow(item, window_)) {
            shown_ = {}; // what was painted before is covered
        }
        if (isShield(item)) {
            dropUnder(*item);
        }
        shown_.items.push_back(item);
        if (item->width() > 0 && item->height() > 0 && takesTouch(item)) {
            const QRectF box = boxOf(item);
            shown_.targets.push_back({item, box, box.intersected(around.sight), around.within, isPrimary(item)});
        }
        const QString text = item->property("text").toString();
        if (isText(item) && !text.trimmed().isEmpty()) {
            const QRectF letters = lettersOf(item);
            shown_.letterings.push_back({item, text, letters, letters.intersected(around.sight), around.within,
                                         item->property("color").value<QColor>(), around.opacity});
        }
    }

    /// What was painted before and is not what the shield stands in is hidden, as far as it is under it.
    void dropUnder(const QQuickItem& shield)
    {
        const QRectF box = boxOf(&shield);
        const auto isUnder = [&](const QQuickItem* item, const QRectF& rect) {
            return !item->isAncestorOf(&shield) && box.contains(rect);
        };
        std::erase_if(shown_.items, [&](const QQuickItem* item) { return isUnder(item, boxOf(item)); });
        std::erase_if(shown_.targets, [&](const Target& target) { return isUnder(target.item, target.rect); });
        std::erase_if(shown_.letterings, [&](const Lettering& words) { return isUnder(words.item, words.letters); });
        for (Target& target : shown_.targets) {
            target.seen = target.item->isAncestorOf(&shield) ? target.seen : beside(target.seen, box);
        }
        for (Lettering& words : shown_.letterings) {
            words.seen = words.item->isAncestorOf(&shield) ? words.seen : beside(words.seen, box);
        }
    }

    const QQuickWindow& window_;
    Shown shown_;
};

} // namespace

Shown shownOn(const QQuickWindow& window)
{
    return Walk(window).run();
}

QString typeOf(const QQuickItem* item)
{
    const QString name = QString::fromLatin1(item->metaObject()->className());
    return name.section(QStringLiteral("_QML"), 0, 0);
}

QString placeOf(const QQuickItem* item)
{
    constexpr int generations = 4;
    QStringList place;
    for (const QQuickItem* one = item; one != nullptr && place.size() < generations; one = one->parentItem()) {
        const bool isPlain = one->objectName().isEmpty() && typeOf(one).startsWith(QStringLiteral("QQuick"));
        if (!isPlain || one == item) {
            place.prepend((typeOf(one) + QLatin1Char(' ') + one->objectName()).trimmed());
        }
    }
    return place.join(QStringLiteral(" > "));
}

QString kindOf(const QQuickItem* item)
{
    for (const QQuickItem* one = item; one != nullptr; one = one->parentItem()) {
        if (!one->objectName().isEmpty()) {
            QString name = one->objectName();
            while (!name.isEmpty() && name.back().isDigit()) {
                name.chop(1);
            }
            return name;
        }
    }
    return typeOf(item);
}

bool isWithin(const QQuickItem* item, const QQuickItem* ancestor)
{
    return item == ancestor || ancestor->isAncestorOf(item);
}

bool isText(const QQuickItem* item)
{
    return item->inherits("QQuickText") || item->inherits("QQuickTextInput");
}

bool isRectangle(const QQuickItem* item)
{
    return item->inherits("QQuickRectangle");
}

bool isScroller(const QQuickItem* item)
{
    return item->inherits("QQuickFlickable");
}

} // namespace loopside::scene
