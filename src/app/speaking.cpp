// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/speaking.h"

#include "app/spoken_note.h"

namespace loopside::app {

bool Speaking::begin(const Id& subject)
{
    forget();
    subject_ = subject;
    since_.start();
    return microphone_.begin();
}

int Speaking::seconds() const
{
    return since_.isValid() ? static_cast<int>(since_.elapsed() / 1000) : 0;
}

bool Speaking::isFull() const
{
    return isListening() && seconds() >= spokenSecondsMax;
}

void Speaking::end()
{
    if (isListening()) {
        heard_ = microphone_.end();
    }
}

QByteArray Speaking::heardAbout(const Id& subject) const
{
    return subject == subject_ ? heard_ : QByteArray();
}

void Speaking::forget()
{
    if (isListening()) {
        static_cast<void>(microphone_.end());
    }
    heard_.clear();
}

} // namespace loopside::app
