// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A finger on the real screens: each touch is a touch event on the window, at the middle of what is named, and is
// counted with the way that the finger went.

#pragma once

#include "app/window.h"
#include "bench.h"

#include <QPointingDevice>

#include <initializer_list>
#include <memory>
#include <vector>

namespace loopside::scene {

/// A touch that was made.
struct Touch
{
    QString name;
    double distanceMm = 0.0; ///< From the touch before; of the first one 0.
    double sizeMm = 0.0;     ///< The smaller side of what is touched.
    bool isArgument = false; ///< A digit, point or the delete key: part of a number, no command.
};

class Hand
{
public:
    explicit Hand(test::Bench& bench);

    /// Touches what has that name. It has to be there, enabled and large enough to be hit.
    void tap(const QString& name);
    void tap(std::initializer_list<const char*> names);
    /// Types on the pad's keys.
    void type(const QString& digits);
    /// A number for each field of the pad of a run, as a person goes on: straight, or with the main key where the field
    /// does not go on by itself. Then logs.
    void logSet(std::initializer_list<const char*> numbers);
    [[nodiscard]] bool isThere(const QString& name);

    /// Touches since the last call.
    [[nodiscard]] std::vector<Touch> take();
    [[nodiscard]] test::Bench& bench() { return bench_; }

private:
    [[nodiscard]] QQuickItem* part(const QString& name);

    test::Bench& bench_;
    app::Window window_;
    std::unique_ptr<QPointingDevice> finger_;
    std::vector<Touch> touches_;
    std::optional<QPointF> last_;
};

} // namespace loopside::scene
