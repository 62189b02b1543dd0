// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/id.h"
#include "base/result.h"

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::hub {

/// How a hub runs. Each can stand in the file of settings (TOML) by the name given here, and in the environment as
/// LOOPSIDE_HUB_<NAME>, which takes precedence.
struct Settings
{
    std::string listen = "0.0.0.0";                 ///< listen: the address to listen at.
    int port = 8443;                                ///< port: 0 takes any that is free.
    std::string folder = "/var/lib/loopside-hub";   ///< folder: of key, certificate and the hub's own file.
    std::string database;                           ///< database: a connection string of PostgreSQL; empty: the file.
    Id site = {};                                   ///< site: its id; none: the one that the database holds.
    std::string catalogue;                          ///< catalogue: a file of the site as tablets have it; may be empty.
    std::vector<std::string> names = {"localhost"}; ///< names: in the certificate; in the environment with commas.

    [[nodiscard]] std::string file() const { return folder + "/hub.sqlite"; }
    [[nodiscard]] std::string keyFile() const { return folder + "/hub.key"; }
    [[nodiscard]] std::string certificateFile() const { return folder + "/certificate.pem"; }
    [[nodiscard]] std::string certificateKeyFile() const { return folder + "/certificate.key"; }
};

/// A variable of the environment.
using Environment = std::function<std::optional<std::string>(const std::string& name)>;

/// The settings in `toml`, the text of the file `path` (empty where there is none), and in the environment. Malformed,
/// with the place, for what is no TOML, a name that is no setting, or a value that fits none. No value of `database`
/// stands in a sentence.
[[nodiscard]] Result<Settings> settingsFrom(std::string_view toml, const std::string& path,
                                            const Environment& environment);

} // namespace loopside::hub
