/* The views of a frame: its tubes can be chosen, and one view can be turned. The program draws each view (cases --view); what the
 * margins say of a tube (line, words, number) is taken over from the views of the answer, tube by tube. */

const turning = { azimuth: 41, elevation: 25, marks: new Map(), frame: 0, dragged: false, focus: null, view: null, words: null }, turnStep = 15;
const turnSides = { Side: [0, 0], Top: [0, 90], Front: [90, 0] };
const turnKeys = { ArrowLeft: [turnStep, 0], ArrowRight: [-turnStep, 0], ArrowUp: [0, -turnStep], ArrowDown: [0, turnStep] };

/* What the views of the answer say: tube -> {style, title, label, words}; words: the look of the label. */
function marksIn(views) {
  const marks = new Map(), looks = new Map();
  for (const text of views.querySelectorAll("text")) looks.set(text.textContent, text.getAttribute("class"));
  for (const line of views.querySelectorAll("path[data-tube]")) {
    const label = line.dataset.label || "";
    marks.set(line.dataset.tube, { style: line.getAttribute("class"), title: line.querySelector("title").textContent, label, words: looks.get(label) || "halo bold" });
  }
  return marks;
}

/* The frame from the present direction, as the program draws it; those tubes are named whose numbers the other views have. */
function askView() {
  const named = [...turning.marks].filter(([, mark]) => mark.label).flatMap(([tube]) => ["--case", tube.replace(/[\\*?[\]]/g, "\\$&")]);
  const words = ["cases", "--materials", page.materials, ...named, "--view", `${turning.azimuth},${turning.elevation}`, "--report", "view.html", "-o", "view.csv", page.main];
  const answer = askNow(words, page.files), html = answer.files["view.html"] ? decoder.decode(answer.files["view.html"]) : "";
  const from = html.indexOf('<figure data-view="turned">');
  return from < 0 ? null : drawn(html.slice(from, html.indexOf("</figure>", from)), (parsed) => parsed.querySelector("svg"));
}

/* Gives the tubes the lines and numbers that they have in the other views. */
function takeMarks(svg) {
  const tubeOf = new Map();
  for (const line of svg.querySelectorAll("path[data-tube]")) {
    const mark = turning.marks.get(line.dataset.tube), label = line.dataset.label;
    if (label) tubeOf.set(label, tubeOf.has(label) ? "" : line.dataset.tube); /* a shortened name may be that of two */
    if (!mark) continue;
    line.setAttribute("class", mark.style);
    line.querySelector("title").textContent = mark.title;
  }
  for (const text of svg.querySelectorAll("text")) {
    const mark = turning.marks.get(tubeOf.get(text.textContent));
    if (!mark || !mark.label) {
      text.remove();
      continue;
    }
    text.textContent = mark.label;
    text.setAttribute("class", mark.words);
  }
}

/* Over each tube a wide line that is not seen, which takes the pointer and the keyboard. */
function addGrips(svg) {
  const grips = draw("g", { class: "grips" });
  const judged = new Set(page.rows.map((row) => row.name)), chosen = page.chosen ? page.chosen.name : "";
  for (const line of svg.querySelectorAll("path[data-tube]")) {
    if (!judged.has(line.dataset.tube)) continue;
    const grip = line.cloneNode(true);
    grip.setAttribute("class", "grip");
    grip.setAttribute("role", "button");
    grip.setAttribute("aria-label", line.querySelector("title").textContent);
    grip.setAttribute("tabindex", line.dataset.tube === chosen ? "0" : "-1");
    if (line.dataset.tube === chosen) grip.setAttribute("aria-current", "true");
    grips.append(grip);
  }
  svg.setAttribute("role", "group"); /* a picture has no parts that can be chosen */
  svg.append(grips);
}

function chooseTube(grip) {
  const row = page.rows.find((one) => one.name === grip.dataset.tube);
  if (!row) return;
  turning.focus = { view: grip.closest("figure").dataset.view, tube: row.name };
  choose(row);
}

/* Enter chooses the tube; the arrows go from one tube to the next. */
function keyOnTube(event) {
  const grip = event.target.closest(".grip"), by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
  if (!grip || (by === undefined && event.key !== "Enter" && event.key !== " ")) return;
  event.preventDefault();
  event.stopPropagation();
  if (by === undefined) {
    chooseTube(grip);
    return;
  }
  const all = [...grip.parentNode.children], next = all[(all.indexOf(grip) + by + all.length) % all.length];
  next.focus();
}

/* ---- turning -------------------------------------------------------------------------------------------------- */

function drawTurned() {
  const begun = performance.now(), { view } = turning, svg = askView();
  turning.frame = 0;
  if (!svg) return;
  takeMarks(svg);
  addGrips(svg);
  view.replaceChildren(svg);
  const words = `azimuth ${turning.azimuth}°, elevation ${turning.elevation}°`;
  view.setAttribute("aria-label", `The frame from ${words}. The arrow keys turn it by ${turnStep} degrees.`);
  turning.words.textContent = `From ${words}`;
  document.documentElement.dataset.turned = (performance.now() - begun).toFixed(2);
}

/* Once for each picture that the screen shows. */
function turnTo(azimuth, elevation) {
  turning.azimuth = ((((Math.round(azimuth) + 180) % 360) + 360) % 360) - 180;
  turning.elevation = Math.max(-90, Math.min(90, Math.round(elevation)));
  if (turning.frame === 0) turning.frame = requestAnimationFrame(drawTurned);
}

function keyOnView(event) {
  const by = turnKeys[event.key];
  if (!by || event.target !== event.currentTarget) return;
  event.preventDefault();
  turnTo(turning.azimuth + by[0], turning.elevation + by[1]);
}

/* What is near follows the pointer, half a degree a pixel. A press that hardly moves is a click on a tube. */
function dragView(event) {
  const { clientX, clientY } = event, { azimuth, elevation } = turning, hardly = 4;
  turning.dragged = false;
  const move = (at) => {
    const right = at.clientX - clientX, down = at.clientY - clientY;
    if (!turning.dragged && Math.abs(right) + Math.abs(down) < hardly) return;
    turning.dragged = true;
    turnTo(azimuth - right / 2, elevation + down / 2);
  };
  const end = () => {
    window.removeEventListener("pointermove", move);
    for (const name of ["pointerup", "pointercancel"]) window.removeEventListener(name, end);
  };
  window.addEventListener("pointermove", move);
  for (const name of ["pointerup", "pointercancel"]) window.addEventListener(name, end);
}

/* Makes the views of a frame answer to pointer and keys, and puts the one that turns where the one at an angle was. */
function showTurned(box) {
  const views = box.querySelector("div.figures"), still = box.querySelector("figure[data-view=angle]");
  if (!views || !still) return;
  turning.marks = marksIn(views);
  turning.words = make("span", { id: "turned", class: "soft", "aria-live": "polite" });
  turning.view = make("div", { id: "turn", tabindex: "0", role: "application", "aria-roledescription": "view that can be turned", onkeydown: keyOnView, onpointerdown: dragView });
  const side = (name) => make("button", { type: "button", onclick: () => turnTo(...turnSides[name]) }, name);
  still.replaceWith(make("figure", { "data-view": "turned" }, make("h3", {}, "From any direction"),
    make("div", { class: "row", role: "group", "aria-label": "Sides" }, ...Object.keys(turnSides).map(side), turning.words), turning.view));
  for (const svg of views.querySelectorAll("figure svg")) addGrips(svg);
  views.addEventListener("keydown", keyOnTube, true);
  views.addEventListener("click", (event) => {
    const grip = event.target.closest(".grip");
    if (grip && !turning.dragged) chooseTube(grip);
    turning.dragged = false;
  });
  drawTurned();
  const { view, tube } = turning.focus || {}, grip = view && views.querySelector(`figure[data-view=${view}] .grip[data-tube="${CSS.escape(tube)}"]`);
  if (grip) queueMicrotask(() => grip.focus()); /* when the views stand on the page */
  turning.focus = null;
}
