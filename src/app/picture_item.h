// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QImage>
#include <QQuickPaintedItem>

namespace loopside::app {

/// Shows an image of a view, whole and in its own proportions.
class PictureItem : public QQuickPaintedItem
{
    Q_OBJECT
    QML_ELEMENT

    Q_PROPERTY(QImage image READ image WRITE setImage NOTIFY imageChanged)

public:
    explicit PictureItem(QQuickItem* parent = nullptr) : QQuickPaintedItem{parent} {}

    [[nodiscard]] QImage image() const { return image_; }
    void setImage(const QImage& image);

    void paint(QPainter* painter) override;

Q_SIGNALS:
    void imageChanged();

private:
    QImage image_;
};

} // namespace loopside::app
