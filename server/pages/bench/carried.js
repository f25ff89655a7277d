// What is carried from entry to entry so that nobody types it again: cylinders on lines, open sleeves, the purge, the shift.

import { shopDay } from "./clock.js";
import { UNREAD_LABEL } from "./words.js";

/** After a cylinder change the flows are read again. */
const FLOWS = ["torch_flow", "trailing_flow", "purge_flow", "pre_purge_flow"];

/** The bench's lines with the cylinder on each, as the sheet has them and as changed since. */
export function linesNow(sheet, lines) {
  const known = new Map(sheet.lines.map((line) => [line.line, { ...line }]));
  for (const entry of lines) {
    if (entry.kind === "cylinder" && known.has(entry.line)) {
      Object.assign(known.get(entry.line), { cylinder: entry.on ?? null, fill_lot: entry.fill_lot ?? null, since: entry.happened });
    }
  }
  return [...known.values()];
}

/** The sleeves open at this bench, the last opened first. */
export function sleevesNow(sheet, entries) {
  const known = new Map(sheet.sleeves.map((sleeve) => [sleeve.sleeve, sleeve]));
  for (const entry of entries) {
    if (entry.kind !== "sleeve") continue;
    const label = [...sheet.stock.sleeves, ...sheet.sleeves].find((each) => each.sleeve === entry.sleeve);
    if (entry.act === "opened") known.set(entry.sleeve, { filler_class: UNREAD_LABEL, rod_mm: "?", ...label, sleeve: entry.sleeve, opened: entry.happened });
    if (entry.act === "closed") known.delete(entry.sleeve);
  }
  return [...known.values()].reverse();
}

/** The cylinders to choose from: never on a line first, then those that were, last what hangs on another line now. */
export function cylindersNow(sheet, lines, entries) {
  const hangs = new Map(lines.map(({ line, cylinder }) => [cylinder, line]));
  const here = new Set(lines.map(({ line }) => line));
  const own = new Set(entries.filter(({ kind }) => kind === "cylinder").flatMap(({ on, off }) => [on, off]));
  const told = sheet.stock.cylinders.map((each) => ({
    ...each, on: hangs.get(each.cylinder) ?? (here.has(each.on) ? undefined : each.on), used: each.used || own.has(each.cylinder) }));
  return told.sort((a, b) => howTaken(a) - howTaken(b));
}

function howTaken({ on, used }) {
  return on ? 2 : used ? 1 : 0;
}

/** A purge nobody turned off in the log is not believed to have run through the night. */
const LONGEST_PURGE_MS = 12 * 3600000;

/** The purge on a frame: {setup, line, since, flow} while it is on, else null. */
export function purgeNow(frame, entries) {
  let on = null;
  for (const entry of entries) {
    if (entry.kind !== "purge" || entry.frame !== frame || Date.now() - Date.parse(entry.happened) > LONGEST_PURGE_MS) continue;
    const flow = entry.values?.pre_purge_flow?.value ?? null;
    on = entry.act === "off" ? null : { setup: entry.setup, line: entry.line, since: entry.happened, flow, id: entry.id };
  }
  return on;
}

/** What was given today at this bench, by quantity; what is first of the shift is asked only while it is missing. */
export function givenToday(sheet, entries, procedure, procedureOf) {
  const today = shopDay(sheet.zone);
  const here = new Set(sheet.lines.map((line) => line.line));
  const given = {};
  for (const entry of entries) {
    if (entry.kind === "cylinder" && here.has(entry.line)) for (const flow of FLOWS) delete given[flow];
    const ours = here.has(entry.torch_line) || here.has(entry.purge_line) || here.has(entry.line);
    if (!ours || !entry.values || shopDay(sheet.zone, new Date(entry.happened)) !== today) continue;
    const own = procedureOf(entry);
    if (own && own !== procedure) continue;
    for (const [name, value] of Object.entries(entry.values)) if (value.how !== "inherited") given[name] = value;
  }
  return given;
}

/** What was set the last time this procedure was welded here: a set-up may be carried on, a reading never. */
export function setBefore(entries, procedure, procedureOf) {
  const before = {};
  for (const entry of entries) {
    if (!entry.values || procedureOf(entry) !== procedure) continue;
    for (const [name, value] of Object.entries(entry.values)) if (["set", "typed"].includes(value.how)) before[name] = value.value;
  }
  return before;
}

function hoursSince(entry) {
  return entry ? (Date.now() - Date.parse(entry.happened)) / 3600000 : null;
}

/** A reading taken in this purge a moment ago stands for the next pass; the pass after that wants its own. */
function freshReadings(sheet, frame, purge, entries) {
  const own = entries.filter((entry) => entry.frame === frame.frame && purge && entry.happened >= purge.since);
  const last = own.findLast((entry) => entry.kind === "reading" || entry.kind === "pass");
  const age = last ? (Date.now() - Date.parse(last.happened)) / 60000 : Infinity;
  const read = last?.kind === "reading" && age <= (sheet.reading_age_min ?? 0) ? Object.entries(last.values) : [];
  return new Map(read.map(([name, { value }]) => [name, value]));
}

/** What the plan needs to know of one joint to ask only once. */
export function knownOfJoint(sheet, frame, joint, attempt, entries, procedureOf) {
  const own = entries.filter((entry) => entry.frame === frame.frame && entry.joint === joint.id && (entry.attempt ?? 1) === attempt);
  const lastPass = own.findLastIndex((entry) => entry.kind === "pass");
  const purge = purgeNow(frame.frame, entries);
  const sincePurge = entries.filter((entry) => entry.frame === frame.frame && purge && entry.happened >= purge.since);
  const sameStage = new Set(frame.joints.filter((each) => each.stage === joint.stage).map((each) => each.id));
  return {
    fresh: freshReadings(sheet, frame, purge, entries),
    given: (procedure) => givenToday(sheet, entries, procedure, procedureOf),
    before: (procedure) => setBefore(entries, procedure, procedureOf),
    gap: own.some((entry) => entry.kind === "gap"),
    cleanedHours: hoursSince(own.findLast((entry) => entry.kind === "clean")),
    onJoint: new Set(own.filter((entry) => entry.kind !== "gap").flatMap((entry) => Object.keys(entry.values ?? {}))),
    sincePurge: new Set(sincePurge.flatMap((entry) => Object.keys(entry.values ?? {}))),
    looks: own.slice(lastPass + 1).filter((entry) => entry.kind === "look"),
    lookedInStage: entries.some((entry) => entry.kind === "look" && entry.side === "inside" && entry.frame === frame.frame && sameStage.has(entry.joint)),
    welders: [...new Set(own.filter((entry) => entry.kind === "pass" || entry.kind === "tack").map((entry) => entry.who))],
    own,
  };
}
