#!/usr/bin/env python3
"""Opens the demo's pages in headless Chromium: in a desktop and in a phone window, in light and dark, and on paper.

Usage: browser.py PROGRAM SOURCE_DIR [FOLDER [PAGE...]]. Required: no console message, nothing wider than the window, no word of a
drawing outside it or over another, the expected number of pages on paper. With FOLDER the screenshots and the PDFs
stay there for inspection. PAGE: only these of the pages below. Needs Debian's chromium and poppler-utils."""

import html
import json
import pathlib
import re
import subprocess
import sys
import tempfile

# Measures a page of `width` from inside: how wide it got, and which words of drawings stand outside their drawing.
PROBE = """<!DOCTYPE html><html><head><meta charset="utf-8"></head><body><iframe style="width:%dpx;height:900px;border:0" srcdoc="%s"></iframe><pre></pre>
<script>document.querySelector('iframe').onload = function () {
  const d = this.contentDocument, out = [];
  for (const t of d.querySelectorAll('svg text')) {
    const a = t.getBoundingClientRect(), b = t.ownerSVGElement.getBoundingClientRect();
    if (a.left < b.left - 1 || a.right > b.right + 1 || a.top < b.top - 1 || a.bottom > b.bottom + 1) out.push(t.textContent);
  }
  const over = [];
  for (const s of d.querySelectorAll('svg')) {
    const all = [...s.querySelectorAll('text')].map(t => [t.textContent, t.getBoundingClientRect()]);
    for (let i = 0; i < all.length; i++) for (let k = 0; k < i; k++) {
      const [p, a] = all[i], [q, b] = all[k];
      if (a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 4 && b.top < a.bottom - 4) over.push(q + ' | ' + p);
    }
  }
  document.querySelector('pre').textContent = JSON.stringify({wide: d.documentElement.scrollWidth, outside: out, over: over});
};</script></body></html>"""
PLAIN = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update",
         "--disable-sync", "--no-first-run", "--hide-scrollbars", "--no-pdf-header-footer", "--enable-logging=stderr"]
WIDTHS = {"desk": 1200, "phone": 360}
THEMES = {"desk": [], "phone": ["--blink-settings=preferredColorScheme=0"]}  # light, dark
PAPERS = {"A4": 595, "letter": 612}  # points wide
RAILS = ["--case", "*rail*"]  # the other tubes are pinned, and take no miss
FRAMES = {"frame": "frame", "portal": "portal", "cut": "frame", "sight": "sight.csv", "sticks": "sticks_parts.csv"}  # the pages that are not of nose.csv
# name, words behind the file, least and most pages on paper
REPORTS = [
    ("check", ["check"], 25, 49),  # the table, and for each of twelve cases the drawings on one and the working on the rest
    ("compare", ["compare", "--walls", "0.049,0.058,0.065,0.083"], 2, 2),
    ("tubes", ["compare", "--ods", "1,1.125,1.25,1.5", "--walls", "0.035,0.049,0.058,0.065,0.083"], 5, 7),
    ("sweep", ["sweep", *RAILS, "--vary", "miss_a=0:0.5:0.0625"], 4, 6),  # the lines of all, nine figures by four, the table
    ("map", ["sweep", *RAILS, "--vary", "miss_a=0:0.5:0.125", "--vary", "bow=0:0.2:0.05"], 7, 10),
    ("limit", ["limit", *RAILS, "--find", "miss_a", "--to", "1in"], 1, 1),
    ("index", ["index"], 3, 3),  # six figures on a sheet, the table on the third
    ("frame", ["check"], 3, 4),  # drawings and runs, the moments, the tubes
    ("portal", ["check"], 2, 2),
    ("cut", ["cut", "--tube", "rail UL 2", "--at", "12in"], 1, 2),
    ("sight", ["sight"], 2, 2),
    ("sticks", ["sticks", "--stock", "sticks_stock.csv"], 2, 2),
    ("scatter", ["scatter", "--tolerances", "tolerances.csv"], 3, 4),  # four figures on a sheet
]


def browse(folder, *words):
    with tempfile.TemporaryDirectory(dir=folder) as profile:
        return subprocess.run(["chromium", *PLAIN, f"--user-data-dir={profile}", *words], capture_output=True, text=True,
                              timeout=120, check=True)


def probe(folder, page, width):
    around = folder / f"around-{width}.html"
    around.write_text(PROBE % (width, html.escape(page.read_text(encoding="utf-8"))), encoding="utf-8")
    out = browse(folder, f"--window-size={width + 40},1000", "--virtual-time-budget=5000", "--dump-dom", around.as_uri()).stdout
    around.unlink()
    return json.loads(html.unescape(re.search(r"<pre>(.*?)</pre>", out, re.S).group(1)))


def faults(folder, page, least, most):
    for name, width in WIDTHS.items():
        seen = probe(folder, page, width)
        if seen["wide"] > width:
            yield f"{page.stem}, {name}: {seen['wide']} wide in a window of {width}"
        for kind in "outside", "over":
            if seen[kind]:
                yield f"{page.stem}, {name}: words of drawings {kind}: {seen[kind][:8]}"
        shot = folder / f"{page.stem}-{name}.png"
        run = browse(folder, f"--window-size={width},2400", f"--screenshot={shot}", *THEMES[name], page.as_uri())
        yield from (f"{page.stem}, {name}: console: {line}" for line in run.stderr.splitlines() if "CONSOLE" in line)
    for size, wide in PAPERS.items():
        on_paper = folder / f"{page.stem}-{size}.html"
        on_paper.write_text(page.read_text(encoding="utf-8").replace("</style>", f"@page{{size:{size}}}</style>"), encoding="utf-8")
        paper = folder / f"{page.stem}-{size}.pdf"
        browse(folder, f"--print-to-pdf={paper}", on_paper.as_uri())
        on_paper.unlink()
        info = subprocess.run(["pdfinfo", paper], capture_output=True, text=True, check=True).stdout
        pages = int(re.search(r"Pages:\s+(\d+)", info).group(1))
        if abs(float(re.search(r"Page size:\s+([\d.]+)", info).group(1)) - wide) > 2:
            yield f"{page.stem}: {size}: another paper came out"
        if not least <= pages <= most:
            yield f"{page.stem}: {pages} pages of {size}, not {least} to {most}"
        print(f"{page.stem}: {pages} pages of {size}")


def main(program, source, keep=None, *names):
    program = pathlib.Path(program).resolve()
    with tempfile.TemporaryDirectory() as empty:
        folder = pathlib.Path(keep or empty).resolve()
        folder.mkdir(exist_ok=True)
        cases, found = pathlib.Path(source).resolve() / "cases", []
        for name, words, least, most in REPORTS:
            if names and name not in names:
                continue
            page = folder / f"{name}.html"
            run = subprocess.run([program, words[0], FRAMES.get(name, "nose.csv"), *words[1:], "--report", page, "--title", "Nose frame"], cwd=cases,
                                 stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, check=False)
            if run.returncode not in (0, 1):
                sys.exit(run.stderr)
            found += faults(folder, page, least, most)
    print("\n".join(found) or "no fault")
    return bool(found)


if __name__ == "__main__":
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
