"use strict";
/* The measurements of tests/speed/page. Medians; the runs alternate, so that other load on the machine affects all alike.
 * Required: the cases take at most 2.5 times what the program takes with one thread. */

const { spawnSync } = require("child_process");
const fs = require("fs");
const os = require("os");
const path = require("path");
const zlib = require("zlib");
const { openBrowser, Page } = require("../page/chromium.js");

const [program, file, wasm, count] = process.argv.slice(2);
const TOP = path.resolve(__dirname, "../.."), MATERIALS = path.join(TOP, "materials/steel_tube.csv"), RUNS = 5, MOVES = 200, TIMES_MOST = 2.5;

const sorted = (times) => [...times].sort((a, b) => a - b);
const median = (times) => sorted(times)[Math.floor(times.length / 2)];
const p95 = (times) => sorted(times)[Math.floor(times.length * 0.95)];
const say = (what, value) => console.log(`${what.padEnd(58)} ${value}`);
const ms = (time) => `${time.toFixed(1)} ms`;

/* The rows of nose.csv again and again, each with a length of its own. */
function manyCases(rows) {
  const lines = fs.readFileSync(path.join(TOP, "cases/nose.csv"), "utf8").split("\n").filter((line) => line !== "" && !line.startsWith("#"));
  const header = lines.shift(), at = header.split(",").findIndex((name) => name.startsWith("length"));
  const cases = [];
  for (let i = 0; i < rows; i++) {
    const cells = lines[i % lines.length].split(",");
    cells[0] = `case ${i}`;
    cells[at] = (Number(cells[at]) * (1 + (i % 97) / 100)).toFixed(3);
    cases.push(cells.join(","));
  }
  return `${header}\n${cases.join("\n")}\n`;
}

async function startTimes() {
  const times = [];
  for (let i = 0; i < RUNS; i++) {
    const browser = await openBrowser(), page = new Page(browser);
    await page.size(1280, 900);
    await page.open(file);
    times.push(await page.run("performance.getEntriesByName('answered')[0].startTime"));
    await browser.close();
  }
  return times;
}

async function main() {
  const browser = await openBrowser(), page = new Page(browser);
  const module = fs.readFileSync(wasm);
  say("engine", `${module.length} bytes, packed ${zlib.gzipSync(module, { level: 9 }).length}`);
  say("page", `${fs.statSync(file).size} bytes`);
  const starts = await startTimes();
  say("start: from the open of the page to its answer", `median ${ms(median(starts))}, slowest ${ms(Math.max(...starts))}`);

  await page.size(1280, 900);
  await page.open(file);
  await page.until("document.documentElement.dataset.settled");
  const moves = await page.run(`(async () => {
    const slider = document.querySelector("#set-miss_a-slider"), times = [];
    for (let i = 0; i < ${MOVES}; i++) {
      slider.value = (i % 40) / 64;
      const begun = performance.now();
      slider.dispatchEvent(new Event("input"));
      document.body.getBoundingClientRect();
      times.push(performance.now() - begun);
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
    return times;
  })()`);
  say("one movement of a slider, drawn anew", `median ${ms(median(moves))}, 95 % ${ms(p95(moves))}`);

  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "railbow-speed-")), many = path.join(folder, "many.csv");
  fs.writeFileSync(many, manyCases(Number(count)));
  const native = [], inPage = [];
  await page.run(`void (window.many = { "many.csv": bytesOf(${JSON.stringify(fs.readFileSync(many).toString("base64"))}), "materials.csv": bytesOf(${JSON.stringify(fs.readFileSync(MATERIALS).toString("base64"))}) })`);
  for (let i = 0; i < RUNS; i++) {
    const begun = process.hrtime.bigint();
    spawnSync(program, ["check", "--jobs", "1", "--format", "csv", "--materials", MATERIALS, "-o", path.join(folder, "out.csv"), many], { stdio: "ignore" });
    native.push(Number(process.hrtime.bigint() - begun) / 1e6);
    inPage.push(await page.run(`(() => { const begun = performance.now(); askNow(["check", "--format", "csv", "--materials", "materials.csv", "many.csv"], window.many); return performance.now() - begun; })()`));
  }
  const frame = {};
  for (const name of ["joints", "tubes", "loads"]) frame[`frame/${name}.csv`] = fs.readFileSync(path.join(TOP, `cases/frame/${name}.csv`)).toString("base64");
  await page.run(`takeFiles(Object.fromEntries(Object.entries(${JSON.stringify(frame)}).map(([name, bytes]) => [name, bytesOf(bytes)]))), renew()`);
  await page.until("document.querySelector('#turn svg')", 120000);
  const turns = await page.run(`(async () => {
    const times = [];
    for (let i = 0; i < ${MOVES}; i++) {
      const begun = performance.now();
      turning.azimuth = 2 * i - 180;
      drawTurned();
      document.body.getBoundingClientRect();
      times.push(performance.now() - begun);
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
    return times;
  })()`);
  say("one turn of a frame of 50 tubes, drawn anew", `median ${ms(median(turns))}, 95 % ${ms(p95(turns))}`);
  const times = median(inPage) / median(native);
  say(`${count} cases, program with one thread`, ms(median(native)));
  say(`${count} cases, in the page`, `${ms(median(inPage))}, ${times.toFixed(2)} times the program`);
  fs.rmSync(folder, { recursive: true });
  await browser.close();
  if (times <= TIMES_MOST) return;
  console.log(`WRONG: more than ${TIMES_MOST} times the program`);
  process.exitCode = 1;
}

main();
