/* A CSV file as a grid of cells, so that a cell can be typed in and the file written again. What the cells mean the program
 * alone knows. */

/* The text of a file as spreadsheets save it. */
function csvText(bytes) {
  if (bytes[0] === 0xFF && bytes[1] === 0xFE) return new TextDecoder("utf-16le").decode(bytes);
  if (bytes[0] === 0xFE && bytes[1] === 0xFF) return new TextDecoder("utf-16be").decode(bytes);
  return decoder.decode(bytes);
}

/* Rows of {line, cells}, by RFC 4180. Lines count from 1. */
function csvRows(text, separator) {
  const rows = [];
  let row = { line: 1, cells: [] }, cell = "", line = 1, quoted = false, wasQuoted = false;
  const endCell = () => { row.cells.push(wasQuoted ? cell : cell.trim()); cell = ""; wasQuoted = false; };
  const endRow = () => { endCell(); rows.push(row); row = { line, cells: [] }; };
  for (let i = 0; i < text.length; i++) {
    const c = text[i];
    const breaks = c === "\n" || (c === "\r" && text[i + 1] !== "\n");
    if (breaks) line++;
    if (quoted) {
      if (c === '"' && text[i + 1] === '"') { cell += '"'; i++; }
      else if (c === '"') quoted = false;
      else cell += c;
    } else if (c === '"' && cell.trim() === "") { quoted = wasQuoted = true; cell = ""; }
    else if (c === separator) endCell();
    else if (breaks) endRow();
    else if (c !== "\r") cell += c;
  }
  if (cell !== "" || row.cells.length > 0) endRow();
  return rows;
}

/* {before, separator, header, rows: [{line, cells}]}; before: the comment lines. */
function csvGrid(bytes) {
  const text = csvText(bytes), before = [];
  let rest = text, skipped = 0, said = "";
  for (;;) {
    const end = rest.search(/\r\n|\n|\r/), line = end < 0 ? rest : rest.slice(0, end);
    if (!/^\s*(#.*)?$|^sep=.$/i.test(line) || end < 0) break;
    if (/^sep=/i.test(line)) said = line[4];
    before.push(line);
    rest = rest.slice(end).replace(/^(\r\n|\n|\r)/, "");
    skipped++;
  }
  const head = rest.split(/\r|\n/, 1)[0].replace(/"[^"]*"/g, "");
  const separator = said || [",", ";", "\t"].reduce((best, c) => (head.split(c).length > head.split(best).length ? c : best), ",");
  const rows = csvRows(rest, separator);
  for (const row of rows) row.line += skipped;
  const header = rows.length > 0 ? rows.shift().cells : [];
  return { before, separator, header, rows: rows.filter((row) => row.cells.some((cell) => cell !== "")) };
}

function csvCell(cell, separator) {
  return /["\r\n]|^\s|\s$/.test(cell) || cell.includes(separator) ? '"' + cell.replace(/"/g, '""') + '"' : cell;
}

/* The file again, with the line of each row as it then is. */
function csvWrite(grid) {
  const lines = [...grid.before];
  const put = (cells) => lines.push(cells.map((cell) => csvCell(cell, grid.separator)).join(grid.separator));
  put(grid.header);
  let line = lines.join("\n").split("\n").length;
  for (const row of grid.rows) {
    row.line = line + 1;
    put(grid.header.map((name, i) => row.cells[i] || ""));
    line += lines[lines.length - 1].split("\n").length;
  }
  return encoder.encode(lines.join("\n") + "\n");
}

const columnName = (head) => head.replace(/\[.*$/, "").trim().toLowerCase();
const columnUnit = (head) => (/\[([^\]]*)\]/.exec(head) || ["", ""])[1].trim();
const columnAt = (grid, name) => grid.header.findIndex((head) => columnName(head) === name);

/* A value into a cell, in the unit of the column; a column that is not there is added with that unit. */
function putCell(grid, row, name, value, unit) {
  let at = columnAt(grid, name);
  if (at < 0) at = grid.header.push(unit ? `${name} [${unit}]` : name) - 1;
  while (row.cells.length < grid.header.length) row.cells.push("");
  row.cells[at] = value;
}
