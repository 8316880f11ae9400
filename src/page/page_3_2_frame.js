/* A tube of a frame as the controls see it: its cells in tubes.csv, what was changed in them, and the questions about them. A change
 * goes into the table that the program is given; the table itself stays until the changes are kept. */

const tubesFile = () => `${page.main}/tubes.csv`;
const rowOfTube = (grid, name) => grid.rows.find((row) => row.cells[columnAt(grid, "tube")] === name) || { cells: [] };
const changedTubes = () => [...page.changesOf].filter(([, changes]) => Object.keys(changes).length > 0);
const isChanged = () => (page.kind === "frame" ? changedTubes().length > 0 : Object.keys(page.changes).length > 0);
const isNumber = (text) => /^[-+−]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$|^(\d+[\s-]+)?\d+\/\d+$/i.test(text.trim());

function dropChanges() {
  page.changes = {};
  page.changesOf = new Map();
}

/* The changes of the chosen tube, which stay its own while other tubes are looked at. */
function takeChangesOf(name) {
  if (!page.changesOf.has(name)) page.changesOf.set(name, {});
  page.changes = page.changesOf.get(name);
}

/* The unit of each column of the table; where it is not there or names none, the one in which it would be added. */
function unitsOfTubes(grid) {
  const units = {};
  for (const { name, unit } of columnsOf(tubesFile())) {
    const at = columnAt(grid, name), said = at < 0 ? "" : columnUnit(grid.header[at]);
    units[name] = said || (isClock(name) ? "deg" : unitsLike(unit).length > 0 && !name.startsWith("end_") ? unit : "");
  }
  return units;
}

/* Cells of a tube: numbers where they are any; an empty cell has the column's default, where that is a number or a word. */
function givenOfTube(grid, row) {
  const given = {};
  for (const { name, fallback } of columnsOf(tubesFile())) {
    const at = columnAt(grid, name), cell = (at < 0 ? "" : row.cells[at] || "").trim(), text = cell || (/\s/.test(fallback) ? "" : fallback);
    given[name] = text === "" || text === "required" ? null : isNumber(text) ? numberIn(text) : text;
  }
  return given;
}

/* Into a cell, in the unit of the column. Returned: what is wrong, or "". */
function putChange(grid, row, column, value, units) {
  const unit = units[column] || "", bare = unit && value.endsWith(unit) ? value.slice(0, -unit.length).trim() : value;
  if (unit && /[a-z]$/i.test(bare) && /^[-+.\d]/.test(bare)) return `${names[column] || column}: give a number of ${unit}, the unit of this column`;
  putCell(grid, row, column, bare, unit === "deg" ? "" : unit);
  return "";
}

/* A miss that the table does not have is taken toward clock 0, up, until its hand is turned: said as a change like others. */
function clockOfNewMiss(column) {
  const clock = `${column}_clock`;
  if (!/^miss_[ab]$/.test(column) || page.chosen.given[clock] !== null) return;
  if (!(column in page.changes)) delete page.changes[clock];
  else if (!(clock in page.changes)) page.changes[clock] = "0deg";
}

/* The same for what is only tried along a track. */
function putMissingClock(grid, row, column) {
  if (!/^miss_[ab]$/.test(column)) return;
  const at = columnAt(grid, `${column}_clock`);
  if (at < 0 || !(row.cells[at] || "").trim()) putCell(grid, row, `${column}_clock`, "0", "");
}

/* The files with every change in them, but for one column of the chosen tube. Returned: {files, fault} */
function changedFiles(besides) {
  const name = tubesFile(), grid = csvGrid(page.files[name]), units = unitsOfTubes(grid);
  let fault = "";
  for (const [tube, changes] of changedTubes())
    for (const [column, value] of Object.entries(changes)) {
      const row = rowOfTube(grid, tube);
      if (tube === page.chosen.name && column === besides) continue;
      fault = putChange(grid, row, column, value, units) || fault;
      putMissingClock(grid, row, column);
    }
  if (besides) putMissingClock(grid, rowOfTube(grid, page.chosen.name), besides);
  return { files: { ...page.files, [name]: csvWrite(grid) }, fault };
}

/* ---- questions ----------------------------------------------------------------------------------------------------- */

const onlyTube = () => ["--case", page.chosen.name.replace(/[*?[\]\\]/g, "\\$&")];
const factorWords = () => { const at = page.options.indexOf("--factor"); return at < 0 ? [] : page.options.slice(at, at + 2); };

/* The lowest margin for the values of a column of the chosen tube: of this tube alone, or of the whole frame. */
function sweepWords(column, from, to, step, unit, judged) {
  return ["sweep", "--format", "json", ...tables(), ...factorWords(), "--tube", page.chosen.name, ...judged, "--vary", `${column}=${from}${unit}:${to}${unit}:${step}${unit}`];
}

/* The same for the frame as it now is: over its own wall. */
function standingWords(files, judged) {
  const grid = csvGrid(files[tubesFile()]), row = rowOfTube(grid, page.chosen.name), wall = row.cells[columnAt(grid, "wall")] || "";
  return sweepWords("wall", wall, wall, 1, columnUnit(grid.header[columnAt(grid, "wall")]) || "in", judged);
}

const oneMargin = (answer) => {
  const said = jsonOf(answer);
  return said && said.rows.length === 1 ? said.rows[0] : null;
};

/* The chosen tube with the changes. Returned: {row: {verdict, margin, run, governs} or null, messages} */
async function askTubeMargin() {
  const { files, fault } = changedFiles();
  if (fault) return { row: null, messages: [{ file: "", line: 0, column: "", text: fault }] };
  const answer = await askLater([...standingWords(files, onlyTube()), page.main], files, "tube");
  return { row: oneMargin(answer), messages: messagesOf(answer) };
}

/* The tubes that the command line picked. */
const pickedWords = () => page.options.flatMap((word, i) => (word === "--case" || word === "--part" ? [word, page.options[i + 1]] : []));

/* The lowest margin of the whole frame with the changes: {margin, worst_tube, run, verdict}, or null. */
async function askLowest() {
  const { files } = changedFiles();
  return oneMargin(await askLater([...standingWords(files, pickedWords()), page.main], files, "whole"));
}

const wholeWords = () => ["check", "--format", "json", ...common(), "--report", "frame.html", page.main];

/* What the margins along a column of the chosen tube rest on. */
const besidesKey = (column) => JSON.stringify([page.chosen.name, column, page.units, changedTubes().map(([tube, changes]) =>
  [tube, Object.entries(changes).filter(([other]) => tube !== page.chosen.name || other !== column)])]);

/* Margins of the chosen tube along a column; of the column whose chart is shown the chart comes with them. */
async function askAlongTube(column, from, to, step, unit) {
  const charted = column === along, report = charted ? ["--report", "chart.html"] : [], { files } = changedFiles(column), of = besidesKey(column);
  const answer = await askLater([...sweepWords(column, from, to, step, unit, onlyTube()), ...report, page.main], files, "tracks"), said = jsonOf(answer);
  if (charted) page.chart = { of, html: answer.files["chart.html"] ? decoder.decode(answer.files["chart.html"]) : "" };
  return said ? said.rows.map((row) => ({ value: row[column], margin: row.margin, verdict: row.verdict })) : [];
}

async function chartOfTube(column, from, to, step, unit) {
  if (page.chart.of !== besidesKey(column)) await askAlongTube(column, from, to, step, unit);
  return page.chart.html;
}

const stockWalls = new Map(); /* od, material and unit -> walls */

/* The program's stock walls for the outside diameter and material of the chosen tube, in the unit of the table. */
async function askStockWalls(unit) {
  const given = page.chosen.given, od = page.changes.od || `${given.od}${page.unitOf.od}`, key = `${od} ${given.material} ${unit}`;
  if (stockWalls.has(key)) return stockWalls.get(key);
  const bare = od.endsWith(page.unitOf.od) ? od.slice(0, -page.unitOf.od.length) : od;
  const grid = { before: [], separator: ",", header: ["case", `od [${page.unitOf.od}]`, `wall [${unit}]`, "material", "length [in]"],
    rows: [{ cells: ["stock", bare, String(given.wall), String(given.material), "10"] }] };
  const words = ["compare", "--walls", "--format", "json", "--materials", page.materials, "--units", unit === "mm" ? "si" : "us", "stock.csv"];
  const said = jsonOf(await askLater(words, { "stock.csv": csvWrite(grid), [page.materials]: page.files[page.materials] }, "tracks"));
  const walls = said && said.units.wall === unit ? said.rows.map((row) => row.wall) : [];
  stockWalls.set(key, walls);
  return walls;
}

/* The stock walls with the margins of the chosen tube. */
async function askWallsOfTube() {
  const unit = page.unitOf.wall, { files } = changedFiles("wall"), points = [];
  const walls = await askStockWalls(unit);
  for (const wall of walls) {
    const row = oneMargin(await askLater([...sweepWords("wall", wall, wall, 1, unit, onlyTube()), page.main], files, "tracks"));
    if (row) points.push({ value: wall, margin: row.margin, verdict: row.verdict, pick: "" });
  }
  return points;
}

/* ---- the whole frame ----------------------------------------------------------------------------------------------- */

/* The frame as its tables give it, kept beside what is changed. */
function keepGiven() {
  page.asGiven = { rows: page.rows, frame: page.frame, refused: page.refused, messages: page.messages, status: page.status };
  page.whole = { state: "done" };
}

function chooseAgain() {
  page.chosen = page.rows.find((row) => row.name === page.chosen.name) || page.chosen;
}

function backToGiven() {
  Object.assign(page, page.asGiven);
  page.whole = { state: "done" };
  page.now = null;
  chooseAgain();
}

/* The lowest margin first, then every tube. `show` is called after each; a late answer is dropped by `isLate`. */
async function askWhole(isLate, show) {
  const lowest = await askLowest();
  if (isLate()) return;
  page.whole = { state: lowest ? "lowest" : "none", row: lowest };
  show();
  if (!lowest) return;
  const check = await askLater(wholeWords(), changedFiles().files, "whole");
  if (isLate()) return;
  page.messages = messagesOf(check);
  page.status = check.status;
  page.frame = check.files["frame.html"] ? decoder.decode(check.files["frame.html"]) : "";
  takeFrame(check);
  chooseAgain();
  page.whole = { state: page.rows.length > 0 ? "done" : "none" };
  show();
}

/* What can be said of the whole frame at this moment. */
const wholeIsShort = () => (page.whole.state === "done" ? page.rows.some((row) => !holds(row)) : page.whole.state === "lowest" && !holds(page.whole.row));

function wholeSaid() {
  const short = page.rows.filter((row) => !holds(row)), lowest = worstFirst(page.rows)[0];
  const at = (row) => `${row.name || row.worst_tube} in run ${row.run}, ${percent(row.margin)}`;
  if (page.whole.state === "asking") return "Whole frame: being checked.";
  if (page.whole.state === "none") return "Whole frame: no verdict.";
  if (page.whole.state === "lowest") return `Whole frame: ${word(page.whole.row)}; lowest ${at(page.whole.row)}. The numbers and drawings of all tubes follow.`;
  const end = lowest.name === page.chosen.name ? ", this one the lowest." : `; lowest ${at(lowest)}.`;
  if (short.length === 0) return `Whole frame: ✓ HOLDS, all ${page.rows.length} tubes${end}`;
  return `Whole frame: ✗ SHORT, ${short.length} of ${page.rows.length} tubes${end}`;
}
