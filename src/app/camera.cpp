// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/camera.h"

#include <QCamera>
#include <QCameraDevice>
#include <QMediaCaptureSession>
#include <QMediaDevices>
#include <QVideoFrame>
#include <QVideoSink>

namespace loopside::app {

struct Camera::Looking
{
    explicit Looking(const QCameraDevice& device) : camera{device}
    {
        session.setCamera(&camera);
        session.setVideoSink(&sink);
    }

    QCamera camera;
    QVideoSink sink;
    QMediaCaptureSession session;
};

Camera::Camera() = default;
Camera::~Camera() = default;

bool Camera::isThere()
{
    return !QMediaDevices::videoInputs().isEmpty();
}

void Camera::begin()
{
    end();
    if (!isThere()) {
        return;
    }
    looking_ = std::make_unique<Looking>(QMediaDevices::defaultVideoInput());
    connect(&looking_->sink, &QVideoSink::videoFrameChanged, this, [this](const QVideoFrame& frame) {
        image_ = frame.toImage();
        Q_EMIT seen();
    });
    looking_->camera.start();
}

void Camera::end()
{
    looking_.reset();
    image_ = {};
}

} // namespace loopside::app
