// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QImage>
#include <QObject>

#include <memory>

namespace loopside::app {

/// The camera of this tablet, while somebody looks through it.
class PhotoCamera : public QObject
{
    Q_OBJECT

public:
    PhotoCamera();
    ~PhotoCamera() override;

    /// Whether there is a camera now.
    [[nodiscard]] static bool isThere();

    void begin();
    void end();
    /// What it sees; empty before it sees anything.
    [[nodiscard]] const QImage& image() const { return image_; }

Q_SIGNALS:
    void seen();
    /// It is there and gives no picture: another program has it, or it is broken.
    void failed();

private:
    struct Looking;

    std::unique_ptr<Looking> looking_;
    QImage image_;
};

} // namespace loopside::app
