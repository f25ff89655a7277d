// What holds a finished seam back from being covered: what the record has open on it, and red lights it has not judged yet.

import { colourLine, lineOf } from "./asks.js";
import { judged } from "./verdicts.js";
import { allowedWords, capital, withUnit } from "./words.js";

/** Gives, by joint of the frame, why its release is held back, in words. */
export function holdsOf(app) {
  const holds = {};
  const add = (joint, words) => { (holds[joint] ??= []).push(words); };
  for (const { joint, words } of app.frame.holds ?? []) add(joint, words);
  const unjudged = notJudgedYet(app);
  for (const entry of app.entries()) {
    if (entry.frame !== app.frame.frame || !entry.joint || !unjudged.has(entry.id)) continue;
    for (const verdict of redLights(app, entry)) add(entry.joint, `${beyondWords(verdict)}: the quality lead decides first`);
  }
  return holds;
}

/** Entries that wait here, or that the record took and had not judged when it wrote the sheet. */
function notJudgedYet(app) {
  const fresh = app.taken.filter(({ receipt }) => receipt.position > (app.sheet.judged_to ?? 0));
  return new Set([...app.waiting, ...fresh].map(({ id }) => id));
}

function redLights(app, entry) {
  const card = app.sheet.cards.find((each) => each.digest === entry.card);
  return readLines(card, entry).filter(([line]) => line).map(([line, value]) => judged(line, value)).filter(({ word }) => word === "outside");
}

function readLines(card, entry) {
  if (entry.kind === "look") return entry.answer === "graded" ? [[colourLine(card, entry.side, entry.zone), String(entry.grade)]] : [];
  const run = entry.kind === "pass" ? entry.run : "tack";
  return Object.entries(entry.values ?? {}).map(([reading, { value }]) => [lineOf(card, reading, run), value]);
}

function beyondWords({ line, value }) {
  return `${capital(line.words)} was ${withUnit(value, line.unit)}, ${allowedWords(line)} is allowed`;
}
