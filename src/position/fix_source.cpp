// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "position/fix_source.h"

#include <QGeoPositionInfoSource>
#include <QNmeaPositionInfoSource>

#include <cmath>

namespace loopside::position {

namespace {

/// Of a single-frequency receiver under open sky, one standard deviation (common practice, no source). Qt makes of it
/// and of the sentence's dilution the error within which 95 % lie.
constexpr double rangeError_m = 5.0;

constexpr int updateMs = 1000;

/// Named: the default source of a system without its service stays silent.
std::unique_ptr<QGeoPositionInfoSource> sourceOf(const QString& nmea)
{
    const bool isSystem = nmea.isEmpty();
    const QVariantMap parameters = isSystem ? QVariantMap{} : QVariantMap{{QStringLiteral("nmea.source"), nmea}};
    return std::unique_ptr<QGeoPositionInfoSource>(QGeoPositionInfoSource::createSource(
        isSystem ? QStringLiteral("geoclue2") : QStringLiteral("nmea"), parameters, nullptr));
}

} // namespace

FixSource::FixSource(const QString& nmea, QObject* parent) : QObject{parent}, source_{sourceOf(nmea)}
{
    if (source_ == nullptr) {
        return;
    }
    if (auto* sentences = qobject_cast<QNmeaPositionInfoSource*>(source_.get())) {
        sentences->setUserEquivalentRangeError(rangeError_m); // without it no accuracy is told
    }
    source_->setUpdateInterval(updateMs);
    connect(source_.get(), &QGeoPositionInfoSource::positionUpdated, this, &FixSource::take);
}

FixSource::~FixSource() = default;

void FixSource::begin()
{
    if (source_ != nullptr && !isOn_) {
        isOn_ = true;
        source_->startUpdates();
    }
}

void FixSource::end()
{
    if (isOn_) {
        isOn_ = false;
        source_->stopUpdates();
        latest_.reset();
        Q_EMIT moved();
    }
}

std::optional<run::Fix> FixSource::latest() const
{
    const bool isFresh = since_.isValid() && !since_.hasExpired(std::chrono::milliseconds(freshFor).count());
    return isFresh ? latest_ : std::nullopt;
}

void FixSource::take(const QGeoPositionInfo& info)
{
    if (!isOn_ || !info.isValid()) {
        return;
    }
    const QGeoCoordinate at = info.coordinate();
    run::Fix fix{.place = {at.latitude(), at.longitude()}};
    if (info.hasAttribute(QGeoPositionInfo::HorizontalAccuracy)) {
        const double accuracy_m = info.attribute(QGeoPositionInfo::HorizontalAccuracy);
        fix.accuracy_m = std::isfinite(accuracy_m) && accuracy_m > 0.0 ? std::optional(accuracy_m) : std::nullopt;
    }
    latest_ = fix;
    since_.start();
    Q_EMIT moved();
}

} // namespace loopside::position
