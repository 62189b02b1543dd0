// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/tablet.h"

#include <QObject>

#include <future>
#include <string>

namespace loopside::app {

/// Looks at the structure of a large journal behind the start, beside the work that goes on, and tells of damage: at a
/// start that would cost seconds for each million entries (docs/durability.md).
class StructureCheck : public QObject
{
    Q_OBJECT

public:
    /// `tablet` outlives it.
    explicit StructureCheck(Tablet& tablet);
    /// Waits for the end of a look that is under way.
    ~StructureCheck() override;

    /// Begins to look at the journal `path`.
    void begin(const std::string& path);

    [[nodiscard]] bool isBusy() const { return running_.valid(); }

private:
    void finish();

    Tablet& tablet_;
    std::future<Done> running_;
};

} // namespace loopside::app
