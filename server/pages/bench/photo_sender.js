// Sends pictures one after the other, beside the entries and never before their turn; backs off while nobody answers.

import { fetchAsDevice } from "./device_key.js";
import { letGo, noteRefusal, photosNow } from "./photo_store.js";

const PATIENCE_MS = 60000;
const FIRST_WAIT_MS = 2000;
const LONGEST_WAIT_MS = 60000;

/** Makes the sender; `told()` hears that something has changed. */
export function makePhotoSender(photos, told, { address = "/api/photos", after = setTimeout } = {}) {
  let wait = FIRST_WAIT_MS;
  let timer = null;
  let running = false;
  let again = false;

  async function run() {
    if (running) { again = true; return; }
    running = true;
    clearTimeout(timer);
    try {
      do { again = false; await alone(drain); } while (again);
    } finally {
      running = false;
    }
  }

  async function drain() {
    for (const photo of await photosNow(photos)) {
      if (photo.problem) continue;
      const { status, said } = await post(address, photo);
      if (await letGo(photos, photo.sha256, said)) { wait = FIRST_WAIT_MS; await told(); continue; }
      if (status === 413 || status === 422) { await noteRefusal(photos, photo.sha256, said?.detail ?? `answered ${status}`); await told(); continue; }
      later();
      return;
    }
  }

  function later() {
    clearTimeout(timer);
    timer = after(run, wait * (0.75 + Math.random() / 2));
    wait = Math.min(wait * 2, LONGEST_WAIT_MS);
  }

  function wake() {
    wait = FIRST_WAIT_MS;
    return run();
  }

  addEventListener("online", wake);
  return { wake };
}

async function post(address, { blob, frame }) {
  const about = frame ? `?frame=${encodeURIComponent(frame)}` : "";
  try {
    const answer = await fetchAsDevice(address + about, { method: "POST", headers: { "Content-Type": "image/jpeg" }, body: blob, signal: AbortSignal.timeout(PATIENCE_MS) });
    return { status: answer.status, said: await answer.json() };
  } catch {
    return { status: 0, said: null };
  }
}

/** Only one tab sends at a time where the browser can hold a lock; where it cannot, the digest absorbs the overlap. */
function alone(work) {
  return navigator.locks ? navigator.locks.request("strawline-send-photos", work) : work();
}
