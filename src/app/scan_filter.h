// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QElapsedTimer>
#include <QObject>
#include <QTimer>

#include <memory>
#include <vector>

class QKeyEvent;

namespace loopside::app {

/// Tells the keys of a tag reader from those of a person, so that no tag ends up in a gauge's field: a reader types at
/// least four signs and Enter, each within 35 ms of the one before (common practice, no source: readers type every 1 to
/// 20 ms, quick typists every 60 ms or more). Keys are held back as long as that can be so, and then go on unchanged.
///
/// Install it as the event filter of what the keys go to.
class ScanFilter : public QObject
{
    Q_OBJECT

public:
    explicit ScanFilter(QObject* parent = nullptr);
    ~ScanFilter() override;

    bool eventFilter(QObject* target, QEvent* event) override;

Q_SIGNALS:
    /// What the reader typed, without its Enter.
    void scanned(const QString& code);

private:
    void goOn();
    [[nodiscard]] QString code() const;

    QTimer patience_;
    QObject* target_ = nullptr;
    std::vector<std::unique_ptr<QKeyEvent>> held_; ///< Presses and releases, in the order they came.
    bool isGoingOn_ = false;
    bool swallowsRelease_ = false; ///< Of the Enter that ended a tag.
};

} // namespace loopside::app
