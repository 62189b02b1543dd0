// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/decide.h"
#include "run/standing.h"

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::test {

/// A decimal, a quantity with its unit: as a person types them.
[[nodiscard]] Decimal number(std::string_view text);

template<class Q>
[[nodiscard]] units::Typed<Q> typed(std::string_view text)
{
    return units::Typed<Q>::parse(text).value();
}

[[nodiscard]] inline run::TypedVolume litres(std::string_view number)
{
    return typed<units::Volume>(std::string(number) + " L");
}

/// 400 L of VG 46 at 20 L/min: one turnover takes 20 min. Gauges 0 to 100 psi in steps of 1 psi, grade B, static head 1
/// psi. Stage 1 has a limit of 25 psi, stage 2 one of 42 psi; no bypass setting, no target.
[[nodiscard]] run::Setup ordinary();

/// `setup` with a target in turnovers, and perhaps a code.
[[nodiscard]] run::Setup withTarget(run::Setup setup, std::string_view turnovers, const std::string& code = {},
                                    bool counterOnSite = false);

/// A set of gauges: "22 16 6", "-" where one could not be read, "20..24" where the needle swings; then perhaps a unit.
[[nodiscard]] run::ReadingLogged gauges(std::string_view typed, std::string_view unit = {});

/// One run, walked in minutes since it was opened. What is said is decided and applied at once; a refusal fails the
/// test, except in `attempt`.
class Walk
{
public:
    explicit Walk(run::Setup setup = ordinary());
    /// One that may learn from `past`, and knows `place`.
    Walk(run::Setup setup, std::vector<run::LoadingLearned> past, run::PlaceLearned place = {});

    Walk& filteringAt(double minute, std::optional<std::string_view> flow = {});
    Walk& bypassingAt(double minute);
    Walk& stoppedAt(double minute);
    Walk& readingAt(double minute, std::string_view set, std::string_view unit = {});
    Walk& readingSeenEarlierAt(double minute, double minutesAgo, std::string_view set);
    Walk& noteAt(double minute);
    Walk& changeoverAt(double minute, int stage, int elements);
    Walk& answerAt(double minute, std::string_view question, const Id& of, std::string_view say,
                   std::optional<std::string_view> minutes = {});
    Walk& amendAt(double minute, const Id& of, std::string_view set);
    Walk& strikeAt(double minute, const Id& of);
    Walk& acknowledgeAt(double minute, run::AlertId alert, std::optional<int> stage = {});
    Walk& shelveAt(double minute, run::AlertId alert, std::optional<int> stage, int minutes);
    Walk& closeAt(double minute, run::Ending ending = run::Ending::StoppedEarly);
    Walk& tickAt(double minute);
    Walk& sayAt(double minute, run::Said what);
    /// Jobs beside the run, by a number that makes their id.
    Walk& openJobAt(double minute, std::uint8_t job, run::JobOpened what, double minutesAgo = 0.0);
    Walk& sayOfJobAt(double minute, std::uint8_t job, run::JobSaid what);
    /// Another run with the same hand and clock; `run()` stays the first.
    Walk& openRunAt(double minute, std::uint8_t run, run::Setup setup);
    Walk& sayOfRunAt(double minute, std::uint8_t run, run::Said what);

    /// The wall clock of the device shows `minutes` more from now on, or less.
    Walk& wallJumps(double minutes);
    /// The device starts again: its monotonic clock begins anew.
    Walk& restarts();
    /// From now on another device writes, with its own clocks, its wall clock `minutes` ahead of true time.
    Walk& onDevice(std::uint8_t device, double wallAheadMinutes = 0.0);

    /// Decides `command` at `minute` and leaves everything as it is.
    [[nodiscard]] Result<std::vector<run::Decided>> attempt(double minute, const run::Command& command) const;

    [[nodiscard]] const run::RunState& run() const { return *state_.runOf(id_); }
    [[nodiscard]] const run::State& state() const { return state_; }
    [[nodiscard]] Id id() const { return id_; }
    [[nodiscard]] static Id idOfJob(std::uint8_t job);
    [[nodiscard]] const run::Job& job(std::uint8_t job) const { return *state_.jobOf(idOfJob(job)); }
    /// What is known of the cart of `ordinary`.
    [[nodiscard]] run::CartStanding cart(const std::string& name = "C1") const;
    /// The entry that was said last (not what followed from it).
    [[nodiscard]] Id last() const { return lastSaid_; }
    /// What the last command came to.
    [[nodiscard]] const std::vector<run::Decided>& decided() const { return decided_; }
    [[nodiscard]] run::Standing standingAt(double minute) const;
    /// The state of an alert by its name, "normal" where it is not in the list.
    [[nodiscard]] std::string alert(run::AlertId id, std::optional<int> stage = {}) const;

    struct Entry
    {
        run::Header header;
        run::Event event;
    };
    /// Everything that was kept, in the order in which it came.
    [[nodiscard]] const std::vector<Entry>& entries() const { return entries_; }

private:
    [[nodiscard]] Stamp stampAt(double minute) const;
    [[nodiscard]] run::Context contextAt(double minute, double minutesAgo = 0.0) const;
    Walk& act(double minute, const run::Command& command, double minutesAgo = 0.0);
    Walk& keep(const run::Context& context, std::vector<run::Decided> decided);

    run::State state_ = {};
    Id id_;
    Id lastSaid_ = {};
    std::vector<run::Decided> decided_ = {};
    std::vector<Entry> entries_ = {};
    std::uint8_t device_ = 1;
    std::uint8_t boot_ = 1;
    double bootedAt_ = -1000.0;
    double wallAhead_ = 0.0;
    double now_ = 0.0;
    std::uint64_t made_ = 0;
};

/// A line of text per alert, fact and total: two runs that print alike stand alike.
[[nodiscard]] std::string printed(const run::State& state);

/// "alert-raised stage-at-limit 2": an event in a few words, as the golden table prints it.
[[nodiscard]] std::string printed(const run::Event& event);

} // namespace loopside::test
