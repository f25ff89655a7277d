// After the tap: what was saved, how it stands against the card, the hold after the arc, and the look that is due.

import { button, h } from "./element.js";
import { holdPanel } from "./guide.js";
import { nextRun } from "./progress.js";
import { logLook } from "./look_screen.js";
import { pictureButton } from "./photo_screen.js";
import { swatchBoard } from "./swatches.js";
import { redLight, verdictRow, wordMark } from "./verdicts.js";
import { capital, quarterWords, ZONES } from "./words.js";

/** What stands after a run or a look was logged. */
export function resultScreen(app) {
  const { kept, verdicts, card } = app.result;
  const joint = app.joint;
  const [line] = joint ? app.looksDue(joint).looks : [];
  return h("div", { class: "result-screen" },
    h("div", { class: "joint-head" }, h("h2", {}, savedWords(kept.entry)),
      app.result.pass ? holdPanel(app, joint, app.result) : null,
      h("p", { class: "card-chip" }, stateWords(app, kept)), takeBack(app, kept)),
    redLight(verdicts, card),
    line ? lookPart(app, joint, line) : nextPart(app, joint),
    fromTheRecord(app),
    h("div", { class: "result-verdicts" }, [...verdicts].sort(worstFirst).map(verdictRow)));
}

const ORDER = ["outside", "unknown", "marginal", "within", "not asked"];

function worstFirst(a, b) {
  return ORDER.indexOf(a.word) - ORDER.indexOf(b.word);
}

/** What the record found once it had the entry; the card on the tablet is only the first to speak. */
function fromTheRecord(app) {
  const told = app.result.told;
  if (!told) return null;
  if (!told.judged) return h("p", {}, "The record has it and has not judged it yet.");
  const found = told.verdicts.filter(({ word }) => ["outside", "unknown", "marginal"].includes(word)).sort(worstFirst);
  const cautions = [...new Set(found.filter(({ word }) => word === "outside").map(({ caution }) => caution).filter(Boolean))];
  return h("section", { class: "guide from-record" }, h("h2", {}, found.length ? "The record says of this joint" : "The record finds nothing against this joint"),
    found.map(({ word, proved, message }) => h("p", {}, wordMark({ word, proved, value: "" }), ` ${message}`)),
    cautions.map((caution) => h("p", { class: "caution" }, h("strong", {}, "Caution. "), caution)));
}

/** In the words of the bench: Fill, all four quarters. */
export function savedWords(entry) {
  if (entry.kind === "sleeve") return `Sleeve ${entry.sleeve} ${entry.act}`;
  if (entry.kind === "cylinder") return `Cylinder ${entry.on ?? "none"} on ${entry.line}`;
  const what = { pass: entry.run, look: `look ${entry.side}`, bead: "gas bead", removed: entry.method }[entry.kind] ?? entry.kind;
  const where = entry.joint ? `${entry.joint} ` : "";
  const quarters = entry.quarters && ["pass", "tack", "removed"].includes(entry.kind) ? `, ${quarterWords(entry.quarters)}` : "";
  return `${where}${capital(what)}${quarters}`;
}

/** Where an entry is: on this tablet, or in the record; there is no third place. */
export function stateWords(app, kept) {
  if (app.told.some((each) => each.seq === kept.seq)) return "Not understood by the record: see “On this tablet”";
  return app.taken.some((each) => each.seq === kept.seq) ? "In the record" : "Saved on this tablet";
}

function lookPart(app, joint, line) {
  return h("div", { class: "look-part" },
    h("div", { class: "joint-head" }, h("h2", {}, `Now look ${line.side}, ${ZONES[line.zone]}: which colour?`), pictureButton(app, joint, line.side, line.zone, line.picture)),
    swatchBoard((picked) => logLook(app, joint, line.side, line.zone, picked)));
}

function nextPart(app, joint) {
  const run = joint ? nextRun(joint, app.progress().joints[joint.id]) : null;
  return h("div", { class: "next-part" },
    run ? button({ class: "main-choice straw", "data-key": "again" }, () => { app.result = null; app.draw({ top: true }); }, `Next on ${joint.id}: ${run}`) : null,
    button({ class: `main-choice ${run ? "" : "straw"}`, "data-key": "to-frame" }, () => app.go({ screen: "frame" }), "Back to the frame"),
    app.result.pass ? button({ class: "main-choice", "data-key": "machine" }, () => app.go({ screen: "machine", of: app.result.kept.id, joint: joint.id }), "Machine’s file for it") : null);
}

function takeBack(app, kept) {
  return button({ class: "further", "data-key": "take-back" }, async () => {
    const { result, joint, person } = app;
    const { draft, together = [kept] } = result;
    for (const { id } of together) await app.log({ kind: "correction", of: id, withdraw: true, reason: "taken back on the tablet right after the tap" }, person);
    if (app.result !== result) return;
    app.result = null;
    if (draft) app.change(draft, joint);
    app.draw({ top: true });
  }, "Take it back");
}
