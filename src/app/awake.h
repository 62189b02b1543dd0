// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/tablet.h"

#include <QObject>

#include <optional>

namespace loopside::app {

/// What can keep the display of this machine on.
class Display
{
public:
    virtual ~Display() = default;

    /// True if it stays on from now on, until `letSleep`.
    virtual bool keepOn(const QString& why) = 0;
    virtual void letSleep() = 0;
    /// Of its range, 0 to 1; nothing where it cannot be read here.
    [[nodiscard]] virtual std::optional<double> brightness() const = 0;
    /// Of its range, 0 to 1. False if it cannot be set here.
    virtual bool setBrightness(double share) = 0;
};

/// Keeps the display on while a run, a job or an exercise is open: a tablet that sleeps alerts nobody and shows no
/// gauge. Meanwhile it is dimmed in the night theme and bright in the others; then it is as bright again as it was
/// found, unless somebody made it another. Where the system does not let a program do that, its own keys do it.
class Awake : public QObject
{
    Q_OBJECT

public:
    /// `tablet` and `display` outlive it.
    Awake(Tablet& tablet, Display& display, QObject* parent = nullptr);
    ~Awake() override;

    void setTheme(const QString& theme);
    /// An exercise is under way, or no more.
    void setPractising(bool isPractising);

private:
    void refresh();
    void refreshLight();
    void putLightBack();

    Tablet& tablet_;
    Display& display_;
    bool isKept_ = false;
    bool isPractising_ = false;
    QString theme_;
    std::optional<double> found_; ///< How bright it was before the work was opened.
    double given_ = 0.0;          ///< How bright it was made since.
};

/// The display of a Linux system: asks the desktop's screen saver service to stay off, and the session's login service
/// for the brightness; both by D-Bus as freedesktop.org specifies them. Without these services it can do neither.
class SystemDisplay final : public Display
{
public:
    bool keepOn(const QString& why) override;
    void letSleep() override;
    [[nodiscard]] std::optional<double> brightness() const override;
    bool setBrightness(double share) override;

private:
    uint cookie_ = 0;
    bool isKept_ = false;
};

} // namespace loopside::app
