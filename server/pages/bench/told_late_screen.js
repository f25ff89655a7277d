// A reading that was taken and not logged is told late beside its entry; one that nobody took is said to be just that.

import { button, h } from "./element.js";
import { wallClock } from "./clock.js";
import { page } from "./gas_screen.js";
import { measuredValue } from "./log_pass.js";
import { missingOf, nobodyRead } from "./missing.js";
import { padOf, problemWords, readValue } from "./pad.js";
import { savedWords } from "./result_screen.js";
import { judged, verdictRow } from "./verdicts.js";
import { capital, withUnit } from "./words.js";

const WHY = "told at the end of the shift";

/** The number as it was read then, or that nobody read it: only what is known is asked for, never a likely number. */
export function toldLateScreen(app) {
  const { of, reading, text = "" } = app.where;
  const entry = app.entries().find((each) => each.id === of);
  const line = entry ? missingOf(app, entry).find((each) => each.reading === reading) : null;
  if (!line) return page(app, "It has been told", h("p", {}, "Nothing is missing there any more."));
  const { value, problem } = readValue(text, app.sheet.quantities[reading]);
  const verdict = value === null ? null : judged(line, value);
  const put = (typed) => { app.where = { ...app.where, text: typed }; app.draw(); };
  return page(app, `Told late: ${line.words}`, h("div", { class: "two" },
    h("div", {}, verdict ? verdictRow(verdict) : null,
      verdict?.word === "outside" ? h("p", { class: "notice-strong", role: "alert" }, h("strong", {}, "Outside the limit. "), "Tell the quality lead before anything comes over this seam.") : null,
      h("p", {}, `${savedWords(entry)} was logged ${wallClock(app.sheet.zone, entry.happened)} without it. Tell it if it was read then; it stands as told late. What nobody read stays unknown: never key in a likely number.`),
      h("div", { class: "tiles" }, button({ class: "tile", "data-key": "nobody" }, () => sayNobody(app, entry, line), h("strong", {}, "Nobody read it"), h("span", {}, "it stays unknown, and is not asked again"))),
      button({ class: "log", "data-key": "log", disabled: value === null }, () => tell(app, entry, line, value),
        problem ? problemWords(problem) : value === null ? `Key in the ${line.words}` : `It was ${withUnit(value, line.unit)}`)),
    padOf({ title: capital(line.words), unit: line.unit, value: text }, put, problem)));
}

async function tell(app, entry, line, value) {
  const onward = app.onward();
  const values = { [line.reading]: measuredValue(app, { reading: line.reading, how: "typed" }, value) };
  const { frame, joint, attempt, quarters, happened, card } = entry;
  if (line.reading === "gap") await app.log({ kind: "gap", frame, joint, attempt, quarters, card, happened, late_reason: WHY, values });
  else await app.log({ kind: "correction", of: entry.id, change: { values }, reason: WHY });
  onward({ screen: "open-ends" });
}

async function sayNobody(app, entry, line) {
  const onward = app.onward();
  await app.log({ kind: "correction", of: entry.id, change: { note: [entry.note, nobodyRead(line)].filter(Boolean).join("; ") }, reason: WHY });
  onward({ screen: "open-ends" });
}
