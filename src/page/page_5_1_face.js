/* A clock face, seen from joint A toward B: every direction of the case as a hand that can be turned. */

const hands = { miss_a: ["miss_a_clock", "miss A"], miss_b: ["miss_b_clock", "miss B"], bow: ["bow_clock", "bow"], eccentricity: ["eccentricity_clock", "push"],
  point_load: ["point_clock", "point load"], spread_load: ["spread_clock", "spread load"] };
const faceSize = 220, faceMiddle = faceSize / 2, faceRadius = 62, faceDetent = 15;

function draw(name, attributes, ...children) {
  const element = document.createElementNS("http://www.w3.org/2000/svg", name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.append(...children);
  return element;
}

const faceAt = (clock, radius) => [faceMiddle + radius * Math.sin((clock * Math.PI) / 180), faceMiddle - radius * Math.cos((clock * Math.PI) / 180)];

/* The clock of a hand in degrees, or null where it is any. */
function clockOf(column) {
  const value = column in page.changes ? page.changes[column] : page.chosen.given[column];
  return value === null || value === "" || value === "any" ? null : numberIn(value);
}

/* Only what is there has a direction. */
function handsHere() {
  return Object.entries(hands).filter(([column]) => {
    const value = column in page.changes ? numberIn(page.changes[column]) : page.chosen.given[column];
    return typeof value === "number" && value !== 0;
  });
}

function turnHand(column, clock) {
  setChange(column, `${((Math.round(clock) % 360) + 360) % 360}deg`);
  showFace();
  const hand = byId("face").querySelector(`[data-clock="${column}"]`);
  if (hand) hand.focus();
}

/* A label stands at the rim; one that would stand on an earlier one is a line further out. */
function labelRadius(clock, before) {
  const close = before.filter(([, [other]]) => Math.abs(((((clockOf(other) || 0) - clock) % 360) + 540) % 360 - 180) < 25);
  return faceRadius + 14 + 13 * close.length;
}

function handFor([column, [clockColumn, label]], order, all) {
  const clock = clockOf(clockColumn), radius = faceRadius - 11 * order;
  const [x, y] = faceAt(clock || 0, radius), [tx, ty] = faceAt(clock || 0, labelRadius(clock || 0, all.slice(0, order)));
  const hand = draw("g", { tabindex: "0", role: "slider", "data-clock": clockColumn, "aria-label": `Clock of the ${label}`, "aria-valuemin": "0", "aria-valuemax": "359",
    "aria-valuenow": String(clock || 0), "aria-valuetext": clock === null ? "any" : `${shownNumber(clock)} degrees`, class: clock === null ? "hand any" : `hand hand-${order}` },
  draw("line", { x1: faceMiddle, y1: faceMiddle, x2: x, y2: y }), draw("circle", { cx: x, cy: y, r: 7 }), draw("circle", { cx: x, cy: y, r: 22, class: "grip" }));
  const words = draw("text", { x: tx, y: ty + 4, "text-anchor": tx > faceMiddle + 6 ? "start" : tx < faceMiddle - 6 ? "end" : "middle" }, clock === null ? `${label}: any` : label);
  hand.append(words);
  hand.addEventListener("keydown", (event) => {
    const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 3, PageDown: -3 }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    turnHand(clockColumn, (clock || 0) + by * faceDetent);
  });
  hand.addEventListener("pointerdown", (event) => {
    event.preventDefault();
    const face = byId("face"), box = face.getBoundingClientRect();
    const move = (at) => {
      const angle = (Math.atan2(at.clientX - box.left - box.width / 2, box.top + box.height / 2 - at.clientY) * 180) / Math.PI;
      const to = ((Math.round(angle / faceDetent) * faceDetent) % 360 + 360) % 360;
      if (to !== clockOf(clockColumn)) turnHand(clockColumn, to);
    };
    const end = () => { window.removeEventListener("pointermove", move); window.removeEventListener("pointerup", end); };
    window.addEventListener("pointermove", move);
    window.addEventListener("pointerup", end);
  });
  return hand;
}

function showFace() {
  const place = byId("clocks"), here = page.chosen ? handsHere() : [];
  if (here.length === 0) {
    place.replaceChildren();
    return;
  }
  const ticks = [...Array(24).keys()].map((i) => {
    const [x1, y1] = faceAt(15 * i, faceRadius), [x2, y2] = faceAt(15 * i, faceRadius - (i % 6 === 0 ? 8 : 4));
    return draw("line", { x1, y1, x2, y2, class: "face-tick" });
  });
  const face = draw("svg", { id: "face", viewBox: `-40 0 ${faceSize + 80} ${faceSize}`, role: "group", "aria-label": "Clock face: turn a hand by its end or with the arrow keys" },
    draw("circle", { cx: faceMiddle, cy: faceMiddle, r: faceRadius, class: "rim" }), ...ticks,
    draw("text", { x: faceMiddle, y: faceMiddle - faceRadius + 20, "text-anchor": "middle", class: "face-quiet" }, "0 up"),
    draw("text", { x: faceMiddle + faceRadius - 12, y: faceMiddle + 4, "text-anchor": "end", class: "face-quiet" }, "90"), ...here.map(handFor));
  const list = here.map(([, [column, label]]) => `${label} ${clockOf(column) === null ? "any" : `${shownNumber(clockOf(column))}°`}`).join(", ");
  const news = here.filter(([column, [clock]]) => page.kind === "frame" && column.startsWith("miss") && page.chosen.given[clock] === null);
  const note = news.length > 0 ? `. A new miss is taken toward 0° (up): turn its hand to where the socket points.` : "";
  place.replaceChildren(make("h3", {}, "Clocks, seen from A toward B"), face, make("p", { class: "soft" }, list, note));
}
