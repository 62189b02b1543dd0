// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/question.h"

#include "filtration/gauge.h"
#include "run/question_rules.h"

#include <algorithm>
#include <map>

namespace loopside::run {

namespace {

constexpr std::array<std::string_view, 5> aboutTyping = {gaugesSwapped, wrongUnit, outOfRange, digitSlip, timeOrder};

bool isTyping(std::string_view id)
{
    return std::find(aboutTyping.begin(), aboutTyping.end(), id) != aboutTyping.end();
}

/// The latest answer to each question, by what it asks and of which entry.
class Answers
{
public:
    explicit Answers(const RunState& run)
    {
        std::map<Id, Id> lastAmendment;
        std::map<Id, std::size_t> place;
        for (std::size_t i = 0; i < run.facts.size(); ++i) {
            place[run.facts[i].header.id] = i;
            if (!run.facts[i].amendedBy.empty()) {
                lastAmendment[run.facts[i].header.id] = run.facts[i].amendedBy.back();
            }
        }
        for (std::size_t i = 0; i < run.facts.size(); ++i) {
            const auto* answer = std::get_if<QuestionAnswered>(&run.facts[i].effective);
            if (answer == nullptr || run.facts[i].struck) {
                continue;
            }
            const auto amendment = lastAmendment.find(answer->of);
            const bool isOfOtherDigits = isTyping(answer->question) && amendment != lastAmendment.end()
                && place[amendment->second] > i;
            if (!isOfOtherDigits) {
                latest_[{answer->question, answer->of}] = answer;
            }
        }
    }

    [[nodiscard]] const QuestionAnswered* to(const Question& question) const
    {
        const auto found = latest_.find({question.id, question.of->header.id});
        return found == latest_.end() ? nullptr : found->second;
    }

private:
    std::map<std::pair<std::string_view, Id>, const QuestionAnswered*> latest_;
};

/// Walks a run and asks of each moment what there is to ask.
class Asker
{
public:
    Asker(const std::vector<Moment>& moments, const RunState& run)
        : moments_{moments}, run_{run}, answers_{run}, times_{askTimes(run)}, isZeroKnown_(run.setup.cart.gauges.size())
    {
    }

    std::vector<Question> ask()
    {
        for (std::size_t i = 0; i < moments_.size(); ++i) {
            first_ = questions_.size();
            askAboutChangeover(moments_[i]);
            if (i > 0) {
                askAboutGap(moments_[i - 1], moments_[i]);
            }
            if (moments_[i].reading != nullptr) {
                askAboutSet(moments_[i]);
            }
        }
        return std::move(questions_);
    }

private:
    void add(Question question)
    {
        question.answer = answers_.to(question);
        questions_.push_back(std::move(question));
    }

    void askAboutChangeover(const Moment& moment)
    {
        const bool isChangeover = std::holds_alternative<ElementsChanged>(moment.fact->effective)
            && !moment.fact->struck;
        if (isChangeover && moment.mode != Mode::Stopped) {
            add({.id = changeoverWhileRunning, .of = moment.fact});
        }
    }

    void askAboutGap(const Moment& from, const Moment& to)
    {
        const bool isAfterClose = run_.phase == Phase::Closed && to.at > run_.closedAt;
        if (from.mode == Mode::Filtering && to.at - from.at > unwatchedAfter && !isAfterClose) {
            const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(to.at - from.at).count();
            Question gap{.id = unwatchedGap, .of = to.fact};
            gap.arguments = {{"minutes", std::to_string(minutes)}};
            add(std::move(gap));
        }
    }

    void askAboutSet(const Moment& moment)
    {
        for (Question& question : askRange(moment, run_.setup.cart)) {
            add(std::move(question));
        }
        const auto time = times_.find(moment.fact);
        if (time != times_.end()) {
            add(time->second);
        }
        if (moment.mode == Mode::Filtering && !isBlank(*moment.reading)) {
            askWhatItShows(moment);
        } else if (moment.mode == Mode::Stopped) {
            takeZeros(*moment.reading);
        }
    }

    void askWhatItShows(const Moment& moment)
    {
        const SetAsked set{moment, run_, offsets_, isZeroKnown_, good_, last_};
        std::optional<Question> slip;
        for (const Rule rule : slipRules) {
            if (!slip) {
                slip = rule(set);
            }
        }
        auto jump = slip ? std::nullopt : askJump(set);
        for (auto* question : {&slip, &jump}) {
            if (*question) {
                add(**question);
            }
        }
        compareLaterWith(moment);
    }

    /// What speaks against a set keeps later ones from being compared with it.
    void compareLaterWith(const Moment& moment)
    {
        const auto speaks = [&](auto test) {
            return std::any_of(questions_.begin() + static_cast<std::ptrdiff_t>(first_), questions_.end(), test);
        };
        const bool isHeld = speaks(
            [](const Question& question) { return question.isAboutTyping() && question.isOpen(); });
        const bool isLate = speaks([](const Question& question) { return question.id == enteredLate; });
        if (isHeld || isLate) {
            return;
        }
        last_ = &moment;
        if (!speaks([](const Question& question) { return question.id == jumped && question.isOpen(); })) {
            good_ = &moment;
        }
    }

    void takeZeros(const ReadingLogged& pumpOff)
    {
        const CartRecord& cart = run_.setup.cart;
        offsets_ = offsetsFrom(pumpOff, cart);
        for (std::size_t i = 0; i < isZeroKnown_.size(); ++i) {
            const auto shown = shownBy(pumpOff, cart, i);
            const auto error = filtration::readingUncertainty(cart.gauges[i].gauge(), {});
            const bool isAtHead = shown && cart.staticHead && error
                && std::abs((shown->value() - cart.staticHead->value()).in(units::pascal))
                    <= 2.0 * error->in(units::pascal);
            isZeroKnown_[i] = isAtHead || (i < offsets_.size() && offsets_[i]);
        }
    }

    const std::vector<Moment>& moments_;
    const RunState& run_;
    Answers answers_;
    std::map<const Fact*, Question> times_;
    std::vector<bool> isZeroKnown_;
    Offsets offsets_ = {};
    const Moment* good_ = nullptr;
    const Moment* last_ = nullptr;
    std::size_t first_ = 0; ///< The first question of the present moment.
    std::vector<Question> questions_ = {};
};

} // namespace

bool Question::isAboutTyping() const
{
    return isTyping(id);
}

bool Question::isOpen() const
{
    return answer == nullptr || (proposal && isAboutTyping() && answer->say == "yes");
}

std::vector<Question> questionsIn(const std::vector<Moment>& moments, const RunState& run)
{
    return Asker(moments, run).ask();
}

bool isHeldBack(const Fact& fact, const std::vector<Question>& questions)
{
    return std::any_of(questions.begin(), questions.end(), [&](const Question& question) {
        return question.of == &fact && question.isAboutTyping() && question.isOpen();
    });
}

bool isEnteredLate(const Fact& fact, const std::vector<Question>& questions)
{
    return std::any_of(questions.begin(), questions.end(),
                       [&](const Question& question) { return question.of == &fact && question.id == enteredLate; });
}

const Question* firstToAsk(const std::vector<Question>& questions)
{
    const auto rank = [](const Question& question) {
        return question.id == enteredLate ? 0 : question.isAboutTyping() ? (question.proposal ? 3 : 2) : 1;
    };
    const Question* first = nullptr;
    for (const Question& question : questions) {
        if (question.isOpen() && (first == nullptr || rank(question) >= rank(*first))) {
            first = &question;
        }
    }
    return first;
}

std::optional<Amended> proposalOf(const Question& question)
{
    if (!question.proposal) {
        return std::nullopt;
    }
    Amended amendment;
    amendment.of = question.of->header.id;
    amendment.gauges = question.proposal->gauges;
    amendment.unit = question.proposal->unit;
    amendment.why = std::string(question.id);
    return amendment;
}

const Question* gaugesToCheck(const std::vector<Question>& questions, const std::vector<Moment>& moments)
{
    const auto kept = std::find_if(questions.rbegin(), questions.rend(), [](const Question& question) {
        return question.id == gaugesSwapped && !question.isOpen();
    });
    if (kept == questions.rend()) {
        return nullptr;
    }
    const bool isChecked = std::any_of(moments.rbegin(), moments.rend(), [&](const Moment& moment) {
        return moment.reading != nullptr && moment.mode == Mode::Stopped && moment.at > kept->of->seen;
    });
    return isChecked ? nullptr : &*kept;
}

} // namespace loopside::run
