// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/battery.h"
#include "app/row_model.h"
#include "app/tablet.h"
#include "handover/handover.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <functional>
#include <set>
#include <string>

namespace loopside::app {

/// How the record gets to the hub of the site: what is still only here, what arrived and the proof of it, what stands
/// in the way; a key to hand over now, and where there is no hub yet, one to enrol the tablet.
class HandoverView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// Rows: name, value.
    Q_PROPERTY(loopside::app::RowModel* facts READ facts CONSTANT)
    /// What is under way, what stands in the way, what is to be looked at. Rows: kind, text.
    Q_PROPERTY(loopside::app::RowModel* answers READ answers CONSTANT)
    Q_PROPERTY(bool isEnrolled READ isEnrolled NOTIFY changed)
    Q_PROPERTY(bool canBegin READ canBegin NOTIFY changed)
    Q_PROPERTY(bool asksEnrolment READ asksEnrolment NOTIFY changed)
    Q_PROPERTY(bool canEnrol READ canEnrol NOTIFY changed)
    /// Entries of others wait for a person to say that their clocks were right.
    Q_PROPERTY(bool canSettle READ canSettle NOTIFY changed)

public:
    explicit HandoverView(Tablet& tablet, QObject* parent = nullptr);
    ~HandoverView() override;

    [[nodiscard]] RowModel* facts() { return &facts_; }
    [[nodiscard]] RowModel* answers() { return &answers_; }
    [[nodiscard]] bool isEnrolled() const { return handover_ != nullptr && handover_->hub().has_value(); }
    [[nodiscard]] bool canBegin() const { return isEnrolled() && !standing_.isUnderWay; }
    /// It is not enrolled, or has to be anew: the hub struck it off, or is another one.
    [[nodiscard]] bool asksEnrolment() const;
    [[nodiscard]] bool canEnrol() const { return handover_ != nullptr && !standing_.isUnderWay; }
    [[nodiscard]] bool canSettle() const { return handover_ != nullptr && !handover_->unsettled().empty(); }

    /// Who hands over; null: this is not the tablet's record, as in an exercise. Outlives the view.
    void setHandover(handover::Handover* handover);
    /// How the battery is read.
    void setBattery(std::function<std::optional<Battery>()> read);

    Q_INVOKABLE void begin();
    /// Asks the hub for every entry of the runs that show `code`, until the program ends.
    void fetch(const QString& code);
    /// Enrols the tablet at the hub `address` with the code from its terminal, as they were typed.
    Q_INVOKABLE void enrol(const QString& address, const QString& code);
    /// Says that the entries of others whose clocks ran ahead count by their clocks.
    Q_INVOKABLE void settle();

Q_SIGNALS:
    void changed();

private:
    void onSecond();
    void askForRuns();
    void refresh();
    void showFacts();
    void showAnswers();
    [[nodiscard]] QString dayOf(std::int64_t wallMs) const;

    Tablet& tablet_;
    handover::Handover* handover_ = nullptr;
    std::function<std::optional<Battery>()> readBattery_ = [] { return batteryIn(); };
    RowModel facts_;
    RowModel answers_;
    handover::HandoverStanding standing_;
    std::set<std::string> codes_; ///< Of runs that somebody looks for.
    bool isToAsk_ = true;         ///< Other runs may be of interest than those that were asked for.
    QString typedWrong_;          ///< Why what was typed enrols nothing.
};

} // namespace loopside::app
