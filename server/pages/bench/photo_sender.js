// Sends pictures one after the other, beside the entries and never before their turn; backs off while nobody answers.

import { makeAttempts } from "./attempts.js";
import { sendAsDevice } from "./device_key.js";
import { letGo, noteRefusal, photosNow } from "./photo_store.js";

const PATIENCE_MS = 60000;
const FIRST_WAIT_MS = 2000;
const LONGEST_WAIT_MS = 60000;

/** Makes the sender; `told()` hears that something has changed. */
export function makePhotoSender(photos, told, { address = "/api/photos", after = setTimeout } = {}) {
  const attempts = makeAttempts(drain, { lock: "strawline-send-photos", firstMs: FIRST_WAIT_MS, longestMs: LONGEST_WAIT_MS, after });

  async function drain() {
    for (const photo of await photosNow(photos)) {
      if (photo.problem) continue;
      const about = photo.frame ? `?frame=${encodeURIComponent(photo.frame)}` : "";
      const { status, said } = await sendAsDevice(address + about, photo.blob, "image/jpeg", PATIENCE_MS);
      if (await letGo(photos, photo.sha256, said)) { attempts.through(); await told(); continue; }
      if (status === 413 || status === 422) { await noteRefusal(photos, photo.sha256, said?.detail ?? `answered ${status}`); await told(); continue; }
      attempts.later();
      return;
    }
  }

  return { wake: attempts.wake };
}
