// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/options.h"
#include "oil/cleanliness_code.h"
#include "oil/particle_class.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <iterator>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;
using oil::CleanlinessCode;

/// The name of each verdict in JSON; people read the same with blanks.
std::string_view idOf(oil::TargetVerdict verdict)
{
    switch (verdict) {
    case oil::TargetVerdict::Better:
        return "better";
    case oil::TargetVerdict::Met:
        return "met";
    case oil::TargetVerdict::NotProven:
        return "not-proven";
    case oil::TargetVerdict::CannotTell:
        return "cannot-tell";
    case oil::TargetVerdict::NotMet:
        break;
    }
    return "not-met";
}

std::string_view idOf(oil::CodeChange change)
{
    switch (change) {
    case oil::CodeChange::Cleaner:
        return "cleaner";
    case oil::CodeChange::NotProven:
        return "not-proven";
    case oil::CodeChange::CannotTell:
        return "cannot-tell";
    case oil::CodeChange::Dirtier:
        break;
    }
    return "dirtier";
}

std::string words(std::string_view id)
{
    std::string text(id);
    std::replace(text.begin(), text.end(), '-', ' ');
    return text;
}

Result<std::vector<double>> numbersOf(const char* option, const std::vector<std::string>& texts)
{
    std::vector<double> numbers;
    for (const std::string& text : texts) {
        const auto number = numberOf(option, text);
        if (!number) {
            return fail(number.error());
        }
        numbers.push_back(*number);
    }
    return numbers;
}

/// `mL` or `100 mL`, with or without the blank and a 1.
Result<oil::CountBasis> basisOf(const std::string& text)
{
    std::string symbols;
    std::copy_if(text.begin(), text.end(), std::back_inserter(symbols), [](char sign) { return sign != ' '; });
    if (symbols == "mL" || symbols == "1mL" || symbols == "ml" || symbols == "1ml") {
        return oil::CountBasis::PerMl;
    }
    if (symbols == "100mL" || symbols == "100ml") {
        return oil::CountBasis::Per100Ml;
    }
    return fail(Errc::Malformed, "--per: \"" + quotable(text) + "\" is neither 1mL nor 100mL");
}

/// Whether `--counted` names a volume rather than numbers of particles.
bool isVolume(const std::vector<std::string>& counted)
{
    return counted.size() == 1 && counted.front().find_first_of("Ll") != std::string::npos;
}

Result<CleanlinessCode> codeOfCounts(const CodeOptions& options)
{
    const auto counts = numbersOf("--counts", options.counts);
    const auto basis = basisOf(options.per);
    if (!counts || !basis) {
        return fail(counts ? basis.error() : counts.error());
    }
    if (options.counted.empty()) {
        return CleanlinessCode::fromCounts(*counts, *basis);
    }
    if (isVolume(options.counted)) {
        return quantityOf<units::Volume>("--counted", options.counted.front()).and_then([&](units::Volume volume) {
            return CleanlinessCode::fromCounts(*counts, *basis, volume);
        });
    }
    const auto particles = numbersOf("--counted", options.counted);
    if (!particles) {
        return fail(particles.error());
    }
    return CleanlinessCode::fromCounts(*counts, *basis, *particles);
}

/// What the options say of one oil.
struct Told
{
    CleanlinessCode code;
    std::optional<CleanlinessCode> target;
    std::optional<CleanlinessCode> before;
};

Result<std::optional<CleanlinessCode>> otherCode(const char* option, const std::string& text)
{
    if (text.empty()) {
        return std::optional<CleanlinessCode>();
    }
    const auto code = CleanlinessCode::parse(text);
    if (!code) {
        return fail(at(option, code.error()));
    }
    return std::optional(*code);
}

Result<Told> toldBy(const CodeOptions& options)
{
    const auto code = options.counts.empty() ? CleanlinessCode::parse(options.code) : codeOfCounts(options);
    const auto target = otherCode("--target", options.target);
    const auto before = otherCode("--before", options.before);
    if (!code) {
        return fail(code.error());
    }
    if (!target || !before) {
        return fail(target ? before.error() : target.error());
    }
    return Told{*code, *target, *before};
}

Json scaleJson(const oil::ScaleNumber& scale)
{
    return scale.number() ? Json(*scale.number()) : Json(scale.toText());
}

Json rangeJson(const oil::ScaleNumber& scale)
{
    const auto range = scale.countRange();
    if (!range) {
        return {};
    }
    return {{"more_than", range->moreThanPerMl}, {"up_to", range->upToPerMl ? Json(*range->upToPerMl) : Json()}};
}

template<class Comparison>
void addComparison(Json& object, const Comparison& comparison, const std::string& whole, const std::string& sizes)
{
    object[whole] = idOf(comparison.whole);
    object[sizes] = Json::array();
    for (const auto& size : comparison.sizes) {
        object[sizes].push_back(size ? Json(idOf(*size)) : Json());
    }
}

Json jsonOf(const Told& told)
{
    Json object = {{"code", told.code.toText()},
                   {"scale_numbers", Json::array()},
                   {"ranges_per_ml", Json::array()},
                   {"low_confidence", Json::array()}};
    for (const oil::ScaleNumber& scale : told.code.scales()) {
        object["scale_numbers"].push_back(scaleJson(scale));
        object["ranges_per_ml"].push_back(rangeJson(scale));
        object["low_confidence"].push_back(scale.isLowConfidence());
    }
    if (told.target) {
        object["target"] = told.target->toText();
        addComparison(object, compareToTarget(told.code, *told.target), "verdict", "verdicts");
    }
    if (told.before) {
        object["before"] = told.before->toText();
        addComparison(object, compareCodes(*told.before, told.code), "change", "changes");
    }
    return object;
}

std::string limitText(double perMl)
{
    std::string text = fixed(perMl, 2);
    text.erase(text.find_last_not_of('0') + 1);
    return text.ends_with('.') ? text.substr(0, text.size() - 1) : text;
}

std::string rangeText(const oil::CountRange& range)
{
    return range.upToPerMl
        ? "more than " + limitText(range.moreThanPerMl) + " up to and including " + limitText(*range.upToPerMl)
        : "more than " + limitText(range.moreThanPerMl);
}

template<class Comparison>
std::string sizesText(const Comparison& comparison)
{
    std::string text;
    for (const auto& size : comparison.sizes) {
        text += (text.empty() ? "" : " / ") + (size ? words(idOf(*size)) : "−");
    }
    return text;
}

void tell(const Told& told, std::ostream& out)
{
    const std::array<std::string_view, 3> sizes = told.code.isMicroscope()
        ? std::array<std::string_view, 3>{"", "≥ 5 µm ", "≥ 15 µm"}
        : std::array<std::string_view, 3>{"≥ 4 µm ", "≥ 6 µm ", "≥ 14 µm"};
    out << told.code.toText() << "\n";
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        const oil::ScaleNumber& scale = told.code.scales().at(i);
        if (const auto range = scale.countRange()) {
            out << "  " << sizes.at(i) << "  " << rangeText(*range) << " per mL"
                << (scale.isLowConfidence() ? ", fewer than 20 particles counted: low confidence" : "") << "\n";
        } else if (scale.kind() == oil::ScaleNumber::Kind::TooMany) {
            out << "  " << sizes.at(i) << "  too many to count\n";
        }
    }
    if (told.target) {
        const auto comparison = compareToTarget(told.code, *told.target);
        out << "target " << told.target->toText() << ": " << words(idOf(comparison.whole)) << " ("
            << sizesText(comparison) << "); one number either way is scatter of the test\n";
    }
    if (told.before) {
        const auto comparison = compareCodes(*told.before, told.code);
        out << "before " << told.before->toText() << ": " << words(idOf(comparison.whole)) << " ("
            << sizesText(comparison) << "); one number either way is scatter of the test\n";
    }
}

template<class Classes>
Json classesJson(const Classes& classes)
{
    Json list = Json::array();
    for (const auto& each : classes) {
        list.push_back(each.toText());
    }
    return list;
}

Done tellNas(const CodeOptions& options, std::ostream& out)
{
    const auto bands = numbersOf("--nas", options.nas);
    if (!bands) {
        return fail(bands.error());
    }
    const auto classes = oil::nas1638(*bands);
    if (!classes) {
        return fail(classes.error());
    }
    if (options.json) {
        const Json object = {{"nas_1638", classes->whole.toText()}, {"bands", classesJson(classes->bands)}};
        out << object.dump() << "\n";
        return {};
    }
    out << "NAS 1638 class " << classes->whole.toText() << ", by the worst of";
    for (const oil::ParticleClass& band : classes->bands) {
        out << " " << band.toText();
    }
    out << "\n";
    return {};
}

Done tellAs4059(const CodeOptions& options, std::ostream& out)
{
    std::vector<std::optional<double>> counts;
    for (const std::string& text : options.as4059) {
        const auto number = text == "-" ? Result<std::vector<double>>() : numbersOf("--as4059", {text});
        if (!number) {
            return fail(number.error());
        }
        counts.push_back(number->empty() ? std::nullopt : std::optional(number->front()));
    }
    const auto classes = oil::as4059(counts);
    if (!classes) {
        return fail(classes.error());
    }
    if (options.json) {
        Json sizes = Json::array();
        for (const auto& size : classes->sizes) {
            sizes.push_back(size ? Json(size->toText()) : Json());
        }
        const Json object = {{"as4059", classes->whole.toText()}, {"text", classes->toText()}, {"sizes", sizes}};
        out << object.dump() << "\n";
    } else {
        out << "AS4059 class " << classes->whole.toText() << ", by the worst of " << classes->toText() << "\n";
    }
    return {};
}

} // namespace

Done code(const CodeOptions& options, std::ostream& out)
{
    if (!options.nas.empty()) {
        return tellNas(options, out);
    }
    if (!options.as4059.empty()) {
        return tellAs4059(options, out);
    }
    const auto told = toldBy(options);
    if (!told) {
        return fail(told.error());
    }
    if (options.json) {
        out << jsonOf(*told).dump() << "\n";
    } else {
        tell(*told, out);
    }
    return {};
}

} // namespace loopside::cli
