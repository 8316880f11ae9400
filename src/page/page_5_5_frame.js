/* A frame while one of its tubes is changed: first the answer of that tube, then that of the whole frame, then what is drawn. */

const tubeTurn = { asking: null, again: false };

/* After a change. What was asked before is not waited for. */
function showTubeNow() {
  const begun = performance.now();
  adviceTurn++;
  clearTimeout(showNow.timer);
  for (const lane of ["whole", "tracks", "drawing"]) dropLane(lane);
  showChanged();
  page.whole = { state: "asking" };
  showWhole();
  byId("verdict").toggleAttribute("data-stale", true);
  byId("advice").textContent = "";
  tubeTurn.again = tubeTurn.asking !== null;
  if (!tubeTurn.again) answerTube(begun);
}

/* One question at a time: what was changed meanwhile is asked next. */
async function answerTube(begun) {
  const mine = tubeTurn.asking = {};
  do {
    tubeTurn.again = false;
    const { row, messages } = isChanged() ? await askTubeMargin() : { row: null, messages: [] };
    if (mine !== tubeTurn.asking) return;
    if (isChanged()) page.now = row;
    else backToGiven();
    showVerdict(row || !isChanged() ? "" : "none");
    showFaults(row || !isChanged() ? page.messages : messages);
  } while (tubeTurn.again);
  tubeTurn.asking = null;
  for (const column of controls.keys()) showControl(column);
  document.documentElement.dataset.moved = (performance.now() - begun).toFixed(2);
  if (!isChanged()) showAnswered();
  const turn = adviceTurn;
  showNow.timer = setTimeout(() => showRest(turn), 90);
}

function dropTube() {
  tubeTurn.asking = null;
  for (const lane of ["tube", "whole", "tracks", "drawing"]) dropLane(lane);
}

/* List and views of what is known of the whole frame. */
function showAnswered() {
  showVerdict(page.now || !isChanged() || Object.keys(page.changes).length === 0 ? "" : "none");
  if (page.whole.state !== "done") return;
  showList();
  showFrame();
}

/* What takes longer: the whole frame, the tracks and the chart, the working. */
async function showRest(turn) {
  const isLate = () => turn !== adviceTurn || page.passed === null;
  if (isLate()) return;
  const whole = page.whole.state === "done" ? null : askWhole(isLate, showAnswered);
  await Promise.all([whole, showTracks(turn), showTube(turn)]);
  if (!isLate()) document.documentElement.dataset.settled = String(turn);
}

/* The tables with the changes take the place of those that were given. */
function keepTubes() {
  if (!isChanged()) return;
  const { files, fault } = changedFiles();
  if (fault) {
    showFaults([{ file: "", line: 0, column: "", text: fault }]);
    return;
  }
  page.files = files;
  dropChanges();
  renew();
}
