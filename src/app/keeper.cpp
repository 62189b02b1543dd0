// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/keeper.h"

#include "store/keeping.h"
#include "store/restore_reason.h"

namespace loopside::app {

Message restoreRecord(const words::Words& words, const std::string& path, const std::string& backupFolder,
                      std::int64_t wallMs)
{
    const auto restored = store::restoreByHand(path, {{}, backupFolder}, wallMs);
    if (!restored) {
        return {"record-not-restored", {{"reason", store::keepFailure(words, restored.error())}}};
    }
    const store::Recovered& made = restored->recovered;
    return {"record-restored",
            {{"entries", std::to_string(made.entries)},
             {"backups", std::to_string(made.fromBackups)},
             {"missing", std::to_string(made.missing())},
             {"path", made.keptAs.empty() ? "–" : made.keptAs}}};
}

} // namespace loopside::app
