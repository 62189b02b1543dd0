// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "embedded/pageAccountJs.h"
#include "embedded/pageAskJs.h"
#include "embedded/pageChartJs.h"
#include "embedded/pageCss.h"
#include "embedded/pageIconSvg.h"
#include "embedded/pageIndexHtml.h"
#include "embedded/pageMainJs.h"
#include "embedded/pageMakeJs.h"
#include "embedded/pagePlanJs.h"
#include "embedded/pageRunJs.h"
#include "embedded/pageViewsJs.h"
#include "embedded/uplotCss.h"
#include "embedded/uplotJs.h"
#include "hub/page/router.h"

namespace loopside::page {

std::map<std::string, PageFile> pageFiles()
{
    const std::string html = "text/html; charset=utf-8";
    const std::string css = "text/css; charset=utf-8";
    const std::string js = "text/javascript; charset=utf-8";
    const auto file = [](const std::string& type, std::string_view text) { return PageFile{type, std::string(text)}; };
    return {{"/page/", file(html, pageIndexHtml())},     {"/page/page.css", file(css, pageCss())},
            {"/page/face.css", file(css, "")},           {"/page/icon.svg", file("image/svg+xml", pageIconSvg())},
            {"/page/ask.js", file(js, pageAskJs())},     {"/page/make.js", file(js, pageMakeJs())},
            {"/page/views.js", file(js, pageViewsJs())}, {"/page/chart.js", file(js, pageChartJs())},
            {"/page/run.js", file(js, pageRunJs())},     {"/page/plan.js", file(js, pagePlanJs())},
            {"/page/page.js", file(js, pageMainJs())},   {"/page/uplot.js", file(js, uplotJs())},
            {"/page/uplot.css", file(css, uplotCss())},  {"/page/account.js", file(js, pageAccountJs())}};
}

std::map<std::string, PageFile> pageFilesWithFace(std::string regular, std::string bold)
{
    std::map<std::string, PageFile> files = pageFiles();
    files["/page/face.css"].bytes =
        "@font-face { font-family: B612; src: url(\"/page/b612.otf\"); font-display: swap; }\n"
        "@font-face { font-family: B612; font-weight: bold; src: url(\"/page/b612-bold.otf\"); font-display: swap; }\n";
    files["/page/b612.otf"] = {"font/otf", std::move(regular)};
    files["/page/b612-bold.otf"] = {"font/otf", std::move(bold)};
    return files;
}

} // namespace loopside::page
