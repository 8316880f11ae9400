"use strict";
/* The engine of the live page gives what the program gives: every example with every command, and random load cases.
 *
 * Usage: node test_engine.js PROGRAM WASM SOURCE_DIR [RANDOM_CASES]
 * Required: the same exit status, stdout, stderr and report, byte for byte. JSON carries all digits: its numbers may differ by
 * 1e-12, since the math library is another. The load factors of a whole frame are refined to 1e-8 of themselves: answers about
 * frames may differ by 1e-6. */

const { spawnSync } = require("child_process");
const fs = require("fs");
const os = require("os");
const path = require("path");

const [program, wasm, source, count = "1000"] = process.argv.slice(2);
const binary = path.resolve(program);
const engineOf = new Function(`${fs.readFileSync(path.join(source, "src/page/engine.js"), "utf8")}; return engineOf;`)();
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), "railbow-engine-"));
const MATERIALS = "materials/steel_tube.csv";

function filesBelow(folder, name = "") {
  return fs.readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const inner = name === "" ? entry.name : `${name}/${entry.name}`;
    return entry.isDirectory() ? filesBelow(path.join(folder, entry.name), inner) : [inner];
  });
}

/* ---- random load cases: a generator of its own, so that every run has the same -------------------------------- */

let seed = 20190;
function random() { /* Park and Miller, Communications of the ACM 31 (1988), p. 1192; from memory */
  seed = (seed * 48271) % 2147483647;
  return seed / 2147483647;
}
const between = (least, most, digits = 4) => (least + random() * (most - least)).toFixed(digits);
const oneOf = (...words) => words[Math.floor(random() * words.length)];

function randomCases(rows) {
  const lines = ["case,od [in],wall [in],material,length [in],end_a,end_b,compression [lbf],eccentricity [in],moment_a [in-lbf],moment_clock,"
    + "point_load [lbf],point_at [in],point_clock,spread_load [lbf/in],spread_clock,vertical_g,torque [in-lbf],bow [in],bow_clock,bow_shape,"
    + "miss_a [in],miss_a_clock,gap [in],gap_stiffness [lbf/in],weld_zone [in],dressed [in],factor"];
  for (let i = 0; i < rows; i++) {
    const length = between(6, 70), endA = oneOf("welded", "fixed", "welded", "pinned"), clock = () => oneOf("any", between(0, 360, 0));
    lines.push([`random ${i}`, oneOf("1", "1.25", "1.5", "0.875"), oneOf("0.049", "0.058", "0.065", "0.083", "1/16"), "4130", length, endA, oneOf("welded", "pinned", "fixed"),
      between(-3000, 6000, 0), oneOf("", between(0, 0.1)), endA === "fixed" ? "" : oneOf("", between(-500, 500, 0)), between(0, 360, 0), oneOf("", between(-200, 200, 0)),
      oneOf("", between(0.05, 0.95 * Number(length))), between(0, 360, 0), oneOf("", between(-5, 5)), between(0, 360, 0), oneOf("", "1", "4"), oneOf("", between(-800, 800, 0)),
      oneOf("", between(0, 0.1)), clock(), oneOf("sine", "arc", "kink", ""), endA === "pinned" ? "" : oneOf("", between(0, 0.4)), clock(), oneOf("", between(-0.02, 0.02)),
      "50000", oneOf("", "0", between(0, 3)), oneOf("", "0.005"), oneOf("", "1.25", "2")].join(","));
  }
  return lines.join("\n") + "\n";
}

/* ---- what is compared -------------------------------------------------------------------------------------------- */

const near = (a, b, most) => Math.abs(a - b) <= most * Math.max(1, Math.abs(a), Math.abs(b));

/* A clock at which something is worst is found by a search, flat at its end: to 1e-8. */
function sameValue(a, b, most, name = "") {
  if (typeof a === "number" && typeof b === "number") return near(a, b, name.includes("clock") ? Math.max(most, 1e-8) : most);
  if (Array.isArray(a)) return Array.isArray(b) && a.length === b.length && a.every((item, i) => sameValue(item, b[i], most));
  if (a !== null && typeof a === "object")
    return b !== null && typeof b === "object" && Object.keys(a).join() === Object.keys(b).join() && Object.keys(a).every((key) => sameValue(a[key], b[key], most, key));
  return a === b;
}

/* Numbers in a text may differ in their last digits, all else may not. */
function sameText(a, b, most) {
  const number = /[-+−]?\d+(?:\.\d+)?(?:e[-+]?\d+)?/g;
  const numbers = [a.match(number) || [], b.match(number) || []];
  return a.replace(number, "#") === b.replace(number, "#") && numbers[0].every((text, i) => near(Number(text.replace("−", "-")), Number(numbers[1][i].replace("−", "-")), most));
}

function isSame(mine, theirs, words) {
  if (Buffer.compare(mine, theirs) === 0) return true;
  const texts = [mine, theirs].map((bytes) => Buffer.from(bytes).toString("utf8")), frame = words.some((word) => /(frame|portal)$/.test(word));
  if (words.includes("json")) {
    try { return sameValue(JSON.parse(texts[0]), JSON.parse(texts[1]), frame ? 1e-6 : 1e-12); } catch (fault) { return false; }
  }
  return frame && sameText(texts[0], texts[1], 1e-3);
}

let compared = 0;
const faults = [];

function compare(run, files, words) {
  for (const name of ["report.html", "answer"]) fs.rmSync(path.join(scratch, name), { force: true });
  const native = spawnSync(binary, words, { cwd: scratch, maxBuffer: 1 << 28 });
  const mine = run(words, files);
  compared++;
  const wrong = [];
  if (mine.status !== native.status) wrong.push(`status ${mine.status} for ${native.status}`);
  if (!isSame(mine.out, native.stdout, words)) wrong.push("stdout");
  if (!isSame(mine.err, native.stderr, words)) wrong.push("stderr");
  const report = path.join(scratch, "report.html"), there = fs.existsSync(report);
  if (there !== ("report.html" in mine.files)) wrong.push("report there or not");
  else if (there && !isSame(mine.files["report.html"], fs.readFileSync(report), words)) wrong.push("report");
  if (wrong.length === 0) return;
  faults.push(`${words.join(" ")}: ${wrong.join(", ")}`);
  if (process.env.KEEP) {
    fs.writeFileSync(`${process.env.KEEP}/${faults.length}.mine`, wrong.includes("report") ? mine.files["report.html"] : mine.out);
    fs.writeFileSync(`${process.env.KEEP}/${faults.length}.native`, wrong.includes("report") ? fs.readFileSync(report) : native.stdout);
  }
}

function questions() {
  const asked = [["--version"], ["help"], ["nonsense"], ["columns"], ["help", "words"], ["help", "frame"], ["section", "1.25x0.058", "--materials", MATERIALS], ["section", "--format", "json", "--ods", "1,1.25", "--walls", "--materials", MATERIALS]];
  const M = ["--materials", MATERIALS], R = ["--report", "report.html"];
  const ask = (command, files, ...words) => asked.push([command, ...words, ...files, ...M]);
  for (const file of ["nose", "nose_si", "rail", "handbook", "parts"].map((name) => `cases/${name}.csv`)) {
    const own = file.includes("handbook") ? ["--materials", "cases/handbook_materials.csv"] : M;
    for (const format of ["text", "csv", "json"])
      asked.push(["check", "--format", format, ...own, file], ["cases", "--format", format, ...own, file], ["index", "--format", format, ...own, file]);
    asked.push(["check", ...R, ...own, file], ["check", "--units", "si", "--format", "text", ...own, file]);
  }
  for (const format of ["text", "csv", "json"]) {
    const F = ["--format", format], nose = ["cases/nose.csv"];
    ask("explain", ["cases/nose.csv", "new rail - 1/16 off"], ...F);
    ask("compare", nose, "--walls", "0.049,0.058,0.065,0.083", ...F, ...R);
    ask("sweep", nose, "--vary", "factor=1:2:0.25", ...F, ...R);
    ask("sweep", nose, "--case", "*rail*", "--vary", "miss_a=0:0.5:0.125", ...F);
    ask("limit", nose, "--case", "*rail*", "--find", "miss_a", "--to", "0.2in", ...F, ...R);
    ask("scatter", ["cases/rail.csv"], "--tolerances", "cases/tolerances.csv", "--samples", "64", ...F, ...R);
    ask("inspect", ["cases/readings.csv"], "--spec", "cases/spec.csv", "--cases", "cases/parts.csv", ...F);
    ask("release", ["cases/cuts.csv"], ...F, ...R);
    ask("pull", ["cases/horns.csv"], "--steps", "4", ...F, ...R);
    ask("check", ["cases/portal"], ...F);
    ask("check", nose, "--details", "cases/details.csv", ...F, ...R);
    ask("life", ["cases/life.csv"], "--details", "cases/life_details.csv", "--curves", "materials/fatigue.csv", ...F, ...R);
    ask("sight", ["cases/sight.csv"], ...F, ...R);
    ask("sticks", ["cases/sticks_parts.csv"], "--stock", "cases/sticks_stock.csv", ...F, ...R);
    ask("check", nose, "--row", "15", "--set", "wall=0.065", "--set", "miss_a=1/8in", ...F, ...R);
  }
  ask("check", ["cases/frame"], "--format", "json", ...R);
  for (const format of ["text", "csv", "json"]) ask("cases", ["cases/frame"], "--format", format, "--view", "-30,20", "--case", "rail*", ...R);
  ask("cases", ["cases/nose.csv"], ...R);
  ask("explain", ["cases/portal"], "--format", "text");
  ask("check", ["cases/nothing.csv"]);
  ask("check", ["cases/nose.csv"], "--set", "wall=nonsense");
  asked.push(["new", "made.csv"], ["new", "--frame", "made"]);
  return asked;
}

async function main() {
  for (const folder of ["cases", "materials"]) fs.cpSync(path.join(source, folder), path.join(scratch, folder), { recursive: true });
  fs.writeFileSync(path.join(scratch, "random.csv"), randomCases(Number(count)));
  fs.writeFileSync(path.join(scratch, "few.csv"), randomCases(20));
  const files = {};
  for (const name of filesBelow(scratch)) files[name] = new Uint8Array(fs.readFileSync(path.join(scratch, name)));
  const run = engineOf(await WebAssembly.compile(fs.readFileSync(wasm)));
  for (const words of questions()) compare(run, files, words);
  const M = ["--materials", MATERIALS];
  for (const format of ["csv", "json"]) compare(run, files, ["check", "--format", format, "random.csv", ...M]);
  for (const format of ["csv", "json"]) {
    const F = ["--format", format, ...M];
    compare(run, files, ["cases", "random.csv", ...F]);
    compare(run, files, ["index", "few.csv", ...F]);
    compare(run, files, ["compare", "few.csv", "--walls", ...F]);
    compare(run, files, ["sweep", "few.csv", "--vary", "bow=0:0.1:0.02", ...F]);
    compare(run, files, ["limit", "few.csv", "--find", "factor", "--to", "3", ...F]);
    compare(run, files, ["scatter", "few.csv", "--tolerances", "cases/tolerances.csv", "--samples", "16", ...F]);
  }
  compare(run, files, ["check", "few.csv", "--report", "report.html", ...M]);
  for (let i = 0; i < 20; i++) compare(run, files, ["explain", "few.csv", `random ${i}`, ...M]);
  fs.rmSync(scratch, { recursive: true });
  console.log(`${compared} answers compared, ${faults.length} differ`);
  for (const fault of faults) console.log(fault);
  process.exitCode = faults.length > 0 ? 1 : 0;
}

main();
