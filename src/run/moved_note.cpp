// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/moved_note.h"

#include "base/text.h"

#include <algorithm>
#include <utility>

namespace loopside::run {

namespace {

/// "2.0" per cent of other oil; empty where the cart's hold-up is not known.
std::string shareText(const CartRecord& cart, const TankRecord& tank)
{
    const double litres = tank.volume.value().in(units::litre);
    return cart.holdUp && litres > 0.0 ? fixed(100.0 * cart.holdUp->value().in(units::litre) / litres, 1)
                                       : std::string();
}

Message noteOf(const RunState& run, const TankRecord& tank, bool isHere)
{
    const std::string share = shareText(run.setup.cart, tank);
    const std::string id = std::string("moved.") + (isHere ? "here" : "there") + (share.empty() ? "-unknown" : "");
    std::vector<Message::Argument> values = {{"tank", tank.name}, {"cart", run.setup.cart.name}};
    if (!share.empty()) {
        values.push_back({"held", run.setup.cart.holdUp->toText()});
        values.push_back({"volume", tank.volume.toText()});
        values.push_back({"share", share});
    }
    if (!isHere) {
        values.push_back({"other", run.setup.tank.name});
    }
    return {id, std::move(values)};
}

/// Whether the pump ran before the first move.
bool pumpedBefore(const RunState& run)
{
    for (const Fact& fact : run.facts) {
        if (std::holds_alternative<RunMoved>(fact.effective)) {
            return false;
        }
        const auto* changed = std::get_if<ModeChanged>(&fact.effective);
        if (changed != nullptr && !fact.struck && changed->mode != Mode::Stopped) {
            return true;
        }
    }
    return false;
}

/// The tanks of `run` with a note, the one that it belongs to first; each once.
std::vector<std::pair<const TankRecord*, Message>> notesByTank(const RunState& run)
{
    std::vector<std::pair<const TankRecord*, Message>> notes;
    if (run.movedFrom.empty() || !pumpedBefore(run)) {
        return notes;
    }
    notes.emplace_back(&run.setup.tank, noteOf(run, run.setup.tank, true));
    for (const TankRecord& tank : run.movedFrom) {
        if (std::ranges::none_of(notes, [&](const auto& note) { return note.first->name == tank.name; })) {
            notes.emplace_back(&tank, noteOf(run, tank, false));
        }
    }
    return notes;
}

} // namespace

std::vector<Message> movedNotes(const RunState& run)
{
    std::vector<Message> notes;
    for (auto& [tank, note] : notesByTank(run)) {
        notes.push_back(std::move(note));
    }
    return notes;
}

std::vector<Message> movedNotesAt(const State& state, const std::string& tank)
{
    std::vector<Message> notes;
    for (const auto& [id, run] : state.runs) {
        for (auto& [at, note] : notesByTank(run)) {
            if (at->name == tank) {
                notes.push_back(std::move(note));
            }
        }
    }
    return notes;
}

} // namespace loopside::run
