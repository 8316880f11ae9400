/* What is seen: verdict, list, and the chosen case. */

const word = (row) => (holds(row) ? "✓ HOLDS" : "✗ SHORT");

function buildPage() {
  const still = make("div", { id: "still" });
  for (const node of [...document.body.children]) if (!/^(SCRIPT|STYLE)$/.test(node.tagName)) still.append(node);
  const picked = make("input", { type: "file", id: "pick", multiple: true, accept: ".csv,.txt,.tsv", class: "unseen", tabindex: "-1", "aria-label": "Files to open",
    onchange: (event) => openFiles([...event.target.files]) });
  const button = (id, label, action) => make("button", { type: "button", id, onclick: action }, label);
  const live = make("div", { id: "live", hidden: true },
    make("header", { class: "top-bar" },
      make("div", { class: "top-bar-in" },
        make("h1", {}, make("span", { id: "source" })),
        make("div", { class: "tools", role: "group", "aria-label": "Files" },
          button("open", "Open…", () => picked.click()), exampleChoice(), button("new", "New cases", newFile), button("new-frame", "New frame", newFrame), button("save-csv", "Save CSV", saveCsv),
          button("save-page", "Save this page", savePage), button("print", "Print", () => window.print()),
          make("label", {}, "Units ", make("select", { id: "units", onchange: (event) => { page.units = event.target.value; dropChanges(); renew(); } },
            make("option", { value: "us" }, "inch, lbf"), make("option", { value: "si" }, "mm, N"))))), picked),
    make("main", {}, make("section", { id: "top", "aria-label": "Verdict" },
      make("div", { class: "top-in" },
        make("p", { id: "verdict", role: "status", "aria-live": "polite", "aria-atomic": "true" }),
        make("p", { id: "whole" }), make("p", { id: "advice" }), make("p", { id: "changed" }))),
    make("div", { id: "faults", role: "alert" }),
    make("div", { class: "columns" },
      make("details", { id: "list-part", open: !narrow() }, make("summary", {}, make("h2", { id: "list-title" }, "Cases")),
        make("div", { class: "find" },
          make("label", {}, "Show ", make("select", { id: "filter", onchange: (event) => { page.filter = event.target.value; showList(); } },
            make("option", { value: "all" }, "all"), make("option", { value: "short" }, "short"),
            make("option", { value: "close" }, "margin under 10 %"))),
          make("label", {}, "Find ", make("input", { type: "search", id: "search", autocomplete: "off", oninput: (event) => { page.search = event.target.value; showList(); } }))),
        make("ol", { id: "list" }), make("button", { type: "button", id: "more", hidden: true, onclick: () => { shownRows *= 4; showList(); } }, "Show more")),
      make("section", { id: "detail", "aria-labelledby": "chosen" },
        make("h2", { id: "chosen" }), make("div", { class: "seen" }, make("div", { id: "tube" }), make("div", { id: "clocks" })), make("div", { id: "controls" }), make("div", { id: "along" }), make("div", { id: "found" }), make("div", { id: "drawing" }))),
    make("details", { id: "table-part" }, make("summary", {}, make("h2", {}, "The table")), make("div", { id: "table" }))),
    make("footer", { id: "foot" }));
  document.body.prepend(make("p", { id: "waiting", role: "status" }), live);
  document.body.append(still);
  byId("table-part").addEventListener("toggle", () => { if (byId("table-part").open) showTable(); });
}

const narrow = () => window.matchMedia("(max-width: 46rem)").matches;

/* ---- verdict ------------------------------------------------------------------------------------------------ */

/* The answer about everything, the chosen case as it now is. */
function standing() {
  const rows = page.rows.map((row) => (row === page.chosen && page.now ? { ...row, verdict: page.now.verdict, margin: page.now.margin } : row));
  return { rows, short: rows.filter((row) => !holds(row)).length };
}

function showVerdict(said) {
  const top = byId("top"), verdict = byId("verdict");
  delete top.dataset.verdict;
  delete top.dataset.all;
  verdict.removeAttribute("data-stale");
  showWhole();
  if (page.passed === null) {
    top.dataset.verdict = "short";
    verdict.replaceChildren(make("strong", {}, "NO VERDICT"), " The engine does not give the known answer to a known case in this browser. Do not use this page here.");
    return;
  }
  const row = page.now || page.chosen;
  if (!row || said === "none") {
    top.dataset.verdict = "short";
    verdict.replaceChildren(make("strong", {}, "NO VERDICT"), make("span", { class: "why" }, said === "none" ? " The model cannot take this value; see the message below." : " Nothing could be checked; see the messages below."));
    return;
  }
  const { rows, short } = standing(), frame = page.kind === "frame";
  const all = frame || rows.length === 1 ? "" : short === 0 ? `All ${rows.length} cases hold.` : `✗ ${short} of ${rows.length} cases ${short === 1 ? "is" : "are"} short.`;
  const lost = page.refused > 0 ? ` ${page.refused} more ${frame ? "run" : "row"}${page.refused === 1 ? " was" : "s were"} not checked.` : "";
  const before = marginBefore(row);
  top.dataset.verdict = holds(row) ? "holds" : "short";
  if (page.refused > 0 || (frame ? wholeIsShort() : short > 0)) top.dataset.all = "short"; /* a case that holds must not hide one that does not */
  verdict.replaceChildren(...[make("strong", {}, word(row)), " ", make("b", { class: "margin" }, percent(row.margin)), " ",
    make("span", { class: "which" }, page.chosen.name, frame ? ` in run ${row.run}` : ""),
    make("span", { class: "was" }, before !== undefined ? ` was ${percent(before)}, now ${percent(row.margin)}` : ""),
    row.margin === null ? make("span", { class: "why" }, " No run load: nothing was asked of this tube.") : null,
    make("span", { class: "all" }, all || lost ? ` ${all}${lost}` : "")].filter((part) => part !== null));
}

/* The margin as it was: of a change that is not kept yet that of the file, else that of the file as it was first given. */
function marginBefore(row) {
  const first = page.first.get(page.chosen.name);
  const given = page.kind !== "frame" ? page.chosen : page.asGiven.rows.find((one) => one.name === page.chosen.name);
  const before = isChanged() && given && (page.now || page.kind === "frame") ? given.margin : first;
  return before === undefined || percent(before) === percent(row.margin) ? undefined : before;
}

/* What holds of all tubes stands under what holds of one. */
function showWhole() {
  const line = byId("whole"), said = page.kind === "frame" && page.passed !== null && page.chosen ? wholeSaid() : "";
  if (line.textContent !== said) line.textContent = said;
  line.dataset.state = page.kind === "frame" ? page.whole.state : "";
  for (const id of ["list", "tube", "found"]) byId(id).toggleAttribute("data-stale", said !== "" && page.whole.state !== "done");
}

/* What differs from the file, on paper too. */
function showChanged() {
  const same = byId("foot").querySelector("code");
  if (same) same.textContent = commandLine();
  const of = (row, changes, before) => Object.entries(changes).map(([column, value]) => {
    const given = row.given[column], unit = typeof given === "number" ? page.unitOf[column] || "" : "";
    return `${before}${column} ${value.replace(/(\d)([a-z])/i, "$1 $2")} (given ${given === null || given === "" ? "none" : shownNumber(given)}${unit ? ` ${unit}` : ""})`;
  });
  const said = page.kind === "cases" ? of(page.chosen, page.changes, "")
    : changedTubes().flatMap(([tube, changes]) => of(page.asGiven.rows.find((row) => row.name === tube) || page.chosen, changes, `${tube}: `));
  byId("changed").textContent = said.length > 0 ? `Not as in the file: ${said.join(", ")}.` : "";
}

/* Messages on the whole; those on a cell stand at the cell too. */
function showFaults(messages) {
  const most = 12, list = messages.slice(0, most).map((m) =>
    make("li", {}, m.line > 0 ? make("button", { type: "button", class: "link", onclick: () => goToCell(m) }, `${baseName(m.file)}, line ${m.line}${m.column ? ", " + m.column : ""}`) : null,
      m.line > 0 ? ": " : "", m.text));
  byId("faults").replaceChildren(...(list.length > 0 ? [make("ul", {}, ...list)] : []));
  if (messages.length > most) byId("faults").append(make("p", {}, `${messages.length - most} more messages stand in the table.`));
}

/* ---- list --------------------------------------------------------------------------------------------------- */

let shownRows = 200;

function showList() {
  const search = page.search.toLowerCase();
  const rows = worstFirst(page.rows).filter((row) => (page.filter === "all" || (page.filter === "short" ? !holds(row) : low(row.margin) < 0.1))
    && (row.name.toLowerCase().includes(search) || String(row.given.part || "").toLowerCase().includes(search)));
  byId("list").replaceChildren(...rows.slice(0, shownRows).map((row) => make("li", {},
    make("button", { type: "button", class: holds(row) ? "holds" : "short", "aria-current": row === page.chosen ? "true" : null, "data-index": row.index,
      onclick: () => choose(row) },
      make("span", { class: "tick-cross" }, holds(row) ? "✓" : "✗", make("span", { class: "unseen" }, holds(row) ? " holds " : " short ")),
      make("span", { class: "case-name" }, row.name, page.kind === "frame" ? make("small", {}, ` ${row.run}`) : null),
      make("span", { class: "margin" }, percent(row.margin))))));
  byId("more").hidden = rows.length <= shownRows;
  const what = page.kind === "frame" ? "Tubes" : "Cases";
  byId("list-title").textContent = `${what}, worst first (${rows.length === page.rows.length ? rows.length : `${rows.length} of ${page.rows.length}`})`;
}

function markChosen() {
  for (const button of byId("list").querySelectorAll("button")) {
    if (page.chosen && Number(button.dataset.index) === page.chosen.index) button.setAttribute("aria-current", "true");
    else button.removeAttribute("aria-current");
  }
}

function choose(row) {
  dropAnswers();
  page.chosen = row;
  page.now = null;
  if (page.kind === "frame") takeChangesOf(row.name);
  else page.changes = {};
  markChosen();
  if (narrow()) byId("list-part").open = false;
  showChosen();
}

/* ---- the chosen case ------------------------------------------------------------------------------------------ */

/* The sheet of a case without its heading, which stands above. */
function sheetOf(html) {
  const open = byId("drawing").querySelector("details.work[open]") !== null;
  const middle = html.slice(html.indexOf("<main>"), html.lastIndexOf("</main>"));
  const light = open ? middle : middle.replace(/(<table class="working[^>]*>)[\s\S]*?<\/table>/, "$1</table>"); /* nobody reads it while a slider moves */
  const sheet = drawn(light, (parsed) => parsed.querySelector("section.card"));
  if (sheet) sheet.querySelectorAll("h2").forEach((node) => node.remove());
  if (sheet) sheet.removeAttribute("id");
  return sheet;
}

/* The drawing of the tube stands first, above the controls; the charts and the working follow them. */
function showSheet(sheet) {
  const tube = sheet.querySelector("figure") || sheet.querySelector("svg");
  byId("tube").replaceChildren(...(tube ? [tube] : []));
  const open = byId("drawing").querySelector("details.work[open]") !== null;
  wrapWorking(sheet, open);
  showWithCursors(byId("drawing"), [sheet]);
}

/* The working is closed until it is asked for. */
function wrapWorking(sheet, open) {
  const table = sheet.querySelector("table.working");
  if (!table) return;
  const box = table.closest("details") || make("details", {}, make("summary", {}, make("h3", {}, "The working")));
  if (!box.contains(table)) {
    const before = table.previousElementSibling, note = before && before.tagName === "P" ? before : null, heading = note ? note.previousElementSibling : before;
    table.before(box);
    if (heading && /^H\d$/.test(heading.tagName)) heading.remove();
    box.append(...(note ? [note] : []), table);
  }
  box.classList.add("work");
  box.open = open;
  if (page.kind === "cases") box.addEventListener("toggle", () => { if (box.open && !table.rows.length) showNow(); });
}

let adviceTurn = 0;

/* Answers that are still on their way come too late. */
function dropAnswers() {
  adviceTurn++;
  clearTimeout(showNow.timer);
  clearTimeout(trackTimer);
  dropTube();
}

/* The verdict, the drawing, and a moment later what to do. */
function showNow() {
  if (!page.chosen) return;
  if (page.kind === "frame") {
    showTubeNow();
    return;
  }
  const { row, html, messages } = askChosen();
  page.now = row;
  showChanged();
  showVerdict(row ? "" : "none");
  showFaults(row ? page.messages : messages);
  if (row) {
    const sheet = sheetOf(html);
    if (sheet) showSheet(sheet);
  }
  const turn = ++adviceTurn;
  clearTimeout(showNow.timer);
  if (row && holds(row)) byId("advice").textContent = "";
  showNow.timer = setTimeout(async () => {
    const sentence = page.passed === null ? "" : await askAdvice(row, html);
    if (turn === adviceTurn) byId("advice").textContent = sentence;
    if (turn === adviceTurn) showTracks(turn);
  }, 90);
}

/* The views of the whole frame, its tubes drawn by their margins, and what was found. */
function showFrame() {
  const parts = drawn(page.frame, (parsed) => parsed.querySelector("main"));
  const box = make("div", { class: "views" }), keep = parts ? [parts.querySelector("p.keys"), parts.querySelector("div.figures")] : [];
  box.append(...keep.filter((node) => node));
  showTurned(box);
  byId("tube").replaceChildren(box);
  const ofLowest = worstFirst(page.rows)[0] === page.chosen; /* the first finding is about that tube */
  const said = parts && (parts.querySelector("p.advice") || (ofLowest && parts.querySelector("li"))), found = parts && parts.querySelector("ul");
  byId("advice").textContent = said ? said.textContent : "";
  byId("found").replaceChildren(...(found ? [make("h3", {}, "The whole frame"), found] : []));
}

/* A frame's views are tall: its controls stand above them. */
function placeControls() {
  const controls = byId("controls"), seen = byId("detail").querySelector(".seen");
  if (page.kind === "frame" && controls.nextElementSibling !== seen) seen.before(controls);
  if (page.kind === "cases" && seen.nextElementSibling !== controls) seen.after(controls);
}

/* The working of the chosen tube, as its sheet. */
async function showTube(turn) {
  if (!byId("drawing").firstElementChild) byId("drawing").replaceChildren(make("p", { class: "soft" }, "Drawing…"));
  const { html, messages } = await askTube();
  if (turn !== adviceTurn) return;
  const part = drawn(html, (parsed) => parsed.querySelector("main"));
  const box = make("div", { class: "sheet" }), open = byId("drawing").querySelector("details.work[open]") !== null;
  if (part) {
    part.querySelectorAll("p.verdict, p.about").forEach((node) => node.remove()); /* they stand above */
    if (isChanged()) part.querySelectorAll("section.record").forEach((node) => node.remove()); /* no file has these tables */
    box.append(...part.childNodes);
    wrapWorking(box, open);
  }
  showWithCursors(byId("drawing"), [part ? box : make("p", {}, messages.map((m) => m.text).join(" "))]);
}

function showChosen() {
  const title = byId("chosen");
  title.textContent = page.chosen ? page.chosen.name : "No case";
  placeControls();
  for (const id of ["along", "found", "drawing"]) byId(id).replaceChildren();
  byId("tube").replaceChildren();
  byId("clocks").replaceChildren();
  byId("changed").textContent = "";
  byId("controls").replaceChildren();
  if (!page.chosen || page.passed === null) {
    showVerdict("");
    showFaults(page.messages);
    byId("advice").textContent = "";
    return;
  }
  showFoot();
  if (page.kind === "frame") {
    showFaults(page.messages);
    buildControls();
    showFace();
    showFrame();
    showVerdict("");
    showChanged();
    showRest(++adviceTurn);
    return;
  }
  buildControls();
  showFace();
  showNow();
}

/* ---- footer ----------------------------------------------------------------------------------------------------- */

async function digestOf(bytes) {
  if (!window.crypto || !crypto.subtle) return "not available in this browser";
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return [...digest].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

async function showFoot() {
  const names = Object.keys(page.files);
  const digests = await Promise.all(names.map((name) => digestOf(page.files[name])));
  const caution = byId("still").querySelector("footer p");
  byId("foot").replaceChildren(
    make("p", {}, caution ? caution.textContent : ""),
    make("p", {}, page.kind === "frame" ? "The frame as its files have it, from a terminal: " : "The same from a terminal: ", make("code", {}, commandLine())),
    make("table", {}, make("caption", {}, "What this answer rests on"),
      make("thead", {}, make("tr", {}, make("th", { scope: "col" }, "File"), make("th", { scope: "col" }, "SHA-256"))),
      make("tbody", {}, ...names.map((name, i) => make("tr", {}, make("th", { scope: "row" }, name), make("td", { class: "digest" }, digests[i]))))),
    make("p", {}, `railbow ${engine.version}. Licence: GPL-3, since the GNU Scientific Library is linked. The source is in the package railbow from which this page comes. This page opens no connection.`));
}
