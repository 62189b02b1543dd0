// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Entries that add a file or withdraw one.

#pragma once

#include "base/text.h"
#include "ledger/body.h"
#include "ledger/digest.h"
#include "ledger/recorder.h"

namespace loopside::test {

inline ledger::Draft draftOfRun(const run::Event& event)
{
    return {std::string(ledger::kindOf(event)), ledger::bodyOf(event), Recorder::idOf(0xA0, 1), {}, {}};
}

/// A file as an attachment has it: a salt, then `content`.
inline std::string fileOf(const std::string& content, char salt = 's')
{
    return std::string(32, salt) + content;
}

inline ledger::Draft added(const std::string& file)
{
    return draftOfRun(run::AttachmentAdded{run::AttachmentKind::Photo,
                                           {},
                                           toHex(ledger::sha256(file)),
                                           static_cast<std::int64_t>(file.size()) - 32,
                                           "image/png",
                                           "gauge 2"});
}

inline ledger::Draft withdrawn(const Id& entry)
{
    return draftOfRun(run::AttachmentWithdrawn{entry, "a face is on it"});
}

/// The entry of `draft`, with which the chain of `recorder` goes on.
inline ledger::Entry sealedBy(Recorder& recorder, const ledger::Draft& draft)
{
    const auto sealed = recorder.seal({draft});
    recorder.sealer().accept(sealed);
    return sealed.front();
}

} // namespace loopside::test
