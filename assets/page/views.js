// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The views that are one table each. The hub has done the thinking; here stand the columns.

import {label} from "./ask.js";
import {fillBar, make, state} from "./make.js";

const runLink = row => row.id ? make("a", {href: "#run/" + row.id}, row.name) : row.name;
const percent = fill => Math.round(fill * 100) + " %";

function stageFill(row) {
    return row.fill === null ? label("not-known")
        : make("span", {}, fillBar(row.fill, row.sign, percent(row.fill)), make("span", {class: "whole"}, row.drop + " (" + percent(row.fill) + ")"));
}

/** Each view: its table's columns, the first one the row's head. A column is a label and what it holds. */
export const views = {
    today: [["what", runLink], ["state", row => state(row.sign, row.word)], ["detail", row => row.detail],
            ["next", row => row.next], ["started", row => row.started]],
    tanks: [["tank", row => make("span", {}, runLink(row), make("br"), make("span", {class: "dim"}, row.detail))],
            ["target", row => state(row.sign, row.word)],
            ["code", row => row.code || label("not-known")], ["target-code", row => row.target],
            ["turnovers", row => row.turnovers], ["state", row => row.state]],
    stages: [["run", runLink], ["stage", row => make("span", {class: "whole"}, row.stage, make("br"), make("span", {class: "dim"}, row.elements))],
             ["state", row => state(row.sign, row.word)], ["drop", stageFill], ["limit", row => row.limit],
             ["loading", row => row.loading], ["ahead", row => row.ahead]],
    alerts: [["run", runLink], ["state", row => state(row.sign, row.word)], ["what", row => row.text],
             ["time", row => row.became]],
    missing: [["run", runLink], ["missing", row => state(row.sign, row.word)], ["what", row => row.text],
              ["since", row => row.since]],
    elements: [["type", row => row.name], ["state", row => state(row.sign, row.word)], ["stock", row => row.stock],
               ["used", row => String(row.used)], ["wanted", row => row.wanted], ["where", row => row.where]],
};

/** The heading of a column; those that say too much elsewhere are shorter here. */
const heading = name => name === "target-code" ? label("target") + " (ISO 4406)" : label(name);

/** The table of a view, or a sentence that there is nothing. */
export function tableOf(name, rows) {
    const columns = views[name];
    if (rows.length === 0) {
        return make("p", {class: "told"}, label("none-" + name));
    }
    const body = rows.map(row => make("tr", {class: row.isLoud ? "loud" : ""},
        columns.map(([column, hold], i) => i === 0
            ? make("th", {scope: "row"}, hold(row))
            : make("td", {"data-name": heading(column)}, hold(row)))));
    return make("table", {class: "rows", "aria-labelledby": "title"},
        make("thead", {}, make("tr", {}, columns.map(([column]) => make("th", {scope: "col"}, heading(column))))),
        make("tbody", {}, body));
}
