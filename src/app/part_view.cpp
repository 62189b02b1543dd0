// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/part_view.h"

#include "app/as_shown.h"
#include "app/draft_places.h"
#include "app/wording.h"

#include <algorithm>

namespace loopside::app {

PartView::PartView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      fields_{{FieldsView::Field{.name = tablet.label("app.part.filtering"), .units = {QStringLiteral("min")}}}}
{
}

void PartView::ask(const run::Question& question)
{
    const auto minutes = std::find_if(question.arguments.begin(), question.arguments.end(),
                                      [](const Message::Argument& argument) { return argument.first == "minutes"; });
    of_ = question.of->header.id;
    minutes_ = minutes == question.arguments.end() ? QString() : toQt(minutes->second);
    text_ = asShown(tablet_.words().say({"app.part.text", {{"minutes", minutes_.toStdString()}}}));
    problem_.clear();
    fields_.keepIn(tablet_.drafts(), partDrafts, toQt(toText(of_)), tablet_.label("app.field.typed-before"));
    isUp_ = true;
    Q_EMIT changed();
}

void PartView::log()
{
    const auto typed = Decimal::parse(fields_.text(0).toStdString());
    const bool isPart = typed && typed->toDouble() >= 0.0 && typed->toDouble() <= minutes_.toDouble();
    if (!isPart) {
        problem_ = asShown(tablet_.words().say({"app.part.problem", {{"minutes", minutes_.toStdString()}}}));
        Q_EMIT changed();
        return;
    }
    if (tablet_.say(run::Said(run::QuestionAnswered{std::string(run::unwatchedGap), of_, "part", *typed}))) {
        fields_.clear();
        back();
    }
}

void PartView::back()
{
    isUp_ = false;
    Q_EMIT changed();
}

} // namespace loopside::app
