// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/logged_view.h"

#include "app/as_shown.h"
#include "app/draft_places.h"
#include "app/job_words.h"
#include "app/wanted_units.h"
#include "app/wording.h"
#include "run/moved_note.h"
#include "run/notes.h"
#include "words/fact_told.h"

#include <algorithm>
#include <array>
#include <ranges>

namespace loopside::app {

namespace {

/// What lies further back is in the record; nobody pages through a shift by touch.
constexpr std::size_t mostListed = 60;
constexpr int longestNumber = 8;

struct RemedyWords
{
    const char* name;
    const char* means;
    const char* main;
};

constexpr std::array<RemedyWords, 3> remedyWords = {{
    {"app.logged.change", "app.logged.change.means", "app.logged.change.main"},
    {"app.logged.strike", "app.logged.strike.means", "app.logged.strike.main"},
    {"app.logged.other-tank", "app.logged.other-tank.means", "app.logged.other-tank.main"},
}};

constexpr std::array<const char*, 6> reasonIds = {"app.logged.why.typed", "app.logged.why.read",
                                                  "app.logged.why.place", "app.logged.why.key",
                                                  "app.logged.why.twice", "app.logged.why.paper"};

constexpr std::array<run::Mode, 3> modes = {run::Mode::Stopped, run::Mode::Bypassing, run::Mode::Filtering};

/// It is withdrawn, with its file, where it is shown.
bool isAttachment(const run::Event& event)
{
    return std::holds_alternative<run::AttachmentAdded>(event);
}

QString gaugeUnit(const run::ReadingLogged& set, const run::CartRecord& cart, std::size_t gauge)
{
    return toQt((set.unit != nullptr ? set.unit : cart.gauges[gauge].unit)->symbol);
}

} // namespace

LoggedView::LoggedView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      entries_{{"name", "detail", "isChosen"}},
      remedies_{{"name", "detail", "isChosen"}},
      choices_{{"name", "detail", "isChosen"}},
      reasons_{{"name", "detail", "isChosen"}},
      history_{{"amount", "text", "run"}},
      fields_{{FieldsView::Field{}}}
{
    connect(&fields_, &FieldsView::changed, this, &LoggedView::changed);
    connect(&tablet_, &Tablet::changed, this, &LoggedView::refresh);
    connect(&tablet_, &Tablet::shownChanged, this, &LoggedView::open);
    open();
}

void LoggedView::open()
{
    entry_ = {};
    remedy_ = Remedy::None;
    choice_ = -1;
    reason_ = -1;
    beginFields();
    refresh();
}

void LoggedView::openAt(const Id& entry)
{
    open();
    entry_ = entry;
    chooseRemedy(static_cast<int>(Remedy::Change));
}

const run::Fact* LoggedView::fact() const
{
    return tablet_.shown() == nullptr || entry_.isNone() ? nullptr : tablet_.shown()->factOf(entry_);
}

void LoggedView::refresh()
{
    showEntries();
    showChoices();
    showHistory();
    Q_EMIT changed();
}

void LoggedView::showEntries()
{
    listed_.clear();
    QList<RowModel::Row> rows;
    if (const auto* run = tablet_.shown()) {
        for (const run::Fact& fact : std::views::reverse(run->facts)) {
            if (words::hasFactLine(fact.original) && listed_.size() < mostListed) {
                listed_.push_back(fact.header.id);
                rows.append({asShown(words::factLine(tablet_.words(), fact.effective, run->setup.cart)),
                             entryDetail(fact), fact.header.id == entry_});
            }
        }
    }
    entries_.setRows(std::move(rows));
}

/// "logged 08:05 · Ines · changed"; seen earlier than logged also when.
QString LoggedView::entryDetail(const run::Fact& fact) const
{
    QStringList parts = {tablet_.say({"app.logged-at", {{"time", clockText(fact.header.entered).toStdString()}}}),
                         run::isSaid(fact.original) ? tablet_.nameOf(fact.header.person) : QString()};
    if (fact.seen != fact.entered) {
        parts.insert(1, tablet_.say({"app.logged.seen-at", {{"time", hoursText(fact.seen).toStdString()}}}));
    }
    if (fact.struck) {
        parts.append(tablet_.label("app.logged.struck"));
    } else if (run::isWithdrawn(*tablet_.shown(), fact.header.id)) {
        parts.append(tablet_.label("app.logged.withdrawn"));
    } else if (!fact.amendedBy.empty()) {
        parts.append(tablet_.label("app.logged.changed"));
    }
    if (const auto notes = run::notedOf(*tablet_.shown(), fact.header.id); notes > 0) {
        parts.append(tablet_.say({"app.logged.noted", {{"count", std::to_string(notes)}}}));
    }
    parts.removeAll(QString());
    return parts.join(QStringLiteral(" · "));
}

bool LoggedView::takesChange(const run::Event& event) const
{
    return std::holds_alternative<run::ReadingLogged>(event) || std::holds_alternative<run::ModeChanged>(event)
        || std::holds_alternative<run::ElementsChanged>(event);
}

void LoggedView::showChoices()
{
    const auto listOf = [&](const auto& ids, int chosen) {
        QList<RowModel::Row> rows;
        for (const auto& id : ids) {
            rows.append({tablet_.label(id), QString(), rows.size() == chosen});
        }
        return rows;
    };
    reasons_.setRows(listOf(reasonIds, reason_));
    QList<RowModel::Row> rows;
    for (const RemedyWords& remedy : remedyWords) {
        rows.append({tablet_.label(remedy.name), QString(), rows.size() == static_cast<int>(remedy_)});
    }
    remedies_.setRows(std::move(rows));

    QList<RowModel::Row> choices;
    const auto* chosen = fact();
    if (remedy_ == Remedy::OtherTank) {
        for (const run::TankRecord* tank : otherTanks()) {
            choices.append(
                {toQt(tank->name), oilAsShown(tablet_, run::fluidText(tank->fluid)), choices.size() == choice_});
        }
    } else if (remedy_ == Remedy::Change && chosen != nullptr
               && std::holds_alternative<run::ModeChanged>(chosen->effective)) {
        for (const run::Mode mode : modes) {
            choices.append(
                {tablet_.say({"mode." + std::string(run::nameOf(mode)), {}}), QString(), choices.size() == choice_});
        }
    }
    choices_.setRows(std::move(choices));
}

std::vector<const run::TankRecord*> LoggedView::otherTanks() const
{
    std::vector<const run::TankRecord*> tanks;
    for (const run::TankRecord& tank : tablet_.site().tanks) {
        if (tablet_.shown() != nullptr && tank.name != tablet_.shown()->setup.tank.name) {
            tanks.push_back(&tank);
        }
    }
    return tanks;
}

/// "08:12 · Ines · G1 107 kPa · 30 °C · typed wrong".
QString LoggedView::whyLine(const run::Fact& amendment, const run::Amended& what) const
{
    QStringList parts = {clockText(amendment.header.entered), tablet_.nameOf(amendment.header.person)};
    const run::CartRecord& cart = tablet_.shown()->setup.cart;
    if (what.struck) {
        parts.append(tablet_.label("app.logged.struck"));
    } else {
        const run::ReadingLogged set{what.gauges, what.unit, what.oil, what.flow};
        parts.append(asShown(words::factLine(tablet_.words(), set, cart)));
        parts.append(what.mode ? asShown(words::factLine(tablet_.words(), run::ModeChanged{*what.mode, {}}, cart))
                               : QString());
        parts.append(what.elements ? QString::number(*what.elements) : QString());
        parts.append(what.note ? toQt(*what.note) : QString());
    }
    parts.append(toQt(what.why));
    parts.removeAll(QString());
    return parts.join(QStringLiteral(" · "));
}

void LoggedView::showHistory()
{
    QList<RowModel::Row> rows;
    if (const auto* chosen = fact()) {
        for (const Id& id : std::views::reverse(chosen->amendedBy)) {
            const auto* amendment = tablet_.shown()->factOf(id);
            const auto* what = amendment == nullptr ? nullptr : std::get_if<run::Amended>(&amendment->original);
            if (what != nullptr) {
                rows.append({QString(), whyLine(*amendment, *what), QString()});
            }
        }
        rows.append(
            {QString(),
             tablet_.say({"app.logged.first",
                          {{"what", words::factLine(tablet_.words(), chosen->original, tablet_.shown()->setup.cart)},
                           {"time", clockText(chosen->header.entered).toStdString()}}}),
             QString()});
    }
    history_.setRows(std::move(rows));
}

bool LoggedView::hasFields() const
{
    const auto* chosen = fact();
    return remedy_ == Remedy::Change && chosen != nullptr && takesChange(chosen->effective)
        && !std::holds_alternative<run::ModeChanged>(chosen->effective);
}

/// Empty fields with what holds now beside them; what was typed for this entry before is offered again.
void LoggedView::beginFields()
{
    const auto* chosen = fact();
    std::vector<FieldsView::Field> fields;
    const auto holds = [&](const std::string& text) { return tablet_.say({"app.logged.holds", {{"value", text}}}); };
    if (chosen != nullptr && std::holds_alternative<run::ReadingLogged>(chosen->effective)) {
        const auto& set = std::get<run::ReadingLogged>(chosen->effective);
        const run::CartRecord& cart = tablet_.shown()->setup.cart;
        const auto texts = words::gaugeTexts(set, cart);
        for (std::size_t i = 0; i < set.gauges.size(); ++i) {
            fields.push_back({.name = QStringLiteral("G%1").arg(i + 1),
                              .units = {gaugeUnit(set, cart, i)},
                              .longest = longestNumber,
                              .ghost = holds(texts[i].substr(texts[i].find(' ') + 1))});
        }
        fields.push_back({.name = tablet_.label("app.pad.oil"),
                          .units = {QStringLiteral("°C"), QStringLiteral("°F")},
                          .longest = longestNumber,
                          .ghost = set.oil ? holds(set.oil->toText()) : QString()});
    } else if (chosen != nullptr && std::holds_alternative<run::ElementsChanged>(chosen->effective)) {
        const int elements = std::get<run::ElementsChanged>(chosen->effective).elements;
        fields.push_back({.name = tablet_.label("app.stock.elements"),
                          .units = {tablet_.label("app.stock.pieces")},
                          .longest = 2,
                          .point = {},
                          .ghost = holds(std::to_string(elements))});
    } else {
        fields.emplace_back();
    }
    fields_.setFields(std::move(fields));
    preferUnits(fields_, tablet_.wants());
    const bool wasTyped = hasFields() && fields_.keepIn(tablet_.drafts(), loggedDrafts, toQt(toText(entry_)));
    notice_ = wasTyped ? tablet_.label("app.pad.offered-again") : QString();
}

void LoggedView::chooseEntry(int row)
{
    if (row < 0 || row >= static_cast<int>(listed_.size())) {
        return;
    }
    open();
    entry_ = listed_[static_cast<std::size_t>(row)];
    refresh();
}

void LoggedView::chooseRemedy(int row)
{
    remedy_ = static_cast<Remedy>(row);
    choice_ = -1;
    beginFields();
    refresh();
}

void LoggedView::choose(int row)
{
    choice_ = row;
    refresh();
}

void LoggedView::chooseReason(int row)
{
    reason_ = row;
    refresh();
}

std::string LoggedView::why() const
{
    return reason_ < 0 ? std::string() : tablet_.words().say(reasonIds.at(static_cast<std::size_t>(reason_)));
}

/// False if a field holds no number, or if none holds anything.
bool LoggedView::readSet(const run::ReadingLogged& set, run::Amended& into) const
{
    const int oil = fields_.count() - 1;
    for (int i = 0; i < oil; ++i) {
        if (!fields_.isEmpty(i)) {
            const auto number = Decimal::parse(fields_.text(i).toStdString());
            if (!number) {
                return false;
            }
            into.gauges = into.gauges.empty() ? set.gauges : into.gauges;
            into.gauges[static_cast<std::size_t>(i)] = run::GaugeTyped{*number, std::nullopt};
        }
    }
    into.oil = fields_.typed<units::Temperature>(oil);
    return (into.oil || fields_.isEmpty(oil)) && (into.oil || !into.gauges.empty());
}

std::optional<run::Amended> LoggedView::amendment() const
{
    const auto* chosen = fact();
    if (chosen == nullptr || chosen->struck || isAttachment(chosen->original) || !run::isSaid(chosen->original)
        || reason_ < 0 || (remedy_ != Remedy::Change && remedy_ != Remedy::Strike)) {
        return std::nullopt;
    }
    run::Amended amended{.of = entry_, .struck = remedy_ == Remedy::Strike, .why = why()};
    if (amended.struck) {
        return amended;
    }
    bool isSaid = false;
    if (const auto* set = std::get_if<run::ReadingLogged>(&chosen->effective)) {
        isSaid = readSet(*set, amended);
    } else if (std::holds_alternative<run::ModeChanged>(chosen->effective) && choice_ >= 0) {
        amended.mode = modes.at(static_cast<std::size_t>(choice_));
        isSaid = true;
    } else if (std::holds_alternative<run::ElementsChanged>(chosen->effective)) {
        const int elements = fields_.text(0).toInt(&isSaid);
        amended.elements = elements;
    }
    return isSaid ? std::optional(amended) : std::nullopt;
}

std::optional<run::RunMoved> LoggedView::move() const
{
    const auto tanks = otherTanks();
    return remedy_ == Remedy::OtherTank && reason_ >= 0 && choice_ >= 0 && choice_ < static_cast<int>(tanks.size())
        ? std::optional(run::RunMoved{*tanks[static_cast<std::size_t>(choice_)], why()})
        : std::nullopt;
}

QString LoggedView::title() const
{
    if (remedy_ == Remedy::OtherTank) {
        return tablet_.say({"app.logged.run-of", {{"tank", tablet_.shown()->setup.tank.name}}});
    }
    const auto* chosen = fact();
    return chosen == nullptr
        ? QString()
        : asShown(words::factLine(tablet_.words(), chosen->effective, tablet_.shown()->setup.cart));
}

QString LoggedView::chosen() const
{
    return entry_.isNone() ? QString() : toQt(toText(entry_));
}

QString LoggedView::remedyText() const
{
    return remedy_ == Remedy::None ? QString() : tablet_.label(remedyWords.at(static_cast<std::size_t>(remedy_)).means);
}

QString LoggedView::mainText() const
{
    return tablet_.label(remedy_ == Remedy::None ? "app.logged.main"
                                                 : remedyWords.at(static_cast<std::size_t>(remedy_)).main);
}

QString LoggedView::problem() const
{
    const auto* chosen = fact();
    if (chosen == nullptr && remedy_ != Remedy::OtherTank) {
        return tablet_.label(listed_.empty() ? "app.logged.nothing" : "app.logged.choose-entry");
    }
    if (remedy_ != Remedy::OtherTank && !run::isSaid(chosen->original)) {
        return tablet_.label("app.logged.by-itself");
    }
    if (remedy_ == Remedy::None) {
        return tablet_.label("app.logged.choose-remedy");
    }
    if (remedy_ != Remedy::OtherTank && chosen->struck) {
        return tablet_.label("app.logged.is-struck");
    }
    if (remedy_ == Remedy::OtherTank && choice_ < 0) {
        return tablet_.label("app.logged.choose-tank");
    }
    if (remedy_ != Remedy::OtherTank && isAttachment(chosen->original)) {
        return tablet_.label("app.logged.withdraw-there");
    }
    if (remedy_ == Remedy::Change && !takesChange(chosen->effective)) {
        return tablet_.label("app.logged.strike-only");
    }
    if (reason_ < 0) {
        return tablet_.label("app.logged.choose-reason");
    }
    return amendment() || move() ? QString() : tablet_.label("app.logged.type-new");
}

/// A draft that was not kept stands in nobody's way, but is told.
QString LoggedView::notice() const
{
    return fields_.isKept() ? notice_ : tablet_.label("app.pad.draft-not-stored");
}

void LoggedView::log()
{
    const auto amended = amendment();
    const auto moved = move();
    const bool isLogged = amended ? tablet_.say(run::Said(*amended)) : moved && tablet_.say(run::Said(*moved));
    if (isLogged) {
        if (hasFields()) {
            fields_.clear();
        }
        const Id entry = entry_;
        open();
        entry_ = entry;
        notice_ = tablet_.label("app.pad.logged");
        if (moved) {
            for (const Message& note : run::movedNotes(*tablet_.shown())) {
                notice_ += QLatin1Char('\n') + tablet_.say(note);
            }
        }
        refresh();
    }
}

} // namespace loopside::app
