// The outbox: an entry is on disk before the screen says so, and leaves only against its own receipt.

import { canonicalLine } from "./canonical.js";
import { answer, within } from "./store.js";

const RECEIPTS = new Set(["taken", "taken, not understood", "taken before", "refused copy"]);

/** Gives the entry its count and id, writes its line, and resolves once that is kept: {seq, id, entry, line}. */
export function save(store, clock, fields) {
  return within(store, ["waiting", "memory"], "readwrite", async ({ waiting, memory }) => {
    const seq = ((await answer(memory.get("seq"))) ?? 0) + 1;
    const entry = { ...withoutGaps(fields), ...clock.stamp(), seq };
    entry.id = `${entry.device}:${entry.boot}:${seq}`;
    if (entry.happened === undefined) entry.happened = entry.device_time;
    const kept = { seq, id: entry.id, device: entry.device, entry, line: canonicalLine(entry) };
    memory.put(seq, "seq");
    waiting.add(kept);
    return kept;
  });
}

/** The count goes on from whatever the record has seen of this tablet, should its store ever have been emptied. */
export function countFrom(store, seen) {
  return within(store, ["memory"], "readwrite", async ({ memory }) => {
    const seq = (await answer(memory.get("seq"))) ?? 0;
    if (seen > seq) memory.put(seen, "seq");
  });
}

/** Gives what waits, in the tablet's own order. */
export function waitingNow(store) {
  return within(store, ["waiting"], "readonly", ({ waiting }) => answer(waiting.getAll()));
}

/** Gives what waits, what is in the record by this tablet's receipts, and what was refused or not understood, all of one moment. */
export function keptNow(store) {
  return within(store, ["waiting", "taken", "told"], "readonly", async (stores) => {
    const asked = Object.entries(stores).map(async ([name, kept]) => [name, await answer(kept.getAll())]);
    return Object.fromEntries(await Promise.all(asked));
  });
}

/** Tells whether this is a receipt for this entry; nothing else lets an entry go. */
export function isReceiptFor(receipt, id) {
  return Boolean(receipt) && receipt.entry === id && RECEIPTS.has(receipt.taken) && typeof receipt.leaf === "string";
}

/** Not understood, now or when it came first, or refused as a copy: somebody has to log it again. */
function needsALook(receipt) {
  return receipt.understood === false || receipt.taken === "taken, not understood" || receipt.taken === "refused copy";
}

/** Lets entries go against their receipts; gives how many went. What was not simply taken is put on the visible list. */
export function settle(store, receipts) {
  return within(store, ["waiting", "taken", "told"], "readwrite", async ({ waiting, taken, told }) => {
    const byEntry = new Map(receipts.filter((each) => each && each.entry).map((each) => [each.entry, each]));
    let gone = 0;
    for (const kept of await answer(waiting.getAll())) {
      const receipt = byEntry.get(kept.id);
      if (!isReceiptFor(receipt, kept.id)) continue;
      (needsALook(receipt) ? told : taken).put({ ...kept, receipt });
      waiting.delete(kept.seq);
      gone += 1;
    }
    return gone;
  });
}

/** Forgets receipted entries the sheet already tells of, all but the newest few; what waits or was refused stays. */
export function forgetOld(store, position, keep = 200) {
  return within(store, ["taken"], "readwrite", async ({ taken }) => {
    const old = (await answer(taken.getAll())).filter((kept) => kept.receipt.position <= position);
    for (const kept of old.slice(0, Math.max(0, old.length - keep))) taken.delete(kept.seq);
  });
}

function withoutGaps(fields) {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined && value !== null));
}
