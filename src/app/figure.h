// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QBrush>
#include <QColor>
#include <QList>
#include <QPainterPath>
#include <QPen>
#include <QQmlListProperty>
#include <QQuickPaintedItem>

namespace loopside::app {

/// One part of a figure: a path with its ground and its line, in the units of the figure's grid. Either colour may be
/// transparent. A path that cannot be read (figure_path.h) paints nothing and is told once.
class Stroke : public QObject
{
    Q_OBJECT
    QML_ELEMENT

    Q_PROPERTY(QString path READ path WRITE setPath NOTIFY changed)
    Q_PROPERTY(QColor fill MEMBER fill_ NOTIFY changed)
    Q_PROPERTY(QColor line MEMBER line_ NOTIFY changed)
    Q_PROPERTY(qreal width MEMBER width_ NOTIFY changed)
    Q_PROPERTY(Cap cap MEMBER cap_ NOTIFY changed)
    Q_PROPERTY(Join join MEMBER join_ NOTIFY changed)

public:
    enum Cap
    {
        FlatCap = Qt::FlatCap,
        SquareCap = Qt::SquareCap,
        RoundCap = Qt::RoundCap
    };
    Q_ENUM(Cap)
    enum Join
    {
        MiterJoin = Qt::MiterJoin,
        BevelJoin = Qt::BevelJoin,
        RoundJoin = Qt::RoundJoin
    };
    Q_ENUM(Join)

    explicit Stroke(QObject* parent = nullptr) : QObject{parent} {}

    [[nodiscard]] QString path() const { return text_; }
    void setPath(const QString& path);

    [[nodiscard]] const QPainterPath& outline() const { return outline_; }
    [[nodiscard]] QBrush brush() const;
    [[nodiscard]] QPen pen() const;

Q_SIGNALS:
    void changed();

private:
    QString text_;
    QPainterPath outline_;
    QColor fill_ = Qt::transparent;
    QColor line_ = Qt::transparent;
    qreal width_ = 1.0;
    Cap cap_ = FlatCap;
    Join join_ = MiterJoin;
    bool isTold_ = false; ///< That a path could not be read.
};

/// A drawn thing: symbols, signs, pipes. Its parts are painted in their order, never outside the figure.
///
/// Qt Quick Shapes are not used: the software renderer of Qt 6.4 paints a Shape that lies wholly outside the clip
/// around it as if there were none.
class Figure : public QQuickPaintedItem
{
    Q_OBJECT
    QML_ELEMENT
    Q_CLASSINFO("DefaultProperty", "parts")

    /// Units across the width; 0: those of the item, one for one.
    Q_PROPERTY(qreal grid MEMBER grid_ NOTIFY gridChanged)
    Q_PROPERTY(QQmlListProperty<loopside::app::Stroke> parts READ parts CONSTANT)

public:
    explicit Figure(QQuickItem* parent = nullptr);

    [[nodiscard]] QQmlListProperty<Stroke> parts();

    void paint(QPainter* painter) override;

Q_SIGNALS:
    void gridChanged();

protected:
    QSGNode* updatePaintNode(QSGNode* old, UpdatePaintNodeData* data) override;

private:
    struct Drawn
    {
        QPainterPath outline;
        QBrush brush;
        QPen pen;
    };

    static void append(QQmlListProperty<Stroke>* list, Stroke* part);
    static qsizetype count(QQmlListProperty<Stroke>* list);
    static Stroke* at(QQmlListProperty<Stroke>* list, qsizetype index);

    QList<Stroke*> parts_;
    QList<Drawn> drawn_; ///< What is painted, taken while Qt holds the scene still.
    qreal grid_ = 0.0;
    qreal scale_ = 1.0;
};

} // namespace loopside::app
