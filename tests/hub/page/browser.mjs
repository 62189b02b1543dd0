// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The site page in a real browser, on a desk and on a phone: signs in, sees each view, a run with its chart, the form. Each is
// looked at by axe-core for what keeps people out.
//
//   node browser.mjs PAGE_OVER_PIPE PLAYWRIGHT_CORE CHROMIUM AXE_CORE [PICTURES]
//
// PLAYWRIGHT_CORE and AXE_CORE are the folders of the unpacked npm packages of those names. Ends with 0 if all held, else with
// what did not. PICTURES: a folder for a picture of each view.

import assert from "node:assert/strict";
import {spawn} from "node:child_process";
import fs from "node:fs";
import http from "node:http";
import {createRequire} from "node:module";
import readline from "node:readline";

const [program, playwright, chromium, axeCore, pictures] = process.argv.slice(2);
const browsers = createRequire(import.meta.url)(playwright);
const axeSource = fs.readFileSync(axeCore + "/axe.min.js", "utf8");

/** A server on the loopback that asks the router over its pipe, one request after the other. */
function serve() {
    const router = spawn(program, [], {stdio: ["pipe", "pipe", "inherit"]});
    const waiting = [];
    readline.createInterface({input: router.stdout}).on("line", line => line.startsWith("{") && waiting.shift()?.(JSON.parse(line)));
    const server = http.createServer((request, response) => {
        const parts = [];
        request.on("data", part => parts.push(part));
        request.on("end", () => {
            const url = new URL(request.url, "http://localhost");
            waiting.push(answer => {
                answer.headers.forEach(([name, value]) => response.setHeader(name, value));
                response.writeHead(answer.status);
                response.end(Buffer.from(answer.body, "hex"));
            });
            router.stdin.write(JSON.stringify({method: request.method, path: decodeURIComponent(url.pathname),
                query: Object.fromEntries(url.searchParams), headers: request.headers, body: Buffer.concat(parts).toString()}) + "\n");
        });
    });
    return new Promise(ready => server.listen(0, "127.0.0.1", () => ready({
        address: "http://localhost:" + server.address().port + "/", stop: () => (server.close(), router.kill())})));
}

/** What must not be: errors on the console (but that a job or a password was refused), and requests to elsewhere. */
function watch(page, address, faults) {
    const isRefusal = text => text.includes("422") || text.includes("403");
    page.on("console", message => ["error", "warning"].includes(message.type()) && !isRefusal(message.text()) && faults.push(message.text()));
    page.on("pageerror", error => faults.push(error.message));
    page.on("request", request => !request.url().startsWith(address) && faults.push("asked elsewhere: " + request.url()));
}

/** No rule of axe-core is broken: WCAG 2.0 to 2.2 up to level AAA where it has rules, and its best practices. */
async function isForAll(page, name) {
    await page.evaluate(axeSource);
    const broken = await page.evaluate(async () => (await axe.run(document, {rules: {"color-contrast-enhanced": {enabled: true}}})).violations
        .map(rule => rule.id + ": " + rule.help + " – " + rule.nodes.map(node => node.html + " (" + node.failureSummary + ")").join(" | ")));
    assert.deepEqual(broken, [], name + " by axe-core");
}

async function fits(page, name) {
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert.ok(over <= 0, name + " is wider than its window by " + over);
    await isForAll(page, name);
    if (pictures) {
        await page.screenshot({path: pictures + "/" + name + ".png", fullPage: true});
    }
}

async function seeViews(page, name) {
    const rows = {today: 5, tanks: 5, stages: 4, alerts: 1, missing: 3, elements: 4};
    for (const [view, least] of Object.entries(rows)) {
        await page.click("nav a[href='#" + view + "']");
        await page.waitForSelector("nav a[aria-current][href='#" + view + "']");
        await page.waitForSelector("table tbody tr");
        const shown = await page.locator("tbody tr").count();
        assert.ok(shown >= least, view + " has " + shown + " rows");
        assert.equal(await page.locator("tbody .state").count(), shown * 1, view + ": a state in each row");
        await fits(page, name + "-" + view);
    }
}

async function seeRun(page, name) {
    await page.click("nav a[href='#today']");
    await page.waitForSelector("nav a[aria-current][href='#today']");
    await page.click("tbody a[href^='#run/']");
    await page.waitForSelector(".chart canvas");
    await page.waitForFunction(() => [...document.querySelectorAll(".chart canvas")].length === 2
        && [...document.querySelectorAll(".chart canvas")].every(canvas =>
            canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height).data.some(byte => byte > 0)));
    assert.equal(await page.locator("main b, main script").count(), 0, "what somebody typed is no HTML");
    assert.ok((await page.textContent("main")).includes("<script>alert(1)</script>"), "it stands as it was typed");
    assert.ok(await page.locator(".finding").count() > 1, "findings and alerts");
    await page.waitForFunction(() => [...document.querySelectorAll(".files img")].some(image => image.naturalWidth > 0));
    assert.equal(await page.locator(".files figure").count(), 3);
    assert.equal(await page.locator(".files p.dim").count(), 2, "what is still on the tablet is told in words");
    const offered = await page.locator(".files [href], .files [src]").evaluateAll(all => all.map(one => one.href || one.src));
    assert.equal(offered.length, 1, "a picture that is here, and no record that is not");
    for (const address of offered) {
        assert.equal((await page.request.get(address)).status(), 200, "what is offered is there");
    }
    await fits(page, name + "-run");
    const download = page.waitForEvent("download");
    await page.click("a[download][href*='.csv']");
    assert.match((await download).suggestedFilename(), /^run-.*\.csv$/);
}

/** Whether the record holds: the one view that is no table. */
async function seeVerify(page, name) {
    await page.click("nav a[href='#record']");
    await page.waitForSelector("nav a[aria-current][href='#record']");
    await page.waitForSelector("main .state");
    assert.ok((await page.textContent("main")).length > 60, "what was checked is told in words");
    await fits(page, name + "-record");
}

/** A file of jobs, of which one row cannot be read and one can: the rows are told, and a good file is taken. */
async function uploadJobs(page, name) {
    await page.click("nav a[href='#plan']");
    const put = async text => {
        await page.setInputFiles("#jobs-file", {name: "jobs.csv", mimeType: "text/csv", buffer: Buffer.from(text)});
        await page.locator("form:has(#jobs-file) button").click();
    };
    await put("order,tank\nWO-21,Nowhere\n");
    await page.waitForSelector("form:has(#jobs-file) .problem li");
    assert.match(await page.textContent("form:has(#jobs-file) .problem"), /^2:/, "the row of the file is named");
    await fits(page, name + "-plan-file");
    await put("order,tank\nWO-21,Winder gearbox\nWO-22,Press hydraulic unit\n");
    await page.waitForSelector(".told.good");
}

async function planJob(page, name) {
    await page.click("nav a[href='#plan']");
    await page.fill("#job-order", "WO-9");
    await page.fill("#job-tank", "Nowhere");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".told.bad");
    assert.equal(await page.getAttribute("#job-tank", "aria-invalid"), "true");
    assert.equal(await page.inputValue("#job-order"), "WO-9", "what was typed stays");
    await fits(page, name + "-plan");
    await page.fill("#job-tank", "Winder gearbox");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".told.good");
}

async function keepAccount(page, name) {
    await page.click("nav a[href='#account']");
    await page.waitForSelector("table tbody tr");
    assert.equal(await page.locator("tbody tr").count(), 1, "signed in here alone");
    await page.fill("#password-old", "not the one I have");
    await page.fill("#password-wanted", "quite another four words");
    await page.fill("#password-again", "quite another four words");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".told.bad");
    await fits(page, name + "-account");
    await page.fill("#password-old", "four plain words here");
    await page.fill("#password-wanted", "password1234");
    await page.fill("#password-again", "password1234");
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => document.querySelector(".told.bad")?.textContent.length > 100);
    assert.equal(await page.inputValue("#password-old"), "four plain words here", "what was typed stays");
    await page.fill("#password-wanted", "quite another four words");
    await page.fill("#password-again", "quite another four word");
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => document.querySelector(".told.bad")?.textContent.length < 100);
    assert.equal(await page.locator(".told.good").count(), 0, "two that differ change nothing");
}

async function signIn(page) {
    await page.waitForSelector("#name");
    await page.keyboard.type("ines"); // the field has the focus
    await page.keyboard.press("Tab");
    await page.keyboard.type("four plain words here");
    await page.keyboard.press("Enter");
    await page.waitForSelector("table tbody tr");
}

async function tryOn(browser, address, name, viewport, locale, colorScheme) {
    const context = await browser.newContext({viewport, locale, colorScheme});
    const page = await context.newPage();
    const faults = [];
    watch(page, address, faults);
    await page.goto(address);
    await page.waitForSelector("#name");
    await fits(page, name + "-sign-in");
    await signIn(page);
    assert.equal(await page.getAttribute("html", "lang"), locale);
    await seeViews(page, name);
    await seeVerify(page, name);
    await seeRun(page, name);
    await uploadJobs(page, name);
    await planJob(page, name);
    await keepAccount(page, name);
    await page.click("#sign-out");
    await page.waitForSelector("#password");
    assert.equal(await page.locator("nav a:visible").count(), 0, "nothing of the site is left");
    assert.deepEqual(faults, []);
    await context.close();
}

const server = await serve();
const browser = await browsers.chromium.launch({executablePath: chromium, args: ["--no-sandbox"]});
try {
    await tryOn(browser, server.address, "desk", {width: 1280, height: 800}, "en", "light");
    await tryOn(browser, server.address, "phone", {width: 390, height: 844}, "de", "light");
    await tryOn(browser, server.address, "night", {width: 1280, height: 800}, "es", "dark");
    console.log("the page holds on a desk, on a phone and at night");
} finally {
    await browser.close();
    server.stop();
}
