"use strict";
/* The views of a frame on the live page in Chromium: one is turned, and tubes are chosen in all of them. Each drawing is compared with
 * that of the program.
 *
 * Usage: node test_turn.js PROGRAM PAGE SOURCE_DIR [--axe AXE.JS] [--pictures FOLDER] */

const { spawnSync } = require("child_process");
const assert = require("assert");
const fs = require("fs");
const path = require("path");
const { pictures, program, scratch, MATERIALS, axeFindsNothing, runTests } = require("./work.js");

const FRAME = path.join(scratch, "small"), live = path.join(scratch, "frame.html");

/* The lines of the frame's tubes from a direction, in the order in which the program draws them: [tube, path]. */
function viewOf(direction) {
  const html = path.join(scratch, "view.html");
  spawnSync(program, ["cases", "--materials", MATERIALS, "--view", direction, "--report", html, "-o", path.join(scratch, "view.csv"), FRAME]);
  const figure = fs.readFileSync(html, "utf8").split('<figure data-view="turned">')[1].split("</figure>")[0];
  return [...figure.matchAll(/<path d="([^"]*)" class="[^"]*" data-tube="([^"]*)"/g)].map(([, d, tube]) => [tube, d]);
}

/* The small frame of `new`, with a factor for which two tubes are short, two are close to it, and the others hold. */
function makeFrame() {
  const loads = path.join(FRAME, "loads.csv");
  spawnSync(program, ["new", "--frame", FRAME]);
  const lines = fs.readFileSync(loads, "utf8").split("\n"), header = lines.findIndex((line) => line.startsWith("run,")), at = lines[header].split(",").indexOf("factor");
  fs.writeFileSync(loads, lines.map((line, i) => (i <= header || line === "" ? line : line.split(",").map((cell, k) => (k === at ? "11.5" : cell)).join(","))).join("\n"));
}

async function begin(page) {
  await page.browser.send("Page.navigate", { url: `file://${live}` });
  await page.until("document.querySelector('#turn path[data-tube]')", 60000);
}

const tests = {
  async "a frame is turned by keys, and keeps the marks of its margins"(page) {
    await begin(page);
    assert.strictEqual(await page.text("#turned"), "From azimuth 41°, elevation 25°");
    await page.focus("#turn");
    await page.key("ArrowRight", 2);
    await page.key("ArrowUp");
    await page.until("document.querySelector('#turned').textContent === 'From azimuth 11°, elevation 10°'");
    const lines = (view) => page.run(`[...document.querySelectorAll("#tube figure[data-view=${view}] path[data-tube]:not(.grip)")].map((line) => [line.dataset.tube, line.getAttribute("d"), line.getAttribute("class"), line.querySelector("title").textContent])`);
    const turned = await lines("turned"), side = await lines("side");
    assert.deepStrictEqual(turned.map(([tube, d]) => [tube, d]), viewOf("11,10"));
    assert.deepStrictEqual([...new Set(turned.map(([, , look]) => look))].sort(), ["tube-close", "tube-easy", "tube-short"]);
    const marks = (all) => all.map(([tube, , look, title]) => [tube, look, title]).sort();
    assert.deepStrictEqual(marks(turned), marks(side));
    const numbers = await page.run("[...document.querySelectorAll('#turn text')].map((text) => [text.textContent, text.getAttribute('class')]).sort()");
    const given = await page.run("[...document.querySelectorAll('#tube figure[data-view=side] path[data-label]')].filter((line) => !line.matches('.grip')).map((line) => line.dataset.label)");
    assert.ok(numbers.length >= 3);
    for (const [number, look] of numbers) assert.ok(given.includes(number) && look === (number.includes("-") ? "halo bold red" : "halo bold"), number);
    assert.match(await page.run("document.querySelector('#turn').getAttribute('aria-label')"), /azimuth 11°, elevation 10°/);
    for (const [name, said] of [["Top", "0°, elevation 90°"], ["Front", "90°, elevation 0°"], ["Side", "0°, elevation 0°"]]) {
      await page.run(`[...document.querySelectorAll("figure[data-view=turned] button")].find((one) => one.textContent === "${name}").click()`);
      await page.until(`document.querySelector('#turned').textContent === 'From azimuth ${said}'`);
    }
  },

  async "a frame is turned by the pointer, and by a finger"(page) {
    const wide = await page.run("document.querySelector('#turn').getBoundingClientRect().width");
    const chosen = await page.run("page.chosen.name");
    await page.drag("#turn", 0.7, 0.45);
    await page.until(`document.querySelector('#turned').textContent === 'From azimuth ${Math.round(0.125 * wide)}°, elevation 0°'`);
    assert.strictEqual(await page.run("page.chosen.name"), chosen);
    const [x, y] = await page.run("(() => { const r = document.querySelector('#turn').getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; })()");
    const touch = (type, right, down) => page.browser.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x: x + right, y: y + down }] });
    const before = await page.run("turning.azimuth");
    await touch("touchStart", 0, 0);
    for (let i = 1; i <= 8; i++) await touch("touchMove", -5 * i, 5 * i);
    await touch("touchEnd");
    await page.until(`document.querySelector('#turned').textContent === 'From azimuth ${before + 20}°, elevation 20°'`);
    assert.strictEqual(await page.run("page.chosen.name"), chosen);
  },

  async "a tube is chosen in a view"(page) {
    const grip = (view, tube) => `#tube figure[data-view=${view}] .grip[data-tube="${tube}"]`;
    await page.run(`document.querySelector('${grip("top", "ring left")}').focus()`);
    await page.key("Enter");
    assert.strictEqual(await page.text("#chosen"), "ring left");
    assert.deepStrictEqual(await page.run("[document.activeElement.dataset.tube, document.activeElement.closest('figure').dataset.view, document.activeElement.getAttribute('aria-current')]"), ["ring left", "top", "true"]);
    await page.key("ArrowRight");
    const next = await page.run("document.activeElement.dataset.tube");
    assert.notStrictEqual(next, "ring left");
    await page.key("Enter");
    assert.strictEqual(await page.text("#chosen"), next);
    const [x, y, under] = await page.run(`(() => {
      document.querySelector("#turn").scrollIntoView({ block: "center" });
      const line = document.querySelector('${grip("turned", "rail UR")}'), at = line.getPointAtLength(line.getTotalLength() / 3).matrixTransform(line.getScreenCTM());
      return [at.x, at.y, document.elementFromPoint(at.x, at.y).dataset.tube];
    })()`);
    for (const type of ["mousePressed", "mouseReleased"]) await page.browser.send("Input.dispatchMouseEvent", { type, x, y, button: "left", buttons: 1, clickCount: 1 });
    await page.until(`document.querySelector("#chosen").textContent === ${JSON.stringify(under)}`);
    assert.strictEqual(await page.run("document.querySelectorAll('#turn .grip[aria-current]').length"), 1);
  },

  async "it is seen on a phone, in the dark and on paper, and axe finds nothing"(page) {
    for (const [name, width, settings] of [["desk", 1280, {}], ["dark", 1280, { dark: true }], ["phone", 390, { touch: true }], ["paper", 794, { print: true }]]) {
      await page.size(width, 1300, settings);
      await begin(page);
      assert.strictEqual(await page.run("document.documentElement.scrollWidth"), width, name);
      assert.ok(await page.run("document.querySelector('#turn svg').checkVisibility()"), name);
      if (pictures) await page.picture(path.join(pictures, `turned-${name}.png`));
      if (!settings.print) await axeFindsNothing(page, name);
    }
  },
};

makeFrame();
spawnSync(program, ["check", "--live", "--report", live, "-o", path.join(scratch, "frame.csv"), "--materials", MATERIALS, FRAME]);
runTests(tests, live);
