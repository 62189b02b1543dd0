// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QByteArray>

#include <cstdint>
#include <optional>
#include <vector>

namespace loopside::app {

/// A spoken note is telephone sound: 8000 samples a second, one channel, µ-law, in a WAV file. No library has to be
/// there to make or play it, and half a minute fits into an attachment.
///
/// Source: ITU-T G.711 (µ-law), from memory; the layout of a WAV file with format 7, from memory.
inline constexpr int spokenRate = 8000;

/// The longest that fits, in seconds, with room to spare.
inline constexpr int spokenSecondsMax = 36;

/// The samples as a WAV file; those beyond `spokenSecondsMax` are left out.
[[nodiscard]] QByteArray wavOf(const std::vector<std::int16_t>& samples);

/// The samples of a file that `wavOf` made; nothing for any other.
[[nodiscard]] std::optional<std::vector<std::int16_t>> samplesOf(const QByteArray& wav);

/// `samples` at `rate` as samples at `spokenRate`, the mean of those that fall into each.
[[nodiscard]] std::vector<std::int16_t> atSpokenRate(const std::vector<std::int16_t>& samples, int rate);

} // namespace loopside::app
