// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// One run: how it stands, its chart, findings with their reasons, alerts, entries.

import {fileAt, label} from "./ask.js";
import {chartOf} from "./chart.js";
import {make, state} from "./make.js";

const fact = (name, value) => value ? make("div", {}, make("dt", {}, label(name)), make("dd", {}, value)) : "";

function list(title, lines) {
    return lines.length === 0 ? "" : [make("p", {class: "dim"}, label(title)), make("ul", {}, lines.map(line => make("li", {}, line)))];
}

function finding(row) {
    return make("div", {class: "finding"}, make("p", {}, state(row.sign, row.text)), make("p", {}, row.do), make("p", {}, row.hazard),
        make("details", {}, make("summary", {}, label("because")),
            list("because", row.because), list("ruled-out", row.ruledOut), list("confirm", row.confirm)));
}

function entries(rows) {
    const columns = ["at", "entry", "person", "time"];
    return make("table", {class: "rows", "aria-labelledby": "entries"},
        make("thead", {}, make("tr", {}, columns.map(name => make("th", {scope: "col"}, label(name))))),
        make("tbody", {}, rows.map(row => make("tr", {}, make("th", {scope: "row"}, row.at),
            make("td", {}, row.text, row.mark && make("br"), row.mark && make("span", {class: "dim"}, row.mark)),
            make("td", {"data-name": label("person")}, row.person), make("td", {"data-name": label("time"), class: "number"}, row.time)))));
}

/** A picture, a sound or the record of the run; in its place a word where it is still on the tablet. */
function attached(file) {
    const source = {src: fileAt(file.path)};
    const shown = !file.isHere ? make("p", {class: "dim"}, label("file-not-here"))
        : file.kind === "document" ? make("a", {class: "button", href: fileAt(file.path), download: true}, label("pdf"))
        : file.kind === "sound" ? make("audio", {...source, controls: true, preload: "metadata", "aria-label": file.text})
        : make("img", {...source, alt: file.text, loading: "lazy"});
    return make("figure", {}, shown, make("figcaption", {}, file.text));
}

/** Everything of a run, as the hub tells it. */
export function runPage(run) {
    return [
        make("p", {}, make("a", {href: "#today"}, "← " + label("back"))),
        make("h1", {id: "title"}, run.name),
        make("p", {}, state(run.sign, run.word)),
        make("p", {}, run.detail),
        make("dl", {class: "facts"}, fact("turnovers", run.turnovers), fact("state", run.mode), fact("next", run.next),
            fact("started", run.started), fact("person", run.person), fact("order", run.job), fact("run-code", run.code)),
        run.closing && make("p", {class: "told"}, run.closing),
        make("ul", {class: "plain"}, run.stages.map(stage => make("li", {}, state(stage.sign, stage.text + " · " + stage.word)))),
        chartOf(run.chart),
        make("h2", {}, label("findings")),
        run.findings.length === 0 ? make("p", {}, label("no-findings")) : run.findings.map(finding),
        run.leftOut.length > 0 && make("details", {}, make("summary", {}, label("left-out")), make("ul", {}, run.leftOut.map(line => make("li", {}, line)))),
        make("h2", {}, label("alerts")),
        run.alerts.length === 0 ? make("p", {}, label("no-alerts"))
            : run.alerts.map(alert => make("div", {class: "finding"}, make("p", {}, state(alert.sign, alert.text)), make("p", {class: "dim"}, alert.became))),
        run.files.length > 0 && make("h2", {}, label("files")),
        run.files.length > 0 && make("div", {class: "files"}, run.files.map(attached)),
        make("h2", {id: "entries"}, label("entries")),
        make("p", {}, make("a", {class: "button", href: fileAt("runs/" + run.id + ".csv"), download: true}, label("csv"))),
        entries(run.entries),
    ].flat().filter(Boolean);
}
