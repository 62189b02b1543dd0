// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Which view is shown, who is signed in, and that what is shown is as of now.

import {accountPage} from "./account.js";
import {get, label, language, languages, post, speak} from "./ask.js";
import {make, state} from "./make.js";
import {planPage} from "./plan.js";
import {runPage} from "./run.js";
import {tableOf, views} from "./views.js";

const everyMs = 20000;
const content = document.getElementById("content");
let me = null;
let shown = "";
let timer = 0;

function nameEverything() {
    for (const element of document.querySelectorAll("[data-label]")) {
        element.textContent = label(element.dataset.label);
    }
    document.getElementById("language").replaceChildren(...languages().map(one => make("option", {value: one, selected: one === language()}, one)));
    document.getElementById("nav").setAttribute("aria-label", label("views"));
}

function showNav(counts = {}) {
    const names = [...Object.keys(views), "record", ...(me.mayPlan ? ["plan"] : []), "account"];
    const here = shown.split("/")[0];
    document.getElementById("nav").replaceChildren(make("ul", {}, names.map(name => make("li", {},
        make("a", {href: "#" + name, "aria-current": name === here ? "page" : ""}, label(name),
            counts[name] > 0 && make("span", {class: "count"}, String(counts[name])))))));
    document.getElementById("who").textContent = label("signed-in-as") + " " + me.name;
    document.getElementById("top").hidden = false;
}

/** Alerts and what is missing, counted beside their names. */
async function countAll(isByItself) {
    const [alerts, missing] = await Promise.all([get("alerts", isByItself), get("missing", isByItself)]);
    return {alerts: alerts.rows.length, missing: missing.rows.length};
}

const sessions = async () => (await get("sessions")).rows;

async function partsOf(view, isByItself) {
    if (view.startsWith("run/")) {
        return {parts: runPage(await get("runs/" + encodeURIComponent(view.slice(4)), isByItself)), answer: {}};
    }
    if (view === "account") {
        return {parts: accountPage(onRefused, await sessions(), sessions), answer: {}};
    }
    if (view === "plan") {
        return {parts: planPage(onRefused, (await get("tanks")).rows.map(row => row.name)), answer: {}};
    }
    const answer = await get(view === "record" ? "verify" : view, isByItself);
    const title = make("h1", {id: "title"}, label(view + "-title"));
    return view === "record"
        ? {parts: [title, make("p", {}, state(answer.sign, answer.word)), make("p", {}, answer.text),
            make("ul", {}, answer.faults.map(fault => make("li", {}, fault)))], answer}
        : {parts: [title, tableOf(view, answer.rows)], answer};
}

/** Where something is typed that is not to be shown anew. */
const isTypedAt = view => view === "plan" || view === "account";

/** Shows `view`; anew, with focus on it, if it is another than before. */
async function show(view, isByItself = false) {
    const isOther = view !== shown;
    shown = view;
    clearTimeout(timer);
    if (isOther) {
        content.replaceChildren(make("p", {role: "status"}, label("loading-page")));
    }
    try {
        const [{parts, answer}, counts] = await Promise.all([partsOf(view, isByItself), countAll(isByItself)]);
        if (shown !== view) {
            return;
        }
        showNav(counts);
        keepOpen(() => content.replaceChildren(...parts));
        document.title = (content.querySelector("h1")?.textContent ?? "") + " – Loopside";
        if (answer.site) {
            document.getElementById("site").textContent = answer.site;
        }
        document.getElementById("as-of").textContent = label("updated") + " " + new Date().toLocaleTimeString(language(), {hourCycle: "h23"});
        if (isOther) {
            content.focus({preventScroll: true});
            window.scrollTo(0, 0);
        }
    } catch (refused) {
        onRefused(refused);
        if (me !== null && refused.status !== 0 && isOther) {
            content.replaceChildren(make("p", {class: "told bad", role: "alert"}, refused.message));
        }
    }
    if (me !== null && !isTypedAt(view)) {
        timer = setTimeout(() => document.hidden ? undefined : show(shown, true), everyMs);
    }
}

/** Runs `change`; what stood open and where the page stood stays so. */
function keepOpen(change) {
    const open = [...content.querySelectorAll("details")].map(details => details.open);
    change();
    content.querySelectorAll("details").forEach((details, i) => {
        details.open = open[i] ?? false;
    });
}

function onRefused(refused) {
    if (refused.status === 401) {
        me = null;
        document.getElementById("top").hidden = true;
        signInPage(refused.message);
    } else if (refused.status === 0 || refused.status === undefined) {
        const asOf = document.getElementById("as-of");
        asOf.textContent = label("stale") + " " + asOf.textContent.replace(/^.* /, "");
    }
}

const nowShown = () => decodeURIComponent(location.hash.slice(1)) || "today";

function signInPage(why = "") {
    clearTimeout(timer);
    const dialog = content.querySelector("form") !== null && shown === "plan" ? make("div", {}) : null;
    const name = make("input", {id: "name", name: "username", autocomplete: "username", required: true, autocapitalize: "none", spellcheck: "false"});
    const password = make("input", {id: "password", name: "password", type: "password", autocomplete: "current-password", required: true});
    const problem = make("p", {class: "problem", role: "alert"}, why);
    const button = make("button", {}, label("sign-in"));
    const form = make("form", {class: "sign-in", onsubmit: async event => {
        event.preventDefault();
        button.disabled = true;
        try {
            me = await post("sign-in", JSON.stringify({name: name.value, password: password.value}));
            if (dialog !== null) {
                form.remove();
                showNav();
            } else {
                shown = "";
                await show(nowShown());
            }
        } catch (refused) {
            problem.textContent = refused.message || label("stale");
            password.select();
        } finally {
            button.disabled = false;
        }
    }}, make("h1", {id: "title"}, label("sign-in")), problem,
        make("div", {class: "field"}, make("label", {for: "name"}, label("name")), name),
        make("div", {class: "field"}, make("label", {for: "password"}, label("password")), password), button);
    document.title = label("sign-in") + " – Loopside";
    if (dialog !== null) {
        content.prepend(form); // what was typed below stays
    } else {
        content.replaceChildren(form);
    }
    name.focus();
}

async function begin() {
    await speak(localStorage.getItem("language") ?? "");
    nameEverything();
    const who = await get("me").catch(() => ({}));
    if (!who.name) {
        signInPage();
        return;
    }
    me = who;
    await show(nowShown());
}

window.addEventListener("hashchange", () => me !== null && show(nowShown()));
document.addEventListener("visibilitychange", () => !document.hidden && me !== null && !isTypedAt(shown) && show(shown));
document.getElementById("language").addEventListener("change", async event => {
    localStorage.setItem("language", event.target.value);
    await speak(event.target.value);
    nameEverything();
    if (me !== null) {
        const view = shown;
        shown = "";
        await show(view);
    } else {
        signInPage();
    }
});
document.getElementById("sign-out").addEventListener("click", async () => {
    await post("sign-out", "{}").catch(() => undefined);
    me = null;
    document.getElementById("top").hidden = true;
    signInPage();
});
begin();
