// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "report/pictures.h"

#include "report/record_parts.h"
#include "run/notes.h"
#include "words/record_told.h"

namespace loopside::report {

std::vector<PictureTold> picturesOf(const words::Words& words, const run::RunState& run, const NameOf& nameOf)
{
    std::vector<PictureTold> pictures;
    for (const run::Attachment& attachment : run::attachmentsOf(run)) {
        if (!attachment.withdrawn && attachment.added.kind != run::AttachmentKind::Sound) {
            pictures.push_back({attachment.added.hash,
                                joined({timeText(attachment.at), nameOf(attachment.person),
                                        words::attachmentLine(words, attachment), fileMark(words, attachment)})});
        }
    }
    return pictures;
}

} // namespace loopside::report
