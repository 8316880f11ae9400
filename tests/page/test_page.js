"use strict";
/* The live page in Chromium, from the disk, without a network: what a person does with it, and what it then says. Every number
 * is compared with that of the program.
 *
 * Usage: node test_page.js PROGRAM PAGE SOURCE_DIR [--axe AXE.JS] [--pictures FOLDER] */

const { spawnSync } = require("child_process");
const assert = require("assert");
const fs = require("fs");
const os = require("os");
const path = require("path");
const { openBrowser, Page } = require("./chromium.js");

const words = process.argv.slice(2);
const option = (name) => { const at = words.indexOf(name); return at < 0 ? null : words.splice(at, 2)[1]; };
const axe = option("--axe"), pictures = option("--pictures");
const [program, file, source] = words.map((word) => path.resolve(word));
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), "railbow-page-"));
const MATERIALS = path.join(source, "materials/steel_tube.csv"), NOSE = path.join(source, "cases/nose.csv");
const rail = 16; /* line of 'new rail - forced 1/2' in nose.csv, the worst case */

const percent = (margin) => (margin < 0 ? "−" : "+") + (Math.abs(margin) >= 10 ? Math.round(Math.abs(margin) * 100) : (Math.abs(margin) * 100).toFixed(1)) + " %";

/* The program's rows for a file. */
function native(input, ...more) {
  const run = spawnSync(program, ["check", "--format", "json", "--materials", MATERIALS, ...more, input], { maxBuffer: 1 << 28 });
  return JSON.parse(run.stdout.toString()).rows;
}

/* The program's rows for a sweep of the demo. */
function nativeSweep(...words) {
  const run = spawnSync(program, ["sweep", "--format", "json", "--materials", MATERIALS, ...words, NOSE], { maxBuffer: 1 << 28 });
  return JSON.parse(run.stdout.toString()).rows;
}

const worst = (rows) => rows.reduce((low, row) => (row.margin < low.margin ? row : low));

async function verdictIs(page, row, name = row.case) {
  const said = await page.text("#verdict");
  assert.ok(said.includes(percent(row.margin)), `${said} has no ${percent(row.margin)}`);
  assert.ok(said.startsWith(row.verdict === "holds" ? "✓ HOLDS" : "✗ SHORT"), said);
  assert.ok(said.includes(name), said);
}

const until = (page, margin) => page.until(`document.querySelector("#verdict .margin") && document.querySelector("#verdict .margin").textContent === ${JSON.stringify(percent(margin))}`);

async function drop(page, ...files) {
  const before = await page.run("document.documentElement.dataset.answers");
  const data = { items: [], files, dragOperationsMask: 1 };
  for (const type of ["dragEnter", "dragOver", "drop"]) await page.browser.send("Input.dispatchDragEvent", { type, x: 300, y: 300, data });
  await page.until(`document.documentElement.dataset.answers !== ${JSON.stringify(before)}`);
}

function write(name, text) {
  const at = path.join(scratch, name);
  fs.mkdirSync(path.dirname(at), { recursive: true });
  fs.writeFileSync(at, text);
  return at;
}

/* ---- what is tried ------------------------------------------------------------------------------------------ */

const tests = {
  async "it starts with the demo and its answer"(page) {
    const rows = native(NOSE);
    assert.ok(Math.abs(Number(await page.run("document.documentElement.dataset.engine")) - (Math.PI ** 2 * 29e6 * (Math.PI / 64) * (1.25 ** 4 - 1.134 ** 4) / 3600 / 1500 - 1)) < 1e-9);
    await verdictIs(page, worst(rows));
    const listed = await page.run("[...document.querySelectorAll('#list button')].map((b) => [b.querySelector('.case-name').textContent, b.querySelector('.margin').textContent])");
    const order = [...rows].sort((a, b) => a.margin - b.margin);
    assert.deepStrictEqual(listed.map((item) => item[1]), order.map((row) => percent(row.margin)));
    assert.deepStrictEqual(listed.map((item) => item[0]).sort(), rows.map((row) => row.case).sort());
  },

  async "the list is filtered and searched"(page) {
    await page.run("{ const f = document.querySelector('#filter'); f.value = 'short'; f.dispatchEvent(new Event('change')); }");
    assert.strictEqual(await page.run("document.querySelectorAll('#list button').length"), native(NOSE).filter((row) => row.verdict === "short").length);
    await page.run("{ const f = document.querySelector('#filter'); f.value = 'all'; f.dispatchEvent(new Event('change')); }");
    await page.focus("#search");
    await page.type("diagonal");
    assert.strictEqual(await page.run("document.querySelectorAll('#list button').length"), 2);
    await page.run("{ const s = document.querySelector('#search'); s.value = ''; s.dispatchEvent(new Event('input')); }");
  },

  async "a value is typed"(page) {
    await page.focus("#set-miss_a");
    await page.type("1/32");
    await page.key("Enter");
    const row = native(NOSE, "--row", String(rail), "--set", "miss_a=1/32in")[0];
    await until(page, row.margin);
    await verdictIs(page, row);
    assert.ok((await page.text("#verdict .was")).includes(`was ${percent(-1)}, now ${percent(row.margin)}`));
    await page.focus("#set-wall");
    await page.type("0.9");
    await page.key("Enter");
    await page.until("document.querySelector('#verdict').textContent.startsWith('NO VERDICT')");
    assert.match(await page.text("#set-wall-bad"), /wall/);
    await page.focus("#reset");
    await page.key("Enter");
    await until(page, -1);
  },

  async "a slider is moved by keys"(page) {
    await page.until("document.querySelectorAll('.control[data-column=miss_a] .track i').length > 0");
    await page.focus("#set-miss_a-slider");
    await page.key("ArrowLeft", 30);
    assert.strictEqual(await page.run("document.querySelector('#set-miss_a').value"), String(0.5 - 30 / 64));
    await verdictIs(page, native(NOSE, "--row", String(rail), "--set", `miss_a=${0.5 - 30 / 64}in`)[0]);
    await page.key("ArrowRight", 2);
    await verdictIs(page, native(NOSE, "--row", String(rail), "--set", `miss_a=${0.5 - 28 / 64}in`)[0]);
  },

  async "a slider is dragged"(page) {
    await page.drag("#set-miss_a-slider", 0.08, 0.02);
    const value = await page.run("document.querySelector('#set-miss_a').value");
    assert.ok(Number(value) < 0.06 && Number(value) >= 0, value);
    await verdictIs(page, native(NOSE, "--row", String(rail), "--set", `miss_a=${value}in`)[0]);
  },

  async "what was changed is kept in the table"(page) {
    const value = await page.run("document.querySelector('#set-miss_a').value");
    const before = await page.run("document.documentElement.dataset.answers");
    await page.focus("#keep");
    await page.key("Enter");
    await page.until(`document.documentElement.dataset.answers !== ${JSON.stringify(before)}`);
    const kept = write("kept.csv", Buffer.from(await page.run("base64Of(page.files[page.main])"), "base64"));
    const row = native(kept, "--row", String(rail))[0];
    assert.strictEqual(row.margin, native(NOSE, "--row", String(rail), "--set", `miss_a=${value}in`)[0].margin);
    assert.deepStrictEqual(native(kept).filter((one) => one.case !== row.case), native(NOSE).filter((one) => one.case !== row.case));
  },

  async "an error stands at its cell"(page) {
    await page.run("document.querySelector('#table-part').open = true");
    await page.until("document.querySelector('#table input')");
    const cell = "#table input[data-line='7'][data-column='wall']";
    await page.focus(cell);
    await page.type("thick");
    await page.key("Enter");
    await page.until(`document.querySelector("${cell}").getAttribute("aria-invalid") === "true"`);
    assert.match(await page.run(`document.querySelector("${cell}").parentElement.querySelector(".bad").textContent`), /not a number/);
    assert.match(await page.text("#verdict"), /1 more row was not checked/);
    await page.focus(cell);
    await page.type("0.058");
    await page.key("Enter");
    await page.until(`document.querySelector("${cell}").getAttribute("aria-invalid") === null`);
  },

  async "a file is dropped"(page) {
    const csv = write("two.csv", "case,od [mm],wall [mm],material,length [mm],compression [kN]\nlong,32,1.5,4130,900,10\nshort,32,1.5,4130,300,10\n");
    await drop(page, csv);
    const rows = native(csv);
    await verdictIs(page, worst(rows));
    assert.strictEqual(await page.run("document.querySelectorAll('#list button').length"), 2);
  },

  async "cells are pasted from a spreadsheet"(page) {
    const text = "case\tod [in]\twall [in]\tmaterial\tlength [in]\tcompression [lbf]\npasted\t1.25\t0.058\t4130\t24\t20000\n";
    const before = await page.run("document.documentElement.dataset.answers");
    await page.run(`{ const d = new DataTransfer(); d.setData("text/plain", ${JSON.stringify(text)}); document.body.dispatchEvent(new ClipboardEvent("paste", { clipboardData: d, bubbles: true, cancelable: true })); }`);
    await page.until(`document.documentElement.dataset.answers !== ${JSON.stringify(before)}`);
    await verdictIs(page, native(write("pasted.csv", text))[0]);
  },

  async "the folder of a frame is dropped"(page) {
    await drop(page, path.join(source, "cases/portal"));
    const run = spawnSync(program, ["check", "--format", "json", "--materials", MATERIALS, path.join(source, "cases/portal")]);
    const low = worst(JSON.parse(run.stdout.toString()).tubes.rows);
    await verdictIs(page, low, low.tube);
    await page.until("document.querySelector('#drawing svg')");
    assert.ok(await page.run("document.querySelectorAll('#tube .figures svg').length") >= 3);
    const folder = path.join(scratch, "portal"), before = await page.run("document.documentElement.dataset.answers");
    await page.focus("#cell-wall");
    await page.type("0.12");
    await page.key("Enter");
    await page.until(`document.documentElement.dataset.answers !== ${JSON.stringify(before)}`);
    for (const name of ["joints", "tubes", "loads"]) write(`portal/${name}.csv`, Buffer.from(await page.run(`base64Of(page.files[page.main + "/${name}.csv"])`), "base64"));
    const again = spawnSync(program, ["check", "--format", "json", "--materials", MATERIALS, folder]);
    const now = worst(JSON.parse(again.stdout.toString()).tubes.rows.filter((row) => row.tube === low.tube));
    assert.notStrictEqual(now.margin, low.margin);
    await verdictIs(page, now, low.tube);
    assert.ok((await page.text("#verdict .was")).includes(`was ${percent(low.margin)}, now ${percent(now.margin)}`));
  },

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

  async "a hand of the clock face is turned"(page) {
    await page.open(file);
    await page.until("document.querySelector('#face [data-clock=miss_a_clock]')");
    await page.focus("#set-miss_a");
    await page.type("1/32");
    await page.key("Enter");
    await page.run("document.querySelector('#face [data-clock=bow_clock]').focus()");
    await page.key("ArrowRight", 3);
    const row = native(NOSE, "--row", String(rail), "--set", "miss_a=1/32in", "--set", "bow_clock=225")[0];
    await until(page, row.margin);
    assert.strictEqual(await page.run("document.activeElement.dataset.clock"), "bow_clock");
  },

  async "markup in a file shows as text"(page) {
    const names = ["<img src=x onerror=window.harm=1>", "<script>window.harm=1</script>", "\"><svg onload=window.harm=1>", "=HYPERLINK(\"x\")"];
    const csv = write("harm.csv", `case,note,od [in],wall [in],material,length [in],compression [lbf]\n${names.map((name) => `"${name.replace(/"/g, '""')}","${name.replace(/"/g, '""')}",1.25,0.058,4130,24,30000`).join("\n")}\n"<b>bad</b>",,1.25,x<i>y</i>,4130,24,1\n`);
    await drop(page, csv);
    assert.deepStrictEqual((await page.run("[...document.querySelectorAll('#list .case-name')].map((n) => n.textContent)")).sort(), [...names].sort());
    await page.run("document.querySelector('#table-part').open = true");
    for (let i = 0; i < names.length; i++) {
      await page.run(`document.querySelectorAll("#list button")[${i}].click()`);
      await page.until("document.querySelector('#tube svg')");
    }
    assert.strictEqual(await page.run("document.querySelectorAll('#live img, #live b.bad, #faults b, #faults i').length"), 0);
    assert.strictEqual(await page.run("window.harm"), undefined);
  },

  async "the page is saved with what is in it, and opens again"(page) {
    const csv = write("saved.csv", "case,od [in],wall [in],material,length [in],compression [lbf]\none,1.25,0.058,4130,24,3000\ntwo,1.25,0.058,4130,44,3000\n");
    await drop(page, csv);
    const saved = write("saved.html", await page.run("pageText()"));
    const other = await openBrowser(), again = new Page(other);
    await again.size(1280, 900);
    await again.open(saved);
    await verdictIs(again, worst(native(csv)));
    assert.deepStrictEqual(again.said, []);
    const twice = await again.run("pageText()");
    assert.strictEqual(twice, fs.readFileSync(saved, "utf8"));
    await other.close();
  },

  async "a saved page remembers what was changed"(page) {
    await page.open(file);
    await page.focus("#set-miss_a");
    await page.type("1/32");
    await page.key("Enter");
    const saved = write("changed.html", await page.run("pageText()"));
    await page.open(saved);
    await verdictIs(page, native(NOSE, "--row", String(rail), "--set", "miss_a=1/32in")[0]);
    assert.match(await page.text("#changed"), /miss_a 1\/32in \(given 0.5 in\)/);
  },

  async "options of the command line stay"(page) {
    const made = path.join(scratch, "options.html");
    spawnSync(program, ["check", "--live", "--report", made, "-o", path.join(scratch, "options.csv"), "--materials", MATERIALS, "--factor", "2", "--case", "new*", "--set", "wall=0.065in", NOSE]);
    await page.open(made);
    const words = ["--factor", "2", "--case", "new*"];
    assert.strictEqual(await page.run("document.querySelectorAll('#list button').length"), 3);
    await verdictIs(page, worst(native(NOSE, ...words, "--set", "wall=0.065in")));
    const line = await page.run("page.chosen.line");
    await page.focus("#set-miss_a");
    await page.type("0");
    await page.key("Enter");
    await until(page, native(NOSE, ...words, "--row", String(line), "--set", "wall=0.065in", "--set", "miss_a=0in")[0].margin);
    await page.focus("#set-wall");
    await page.type("0.083");
    await page.key("Enter");
    await until(page, native(NOSE, ...words, "--row", String(line), "--set", "wall=0.083in", "--set", "miss_a=0in")[0].margin);
  },

  async "load cases come with their details"(page) {
    const details = write("holes.csv", "case,detail,kind,at [in],hole [in],walls,hole_clock\ndiagonal - push,brake line,hole,15.5,0.5,2,0\n");
    await page.open(file);
    await drop(page, NOSE, details);
    const rows = native(NOSE, "--details", details);
    const listed = await page.run("[...document.querySelectorAll('#list .margin')].map((node) => node.textContent)");
    assert.deepStrictEqual(listed, rows.map((row) => row.margin).sort((a, b) => a - b).map(percent));
    assert.notDeepStrictEqual(rows.map((row) => row.margin), native(NOSE).map((row) => row.margin));
    await page.run("document.querySelector('#list button[data-index=\"6\"]').click()");
    const line = await page.run("page.chosen.line");
    await page.focus("#set-wall");
    await page.type("0.083");
    await page.key("Enter");
    await until(page, native(NOSE, "--details", details, "--row", String(line), "--set", "wall=0.083in")[0].margin);
    const saved = write("details.html", await page.run("pageText()"));
    await page.open(saved);
    await verdictIs(page, native(NOSE, "--details", details, "--row", String(line), "--set", "wall=0.083in")[0]);
  },

  async "of a long file only the chosen row is asked about"(page) {
    const lines = fs.readFileSync(NOSE, "utf8").split("\n").filter((line) => line !== "" && !line.startsWith("#")), header = lines.shift();
    const csv = write("long.csv", `# long\n${header}\n${[...Array(1000).keys()].map((i) => lines[i % lines.length].replace(/^[^,]*/, `"row ${i}, long"`)).join("\n")}\n`);
    await drop(page, csv);
    await verdictIs(page, worst(native(csv, "--factor", "2")));
    assert.strictEqual(await page.run("chosenPart().line"), 3);
    assert.strictEqual(await page.run("document.querySelectorAll('#list button').length"), 200);
    await page.focus("#set-wall");
    await page.type("0.12");
    await page.key("Enter");
    const line = await page.run("page.chosen.line");
    await verdictIs(page, native(csv, "--factor", "2", "--row", String(line), "--set", "wall=0.12in")[0]);
    assert.ok((await page.text("#foot code")).includes(`--row ${line} `));
  },

  async "without the known answer there is no verdict"() {
    const broken = write("broken.html", fs.readFileSync(file, "utf8").replace("margin: 1.0495", "margin: 1.0595"));
    const other = await openBrowser(), page = new Page(other);
    await page.size(1280, 900);
    await page.open(broken);
    assert.match(await page.text("#verdict"), /NO VERDICT/);
    assert.strictEqual(await page.run("document.documentElement.dataset.engine"), undefined);
    assert.doesNotMatch(await page.text("#verdict"), /HOLDS|SHORT/);
    await other.close();
  },

  async "it fits a phone"(page) {
    await page.size(390, 844, { touch: true });
    await page.open(file);
    await page.until("document.documentElement.dataset.settled");
    assert.strictEqual(await page.run("document.documentElement.scrollWidth"), 390);
    const small = await page.run(`[...document.querySelectorAll("#live button, #live select, #live summary")].filter((e) => e.checkVisibility() && e.getBoundingClientRect().height > 1 && e.getBoundingClientRect().height < 47.5 && !e.closest("#table")).map((e) => e.outerHTML.slice(0, 80))`);
    assert.deepStrictEqual(small, []);
    assert.strictEqual(await page.run("[...document.querySelectorAll('.control[data-column]')].filter((e) => e.checkVisibility()).length"), 1);
    if (pictures) await page.picture(path.join(pictures, "phone.png"));
  },

  async "on paper stand the verdict and the case"(page) {
    await page.size(794, 1123, { print: true });
    assert.strictEqual(await page.run("[...document.querySelectorAll('#live button, #controls, #list')].filter((e) => e.checkVisibility()).length"), 0);
    assert.ok(await page.run("document.querySelector('#verdict').checkVisibility() && document.querySelector('#tube svg').checkVisibility()"));
    if (pictures) await page.picture(path.join(pictures, "paper.png"));
  },

  async "axe finds nothing"(page) {
    if (!axe) return;
    for (const [name, width, settings] of [["desk", 1280, {}], ["dark", 1280, { dark: true }], ["narrow", 390, { touch: true }]]) {
      await page.size(width, 900, settings);
      await page.open(file);
      await page.until("document.documentElement.dataset.settled");
      await page.run("for (const d of document.querySelectorAll('details')) d.open = true");
      await page.until("document.querySelector('#table input')");
      await page.run(fs.readFileSync(axe, "utf8"));
      const found = await page.run("axe.run().then((r) => r.violations.map((v) => v.id + ': ' + v.nodes.slice(0, 3).map((n) => n.html.slice(0, 120)).join(' || ')))");
      assert.deepStrictEqual(found, [], name);
      if (pictures) await page.picture(path.join(pictures, `${name}.png`));
    }
  },
};

async function main() {
  const browser = await openBrowser(), page = new Page(browser);
  let wrong = 0;
  await page.size(1280, 900);
  await page.open(file);
  for (const [name, test] of Object.entries(tests)) {
    const begun = Date.now();
    try {
      await test(page);
      assert.deepStrictEqual(page.said.splice(0), [], "the console is silent");
      console.log(`fine   ${name} (${Date.now() - begun} ms)`);
    } catch (fault) {
      wrong++;
      console.log(`WRONG  ${name}: ${fault.stack}`);
    }
  }
  const outside = page.requests.filter((url) => !/^(file|blob|data):/.test(url));
  if (outside.length > 0) wrong++;
  for (const url of outside) console.log(`WRONG  the page asked for ${url}`);
  if (!axe) console.log("left out: axe, which the npm registry did not give");
  await browser.close();
  fs.rmSync(scratch, { recursive: true });
  process.exitCode = wrong > 0 ? 1 : 0;
}

main();
