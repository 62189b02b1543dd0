// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/tour.h"
#include "app/wording.h"

#include <QDir>
#include <QFile>
#include <QPainter>
#include <QTemporaryDir>

namespace loopside::app {

namespace {

/// An invented dial, as somebody might have photographed it.
QImage dial()
{
    QImage picture(900, 600, QImage::Format_RGB32);
    picture.fill(QColor(120, 124, 118));
    QPainter painter(&picture);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setBrush(Qt::white);
    painter.setPen(QPen(Qt::black, 14));
    painter.drawEllipse(QPointF(450, 300), 240, 240);
    painter.setPen(QPen(Qt::black, 8));
    painter.drawLine(QPointF(450, 300), QPointF(590, 160));
    return picture;
}

/// The row of that name.
int rowOf(const RowModel& rows, const QString& name)
{
    int row = 0;
    while (row < rows.rowCount() && rows.rows()[row][0].toString() != name) {
        ++row;
    }
    return row;
}

} // namespace

/// Hot oil and clicking on the run's screen; then every way to note something.
bool Tour::notes()
{
    run::Setup setup = story_.setup;
    if (!stage_.tablet.openRun(std::move(setup))) {
        return false;
    }
    stage_.view.showRun(stage_.view.chips()->rowCount() - 1);
    run::ReadingLogged hot;
    for (const char* shown : {"145", "110", "40"}) {
        hot.gauges.emplace_back(run::GaugeTyped{*Decimal::parse(shown), std::nullopt});
    }
    hot.oil = run::TypedTemperature::parse("67 °C").value();
    const bool isSaid = stage_.tablet.say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt}))
        && stage_.tablet.say(run::Said(hot)) && stage_.tablet.say(run::Said(run::SignsSeen{{"clicking"}}));
    isFine_ = picture(QStringLiteral("15-run-cautions")) && isFine_;
    return isSaid && noteWays();
}

bool Tour::noteWays()
{
    NotesView& notes = *stage_.view.notes();
    const auto show = [&](const char* name) {
        isFine_ = picture(QStringLiteral("16-notes-") + QLatin1String(name)) && isFine_;
    };
    const QTemporaryDir kept;
    const QString folder = kept.filePath(QStringLiteral("pictures"));
    QFile broken(folder + QStringLiteral("/moved.jpg"));
    if (!QDir().mkpath(folder) || !dial().save(folder + QStringLiteral("/dial.png"))
        || !broken.open(QIODevice::WriteOnly)) {
        return complainOf(QStringLiteral("no pictures can be put into a temporary folder"));
    }
    notes.open({});
    show("empty");
    notes.toggleSign(0);
    show("signs");
    notes.toggleSign(0);
    notes.go(NotesView::Mode::Write);
    show("write");
    notes.write(QStringLiteral("Needle of G2 sticks until it is tapped."));
    notes.go(NotesView::Mode::Draw);
    notes.beginStroke(0.2, 0.7);
    for (int i = 1; i <= 20; ++i) {
        notes.moveStroke(0.2 + i * 0.03, 0.7 - 0.4 * (i % 5) / 5.0);
    }
    show("draw");
    notes.keepPicture(QStringLiteral("where it drips"));
    notes.lookIn(folder);
    notes.go(NotesView::Mode::Pick);
    show("files");
    notes.chooseFile(rowOf(*notes.files(), QStringLiteral("moved.jpg")));
    show("unreadable");
    notes.go(NotesView::Mode::Pick);
    notes.chooseFile(rowOf(*notes.files(), QStringLiteral("dial.png")));
    show("preview");
    notes.keepPicture(QStringLiteral("dial of G2"));
    notes.go(NotesView::Mode::Speak);
    show("speak");
    notes.go(NotesView::Mode::List);
    show("list");
    notes.show(0);
    show("shown");
    notes.go(NotesView::Mode::Withdraw);
    show("withdraw");
    notes.withdraw(1);
    show("withdrawn");
    notes.close();
    stage_.view.showLogged();
    stage_.view.logged()->chooseEntry(0);
    show("logged");
    notes.open(stage_.view.logged()->chosen());
    show("from-logged");
    notes.close();
    return putRight() && stage_.tablet.trouble().isEmpty();
}

/// The forms of what was logged: a set that is to be put right, a mode, the tank; none of them is logged.
bool Tour::putRight()
{
    enum Remedy
    {
        Change,
        Strike,
        OtherTank
    };
    LoggedView& logged = *stage_.view.logged();
    const auto show = [&](const char* name) {
        isFine_ = picture(QStringLiteral("16-put-right-") + QLatin1String(name)) && isFine_;
    };
    bool isSetShown = false;
    bool isModeShown = false;
    for (int entry = 0; entry < logged.entries()->rowCount(); ++entry) {
        logged.chooseEntry(entry);
        logged.chooseRemedy(Change);
        if (logged.hasFields() && !isSetShown) {
            isSetShown = true;
            show("set");
            type(*logged.fields(), 0, "154");
            logged.chooseReason(0);
            show("set-typed");
            type(*logged.fields(), 0, "");
        } else if (!logged.hasFields() && logged.choices()->rowCount() > 0 && !isModeShown) {
            isModeShown = true;
            logged.choose(1);
            show("mode");
        }
    }
    logged.chooseEntry(0);
    logged.chooseRemedy(Strike);
    show("strike");
    logged.chooseRemedy(OtherTank);
    show("tank");
    stage_.view.backToRun();
    return isSetShown && isModeShown;
}

} // namespace loopside::app
