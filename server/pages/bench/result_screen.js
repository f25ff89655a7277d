// After the tap: what was saved, how it stands against the card, the hold after the arc, and the look that is due.

import { button, h } from "./element.js";
import { holdPanel } from "./guide.js";
import { logLook } from "./look_screen.js";
import { swatchBoard } from "./swatches.js";
import { redLight, verdictRow } from "./verdicts.js";
import { capital, quarterWords, ZONES } from "./words.js";

/** What stands after a run or a look was logged. */
export function resultScreen(app) {
  const { kept, verdicts, card } = app.result;
  const joint = app.joint;
  const due = joint ? app.looksDue(joint).looks : [];
  return h("div", { class: "result-screen" },
    h("div", { class: "joint-head" }, button({ class: "back", "data-key": "back" }, () => app.go({ screen: "frame" }), "‹ Frame"),
      h("h1", { tabindex: "-1" }, savedWords(kept.entry)), h("p", { class: "card-chip" }, stateWords(app, kept))),
    redLight(verdicts, card),
    h("div", { class: "result-body" },
      h("div", { class: "result-verdicts" }, verdicts.map(verdictRow), kept.entry.kind === "pass" ? holdPanel(app, joint, app.result) : null),
      due.length ? lookPart(app, joint, due[0]) : nextPart(app, joint)),
    h("div", { class: "furthers" }, takeBack(app, kept)));
}

/** In the words of the bench: Fill, all four quarters. */
export function savedWords(entry) {
  const what = { pass: entry.run, look: `look ${entry.side}`, cylinder: "cylinder change", bead: "gas bead" }[entry.kind] ?? entry.kind;
  const where = entry.joint ? `${entry.joint} ` : "";
  const quarters = entry.quarters && ["pass", "tack"].includes(entry.kind) ? `, ${quarterWords(entry.quarters)}` : "";
  return `${where}${capital(what)}${quarters}`;
}

/** Where an entry is: on this tablet, or in the record; there is no third place. */
export function stateWords(app, kept) {
  if (app.told.some((each) => each.seq === kept.seq)) return "Not understood by the record: see “On this tablet”";
  return app.taken.some((each) => each.seq === kept.seq) ? "In the record" : "Saved on this tablet";
}

function lookPart(app, joint, line) {
  return h("div", { class: "look-part" },
    h("h2", {}, `Look ${line.side}, ${ZONES[line.zone]}: which colour?`),
    swatchBoard((picked) => logLook(app, joint, line.side, line.zone, picked)));
}

function nextPart(app, joint) {
  return h("div", { class: "next-part" },
    button({ class: "main-choice", "data-key": "again" }, () => { app.result = null; app.draw({ top: true }); }, joint ? `Next on ${joint.id}` : "Back"),
    button({ class: "main-choice", "data-key": "to-frame" }, () => app.go({ screen: "frame" }), "Back to the frame"));
}

function takeBack(app, kept) {
  return button({ class: "further", "data-key": "take-back" }, async () => {
    await app.log({ kind: "correction", of: kept.id, withdraw: true, reason: "taken back on the tablet right after the tap" });
    app.result = null;
    app.draw({ top: true });
  }, "Take it back");
}
