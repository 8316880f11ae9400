/* What the page knows, and the questions that it asks. Load cases: one file. A frame: the tables of a folder. */

const page = {
  files: {},          /* every file by name: inputs and materials */
  materials: "",      /* name of the materials table */
  details: "",        /* of load cases: name of the table of details; "" for none */
  kind: "cases",      /* or "frame" */
  main: "",           /* the file of load cases, or the folder of the frame */
  options: [],        /* words of the command line that bear on every answer: --factor 2 */
  units: "us",
  rows: [],           /* answers: {line, name, verdict, margin, given, index} */
  unitOf: {},         /* of the columns of `given` */
  refused: 0,
  messages: [],
  chosen: null,       /* one of the rows */
  changes: {},        /* column -> value with its unit, of the chosen row */
  changesOf: new Map(), /* of a frame: tube -> its changes */
  now: null,          /* the chosen row's answer with the changes; null where there is none */
  whole: { state: "done" }, /* of a frame: what is known of all its tubes: asking, lowest, done, none */
  chart: { of: "", html: "" }, /* of a frame: the page with the margin of the chosen tube along a column */
  filter: "all",
  search: "",
  first: new Map(),   /* name -> margin as the files were given, where a name stands once */
  passed: null,       /* the margin of the self-test */
};

const percent = (margin) => (margin === null ? "no limit"
  : (margin < 0 ? "−" : "+") + (Math.abs(margin) >= 10 ? Math.round(Math.abs(margin) * 100) : (Math.abs(margin) * 100).toFixed(1)) + " %");
const holds = (row) => row.verdict === "holds";
const shownNumber = (value) => (typeof value === "number" ? String(Number(value.toPrecision(6))) : value === null ? "" : String(value));
const baseName = (name) => name.replace(/\/+$/, "").replace(/^.*\//, "");

/* The words that follow every command. */
const tables = () => ["--materials", page.materials, ...(page.details ? ["--details", page.details] : []), "--units", page.units];
const common = () => [...tables(), ...page.options];

/* The command cases knows no details. */
function withoutDetails(words) {
  const at = words.indexOf("--details");
  return at < 0 ? words : [...words.slice(0, at), ...words.slice(at + 2)];
}

/* The same for the chosen case: its row takes the place of other rows, its changes that of changes to all. */
function commonOfChosen() {
  const words = tables();
  for (let i = 0; i < page.options.length; i += 2) {
    const [option, value] = page.options.slice(i, i + 2);
    if (option !== "--row" && !(option === "--set" && value.split("=")[0] in page.changes)) words.push(option, value);
  }
  return words;
}
const setWords = (besides) => Object.entries(page.changes).filter(([column]) => column !== besides).flatMap(([column, value]) => ["--set", `${column}=${value}`]);

/* The chosen case for the program: its line, and the files. Of a long file only its header and this row, so that an answer takes
 * no longer than that of a short one. */
const longFile = 300;
function chosenPart() {
  if (page.rows.length <= longFile || page.details) return { files: page.files, line: page.chosen.line };
  if (page.part && page.part.of === page.chosen) return page.part;
  const grid = csvGrid(page.files[page.main]), row = grid.rows.find((one) => one.line === page.chosen.line);
  if (!row) return { files: page.files, line: page.chosen.line };
  const alone = { line: 0, cells: [...row.cells] }, bytes = csvWrite({ ...grid, rows: [alone] });
  page.part = { of: page.chosen, line: alone.line, files: { [page.main]: bytes, [page.materials]: page.files[page.materials] } };
  return page.part;
}
const rowWords = () => ["--row", String(chosenPart().line)];

/* What a shell would have to be told for what is seen. */
function commandLine() {
  const bare = (word) => (/^[\w./:=,+%@-]+$/.test(word) ? word : "'" + word.replace(/'/g, "'\\''") + "'");
  const words = page.kind === "cases" && page.chosen ? ["--row", String(page.chosen.line), ...setWords()] : [];
  return ["railbow", "check", "--format", "text", ...(page.details ? ["--details", page.details] : []), ...(page.units === "us" ? [] : ["--units", page.units]), ...page.options, ...words, page.main].map(bare).join(" ");
}

/* What stood on the command line of the report, without the command and the files. One --row: that case is chosen, and --set are
 * its changes. */
function takeWords(words) {
  const said = { "--factor": [], "--units": [], "--row": [], "--set": [], "--case": [], "--part": [] };
  for (let i = 2; i < words.length; i++) if (words[i] in said) said[words[i]].push(words[++i]);
  const keep = (option) => said[option].flatMap((value) => [option, value]);
  [page.units = "us"] = said["--units"].slice(-1);
  page.options = ["--factor", "--case", "--part"].flatMap(keep);
  if (said["--row"].length !== 1) page.options.push(...keep("--row"), ...keep("--set"));
  else page.begin = { line: Number(said["--row"][0]), sets: said["--set"].map((set) => [set.slice(0, set.indexOf("=")), set.slice(set.indexOf("=") + 1)]) };
}

/* Takes files as the input. Returned: what is wrong with them, or "". */
function takeFiles(files) {
  for (const name of Object.keys(files).filter((one) => one.startsWith("-"))) { /* it would be an option */
    files[name.replace(/^-+/, "") || "cases.csv"] = files[name];
    delete files[name];
  }
  const names = Object.keys(files), isDetails = (name) => csvGrid(files[name]).header.some((head) => columnName(head) === "detail");
  for (const name of names)
    if (/elastic_modulus/i.test(csvText(files[name].subarray(0, 4096)))) {
      page.files[name] = files[name];
      page.materials = name;
      delete files[name];
    }
  const ofFrame = Object.keys(files).filter((name) => /^(joints|tubes|loads|details)\.csv$/i.test(baseName(name)));
  const kept = { [page.materials]: page.files[page.materials] };
  page.details = "";
  const given = (table) => ofFrame.some((name) => baseName(name).toLowerCase() === `${table}.csv`);
  if (page.kind === "frame" && ofFrame.length > 0 && ofFrame.length === Object.keys(files).length && !["joints", "tubes", "loads"].every(given)) {
    for (const name of tableNames()) kept[name] = page.files[name]; /* of the frame that is here, these tables alone are new */
    for (const name of ofFrame) kept[`${page.main}/${baseName(name).toLowerCase()}`] = files[name];
  } else if (given("joints") || given("tubes")) {
    page.kind = "frame";
    page.main = ofFrame[0].includes("/") ? ofFrame[0].replace(/\/[^/]*$/, "") : "frame";
    for (const name of ofFrame) kept[`${page.main}/${baseName(name).toLowerCase()}`] = files[name];
  } else if (Object.keys(files).length === 2 && Object.keys(files).some(isDetails)) {
    page.kind = "cases";
    page.details = Object.keys(files).find(isDetails);
    page.main = Object.keys(files).find((name) => name !== page.details);
    Object.assign(kept, files);
  } else if (Object.keys(files).length === 1) {
    page.kind = "cases";
    [page.main] = Object.keys(files);
    kept[page.main] = files[page.main];
  } else if (Object.keys(files).length > 1) {
    return "Give one file of load cases, with its table of details if it has one, or the tables of one frame: joints.csv, tubes.csv, loads.csv and perhaps details.csv.";
  } else if (names.length === 0) {
    return "There is no file in what was given.";
  }
  page.files = kept;
  page.chosen = null;
  dropChanges();
  page.first.clear();
  return "";
}

/* ---- all rows -------------------------------------------------------------------------------------------- */

function takeCases(check, cases) {
  const answers = jsonOf(check), listed = jsonOf(cases);
  page.rows = [];
  page.unitOf = listed ? listed.units : {};
  if (!answers || !listed) return;
  page.refused = answers.refused;
  const fits = answers.rows.length === listed.rows.length && answers.rows.every((row, i) => row.case === listed.rows[i].case);
  if (!fits) { /* an answer that did not come to an end: which line is whose is not known */
    page.messages.push({ file: "", line: 0, column: "", text: "The rows of the answer cannot be matched with those of the file." });
    return;
  }
  page.rows = answers.rows.map((row, index) => ({
    index, name: row.case, line: listed.rows[index].line, verdict: row.verdict, margin: row.margin, governs: row.governs,
    given: listed.rows[index],
  }));
}

/* The worst run of each tube, and what its table gives. */
function takeFrame(check) {
  const answer = jsonOf(check), grid = csvGrid(page.files[tubesFile()] || new Uint8Array(0));
  const worst = new Map();
  page.rows = [];
  if (!answer || !answer.tubes) return;
  page.unitOf = unitsOfTubes(grid);
  page.refused = answer.refused;
  for (const row of answer.tubes.rows) {
    const before = worst.get(row.tube);
    if (!before || low(row.margin) < low(before.margin)) worst.set(row.tube, row);
  }
  page.rows = [...worst.values()].map((row, index) => ({
    index, name: row.tube, run: row.run, line: 0, verdict: row.verdict, margin: row.margin, governs: row.governs,
    given: givenOfTube(grid, rowOfTube(grid, row.tube)),
  }));
}

const low = (margin) => (margin === null ? Infinity : margin);
const worstFirst = (rows) => [...rows].sort((a, b) => low(a.margin) - low(b.margin) || a.index - b.index);

let generation = 0; /* of the question about all rows: a late answer to an old one is dropped */

/* Asks about everything again. Keeps the chosen row where one of that line (of a frame: name) is still there. */
async function askAll() {
  const mine = ++generation, before = page.chosen;
  if (page.kind === "frame") dropLane("all"); /* an older question about a frame takes long, and nobody waits for it */
  const words = page.kind === "frame" ? wholeWords() : ["check", "--format", "json", ...common(), page.main];
  const answers = [askLater(words, page.files)];
  if (page.kind === "cases") answers.push(askLater(["cases", "--format", "json", ...withoutDetails(common()), page.main], page.files));
  const [check, cases] = await Promise.all(answers);
  if (mine !== generation) return false;
  page.messages = messagesOf(check);
  page.status = check.status;
  page.frame = check.files["frame.html"] ? decoder.decode(check.files["frame.html"]) : "";
  if (page.kind === "cases") takeCases(check, cases);
  else takeFrame(check);
  page.chosen = (before && page.rows.find((row) => (page.kind === "cases" ? row.line === before.line : row.name === before.name)))
    || worstFirst(page.rows)[0] || null;
  page.now = null;
  if (page.kind === "frame") keepGiven();
  if (page.kind === "frame" && page.chosen) takeChangesOf(page.chosen.name);
  page.part = null;
  if (page.begin) {
    const at = page.rows.find((row) => row.line === page.begin.line);
    if (at) {
      page.chosen = at;
      page.changes = Object.fromEntries(page.begin.sets);
    }
    page.begin = null;
  }
  if (page.first.size === 0) for (const row of page.rows) page.first.set(row.name, page.first.has(row.name) ? undefined : row.margin);
  return true;
}

/* ---- the chosen row ---------------------------------------------------------------------------------------- */

/* Verdict and margin of an answer of one row as CSV: JSON would look for advice, which the page's drawing already has. */
function oneRow(bytes) {
  const [header, cells] = csvRows(decoder.decode(bytes), ",").map((row) => row.cells);
  if (!header || !cells) return null;
  const margin = Number(cells[header.indexOf("margin")]);
  return { verdict: cells[header.indexOf("verdict")], margin: Number.isFinite(margin) ? margin : null };
}

/* The chosen case with its changes: verdict and drawings, at once. Returned: {row, html, messages}. */
function askChosen() {
  const words = ["check", "--format", "csv", ...commonOfChosen(), ...rowWords(), ...setWords(), "--report", "page.html", page.main];
  const answer = askNow(words, chosenPart().files), row = oneRow(answer.out);
  const messages = messagesOf(answer).map((m) => (m.line > 0 ? { ...m, line: page.chosen.line } : m));
  return { row, html: row ? decoder.decode(answer.files["page.html"]) : "", messages };
}

/* The chosen tube of a frame in its worst run: a page with the tube in its frame. */
async function askTube() {
  const run = page.now && page.now.run ? page.now.run : page.chosen.run;
  const words = ["explain", ...tables(), ...factorWords(), "--report", "page.html", page.main, page.chosen.name, run];
  const answer = await askLater(words, changedFiles().files, "drawing");
  return { html: answer.files["page.html"] ? decoder.decode(answer.files["page.html"]) : "", messages: messagesOf(answer) };
}

/* Margins along one column with the other changes as they are: [{value, margin, verdict}], only where the program gives any. */
async function askAlong(column, from, to, step, unit) {
  if (page.kind === "frame") return askAlongTube(column, from, to, step, unit);
  const words = ["sweep", "--format", "json", ...commonOfChosen(), ...rowWords(), ...setWords(column),
    "--vary", `${column}=${from}${unit}:${to}${unit}:${step}${unit}`, page.main];
  const said = jsonOf(await askLater(words, chosenPart().files));
  return said ? said.rows.map((row) => ({ value: row[column], margin: row.margin, verdict: row.verdict })) : [];
}

/* The stock walls with their margins for the chosen case. */
async function askWalls() {
  if (page.kind === "frame") return askWallsOfTube();
  const words = ["compare", "--walls", "--format", "json", ...commonOfChosen(), ...rowWords(), ...setWords("wall"), page.main];
  const said = jsonOf(await askLater(words, chosenPart().files));
  return said ? said.rows.map((row) => ({ value: row.wall, margin: row.margin, verdict: row.verdict, pick: row.pick })) : [];
}

/* The report's drawing of the margin along a column. */
async function askChart(column, from, to, step, unit) {
  if (page.kind === "frame") return chartOfTube(column, from, to, step, unit);
  const words = ["sweep", ...commonOfChosen(), ...rowWords(), ...setWords(column), "--vary", `${column}=${from}${unit}:${to}${unit}:${step}${unit}`,
    "--report", "chart.html", "-o", "chart.csv", page.main];
  const answer = await askLater(words, chosenPart().files);
  return answer.files["chart.html"] ? decoder.decode(answer.files["chart.html"]) : "";
}

/* What would make the chosen case hold: the program's own sentence on the page, else what limit and compare say. */
async function askAdvice(row, html) {
  if (!row || holds(row)) return "";
  const said = drawn(html, (parsed) => parsed.querySelector("p.advice"));
  if (said) return said.textContent;
  const ways = [];
  const given = page.changes.miss_a || page.chosen.given.miss_a;
  if (given) {
    const unit = page.unitOf.miss_a, to = typeof given === "string" ? given : `${given}${unit}`;
    const found = jsonOf(await askLater(["limit", "--format", "json", ...commonOfChosen(), ...rowWords(), ...setWords(), "--find", "miss_a",
      "--from", `0${unit}`, "--to", to, page.main], chosenPart().files));
    const limit = found && found.rows.length === 1 && found.rows[0].state === "found" ? found.rows[0].limit : NaN;
    if (limit > 0) ways.push(`pull socket A to within ${(Math.floor(limit * 1000) / 1000).toString()} ${unit}`);
  }
  const walls = await askWalls(), fits = walls.find((wall) => wall.pick !== "" && wall.verdict === "holds");
  if (fits) ways.push(`fit wall ${shownNumber(fits.value)} ${page.unitOf.wall}`);
  if (ways.length === 0) return "Neither a smaller miss nor a stock wall alone makes it hold.";
  const sentence = ways.join(", or ");
  return `To make it hold: ${sentence}.`;
}
