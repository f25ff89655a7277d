// What was welded is cut or ground out again: said here, so that what follows is another attempt and nothing has to be denied.

import { button, h } from "./element.js";
import { page } from "./gas_screen.js";
import { isWelded } from "./progress.js";
import { QUARTERS, quarterWords } from "./words.js";

const WAYS = [
  { method: "cut out", words: "Cut out" },
  { method: "ground out", words: "Ground out" },
  { method: "cut out with the tube or part", words: "Cut out with the tube or part", small: "a new one goes in", piece_replaced: true },
];

/** Which quarters went, then how: the tap on how logs it. A set of tacks goes as a whole. */
export function cutOutScreen(app) {
  const joint = app.joint;
  const progress = app.progress().joints[joint.id];
  const byQuarter = joint.quartered && isWelded(progress);
  const chosen = byQuarter ? app.where.quarters ?? [] : [...QUARTERS];
  const log = ({ method, piece_replaced }) => async () => {
    const onward = app.onward();
    await app.log({ kind: "removed", frame: app.frame.frame, joint: joint.id, attempt: progress.attempt, quarters: piece_replaced ? QUARTERS : chosen, method, piece_replaced });
    onward({ screen: "joint", joint: joint.id });
  };
  return page(app, `${joint.id}: what was cut or ground out?`,
    h("p", {}, isWelded(progress) ? "What was logged stays as it was; what follows is another attempt. A repair is signed for at the desk before its first arc." : "The tacks were there and are gone; the next ones are another attempt."),
    byQuarter ? quarterChoice(app, chosen) : null,
    h("div", { class: "tiles" }, WAYS.map((way) => button(
      { class: "tile", "data-key": way.method, disabled: chosen.length === 0 && !way.piece_replaced }, log(way),
      h("strong", {}, way.words), h("span", {}, way.small ?? (chosen.length ? quarterWords(chosen) : "tap the quarters first"))))));
}

function quarterChoice(app, chosen) {
  const set = (quarters) => { app.where = { ...app.where, quarters }; app.draw(); };
  const toggled = (quarter) => QUARTERS.filter((each) => (each === quarter) !== chosen.includes(each));
  return h("div", { class: "choices", role: "group", "aria-label": "Quarters" }, QUARTERS.map((quarter) => button(
    { class: "choice", "data-key": quarter, "aria-pressed": String(chosen.includes(quarter)) }, () => set(toggled(quarter)), `${quarter.slice(1)} o’clock`)),
  button({ class: "choice", "data-key": "all", "aria-pressed": String(chosen.length === 4) }, () => set([...QUARTERS]), "All four"));
}
