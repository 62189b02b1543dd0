// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the cart held last against what the tank holds.

#include "base/text.h"
#include "filtration/checks.h"
#include "filtration/flush.h"
#include "filtration/suit_sentence.h"

#include <algorithm>
#include <cctype>

namespace loopside::filtration {

using oil::FluidFamily;
using oil::Mixing;
using units::litre;
using units::Volume;

namespace {

/// The words of `text` in lower case; a change from letters to digits begins a new one, so that VG46 is two.
std::vector<std::string> wordsOf(std::string_view text)
{
    std::vector<std::string> words;
    char before = ' ';
    for (const char sign : text) {
        const auto byte = static_cast<unsigned char>(sign);
        const bool isDigit = std::isdigit(byte) != 0;
        if (!isDigit && std::isalpha(byte) == 0) {
            before = ' ';
            continue;
        }
        if (before == ' ' || (isDigit && std::isalpha(static_cast<unsigned char>(before)) != 0)) {
            words.emplace_back();
        }
        words.back() += static_cast<char>(std::tolower(byte));
        before = sign;
    }
    return words;
}

std::optional<oil::Grade> gradeOf(const std::vector<std::string>& words)
{
    const auto vg = std::find(words.begin(), words.end(), "vg");
    if (vg != words.end()) {
        const auto grade = vg + 1 == words.end() ? Result<oil::Grade>(fail(Errc::NotFound, ""))
                                                 : oil::gradeNamed(vg[1]);
        return grade ? std::optional(*grade) : std::nullopt;
    }
    if (std::find(words.begin(), words.end(), "sae") != words.end()) {
        return std::nullopt;
    }
    std::optional<oil::Grade> found;
    for (const std::string& word : words) {
        const auto grade = oil::gradeNamed(word);
        if (grade && found) {
            return std::nullopt; // two numbers: which is meant cannot be told
        }
        if (grade) {
            found = *grade;
        }
    }
    return found;
}

bool tellsWaste(const std::vector<std::string>& words)
{
    return std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return word == "waste" || word == "used" || word == "spent" || word == "flush";
    });
}

using Values = std::pair<std::string_view, std::string>;

Suit fluidSuit(SuitLevel level, const SuitSaying& saying, const CartMeetsTank& meeting)
{
    return suit({level, SuitSubject::CartFluid}, saying,
                {Values{"last", quotable(meeting.lastFluid)},
                 Values{"fluid", meeting.fluid.empty() ? "?" : quotable(meeting.fluid)}});
}

struct Verdict
{
    SuitLevel level;
    std::string_view id;
    std::string_view english;
};

Verdict verdictOf(Mixing mixing, bool isSameGrade)
{
    switch (mixing) {
    case Mixing::Same:
        return isSameGrade ? Verdict{SuitLevel::Ok, "suit.cart.same",
                                     "The cart held the same kind and grade last ({last}); whether it is the same "
                                     "product, the labels tell."}
                           : Verdict{SuitLevel::Caution, "suit.cart.other-grade",
                                     "The cart held the same kind of oil last ({last}) for {fluid}, but maybe not the "
                                     "same grade: flush first, and have it approved by name."};
    case Mixing::SameFamily:
        return {SuitLevel::Caution, "suit.cart.related",
                "The cart held {last} last and the tank holds {fluid}: flush first, fit new elements, and have it "
                "approved by name."};
    case Mixing::CannotTell:
        return {SuitLevel::Caution, "suit.cart.cannot-tell",
                "Whether {last} in the cart and {fluid} in the tank go together cannot be told: ask before you "
                "connect."};
    case Mixing::Incompatible:
        return {SuitLevel::Conflict, "suit.cart.incompatible",
                "The cart held {last} last, which is not to be mixed with {fluid}. Use this fluid's own cart."};
    case Mixing::Never:
        break;
    }
    return {SuitLevel::Conflict, "suit.cart.never",
            "Stop: the cart held {last} last, which must never meet {fluid}. Use this fluid's own cart."};
}

/// Whether the two go together, in one answer.
Suit verdict(const CartMeetsTank& meeting, const NamedFluid& last, const NamedFluid& fluid)
{
    const auto advice = oil::mixing(last.family, fluid.family);
    const bool isSameGrade = last.grade && fluid.grade && last.grade->vg == fluid.grade->vg;
    const Verdict told = verdictOf(advice.mixing, isSameGrade);
    return fluidSuit(told.level, {told.id, told.english, advice.why}, meeting);
}

/// How much of the tank would be the cart's last oil.
Suit carryOverSuit(Volume holdUp, Volume tank, units::Fraction share)
{
    return suit({SuitLevel::Note, SuitSubject::CartFluid},
                {"suit.cart.carry-over",
                 "Without a flush up to {percent} % of the tank would be the cart's last fluid: {hold-up} into {tank}.",
                 "hold-up ÷ tank volume"},
                {{"percent", fixed(share.in(units::percent), 1)},
                 {"hold-up", fixed(holdUp.in(litre), 1) + " L"},
                 {"tank", fixed(tank.in(litre), 0) + " L"}});
}

Suit flushSuit(const Flush& flush, Volume left)
{
    return suit({SuitLevel::Note, SuitSubject::CartFluid},
                {"suit.cart.flush",
                 "To flush: {batches} × {batch} of the tank's fluid, {total} in all, leave {rest} % of the last fluid "
                 "where {left} stay in the cart each time.",
                 "mass balance of complete mixing"},
                {{"batches", std::to_string(flush.batches)},
                 {"batch", fixed(flush.batch.in(litre), 1) + " L"},
                 {"total", fixed(flush.total.in(litre), 0) + " L"},
                 {"rest", fixed(flush.residual.in(units::percent), 2)},
                 {"left", fixed(left.in(litre), 1) + " L"}});
}

} // namespace

NamedFluid fluidNamed(std::string_view text)
{
    return {oil::familyOf(text), gradeOf(wordsOf(text))};
}

WantedRest defaultRest(FluidFamily from, FluidFamily to)
{
    switch (oil::mixing(from, to).mixing) {
    case Mixing::Same:
    case Mixing::SameFamily:
        return {1.0 * units::percent, "Less than 1 % of the last fluid is wanted where the two mix."};
    case Mixing::CannotTell:
        return {{}, "The kind of one fluid is not known: cannot tell how little may stay. Ask."};
    case Mixing::Incompatible:
    case Mixing::Never:
        break;
    }
    return {{}, "Nothing of the last fluid may stay, which cannot be reached by flushing: use its own cart."};
}

Result<std::vector<Suit>> cartFluidSuits(const CartMeetsTank& meeting)
{
    for (const auto& [volume, what] :
         {std::pair{meeting.holdUp, "cart's hold-up"}, std::pair{meeting.tank, "tank volume"},
          std::pair{meeting.left, "oil left in the cart"}}) {
        if (auto checked = checkAboveZero(volume.value_or(1.0 * litre).in(litre), what, "L"); !checked) {
            return fail(checked.error());
        }
    }
    const std::vector<std::string> words = wordsOf(meeting.lastFluid);
    if (words.empty()) {
        return std::vector{fluidSuit(
            SuitLevel::Caution,
            {"suit.cart.not-told", "What the cart held last is not told: ask before you connect it.", ""}, meeting)};
    }
    if (tellsWaste(words)) {
        return std::vector{fluidSuit(SuitLevel::Conflict,
                                     {"suit.cart.waste",
                                      "The cart served waste last ({last}): flush before clean use, and fit new "
                                      "elements.",
                                      commonPractice},
                                     meeting)};
    }
    const NamedFluid last = fluidNamed(meeting.lastFluid);
    const NamedFluid fluid = fluidNamed(meeting.fluid);
    std::vector<Suit> suits = {verdict(meeting, last, fluid)};
    if (suits.front().level == SuitLevel::Ok || !meeting.holdUp) {
        return suits;
    }
    if (meeting.tank) {
        suits.push_back(
            carryOverSuit(*meeting.holdUp, *meeting.tank, carryOver(*meeting.holdUp, *meeting.tank).value()));
    }
    if (const auto wanted = defaultRest(last.family, fluid.family).rest) {
        const Volume left = meeting.left.value_or(*meeting.holdUp);
        const auto flush = flushTo(*wanted, left, *meeting.holdUp);
        if (!flush) {
            return fail(flush.error());
        }
        suits.push_back(flushSuit(*flush, left));
    }
    return suits;
}

} // namespace loopside::filtration
