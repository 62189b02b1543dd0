// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/options.h"
#include "oil/fluid.h"
#include "oil/saybolt.h"
#include "oil/viscosity_index.h"
#include "units/typed.h"

#include <nlohmann/json.hpp>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;
using TypedTemperature = units::Typed<units::Temperature>;

/// What was asked, read; in the order of `ViscosityOptions`.
struct Question
{
    oil::FluidProperties properties;
    std::vector<TypedTemperature> at;
    std::optional<units::KinematicViscosity> at40;
    std::optional<units::KinematicViscosity> at100;
    std::vector<std::string> cautions; ///< On what was typed.
};

/// What is told for one temperature.
struct Answer
{
    std::optional<TypedTemperature> at;
    units::KinematicViscosity viscosity;
    std::optional<units::Density> density;
    std::optional<units::Duration> saybolt;
    std::vector<std::string> cautions;
};

/// The value of an option that is a quantity; nothing if it was not given.
template<class Q>
Result<std::optional<Q>> optionalQuantity(const char* name, const std::string& text)
{
    if (text.empty()) {
        return std::optional<Q>();
    }
    return quantityOf<Q>(name, text).transform([](Q quantity) { return std::optional(quantity); });
}

/// Reads "46 cSt at 40 C".
Result<oil::ViscosityPoint> pointOf(const std::string& text)
{
    constexpr std::string_view between = " at ";
    const std::size_t cut = text.find(between);
    if (cut == std::string::npos) {
        return fail(Errc::Malformed,
                    "--point: \"" + quotable(text)
                        + "\" is not a viscosity at a temperature, such as \"46 cSt at 40 C\"");
    }
    const auto viscosity = quantityOf<units::KinematicViscosity>("--point", text.substr(0, cut));
    const auto at = quantityOf<units::Temperature>("--point", text.substr(cut + between.size()));
    if (!viscosity || !at) {
        return fail(viscosity ? at.error() : viscosity.error());
    }
    return oil::ViscosityPoint{*at, *viscosity};
}

Done readPoints(const ViscosityOptions& options, Question& question)
{
    for (const std::string& text : options.points) {
        const auto point = pointOf(text);
        if (!point) {
            return fail(point.error());
        }
        question.properties.points.push_back(*point);
    }
    const auto at40 = optionalQuantity<units::KinematicViscosity>("--at40", options.at40);
    const auto at100 = optionalQuantity<units::KinematicViscosity>("--at100", options.at100);
    if (!at40 || !at100) {
        return fail(at40 ? at100.error() : at40.error());
    }
    question.at40 = *at40;
    question.at100 = *at100;
    if (*at40) {
        question.properties.points.push_back({40.0 * units::celsius, **at40});
    }
    if (*at100) {
        question.properties.points.push_back({100.0 * units::celsius, **at100});
    }
    return {};
}

Done readTemperatures(const ViscosityOptions& options, Question& question)
{
    for (const std::string& text : options.at) {
        const auto typed = TypedTemperature::parse(text);
        if (!typed) {
            return fail(at("--at", typed.error()));
        }
        question.at.push_back(*typed);
    }
    return {};
}

Done readProperties(const ViscosityOptions& options, Question& question)
{
    question.properties.grade = options.grade;
    if (!options.viscosityIndex.empty()) {
        const auto index = numberOf("--vi", options.viscosityIndex);
        if (!index) {
            return fail(index.error());
        }
        question.properties.viscosityIndex = *index;
    }
    const auto fixedViscosity = optionalQuantity<units::KinematicViscosity>("--viscosity", options.viscosity);
    const auto density = optionalQuantity<units::Density>("--density", options.density);
    if (!fixedViscosity || !density) {
        return fail(fixedViscosity ? density.error() : fixedViscosity.error());
    }
    question.properties.fixedViscosity = *fixedViscosity;
    question.properties.densityAt15 = *density;
    if (!options.kind.empty()) {
        question.properties.family = oil::familyOf(options.kind);
        const auto named = oil::familyNamed(options.kind);
        if (!named) {
            question.cautions.push_back(named.error().sentence);
        }
    }
    return {};
}

Result<Question> questionOf(const ViscosityOptions& options)
{
    Question question;
    return readTemperatures(options, question)
        .and_then([&] { return readProperties(options, question); })
        .and_then([&] { return readPoints(options, question); })
        .transform([&] { return question; });
}

Result<Answer> answerAt(const std::optional<TypedTemperature>& at, const oil::Fluid& fluid, const Question& question)
{
    const auto temperature = at ? std::optional(at->value()) : std::nullopt;
    const auto viscosity = fluid.viscosityAt(temperature);
    if (!viscosity) {
        return fail(viscosity.error());
    }
    Answer answer{at, *viscosity, fluid.densityAt(temperature), std::nullopt, question.cautions};
    if (temperature) {
        const auto seconds = oil::sayboltSeconds(*viscosity, *temperature);
        answer.saybolt = seconds ? std::optional(*seconds) : std::nullopt;
    }
    for (const auto& caution : {fluid.caution(), fluid.densityCaution()}) {
        if (caution) {
            answer.cautions.push_back(*caution);
        }
    }
    return answer;
}

Json textOrNull(const std::string& text)
{
    return text.empty() ? Json() : Json(text);
}

Json jsonOf(const Answer& answer, const ViscosityOptions& options, const Question& question)
{
    const auto& index = question.properties.viscosityIndex;
    const auto& density = answer.density;
    return {{"grade", textOrNull(options.grade)},
            {"vi", index ? Json(*index) : Json()},
            {"at_c", answer.at ? Json(answer.at->value().in(units::celsius)) : Json()},
            {"viscosity_m2_s", answer.viscosity.in(units::squareMetrePerSecond)},
            {"viscosity_cst", answer.viscosity.in(units::centistokes)},
            {"density_kg_m3", density ? Json(density->in(units::kilogramPerCubicMetre)) : Json()},
            {"viscosity_pa_s", density ? Json((answer.viscosity * *density).in(units::pascalSecond)) : Json()},
            {"sus", answer.saybolt ? Json(answer.saybolt->in(units::second)) : Json()},
            {"cautions", answer.cautions}};
}

/// One decimal below 100, none above: no more than the figures are worth.
std::string shortText(double number)
{
    return fixed(number, number < 100.0 ? 1 : 0);
}

/// The oil as it was told, such as "ISO VG 68, VI 95".
std::string oilText(const ViscosityOptions& options)
{
    std::string text;
    const auto add = [&](const std::string& part) { text += (text.empty() ? "" : ", ") + part; };
    if (!options.grade.empty()) {
        add(options.grade);
    }
    if (!options.viscosityIndex.empty()) {
        add("VI " + options.viscosityIndex);
    }
    for (const std::string& point : options.points) {
        add(point);
    }
    if (!options.at40.empty()) {
        add(options.at40 + " at 40 °C");
    }
    if (!options.at100.empty()) {
        add(options.at100 + " at 100 °C");
    }
    return text.empty() ? "fixed viscosity" : text;
}

void tell(const Answer& answer, const ViscosityOptions& options, std::ostream& out)
{
    out << oilText(options) << (answer.at ? ", at " + answer.at->toText() : "") << ": "
        << shortText(answer.viscosity.in(units::centistokes)) << " cSt";
    if (answer.density) {
        out << ", " << shortText((answer.viscosity * *answer.density).in(units::centipoise)) << " mPa·s at "
            << fixed(answer.density->in(units::kilogramPerCubicMetre), 1) << " kg/m³";
    }
    if (answer.saybolt) {
        out << ", " << shortText(answer.saybolt->in(units::second)) << " SUS";
    }
    out << "\n";
    for (const std::string& caution : answer.cautions) {
        out << "  " << caution << "\n";
    }
}

/// The viscosity index of an oil measured at 40 and 100 °C.
Done tellIndex(units::KinematicViscosity at40, units::KinematicViscosity at100, bool json, std::ostream& out)
{
    const auto index = oil::viscosityIndex(at40, at100);
    if (!index) {
        return fail(index.error());
    }
    const double reported = oil::reportedViscosityIndex(*index);
    if (json) {
        const Json object = {{"at40_cst", at40.in(units::centistokes)},
                             {"at100_cst", at100.in(units::centistokes)},
                             {"vi", reported},
                             {"vi_unrounded", *index}};
        out << object.dump() << "\n";
    } else {
        out << "viscosity index " << fixed(reported, 0) << " (unrounded " << fixed(*index, 2) << ")\n";
    }
    return {};
}

} // namespace

Done viscosity(const ViscosityOptions& options, std::ostream& out)
{
    const auto question = questionOf(options);
    if (!question) {
        return fail(question.error());
    }
    if (question->at40 && question->at100) {
        const Done told = tellIndex(*question->at40, *question->at100, options.json, out);
        if (!told || options.at.empty()) {
            return told;
        }
    }
    const auto fluid = oil::Fluid::from(question->properties);
    if (!fluid) {
        return fail(fluid.error());
    }
    std::vector<std::optional<TypedTemperature>> temperatures(question->at.begin(), question->at.end());
    if (temperatures.empty()) {
        temperatures.emplace_back();
    }
    for (const auto& at : temperatures) {
        const auto answer = answerAt(at, *fluid, *question);
        if (!answer) {
            return fail(answer.error());
        }
        if (options.json) {
            out << jsonOf(*answer, options, *question).dump() << "\n";
        } else {
            tell(*answer, options, out);
        }
    }
    return {};
}

} // namespace loopside::cli
