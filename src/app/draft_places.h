// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/id.h"

namespace loopside::app {

/// Drafts of pages that belong to no run stand under an id that no run can have: all zero but for the last byte.
[[nodiscard]] constexpr Id draftsOfPage(std::uint8_t page)
{
    Id id;
    id.bytes.back() = page;
    return id;
}

inline constexpr Id stockDrafts = draftsOfPage(1);
inline constexpr Id tankDrafts = draftsOfPage(2);
inline constexpr Id cartDrafts = draftsOfPage(3);
inline constexpr Id fluidDrafts = draftsOfPage(4);
inline constexpr Id elementDrafts = draftsOfPage(5);
inline constexpr Id jobDrafts = draftsOfPage(6);
inline constexpr Id flushDrafts = draftsOfPage(9);
inline constexpr Id transferDrafts = draftsOfPage(10);
inline constexpr Id setupDrafts = draftsOfPage(11);
inline constexpr Id setupAnswers = draftsOfPage(12);
inline constexpr Id transferAnswers = draftsOfPage(13);
inline constexpr Id partDrafts = draftsOfPage(15);
inline constexpr Id skippedDrafts = draftsOfPage(16);
inline constexpr Id overrideDrafts = draftsOfPage(17);
inline constexpr Id withdrawDrafts = draftsOfPage(18);
inline constexpr Id noteDrafts = draftsOfPage(14);
inline constexpr Id tankReasonDrafts = draftsOfPage(20);
inline constexpr Id positionWish = draftsOfPage(21); ///< No draft: what this tablet is set to.
inline constexpr Id peopleDrafts = draftsOfPage(19);
inline constexpr Id kitDrafts = draftsOfPage(23);
inline constexpr Id takeOverDrafts = draftsOfPage(22);
inline constexpr Id loggedDrafts = draftsOfPage(8);

} // namespace loopside::app
