// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/trend.h"

#include "paper/curve.h"
#include "paper/label_places.h"
#include "paper/mark.h"
#include "paper/ticks.h"
#include "paper/trend_layout.h"

#include <QPainterPath>

#include <algorithm>

namespace loopside::paper {

namespace {

/// Between codes of one bottle.
QString codeGap()
{
    return QStringLiteral(", ");
}

/// Spans of the same word that follow each other without a gap are one.
QList<TrendSpan> merged(const QList<TrendSpan>& spans)
{
    QList<TrendSpan> whole;
    for (const TrendSpan& span : spans) {
        if (!whole.isEmpty() && whole.last().text == span.text && whole.last().isDoubtful == span.isDoubtful
            && span.from <= whole.last().to) {
            whole.last().to = std::max(whole.last().to, span.to);
        } else {
            whole.append(span);
        }
    }
    return whole;
}

/// The mark of samples drawn at one time.
struct Bottle
{
    QRectF body;
    QRectF neck;
    QString code; ///< What was counted in them.
};

/// Paints what the layout has placed: first the ground, then the curves, and the words last.
class TrendPainter
{
public:
    TrendPainter(QPainter& painter, const TrendLayout& layout, const Trend& trend, const TrendStyle& style)
        : painter_{painter},
          layout_{layout},
          trend_{trend},
          style_{style},
          spans_{merged(trend.spans)},
          bottles_{bottles()}
    {
    }

    void paint();

private:
    void paintSpans();
    void paintFrame(const TrendPanel& panel);
    void paintValueTicks(const TrendPanel& panel);
    void paintTimeTicks();
    void paintChangeovers();
    void paintBands();
    void paintLimits();
    void paintCurve(const TrendCurve& curve, bool isRaw);
    void paintMark(const QPointF& at, qsizetype stage, const QColor& fill);
    void paintSamples();

    void labelRaw();
    void labelLoading();
    void labelTitle(const QRectF& frame, const QString& title, int most, LabelPlaces& places);
    void labelLimits();
    void labelCurves(QList<TrendCurve> curves, const QRectF& frame, LabelPlaces& places);
    void labelCurve(const TrendCurve& curve, double wanted, LabelPlaces& places);
    void labelSpans(LabelPlaces& places);
    void labelDoubts(LabelPlaces& places);
    void labelSamples(LabelPlaces& places);
    void interruptChangeovers(const QRectF& place);

    void drawHatch(const QPolygonF& area, const QRectF& within, const QColor& colour, bool isRising);
    [[nodiscard]] QList<QLineF> hatch(const QRectF& around, bool isRising) const;
    [[nodiscard]] LabelPlaces placesIn(const QRectF& frame, const QList<TrendCurve>& curves, bool avoidsHatch) const;
    [[nodiscard]] QList<QRectF> placesFor(const TrendSpan& span, const QString& text) const;
    [[nodiscard]] QRectF spanIn(const TrendSpan& span, const QRectF& frame) const;
    [[nodiscard]] QList<Bottle> bottles() const;
    [[nodiscard]] QColor colourOf(qsizetype stage) const { return style_.stages.value(stage, style_.ink); }
    void write(const QRectF& place, const QString& text, const QColor& colour);
    void drawLine(const QLineF& line, const QColor& colour, double width);

    QPainter& painter_;
    const TrendLayout& layout_;
    const Trend& trend_;
    const TrendStyle& style_;
    QList<TrendSpan> spans_;
    QList<Bottle> bottles_;
};

void TrendPainter::paint()
{
    painter_.setRenderHint(QPainter::Antialiasing);
    painter_.setFont(layout_.font());
    paintSpans();
    for (const TrendPanel* panel : layout_.panels()) {
        paintFrame(*panel);
        paintValueTicks(*panel);
    }
    paintTimeTicks();
    paintBands();
    paintChangeovers();
    paintLimits();
    for (const TrendCurve& curve : layout_.rawCurves()) {
        paintCurve(curve, true);
    }
    for (const TrendCurve& curve : layout_.loadingCurves()) {
        paintCurve(curve, false);
    }
    paintSamples();
    labelRaw();
    labelLoading();
    labelLimits();
}

QRectF TrendPainter::spanIn(const TrendSpan& span, const QRectF& frame) const
{
    QRectF place = frame;
    place.setLeft(std::clamp(layout_.x(span.from), frame.left(), frame.right()));
    place.setRight(std::clamp(layout_.x(span.to), place.left(), frame.right()));
    return place;
}

/// The edges have lines of their own: a theme may have no tint for the shade.
void TrendPainter::paintSpans()
{
    for (const TrendSpan& span : spans_) {
        for (const TrendPanel* panel : layout_.panels()) {
            const QRectF place = spanIn(span, panel->frame);
            painter_.fillRect(place, style_.shade);
            if (span.isDoubtful) {
                drawHatch(place, place, style_.dim, false);
            }
            drawLine(QLineF(place.topLeft(), place.bottomLeft()), style_.line, layout_.thin());
            drawLine(QLineF(place.topRight(), place.bottomRight()), style_.line, layout_.thin());
        }
    }
}

void TrendPainter::paintFrame(const TrendPanel& panel)
{
    painter_.setPen(QPen(style_.line, layout_.thin()));
    painter_.setBrush(Qt::NoBrush);
    painter_.drawRect(panel.frame);
    drawLine(QLineF(panel.frame.topLeft(), panel.frame.bottomLeft()), style_.dim, layout_.thin());
    drawLine(QLineF(panel.frame.bottomLeft(), panel.frame.bottomRight()), style_.dim, layout_.thin());
}

/// From the top down, so that in a low panel it is the zero that goes without its number.
void TrendPainter::paintValueTicks(const TrendPanel& panel)
{
    if (panel.isEmpty()) {
        return;
    }
    const double step = layout_.stepOf(panel);
    const double overlap = layout_.gap() / 2.0; // a number may stand out of its panel by half the gap between them
    const double height = layout_.lineHeight();
    QList<double> values = multiplesOf(step, panel.low, panel.high);
    std::ranges::reverse(values);
    double free = panel.frame.top() - overlap;
    for (const double value : values) {
        const double y = panel.y(value);
        drawLine(QLineF(panel.frame.left() - layout_.gap() / 2.0, y, panel.frame.left(), y), style_.dim,
                 layout_.thin());
        const double top = std::min(std::max(y - height / 2.0, panel.frame.top() - overlap),
                                    panel.frame.bottom() + overlap - height);
        if (top >= free) {
            const QString text = valueText(value, step);
            const double width = layout_.textWidth(text);
            const QRectF place(panel.frame.left() - layout_.gap() - width, top, width, height);
            write(place, text, style_.dim);
            free = place.bottom();
        }
    }
}

void TrendPainter::paintTimeTicks()
{
    constexpr double minutesOnlyUpTo = 120.0;
    const bool inHours = layout_.end() > minutesOnlyUpTo;
    const QString unit = inHours || layout_.isEmpty() ? QString() : QChar(QChar::Nbsp) + trend_.minuteText;
    const auto textOf = [&](double minute) { return (inHours ? hoursText(minute) : valueText(minute, 1.0)) + unit; };
    const QRectF& frame = layout_.loading().frame;
    const double widest = layout_.textWidth(textOf(layout_.end())) + 3.0 * layout_.gap();
    const double step = timeStep(layout_.end(), std::max(1, static_cast<int>(frame.width() / widest)));
    for (const double minute : multiplesOf(step, 0.0, layout_.end())) {
        const double x = layout_.x(minute);
        drawLine(QLineF(x, frame.bottom(), x, frame.bottom() + layout_.gap() / 2.0), style_.dim, layout_.thin());
        const QString text = textOf(minute);
        QRectF place(0.0, frame.bottom() + layout_.gap(), layout_.textWidth(text), layout_.lineHeight());
        place.moveLeft(
            std::clamp(x - place.width() / 2.0, layout_.area().left(), layout_.area().right() - place.width()));
        write(place, text, style_.dim);
    }
}

/// A line through both panels with the mark of the stage between them.
void TrendPainter::paintChangeovers()
{
    for (qsizetype i = 0; i < trend_.stages.size(); ++i) {
        for (const double minute : trend_.stages[i].changedAt) {
            const double x = layout_.x(minute);
            const QRectF& upper = layout_.raw().frame;
            const QRectF& lower = layout_.loading().frame;
            drawLine(QLineF(x, upper.top(), x, lower.bottom()), colourOf(i), style_.strokePx);
            paintMark(QPointF(x, (upper.bottom() + lower.top()) / 2.0), i, colourOf(i));
        }
    }
}

/// Hatched from edge to edge, with both edges drawn and the middle as a thin broken line.
void TrendPainter::paintBands()
{
    const QRectF& frame = layout_.raw().frame;
    for (const TrendBand& band : layout_.bands()) {
        const QColor colour = colourOf(band.stage);
        QPolygonF area(band.low);
        for (auto point = band.high.rbegin(); point != band.high.rend(); ++point) {
            area.append(*point);
        }
        drawHatch(area, frame, colour, true);
        painter_.save();
        painter_.setClipRect(frame, Qt::IntersectClip);
        painter_.setPen(QPen(colour, layout_.thin(), Qt::SolidLine, Qt::FlatCap));
        painter_.drawLines(joined(band.low));
        painter_.drawLines(joined(band.high));
        painter_.setPen(QPen(colour, 2.0 * layout_.thin(), Qt::SolidLine, Qt::FlatCap));
        painter_.drawLines(broken(band.middle, 2.0 * style_.strokePx, 2.0 * style_.strokePx));
        painter_.restore();
    }
}

/// Lines aslant, drawn one by one: a brush with a pattern has the size of pixels, on paper too small to be seen.
void TrendPainter::drawHatch(const QPolygonF& area, const QRectF& within, const QColor& colour, bool isRising)
{
    QPainterPath path;
    path.addPolygon(area);
    path.closeSubpath();
    painter_.save();
    painter_.setClipRect(within, Qt::IntersectClip);
    painter_.setClipPath(path, Qt::IntersectClip);
    painter_.setPen(QPen(colour, layout_.thin(), Qt::SolidLine, Qt::FlatCap));
    painter_.drawLines(hatch(area.boundingRect().intersected(within), isRising));
    painter_.restore();
}

/// What is in doubt has readings in it, so its lines, which fall, stand wider apart than those of what is ahead.
QList<QLineF> TrendPainter::hatch(const QRectF& around, bool isRising) const
{
    const double apart = isRising ? std::max(3.0, 3.0 * style_.strokePx) : std::max(5.0, 6.0 * style_.strokePx);
    const double height = around.height();
    QList<QLineF> lines;
    for (double x = around.left() - height; x < around.right(); x += apart) {
        lines.append(isRising ? QLineF(x, around.bottom(), x + height, around.top())
                              : QLineF(x, around.top(), x + height, around.bottom()));
    }
    return lines;
}

/// Each line has a rim of the ground, so that two close together stay two.
void TrendPainter::paintLimits()
{
    const QRectF& frame = layout_.raw().frame;
    for (const TrendLimit& limit : layout_.limits()) {
        const QLineF line(frame.left(), limit.y, frame.right(), limit.y);
        drawLine(line, style_.ground, layout_.heavy() + 2.0 * layout_.thin());
        drawLine(line, style_.limit, layout_.heavy());
    }
}

void TrendPainter::paintCurve(const TrendCurve& curve, bool isRaw)
{
    const double dash = 3.0 * style_.strokePx;
    const double apart = 4.0 * layout_.markRadius();
    const QColor fill = isRaw ? style_.ground : colourOf(curve.stage);
    for (const QList<QPointF>& piece : curve.pieces) {
        // Round caps take five times as long, and marks cover most joints.
        painter_.setPen(
            QPen(colourOf(curve.stage), style_.strokePx, Qt::SolidLine, isRaw ? Qt::FlatCap : Qt::SquareCap));
        painter_.drawLines(isRaw ? broken(piece, dash, dash * 0.7) : joined(piece));
        QPointF before(-apart, 0.0);
        for (const QPointF& point : piece) {
            if (point.x() - before.x() >= apart || point == piece.last()) {
                paintMark(point, curve.stage, fill);
                before = point;
            }
        }
    }
}

void TrendPainter::paintMark(const QPointF& at, qsizetype stage, const QColor& fill)
{
    paper::paintMark(painter_, at, stage, colourOf(stage), fill, layout_.markRadius(),
                     std::max(1.0, style_.strokePx * 0.7));
}

/// Each stands on the foot of the raw panel; what would stand in another shares it.
QList<Bottle> TrendPainter::bottles() const
{
    const QRectF& frame = layout_.raw().frame;
    const double width = layout_.textWidth(trend_.sampleLetter) + layout_.gap();
    const double height = layout_.lineHeight() + layout_.thin();
    QList<Bottle> all;
    for (const TrendSample& sample : trend_.samples) {
        const double x = layout_.x(sample.minute);
        if (!(x >= frame.left() && x <= frame.right())) {
            continue;
        }
        if (!all.isEmpty() && x - all.last().body.center().x() < width + layout_.gap()) {
            const bool isNew = !sample.code.isEmpty() && !all.last().code.split(codeGap()).contains(sample.code);
            all.last().code += isNew && !all.last().code.isEmpty() ? codeGap() : QString();
            all.last().code += isNew ? sample.code : QString();
            continue;
        }
        const double left = std::clamp(x - width / 2.0, frame.left(), std::max(frame.left(), frame.right() - width));
        const QRectF body(left, frame.bottom() - height, width, height);
        const QRectF neck(left + width / 4.0, body.top() - height / 4.0, width / 2.0, height / 4.0);
        all.append({body, neck, sample.code});
    }
    return all;
}

void TrendPainter::paintSamples()
{
    painter_.setBrush(style_.ground);
    for (const Bottle& bottle : bottles_) {
        painter_.setPen(
            QPen(style_.ink, std::max(1.0, style_.strokePx * 0.7), Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin));
        painter_.drawRect(bottle.neck);
        painter_.drawRect(bottle.body);
        QRectF letter(QPointF(), QSizeF(layout_.textWidth(trend_.sampleLetter), layout_.lineHeight()));
        letter.moveCenter(bottle.body.center());
        write(letter, trend_.sampleLetter, style_.ink);
    }
}

LabelPlaces TrendPainter::placesIn(const QRectF& frame, const QList<TrendCurve>& curves, bool avoidsHatch) const
{
    LabelPlaces places(frame, layout_.gap());
    for (const TrendCurve& curve : curves) {
        for (const QList<QPointF>& piece : curve.pieces) {
            places.avoid(joined(piece));
            places.avoid({QLineF(piece.last(), piece.last() + QPointF(layout_.markRadius(), 0.0))});
        }
    }
    for (const TrendSpan& span : spans_) {
        const QRectF place = spanIn(span, frame);
        places.avoid({QLineF(place.topLeft(), place.bottomLeft()), QLineF(place.topRight(), place.bottomRight())});
        if (span.isDoubtful && avoidsHatch) {
            places.avoid(hatch(place, false));
        }
    }
    for (const TrendStage& stage : trend_.stages) {
        for (const double minute : stage.changedAt) {
            const double x = layout_.x(minute);
            places.avoid({QLineF(x, frame.top(), x, frame.bottom())});
        }
    }
    return places;
}

void TrendPainter::labelRaw()
{
    const QRectF& frame = layout_.raw().frame;
    if (layout_.raw().isEmpty()) {
        return;
    }
    LabelPlaces places = placesIn(frame, layout_.rawCurves(), true);
    for (const TrendLimit& limit : layout_.limits()) {
        const double half = layout_.heavy() / 2.0;
        places.avoid({QLineF(frame.left(), limit.y - half, frame.right(), limit.y - half),
                      QLineF(frame.left(), limit.y + half, frame.right(), limit.y + half)});
    }
    for (const TrendBand& band : layout_.bands()) {
        places.avoid(joined(band.low));
        places.avoid(joined(band.middle));
        places.avoid(joined(band.high));
    }
    for (const Bottle& bottle : bottles_) {
        places.avoid({QLineF(bottle.body.topLeft(), bottle.body.bottomRight()),
                      QLineF(bottle.body.topRight(), bottle.body.bottomLeft()),
                      QLineF(bottle.neck.topLeft(), bottle.neck.bottomRight())});
    }
    labelDoubts(places);
    if (layout_.raw().isForWords) {
        labelSpans(places);
    }
    labelTitle(frame, trend_.rawText + QStringLiteral(", ") + trend_.unit, 0, places);
    labelCurves(layout_.rawCurves(), frame, places);
    if (!layout_.bands().isEmpty()) {
        labelTitle(frame, trend_.aheadText, 0, places);
    }
    if (std::ranges::any_of(spans_, &TrendSpan::isDoubtful)) {
        labelTitle(frame, trend_.doubtText, 0, places);
    }
    labelSamples(places);
    if (!layout_.raw().isForWords) {
        labelSpans(places);
    }
}

void TrendPainter::labelLoading()
{
    if (layout_.loading().isEmpty()) {
        return;
    }
    const QRectF& frame = layout_.loading().frame;
    LabelPlaces places = placesIn(frame, layout_.loadingCurves(), true);
    constexpr int fewLines = 3; // a low strip has no place of its own for words
    labelTitle(frame, trend_.loadingText, fewLines, places);
    labelCurves(layout_.loadingCurves(), frame, places);
}

void TrendPainter::labelTitle(const QRectF& frame, const QString& title, int most, LabelPlaces& places)
{
    const double width = layout_.textWidth(title);
    const double height = layout_.lineHeight();
    QList<QRectF> candidates;
    for (const double top : {frame.top(), frame.bottom() - height}) {
        for (const double share : {0.0, 0.25, 0.5, 0.75, 1.0}) {
            const double room = frame.width() - width - 2.0 * layout_.gap();
            candidates.append(QRectF(frame.left() + layout_.gap() + share * room, top, width, height));
        }
    }
    if (const auto place = places.take(candidates, most)) {
        write(*place, title, style_.ink);
    }
}

/// At the right end of each line its value and the marks of its stages, moved as far as they need room from each other.
void TrendPainter::labelLimits()
{
    const QRectF& frame = layout_.raw().frame;
    const double height = layout_.lineHeight();
    const double step = 2.5 * layout_.markRadius();
    const double room = layout_.limitsWidth();
    if (room <= 0.0) {
        return;
    }
    QList<double> middles;
    for (const TrendLimit& limit : layout_.limits()) {
        const double least = middles.isEmpty() ? layout_.area().top() + height / 2.0 : middles.last() + height;
        middles.append(std::max(limit.y, least));
    }
    for (qsizetype i = 0; i < middles.size(); ++i) {
        const TrendLimit& limit = layout_.limits()[i];
        double x = frame.right() + layout_.gap() / 2.0 + layout_.markRadius();
        for (const qsizetype stage : limit.stages) {
            paintMark(QPointF(x, middles[i]), stage, style_.ground);
            x += step;
        }
        const double left = x - layout_.markRadius() + layout_.gap() / 4.0;
        const QRectF place(left, middles[i] - height / 2.0, layout_.area().right() - left, height);
        write(place, layout_.cut(limit.value, place.width()), style_.limit);
    }
}

/// Names right of the last points, moved up and down as far as they need room from each other.
void TrendPainter::labelCurves(QList<TrendCurve> curves, const QRectF& frame, LabelPlaces& places)
{
    const double height = layout_.lineHeight();
    std::ranges::sort(curves, {}, [](const TrendCurve& curve) { return curve.last().y(); });
    QList<double> tops;
    for (const TrendCurve& curve : curves) {
        const double top = curve.last().y() - height / 2.0;
        tops.append(tops.isEmpty() ? top : std::max(top, tops.last() + height));
    }
    double bottom = frame.bottom();
    for (qsizetype i = tops.size() - 1; i >= 0; --i) {
        tops[i] = std::min(tops[i], bottom - height);
        bottom = tops[i];
    }
    for (qsizetype i = 0; i < curves.size(); ++i) {
        labelCurve(curves[i], tops[i], places);
    }
}

/// Right of the last point with its top at `wanted` or near it, else above, below or left of the point.
void TrendPainter::labelCurve(const TrendCurve& curve, double wanted, LabelPlaces& places)
{
    const double lastX = curve.last().x();
    const QString& name = trend_.stages[curve.stage].name;
    const QSizeF size(layout_.textWidth(name), layout_.lineHeight());
    const double off = layout_.markRadius() + layout_.gap();
    QList<QRectF> candidates;
    for (const double left : {lastX + off, lastX - size.width() / 2.0, lastX - off - size.width()}) {
        for (int sixteenths = 0; sixteenths < 32; ++sixteenths) { // of its height, so two heights up and down
            const double shift = sixteenths / 16.0 * size.height();
            candidates.append(QRectF(QPointF(left, wanted - shift), size));
            candidates.append(QRectF(QPointF(left, wanted + shift), size));
        }
    }
    if (const auto place = places.take(candidates, 0)) {
        write(*place, name, colourOf(curve.stage));
    }
}

/// At the top of each span, or as far down as there is a free place.
void TrendPainter::labelSpans(LabelPlaces& places)
{
    for (const TrendSpan& span : spans_) {
        if (!span.isDoubtful) {
            if (const auto place = places.take(placesFor(span, span.text), 0)) {
                painter_.fillRect(*place, style_.shade); // a changeover's line may cross it
                write(*place, span.text, style_.dim);
            }
        }
    }
}

/// The same on the hatch, with a ground of its own; only a sign where the words are wider than the span.
void TrendPainter::labelDoubts(LabelPlaces& places)
{
    LabelPlaces free = placesIn(layout_.raw().frame, layout_.rawCurves(), false);
    for (const TrendLimit& limit : layout_.limits()) {
        const QRectF& frame = layout_.raw().frame;
        free.avoid({QLineF(frame.left(), limit.y, frame.right(), limit.y)});
    }
    for (const TrendSpan& span : spans_) {
        const bool isNarrow = spanIn(span, layout_.raw().frame).width() < layout_.textWidth(span.text);
        const QString text = isNarrow ? QStringLiteral("?") : span.text;
        if (const auto place = span.isDoubtful ? free.take(placesFor(span, text), 0) : std::nullopt) {
            const double rim = std::min(layout_.gap() / 2.0,
                                        (spanIn(span, layout_.raw().frame).width() - place->width()) / 2.0);
            painter_.fillRect(place->adjusted(-std::max(0.0, rim), 0.0, std::max(0.0, rim), 0.0),
                              style_.shade); // letters touch no line
            write(*place, text, style_.ink);
            places.avoid(
                {QLineF(place->topLeft(), place->bottomRight()), QLineF(place->topRight(), place->bottomLeft())});
        }
    }
}

/// The code right or left of each bottle, and what a bottle stands for.
void TrendPainter::labelSamples(LabelPlaces& places)
{
    for (const Bottle& bottle : bottles_) {
        const QSizeF size(layout_.textWidth(bottle.code), layout_.lineHeight());
        const double top = bottle.body.center().y() - size.height() / 2.0;
        const QList<QRectF> candidates = {
            QRectF(QPointF(bottle.body.right() + layout_.gap(), top), size),
            QRectF(QPointF(bottle.body.left() - layout_.gap() - size.width(), top), size)};
        if (const auto place = bottle.code.isEmpty() ? std::nullopt : places.take(candidates, 1)) {
            interruptChangeovers(*place);
            write(*place, bottle.code, style_.ink);
        }
    }
    if (!bottles_.isEmpty()) {
        labelTitle(layout_.raw().frame, trend_.sampleText, 0, places);
    }
}

/// A count is read before a line.
void TrendPainter::interruptChangeovers(const QRectF& place)
{
    for (const TrendStage& stage : trend_.stages) {
        for (const double minute : stage.changedAt) {
            const QRectF cut(layout_.x(minute) - style_.strokePx, place.top(), 2.0 * style_.strokePx, place.height());
            painter_.fillRect(cut.intersected(place), style_.ground);
        }
    }
}

QList<QRectF> TrendPainter::placesFor(const TrendSpan& span, const QString& text) const
{
    const QRectF& frame = layout_.raw().frame;
    const QSizeF size(layout_.textWidth(text), layout_.lineHeight());
    const double centred = spanIn(span, frame).center().x() - size.width() / 2.0;
    const double left = std::max(frame.left(), std::min(centred, frame.right() - size.width()));
    QList<QRectF> candidates;
    for (double top = frame.top(); top + size.height() <= frame.bottom(); top += size.height() / 4.0) {
        candidates.append(QRectF(QPointF(left, top), size));
    }
    return candidates;
}

void TrendPainter::write(const QRectF& place, const QString& text, const QColor& colour)
{
    painter_.setPen(colour);
    painter_.drawText(layout_.baselineIn(place), text);
}

void TrendPainter::drawLine(const QLineF& line, const QColor& colour, double width)
{
    painter_.setPen(QPen(colour, width, Qt::SolidLine, Qt::FlatCap));
    painter_.drawLine(line);
}

} // namespace

void paintTrend(QPainter& painter, const QRectF& area, const Trend& trend, const TrendStyle& style)
{
    painter.save();
    painter.setClipRect(area, Qt::IntersectClip);
    painter.fillRect(area, style.ground);
    const bool hasRoom = area.width() >= 8.0 * style.textPx && area.height() >= 4.0 * style.textPx;
    if (hasRoom) {
        const TrendLayout layout(area, trend, style, painter.device());
        TrendPainter(painter, layout, trend, style).paint();
    }
    painter.restore();
}

} // namespace loopside::paper
