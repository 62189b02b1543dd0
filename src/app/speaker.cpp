// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/speaker.h"

#include "app/alert_tone.h"

#include <QAudioDevice>
#include <QAudioSink>
#include <QByteArray>
#include <QIODevice>
#include <QMediaDevices>

#include <algorithm>
#include <cstring>

namespace loopside::app {

namespace {

/// The samples of a tone, once or round and round.
class ToneDevice final : public QIODevice
{
public:
    explicit ToneDevice(const AlertTone& tone)
        : bytes_{reinterpret_cast<const char*>(tone.samples.data()),
                 static_cast<qsizetype>(tone.samples.size() * sizeof(tone.samples.front()))},
          repeats_{tone.repeats}
    {
        open(QIODevice::ReadOnly);
    }

    [[nodiscard]] bool isSequential() const override { return true; }
    [[nodiscard]] qint64 bytesAvailable() const override { return repeats_ ? bytes_.size() : bytes_.size() - at_; }

protected:
    qint64 readData(char* data, qint64 most) override
    {
        qint64 done = 0;
        while (done < most && (repeats_ || at_ < bytes_.size())) {
            if (at_ == bytes_.size()) {
                at_ = 0;
            }
            const qint64 piece = std::min(most - done, bytes_.size() - at_);
            std::memcpy(data + done, bytes_.constData() + at_, static_cast<std::size_t>(piece));
            done += piece;
            at_ += piece;
        }
        return done;
    }

    qint64 writeData(const char*, qint64) override { return -1; }

private:
    QByteArray bytes_;
    qint64 at_ = 0;
    bool repeats_;
};

} // namespace

struct Speaker::Playing
{
    Playing(const QAudioDevice& loudspeaker, const QAudioFormat& format, const AlertTone& tone)
        : device{tone}, sink{loudspeaker, format}
    {
        sink.start(&device);
    }

    ToneDevice device; // outlives the sink that reads it
    QAudioSink sink;
};

Speaker::Speaker() = default;

Speaker::~Speaker() = default;

/// The device is asked for each time: ear phones may come and go.
void Speaker::play(run::Priority priority)
{
    constexpr int usual_Hz = 48000;
    stop();
    const QAudioDevice loudspeaker = QMediaDevices::defaultAudioOutput();
    if (loudspeaker.isNull()) {
        return;
    }
    QAudioFormat format;
    format.setSampleRate(usual_Hz);
    format.setChannelCount(1);
    format.setSampleFormat(QAudioFormat::Int16);
    if (loudspeaker.isFormatSupported(format)) {
        playing_ = std::make_unique<Playing>(loudspeaker, format, alertTone(priority, usual_Hz));
    }
}

void Speaker::stop()
{
    playing_.reset();
}

} // namespace loopside::app
