// Turns what stands on the joint screen into entries: the gap, the tack or the pass, each value with how it is known.

import { lineOf } from "./asks.js";
import { momentAgo } from "./clock.js";
import { purgeTimes } from "./guide_times.js";
import { readValue } from "./pad.js";
import { judged } from "./verdicts.js";

/** The asked values that were given, judged by the card: [{line, value, word, …}]; what is missing counts as asked. */
export function judgedReadings(app, draft, readings) {
  return readings.filter((line) => !line.unjudged).map((line) => {
    const { value } = readValue(draft.values[line.reading], app.sheet.quantities[line.reading]);
    return judged(line, value);
  });
}

/** Values as they are sealed: decimal text, unit, how it is known, and the instrument or machine behind it. */
export function measuredValues(app, values, readings) {
  const measured = {};
  for (const line of readings) {
    const { value } = readValue(values[line.reading], app.sheet.quantities[line.reading]);
    if (value !== null) measured[line.reading] = measuredValue(app, line, value);
  }
  return measured;
}

/** One value; a reading or a count names what gave it, anything else may. */
export function measuredValue(app, { reading, how }, value) {
  const by = how === "counted" ? app.sheet.bench.machine : app.instrument(reading)?.id;
  const known = how === "computed" || how === "inherited" || !how ? "typed" : how;
  const needs = known === "read" || known === "counted";
  const made = { value, unit: app.sheet.quantities[reading][0], how: needs && !by ? "typed" : known };
  return by && known !== "set" ? { ...made, by } : made;
}

/** Saves the gap if one was asked and given, then the tack or the pass; gives what was saved and how it was judged. */
export async function logRun(app, joint, draft, readings, card) {
  const { first } = app.asked(joint, draft);
  const told = app.shiftDraft(card);
  const place = { frame: app.frame.frame, joint: joint.id, attempt: draft.attempt, quarters: draft.quarters };
  const late = draft.agoMin ? { happened: momentAgo(draft.agoMin * 60000), late_reason: draft.lateReason } : {};
  const [gap, others] = [readings.filter((line) => line.reading === "gap"), readings.filter((line) => line.reading !== "gap")];
  const gapValue = measuredValues(app, draft.values, gap);
  const { person } = app;
  const shared = {
    ...place, ...late, card: card?.digest, torch_line: app.line("torch")?.line,
    purge_line: app.purge?.line ?? app.line("purge")?.line, setup: app.purge?.setup ?? joint.setup,
    sleeve: draft.sleeve, values: { ...inheritedValues(app, joint, draft, card), ...measuredValues(app, told, first), ...measuredValues(app, draft.values, others) },
  };
  const fresh = freshVerdicts(app, draft, card, app.knownOf(joint, draft.attempt));
  const verdicts = [...judgedReadings(app, draft, readings.filter((line) => line.before === undefined || draft.values[line.reading])), ...fresh, ...judgedReadings(app, { values: told }, first)];
  const ofArc = draft.run === "tack" ? { kind: "tack" } : { kind: "pass", run: draft.run, machine: app.sheet.bench.machine, restrikes: draft.restrikes };
  const gapKept = gapValue.gap ? await app.log({ kind: "gap", ...place, ...late, card: card?.digest, values: gapValue }, person) : null;
  const kept = await app.log({ ...ofArc, ...shared }, person);
  app.forgetDraft(draft.key);
  const { run, quarters, values, sleeve, restrikes, agoMin, lateReason } = draft;
  const asKeyedIn = { run, quarters, values, sleeve, restrikes, agoMin, lateReason };
  return { kept, together: [kept, gapKept].filter(Boolean), verdicts: [...verdicts, ...sleeveVerdicts(app, draft, card)], card, at: Date.now(), pass: draft.run !== "tack", draft: asKeyedIn };
}

/** Oxygen read a moment ago is not asked again, but it is what this arc starts on: beyond the limit its light stays on. */
export function freshVerdicts(app, draft, card, known) {
  const readAgain = readValue(draft.values.oxygen, app.sheet.quantities.oxygen).value !== null;
  const line = known.fresh.has("oxygen") && !readAgain && app.purge ? lineOf(card, "oxygen", draft.run) : null;
  const read = line ? purgeTimes(app, app.purge, card).read : null;
  return read ? [judged(line, read.value)] : [];
}

/** What was set at the start of the shift and still holds, shown as inherited and never as read again. */
function inheritedValues(app, joint, draft, card) {
  if (draft.run === "tack") return {};
  const given = app.knownOf(joint, draft.attempt).given(card?.procedure);
  const carried = (card?.lines ?? []).filter((line) => line.when === "first of shift" && ["set", "read"].includes(line.how) && given[line.reading]);
  return Object.fromEntries(carried.map(({ reading }) => [reading, { value: given[reading].value, unit: given[reading].unit, how: "inherited", ...(given[reading].by ? { by: given[reading].by } : {}) }]));
}

/** Filler class and rod diameter, held against the sleeve named. */
export function sleeveVerdicts(app, draft, card) {
  const sleeve = app.sleeves.find((each) => each.sleeve === draft.sleeve);
  const lines = (card?.lines ?? []).filter((line) => ["filler_class", "rod"].includes(line.name) && line.when === "every fill" && draft.run === "fill");
  return lines.map((line) => judged(line, (line.name === "rod" ? sleeve?.rod_mm : sleeve?.filler_class) ?? null));
}
