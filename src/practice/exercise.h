// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// An exercise under way: a simulated cart with something hidden, moved on by hand, that hears what is said of the run
// and does it. A second cart goes along with the same orders and without the fault; where the dials of the two differ,
// or something can be seen or heard, the fault can be noticed.
//
// It knows no clock, no file and no screen. The same seed and orders give the same exercise.

#pragma once

#include "practice/exercise_plan.h"
#include "practice/practice_cart.h"
#include "run/finding.h"

#include <string_view>
#include <vector>

namespace loopside::practice {

/// What a person at the cart sees and hears.
struct Showing
{
    std::vector<Needle> needles;
    units::Temperature thermometer;
    std::vector<std::string_view> signs; ///< foam, haze, whine, hiss; empty: nothing out of the ordinary.
};

/// Something that was said, with how everything truly was just before.
struct Act
{
    units::Duration at;
    run::Said said;
    Snapshot before;
    run::Mode mode; ///< As believed just before.
};

/// What Loopside found, and when it first said so.
struct FoundThen
{
    units::Duration at;
    std::string id;
    std::optional<int> stage;
    Message said; ///< With the values of that moment.
};

/// What the debrief is made from.
struct Lived
{
    std::vector<Act> acts = {};
    std::vector<FoundThen> found = {};
    std::optional<units::Duration> firstFiltering = {};
    std::optional<units::Duration> faultAt = {};
    std::optional<units::Duration> visibleAt = {}; ///< When what was hidden could first be noticed at the cart.
    std::vector<units::Duration> overLimit = {};   ///< Per stage: filtered above its limit, with the filling that was
                                                   ///< worst.
    units::Duration ranWithFault = {};             ///< Pump on while the fault stood and could be noticed.
    units::Duration longestUnread = {};            ///< Of filtering without a set.
    bool isPutRight = false;
    Snapshot now;
};

class Exercise
{
public:
    /// OutOfRange if `number` is not from 1 to `exerciseCount`.
    [[nodiscard]] static Result<Exercise> begin(int number, std::uint64_t seed);

    [[nodiscard]] const ExercisePlan& plan() const { return plan_; }
    [[nodiscard]] const run::Setup& setup() const { return plan_.scenario.setup; }
    [[nodiscard]] units::Duration now() const { return cart_.now(); }

    /// Lets time pass. `time` is from 0 to 100 h.
    void advance(units::Duration time);

    /// Does what is said: pump and valve, elements, a look at a spot; keeps the rest for the debrief. What a look shows
    /// comes back as a sentence.
    /// Conflict, as of `PracticeCart::changeElements`, where it cannot be done; it is then not kept.
    [[nodiscard]] Result<std::optional<Message>> hear(const run::Said& said);

    /// What Loopside finds now.
    void findings(const std::vector<run::Finding>& findings);

    [[nodiscard]] Showing showing();
    [[nodiscard]] Lived lived() const;

private:
    Exercise(ExercisePlan plan, PracticeCart cart);

    void pass(units::Duration time);
    void takeStock(units::Duration time);
    void hideNow();
    void watch();
    [[nodiscard]] bool differsFromTwin();
    [[nodiscard]] std::vector<std::string_view> signs() const;
    [[nodiscard]] bool isFaultStanding() const;
    [[nodiscard]] Result<Message> look(Spot spot);
    [[nodiscard]] Message lookAtSuction();
    [[nodiscard]] Message lookAtElements() const;
    [[nodiscard]] Done change(const run::ElementsChanged& changed);
    void setMode(const run::ModeChanged& changed);
    void putRight(FaultKind kind);

    ExercisePlan plan_;
    PracticeCart cart_;
    PracticeCart twin_; ///< Without the fault.
    Lived lived_ = {};
    units::Duration filtering_ = {};            ///< As told.
    units::Duration unread_ = {};               ///< Filtering since the last set.
    std::vector<units::Duration> overNow_ = {}; ///< Per stage, of the filling that is in.
};

} // namespace loopside::practice
