// What was asked with a tack or a pass and never told: read off its card, so that it is told late and not from memory next week.

import { holdsFor } from "./asks.js";
import { shopDay } from "./clock.js";

/** What this person left untold on the frame today: [{entry, line}], the oldest first. */
export function untoldToday(app) {
  const today = (entry) => shopDay(app.sheet.zone, new Date(entry.happened)) === app.today;
  const own = app.entries().filter((entry) => entry.frame === app.frame.frame && entry.who === app.person?.id && today(entry));
  return own.flatMap((entry) => missingOf(app, entry).map((line) => ({ entry, line })));
}

/** The lines of its card a tack or pass was logged without, each reading once; none that somebody said nobody read. */
export function missingOf(app, entry) {
  const frame = app.frames.find((each) => each.frame === entry.frame);
  const joint = frame?.joints.find((each) => each.id === entry.joint);
  if (!joint || !["pass", "tack"].includes(entry.kind)) return [];
  const run = entry.kind === "tack" ? "tack" : entry.run;
  const card = app.sheet.cards.find((each) => each.digest === entry.card) ?? app.card(joint, run);
  const asked = (card?.lines ?? []).filter((line) => line.reading && holdsFor(line, run) && isAsked(line, run)
    && !entry.values?.[line.reading] && !readBefore(app, entry, line.reading) && !entry.note?.includes(nobodyRead(line)));
  return [...new Map(asked.map((line) => [line.reading, line])).values()];
}

/** How it stands in an entry's note that a reading was asked and nobody took it. */
export function nobodyRead(line) {
  return `${line.words}: nobody read it`;
}

function isAsked(line, run) {
  return run === "tack" ? line.reading === "gap" && line.when === "every joint" : line.when === "every pass";
}

/** A gap stands in an entry of its own; a reading taken apart a moment before stands for the pass after it. */
function readBefore(app, entry, reading) {
  if (reading === "gap") return app.entries().some((each) => each.kind === "gap" && each.frame === entry.frame && each.joint === entry.joint && (each.attempt ?? 1) === (entry.attempt ?? 1));
  const oldest = Date.parse(entry.happened) - (app.sheet.reading_age_min ?? 0) * 60000;
  return app.entries().some((each) => each.kind === "reading" && each.frame === entry.frame && each.values?.[reading]
    && each.happened <= entry.happened && Date.parse(each.happened) >= oldest);
}
