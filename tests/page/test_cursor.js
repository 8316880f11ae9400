"use strict";
/* The cursor on the charts of the live page in Chromium: what it says is what the program says natively.
 *
 * Usage: node test_cursor.js PROGRAM PAGE SOURCE_DIR [--axe AXE.JS] [--pictures FOLDER] */

const { spawnSync } = require("child_process");
const assert = require("assert");
const fs = require("fs");
const path = require("path");
const { program, source, scratch, MATERIALS, ask, verdictIs, until, runTests } = require("./work.js");

const NOSE = path.join(source, "cases/nose.csv");
const rail = 16; /* line of 'new rail - forced 1/2' in nose.csv, the worst case */
const native = (input, ...more) => ask("check", input, ...more).rows;
const nativeSweep = (...words) => ask("sweep", NOSE, ...words).rows;

/* The page of the example's load cases. */
const file = path.join(scratch, "nose.html");
spawnSync(program, ["check", "--live", "--report", file, "-o", path.join(scratch, "nose_out.csv"), "--materials", MATERIALS, NOSE]);

const tests = {
  async "the cursor on the chart along a column is moved by keys"(page) {
    await page.open(file);
    await page.until("document.documentElement.dataset.settled");
    const { from, to } = await page.run("controls.get('miss_a').range"), step = (to - from) / 40;
    const rows = nativeSweep("--row", String(rail), "--vary", `miss_a=${from}in:${to}in:${step}in`);
    const reading = (row) => [`miss_a ${Number(row.miss_a.toPrecision(6))} in`, `margin ${(100 * row.margin).toFixed(1)} %`, `${row.governs} governs`,
      ...["column", "yield", "interaction"].map((name) => `${name} reaches ${(Math.floor(100 * row[`${name}_factor`]) / 100).toFixed(2)}`)].join("; ");
    await page.focus("#along .cursor");
    for (const [key, times, at] of [["End", 1, 40], ["ArrowLeft", 3, 37], ["PageDown", 4, 5], ["ArrowRight", 2, 7], ["Home", 1, 0], ["ArrowDown", 1, 0], ["PageUp", 1, 8]]) {
      await page.key(key, times);
      const row = rows[at], said = await page.run("(() => { const c = document.querySelector('#along .cursor'); return [c.getAttribute('role'), c.getAttribute('aria-valuetext'), c.getAttribute('aria-valuenow'), document.querySelector('#along .reading').textContent]; })()");
      const sign = row.margin < 0 ? "" : "+", words = reading(row).replace("margin ", `margin ${sign}`);
      assert.deepStrictEqual([said[0], said[1], said[3]], ["slider", words, words]);
      assert.ok(Math.abs(Number(said[2]) - row.miss_a) < 1e-8);
    }
    await page.focus("#take");
    await page.key("Enter");
    const row = native(NOSE, "--row", String(rail), "--set", `miss_a=${rows[8].miss_a}in`)[0];
    await until(page, row.margin);
    await verdictIs(page, row);
    assert.strictEqual(Number(await page.run("document.querySelector('#set-miss_a').value")), rows[8].miss_a);
    await page.until("document.querySelector('#along .others')");
    assert.ok((await page.text("#along .reading")).startsWith(`miss_a ${rows[8].miss_a} in; `));
    await page.focus("#set-miss_a-slider");
    await page.key("ArrowRight", 24); /* the cursor goes with the value */
    const value = Number(await page.run("document.querySelector('#set-miss_a').value"));
    await page.until(`Math.abs(Number(document.querySelector('#along .cursor').getAttribute('aria-valuenow')) - ${value}) <= ${step / 2 + 1e-9}`);
  },

  async "the cursor is dragged by pointer and by touch"(page) {
    await page.until("document.querySelector('#along .others')");
    const middles = await page.run("[...document.querySelectorAll('#along .stop[data-x]')].map((s) => [stripMiddle(s) / 360, s.dataset.x])");
    const near = (share) => middles.reduce((best, at) => (Math.abs(at[0] - share) < Math.abs(best[0] - share) ? at : best))[1];
    const before = await page.text("#verdict");
    await page.drag("#along svg.cursored", 0.2, 0.55);
    assert.strictEqual(await page.run("document.querySelector('#along .cursor').getAttribute('aria-valuenow')"), near(0.55));
    assert.strictEqual(await page.run("document.activeElement.getAttribute('role')"), "slider");
    const [x, y, w, h] = await page.run("(() => { const e = document.querySelector('#along svg.cursored'); e.scrollIntoView({ block: 'center' }); const r = e.getBoundingClientRect(); return [r.x, r.y, r.width, r.height]; })()");
    const touch = (type, share) => page.browser.send("Input.dispatchTouchEvent", { type, touchPoints: share === null ? [] : [{ x: x + w * share, y: y + h / 2 }] });
    await touch("touchStart", 0.5);
    for (let i = 1; i <= 10; i++) await touch("touchMove", 0.5 - 0.02 * i);
    await touch("touchEnd", null);
    assert.strictEqual(await page.run("document.querySelector('#along .cursor').getAttribute('aria-valuenow')"), near(0.3));
    assert.strictEqual(await page.text("#verdict"), before); /* a reading changes nothing */
  },

  async "the other cases stand faint behind the chosen one"(page) {
    const { from, to } = await page.run("controls.get('miss_a').range");
    const rows = nativeSweep("--vary", `miss_a=${from}in:${to}in:${(to - from) / 40}in`), count = new Map();
    for (const row of rows) count.set(row.case, (count.get(row.case) || 0) + 1);
    count.delete(await page.run("page.chosen.name"));
    assert.strictEqual(await page.run("document.querySelectorAll('#along .others .other').length"), [...count.values()].filter((points) => points > 1).length);
    /* in the scale of this chart: a line of another case passes through its margin where the cursor stands */
    const worst = await page.run(`(() => {
      const svg = document.querySelector('#along svg.cursored'), plot = plotOf(svg), others = svg.querySelector('.others'), box = others.viewBox.baseVal;
      return [...others.querySelectorAll('path')].map((path) => { const p = path.getPointAtLength(0);
        const y = plot.top + ((p.y - box.y) / box.height) * plot.height;
        return plot.y[0] + ((plot.top + plot.height - y) / plot.height) * (plot.y[1] - plot.y[0]); }); })()`);
    const first = rows.filter((row, i) => i === 0 || row.case !== rows[i - 1].case).filter((row) => count.get(row.case) > 1).map((row) => 100 * row.margin);
    for (const margin of worst) assert.ok(first.some((at) => Math.abs(at - margin) < 1) || margin > 299, String(margin));
  },

  async "the moment along the tube has its cursor"(page) {
    await page.open(file);
    await page.until("document.querySelector('#drawing .cursor')");
    const made = path.join(scratch, "moment.html");
    spawnSync(program, ["check", "--report", made, "-o", path.join(scratch, "moment.csv"), "--materials", MATERIALS, "--row", String(rail), NOSE]);
    const chart = /aria-label="Bending moment along the rail">[\s\S]*?<\/svg>/.exec(fs.readFileSync(made, "utf8"))[0];
    const wanted = [...chart.matchAll(/data-x="[^"]*">[\s\S]*?<text[^>]*>([\s\S]*?)<\/text>/g)].map((m) => m[1].replace(/<\/tspan>/g, "").replace(/<tspan[^>]*>/g, "; "));
    assert.ok(wanted.length > 20);
    await page.focus("#drawing .cursor");
    await page.key("Home");
    for (const words of wanted.slice(0, 12)) {
      assert.strictEqual(await page.run("document.activeElement.getAttribute('aria-valuetext')"), words);
      await page.key("ArrowRight");
    }
    await page.run("setChange('miss_a', '0.25in')"); /* the drawing is new: place and focus stay */
    assert.ok((await page.run("document.activeElement.getAttribute('aria-valuetext')")).startsWith(wanted[12].split(";")[0]));
    await page.run("setChange('miss_a', null)");
  },
};

runTests(tests, file);
