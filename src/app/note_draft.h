// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/tablet.h"

#include <QList>
#include <QPointF>
#include <QString>

namespace loopside::app {

/// What is begun of a note and not logged yet: its words, the caption of its picture, the strokes of its drawing. It is
/// stored as it is typed and drawn, for what the note is about, and offered again after the page, the language or the
/// program was left. What cannot be stored is told once, and stands on the screen all the same.
class NoteDraft
{
public:
    using Stroke = QList<QPointF>; ///< Places as parts (0 to 1) of width and height.

    explicit NoteDraft(Tablet& tablet) : tablet_{tablet} {}

    /// Takes up what was begun about `subject`, the id of a run or of an entry.
    void open(const Id& subject);

    [[nodiscard]] const QString& text() const { return text_; }
    void setText(const QString& text);
    [[nodiscard]] const QString& caption() const { return caption_; }
    void setCaption(const QString& caption);

    [[nodiscard]] const QList<Stroke>& strokes() const { return strokes_; }
    void beginStroke(const QPointF& place);
    void moveStroke(const QPointF& place);
    /// The finger was lifted.
    void endStroke();
    void undoStroke();
    /// The drawing was logged.
    void forgetStrokes();

private:
    void store(const char* part, const QString& text);

    Tablet& tablet_;
    Id subject_;
    QString text_;
    QString caption_;
    QList<Stroke> strokes_;
    bool isTold_ = false;
};

} // namespace loopside::app
