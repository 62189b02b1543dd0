// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hand.h"

#include "base/require.h"
#include "panel.h"
#include "shown.h"
#include "stage.h"

#include <QCoreApplication>
#include <QTest>

#include <algorithm>
#include <cmath>

namespace loopside::scene {

namespace {

bool isArgument(const QString& name)
{
    return name.startsWith(QStringLiteral("key")) && name != QStringLiteral("keyMain")
        && !name.contains(QLatin1Char('_'));
}

} // namespace

Hand::Hand(test::Bench& bench) : bench_{bench}, window_{*bench.app()}, finger_{QTest::createTouchDevice()}
{
    require(window_.window() != nullptr, "the screens can be loaded");
    settle(*window_.window());
}

QQuickItem* Hand::part(const QString& name)
{
    const Shown shown = shownOn(*window_.window());
    const auto found = std::ranges::find_if(shown.targets, [&](const Target& target) {
        return target.item->objectName() == name
            || (target.item->parentItem() != nullptr && target.item->parentItem()->objectName() == name);
    });
    return found == shown.targets.end() ? nullptr : found->item;
}

bool Hand::isThere(const QString& name)
{
    return part(name) != nullptr;
}

void Hand::tap(const QString& name)
{
    QQuickItem* item = part(name);
    if (item == nullptr || !item->isEnabled()) {
        qCritical("there is no %s to touch", qUtf8Printable(name));
    }
    require(item != nullptr && item->isEnabled(), "what is to be touched is there");
    const QPointF place = item->mapToScene(QPointF(item->width() / 2, item->height() / 2));
    const double perMm = pixelsPerMm(window_.window()->size());
    const QPointF way = last_ ? place - *last_ : QPointF();
    touches_.push_back({name, std::hypot(way.x(), way.y()) / perMm, std::min(item->width(), item->height()) / perMm,
                        isArgument(name)});
    last_ = place;
    QTest::touchEvent(window_.window(), finger_.get()).press(0, place.toPoint(), window_.window()).commit();
    QTest::touchEvent(window_.window(), finger_.get()).release(0, place.toPoint(), window_.window()).commit();
    settle(*window_.window());
}

void Hand::tap(std::initializer_list<const char*> names)
{
    for (const char* name : names) {
        tap(QLatin1String(name));
    }
}

void Hand::type(const QString& digits)
{
    for (const QChar sign : digits) {
        tap(sign == QLatin1Char('.') ? QStringLiteral("keyPoint") : QStringLiteral("key") + sign);
    }
}

void Hand::logSet(std::initializer_list<const char*> numbers)
{
    int field = 0;
    for (const char* number : numbers) {
        if (bench_.app()->pad()->active() != field) {
            tap(QStringLiteral("keyMain"));
        }
        type(QLatin1String(number));
        ++field;
    }
    tap(QStringLiteral("keyMain"));
}

std::vector<Touch> Hand::take()
{
    last_.reset();
    return std::exchange(touches_, {});
}

} // namespace loopside::scene
