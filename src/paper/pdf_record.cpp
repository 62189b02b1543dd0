// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/pdf_record.h"

#include <qpdf/Pipeline.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>

#include <exception>
#include <utility>

namespace loopside::paper {

namespace {

/// Takes what a stream is unpacked to, and no more than a record may have: a few bytes may unpack to any number.
class Taken final : public Pipeline
{
public:
    explicit Taken(std::size_t bytesMax) : Pipeline("record", nullptr), bytesMax_{bytesMax} {}

    void write(const unsigned char* data, std::size_t length) override
    {
        isTooLarge = isTooLarge || length > bytesMax_ - content.size();
        if (!isTooLarge) {
            content.append(data, data + length);
        }
    }

    void finish() override {}

    std::string content = {};
    bool isTooLarge = false; ///< What came behind it was let go.

private:
    std::size_t bytesMax_;
};

Result<std::string> attachedIn(QPDF& pdf, std::size_t bytesMax)
{
    for (const auto& [name, spec] : QPDFEmbeddedFileDocumentHelper(pdf).getEmbeddedFiles()) {
        if (!spec->getFilename().ends_with(".json")) {
            continue;
        }
        Taken taken(bytesMax);
        const bool isWhole = spec->getEmbeddedFileStream().pipeStreamData(&taken, 0, qpdf_dl_all);
        if (taken.isTooLarge) {
            return fail(Errc::Malformed, "the file that is attached to this PDF is larger than any record");
        }
        return isWhole ? Result<std::string>(std::move(taken.content))
                       : fail(Errc::Malformed, "the file that is attached to this PDF cannot be unpacked");
    }
    return fail(Errc::NotFound,
                "no file of a record is attached to this PDF; it is none that Loopside made, or a copy "
                "that left attachments out");
}

} // namespace

bool isPdf(std::string_view content)
{
    return content.starts_with("%PDF-");
}

Result<std::string> recordAttached(std::string_view pdf, std::size_t bytesMax)
{
    try {
        QPDF read;
        read.setSuppressWarnings(true);
        read.processMemoryFile("record", pdf.data(), pdf.size());
        return attachedIn(read, bytesMax);
    } catch (const std::exception& fault) { // the library tells what is wrong with a file so
        return fail(Errc::Malformed, std::string("this PDF cannot be read: ") + fault.what());
    }
}

} // namespace loopside::paper
