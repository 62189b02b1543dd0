// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/fields_view.h"
#include "app/own_words.h"
#include "app/purge_timer.h"
#include "app/row_model.h"
#include "app/tablet.h"
#include "run/kit.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <string>

namespace loopside::app {

/// A bottle that is being drawn: where, how long the port ran out, how warm the oil is, its tag. Nothing is filled in
/// before somebody tells it; what was told survives a kill and is logged by a person alone.
class DrawView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// The tank and each port of the cart. Rows: name, detail (what it shows), isChosen.
    Q_PROPERTY(loopside::app::RowModel* places READ places CONSTANT)
    /// What the machine at the tank does. Rows: name, detail (empty), isChosen.
    Q_PROPERTY(loopside::app::RowModel* machines READ machines CONSTANT)
    /// Oil temperature and purged volume.
    Q_PROPERTY(loopside::app::FieldsView* fields READ fields CONSTANT)
    Q_PROPERTY(loopside::app::OwnWords* tag READ tag CONSTANT)
    /// Where else than at the port, in own words.
    Q_PROPERTY(loopside::app::OwnWords* point READ point CONSTANT)
    /// What the bottle is called where no tag is told.
    Q_PROPERTY(QString tagHint READ tagHint NOTIFY changed)
    Q_PROPERTY(QString caution READ caution NOTIFY changed)
    /// How it is drawn well, and as which bottle before.
    Q_PROPERTY(QString howText READ howText NOTIFY changed)
    /// "0:42", or that it is not known any more; empty before it was begun.
    Q_PROPERTY(QString timerText READ timerText NOTIFY timeChanged)
    Q_PROPERTY(QString timerKey READ timerKey NOTIFY timeChanged)
    Q_PROPERTY(bool isTiming READ isTiming NOTIFY timeChanged)

public:
    explicit DrawView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] RowModel* places() { return &places_; }
    [[nodiscard]] RowModel* machines() { return &machines_; }
    [[nodiscard]] FieldsView* fields() { return &fields_; }
    [[nodiscard]] OwnWords* tag() { return &tag_; }
    [[nodiscard]] OwnWords* point() { return &point_; }
    [[nodiscard]] QString tagHint() const;
    [[nodiscard]] QString caution() const;
    [[nodiscard]] QString howText() const;
    [[nodiscard]] QString timerText() const;
    [[nodiscard]] QString timerKey() const;
    [[nodiscard]] bool isTiming() const { return timer_.isRunning(); }

    /// Takes up what was begun of the bottle `bottle` of the shown run, which the drafts call `key`; `first` is the one
    /// that it is to be like.
    void about(const std::string& key, const std::optional<run::KitBottle>& bottle, const run::SampleSeen* first);

    /// What the main key still needs; empty if nothing.
    [[nodiscard]] QString problem() const;
    /// What is odd in what was told, a sentence each.
    [[nodiscard]] QStringList doubts() const;
    [[nodiscard]] bool wasTyped() const { return wasTyped_; }
    /// False after a draft that the disk did not take.
    [[nodiscard]] bool areKept() const { return fields_.isKept(); }

    /// A tag was read.
    void takeTag(const QString& code) { tag_.setText(code); }
    /// Logs the bottle; its name, or nothing where it was not logged.
    std::optional<std::string> log();

    Q_INVOKABLE void choosePlace(int row);
    Q_INVOKABLE void chooseMachine(int row);
    Q_INVOKABLE void pressTimer();

Q_SIGNALS:
    void changed();
    void timeChanged();
    /// Something was told: what was asked before is to be asked anew.
    void told();

private:
    void refresh();
    [[nodiscard]] std::optional<int> port() const;
    [[nodiscard]] std::string name() const;
    [[nodiscard]] QString placeName(int port) const;
    [[nodiscard]] QString placeDetail(int port) const;
    [[nodiscard]] QString circulationText() const;

    Tablet& tablet_;
    RowModel places_;
    RowModel machines_;
    FieldsView fields_;
    OwnWords tag_;
    OwnWords point_;
    OwnWords port_;
    OwnWords machine_;
    PurgeTimer timer_;
    std::optional<int> usual_; ///< The port that this bottle is drawn at.
    QString likeText_;
    bool wasTyped_ = false;
};

} // namespace loopside::app
