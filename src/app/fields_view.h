// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "base/id.h"
#include "store/draft_store.h"
#include "units/typed.h"

#include <QObject>
#include <QStringList>
#include <QtQml/qqmlregistration.h>

#include <map>
#include <optional>
#include <vector>

namespace loopside::app {

/// What is typed on a page, field by field, digits and unit as typed. One pad and one keyboard serve all fields; none
/// is ever filled before somebody types. Where a place for drafts is given, each key is on disk before the next.
class FieldsView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// Rows: name, ghost (what holds now, to stand beside the field and never in it), text, unit, isActive, hasUnits
    /// (the unit can be another), problem.
    Q_PROPERTY(loopside::app::RowModel* rows READ rows CONSTANT)
    Q_PROPERTY(int active READ active NOTIFY changed)
    /// What the pad's point key types in the field that is active.
    Q_PROPERTY(QString point READ point NOTIFY changed)

public:
    struct Field
    {
        QString name;
        QStringList units = {}; ///< The first is taken until somebody says another.
        int longest = 6;
        QString point = QStringLiteral(".");
        bool canBeBelowZero = false; ///< An empty field has a minus where the point is later: no number begins with it.
        bool takesLetters = false;   ///< From a keyboard.
        int unit = 0;
        QString text = {};
        QString problem = {};   ///< Why what is typed cannot be.
        QString ghost = {};     ///< What holds now.
        bool isOffered = false; ///< What stands there was typed before, and not touched since.
        QString alsoTakes = {}; ///< More signs from a keyboard; a comma stays one.
        QString key = {};       ///< What its drafts stand under where its place may change; empty: its place.
    };

    explicit FieldsView(std::vector<Field> fields, QObject* parent = nullptr);

    [[nodiscard]] RowModel* rows() { return &rows_; }
    [[nodiscard]] int active() const { return active_; }
    [[nodiscard]] QString point() const;

    [[nodiscard]] const QString& text(int field) const { return at(field).text; }
    [[nodiscard]] QString unit(int field) const { return at(field).units.value(at(field).unit); }
    [[nodiscard]] bool isEmpty(int field) const { return text(field).isEmpty(); }

    /// What stands in `field`, if it is a number.
    template<class Q>
    [[nodiscard]] std::optional<units::Typed<Q>> typed(int field) const
    {
        const auto read = units::Typed<Q>::parse((text(field) + QLatin1Char(' ') + unit(field)).toStdString());
        return read ? std::optional(*read) : std::nullopt;
    }

    [[nodiscard]] bool areEmpty() const;
    [[nodiscard]] int count() const { return static_cast<int>(fields_.size()); }

    /// Other fields in the place of these.
    void setFields(std::vector<Field> fields);

    /// Other fields, while somebody types: those of a key that stands here already, or at its place, keep what is
    /// typed, others take what stands in the drafts.
    void reshape(std::vector<Field> fields);

    /// Keeps what is typed from now on under `id` and names that begin with `place`, and takes what stands there: true
    /// if that is something. Beside what stands there is `offered`, in the place of what holds, until somebody types.
    /// `drafts` outlives the view.
    bool keepIn(store::DraftStore& drafts, const Id& id, const QString& place, const QString& offered = {});
    /// False after a draft that the disk did not take.
    [[nodiscard]] bool isKept() const { return isKept_; }

    void setProblem(int field, const QString& problem);
    void setUnit(int field, const QString& unit);
    /// Puts `text` in the place of what stands in the field that is active.
    void replace(const QString& text);
    /// Empties all fields; the units stay as somebody said them.
    void clear();

    Q_INVOKABLE void select(int field);
    /// A key of the pad or the keyboard; what the field cannot take changes nothing.
    Q_INVOKABLE void key(const QString& sign);
    Q_INVOKABLE void backspace();
    Q_INVOKABLE void stepUnit(int field);

Q_SIGNALS:
    void changed();

private:
    [[nodiscard]] const Field& at(int field) const { return fields_.at(static_cast<std::size_t>(field)); }
    [[nodiscard]] Field& at(int field) { return fields_.at(static_cast<std::size_t>(field)); }
    void show();
    void store(int field);
    void offerDrafts();
    [[nodiscard]] QString keyOf(int field) const;
    [[nodiscard]] std::string draftName(int field, const char* part) const;

    std::vector<Field> fields_;
    std::map<QString, Field> before_; ///< Before the last changes of shape, by key.
    RowModel rows_;
    int active_ = 0;
    store::DraftStore* drafts_ = nullptr;
    Id draftId_ = {};
    QString place_;
    QString offered_;
    bool isKept_ = true;
};

} // namespace loopside::app
