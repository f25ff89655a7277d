// The bench's state and its few verbs: what the tablet knows, where the welder is, and logging an entry.

import { cardInForce, dueLooks, dueReadings, lineOf } from "./asks.js";
import { knownOfJoint, linesNow, purgeNow, sleevesNow } from "./carried.js";
import { shopDay } from "./clock.js";
import { keptNow, save } from "./outbox.js";
import { nextRun, openQuarters, progressOf, standing } from "./progress.js";
import { recall, remember } from "./store.js";
import { judged } from "./verdicts.js";

/** What is done about gas and rods from a joint leads back to that joint. */
const BESIDE_A_JOINT = new Set(["purge", "gas", "cylinder", "bead", "sleeve", "rod-ends", "scan", "cylinder-line"]);

/** A reading keyed in this long ago and never logged says nothing of the next arc. */
const STALE_MS = 15 * 60000;

export class BenchApp {
  constructor(store, clock, draw) {
    Object.assign(this, { store, clock, draw, sheet: null, waiting: [], taken: [], told: [], person: null, link: { is: "idle" } });
    Object.assign(this, { where: { screen: "frame" }, drafts: {}, result: null, storage: null, failed: null, guests: [] });
  }

  /** Reads everything the tablet has kept; the screen stands before the network answers. */
  async wake() {
    this.sheet = (await recall(this.store, "sheet")) ?? null;
    this.found = (await recall(this.store, "found")) ?? null;
    this.where = (await recall(this.store, "where")) ?? { screen: "frame" };
    this.person = (await recall(this.store, "person")) ?? null;
    this.drafts = (await recall(this.store, "drafts")) ?? {};
    await this.refresh();
  }

  /** Reads outbox and receipts again, after this tab or another changed them; an entry on its way from one to the other is in one. */
  async refresh() {
    const turn = this.turn = (this.turn ?? 0) + 1;
    const kept = await keptNow(this.store);
    if (turn < this.shown) return;
    Object.assign(this, kept, { shown: turn, known: null });
  }

  /** Everything logged, each entry once, corrections applied: the sheet's, the receipted and the waiting. */
  entries() {
    if (!this.known) {
      const all = new Map((this.sheet?.entries ?? []).map((entry) => [entry.id, entry]));
      for (const { entry } of [...this.taken, ...this.waiting]) all.set(entry.id, entry);
      this.known = standing([...all.values()]);
    }
    return this.known;
  }

  get frames() { return this.sheet?.frames ?? []; }
  get frame() { return this.frames.find((each) => each.frame === this.where.frame) ?? this.frames[0] ?? null; }
  get joint() { return this.frame?.joints.find((each) => each.id === this.where.joint) ?? null; }
  get lines() { return linesNow(this.sheet, this.entries()); }
  get sleeves() { return sleevesNow(this.sheet, this.entries()); }
  get purge() { return this.frame ? purgeNow(this.frame.frame, this.entries()) : null; }
  get today() { return shopDay(this.sheet.zone); }

  progress(frame = this.frame) { return progressOf(frame, this.entries()); }
  line(use) { return this.lines.find((line) => line.use === use) ?? null; }
  instrument(quantity) { return this.sheet.instruments.find((each) => each.reads.includes(quantity)) ?? null; }
  setup(joint) { return this.frame.setups.find((each) => each.id === joint.setup) ?? null; }
  card(joint, run) { return cardInForce(this.sheet.cards, joint, run === "repair" ? "repair" : "production", this.today); }

  /** What the welder is about to log on a joint; quarters and sleeve are inherited, readings never. */
  draft(joint = this.joint) {
    const progress = this.progress().joints[joint.id];
    const key = `${this.frame.frame}/${joint.id}#${progress.attempt}`;
    const run = this.drafts[key]?.run ?? nextRun(joint, progress) ?? "wash";
    const open = run === "tack" ? [] : openQuarters(progress, run);
    const usual = { key, run, quarters: open.length ? open : ["q12", "q3", "q6", "q9"], values: {}, sleeve: this.usualSleeve(joint, run), restrikes: 0 };
    const kept = this.drafts[key] ?? {};
    const stale = Date.now() - (kept.at ?? 0) > STALE_MS;
    return { ...usual, ...kept, ...(stale ? { values: {}, agoMin: undefined } : {}), attempt: this.attemptOf(joint, run, progress.attempt) };
  }

  /** A repair over a seam that stands is an attempt of its own, also where nothing was logged as taken away before it. */
  attemptOf(joint, run, attempt) {
    if (run !== "repair") return attempt;
    const passes = this.entries().filter((entry) => entry.kind === "pass" && entry.frame === this.frame.frame && entry.joint === joint.id && (entry.attempt ?? 1) === attempt);
    return passes.length && !passes.some((entry) => entry.run === "repair") ? attempt + 1 : attempt;
  }

  /** The sleeve a fill uses unless told otherwise: the one used last, else the last opened of the card's class. */
  usualSleeve(joint, run) {
    if (run !== "fill" && run !== "repair") return "none";
    const allowed = this.card(joint, run)?.lines.find((line) => line.name === "filler_class")?.allowed ?? [];
    const fits = this.sleeves.filter((sleeve) => allowed.length === 0 || allowed.includes(sleeve.filler_class));
    const last = this.entries().findLast((entry) => entry.kind === "pass" && entry.sleeve && fits.some((each) => each.sleeve === entry.sleeve));
    return last?.sleeve ?? fits[0]?.sleeve ?? this.sleeves[0]?.sleeve ?? "none";
  }

  /** Changes the draft and keeps it, so that nothing typed is lost to a reload. */
  change(changes, joint = this.joint) {
    const { key } = this.draft(joint);
    const changed = Object.entries({ ...this.drafts[key], ...changes, at: Date.now() }).filter(([, value]) => value !== undefined);
    this.drafts = { ...this.drafts, [key]: Object.fromEntries(changed) };
    remember(this.store, "drafts", this.drafts);
    this.draw();
  }

  forgetDraft(key) {
    const { [key]: _, ...others } = this.drafts;
    this.drafts = others;
    remember(this.store, "drafts", others);
  }

  /** What the measuring plan asks for before this run can be logged; what is first of the shift stands apart. */
  asked(joint, draft) {
    const card = this.card(joint, draft.run);
    const known = this.knownOf(joint, draft.attempt);
    const due = dueReadings(card, joint, draft.run, { ...known, fresh: this.stillGood(card, draft.run, known.fresh), given: known.given(card?.procedure) })
      .map((line) => ({ ...line, before: known.fresh.get(line.reading) }));
    const told = this.shiftDraft(card);
    const first = due.filter((line) => line.when === "first of shift");
    return { card, known, readings: due.filter((line) => line.when !== "first of shift"), first, shift: first.filter((line) => !told[line.reading]) };
  }

  /** What was read a moment ago and lies beyond its limit is asked again: nobody is to weld on with it. */
  stillGood(card, run, fresh) {
    const beyond = ([reading, value]) => { const line = lineOf(card, reading, run); return line !== null && judged(line, value).word === "outside"; };
    return new Map([...fresh].filter((each) => !beyond(each)));
  }

  /** Settings told at the start of the shift and not yet logged with a pass. */
  shiftDraft(card) {
    const kept = this.drafts[`shift ${card?.procedure}`];
    return kept?.day === this.today ? kept.values : {};
  }

  tellShift(card, values) {
    this.drafts = { ...this.drafts, [`shift ${card.procedure}`]: { day: this.today, values: { ...this.shiftDraft(card), ...values } } };
    remember(this.store, "drafts", this.drafts);
    this.draw();
  }

  knownOf(joint, attempt) {
    return knownOfJoint(this.sheet, this.frame, joint, attempt, this.entries(), (entry) => this.procedureOf(entry));
  }

  looksDue(joint) {
    const progress = this.progress().joints[joint.id];
    const known = this.knownOf(joint, progress.attempt);
    const last = known.own.findLast((entry) => entry.kind === "pass");
    const card = last ? this.card(joint, last.run) : null;
    return { card, looks: dueLooks(card, joint, progress, last?.run, known), known };
  }

  procedureOf(entry) {
    const frame = this.frames.find((each) => each.frame === entry.frame);
    return frame?.joints.find((each) => each.id === entry.joint)?.procedure ?? null;
  }

  /** Goes to a screen and remembers it, so that a reload comes back here. */
  go(where) {
    this.visit = (this.visit ?? 0) + 1;
    this.result = null;
    this.called = null;
    if (where.screen !== "scan") this.scanNote = null;
    const joint = BESIDE_A_JOINT.has(where.screen) ? this.joint?.id : undefined;
    this.where = { frame: this.where.frame, ...(joint ? { joint } : {}), ...where };
    remember(this.store, "where", this.where);
    this.draw({ top: true });
  }

  /** A question for later, once something is kept or answered: does this screen still stand, or did somebody go elsewhere meanwhile? */
  stillHere() {
    const { visit } = this;
    return () => this.visit === visit;
  }

  /** The way on once something is kept: who went elsewhere meanwhile stays there. */
  onward() {
    const here = this.stillHere();
    return (where) => { if (here()) this.go(where); else this.draw(); };
  }

  /** Whether this tablet's last word on a frame is that it has it open; a release waits until it says otherwise. */
  isOpenHere(frame) {
    const own = this.entries().findLast((entry) => entry.kind === "opened" && entry.frame === frame && entry.device === this.clock.device);
    return own?.act === "opened";
  }

  /** Saves one entry; the screen says so only after it is on disk, and says so loudly when it is not. */
  async log(fields, who = this.person) {
    if (fields.frame && fields.kind !== "opened" && !this.isOpenHere(fields.frame)) await this.log({ kind: "opened", frame: fields.frame, act: "opened" });
    const common = { who: who.id, role: who.role ?? null, unconfirmed: who.confirmed ? null : true };
    try {
      const kept = await save(this.store, this.clock, { ...common, ...fields });
      this.failed = null;
      this.called = null;
      await this.refresh();
      this.saved?.(kept);
      return kept;
    } catch (trouble) {
      this.failed = `Not saved: ${trouble.message || trouble.name}. Write it down, then look at “On this tablet”.`;
      this.draw();
      throw Object.assign(trouble, { told: true });
    }
  }
}
