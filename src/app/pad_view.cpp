// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/pad_view.h"

#include "app/as_shown.h"
#include "app/wording.h"
#include "run/drop.h"

#include <algorithm>

namespace loopside::app {

namespace {

constexpr int longestNumber = 8;
constexpr int earlierStep = 5;
constexpr int earliest = 15;
/// No oil that a cart pumps is hotter, so three digits never start with more.
constexpr units::Temperature hottest = units::Temperature(150.0, units::celsius);

const units::NamedUnit<units::Temperature>& celsiusUnit()
{
    return **units::unitNamed<units::Temperature>("°C");
}

std::optional<Decimal> numberOf(const QString& text)
{
    const auto number = Decimal::parse(text.toStdString());
    return number ? std::optional(*number) : std::nullopt;
}

constexpr const char* oilUnitKey = "oil.unit";

QString fieldKey(int field, const char* part)
{
    return QStringLiteral("%1.%2").arg(field).arg(QLatin1String(part));
}

} // namespace

bool PadView::Field::isFilled() const
{
    return cannotRead || (numberOf(low) && (!hasHigh || numberOf(high)));
}

PadView::PadView(Tablet& tablet, QObject* parent)
    : QObject{parent}, tablet_{tablet}, rows_{{"name", "text", "ghost", "unit", "isActive", "spoken", "problem"}}
{
    connect(&tablet_, &Tablet::shownChanged, this, &PadView::load);
    connect(&tablet_, &Tablet::changed, this, &PadView::refresh);
    connect(&tablet_, &Tablet::personChanged, this, [this] {
        takeOilUnit();
        refresh();
    });
    load();
}

int PadView::gaugeCount() const
{
    const auto* run = tablet_.shown();
    return run == nullptr ? 0 : static_cast<int>(run->setup.cart.gauges.size());
}

/// Takes what was typed for the shown run and never logged.
void PadView::load()
{
    run_ = tablet_.shown() == nullptr ? Id{} : tablet_.shown()->id;
    typed_ = QList<Field>(gaugeCount() + 1);
    agoMinutes_ = 0;
    notice_.clear();
    bool isOfferedAgain = false;
    if (const auto drafts = tablet_.drafts().of(run_)) {
        const auto draft = [&](const QString& key) {
            const auto found = drafts->find(key.toStdString());
            return found == drafts->end() ? QString() : toQt(found->second);
        };
        for (int i = 0; i < typed_.size(); ++i) {
            typed_[i] = {draft(fieldKey(i, "low")), draft(fieldKey(i, "high")), !draft(fieldKey(i, "swings")).isEmpty(),
                         !draft(fieldKey(i, "unread")).isEmpty()};
            isOfferedAgain = isOfferedAgain || !typed_[i].low.isEmpty() || typed_[i].cannotRead;
        }
        const auto unit = units::unitNamed<units::Temperature>(draft(QLatin1String(oilUnitKey)).toStdString());
        oilUnit_ = unit ? *unit : oilUnit_;
    }
    takeOilUnit();
    active_ = std::max(0, firstEmpty());
    if (isOfferedAgain) {
        say(tablet_.label("app.pad.offered-again"), false);
    }
    refresh();
}

/// What was typed never changes its meaning: with digits in the field the unit stays.
void PadView::takeOilUnit()
{
    const bool isEmpty = typed_.isEmpty() || typed_.back().low.isEmpty();
    if (isEmpty || oilUnit_ == nullptr) {
        const auto* wanted = tablet_.wants().temperature;
        oilUnit_ = wanted != nullptr ? wanted : &celsiusUnit();
    }
}

void PadView::store()
{
    const Field& field = typed_[active_];
    const auto put = [&](const char* part, const QString& text) {
        return tablet_.drafts().put(run_, fieldKey(active_, part).toStdString(), text.toStdString()).has_value();
    };
    const bool stored = put("low", field.low) && put("high", field.high)
        && put("swings", QLatin1String(field.hasHigh ? "1" : ""))
        && put("unread", QLatin1String(field.cannotRead ? "1" : ""))
        && (active_ < gaugeCount()
            || tablet_.drafts().put(run_, oilUnitKey, std::string(oilUnit_->symbol)).has_value());
    if (!stored) {
        say(tablet_.label("app.pad.draft-not-stored"), true);
    }
}

void PadView::refresh()
{
    QList<RowModel::Row> rows;
    for (int i = 0; i < typed_.size(); ++i) {
        const Field& field = typed_[i];
        QString text = field.cannotRead ? tablet_.label("app.pad.unread") : field.low;
        if (field.hasHigh) {
            text += QStringLiteral("–") + field.high;
        }
        const QString spoken = nameOf(i) + QLatin1Char(' ') + text + QLatin1Char(' ') + unitOf(i);
        rows.append({nameOf(i), text, ghostOf(i), unitOf(i), i == active_, spoken, problemOf(i)});
    }
    rows_.setRows(std::move(rows));
    Q_EMIT changed();
}

QString PadView::nameOf(int field) const
{
    return field < gaugeCount() ? QStringLiteral("G%1").arg(field + 1) : tablet_.label("app.pad.oil");
}

QString PadView::unitOf(int field) const
{
    if (field >= gaugeCount()) {
        return toQt(oilUnit_->symbol);
    }
    return toQt(tablet_.shown()->setup.cart.gauges[static_cast<std::size_t>(field)].unit->symbol);
}

/// The last logged value, to stand beside the field and never in it.
QString PadView::ghostOf(int field) const
{
    const auto* run = tablet_.shown();
    const auto* last = run == nullptr ? nullptr : tablet_.standing(*run).lastReading;
    if (last == nullptr) {
        return {};
    }
    QString value;
    if (field >= gaugeCount()) {
        const auto& oil = last->reading->oil;
        // In the unit of the field, which stands beside it as well: a number typed in another one is turned into it.
        value = !oil                   ? QString()
            : &oil->unit() == oilUnit_ ? numberAsShown(oil->number())
                                       : asShown(units::print(oil->value(), *oilUnit_, 0));
    } else if (const auto& gauge = last->reading->gauges[static_cast<std::size_t>(field)]) {
        value = numberAsShown(gauge->low)
            + (gauge->high ? QStringLiteral("–") + numberAsShown(*gauge->high) : QString());
    }
    return value.isEmpty() ? QString() : tablet_.say({"app.pad.last", {{"value", value.toStdString()}}});
}

/// What is typed but cannot be a number.
QString PadView::problemOf(int field) const
{
    const Field& typed = typed_[field];
    const auto isWrong = [](const QString& text) {
        return !text.isEmpty() && text != QStringLiteral("-") && !numberOf(text);
    };
    return isWrong(typed.low) || isWrong(typed.high) ? tablet_.label("app.pad.not-a-number") : QString();
}

int PadView::firstEmpty() const
{
    const auto found = std::find_if(typed_.begin(), typed_.end(), [](const Field& field) { return !field.isFilled(); });
    return found == typed_.end() ? -1 : static_cast<int>(found - typed_.begin());
}

bool PadView::cannotRead() const
{
    return active_ < typed_.size() && typed_[active_].cannotRead;
}

bool PadView::swings() const
{
    return active_ < typed_.size() && typed_[active_].hasHigh;
}

bool PadView::isComplete() const
{
    return !typed_.isEmpty() && firstEmpty() < 0;
}

QString PadView::mainText() const
{
    const int next = firstEmpty();
    if (next < 0) {
        return tablet_.label("app.pad.log");
    }
    const char* id = next == active_ ? "app.pad.type" : "app.pad.next";
    return tablet_.say({id, {{"field", nameOf(next).toStdString()}}});
}

QString PadView::readText() const
{
    if (agoMinutes_ == 0) {
        return tablet_.label("app.pad.read-now");
    }
    return tablet_.say({"app.pad.read-earlier", {{"minutes", std::to_string(agoMinutes_)}}});
}

void PadView::say(const QString& sentence, bool isProblem)
{
    notice_ = sentence;
    noticeIsProblem_ = isProblem;
    Q_EMIT changed();
}

/// Whether another digit could not belong to the number any more: the dial ends there, or its graduation does.
bool PadView::isComplete(int field) const
{
    const Field& typed = typed_[field];
    const QString& text = typed.hasHigh ? typed.high : typed.low;
    const auto number = numberOf(text);
    if (!number || typed.cannotRead) {
        return false;
    }
    if (field >= gaugeCount()) {
        return number->places() > 0 || number->toDouble() * 10.0 > hottest.in(oilUnit_->unit);
    }
    const auto& dial = tablet_.shown()->setup.cart.gauges[static_cast<std::size_t>(field)];
    const int places = dial.graduation ? dial.graduation->places() : 0;
    if (places > 0) {
        return number->places() >= places;
    }
    return dial.span && number->places() == 0 && *number > Decimal(0, 0)
        && number->toDouble() * 10.0 > dial.span->toDouble();
}

/// Right behind a number that went on by itself the point still belongs to that one.
QString PadView::point() const
{
    const bool isBegun = typed_.isEmpty()
        || !(typed_[active_].hasHigh ? typed_[active_].high : typed_[active_].low).isEmpty();
    return isBegun || advancedByItself_ ? QStringLiteral(".") : minusKey;
}

void PadView::key(const QString& pressed)
{
    if (typed_.isEmpty()) {
        return;
    }
    notice_.clear();
    const QString sign = pressed == minusKey ? QStringLiteral("-") : pressed;
    const bool isSign = sign == QStringLiteral(".") || sign == QStringLiteral("-");
    if (sign == QStringLiteral(".") && advancedByItself_ && typed_[active_].low.isEmpty() && active_ > 0) {
        --active_; // the field had gone on, but the number had not ended
    }
    Field& field = typed_[active_];
    QString& text = field.hasHigh ? field.high : field.low;
    if (text.size() >= longestNumber || (isSign && text.contains(sign))) {
        refresh();
        return;
    }
    field.cannotRead = false;
    text += sign;
    store();
    advancedByItself_ = false;
    if (!isSign && isComplete(active_) && active_ + 1 < typed_.size() && !typed_[active_ + 1].isFilled()) {
        ++active_;
        advancedByItself_ = true;
    }
    refresh();
}

void PadView::backspace()
{
    if (typed_.isEmpty()) {
        return;
    }
    notice_.clear();
    const auto isEmpty = [](const Field& field) {
        return field.low.isEmpty() && field.high.isEmpty() && !field.hasHigh && !field.cannotRead;
    };
    if (isEmpty(typed_[active_]) && active_ > 0) {
        --active_;
    }
    Field& field = typed_[active_];
    if (field.cannotRead) {
        field.cannotRead = false;
    } else if (field.hasHigh && field.high.isEmpty()) {
        field.hasHigh = false;
    } else {
        (field.hasHigh ? field.high : field.low).chop(1);
    }
    advancedByItself_ = false;
    store();
    refresh();
}

void PadView::select(int field)
{
    if (field >= 0 && field < typed_.size()) {
        active_ = field;
        advancedByItself_ = false;
        refresh();
    }
}

void PadView::toggleCannotRead()
{
    if (typed_.isEmpty()) {
        return;
    }
    Field& field = typed_[active_];
    field = {{}, {}, false, !field.cannotRead};
    store();
    if (field.cannotRead && firstEmpty() >= 0) {
        active_ = firstEmpty();
    }
    refresh();
}

void PadView::toggleSwings()
{
    if (typed_.isEmpty() || active_ >= gaugeCount()) {
        return;
    }
    if (advancedByItself_ && typed_[active_].low.isEmpty() && active_ > 0) {
        --active_; // meant for the number just typed
    }
    advancedByItself_ = false;
    Field& field = typed_[active_];
    field.hasHigh = !field.hasHigh;
    field.high.clear();
    field.cannotRead = false;
    store();
    refresh();
}

void PadView::stepReadEarlier()
{
    agoMinutes_ = agoMinutes_ >= earliest ? 0 : agoMinutes_ + earlierStep;
    refresh();
}

void PadView::goOn()
{
    const int next = firstEmpty();
    if (next >= 0) {
        const QString problem = problemOf(next);
        if (!problem.isEmpty()) {
            say(problem, true);
        }
        select(next);
        return;
    }
    if (!typed_.isEmpty()) {
        log();
    }
}

void PadView::log()
{
    run::ReadingLogged reading;
    for (int i = 0; i < gaugeCount(); ++i) {
        const Field& field = typed_[i];
        if (field.cannotRead) {
            reading.gauges.emplace_back(std::nullopt);
            continue;
        }
        run::GaugeTyped typed{*numberOf(field.low), field.hasHigh ? numberOf(field.high) : std::nullopt};
        if (typed.high && *typed.high < typed.low) {
            select(i);
            say(tablet_.label("app.pad.swing-order"), true);
            return;
        }
        reading.gauges.emplace_back(typed);
    }
    if (const Field& oil = typed_.back(); !oil.cannotRead) {
        reading.oil = run::TypedTemperature(*numberOf(oil.low), *oilUnit_);
    }
    const run::Observed observed{std::int64_t{agoMinutes_} * 60000, agoMinutes_ > 0 ? "said" : ""};
    if (!tablet_.say(run::Said(std::move(reading)), observed)) {
        say(tablet_.trouble(), true); // what was typed stays where it is
        return;
    }
    const bool cleared = tablet_.drafts().clear(run_).has_value();
    typed_ = QList<Field>(gaugeCount() + 1);
    takeOilUnit();
    active_ = 0;
    agoMinutes_ = 0;
    advancedByItself_ = false;
    say(tablet_.label(cleared ? "app.pad.logged" : "app.pad.draft-not-stored"), !cleared);
    refresh();
    Q_EMIT logged();
}

} // namespace loopside::app
