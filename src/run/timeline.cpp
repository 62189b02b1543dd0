// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/timeline.h"

#include <algorithm>

namespace loopside::run {

namespace {

/// Of the gauges at `reading`.
Offsets offsetsOf(const Moment& reading, const RunState& run)
{
    return reading.zero == nullptr ? Offsets() : offsetsFrom(*reading.zero, run.setup.cart);
}

/// Carries what holds from one moment to the next.
class Walker
{
public:
    explicit Walker(const RunState& run) : run_{run}
    {
        now_.flow = run.setup.cart.flow.value();
        now_.elementsSince.assign(run.setup.stages.size(), RunTime{0});
    }

    Moment step(const Fact& fact)
    {
        now_.at = fact.seen;
        now_.fact = &fact;
        now_.flow = run_.setup.cart.flow.value();
        now_.zero = zero_;
        now_.reading = nullptr;
        now_.raw.clear();
        if (!fact.struck) {
            std::visit([this](const auto& what) { take(what); }, fact.effective);
        }
        return now_;
    }

private:
    void take(const ModeChanged& changed)
    {
        if (changed.mode != now_.mode || changed.flow) {
            now_.disturbedAt = now_.at;
        }
        now_.mode = changed.mode;
        if (changed.mode == Mode::Filtering && !now_.filteringSince) {
            now_.filteringSince = now_.at;
        }
        stated(changed.flow);
    }

    void take(const ReadingLogged& reading)
    {
        now_.reading = &reading;
        now_.raw = rawDropsOf(reading, offsetsOf(now_, run_), run_.setup.cart);
        if (now_.mode == Mode::Stopped) {
            zero_ = &reading;
        }
        stated(reading.flow);
    }

    void take(const ElementsChanged& changed)
    {
        const auto index = static_cast<std::size_t>(changed.stage - 1);
        if (index < now_.elementsSince.size()) { // an entry from elsewhere may name a stage that is not there
            now_.elementsSince[index] = now_.at;
            now_.disturbedAt = now_.at;
        }
    }

    template<class Other>
    void take(const Other&)
    {
    }

    void stated(const std::optional<TypedFlow>& flow)
    {
        if (flow) {
            now_.flow = std::max(units::Flow{}, flow->value());
        }
    }

    const RunState& run_;
    Moment now_;
    const ReadingLogged* zero_ = nullptr;
};

/// Whether two runs are one is said at a table as well as at the cart: nobody looked at the pump for it.
bool isOfRunsAlone(const Event& event)
{
    const auto* kept = std::get_if<Kept>(&event);
    return kept != nullptr && kept->what == "link";
}

} // namespace

std::vector<Moment> timelineOf(const RunState& run)
{
    std::vector<const Fact*> said;
    for (const Fact& fact : run.facts) {
        if (isSaid(fact.original) && !isOfRunsAlone(fact.original)) {
            said.push_back(&fact);
        }
    }
    std::stable_sort(said.begin(), said.end(), [](const Fact* a, const Fact* b) { return a->seen < b->seen; });
    Walker walker(run);
    std::vector<Moment> moments;
    moments.reserve(said.size());
    for (const Fact* fact : said) {
        moments.push_back(walker.step(*fact));
    }
    return moments;
}

std::vector<StageDrop> dropsAt(const Moment& reading, const RunState& run)
{
    return dropsOf(*reading.reading, reading.mode, offsetsOf(reading, run), run.setup, run.fluid);
}

} // namespace loopside::run
