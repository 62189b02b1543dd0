// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/enrolment.h"

#include "ledger/recorder.h"
#include "sync/enrolment_code.h"

using namespace loopside;
using namespace loopside::sync;
using loopside::test::Recorder;

namespace {

ledger::Hash fingerprint()
{
    ledger::Hash hash = {};
    hash[0] = 0xFF;
    hash[7] = 0x1F; // its upper four bits end the pin, its lower four are beyond it
    return hash;
}

EnrolmentRequest someRequest()
{
    return {Recorder::idOf(0xD0, 1), Recorder::keyOf(1).publicKey(), "7K3M9Q2T", "tablet \"2\" Öl"};
}

std::string replaced(std::string text, const std::string& what, const std::string& with)
{
    const auto at = text.find(what);
    REQUIRE(at != std::string::npos);
    return text.replace(at, what.size(), with);
}

} // namespace

TEST_CASE("a code is shown in groups and read as it is typed")
{
    const EnrolmentCode code = {enrolmentSecretOf({0x00, 0x44, 0x32, 0x14, 0xC7}), enrolmentPinOf(fingerprint())};
    CHECK(code.secret == "01234567"); // 00000 00001 00010 00011 00100 00101 00110 00111
    CHECK(code.pin == "ZW0000000001");
    CHECK(toText(code) == "0123-4567-ZW00-0000-0001");
    CHECK(enrolmentCodeFrom("0123-4567-ZW00-0000-0001").value() == code);
    CHECK(enrolmentCodeFrom(" oi234567 zwOOooOO OOOl").value() == code);
    CHECK_FALSE(enrolmentCodeFrom("0123-4567-ZW00-0000-000"));
    CHECK_FALSE(enrolmentCodeFrom("0123-4567-ZW00-0000-00012"));
    const auto wrong = enrolmentCodeFrom("0123-4567-ZW00-0000-000U");
    REQUIRE_FALSE(wrong);
    CHECK(wrong.error().sentence.find("0123") == std::string::npos); // a secret goes into no log
}

TEST_CASE("what is said at an enrolment comes back as it was")
{
    CHECK(enrolmentRequestFrom(bytesOf(someRequest())).value() == someRequest());
    const EnrolmentAnswer answer = {Recorder::idOf(0x51, 1), Recorder::keyOf(99).publicKey()};
    CHECK(enrolmentAnswerFrom(bytesOf(answer)).value() == answer);
}

TEST_CASE("an enrolment that is none is refused, a newer one says so")
{
    const std::string sound = bytesOf(someRequest());
    for (const std::string& bytes :
         {std::string(), std::string("{}"), sound + "x", replaced(sound, "7K3M9Q2T", "7K3M9Q2"),
          replaced(sound, "\"name\"", "\"names\""), replaced(sound, "tablet", std::string(65, 't')),
          replaced(sound, "tablet", std::string(enrolmentBytesMax, 't'))}) {
        const auto read = enrolmentRequestFrom(bytes);
        INFO(bytes);
        REQUIRE_FALSE(read);
        CHECK(read.error().code == Errc::Malformed);
    }
    const auto newer = enrolmentRequestFrom(replaced(sound, "_enrolment\":1", "_enrolment\":2"));
    REQUIRE_FALSE(newer);
    CHECK(newer.error().code == Errc::Incompatible);
    CHECK_FALSE(enrolmentAnswerFrom(sound));
}
