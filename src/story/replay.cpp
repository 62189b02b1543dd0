// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "story/replay.h"

#include "run/alert.h"

#include <algorithm>
#include <array>
#include <set>

namespace loopside::story {

namespace {

using run::RunTime;

/// The wall clock of a story that states none: the first minute of 2026, UTC.
constexpr std::int64_t defaultStartMs = 1'767'225'600'000;

std::array<std::uint8_t, 16> bytesOf(std::uint64_t seed)
{
    std::array<std::uint8_t, 16> bytes{};
    SeededRandom random(seed);
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        bytes[i] = static_cast<std::uint8_t>(random.next());
    }
    return bytes;
}

/// The same id for the same name in every story.
Id idOfName(std::string_view name)
{
    return {bytesOf(saltOf(name))};
}

/// Keys of replayed devices come from their names: a replay is invented or recorded, and proves nothing by its
/// signature.
ledger::DeviceKey keyOfName(std::string_view name)
{
    std::array<std::uint8_t, 32> seed{};
    const auto half = bytesOf(saltOf(std::string("key of ") + std::string(name)));
    const auto otherHalf = bytesOf(saltOf(std::string("key for ") + std::string(name)));
    std::copy(half.begin(), half.end(), seed.begin());
    std::copy(otherHalf.begin(), otherHalf.end(), seed.begin() + half.size());
    return ledger::DeviceKey::fromSeed(seed);
}

/// A clock that stands where the story is.
class StoryClock final : public Clock
{
public:
    Stamp now() override
    {
        Stamp stamp;
        stamp.wallMs = wallAtAnchor_.utcMs + (now_ - anchor_).count();
        stamp.offsetMin = wallAtAnchor_.offsetMin;
        stamp.monoNs = static_cast<std::uint64_t>(std::chrono::nanoseconds(now_).count());
        stamp.boot = idOfName("the one start of a story's tablet");
        return stamp;
    }

    void moveTo(RunTime time) { now_ = std::max(now_, time); }

    /// The wall clock shows this now, whatever it showed before.
    void set(const WallTime& wall)
    {
        anchor_ = now_;
        wallAtAnchor_ = wall;
    }

private:
    RunTime now_{0};
    RunTime anchor_{0};
    WallTime wallAtAnchor_{defaultStartMs, 0};
};

std::vector<const StoryEntry*> inOrderOfEntry(const Story& story)
{
    std::vector<const StoryEntry*> order;
    for (const StoryEntry& entry : story.entries) {
        order.push_back(&entry);
    }
    std::stable_sort(order.begin(), order.end(),
                     [](const StoryEntry* a, const StoryEntry* b) { return a->entered < b->entered; });
    return order;
}

class Replayer
{
public:
    Replayer(const Story& story, std::uint64_t salt, const Teller& tell) : story_{story}, tell_{tell}, random_{salt} {}

    Done play(ledger::Journal& journal)
    {
        if (story_.entries.front().wall) {
            const WallTime first = *story_.entries.front().wall;
            clock_.set({first.utcMs - story_.entries.front().entered.count(), first.offsetMin});
        }
        auto logbook = ledger::Logbook::open(journal, clock_, random_);
        if (!logbook) {
            return fail(logbook.error());
        }
        logbook_.emplace(*std::move(logbook));
        run_ = logbook_->newId();
        if (auto done = begin(); !done) {
            return done;
        }
        for (const StoryEntry* entry : inOrderOfEntry(story_)) {
            if (auto done = passTime(entry->entered); !done) {
                return done;
            }
            if (auto done = play(*entry); !done) {
                return fail(done.error().code, entry->place + ": " + done.error().sentence);
            }
        }
        return {};
    }

private:
    Done begin()
    {
        if (auto done = useDevice(""); !done) {
            return done;
        }
        hand_.person = idOfName("");
        return done(logbook_->submit(run::OpenRun{run_, story_.setup}, hand_));
    }

    static Done done(const Result<std::vector<ledger::Committed>>& result)
    {
        return result ? Done{} : Done{fail(result.error())};
    }

    Done useDevice(const std::string& name)
    {
        hand_.device = idOfName("tablet " + name);
        if (!enrolled_.insert(hand_.device).second) {
            return {};
        }
        return logbook_->enrol(hand_.device, keyOfName(name));
    }

    /// Lets time pass up to `until`, waking at every moment at which time alone may say something.
    Done passTime(RunTime until)
    {
        lookAhead(until);
        while (deadline_ && *deadline_ < until) {
            clock_.moveTo(*deadline_);
            auto committed = logbook_->submit(run::Tick{}, hand_);
            if (!committed) {
                return fail(committed.error());
            }
            if (auto told = tellOfTime(*committed, until); !told) {
                return told;
            }
        }
        clock_.moveTo(until);
        return {};
    }

    /// Where nobody listens: looks at the forecast only if it may ask for a reading before `until`.
    void lookAhead(RunTime until)
    {
        if (tell_) {
            return;
        }
        const auto standing = run::standingByGauges(state(), runNow());
        if (standing.due && until > run::earliestDue(standing) + run::overdueAfter) {
            look();
        } else {
            deadline_ = run::nextDeadline(state(), standing);
        }
    }

    run::Standing look()
    {
        auto standing = run::standingOf(state(), runNow());
        deadline_ = run::nextDeadline(state(), standing);
        return standing;
    }

    Done tellOfTime(const std::vector<ledger::Committed>& committed, RunTime until)
    {
        if (!tell_) {
            lookAhead(until);
            return {};
        }
        const auto standing = look();
        for (const ledger::Committed& one : committed) {
            const auto* raised = std::get_if<run::AlertRaised>(&one.event);
            if (raised == nullptr || one.header.run != run_) {
                continue;
            }
            if (auto told = tell_({nullptr, raised, state(), standing, {}, timeOf_}); !told) {
                return told;
            }
        }
        return {};
    }

    Done play(const StoryEntry& entry)
    {
        if (entry.wall) {
            clock_.set(*entry.wall);
        }
        if (auto done = useDevice(entry.device); !done) {
            return done;
        }
        if (!entry.person.empty()) {
            hand_.person = idOfName("person " + entry.person);
        }
        committed_.clear();
        for (const Step& step : entry.steps) {
            if (auto done = std::visit([&](const auto& what) { return take(what, entry); }, step); !done) {
                return done;
            }
        }
        for (const ledger::Committed& one : committed_) {
            timeOf_[one.header.id] = entry.at;
        }
        committedOf_[entry.place] = committed_;
        if (!tell_) {
            return {};
        }
        const auto standing = look();
        return tell_({&entry, nullptr, state(), standing, committed_, timeOf_});
    }

    Done say(run::Said what, const StoryEntry& entry)
    {
        const auto agoMs = (entry.entered - entry.seen).count();
        const run::Observed observed{agoMs, agoMs > 0 ? "said" : ""};
        return keep(logbook_->submit(run::Say{run_, std::move(what)}, hand_, observed));
    }

    Done keep(Result<std::vector<ledger::Committed>> committed)
    {
        if (!committed) {
            return fail(committed.error());
        }
        std::move(committed->begin(), committed->end(), std::back_inserter(committed_));
        return {};
    }

    Done take(const run::Said& said, const StoryEntry& entry) { return say(said, entry); }

    Done take(const AboutEntry& about, const StoryEntry& entry)
    {
        return std::visit(
            [&](auto what) {
                what.of = meant(story_.entries[about.of].place, what);
                return say(run::Said(what), entry);
            },
            about.what);
    }

    Done take(const AlertAnswered& answer, const StoryEntry& entry)
    {
        std::vector<std::optional<int>> stages = {answer.what.stage};
        if (!answer.what.stage) {
            stages.clear();
            for (const run::Alert& alert : state().alerts) {
                if (alert.id == answer.what.alert) {
                    stages.push_back(alert.stage);
                }
            }
            if (stages.empty()) {
                stages = {std::nullopt}; // lets the run say why not
            }
        }
        for (const auto stage : stages) {
            run::AlertShelved what = answer.what;
            what.stage = stage;
            auto done = answer.isShelved
                ? say(run::Said(what), entry)
                : say(run::Said(run::AlertAcknowledged{what.alert, what.stage, what.why}), entry);
            if (!done) {
                return done;
            }
        }
        return {};
    }

    Done take(const Closing& closing, const StoryEntry&)
    {
        return keep(logbook_->submit(run::CloseRun{run_, closing.ending, closing.why}, hand_));
    }

    /// The entry of the journal that an answer means: the one that was asked about, or the first of that story entry.
    Id meant(const std::string& place, const run::QuestionAnswered& answer)
    {
        const auto& candidates = committedOf_[place];
        const auto standing = run::standingByGauges(state(), runNow());
        for (const run::Question& question : standing.questions) {
            const bool isHere = std::any_of(candidates.begin(), candidates.end(), [&](const ledger::Committed& one) {
                return one.header.id == question.of->header.id;
            });
            if (isHere && question.id == answer.question) {
                return question.of->header.id;
            }
        }
        return candidates.empty() ? Id{} : candidates.front().header.id;
    }

    /// The entry that an amendment means: the first whose kind has what is set, else the first.
    Id meant(const std::string& place, const run::Amended& amendment)
    {
        const auto fits = [&](const run::Event& event) {
            return amendment.mode    ? std::holds_alternative<run::ModeChanged>(event)
                : amendment.elements ? std::holds_alternative<run::ElementsChanged>(event)
                : amendment.note     ? std::holds_alternative<run::Noted>(event)
                                     : std::holds_alternative<run::ReadingLogged>(event);
        };
        const auto& candidates = committedOf_[place];
        const auto found = std::find_if(candidates.begin(), candidates.end(),
                                        [&](const ledger::Committed& one) { return fits(one.event); });
        if (found != candidates.end()) {
            return found->header.id;
        }
        return candidates.empty() ? Id{} : candidates.front().header.id;
    }

    [[nodiscard]] const run::RunState& state() const { return *logbook_->state().runOf(run_); }
    [[nodiscard]] RunTime runNow() { return state().clock.at(clock_.now(), hand_.device); }

    const Story& story_;
    const Teller& tell_;
    SeededRandom random_;
    StoryClock clock_;
    std::optional<ledger::Logbook> logbook_;
    Id run_;
    ledger::Hand hand_;
    std::set<Id> enrolled_;
    std::optional<RunTime> deadline_; ///< When time alone may next say something, as things stood last.
    std::vector<ledger::Committed> committed_;
    std::map<std::string, std::vector<ledger::Committed>> committedOf_;
    std::map<Id, std::string> timeOf_;
};

} // namespace

const run::Moment* Told::reading() const
{
    for (const run::Moment& moment : standing.moments) {
        const bool isHere = moment.reading != nullptr
            && std::any_of(committed.begin(), committed.end(),
                           [&](const ledger::Committed& one) { return one.header.id == moment.fact->header.id; });
        if (isHere) {
            return &moment;
        }
    }
    return nullptr;
}

Done replay(const Story& story, std::uint64_t salt, ledger::Journal& journal, const Teller& tell)
{
    return Replayer(story, salt, tell).play(journal);
}

std::uint64_t saltOf(std::string_view text)
{
    std::uint64_t hash = 0xCBF29CE484222325U;
    for (const char letter : text) {
        hash = (hash ^ static_cast<unsigned char>(letter)) * 0x100000001B3U;
    }
    return hash;
}

} // namespace loopside::story
