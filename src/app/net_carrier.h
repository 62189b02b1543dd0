// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "handover/carrier.h"

#include <QElapsedTimer>
#include <QNetworkAccessManager>
#include <QPointer>

namespace loopside::app {

/// The way to a hub over HTTPS. It speaks to the hub whose certificate is meant and to no other: nobody's authority
/// stands for it, and a certificate that is not meant is refused before anything is told.
class NetCarrier final : public handover::Carrier
{
public:
    NetCarrier();
    ~NetCarrier() override;

    void send(handover::Post post, Heard heard) override;
    void giveUp() override;

private:
    void finish(QNetworkReply* reply, const std::string& address, const Heard& heard);

    QNetworkAccessManager net_;
    QPointer<QNetworkReply> reply_;
    ledger::Hash seen_ = {}; ///< The certificate of the connection that may still be open.
    QElapsedTimer sent_;     ///< Since something was sent last.
    bool isOther_ = false;   ///< Another hub than the one meant answers.
};

} // namespace loopside::app
