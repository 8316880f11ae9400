/* A cursor on every chart that the program wrote with stops along its axis: a line that is dragged, or moved with the arrow keys. It
 * goes from stop to stop, and the program's own words stand under the chart; nothing is interpolated. */

const cursorPlaces = new Map(); /* chart -> {x, of}: the place where its cursor was left, and the present value of the column then */

const stripWords = (strip) => [...strip.querySelector("text").childNodes].map((node) => node.textContent).join("; ");
const stripMiddle = (strip) => parseFloat(strip.querySelector("path").getAttribute("d").slice(1));
const stripValue = (strip) => Number(strip.dataset.x);

/* The strip nearest to a number of what `of` gives. */
const nearestStrip = (strips, of, value) => strips.reduce((best, strip) => (Math.abs(of(strip) - value) < Math.abs(of(best) - value) ? strip : best), strips[0]);

/* `present`: the value of the column now, where the chart is drawn over a column; `moved` is told each new strip. */
function addCursor(svg, present = null, moved = () => {}) {
  const strips = [...svg.querySelectorAll("g.stop[data-x]")];
  if (strips.length < 2) return;
  const name = svg.getAttribute("aria-label"), key = present === null ? name : `${name} ${along}`, left = cursorPlaces.get(key);
  for (const strip of strips) for (const attribute of ["tabindex", "role", "aria-label"]) strip.removeAttribute(attribute); /* the cursor is the one stop */
  const reading = make("p", { class: "reading" });
  const line = draw("path", {}), grip = draw("circle", { r: 7 });
  const cursor = draw("g", { class: "cursor", tabindex: "0", role: "slider", "aria-label": `Cursor: ${name}`, "aria-valuemin": stripValue(strips[0]),
    "aria-valuemax": stripValue(strips[strips.length - 1]) }, line, grip);
  let here = null;
  const put = (strip) => {
    if (here) here.classList.remove("here");
    here = strip;
    here.classList.add("here");
    const way = strip.querySelector("path").getAttribute("d"), foot = strip.querySelector("rect");
    line.setAttribute("d", way);
    grip.setAttribute("cx", stripMiddle(strip));
    grip.setAttribute("cy", Number(foot.getAttribute("y")) + Number(foot.getAttribute("height")));
    cursor.setAttribute("aria-valuenow", stripValue(strip));
    cursor.setAttribute("aria-valuetext", stripWords(strip));
    reading.textContent = stripWords(strip);
    moved(strip);
  };
  const go = (strip) => {
    if (strip === here) return;
    put(strip);
    cursorPlaces.set(key, { x: stripValue(strip), of: present });
  };
  const goTo = (event) => {
    const box = svg.getBoundingClientRect();
    go(nearestStrip(strips, stripMiddle, ((event.clientX - box.left) * svg.viewBox.baseVal.width) / box.width));
  };
  cursor.addEventListener("keydown", (event) => {
    const at = strips.indexOf(here), last = strips.length - 1;
    const to = { ArrowRight: at + 1, ArrowUp: at + 1, ArrowLeft: at - 1, ArrowDown: at - 1, PageUp: at + 8, PageDown: at - 8, Home: 0, End: last }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    go(strips[Math.min(last, Math.max(0, to))]);
  });
  svg.addEventListener("pointerdown", (event) => {
    if (event.button !== 0 || event.target.closest(".stop:not([data-x])")) return;
    event.preventDefault();
    cursor.focus({ preventScroll: true });
    goTo(event);
    const end = () => { svg.removeEventListener("pointermove", goTo); svg.removeEventListener("pointerup", end); svg.removeEventListener("pointercancel", end); };
    svg.setPointerCapture(event.pointerId);
    svg.addEventListener("pointermove", goTo);
    svg.addEventListener("pointerup", end);
    svg.addEventListener("pointercancel", end);
  });
  svg.classList.add("cursored");
  svg.append(cursor);
  svg.after(reading);
  const begin = left && left.of === present ? left.x : present;
  put(begin === null ? strips.find((strip) => strip.querySelector("text").textContent.includes("largest")) || strips[0] : nearestStrip(strips, stripValue, begin));
}

/* New drawings in a box, each with its cursor. What had the focus has it again. */
function showWithCursors(box, nodes, present, moved) {
  const held = box.contains(document.activeElement) ? document.activeElement.id || document.activeElement.getAttribute("aria-label") : null;
  box.replaceChildren(...nodes);
  for (const svg of box.querySelectorAll("svg[role=group]")) addCursor(svg, present, moved);
  const again = held ? [...box.querySelectorAll("[id], [aria-label]")].find((node) => node.id === held || (node.getAttribute("role") === "slider" && node.getAttribute("aria-label") === held)) : null;
  if (again) again.focus({ preventScroll: true });
}

/* ---- the chart along a column ------------------------------------------------------------------------------ */

/* A reading changes nothing: a button takes it as the value. */
function showAlong(box, figure, control) {
  if (!figure) {
    box.replaceChildren();
    return;
  }
  const take = make("button", { type: "button", id: "take" });
  const present = numberIn(page.changes[control.column] || shownNumber(control.given));
  take.addEventListener("click", () => setChange(control.column, `${take.value}${control.unit}`));
  const svg = figure.querySelector("svg");
  if (svg) svg.after(make("p", { class: "take" }, take));
  showWithCursors(box, [make("h3", {}, `Margin along: ${names[control.column]}`), figure], present, (strip) => {
    take.value = strip.dataset.x;
    take.textContent = `Take ${strip.querySelector("text").firstChild.textContent}`;
  });
  if (!svg || !svg.classList.contains("cursored")) take.parentElement.remove();
}

/* The lines of the other cases, as the files give them, faint behind the chosen one: those of the program's chart of all cases, in its
 * scale moved to that of this chart. */
const fewCases = 30;
const othersAsked = { of: -1, key: "", html: null };

async function askOthers(column, from, to, step, unit) {
  const key = `${column} ${from} ${to} ${step} ${page.units}`;
  if (othersAsked.of !== generation || othersAsked.key !== key) {
    const words = ["sweep", ...common(), "--vary", `${column}=${from}${unit}:${to}${unit}:${step}${unit}`, "--report", "all.html", "-o", "all.csv", page.main];
    Object.assign(othersAsked, { of: generation, key, html: askLater(words, page.files) });
  }
  const answer = await othersAsked.html;
  return answer.files["all.html"] ? decoder.decode(answer.files["all.html"]) : "";
}

/* {left, top, width, height, x: [low, high], y: [low, high]} of a chart's plot. */
function plotOf(svg) {
  const plot = svg.querySelector("rect.plot"), number = (name) => Number(plot.getAttribute(name));
  return { left: number("x"), top: number("y"), width: number("width"), height: number("height"), x: plot.dataset.x.split(" ").map(Number), y: plot.dataset.y.split(" ").map(Number) };
}

async function showOthers(turn, from, to, step) {
  const control = controls.get(along), svg = byId("along").querySelector("svg.cursored");
  if (page.rows.length < 2 || page.rows.length > fewCases || !svg) return;
  const html = await askOthers(control.column, from, to, step, control.unit);
  const all = turn === adviceTurn && html ? drawn(html, (parsed) => [...parsed.querySelectorAll("svg")].find((one) => one.querySelector("g[data-case]"))) : null;
  if (!all || !svg.isConnected) return;
  const its = plotOf(all), here = plotOf(svg);
  const across = (x) => its.left + ((x - its.x[0]) / (its.x[1] - its.x[0])) * its.width, down = (y) => its.top + its.height - ((y - its.y[0]) / (its.y[1] - its.y[0])) * its.height;
  const [left, right, top, bottom] = [across(here.x[0]), across(here.x[1]), down(here.y[1]), down(here.y[0])];
  const lines = [...all.querySelectorAll("g[data-case]")].filter((line) => line.dataset.case !== page.chosen.name).flatMap((line) => [...line.querySelectorAll("path")]);
  for (const path of lines) path.setAttribute("class", "other");
  svg.querySelector("rect.plot").before(draw("svg", { class: "others", "aria-hidden": "true", x: here.left, y: here.top, width: here.width, height: here.height,
    style: `width:${here.width}px;height:${here.height}px`, preserveAspectRatio: "none", viewBox: `${left} ${top} ${right - left} ${bottom - top}` }, ...lines));
  byId("along").querySelector("figcaption").append(` Faint: the other cases as given (${lines.length}).`);
}
