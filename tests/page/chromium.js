"use strict";
/* Chromium without a window, steered through a pipe: no network, no package. */

const { spawn } = require("child_process");
const fs = require("fs");
const os = require("os");
const path = require("path");

const WORDS = ["--headless=new", "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync",
  "--no-first-run", "--hide-scrollbars", "--host-resolver-rules=MAP * ~NOTFOUND", "--remote-debugging-pipe"];

/* Returned: {send(method, parameters), on(event, function), close()} of one page. */
async function openBrowser() {
  const profile = fs.mkdtempSync(path.join(os.tmpdir(), "railbow-page-"));
  const child = spawn("chromium", [...WORDS, `--user-data-dir=${profile}`, "about:blank"], { stdio: ["ignore", "ignore", "ignore", "pipe", "pipe"] });
  const waiting = new Map(), listeners = [];
  let next = 1, rest = Buffer.alloc(0), session;
  child.stdio[4].on("data", (part) => {
    rest = Buffer.concat([rest, part]);
    for (let end; (end = rest.indexOf(0)) >= 0; rest = rest.subarray(end + 1)) {
      const message = JSON.parse(rest.subarray(0, end));
      if (message.id) {
        const { resolve, reject } = waiting.get(message.id);
        waiting.delete(message.id);
        if (message.error) reject(new Error(message.error.message));
        else resolve(message.result);
      } else {
        for (const [name, take] of listeners) if (name === message.method) take(message.params);
      }
    }
  });
  const send = (method, params = {}, bare = false) => new Promise((resolve, reject) => {
    waiting.set(next, { resolve, reject });
    child.stdio[3].write(JSON.stringify({ id: next++, method, params, ...(bare ? {} : { sessionId: session }) }) + "\0");
  });
  const { targetInfos } = await send("Target.getTargets", {}, true);
  const target = targetInfos.find((info) => info.type === "page");
  ({ sessionId: session } = await send("Target.attachToTarget", { targetId: target.targetId, flatten: true }, true));
  await send("Page.enable");
  await send("Runtime.enable");
  await send("Log.enable");
  await send("Network.enable");
  return {
    send,
    on: (name, take) => listeners.push([name, take]),
    async close() {
      const ended = new Promise((resolve) => child.on("exit", resolve));
      await send("Browser.close", {}, true).catch(() => {});
      await ended;
      fs.rmSync(profile, { recursive: true, force: true });
    },
  };
}

/* A page to work with: what a person does, and what is then there. */
class Page {
  constructor(browser) {
    this.browser = browser;
    this.said = [];
    this.requests = [];
    browser.on("Runtime.exceptionThrown", ({ exceptionDetails: e }) => this.said.push((e.exception && e.exception.description) || e.text));
    browser.on("Runtime.consoleAPICalled", ({ type, args }) => this.said.push(`${type}: ${args.map((a) => a.value || a.description).join(" ")}`));
    browser.on("Log.entryAdded", ({ entry }) => this.said.push(`${entry.level}: ${entry.text}`));
    browser.on("Network.requestWillBeSent", ({ request }) => this.requests.push(request.url));
    browser.on("Page.javascriptDialogOpening", () => this.said.push("a dialog opened"));
  }

  async size(width, height, { dark = false, touch = false, print = false } = {}) {
    await this.browser.send("Emulation.setDeviceMetricsOverride", { width, height, deviceScaleFactor: 1, mobile: touch });
    await this.browser.send("Emulation.setEmulatedMedia", { media: print ? "print" : "screen", features: [{ name: "prefers-color-scheme", value: dark ? "dark" : "light" }] });
  }

  async open(file) {
    await this.browser.send("Page.navigate", { url: `file://${path.resolve(file)}` });
    await this.until("document.documentElement.dataset.answers !== undefined || document.querySelector('#still') === null && document.readyState === 'complete'", 60000);
  }

  async run(expression) {
    const { result, exceptionDetails } = await this.browser.send("Runtime.evaluate", { expression, awaitPromise: true, returnByValue: true });
    if (exceptionDetails) throw new Error((exceptionDetails.exception && exceptionDetails.exception.description) || exceptionDetails.text);
    return result.value;
  }

  async until(expression, most = 20000) {
    const end = Date.now() + most;
    for (;;) {
      if (await this.run(`Boolean(${expression})`).catch(() => false)) return;
      if (Date.now() > end) throw new Error(`never: ${expression}; said: ${this.said.join(" | ")}`);
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
  }

  text(selector) { return this.run(`(document.querySelector(${JSON.stringify(selector)}) || {}).textContent`); }

  async key(key, times = 1) {
    const codes = { ArrowRight: 39, ArrowLeft: 37, ArrowUp: 38, ArrowDown: 40, Tab: 9, Enter: 13, PageUp: 33, PageDown: 34, Home: 36, End: 35 };
    for (let i = 0; i < times; i++)
      for (const type of ["keyDown", "keyUp"])
        await this.browser.send("Input.dispatchKeyEvent", { type, key, code: key, windowsVirtualKeyCode: codes[key], text: type === "keyDown" && key === "Enter" ? "\r" : undefined });
  }

  type(text) { return this.browser.send("Input.insertText", { text }); }

  focus(selector) { return this.run(`{ const e = document.querySelector(${JSON.stringify(selector)}); e.scrollIntoView({block: "center"}); e.focus(); if (e.select) e.select(); }`); }

  /* From one place of an element to another, as shares of its size. */
  async drag(selector, from, to) {
    const [x, y, w, h] = await this.run(`(() => { const e = document.querySelector(${JSON.stringify(selector)}); e.scrollIntoView({block: "center"}); const r = e.getBoundingClientRect(); return [r.x, r.y, r.width, r.height]; })()`);
    const mouse = (type, share) => this.browser.send("Input.dispatchMouseEvent", { type, x: x + w * share, y: y + h / 2, button: "left", buttons: 1, clickCount: 1 });
    await mouse("mousePressed", from);
    for (let i = 1; i <= 10; i++) await mouse("mouseMoved", from + ((to - from) * i) / 10);
    await mouse("mouseReleased", to);
  }

  async picture(file, whole = false) {
    const { data } = await this.browser.send("Page.captureScreenshot", { format: "png", captureBeyondViewport: whole });
    fs.writeFileSync(file, Buffer.from(data, "base64"));
  }
}

module.exports = { openBrowser, Page };
