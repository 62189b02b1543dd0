// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/spoken_note.h"

#include <QtEndian>

#include <algorithm>
#include <bit>
#include <cstdlib>

namespace loopside::app {

namespace {

constexpr int bias = 132;       // of G.711, so that each segment is twice the one before
constexpr int loudest = 32'635; // what still fits after the bias
constexpr int headBytes = 46;

std::uint8_t encoded(std::int16_t sample)
{
    const int sign = sample < 0 ? 0x80 : 0;
    const int size = std::min(std::abs(static_cast<int>(sample)), loudest) + bias;
    const int segment = std::bit_width(static_cast<unsigned>(size)) - 8;
    const int step = (size >> (segment + 3)) & 0x0F;
    return static_cast<std::uint8_t>(~(sign | (segment << 4) | step));
}

std::int16_t decoded(std::uint8_t code)
{
    const int plain = ~code & 0xFF;
    const int segment = (plain >> 4) & 0x07;
    const int size = ((((plain & 0x0F) << 3) + bias) << segment) - bias;
    return static_cast<std::int16_t>((plain & 0x80) != 0 ? -size : size);
}

void add32(QByteArray& to, std::uint32_t number)
{
    const std::uint32_t bytes = qToLittleEndian(number);
    to.append(reinterpret_cast<const char*>(&bytes), sizeof bytes);
}

void add16(QByteArray& to, std::uint16_t number)
{
    const std::uint16_t bytes = qToLittleEndian(number);
    to.append(reinterpret_cast<const char*>(&bytes), sizeof bytes);
}

QByteArray headOf(std::uint32_t samples)
{
    QByteArray head("RIFF");
    add32(head, headBytes - 8 + samples);
    head.append("WAVEfmt ");
    add32(head, 18); // bytes of what follows up to "data"
    add16(head, 7);  // µ-law
    add16(head, 1);
    add32(head, spokenRate);
    add32(head, spokenRate);
    add16(head, 1);
    add16(head, 8);
    add16(head, 0);
    head.append("data");
    add32(head, samples);
    return head;
}

} // namespace

QByteArray wavOf(const std::vector<std::int16_t>& samples)
{
    const auto most = static_cast<std::size_t>(spokenRate) * spokenSecondsMax;
    const std::size_t count = std::min(samples.size(), most);
    QByteArray wav = headOf(static_cast<std::uint32_t>(count));
    for (std::size_t i = 0; i < count; ++i) {
        wav.append(static_cast<char>(encoded(samples[i])));
    }
    return wav;
}

std::optional<std::vector<std::int16_t>> samplesOf(const QByteArray& wav)
{
    const auto count = static_cast<std::uint32_t>(std::max<qsizetype>(wav.size() - headBytes, 0));
    if (wav.size() < headBytes || wav.first(headBytes) != headOf(count)) {
        return std::nullopt;
    }
    std::vector<std::int16_t> samples;
    samples.reserve(count);
    for (const char code : wav.sliced(headBytes)) {
        samples.push_back(decoded(static_cast<std::uint8_t>(code)));
    }
    return samples;
}

std::vector<std::int16_t> atSpokenRate(const std::vector<std::int16_t>& samples, int rate)
{
    std::vector<std::int16_t> slower;
    const double per = static_cast<double>(rate) / spokenRate;
    for (std::size_t i = 0;; ++i) {
        const auto from = static_cast<std::size_t>(static_cast<double>(i) * per);
        const auto to = std::max(static_cast<std::size_t>(static_cast<double>(i + 1) * per), from + 1);
        if (to > samples.size()) {
            return slower;
        }
        std::int64_t sum = 0;
        for (std::size_t k = from; k < to; ++k) {
            sum += samples[k];
        }
        slower.push_back(static_cast<std::int16_t>(sum / static_cast<std::int64_t>(to - from)));
    }
}

} // namespace loopside::app
