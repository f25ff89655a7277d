// Sends what waits, oldest first, one batch at a time, and backs off while nobody answers.

import { makeAttempts } from "./attempts.js";
import { settle, waitingNow } from "./outbox.js";
import { randomHex } from "./clock.js";
import { sendAsDevice } from "./device_key.js";

const BATCH = 40;
const PATIENCE_MS = 8000;
const FIRST_WAIT_MS = 1000;
const LONGEST_WAIT_MS = 30000;

/** Makes the sender; `told(state)` hears `sending`, `idle`, `no answer`, `sign in` and `taken` (with how many). */
export function makeSender(store, told, { address = "/api/deliveries", after = setTimeout } = {}) {
  const attempts = makeAttempts(drain, { lock: "strawline-send", firstMs: FIRST_WAIT_MS, longestMs: LONGEST_WAIT_MS, after });

  async function drain() {
    for (;;) {
      const waiting = (await waitingNow(store)).slice(0, BATCH);
      if (waiting.length === 0) { told({ is: "idle" }); return; }
      told({ is: "sending", count: waiting.length });
      const { status, said } = await sendAsDevice(address, JSON.stringify({ deliveries: waiting.map(asDelivery) }), "application/json", PATIENCE_MS);
      const gone = await settle(store, receiptsIn(said));
      if (gone > 0) told({ is: "taken", count: gone });
      if (gone < waiting.length) { later(status); if (gone === 0) return; } else { attempts.through(); }
      if (gone > 0) attempts.through();
    }
  }

  function later(status) {
    told({ is: status === 401 || status === 403 ? "sign in" : "no answer", status });
    attempts.later();
  }

  document.addEventListener("visibilitychange", () => { if (!document.hidden) attempts.wake(); });
  return { wake: attempts.wake };
}

function asDelivery(kept) {
  return { id: `${kept.id}/${randomHex(4)}`, device: kept.device, sent_at: new Date().toISOString(), line: kept.line };
}

function receiptsIn(said) {
  return Array.isArray(said?.receipts) ? said.receipts : [];
}
