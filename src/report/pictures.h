// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What is shown of the attachments of a run: its entries tell only the hashes of their files.

#pragma once

#include "report/entry_text.h"
#include "run/state.h"

#include <string>
#include <vector>

namespace loopside::report {

struct AttachmentTold
{
    Id entry = {}; ///< The one that added it.
    run::AttachmentKind kind = run::AttachmentKind::Photo;
    std::string hash;    ///< The name of its file.
    std::string caption; ///< When and by whom it was kept, what was written to it, how its file begins.
};

/// The attachments of `run` in the order in which they were kept; none that was withdrawn.
[[nodiscard]] std::vector<AttachmentTold> attachmentsTold(const words::Words& words, const run::RunState& run,
                                                          const NameOf& nameOf);

/// Of those the photos and drawings.
[[nodiscard]] std::vector<AttachmentTold> picturesOf(const words::Words& words, const run::RunState& run,
                                                     const NameOf& nameOf);

} // namespace loopside::report
