// Looking at a weld: side, zone, and one of nine grades, “not sure”, or “no access” with its reason.

import { colourLine } from "./asks.js";
import { button, h } from "./element.js";
import { page } from "./gas_screen.js";
import { pictureButton } from "./photo_screen.js";
import { pictureFor } from "./photos.js";
import { swatchBoard } from "./swatches.js";
import { judged } from "./verdicts.js";
import { capital, ZONES } from "./words.js";

const REASONS = ["closed end, nothing to look through", "scope not at hand", "covered already", "hole too small for the scope"];

/** The screen for a look that nobody asked for just now, or a second one. */
export function lookScreen(app) {
  const joint = app.joint;
  const { side = "outside", zone = "bead", why } = app.where;
  const set = (changes) => app.go({ screen: "look", joint: joint.id, side, zone, ...changes });
  const choice = (name, value, label, now) => button(
    { class: "choice", "data-key": `${name}-${value}`, "aria-pressed": String(now === value) }, () => set({ [name]: value }), label);
  return page(app, `Look at ${joint.id}: ${side}, ${ZONES[zone]}`,
    h("div", { class: "choices" }, ["outside", "inside"].map((each) => choice("side", each, capital(each), side)),
      h("span", { class: "choices-gap" }), Object.entries(ZONES).map(([each, label]) => choice("zone", each, capital(label), zone)),
      h("span", { class: "choices-gap" }), pictureButton(app, joint, side, zone, asksForPicture(app, joint, side, zone))),
    why ? reasonBoard(app, joint, side, zone) : swatchBoard((picked) => logLook(app, joint, side, zone, picked)));
}

function asksForPicture(app, joint, side, zone) {
  return app.looksDue(joint).looks.some((line) => line.side === side && line.zone === zone && line.picture);
}

/** Saves a look; a grade is judged at once, no access first asks why. */
export async function logLook(app, joint, side, zone, { answer, grade, reason }) {
  if (answer === "no access" && !reason) {
    app.go({ screen: "look", joint: joint.id, side, zone, why: true });
    return;
  }
  const here = app.where;
  const { card, known } = app.looksDue(joint);
  const shown = card ?? app.card(joint, "fill");
  const attempt = app.progress().joints[joint.id].attempt;
  const kept = await app.log({
    kind: "look", frame: app.frame.frame, joint: joint.id, attempt, side, zone, answer, grade, reason, card: shown?.digest,
    moment: "as welded", extent_mm: null, photo: pictureFor(app, joint, side, zone),
  });
  if (app.where !== here) return;
  const line = colourLine(shown, side, zone);
  app.where = { frame: app.where.frame, screen: "joint", joint: joint.id };
  const earlier = known.own.length && app.result?.verdicts ? app.result.verdicts : [];
  const verdicts = line && answer !== "no access" ? [judged(line, answer === "graded" ? String(grade) : null)] : [];
  app.result = { kept, verdicts: [...earlier, ...verdicts], card: shown, at: app.result?.at, pass: app.result?.pass };
  app.askRecord?.();
  app.draw({ top: true });
}

function reasonBoard(app, joint, side, zone) {
  return h("div", {}, h("h2", {}, "Why is there no access?"),
    h("div", { class: "reasons" }, REASONS.map((reason) => button(
      { class: "main-choice", "data-key": reason }, () => logLook(app, joint, side, zone, { answer: "no access", reason }), capital(reason)))));
}
