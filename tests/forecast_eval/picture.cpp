// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "picture.h"

#include "protocols.h"

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <sstream>

namespace loopside::evaluation {

namespace {

constexpr double panelWidth = 300.0;
constexpr double panelHeight = 220.0;
constexpr double margin = 34.0;
constexpr std::size_t panelsInRow = 4;
constexpr std::size_t runsOfEach = 6;
constexpr double timesLife = 1.6; // the top of a panel

/// One panel: both axes are time, from 0 to 1.6 lives upward and one life across.
class Panel
{
public:
    Panel(std::ostream& svg, std::size_t number, const BenchRun& run)
        : svg_(svg),
          life_(run.lifeSeconds),
          left_(margin + static_cast<double>(number % panelsInRow) * (panelWidth + margin)),
          top_(margin + static_cast<double>(number / panelsInRow) * (panelHeight + margin))
    {
        svg_ << "<rect x='" << left_ << "' y='" << top_ << "' width='" << panelWidth << "' height='" << panelHeight
             << "' fill='none' stroke='#888'/><text x='" << left_ << "' y='" << top_ - 5 << "'>run " << run.id << ", "
             << run.group << ", " << run.lifeSeconds << " s</text>\n";
        line(0.0, run.lifeSeconds, run.lifeSeconds, run.lifeSeconds, "#c00", 2.0);
        line(0.0, 0.0, run.lifeSeconds, run.lifeSeconds, "#888", 1.0);
    }

    void line(double x1, double y1, double x2, double y2, const char* colour, double width)
    {
        svg_ << "<line x1='" << x(x1) << "' y1='" << y(y1) << "' x2='" << x(x2) << "' y2='" << y(y2) << "' stroke='"
             << colour << "' stroke-width='" << width << "'/>\n";
    }

    void reading(double seconds, double partOfLimit)
    {
        svg_ << "<circle cx='" << x(seconds) << "' cy='" << y(std::max(partOfLimit, 0.0) * life_)
             << "' r='2.5' fill='#246'/>\n";
    }

    void range(double now, const forecast::Range& loads)
    {
        line(now, *loads.p10, now, *loads.p90, "#7ab", 6.0);
        line(now - life_ * 0.012, *loads.p50, now + life_ * 0.012, *loads.p50, "#024", 2.5);
    }

private:
    [[nodiscard]] double x(double seconds) const { return left_ + panelWidth * seconds / life_; }
    [[nodiscard]] double y(double seconds) const
    {
        return top_ + panelHeight * (1.0 - std::min(seconds / life_, timesLife) / timesLife);
    }

    std::ostream& svg_;
    double life_;
    double left_;
    double top_;
};

void draw(std::ostream& svg, std::size_t number, const BenchRun& run, const std::vector<forecast::Reading>& readings,
          const forecast::History& history)
{
    Panel panel(svg, number, run);
    for (const forecast::Reading& reading : readings) {
        const auto told = forecastAt(readings, run, reading.load / run.lifeSeconds, history);
        if (told && told->lives) {
            panel.range(reading.load, told->loads);
        }
        panel.reading(reading.load, reading.drop.in(units::pascal) / run.limit);
    }
}

std::vector<forecast::PastLoading> pastFor(const std::vector<BenchRun>& runs, const BenchRun& run)
{
    const std::string size = run.group.substr(0, run.group.find('_'));
    std::vector<forecast::PastLoading> past;
    for (const BenchRun& other : runs) {
        if (other.group != run.group && other.group.starts_with(size)) {
            past.push_back(asPast(other, forecast::Kinship::SameType));
        }
    }
    return past;
}

} // namespace

Done drawRuns(const std::filesystem::path& file, const std::vector<BenchRun>& dust, const std::vector<Split>& splits,
              const std::vector<BenchRun>& liquid)
{
    std::ostringstream svg;
    const double width = margin + panelsInRow * (panelWidth + margin);
    const double height = margin + 3.0 * (panelHeight + margin);
    svg << "<svg xmlns='http://www.w3.org/2000/svg' width='" << width << "' height='" << height
        << "' font-family='sans-serif' font-size='12'>\n<rect width='100%' height='100%' fill='white'/>\n";
    const Split& split = splits.front();
    std::vector<forecast::PastLoading> past;
    for (const std::size_t place : split.train) {
        past.push_back(asPast(dust[place], forecast::Kinship::SameTank));
    }
    for (std::size_t i = 0; i < std::min(runsOfEach, split.test.size()); ++i) {
        const BenchRun& run = dust[split.test[i * split.test.size() / runsOfEach]];
        const auto history = forecast::learn(past, run.limit * units::pascal);
        draw(svg, i, run, sparseReadings(run), history.value());
    }
    for (std::size_t i = 0; i < std::min(runsOfEach, liquid.size()); ++i) {
        const BenchRun& run = liquid[i * liquid.size() / runsOfEach];
        const auto history = forecast::learn(pastFor(liquid, run), run.limit * units::pascal);
        draw(svg, runsOfEach + i, run, tenSecondReadings(run), history.value());
    }
    svg << "</svg>\n";
    std::ofstream stream(file);
    stream << svg.str();
    stream.flush();
    return stream ? Done() : fail(Errc::Io, file.string() + " cannot be written");
}

} // namespace loopside::evaluation
