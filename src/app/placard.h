// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"

#include <QRasterWindow>
#include <QString>

#include <functional>

namespace loopside::app {

/// A sentence on an otherwise empty window, for a time in which there are no screens.
class Placard : public QRasterWindow
{
    Q_OBJECT

public:
    explicit Placard(const QString& sentence);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString sentence_;
};

/// Does `work` on a thread of its own while `sentence` stands on a window, and returns what came of it.
[[nodiscard]] Message behindPlacard(const QString& sentence, const std::function<Message()>& work);

} // namespace loopside::app
