// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/tour.h"
#include "app/wording.h"

#include <QQuickItem>

#include <algorithm>
#include <array>

namespace loopside::app {

namespace {

constexpr std::array<const char*, 8> stepNames = {"1-tank",  "2-cart",   "3-elements", "4-oil",
                                                  "5-hoses", "6-target", "7-verdict",  "8-area"};

template<class List, class Name>
int rowNamed(const List& list, const std::string& wanted, Name nameOf)
{
    const auto found = std::find_if(list.begin(), list.end(), [&](const auto& item) { return nameOf(item) == wanted; });
    return found == list.end() ? -1 : static_cast<int>(found - list.begin());
}

/// The item of that name that can be seen, among what stands in each other on the screen.
QQuickItem* itemNamed(QQuickItem* in, const QString& name)
{
    for (QQuickItem* item : in->childItems()) {
        if (item->isVisible() && item->objectName() == name) {
            return item;
        }
        if (QQuickItem* inside = itemNamed(item, name)) {
            return inside;
        }
    }
    return nullptr;
}

} // namespace

bool Tour::choose(const std::string& tank, const std::string& cart)
{
    const Site& site = stage_.tablet.site();
    const int tankRow = rowNamed(site.tanks, tank, [](const auto& item) { return item.name; });
    const int cartRow = rowNamed(site.carts, cart, [](const auto& item) { return item.cart.name; });
    stage_.view.setup()->chooseTank(tankRow);
    stage_.view.setup()->chooseCart(cartRow);
    return tankRow >= 0 && cartRow >= 0;
}

void Tour::touch(const char* key) const
{
    QQuickItem* item = itemNamed(stage_.window.window()->contentItem(), QLatin1String(key));
    if (item != nullptr) {
        QMetaObject::invokeMethod(item, "pressed");
    }
}

void Tour::type(FieldsView& fields, int field, const char* text)
{
    fields.select(field);
    while (!fields.isEmpty(field)) {
        fields.backspace();
    }
    for (const QChar sign : QString::fromLatin1(text)) {
        fields.key(QString(sign));
    }
}

/// Answers what has no answer yet, with time to look.
void Tour::lookThrough(ChecklistView& points)
{
    for (int asked = 0; asked < points.points()->rowCount() && !points.isComplete(); ++asked) {
        look();
        points.answer(QStringLiteral("done"));
    }
    isFine_ = points.isComplete() && isFine_;
}

void Tour::look()
{
    stage_.clock.moveTo(stage_.clock.time() + std::chrono::seconds(2));
}

bool Tour::setUp()
{
    return setUpAgainst() && setUpStory();
}

/// Thick oil on a cold morning: every step as it looks then, and the sheet to start against it.
bool Tour::setUpAgainst()
{
    SetupView* setup = stage_.view.setup();
    isFine_ = picture(QStringLiteral("01-set-up-empty")) && isFine_;
    if (!choose("Debarker gearbox", "Cart B")) {
        return false;
    }
    type(*setup->oil(), 0, "8");
    setup->choosePlacement(2);
    setup->chooseTarget(2);
    type(*setup->code(), 0, "18/16/13");
    for (std::size_t step = 0; step < stepNames.size(); ++step) {
        setup->show(static_cast<int>(step));
        isFine_ = picture(QStringLiteral("01-no-go-") + QLatin1String(stepNames[step])) && isFine_;
    }
    setup->show(static_cast<int>(SetupView::Step::Verdict));
    touch("startAgainst");
    isFine_ = picture(QStringLiteral("01-no-go-9-override")) && isFine_;
    touch("overridePerson0");
    touch("overrideReason1");
    touch("overrideKeep");
    isFine_ = picture(QStringLiteral("01-no-go-9-overridden")) && isFine_;
    const bool isKept = !setup->wantsOverride();
    for (const char* oil : {"13", ""}) { // slower with this cart; without a temperature nobody can tell
        isFine_ = choose("Winder gearbox", "Cart C") && isFine_;
        type(*setup->oil(), 0, oil);
        isFine_ = picture(QStringLiteral("01-verdict-") + setup->verdict()->sign()) && isFine_;
    }
    return isKept;
}

/// The tag of another tank, read at the start of a set-up; then the right one, and the oil on its plate.
bool Tour::wrongTank()
{
    SetupView* setup = stage_.view.setup();
    TankCheck* check = setup->tankCheck();
    setup->show(static_cast<int>(SetupView::Step::Tank));
    check->takeTag(QStringLiteral("BM-ST-003"), run::LookBy::Reader);
    bool isFine = check->isMismatch() && picture(QStringLiteral("01-wrong-tank"));
    touch("orderIsWrong");
    isFine = picture(QStringLiteral("01-wrong-tank-why")) && isFine;
    touch("wrongTankBack");
    touch("goToRightTank");
    const auto& plates = stage_.tablet.site().plates;
    const auto plate = plates.find(story_.setup.tank.name);
    touch("checkTank");
    if (plate != plates.end()) {
        look();
        check->takeTag(toQt(plate->second), run::LookBy::Reader);
    }
    isFine = picture(QStringLiteral("01-tank-check")) && isFine;
    touch("tankCheckBack");
    return isFine && !check->isMismatch();
}

/// A point that was answered before at the same tank and cart, and another tank was chosen in between.
bool Tour::pictureStillSo()
{
    SetupView* setup = stage_.view.setup();
    look();
    setup->hosePoints()->answer(QStringLiteral("done"));
    if (!choose("Debarker gearbox", "Cart B") || !choose(story_.setup.tank.name, story_.setup.cart.name)) {
        return false;
    }
    setup->choosePlacement(0);
    setup->show(static_cast<int>(SetupView::Step::Hoses));
    const bool isFine = picture(QStringLiteral("02-check-still-so"));
    look();
    setup->hosePoints()->stillSo();
    return isFine && setup->hosePoints()->answered() == 1;
}

bool Tour::setUpStory()
{
    SetupView* setup = stage_.view.setup();
    if (!choose(story_.setup.tank.name, story_.setup.cart.name)) {
        return false;
    }
    isFine_ = wrongTank() && isFine_;
    type(*setup->oil(), 0, "24");
    type(*setup->code(), 0, "");
    setup->choosePlacement(0);
    setup->chooseTarget(0);
    isFine_ = pictureStillSo() && isFine_;
    lookThrough(*setup->hosePoints());
    setup->show(static_cast<int>(SetupView::Step::Area));
    setup->areaPoints()->answer(QStringLiteral("done"));
    setup->areaPoints()->answer(QStringLiteral("done"));
    isFine_ = picture(QStringLiteral("02-check-quick")) && isFine_;
    setup->areaPoints()->looked();
    stage_.clock.moveTo(stage_.clock.time() + std::chrono::seconds(5));
    setup->areaPoints()->answer(QStringLiteral("skipped"));
    isFine_ = picture(QStringLiteral("02-check-why")) && isFine_;
    setup->areaPoints()->because(0);
    isFine_ = picture(QStringLiteral("02-check-left-out")) && isFine_;
    lookThrough(*setup->areaPoints());
    for (std::size_t step = 0; step < stepNames.size(); ++step) {
        setup->show(static_cast<int>(step));
        isFine_ = picture(QStringLiteral("02-go-") + QLatin1String(stepNames[step])) && isFine_;
    }
    setup->goOn();
    return stage_.view.page() == AppView::Page::Run;
}

} // namespace loopside::app
