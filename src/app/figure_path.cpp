// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/figure_path.h"

#include <charconv>
#include <cmath>
#include <string>

namespace loopside::app {

namespace {

class PathReader
{
public:
    explicit PathReader(std::string text) : text_{std::move(text)}, at_{text_.data()}, end_{at_ + text_.size()} {}

    [[nodiscard]] std::optional<QPainterPath> read()
    {
        skipBlanks();
        while (at_ != end_) {
            const char letter = *at_++;
            if ((path_.elementCount() == 0 && letter != 'M') || !draw(letter)) {
                return std::nullopt;
            }
            skipBlanks();
        }
        return path_;
    }

private:
    [[nodiscard]] bool draw(char letter)
    {
        switch (letter) {
        case 'M':
            return move() && lines();
        case 'L':
            return line() && lines();
        case 'C':
            return curve() && curves();
        case 'Z':
            path_.closeSubpath();
            return true;
        default:
            return false;
        }
    }

    [[nodiscard]] bool move()
    {
        const auto to = point();
        if (to) {
            path_.moveTo(*to);
        }
        return to.has_value();
    }
    [[nodiscard]] bool line()
    {
        const auto to = point();
        if (to) {
            path_.lineTo(*to);
        }
        return to.has_value();
    }
    [[nodiscard]] bool curve()
    {
        const auto first = point();
        const auto second = first ? point() : std::nullopt;
        const auto to = second ? point() : std::nullopt;
        if (to) {
            path_.cubicTo(*first, *second, *to);
        }
        return to.has_value();
    }
    [[nodiscard]] bool lines()
    {
        while (hasNumber()) {
            if (!line()) {
                return false;
            }
        }
        return true;
    }
    [[nodiscard]] bool curves()
    {
        while (hasNumber()) {
            if (!curve()) {
                return false;
            }
        }
        return true;
    }

    [[nodiscard]] std::optional<QPointF> point()
    {
        const auto x = number();
        const auto y = x ? number() : std::nullopt;
        return y ? std::optional(QPointF(*x, *y)) : std::nullopt;
    }
    [[nodiscard]] std::optional<double> number()
    {
        skipBlanks();
        double value = 0.0;
        const auto [behind, error] = std::from_chars(at_, end_, value);
        if (error != std::errc{} || !std::isfinite(value)) {
            return std::nullopt;
        }
        at_ = behind;
        return value;
    }
    [[nodiscard]] bool hasNumber()
    {
        skipBlanks();
        return at_ != end_ && (*at_ == '-' || *at_ == '.' || (*at_ >= '0' && *at_ <= '9'));
    }
    void skipBlanks()
    {
        while (at_ != end_ && (*at_ == ' ' || *at_ == ',' || *at_ == '\n')) {
            ++at_;
        }
    }

    std::string text_;
    const char* at_;
    const char* end_;
    QPainterPath path_;
};

} // namespace

std::optional<QPainterPath> figurePath(QStringView text)
{
    return PathReader(text.toString().toStdString()).read();
}

} // namespace loopside::app
