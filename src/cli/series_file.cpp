// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/series_file.h"

#include "base/text.h"
#include "cli/files.h"
#include "site/csv.h"
#include "site/value_table.h"

#include <array>
#include <charconv>
#include <cmath>
#include <set>
#include <string_view>
#include <utility>

namespace loopside::cli {

namespace {

constexpr std::size_t bytesMax = 64'000'000;
constexpr double numberMax = 1e12; // beyond it a figure is a slip, and products of them would not be finite

constexpr const char* runColumn = "run";
constexpr const char* timeColumn = "t_s";
constexpr const char* dropColumn = "dp";
constexpr const char* flowColumn = "flow";
constexpr const char* limitColumn = "limit";
constexpr const char* limitTimeColumn = "t_limit_s";

using Csv = io::CSVReader<6, io::trim_chars<' ', '\t'>, io::double_quote_escape<',', '"'>, io::throw_on_overflow,
                          io::empty_line_comment>;

/// The fields of one line, in the order of the columns above; null where the file has no such column.
using Fields = std::array<const char*, 6>;

Result<double> numberIn(std::string_view text)
{
    if (text.find(',') != std::string_view::npos) {
        return fail(Errc::Malformed, "\"" + quotable(text) + "\" has a comma: write a number with a point");
    }
    const std::string_view digits = text.starts_with('+') ? text.substr(1) : text;
    double number = 0.0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
    if (error == std::errc::invalid_argument || end != digits.data() + digits.size() || std::isnan(number)) {
        return fail(Errc::Malformed, text.empty() ? "there is no number" : "\"" + quotable(text) + "\" is no number");
    }
    if (error != std::errc() || !(std::abs(number) <= numberMax)) {
        return fail(Errc::OutOfRange, "\"" + quotable(text) + "\" is beyond any reading");
    }
    return number;
}

/// Fills a SeriesFile line by line.
class SeriesReader
{
public:
    SeriesReader(const std::string& path, const std::string& text, SeriesKind kind)
        : path_{path}, kind_{kind}, csv_(path, text.data(), text.data() + text.size())
    {
    }

    Result<SeriesFile> read()
    {
        if (const Done header = readHeader(); !header) {
            return fail(header.error());
        }
        while (readLine()) {
        }
        if (!file_.faults.empty() || !file_.runs.empty()) {
            return std::move(file_);
        }
        return fail(Errc::Malformed, path_ + ": there is no reading behind the header");
    }

private:
    [[nodiscard]] Done readHeader()
    {
        try {
            csv_.read_header(io::ignore_extra_column | io::ignore_missing_column, runColumn, timeColumn, dropColumn,
                             flowColumn, limitColumn, limitTimeColumn);
        } catch (const io::error::header_missing&) {
            return fail(Errc::Malformed, path_ + ": the file is empty");
        } catch (const io::error::duplicated_column_in_header& error) {
            return headerFault("the column \"" + std::string(error.column_name) + "\" stands there twice");
        } catch (const io::error::line_length_limit_exceeded&) {
            return headerFault("the line is longer than 16 MB");
        } catch (const io::error::escaped_string_not_closed&) {
            return headerFault("a quotation mark is not closed");
        }
        std::vector<const char*> needed = {runColumn, timeColumn, dropColumn};
        if (kind_ == SeriesKind::History) {
            needed.insert(needed.end(), {limitColumn, limitTimeColumn});
        }
        for (const char* column : needed) {
            if (!csv_.has_column(column)) {
                return headerFault("there is no column \"" + std::string(column)
                                   + "\"; the first line names the columns, with commas between");
            }
        }
        return {};
    }

    [[nodiscard]] tl::unexpected<Error> headerFault(const std::string& what) const
    {
        return fail(Errc::Malformed, path_ + ", line 1 (header): " + what);
    }

    bool readLine()
    {
        Fields fields{};
        try {
            if (!csv_.read_row(fields[0], fields[1], fields[2], fields[3], fields[4], fields[5])) {
                return false;
            }
        } catch (const io::error::too_few_columns&) {
            note("", "there are fewer fields than the header names");
            return true;
        } catch (const io::error::too_many_columns&) {
            note("", "there are more fields than the header names; a number is written with a point, not a comma");
            return true;
        } catch (const io::error::escaped_string_not_closed&) {
            note("", "a quotation mark is not closed");
            return true;
        } catch (const io::error::line_length_limit_exceeded&) {
            note("", "the line is longer than 16 MB");
            return false; // where the next line begins is not known
        }
        take(fields);
        return true;
    }

    void take(const Fields& fields)
    {
        const std::string_view name = fields[0];
        if (file_.runs.empty() || file_.runs.back().name != name) {
            file_.runs.push_back({std::string(name), {}, {}, {}, false});
            const bool isNew = names_.emplace(name).second;
            if (!isNew || name.empty()) {
                note(runColumn,
                     name.empty()
                         ? "the run has no name"
                         : "run \"" + quotable(name) + "\" goes on after another; its readings stand together");
            }
        }
        SeriesRun& run = file_.runs.back();
        if (run.hasFault) {
            return;
        }
        SeriesReading reading;
        if (readReading(fields, reading) && (kind_ == SeriesKind::Readings || readEnd(fields))) {
            run.readings.push_back(reading);
        }
    }

    [[nodiscard]] bool readReading(const Fields& fields, SeriesReading& reading)
    {
        if (!readNumber(timeColumn, fields[1], reading.seconds) || !readNumber(dropColumn, fields[2], reading.drop)) {
            return false;
        }
        if (fields[3] != nullptr) {
            reading.flow = 0.0;
            if (!readNumber(flowColumn, fields[3], *reading.flow)) {
                return false;
            }
        }
        const std::vector<SeriesReading>& before = file_.runs.back().readings;
        if (reading.seconds < (before.empty() ? 0.0 : before.back().seconds)) {
            note(timeColumn,
                 std::string(before.empty() ? "the time is below 0: " : "the time goes back to ")
                     + quotable(fields[1]));
            return false;
        }
        return true;
    }

    /// Limit and end of a history's run: the same in all of its lines.
    [[nodiscard]] bool readEnd(const Fields& fields)
    {
        double limit = 0.0;
        std::optional<double> end;
        if (!readNumber(limitColumn, fields[4], limit)
            || (*fields[5] != '\0' && !readNumber(limitTimeColumn, fields[5], end.emplace()))) {
            return false;
        }
        SeriesRun& run = file_.runs.back();
        if (!(limit > 0.0)) {
            note(limitColumn, "the limit has to be above 0, not " + quotable(fields[4]));
        } else if (end && !(*end > 0.0)) {
            note(limitTimeColumn, "the time has to be above 0, not " + quotable(fields[5]));
        } else if (!run.readings.empty() && run.limit != limit) {
            note(limitColumn, "the limit of a run is the same in all of its lines");
        } else if (!run.readings.empty() && run.limitSeconds != end) {
            note(limitTimeColumn, "the time of a run's limit is the same in all of its lines");
        }
        run.limit = limit;
        run.limitSeconds = end;
        return !run.hasFault;
    }

    [[nodiscard]] bool readNumber(const char* column, const char* text, double& number)
    {
        const auto read = numberIn(text);
        if (!read) {
            note(column, read.error().sentence);
            return false;
        }
        number = *read;
        return true;
    }

    /// Notes the first fault of the run that is read; what follows of that run is left out.
    void note(const char* column, const std::string& what)
    {
        if (file_.runs.empty()) {
            file_.runs.push_back({"", {}, {}, {}, false});
        }
        if (std::exchange(file_.runs.back().hasFault, true)) {
            return;
        }
        const std::string place = *column == '\0' ? "" : ", column " + std::string(column);
        file_.faults.push_back(path_ + ", line " + std::to_string(csv_.get_file_line()) + place + ": " + what);
    }

    const std::string& path_;
    SeriesKind kind_;
    Csv csv_;
    SeriesFile file_;
    std::set<std::string, std::less<>> names_;
};

} // namespace

Result<SeriesFile> readSeries(const std::string& path, SeriesKind kind)
{
    auto text = readFile(path, bytesMax);
    if (!text) {
        return fail(text.error());
    }
    const auto table = site::tableText(path, *std::move(text), bytesMax);
    return table ? SeriesReader(path, *table, kind).read() : fail(table.error());
}

} // namespace loopside::cli
