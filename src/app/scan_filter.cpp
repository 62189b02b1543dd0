// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/scan_filter.h"

#include <QCoreApplication>
#include <QKeyEvent>

#include <chrono>
#include <utility>

namespace loopside::app {

namespace {

constexpr std::chrono::milliseconds readerPause{35};
constexpr qsizetype shortestCode = 4;

bool isEnter(const QKeyEvent& key)
{
    return key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter;
}

/// Signs and what goes with them, such as Shift; not arrows, Tab or Backspace.
bool canBeOfCode(const QKeyEvent& key)
{
    return !key.isAutoRepeat() && (key.key() == Qt::Key_Shift || (!key.text().isEmpty() && key.text().at(0).isPrint()));
}

} // namespace

ScanFilter::ScanFilter(QObject* parent) : QObject{parent}
{
    patience_.setSingleShot(true);
    patience_.setInterval(readerPause);
    patience_.setTimerType(Qt::PreciseTimer);
    connect(&patience_, &QTimer::timeout, this, &ScanFilter::goOn);
}

ScanFilter::~ScanFilter() = default;

bool ScanFilter::eventFilter(QObject* target, QEvent* event)
{
    const bool isPress = event->type() == QEvent::KeyPress;
    if (isGoingOn_ || (!isPress && event->type() != QEvent::KeyRelease)) {
        return false;
    }
    const auto& key = static_cast<const QKeyEvent&>(*event);
    if (isEnter(key) && (isPress ? code().size() >= shortestCode : swallowsRelease_)) {
        swallowsRelease_ = isPress;
        if (isPress) {
            patience_.stop();
            const QString scannedCode = code();
            held_.clear();
            Q_EMIT scanned(scannedCode);
        }
        return true;
    }
    if (!canBeOfCode(key) || (!isPress && held_.empty())) {
        goOn(); // what came before this key goes before it
        return false;
    }
    target_ = target;
    held_.emplace_back(static_cast<QKeyEvent*>(event->clone()));
    patience_.start();
    return true;
}

QString ScanFilter::code() const
{
    QString signs;
    for (const auto& key : held_) {
        signs += key->type() == QEvent::KeyPress ? key->text() : QString();
    }
    return signs;
}

void ScanFilter::goOn()
{
    patience_.stop();
    isGoingOn_ = true;
    for (const auto& key : std::exchange(held_, {})) {
        QCoreApplication::sendEvent(target_, key.get());
    }
    isGoingOn_ = false;
}

} // namespace loopside::app
