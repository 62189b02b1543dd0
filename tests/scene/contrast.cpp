// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "contrast.h"

#include <QCoreApplication>
#include <QHash>
#include <QImage>
#include <QMetaProperty>
#include <QStringList>

#include <algorithm>
#include <cmath>
#include <vector>

namespace loopside::scene {

namespace {

/// A colour that covers less of the ground is an edge that the box of the letters touches.
constexpr double groundShareMin = 0.03;

double linear(double channel)
{
    return channel <= 0.03928 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
}

double luminance(const QColor& colour)
{
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) + 0.0722 * linear(colour.blueF());
}

QColor over(const QColor& ink, double opacity, const QColor& ground)
{
    const double share = opacity * ink.alphaF();
    const auto mix = [&](double above, double below) {
        return static_cast<float>(share * above + (1 - share) * below);
    };
    return QColor::fromRgbF(mix(ink.redF(), ground.redF()), mix(ink.greenF(), ground.greenF()),
                            mix(ink.blueF(), ground.blueF()));
}

/// The window without its words.
QImage withoutWords(QQuickWindow& window, const Shown& shown)
{
    std::vector<double> opacities;
    for (const Lettering& words : shown.letterings) {
        opacities.push_back(words.item->opacity());
        words.item->setOpacity(0.0);
    }
    QCoreApplication::processEvents();
    const QImage picture = window.grabWindow().convertToFormat(QImage::Format_RGB32);
    for (std::size_t i = 0; i < opacities.size(); ++i) {
        shown.letterings[i].item->setOpacity(opacities[i]);
    }
    return picture;
}

std::vector<QColor> groundsIn(const QImage& picture, const QRectF& rect)
{
    QHash<QRgb, int> counts;
    const QRect inside = rect.toAlignedRect().intersected(picture.rect());
    for (int y = inside.top(); y <= inside.bottom(); ++y) {
        const auto* line = reinterpret_cast<const QRgb*>(picture.constScanLine(y));
        for (int x = inside.left(); x <= inside.right(); ++x) {
            ++counts[line[x]];
        }
    }
    std::vector<QColor> grounds;
    for (const auto& [colour, count] : counts.asKeyValueRange()) {
        if (count >= groundShareMin * inside.width() * inside.height()) {
            grounds.emplace_back(colour);
        }
    }
    return grounds;
}

/// The needle of a dial goes over its numbers, as on a cart.
bool isOnDial(const QQuickItem* item)
{
    return item != nullptr && (typeOf(item) == QStringLiteral("Dial") || isOnDial(item->parentItem()));
}

/// What is around a target: the colour that is most on a line just outside of it.
QColor around(const QImage& picture, const QRectF& rect)
{
    constexpr double outside = 3.0;
    std::map<QRgb, int> counts;
    const QRect line = rect.adjusted(-outside, -outside, outside, outside).toAlignedRect();
    for (int x = line.left(); x <= line.right(); ++x) {
        for (const int y : {line.top(), line.bottom()}) {
            if (picture.rect().contains(x, y)) {
                ++counts[picture.pixel(x, y)];
            }
        }
    }
    const auto most = std::ranges::max_element(counts, {}, [](const auto& one) { return one.second; });
    return most == counts.end() ? QColor() : QColor(most->first);
}

void checkEdge(Faults& faults, const Target& target, const QImage& picture)
{
    const QObject* border = target.item->property("border").value<QObject*>();
    if (!isRectangle(target.item) || border == nullptr || !target.item->isEnabled() || target.seen != target.rect) {
        return;
    }
    const QColor outside = around(picture, target.rect);
    const auto edge = border->property("color").value<QColor>();
    const auto face = target.item->property("color").value<QColor>();
    const double contrast = std::max(contrastOf(edge, outside), contrastOf(face, outside));
    if (outside.isValid() && contrast < edgeContrastMin) {
        faults.push_back({placeOf(target.item),
                          QStringLiteral("stands out by %1 only (edge %2, face %3 on %4)")
                              .arg(QString::number(contrast, 'f', 1), edge.name(), face.name(), outside.name())});
    }
}

} // namespace

double contrastOf(const QColor& a, const QColor& b)
{
    const double first = luminance(a);
    const double second = luminance(b);
    return (std::max(first, second) + 0.05) / (std::min(first, second) + 0.05);
}

Faults contrastFaults(std::map<ColourPair, Seen>& seen, QQuickWindow& window, const Shown& shown, const QString& theme,
                      const QString& scene)
{
    Faults faults;
    const QImage picture = withoutWords(window, shown);
    for (const Lettering& words : shown.letterings) {
        if (isOnDial(words.item)) {
            continue;
        }
        for (const QColor& ground : groundsIn(picture, words.seen)) {
            const QColor ink = over(words.ink, words.opacity, ground);
            const double contrast = contrastOf(ink, ground);
            seen.try_emplace({theme, ink.name(), ground.name()}, Seen{contrast, scene, words.text});
            if (contrast < contrastMin) {
                faults.push_back(
                    {placeOf(words.item),
                     QStringLiteral("has %1:1 (%2 on %3, %4): %5")
                         .arg(QString::number(contrast, 'f', 1), ink.name(), ground.name(), theme, words.text)});
            }
        }
    }
    for (const Target& target : shown.targets) {
        checkEdge(faults, target, picture);
    }
    return faults;
}

QString rolesOf(const QObject& theme, const QString& colour)
{
    QStringList roles;
    for (int i = 0; i < theme.metaObject()->propertyCount(); ++i) {
        const QMetaProperty property = theme.metaObject()->property(i);
        const QColor value = property.metaType() == QMetaType::fromType<QColor>()
            ? property.read(&theme).value<QColor>()
            : QColor();
        if (value.isValid() && value.alpha() == 255 && value.name() == colour) {
            roles.append(QString::fromLatin1(property.name()));
        }
    }
    roles.sort();
    return roles.join(QStringLiteral(", "));
}

} // namespace loopside::scene
