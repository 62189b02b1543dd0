// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/practice_clock.h"
#include "app/row_model.h"
#include "app/tablet.h"
#include "practice/debrief.h"

#include <QElapsedTimer>
#include <QObject>
#include <QTimer>
#include <QtQml/qqmlregistration.h>

#include <memory>

namespace loopside::app {

class AppView;

/// An exercise under way: the same screens over a simulated cart, with a journal, a key, a person and a clock of its
/// own; beside them what one sees, hears and can do at the cart, and the debrief at its end.
///
/// What is said on the screens is done to the cart. Alerts of an exercise are seen and not heard, so that a sound on
/// the floor is always of a real cart.
class ExerciseView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_MOC_INCLUDE("app/app_view.h")

    /// The screens of the exercise.
    Q_PROPERTY(loopside::app::AppView* app READ app CONSTANT)
    Q_PROPERTY(QString title READ title CONSTANT)
    Q_PROPERTY(QString task READ task CONSTANT)
    /// "Practice clock 0:42".
    Q_PROPERTY(QString clockText READ clockText NOTIFY moved)
    /// How fast its clock goes: pause, × 1, × 10, × 60. Rows: name, detail, isChosen.
    Q_PROPERTY(loopside::app::RowModel* rates READ rates CONSTANT)

    /// Rows: name, unit, span, graduation, labels (texts at even distances from 0 to the span), low, high (where the
    /// needle swings to; equal where it is steady), spoken.
    Q_PROPERTY(loopside::app::RowModel* dials READ dials CONSTANT)
    Q_PROPERTY(QString oilText READ oilText NOTIFY moved)
    /// What is seen and heard. Rows: text, sign.
    Q_PROPERTY(loopside::app::RowModel* signs READ signs CONSTANT)
    /// What the last look showed; empty before the first.
    Q_PROPERTY(QString sight READ sight NOTIFY asked)

    /// Whether the panel of the cart covers the loop and the trend.
    Q_PROPERTY(bool isAtCart READ isAtCart NOTIFY asked)
    /// What is asked over the panel: none, look, think, place, end.
    Q_PROPERTY(QString asks READ asks NOTIFY asked)
    /// The choices of what is asked. Rows: name, detail, isChosen.
    Q_PROPERTY(loopside::app::RowModel* choices READ choices CONSTANT)
    /// The stages, to change their elements. Rows: name.
    Q_PROPERTY(loopside::app::RowModel* stages READ stages CONSTANT)

    Q_PROPERTY(bool isOver READ isOver NOTIFY over)
    Q_PROPERTY(QString scoreText READ scoreText NOTIFY over)
    Q_PROPERTY(QString hiddenText READ hiddenText NOTIFY over)
    /// Since when it was there, from when on it could be noticed.
    Q_PROPERTY(QString noticedText READ noticedText NOTIFY over)
    Q_PROPERTY(QString nextText READ nextText NOTIFY over)
    /// What Loopside said and what was done. Rows: time, text.
    Q_PROPERTY(loopside::app::RowModel* found READ found CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* did READ did CONSTANT)
    /// Rows: text, sign, signText.
    Q_PROPERTY(loopside::app::RowModel* goals READ goals CONSTANT)

public:
    /// Begins the exercise of that number for who holds `tablet`, with its files in the practice folder of the tablet
    /// in place of those of the last time. Fails with the sentence to show.
    [[nodiscard]] static Result<std::unique_ptr<ExerciseView>> begin(const Tablet& tablet, int number,
                                                                     const QString& theme);
    ~ExerciseView() override;

    [[nodiscard]] AppView* app() const { return app_.get(); }
    [[nodiscard]] const Tablet& tablet() const { return *tablet_; }
    [[nodiscard]] practice::Exercise& exercise() { return exercise_; }
    [[nodiscard]] int number() const { return exercise_.plan().about.number; }
    [[nodiscard]] QString title() const;
    [[nodiscard]] QString task() const;
    [[nodiscard]] QString clockText() const;
    [[nodiscard]] RowModel* rates() { return &rates_; }
    [[nodiscard]] RowModel* dials() { return &dials_; }
    [[nodiscard]] QString oilText() const;
    [[nodiscard]] RowModel* signs() { return &signs_; }
    [[nodiscard]] QString sight() const { return sight_; }
    [[nodiscard]] bool isAtCart() const { return isAtCart_; }
    [[nodiscard]] QString asks() const { return asks_; }
    [[nodiscard]] RowModel* choices() { return &choices_; }
    [[nodiscard]] RowModel* stages() { return &stages_; }
    [[nodiscard]] bool isOver() const { return debrief_.has_value(); }
    [[nodiscard]] QString scoreText() const;
    [[nodiscard]] QString hiddenText() const;
    [[nodiscard]] QString noticedText() const;
    [[nodiscard]] QString nextText() const;
    [[nodiscard]] RowModel* found() { return &found_; }
    [[nodiscard]] RowModel* did() { return &did_; }
    [[nodiscard]] RowModel* goals() { return &goals_; }
    /// Null before the end.
    [[nodiscard]] const practice::Debrief* debrief() const { return debrief_ ? &*debrief_ : nullptr; }

    Q_INVOKABLE void chooseRate(int row);
    /// Lets time pass until a reading is due or an alert comes; five minutes where the cart does not filter.
    Q_INVOKABLE void toNextReading();
    /// Lets so much of the exercise's time pass, at once, or less where a reading gets due or an alert comes.
    Q_INVOKABLE void pass(double seconds);
    Q_INVOKABLE void goToCart();
    Q_INVOKABLE void askLook();
    Q_INVOKABLE void askThink();
    Q_INVOKABLE void askEnd();
    Q_INVOKABLE void choose(int row);
    Q_INVOKABLE void back();
    /// To the changeover of that stage, from 1.
    Q_INVOKABLE void change(int stage);
    Q_INVOKABLE void end();

Q_SIGNALS:
    void moved();
    void asked();
    void over();

private:
    struct Ground;

    ExerciseView(practice::Exercise exercise, std::unique_ptr<Ground> ground);

    [[nodiscard]] Done open(const Tablet& outer, const QString& theme);
    void onTimer();
    void step(units::Duration time);
    void hearNew();
    void hear(const run::Said& said);
    void ask(const QString& what, QList<RowModel::Row> rows = {});
    void say(std::string_view check, const std::string& what);
    void showRates();
    void showCart();
    void showDebrief();
    struct Wants
    {
        bool reading = false;
        std::size_t alerts = 0;
    };

    [[nodiscard]] Wants wants() const;
    [[nodiscard]] QString timeText(units::Duration at) const;
    [[nodiscard]] QString label(const std::string& id) const { return tablet_->say({id, {}}); }

    practice::Exercise exercise_;
    std::unique_ptr<Ground> ground_;
    std::unique_ptr<Tablet> tablet_;
    std::unique_ptr<AppView> app_;
    RowModel rates_;
    RowModel dials_;
    RowModel signs_;
    RowModel choices_;
    RowModel stages_;
    RowModel found_;
    RowModel did_;
    RowModel goals_;
    QTimer timer_;
    QElapsedTimer since_;
    int rate_ = 1; ///< Row of `rates_`.
    std::size_t heard_ = 0;
    bool isAtCart_ = true;
    QString asks_ = QStringLiteral("none");
    practice::Thought asked_ = practice::Thought::NothingWrong; ///< Whose place is asked for.
    QString sight_;
    units::Temperature thermometer_ = {};
    std::optional<practice::Debrief> debrief_ = {};
};

} // namespace loopside::app
