// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/figure.h"

#include "app/figure_path.h"

#include <QPainter>
#include <QQmlInfo>

namespace loopside::app {

void Stroke::setPath(const QString& path)
{
    if (path == text_) {
        return;
    }
    text_ = path;
    const auto outline = figurePath(path);
    outline_ = outline.value_or(QPainterPath());
    if (!outline && !isTold_) {
        isTold_ = true;
        qmlWarning(this) << "no path: " << path;
    }
    Q_EMIT changed();
}

QBrush Stroke::brush() const
{
    return fill_.alpha() == 0 ? QBrush(Qt::NoBrush) : QBrush(fill_);
}

QPen Stroke::pen() const
{
    if (line_.alpha() == 0 || !(width_ > 0.0)) {
        return QPen(Qt::NoPen);
    }
    return {line_, width_, Qt::SolidLine, static_cast<Qt::PenCapStyle>(cap_), static_cast<Qt::PenJoinStyle>(join_)};
}

Figure::Figure(QQuickItem* parent) : QQuickPaintedItem{parent}
{
    connect(this, &Figure::gridChanged, this, [this] { update(); });
}

QQmlListProperty<Stroke> Figure::parts()
{
    return {this, nullptr, &Figure::append, &Figure::count, &Figure::at, nullptr};
}

void Figure::append(QQmlListProperty<Stroke>* list, Stroke* part)
{
    auto* figure = static_cast<Figure*>(list->object);
    figure->parts_.append(part);
    connect(part, &Stroke::changed, figure, [figure] { figure->update(); });
}

qsizetype Figure::count(QQmlListProperty<Stroke>* list)
{
    return static_cast<Figure*>(list->object)->parts_.size();
}

Stroke* Figure::at(QQmlListProperty<Stroke>* list, qsizetype index)
{
    return static_cast<Figure*>(list->object)->parts_.at(index);
}

QSGNode* Figure::updatePaintNode(QSGNode* old, UpdatePaintNodeData* data)
{
    drawn_.clear();
    for (const Stroke* part : std::as_const(parts_)) {
        if (!part->outline().isEmpty()) {
            drawn_.append({part->outline(), part->brush(), part->pen()});
        }
    }
    scale_ = grid_ > 0.0 ? width() / grid_ : 1.0;
    return QQuickPaintedItem::updatePaintNode(old, data);
}

void Figure::paint(QPainter* painter)
{
    painter->setRenderHint(QPainter::Antialiasing);
    painter->scale(scale_, scale_);
    for (const Drawn& part : std::as_const(drawn_)) {
        painter->setBrush(part.brush);
        painter->setPen(part.pen);
        painter->drawPath(part.outline);
    }
}

} // namespace loopside::app
