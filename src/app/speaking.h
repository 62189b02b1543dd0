// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/microphone.h"
#include "base/id.h"

#include <QElapsedTimer>

namespace loopside::app {

/// A spoken note from its first word until it is kept or given up. What was heard waits where it cannot be kept at
/// once, or where something more urgent came between. Its length is that of the person's time, also in practice.
class Speaking
{
public:
    [[nodiscard]] bool isListening() const { return microphone_.isListening(); }
    /// About the run or entry `subject`. False if the microphone gives nothing.
    [[nodiscard]] bool begin(const Id& subject);
    /// How long is spoken already, in seconds.
    [[nodiscard]] int seconds() const;
    /// Whether there is no room for more.
    [[nodiscard]] bool isFull() const;
    /// Ends it; what was heard waits.
    void end();

    /// What was heard about `subject` and is neither kept nor given up, as a WAV file; empty if there is none.
    [[nodiscard]] QByteArray heardAbout(const Id& subject) const;
    /// It was kept, or is given up.
    void forget();

    void play(const QByteArray& wav) { microphone_.play(wav); }

private:
    Microphone microphone_;
    QElapsedTimer since_;
    Id subject_;
    QByteArray heard_;
};

} // namespace loopside::app
