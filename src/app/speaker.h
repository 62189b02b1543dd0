// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/alert_sound.h"

#include <memory>

namespace loopside::app {

/// The loudspeaker of the tablet. Silent, and without a word about it, where there is none or it takes no sound.
class Speaker final : public Sound
{
public:
    Speaker();
    ~Speaker() override;
    Speaker(const Speaker&) = delete;
    Speaker& operator=(const Speaker&) = delete;

    void play(run::Priority priority) override;
    void stop() override;

private:
    struct Playing;

    std::unique_ptr<Playing> playing_;
};

} // namespace loopside::app
