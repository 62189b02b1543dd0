// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/pdf_record.h"

#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>

#include <exception>
#include <memory>

namespace loopside::paper {

namespace {

Result<std::string> attachedIn(QPDF& pdf, std::size_t bytesMax)
{
    for (const auto& [name, spec] : QPDFEmbeddedFileDocumentHelper(pdf).getEmbeddedFiles()) {
        if (!spec->getFilename().ends_with(".json")) {
            continue;
        }
        const std::shared_ptr<Buffer> content = spec->getEmbeddedFileStream().getStreamData(qpdf_dl_all);
        if (content->getSize() > bytesMax) {
            return fail(Errc::Malformed, "the file that is attached to this PDF is larger than any record");
        }
        return std::string(content->getBuffer(), content->getBuffer() + content->getSize());
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
