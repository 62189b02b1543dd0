// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The trend of a run: raw ΔP against its change limits, and the loading on a strip of its own below. The same as on the
// tablet: raw broken, loading solid, the way ahead a band, stages told apart by colour, by the dash and by the mark.

import uPlot from "./uplot.js";
import {label} from "./ask.js";
import {draw, make} from "./make.js";

const colour = name => getComputedStyle(document.documentElement).getPropertyValue(name).trim();
const stageColour = i => colour("--stage" + (i % 4 + 1));
const dashes = [[8, 5], [3, 4], [12, 4, 3, 4], [1, 4]];

/** Circle, square, triangle, diamond: one for each stage. */
function mark(context, i, x, y, r) {
    const corners = [null, [[-1, -1], [1, -1], [1, 1], [-1, 1]], [[0, -1.2], [1.2, 1], [-1.2, 1]], [[0, -1.4], [1.4, 0], [0, 1.4], [-1.4, 0]]][i % 4];
    context.beginPath();
    if (corners === null) {
        context.arc(x, y, r, 0, 2 * Math.PI);
    } else {
        corners.forEach(([dx, dy], k) => k === 0 ? context.moveTo(x + dx * r, y + dy * r) : context.lineTo(x + dx * r, y + dy * r));
        context.closePath();
    }
    context.fill();
}

const drawMarks = stage => (plot, series) => {
    const {ctx} = plot;
    ctx.save();
    ctx.fillStyle = stageColour(stage);
    plot.data[series].forEach((value, k) => {
        if (value !== null && value !== undefined) {
            mark(ctx, stage, plot.valToPos(plot.data[0][k], "x", true), plot.valToPos(value, "y", true), 4 * uPlot.pxRatio);
        }
    });
    ctx.restore();
    return false;
};

function drawSpans(plot, spans) {
    const {ctx, bbox} = plot;
    ctx.save();
    ctx.beginPath();
    ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
    ctx.clip();
    for (const span of spans) {
        const from = plot.valToPos(span.from, "x", true);
        const to = plot.valToPos(span.to, "x", true);
        ctx.fillStyle = colour("--shade");
        ctx.fillRect(from, bbox.top, to - from, bbox.height);
        if (span.isDoubtful) {
            hatch(ctx, from, to, bbox);
        }
    }
    ctx.restore();
}

function hatch(ctx, from, to, bbox) {
    ctx.save();
    ctx.beginPath();
    ctx.rect(from, bbox.top, to - from, bbox.height);
    ctx.clip();
    ctx.strokeStyle = colour("--edge");
    ctx.lineWidth = uPlot.pxRatio;
    ctx.beginPath();
    for (let x = from - bbox.height; x < to; x += 12 * uPlot.pxRatio) {
        ctx.moveTo(x, bbox.top + bbox.height);
        ctx.lineTo(x + bbox.height, bbox.top);
    }
    ctx.stroke();
    ctx.restore();
}

/** Words over the curves: what the spans are, limits with their values, changeovers, samples. */
function drawWords(plot, chart) {
    const {ctx, bbox} = plot;
    const px = uPlot.pxRatio;
    ctx.save();
    ctx.font = "bold " + 13 * px + "px B612, sans-serif";
    ctx.fillStyle = colour("--ink");
    ctx.textBaseline = "top";
    ctx.textAlign = "left";
    for (const span of chart.spans) {
        const from = plot.valToPos(span.from, "x", true);
        const room = plot.valToPos(span.to, "x", true) - from - 6 * px;
        const text = ctx.measureText(span.text).width <= room ? span.text : span.isDoubtful && room > 6 * px ? "?" : "";
        ctx.fillText(text, from + 3 * px, bbox.top + 3 * px);
    }
    chart.stages.forEach((stage, i) => {
        drawLimit(plot, stage, i);
        for (const minute of stage.changedAt) {
            drawUpright(plot, minute, stageColour(i), dashes[0], "↻ " + (i + 1), 34 * px);
        }
    });
    for (const sample of chart.samples) {
        drawUpright(plot, sample.minute, colour("--ink"), [2, 3], chart.texts.sample, 18 * px);
    }
    ctx.restore();
}

/** A line over the whole height, its letters `above` its foot. */
function drawUpright(plot, minute, stroke, dash, text, above) {
    const {ctx, bbox} = plot;
    const px = uPlot.pxRatio;
    const x = plot.valToPos(minute, "x", true);
    ctx.save();
    ctx.strokeStyle = stroke;
    ctx.lineWidth = 2 * px;
    ctx.setLineDash(dash.map(length => length * px));
    ctx.beginPath();
    ctx.moveTo(x, bbox.top);
    ctx.lineTo(x, bbox.top + bbox.height);
    ctx.stroke();
    ctx.fillStyle = stroke;
    ctx.fillText(text, x + 4 * px, bbox.top + bbox.height - above);
    ctx.restore();
}

function drawLimit(plot, stage, i) {
    if (stage.limit === null) {
        return;
    }
    const {ctx, bbox} = plot;
    const px = uPlot.pxRatio;
    const y = plot.valToPos(stage.limit, "y", true);
    ctx.save();
    ctx.strokeStyle = colour("--limit");
    ctx.fillStyle = colour("--limit");
    ctx.lineWidth = 3 * px;
    ctx.setLineDash([]);
    ctx.beginPath();
    ctx.moveTo(bbox.left, y);
    ctx.lineTo(bbox.left + bbox.width, y);
    ctx.stroke();
    ctx.textAlign = "right";
    ctx.textBaseline = "bottom";
    ctx.fillText(stage.name + ": " + stage.limitText, bbox.left + bbox.width - 16 * px, y - 3 * px);
    ctx.fillStyle = stageColour(i);
    mark(ctx, i, bbox.left + bbox.width - 7 * px, y - 9 * px, 4.5 * px);
    ctx.restore();
}

const axis = text => ({
    label: text, labelFont: "14px B612, sans-serif", font: "13px B612, sans-serif", stroke: colour("--ink"),
    grid: {stroke: colour("--line"), width: 1}, ticks: {stroke: colour("--edge"), width: 1}, size: 56, labelSize: 22,
});

function options(chart, width, height, yText, top, series, bands, isStrip) {
    const most = Math.max(...top.filter(Number.isFinite), 1);
    return {
        width, height, series, bands,
        legend: {show: false},
        cursor: {drag: {x: false, y: false}},
        scales: {x: {time: false, range: [0, chart.endMinute]}, y: {range: [0, most * 1.12]}},
        axes: [{...axis(isStrip ? chart.texts.minutes : ""), size: 34, labelSize: isStrip ? 22 : 0}, axis(yText)],
        hooks: {
            drawClear: [plot => drawSpans(plot, chart.spans)],
            draw: isStrip ? [] : [plot => drawWords(plot, chart)],
        },
    };
}

/** The curves of all stages over one row of minutes. A curve goes on over a set that tells nothing of its stage, and is
    broken where the stage's elements were changed: to uPlot the first is undefined, the second null. */
function curves(chart, member) {
    const minutes = [...new Set([...chart.minutes, ...chart.stages.flatMap(stage => stage.changedAt)])].sort((a, b) => a - b);
    const told = new Map(chart.minutes.map((minute, k) => [minute, k]));
    const valueOf = (stage, minute) => told.has(minute) ? stage[member][told.get(minute)] ?? undefined
        : stage.changedAt.includes(minute) ? null : undefined;
    return [minutes, ...chart.stages.map(stage => minutes.map(minute => valueOf(stage, minute)))];
}

/** Raw ΔP, and the band of the way ahead behind its stage's curve. */
function rawPlot(chart, place, width) {
    const stages = chart.stages.map(stage => stage.raw);
    const tables = [curves(chart, "raw")];
    const series = [{}, ...chart.stages.map((stage, i) => ({
        label: stage.name, stroke: stageColour(i), width: 2.5, dash: dashes[i % 4], points: {show: drawMarks(i)},
    }))];
    const bands = [];
    const top = [...stages.flat(), ...chart.stages.map(stage => stage.limit)];
    if (chart.ahead !== null) {
        const {ahead} = chart;
        const highest = chart.stages[ahead.stage].limit ?? Math.max(...top.filter(Number.isFinite));
        const within = values => values.map(value => Math.min(value, highest));
        tables.push([ahead.minutes, within(ahead.low), within(ahead.high)]);
        const edge = {stroke: stageColour(ahead.stage), width: 1.5, spanGaps: true, points: {show: false}};
        series.push({...edge, label: "low"}, {...edge, label: "high"});
        bands.push({series: [series.length - 1, series.length - 2], fill: stageColour(ahead.stage) + "33"});
    }
    return new uPlot(options(chart, width, 320, chart.texts.raw + ", " + chart.unit, top, series, bands, false),
        tables.length > 1 ? uPlot.join(tables) : tables[0], place);
}

function loadingPlot(chart, place, width) {
    const stages = chart.stages.map(stage => stage.loading);
    const series = [{}, ...chart.stages.map((stage, i) => ({
        label: stage.name, stroke: stageColour(i), width: 2.5, points: {show: drawMarks(i)},
    }))];
    return new uPlot(options(chart, width, 170, chart.texts.loading, stages.flat(), series, [], true),
        curves(chart, "loading"), place);
}

function legend(chart) {
    const shape = i => [draw("circle", {cx: 20, cy: 8, r: 4}), draw("rect", {x: 16, y: 4, width: 8, height: 8}),
        draw("path", {d: "M20 3l5 9h-10z"}), draw("path", {d: "M20 2l6 6-6 6-6-6z"})][i % 4];
    const items = chart.stages.map((stage, i) => make("li", {},
        draw("svg", {viewBox: "0 0 40 16", "aria-hidden": "true", class: "line" + (i % 4 + 1)},
            draw("path", {d: "M0 8H40", "stroke-width": 2.5, "stroke-dasharray": dashes[i % 4].join(" ")}), shape(i)), stage.name));
    const texts = [chart.stages.some(stage => stage.changedAt.length > 0) && "↻: " + label("changed"),
        chart.samples.length > 0 && chart.texts.samples, chart.spans.some(span => span.isDoubtful) && chart.texts.doubt,
        chart.texts.ahead];
    return make("ul", {class: "legend"}, items, texts.filter(Boolean).map(text => make("li", {}, text)));
}

/** The same in numbers: for who does not see the curves, and for who wants them exactly. */
function numbers(chart) {
    const shown = value => value === null ? "–" : String(Math.round(value * 10) / 10);
    const head = chart.stages.flatMap(stage => [stage.name + " " + chart.texts.raw + ", " + chart.unit, stage.name + " " + chart.texts.loading]);
    return make("details", {}, make("summary", {}, label("chart-table")),
        make("div", {class: "scroll", tabindex: "0", role: "region", "aria-label": label("chart-table")}, make("table", {},
            make("thead", {}, make("tr", {}, make("th", {scope: "col"}, label("minutes")), head.map(text => make("th", {scope: "col"}, text)))),
            make("tbody", {}, chart.minutes.map((minute, k) => make("tr", {}, make("th", {scope: "row"}, shown(minute)),
                chart.stages.flatMap(stage => [make("td", {class: "number"}, shown(stage.raw[k])), make("td", {class: "number"}, shown(stage.loading[k]))])))))));
}

/** The chart of a run, drawn as soon as it stands on the page, and anew when its room changes. */
export function chartOf(chart) {
    const place = make("div", {class: "chart", role: "img", "aria-label": label("chart")});
    let plots = [];
    const drawAll = width => {
        plots.forEach(plot => plot.destroy());
        plots = [rawPlot(chart, place, width), loadingPlot(chart, place, width)];
    };
    let drawn = 0;
    const watch = new ResizeObserver(([entry]) => {
        const width = Math.floor(entry.contentRect.width);
        if (width > 0 && width !== drawn) {
            drawn = width;
            drawAll(width);
        }
    });
    watch.observe(place);
    return make("section", {"aria-labelledby": "chart-title"}, make("h2", {id: "chart-title"}, label("chart")), legend(chart), place,
        numbers(chart));
}
