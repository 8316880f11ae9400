"use strict";
/* The live page of load cases in Chromium, from the disk, without a network: what a person does with it, and what it then says. Every
 * number is compared with that of the program.
 *
 * Usage: node test_page.js PROGRAM PAGE SOURCE_DIR [--axe AXE.JS] [--pictures FOLDER] */

const { spawnSync } = require("child_process");
const assert = require("assert");
const fs = require("fs");
const path = require("path");
const { openBrowser, Page } = require("./chromium.js");
const { pictures, program, source, scratch, MATERIALS, percent, worst, ask, verdictIs, until, drop, write, axeFindsNothing, picture, tooSmall,
  runTests } = require("./work.js");

const NOSE = path.join(source, "cases/nose.csv");
const rail = 16; /* line of 'new rail - forced 1/2' in nose.csv, the worst case */
const native = (input, ...more) => ask("check", input, ...more).rows;

/* The page of the example's load cases. */
const file = path.join(scratch, "nose.html");
spawnSync(program, ["check", "--live", "--report", file, "-o", path.join(scratch, "nose_out.csv"), "--materials", MATERIALS, NOSE]);

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
    assert.match(await page.text("#changed"), /miss_a 1\/32 in \(given 0.5 in\)/);
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
    assert.deepStrictEqual(await tooSmall(page), []);
    assert.strictEqual(await page.run("[...document.querySelectorAll('.control[data-column]')].filter((e) => e.checkVisibility()).length"), 1);
    await picture(page, "phone");
  },

  async "on paper stand the verdict and the case"(page) {
    await page.size(794, 1123, { print: true });
    assert.strictEqual(await page.run("[...document.querySelectorAll('#live button, #controls, #list')].filter((e) => e.checkVisibility()).length"), 0);
    assert.ok(await page.run("document.querySelector('#verdict').checkVisibility() && document.querySelector('#tube svg').checkVisibility()"));
    await picture(page, "paper");
  },

  async "axe finds nothing"(page) {
    for (const [name, width, settings] of [["desk", 1280, {}], ["dark", 1280, { dark: true }], ["narrow", 390, { touch: true }]]) {
      await page.size(width, 900, settings);
      await page.open(file);
      await page.until("document.documentElement.dataset.settled");
      await page.run("for (const d of document.querySelectorAll('details')) d.open = true");
      await page.until("document.querySelector('#table input')");
      await axeFindsNothing(page, name);
      await picture(page, name);
    }
  },
};

runTests(tests, file);
