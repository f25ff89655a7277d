// How far a frame has come, from its entries: those in the record and those still on the tablet, corrections applied.

import { QUARTERS } from "./words.js";

/** Applies corrections: what was withdrawn is gone, what was put right is put right; the rest as it was logged. */
export function standing(entries) {
  const known = new Map();
  for (const entry of entries) {
    if (entry.kind !== "correction") known.set(entry.id, entry);
  }
  for (const { of, withdraw, change } of entries.filter((entry) => entry.kind === "correction")) {
    if (withdraw) known.delete(of);
    else if (known.has(of)) known.set(of, putRight(known.get(of), change));
  }
  return [...known.values()].sort(happened);
}

/** A reading put right leaves the others of its entry as they were. */
function putRight(entry, change) {
  return { ...entry, ...change, ...(change?.values ? { values: { ...entry.values, ...change.values } } : {}) };
}

/** Gives {joints: {id: {attempt, tacked, runs, finished, released}}, geometry: {id: result}} of one frame. */
export function progressOf(frame, entries) {
  const designs = new Map(frame.joints.map((joint) => [joint.id, joint]));
  const joints = Object.fromEntries(frame.joints.map((joint) => [joint.id, untouched(1)]));
  const geometry = {};
  for (const entry of entries) {
    if (entry.frame !== frame.frame) continue;
    if (entry.kind === "geometry") geometry[entry.check] = entry.result;
    if (joints[entry.joint]) joints[entry.joint] = after(joints[entry.joint], entry);
  }
  for (const [id, joint] of Object.entries(joints)) {
    joint.finished = isFinished(designs.get(id), joint);
    joint.released ||= joint.finished && (frame.released ?? []).includes(id);
  }
  return { joints, geometry };
}

/** The quarters a run has still to go over; a repair has gone over them for every run. */
export function openQuarters(joint, run) {
  return QUARTERS.filter((quarter) => !over(joint, run).includes(quarter));
}

/** The run that comes next on a joint, or null when it is finished; tacks come first. */
export function nextRun(design, joint) {
  if (!joint.tacked && !isWelded(joint)) return "tack";
  return design.runs.find((run) => openQuarters(joint, run).length > 0) ?? null;
}

/** Some run of the arc has begun. */
export function isWelded(joint) {
  return Object.values(joint.runs).some((quarters) => quarters.length > 0);
}

/** One word for how a quarter stands: open, tacked, root, fill, or done. */
export function quarterWord(design, joint, quarter) {
  if (design.runs.every((run) => over(joint, run).includes(quarter))) return "done";
  const last = [...design.runs].reverse().find((run) => over(joint, run).includes(quarter));
  return last ?? (joint.tacked ? "tacked" : "open");
}

/** One word for how a joint stands. */
export function jointWord(design, joint) {
  if (joint.released) return "released";
  if (joint.finished) return "finished";
  const begun = design.runs.filter((run) => over(joint, run).length > 0);
  return begun.at(-1) ?? (joint.tacked ? "tacked" : "open");
}

function untouched(attempt) {
  return { attempt, tacked: false, runs: {}, finished: false, released: false };
}

function after(now, entry) {
  const attempt = entry.attempt ?? 1;
  if (attempt < now.attempt) return now;
  if (entry.kind === "removed") return cutOut(now, entry, attempt);
  if (entry.kind === "tack") return { ...(attempt > now.attempt ? untouched(attempt) : now), tacked: !entry.removed };
  if (entry.kind === "release") return { ...now, released: true };
  if (entry.kind !== "pass") return now;
  const quarters = inOrder([...(now.runs[entry.run] ?? []), ...(entry.quarters ?? QUARTERS)]);
  return { ...now, attempt, runs: { ...now.runs, [entry.run]: quarters } };
}

function cutOut(now, entry, attempt) {
  const gone = entry.quarters ?? QUARTERS;
  if (gone.length === QUARTERS.length) return untouched(attempt + 1);
  const left = Object.entries(now.runs).map(([run, quarters]) => [run, quarters.filter((each) => !gone.includes(each))]);
  return { ...now, attempt: attempt + 1, released: false, runs: Object.fromEntries(left) };
}

function over(joint, run) {
  return [...(joint.runs[run] ?? []), ...(joint.runs.repair ?? [])];
}

function isFinished(design, joint) {
  return design.runs.every((run) => openQuarters(joint, run).length === 0);
}

function inOrder(quarters) {
  return QUARTERS.filter((quarter) => quarters.includes(quarter));
}

function happened(a, b) {
  if (a.happened !== b.happened) return a.happened < b.happened ? -1 : 1;
  return a.device === b.device ? a.seq - b.seq : 0;
}
