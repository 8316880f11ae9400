"use strict";
/* The table of the live page reads a file as the program does: the same rows in the same lines, whatever saved it; and a file that
 * it writes gives the same answer.
 *
 * Usage: node test_csv.js PROGRAM SOURCE_DIR */

const { spawnSync } = require("child_process");
const assert = require("assert");
const fs = require("fs");
const os = require("os");
const path = require("path");

const [program, source] = process.argv.slice(2).map((word) => path.resolve(word));
const script = fs.readFileSync(path.join(source, "src/page/page_2_csv.js"), "utf8");
const { csvGrid, csvWrite, putCell, columnAt } = new Function("encoder", "decoder", `${script}; return { csvGrid, csvWrite, putCell, columnAt };`)(new TextEncoder(), new TextDecoder());
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), "railbow-csv-"));
const MATERIALS = path.join(source, "materials/steel_tube.csv");

function rowsOf(bytes) {
  const file = path.join(scratch, "file.csv");
  fs.writeFileSync(file, bytes);
  const run = spawnSync(program, ["cases", "--format", "json", "--materials", MATERIALS, file]);
  assert.strictEqual(run.status, 0, run.stderr.toString());
  return JSON.parse(run.stdout.toString()).rows;
}

const HEAD = "case,note,od [in],wall [in],material,length [in]";
const utf16 = (text, big) => { const bytes = Buffer.from(`\ufeff${text}`, "utf16le"); return big ? bytes.swap16() : bytes; };
const files = {
  "plain": `${HEAD}\na,x,1.25,0.058,4130,24\nb,y,1.25,0.058,4130,24\n`,
  "no line end at the end": `${HEAD}\na,x,1.25,0.058,4130,24`,
  "CRLF": `${HEAD}\r\na,x,1.25,0.058,4130,24\r\nb,y,1.25,0.058,4130,24\r\n`,
  "CR": `${HEAD}\ra,x,1.25,0.058,4130,24\rb,y,1.25,0.058,4130,24\r`,
  "comments and empty lines": `# one\n\n# two, "three\n${HEAD}\na,x,1.25,0.058,4130,24\n\n,,,,,\nb,y,1.25,0.058,4130,24\n`,
  "quotes": `${HEAD}\n"a, ""A""",x,1.25,0.058,4130,24\n"b","two\nlines",1.25,0.058,4130,24\n"c","three\r\nmore\r\nlines",1.25,0.058,4130,24\nd,y,1.25,0.058,4130,24\n`,
  "blanks": ` case , note , od [in] , wall [in] , material , length [in] \n a , x , 1.25 , 0.058 , 4130 , 24 \n`,
  "semicolons": `${HEAD.replace(/,/g, ";")}\na;x, y;1,25;0,058;4130;24\nb;;1,25;0,058;4130;24\n`,
  "tabs": `${HEAD.replace(/,/g, "\t")}\na\tx\t1.25\t0.058\t4130\t24\nb\t\t1.25\t0.058\t4130\t24\n`,
  "sep=": `sep=;\n${HEAD.replace(/,/g, ";")}\na;x;1.25;0.058;4130;24\n`,
  "byte-order mark": `\ufeff${HEAD}\nä,ø,1.25,0.058,4130,24\n`,
  "UTF-16": utf16(`${HEAD}\r\nä,ø,1.25,0.058,4130,24\r\nb,y,1.25,0.058,4130,24\r\n`, false),
  "UTF-16, big end first": utf16(`${HEAD}\nä,ø,1.25,0.058,4130,24\n`, true),
  "shop's lengths": `${HEAD}\na,x,1 1/4,1/16,4130,"2' 1/2"""\n`,
};
for (const name of ["nose", "nose_si", "rail", "parts"]) files[`${name}.csv`] = fs.readFileSync(path.join(source, `cases/${name}.csv`));

let wrong = 0;
for (const [name, text] of Object.entries(files)) {
  try {
    const bytes = new Uint8Array(Buffer.from(text)), rows = rowsOf(bytes), grid = csvGrid(bytes);
    assert.deepStrictEqual(grid.rows.map((row) => row.line), rows.map((row) => row.line), "lines");
    assert.deepStrictEqual(grid.rows.map((row) => row.cells[columnAt(grid, "case")]), rows.map((row) => row.case), "names");
    const again = rowsOf(csvWrite(grid));
    assert.deepStrictEqual(again.map((row) => ({ ...row, line: 0 })), rows.map((row) => ({ ...row, line: 0 })), "written again");
    assert.deepStrictEqual(grid.rows.map((row) => row.line), again.map((row) => row.line), "lines as written");
    putCell(grid, grid.rows[0], "factor", "2", "");
    putCell(grid, grid.rows[0], "note", "new, \"note\"", "");
    const changed = rowsOf(csvWrite(grid));
    assert.deepStrictEqual([changed[0].factor, changed[0].note], [2, "new, \"note\""]);
  } catch (fault) {
    wrong++;
    console.log(`WRONG  ${name}: ${fault.stack}`);
  }
}
fs.rmSync(scratch, { recursive: true });
console.log(`${Object.keys(files).length} files, ${wrong} wrong`);
process.exitCode = wrong > 0 ? 1 : 0;
