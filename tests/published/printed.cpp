// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "published/printed.h"

#include <cmath>
#include <iomanip>
#include <sstream>
#include <stdexcept>

namespace loopside::published {

namespace {

std::size_t exponentAt(const std::string& text)
{
    return text.find_first_of("eE");
}

int decimalsOf(const std::string& text)
{
    const std::string mantissa = text.substr(0, exponentAt(text));
    const auto point = mantissa.find('.');
    return point == std::string::npos ? 0 : static_cast<int>(mantissa.size() - point - 1);
}

/// Without the sign of a number that is printed as zero, which arithmetic decides.
std::string withoutIdleSign(const std::string& text)
{
    const bool isZero = text.substr(0, exponentAt(text)).find_first_of("123456789") == std::string::npos;
    return isZero && text.starts_with('-') ? text.substr(1) : text;
}

} // namespace

double numberIn(const std::string& text)
{
    std::size_t read = 0;
    const double number = std::stod(text, &read);
    if (read != text.size()) {
        throw std::runtime_error("not a number: " + text);
    }
    return number;
}

double halfDigitOf(const std::string& text)
{
    const auto exponent = exponentAt(text);
    const int power = exponent == std::string::npos ? 0 : std::stoi(text.substr(exponent + 1));
    return 0.5 * std::pow(10.0, power - decimalsOf(text));
}

std::string printedLike(double number, const std::string& text)
{
    std::ostringstream stream;
    stream << (exponentAt(text) == std::string::npos ? std::fixed : std::scientific)
           << std::setprecision(decimalsOf(text) + 1) << number;
    return withoutIdleSign(stream.str());
}

std::string shortest(double number)
{
    std::ostringstream stream;
    stream << number;
    return stream.str();
}

} // namespace loopside::published
