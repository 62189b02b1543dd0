// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "target_check.h"

#include "panel.h"

#include <algorithm>

namespace loopside::scene {

namespace {

QString mm(double size)
{
    return QString::number(size, 'f', 1);
}

void checkSize(Faults& faults, const Target& target, const QSize& window)
{
    const double perMm = pixelsPerMm(window);
    const double least = (target.isPrimary ? primaryMmMin : targetMmMin) - roundingMm;
    const double width = target.rect.width() / perMm;
    const double height = target.rect.height() / perMm;
    if (width < least || height < least) {
        faults.push_back({placeOf(target.item),
                          QStringLiteral("is %1 mm × %2 mm, not %3 mm").arg(mm(width), mm(height), mm(least))});
    }
    if (!target.within.adjusted(-1, -1, 1, 1).contains(target.rect)) {
        faults.push_back({placeOf(target.item), QStringLiteral("cannot be brought into sight whole")});
    }
}

/// Two that stand in each other are one (a field and the mouse area that fills it).
bool areOne(const Target& a, const Target& b)
{
    return isWithin(a.item, b.item) || isWithin(b.item, a.item);
}

void checkDistance(Faults& faults, const Target& a, const Target& b, double perMm)
{
    const double apartX = std::max(a.seen.left() - b.seen.right(), b.seen.left() - a.seen.right());
    const double apartY = std::max(a.seen.top() - b.seen.bottom(), b.seen.top() - a.seen.bottom());
    const double gap = std::max(apartX, apartY) / perMm;
    if (gap < -roundingMm) {
        faults.push_back({placeOf(a.item), QStringLiteral("stands on ") + placeOf(b.item)});
    } else if (gap < gapMmMin - 2 * roundingMm) {
        faults.push_back({placeOf(a.item), QStringLiteral("is %1 mm from ").arg(mm(gap)) + placeOf(b.item)});
    }
}

} // namespace

Faults targetFaults(const Shown& shown, const QSize& window)
{
    Faults faults;
    for (std::size_t i = 0; i < shown.targets.size(); ++i) {
        checkSize(faults, shown.targets[i], window);
        for (std::size_t k = 0; k < i; ++k) {
            if (!areOne(shown.targets[i], shown.targets[k]) && !shown.targets[i].seen.isEmpty()
                && !shown.targets[k].seen.isEmpty()) {
                checkDistance(faults, shown.targets[i], shown.targets[k], pixelsPerMm(window));
            }
        }
    }
    return faults;
}

void gather(std::map<QString, Smallest>& kinds, const Shown& shown, const QSize& window, const QString& scene)
{
    const double perMm = pixelsPerMm(window);
    for (const Target& target : shown.targets) {
        const Smallest found{target.rect.width() / perMm, target.rect.height() / perMm, target.isPrimary, scene};
        const auto [kind, isNew] = kinds.try_emplace(kindOf(target.item), found);
        if (!isNew && found.widthMm * found.heightMm < kind->second.widthMm * kind->second.heightMm - 1e-6) {
            kind->second = found;
        }
    }
}

} // namespace loopside::scene
