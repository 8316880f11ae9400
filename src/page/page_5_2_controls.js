/* The controls of the chosen case. Each column has a slider whose track is its own margin, a number box, and the value as given.
 * The ranges are those of a hand, not of the model: what the model cannot take it says. */

/* Columns that are always offered, and those that are offered where the case has a value. */
const usual = ["miss_a", "wall", "od", "length", "compression", "bow"];
const further = ["miss_a_clock", "miss_b", "miss_b_clock", "gap", "point_load", "spread_load", "moment_a", "moment_b", "torque",
  "vertical_g", "eccentricity", "bow_clock", "weld_zone", "dressed", "factor"];
const usualOfTube = ["miss_a", "wall", "od", "bow", "gap"];
const furtherOfTube = ["miss_a_clock", "miss_b", "miss_b_clock", "bow_clock", "weld_zone", "dressed"];
const ends = { end_a: ["pinned", "welded", "fixed"], end_b: ["pinned", "welded", "fixed", "free"] };
const endsOfTube = { end_a: ["rigid", "pinned"], end_b: ["rigid", "pinned"] };
const names = { miss_a: "Miss of socket A", miss_a_clock: "Clock of the miss of A", miss_b: "Miss of socket B", miss_b_clock: "Clock of the miss of B",
  wall: "Wall", od: "Outside diameter", length: "Length", compression: "Compression", bow: "Bow", bow_clock: "Clock of the bow", gap: "Gap",
  point_load: "Point load", spread_load: "Spread load", moment_a: "Moment at A", moment_b: "Moment at B", torque: "Torque",
  vertical_g: "Vertical g", eccentricity: "Eccentricity", weld_zone: "Weld zone", dressed: "Ground off", factor: "Required factor",
  end_a: "End A", end_b: "End B" };

const isClock = (column) => column.endsWith("_clock");

/* Units of a length that a table may have: how many of the inch or the millimetre they are. */
const lengthUnits = { in: [true, 1], ft: [true, 12], mm: [false, 1], cm: [false, 10], m: [false, 1000] };

/* {from, to, step}: detents of 1/64 in or 0.5 mm for misses, 15 degrees for clocks. */
function rangeOf(column, value, unit) {
  const [us, times] = lengthUnits[unit] || [page.units === "us", 1];
  if (times === 1) return rangeIn(us, column, value, unit);
  const { from, to, step } = rangeIn(us, column, value === null ? null : value * times, us ? "in" : "mm");
  return { from: from / times, to: to / times, step: step / times };
}

function rangeIn(us, column, value, unit) {
  const size = Math.abs(Number(value) || 0);
  const upTo = (least, step) => ({ from: 0, to: Math.max(least, Math.ceil((1.5 * size) / step) * step), step });
  if (isClock(column)) return { from: 0, to: 360, step: 15 };
  switch (column) {
    case "miss_a": case "miss_b": return us ? upTo(1, 1 / 64) : upTo(25, 0.5);
    case "gap": return us ? { from: -0.25, to: 0.25, step: 1 / 64 } : { from: -6, to: 6, step: 0.25 };
    case "bow": case "eccentricity": return us ? upTo(0.25, 0.005) : upTo(6, 0.1);
    case "od": return us ? { from: 0.5, to: Math.max(3, 2 * size), step: 0.125 } : { from: 12, to: Math.max(76, 2 * size), step: 1 };
    case "length": return us ? { from: 4, to: Math.max(60, Math.ceil(2 * size)), step: 0.5 } : { from: 100, to: Math.max(1500, Math.ceil(2 * size)), step: 10 };
    case "weld_zone": return us ? upTo(3, 0.125) : upTo(75, 2.5);
    case "dressed": return us ? upTo(0.03, 0.001) : upTo(0.8, 0.05);
    case "factor": return { from: 1, to: 3, step: 0.05 };
    case "vertical_g": return { from: -2, to: 10, step: 0.25 };
    default: { /* loads, of either sign */
      const step = Math.pow(10, Math.floor(Math.log10(Math.max(size, unit.includes("/") ? 1 : 1000)))) / 20;
      return { from: -Math.ceil((2 * Math.max(size, 20 * step)) / step) * step, to: Math.ceil((2 * Math.max(size, 20 * step)) / step) * step, step };
    }
  }
}

/* A number with its unit, as --set takes it; words stay words. */
const withUnit = (text, unit) => (/^[-+−]?[\d.\s/½¼¾-]+$/.test(text.trim()) && unit ? text.trim() + unit : text.trim());

/* "0.25in" -> 0.25 for the slider; null for a word or an empty cell. */
function numberIn(text) {
  const plain = String(text).trim();
  const fraction = /^(?:(\d+)[\s-]+)?(\d+)\/(\d+)/.exec(plain);
  if (fraction) return Number(fraction[1] || 0) + Number(fraction[2]) / Number(fraction[3]);
  const value = parseFloat(plain.replace("−", "-"));
  return Number.isFinite(value) ? value : null;
}

const controls = new Map(); /* column -> {box, slider, track, given, unit, range, values} */
let along = "miss_a"; /* the column whose chart is shown */

function offered() {
  const given = page.chosen.given, [first, more] = page.kind === "frame" ? [usualOfTube, furtherOfTube] : [usual, further];
  const here = (column) => column in page.changes || (typeof given[column] === "number" && given[column] !== 0 && column !== "factor" && column !== "weld_zone");
  return [...first, ...more.filter((column) => here(column) && (!isClock(column) || given[column.replace("_clock", "")] || column in page.changes))];
}

function sliderFor(column) {
  const given = page.chosen.given[column], unit = page.unitOf[column] || "";
  const range = rangeOf(column, given, unit), number = typeof given === "number" ? given : null;
  const id = `set-${column}`;
  const slider = make("input", { type: "range", id: `${id}-slider`, min: range.from, max: range.to, step: "any", "aria-label": `${names[column]}, slider`,
    "aria-describedby": `${id}-was` });
  const box = make("input", { type: "text", id, inputmode: "decimal", autocomplete: "off", size: 8, "aria-describedby": `${id}-was ${id}-bad` });
  const track = make("div", { class: "track", "aria-hidden": "true" });
  const control = { column, box, slider, track, given, unit, range, values: null };
  const was = make("span", { class: "soft", id: `${id}-was` }, `given: ${given === null || given === "" ? "–" : shownNumber(given)}${number !== null && unit ? ` ${unit}` : ""}`);
  const reset = make("button", { type: "button", class: "reset", "aria-label": `${names[column]} as given`, onclick: () => { setChange(column, null); box.focus(); } }, "↺");
  slider.value = number === null ? range.from : number;
  box.value = given === null ? "" : shownNumber(given);
  slider.addEventListener("input", () => takeSlider(control));
  slider.addEventListener("keydown", (event) => {
    const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 8, PageDown: -8 }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    stepBy(control, by);
  });
  box.addEventListener("change", () => setChange(column, withUnit(box.value, unit)));
  box.addEventListener("keydown", (event) => {
    const by = { ArrowUp: 1, ArrowDown: -1, PageUp: 8, PageDown: -8 }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    stepBy(control, by);
  });
  for (const input of [slider, box]) input.addEventListener("focus", () => { if (along !== column) { along = column; showTracksSoon(); } });
  controls.set(column, control);
  return make("div", { class: "control", "data-column": column },
    make("label", { for: id }, names[column]), make("div", { class: "slide" }, track, slider), make("span", { class: "box" }, box, unit ? make("span", { class: "unit" }, unit) : null),
    was, reset, make("span", { class: "bad", id: `${id}-bad`, role: "alert" }));
}

function endFor(column) {
  const given = page.chosen.given[column];
  const select = make("select", { id: `set-${column}`, onchange: (event) => setChange(column, event.target.value === String(given) ? null : event.target.value) });
  const usualEnds = (page.kind === "frame" ? endsOfTube : ends)[column], words = usualEnds.includes(given) ? usualEnds : [shownNumber(given), ...usualEnds];
  for (const word of words) select.append(make("option", { value: word, selected: word === (page.changes[column] || String(given)) }, word));
  return make("div", { class: "control end" }, make("label", { for: `set-${column}` }, names[column]), select);
}

function buildControls() {
  controls.clear();
  const columns = offered(), left = (page.kind === "frame" ? furtherOfTube : further).filter((column) => !columns.includes(column));
  if (!columns.includes(along)) along = "miss_a";
  const more = make("select", { "aria-label": "Another column to change", onchange: (event) => { page.changes[event.target.value] = withUnit(shownNumber(page.chosen.given[event.target.value]), page.unitOf[event.target.value] || ""); along = event.target.value; buildControls(); showNow(); } },
    make("option", { value: "" }, "another column…"), ...left.map((column) => make("option", { value: column }, names[column])));
  const one = make("select", { class: "one", "aria-label": "Which value to change", onchange: (event) => { along = event.target.value; pickOne(); showTracksSoon(); } },
    ...columns.map((column) => make("option", { value: column, selected: column === along }, names[column])));
  const key = make("p", { class: "soft key" }, "Each track is the margin along its slider: hatched where it falls short, a red line at the limit, a tick at the value as given.");
  byId("controls").replaceChildren(key, one, ...columns.map(sliderFor), make("div", { class: "row" }, endFor("end_a"), endFor("end_b"), more,
    make("button", { type: "button", id: "reset", onclick: () => { for (const column of Object.keys(page.changes)) delete page.changes[column]; page.now = null; buildControls(); showFace(); showNow(); } }, "All as given"),
    make("button", { type: "button", id: "keep", onclick: keepChanges }, "Keep in the table")));
  for (const column of Object.keys(page.changes)) showControl(column);
  pickOne();
}

/* On a phone one control is shown at a time. */
function pickOne() {
  for (const node of byId("controls").querySelectorAll(".control[data-column]")) node.classList.toggle("picked", node.dataset.column === along);
}

/* ---- a movement ----------------------------------------------------------------------------------------------- */

/* The nearest detent: a stock wall, or a whole number of steps. */
function detent(control, value) {
  if (control.values) return control.values.reduce((best, at) => (Math.abs(at.value - value) < Math.abs(best - value) ? at.value : best), control.values[0].value);
  const { from, step } = control.range;
  return Number((from + Math.round((value - from) / step) * step).toPrecision(9));
}

function takeSlider(control) {
  const value = detent(control, Number(control.slider.value));
  control.slider.value = value;
  if (value !== numberIn(page.changes[control.column] || control.given)) setChange(control.column, `${value}${control.unit}`);
}

function stepBy(control, by) {
  const present = numberIn(page.changes[control.column] || control.given) || 0;
  let value;
  if (control.values) {
    const list = control.values.map((at) => at.value);
    const next = by > 0 ? list.filter((at) => at > present + 1e-9) : list.filter((at) => at < present - 1e-9).reverse();
    value = next[Math.min(Math.abs(by), next.length) - 1];
    if (value === undefined) return;
  } else {
    const { from, to, step } = control.range, at = Math.round((present - from) / step) + by;
    value = Number(Math.min(to, Math.max(from, from + at * step)).toPrecision(9));
  }
  setChange(control.column, `${value}${control.unit}`);
}

/* Null: as given. */
function setChange(column, value) {
  const begun = performance.now();
  if (value === null) delete page.changes[column];
  else page.changes[column] = value;
  if (page.kind === "frame") clockOfNewMiss(column);
  along = controls.has(column) ? column : along;
  showNow();
  showControl(column);
  if (!isClock(column)) showFace();
  if (page.kind === "cases") document.documentElement.dataset.moved = (performance.now() - begun).toFixed(2);
}

function showControl(column) {
  const control = controls.get(column);
  if (!control) return;
  const changed = column in page.changes, text = changed ? page.changes[column] : shownNumber(control.given);
  const typed = control.unit && text.endsWith(control.unit) ? text.slice(0, -control.unit.length) : text;
  if (control.box !== document.activeElement || control.box.value.trim() !== typed) control.box.value = typed;
  const number = numberIn(typed);
  if (number !== null) control.slider.value = number;
  control.slider.setAttribute("aria-valuetext", `${typed} ${control.unit}${page.now ? `, margin ${percent(page.now.margin)}` : ""}`);
  control.box.closest(".control").classList.toggle("changed", changed);
  const bad = byId(`set-${column}-bad`), fault = page.now || !changed || tubeTurn.asking ? "" : (messagesOfChange(column) || "");
  bad.textContent = fault;
  control.box.setAttribute("aria-invalid", fault ? "true" : "false");
}

const messagesOfChange = () => byId("faults").textContent;

/* ---- tracks: the margin along each column ---------------------------------------------------------------------- */

function trackPicture(control, points) {
  const { from, to } = control.range, at = (value) => (100 * (value - from)) / (to - from);
  const parts = [];
  points.forEach((point, i) => {
    const left = i === 0 ? at(point.value) : (at(points[i - 1].value) + at(point.value)) / 2;
    const right = i === points.length - 1 ? at(point.value) : (at(points[i + 1].value) + at(point.value)) / 2;
    const before = parts[parts.length - 1];
    if (before && before.verdict === point.verdict && Math.abs(before.right - left) < 1e-6) before.right = right;
    else parts.push({ verdict: point.verdict, left, right });
  });
  const children = parts.map((part) => make("i", { class: part.verdict, style: `left:${part.left.toFixed(2)}%;width:${(part.right - part.left).toFixed(2)}%` }));
  for (let i = 1; i < parts.length; i++)
    if (parts[i].verdict !== parts[i - 1].verdict) children.push(make("b", { style: `left:${parts[i].left.toFixed(2)}%` }));
  const given = typeof control.given === "number" ? control.given : null;
  if (given !== null && given >= from && given <= to) children.push(make("u", { style: `left:${at(given).toFixed(2)}%` }));
  if (control.values) for (const { value } of control.values) children.push(make("s", { style: `left:${at(value).toFixed(2)}%` }));
  control.track.replaceChildren(...children);
}

/* Of a tube far from its limits a margin takes a second to work out: a track is then drawn when its column is taken in hand. */
const isFarFromLimits = () => page.kind === "frame" && low((page.now || page.chosen).margin) > 3;

/* A margin of a frame takes a while: fewer of them make its track. */
const stepAlong = (from, to) => Number(((to - from) / (page.kind === "frame" ? 25 : 40)).toPrecision(9));

async function showTrack(control, turn) {
  const key = page.kind === "frame" ? besidesKey(control.column) : "";
  if (key && control.key === key) return; /* nothing else has changed */
  if (control.column === "wall") {
    const walls = await askWalls();
    if (turn !== adviceTurn || walls.length === 0) return;
    control.values = walls;
    control.range = { from: walls[0].value, to: walls[walls.length - 1].value, step: 0 };
    control.slider.min = control.range.from;
    control.slider.max = control.range.to;
    control.slider.value = numberIn(page.changes.wall || control.given);
    trackPicture(control, walls);
    control.key = key;
    return;
  }
  const { from, to } = control.range, step = stepAlong(from, to);
  const points = await askAlong(control.column, from, to, step, control.unit);
  if (turn !== adviceTurn) return;
  trackPicture(control, points);
  control.key = key;
}

let trackTimer = 0;
const showTracksSoon = () => { clearTimeout(trackTimer); trackTimer = setTimeout(() => showTracks(adviceTurn), 60); };

/* The column that is being moved and its chart first, then the others. */
async function showTracks(turn) {
  const order = [...controls.values()].sort((a, b) => (b.column === along) - (a.column === along));
  for (const control of order) {
    if (turn !== adviceTurn || page.passed === null) return;
    if ((narrow() || isFarFromLimits()) && control.column !== along) continue;
    await showTrack(control, turn);
    if (control.column === along) await showChart(turn);
  }
  if (page.kind === "cases") document.documentElement.dataset.settled = String(turn);
}

/* The report's drawing of the margin along that column; the present value is marked in words. */
async function showChart(turn) {
  const control = controls.get(along);
  if (!control || turn !== adviceTurn) return;
  const { from, to } = control.range, step = stepAlong(from, to);
  const html = await askChart(along, from, to, step, control.unit);
  if (turn !== adviceTurn) return;
  const figure = drawn(html, (parsed) => parsed.querySelector("main figure") || parsed.querySelector("main svg"));
  showAlong(byId("along"), figure, control);
  await showOthers(turn, from, to, step);
}

/* ---- changes into the table -------------------------------------------------------------------------------------- */

/* In the unit of the column, as the program converts it. */
async function keepChanges() {
  const columns = Object.keys(page.changes);
  if (page.kind === "frame") {
    keepTubes();
    return;
  }
  if (columns.length === 0) return;
  const grid = csvGrid(page.files[page.main]), row = grid.rows.find((at) => at.line === page.chosen.line);
  const listed = {};
  for (const units of ["us", "si"]) {
    const words = ["cases", "--format", "json", ...withoutDetails(commonOfChosen()), ...rowWords(), ...setWords(), "--units", units, page.main];
    listed[units] = jsonOf(await askLater(words, chosenPart().files));
  }
  for (const column of columns) {
    const at = columnAt(grid, column), head = at < 0 ? "" : columnUnit(grid.header[at]);
    const said = ["us", "si"].map((units) => listed[units]).find((answer) => answer && (!head || !answer.units[column] || answer.units[column] === head));
    if (!row || !said || said.rows.length !== 1) {
      showFaults([{ file: "", line: 0, column: "", text: `${names[column] || column}: this column is in ${head}: type the value in the table below.` }]);
      return;
    }
    const value = said.rows[0][column];
    putCell(grid, row, column, value === null ? "" : String(value), said.units[column] || "");
  }
  page.files[page.main] = csvWrite(grid);
  page.changes = {};
  renew();
}
