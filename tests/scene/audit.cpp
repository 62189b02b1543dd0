// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "audit.h"

#include "app/demo.h"
#include "app/tour.h"
#include "base/require.h"
#include "clipping_check.h"
#include "ledger/memory_journal.h"
#include "reach_check.h"
#include "stage.h"

#include <QCoreApplication>
#include <QDir>
#include <QRegularExpression>
#include <QTemporaryDir>

#include <array>
#include <cstdio>
#include <utility>

namespace loopside::scene {

namespace {

/// Items of one list have the same fault; it is told once.
QString keyOf(const Fault& fault)
{
    QString key = fault.item + QStringLiteral(": ") + fault.sentence.section(QStringLiteral(": "), 0, 0);
    key.remove(QRegularExpression(QStringLiteral("[0-9]+")));
    return key;
}

class Auditor final : public app::Eye
{
public:
    Auditor(app::Window& window, const Wanted& wanted)
        : window_{*window.window()}, theme_{*window.theme()}, wanted_{wanted}
    {
    }

    bool look(const QString& scene) override
    {
        if (!scene.contains(wanted_.only)) {
            return true;
        }
        ++found_.scenes;
        const QSize size = window_.size();
        const QVariant scale = theme_.property("textScale");
        bool isFirst = true;
        for (const Look& look : wanted_.looks) {
            window_.resize(look.window);
            theme_.setProperty("textScale", look.textScale);
            settle();
            lookOnce(scene, look, std::exchange(isFirst, false));
        }
        theme_.setProperty("textScale", scale);
        window_.resize(size);
        settle();
        return true;
    }

    Found found()
    {
        for (const auto& [key, fault] : faults_) {
            found_.faults.append(QStringLiteral("%1 (%2 times)").arg(fault.first, QString::number(fault.second)));
        }
        return std::move(found_);
    }

private:
    void settle() { scene::settle(window_); }

    void lookOnce(const QString& scene, const Look& look, bool isFirst)
    {
        const QString where = QStringLiteral("%1 at %2×%3, %4 %")
                                  .arg(scene)
                                  .arg(look.window.width())
                                  .arg(look.window.height())
                                  .arg(look.textScale * 100);
        if (!wanted_.pictures.isEmpty()) {
            QString name = where;
            window_.grabWindow().save(wanted_.pictures + QLatin1Char('/')
                                      + name.replace(QLatin1Char(' '), QLatin1Char('_')) + QStringLiteral(".png"));
        }
        const Shown shown = shownOn(window_);
        if (wanted_.targets) {
            keep(where, targetFaults(shown, look.window));
            if (look.textScale == 1.0 && look.window != large) { // where they are smallest
                gather(found_.targets, shown, look.window, scene);
            }
        }
        if (wanted_.clipping) {
            keep(where, clippingFaults(shown, look.window));
        }
        if (wanted_.naming && isFirst) {
            keep(where, namingFaults(shown));
        }
        if (wanted_.contrast && isFirst) {
            lookAtColours(scene, where);
        }
        if (wanted_.keyboard && isFirst) {
            keep(where, keyboardFaults(window_, shownOn(window_)));
        }
    }

    void lookAtColours(const QString& scene, const QString& where)
    {
        const QVariant before = theme_.property("name");
        for (const char* name : {"day", "night", "sun"}) {
            const QString theme = QLatin1String(name);
            theme_.setProperty("name", theme);
            settle();
            keep(where, contrastFaults(found_.colours, window_, shownOn(window_), theme, scene));
            for (const auto& [pair, seen] : found_.colours) {
                for (const QString& colour : {std::get<1>(pair), std::get<2>(pair)}) {
                    const QString key = theme + QLatin1Char(' ') + colour;
                    if (std::get<0>(pair) == theme && !found_.roles.contains(key)) {
                        found_.roles[key] = rolesOf(theme_, colour);
                    }
                }
            }
        }
        theme_.setProperty("name", before);
        settle();
    }

    void keep(const QString& where, const Faults& faults)
    {
        for (const Fault& fault : faults) {
            auto& kept = faults_[keyOf(fault)];
            if (kept.second++ == 0) {
                kept.first = where + QStringLiteral(": ") + fault.item + QStringLiteral(" ")
                    + fault.sentence.simplified();
                std::fprintf(stderr, "! %s\n", qUtf8Printable(kept.first)); // at once: a tour takes minutes
            }
        }
    }

    QQuickWindow& window_;
    QObject& theme_;
    Wanted wanted_;
    Found found_;
    std::map<QString, std::pair<QString, int>> faults_;
};

} // namespace

Found audit(words::Words words, const std::string& language, const Wanted& wanted)
{
    const QTemporaryDir folder;
    app::SiteFile siteFile(folder.path().toStdString() + "/site.json", std::string(app::demoSite()));
    const auto site = siteFile.read();
    const auto story = story::parseStory(app::demoShift());
    auto drafts = store::DraftStore::open((folder.path() + QStringLiteral("/drafts.sqlite")).toStdString());
    require(site.has_value() && story.has_value() && drafts.has_value(), "the demo is in order");
    ledger::MemoryJournal journal;
    app::TourClock clock;
    SeededRandom random(1);
    const std::array<std::uint8_t, 32> seed = {1, 2, 3};
    Id device;
    device.bytes[0] = 9;
    const std::string imports = folder.path().toStdString() + "/import";
    require(QDir().mkpath(QString::fromStdString(imports)), "a folder can be made in the temporary one");
    store::AttachmentFolder attachments(folder.path().toStdString() + "/attachments");
    auto tablet = app::Tablet::open({journal, **drafts, clock, random, *site, std::move(words), language, imports,
                                     folder.path().toStdString() + "/practice", &attachments, &siteFile},
                                    device, ledger::DeviceKey::fromSeed(seed));
    require(tablet.has_value(), "the tablet opens");
    app::AppView view(**tablet);
    app::Window window(view);
    require(window.window() != nullptr, "the screens can be loaded");
    Auditor auditor(window, wanted);
    app::Tour tour({**tablet, view, window, clock, auditor}, *story);
    const bool isPlayed = tour.play();
    Found found = auditor.found();
    found.isPlayed = isPlayed;
    found.warnings = app::Window::warnings();
    return found;
}

} // namespace loopside::scene
