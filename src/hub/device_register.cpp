// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/device_register.h"

#include "base/text.h"
#include "hub/entry_row.h"
#include "ledger/digest.h"

#include <openssl/crypto.h>

namespace loopside::hub {

namespace {

constexpr std::string_view deviceColumns = "device_id, public_key, name, enrolled_at, revoked_at";

Done doneOf(const Result<std::vector<SqlRow>>& rows)
{
    return rows ? Done{} : fail(rows.error());
}

Result<Device> deviceFrom(const SqlRow& row)
{
    Device device;
    device.name = row.bytes(2);
    device.enrolledAtMs = row.number(3);
    if (!row.isNothing(4)) {
        device.revokedAtMs = row.number(4);
    }
    const Done taken = take(row.bytes(0), device.id.bytes).and_then([&] { return take(row.bytes(1), device.key); });
    return taken ? Result<Device>(std::move(device)) : fail(taken.error());
}

ledger::Hash hashOfSecret(const std::string& secret)
{
    return ledger::sha256("loopside enrolment secret " + secret);
}

Result<SiteRecord> siteFrom(const SqlRow& row)
{
    SiteRecord record;
    const Done taken = take(row.bytes(0), record.site.bytes).and_then([&] {
        return take(row.bytes(1), record.log.bytes);
    });
    return taken ? Result<SiteRecord>(record) : fail(taken.error());
}

Result<SiteRecord> newSite(Sql& sql, const Id& wanted, std::int64_t nowMs, RandomSource& random)
{
    IdMaker ids(random);
    const SiteRecord record = {wanted.isNone() ? ids.next(nowMs) : wanted, ids.next(nowMs)};
    const Done made = doneOf(sql.run("INSERT INTO sites (site_id, log_id, made_at) VALUES ($1, $2, $3)",
                                     {valueOf(record.site), valueOf(record.log), nowMs}));
    return made ? Result<SiteRecord>(record) : fail(made.error());
}

} // namespace

Result<SiteRecord> siteIn(Sql& sql, const Id& wanted, std::int64_t nowMs, RandomSource& random)
{
    return inTransaction(sql, Id{}, [&]() -> Result<SiteRecord> {
        const auto rows = wanted.isNone()
            ? sql.run("SELECT site_id, log_id FROM sites")
            : sql.run("SELECT site_id, log_id FROM sites WHERE site_id = $1", {valueOf(wanted)});
        if (!rows) {
            return fail(rows.error());
        }
        if (rows->size() > 1) {
            return fail(Errc::Conflict,
                        "the database holds several sites: name the one of this hub in its settings (site = \"…\")");
        }
        return rows->empty() ? newSite(sql, wanted, nowMs, random) : siteFrom(rows->front());
    });
}

Done noteDeed(Sql& sql, const Id& site, std::int64_t nowMs, std::string_view what)
{
    const auto last = sql.run("SELECT max(number) FROM deeds WHERE site_id = $1", {valueOf(site)});
    if (!last) {
        return fail(last.error());
    }
    const std::int64_t number = last->front().isNothing(0) ? 1 : last->front().number(0) + 1;
    return doneOf(sql.run("INSERT INTO deeds (site_id, number, done_at, what) VALUES ($1, $2, $3, $4)",
                          {valueOf(site), number, nowMs, what}));
}

Result<std::vector<std::string>> deedsOf(Sql& sql, const Id& site)
{
    return sql.run("SELECT done_at, what FROM deeds WHERE site_id = $1 ORDER BY number", {valueOf(site)})
        .transform([](const std::vector<SqlRow>& rows) {
            std::vector<std::string> deeds;
            for (const SqlRow& row : rows) {
                deeds.push_back(utcText(row.number(0)) + " " + row.bytes(1));
            }
            return deeds;
        });
}

Done DeviceRegister::addCode(const std::string& secret, std::int64_t nowMs)
{
    const ledger::Hash hash = hashOfSecret(secret);
    return inTransaction(*sql_, site_, [&] {
        return doneOf(sql_->run("INSERT INTO enrolment_codes (site_id, secret_hash, expires_at) VALUES ($1, $2, $3)",
                                {valueOf(site_), valueOf(hash), nowMs + codeLastsMs}))
            .and_then([&] { return noteDeed(*sql_, site_, nowMs, "a code was made that lets one tablet in"); });
    });
}

Done DeviceRegister::enrol(const sync::EnrolmentRequest& request, std::int64_t nowMs)
{
    return inTransaction(*sql_, site_, [&]() -> Done {
        const auto known = find(request.device);
        if (!known) {
            return fail(known.error());
        }
        if (!*known) {
            return useCode(request.secret, nowMs).and_then([&] { return letIn(request, nowMs); });
        }
        if ((*known)->key != request.key) {
            return fail(Errc::Conflict, "a tablet with this id is enrolled already, with another key");
        }
        if ((*known)->revokedAtMs) {
            return fail(Errc::Conflict,
                        "this tablet was struck off: it needs a new key before it can be enrolled again");
        }
        return {};
    });
}

Done DeviceRegister::letIn(const sync::EnrolmentRequest& request, std::int64_t nowMs)
{
    return put({request.device, request.key, request.name, nowMs, {}}).and_then([&] {
        return noteDeed(*sql_, site_, nowMs, "the tablet " + toText(request.device) + " was enrolled");
    });
}

/// Looks at every valid code, equally long at each.
Done DeviceRegister::useCode(const std::string& secret, std::int64_t nowMs)
{
    const ledger::Hash hash = hashOfSecret(secret);
    const auto codes = sql_->run("SELECT secret_hash FROM enrolment_codes WHERE site_id = $1 AND expires_at > $2",
                                 {valueOf(site_), nowMs});
    if (!codes) {
        return fail(codes.error());
    }
    bool isValid = false;
    for (const SqlRow& row : *codes) {
        const std::string& kept = row.bytes(0);
        const bool isSame = kept.size() == hash.size() && CRYPTO_memcmp(kept.data(), hash.data(), hash.size()) == 0;
        isValid = isValid || isSame;
    }
    if (!isValid) {
        return fail(Errc::NotFound,
                    "this enrolment code is not valid: it was mistyped, used, or is older than 15 minutes. Print a new "
                    "one at the hub with loopside-hub enrol");
    }
    return doneOf(sql_->run("DELETE FROM enrolment_codes WHERE site_id = $1 AND (secret_hash = $2 OR expires_at <= $3)",
                            {valueOf(site_), valueOf(hash), nowMs}));
}

Result<std::optional<Device>> DeviceRegister::find(const Id& device) const
{
    static const std::string select = "SELECT " + std::string(deviceColumns)
        + " FROM devices WHERE site_id = $1 AND device_id = $2";
    return firstOf(rowsAs(sql_->run(select, {valueOf(site_), valueOf(device)}), deviceFrom));
}

Result<std::vector<Device>> DeviceRegister::all() const
{
    static const std::string select = "SELECT " + std::string(deviceColumns)
        + " FROM devices WHERE site_id = $1 ORDER BY enrolled_at, device_id";
    return rowsAs(sql_->run(select, {valueOf(site_)}), deviceFrom);
}

Done DeviceRegister::put(const Device& device)
{
    return doneOf(sql_->run("INSERT INTO devices (site_id, device_id, public_key, name, enrolled_at) "
                            "VALUES ($1, $2, $3, $4, $5)",
                            {valueOf(site_), valueOf(device.id), valueOf(device.key), std::string_view(device.name),
                             device.enrolledAtMs}))
        .and_then([&] {
            return device.revokedAtMs
                ? doneOf(sql_->run("UPDATE devices SET revoked_at = $3 WHERE site_id = $1 AND device_id = $2",
                                   {valueOf(site_), valueOf(device.id), *device.revokedAtMs}))
                : Done{};
        });
}

Done DeviceRegister::revoke(const Id& device, std::int64_t nowMs)
{
    return inTransaction(*sql_, site_, [&]() -> Done {
        const auto struck = sql_->run("UPDATE devices SET revoked_at = coalesce(revoked_at, $1) "
                                      "WHERE site_id = $2 AND device_id = $3 RETURNING revoked_at",
                                      {nowMs, valueOf(site_), valueOf(device)});
        if (!struck) {
            return fail(struck.error());
        }
        if (struck->empty()) {
            return fail(Errc::NotFound, "no tablet with the id " + toText(device) + " is enrolled at this site");
        }
        return noteDeed(*sql_, site_, nowMs, "the tablet " + toText(device) + " was struck off");
    });
}

Done DeviceRegister::useNonce(const sync::RequestProof& proof, std::int64_t nowMs)
{
    const auto used = sql_->runLightly("INSERT INTO nonces (site_id, device_id, nonce, stamped_at) "
                                       "VALUES ($1, $2, $3, $4) ON CONFLICT DO NOTHING RETURNING stamped_at",
                                       {valueOf(site_), valueOf(proof.device), valueOf(proof.nonce), proof.atMs});
    if (!used) {
        return fail(used.error());
    }
    if (used->empty()) {
        return fail(Errc::Conflict, "this request was made before: nothing was taken; sign it anew");
    }
    const bool isTimeToClear = proof.nonce[0] == 0; // once in 256 times
    return isTimeToClear ? doneOf(sql_->runLightly("DELETE FROM nonces WHERE site_id = $1 AND stamped_at < $2",
                                                   {valueOf(site_), nowMs - sync::requestWindowMs}))
                         : Done{};
}

} // namespace loopside::hub
