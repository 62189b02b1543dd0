// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/id.h"

#include "base/text.h"

#include <algorithm>

namespace loopside {

std::string toText(const Id& id)
{
    std::string hex = toHex(id.bytes);
    for (const std::size_t dash : {20U, 16U, 12U, 8U}) {
        hex.insert(dash, 1, '-');
    }
    return hex;
}

Result<Id> idFromText(std::string_view text)
{
    if (text.size() != 36 || text[8] != '-' || text[13] != '-' || text[18] != '-' || text[23] != '-') {
        return fail(Errc::Malformed, "\"" + quotable(text) + "\" is not an id of the form 8-4-4-4-12");
    }
    std::string hex(text);
    std::erase(hex, '-');
    Id id;
    if (hex.size() != 32 || !fromHex(hex, id.bytes)) {
        return fail(Errc::Malformed, "\"" + quotable(text) + "\" has a sign that is not a hexadecimal digit");
    }
    return id;
}

std::uint64_t SeededRandom::next()
{
    state_ += 0x9E3779B97F4A7C15U;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
    return z ^ (z >> 31U);
}

Id IdMaker::next(std::int64_t wallMs)
{
    constexpr std::uint16_t counterMax = 0xFFF;
    if (wallMs > lastMs_) {
        lastMs_ = wallMs;
        counter_ = static_cast<std::uint16_t>(random_.next() & 0x7FFU); // upper half kept free, so that it can count
    } else if (counter_ < counterMax) {
        ++counter_;
    } else {
        ++lastMs_;
        counter_ = 0;
    }
    Id id;
    for (unsigned i = 0; i < 6; ++i) {
        id.bytes[i] = static_cast<std::uint8_t>(static_cast<std::uint64_t>(lastMs_) >> (40U - 8U * i));
    }
    id.bytes[6] = static_cast<std::uint8_t>(0x70U | (counter_ >> 8U));
    id.bytes[7] = static_cast<std::uint8_t>(counter_ & 0xFFU);
    const std::uint64_t random = random_.next();
    for (unsigned i = 0; i < 8; ++i) {
        id.bytes[8 + i] = static_cast<std::uint8_t>(random >> (56U - 8U * i));
    }
    id.bytes[8] = static_cast<std::uint8_t>(0x80U | (id.bytes[8] & 0x3FU));
    return id;
}

} // namespace loopside
