// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "report/pictures.h"

#include "report/record_parts.h"
#include "run/notes.h"
#include "words/record_told.h"

namespace loopside::report {

std::vector<AttachmentTold> attachmentsTold(const words::Words& words, const run::RunState& run, const NameOf& nameOf)
{
    std::vector<AttachmentTold> told;
    for (const run::Attachment& attachment : run::attachmentsOf(run)) {
        if (!attachment.withdrawn) {
            told.push_back({attachment.entry, attachment.added.kind, attachment.added.hash,
                            joined({timeText(attachment.at), nameOf(attachment.person),
                                    words::attachmentLine(words, attachment), fileMark(words, attachment)})});
        }
    }
    return told;
}

std::vector<AttachmentTold> picturesOf(const words::Words& words, const run::RunState& run, const NameOf& nameOf)
{
    auto told = attachmentsTold(words, run, nameOf);
    std::erase_if(told, [](const AttachmentTold& one) {
        return one.kind != run::AttachmentKind::Photo && one.kind != run::AttachmentKind::Drawing;
    });
    return told;
}

} // namespace loopside::report
