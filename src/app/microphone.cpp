// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/microphone.h"

#include "app/spoken_note.h"

#include <QAudioDevice>
#include <QAudioSink>
#include <QAudioSource>
#include <QBuffer>
#include <QMediaDevices>

#include <cstring>

namespace loopside::app {

namespace {

QAudioFormat formatAt(int rate)
{
    QAudioFormat format;
    format.setSampleRate(rate);
    format.setChannelCount(1);
    format.setSampleFormat(QAudioFormat::Int16);
    return format;
}

/// One channel of whole numbers, at the rate of a spoken note or, where the device has it not, at its own.
QAudioFormat formatFor(const QAudioDevice& device)
{
    const QAudioFormat wanted = formatAt(spokenRate);
    return device.isFormatSupported(wanted) ? wanted : formatAt(device.preferredFormat().sampleRate());
}

} // namespace

struct Microphone::Listening
{
    explicit Listening(const QAudioDevice& device) : format{formatFor(device)}, source{device, format}
    {
        buffer.open(QIODevice::ReadWrite);
    }

    QBuffer buffer; // first, so that it outlives what writes to it
    QAudioFormat format;
    QAudioSource source;
};

struct Microphone::Playing
{
    Playing(const QAudioDevice& device, const QByteArray& samples) : sink{device, formatAt(spokenRate)}
    {
        buffer.setData(samples);
        buffer.open(QIODevice::ReadOnly);
    }

    QBuffer buffer; // first, so that it outlives what reads from it
    QAudioSink sink;
};

Microphone::Microphone() = default;
Microphone::~Microphone() = default;

bool Microphone::isThere()
{
    return !QMediaDevices::audioInputs().isEmpty();
}

bool Microphone::canPlay()
{
    return !QMediaDevices::audioOutputs().isEmpty();
}

bool Microphone::begin()
{
    if (!isThere()) {
        return false;
    }
    listening_ = std::make_unique<Listening>(QMediaDevices::defaultAudioInput());
    listening_->source.start(&listening_->buffer);
    if (listening_->source.error() != QAudio::NoError) {
        listening_.reset();
    }
    return isListening();
}

bool Microphone::isListening() const
{
    return listening_ != nullptr;
}

QByteArray Microphone::end()
{
    if (!listening_) {
        return {};
    }
    listening_->source.stop();
    const QByteArray bytes = listening_->buffer.data();
    std::vector<std::int16_t> samples(static_cast<std::size_t>(bytes.size()) / sizeof(std::int16_t));
    std::memcpy(samples.data(), bytes.constData(), samples.size() * sizeof(std::int16_t));
    const int rate = listening_->format.sampleRate();
    listening_.reset();
    return samples.empty() ? QByteArray() : wavOf(rate == spokenRate ? samples : atSpokenRate(samples, rate));
}

void Microphone::play(const QByteArray& wav)
{
    const auto samples = samplesOf(wav);
    if (!samples || !canPlay()) {
        return;
    }
    const QByteArray bytes(reinterpret_cast<const char*>(samples->data()),
                           static_cast<qsizetype>(samples->size() * sizeof(std::int16_t)));
    playing_ = std::make_unique<Playing>(QMediaDevices::defaultAudioOutput(), bytes);
    playing_->sink.start(&playing_->buffer);
}

} // namespace loopside::app
