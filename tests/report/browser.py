#!/usr/bin/env python3
"""Opens the demo's pages in headless Chromium: in windows of five widths, in light and dark, and on paper.

Usage: browser.py PROGRAM SOURCE_DIR [FOLDER [PAGE...]]. Required: no console message, nothing wider than the window, no word of a
drawing outside it or over another or under 12 px on a phone, no broken word in a head or a fixed word of a table of few columns, stops of charts that show their words with the focus, the expected number of pages on paper, nothing that axe-core (from npm;
without it that is said) objects to. With FOLDER the screenshots and the PDFs
stay there for inspection. PAGE: only these of the pages below. Needs Debian's chromium and poppler-utils."""

import concurrent.futures
import html
import json
import pathlib
import re
import subprocess
import sys
import tempfile

# Measures a page of `width` from inside: how wide it got, which words of drawings stand outside their drawing or over each other (those of
# stops are hidden, and stand over others when they show), and which stops do not show their words alone when they have the focus.
PROBE = """<!DOCTYPE html><html><head><meta charset="utf-8"></head><body><iframe style="width:%dpx;height:900px;border:0" srcdoc="%s"></iframe><pre></pre>
<script>document.querySelector('iframe').onload = function () {
  const d = this.contentDocument, out = [];
  for (const t of d.querySelectorAll('svg text')) {
    const a = t.getBoundingClientRect(), b = t.ownerSVGElement.getBoundingClientRect();
    if (a.left < b.left - 1 || a.right > b.right + 1 || a.top < b.top - 1 || a.bottom > b.bottom + 1) out.push(t.textContent);
  }
  const over = [];
  for (const s of d.querySelectorAll('svg')) {
    const all = [...s.querySelectorAll('text')].filter(t => !t.closest('.stop')).map(t => [t.textContent, t.getBoundingClientRect()]);
    for (let i = 0; i < all.length; i++) for (let k = 0; k < i; k++) {
      const [p, a] = all[i], [q, b] = all[k];
      if (a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 4 && b.top < a.bottom - 4) over.push(q + ' | ' + p);
    }
  }
  const mute = [], shows = t => d.defaultView.getComputedStyle(t).visibility === 'visible', words = [...d.querySelectorAll('svg .stop text')];
  if (words.some(shows)) mute.push('words show without a focus');
  for (const g of d.querySelectorAll('svg .stop[tabindex]')) {
    g.focus();
    const seen = [...g.closest('svg').querySelectorAll('.stop text')].filter(shows);
    if (d.activeElement !== g || seen.length !== 1 || seen[0].parentNode !== g || !g.getAttribute('aria-label')) mute.push(g.textContent);
    g.blur();
  }
  const broken = [];
  for (const cell of d.querySelectorAll('table.whole thead th, table.whole tbody td:not(.t)')) {
    const words = d.createTreeWalker(cell, NodeFilter.SHOW_TEXT);
    while (words.nextNode()) for (const word of words.currentNode.data.matchAll(/[^\s-]+/g)) {
      const place = d.createRange();
      place.setStart(words.currentNode, word.index);
      place.setEnd(words.currentNode, word.index + word[0].length);
      if (new Set([...place.getClientRects()].map(r => Math.round(r.top))).size > 1) broken.push(word[0]);
    }
  }
  const small = [...d.querySelectorAll('svg text')].map(t => parseFloat(getComputedStyle(t).fontSize) * t.getScreenCTM().a);
  document.querySelector('pre').textContent = JSON.stringify({wide: d.documentElement.scrollWidth, outside: out, over: over, mute: mute, broken: broken,
    least: Math.min(99, ...small)});
};</script></body></html>"""
PLAIN = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update",
         "--disable-sync", "--no-first-run", "--hide-scrollbars", "--no-pdf-header-footer", "--enable-logging=stderr"]
WIDTHS = {"desk": 1280, "narrow": 880, "between": 800, "small": 740, "phone": 360}
SHOTS = {"desk": (1280, []), "small": (760, []), "phone": (390, []), "dark": (1280, ["--blink-settings=preferredColorScheme=0"])}
LEAST_WORDS = 12  # px, of a drawing on a phone
PAPERS = {"A4": 595, "letter": 612}  # points wide
RAILS = ["--case", "*rail*"]  # the other tubes are pinned, and take no miss
FILES = {"frame": "frame", "portal": "portal", "cut": "frame", "inspect": "readings.csv", "release": "cuts.csv", "pull": "horns.csv", "life": "life.csv", "sight": "sight.csv",
         "sticks": "sticks_parts.csv"}
# name, words behind the file, least and most pages on paper
REPORTS = [
    ("check", ["check"], 6, 7),  # the table, a sheet for each of four short cases, what was checked
    ("sheets", ["check", "--pages", "all", "--working"], 26, 60),  # for each of twelve cases drawings, and the working
    ("compare", ["compare", "--walls"], 2, 2),
    ("names-check", ["check", "--pages", "all"], 10, 20),  # long names, and words that no line holds
    ("names-compare", ["compare", "--walls"], 2, 4),
    ("names-sweep", ["sweep", "--vary", "bow=0in:0.1in:0.02in"], 3, 7),
    ("tubes", ["compare", "--ods", "1,1.125,1.25,1.5", "--walls", "0.035,0.049,0.058,0.065,0.083"], 3, 4),
    ("sweep", ["sweep", *RAILS, "--vary", "miss_a=0:0.5:0.0625"], 3, 5),  # the lines of all, nine figures by four
    ("map", ["sweep", *RAILS, "--vary", "miss_a=0:0.5:0.125", "--vary", "bow=0:0.2:0.05"], 3, 5),
    ("limit", ["limit", *RAILS, "--find", "miss_a", "--to", "1in"], 1, 2),
    ("index", ["index"], 2, 4),
    ("scatter", ["scatter", "--tolerances", "tolerances.csv"], 3, 6),
    ("life", ["life", "--details", "life_details.csv"], 2, 2),
    ("inspect", ["inspect", "--spec", "spec.csv"], 1, 3),
    ("release", ["release"], 1, 2),
    ("pull", ["pull", "--steps", "4"], 1, 3),
    ("cases", ["cases"], 2, 4),  # the drawing of each case
    ("frame-cases", ["cases", "--view", "30,20"], 1, 2),  # from the side, from above, from the front, and turned
    ("portal-turned", ["check", "--view", "-60,35"], 2, 4),
    ("frame", ["check"], 4, 7),  # drawings and runs, the moments, the tubes, the details
    ("portal", ["check"], 2, 3),
    ("cut", ["cut", "--tube", "rail UL 2", "--at", "12in"], 1, 3),
    # decisions on a frame: the portal is small
    ("portal-compare", ["compare", "--walls", "0.049,0.065,0.083"], 1, 3),
    ("portal-sweep", ["sweep", "--tube", "{tube}", "--vary", "bow=0in:0.2in:0.05in"], 1, 2),
    ("portal-limit", ["limit", "--tube", "{tube}", "--find", "bow", "--to", "0.5in"], 1, 2),
    ("portal-index", ["index"], 1, 2),
    ("frame-scatter", ["scatter", "--tolerances", "frame_tolerances.csv", "--samples", "64"], 1, 3),
    ("sight", ["sight"], 2, 3),
    ("sticks", ["sticks", "--stock", "sticks_stock.csv"], 2, 2),
]
AXE = """<script>%s</script><script>axe.run(document).then(r => {
  const p = document.createElement('pre');
  p.id = 'axe';
  p.textContent = JSON.stringify(r.violations.map(v => [v.id, v.help, v.nodes.slice(0, 3).map(n => n.html.slice(0, 120))]));
  document.body.append(p);
});</script></body>"""


def long_names(cases, folder):
    """The demo with names that somebody typed without a thought of how wide a page is."""
    lines, rest = (cases / "nose.csv").read_text(encoding="utf-8").splitlines(), 0
    for i, line in enumerate(lines):
        if line.startswith("#") or line.startswith("case,"):
            continue
        name = "a rather long name of a tube under one of its loads " + "x" * (80 if rest == 0 else 4) + str(rest)
        lines[i], rest = ",".join([name, *line.split(",")[1:]]), rest + 1
    (folder / "names.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    return folder / "names.csv"


def axe_source(folder):
    """The source of axe-core from npm, or None where npm or the registry is not there."""
    try:
        subprocess.run(["npm", "pack", "axe-core@4", "--silent"], cwd=folder, check=True, capture_output=True, timeout=120)
        (packed,) = folder.glob("axe-core-*.tgz")
        subprocess.run(["tar", "xzf", packed, "package/axe.min.js"], cwd=folder, check=True)
        return (folder / "package" / "axe.min.js").read_text(encoding="utf-8")
    except (OSError, ValueError, subprocess.SubprocessError):
        return None


def axe_faults(folder, page, source):
    """What axe-core finds. Its script needs leave to run, so the page is looked at without its policy."""
    text = re.sub(r'<meta http-equiv="Content-Security-Policy"[^>]*/>', "", page.read_text(encoding="utf-8"))
    within = folder / f"axe-{page.stem}.html"
    within.write_text(text.replace("</body>", AXE % source.replace("</script", "<\\/script")), encoding="utf-8")
    out = browse(folder, "--window-size=1280,2000", "--virtual-time-budget=30000", "--dump-dom", within.as_uri()).stdout
    within.unlink()
    said = re.search(r'<pre id="axe">(.*?)</pre>', out, re.S)
    if said is None:
        yield f"{page.stem}: axe gave no answer"
        return
    for name, help_text, nodes in json.loads(html.unescape(said.group(1))):
        yield f"{page.stem}: axe: {name}: {help_text}: {nodes}"


def browse(folder, *words):
    with tempfile.TemporaryDirectory(dir=folder) as profile:
        return subprocess.run(["chromium", *PLAIN, f"--user-data-dir={profile}", *words], capture_output=True, text=True,
                              timeout=120, check=True)


def probe(folder, page, width):
    around = folder / f"around-{page.stem}-{width}.html"
    around.write_text(PROBE % (width, html.escape(page.read_text(encoding="utf-8"))), encoding="utf-8")
    out = browse(folder, f"--window-size={width + 40},1000", "--virtual-time-budget=5000", "--dump-dom", around.as_uri()).stdout
    around.unlink()
    return json.loads(html.unescape(re.search(r"<pre>(.*?)</pre>", out, re.S).group(1)))


def faults(folder, page, least, most, shots):
    for name, width in WIDTHS.items():
        seen = probe(folder, page, width)
        if seen["wide"] > width:
            yield f"{page.stem}, {name}: {seen['wide']} wide in a window of {width}"
        if seen["broken"]:
            yield f"{page.stem}, {name}: words of tables broken: {seen['broken'][:8]}"
        for kind in "outside", "over", "mute":
            if seen[kind]:
                yield f"{page.stem}, {name}: words of drawings {kind}: {seen[kind][:8]}"
        if name == "phone" and seen["least"] < LEAST_WORDS:
            yield f"{page.stem}, {name}: words of a drawing of {seen['least']:.1f} px"
    for name, (width, theme) in shots.items():
        shot = folder / f"{page.stem}-{name}.png"
        run = browse(folder, f"--window-size={width},2400", f"--screenshot={shot}", *theme, page.as_uri())
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
        axe = axe_source(pathlib.Path(empty))
        if axe is None:
            print("axe-core could not be had from npm: accessibility was NOT looked at")
        cases = pathlib.Path(source).resolve() / "cases"
        shots = SHOTS if keep else {"desk": SHOTS["desk"]}  # the others are pictures to look at

        def look(report):
            name, words, least, most = report
            page = folder / f"{name}.html"
            given = [word.replace("{tube}", "beam") for word in words]
            file = FILES.get(name, FILES.get(name.partition("-")[0], "nose.csv"))
            file = names_file if name.startswith("names") else file
            run = subprocess.run([program, given[0], file, *given[1:], "--report", page, "--title", "Nose frame"], cwd=cases,
                                 stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, check=False)
            if run.returncode not in (0, 1) and not page.exists():
                return [f"{name}: no page: {run.stderr}"]
            return [*faults(folder, page, least, most, shots), *(axe_faults(folder, page, axe) if axe is not None else [])]

        names_file = long_names(cases, folder)
        wanted = [report for report in REPORTS if not names or report[0] in names]
        with concurrent.futures.ThreadPoolExecutor(2) as pool:
            found = [fault for part in pool.map(look, wanted) for fault in part]
    print("\n".join(found) or "no fault")
    return bool(found)


if __name__ == "__main__":
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
