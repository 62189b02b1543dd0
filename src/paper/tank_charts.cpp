// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/tank_charts.h"

#include "oil/cleanliness_code.h"
#include "paper/text.h"
#include "units/typed.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace loopside::paper {

namespace {

constexpr std::array<const char*, 3> sizes = {"≥ 4 µm", "≥ 6 µm", "≥ 14 µm"};
constexpr qsizetype pointsLeast = 2; ///< For a course.
constexpr std::size_t typesMost = 3;
constexpr double daysOfMonth = 30.0;

/// By the clock on the wall there, as days are told beside the chart.
double dayOf(const Stamp& stamp)
{
    constexpr std::int64_t msOfMinute = 60'000;
    constexpr double msOfDay = 86'400'000.0;
    return static_cast<double>(stamp.wallMs + stamp.offsetMin * msOfMinute) / msOfDay;
}

class Charts
{
public:
    Charts(const words::Words& words, const run::TankPast& past) : words_{words}, past_{past} {}

    [[nodiscard]] PastChart codes() const
    {
        PastChart chart = begun("codes");
        chart.fromZero = false;
        chart.curves.resize(static_cast<qsizetype>(sizes.size()));
        std::set<Id> runs;
        int bottles = 0;
        for (auto told = past_.codes.rbegin(); told != past_.codes.rend(); ++told) {
            const auto code = oil::CleanlinessCode::parse(told->code);
            if (!code) {
                continue;
            }
            ++bottles;
            runs.insert(told->run);
            for (std::size_t i = 0; i < sizes.size(); ++i) {
                if (const auto number = code->scales()[i].number()) {
                    chart.curves[static_cast<qsizetype>(i)].points.append(
                        {dayOf(told->drawn), static_cast<double>(*number)});
                }
            }
        }
        for (std::size_t i = 0; i < sizes.size(); ++i) {
            chart.curves[static_cast<qsizetype>(i)].name = QString::fromUtf8(sizes.at(i));
        }
        return ended(std::move(chart), "app.past.chart.bottles", bottles, runs.size());
    }

    [[nodiscard]] PastChart waters() const
    {
        PastChart chart = begun("water");
        chart.unit = QStringLiteral("ppm");
        chart.curves.resize(1);
        std::set<Id> runs;
        for (auto told = past_.waters.rbegin(); told != past_.waters.rend(); ++told) {
            if (const auto water = units::Typed<units::Fraction>::parse(told->water)) {
                constexpr double ppm = 1e6;
                chart.curves[0].points.append({dayOf(told->drawn), water->value().in(units::one)*ppm});
                runs.insert(told->run);
            }
        }
        const int bottles = static_cast<int>(chart.curves[0].points.size());
        return ended(std::move(chart), "app.past.chart.bottles", bottles, runs.size());
    }

    [[nodiscard]] PastChart lives() const
    {
        PastChart chart = begun("lives");
        const auto* unit = words_.wanted().volume != nullptr ? words_.wanted().volume
                                                             : units::unitNamed<units::Volume>("L").value();
        chart.unit = toQt(unit->symbol);
        std::set<Id> runs;
        int lives = 0;
        bool isAnyCut = false;
        for (const std::string& type : latestTypes()) {
            PastCurve curve{type.empty() ? toQt(words_.say("app.past.type-not-told")) : toQt(type), {}};
            for (const run::ElementLife& life : past_.lives) {
                if (life.type == type) {
                    const double volume = units::Volume(life.litres, units::litre).in(unit->unit);
                    curve.points.append({dayOf(life.begun), volume, life.isCutShort});
                    isAnyCut = isAnyCut || life.isCutShort;
                    runs.insert(life.run);
                    ++lives;
                }
            }
            chart.curves.append(std::move(curve));
        }
        chart.hollowText = isAnyCut ? toQt(words_.say("app.past.chart.at-least")) : QString();
        return ended(std::move(chart), "app.past.chart.lives-behind", lives, runs.size());
    }

    [[nodiscard]] PastChart ingress() const
    {
        PastChart chart = begun("ingress");
        chart.curves.resize(1);
        for (const run::Ingress& gap : past_.ingresses) {
            const bool isProven = gap.verdict == run::Ingress::Verdict::Dirtier;
            const double aMonth = gap.numbers * daysOfMonth / gap.days;
            chart.curves[0].points.append({dayOf(gap.at), aMonth, !isProven});
            chart.hollowText = isProven ? chart.hollowText : toQt(words_.say("app.past.chart.not-proven"));
        }
        const auto gaps = static_cast<int>(chart.curves[0].points.size());
        return ended(std::move(chart), "app.past.chart.gaps", gaps, static_cast<std::size_t>(past_.runs));
    }

private:
    [[nodiscard]] PastChart begun(const char* what) const
    {
        PastChart chart;
        chart.title = toQt(words_.say(std::string("app.past.chart.") + what));
        return chart;
    }

    /// With what is behind it; a course wants two points of one curve.
    [[nodiscard]] PastChart ended(PastChart chart, const char* behind, int count, std::size_t runs) const
    {
        chart.behind = toQt(words_.say({behind, {{"count", std::to_string(count)}, {"runs", std::to_string(runs)}}}));
        const bool hasCourse = std::ranges::any_of(
            chart.curves, [](const PastCurve& curve) { return curve.points.size() >= pointsLeast; });
        if (!hasCourse) {
            chart.noCourse = toQt(words_.say(count == 0 ? "app.past.chart.none" : "app.past.chart.too-few"));
            chart.hollowText.clear();
        }
        return chart;
    }

    /// The types of its elements, that which was used last first.
    [[nodiscard]] std::vector<std::string> latestTypes() const
    {
        std::vector<std::string> types;
        for (auto life = past_.lives.rbegin(); life != past_.lives.rend() && types.size() < typesMost; ++life) {
            if (std::ranges::find(types, life->type) == types.end()) {
                types.push_back(life->type);
            }
        }
        return types;
    }

    const words::Words& words_;
    const run::TankPast& past_;
};

} // namespace

QList<PastChart> tankCharts(const words::Words& words, const run::TankPast& past)
{
    if (past.runs == 0) {
        return {};
    }
    const Charts charts(words, past);
    return {charts.codes(), charts.waters(), charts.lives(), charts.ingress()};
}

} // namespace loopside::paper
