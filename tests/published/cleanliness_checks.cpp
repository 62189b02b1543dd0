// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Cleanliness codes: ISO 4406, NAS 1638, SAE AS4059.

#include "oil/cleanliness_code.h"
#include "oil/particle_class.h"
#include "published/csv.h"
#include "published/printed.h"
#include "published/sources.h"
#include "published/topics.h"

#include <array>
#include <map>

namespace loopside::published {

namespace {

using namespace oil;

std::string scaleText(double countPerMl)
{
    return valueOf(scaleNumberOf(countPerMl)).toText();
}

/// A count that is above `limit` by less than any counter tells.
double justAbove(double limit)
{
    return limit * (1.0 + 1e-6);
}

/// At the upper limit and just above the lower one of each row, which is what "up to and including" and "more than"
/// mean.
std::vector<Words> allocation(const std::vector<Row>& rows)
{
    std::vector<Words> words;
    for (const Row& row : rows) {
        const std::string& scale = row.text("scale_number");
        words.push_back({row.text("up_to_and_including_per_mL") + " per mL", scale,
                         scaleText(row.number("up_to_and_including_per_mL"))});
        words.push_back({"more than " + row.text("more_than_per_mL") + " per mL", scale,
                         scaleText(justAbove(row.number("more_than_per_mL")))});
    }
    return words;
}

std::vector<Value> ranges(const std::vector<Row>& rows)
{
    std::vector<Value> values;
    for (const Row& row : rows) {
        const CountRange range = valueOf(countRange(static_cast<int>(row.number("scale_number"))));
        values.push_back({row.text("scale_number") + ", more than", row.text("more_than_per_mL"), range.moreThanPerMl});
        values.push_back(
            {row.text("scale_number") + ", up to", row.text("up_to_and_including_per_mL"), range.upToPerMl.value()});
    }
    return values;
}

std::vector<Row> rowsReadIn(const std::string& publication)
{
    std::vector<Row> rows;
    for (const Row& row : rowsOf("iso4406_limits.csv")) {
        if (row.text("read_in") == publication) {
            rows.push_back(row);
        }
    }
    return rows;
}

void scaleChecks(Checks& checks)
{
    const std::string number = "Scale number of ISO 4406 of a count";
    const std::string range = "Counts per mL of a scale number of ISO 4406";
    const std::vector<Row> chart = rowsReadIn("ML");
    checks.check({number, sources::machineryIndia}, allocation(chart));
    checks.check({range, sources::machineryIndia, Tolerance::exact()}, ranges(chart));

    std::vector<Words> basics;
    for (const Row& row : rowsOf("iso4406_basics.csv")) {
        const std::string next = std::to_string(static_cast<int>(row.number("scale_number")) + 1);
        basics.push_back(
            {row.text("up_to_per_mL") + " per mL", row.text("scale_number"), scaleText(row.number("up_to_per_mL"))});
        basics.push_back({"more than " + row.text("up_to_per_mL") + " per mL", next,
                          scaleText(justAbove(row.number("up_to_per_mL")))});
    }
    checks.check({number, sources::constructionEquipment}, basics);

    const std::vector<Row> remembered = rowsReadIn("memory");
    std::vector<Words> words = allocation(remembered);
    words.push_back({"2 500 001 per mL", ">28", scaleText(2500001.0)});
    checks.check({number + ", 0 and above 28", sources::fromMemory}, words);
    checks.check({range + ", 0", sources::fromMemory, Tolerance::exact()}, ranges(remembered));

    std::vector<Words> traps;
    for (const auto& [count, scale] : {std::pair{"80", "13"},
                                       {"81", "14"},
                                       {"160", "14"},
                                       {"161", "15"},
                                       {"640", "16"},
                                       {"641", "17"},
                                       {"1300", "17"},
                                       {"1301", "18"},
                                       {"2500", "18"},
                                       {"2501", "19"},
                                       {"2500000", "28"},
                                       {"0.64", "6"},
                                       {"0.645", "7"},
                                       {"1.29", "7"},
                                       {"0.01", "0"}}) {
        traps.push_back({std::string(count) + " per mL", scale, scaleText(numberIn(count))});
    }
    checks.check({number + " where a logarithm is one off", sources::computed}, traps);
}

std::string codeText(std::span<const double> counts, CountBasis basis)
{
    return valueOf(CleanlinessCode::fromCounts(counts, basis)).toText();
}

void codeChecks(Checks& checks)
{
    checks.check({"Code of ISO 4406 of three counts", sources::counterNote},
                 {{"300 000, 50 000 and 700 per 100 mL", "19/16/10",
                   codeText(std::array{300000.0, 50000.0, 700.0}, CountBasis::Per100Ml)}});

    const auto readBack = [](const char* text) { return valueOf(CleanlinessCode::parse(text)).toText(); };
    checks.check({"Code of ISO 4406 as written", sources::iso4406Abstract},
                 {{"counter", "22/18/13", readBack("22/18/13")}, {"microscope", "−/18/13", readBack("-/18/13")}});
    const auto isMicroscope = [](const char* text) {
        return valueOf(CleanlinessCode::parse(text)).isMicroscope() ? "microscope, 5 and 15 µm"
                                                                    : "counter, 4, 6 and 14 µm(c)";
    };
    checks.check({"What a code of ISO 4406 was counted by", sources::iso4406Clauses},
                 {{"22/18/13", "counter, 4, 6 and 14 µm(c)", isMicroscope("22/18/13")},
                  {"−/18/13", "microscope, 5 and 15 µm", isMicroscope("−/18/13")}});

    const auto fewText = [](double seen) {
        const std::array counts{160.0, 40.0, 1.3};
        return valueOf(CleanlinessCode::fromCounts(counts, CountBasis::PerMl, std::array{3000.0, 800.0, seen}))
            .toText();
    };
    checks.check({"Mark of a scale number from few particles", sources::reportingNotes},
                 {{"19 particles seen", "14/12/≥7", fewText(19.0)}, {"20 particles seen", "14/12/7", fewText(20.0)}});

    std::vector<Value> errors;
    for (const Row& row : rowsOf("scipy_statistics.csv")) {
        if (row.text("distribution") == "poisson") {
            errors.push_back({row.text("parameter") + " particles", row.text("deviation"),
                              valueOf(relativeCountingError(row.number("parameter"))).in(units::one)});
        }
    }
    checks.check({"Relative error of a count", sources::scipy}, errors);
}

/// The first class of the table that a count fits.
std::string classIn(const std::vector<Row>& rows, const std::string& title, double count)
{
    for (const Row& row : rows) {
        if (count <= row.number(title)) {
            return row.text("class");
        }
    }
    return ">12";
}

/// The class of a count in one column of a table and nothing in the others.
using ClassOfColumn = std::string (*)(std::size_t column, double count);

/// At each limit of a table, and one particle above it.
std::vector<Words> classesAt(const std::string& file, const std::vector<std::string>& titles, ClassOfColumn classOf)
{
    const std::vector<Row> rows = rowsOf(file);
    std::vector<Words> words;
    for (std::size_t column = 0; column < titles.size(); ++column) {
        for (const Row& row : rows) {
            for (const double count : {row.number(titles[column]), row.number(titles[column]) + 1.0}) {
                words.push_back({titles[column] + ", " + std::to_string(static_cast<long>(count)),
                                 classIn(rows, titles[column], count), classOf(column, count)});
            }
        }
    }
    return words;
}

std::string nasClass(std::size_t band, double count)
{
    std::array<double, 5> counts{};
    counts.at(band) = count;
    return valueOf(nas1638(counts)).bands.at(band).toText();
}

std::string as4059Class(std::size_t size, double count)
{
    std::array<std::optional<double>, 6> counts;
    counts.at(size) = count;
    return valueOf(as4059(counts)).sizes.at(size).value().toText();
}

void classChecks(Checks& checks)
{
    checks.check({"Class of NAS 1638 at and above each limit", sources::nasSheet},
                 classesAt("nas1638_bands.csv", {"5_15", "15_25", "25_50", "50_100", "over_100"}, nasClass));
    checks.check({"Class of AS4059 at and above each limit", sources::machineryIndia},
                 classesAt("as4059_table2.csv", {"A", "B", "C", "D", "E", "F"}, as4059Class));
    checks.check({"Class of NAS 1638 as a whole", sources::computed},
                 {{"16000, 2850, 506, 90, 16", "6",
                   valueOf(nas1638(std::array{16000.0, 2850.0, 506.0, 90.0, 16.0})).whole.toText()},
                  {"16001, 2850, 506, 90, 16", "7",
                   valueOf(nas1638(std::array{16001.0, 2850.0, 506.0, 90.0, 16.0})).whole.toText()}});
}

/// Columns B to F of AS4059 are the sums of the bands of NAS 1638 from that size up, read in two publications: a
/// misprint in either would show.
void sumChecks(Checks& checks)
{
    const std::vector<Row> cumulative = rowsOf("as4059_table2.csv");
    std::vector<Words> words;
    for (const Row& row : rowsOf("nas1638_bands.csv")) {
        std::array<std::optional<double>, 6> counts;
        double sum = 0.0;
        const std::array titles{"5_15", "15_25", "25_50", "50_100", "over_100"};
        for (std::size_t i = titles.size(); i-- > 0;) {
            sum += row.number(titles.at(i));
            counts.at(i + 1) = sum;
        }
        const As4059 classes = valueOf(as4059(counts));
        for (std::size_t i = 1; i < counts.size(); ++i) {
            const std::string title(1, static_cast<char>('A' + i));
            words.push_back({row.text("class") + title, classIn(cumulative, title, *counts.at(i)),
                             classes.sizes.at(i).value().toText()});
        }
        words.push_back({row.text("class") + ", at size B", row.text("class"), classes.sizes.at(1).value().toText()});
    }
    checks.check({"Class of AS4059 of the sums of NAS 1638's bands", sources::nasSheet}, words);
}

void sizeChecks(Checks& checks)
{
    std::vector<Value> rounded;
    std::vector<Value> remembered;
    const std::map<double, const char*> read = {{1.0, "4"}, {5.0, "6"}, {15.0, "14"}, {25.0, "21"}};
    for (const SizePair& pair : sizePairs()) {
        if (const auto found = read.find(pair.acftdUm); found != read.end()) {
            rounded.push_back({shortest(pair.acftdUm) + " µm", found->second, pair.iso11171Umc});
        }
    }
    for (const Row& row : rowsOf("iso4402_sizes_memory.csv")) {
        for (const SizePair& pair : sizePairs()) {
            if (pair.acftdUm == row.number("acftd_um")) {
                remembered.push_back({row.text("acftd_um") + " µm", row.text("iso11171_umc"), pair.iso11171Umc});
            }
        }
    }
    checks.check({"Size by ISO 11171 of a size by ISO 4402, µm(c)", sources::machineryIndia, Tolerance::printed(),
                  "rounded to whole µm there; ours is from memory"},
                 rounded);
    checks.check({"Size by ISO 11171 of a size by ISO 4402, µm(c)", sources::fromMemory, Tolerance::exact()},
                 remembered);
}

} // namespace

void cleanlinessChecks(Checks& checks)
{
    scaleChecks(checks);
    codeChecks(checks);
    classChecks(checks);
    sumChecks(checks);
    sizeChecks(checks);
}

} // namespace loopside::published
