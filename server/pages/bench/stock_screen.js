// Taking something from stock: the cylinder that goes on a line, the sleeve that is opened, each also by part of its number.

import { isBadge, mayBeBadge } from "./badge_code.js";
import { cylindersNow } from "./carried.js";
import { button, h } from "./element.js";
import { page } from "./gas_screen.js";
import { measuredValue } from "./log_pass.js";
import { padOf, problemWords, readValue } from "./pad.js";
import { badgeRead } from "./people_screen.js";
import { askStock, holdsPart } from "./stock.js";

const SHORTEST = 3;

/** A new cylinder: one tap among those in stock, with what was left in the one that comes off where that was read. */
export function cylinderScreen(app) {
  const line = app.lines.find((each) => each.line === app.where.line);
  const { kept = false, text = "" } = app.where;
  const { value, problem } = readValue(text, app.sheet.quantities.pressure);
  const left = value === null ? undefined : { pressure: measuredValue(app, { reading: "pressure", how: "typed" }, value) };
  const take = ({ cylinder, fill_lot }) => async () => {
    const onward = app.onward();
    const { id } = await app.log({ kind: "cylinder", line: line.line, off: line.cylinder, on: cylinder, fill_lot, kept_flowing: kept, off_values: line.cylinder ? left : undefined });
    onward({ screen: "bead", line: line.line, why: "change", change: id });
  };
  const offered = cylindersNow(app.sheet, app.lines, app.entries()).filter((each) => each.cylinder !== line.cylinder);
  const put = (typed) => { app.where = { ...app.where, text: typed }; app.draw(); };
  const words = ({ fill_lot, on, used }) => `fill lot ${fill_lot}${on ? `, on ${on} now` : used ? ", was on before" : ""}`;
  return page(app, `New cylinder on ${line.line}`, h("div", { class: "two" },
    h("div", {}, h("p", {}, `Coming off: ${line.cylinder ?? "none"}. Which one goes on?`), problem ? h("p", { class: "notice-strong" }, problemWords(problem)) : null,
      value !== null && app.sheet.cut_off_bar !== null && Number(value) < app.sheet.cut_off_bar ? h("p", { class: "notice-strong", role: "status" }, h("strong", {}, "Run too low. "), `The shop takes a cylinder off at ${app.sheet.cut_off_bar} bar; tell the quality lead what was welded last with it.`) : null,
      line.use === "purge" ? button({ class: "choice", "data-key": "kept", "aria-pressed": String(kept) }, () => { app.where = { ...app.where, kept: !kept }; app.draw(); }, kept ? "Gas kept on through the change" : "Gas was off during the change") : null,
      problem ? null : choice(app, { offered, name: "cylinder", what: "cylinder", words, take, act: "Put it on", lacks: "its fill lot is not known here" })),
    padOf({ title: "Left in the one coming off", unit: "bar", value: text }, put, problem)));
}

/** A sleeve from stock to open at this bench. */
export function sleeveScreen(app) {
  const open = new Set(app.sleeves.map((each) => each.sleeve));
  const offered = app.sheet.stock.sleeves.filter((each) => !open.has(each.sleeve) && (!app.where.only || each.sleeve === app.where.only));
  const take = ({ sleeve, filler_class }) => () => app.go({ screen: "rod-ends", sleeve, filler_class });
  const words = ({ filler_class, rod_mm, open_at, used }) => `${filler_class} ${rod_mm} mm${open_at ? `, open at ${open_at}` : used ? ", was open before" : ""}`;
  return page(app, "Which sleeve do you open?", choice(app, { offered, name: "sleeve", what: "sleeve", words, take, act: "Open it", lacks: "its label is not known here" }));
}

/** The way to any of the stock by its number, and what is offered, or has that number, as tiles. */
function choice(app, { offered, name, what, words, take, act, lacks }) {
  const { part, only } = app.where;
  const shown = part ? offered.filter((each) => holdsPart(each[name], part)) : offered;
  const tile = (each) => button({ class: "tile", "data-key": each[name] }, take(each), h("strong", {}, each[name]), h("span", {}, words(each)));
  return [
    shown.length || part ? null : h("p", { class: "empty" }, `No released ${what} is in stock that is not here already. Ask the office for its label and lot; one taken all the same is typed below.`),
    h("form", { class: "sought", "data-key": "sought", onsubmit: (sent) => { sent.preventDefault(); seekTyped(app); } },
      h("label", { for: "part" }, `Another ${what}: scan it, or type part of its number`),
      h("input", { id: "part", autocomplete: "off", autocapitalize: "characters", "data-key": "part", maxlength: 60 }),
      button({ class: "choice", "data-key": "seek" }, () => seekTyped(app), "Look it up")),
    part ? h("p", { role: "status" }, soughtWords(app, what, shown.length)) : null,
    h("div", { class: "tiles" }, shown.map(tile),
      part && !shown.length && part.length >= SHORTEST && app.where.asked !== "asking" ? button({ class: "tile", "data-key": "all-the-same" }, take({ [name]: part }), h("strong", {}, `${act}: ${part}`), h("span", {}, `${lacks}; kept and flagged`)) : null,
      part || only ? button({ class: "tile", "data-key": "all-offered" }, () => { app.where = { ...app.where, part: undefined, only: undefined, asked: undefined }; app.draw(); }, h("strong", {}, "Show all offered")) : null),
  ];
}

function soughtWords(app, what, count) {
  const { part, asked, more } = app.where;
  if (asked === "asking") return `Looking for “${part}” …`;
  const found = count ? `With “${part}” in the number:` : `No released ${what} known here has “${part}” in its number.`;
  if (asked === "no answer") return `${found} The record does not answer, so only what this tablet knows was looked through.`;
  return more ? `${found} There are more; type more of it.` : found;
}

/** A badge scanned into the field signs its person in and leaves nothing there. */
function seekTyped(app) {
  const field = document.getElementById("part");
  const typed = field.value;
  if (mayBeBadge(typed)) field.value = "";
  if (isBadge(typed)) badgeRead(app, typed.trim());
  else if (!mayBeBadge(typed)) seek(app, typed);
}

/** Shows what the tablet knows at once, and what the record knows as soon as it has answered. */
export async function seek(app, typed) {
  const part = typed.trim();
  if (!part) return;
  const here = { ...app.where, part, asked: "asking", more: false };
  app.where = here;
  app.draw();
  const found = await askStock(app, part);
  if (app.where.part !== part || app.where.screen !== here.screen) return;
  app.where = { ...app.where, asked: found ? "answered" : "no answer", more: Boolean(found?.more) };
  app.draw();
}
