// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "reach_check.h"

#include <QAccessible>
#include <QCoreApplication>
#include <QKeyEvent>

#include <algorithm>
#include <set>

namespace loopside::scene {

namespace {

/// What a screen reader knows of an item.
struct Told
{
    QString name;
    QString description;
    QAccessible::Role role = QAccessible::NoRole;
};

Told toldOf(QQuickItem* item)
{
    QAccessibleInterface* interface = QAccessible::queryAccessibleInterface(item);
    return interface == nullptr
        ? Told{}
        : Told{interface->text(QAccessible::Name), interface->text(QAccessible::Description), interface->role()};
}

/// The item that speaks for a target: itself, or what it fills (a field and its mouse area).
QQuickItem* speakerOf(const Target& target)
{
    const bool fillsParent = target.item->inherits("QQuickMouseArea") && target.item->parentItem() != nullptr;
    return fillsParent ? target.item->parentItem() : target.item;
}

bool isKnown(const Lettering& words)
{
    for (QQuickItem* item = words.item; item != nullptr; item = item->parentItem()) {
        if (!toldOf(item).name.isEmpty()) {
            return true;
        }
    }
    return false;
}

bool send(QQuickWindow& window, int key, bool isHeld)
{
    const QString text = key == Qt::Key_Space ? QStringLiteral(" ") : QString();
    QKeyEvent press(QEvent::KeyPress, key, Qt::NoModifier, text, isHeld);
    QKeyEvent release(QEvent::KeyRelease, key, Qt::NoModifier, text, isHeld);
    QCoreApplication::sendEvent(&window, &press);
    QCoreApplication::sendEvent(&window, &release);
    return press.isAccepted();
}

/// What an item looks like now, by what of it changes with the focus.
QString looksOf(const QQuickItem* item)
{
    const QObject* border = item->property("border").value<QObject*>();
    QString looks = border == nullptr
        ? QString()
        : border->property("color").value<QColor>().name() + QString::number(border->property("width").toDouble());
    looks += item->property("color").value<QColor>().name();
    for (const QQuickItem* child : item->childItems()) {
        looks += child->isVisible() ? QLatin1Char('1') : QLatin1Char('0');
    }
    return looks;
}

/// A field keeps its frame as long as it is the one that is typed into.
bool isField(QQuickItem* item)
{
    return toldOf(item).role == QAccessible::EditableText;
}

/// A key that does its work again while it is held is not held here: that would be done.
bool mayBeHeld(const QQuickItem* item)
{
    return item->property("repeats").isValid() && !item->property("repeats").toBool();
}

void checkKeys(Faults& faults, QQuickWindow& window, QQuickItem* item)
{
    if (!mayBeHeld(item) || !item->isEnabled()) {
        return;
    }
    for (const int key : {Qt::Key_Space, Qt::Key_Return, Qt::Key_Enter}) {
        if (!send(window, key, true)) { // as held, so that a key takes it and does nothing
            faults.push_back({placeOf(item), QStringLiteral("takes no ") + QKeySequence(key).toString()});
        }
    }
}

} // namespace

Faults namingFaults(const Shown& shown)
{
    Faults faults;
    for (const Target& target : shown.targets) {
        QQuickItem* speaker = speakerOf(target);
        const Told told = toldOf(speaker);
        if (told.name.trimmed().isEmpty()) {
            faults.push_back({placeOf(speaker), QStringLiteral("has no name that can be read out")});
        }
        if (told.role == QAccessible::NoRole || told.role == QAccessible::Client) {
            faults.push_back({placeOf(speaker), QStringLiteral("does not tell what it is")});
        }
    }
    for (const Lettering& words : shown.letterings) {
        if (!isKnown(words)) {
            faults.push_back({placeOf(words.item), QStringLiteral("cannot be read out: ") + words.text});
        }
    }
    return faults;
}

Faults keyboardFaults(QQuickWindow& window, const Shown& shown)
{
    constexpr int manyKeys = 200;
    Faults faults;
    QQuickItem* before = window.activeFocusItem();
    std::set<const QQuickItem*> reached;
    QQuickItem* last = nullptr;
    QString lastLooks;
    for (int i = 0; i < manyKeys; ++i) {
        send(window, Qt::Key_Tab, false);
        if (last != nullptr && last != window.activeFocusItem() && !isField(last) && looksOf(last) == lastLooks) {
            faults.push_back({placeOf(last), QStringLiteral("looks the same with the focus as without")});
        }
        QQuickItem* item = window.activeFocusItem();
        last = item;
        if (item == nullptr || !reached.insert(item).second) {
            break;
        }
        lastLooks = looksOf(item);
        if (std::ranges::find(shown.items, item) == shown.items.end()) {
            faults.push_back({placeOf(item), QStringLiteral("is reached by Tab though it is covered or hidden")});
            last = nullptr;
            continue;
        }
        checkKeys(faults, window, item);
    }
    for (const Target& target : shown.targets) {
        QQuickItem* speaker = speakerOf(target);
        if (target.item->isEnabled() && !reached.contains(speaker)) {
            faults.push_back({placeOf(speaker), QStringLiteral("is not reached by Tab")});
        }
    }
    if (before != nullptr) {
        before->forceActiveFocus(Qt::OtherFocusReason);
    }
    return faults;
}

} // namespace loopside::scene
