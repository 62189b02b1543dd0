// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Asking the hub, and what its labels say.

let words = {language: "en", languages: ["en"], labels: {}};

/** The label of that name, in the language of the page. */
export const label = name => words.labels[name] ?? name;
export const language = () => words.language;
export const languages = () => words.languages;

/** What was refused, with its status; `answer` is what the hub said besides. */
export class Refused extends Error {
    constructor(status, answer) {
        super(answer.refused ?? "");
        this.status = status;
        this.answer = answer;
    }
}

const withLanguage = path => "/page/api/" + path + "?language=" + encodeURIComponent(words.language);

async function answerOf(path, options) {
    let response;
    try {
        response = await fetch(withLanguage(path), {credentials: "same-origin", cache: "no-store", ...options});
    } catch {
        throw new Refused(0, {});
    }
    const answer = await response.json().catch(() => ({}));
    if (!response.ok) {
        throw new Refused(response.status, answer);
    }
    return answer;
}

/** Asks for `path`. What the page asks by itself, to show what is new, keeps nobody signed in. */
export const get = (path, isByItself = false) => answerOf(path, isByItself ? {headers: {"X-Loopside-By-Itself": "1"}} : {});

export function post(path, body, type = "application/json") {
    return answerOf(path, {method: "POST", body, headers: {"Content-Type": type, "X-Loopside": "page"}});
}

/** The address of a file that the browser fetches by itself. */
export const fileAt = path => withLanguage(path);

/** Speaks `wanted`, or what the browser prefers. */
export async function speak(wanted) {
    const query = wanted ? "?language=" + encodeURIComponent(wanted) : "";
    const response = await fetch("/page/api/words" + query, {credentials: "same-origin", cache: "no-store"});
    words = await response.json();
    document.documentElement.lang = words.language;
}
