#!/usr/bin/env python3
"""Opens the demo's page in headless Chromium: on a desk and on a phone, in light and dark, and on paper.

Usage: browser.py PROGRAM SOURCE_DIR [FOLDER]. Asked: no console message, nothing wider than the window, no word of a
drawing outside it, the cards' pages on paper. With FOLDER the screenshots and the PDF stay there, to be looked at.
Needs Debian's chromium and poppler-utils."""

import html
import json
import pathlib
import re
import subprocess
import sys
import tempfile

# Measures a page of `width` from inside: how wide it got, and which words of drawings stand outside their drawing.
PROBE = """<!DOCTYPE html><html><body><iframe id="f" style="width:%dpx;height:900px;border:0" srcdoc="%s"></iframe><pre id="r"></pre>
<script>document.getElementById('f').onload = function () {
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
  document.getElementById('r').textContent = JSON.stringify({wide: d.documentElement.scrollWidth, outside: out, over: over});
};</script></body></html>"""
PLAIN = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update",
         "--disable-sync", "--no-first-run", "--hide-scrollbars", "--no-pdf-header-footer", "--enable-logging=stderr"]
WIDTHS = {"desk": 1200, "phone": 360}
DARK = "--blink-settings=preferredColorScheme=0"
PAPERS = {"A4": 595, "letter": 612}  # points wide
PAGES_A_CASE = (2, 4)  # the drawings on one, the working on the rest


def browse(folder, *words):
    with tempfile.TemporaryDirectory(dir=folder) as profile:
        return subprocess.run(["chromium", *PLAIN, f"--user-data-dir={profile}", *words], capture_output=True, text=True,
                              timeout=120, check=True)


def probe(folder, page, width):
    around = folder / f"around-{width}.html"
    around.write_text(PROBE % (width, html.escape(page.read_text(encoding="utf-8"))), encoding="utf-8")
    out = browse(folder, f"--window-size={width + 40},1000", "--virtual-time-budget=5000", "--dump-dom", around.as_uri()).stdout
    around.unlink()
    return json.loads(html.unescape(re.search(r'<pre id="r">(.*?)</pre>', out, re.S).group(1)))


def faults(folder, page, cases):
    for name, width in WIDTHS.items():
        seen = probe(folder, page, width)
        if seen["wide"] > width:
            yield f"{name}: {seen['wide']} wide in a window of {width}"
        for kind in "outside", "over":
            if seen[kind]:
                yield f"{name}: words of drawings {kind}: {seen[kind][:8]}"
        for theme in [], [DARK]:
            shot = folder / f"{name}{'-dark' if theme else ''}.png"
            run = browse(folder, f"--window-size={width},2400", f"--screenshot={shot}", *theme, page.as_uri())
            yield from (f"{name}: console: {line}" for line in run.stderr.splitlines() if "CONSOLE" in line)
    for size, wide in PAPERS.items():
        on_paper = folder / f"{size}.html"
        on_paper.write_text(page.read_text(encoding="utf-8").replace("</style>", f"@page{{size:{size}}}</style>"), encoding="utf-8")
        paper = folder / f"{size}.pdf"
        browse(folder, f"--print-to-pdf={paper}", on_paper.as_uri())
        on_paper.unlink()
        info = subprocess.run(["pdfinfo", paper], capture_output=True, text=True, check=True).stdout
        pages = int(re.search(r"Pages:\s+(\d+)", info).group(1))
        if abs(float(re.search(r"Page size:\s+([\d.]+)", info).group(1)) - wide) > 2:
            yield f"{size}: another paper came out"
        if not 1 + PAGES_A_CASE[0] * cases <= pages <= 1 + PAGES_A_CASE[1] * cases:
            yield f"{size}: {pages} pages for {cases} cases"
        print(f"{cases} cases on {pages} pages of {size}")


def main(program, source, keep=None):
    with tempfile.TemporaryDirectory() as empty:
        folder = pathlib.Path(keep or empty).resolve()
        folder.mkdir(exist_ok=True)
        page = folder / "page.html"
        run = subprocess.run([program, "check", pathlib.Path(source) / "cases" / "nose.csv", "--report", page, "--title",
                              "Nose frame"], capture_output=True, text=True, check=False)
        if run.returncode not in (0, 1):
            sys.exit(run.stderr)
        found = list(faults(folder, page, page.read_text(encoding="utf-8").count('<section class="card"')))
    print("\n".join(found) or "no fault")
    return bool(found)


if __name__ == "__main__":
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
