"use strict";
/* The live page of a frame in Chromium: railbow.html, which begins with the frame of the example. Every number is compared with that
 * of the program, which is given the tables as the page then has them.
 *
 * Usage: node test_frame_page.js PROGRAM PAGE SOURCE_DIR [--axe AXE.JS] [--pictures FOLDER] */

const assert = require("assert");
const fs = require("fs");
const path = require("path");
const { openBrowser, Page } = require("./chromium.js");
const { file, pictures, source, percent, worst, ask, verdictIs, until, answeredAgain, drop, write, axeFindsNothing, picture, tooSmall, runTests } = require("./work.js");

const FRAME = path.join(source, "cases/frame"), forced = "rail UL 2"; /* a tube of it that was forced in */
const check = (folder, ...more) => ask("check", folder, ...more).tubes.rows;
const ofTube = (rows, name) => worst(rows.filter((row) => row.tube === name));
const short = (rows) => new Set(rows.filter((row) => row.verdict === "short").map((row) => row.tube)).size;

/* A frame like another with one cell of a tube changed. */
function changed(name, from, tube, column, value) {
  const folder = path.join(path.dirname(write(`${name}/note.txt`, "")), "");
  for (const one of fs.readdirSync(from)) if (one.endsWith(".csv")) fs.copyFileSync(path.join(from, one), path.join(folder, one));
  const lines = fs.readFileSync(path.join(from, "tubes.csv"), "utf8").split("\n"), header = lines.find((line) => line.startsWith("tube,")).split(",");
  const at = header.findIndex((head) => head.replace(/ \[.*/, "") === column), which = lines.findIndex((line) => line.startsWith(`${tube},`));
  const cells = lines[which].split(",");
  cells[at] = String(value);
  lines[which] = cells.join(",");
  fs.writeFileSync(path.join(folder, "tubes.csv"), lines.join("\n"));
  return folder;
}

async function tablesOf(page, name) {
  const folder = path.dirname(write(`${name}/note.txt`, ""));
  for (const table of ["joints", "tubes", "loads", "details"]) {
    const bytes = await page.run(`page.files[page.main + "/${table}.csv"] ? base64Of(page.files[page.main + "/${table}.csv"]) : ""`);
    if (bytes) fs.writeFileSync(path.join(folder, `${table}.csv`), Buffer.from(bytes, "base64"));
  }
  return folder;
}

const choose = (page, name) => page.run(`[...document.querySelectorAll("#list button")].find((b) => b.querySelector(".case-name").firstChild.textContent === ${JSON.stringify(name)}).click()`);
const wholeDone = (page) => page.until("document.querySelector('#whole').dataset.state === 'done'", 60000);

async function wholeIs(page, rows) {
  await wholeDone(page);
  const said = await page.text("#whole"), low = worst(rows), count = new Set(rows.map((row) => row.tube)).size;
  assert.ok(said.includes(short(rows) === 0 ? `✓ HOLDS, all ${count} tubes` : `✗ SHORT, ${short(rows)} of ${count} tubes`), said);
  const chosen = await page.run("page.chosen.name");
  assert.ok(said.includes(low.tube === chosen ? ", this one the lowest" : `lowest ${low.tube} in run ${low.run}, ${percent(low.margin)}`), said);
}

const tests = {
  async "until the engine answers, the report is read"() {
    const other = await openBrowser(), page = new Page(other);
    await page.size(1280, 900);
    await other.send("Page.navigate", { url: `file://${file}` });
    await page.until("document.querySelector('#waiting') && document.querySelector('#still p.verdict')");
    assert.strictEqual(await page.run("document.querySelector('#still p.verdict').checkVisibility() && !document.querySelector('#live').checkVisibility()"), true);
    assert.match(await page.text("#waiting"), /checking/);
    await axeFindsNothing(page, "waiting");
    await picture(page, "frame_waiting");
    await page.until("document.documentElement.dataset.answers", 60000);
    assert.strictEqual(await page.run("document.querySelector('#waiting') === null && !document.querySelector('#still').checkVisibility() && document.querySelector('#live').checkVisibility()"), true);
    await other.close();
  },

  async "it starts with the frame and its answer"(page) {
    const rows = check(FRAME), low = worst(rows);
    await verdictIs(page, low, low.tube);
    await wholeIs(page, rows);
    const listed = await page.run("[...document.querySelectorAll('#list button')].map((b) => [b.querySelector('.case-name').firstChild.textContent, b.querySelector('.margin').textContent])");
    const tubes = [...new Set(rows.map((row) => row.tube))];
    assert.deepStrictEqual(listed.map(([name]) => name).sort(), [...tubes].sort());
    for (const [name, margin] of listed) assert.strictEqual(margin, percent(ofTube(rows, name).margin), name);
    assert.ok(await page.run("document.querySelectorAll('#tube .figures svg').length") >= 3);
    await page.until("document.documentElement.dataset.settled", 60000);
    await picture(page, "frame_desk");
  },

  async "a slider of a tube is moved by keys, and the whole frame follows"(page) {
    await choose(page, forced);
    await page.focus("#set-miss_a-slider");
    await page.key("ArrowLeft", 24);
    const folder = changed("keys", FRAME, forced, "miss_a", 0), rows = check(folder);
    await until(page, ofTube(rows, forced).margin);
    assert.strictEqual(await page.run("document.querySelector('#set-miss_a').value"), "0");
    assert.match(await page.text("#changed"), /rail UL 2: miss_a 0 in \(given 0.375 in\)/);
    await wholeIs(page, rows);
    await verdictIs(page, ofTube(rows, forced), forced);
    assert.ok((await page.text("#verdict .was")).includes(`was ${percent(ofTube(check(FRAME), forced).margin)}, now ${percent(ofTube(rows, forced).margin)}`));
    const listed = await page.run("[...document.querySelectorAll('#list .margin')].map((node) => node.textContent)");
    assert.strictEqual(listed[0], percent(worst(rows).margin));
  },

  async "until the whole frame is checked, no word is said of it"(page) {
    await page.run("window.seen = []; new MutationObserver(() => seen.push(document.querySelector('#whole').textContent)).observe(document.querySelector('#whole'), { childList: true, characterData: true, subtree: true })");
    await page.focus("#set-miss_a-slider");
    await page.key("ArrowRight", 4);
    await wholeDone(page);
    const seen = await page.run("window.seen"), rows = check(changed("word", FRAME, forced, "miss_a", 4 / 64));
    assert.match(seen[0], /Whole frame: being checked/);
    assert.ok(seen.some((said) => said.includes(`lowest ${worst(rows).tube} in run ${worst(rows).run}, ${percent(worst(rows).margin)}. The numbers and drawings of all tubes follow`)), seen.join(" | "));
    await wholeIs(page, rows);
  },

  async "a slider of a tube is dragged"(page) {
    await page.drag("#set-miss_a-slider", 4 / 64, 0.25);
    const value = await page.run("document.querySelector('#set-miss_a').value"), rows = check(changed("drag", FRAME, forced, "miss_a", value));
    assert.ok(Number(value) > 0.15 && Number(value) < 0.35, value);
    await until(page, ofTube(rows, forced).margin);
    await wholeIs(page, rows);
  },

  async "its track is the margin of the tube"(page) {
    await page.until("controls.get('wall') && controls.get('wall').key && controls.get('miss_a').key", 60000);
    const miss = await page.run("document.querySelector('#set-miss_a').value"), folder = changed("track", FRAME, forced, "miss_a", miss);
    const marks = await page.run("[...document.querySelectorAll('.control[data-column=wall] .track i')].map((i) => i.className)");
    const walls = await page.run("controls.get('wall').values.map(({ value, margin }) => [value, margin])");
    assert.ok(walls.length > 5 && marks.length > 0);
    for (const [wall, margin] of [walls[0], walls[4], walls[walls.length - 1]]) {
      const row = ofTube(check(changed("wall", folder, forced, "wall", wall)), forced);
      assert.ok(Math.abs(row.margin - margin) < 1e-6 * (1 + Math.abs(margin)), `${wall}: ${margin}, ${row.margin}`);
    }
  },

  async "a value is typed, and one that the model cannot take is refused"(page) {
    await page.focus("#set-wall");
    await page.type("0.9");
    await page.key("Enter");
    await page.until("document.querySelector('#verdict').textContent.startsWith('NO VERDICT')");
    assert.match(await page.text("#set-wall-bad"), /wall/);
    await page.until("document.querySelector('#whole').textContent === 'Whole frame: no verdict.'", 60000);
    await page.focus("#set-wall");
    await page.type("0.083");
    await page.key("Enter");
    const miss = await page.run("document.querySelector('#set-miss_a').value");
    const rows = check(changed("typed", changed("typed 1", FRAME, forced, "miss_a", miss), forced, "wall", 0.083));
    await until(page, ofTube(rows, forced).margin);
    await wholeIs(page, rows);
    await axeFindsNothing(page, "changed");
    if (pictures) await page.until("document.documentElement.dataset.settled === String(adviceTurn)", 200000);
    await picture(page, "frame_changed");
  },

  async "changes of two tubes stand beside each other"(page) {
    const before = await page.run("document.querySelector('#changed').textContent");
    await choose(page, "rail UL 1");
    assert.strictEqual(await page.text("#changed"), before);
    await page.focus("#set-wall");
    await page.type("0.065");
    await page.key("Enter");
    await page.until("document.querySelector('#changed').textContent.includes('rail UL 1: wall 0.065')");
    assert.match(await page.text("#changed"), /rail UL 1: wall 0.065 in \(given 0.058 in\), rail UL 2: miss_a .*, rail UL 2: wall 0.083 in/);
    await wholeDone(page);
  },

  async "what was changed is kept in the tables"(page) {
    const miss = await page.run("page.changesOf.get('rail UL 2').miss_a").then(parseFloat);
    const wanted = changed("keep", changed("keep 1", changed("keep 2", FRAME, forced, "miss_a", miss), forced, "wall", 0.083), "rail UL 1", "wall", 0.065);
    await answeredAgain(page, async () => { await page.focus("#keep"); await page.key("Enter"); });
    const rows = check(wanted), kept = check(await tablesOf(page, "kept"));
    assert.deepStrictEqual(kept, rows);
    await wholeIs(page, rows);
    assert.strictEqual(await page.text("#changed"), "");
  },

  async "the page is saved with the frame, and opens again"(page) {
    await page.focus("#set-wall");
    await page.type("0.072");
    await page.key("Enter");
    await wholeDone(page);
    const said = await page.text("#whole"), saved = write("saved.html", await page.run("pageText()"));
    const other = await openBrowser(), again = new Page(other);
    await again.size(1280, 900);
    await again.open(saved);
    assert.strictEqual(await again.text("#whole"), said);
    assert.strictEqual(await again.run("pageText()"), fs.readFileSync(saved, "utf8"));
    assert.deepStrictEqual(again.said, []);
    await other.close();
  },

  async "a typed cell of the table changes the frame"(page) {
    await drop(page, path.join(source, "cases/portal"));
    const rows = check(path.join(source, "cases/portal")), low = worst(rows);
    await verdictIs(page, low, low.tube);
    await page.run("document.querySelector('#table-part').open = true");
    await page.until("document.querySelector('#table input')");
    await page.run("[...document.querySelectorAll('#table button')].find((b) => b.textContent === 'tubes.csv').click()");
    await answeredAgain(page, async () => { await page.focus("#table input[data-column='wall']"); await page.type("0.12"); await page.key("Enter"); });
    const now = check(await tablesOf(page, "portal"));
    assert.notStrictEqual(worst(now).margin, low.margin);
    await wholeIs(page, now);
  },

  async "another example is chosen"(page) {
    await answeredAgain(page, () => page.run("{ const s = document.querySelector('#examples'); s.value = 'Load cases'; s.dispatchEvent(new Event('change')); }"));
    const rows = ask("check", path.join(source, "cases/nose.csv")).rows;
    await verdictIs(page, worst(rows));
    assert.strictEqual(await page.text("#whole"), "");
    await answeredAgain(page, () => page.run("{ const s = document.querySelector('#examples'); s.value = 'Load cases with details'; s.dispatchEvent(new Event('change')); }"));
    await verdictIs(page, worst(ask("check", path.join(source, "cases/nose.csv"), "--details", path.join(source, "cases/details.csv")).rows));
    await answeredAgain(page, () => page.run("{ const s = document.querySelector('#examples'); s.value = 'Nose frame'; s.dispatchEvent(new Event('change')); }"));
    await wholeIs(page, check(FRAME));
  },

  async "it fits a phone"(page) {
    await page.size(390, 844, { touch: true });
    await page.open(file);
    await page.until("document.documentElement.dataset.settled", 60000);
    assert.strictEqual(await page.run("document.documentElement.scrollWidth"), 390);
    assert.deepStrictEqual(await tooSmall(page), []);
    assert.strictEqual(await page.run("[...document.querySelectorAll('.control[data-column]')].filter((e) => e.checkVisibility()).length"), 1);
    await axeFindsNothing(page, "phone");
    await picture(page, "frame_phone");
  },

  async "on paper stand the verdict, the frame and what was changed"(page) {
    await page.focus("#set-miss_a");
    await page.type("0.125");
    await page.key("Enter");
    await wholeDone(page);
    await page.size(794, 1123, { print: true });
    assert.strictEqual(await page.run("[...document.querySelectorAll('#live button, #controls, #list')].filter((e) => e.checkVisibility()).length"), 0);
    for (const part of ["#verdict", "#whole", "#changed", "#tube svg"]) assert.ok(await page.run(`document.querySelector("${part}").checkVisibility()`), part);
    await picture(page, "frame_paper");
  },

  async "axe finds nothing in the dark with everything open"(page) {
    await page.size(1280, 900, { dark: true });
    await page.open(file);
    await page.until("document.documentElement.dataset.settled", 60000);
    await page.run("for (const d of document.querySelectorAll('details')) d.open = true");
    await page.until("document.querySelector('#table input')");
    await axeFindsNothing(page, "dark");
    await picture(page, "frame_dark");
  },
};

runTests(tests, file);
