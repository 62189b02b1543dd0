// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/right_tank.h"

#include <QElapsedTimer>
#include <QObject>
#include <QString>

#include <chrono>
#include <memory>
#include <optional>

class QGeoPositionInfo;
class QGeoPositionInfoSource;

namespace loopside::position {

/// A fix that is older says where the tablet was, not where it is (our choice: at a walk it is 30 m on).
inline constexpr std::chrono::seconds freshFor{20};

/// Where this tablet is, by Qt Positioning, as long as somebody wants to know. It keeps nothing but the latest fix.
class FixSource : public QObject
{
    Q_OBJECT

public:
    /// By the position service of the system; or, where `nmea` is not empty, by NMEA 0183 sentences from there: a file,
    /// replayed by the times in it, `socket://HOST:PORT` or `serial:DEVICE`.
    explicit FixSource(const QString& nmea = {}, QObject* parent = nullptr);
    ~FixSource() override;

    /// Whether there is anything that could tell.
    [[nodiscard]] bool isThere() const { return source_ != nullptr; }

    void begin();
    /// Nobody wants to know any more: the latest fix is forgotten.
    void end();
    [[nodiscard]] bool isOn() const { return isOn_; }

    /// Nothing while there is none, or none that is fresh.
    [[nodiscard]] std::optional<run::Fix> latest() const;

Q_SIGNALS:
    void moved();

private:
    void take(const QGeoPositionInfo& info);

    std::unique_ptr<QGeoPositionInfoSource> source_;
    std::optional<run::Fix> latest_;
    QElapsedTimer since_; ///< A replayed fix has the time of its recording: what counts is when it came.
    bool isOn_ = false;
};

} // namespace loopside::position
