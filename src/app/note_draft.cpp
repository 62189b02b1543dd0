// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/note_draft.h"

#include "app/draft_places.h"
#include "app/wording.h"

#include <QStringList>

namespace loopside::app {

namespace {

constexpr const char* textPart = "text";
constexpr const char* captionPart = "caption";
constexpr const char* drawingPart = "drawing";
constexpr int placeDigits = 4; // an eighth of a pixel of the drawing

std::string fieldOf(const Id& subject, const char* part)
{
    return toText(subject) + " " + part;
}

/// "0.1000 0.2000 0.1500 0.2100;0.5000 0.5000": a stroke between two semicolons.
QString strokesText(const QList<NoteDraft::Stroke>& strokes)
{
    QStringList lines;
    for (const NoteDraft::Stroke& stroke : strokes) {
        QStringList numbers;
        for (const QPointF& place : stroke) {
            numbers << QString::number(place.x(), 'f', placeDigits) << QString::number(place.y(), 'f', placeDigits);
        }
        lines << numbers.join(QLatin1Char(' '));
    }
    return lines.join(QLatin1Char(';'));
}

QList<NoteDraft::Stroke> strokesIn(const QString& text)
{
    QList<NoteDraft::Stroke> strokes;
    for (const QString& line : text.split(QLatin1Char(';'), Qt::SkipEmptyParts)) {
        const QStringList numbers = line.split(QLatin1Char(' '), Qt::SkipEmptyParts);
        NoteDraft::Stroke stroke;
        for (qsizetype i = 0; i + 1 < numbers.size(); i += 2) {
            stroke.append({numbers[i].toDouble(), numbers[i + 1].toDouble()});
        }
        strokes.append(stroke);
    }
    return strokes;
}

} // namespace

void NoteDraft::open(const Id& subject)
{
    subject_ = subject;
    const auto drafts = tablet_.drafts().of(noteDrafts).value_or(std::map<std::string, std::string>{});
    const auto draft = [&](const char* part) {
        const auto found = drafts.find(fieldOf(subject, part));
        return found == drafts.end() ? QString() : toQt(found->second);
    };
    text_ = draft(textPart);
    caption_ = draft(captionPart);
    strokes_ = strokesIn(draft(drawingPart));
}

void NoteDraft::setText(const QString& text)
{
    if (text_ != text) {
        text_ = text;
        store(textPart, text);
    }
}

void NoteDraft::setCaption(const QString& caption)
{
    if (caption_ != caption) {
        caption_ = caption;
        store(captionPart, caption);
    }
}

void NoteDraft::beginStroke(const QPointF& place)
{
    strokes_.append(Stroke{place});
}

void NoteDraft::moveStroke(const QPointF& place)
{
    if (!strokes_.isEmpty()) {
        strokes_.last().append(place);
    }
}

void NoteDraft::endStroke()
{
    store(drawingPart, strokesText(strokes_));
}

void NoteDraft::undoStroke()
{
    if (!strokes_.isEmpty()) {
        strokes_.removeLast();
        endStroke();
    }
}

void NoteDraft::forgetStrokes()
{
    strokes_.clear();
    endStroke();
}

void NoteDraft::store(const char* part, const QString& text)
{
    if (!tablet_.drafts().put(noteDrafts, fieldOf(subject_, part), text.toStdString()) && !isTold_) {
        isTold_ = true;
        tablet_.setNotice(tablet_.label("app.pad.draft-not-stored"));
    }
}

} // namespace loopside::app
