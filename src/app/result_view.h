// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/fields_view.h"
#include "app/own_words.h"
#include "app/row_model.h"
#include "app/tablet.h"
#include "run/samples.h"
#include "site/preview.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <map>
#include <string>
#include <vector>

namespace loopside::app {

/// What was counted in a bottle, typed from a report or a counter, however late. What was told before stands beside the
/// fields and holds where nothing is typed; what is odd is asked about, and logged as typed when a person says so.
class ResultView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// Code, counts, water, viscosity, acid number, volume that was counted.
    Q_PROPERTY(loopside::app::FieldsView* fields READ fields CONSTANT)
    /// How it was counted. Rows: name, detail (empty), isChosen.
    Q_PROPERTY(loopside::app::RowModel* methods READ methods CONSTANT)
    /// Number of the report.
    Q_PROPERTY(loopside::app::OwnWords* report READ report CONSTANT)

public:
    explicit ResultView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] FieldsView* fields() { return &fields_; }
    [[nodiscard]] RowModel* methods() { return &methods_; }
    [[nodiscard]] OwnWords* report() { return &report_; }

    /// Takes up what was begun of the result of `sample`, a bottle of the shown run.
    void about(const run::SampleSeen& sample);

    /// What the main key still needs; empty if nothing.
    [[nodiscard]] QString problem() const;
    /// What is odd in what was typed, a sentence each.
    [[nodiscard]] QStringList doubts() const;
    [[nodiscard]] bool wasTyped() const { return wasTyped_; }
    /// False after a draft that the disk did not take.
    [[nodiscard]] bool areKept() const { return fields_.isKept(); }
    bool log();

    Q_INVOKABLE void chooseMethod(int row);

Q_SIGNALS:
    void changed();
    /// Something was told: what was asked before is to be asked anew.
    void told();

private:
    using Fields = std::map<std::string, std::string>;

    void refresh();
    [[nodiscard]] bool isAnything() const;
    /// As the columns of a laboratory's file have it: what is typed, which is all that is logged.
    [[nodiscard]] Fields typedColumns() const;
    /// What was told before, and over it what is typed: what is odd about the whole.
    [[nodiscard]] Fields asColumns() const;
    [[nodiscard]] QString textOf(const site::RowFault& fault) const;

    Tablet& tablet_;
    FieldsView fields_;
    RowModel methods_;
    OwnWords report_;
    OwnWords method_;
    std::string sample_;
    run::ResultEntered before_;
    bool wasTyped_ = false;
};

} // namespace loopside::app
