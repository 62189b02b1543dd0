// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Our factors against those of an independent program, GNU Units (Debian package `units`), for every ordered pair of
// units of every kind that can be typed. One start of the program for each kind; the questions go in as lines.

#include "units/typed.h"

#include <catch2/catch.hpp>

#include <cstdio>
#include <map>
#include <memory>
#include <sstream>

using namespace loopside::units;

namespace {

/// What GNU Units calls the units that we print otherwise; the rest has the same name in both.
std::string foreignName(std::string_view symbol)
{
    static const std::map<std::string_view, std::string> names = {
        {"kgf/cm²", "kgf/cm^2"}, {"m³", "m^3"},     {"gal", "gallon"},     {"m³/s", "m^3/s"},
        {"m³/h", "m^3/hour"},    {"L/h", "L/hour"}, {"gpm", "gallon/min"}, {"h", "hour"},
        {"kg/m³", "kg/m^3"},     {"m²/s", "m^2/s"}, {"%", "percent"},
    };
    const auto found = names.find(symbol);
    return found == names.end() ? std::string(symbol) : found->second;
}

/// The lines that the program prints when it is asked `questions`; each is a line "have" and a line "want".
std::vector<std::string> ask(const std::string& questions)
{
    const std::string command = "printf '" + questions + "' | LC_ALL=C units --terse --digits max 2>&1";
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
    REQUIRE(pipe != nullptr);
    std::string text;
    for (int sign = 0; (sign = std::fgetc(pipe.get())) != EOF;) {
        text += static_cast<char>(sign);
    }
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) {
        lines.push_back(line);
    }
    return lines;
}

bool isMissing()
{
    if (std::system("command -v units > /dev/null 2>&1") == 0) {
        return false;
    }
    WARN("skipped: the program units is missing; the Debian package units brings it");
    return true;
}

double numberIn(const std::string& line)
{
    CAPTURE(line);
    std::size_t read = 0;
    const double number = std::stod(line, &read);
    REQUIRE(read == line.size());
    return number;
}

template<class Q>
void checkEveryPair()
{
    std::string questions;
    std::vector<std::pair<const NamedUnit<Q>*, const NamedUnit<Q>*>> pairs;
    for (const auto& from : namedUnits<Q>()) {
        for (const auto& to : namedUnits<Q>()) {
            questions += foreignName(from.symbol) + "\\n" + foreignName(to.symbol) + "\\n";
            pairs.emplace_back(&from, &to);
        }
    }
    const std::vector<std::string> answers = ask(questions);
    REQUIRE(answers.size() == pairs.size());
    for (std::size_t i = 0; i < pairs.size(); ++i) {
        CAPTURE(pairs[i].first->symbol, pairs[i].second->symbol);
        const double ours = Q(1.0, pairs[i].first->unit).in(pairs[i].second->unit);
        CHECK_THAT(ours, Catch::WithinRel(numberIn(answers[i]), 1e-9));
    }
}

std::string foreignPoint(std::string_view symbol, const std::string& number)
{
    static const std::map<std::string_view, std::string> scales = {{"K", "K"}, {"°C", "tempC"}, {"°F", "tempF"}};
    const std::string& scale = scales.at(symbol);
    return number.empty() ? scale : (scale == "K" ? number + " K" : scale + "(" + number + ")");
}

} // namespace

TEST_CASE("every factor between two units is that of GNU Units")
{
    if (isMissing()) {
        return;
    }
    checkEveryPair<Pressure>();
    checkEveryPair<Volume>();
    checkEveryPair<Flow>();
    checkEveryPair<Duration>();
    checkEveryPair<Length>();
    checkEveryPair<Density>();
    checkEveryPair<KinematicViscosity>();
    checkEveryPair<Power>();
    checkEveryPair<Current>();
    checkEveryPair<Voltage>();
    checkEveryPair<Fraction>();
}

TEST_CASE("temperatures on one scale are those of GNU Units on another")
{
    if (isMissing()) {
        return;
    }
    std::string questions;
    std::vector<double> ours;
    for (const auto& from : namedUnits<Temperature>()) {
        for (const auto& to : namedUnits<Temperature>()) {
            for (const char* number : {"1", "22", "72", "104", "273.15", "400"}) {
                questions += foreignPoint(from.symbol, number) + "\\n" + foreignPoint(to.symbol, "") + "\\n";
                ours.push_back(Temperature(std::stod(number), from.unit).in(to.unit));
            }
        }
    }
    const std::vector<std::string> answers = ask(questions);
    REQUIRE(answers.size() == ours.size());
    for (std::size_t i = 0; i < ours.size(); ++i) {
        CAPTURE(i);
        // 1e-9 of the number; where it is near zero, 1e-9 of a degree.
        CHECK_THAT(ours[i],
                   Catch::WithinRel(numberIn(answers[i]), 1e-9) || Catch::WithinAbs(numberIn(answers[i]), 1e-9));
    }
}
