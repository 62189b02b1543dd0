// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/certificate.h"

#include "base/text.h"
#include "store/durable_file.h"

#include <arpa/inet.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/rand.h>
#include <openssl/x509v3.h>
#include <sys/stat.h>

#include <array>
#include <fstream>
#include <memory>
#include <sstream>

namespace loopside::hub {

namespace {

template<class T, void (*Free)(T*)>
struct FreeWith
{
    void operator()(T* held) const { Free(held); }
};
using Key = std::unique_ptr<EVP_PKEY, FreeWith<EVP_PKEY, EVP_PKEY_free>>;
using Certificate = std::unique_ptr<X509, FreeWith<X509, X509_free>>;
using Bytes = std::unique_ptr<BIO, FreeWith<BIO, BIO_free_all>>;
using Extension = std::unique_ptr<X509_EXTENSION, FreeWith<X509_EXTENSION, X509_EXTENSION_free>>;

constexpr long secondsOfTwentyYears = 20L * 365 * 24 * 3600;
constexpr long version3 = 2;
constexpr std::size_t nameBytesMax = 253;

tl::unexpected<Error> notMade()
{
    return fail(Errc::Io, "the hub's certificate could not be made: the system's cryptography refused");
}

/// Whether `name` may stand in a certificate: letters, digits, dots, dashes and colons, so that it cannot say more.
bool isName(const std::string& name)
{
    return !name.empty() && name.size() <= nameBytesMax
        && name.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.-:")
        == std::string::npos;
}

bool isAddress(const std::string& name)
{
    std::array<std::uint8_t, sizeof(in6_addr)> address = {};
    return inet_pton(AF_INET, name.c_str(), address.data()) == 1
        || inet_pton(AF_INET6, name.c_str(), address.data()) == 1;
}

std::string subjectNames(const std::vector<std::string>& names)
{
    std::string text;
    for (const std::string& name : names) {
        text += (text.empty() ? "" : ",") + std::string(isAddress(name) ? "IP:" : "DNS:") + name;
    }
    return text;
}

bool addExtension(X509* certificate, int kind, const std::string& value)
{
    const Extension extension(X509V3_EXT_conf_nid(nullptr, nullptr, kind, value.c_str()));
    return extension && X509_add_ext(certificate, extension.get(), -1) == 1;
}

bool addSerial(X509* certificate)
{
    std::array<unsigned char, 16> random = {};
    if (RAND_bytes(random.data(), static_cast<int>(random.size())) != 1) {
        return false;
    }
    random[0] = static_cast<unsigned char>((random[0] & 0x7FU) | 0x40U); // positive, and of full length
    const std::unique_ptr<BIGNUM, FreeWith<BIGNUM, BN_free>> number(
        BN_bin2bn(random.data(), static_cast<int>(random.size()), nullptr));
    return number && BN_to_ASN1_INTEGER(number.get(), X509_get_serialNumber(certificate)) != nullptr;
}

bool nameItself(X509* certificate)
{
    X509_NAME* name = X509_get_subject_name(certificate);
    const std::string words = "Loopside site hub";
    return X509_NAME_add_entry_by_txt(name, "CN", MBSTRING_UTF8, reinterpret_cast<const unsigned char*>(words.data()),
                                      static_cast<int>(words.size()), -1, 0)
        == 1
        && X509_set_issuer_name(certificate, name) == 1;
}

bool fill(X509* certificate, EVP_PKEY* key, const std::vector<std::string>& names)
{
    constexpr long anHour = 3600; // a tablet's clock may be a little behind
    return X509_set_version(certificate, version3) == 1 && addSerial(certificate)
        && X509_gmtime_adj(X509_getm_notBefore(certificate), -anHour) != nullptr
        && X509_gmtime_adj(X509_getm_notAfter(certificate), secondsOfTwentyYears) != nullptr
        && X509_set_pubkey(certificate, key) == 1 && nameItself(certificate)
        && addExtension(certificate, NID_basic_constraints, "critical,CA:FALSE")
        && addExtension(certificate, NID_key_usage, "critical,digitalSignature")
        && addExtension(certificate, NID_ext_key_usage, "serverAuth")
        && addExtension(certificate, NID_subject_alt_name, subjectNames(names))
        && X509_sign(certificate, key, EVP_sha256()) > 0;
}

std::string contentOf(BIO* bytes)
{
    char* data = nullptr;
    const long size = BIO_get_mem_data(bytes, &data);
    return {data, static_cast<std::size_t>(size)};
}

Done make(const CertificateFiles& files, const std::vector<std::string>& names)
{
    for (const std::string& name : names) {
        if (!isName(name)) {
            return fail(Errc::Malformed, "\"" + quotable(name) + "\" is neither a host name nor an address");
        }
    }
    const Key key(EVP_EC_gen("P-256"));
    const Certificate certificate(X509_new());
    if (names.empty() || !key || !certificate || !fill(certificate.get(), key.get(), names)) {
        return notMade();
    }
    const Bytes secret(BIO_new(BIO_s_secmem()));
    const Bytes open(BIO_new(BIO_s_mem()));
    if (!secret || !open
        || PEM_write_bio_PrivateKey(secret.get(), key.get(), nullptr, nullptr, 0, nullptr, nullptr) != 1
        || PEM_write_bio_X509(open.get(), certificate.get()) != 1) {
        return notMade();
    }
    return store::replacePrivateFile(files.key, contentOf(secret.get())).and_then([&] {
        return store::replacePrivateFile(files.certificate, contentOf(open.get()));
    });
}

Done mayKeep(const std::string& keyFile)
{
    struct stat found = {};
    if (::stat(keyFile.c_str(), &found) != 0) {
        return fail(Errc::Io, keyFile + " cannot be read");
    }
    const bool isOpenToOthers = (found.st_mode & (S_IRWXG | S_IRWXO)) != 0;
    return isOpenToOthers ? fail(Errc::Conflict, keyFile + " is open to others: chmod 600 it") : Done{};
}

template<class Read>
auto readPem(const std::string& path, Read read)
{
    std::ostringstream text;
    text << std::ifstream(path).rdbuf();
    const std::string content = text.str();
    const Bytes bytes(BIO_new_mem_buf(content.data(), static_cast<int>(content.size())));
    return read(bytes.get());
}

Result<ledger::Hash> load(const CertificateFiles& files)
{
    if (const Done may = mayKeep(files.key); !may) {
        return fail(may.error());
    }
    const Key key(readPem(files.key, [](BIO* in) { return PEM_read_bio_PrivateKey(in, nullptr, nullptr, nullptr); }));
    const Certificate certificate(
        readPem(files.certificate, [](BIO* in) { return PEM_read_bio_X509(in, nullptr, nullptr, nullptr); }));
    if (!key || !certificate || X509_check_private_key(certificate.get(), key.get()) != 1) {
        return fail(Errc::Corrupt,
                    files.certificate + " and " + files.key
                        + " are no certificate and its key: put them back from where they are kept. Without them every "
                          "tablet must be enrolled anew");
    }
    ledger::Hash fingerprint = {};
    unsigned size = 0;
    if (X509_digest(certificate.get(), EVP_sha256(), fingerprint.data(), &size) != 1 || size != fingerprint.size()) {
        return notMade();
    }
    return fingerprint;
}

} // namespace

Result<ledger::Hash> loadOrCreateCertificate(const CertificateFiles& files, const std::vector<std::string>& names)
{
    const auto hasCertificate = store::isThere(files.certificate);
    const auto hasKey = store::isThere(files.key);
    if (!hasCertificate || !hasKey) {
        return fail(hasCertificate ? hasKey.error() : hasCertificate.error());
    }
    if (*hasCertificate && !*hasKey) {
        return fail(Errc::Conflict, files.certificate + " is there and its key, " + files.key + ", is not");
    }
    // A key alone is what a first start left that was cut off between the two files.
    const Done ready = *hasCertificate ? Done{} : make(files, names);
    return ready ? load(files) : fail(ready.error());
}

std::string fingerprintText(const ledger::Hash& fingerprint)
{
    std::string text;
    for (const std::uint8_t byte : fingerprint) {
        constexpr std::string_view digits = "0123456789ABCDEF";
        text += text.empty() ? "" : ":";
        text += digits[byte >> 4U];
        text += digits[byte & 0x0FU];
    }
    return text;
}

} // namespace loopside::hub
