// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/photo_camera.h"

#include <QCamera>
#include <QCameraDevice>
#include <QMediaCaptureSession>
#include <QMediaDevices>
#include <QVideoFrame>
#include <QVideoSink>

namespace loopside::app {

struct PhotoCamera::Looking
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

PhotoCamera::PhotoCamera() = default;
PhotoCamera::~PhotoCamera() = default;

bool PhotoCamera::isThere()
{
    return !QMediaDevices::videoInputs().isEmpty();
}

void PhotoCamera::begin()
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
    connect(&looking_->camera, &QCamera::errorOccurred, this, &PhotoCamera::failed);
    looking_->camera.start();
}

void PhotoCamera::end()
{
    looking_.reset();
    image_ = {};
}

} // namespace loopside::app
