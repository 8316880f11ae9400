"use strict";
/* What the tests of the live page share: the program beside it, and what is done with a page. The words after the script's name are
 * PROGRAM PAGE SOURCE_DIR [--axe AXE.JS] [--pictures FOLDER]. */

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
const MATERIALS = path.join(source, "materials/steel_tube.csv");

const percent = (margin) => (margin < 0 ? "−" : "+") + (Math.abs(margin) >= 10 ? Math.round(Math.abs(margin) * 100) : (Math.abs(margin) * 100).toFixed(1)) + " %";
const worst = (rows) => rows.reduce((low, row) => (row.margin < low.margin ? row : low));

/* What the program answers to a command, as JSON. */
function ask(command, input, ...more) {
  const run = spawnSync(program, [command, "--format", "json", "--materials", MATERIALS, ...more, input], { maxBuffer: 1 << 28 });
  return JSON.parse(run.stdout.toString());
}

async function verdictIs(page, row, name = row.case) {
  const said = await page.text("#verdict");
  assert.ok(said.includes(percent(row.margin)), `${said} has no ${percent(row.margin)}`);
  assert.ok(said.startsWith(row.verdict === "holds" ? "✓ HOLDS" : "✗ SHORT"), said);
  assert.ok(said.includes(name), said);
}

const until = (page, margin) => page.until(`document.querySelector("#verdict .margin") && document.querySelector("#verdict .margin").textContent === ${JSON.stringify(percent(margin))}`, 60000);

/* Does something that has all rows asked about again, and waits for their answer. */
async function answeredAgain(page, act) {
  const before = await page.run("document.documentElement.dataset.answers");
  await act();
  await page.until(`document.documentElement.dataset.answers !== ${JSON.stringify(before)}`, 60000);
}

function drop(page, ...files) {
  return answeredAgain(page, async () => {
    const data = { items: [], files, dragOperationsMask: 1 };
    for (const type of ["dragEnter", "dragOver", "drop"]) await page.browser.send("Input.dispatchDragEvent", { type, x: 300, y: 300, data });
  });
}

function write(name, text) {
  const at = path.join(scratch, name);
  fs.mkdirSync(path.dirname(at), { recursive: true });
  fs.writeFileSync(at, text);
  return at;
}

async function axeFindsNothing(page, name) {
  if (!axe) return;
  await page.run(fs.readFileSync(axe, "utf8"));
  const found = await page.run("axe.run().then((r) => r.violations.map((v) => v.id + ': ' + v.nodes.slice(0, 3).map((n) => n.html.slice(0, 120)).join(' || ')))");
  assert.deepStrictEqual(found, [], name);
}

const picture = (page, name) => (pictures ? page.picture(path.join(pictures, `${name}.png`)) : null);

/* Controls that are too small for a finger. */
const tooSmall = (page) => page.run(`[...document.querySelectorAll("#live button, #live select, #live summary")].filter((e) => e.checkVisibility() && e.getBoundingClientRect().height > 1 && e.getBoundingClientRect().height < 47.5 && !e.closest("#table")).map((e) => e.outerHTML.slice(0, 80))`);

/* Every test in one page, which begins with `first`. */
async function runTests(tests, first) {
  const browser = await openBrowser(), page = new Page(browser);
  let wrong = 0;
  await page.size(1280, 900);
  await page.open(first);
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

module.exports = { axe, pictures, program, file, source, scratch, MATERIALS, percent, worst, ask, verdictIs, until, answeredAgain, drop, write,
  axeFindsNothing, picture, tooSmall, runTests };
