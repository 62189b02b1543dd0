// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/system_clock.h"

#include "base/require.h"

#include <sys/random.h>

#include <array>
#include <bit>
#include <cerrno>
#include <ctime>
#include <fstream>
#include <string>

namespace loopside::store {

namespace {

timespec readClock(clockid_t clock)
{
    timespec time = {};
    require(clock_gettime(clock, &time) == 0, "the system has this clock");
    return time;
}

/// Local time minus UTC at `time`, minutes.
int offsetAt(std::time_t time)
{
    std::tm local = {};
    require(localtime_r(&time, &local) != nullptr, "the wall clock shows a year that can be written");
    return static_cast<int>(local.tm_gmtoff / 60);
}

Id randomId()
{
    SystemRandom random;
    const std::array halves = {random.next(), random.next()};
    return {std::bit_cast<std::array<std::uint8_t, 16>>(halves)};
}

/// None if the kernel does not say.
Id bootId()
{
    std::string text;
    std::ifstream("/proc/sys/kernel/random/boot_id") >> text;
    return idFromText(text).value_or(Id{});
}

std::uint64_t nanosecondsOf(const timespec& time)
{
    return static_cast<std::uint64_t>(time.tv_sec) * 1'000'000'000U + static_cast<std::uint64_t>(time.tv_nsec);
}

} // namespace

SystemClock::SystemClock() : boot_{bootId()}
{
    if (boot_.isNone()) {
        boot_ = randomId();
        startNs_ = nanosecondsOf(readClock(CLOCK_BOOTTIME));
    }
}

Stamp SystemClock::now()
{
    const timespec wall = readClock(CLOCK_REALTIME);
    const std::uint64_t monoNs = nanosecondsOf(readClock(CLOCK_BOOTTIME));
    tzset(); // localtime_r need not do it, and the time zone may have become another
    Stamp stamp;
    stamp.wallMs = std::int64_t{wall.tv_sec} * 1000 + wall.tv_nsec / 1'000'000;
    stamp.offsetMin = offsetAt(wall.tv_sec);
    stamp.monoNs = monoNs - startNs_;
    stamp.boot = boot_;
    return stamp;
}

std::uint64_t SystemRandom::next()
{
    std::uint64_t number = 0;
    ssize_t got = 0;
    do {
        got = getrandom(&number, sizeof(number),
                        0); // up to 256 bytes come whole, or not at all when a signal came first
    } while (got < 0 && errno == EINTR);
    require(got == sizeof(number), "the system gives randomness");
    return number;
}

} // namespace loopside::store
