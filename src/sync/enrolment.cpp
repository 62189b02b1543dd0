// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/enrolment.h"

#include "base/text.h"
#include "ledger/json_parts.h"
#include "sync/enrolment_code.h"

#include <nlohmann/json.hpp>

namespace loopside::sync {

namespace {

using Json = nlohmann::ordered_json;
using ledger::JsonReader;

constexpr std::string_view versionKey = "loopside_enrolment";
constexpr int version = 1;

std::string written(const Json& said)
{
    Json object = {{std::string(versionKey), version}};
    object.update(said);
    return object.dump(-1, ' ', false, Json::error_handler_t::replace) + '\n';
}

EnrolmentRequest readRequest(const JsonReader& object)
{
    object.onlyKeys({versionKey, "device", "key", "secret", "name"});
    EnrolmentRequest request = {ledger::idOf(object.at("device")), ledger::hexOf<32>(object.at("key")),
                                object.at("secret").text(), object.at("name").text()};
    if (request.secret.size() != enrolmentSecretSigns) {
        object.at("secret").refuse("the secret of an enrolment code has eight signs");
    }
    if (request.name.size() > deviceNameBytesMax) {
        object.at("name").refuse("the name of a tablet has at most 64 bytes");
    }
    return request;
}

EnrolmentAnswer readAnswer(const JsonReader& object)
{
    object.onlyKeys({versionKey, "site", "hub_key"});
    return {ledger::idOf(object.at("site")), ledger::hexOf<32>(object.at("hub_key"))};
}

template<class Read>
auto readVersioned(std::string_view bytes, Read read) -> Result<std::invoke_result_t<Read, JsonReader>>
{
    const ledger::JsonLimits limits = {enrolmentBytesMax, 2};
    const auto stated = ledger::readJson(
        bytes, [](const JsonReader& object) { return ledger::wholeOf<int>(object.at(versionKey)); }, limits);
    if (!stated) {
        return fail(Errc::Malformed, "this is no enrolment of Loopside: " + stated.error().sentence);
    }
    if (*stated > version) {
        return fail(Errc::Incompatible,
                    "the other side enrols in version " + std::to_string(*stated) + " and this one in "
                        + std::to_string(version) + ": update Loopside here first");
    }
    return ledger::readJson(bytes, read, limits);
}

} // namespace

std::string bytesOf(const EnrolmentRequest& request)
{
    return written({{"device", toText(request.device)},
                    {"key", toHex(request.key)},
                    {"secret", request.secret},
                    {"name", request.name}});
}

std::string bytesOf(const EnrolmentAnswer& answer)
{
    return written({{"site", toText(answer.site)}, {"hub_key", toHex(answer.hubKey)}});
}

Result<EnrolmentRequest> enrolmentRequestFrom(std::string_view bytes)
{
    return readVersioned(bytes, readRequest);
}

Result<EnrolmentAnswer> enrolmentAnswerFrom(std::string_view bytes)
{
    return readVersioned(bytes, readAnswer);
}

} // namespace loopside::sync
