// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/series_file.h"

#include "base/text.h"
#include "cli/files.h"
#include "site/csv.h"
#include "site/value_table.h"

#include <algorithm>
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

constexpr std::size_t columnCount = 6;
constexpr std::array<std::string_view, columnCount> columns = {runColumn,  timeColumn,  dropColumn,
                                                               flowColumn, limitColumn, limitTimeColumn};

/// The fields of one line, in the order of the columns above; null where the file has no such column.
using Fields = std::array<char*, columnCount>;

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
    SeriesReader(const std::string& path, std::string& text, SeriesKind kind) : path_{path}, kind_{kind}, lines_(text)
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
            char* const line = nextLine();
            if (line == nullptr) {
                return fail(Errc::Malformed, path_ + ": the file is empty");
            }
            const auto names = site::cutInPlace<','>(line);
            if (!names) {
                return headerFault("a quotation mark is not closed");
            }
            for (const std::string_view name : *names) {
                const int place = placeOf(name);
                if (place >= 0 && std::ranges::find(order_, place) != order_.end()) {
                    return headerFault("the column \"" + std::string(name) + "\" stands there twice");
                }
                order_.push_back(place);
            }
        } catch (const io::error::line_length_limit_exceeded&) {
            return headerFault("the line is longer than 16 MB");
        }
        std::vector<std::pair<int, const char*>> needed = {{0, runColumn}, {1, timeColumn}, {2, dropColumn}};
        if (kind_ == SeriesKind::History) {
            needed.insert(needed.end(), {{4, limitColumn}, {5, limitTimeColumn}});
        }
        for (const auto& [place, column] : needed) {
            if (std::ranges::find(order_, place) == order_.end()) {
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

    /// The next line that is not empty; null behind the last one.
    [[nodiscard]] char* nextLine()
    {
        char* line = lines_.next();
        while (line != nullptr && io::empty_line_comment::is_comment(line)) {
            line = lines_.next();
        }
        return line;
    }

    /// Which of the columns above has that name; below 0: none.
    [[nodiscard]] static int placeOf(std::string_view name)
    {
        const auto column = std::ranges::find(columns, name);
        return column == columns.end() ? -1 : static_cast<int>(column - columns.begin());
    }

    bool readLine()
    {
        char* line = nullptr;
        try {
            line = nextLine();
        } catch (const io::error::line_length_limit_exceeded&) {
            note("", "the line is longer than 16 MB");
            return false; // where the next line begins is not known
        }
        if (line == nullptr) {
            return false;
        }
        const auto cut = site::cutInPlace<','>(line);
        if (!cut) {
            note("", "a quotation mark is not closed");
        } else if (cut->size() < order_.size()) {
            note("", "there are fewer fields than the header names");
        } else if (cut->size() > order_.size()) {
            note("", "there are more fields than the header names; a number is written with a point, not a comma");
        } else {
            take(inOrder(*cut));
        }
        return true;
    }

    [[nodiscard]] Fields inOrder(const std::vector<char*>& cut) const
    {
        Fields fields{};
        for (std::size_t i = 0; i < cut.size(); ++i) {
            if (order_[i] >= 0) {
                fields[static_cast<std::size_t>(order_[i])] = cut[i];
            }
        }
        return fields;
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
        file_.faults.push_back(path_ + ", line " + std::to_string(lines_.number()) + place + ": " + what);
    }

    const std::string& path_;
    SeriesKind kind_;
    site::Lines lines_;
    std::vector<int> order_; ///< Of each field, which column of the above it is; below 0: none.
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
    return seriesFrom(path, *std::move(text), kind);
}

Result<SeriesFile> seriesFrom(const std::string& path, std::string text, SeriesKind kind)
{
    auto table = site::tableText(path, std::move(text), bytesMax);
    return table ? SeriesReader(path, *table, kind).read() : fail(table.error());
}

} // namespace loopside::cli
