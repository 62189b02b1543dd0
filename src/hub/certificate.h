// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"
#include "ledger/chain.h"

#include <string>
#include <vector>

namespace loopside::hub {

/// Where the hub's certificate and its secret key are.
struct CertificateFiles
{
    std::string certificate; ///< PEM.
    std::string key;         ///< PEM, open to its owner alone.
};

/// The site's certificate in `files`: its fingerprint, SHA-256 over the DER form. If neither file is there, both are
/// made: a key of EC P-256 and a certificate signed by it for `names` (host names and addresses), good for twenty
/// years, since tablets are bound to this very certificate.
///
/// Conflict if the certificate is there without its key or the key file is open to others, Corrupt if they hold
/// something else or do not belong together, Io if they can be neither read nor made.
[[nodiscard]] Result<ledger::Hash> loadOrCreateCertificate(const CertificateFiles& files,
                                                           const std::vector<std::string>& names);

/// `fingerprint` as people compare it: pairs of capital hexadecimal digits with colons between them.
[[nodiscard]] std::string fingerprintText(const ledger::Hash& fingerprint);

} // namespace loopside::hub
