// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QByteArray>

#include <memory>

namespace loopside::app {

/// What hears and speaks a spoken note on this tablet.
class Microphone
{
public:
    Microphone();
    ~Microphone();
    Microphone(const Microphone&) = delete;
    Microphone& operator=(const Microphone&) = delete;

    /// Whether there is an audio input now.
    [[nodiscard]] static bool isThere();
    /// Whether there is an audio output now.
    [[nodiscard]] static bool canPlay();

    /// Begins to listen; false if the input gives nothing.
    [[nodiscard]] bool begin();
    [[nodiscard]] bool isListening() const;
    /// Ends it and gives what was heard as a WAV file; empty if nothing was.
    [[nodiscard]] QByteArray end();

    /// Plays a file that `end` gave. Silent where it cannot.
    void play(const QByteArray& wav);

private:
    struct Listening;
    struct Playing;

    std::unique_ptr<Listening> listening_;
    std::unique_ptr<Playing> playing_;
};

} // namespace loopside::app
