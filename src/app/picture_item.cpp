// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/picture_item.h"

#include <QPainter>

namespace loopside::app {

void PictureItem::setImage(const QImage& image)
{
    image_ = image;
    update();
    Q_EMIT imageChanged();
}

void PictureItem::paint(QPainter* painter)
{
    if (image_.isNull() || width() < 1.0 || height() < 1.0) {
        return;
    }
    const QSizeF size = QSizeF(image_.size()).scaled(QSizeF(width(), height()), Qt::KeepAspectRatio);
    const QPointF corner((width() - size.width()) / 2.0, (height() - size.height()) / 2.0);
    painter->setRenderHint(QPainter::SmoothPixmapTransform);
    painter->drawImage(QRectF(corner, size), image_);
}

} // namespace loopside::app
