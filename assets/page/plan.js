// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The one form and the one upload: jobs. What was typed stays until the hub has said that it is stored.

import {label, post} from "./ask.js";
import {make} from "./make.js";

const fields = [["order", "order", true], ["tank", "tank", true], ["cart", "cart", false], ["reason", "reason", false],
    ["turnovers", "target-turnovers", false], ["target_code", "target-code", false], ["target_source", "target-source", false],
    ["due", "due", false], ["elements", "reserve", false]];

const told = make("div", {});

function say(text, isGood) {
    told.replaceChildren(make("p", {class: "told " + (isGood ? "good" : "bad"), role: isGood ? "status" : "alert", tabindex: "-1"}, text));
    told.firstChild.focus();
}

/** Sends; shows what came of it. `onFaults` hears what is wrong, part by part. */
async function send(button, work, onFaults, onRefused) {
    button.disabled = true;
    onFaults([]);
    try {
        say((await work()).done, true);
        return true;
    } catch (refused) {
        onFaults(refused.answer?.faults ?? []);
        say(refused.message || label("stale"), false);
        onRefused(refused);
        return false;
    } finally {
        button.disabled = false;
    }
}

const sentence = fault => [fault.value && fault.value + ":", fault.what + ".", fault.todo].filter(Boolean).join(" ");

function form(onRefused, tanks) {
    const inputs = {};
    const problems = {};
    const rows = fields.map(([name, text, isNeeded]) => {
        const id = "job-" + name;
        inputs[name] = make("input", {id, name, maxlength: "200", autocomplete: "off", required: isNeeded,
            list: name === "tank" ? "tanks" : "", "aria-describedby": id + "-problem"});
        problems[name] = make("p", {class: "problem", id: id + "-problem"});
        return make("div", {class: "field"}, make("label", {for: id}, label(text)), inputs[name], problems[name]);
    });
    const showFaults = faults => {
        for (const [name] of fields) {
            const own = faults.filter(fault => fault.column === name);
            inputs[name].toggleAttribute("aria-invalid", false);
            if (own.length > 0) {
                inputs[name].setAttribute("aria-invalid", "true");
            }
            problems[name].textContent = own.map(sentence).join(" ");
        }
        const whole = faults.filter(fault => !inputs[fault.column]);
        problems.order.textContent ||= whole.map(sentence).join(" ");
    };
    const button = make("button", {}, label("store"));
    return make("form", {onsubmit: async event => {
        event.preventDefault();
        const filled = Object.entries(inputs).map(([name, input]) => [name, input.value.trim()]).filter(([, value]) => value !== "");
        if (await send(button, () => post("jobs", JSON.stringify(Object.fromEntries(filled))), showFaults, onRefused)) {
            event.target.reset();
        }
    }}, make("datalist", {id: "tanks"}, tanks.map(tank => make("option", {value: tank}))), rows, button);
}

function upload(onRefused) {
    const input = make("input", {id: "jobs-file", type: "file", accept: ".csv,text/csv", required: true});
    const faultList = make("ul", {class: "problem"});
    const showFaults = faults => faultList.replaceChildren(...faults.map(fault =>
        make("li", {}, [fault.line + ":", fault.column, sentence(fault)].filter(Boolean).join(" "))));
    const button = make("button", {}, label("take-file"));
    return make("form", {onsubmit: async event => {
        event.preventDefault();
        const file = input.files[0];
        if (file && await send(button, async () => post("jobs.csv", await file.text(), "text/csv"), showFaults, onRefused)) {
            event.target.reset();
        }
    }}, make("p", {}, label("file-how")), make("div", {class: "field"}, make("label", {for: "jobs-file"}, label("file")), input), faultList, button);
}

export function planPage(onRefused, tanks) {
    told.replaceChildren();
    return [make("h1", {id: "title"}, label("plan-title")), told, make("p", {}, label("plan-how")), form(onRefused, tanks),
        make("h2", {}, label("file-title")), upload(onRefused)];
}
