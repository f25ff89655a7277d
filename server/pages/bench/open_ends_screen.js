// The end of a shift: what this frame and bench still lack, each with the way to where it is put right.

import { button, h } from "./element.js";
import { page } from "./gas_screen.js";
import { beadWords, failedLines, untriedLines, untriedToday } from "./gas_state.js";
import { untoldToday } from "./missing.js";
import { jointWord } from "./progress.js";
import { savedWords } from "./result_screen.js";
import { wallClock } from "./clock.js";
import { capital, ZONES } from "./words.js";

/** Everything open at the bench, so that it is told today, late but told, and not from memory next week. */
export function openEndsScreen(app) {
  const ends = [...looksOpen(app), ...readingsOpen(app), ...stopsOpen(app), ...seamsBegun(app), ...beadsOpen(app), ...gasOpen(app), ...namesOpen(app), ...notArrived(app)];
  return page(app, app.frame ? `End of shift: what is open on ${app.frame.frame}` : "End of shift: what is open", framesOpen(app), ends.length
    ? h("div", { class: "tiles" }, ends.map(({ key, what, where, go }) => button({ class: "tile", "data-key": key }, go, h("strong", {}, what), h("span", {}, where))))
    : h("p", { class: "nothing-asked" }, "Nothing is open at this bench. Hang up the hood."));
}

/** A frame is closed on this tablet when nothing of it is left to tell; its release no longer waits for this tablet. */
function framesOpen(app) {
  const open = app.frames.map((frame) => frame.frame).filter((frame) => app.isOpenHere(frame));
  const close = (frame) => async () => { await app.log({ kind: "opened", frame, act: "closed" }); app.draw(); };
  return h("div", { class: "tiles" }, open.map((frame) => button({ class: "tile", "data-key": `close-${frame}` }, close(frame),
    h("strong", {}, `Close ${frame} on this tablet`), h("span", {}, "all I know of it is told"))),
  open.filter((frame) => frame !== app.frame?.frame).map((frame) => button({ class: "tile", "data-key": `ends-of-${frame}` }, () => app.go({ screen: "open-ends", frame }),
    h("strong", {}, `What is open on ${frame}`), h("span", {}, "opened on this tablet too"))));
}

function looksOpen(app) {
  return app.frame.joints.flatMap((joint) => app.looksDue(joint).looks.map((line) => ({
    key: `open-look-${joint.id}-${line.side}-${line.zone}`, what: `Look ${line.side}, ${ZONES[line.zone]}`, where: `${joint.id} ${joint.title}`,
    go: () => app.go({ screen: "look", joint: joint.id, side: line.side, zone: line.zone }),
  })));
}

/** What the card asked with a tack or a pass and nobody told: told now it is late, and told. */
function readingsOpen(app) {
  return untoldToday(app).map(({ entry, line }) => ({
    key: `open-reading-${entry.id}-${line.reading}`, what: `${capital(line.words)} not told`, where: `${savedWords(entry)}, ${wallClock(app.sheet.zone, entry.happened)}`,
    go: () => app.go({ screen: "told-late", of: entry.id, reading: line.reading }),
  }));
}

function stopsOpen(app) {
  const untold = app.entries().filter((entry) => entry.kind === "problem" && entry.words === "stopped: details follow" && entry.who === app.person.id);
  return untold.map((entry) => ({
    key: `open-stop-${entry.id}`, what: "Say what the stop was", where: [entry.frame, entry.joint].filter(Boolean).join(" "),
    go: () => app.go({ screen: "problem", of: entry.id, joint: entry.joint }),
  }));
}

function seamsBegun(app) {
  const progress = app.progress();
  return app.frame.joints.filter((joint) => ["root", "fill"].includes(jointWord(joint, progress.joints[joint.id]))).map((joint) => ({
    key: `open-seam-${joint.id}`, what: `${capital(jointWord(joint, progress.joints[joint.id]))} begun, not finished`, where: `${joint.id} ${joint.title}`,
    go: () => app.go({ screen: "joint", joint: joint.id }),
  }));
}

/** A bead that was due and never logged: run now it still says something, next week it does not. */
function beadsOpen(app) {
  const lines = new Set([...failedLines(app), ...untriedLines(app), ...untriedToday(app)].map(({ line }) => line));
  return app.lines.filter(({ line }) => lines.has(line)).map((line) => ({
    key: `open-bead-${line.line}`, what: `Test bead, ${line.use} line`, where: `${line.line}: ${beadWords(app, line)}`,
    go: () => app.go({ screen: "bead", line: line.line }),
  }));
}

function gasOpen(app) {
  return app.purge ? [{ key: "open-purge", what: "Purge still on", where: app.purge.setup, go: () => app.go({ screen: "purge" }) }] : [];
}

/** Entries made under a name alone count as that person's once they have signed in and said so. */
function namesOpen(app) {
  const count = app.unconfirmedEntries().length;
  const what = count === 1 ? "1 entry not confirmed" : `${count} entries not confirmed`;
  return count ? [{ key: "open-names", what, where: app.person.confirmed ? "made without the network: confirm" : "sign in to confirm", go: () => app.go({ screen: "person" }) }] : [];
}

function notArrived(app) {
  const count = app.waiting.length + app.told.length;
  return count ? [{ key: "open-tablet", what: `${count} not in the record yet`, where: "on this tablet", go: () => app.go({ screen: "tablet" }) }] : [];
}
