/* The table that was given, to type in. Its columns offer their meanings and units; errors stand at the cell. */

let columnsKnown = null; /* {load cases, joints, tubes, loads: [{name, unit, fallback, meaning}], units: [[...]]} */

/* The program's own list, `railbow columns`: blocks of aligned lines. */
function readColumns() {
  const text = decoder.decode(askNow(["columns"], {}).out), tables = {};
  for (const block of text.split(/\n\n(?=\S[^\n]*\n\ncolumn )/)) {
    const lines = block.split("\n"), head = lines.findIndex((line) => line.startsWith("column "));
    if (head < 0) continue;
    const starts = ["column", "unit", "default", "meaning"].map((name) => lines[head].indexOf(name));
    const cell = (line, i) => {
      const end = starts.slice(i + 1).find((at) => at >= 0);
      return starts[i] < 0 ? "" : line.slice(starts[i], end === undefined ? undefined : end).trim();
    };
    const columns = [];
    for (const line of lines.slice(head + 1)) {
      if (line.trim() === "") break;
      const parts = [0, 1, 2, 3].map((i) => cell(line, i));
      if (parts[0] !== "") columns.push({ name: parts[0], unit: parts[1], fallback: parts[2], meaning: parts[3] });
      else if (columns.length > 0) {
        const last = columns[columns.length - 1];
        last.fallback = `${last.fallback} ${parts[2]}`.trim();
        last.meaning = `${last.meaning} ${parts[3]}`.trim();
      }
    }
    tables[lines[0].trim()] = columns;
  }
  const units = text.slice(text.indexOf("Units that a header may name")).split("\n").slice(1).filter((line) => line.startsWith("  "))
    .map((line) => line.trim().split(/, | or /));
  return { tables, units };
}

const tableTitles = { "joints.csv": "Joints of a frame (joints.csv)", "tubes.csv": "Tubes of a frame (tubes.csv)", "loads.csv": "Loads of a frame (loads.csv)",
  "details.csv": "Details (--details; of a frame details.csv, whose first column is tube)" };

function columnsOf(name) {
  if (!columnsKnown) columnsKnown = readColumns();
  return columnsKnown.tables[name === page.details ? tableTitles["details.csv"] : page.kind === "frame" ? tableTitles[baseName(name)] : "Load cases"] || [];
}

const unitsLike = (unit) => columnsKnown.units.find((list) => list.includes(unit)) || [];

let tableShown = ""; /* the file whose table is open */
let rowsFrom = 0;
const rowsAtOnce = 100;

function tableNames() {
  if (page.kind !== "frame") return page.details ? [page.main, page.details] : [page.main];
  return Object.keys(tableTitles).map((name) => `${page.main}/${name}`).filter((name) => page.files[name]);
}

let retyped = 0;

/* After typing: the file is written again and everything is asked anew. */
function writeTable(name, grid) {
  page.files[name] = csvWrite(grid);
  page.example = false;
  dropChanges();
  clearTimeout(retyped);
  retyped = setTimeout(() => renew(true), 120);
}

function headFor(name, grid, at) {
  const head = grid.header[at], known = columnsOf(name).find((column) => column.name === columnName(head));
  const cell = make("th", { scope: "col", title: known ? known.meaning : "railbow does not know this column" }, make("span", {}, columnName(head)));
  const unit = columnUnit(head), list = known ? unitsLike(known.unit) : [];
  if (list.length > 0) {
    const select = make("select", { "aria-label": `Unit of ${columnName(head)}`, onchange: (event) => {
      grid.header[at] = event.target.value ? `${columnName(head)} [${event.target.value}]` : columnName(head);
      writeTable(name, grid);
    } }, ...(list.includes(unit) ? [] : [make("option", { value: unit }, unit || "–")]), ...list.map((word) => make("option", { value: word, selected: word === unit }, word)));
    cell.append(select);
  }
  return cell;
}

function cellFor(name, grid, row, at) {
  const column = columnName(grid.header[at]);
  const bad = page.messages.find((m) => m.line === row.line && m.file === name && (m.column === column || m.column === ""));
  const input = make("input", { value: row.cells[at] || "", "aria-label": `${column}, line ${row.line}`, "data-line": row.line, "data-column": column,
    "aria-invalid": bad ? "true" : null, title: bad ? bad.text : null, autocomplete: "off", spellcheck: "false",
    onchange: (event) => { while (row.cells.length <= at) row.cells.push(""); row.cells[at] = event.target.value; writeTable(name, grid); } });
  const cell = make("td", { class: bad ? "bad" : null }, input);
  if (bad && (bad.column === column)) cell.append(make("small", { class: "bad" }, bad.text));
  return cell;
}

function addColumnFor(name, grid) {
  const left = columnsOf(name).filter((column) => columnAt(grid, column.name) < 0);
  return make("label", {}, "Add a column ", make("select", { onchange: (event) => {
    const column = left.find((one) => one.name === event.target.value);
    if (!column) return;
    grid.header.push(unitsLike(column.unit).length > 0 ? `${column.name} [${column.unit}]` : column.name);
    writeTable(name, grid);
  } }, make("option", { value: "" }, "…"), ...left.map((column) => make("option", { value: column.name },
    `${column.name}: ${column.meaning}${column.fallback ? ` (default ${column.fallback})` : ""}`))));
}

function showTable() {
  const all = tableNames();
  if (!all.includes(tableShown)) tableShown = all[0];
  const name = tableShown, box = byId("table");
  if (!name || !page.files[name]) {
    box.replaceChildren();
    return;
  }
  columnsOf(name);
  const grid = csvGrid(page.files[name]);
  rowsFrom = Math.min(rowsFrom, Math.max(0, Math.floor((grid.rows.length - 1) / rowsAtOnce) * rowsAtOnce));
  const rows = grid.rows.slice(rowsFrom, rowsFrom + rowsAtOnce);
  const tabs = all.length < 2 ? null : make("div", { class: "row", role: "group", "aria-label": "Tables" }, ...all.map((one) =>
    make("button", { type: "button", "aria-pressed": String(one === name), onclick: () => { tableShown = one; rowsFrom = 0; showTable(); } }, baseName(one))));
  const table = make("table", {}, make("caption", {}, `${name}: press Enter after typing. A red cell says what is wrong with it. Changing a unit changes what the numbers mean.`),
    make("thead", {}, make("tr", {}, make("th", { scope: "col" }, "line"), ...grid.header.map((_, at) => headFor(name, grid, at)), make("th", { scope: "col" }, make("span", { class: "unseen" }, "delete")))),
    make("tbody", {}, ...rows.map((row) => make("tr", {}, make("th", { scope: "row" }, String(row.line)), ...grid.header.map((_, at) => cellFor(name, grid, row, at)),
      make("td", {}, make("button", { type: "button", "aria-label": `Delete line ${row.line}`, onclick: () => { grid.rows.splice(grid.rows.indexOf(row), 1); writeTable(name, grid); } }, "×"))))));
  const addRow = make("button", { type: "button", id: "add-row", onclick: () => { const last = grid.rows[grid.rows.length - 1]; grid.rows.push({ line: 0, cells: last ? [...last.cells] : grid.header.map(() => "") }); writeTable(name, grid); } }, "Add a row like the last");
  const turn = (by) => make("button", { type: "button", disabled: by < 0 ? rowsFrom === 0 : rowsFrom + rowsAtOnce >= grid.rows.length,
    onclick: () => { rowsFrom = Math.max(0, rowsFrom + by * rowsAtOnce); showTable(); } }, by < 0 ? "Rows before" : "Rows after");
  box.replaceChildren(...[tabs, make("div", { class: "wide", tabindex: "0", role: "region", "aria-label": "Table, scrolls sideways" }, table),
    make("div", { class: "row" }, addRow, addColumnFor(name, grid), ...(grid.rows.length > rowsAtOnce ? [turn(-1), turn(1)] : []))].filter((node) => node));
}

function goToCell(m) {
  byId("table-part").open = true;
  if (page.files[m.file]) tableShown = m.file;
  const grid = csvGrid(page.files[tableShown] || new Uint8Array(0)), at = grid.rows.findIndex((row) => row.line === m.line);
  if (at >= 0) rowsFrom = Math.floor(at / rowsAtOnce) * rowsAtOnce;
  showTable();
  const cell = byId("table").querySelector(`input[data-line="${m.line}"]${m.column ? `[data-column="${CSS.escape(m.column)}"]` : ""}`) || byId("table").querySelector(`input[data-line="${m.line}"]`);
  if (cell) cell.focus();
}
