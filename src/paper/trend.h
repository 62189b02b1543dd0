// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QColor>
#include <QList>
#include <QPainter>
#include <QPointF>
#include <QRectF>
#include <QString>

namespace loopside::paper {

/// What the raw ΔP is expected to be at a minute: 8 cases of 10 lie between low and high.
struct TrendAhead
{
    double minute = 0.0;
    double low = 0.0;
    double middle = 0.0;
    double high = 0.0;
};

/// One stage's part of a trend. Times in minutes of the run.
struct TrendStage
{
    QString name;            ///< "Stage 1".
    QList<QPointF> raw;      ///< Minute, raw ΔP in `Trend::unit`.
    QList<QPointF> loading;  ///< Minute, corrected ÷ clean.
    double limit = 0.0;      ///< Change limit in `Trend::unit`; 0: none.
    QString limitText;       ///< "25 psi".
    QList<double> changedAt; ///< Minutes of its changeovers.
    QList<TrendAhead> ahead; ///< In `Trend::unit`, in the order of minutes; never drawn above the limit.
};

/// A stretch of the run in which the oil did not go through the filters, or whose readings are in doubt.
struct TrendSpan
{
    double from = 0.0;
    double to = 0.0;
    QString text;            ///< "bypass", "stopped", "in doubt".
    bool isDoubtful = false; ///< Hatched, too; the text is then a "?" where it is wider than the span.
};

/// A sample that was drawn.
struct TrendSample
{
    double minute = 0.0;
    QString code; ///< What was counted in it, "19/17/14"; empty as long as nobody knows.
};

/// What a trend shows: raw ΔP against the limits, and below it, on a strip of its own and where there is room, the
/// loading.
struct Trend
{
    QList<TrendStage> stages;
    QList<TrendSpan> spans;
    QList<TrendSample> samples; ///< In the order of minutes.
    double endMinute = 30.0;    ///< Right end of the time axis.
    QString unit;               ///< "psi".
    QString rawText;            ///< "raw ΔP"; the unit is written behind it.
    QString aheadText;          ///< What the way ahead stands for; written where there is one.
    QString doubtText;          ///< What a doubtful span stands for; written where there is one and room.
    QString sampleLetter;       ///< "S", in the mark of a sample.
    QString sampleText;         ///< What that mark stands for; written where there is one and room.
    QString loadingText;        ///< "loading, × clean".
    QString minuteText;         ///< "min".
};

/// Colours and sizes, from the theme on a screen, fixed ones in a document. Opaque: a document mode drops alpha.
struct TrendStyle
{
    QColor ground;
    QColor ink;
    QColor dim;
    QColor line;
    QColor limit;
    QColor shade;
    QList<QColor> stages; ///< One per stage, in order.
    QString family;
    double textPx = 15.0;
    double strokePx = 3.0;
};

/// Draws `trend` into `area`. One painter for screen and paper: raw curves broken, loading solid, stages told apart by
/// colour, mark shape and label; the way ahead hatched between its two edges; each limit a heavy line with its value
/// and the marks of its stages at its right end; a bottle with a letter on the foot of the raw panel for
/// each sample, or for several at one time.
void paintTrend(QPainter& painter, const QRectF& area, const Trend& trend, const TrendStyle& style);

} // namespace loopside::paper
