// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// One's own account: another password, and where else one is signed in.

import {label, post} from "./ask.js";
import {make} from "./make.js";

const told = make("div", {});

function say(text, isGood) {
    told.replaceChildren(make("p", {class: "told " + (isGood ? "good" : "bad"), role: isGood ? "status" : "alert", tabindex: "-1"}, text));
    told.firstChild.focus();
}

/** Runs `work` with `button` off; what it says, or why it was refused, stands at the head of the page. */
async function run(button, work, onRefused) {
    button.disabled = true;
    try {
        const text = await work();
        text && say(text, true);
        return true;
    } catch (refused) {
        say(refused.message || label("stale"), false);
        onRefused(refused);
        return false;
    } finally {
        button.disabled = false;
    }
}

function field(id, text, completion) {
    const input = make("input", {id, type: "password", autocomplete: completion, required: true, maxlength: "512"});
    return [input, make("div", {class: "field"}, make("label", {for: id}, label(text)), input)];
}

function passwordForm(onRefused, onChanged) {
    const [old, oldRow] = field("password-old", "password-old", "current-password");
    const [wanted, wantedRow] = field("password-wanted", "password-wanted", "new-password");
    const [again, againRow] = field("password-again", "password-again", "new-password");
    const button = make("button", {}, label("password-change"));
    return make("form", {onsubmit: async event => {
        event.preventDefault();
        if (wanted.value !== again.value) {
            say(label("password-differs"), false);
            return;
        }
        const change = async () => (await post("password", JSON.stringify({old: old.value, wanted: wanted.value}))).done;
        if (await run(button, change, onRefused)) {
            event.target.reset();
            onChanged();
        }
    }}, make("p", {}, label("password-how")), oldRow, wantedRow, againRow, button);
}

function row(session, end) {
    const button = make("button", {type: "button", class: "quiet"}, label("session-end"));
    button.addEventListener("click", () => end(button, {session: session.session}));
    return make("tr", {}, make("th", {scope: "row"}, session.begun), make("td", {"data-name": label("session-used"), class: "number"}, session.used),
        make("td", {}, session.isThis ? label("session-this") : button));
}

/** The list of sessions; `end` asks for some of them to be ended and shows the others. */
function list(rows, end) {
    const others = make("button", {type: "button", class: "quiet"}, label("sessions-end-others"));
    others.addEventListener("click", () => end(others, {}));
    return [make("table", {class: "rows", "aria-labelledby": "sessions"},
        make("thead", {}, make("tr", {}, ["session-begun", "session-used", "session-state"].map(name => make("th", {scope: "col"}, label(name))))),
        make("tbody", {}, rows.map(session => row(session, end)))),
    rows.length > 1 ? make("p", {}, make("br"), others) : ""].filter(Boolean);
}

export function accountPage(onRefused, rows, getRows) {
    told.replaceChildren();
    const sessions = make("div", {});
    const show = all => sessions.replaceChildren(...list(all, end));
    const end = (button, which) => run(button, async () => {
        show((await post("sessions/end", JSON.stringify(which))).rows);
        return label("sessions-ended");
    }, onRefused);
    show(rows);
    return [make("h1", {id: "title"}, label("account-title")), told, make("h2", {}, label("password-title")),
        passwordForm(onRefused, async () => show(await getRows())),
        make("h2", {id: "sessions"}, label("sessions-title")), sessions];
}
