// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/placard.h"

#include <QGuiApplication>
#include <QPainter>

#include <algorithm>
#include <chrono>
#include <future>

namespace loopside::app {

Placard::Placard(const QString& sentence) : sentence_{sentence}
{
    setTitle(QStringLiteral("Loopside"));
    resize(1280, 800);
}

void Placard::paintEvent(QPaintEvent*)
{
    constexpr int linesInHeight = 22;
    const QRect room(QPoint(0, 0), size());
    QFont font(QStringLiteral("B612"));
    font.setPixelSize(std::max(1, std::min(width(), height()) / linesInHeight));
    QPainter painter(this);
    painter.fillRect(room, QColor(0xEC, 0xE9, 0xE1)); // ground and ink of the day
    painter.setPen(QColor(0x14, 0x17, 0x1A));
    painter.setFont(font);
    painter.drawText(room.marginsRemoved(QMargins(width() / 8, 0, width() / 8, 0)), Qt::AlignCenter | Qt::TextWordWrap,
                     sentence_);
}

Message behindPlacard(const QString& sentence, const std::function<Message()>& work)
{
    Placard placard(sentence);
    placard.show();
    auto done = std::async(std::launch::async, work);
    while (done.wait_for(std::chrono::milliseconds(20)) != std::future_status::ready) {
        QGuiApplication::processEvents();
    }
    return done.get();
}

} // namespace loopside::app
