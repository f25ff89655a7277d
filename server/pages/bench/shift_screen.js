// The first run of a shift: the settings on the panel and the flows at the cup, told once and carried from then on.

import { button, h } from "./element.js";
import { page } from "./gas_screen.js";
import { padOf, problemWords, readValue } from "./pad.js";
import { judged, redLight, wordMark } from "./verdicts.js";
import { allowedWords, capital, withUnit } from "./words.js";

/** One setting after another; what was set last time may be kept with one tap, what is read is read again. */
export function shiftScreen(app) {
  const joint = app.joint;
  const draft = app.draft(joint);
  const { card, known, first } = app.asked(joint, draft);
  const told = app.shiftDraft(card);
  const open = first.find((line) => line.reading === app.where.asking) ?? first.find((line) => !told[line.reading]) ?? null;
  if (!card || !open) return allTold(app, joint, card, first, told);
  const text = app.where.text ?? "";
  const { value, problem } = readValue(text, app.sheet.quantities[open.reading]);
  const put = (typed) => { app.where = { ...app.where, text: typed }; app.draw(); };
  const keep = (kept) => { app.where = { ...app.where, asking: undefined, text: "" }; app.tellShift(card, { [open.reading]: kept }); };
  const before = ["set", "typed"].includes(open.how) ? known.before(card.procedure)[open.reading] : null;
  const verdict = value === null ? null : judged(open, value);
  return page(app, `First of the shift, ${card.procedure}`, h("div", { class: "two" },
    h("div", {}, h("p", { class: "shift-now" }, h("strong", {}, capital(open.words)), ` ${allowedWords(open)}`),
      verdict ? redLight([verdict], card) ?? wordMark(verdict) : null,
      h("div", { class: "shift-list" }, first.map((line) => toldLine(app, line, told, open))),
      before && value === null && !problem ? button({ class: "log", "data-key": "still" }, () => keep(before), `Still set to ${withUnit(before, open.unit)}`)
        : button({ class: "log", "data-key": "tell", disabled: value === null }, () => keep(value), problem ? problemWords(problem) : value === null ? `Key in the ${open.words}` : `Take ${withUnit(value, open.unit)}`)),
    padOf({ title: capital(open.words), unit: open.unit, value: text }, put, problem)));
}

function toldLine(app, line, told, open) {
  const value = told[line.reading];
  return button({ class: "ask", "data-key": `tell-${line.reading}`, "aria-pressed": String(line === open) },
    () => { app.where = { ...app.where, asking: line.reading, text: "" }; app.draw(); },
    h("span", {}, capital(line.words)), h("strong", {}, value ? withUnit(value, line.unit) : "–"), value ? wordMark(judged(line, value)) : null);
}

function allTold(app, joint, card, first, told) {
  return page(app, "All told", first.map((line) => toldLine(app, line, told, null)),
    button({ class: "main-choice", "data-key": "back-to-joint" }, () => app.go({ screen: "joint", joint: joint.id }), `Back to ${joint.id}`));
}
