/* Files in and out, and the start. */

/* Everything is asked again and shown. `typed`: the table is being typed in, and keeps its focus. */
async function renew(typed) {
  dropAnswers();
  byId("source").textContent = `${page.kind === "frame" ? "Frame: " : ""}${page.main}${page.example ? " (an example: type over it)" : ""}`;
  byId("units").value = page.units;
  byId("live").setAttribute("aria-busy", "true");
  if (page.kind === "frame" && page.chosen) {
    page.whole = { state: "asking" };
    showWhole();
  }
  const focus = typed && document.activeElement && document.activeElement.dataset ? { ...document.activeElement.dataset } : null;
  if (!(await askAll())) return;
  byId("live").removeAttribute("aria-busy");
  showLive();
  shownRows = 200;
  showList();
  showChosen();
  if (byId("table-part").open) showTable();
  if (focus && focus.line) {
    const cell = byId("table").querySelector(`input[data-line="${focus.line}"][data-column="${CSS.escape(focus.column)}"]`);
    if (cell) cell.focus();
  }
  if (document.documentElement.dataset.answers === undefined) performance.mark("answered");
  document.documentElement.dataset.answers = String(generation);
}

function useFiles(files, example) {
  dropAnswers();
  page.example = example === true;
  const fault = takeFiles(files);
  if (fault) {
    showFaults([{ file: "", line: 0, column: "", text: fault }]);
    return;
  }
  const at = page.options.indexOf("--factor"); /* what chose or changed rows was said of the file before */
  page.options = at < 0 ? [] : page.options.slice(at, at + 2);
  rowsFrom = 0;
  renew();
}

async function openFiles(list) {
  const files = {};
  for (const file of list) files[file.webkitRelativePath || file.name] = new Uint8Array(await file.arrayBuffer());
  useFiles(files);
}

/* Files and folders that were dropped. Not every browser gives a page from the disk the inside of a folder by the same way: the
 * handle of the newer one is tried first. All must be taken from the event at once. */
async function dropped(transfer) {
  const items = [...transfer.items].filter((item) => item.kind === "file").map((item) => {
    const entry = item.webkitGetAsEntry ? item.webkitGetAsEntry() : null, folder = entry !== null && entry.isDirectory;
    return { file: folder ? null : item.getAsFile(), entry, handle: folder && item.getAsFileSystemHandle ? item.getAsFileSystemHandle() : null };
  });
  const taken = {};
  const take = async (file, name) => { if (/\.(csv|txt|tsv)$/i.test(name)) taken[name] = new Uint8Array(await file.arrayBuffer()); };
  try {
    for (const { file, entry, handle } of items) {
      if (file) taken[file.name] = new Uint8Array(await file.arrayBuffer());
      else if (handle) for await (const inner of (await handle).values()) { if (inner.kind === "file") await take(await inner.getFile(), `${entry.name}/${inner.name}`); }
      else for (const inner of await new Promise((resolve, reject) => entry.createReader().readEntries(resolve, reject)))
        if (inner.isFile) await take(await new Promise((resolve, reject) => inner.file(resolve, reject)), `${entry.name}/${inner.name}`);
    }
  } catch (fault) {
    showFaults([{ file: "", line: 0, column: "", text: "This browser does not hand over the inside of a folder: drop its files joints.csv, tubes.csv and loads.csv together instead." }]);
    return;
  }
  useFiles(taken);
}

function watchDrops() {
  document.addEventListener("dragover", (event) => { event.preventDefault(); byId("live").classList.add("over"); });
  document.addEventListener("dragleave", () => byId("live").classList.remove("over"));
  document.addEventListener("drop", (event) => {
    event.preventDefault();
    byId("live").classList.remove("over");
    dropped(event.dataTransfer);
  });
  document.addEventListener("paste", (event) => {
    const text = event.clipboardData.getData("text/plain"), field = /^(INPUT|TEXTAREA)$/.test(event.target.tagName);
    if (field && !/[\t\n]/.test(text.trim())) return;
    if (!text.trim().includes("\n")) return;
    event.preventDefault();
    useFiles({ "pasted.csv": encoder.encode(text) });
  });
}

/* Files that the page has with it. A frame's are those of a folder. */
function exampleChoice() {
  const choice = make("select", { id: "examples", onchange: () => {
    const taken = examples[choice.value];
    if (taken) useFiles(Object.fromEntries(Object.entries(taken).map(([name, text]) => [name, encoder.encode(text)])));
    choice.value = "";
  } }, make("option", { value: "" }, "choose…"), ...Object.keys(examples).map((name) => make("option", { value: name }, name)));
  return make("label", {}, "Examples ", choice);
}

/* The program's own file to start from. */
function newFile() {
  const answer = askNow(["new", "new.csv"], {});
  if (answer.files["new.csv"]) useFiles({ "new.csv": answer.files["new.csv"] }, true);
  byId("table-part").open = true;
}

function newFrame() {
  const answer = askNow(["new", "--frame", "frame"], {});
  if (Object.keys(answer.files).length > 0) useFiles(answer.files, true);
  byId("table-part").open = true;
}

function download(name, parts, type) {
  const link = make("a", { href: URL.createObjectURL(new Blob(parts, { type })), download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}

function saveCsv() {
  for (const name of tableNames()) download(baseName(name), [page.files[name]], "text/csv");
}

/* The report of what is here now, with this page's engine, script and inputs: railbow check --live --report, without a terminal. */
function pageText() {
  const files = page.kind === "frame" ? changedFiles().files : page.files; /* what was changed in a frame goes into its tables */
  const answer = askNow(["check", ...common(), "--report", "page.html", "-o", "answer.csv", page.main], files);
  if (!answer.files["page.html"]) return "";
  const html = decoder.decode(answer.files["page.html"]);
  const policy = document.querySelector("meta[http-equiv]").getAttribute("content");
  const line = (kind, name, bytes) => `${kind} ${base64Of(encoder.encode(name))} ${base64Of(bytes)}\n`;
  const chosen = page.kind === "cases" && Object.keys(page.changes).length > 0 ? ["--row", String(page.chosen.line), ...setWords()] : [];
  const words = ["railbow", "check", ...(page.details ? ["--details", page.details] : []), ...page.options, "--units", page.units, ...chosen, page.main].map((said) => `word ${base64Of(encoder.encode(said))}\n`).join("");
  const inputs = Object.keys(files).map((name) => line(name === page.materials ? "materials" : "input", name, files[name])).join("");
  const part = (id, attributes) => `<${attributes} id="${id}">${byId(id).textContent}</${attributes.split(" ")[0]}>\n`;
  const tail = part("live-style", "style") + part("live-engine", 'script type="application/octet-stream"')
    + `<script type="text/plain" id="live-inputs">\n${words}${inputs}<\/script>\n` + part("live-loader", "script") + part("live-script", "script");
  const meta = `<meta http-equiv="Content-Security-Policy" content="${policy}"/>\n`;
  const own = html.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>\n?/, "");
  return own.replace("<title>", () => `${meta}<title>`).replace(/<\/body>\n<\/html>\n$/, () => `${tail}</body>\n</html>\n`);
}

function savePage() {
  const text = pageText();
  if (text) download("railbow.html", [text], "text/html");
  else showFaults([{ file: "", line: 0, column: "", text: "Nothing could be checked: there is no page to save." }]);
}

/* The report that this page was made as is read until the engine has answered. */
function showLive() {
  if (!byId("live").hidden) return;
  byId("waiting").remove();
  byId("live").hidden = false;
  byId("still").hidden = true;
}

async function start() {
  const made = readInputs(byId("live-inputs").textContent);
  buildPage();
  byId("waiting").textContent = "The engine of this page is checking. Until it has its answer, you read the report with which this page was made.";
  try {
    await startEngine();
  } catch (fault) {
    byId("verdict").replaceChildren(make("strong", {}, "NO VERDICT"), ` This browser cannot run the engine (${fault}). The report below reads without it.`);
    showLive();
    byId("still").hidden = false;
    return;
  }
  engine.version = decoder.decode(askNow(["--version"], {}).out).trim().replace("railbow ", "");
  page.passed = selfTest();
  if (page.passed !== null) document.documentElement.dataset.engine = String(page.passed);
  page.files = { ...made.inputs, [made.materials.name]: made.materials.bytes };
  page.materials = made.materials.name;
  takeFiles({ ...made.inputs });
  takeWords(made.words);
  watchDrops();
  await renew();
}

start();
