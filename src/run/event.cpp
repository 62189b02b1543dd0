// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/event.h"

#include <algorithm>
#include <array>
#include <utility>

namespace loopside::run {

namespace {

template<class E>
using Names = std::pair<E, std::string_view>;

constexpr std::array<Names<Mode>, 3> modes = {{
    {Mode::Stopped, "stopped"},
    {Mode::Bypassing, "bypassing"},
    {Mode::Filtering, "filtering"},
}};

constexpr std::array<Names<AlertId>, 6> alerts = {{
    {AlertId::StageNearLimit, "stage-near-limit"},
    {AlertId::StageAtLimit, "stage-at-limit"},
    {AlertId::ReadingOverdue, "reading-overdue"},
    {AlertId::TargetTurnoversMet, "target-turnovers-met"},
    {AlertId::TargetCodeMet, "target-code-met"},
    {AlertId::StopNow, "stop-now"},
}};

constexpr std::array<Names<Ending>, 4> endings = {{
    {Ending::TargetMet, "target-met"},
    {Ending::TargetMetCodeAwaited, "target-met-code-awaited"},
    {Ending::StoppedEarly, "stopped-early"},
    {Ending::Abandoned, "abandoned"},
}};

constexpr std::array<Names<AttachmentKind>, 4> attachmentKinds = {{
    {AttachmentKind::Photo, "photo"},
    {AttachmentKind::Drawing, "drawing"},
    {AttachmentKind::Sound, "sound"},
    {AttachmentKind::Document, "document"},
}};

template<class Table, class E>
std::string_view nameIn(const Table& table, E value)
{
    return std::find_if(table.begin(), table.end(), [&](const auto& row) { return row.first == value; })->second;
}

template<class Table>
auto valueIn(const Table& table, std::string_view name) -> std::optional<typename Table::value_type::first_type>
{
    const auto row = std::find_if(table.begin(), table.end(), [&](const auto& entry) { return entry.second == name; });
    return row == table.end() ? std::nullopt : std::optional(row->first);
}

template<class Part>
Event eventOf(const Part& part)
{
    return std::visit([](const auto& what) -> Event { return what; }, part);
}

} // namespace

Said::Said() = default;
Said::Said(const Said&) = default;
Said::Said(Said&&) noexcept = default;
Said& Said::operator=(const Said&) = default;
Said& Said::operator=(Said&&) noexcept = default;
Said::~Said() = default;

bool operator==(const Said& one, const Said& other)
{
    return static_cast<const SaidKinds&>(one) == static_cast<const SaidKinds&>(other);
}

Event::Event() = default;
Event::Event(const Event&) = default;
Event::Event(Event&&) noexcept = default;
Event& Event::operator=(const Event&) = default;
Event& Event::operator=(Event&&) noexcept = default;
Event::~Event() = default;

bool operator==(const Event& one, const Event& other)
{
    return static_cast<const EventKinds&>(one) == static_cast<const EventKinds&>(other);
}

static_assert(std::is_same_v<std::variant_alternative_t<std::variant_size_v<SaidKinds> - 1, SaidKinds>,
                             std::variant_alternative_t<std::variant_size_v<SaidKinds> - 1, EventKinds>>);

Event asEvent(const Said& said)
{
    return eventOf(said);
}

Event asEvent(const JobOpened& opened)
{
    return eventOf(opened);
}

Event asEvent(const JobSaid& said)
{
    return eventOf(said);
}

Event asEvent(const RecordPut& put)
{
    return eventOf(put);
}

bool isSaid(const Event& event)
{
    return event.index() < std::variant_size_v<SaidKinds>; // an Event begins with what can be said
}

bool isOfJob(const Event& event)
{
    constexpr std::size_t first = std::variant_size_v<SaidKinds>; // then comes what begins a job and what is said of one
    constexpr std::size_t behind = first + std::variant_size_v<JobOpened> + std::variant_size_v<JobSaid>;
    static_assert(std::is_same_v<std::variant_alternative_t<first, EventKinds>, FlushOpened>
                  && std::is_same_v<std::variant_alternative_t<behind - 1, EventKinds>, TransferStopped>);
    return event.index() >= first && event.index() < behind;
}

bool mayLeaveService(AlertId alert)
{
    return alert != AlertId::StopNow && alert != AlertId::StageAtLimit;
}

std::string_view nameOf(Mode mode)
{
    return nameIn(modes, mode);
}

std::string_view nameOf(AlertId alert)
{
    return nameIn(alerts, alert);
}

std::string_view nameOf(Ending ending)
{
    return nameIn(endings, ending);
}

std::string_view nameOf(AttachmentKind kind)
{
    return nameIn(attachmentKinds, kind);
}

std::optional<AttachmentKind> attachmentKindNamed(std::string_view name)
{
    return valueIn(attachmentKinds, name);
}

std::optional<Mode> modeNamed(std::string_view name)
{
    return valueIn(modes, name);
}

std::optional<AlertId> alertNamed(std::string_view name)
{
    return valueIn(alerts, name);
}

std::optional<Ending> endingNamed(std::string_view name)
{
    return valueIn(endings, name);
}

} // namespace loopside::run
