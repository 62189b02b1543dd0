// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/verdict_view.h"

#include "app/as_shown.h"
#include "app/wording.h"
#include "base/text.h"

#include <algorithm>

namespace loopside::app {

namespace {

QString argumentOf(const Message& message, std::string_view name)
{
    const auto found = std::find_if(message.arguments.begin(), message.arguments.end(),
                                    [&](const Message::Argument& argument) { return argument.first == name; });
    return found == message.arguments.end() ? QStringLiteral("–") : toQt(found->second);
}

QString signOf(run::Verdict verdict)
{
    switch (verdict) {
    case run::Verdict::Go:
        return QStringLiteral("ok");
    case run::Verdict::GoSlower:
        return QStringLiteral("slower");
    case run::Verdict::Warm:
        return QStringLiteral("warm");
    case run::Verdict::NoGo:
        return QStringLiteral("no-go");
    case run::Verdict::CannotTell:
        break;
    }
    return QStringLiteral("unknown");
}

QString levelOf(run::Verdict verdict)
{
    return verdict == run::Verdict::Go  ? QStringLiteral("ok")
        : verdict == run::Verdict::NoGo ? QStringLiteral("danger")
                                        : QStringLiteral("caution");
}

} // namespace

QString fitSign(run::Fit fit)
{
    return fit == run::Fit::Fits ? QStringLiteral("ok")
        : fit == run::Fit::Over  ? QStringLiteral("no-go")
                                 : QStringLiteral("unknown");
}

std::string fitText(run::Fit fit)
{
    return fit == run::Fit::Fits ? "app.fit.fits" : fit == run::Fit::Over ? "app.fit.over" : "app.fit.unknown";
}

VerdictView::VerdictView(const words::Words& words, QObject* parent)
    : QObject{parent},
      words_{words},
      goFrom_{{"text"}},
      assumed_{{"text"}},
      items_{{"name", "expected", "allowed", "text", "fraction", "sign", "signText", "isLimiting"}},
      options_{{"text"}}
{
}

void VerdictView::showNothing(const QString& why)
{
    sign_ = QStringLiteral("later");
    level_ = QStringLiteral("none");
    word_ = asShown(words_.say("app.verdict.none"));
    reason_ = why;
    assumedShort_.clear();
    for (RowModel* rows : {&goFrom_, &assumed_, &items_, &options_}) {
        rows->setRows({});
    }
    Q_EMIT changed();
}

void VerdictView::show(const run::StartJudged& start, const run::CartRecord& cart, const words::TemperatureUnit& unit)
{
    sign_ = signOf(start.verdict);
    level_ = levelOf(start.verdict);
    word_ = asShown(words::verdictWord(words_, start.verdict));
    reason_ = asShown(words::verdictReason(words_, start, cart, unit));
    QList<RowModel::Row> from;
    for (const run::GoFrom& line : start.goFrom) {
        if (line.allowance < 1.0 || start.goFrom.size() <= 2) {
            from.append({asShown(words::goFromLine(words_, line, cart, unit))});
        }
    }
    goFrom_.setRows(std::move(from));
    QList<RowModel::Row> assumed;
    QStringList shortly;
    for (const Message& message : start.assumed) {
        assumed.append({asShown(words_.say(message))});
        shortly.append(asShown(words_.say({"app." + message.id.substr(message.id.find('.') + 1), message.arguments})));
    }
    assumedShort_ = shortly.join(QStringLiteral(" · "));
    assumed_.setRows(std::move(assumed));
    showItems(start);
    showOptions(start, cart, unit);
    Q_EMIT changed();
}

void VerdictView::holdBackForArea()
{
    if (level_ == QStringLiteral("danger") || level_ == QStringLiteral("none")) {
        return; // says more than this
    }
    const std::string verdict = word_.toStdString();
    sign_ = QStringLiteral("unknown");
    level_ = QStringLiteral("caution");
    word_ = asShown(words_.say("app.verdict.area-left-out"));
    reason_ = asShown(words_.say({"app.verdict.area-left-out-why", {{"verdict", verdict}}}));
    Q_EMIT changed();
}

void VerdictView::showItems(const run::StartJudged& start)
{
    const auto shownOf = [&](const Message& told, const char* name) {
        return asShown(units::shown(argumentOf(told, name).toStdString(), words_.wanted()));
    };
    QList<RowModel::Row> rows;
    for (const run::ItemJudged& item : start.items) {
        const bool isLimiting = start.limiting && rows.size() == static_cast<qsizetype>(*start.limiting);
        rows.append({asShown(words::itemName(words_, item)), shownOf(item.told, "expected"),
                     shownOf(item.told, "allowed"), asShown(words_.say(item.told)),
                     std::clamp(item.share.value_or(0.0), 0.0, 1.0), fitSign(item.fit),
                     asShown(words_.say(fitText(item.fit))), isLimiting});
    }
    items_.setRows(std::move(rows));
}

/// A lower flow, warmth, or waiting: the cart does not warm a tank.
void VerdictView::showOptions(const run::StartJudged& start, const run::CartRecord& cart,
                              const words::TemperatureUnit& unit)
{
    QList<RowModel::Row> rows;
    if (start.verdict != run::Verdict::Go) {
        for (const run::GoFrom& line : start.goFrom) {
            if (line.allowance >= 1.0) { // the others stand with the verdict
                rows.append({asShown(words::goFromLine(words_, line, cart, unit))});
            }
        }
        if (start.heating_k_per_h && start.verdict != run::Verdict::GoSlower) {
            rows.append({asShown(words_.say({"plan.heating", {{"rate", fixed(*start.heating_k_per_h, 1)}}}))});
        }
    }
    options_.setRows(std::move(rows));
}

} // namespace loopside::app
