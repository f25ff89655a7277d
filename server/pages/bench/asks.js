// What the measuring plan asks for now: at this joint, for this run, on this shift; asked once, when it is due.

/** The card in force for a joint on a day of the shop, or null: production by its procedure, repair by its kind. */
export function cardInForce(cards, joint, stage, day) {
  const fits = cards.filter((card) => card.stage === stage && card.joint_kind === joint.joint_kind
    && (stage === "repair" || card.procedure === joint.procedure)
    && card.valid_from <= day && (!card.valid_until || day <= card.valid_until));
  return fits.sort((a, b) => (a.valid_from < b.valid_from ? 1 : -1))[0] ?? null;
}

/** The readings due before this run can be logged: card lines, each with the quantity it asks for. */
export function dueReadings(card, joint, run, known) {
  if (!card) return [];
  const due = card.lines.filter((line) => line.reading && holdsFor(line, run) && isDue(line, joint, run, known));
  return withCounter(card, run, onceEach(due));
}

/** The looks due now: card lines by side and zone that nobody has answered since the last pass. */
export function dueLooks(card, joint, progress, run, known) {
  if (!card || !(progress.finished || run === "repair")) return [];
  return card.lines.filter((line) => line.name === "colour" && line.when !== "never" && line.when !== "machine only"
    && (line.where.length === 0 || line.where.includes(joint.inside))
    && !(line.when === "one per stage" && known.lookedInStage)
    && !known.looks.some((look) => look.side === line.side && look.zone === line.zone));
}

/** The line a grade on this side and zone is held against, asked for or not. */
export function colourLine(card, side, zone) {
  return card?.lines.find((line) => line.name === "colour" && line.side === side && line.zone === zone) ?? null;
}

/** The line a quantity is held against. */
export function lineOf(card, reading, run) {
  return card?.lines.find((line) => line.reading === reading && holdsFor(line, run)) ?? null;
}

/** Whether a line is for this run at all. */
export function holdsFor(line, run) {
  if (line.not_tacks && run === "tack") return false;
  return line.runs.length === 0 || line.runs.includes(run);
}

function isDue(line, joint, run, known) {
  const given = known.given[line.reading];
  switch (line.when) {
    case "every pass": return run !== "tack" && !known.fresh.has(line.reading);
    case "every joint": return line.reading === "gap" ? run === "tack" && !known.gap : run !== "tack" && !known.onJoint.has(line.reading);
    case "every fill": return false;
    case "every set-up": return run !== "tack" && !known.sincePurge.has(line.reading);
    case "first of shift": return run !== "tack" && !given;
    case "one in n": return run === "fill" && joint.number !== null && joint.number % line.n === 0 && !known.onJoint.has(line.reading);
    default: return false;
  }
}

/** Where travel or heat input are asked of every pass, the seconds the arc was on are what the counter must tell. */
function withCounter(card, run, due) {
  const computed = card.lines.some((line) => ["travel", "heat_input"].includes(line.name) && line.when === "every pass" && holdsFor(line, run));
  if (!computed || run === "tack" || due.some((line) => line.reading === "arc_on")) return due;
  return [...due, { name: "arc_on", reading: "arc_on", words: "arc-on time, from the counter", unit: "s", how: "counted", moment: "at the arc", unjudged: true }];
}

function onceEach(lines) {
  const seen = new Set();
  return lines.filter((line) => !seen.has(line.reading) && seen.add(line.reading));
}
