// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Making what stands on the page. Texts go in as texts: nothing that somebody typed is ever read as HTML.

const svgSpace = "http://www.w3.org/2000/svg";

/** An element with attributes and children; children are elements or texts, what is empty is left out. */
export function make(name, attributes = {}, ...children) {
    return filled(document.createElement(name), attributes, children);
}

/** The same within a drawing. */
export function draw(name, attributes = {}, ...children) {
    return filled(document.createElementNS(svgSpace, name), attributes, children);
}

function filled(element, attributes, children) {
    for (const [name, value] of Object.entries(attributes)) {
        if (name.startsWith("on")) {
            element.addEventListener(name.slice(2), value);
        } else if (value === true) {
            element.setAttribute(name, "");
        } else if (value !== false && value !== undefined && value !== "") {
            element.setAttribute(name, value);
        }
    }
    element.append(...children.flat(3).filter(child => child !== undefined && child !== null && child !== "" && child !== false));
    return element;
}

const shapes = {
    ok: () => [draw("circle", {cx: 12, cy: 12, r: 10, class: "mark-ok"}),
               draw("path", {d: "M7 12.5l3.5 3.5L17 8.5", class: "mark-line", "stroke-width": 2.5})],
    note: () => [draw("circle", {cx: 12, cy: 12, r: 9.5, class: "mark-plain", "stroke-width": 2}),
                 draw("path", {d: "M12 11v6M12 7v1.5", class: "mark-ink", "stroke-width": 2.5})],
    caution: () => [draw("path", {d: "M12 2.5L22.5 21h-21z", class: "mark-caution", "stroke-width": 1.5, "stroke-linejoin": "round"}),
                    draw("path", {d: "M12 9v6M12 17v2", class: "mark-dark", "stroke-width": 2.5})],
    limit: () => [draw("path", {d: "M12 2.5L22.5 21h-21z", class: "mark-caution", "stroke-width": 1.5, "stroke-linejoin": "round"}),
                  draw("path", {d: "M6 15h12M8 18.5h8", class: "mark-dark", "stroke-width": 2.5})],
    stop: () => [draw("path", {d: "M8 2h8l6 6v8l-6 6H8l-6-6V8z", class: "mark-danger"}),
                 draw("path", {d: "M8 8l8 8M16 8l-8 8", class: "mark-line", "stroke-width": 3})],
    unknown: () => [draw("path", {d: "M12 2l10 10-10 10L2 12z", class: "mark-plain", "stroke-width": 2}),
                    draw("path", {d: "M9.5 10a2.5 2.5 0 1 1 2.5 2.5V14M12 16v1.5", class: "mark-ink", "stroke-width": 2})],
    done: () => [draw("rect", {x: 3, y: 3, width: 18, height: 18, class: "mark-plain", "stroke-width": 2}),
                 draw("path", {d: "M7 12.5l3.5 3.5L17 8.5", class: "mark-ink", "stroke-width": 2.5})],
    later: () => [draw("circle", {cx: 12, cy: 12, r: 9.5, class: "mark-plain", "stroke-width": 2}),
                  draw("path", {d: "M12 6.5V12l4 3", class: "mark-ink", "stroke-width": 2})],
    flush: () => [draw("path", {d: "M12 3c4 5.5 6 8 6 11a6 6 0 0 1-12 0c0-3 2-5.5 6-11z", class: "mark-plain", "stroke-width": 2})],
    waste: () => [draw("path", {d: "M5 6h14l-2 15H7zM9 6V3h6v3", class: "mark-plain", "stroke-width": 2})],
};

/** A state: its shape and its word. */
export function state(sign, word) {
    const shape = shapes[sign];
    return make("span", {class: "state"},
        shape && draw("svg", {viewBox: "0 0 24 24", "aria-hidden": "true"}, shape()), make("span", {}, word));
}

/** How full a stage is up to its change limit, as a bar with a mark where the limit is. */
export function fillBar(fill, sign, text) {
    const mark = sign === "stop" ? "mark-danger" : sign === "caution" || sign === "limit" ? "mark-caution" : "mark-ok";
    const width = Math.min(fill / 1.25, 1) * 156;
    return draw("svg", {class: "fill", viewBox: "0 0 160 20", role: "img", "aria-label": text},
        draw("rect", {x: 1, y: 1, width: 158, height: 18, class: "fill-room"}),
        draw("rect", {x: 2, y: 3, width, height: 14, class: fill === null ? "fill-room" : mark}),
        draw("path", {d: "M126.8 0V20", class: "fill-limit"}));
}
