// What may come next on a frame, and in words why the rest may not: the same answer as the server's, without it.

import { isWelded, nextRun, openQuarters } from "./progress.js";
import { QUARTERS } from "./words.js";

const VERBS = { tacked: "tack", welded: "weld", finished: "finish", released: "release" };

/** Tells whether a step such as `A:finished`, or a geometry check, is behind the frame. */
export function isDone(step, progress) {
  const [thing, state] = step.split(":");
  if (!state) return progress.geometry[thing] === "good";
  const joint = progress.joints[thing];
  if (!joint) return false;
  if (state === "tacked") return joint.tacked || isWelded(joint);
  return state === "welded" ? isWelded(joint) : joint[state];
}

/** The next step of every open joint and check: {step, action, joint, allowed, blocked, quarters, waits}; allowed ones first.
 * `blocked` says each thing that has to come first, `waits` the same with one reason told once for all its joints. */
export function nextSteps(frame, progress, holds = {}) {
  const joints = frame.joints.map((design) => heldBack(nextOn(frame, design, progress), holds));
  const checks = frame.geometry.map(({ id }) => step(frame, id, "check", id, [id], progress));
  const open = [...joints, ...checks].filter((each) => each && !isDone(each.step, progress));
  const usual = [...new Set([...frame.order, ...frame.joints.map((joint) => joint.id)])];
  return open.sort((a, b) => Number(b.allowed) - Number(a.allowed) || usual.indexOf(a.joint) - usual.indexOf(b.joint));
}

/** What stands in the way of one run on one joint, in words. */
export function blockedRun(frame, design, run, progress) {
  const states = run === "tack" ? ["tacked"] : statesReached(design, run, progress);
  return reasons(frame, design.id, states.map((state) => `${design.id}:${state}`), progress).map(said);
}

/** A seam is not offered for release while something is open on it: once covered, nobody can look again. */
function heldBack(found, holds) {
  const why = found?.action === "release" ? holds[found.joint] ?? [] : [];
  return why.length ? { ...found, allowed: false, blocked: [...found.blocked, ...why], waits: [...found.waits, ...why] } : found;
}

function nextOn(frame, design, progress) {
  const joint = progress.joints[design.id];
  const run = nextRun(design, joint);
  if (run === "tack") return step(frame, `${design.id}:tacked`, "tack", design.id, [`${design.id}:tacked`], progress);
  if (run === null) {
    const name = `${design.id}:released`;
    return design.hides.length ? step(frame, name, "release", design.id, [name], progress) : null;
  }
  const states = statesReached(design, run, progress);
  const reached = states.includes("finished") || !states.includes("welded") ? "finished" : "welded";
  const asked = states.map((state) => `${design.id}:${state}`);
  return { ...step(frame, `${design.id}:${reached}`, run, design.id, asked, progress), quarters: openQuarters(joint, run) };
}

function statesReached(design, run, progress) {
  const reached = [];
  if (!isWelded(progress.joints[design.id])) reached.push("welded");
  if (run === design.runs.at(-1) || run === "repair") reached.push("finished");
  return reached;
}

function step(frame, name, action, joint, asked, progress) {
  const why = reasons(frame, joint, asked, progress);
  return { step: name, action, joint, allowed: why.length === 0, blocked: why.map(said), quarters: QUARTERS, waits: together(why).map(said) };
}

function reasons(frame, joint, asked, progress) {
  const wanted = frame.needs.filter((need) => asked.includes(need.step) && need.first.split(":")[0] !== joint);
  wanted.sort((a, b) => asked.indexOf(a.step) - asked.indexOf(b.step));
  const missing = new Map();
  for (const need of wanted) {
    if (!isDone(need.first, progress) && !missing.has(need.first)) {
      missing.set(need.first, { reason: need.reason, ...ask(need.first, progress) });
    }
  }
  return [...missing.values()];
}

function ask(first, progress) {
  const [thing, state] = first.split(":");
  const unfinished = state === "released" && !progress.joints[thing]?.finished;
  return { verb: unfinished ? "finish and release" : state ? VERBS[state] : "make check", things: [thing] };
}

function together(missing) {
  const told = new Map();
  for (const { reason, verb, things } of missing) {
    const before = told.get(`${reason}: ${verb}`)?.things ?? [];
    told.set(`${reason}: ${verb}`, { reason, verb, things: [...before, ...things] });
  }
  return [...told.values()];
}

function said({ reason, verb, things }) {
  return `${reason}: ${verb} ${things.join(", ")} first`;
}
