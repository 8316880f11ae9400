"use strict";
/* The page asks the program as a shell would: words in, text out. This file starts the engine and puts questions to it. */

const encoder = new TextEncoder(), decoder = new TextDecoder();
const byId = (id) => document.getElementById(id);

/* An element: make("p", {class: "soft"}, "text", child ...). What users wrote goes in as text, never as markup. */
function make(name, attributes, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes || {})) {
    if (value === false || value === null || value === undefined) continue;
    if (key.startsWith("on")) element.addEventListener(key.slice(2), value);
    else element.setAttribute(key, value === true ? "" : value);
  }
  for (const child of children) if (child !== null && child !== undefined) element.append(child);
  return element;
}

function bytesOf(base64) {
  const letters = atob(base64), bytes = new Uint8Array(letters.length);
  for (let i = 0; i < letters.length; i++) bytes[i] = letters.charCodeAt(i);
  return bytes;
}

function base64Of(bytes) {
  let letters = "";
  for (let i = 0; i < bytes.length; i += 4096) letters += String.fromCharCode(...bytes.subarray(i, i + 4096));
  return btoa(letters);
}

/* What the page was made from: {words, inputs: {name: bytes}, materials: {name, bytes}}. */
function readInputs(text) {
  const made = { words: [], inputs: {}, materials: null };
  for (const line of text.trim().split("\n")) {
    const [kind, name, bytes] = line.split(" ");
    const said = decoder.decode(bytesOf(name));
    if (kind === "word") made.words.push(said);
    if (kind === "input") made.inputs[said] = bytesOf(bytes || "");
    if (kind === "materials") made.materials = { name: said, bytes: bytesOf(bytes || "") };
  }
  return made;
}

const engine = { run: null, module: null, lanes: new Map(), next: 1, workers: true };

/* A worker runs long questions beside the page. There is one for each kind of question, so that a short one does not wait for a long
 * one, and a question that nobody waits for any more can be ended. */
const workerGlue = `
let run;
onmessage = (event) => {
  const { module, id, words, files } = event.data;
  if (module) { run = engineOf(module); return; }
  try { postMessage({ id, answer: run(words, files) }); }
  catch (fault) { postMessage({ id, fault: String(fault) }); }
};`;

function startWorker() {
  const source = new Blob([byId("live-loader").textContent, workerGlue], { type: "text/javascript" });
  const worker = new Worker(URL.createObjectURL(source)), lane = { worker, waiting: new Map() };
  worker.onmessage = ({ data }) => {
    const { resolve, reject } = lane.waiting.get(data.id);
    lane.waiting.delete(data.id);
    if (data.fault) reject(new Error(data.fault));
    else resolve(data.answer);
  };
  worker.onerror = () => { /* it cannot start here: the page itself does its questions */
    engine.workers = false;
    for (const { again } of lane.waiting.values()) again();
    lane.waiting.clear();
  };
  worker.postMessage({ module: engine.module });
  return lane;
}

function laneOf(name) {
  if (!engine.workers) return null;
  try {
    if (!engine.lanes.has(name)) engine.lanes.set(name, startWorker());
  } catch (fault) {
    engine.workers = false;
  }
  return engine.workers ? engine.lanes.get(name) : null;
}

/* The questions of a lane are not wanted any more: they get no answer. */
function dropLane(name) {
  const lane = engine.lanes.get(name);
  if (!lane || lane.waiting.size === 0) return;
  lane.worker.terminate();
  engine.lanes.delete(name);
}

async function startEngine() {
  const packed = new Blob([bytesOf(byId("live-engine").textContent.trim())]);
  const plain = await new Response(packed.stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
  engine.module = await WebAssembly.compile(plain);
  engine.run = engineOf(engine.module);
  for (const name of ["all", "tube"]) laneOf(name);
}

/* A question that is answered before the next thing happens. */
const askNow = (words, files) => engine.run(words, files);

/* A question that may take its time. */
function askLater(words, files, name = "all") {
  const here = () => new Promise((resolve) => setTimeout(() => resolve(askNow(words, files)), 0)), lane = laneOf(name);
  if (!lane) return here();
  return new Promise((resolve, reject) => {
    const id = engine.next++;
    lane.waiting.set(id, { resolve, reject, again: () => here().then(resolve, reject) });
    lane.worker.postMessage({ id, words, files });
  });
}

/* The rows of an answer as JSON; null where it is none. */
function jsonOf(answer) {
  try { return JSON.parse(decoder.decode(answer.out)); } catch (fault) { return null; }
}

/* The messages of an answer: {file, line, column, text}. Those on the whole file have no line. */
function messagesOf(answer) {
  return decoder.decode(answer.err).split("\n").filter((line) => line !== "").map((line) => {
    const said = line.replace(/^railbow: /, "");
    const at = /^(.*?):(\d+): (?:([a-z_]+): )?(.*)$/.exec(said);
    return at ? { file: at[1], line: Number(at[2]), column: at[3] || "", text: at[4] } : { file: "", line: 0, column: "", text: said };
  });
}

/* A part of a report's page, as nodes that can do nothing but be seen. */
function drawn(html, choose) {
  const parsed = new DOMParser().parseFromString(html, "text/html");
  parsed.querySelectorAll("script, iframe, object, embed, link, meta, form").forEach((node) => node.remove());
  const part = choose(parsed);
  if (!part) return null;
  for (const node of [part, ...part.querySelectorAll("*")])
    for (const { name } of [...node.attributes]) if (name.startsWith("on")) node.removeAttribute(name);
  return document.adoptNode(part);
}

/* A pinned column of 1.25 x 0.058 in, 60 in long, so slender that its curve is that of Euler: pi^2 E I / L^2 with
 * E = 29e6 psi, I = pi/64 (1.25^4 - 1.134^4) in^4 is 3074.25 lbf; against 1000 lbf at 1.5 the margin is 1.0495. */
const knownCase = {
  files: {
    "known.csv": encoder.encode("case,od [in],wall [in],material,length [in],compression [lbf],column_curve\nknown,1.25,0.058,m,60,1000,euler\n"),
    "known_materials.csv": encoder.encode("material,elastic_modulus [psi],density [lb/in^3],yield [psi],source\nm,29e6,0.283,75e3,made up\n"),
  },
  words: ["check", "--format", "json", "--materials", "known_materials.csv", "known.csv"],
  margin: 1.0495,
};

/* Returned: the margin that the engine gives, or null where it is not that of the known case. */
function selfTest() {
  const answer = jsonOf(askNow(knownCase.words, knownCase.files));
  const margin = answer && answer.rows.length === 1 ? answer.rows[0].margin : NaN;
  return Math.abs(margin - knownCase.margin) < 1e-4 ? margin : null;
}
